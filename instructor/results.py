"""A cohort's results in one release: who earned what, which slips turned up, which values nobody can explain."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass

from instructor.cohort import Cohort
from instructor.marking.batch import handed_in, records
from instructor.marking.recording import Record, scores
from instructor.release import read_slip
from workbench.exercises import of_lesson
from workbench.exercises.exercise import Exercise
from workbench.marking import MISSTEP, NOT_YET


@dataclass(frozen=True)
class Results:
    """The results; `marks` are the gradebook's, so a mark given by hand counts as it stands there."""

    release: str
    lesson: str
    mode: str
    series: int
    roll: tuple[int, ...]
    submitted: tuple[int, ...]
    records: Mapping[int, Record]
    given: Mapping[tuple[int, str], tuple[float | None, bool]]

    @property
    def exercises(self) -> tuple[Exercise, ...]:
        """What was asked."""
        return of_lesson(self.lesson)

    @property
    def out_of(self) -> int:
        """The marks that there are."""
        return sum(exercise.marks for exercise in self.exercises)

    @property
    def held(self) -> dict[int, Record]:
        """Work that waits for the instructor: it fits another candidate's numbers."""
        return {one: kept for one, kept in self.records.items() if kept.held}

    @property
    def unread(self) -> dict[int, Record]:
        """Work that could not be read."""
        return {one: kept for one, kept in self.records.items() if kept.problem}

    @property
    def judged(self) -> dict[int, Record]:
        """Work that has verdicts and is not held."""
        return {one: kept for one, kept in self.records.items() if kept.items and not kept.held}

    def mark(self, candidate: int, item: str) -> float | None:
        """The mark of one item, or None where none is given."""
        return self.given.get((candidate, item), (None, False))[0]

    def total(self, candidate: int) -> float | None:
        """A candidate's marks; None where nothing is marked, or the work waits for the instructor."""
        found = [self.mark(candidate, exercise.name) for exercise in self.exercises]
        return None if all(mark is None for mark in found) else sum(mark or 0 for mark in found)

    def state(self, candidate: int) -> str:
        """How a candidate's work stands, in words."""
        kept = self.records.get(candidate)
        if kept is None:
            return "not yet marked" if candidate in self.submitted else "nothing handed in"
        if kept.problem:
            return "could not be read"
        if kept.held:
            return "held for the instructor"
        return "marked, see the notes" if kept.notes else "marked"

    def missteps(self) -> list[tuple[Exercise, str, list[int]]]:
        """The known slips that turned up, most frequent first: exercise, tag, candidates."""
        return self._gathered(lambda item: item["tag"] if item["standing"] == MISSTEP else None)

    def unexplained(self) -> list[tuple[Exercise, str, list[int]]]:
        """Wrong values that fit no known slip: exercise, value as read, candidates."""
        return self._gathered(lambda item: item["read"] if item["standing"] == NOT_YET else None)

    def standings(self, item: str) -> Counter:
        """How often each standing was given to an item."""
        return Counter(kept.items[item]["standing"] for kept in self.judged.values())

    def _gathered(self, what) -> list[tuple[Exercise, str, list[int]]]:
        found: dict[tuple[str, str], list[int]] = {}
        for candidate, kept in self.judged.items():
            for name, item in kept.items.items():
                if (label := what(item)) is not None:
                    found.setdefault((name, label), []).append(candidate)
        asked = {exercise.name: exercise for exercise in self.exercises}
        rows = [(asked[name], label, who) for (name, label), who in found.items()]
        return sorted(rows, key=lambda row: (-len(row[2]), row[0].key, row[1]))


def results(cohort: Cohort, release: str) -> Results:
    """Gather the results of a release."""
    slip = read_slip(cohort.released(release))
    return Results(release, slip.lesson, slip.mode, slip.series, cohort.roll, handed_in(cohort, release),
                   records(cohort, release), scores(cohort, release))
