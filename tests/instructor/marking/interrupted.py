"""Marks cohorts in processes that end themselves by SIGKILL at a given point; a program for test_faults.

Reads one JSON line a job from its input, {"root": a cohort's folder, "at": the point or 0 for none}; answers
with one, {"status": as waitpid gives it, "points": how many there were}. A point is the moment before, after or
in the midst of anything that changes a file or the gradebook.
"""

import json
import os
import signal
import sys
from pathlib import Path

import nbgrader.api  # noqa: F401 - loaded once, before forking
from sqlalchemy import event
from sqlalchemy.engine import Engine
from sqlalchemy.engine.default import DefaultDialect

from instructor.cohort import Cohort
from instructor.marking.batch import handed_in, mark
from tests.instructor.marking.test_recording import in_process

LESSON = "measuring_screw"


class Points:
    """Counts the points, and ends the process at one of them."""

    def __init__(self, at):
        self.at, self.passed = at, 0

    def pass_one(self, *_):
        self.passed += 1
        if self.passed == self.at:
            os.kill(os.getpid(), signal.SIGKILL)

    def between(self, function):
        """The function with a point before and after it."""

        def wrapped(*arguments, **options):
            self.pass_one()
            result = function(*arguments, **options)
            self.pass_one()
            return result

        return wrapped

    def set_up(self):
        whole = Path.write_text

        def write_text(path, text, *arguments, **options):
            whole(path, text[: len(text) // 2], *arguments, **options)
            self.pass_one()
            return whole(path, text, *arguments, **options)

        Path.write_text = write_text
        os.replace = self.between(os.replace)
        DefaultDialect.do_commit = self.between(DefaultDialect.do_commit)
        event.listen(Engine, "before_cursor_execute", self.pass_one)
        event.listen(Engine, "after_cursor_execute", self.pass_one)


def marked(root, at, telling):
    """In a child: mark everything, unless the end comes before."""
    points, cohort = Points(at), Cohort(Path(root))
    points.set_up()
    for _ in mark(cohort, LESSON, handed_in(cohort, LESSON), runner=in_process):
        pass
    os.write(telling, str(points.passed).encode())


def main():
    for line in sys.stdin:
        job = json.loads(line)
        reading, telling = os.pipe()
        pid = os.fork()
        if pid == 0:
            try:
                marked(job["root"], job["at"], telling)
            except BaseException as failed:
                print(repr(failed), file=sys.stderr, flush=True)
                os._exit(1)
            os._exit(0)
        os.close(telling)
        with os.fdopen(reading, "rb") as pipe:
            points = int(pipe.read() or 0)
        print(json.dumps({"status": os.waitpid(pid, 0)[1], "points": points}), flush=True)


if __name__ == "__main__":
    main()
