"""The throw-away child of one notebook: takes its cells, runs them, sends back what was read as data.

It runs what an apprentice wrote, so nothing that it says is trusted: the other side takes text only, cut to
length, for the candidate that it sent. After each cell the state so far is sent, so that what was read before
a cell that hangs or ends the process is kept.
"""

import json
import os
import signal
import socket
import struct
import sys

from instructor.marking.limits import Limits

LONGEST_TEXT = 500
AGAIN_SECONDS = 0.5  # a cell that swallows the sign to stop gets it again


def receive(link: socket.socket) -> dict:
    """The job: {"cells": [{"id", "source", "kept"}], "environment": {…}}."""
    with link.makefile("rb") as reading:
        (size,) = struct.unpack("!I", reading.read(4))
        return json.loads(reading.read(size))


def send(link: socket.socket, message: dict, dumps=json.dumps) -> None:
    """One frame: its length, then JSON; `dumps` as it was before any cell could change it."""
    content = dumps(message).encode()
    link.sendall(struct.pack("!I", len(content)) + content)


def run(link: socket.socket, job: dict, shell, limits: Limits) -> None:
    """Run the cells in order, each within its time; a cell that raises costs only itself."""
    from instructor.marking.shell import Printed
    from workbench import answering

    shown = shell.displayhook.shown
    os.environ.update(job["environment"])
    sys.stdout, sys.stderr = Printed("stdout", shown), Printed("stderr", shown)
    run_cell = shell.run_cell
    signal.signal(signal.SIGALRM, _on_time(limits.cell_seconds))
    for cell in job["cells"]:
        failed = None
        signal.setitimer(signal.ITIMER_REAL, limits.cell_seconds, AGAIN_SECONDS)
        try:
            outcome = run_cell(cell["source"], store_history=False)
            failed = outcome.error_before_exec or outcome.error_in_exec
        except BaseException as escaped:  # a late sign to stop, or a shell that a cell has broken
            failed = escaped
        finally:
            signal.setitimer(signal.ITIMER_REAL, 0)
        outputs = shown.take()
        send(link, {
            "cell": cell["id"],
            "answers": _texts(answering.answers()),
            "refusals": _texts(answering.refusals()),
            "trouble": "" if failed is None else _said(failed),
            "outputs": outputs if cell["kept"] else [],
        })
        if shell.left:
            break
    send(link, {"end": True})


def _on_time(seconds: float):
    def on_time(signum, frame):
        raise TimeoutError(f"the cell took more than {seconds:g} s")

    return on_time


def _texts(found: dict) -> dict[str, str]:
    return {str(key)[:100]: str(text)[:LONGEST_TEXT] for key, text in found.items()}


def _said(failed: BaseException) -> str:
    """An error in a line, whatever its own text does."""
    try:
        return f"{type(failed).__name__}: {failed}"[:300]
    except Exception:
        return "an error that cannot be shown"
