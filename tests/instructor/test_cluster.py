"""Marking on a Dask cluster: a real scheduler and real workers, processes of their own on the loopback."""

import json
import os
import socket
import struct
import subprocess
import sys
import time
from contextlib import contextmanager

import pytest

from instructor.marking import cluster as cluster_module
from instructor.marking import pool as pool_module
from instructor.marking.arriving import Arriving
from instructor.marking.batch import mark
from instructor.marking.cluster import Cluster
from instructor.marking.distant import frames
from instructor.marking.limits import Limits
from instructor.marking.recording import scores
from instructor.marking.running import Cell, Run
from instructor.refusal import Refusal
from instructor.verbs import main
from tests.instructor.conftest import copied
from tests.instructor.notebooks import filled, hand_in, right_answers
from workbench.exercises import of_lesson

if not os.environ.get("CI"):
    pytest.importorskip("distributed", reason="Dask is not installed: pip install '.[cluster]'")

LESSON = "measuring_screw"
OUT_OF = sum(exercise.marks for exercise in of_lesson(LESSON))
SLOW = "import time\ntime.sleep(0.2)  # long enough to be in the midst of it when its worker dies"


class Scheduler:
    """A scheduler and its workers; what a test starts here ends with the test."""

    def __init__(self, folder):
        self.folder, self.processes, self.workers = folder, [], []
        told = folder / "scheduler.json"
        self._start("dask_scheduler", "--port", "0", "--scheduler-file", str(told))
        self._wait(lambda: told.exists() and told.read_text().strip().endswith("}"))
        self.address = json.loads(told.read_text())["address"]

    def _start(self, program, *words, code=None):
        log = self.folder / f"{len(self.processes)}.log"
        environment = os.environ | {"DASK_DISTRIBUTED__WORKER__DAEMON": "False", "PYTHONWARNINGS": "ignore"}
        run = ["-c", code] if code else ["-m", f"distributed.cli.{program}"]
        with log.open("w") as errors:
            process = subprocess.Popen([sys.executable, *run, *words, "--host", "127.0.0.1", "--no-dashboard"],
                                       stdout=errors, stderr=errors, env=environment)
        self.processes.append(process)
        return process, log

    def start_workers(self, count, code=None):
        """Start workers with one thread each; code: run instead of their usual program."""
        started = [self._start("dask_worker", self.address, "--no-nanny", "--nthreads", "1", "--local-directory",
                               str(self.folder), code=code) for _ in range(count)]
        self._wait(lambda: all("Registered to" in log.read_text() for _, log in started))
        self.workers += [process for process, _ in started]

    def _wait(self, ready):
        until = time.monotonic() + 60
        while not ready():
            assert time.monotonic() < until, [path.read_text()[-500:] for path in self.folder.glob("*.log")]
            time.sleep(0.05)

    def stop(self):
        for process in self.processes:
            process.kill()
            process.wait()


@contextmanager
def scheduler(folder):
    made = Scheduler(folder)
    try:
        yield made
    finally:
        made.stop()


@pytest.fixture
def dask(tmp_path):
    """A scheduler without workers."""
    (tmp_path / "dask").mkdir()
    with scheduler(tmp_path / "dask") as made:
        yield made


@pytest.fixture(scope="module")
def two(tmp_path_factory):
    """A scheduler and two workers, for tests that kill nobody."""
    with scheduler(tmp_path_factory.mktemp("dask")) as made:
        made.start_workers(2)
        yield made


def notebook(number, own="print(1)"):
    cells = [Cell("travel", f"# Answer {LESSON}.travel\ntravel = {number} mm"), Cell("own-0", own, kept=True)]
    return number, cells, {"WORKBENCH_CANDIDATE": str(number), "WORKBENCH_SERIES": "1"}


def answered(number):
    return {f"{LESSON}.travel": f"{number} mm"}


def test_marks_are_the_same_as_here_and_each_is_recorded_once(cohort, two, tmp_path, capsys):
    """`mark --cluster` gives every candidate the mark, message and picture that `mark` gives."""
    for candidate in cohort.roll[:6]:
        typed = right_answers(LESSON, candidate) | ({"travel": "0.5 + 0.5"} if candidate % 2 else {})
        hand_in(cohort, LESSON, candidate, filled(cohort, LESSON, typed))
    (tmp_path / "here").mkdir()
    here = copied(cohort, tmp_path / "here")
    assert main(["--cohorts", str(here.root.parent), "mark", "--cohort", "demo"]) == 0
    assert main(["--cohorts", str(cohort.root.parent), "mark", "--cohort", "demo", "--cluster", two.address]) == 0
    assert "Cells are run on 2 workers of tcp://127.0.0.1" in capsys.readouterr().out
    assert scores(cohort, LESSON) == scores(here, LESSON) and len(scores(cohort, LESSON)) == 6 * len(of_lesson(LESSON))
    files = [path.relative_to(here.root) for path in (here.root / "marked").rglob("*") if path.is_file()]
    assert len(files) >= 18
    assert all((cohort.root / path).read_bytes() == (here.root / path).read_bytes() for path in files)


def test_a_worker_killed_midway_loses_and_doubles_nothing(dask):
    """Its notebooks are run again by the other one, and by one that joins; each has one result, the right one."""
    dask.start_workers(2)
    came = []
    with Cluster(dask.address) as pool:
        for tag, ran in pool.run(notebook(number, SLOW) for number in range(1, 31)):
            came.append(tag)
            assert ran.answers == answered(tag) and ran.stopped == ""
            if len(came) == 5:
                dask.workers[0].kill()
            if len(came) == 10:
                dask.start_workers(1)
                dask.workers[1].kill()
    assert sorted(came) == list(range(1, 31))


DYING = """
import os, sys
from instructor.marking import distant
run = distant.run
def dying(how, content):
    if b"lose this worker" in content:
        os.kill(os.getpid(), 9)
    return run(how, content)
distant.run = dying
from distributed.cli.dask_worker import main
main()
"""


def test_a_notebook_that_loses_two_workers_is_reported_and_its_neighbours_are_not(dask):
    """It is not tried for ever; all the others have their results, though they were with the same workers."""
    dask.start_workers(3, DYING)
    with Cluster(dask.address) as pool:
        results = dict(pool.run(notebook(number, "# lose this worker" if number == 3 else SLOW)
                                for number in range(1, 13)))
    assert sorted(results) == list(range(1, 13))
    assert "lost, twice" in results.pop(3).stopped
    assert all(ran.answers == answered(number) and not ran.stopped for number, ran in results.items())
    assert [worker.poll() is None for worker in dask.workers].count(True) == 1


def test_when_the_cluster_is_lost_what_was_marked_is_kept(cohort, dask):
    """The run ends with a sentence; run again without the cluster it goes on, and nothing is doubled."""
    for candidate in cohort.roll:
        typed = right_answers(LESSON, candidate) | {"travel": "0.5 + 0.5"}
        hand_in(cohort, LESSON, candidate, filled(cohort, LESSON, typed))
    dask.start_workers(1)
    done = 0
    with pytest.raises(Refusal, match="cannot be used any longer"):
        with Cluster(dask.address) as pool:
            for _ in mark(cohort, LESSON, cohort.roll, pool=pool, quick=False):
                done += 1
                if done == 3:
                    dask.stop()
    assert 3 <= len(scores(cohort, LESSON)) / len(of_lesson(LESSON)) < 12
    assert len(list(mark(cohort, LESSON, cohort.roll))) == 12
    assert len(scores(cohort, LESSON)) == 12 * len(of_lesson(LESSON))


HOSTILE = """
from instructor.marking import distant
import os
class Opened:
    def __reduce__(self):
        return os.system, ("touch {path}",)
distant.run = lambda how, content: Opened()
from distributed.cli.dask_worker import main
main()
"""


@pytest.mark.skipif(sys.platform != "linux", reason="namespaces are Linux's")
def test_what_a_hostile_worker_sends_is_never_opened_where_the_cohort_is(dask, tmp_path):
    """An object that runs code when it is loaded reaches no file of the instructor's; without the room it does."""
    path = tmp_path / "opened"
    dask.start_workers(1, HOSTILE.replace("{path}", str(path)))
    for isolate in (True, False):
        with pytest.raises(Refusal, match="cannot be used any longer"):
            with Cluster(dask.address) as pool:
                pool.patience = 5
                if not isolate:
                    pool._stop(pool._workers.pop())
                    pool.isolate = pool.isolated = False
                list(pool.run([notebook(1)]))
        assert path.exists() != isolate


class Forged:
    """In place of the courier: says what it likes."""

    def __init__(self, monkeypatch, code):
        program = ("-P", "-c", "import sys, json, socket, struct, time, os\nhow = json.loads(sys.argv[1])\n"
                   "control = socket.socket(fileno=how['control'])\n"
                   "control.sendall(json.dumps({'isolated': True, 'why': '', 'protection': 'p'}).encode() + b'\\n')\n"
                   "message, links, _, _ = socket.recv_fds(control, 4, 1)\n"
                   "number, = struct.unpack('!I', message)\nlink = socket.socket(fileno=links[0])\n" + code +
                   "\ntime.sleep(60)\n")
        monkeypatch.setattr(cluster_module, "PROGRAM", program)


@pytest.mark.parametrize("code", [
    "control.sendall(b'x' * 1_000_000)",
    "control.sendall(b'[' * 90_000 + b'\\n')",
    "control.sendall(b'not JSON\\n')",
    "control.sendall(b'[77, \"\", 0]\\n')",
    "control.sendall(b'{}\\n')",
    "os._exit(0)",
])
def test_what_the_courier_must_not_say_ends_the_run_in_words(code, monkeypatch):
    """A courier that is not itself any more costs the run, not the instructor's process."""
    Forged(monkeypatch, code)
    with pytest.raises(Refusal, match="cannot be used any longer"):
        with Cluster("tcp://127.0.0.1:1") as pool:
            list(pool.run([notebook(1)]))


@pytest.mark.parametrize("code, told", [
    ("link.sendall(b'x' * 6_000_000)", "more than"),
    ("link.sendall(struct.pack('!I', 9) + b'{\"end\": 1}'[:9])", "without saying so"),
    ("link.sendall(struct.pack('!I', 5) + b'\\xff' * 5)", "without saying so"),
    ("link.sendall(b'')", "without saying so"),
])
def test_results_are_bounded_and_looked_at_as_a_childs(code, told, monkeypatch):
    """What is too large or has another form is left out, and the reason told."""
    Forged(monkeypatch, f"try:\n    {code}\nexcept OSError:\n    pass\n"
                        "link.close()\ncontrol.sendall(json.dumps([number, '', 0]).encode() + b'\\n')")
    with Cluster("tcp://127.0.0.1:1") as pool:
        [(_, ran)] = pool.run([notebook(1)])
    assert ran.answers == {} and told in ran.stopped


def test_a_run_that_travels_arrives_as_it_was():
    """What a worker's pool found is what the instructor's side finds, sent in a child's form."""
    cells = [Cell("travel", ""), Cell("own-0", ""), Cell("pin", "")]
    ran = Run(answers={"a.travel": "3 mm"}, refusals={"a.pin": "why"}, troubles={"own-0": "ZeroDivisionError"},
              outputs={"own-0": [{"output_type": "stream", "name": "stdout", "text": "x"}]})
    arriving = Arriving([cell.id for cell in cells], Limits())
    content = frames(cells, ran)
    for start in range(0, len(content), 7):
        arriving.take(content[start:start + 7])
    assert arriving.finished() == ran
    assert struct.unpack("!I", content[:4])[0] < len(content)


def test_another_version_of_the_workbench_is_not_used(two, monkeypatch):
    """A worker that might read an entry differently gets none."""
    monkeypatch.setattr(cluster_module.distant, "program", lambda: "another")
    with pytest.raises(Refusal, match="another version"):
        with Cluster(two.address):
            pass


def test_what_cannot_be_reached_is_told_in_one_sentence(dask, cohort, capsys):
    """A wrong address, nobody at the address, nobody at work."""
    hand_in(cohort, LESSON, 3, filled(cohort, LESSON, {}))
    with socket.create_server(("127.0.0.1", 0)) as server:
        free = f"tcp://127.0.0.1:{server.getsockname()[1]}"
    for address, said in ((dask.address, "has no workers"), (free, "no scheduler answers"), ("here", "no scheduler's")):
        assert main(["--cohorts", str(cohort.root.parent), "mark", "--cohort", "demo", "--cluster", address]) == 2
        told = capsys.readouterr().err
        assert said in told and told.count("\n") == 1


def test_no_worker_learns_of_the_cohort(two, monkeypatch):
    """Out go cells, the candidate's number and limits: no path of the roll or gradebook, no password."""
    monkeypatch.setenv("PGPASSWORD", "secret")
    look = "import os\nprint('secret' in str(os.environ), os.listdir('.'))"
    with Cluster(two.address) as pool:
        [(_, ran)] = pool.run([notebook(1, look)])
    assert ran.outputs["own-0"][0]["text"] == "False []\n"


def test_a_cluster_without_dask_is_refused_in_words(monkeypatch):
    """The sentence says what to install."""
    monkeypatch.setattr(cluster_module, "find_spec", lambda name: None)
    with pytest.raises(Refusal, match="pip install"):
        Cluster("tcp://127.0.0.1:8786")


def test_the_pool_on_a_worker_is_isolated_as_here(two):
    """Required isolation holds on the workers as well, and is told."""
    with Cluster(two.address, require_isolation=sys.platform == "linux") as pool:
        assert pool.isolated == (sys.platform == "linux")
        assert (pool_module.ISOLATED if pool.isolated else pool_module.LIMITED) in pool.protection
