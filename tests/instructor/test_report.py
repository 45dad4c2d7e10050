import csv
import re
from collections import Counter

import pytest

from instructor.marking.batch import records
from instructor.report import _safe, report_page, write_report
from instructor.results import results
from tests.instructor.marking.test_recording import by_hand
from workbench.exercises import of_lesson

LESSON = "measuring_screw"
OUT_OF = sum(exercise.marks for exercise in of_lesson(LESSON))


@pytest.fixture
def found(finished):
    return results(finished, LESSON)


def table(cohort, name):
    with (cohort.root / "report" / f"{LESSON}-{name}.csv").open(encoding="utf-8-sig", newline="") as handle:
        return list(csv.DictReader(handle))


def test_the_csv_holds_every_candidates_marks(finished):
    """The marks add up to the total, and all twelve are there."""
    rows = table(finished, "marks")
    assert [int(row["candidate"]) for row in rows] == list(range(1, 13))
    for row in rows:
        assert sum(float(row[e.name]) for e in of_lesson(LESSON)) == float(row["total"])
    by_candidate = {int(row["candidate"]): float(row["total"]) for row in rows}
    assert by_candidate[1] == OUT_OF and by_candidate[9] == 0


def test_missteps_are_counted_as_the_records_have_them(finished, found):
    """Each tag's frequency is the number of verdicts with it."""
    counted = Counter(
        (item["key"], item["tag"])
        for kept in records(finished, LESSON).values() for item in kept.items.values()
        if item["standing"] == "known misstep"
    )
    assert {(row["item"], row["misstep"]): int(row["times"]) for row in table(finished, "missteps")} == counted
    times = [len(who) for _, _, who in found.missteps()]
    assert times == sorted(times, reverse=True) and times


def test_values_that_nobody_can_explain_are_listed(found):
    """Candidate 8 was invented for these."""
    assert found.unexplained() and all(who == [8] for _, _, who in found.unexplained())


def test_the_page_shows_every_mark_with_its_shape_and_needs_nothing_else(finished, found):
    """A cell for each candidate and item; pictures with a text; no address from elsewhere."""
    text = (finished.root / "report" / f"{LESSON}.html").read_text(encoding="utf-8")
    assert text.count('<td class="mark"') == 12 * len(of_lesson(LESSON))
    assert text.count("<img") == 3 and 'alt=""' not in text
    assert not re.search(r'(?:src|href)="(?!data:image/png|#)', text)


def test_held_unreadable_and_missing_work_is_put_before_the_instructor(marked):
    """What needs a decision stands at the top, with what to do."""
    import shutil

    from instructor.marking.batch import mark
    from tests.instructor.marking.test_recording import in_process
    from tests.instructor.notebooks import filled, hand_in, right_answers

    hand_in(marked, LESSON, 3, filled(marked, LESSON, right_answers(LESSON, 8)))
    hand_in(marked, LESSON, 4, b"")
    shutil.rmtree(marked.submitted(9, LESSON))
    shutil.rmtree(marked.marked(9, LESSON))
    list(mark(marked, LESSON, [3, 4], runner=in_process))
    found = results(marked, LESSON)
    assert (found.state(3), found.state(4), found.state(9)) == (
        "held for the instructor", "could not be read", "nothing handed in")
    assert found.total(3) is None and found.total(4) is None
    text = report_page("demo", found)
    assert "mark --only 3 --accept-held" in text and "the file is empty" in text
    assert "Nothing handed in by: 9." in text


def test_a_mark_by_hand_counts_in_the_total(marked):
    """The gradebook's mark is the mark, also in the CSV."""
    first = of_lesson(LESSON)[0]
    by_hand(marked, LESSON, 9, first.name, 0.5)
    write_report(marked, LESSON)
    assert next(row["total"] for row in table(marked, "marks") if row["candidate"] == "9") == "0.5"


@pytest.mark.parametrize("cell", ["=1+1", "+1", "-1", "@x", "\t=1"])
def test_a_typed_formula_stays_text_in_a_spreadsheet(cell):
    """What an apprentice typed is never run by a spreadsheet."""
    assert _safe(cell) == f"'{cell}"


@pytest.mark.parametrize("cell", ["3.25 mm", "", None, -1.5, 2])
def test_plain_cells_are_left_alone(cell):
    """Numbers stay numbers."""
    assert _safe(cell) == cell


def test_a_safety_question_that_is_not_right_is_put_before_the_instructor(found):
    """Each candidate without full marks in a critical item is named, in the words that the lesson uses."""
    from workbench.question_sheet import MUST

    text = report_page("demo", found)
    for exercise in (one for one in of_lesson(LESSON) if one.critical):
        late = [one for one in found.judged if found.mark(one, exercise.name) != exercise.marks]
        assert late and 1 not in late  # candidate 1 has everything right
        assert f"({exercise.name}) is not right for: {', '.join(map(str, sorted(late)))}; {MUST}." in text
