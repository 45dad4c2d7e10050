"""Which work is still to be marked: what is new, what has changed, what a stopped run has left.

Work counts as done when its record was made from the same file, of the same release, by the same program, and
the gradebook holds the same marks: a run that was killed between the two is made good.
"""

from collections.abc import Iterable
from pathlib import Path

from instructor.cohort import Cohort
from instructor.marking import recording
from instructor.marking.batch import FAULT, fingerprint
from instructor.marking.recording import Record
from instructor.refusal import Refusal
from instructor.release import read_slip


def pending(cohort: Cohort, release: str, candidates: Iterable[int], accept_held: bool = False) -> tuple[int, ...]:
    """Those of the candidates whose work is to be marked; accept_held: what was held before is among them."""
    slip = read_slip(cohort.released(release))
    by = recording.made_by(slip)
    with recording.ledger(cohort, release) as ledger:
        given = ledger.given()

    def is_done(candidate: int) -> bool:
        folder = cohort.marked(candidate, release)
        try:
            kept = recording.read_record(folder)
        except Refusal:  # damaged: made again
            return False
        path = cohort.submitted(candidate, release) / f"{slip.lesson}.ipynb"
        return (kept is not None and kept.by == by and kept.sha256 == fingerprint(path)
                and not kept.problem.startswith(FAULT) and not (kept.held and accept_held)
                and (folder / f"{slip.lesson}.ipynb").is_file() and _agrees(kept, given.get(candidate)))

    return tuple(candidate for candidate in candidates if not is_done(candidate))


def _agrees(kept: Record, given: dict[str, float | None] | None) -> bool:
    """True where the gradebook has the marks of a record."""
    if given is None:
        return False
    if kept.marks is None:
        return all(mark is None for mark in given.values())
    return given == {name: item["marks"] for name, item in kept.items.items()}


def sign(cohort: Cohort, release: str) -> Path:
    """The file that lies there while a run over all the work goes on, and after it was stopped."""
    return cohort.root / f".marking-{release}"
