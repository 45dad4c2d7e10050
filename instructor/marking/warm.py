"""The warm parent: loads the packages once, then forks one throw-away child for each notebook.

It is started as a program of its own by `pool`, in a clean environment. Over its control socket it is handed
one socket a notebook and passes that on to the child unread: no work of anybody is ever in the parent's memory,
so that no child can find another's in what it inherits. It ends when the control socket is closed.
"""

import gc
import json
import os
import select
import shutil
import signal
import socket
import struct
import sys
import time
from dataclasses import dataclass
from pathlib import Path

from instructor.marking import cells, namespaces
from instructor.marking.limits import Limits, bind

NUMBER = struct.Struct("!I")
WATCH_SECONDS = 0.1
FORK_FAILED = "fork failed"


class OpenRoom:
    """In place of a room where there are no namespaces: a process of its own, and its limits."""

    def __init__(self, home: str):
        self._home = home

    def fork(self) -> int:
        """As os.fork()."""
        return os.fork()

    def enter_cell(self, folder_bytes: int, folder_files: int) -> None:
        """In the child: a session of its own, so that it can be ended with what it started; an empty folder."""
        os.setsid()
        os.mkdir(self._folder(os.getpid()), 0o700)
        os.chdir(self._folder(os.getpid()))

    def leave(self, pid: int) -> None:
        """After a child's end: end what it started, throw its folder away."""
        try:
            os.killpg(pid, signal.SIGKILL)
        except (ProcessLookupError, PermissionError):
            pass
        shutil.rmtree(self._folder(pid), ignore_errors=True)

    def memory(self, most: int) -> dict[int, int]:
        """Not known here."""
        return {}

    def _folder(self, pid: int) -> str:
        return f"{self._home}/{pid}"


@dataclass
class Child:
    """A running notebook: its number, its process, when it began."""

    number: int
    pid: int
    began: float
    why: str = ""  # why it was ended, if it was


_WARMING = """
%matplotlib inline
import numpy as np
import matplotlib.pyplot as plt
plt.plot(np.arange(2))
plt.show()
---
print("warm")
1 / 2
---
1 / 0
"""


def prepare():
    """Load what lessons use, build the shell and run everything once; returns the shell, empty again.

    What a shell, a picture or an exercise makes at its first use is made here, once for all children.
    """
    # other packages load these where they are installed for a cluster; they look into /proc, which is not here
    sys.modules.update(dict.fromkeys(("dask", "distributed")))
    from instructor.marking.shell import Shown, make_shell

    shell = make_shell(Shown())
    import matplotlib.pyplot

    from workbench import answering, entry, exercises

    matplotlib.pyplot.get_backend()  # chosen now: pictures of a cell are shown at its end, as in a kernel
    entry.in_unit(1.0, "inch", "mm")
    asked = [exercise for lesson in exercises.lessons() for exercise in exercises.of_lesson(lesson)]
    answers = [f"# Answer {exercise.key}\n{exercise.name} = 1" for exercise in asked]
    for source in (*_WARMING.split("---"), *answers):
        shell.run_cell(source.strip(), store_history=False)
    for exercise in asked:
        answering._forget_entry(exercise.key)
    answering.echoes = False  # verdicts are given by the instructor's own process
    matplotlib.pyplot.close("all")
    shell.reset(new_session=True)
    shell.displayhook.shown.begin()
    return shell


class Parent:
    """Serves notebooks until the control socket closes."""

    def __init__(self, control: socket.socket, shell, room, limits: Limits, at_once: int):
        self.control, self.shell, self.room, self.limits, self.at_once = control, shell, room, limits, at_once
        self.children: dict[int, Child] = {}  # by process id
        self.told, telling = os.pipe()  # a byte for each child that ended
        os.set_blocking(self.told, False)
        os.set_blocking(telling, False)
        signal.signal(signal.SIGCHLD, lambda signum, frame: None)
        signal.set_wakeup_fd(telling)

    def serve(self) -> None:
        """Fork, watch and reap."""
        while True:
            poll = select.poll()
            # a closed control socket is told in any case; new work is looked at only when there is room for it
            poll.register(self.control, select.POLLIN if len(self.children) < self.at_once else 0)
            poll.register(self.told, select.POLLIN)
            events = dict(poll.poll(WATCH_SECONDS * 1000 if self.children else None))
            if self.told in events:
                os.read(self.told, 4096)
            self._reap()
            self._watch()
            happened = events.get(self.control.fileno(), 0)
            if happened & select.POLLIN:
                if not self._take():
                    return
            elif happened & (select.POLLHUP | select.POLLERR):
                return

    def _take(self) -> bool:
        """Start the next notebook; False when there is none and never will be."""
        message, descriptors, _, _ = socket.recv_fds(self.control, NUMBER.size, 1)
        if not message or not descriptors:
            return False
        number, link = NUMBER.unpack(message)[0], socket.socket(fileno=descriptors[0])
        try:
            pid = self.room.fork()
        except OSError as refused:
            link.close()
            self._report(number, f"{FORK_FAILED}: {refused}")
            return True
        if pid == 0:
            self._be_child(link)
        link.close()
        self.children[pid] = Child(number, pid, time.monotonic())
        return True

    def _be_child(self, link: socket.socket):
        """In the child: never returns."""
        code = 1
        try:
            signal.set_wakeup_fd(-1)
            signal.signal(signal.SIGCHLD, signal.SIG_DFL)
            self.control.close()
            self.room.enter_cell(self.limits.folder_bytes, self.limits.folder_files)
            null = os.open("/dev/null", os.O_RDWR)
            for standard in (0, 1, 2):
                os.dup2(null, standard)
            os.dup2(link.detach(), 3)
            os.closerange(4, 1024)  # nothing of the parent stays open
            bind(self.limits)
            link = socket.socket(fileno=3)
            cells.run(link, cells.receive(link), self.shell, self.limits)
            code = 0
        finally:
            os._exit(code)  # nothing that a cell left behind (atexit, threads, __del__) runs after the last answer

    def _reap(self) -> None:
        for child in list(self.children.values()):
            pid, status, used = os.wait4(child.pid, os.WNOHANG)
            if pid == 0:
                continue
            del self.children[pid]
            self.room.leave(pid)
            code = os.waitstatus_to_exitcode(status)
            said = child.why or (f"its process ended by itself ({_named(code)})" if code else "")
            self._report(child.number, said, used.ru_utime + used.ru_stime)

    def _report(self, number: int, why: str, seconds: float = 0.0) -> None:
        self.control.sendall(json.dumps([number, why, round(seconds, 4)]).encode() + b"\n")

    def _watch(self) -> None:
        """End what has had its time or its memory."""
        now = time.monotonic()
        old = [child for child in self.children.values() if now - child.began > 2 * WATCH_SECONDS and not child.why]
        memory = self.room.memory(self.limits.together_bytes) if old else {}
        for child in old:
            if now - child.began > self.limits.notebook_seconds:
                child.why = f"its cells took more than {self.limits.notebook_seconds:g} s"
            elif memory.get(child.pid, 0) > self.limits.together_bytes:
                child.why = f"its cells took more than {self.limits.together_bytes / 1e6:.0f} MB of memory"
            if child.why:
                os.kill(child.pid, signal.SIGKILL)


def _named(code: int) -> str:
    try:
        return f"signal {signal.Signals(-code).name}" if code < 0 else f"exit code {code}"
    except ValueError:
        return f"code {code}"


def main(arguments: list[str]) -> None:
    """Enter the room, get warm, say what protects, serve. One argument: how, as JSON."""
    how = json.loads(arguments[0])
    control = socket.socket(fileno=how["control"])
    limits, why, home = Limits(**how["limits"]), "", how["home"]
    room = OpenRoom(home)
    if how["isolate"]:
        try:
            room = namespaces.enter([Path(one) for one in how["shown"]], [Path(one) for one in how["hidden"]])
        except namespaces.NoNamespaces as refused:
            why = str(refused)
        else:
            home = namespaces.WORKPLACE
    os.environ |= {"HOME": home, "TMPDIR": home, "IPYTHONDIR": f"{home}/ipython", "MPLCONFIGDIR": f"{home}/matplotlib"}
    os.chdir(home)
    shell = prepare()
    gc.collect()
    gc.freeze()  # the collector of a child leaves the parent's pages alone, so that they stay shared
    hello = {"isolated": not isinstance(room, OpenRoom), "why": why}
    control.sendall(json.dumps(hello).encode() + b"\n")
    Parent(control, shell, room, limits, how["at_once"]).serve()


if __name__ == "__main__":
    main(sys.argv[1:])
