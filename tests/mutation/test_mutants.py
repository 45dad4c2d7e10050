"""Changing any number, operator or table cell of the measuring-screw calculations makes a test fail.

A fixed sample runs each time; WORKBENCH_MUTANTS=all runs every mutant (some minutes). The checksum test is left
out, since it would catch every table cell whatever the other tests know.
"""

import json
import os
import random
import shutil
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from queue import SimpleQueue

import pytest

from tests.mutation.mutants import of_code, of_table
from tests.mutation.trial import SUITES

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="the trials fork; Linux and macOS only")

ROOT = Path(__file__).parents[2]
MODULES = {  # and the tests likeliest to catch a change
    "workbench/refusals.py": "tests/test_refusals.py",
    "workbench/tables/__init__.py": "tests/tables/test_tables.py",
    "workbench/screws/measuring.py": "tests/screws/test_measuring.py",
    "workbench/screws/screw_error.py": "tests/screws/test_screw_error.py",
    "workbench/screws/thermal.py": "tests/screws/test_thermal.py",
    "workbench/screws/feed.py": "tests/screws/test_feed.py",
    "workbench/screws/coverage.py": "tests/screws/test_uncertainty.py",
    "workbench/screws/uncertainty.py": "tests/screws/test_uncertainty.py",
}
TABLES = {
    "workbench/tables/definitions.csv": "tests/published/test_measuring_screws.py",
    "workbench/tables/distributions.csv": "tests/published/test_measuring_screws.py",
    "workbench/tables/measuring_screws.csv": "tests/published/test_measuring_screws.py",
    "workbench/tables/number_drills.csv": "tests/published/test_measuring_screws.py",
    "workbench/tables/thermal_expansion.csv": "tests/published/test_measuring_screws.py",
}
SAMPLE = 24
WORKERS = 2

# mutants that no test can tell from the original, and why
_NORMAL = "from 100,000 degrees on t and the normal law agree beyond what a test may ask"
_SEARCH = "another end or length of the search for k, the same k found"
EQUIVALENT = {
    "workbench/screws/coverage.py: module: 100000 -> 100001": _NORMAL,
    "workbench/screws/coverage.py: within: degrees >= _NORMAL_FROM -> degrees > _NORMAL_FROM": _NORMAL,
    "workbench/screws/coverage.py: coverage_factor: 10000.0 -> 11000.0": _SEARCH,
    "workbench/screws/coverage.py: coverage_factor: 60 -> 61": _SEARCH,
    "workbench/screws/coverage.py: coverage_factor: within(middle, degrees) < level -> "
    "within(middle, degrees) <= level": _SEARCH,
}


def mutants():
    """Every mutant of the modules and tables, in a fixed order."""
    for path in MODULES:
        yield from of_code(path, (ROOT / path).read_text(encoding="utf-8"))
    for path in TABLES:
        yield from of_table(path, (ROOT / path).read_text(encoding="utf-8"))


def chosen():
    """The mutants to try: a fixed sample, or all."""
    every = [mutant for mutant in mutants() if mutant.name not in EQUIVALENT]
    return every if os.environ.get("WORKBENCH_MUTANTS") == "all" else random.Random(1).sample(every, SAMPLE)


class Trial:
    """A process with its own copy of the package and tests, trying one mutant after another."""

    def __init__(self, folder):
        for name in (*MODULES, *TABLES, *SUITES):
            (folder / name).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy(ROOT / name, folder / name)
        for published in (ROOT / "tests/published").glob("*.csv"):
            shutil.copy(published, folder / "tests/published")
        for package in {parent for name in (*MODULES, *SUITES) for parent in Path(name).parents[:-1]}:
            (folder / package / "__init__.py").touch()
        (folder / "pytest.ini").write_text("[pytest]\n")
        command = [sys.executable, str(Path(__file__).with_name("trial.py")), str(folder)]
        # the notebook and browser plugins take seconds to import
        environment = {**os.environ, "PYTHONPATH": str(folder), "PYTEST_DISABLE_PLUGIN_AUTOLOAD": "1"}
        self.process = subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True,
                                        env=environment)

    def alive(self, path, text):
        """Whether the tests pass with this text in place of the file (None: unchanged)."""
        first = (MODULES | TABLES)[path]
        self.process.stdin.write(json.dumps({"path": path, "text": text, "first": first}) + "\n")
        self.process.stdin.flush()
        answer = self.process.stdout.readline().strip()
        assert answer in ("alive", "caught"), "the trial process ended"
        return answer == "alive"

    def close(self):
        self.process.stdin.close()
        self.process.wait()
        self.process.stdout.close()


@pytest.fixture(scope="module")
def trials(tmp_path_factory):
    """The trial processes that are free."""
    every = [Trial(tmp_path_factory.mktemp("copy")) for _ in range(WORKERS)]
    free = SimpleQueue()
    for trial in every:
        free.put(trial)
    yield free
    for trial in every:
        trial.close()


def test_the_unchanged_copy_passes(trials):
    """Without a change the copied tests pass, so a failure is the mutant's."""
    trial = trials.get()
    assert trial.alive("workbench/screws/measuring.py", None)
    trials.put(trial)


def test_every_mutant_is_caught(trials):
    """No change of a number, an operator, a bound or a table cell goes unseen."""

    def survives(mutant):
        trial = trials.get()
        try:
            return trial.alive(mutant.path, mutant.text)
        finally:
            trials.put(trial)

    todo = chosen()
    assert len(todo) >= SAMPLE
    with ThreadPoolExecutor(WORKERS) as workers:
        survivors = [one.name for one, alive in zip(todo, workers.map(survives, todo), strict=True) if alive]
    assert not survivors, "\n".join(["", *survivors])


def test_equivalent_mutants_still_exist():
    """A mutant excused as equivalent is one that the code still has."""
    assert set(EQUIVALENT) <= {mutant.name for mutant in mutants()}
