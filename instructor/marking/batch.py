"""Marks a cohort's submissions of one release, one after the other through the four stages.

Whatever a submission does costs only itself: what stops it is told in its record, and the next one goes on.
"""

import hashlib
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path

from instructor.cohort import Cohort
from instructor.marking import judging, reading, recording, running
from instructor.marking.recording import Record, item_of
from instructor.release import Slip, released_notebook
from workbench.exercises import of_lesson


def handed_in(cohort: Cohort, release: str) -> tuple[int, ...]:
    """The candidates on the roll who have a folder for this release."""
    return tuple(one for one in cohort.roll if cohort.submitted(one, release).is_dir())


def mark(cohort: Cohort, release: str, candidates: Iterable[int], accept_held: bool = False,
         runner: Callable = running.run) -> Iterator[Record]:
    """Mark the submissions of these candidates; gives each one's record as it is finished.

    accept_held: judge work that fits another candidate's numbers on its own candidate's all the same.
    runner: stage 2, replaceable.
    """
    slip, notebook = released_notebook(cohort, release)
    roll = () if accept_held else cohort.roll
    with recording.gradebook(cohort) as book:
        for candidate in candidates:
            yield _mark_one(cohort, book, slip, notebook, candidate, roll, runner)


def _mark_one(cohort: Cohort, book, slip: Slip, released, candidate: int, roll, runner) -> Record:
    path = cohort.submitted(candidate, slip.name) / f"{slip.lesson}.ipynb"
    about = {"candidate": candidate, "release": slip.name, "lesson": slip.lesson, "series": slip.series,
             "sha256": _fingerprint(path)}
    try:
        submitted = reading.read_file(path, released)
        ran = runner(submitted.notebook, candidate, slip.series)
        judgement = judging.judge(slip.lesson, candidate, slip.series, ran, roll)
        sources = {cell.id: cell.source for cell in submitted.notebook.cells}
        troubles = [_told(cell, sources.get(cell, ""), error) for cell, error in ran.troubles.items()]
        if ran.stopped:
            troubles.append(f"the run ended early: {ran.stopped}; what was read before it counts")
        kept = Record(**about, items={name: item_of(verdict) for name, verdict in judgement.verdicts.items()},
                      held=judgement.held, findings=submitted.findings, troubles=tuple(troubles))
        notebook = submitted.notebook
    except reading.Unreadable as reason:
        judgement, notebook = None, released
        kept = Record(**about, items={}, problem=f"not marked: {reason}")
    except Exception as fault:  # a fault of ours must not cost the others their marks; it is told, not hidden
        judgement, notebook = None, released
        kept = Record(**about, items={}, problem=f"not marked, a fault of the marking: {type(fault).__name__} {fault}")
    recording.record(cohort, book, kept, judgement, notebook)
    return kept


def _told(cell: str, source: str, error: str) -> str:
    """A cell that stopped, told so that the instructor finds it."""
    first = next((line.strip() for line in source.splitlines() if line.strip()), "")
    which = "an extra cell" if cell.startswith("own-") else f"cell {cell}"
    return f"{which} (“{first[:60]}”) stopped with {error}; the other cells were run and judged"


def _fingerprint(path: Path) -> str:
    try:
        with path.open("rb") as handle:
            return hashlib.file_digest(handle, "sha256").hexdigest()
    except OSError:
        return ""


def records(cohort: Cohort, release: str) -> dict[int, Record]:
    """The records of the work marked so far, by candidate."""
    found = {one: recording.read_record(cohort.marked(one, release)) for one in cohort.roll}
    return {one: kept for one, kept in found.items() if kept is not None}


def out_of(lesson: str) -> int:
    """The marks that a lesson can earn."""
    return sum(exercise.marks for exercise in of_lesson(lesson))


