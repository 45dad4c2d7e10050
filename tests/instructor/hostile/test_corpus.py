"""The whole corpus in one batch of a real cohort: collected, run isolated, judged, recorded."""

import platform
from collections import Counter

import nbformat
import pytest

from instructor.marking.pool import ISOLATED
from instructor.results import results
from tests.instructor.hostile.case import AFTER, BEFORE, GOAL, LESSON, WORD
from tests.instructor.hostile.corpus import CORPUS, candidate_of, says, told
from workbench.exercises import of_lesson

pytestmark = [pytest.mark.slow, pytest.mark.skipif(platform.system() != "Linux", reason="namespaces are Linux's")]
OUT_OF = sum(exercise.marks for exercise in of_lesson(LESSON))
SECONDS = 90


def notes_on(batch, candidate):
    """The notes of the collection that name this candidate's folder, zip or number."""
    names = (f"/{candidate:03d}/", f"/{candidate:03d}.zip", f"candidate {candidate}:")
    return [note for note in batch.collected.notes if any(name in note for name in names)]


def test_the_corpus_is_large_enough():
    """At least 60 submissions, each with a reason, at least ten that bite in each of the two ways."""
    bites = Counter(case.bites for case in CORPUS.values())
    assert len(CORPUS) >= 60 and bites["isolation"] >= 10 and bites["run"] + bites["outputs"] >= 10


@pytest.mark.parametrize("name", CORPUS)
def test_a_hostile_submission_earns_what_is_honest_in_it(name, batch):
    """The expected marks, for the expected reason, in the record and in the gradebook."""
    case, candidate = CORPUS[name], candidate_of(name)
    kept = batch.records.get(candidate)
    text = told(kept, notes_on(batch, candidate))
    assert "a fault of the marking" not in text
    assert says(case, text), text
    assert (kept.marks if kept else None) == case.marks, text
    total = [mark for (one, _), (mark, _) in batch.scores.items() if one == candidate and mark is not None]
    assert (sum(total) if total else None) == case.marks
    if case.marks:
        earned = {item for item, found in kept.items.items() if found["marks"]}
        assert BEFORE in earned and earned <= {BEFORE, AFTER, *([GOAL] if case.marks > 4 else [])}


@pytest.mark.parametrize("name", CORPUS)
def test_its_neighbour_is_unaffected(name, batch):
    """The honest work beside it has all its marks and not one note."""
    kept = batch.records[candidate_of(name) + 1]
    assert kept.marks == OUT_OF and kept.notes == () and not kept.held


def test_nothing_was_reached(batch):
    """Isolation was on; no file was changed, nothing was read, sent or brought down."""
    assert batch.protection == ISOLATED
    assert batch.changed == [] and batch.visitors == 0 and batch.lost == 0
    for candidate in batch.records:
        shown = nbformat.read(batch.cohort.marked(candidate, LESSON) / f"{LESSON}.ipynb", as_version=4)
        assert WORD not in str([cell.get("outputs") for cell in shown.cells]), candidate


def test_the_batch_is_not_delayed_beyond_its_limit(batch):
    """Collecting and marking the whole corpus ends within its time."""
    print(f"collecting {batch.seconds[0]:.1f} s, marking {batch.seconds[1]:.1f} s, {len(batch.records)} submissions")
    assert sum(batch.seconds) < SECONDS


def test_what_is_told_stays_short(batch):
    """No submission fills the instructor's page: notes are few and short."""
    for kept in batch.records.values():
        assert len("".join(kept.notes)) < 20_000, kept.candidate
    found = results(batch.cohort, LESSON)
    assert len(found.records) == len(batch.records)
