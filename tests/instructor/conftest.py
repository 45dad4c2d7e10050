"""Cohorts to try things on: one released, one that went through the whole demo; tests change only copies."""

import shutil
import subprocess
import sys

import pytest

from instructor import demo as demonstration
from instructor.cohort import Cohort, open_cohort
from instructor.demo import LESSON


@pytest.fixture(scope="session")
def _demo(tmp_path_factory):
    """`python -m instructor demo`, run once as an instructor runs it: the folder and what it told."""
    place = tmp_path_factory.mktemp("finished")
    done = subprocess.run([sys.executable, "-m", "instructor", "--cohorts", str(place), "demo"],
                          capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    return place, done.stdout


@pytest.fixture(scope="session")
def finished(_demo):
    """The demo's cohort after the whole loop; not to be changed."""
    return open_cohort(demonstration.NAME, _demo[0])


@pytest.fixture
def demo_told(_demo):
    """What the demo printed."""
    return _demo[1]


@pytest.fixture(scope="session")
def _released(tmp_path_factory):
    cohort, _ = demonstration.prepare(tmp_path_factory.mktemp("released"))
    return cohort


@pytest.fixture
def cohort(_released, tmp_path):
    """A cohort of twelve with one release and nothing handed in, the test's own."""
    return copied(_released, tmp_path / "cohorts")


@pytest.fixture
def marked(finished, tmp_path):
    """The finished demo, the test's own."""
    return copied(finished, tmp_path / "cohorts")


def copied(cohort: Cohort, cohorts, name: str | None = None) -> Cohort:
    """A copy of a cohort's folder under another parent, by its own name or another."""
    name = name or cohort.name
    shutil.copytree(cohort.root, cohorts / name)
    return open_cohort(name, cohorts)


@pytest.fixture
def lesson():
    """The lesson that the cohorts work on."""
    return LESSON
