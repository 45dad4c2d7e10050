"""The corpus means something: with isolation or re-judging switched off, its attacks get their way."""

import platform

import nbformat
import pytest

from instructor.marking.pool import LIMITED, Pool
from instructor.marking.running import Cell, environment
from tests.instructor.hostile.case import BOTH, LESSON, WORD
from tests.instructor.hostile.conftest import run_batch
from tests.instructor.hostile.corpus import CORPUS, LIMITS, candidate_of, notebook_of, place_of

pytestmark = [pytest.mark.slow, pytest.mark.skipif(platform.system() != "Linux", reason="namespaces are Linux's")]


def biting(*ways):
    return [name for name, case in CORPUS.items() if case.bites in ways]


@pytest.fixture(scope="module")
def open_batch(ground, tmp_path_factory):
    """All that bite without isolation, in processes that are only limited."""
    return run_batch(ground, tmp_path_factory.mktemp("open"), biting("isolation"), isolate=False)


@pytest.mark.parametrize("name", biting("isolation"))
def test_it_gets_its_way_without_isolation(name, open_batch):
    """The attack reads, writes, calls or kills what it was pointed at."""
    assert open_batch.protection.startswith(LIMITED)
    evidence = {"kill -9 of the parent": open_batch.lost, "outlives its notebook": "outlived" in open_batch.changed}
    path = open_batch.cohort.marked(candidate_of(name), LESSON) / f"{LESSON}.ipynb"
    shown = nbformat.read(path, as_version=4)
    assert evidence.get(name, WORD in str([cell.get("outputs") for cell in shown.cells]))


def trusting(work, run) -> int:
    """Marks as a judge gives them that believes what the notebook's check cells show."""
    total = 0
    for cell in work.cells:
        if not (cell.metadata.get("nbgrader", {}).get("grade_id") or "").endswith("-check"):
            continue
        for shown in cell.get("outputs", []) if run is None else run.outputs.get(cell.id, []):
            text = shown.get("data", {}).get("text/plain", "")
            total += int(text) if text.isdigit() else 0
    return total


@pytest.fixture(scope="module")
def shown(ground, tmp_path_factory):
    """Each notebook as handed in, all its cells run, check cells too; and one in which nothing was tampered with."""
    folder, works = tmp_path_factory.mktemp("trusting"), {}
    for name in ["wrong kernel", *biting("run")]:
        place = place_of(name, ground, folder, 1)
        works[name] = notebook_of(ground, CORPUS[name], place)
    jobs = [(name, [Cell(cell.id, cell.source, kept=True) for cell in work.cells if cell.cell_type == "code"],
             environment(candidate_of(name), 1)) for name, work in works.items()]
    with Pool(workers=1, limits=LIMITS) as pool:
        return works, dict(pool.run(jobs))


def test_a_judge_that_trusts_gives_honest_work_its_marks(shown):
    """The comparison is fair: without an attack the check cells show what the verdicts say."""
    works, runs = shown
    assert trusting(works["wrong kernel"], runs["wrong kernel"]) == BOTH


@pytest.mark.parametrize("name", biting("run"))
def test_it_gains_marks_where_the_run_is_trusted(name, shown):
    """A judge that takes the marks from the run's check cells is fooled."""
    works, runs = shown
    assert trusting(works[name], runs[name]) > CORPUS[name].marks


@pytest.mark.parametrize("name", biting("outputs"))
def test_it_gains_marks_where_outputs_are_trusted(name, ground, tmp_path):
    """A judge that takes the marks from what the notebook shows is fooled."""
    work = notebook_of(ground, CORPUS[name], place_of(name, ground, tmp_path, 1))
    assert trusting(work, None) > 0
