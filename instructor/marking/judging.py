"""Stage 3, judge: entries become verdicts in the instructor's own process, with the roll's candidate.

A submission that fits another candidate's numbers better than its own is held for the instructor: it may
have been handed in under a wrong number, and is never silently given no marks.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from instructor.marking.running import Run
from workbench.entry import NotRead, read
from workbench.exercises import of_lesson
from workbench.exercises.exercise import Designation, Quantity
from workbench.marking import NOT_JUDGED, RIGHT, Verdict, judge_lesson

FITS = 3  # items that are right for somebody else, and wrong for the candidate, before work is held
SHARE = 3  # and at least one in three of all that was typed: on a long roll three fit somebody by chance


@dataclass(frozen=True)
class Judgement:
    """The verdict on each item, by name, and why the whole is held, or ""."""

    verdicts: Mapping[str, Verdict]
    held: str = ""

    @property
    def marks(self) -> int:
        """The marks given."""
        return sum(verdict.marks for verdict in self.verdicts.values())

    @property
    def out_of(self) -> int:
        """The marks that there are."""
        return sum(verdict.out_of for verdict in self.verdicts.values())


def judge(lesson: str, candidate: int, series: int, run: Run, roll: Iterable[int] = ()) -> Judgement:
    """Judge what a notebook's run left, on the numbers of the candidate that the roll names."""
    names = {exercise.key: exercise.name for exercise in of_lesson(lesson)}
    entries = {name: run.answers.get(key) for key, name in names.items()}
    verdicts = judge_lesson(lesson, candidate, entries, series)
    for key, name in names.items():
        verdict = verdicts[name]
        if verdict.standing == NOT_JUDGED and key in run.refusals:
            verdict = replace(verdict, message=f"Nothing is lost: {run.refusals[key]}.")
        verdicts[name] = replace(verdict, candidate=candidate)
    return Judgement(verdicts, _held(lesson, candidate, series, entries, verdicts, roll))


def _held(lesson, candidate, series, entries, verdicts, roll) -> str:
    """Why the work looks like another candidate's, or nothing.

    Looked at are numbers and call-outs; a letter agrees with one in four by chance.
    """
    typed = {name: entry for name, entry in entries.items() if entry is not None}
    own = {name for name, verdict in verdicts.items() if verdict.standing == RIGHT}
    roll = tuple(roll)
    if not roll or len(typed.keys() - own) < FITS:
        return ""
    numbers, rights = _along(lesson, series, roll)
    fits = np.zeros(len(numbers), dtype=int)  # answers right for each on the roll
    new = np.zeros(len(numbers), dtype=int)  # of these, the ones that are wrong for the candidate
    for exercise in of_lesson(lesson):
        if exercise.name not in rights or exercise.name not in typed:
            continue
        try:
            value = read(typed[exercise.name], exercise.answer, {}).value
        except NotRead:
            continue
        same = rights[exercise.name](value)
        fits += same
        new += same & (exercise.name not in own)
    fits[numbers == candidate] = -1
    best = int(np.argmax(fits))
    if new[best] < max(FITS, len(typed) / SHARE) or fits[best] <= len(own):
        return ""
    return (
        f"{fits[best]} answers are right for candidate {numbers[best]}'s numbers and only {len(own)} for candidate "
        f"{candidate}'s own: was the number set wrongly, or the work handed in under another number?"
    )


@lru_cache(maxsize=4)
def _along(lesson: str, series: int, roll: tuple[int, ...]) -> tuple[np.ndarray, dict[str, Callable]]:
    """The candidates, and by each item's name a function: a value -> for which of them it is right."""
    rights = {}
    for exercise in of_lesson(lesson):
        if not isinstance(exercise.answer, Quantity | Designation):
            continue
        variants = [exercise.variant(one, series) for one in roll]
        along = _numbers_along if isinstance(exercise.answer, Quantity) else _call_outs_along
        rights[exercise.name] = along(exercise, variants)
    return np.array(roll), rights


def _numbers_along(exercise, variants) -> Callable:
    right = np.array([exercise.right(one) for one in variants], dtype=float)
    tolerance = np.array([exercise.answer.tolerance(one) for one in variants], dtype=float)
    return lambda value: np.abs(right - value) <= tolerance * (1 + 1e-9) + 1e-12


def _call_outs_along(exercise, variants) -> Callable:
    places = {}  # each call-out once: on a long roll many share one
    along = np.array([places.setdefault(exercise.right(one), len(places)) for one in variants])
    return lambda value: np.array([exercise.answer.same(value, one, {}) for one in places])[along]
