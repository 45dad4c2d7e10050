"""Every lesson through the whole loop: released, handed in, collected, marked, reported; marks as in the lesson itself.

Three invented candidates: 1 answers all right, 2 slips where later items build on it and carries the slip forward,
3 types faults and leaves blanks. Lessons are found by themselves.
"""

import csv
import shutil
import subprocess
import sys

import nbformat
import pytest

from instructor.cohort import enrol, folder_name
from instructor.collection import collect
from instructor.feedback import write_feedback
from instructor.invented import answers
from instructor.lesson_builder import authored_lessons
from instructor.marking.batch import mark, records
from instructor.marking.recording import scores
from instructor.release import release
from instructor.report import write_report
from tests.instructor.conftest import copied
from tests.instructor.notebooks import filled
from workbench.exercises import of_lesson
from workbench.marking import NOT_JUDGED, RIGHT, judge_lesson

pytestmark = pytest.mark.slow

RUBBISH = ("3.2.5 mmm", "", "?", "about 7")  # in turns
every_lesson = pytest.mark.parametrize("lesson", authored_lessons())


def typed(lesson):
    """What each of the three types for each item, by candidate and name."""
    names = [exercise.name for exercise in of_lesson(lesson)]
    return {
        1: answers(lesson, 1, 1),
        2: answers(lesson, 2, 1, like=5),
        3: {name: RUBBISH[place % len(RUBBISH)] for place, name in enumerate(names)},
    }


@pytest.fixture(scope="module")
def taken(tmp_path_factory):
    """A function: a lesson -> its cohort as collected, and after marking, feedback and report. Each lesson once."""
    done = {}

    def take(lesson):
        if lesson not in done:
            place = tmp_path_factory.mktemp(lesson)
            cohort, _ = enrol("bay", (1, 2, 3), place / "cohorts")
            slip = release(cohort, lesson, lesson)
            for candidate, texts in typed(lesson).items():
                folder = place / "given" / folder_name(candidate)
                folder.mkdir(parents=True)
                nbformat.write(filled(cohort, slip.name, texts), folder / f"{lesson}.ipynb")
            collect(cohort, lesson, [place / "given"])
            collected = copied(cohort, place / "collected")
            list(mark(cohort, lesson, (1, 2, 3)))
            list(write_feedback(cohort, lesson))
            write_report(cohort, lesson)
            done[lesson] = collected, cohort
        return done[lesson]

    return take


@every_lesson
def test_marks_of_the_run_are_those_of_the_lesson(taken, lesson):
    """Each item is marked as the lesson itself judges the same entry; all right is all marks, rubbish is none."""
    _, cohort = taken(lesson)
    kept, given = records(cohort, lesson), scores(cohort, lesson)
    for candidate, texts in typed(lesson).items():
        own = judge_lesson(lesson, candidate, texts)
        assert not kept[candidate].held and not kept[candidate].problem
        found = {name: (item["standing"], item["tag"]) for name, item in kept[candidate].items.items()}
        assert found == {name: (verdict.standing, verdict.tag) for name, verdict in own.items()}
        found = {name: mark for (one, name), mark in given.items() if one == candidate}
        assert found == {name: (verdict.marks, False) for name, verdict in own.items()}
    assert kept[1].marks == sum(exercise.marks for exercise in of_lesson(lesson))
    assert {item["standing"] for item in kept[1].items.values()} == {RIGHT}
    assert kept[3].marks == 0 and {item["standing"] for item in kept[3].items.values()} == {NOT_JUDGED}


@every_lesson
def test_a_slip_costs_its_marks_once_in_the_run(taken, lesson):
    """Where an item builds on another, sound work on the own slip is marked as carried forward, with all its marks."""
    _, cohort = taken(lesson)
    items = records(cohort, lesson)[2].items
    carried = {name for name, item in items.items() if item["tag"] == "carried-forward"}
    following = {exercise.name for exercise in of_lesson(lesson) if exercise.follows and not exercise.critical}
    assert bool(carried) == bool(following) and carried <= following
    assert all(items[name]["marks"] == items[name]["out_of"] for name in carried)


@every_lesson
def test_the_report_adds_up(taken, lesson):
    """The cohort's table holds each candidate's sum, and each candidate has a page."""
    _, cohort = taken(lesson)
    with (cohort.root / "report" / f"{lesson}-marks.csv").open(encoding="utf-8-sig") as handle:
        rows = list(csv.DictReader(handle))
    kept = records(cohort, lesson)
    assert [float(row["total"]) for row in rows] == [kept[int(row["candidate"])].marks for row in rows]
    assert len(rows) == 3 and (cohort.root / "report" / f"{lesson}.html").exists()
    assert all((cohort.root / "feedback" / folder_name(one) / f"{lesson}.html").exists() for one in kept)


@every_lesson
def test_stock_autograde_gives_the_same_marks(taken, lesson):
    """The unmodified `nbgrader autograde` gives candidate 2's notebook the same mark for every item."""
    collected, cohort = taken(lesson)
    for candidate in (1, 3):
        shutil.rmtree(collected.submitted(candidate, lesson).parent)
    done = subprocess.run([sys.executable, "-m", "nbgrader", "autograde", lesson], cwd=collected.root,
                          capture_output=True, text=True)
    assert done.returncode == 0, done.stderr[-2000:]
    ours = {place: mark for place, mark in scores(cohort, lesson).items() if place[0] == 2}
    assert ours and scores(collected, lesson) == ours
