"""Runs many notebooks' cells at once: warm parents over the cores, one iterator of what came out.

This side never executes what an apprentice wrote and never loads an object of it: it hands cells out and
takes text back. A parent that dies, hangs or cannot fork is replaced and its work is done again; work that
brings its parent down twice is given up, with the reason.
"""

import json
import os
import selectors
import socket
import struct
import subprocess
import sys
import tempfile
import time
from collections import deque
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from importlib.util import find_spec
from pathlib import Path

from instructor.marking import namespaces
from instructor.marking.arriving import Arriving
from instructor.marking.limits import Limits
from instructor.marking.running import Cell, Run
from instructor.marking.warm import FORK_FAILED, NUMBER
from instructor.refusal import Refusal

ISOLATED = "isolated: own user, process, mount, network and IPC namespaces, read-only files, no network"
LIMITED = "not isolated, separate limited processes only"
WARM_SECONDS = 90  # for a parent to load its packages, on a slow and busy machine
PATIENCE_SECONDS = 15  # beyond a notebook's own time, before its parent counts as hanging
MOST_ATTEMPTS = 2
MOST_FORK_ATTEMPTS = 5
PROGRAM = ("-P", "-m", "instructor.marking.warm")
LONGEST_LINE = 100_000
_INSTRUCTOR = Path(__file__).parents[1]


@dataclass
class _Job:
    tag: object
    cells: tuple[str, ...]
    content: bytes
    attempts: int = 0
    fork_attempts: int = 0
    link: socket.socket | None = None
    to_send: memoryview = memoryview(b"")
    arriving: Arriving | None = None


@dataclass
class _Worker:
    process: subprocess.Popen
    control: socket.socket
    errors: object
    began: float
    hello: dict | None = None
    heard: bytes = b""
    jobs: dict[int, _Job] = field(default_factory=dict)  # by number, in the order handed out
    heard_at: float = 0.0


class Pool:
    """A context manager; `run` gives results as they come, in any order.

    workers: warm parents; each has up to `at_once` notebooks running, which hides the time that the
    kernel takes to end a process table. isolate: False where the instructor asks for less, or for comparison.
    hidden: folders that no cell may see even where they lie in one that is shown.
    """

    def __init__(self, workers: int | None = None, limits: Limits = Limits(), isolate: bool = True,  # noqa: B008
                 require_isolation: bool = False, hidden: Sequence[Path] = (), at_once: int = 2):
        self.limits, self.isolate, self.hidden, self.at_once = limits, isolate, tuple(hidden), at_once
        self.count = workers or max(1, min(os.cpu_count() or 1, 8))
        self.require_isolation = require_isolation
        self.patience = limits.notebook_seconds + PATIENCE_SECONDS
        self.protection = ""
        self.isolated = False
        self.lost = 0  # parents that had to be replaced
        self._workers: list[_Worker] = []
        self._again: deque[_Job] = deque()
        self._number = 0

    def __enter__(self):
        self._selector = selectors.DefaultSelector()
        self._home = tempfile.TemporaryDirectory(prefix="marking-")  # where there is no room with its own
        try:
            first, *_ = [self._start() for _ in range(self.count)]  # they get warm side by side
            try:
                self._await_hello(first)
            except _Died as died:
                raise Refusal(self._in_vain(died)) from None
            self.isolated = first.hello["isolated"]
            self.protection = self._protection(first.hello)
            if self.require_isolation and not self.isolated:
                raise Refusal(f"this system gives no isolation: {first.hello['why']}")
        except BaseException:
            self.__exit__()
            raise
        return self

    def _in_vain(self, died: Exception) -> str:
        """Why no cell can be run. Cells are never run with less protection than this system seemed to give."""
        if not self.isolate:
            return f"cells cannot be run: {died}"
        return (f"cells cannot be run isolated here: {died}. With --without-isolation they run in separate limited "
                "processes, which see this machine's files and network: only for work that you trust")

    def _protection(self, hello: dict) -> str:
        """What keeps the cells from everything else, in words."""
        return ISOLATED if self.isolated else f"{LIMITED} ({hello['why'] or 'as asked'})"

    def __exit__(self, *_):
        for worker in self._workers:
            self._stop(worker)
        self._workers.clear()
        self._selector.close()
        self._home.cleanup()

    def run(self, work: Iterable[tuple]) -> Iterator[tuple[object, Run]]:
        """Run notebooks, each given as (tag, cells, environment); gives (tag, result), as they finish.

        What is given as (tag, result) needs no running and is passed on. Work is taken from the iterable
        only as there is room for it, so memory does not grow with it.
        """
        source, more = iter(work), True
        while len(self._workers) < self.count:
            self._start()
        while True:
            while (more or self._again) and (worker := self._free()):
                if self._again:
                    job = self._again.popleft()
                elif (item := next(source, None)) is None:
                    more = False
                    continue
                elif isinstance(item[1], Run):
                    yield item
                    continue
                else:
                    job = self._job(*item)
                self._hand_out(worker, job)
            if not more and not self._again and not any(worker.jobs for worker in self._workers):
                return
            yield from self._events()

    def _free(self) -> _Worker | None:
        """The warm worker with the least to do, if it has room for more."""
        warm = [worker for worker in self._workers if worker.hello is not None]
        least = min(warm, key=lambda worker: len(worker.jobs), default=None)
        # one more than runs at once waits at the parent, so that it is never idle while we judge
        return least if least and len(least.jobs) <= self.at_once else None

    def _job(self, tag, cells: Sequence[Cell], environment: Mapping[str, str]) -> _Job:
        message = {
            "cells": [{"id": cell.id, "source": cell.source, "kept": cell.kept} for cell in cells],
            "environment": dict(environment),
        }
        content = json.dumps(message).encode()
        return _Job(tag, tuple(cell.id for cell in cells), struct.pack("!I", len(content)) + content)

    def _hand_out(self, worker: _Worker, job: _Job) -> None:
        ours, theirs = socket.socketpair()
        self._number += 1
        job.link, job.to_send, job.arriving = ours, memoryview(job.content), Arriving(job.cells, self.limits)
        ours.setblocking(False)
        if not worker.jobs:
            worker.heard_at = time.monotonic()
        worker.jobs[self._number] = job
        self._selector.register(ours, selectors.EVENT_READ | selectors.EVENT_WRITE, (worker, job))
        try:
            socket.send_fds(worker.control, [NUMBER.pack(self._number)], [theirs.fileno()])
        except OSError:
            pass  # the worker died: seen at its control socket
        finally:
            theirs.close()

    def _events(self) -> Iterator[tuple[object, Run]]:
        """Wait for what happens next, and deal with it."""
        for key, happened in self._selector.select(timeout=1.0):
            worker, job = key.data
            if job is None:
                yield from self._listen(worker)
            elif job.link is key.fileobj:  # else it finished within this round
                self._exchange(job, happened)
        now = time.monotonic()
        for worker in list(self._workers):
            patience = WARM_SECONDS if worker.hello is None else self.patience
            if (worker.jobs or worker.hello is None) and now - worker.heard_at > patience:
                yield from self._lost(worker, "the process that forks it hung")

    def _exchange(self, job: _Job, happened: int) -> None:
        """Send what is left of the cells, take what has arrived."""
        try:
            if happened & selectors.EVENT_WRITE and job.to_send:
                job.to_send = job.to_send[job.link.send(job.to_send):]
                if not job.to_send:
                    self._selector.modify(job.link, selectors.EVENT_READ, self._selector.get_key(job.link).data)
            if happened & selectors.EVENT_READ:
                content = job.link.recv(262_144)
                job.arriving.take(content)
                if not content or job.arriving.refused:
                    self._close(job)
        except BlockingIOError:
            pass
        except OSError:  # the child is gone; its parent will say how
            self._close(job)

    def _close(self, job: _Job) -> None:
        if job.link is not None:
            self._selector.unregister(job.link)
            job.link.close()
            job.link = None

    def _listen(self, worker: _Worker) -> Iterator[tuple[object, Run]]:
        """A worker's own words: warm now, or a notebook has ended."""
        try:
            heard = worker.control.recv(65536)
        except OSError:
            heard = b""
        if not heard:
            yield from self._lost(worker, "the process that forks it ended")
            return
        worker.heard_at = time.monotonic()
        *lines, worker.heard = (worker.heard + heard).split(b"\n")
        if len(worker.heard) > LONGEST_LINE:
            raise ValueError("a line without an end")
        for line in lines:
            said = json.loads(line)
            if worker.hello is None:
                self._greeted(worker, said)
                continue
            number, why, _ = said
            job = worker.jobs.pop(number)
            if why.startswith(FORK_FAILED) and job.fork_attempts < MOST_FORK_ATTEMPTS:
                self._close(job)
                job.fork_attempts += 1
                time.sleep(0.05 * 2**job.fork_attempts)  # the system is short of something: give it time
                self._again.append(job)
                continue
            self._drain(job)
            self._close(job)
            yield job.tag, job.arriving.finished(why)

    def _drain(self, job: _Job) -> None:
        """Take all that the ended child has sent."""
        while job.link is not None and not job.arriving.refused:
            try:
                content = job.link.recv(262_144)
            except OSError:  # nothing more now: something that outlived the child holds the other end
                return
            if not content:
                return
            job.arriving.take(content)

    def _lost(self, worker: _Worker, why: str) -> Iterator[tuple[object, Run]]:
        """A worker is gone: start another, do its work again, give up what has brought two down."""
        self._workers.remove(worker)
        self.lost += 1
        jobs = list(worker.jobs.values())
        said = self._stop(worker)
        if worker.hello is None:
            raise Refusal(f"cells cannot be run: {said or why}")
        for job in jobs:
            self._close(job)
        for place, job in enumerate(jobs):
            job.attempts += place < self.at_once  # what still waited there had no part in it
            if job.attempts >= MOST_ATTEMPTS:
                yield job.tag, job.arriving.finished(f"{why}, twice")
            else:
                self._again.append(job)
        self._start()

    def _program(self) -> tuple[Sequence[str], dict]:
        """What is started to take notebooks, and what it is told besides."""
        return PROGRAM, {"shown": [str(one) for one in _shown()]}

    def _start(self) -> _Worker:
        ours, theirs = socket.socketpair()
        program, how = self._program()
        how = how | {"control": theirs.fileno(), "limits": self.limits.data(), "isolate": self.isolate,
                     "at_once": self.at_once, "hidden": [str(Path(one).resolve()) for one in self.hidden],
                     "home": self._home.name}
        errors = tempfile.TemporaryFile()
        process = subprocess.Popen(
            [sys.executable, *program, json.dumps(how)], cwd="/",
            env=_environment(), pass_fds=[theirs.fileno()], stdin=subprocess.DEVNULL, stdout=errors, stderr=errors,
            start_new_session=True,
        )
        theirs.close()
        worker = _Worker(process, ours, errors, time.monotonic(), heard_at=time.monotonic())
        self._workers.append(worker)
        self._selector.register(ours, selectors.EVENT_READ, (worker, None))
        return worker

    def _stop(self, worker: _Worker) -> str:
        """End a worker and all it started; the last line that it left on its error output."""
        for job in worker.jobs.values():
            self._close(job)
        self._selector.unregister(worker.control)
        worker.control.close()
        try:
            worker.process.wait(timeout=1.0)
        except subprocess.TimeoutExpired:
            worker.process.kill()
            worker.process.wait()
        worker.errors.seek(0)
        lines = worker.errors.read(1_000_000).decode("utf-8", "replace").strip().splitlines()
        worker.errors.close()
        return lines[-1][:300] if lines else ""

    def _await_hello(self, worker: _Worker) -> None:
        until = time.monotonic() + WARM_SECONDS
        worker.control.settimeout(WARM_SECONDS)
        while worker.hello is None:
            try:
                heard = worker.control.recv(4096)
            except OSError:
                heard = b""
            if not heard or time.monotonic() > until or len(worker.heard) > LONGEST_LINE:
                self._workers.remove(worker)
                raise _Died(self._stop(worker) or "the process that runs them ended before it was ready")
            worker.heard += heard
            if b"\n" in worker.heard:
                line, worker.heard = worker.heard.split(b"\n", 1)
                self._greeted(worker, json.loads(line))

    def _greeted(self, worker: _Worker, hello: dict) -> None:
        worker.hello = hello
        if self.isolated and not hello["isolated"]:
            raise Refusal(f"isolation was lost midway: {hello['why']}")


class _Died(Exception):
    pass


def _shown() -> tuple[Path, ...]:
    """All that a cell can see: the programs, the workbench, and the few modules that run cells."""
    inside = [_INSTRUCTOR / "__init__.py", _INSTRUCTOR / "marking" / "__init__.py"]
    inside += [_INSTRUCTOR / "marking" / f"{name}.py" for name in ("warm", "cells", "shell", "limits", "namespaces")]
    workbench = Path(find_spec("workbench").origin).parent
    return *namespaces.programs(), workbench, *inside


def _environment() -> dict[str, str]:
    """What the run knows of the instructor's environment: nothing of it."""
    return {
        "PATH": os.defpath, "LANG": "C.UTF-8", "PYTHONPATH": str(_INSTRUCTOR.parent),
        "MPLBACKEND": "module://matplotlib_inline.backend_inline", "PYTHONDONTWRITEBYTECODE": "1",
        "OPENBLAS_NUM_THREADS": "1", "OMP_NUM_THREADS": "1",
        "OBJC_DISABLE_INITIALIZE_FORK_SAFETY": "YES", "WORKBENCH_CANDIDATE": "0",
    }
