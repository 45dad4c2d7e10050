import json
import sqlite3
from collections import Counter

import nbformat
import pytest

from instructor.marking.batch import mark, records
from instructor.marking.ledger import Ledger
from instructor.marking.recording import comments, gradebook, scores
from instructor.marking.running import Run
from instructor.refusal import Refusal
from tests.instructor.notebooks import cell_of, filled, hand_in, right_answers
from workbench.exercises import of_lesson
from workbench.marking import MIME

FIRST = of_lesson("measuring_screw")[0]


def by_hand(cohort, lesson, candidate, item, score):
    """What the form-grading screen does when the instructor sets a mark."""
    with gradebook(cohort) as book:
        book.find_grade(f"{item}-check", lesson, lesson, f"{candidate:03d}").manual_score = score
        book.db.commit()


def in_process(notebook, candidate, series):
    """Stage 2 without a process, for tests that need no running: takes the lines as they are typed."""
    answers = {}
    for cell in notebook.cells:
        if cell.metadata.get("nbgrader", {}).get("solution") and cell.source.rpartition("= ")[2]:
            answers[f"measuring_screw.{cell.id}"] = cell.source.rpartition("= ")[2]
    return Run(answers=answers)


@pytest.fixture
def one(cohort, lesson):
    """A cohort in which candidate 3 has handed in right answers."""
    hand_in(cohort, lesson, 3, filled(cohort, lesson, right_answers(lesson, 3)))
    return cohort


def marks(cohort, lesson):
    return list(mark(cohort, lesson, [3], runner=in_process))


def test_the_gradebook_holds_the_mark_of_each_item(one, lesson):
    """Every item's mark stands in nbgrader's gradebook under its check cell."""
    marks(one, lesson)
    assert scores(one, lesson) == {(3, e.name): (float(e.marks), False) for e in of_lesson(lesson)}


def test_nbgraders_own_sum_is_the_sum_of_the_verdicts(one, lesson):
    """nbgrader's score of the submission is what its verdicts add up to."""
    (kept,) = marks(one, lesson)
    with gradebook(one) as book:
        submission = book.find_submission(lesson, "003")
        assert submission.score == kept.marks == submission.max_score
        assert not submission.needs_manual_grade


def test_a_second_marking_changes_no_row_count(one, lesson):
    """Marking again updates; nothing is doubled."""

    def rows():
        with sqlite3.connect(one.root / "gradebook.db") as book:
            names = ("student", "submitted_assignment", "submitted_notebook", "grade", "comment")
            return {name: book.execute(f"select count(*) from {name}").fetchone()[0] for name in names}

    marks(one, lesson)
    first = rows()
    marks(one, lesson)
    assert rows() == first and first["grade"] == len(of_lesson(lesson))


def test_a_mark_given_by_hand_survives_and_goes_first(one, lesson):
    """Marking again keeps the instructor's mark, and asks nothing where ours is as before."""
    marks(one, lesson)
    by_hand(one, lesson, 3, FIRST.name, 0.5)
    marks(one, lesson)
    assert scores(one, lesson)[3, FIRST.name] == (0.5, True)
    with gradebook(one) as book:
        grade = book.find_grade(f"{FIRST.name}-check", lesson, lesson, "003")
        assert (grade.auto_score, grade.manual_score, grade.needs_manual_grade) == (FIRST.marks, 0.5, False)


def test_who_marked_by_hand_is_asked_again_when_our_mark_changes(one, lesson):
    """Changed work under a mark given by hand is shown to the instructor."""
    marks(one, lesson)
    by_hand(one, lesson, 3, FIRST.name, 0.5)
    typed = right_answers(lesson, 3)
    hand_in(one, lesson, 3, filled(one, lesson, {**typed, FIRST.name: ""}))
    marks(one, lesson)
    with gradebook(one) as book:
        grade = book.find_grade(f"{FIRST.name}-check", lesson, lesson, "003")
        assert (grade.auto_score, grade.manual_score, grade.needs_manual_grade) == (0, 0.5, True)


def test_a_stop_while_recording_leaves_the_gradebook_as_it_was(one, lesson, monkeypatch):
    """One transaction a submission: all of its marks or none."""
    marks(one, lesson)
    before = scores(one, lesson)
    hand_in(one, lesson, 3, filled(one, lesson, {}))
    whole = Ledger._fill

    def stopped(*arguments):
        whole(*arguments)
        raise KeyboardInterrupt

    monkeypatch.setattr(Ledger, "_fill", stopped)
    with pytest.raises(KeyboardInterrupt):
        marks(one, lesson)
    assert scores(one, lesson) == before


def test_the_marked_notebook_shows_each_verdict_below_its_answer(one, lesson):
    """Check cells carry the verdict as result: the mark as text, the message as HTML, the entry as data."""
    marks(one, lesson)
    notebook = nbformat.read(one.marked(3, lesson) / f"{lesson}.ipynb", as_version=4)
    nbformat.validate(notebook)
    (output,) = cell_of(notebook, f"{FIRST.name}-check").outputs
    assert output.data["text/plain"] == str(FIRST.marks)
    assert "Right" in output.data["text/html"]
    assert output.data[MIME]["candidate"] == 3


def test_the_record_is_read_as_it_was_kept(one, lesson):
    """verdicts.json gives the record back; a damaged one is refused in words."""
    (kept,) = marks(one, lesson)
    assert records(one, lesson) == {3: kept}
    path = one.marked(3, lesson) / "verdicts.json"
    assert Counter(item["standing"] for item in json.loads(path.read_text())["items"].values()) == {
        "right": len(of_lesson(lesson))}
    path.write_text("{")
    with pytest.raises(Refusal, match="damaged"):
        records(one, lesson)


def test_an_answer_left_empty_is_noted_as_no_response(one, lesson):
    """nbgrader's screens show what was left empty."""
    hand_in(one, lesson, 3, filled(one, lesson, {}))
    marks(one, lesson)
    with gradebook(one) as book:
        assert book.find_comment(FIRST.name, lesson, lesson, "003").auto_comment == "No response."


def test_the_instructors_comment_is_found(one, lesson):
    """What was written in the form-grading screen is given back by item."""
    marks(one, lesson)
    with gradebook(one) as book:
        book.find_comment(FIRST.name, lesson, lesson, "003").manual_comment = "Come and see me."
        book.db.commit()
    assert comments(one, lesson) == {(3, FIRST.name): "Come and see me."}
