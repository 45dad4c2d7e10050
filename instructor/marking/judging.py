"""Stage 3, judge: entries become verdicts in the instructor's own process, with the roll's candidate.

A submission that fits another candidate's numbers better than its own is held for the instructor: it may
have been handed in under a wrong number, and is never silently given no marks.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from instructor.marking.running import Run
from workbench.exercises import of_lesson
from workbench.marking import NOT_JUDGED, RIGHT, Verdict, judge_lesson

FITS = 3  # items that are right for somebody else, and wrong for the candidate, before work is held


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
            verdict = replace(verdict, message=f"Not judged, nothing lost: {run.refusals[key]}.")
        verdicts[name] = replace(verdict, candidate=candidate)
    return Judgement(verdicts, _held(lesson, candidate, series, entries, verdicts, roll))


def _held(lesson, candidate, series, entries, verdicts, roll) -> str:
    """Why the work looks like another candidate's, or nothing."""
    own = {name for name, verdict in verdicts.items() if verdict.standing == RIGHT}
    if sum(entry is not None for name, entry in entries.items() if name not in own) < FITS:
        return ""
    best, fitting = None, set()
    for other in roll:
        if other == candidate:
            continue
        theirs = judge_lesson(lesson, other, entries, series)
        right = {name for name, verdict in theirs.items() if verdict.standing == RIGHT}
        if len(right - own) >= FITS and len(right) > len(own) and len(right) > len(fitting):
            best, fitting = other, right
    if best is None:
        return ""
    return (
        f"{len(fitting)} answers are right for candidate {best}'s numbers and only {len(own)} for candidate "
        f"{candidate}'s own: was the number set wrongly, or the work handed in under another number?"
    )
