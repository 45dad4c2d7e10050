import json
import os
import signal
import subprocess
import sys
import time

import pytest

from instructor.marking.batch import mark, records
from instructor.marking.pending import pending, sign
from instructor.marking.recording import gradebook, scores
from instructor.verbs import main
from tests.instructor.marking.test_recording import in_process
from tests.instructor.notebooks import filled, hand_in, right_answers
from workbench.exercises import of_lesson

LESSON = "measuring_screw"
ALL = (3, 4, 5)


@pytest.fixture
def done(cohort):
    """A cohort in which three candidates' work is marked."""
    for candidate in ALL:
        hand_in(cohort, LESSON, candidate, filled(cohort, LESSON, right_answers(LESSON, candidate)))
    list(mark(cohort, LESSON, ALL, runner=in_process))
    return cohort


def test_what_is_marked_and_as_it_was_is_left_alone(done):
    """Nothing is pending after a run but what nobody has marked."""
    assert pending(done, LESSON, ALL) == ()
    assert pending(done, LESSON, (2, *ALL)) == (2,)


def test_another_program_marks_all_again(done, monkeypatch):
    """Work that another version of the program marked is pending."""
    monkeypatch.setattr("instructor.marking.distant.program", lambda: "another")
    assert pending(done, LESSON, ALL) == ALL


def test_changed_work_is_pending(done):
    """A file handed in anew is marked, the others are not."""
    hand_in(done, LESSON, 4, filled(done, LESSON, {}))
    assert pending(done, LESSON, ALL) == (4,)


@pytest.mark.parametrize("name, content", [("verdicts.json", "{"), ("verdicts.json", None), ("notebook", None)])
def test_a_record_that_is_damaged_or_gone_is_made_again(done, name, content):
    """Record and marked notebook both have to be there."""
    path = done.marked(5, LESSON) / (f"{LESSON}.ipynb" if name == "notebook" else name)
    path.unlink() if content is None else path.write_text(content)
    assert pending(done, LESSON, ALL) == (5,)


def test_a_gradebook_that_lacks_the_marks_is_filled_again(done):
    """A stop between files and gradebook leaves the work pending, though its record is there."""
    with gradebook(done) as book:
        book.remove_submission(LESSON, "003")
    assert pending(done, LESSON, ALL) == (3,)
    list(mark(done, LESSON, (3,), runner=in_process))
    assert pending(done, LESSON, ALL) == ()


def test_a_mark_given_by_hand_leaves_work_done(done):
    """What the instructor changed is no reason to mark again."""
    with gradebook(done) as book:
        grade = next(iter(book.find_submission(LESSON, "003").notebooks[0].grades))
        grade.manual_score = 0.5
        book.db.commit()
    assert pending(done, LESSON, ALL) == ()


def test_held_work_is_pending_once_the_instructor_accepts_it(cohort):
    """Held work is done until it is accepted."""
    hand_in(cohort, LESSON, 3, filled(cohort, LESSON, right_answers(LESSON, 8)))
    list(mark(cohort, LESSON, (3,), runner=in_process))
    assert pending(cohort, LESSON, (3,)) == ()
    assert pending(cohort, LESSON, (3,), accept_held=True) == (3,)


def test_a_fault_of_ours_is_pending(cohort):
    """Work that was not marked through our own fault is tried again."""

    def faulty(*_):
        raise RuntimeError("a fault")

    hand_in(cohort, LESSON, 3, filled(cohort, LESSON, {}))
    list(mark(cohort, LESSON, (3,), runner=faulty))
    assert pending(cohort, LESSON, (3,)) == (3,)


def test_mark_changed_marks_only_what_is_new(done, capsys):
    """`mark --changed` says how many are as before, and marks the rest."""
    hand_in(done, LESSON, 6, filled(done, LESSON, right_answers(LESSON, 6)))
    before = {one: (done.marked(one, LESSON) / "verdicts.json").stat().st_mtime_ns for one in ALL}
    assert main(["--cohorts", str(done.root.parent), "mark", "--cohort", done.name, "--changed"]) == 0
    told = capsys.readouterr().out
    assert "3 as before, 1 to mark." in told and "isolated" in told
    assert {one: (done.marked(one, LESSON) / "verdicts.json").stat().st_mtime_ns for one in ALL} == before
    assert 6 in records(done, LESSON)


@pytest.mark.skipif(sys.platform == "win32", reason="marking runs on Linux and macOS")
def test_a_run_that_was_killed_goes_on_where_it_was(cohort, capsys):
    """After SIGKILL the same command marks what is left and nothing else; the marks are all there."""
    slow = "import time\ntime.sleep(0.4)"
    for candidate in cohort.roll:
        work = filled(cohort, LESSON, right_answers(LESSON, candidate))
        work.cells.append({"cell_type": "code", "id": "mine", "metadata": {}, "source": slow, "outputs": [],
                           "execution_count": None})
        hand_in(cohort, LESSON, candidate, json.dumps(work).encode())
    words = ["--cohorts", str(cohort.root.parent), "mark", "--cohort", cohort.name]
    run = subprocess.Popen([sys.executable, "-m", "instructor", *words], stdout=subprocess.DEVNULL)
    until = time.monotonic() + 90
    while len(records(cohort, LESSON)) < 3 and time.monotonic() < until:
        time.sleep(0.05)
    os.kill(run.pid, signal.SIGKILL)
    run.wait()
    assert sign(cohort, LESSON).exists()
    left = pending(cohort, LESSON, cohort.roll)
    assert 0 < len(left) < len(cohort.roll)
    assert main(words) == 0
    told = capsys.readouterr().out
    assert "The last run was stopped" in told and f"{len(left)} to mark" in told
    assert not sign(cohort, LESSON).exists() and pending(cohort, LESSON, cohort.roll) == ()
    wanted = {(one, exercise.name): (float(exercise.marks), False)
              for one in cohort.roll for exercise in of_lesson(LESSON)}
    assert scores(cohort, LESSON) == wanted


def test_marks_survive_the_end_of_the_process_that_wrote_them(done):
    """What a ledger has written is there though the process was killed before it closed anything."""
    code = (
        "import os, sys\nfrom pathlib import Path\nfrom instructor.cohort import open_cohort\n"
        "from instructor.marking.recording import ledger\n"
        f"cohort = open_cohort({done.name!r}, Path({str(done.root.parent)!r}))\n"
        f"with ledger(cohort, {LESSON!r}) as taking:\n    taking.write(9, {{}}, (), None)\n"
        "    os.kill(os.getpid(), 9)\n"
    )
    ended = subprocess.run([sys.executable, "-c", code])
    assert ended.returncode == -signal.SIGKILL
    assert (9, "travel") in scores(done, LESSON)
