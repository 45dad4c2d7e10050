import html
import re
from dataclasses import replace

import pytest

from instructor.feedback import feedback_page, write_feedback
from instructor.marking.batch import records
from instructor.marking.recording import scores
from tests.instructor.notebooks import right_answers
from workbench.exercises import of_lesson
from workbench.exercises.exercise import Quantity


@pytest.fixture(scope="module")
def pages(finished):
    """The demo's pages by candidate, as text."""
    return {
        one: (finished.root / "feedback" / f"{one:03d}" / "measuring_screw.html").read_text(encoding="utf-8")
        for one in finished.roll
    }


def items(text):
    """The parts of a page, by item."""
    return {
        part.split('"', 1)[0]: part for part in re.split(r'<div class="item" id="', text)[1:]
    }


def test_a_page_holds_the_question_in_own_numbers_what_was_read_and_the_verdict(finished, pages, lesson):
    """For each item: the apprentice's own question, the answer as read, word and shape of the verdict."""
    from workbench.marking import SHAPES, question

    for one, kept in records(finished, lesson).items():
        parts = items(pages[one])
        assert list(parts) == [exercise.name for exercise in of_lesson(lesson)]
        for exercise in of_lesson(lesson):
            item, part = kept.items[exercise.name], parts[exercise.name]
            asked = question(exercise, exercise.variant(one)).split("\n")[0]
            assert html.escape(asked) in part
            assert f"{SHAPES[item['standing']][0]} {item['standing'].capitalize()}" in part
            assert html.escape(item["read"]) in part
            assert item["message"] == "Right." or html.escape(item["message"]) in part


def test_no_right_value_is_shown_for_anything_not_right(finished, pages, lesson):
    """The verdict on an item that is not right never holds the right figures."""
    looked = 0
    for one, kept in records(finished, lesson).items():
        right = right_answers(lesson, one)
        for exercise in of_lesson(lesson):
            if not isinstance(exercise.answer, Quantity) or kept.items[exercise.name]["standing"] == "right":
                continue
            figures = right[exercise.name].split()[0]
            verdict = items(pages[one])[exercise.name].rpartition('<div class="verdict"')[2]
            assert not re.search(rf"(?<![\d.]){re.escape(figures)}(?![\d.])", verdict), (one, exercise.name)
            looked += 1
    assert looked > 20


def test_a_page_needs_nothing_from_elsewhere(pages):
    """No address, no script and no file outside the page."""
    for text in pages.values():
        assert not re.search(r'(?:src|href)="(?!data:image/png|#)', text)
        assert "<script" not in text and "@import" not in text


def test_a_page_tells_nothing_of_other_candidates_and_no_error_text(pages):
    """A raising cell is told kindly, without a traceback."""
    assert "ZeroDivisionError" not in pages[12] and "stopped with an error" in pages[12]
    assert "They were put back" in pages[11]


def test_held_and_unreadable_work_gets_a_kind_page(finished, lesson):
    """The apprentice learns what to do, not whose numbers they were."""
    kept = records(finished, lesson)[3]
    held = feedback_page(replace(kept, held="5 answers are right for candidate 8's numbers"), "Title", {}, {})
    assert "not marked yet" in held and "candidate 8" not in held and 'class="item"' not in held
    unread = feedback_page(replace(kept, items={}, problem="not marked: the file is empty"), "Title", {}, {})
    assert "The file is empty." in unread


def test_a_mark_and_a_comment_by_hand_are_shown(finished, lesson):
    """What the instructor set goes before the program's mark."""
    kept, first = records(finished, lesson)[9], of_lesson(lesson)[0]
    given = {**scores(finished, lesson), (9, first.name): (0.5, True)}
    text = feedback_page(kept, "Title", given, {first.name: "Come & see me"})
    assert "0.5 of" in items(text)[first.name] and "mark set by your instructor" in items(text)[first.name]
    assert "Come &amp; see me" in text


def test_what_was_typed_cannot_become_part_of_the_page(finished, lesson):
    """Markup in an answer is shown as text."""
    kept, first = records(finished, lesson)[9], of_lesson(lesson)[0]
    bad = {**kept.items[first.name], "read": "<script>x</script>", "message": "<img src=x>"}
    text = feedback_page(replace(kept, items={**kept.items, first.name: bad}), "Title", {}, {})
    assert "<script" not in text and "<img src=x>" not in text


def test_one_candidates_page_can_be_written_alone(marked, lesson):
    """The others' pages are left as they are."""
    for path in (marked.root / "feedback").rglob("*.html"):
        path.unlink()
    assert [path.parent.name for path in write_feedback(marked, lesson, 4)] == ["004"]
    assert len(list((marked.root / "feedback").rglob("*.html"))) == 1
