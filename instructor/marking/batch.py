"""Marks a cohort's submissions of one release through the four stages: many are run at once, one is recorded.

Whatever a submission does costs only itself: what stops it is told in its record, and the next one goes on.
"""

import hashlib
from collections.abc import Callable, Iterable, Iterator
from contextlib import nullcontext
from dataclasses import dataclass
from pathlib import Path

from nbformat import NotebookNode

from instructor.cohort import Cohort
from instructor.marking import flags, judging, reading, recording, running, short_way
from instructor.marking.pool import Pool
from instructor.marking.recording import Record, item_of
from instructor.marking.running import Run
from instructor.release import Slip, released_notebook

MOST_TROUBLES = 20  # told of one submission

FAULT = "not marked, a fault of the marking"  # ours, not the apprentice's: such work is marked again


def handed_in(cohort: Cohort, release: str) -> tuple[int, ...]:
    """The candidates on the roll who have a folder for this release."""
    return tuple(one for one in cohort.roll if cohort.submitted(one, release).is_dir())


def mark(cohort: Cohort, release: str, candidates: Iterable[int], accept_held: bool = False,
         pool: Pool | None = None, runner: Callable | None = None, quick: bool = True) -> Iterator[Record]:
    """Mark the submissions of these candidates; gives each one's record as it is finished, in any order.

    accept_held: judge work that fits another candidate's numbers on its own candidate's all the same.
    pool: what runs the cells; made here where none is given. runner: instead, a function that runs one
    notebook, for tests. quick: read plain entries without running anything (see `short_way`).
    """
    slip, released = released_notebook(cohort, release)
    layout = reading.Layout(released)
    roll = () if accept_held else cohort.roll
    made = Pool(hidden=(cohort.root,)) if pool is None and runner is None else nullcontext(pool)
    with recording.ledger(cohort, release) as ledger, made as pool:
        works = (_read(cohort, slip, layout, candidate) for candidate in candidates)
        ran = _one_by_one(works, runner) if runner else pool.run(_to_run(works, released, quick))
        for work, run in ran:
            yield _finish(cohort, ledger, work, run, released, roll)


@dataclass
class _Work:
    """One submission on its way: its record's head, what was read, why it was not."""

    slip: Slip
    candidate: int
    sha256: str
    submitted: reading.Reading | None = None
    problem: str = ""


def _read(cohort: Cohort, slip: Slip, layout: reading.Layout, candidate: int) -> _Work:
    path = cohort.submitted(candidate, slip.name) / f"{slip.lesson}.ipynb"
    work = _Work(slip, candidate, fingerprint(path))
    try:
        work.submitted = reading.read_file(path, layout)
    except reading.Unreadable as reason:
        work.problem = f"not marked: {reason}"
    except Exception as fault:  # a fault of ours must not cost the others their marks; it is told, not hidden
        work.problem = _fault(fault)
    return work


def _to_run(works: Iterable[_Work], released: NotebookNode, quick: bool) -> Iterator[tuple]:
    """Each submission as the pool takes it: with its cells, or with its result where nothing is to be run."""
    for work in works:
        if work.submitted is None:
            yield work, Run()
            continue
        notebook, findings, series = work.submitted.notebook, work.submitted.findings, work.slip.series
        read = short_way.read_only(notebook, released, findings, work.candidate, series) if quick else None
        if read is not None:
            yield work, read
        else:
            yield work, running.cells_of(notebook), running.environment(work.candidate, series)


def _one_by_one(works: Iterable[_Work], runner: Callable) -> Iterator[tuple[_Work, Run]]:
    for work in works:
        ran = Run()
        if work.submitted is not None:
            try:
                ran = runner(work.submitted.notebook, work.candidate, work.slip.series)
            except Exception as fault:
                work.problem = _fault(fault)
        yield work, ran


def _finish(cohort: Cohort, ledger, work: _Work, ran: Run, released: NotebookNode, roll) -> Record:
    """Judge and record one submission."""
    slip, judgement = work.slip, None
    about = {"candidate": work.candidate, "release": slip.name, "lesson": slip.lesson, "series": slip.series,
             "sha256": work.sha256, "by": recording.made_by(slip)}
    if not work.problem:
        try:
            judgement = judging.judge(slip.lesson, work.candidate, slip.series, ran, roll)
        except Exception as fault:
            work.problem = _fault(fault)
    if judgement is None:
        kept = Record(**about, items={}, problem=work.problem)
        recording.record(cohort, ledger, kept, None, released)
        return kept
    notebook = work.submitted.notebook
    sources = {cell.id: cell.source for cell in notebook.cells}
    troubles = [_told(cell, sources.get(cell, ""), error) for cell, error in ran.troubles.items()]
    if len(troubles) > MOST_TROUBLES:
        troubles[MOST_TROUBLES:] = [f"and {len(troubles) - MOST_TROUBLES} more cells that stopped"]
    if ran.stopped:
        troubles.append(f"the run ended early: {ran.stopped}; what was read before it counts")
    kept = Record(**about, items={name: item_of(verdict) for name, verdict in judgement.verdicts.items()},
                  held=judgement.held, findings=work.submitted.findings, troubles=tuple(troubles),
                  flags=flags.flagged(notebook, released))
    recording.record(cohort, ledger, kept, judgement, notebook, ran.outputs)
    return kept


def _fault(fault: Exception) -> str:
    return f"{FAULT}: {type(fault).__name__} {fault}"


def _told(cell: str, source: str, error: str) -> str:
    """A cell that stopped, told so that the instructor finds it."""
    first = next((line.strip() for line in source.splitlines() if line.strip()), "")
    which = "an extra cell" if cell.startswith("own-") else f"cell {cell}"
    return f"{which} (“{first[:60]}”) stopped with {error}; the other cells were run and judged"


def fingerprint(path: Path) -> str:
    """The SHA-256 of a submitted file, or "" where there is none."""
    if not path.is_file():  # a pipe that nobody fills has no end
        return ""
    try:
        with path.open("rb") as handle:
            return hashlib.file_digest(handle, "sha256").hexdigest()
    except OSError:
        return ""


def records(cohort: Cohort, release: str) -> dict[int, Record]:
    """The records of the work marked so far, by candidate."""
    found = {one: recording.read_record(cohort.marked(one, release)) for one in cohort.roll}
    return {one: kept for one, kept in found.items() if kept is not None}
