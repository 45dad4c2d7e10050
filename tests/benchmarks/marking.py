"""How fast the marking is: against stock nbgrader, against no isolation at all, and as cohorts grow.

Run as `python -m tests.benchmarks.marking` with nothing else to do on the machine (about 6 minutes), or with
smaller figures (`--submissions 12 --growth 50,100,200`). One lesson, invented submissions of every standing, none like
another; a third has a calculation of its own, so it must be run, one in eight draws a picture. In one run:
- stock: `nbgrader autograde`, its unmodified command, on the same cohort with the settings printed;
- ours, everything run isolated, and again with the short way, as `python -m instructor mark` does it;
- bare: the same cells in one warm shell in this process, with capture, judging and recording, no isolation;
- an escape probe in the very pool that was timed.
Time is per notebook, on the clock: what either takes to start is measured beside it and left out of the
ratios. Refuses to report where a mark differs from stock, or where the probe gets out. The last line is JSON:
{"marking": {"ratio_to_stock", "ratio_to_stock_short", "ratio_to_bare", "notebooks_per_s", "peak_rss_mb", "growth"}}.
"""

import argparse
import gc
import json
import os
import resource
import shutil
import subprocess
import sys
import tempfile
import threading
import time
from collections import defaultdict
from contextlib import contextmanager
from pathlib import Path

from instructor.cohort import enrol, open_cohort
from instructor.invented import PATTERNS, answers
from instructor.marking import batch, judging, reading, recording, short_way
from instructor.marking.limits import Limits
from instructor.marking.pool import Pool
from instructor.marking.recording import scores
from instructor.marking.running import Cell, Run, cells_of, environment
from instructor.release import release, released_notebook

LESSON = "measuring_screw"
CALCULATION = "half = 1 / 2\nsum_of = [half * n for n in range(10)]\nprint(sum(sum_of))"
PICTURE = "import matplotlib.pyplot as plt\nplt.figure(figsize=(3, 2))\nplt.plot([0, 1, 2])\nplt.show()"
PROBE = """
import ctypes, os, socket
def tried(act):
    try:
        act()
    except (OSError, FileNotFoundError):
        return
    print("OUT", act.__name__)
def write(): open({root!r} + "/probe", "w")
def read(): os.listdir({root!r})
def connect(): socket.create_connection(("127.0.0.1", {port}), timeout=1)
def parent(): os.kill(os.getppid() or 10**9, 0)
def others(): os.listdir("/proc")[0]
for act in (write, read, connect, parent, others):
    tried(act)
print("probed", os.getpid())
"""


def invented_cohort(parent: Path, count: int):
    """A cohort of `count` with the lesson released and handed in by everybody."""
    cohort, _ = enrol("bench", tuple(range(1, count + 1)), parent)
    slip = release(cohort, LESSON, LESSON)
    _, released = released_notebook(cohort, LESSON)
    for candidate in cohort.roll:
        typed = answers(LESSON, candidate, slip.series, like=(candidate - 1) % 10 + 1)
        cells = [dict(cell) for cell in released.cells]
        for cell in cells:
            marks = cell["metadata"].get("nbgrader", {})
            if marks.get("solution") and (name := marks["grade_id"]) in typed:
                cell["source"] = f"# Answer {LESSON}.{name}\n{name} = {typed[name]}"
        own = [CALCULATION] * (candidate % 3 == 0) + [PICTURE] * (candidate % 8 == 0)
        cells += [{"cell_type": "code", "id": f"mine-{n}", "metadata": {}, "execution_count": None, "outputs": [],
                   "source": source} for n, source in enumerate(own)]
        folder = cohort.submitted(candidate, LESSON)
        folder.mkdir(parents=True)
        (folder / f"{LESSON}.ipynb").write_text(json.dumps({**released, "cells": cells}), encoding="utf-8")
    return cohort


def copied(cohort, parent: Path, name: str):
    """A copy of a cohort, to be marked afresh."""
    shutil.copytree(cohort.root, parent / name / cohort.name)
    return open_cohort(cohort.name, parent / name)


@contextmanager
def timed(table: dict):
    """Add up the seconds that the stages take, by name."""
    stages = ((reading, "read_file", "read"), (short_way, "read_only", "short way"), (judging, "judge", "judge"),
              (recording, "record", "record"))
    kept = [getattr(module, name) for module, name, _ in stages]

    def wrapped(act, stage):
        def act_timed(*arguments, **options):
            begin = time.perf_counter()
            try:
                return act(*arguments, **options)
            finally:
                table[stage] += time.perf_counter() - begin
        return act_timed

    for (module, name, stage), act in zip(stages, kept, strict=True):
        setattr(module, name, wrapped(act, stage))
    try:
        yield
    finally:
        for (module, name, _), act in zip(stages, kept, strict=True):
            setattr(module, name, act)


def ours(cohort, pool, quick: bool):
    """(seconds, seconds by stage, processor seconds here and below) for marking a cohort with a warm pool."""
    table: dict[str, float] = defaultdict(float)
    while any(worker.hello is None for worker in pool._workers):
        list(pool.run([("warm", [Cell("c", "1")], environment(1, 1))] * 4))
    used = processor_seconds()
    with timed(table):
        begin = time.perf_counter()
        done = list(batch.mark(cohort, LESSON, cohort.roll, pool=pool, quick=quick))
        took = time.perf_counter() - begin
    assert len(done) == len(cohort.roll) and not any(kept.problem for kept in done)
    table["run, as far as it is waited for"] = took - sum(table.values())
    return took, dict(table), [now - before for now, before in zip(processor_seconds(), used, strict=True)]


def below() -> list[int]:
    """This process and all below it."""
    children = defaultdict(list)
    for name in filter(str.isdigit, os.listdir("/proc")):
        try:
            children[int(_fields(name)[1])].append(int(name))
        except OSError:
            continue
    found = [os.getpid()]
    for pid in found:
        found += children[pid]
    return found


def processor_seconds() -> tuple[float, float]:
    """What this process has used, and what all below it have, with those that ended."""
    found = []
    for pid in below()[1:]:
        try:
            found.append(sum(map(int, _fields(pid)[11:15])))
        except OSError:
            continue
    return time.process_time(), sum(found) / os.sysconf("SC_CLK_TCK")


def _fields(pid) -> list[str]:
    """A process's own figures, from its state on."""
    return Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()


class _Taken:
    """Stands in for the socket: takes what a run sends."""

    def __init__(self):
        self.frames = []

    def sendall(self, content: bytes) -> None:
        self.frames.append(json.loads(content[4:]))


def bare_runner():
    """Runs a notebook's cells in this process, in one warm shell, with capture."""
    from instructor.marking import cells, warm
    from workbench import answering

    shell = warm.prepare()
    gc.collect()
    gc.freeze()  # as the warm parent does

    def run(notebook, candidate, series):
        answering._entries.clear()
        answering._refusals.clear()
        shell.user_ns.clear()  # not shell.reset(), which also collects garbage: half a second in this process
        shell.init_user_ns()
        shell.displayhook.shown.begin()
        link, kept = _Taken(), (sys.stdout, sys.stderr)
        job = [{"id": cell.id, "source": cell.source, "kept": cell.kept} for cell in cells_of(notebook)]
        try:
            cells.run(link, {"cells": job, "environment": environment(candidate, series)}, shell, Limits())
        finally:
            sys.stdout, sys.stderr = kept
        frames = [frame for frame in link.frames if "cell" in frame]
        return Run(answers=frames[-1]["answers"], refusals=frames[-1]["refusals"],
                   outputs={frame["cell"]: frame["outputs"] for frame in frames})

    return run


def stock(cohort, only: str = "*") -> tuple[float, float]:
    """Seconds on the clock, and of processor time, of the unmodified `nbgrader autograde` on a cohort."""
    begin, used = time.perf_counter(), resource.getrusage(resource.RUSAGE_CHILDREN)
    done = subprocess.run([sys.executable, "-m", "nbgrader", "autograde", LESSON, f"--student={only}"],
                          cwd=cohort.root, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr[-2000:]
    now = resource.getrusage(resource.RUSAGE_CHILDREN)
    return time.perf_counter() - begin, now.ru_utime + now.ru_stime - used.ru_utime - used.ru_stime


class Memory:
    """The largest proportional set size of this process and all below it, sampled, in MB."""

    def __enter__(self):
        self.peak_mb, self._over = 0.0, threading.Event()
        self._thread = threading.Thread(target=self._sample, daemon=True)
        self._thread.start()
        return self

    def __exit__(self, *_):
        self._over.set()
        self._thread.join()

    def _sample(self):
        while not self._over.wait(1.0):
            total = 0
            for pid in below():
                try:
                    total += int(Path(f"/proc/{pid}/smaps_rollup").read_text().split("Pss:")[1].split()[0])
                except (OSError, IndexError):
                    continue
            self.peak_mb = max(self.peak_mb, total / 1024)


def probe(pool, root: Path) -> None:
    """Show that the pool's cells reach nothing; refuse to go on where they do."""
    import socket

    with socket.create_server(("127.0.0.1", 0)) as server:
        source = PROBE.format(root=str(root), port=server.getsockname()[1])
        [(_, ran)] = pool.run([("probe", [Cell("probe", source, kept=True)], environment(1, 1))])
    text = ran.outputs["probe"][0]["text"]
    print(f"escape probe: {text.strip()!r}; {pool.protection}")
    assert pool.isolated and text.startswith("probed") and "OUT" not in text, text


def compared(place: Path, count: int) -> dict:
    """Stock, ours and bare on the same cohort."""
    cohort = invented_cohort(place / "made", count)
    print((cohort.root / "nbgrader_config.py").read_text())
    print((Path(batch.__file__).parents[1] / "nbgrader_config.py").read_text())
    first, first_used = stock(copied(cohort, place, "stock-one"), "001")
    by_stock = copied(cohort, place, "stock")
    whole, used = stock(by_stock)
    stock_s, used = (whole - first) / (count - 1), (used - first_used) / (count - 1)
    print(f"stock: {whole:.1f} s in all, one notebook {first:.1f} s, each further one {stock_s:.3f} s "
          f"({used:.3f} s of processor time)")
    bare_cohort, runner = copied(cohort, place, "bare"), bare_runner()
    list(batch.mark(copied(cohort, place, "bare-warm"), LESSON, cohort.roll[:3], runner=runner))
    begin = time.perf_counter()
    list(batch.mark(bare_cohort, LESSON, cohort.roll, runner=runner))
    bare_s = (time.perf_counter() - begin) / count
    figures = {}
    begin = time.perf_counter()
    with Pool(hidden=(place,)) as pool:
        start_s = time.perf_counter() - begin
        for name, quick in (("all run", False), ("short way", True)):
            mine = copied(cohort, place, name.replace(" ", "-"))
            took, table, used = ours(mine, pool, quick)
            figures[name] = took / count
            assert scores(mine, LESSON) == scores(by_stock, LESSON), "a mark differs from stock"
            print(f"\nours, {name}: {1000 * took / count:.1f} ms a notebook, {count / took:.0f} a second; of which")
            for stage, seconds in table.items():
                print(f"  {1000 * seconds / count:7.1f} ms  {stage}")
            print("  processor time a notebook: {:.1f} ms here, {:.1f} ms in the cells' processes".format(
                *(1000 * seconds / count for seconds in used)))
        probe(pool, place)
    print(f"\nwarm after {start_s:.1f} s; bare {1000 * bare_s:.1f} ms a notebook; identical marks: {count} notebooks")
    return {
        "ratio_to_stock": round(stock_s / figures["all run"], 1),
        "ratio_to_stock_short": round(stock_s / figures["short way"], 1),
        "ratio_to_bare": round(figures["all run"] / bare_s, 2),
        "notebooks_per_s": round(1 / figures["all run"], 1),
    }


def grown(place: Path, sizes: list[int]) -> dict:
    """Time and memory as the cohort grows."""
    seconds = {}
    with Memory() as memory:
        for count in sizes:
            gc.unfreeze()
            gc.collect()  # what was measured before stays out of this
            cohort = invented_cohort(place / f"of-{count}", count)
            with Pool(hidden=(place,)) as pool:
                seconds[count], *_ = ours(cohort, pool, quick=False)
            print(f"{count} candidates: {seconds[count]:.1f} s, {memory.peak_mb:.0f} MB at most so far")
    rate = sum(seconds.values()) / sum(sizes)
    off = max(abs(took / (rate * count) - 1) for count, took in seconds.items())
    return {"peak_rss_mb": round(memory.peak_mb), "growth": {
        "seconds": {str(count): round(took, 1) for count, took in seconds.items()}, "largest_residual": round(off, 3)}}


def main() -> None:
    """Measure and print."""
    words = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    words.add_argument("--submissions", type=int, default=40)
    words.add_argument("--growth", default="250,500,1000")
    given = words.parse_args()
    assert len(PATTERNS) >= 10
    found = {}
    with tempfile.TemporaryDirectory(prefix="bench-") as folder:
        place = Path(folder)
        if given.submissions:
            found |= compared(place, given.submissions)
        if given.growth:
            found |= grown(place, [int(size) for size in given.growth.split(",")])
    print(json.dumps({"marking": found}))


if __name__ == "__main__":
    main()
