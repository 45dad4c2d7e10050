"""What never goes through collecting: things that somebody put straight into submitted/, or gives to collect."""

import os

import pytest

from instructor.collection import collect
from instructor.marking.batch import mark
from tests.instructor.marking.test_recording import in_process
from tests.instructor.notebooks import filled, hand_in, right_answers
from workbench.exercises import of_lesson

pytestmark = pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes among this system's files")


def link(to):
    return lambda path: path.symlink_to(to)


def large(path):
    with path.open("wb") as handle:
        handle.truncate(200_000_000)


@pytest.mark.parametrize(
    "make, said",
    [(os.mkfifo, "no plain file"), (link("/dev/zero"), "no plain file"), (link("/etc/passwd"), "is a link"),
     (link("../../../gradebook.db"), "is a link"), (link("measuring_screw.ipynb"), "cannot be opened"),
     (large, "200 MB large"), (os.mkdir, "no plain file")],
    ids=["pipe", "endless device", "file of the system", "gradebook", "link to itself", "200 MB", "folder"])
def test_what_is_no_plain_notebook_is_not_opened(cohort, lesson, make, said):
    """It is told, costs no time, and the neighbour has all the marks."""
    folder = cohort.submitted(3, lesson)
    folder.mkdir(parents=True)
    make(folder / f"{lesson}.ipynb")
    hand_in(cohort, lesson, 4, filled(cohort, lesson, right_answers(lesson, 4)))
    found = {kept.candidate: kept for kept in mark(cohort, lesson, [3, 4], runner=in_process)}
    assert said in found[3].problem and found[3].marks is None
    assert found[4].marks == sum(exercise.marks for exercise in of_lesson(lesson))


def test_a_pipe_given_to_collect_is_not_opened(cohort, lesson, tmp_path):
    """A pipe that nobody fills would never be read to its end."""
    os.mkfifo(tmp_path / "007.zip")
    assert any("no" in note and "plain file" in note for note in collect(cohort, lesson, [tmp_path / "007.zip"]).notes)
