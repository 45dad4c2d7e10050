"""What breaks a marking run from outside: after it is run again, every row and file is as if nothing had been."""

import hashlib
import json
import os
import random
import signal
import sqlite3
import subprocess
import sys
import time
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from instructor import collection
from instructor.cohort import open_cohort
from instructor.demo import submission
from instructor.marking.batch import handed_in, mark
from instructor.release import released_notebook
from instructor.verbs import main
from tests.instructor.conftest import copied
from tests.instructor.marking.test_recording import by_hand, in_process
from tests.instructor.notebooks import content_of, filled, hand_in, right_answers
from workbench.exercises import of_lesson

LESSON = "measuring_screw"
WHO = (1, 3, 4, 5, 8)  # invented: right, slips, carried forward, unexplained
ITEMS = len(of_lesson(LESSON))
POINTS = 20
STAMP = "2026-03-02 09:30:00 UTC\n"
ROWS = {
    "grades": "SELECT s.student_id, a.name, n.name, c.name, g.auto_score, g.manual_score, g.extra_credit, "
              "g.needs_manual_grade FROM grade g JOIN submitted_notebook sn ON g.notebook_id = sn.id "
              "JOIN notebook n ON sn.notebook_id = n.id JOIN submitted_assignment s ON sn.assignment_id = s.id "
              "JOIN assignment a ON s.assignment_id = a.id JOIN base_cell c ON g.cell_id = c.id ORDER BY 1, 2, 3, 4",
    "comments": "SELECT s.student_id, c.name, m.auto_comment, m.manual_comment FROM comment m "
                "JOIN submitted_notebook sn ON m.notebook_id = sn.id "
                "JOIN submitted_assignment s ON sn.assignment_id = s.id "
                "JOIN base_cell c ON m.cell_id = c.id ORDER BY 1, 2",
    "submissions": "SELECT s.student_id, a.name, s.timestamp FROM submitted_assignment s "
                   "JOIN assignment a ON s.assignment_id = a.id ORDER BY 1, 2",
}


def rows(cohort):
    """Every row that marking makes, by names in place of made-up keys, and how many each table has."""
    with sqlite3.connect(cohort.root / "gradebook.db") as book:
        assert book.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
        found = {name: book.execute(statement).fetchall() for name, statement in ROWS.items()}
        tables = [name for (name,) in book.execute("SELECT name FROM sqlite_master WHERE type = 'table'")]
        found["counts"] = {name: book.execute(f'SELECT count(*) FROM "{name}"').fetchone()[0] for name in tables}
    book.close()
    return found


def files(cohort):
    """Every file of the cohort but the gradebook, by its content."""
    return {str(path.relative_to(cohort.root)): hashlib.sha256(path.read_bytes()).hexdigest()
            for path in cohort.root.rglob("*") if path.is_file() and not path.name.startswith("gradebook.db-")
            and path.name not in ("gradebook.db", "nbgrader_config.py")}


def state(cohort):
    return rows(cohort), files(cohort)


def hand_in_all(cohort, work):
    for candidate in WHO:
        path = hand_in(cohort, LESSON, candidate, work(candidate))
        (path.parent / "timestamp.txt").write_text(STAMP)


@pytest.fixture
def fresh(cohort):
    """Work that was never marked."""
    slip, released = released_notebook(cohort, LESSON)
    hand_in_all(cohort, lambda candidate: submission(released, slip, candidate))
    return cohort


@pytest.fixture
def again(cohort):
    """Work marked before, with a mark by hand; since then all of it was handed in anew."""
    hand_in_all(cohort, lambda candidate: filled(cohort, LESSON, {}))
    run(cohort)
    by_hand(cohort, LESSON, 3, "travel", 0.5)
    slip, released = released_notebook(cohort, LESSON)
    hand_in_all(cohort, lambda candidate: submission(released, slip, candidate))
    return cohort


def run(cohort):
    return list(mark(cohort, LESSON, handed_in(cohort, LESSON), runner=in_process))


def undisturbed(cohort, place):
    """The state after a run in which nothing happens."""
    place.mkdir()
    copy = copied(cohort, place)
    run(copy)
    return state(copy)


@pytest.fixture(scope="module")
def interrupted():
    """Marks a cohort in a process that is ended at a point (0: none); gives how it ended, and the points passed."""
    program = [sys.executable, "-m", "tests.instructor.marking.interrupted"]
    with subprocess.Popen(program, cwd=Path(__file__).parents[3], stdin=subprocess.PIPE, stdout=subprocess.PIPE,
                          text=True) as process:

        def mark_until(cohort, at):
            process.stdin.write(json.dumps({"root": str(cohort.root), "at": at}) + "\n")
            process.stdin.flush()
            answer = json.loads(process.stdout.readline())
            return answer["status"], answer["points"]

        yield mark_until
        process.stdin.close()


@pytest.mark.parametrize("kind, seed", [("fresh", 1), ("again", 2)])
def test_a_recorder_killed_anywhere_loses_and_doubles_nothing(kind, seed, request, tmp_path, interrupted):
    """At each of 20 random points of writing, work remains; run again, rows and files are the undisturbed run's."""
    cohort = request.getfixturevalue(kind)
    expected = undisturbed(cohort, tmp_path / "undisturbed")
    (tmp_path / "counted").mkdir()
    status, points = interrupted(copied(cohort, tmp_path / "counted"), 0)
    assert status == 0 and points > 10 * len(WHO)
    last = points - 8  # behind it everything is written; only the gradebook's closing follows
    for at in sorted(random.Random(seed).sample(range(1, last), POINTS // 2)):
        (tmp_path / str(at)).mkdir()
        copy = copied(cohort, tmp_path / str(at))
        status, _ = interrupted(copy, at)
        assert os.WIFSIGNALED(status) and os.WTERMSIG(status) == signal.SIGKILL, at
        assert all(json.loads(path.read_text()) for path in copy.root.glob("marked/*/*/verdicts.json")), at
        left = rows(copy)
        assert left != expected[0], f"nothing was left to do at point {at} of {points}"
        by_student = {row[0]: [one for one in left["grades"] if one[0] == row[0]] for row in left["grades"]}
        assert all(len(found) == ITEMS for found in by_student.values()), at
        status, _ = interrupted(copy, 0)
        assert status == 0 and state(copy) == expected, at


def descendants(pid):
    found, left = set(), [pid]
    while left:
        try:
            children = Path(f"/proc/{left[0]}/task/{left.pop(0)}/children").read_text().split()
        except OSError:
            continue
        found |= set(map(int, children))
        left += map(int, children)
    return found


def alive(pid):
    try:
        return Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()[0] != "Z"
    except OSError:
        return False


@pytest.mark.skipif(sys.platform != "linux", reason="processes are followed through /proc")
def test_the_whole_command_killed_leaves_no_process_and_goes_on(cohort, tmp_path):
    """`mark`, killed while cells run: everything it started ends, and the same command finishes the work."""
    slow = {"travel": "__import__('time').sleep(0.4) or 0.5 + 0.5"}
    hand_in_all(cohort, lambda candidate: filled(cohort, LESSON, right_answers(LESSON, candidate) | slow))
    (tmp_path / "undisturbed").mkdir()
    copy = copied(cohort, tmp_path / "undisturbed")
    list(mark(copy, LESSON, handed_in(copy, LESSON)))
    expected = state(copy)
    words = ["--cohorts", str(cohort.root.parent), "mark", "--cohort", cohort.name]
    process = subprocess.Popen([sys.executable, "-m", "instructor", *words], cwd=Path(__file__).parents[3],
                               stdout=subprocess.DEVNULL)
    until = time.monotonic() + 90
    while not list(cohort.root.glob("marked/*/*/verdicts.json")):
        assert process.poll() is None and time.monotonic() < until
        time.sleep(0.005)
    started = descendants(process.pid)
    process.kill()
    process.wait()
    assert rows(cohort) != expected[0] and started
    until = time.monotonic() + 10
    while any(map(alive, started)):
        assert time.monotonic() < until, "something that it started goes on"
        time.sleep(0.05)
    assert main(words) == 0
    assert state(cohort) == expected


@pytest.fixture
def small_disk(tmp_path):
    """A disk of a few megabytes."""
    place = tmp_path / "disk"
    place.mkdir()
    done = subprocess.run(["mount", "-t", "tmpfs", "-o", "size=6m", "tmpfs", str(place)], capture_output=True)
    if done.returncode != 0:
        assert not os.environ.get("CI"), "CI needs the right to mount a disk"
        pytest.skip("no right to mount a small disk here")
    yield place
    subprocess.run(["umount", "-l", str(place)], check=True)


def fill(place, left_bytes):
    """Fill a disk but for so many bytes."""
    disk = os.statvfs(place)
    path = place / "filler"
    path.write_bytes(b"x" * max(0, disk.f_bavail * disk.f_frsize - left_bytes))
    return path


@pytest.mark.parametrize("left_bytes", [0, 8_192, 40_960, 73_728, 106_496, 131_072])
def test_a_full_disk_is_told_and_costs_nothing(again, small_disk, left_bytes, tmp_path, capsys, monkeypatch):
    """With room for nothing, or for part of it, the run ends in a sentence; with room again it finishes."""
    expected = undisturbed(again, tmp_path / "undisturbed")
    cohort = copied(again, small_disk)
    monkeypatch.setattr("instructor.marking.pool.Pool", NoPool)
    filler = fill(small_disk, left_bytes)
    words = ["--cohorts", str(small_disk), "mark", "--cohort", cohort.name]
    assert main(words) == 2
    told = capsys.readouterr().err
    assert told.startswith("Not done: ") and told.count("\n") == 1
    assert "No space left" in told or "gradebook cannot be used" in told
    filler.unlink()
    assert rows(cohort) != expected[0]
    assert main(words) == 0
    assert state(cohort) == expected


class NoPool:
    """In place of the pool, where no cells need running and time is short."""

    protection = "not at all"

    def __init__(self, **_):
        pass

    def __enter__(self):
        return self

    def __exit__(self, *_):
        pass

    def run(self, work):
        """What a pool would give for plain entries."""
        from instructor.marking.running import Run

        for tag, cells, *_ in work:
            if isinstance(cells, Run):
                yield tag, cells
                continue
            typed = {cell.id: cell.source.rpartition("= ")[2] for cell in cells if cell.source.startswith("# Answer")}
            yield tag, Run(answers={f"{LESSON}.{name}": text for name, text in typed.items() if text})


def test_a_gradebook_that_another_program_holds_is_told_and_costs_nothing(again, tmp_path, capsys, monkeypatch):
    """Held midway for longer than it waits, the run ends in a sentence; afterwards it finishes."""
    expected = undisturbed(again, tmp_path / "undisturbed")
    monkeypatch.setattr("instructor.marking.pool.Pool", NoPool)
    going = mark(again, LESSON, handed_in(again, LESSON), runner=in_process)
    next(going), next(going)
    holder = sqlite3.connect(again.root / "gradebook.db", isolation_level=None)
    holder.execute("BEGIN IMMEDIATE")
    with pytest.raises(Exception, match="locked"):
        next(going)
    words = ["--cohorts", str(again.root.parent), "mark", "--cohort", again.name]
    assert main(words) == 2
    assert "gradebook cannot be used" in capsys.readouterr().err
    holder.execute("ROLLBACK")
    holder.close()
    assert rows(again) != expected[0]
    assert main(words) == 0
    assert state(again) == expected


def test_a_gradebook_held_for_a_moment_is_waited_for(fresh, tmp_path):
    """Another program's short writing stops nothing."""
    from threading import Timer

    expected = undisturbed(fresh, tmp_path / "undisturbed")
    going = mark(fresh, LESSON, handed_in(fresh, LESSON), runner=in_process)
    next(going)
    holder = sqlite3.connect(fresh.root / "gradebook.db", isolation_level=None, check_same_thread=False)
    holder.execute("BEGIN IMMEDIATE")
    Timer(1.0, lambda: (holder.execute("ROLLBACK"), holder.close())).start()
    list(going)
    assert state(fresh) == expected


class SetBack(datetime):
    """The clock, set back by a day; an injected one, the machine's stays."""

    @classmethod
    def now(cls, tz=None):
        return datetime.now(tz) - timedelta(days=1)


def test_a_clock_set_back_changes_no_mark(cohort, tmp_path, monkeypatch):
    """Work collected and marked after the clock went back counts as the newer work that it is."""
    slip, released = released_notebook(cohort, LESSON)
    given = tmp_path / "given"
    for candidate in WHO:
        (given / f"{candidate:03d}").mkdir(parents=True)

    def collect(work):
        for candidate in WHO:
            (given / f"{candidate:03d}" / f"{LESSON}.ipynb").write_bytes(work(candidate))
        return collection.collect(cohort, LESSON, [given])

    def content(candidate):
        return content_of(submission(released, slip, candidate))

    def empty(candidate):
        return content_of(filled(cohort, LESSON, {}))

    (tmp_path / "undisturbed").mkdir()
    collect(empty)
    run(cohort)
    before = (cohort.submitted(3, LESSON) / "timestamp.txt").read_text()
    by_hand(cohort, LESSON, 3, "travel", 0.5)
    other = copied(cohort, tmp_path / "undisturbed")

    monkeypatch.setattr(collection, "datetime", SetBack)
    monkeypatch.setattr(time, "time", lambda ticks=time.time: ticks() - 86_400)
    assert collect(content).changed == list(WHO)
    assert (cohort.submitted(3, LESSON) / "timestamp.txt").read_text() < before
    run(cohort)
    monkeypatch.undo()

    assert collection.collect(other, LESSON, [given]).changed == list(WHO)
    run(open_cohort(other.name, other.root.parent))
    ours, theirs = state(cohort), state(other)
    assert ours[0]["grades"] == theirs[0]["grades"] and ours[0]["comments"] == theirs[0]["comments"]
    assert ours[0]["counts"] == theirs[0]["counts"]
    assert [row[:2] for row in ours[0]["submissions"]] == [row[:2] for row in theirs[0]["submissions"]]
    without_times = [{name: value for name, value in found[1].items() if not name.endswith("timestamp.txt")}
                     for found in (ours, theirs)]
    assert without_times[0] == without_times[1]
    stamps = {row[2][:10] for row in ours[0]["submissions"]}
    assert stamps == {(datetime.now(UTC) - timedelta(days=1)).strftime("%Y-%m-%d")}
