import pytest

from instructor.invented import written
from instructor.marking.judging import judge
from instructor.marking.running import Run
from tests.instructor.notebooks import right_answers
from workbench.exercises import lessons, of_lesson
from workbench.exercises.exercise import Designation

LESSON, CALL_OUTS = "measuring_screw", "reading_a_callout"
OUT_OF = sum(exercise.marks for exercise in of_lesson(LESSON))


def run_of(typed, lesson=LESSON, **more):
    return Run(answers={f"{lesson}.{name}": text for name, text in typed.items()}, **more)


def test_right_answers_earn_every_mark():
    """All right on the own numbers is the full sum of the marks."""
    judgement = judge(LESSON, 7, 1, run_of(right_answers(LESSON, 7)), range(1, 13))
    assert (judgement.marks, judgement.out_of, judgement.held) == (OUT_OF, OUT_OF, "")


def test_nothing_typed_earns_nothing():
    """Marks are given, never assumed: no answers are no marks, and nothing is held."""
    judgement = judge(LESSON, 7, 1, Run(), range(1, 13))
    assert judgement.marks == 0 and judgement.held == ""
    assert {verdict.standing for verdict in judgement.verdicts.values()} == {"not judged"}


def test_the_candidate_comes_from_the_roll_not_from_the_work():
    """Every verdict names the candidate that it was judged for."""
    verdicts = judge(LESSON, 7, 1, run_of(right_answers(LESSON, 8))).verdicts
    assert {verdict.candidate for verdict in verdicts.values()} == {7}


def test_work_that_fits_another_candidates_numbers_is_held():
    """Candidate 8's right answers under number 7 are held, and the reason names 8."""
    judgement = judge(LESSON, 7, 1, run_of(right_answers(LESSON, 8)), range(1, 13))
    assert "candidate 8's numbers" in judgement.held


def test_work_of_nobody_on_the_roll_is_not_held():
    """Where the other candidate is not on the roll there is nothing to confuse it with."""
    assert judge(LESSON, 7, 1, run_of(right_answers(LESSON, 8)), (6, 7)).held == ""


def test_two_answers_of_somebody_else_are_not_enough():
    """Chance agreement on few items holds nothing."""
    few = dict(list(right_answers(LESSON, 8).items())[:2])
    assert judge(LESSON, 7, 1, run_of(few), range(1, 13)).held == ""


def test_call_outs_of_another_candidate_count_as_its_numbers_do():
    """Three of candidate 8's call-outs under number 7 hold the work; two hold nothing, and nor do the own ones."""
    asked = [exercise for exercise in of_lesson(CALL_OUTS) if isinstance(exercise.answer, Designation)]
    assert len(asked) >= 3
    names = [exercise.name for exercise in asked if not exercise.answer.same(
        exercise.right(exercise.variant(7)), exercise.right(exercise.variant(8)), {})][:3]
    others = {name: text for name, text in right_answers(CALL_OUTS, 8).items() if name in names}
    own = {name: text for name, text in right_answers(CALL_OUTS, 7).items() if name in names}
    assert "candidate 8's numbers" in judge(CALL_OUTS, 7, 1, run_of(others, CALL_OUTS), (6, 7, 8)).held
    assert judge(CALL_OUTS, 7, 1, run_of(dict(list(others.items())[:2]), CALL_OUTS), (6, 7, 8)).held == ""
    assert judge(CALL_OUTS, 7, 1, run_of(own, CALL_OUTS), (6, 7, 8)).held == ""


def test_weak_work_on_the_own_numbers_is_never_held():
    """The demo's own wrong answers do not look like anybody else's."""
    from instructor.invented import PATTERNS, answers

    for candidate in PATTERNS:
        assert judge(LESSON, candidate, 1, run_of(answers(LESSON, candidate, 1)), range(1, 101)).held == ""


@pytest.mark.parametrize("lesson", lessons())
def test_known_missteps_on_the_own_numbers_are_never_held(lesson):
    """Somebody who slips in every item of a lesson looks like nobody else on a roll of a hundred."""
    for candidate in range(1, 26):
        typed = {}
        for place, exercise in enumerate(of_lesson(lesson)):
            variant = exercise.variant(candidate)
            awake = exercise.awake(variant)
            typed[exercise.name] = written(exercise, variant, awake[(place + candidate) % len(awake)][1])
        assert judge(lesson, candidate, 1, run_of(typed, lesson), range(1, 101)).held == ""


def test_the_reason_of_an_unread_entry_reaches_the_verdict():
    """What could not be read is told in the kernel's own words."""
    name = of_lesson(LESSON)[0].name
    verdict = judge(LESSON, 7, 1, Run(refusals={f"{LESSON}.{name}": "“zz” is no letter"})).verdicts[name]
    assert (verdict.standing, verdict.message) == ("not judged", "Nothing is lost: “zz” is no letter.")


def test_another_series_has_other_numbers():
    """The right answers of series 1 do not earn the full marks in series 2."""
    assert judge(LESSON, 7, 2, run_of(right_answers(LESSON, 7, 1))).marks < OUT_OF
    assert judge(LESSON, 7, 2, run_of(right_answers(LESSON, 7, 2))).marks == OUT_OF
