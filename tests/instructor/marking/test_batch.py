import pytest
from nbformat.v4 import new_output

from instructor.marking.batch import mark, records
from instructor.marking.recording import gradebook, scores
from tests.instructor.marking.test_recording import in_process
from tests.instructor.notebooks import content_of, filled, hand_in, right_answers
from workbench.exercises import of_lesson

LESSON = "measuring_screw"
OUT_OF = sum(exercise.marks for exercise in of_lesson(LESSON))
PLAIN = next(e for e in of_lesson(LESSON) if not any(f.follows is e for f in of_lesson(LESSON)) and not e.follows)


def right(cohort, candidate, **changed):
    return filled(cohort, LESSON, {**right_answers(LESSON, candidate), **changed})


def test_one_right_answer_taken_back_moves_the_total_by_that_items_marks(cohort):
    """By hand: all right is the sum of the marks; without one item on which none builds, that item's less."""
    hand_in(cohort, LESSON, 3, right(cohort, 3))
    hand_in(cohort, LESSON, 4, right(cohort, 4))
    assert [kept.marks for kept in mark(cohort, LESSON, [3, 4], runner=in_process)] == [OUT_OF, OUT_OF]
    hand_in(cohort, LESSON, 4, right(cohort, 4, **{PLAIN.name: ""}))
    assert [kept.marks for kept in mark(cohort, LESSON, [3, 4], runner=in_process)] == [OUT_OF, OUT_OF - PLAIN.marks]


@pytest.mark.parametrize(
    "content, said",
    [(b"", "empty"), (b"not a notebook", "not JSON"), (b'{"nbformat": 9}', "newer"), (b"\xff\xff\xff", "UTF-8")],
)
def test_work_that_cannot_be_read_costs_only_itself(cohort, content, said):
    """The reason is kept, no mark is given, and the neighbours keep theirs."""
    hand_in(cohort, LESSON, 3, right(cohort, 3))
    hand_in(cohort, LESSON, 4, content)
    hand_in(cohort, LESSON, 5, right(cohort, 5))
    first, broken, last = mark(cohort, LESSON, [3, 4, 5], runner=in_process)
    assert (first.marks, broken.marks, last.marks) == (OUT_OF, None, OUT_OF)
    assert said in broken.problem
    assert scores(cohort, LESSON)[4, PLAIN.name] == (None, False)
    with gradebook(cohort) as book:
        assert book.find_submission(LESSON, "004").needs_manual_grade


def test_a_missing_notebook_in_a_folder_is_told(cohort):
    """A folder without the notebook is not passed over in silence."""
    cohort.submitted(4, LESSON).mkdir(parents=True)
    (kept,) = mark(cohort, LESSON, [4], runner=in_process)
    assert "no such file" in kept.problem


def test_a_fault_of_the_marking_itself_is_told_and_stops_nobody_else(cohort):
    """An error of ours on one submission leaves the others marked."""

    def faulty(notebook, candidate, series):
        if candidate == 3:
            raise RuntimeError("a fault")
        return in_process(notebook, candidate, series)

    for candidate in (3, 4):
        hand_in(cohort, LESSON, candidate, right(cohort, candidate))
    broken, whole = mark(cohort, LESSON, [3, 4], runner=faulty)
    assert "a fault of the marking: RuntimeError a fault" in broken.problem
    assert whole.marks == OUT_OF


def test_held_work_gets_no_mark_and_no_nought(cohort):
    """Another candidate's answers are held: nothing is given, nothing taken, the instructor is asked."""
    hand_in(cohort, LESSON, 3, right(cohort, 8))
    (kept,) = mark(cohort, LESSON, [3], runner=in_process)
    assert kept.held and kept.marks is None
    assert scores(cohort, LESSON)[3, PLAIN.name] == (None, False)
    with gradebook(cohort) as book:
        assert book.find_submission(LESSON, "003").needs_manual_grade


def test_held_work_is_marked_once_the_instructor_accepts_it(cohort):
    """Accepting judges the work on its own candidate's numbers."""
    hand_in(cohort, LESSON, 3, right(cohort, 8))
    (kept,) = mark(cohort, LESSON, [3], accept_held=True, runner=in_process)
    assert kept.held == "" and 0 <= kept.marks < OUT_OF


def test_what_a_notebook_shows_earns_nothing(cohort):
    """Outputs that claim full marks, in checks and answers, change no mark."""
    work = filled(cohort, LESSON, {})
    for cell in work.cells:
        if cell.metadata.get("nbgrader", {}).get("grade"):
            cell.outputs = [new_output("execute_result", {"text/plain": "2"}, execution_count=1)]
            cell.source = "100"
    hand_in(cohort, LESSON, 3, content_of(work))
    (kept,) = mark(cohort, LESSON, [3])
    assert kept.marks == 0


def test_the_damaged_submissions_of_the_demo_are_explained_and_lose_nothing(finished, lesson):
    """The deleted check and the raising cell cost no mark, and the other ten have no such note."""
    kept = records(finished, lesson)
    assert len(kept) == 12
    assert kept[11].marks == kept[12].marks == OUT_OF
    assert "missing, and put back" in kept[11].findings[0]
    assert "ZeroDivisionError" in kept[12].troubles[0]
    assert all(not (kept[one].findings or kept[one].troubles or kept[one].problem) for one in range(1, 11))


def test_every_standing_is_present_in_the_demo(finished, lesson):
    """The demo shows right, carried forward, known misstep, not yet and not judged."""
    items = [item for kept in records(finished, lesson).values() for item in kept.items.values()]
    assert {item["standing"] for item in items} == {"right", "known misstep", "not yet", "not judged"}
    assert "carried-forward" in {item["tag"] for item in items}
