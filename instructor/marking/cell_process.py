"""The throw-away process of stage 2: runs the cells of one notebook and leaves what was read as JSON.

Started as a script, in an empty folder that holds cells.json; it writes result.json after every cell, so
that what was read before a cell that hangs or ends the process is kept. Nothing of the cohort is here.
"""

import json
import os
import signal
import sys

LONGEST_TEXT = 10_000
MEMORY_BYTES = 4 * 1024**3
FILE_BYTES = 16 * 1024**2


def limit() -> None:
    """Bound memory, file size and open files, where the system can."""
    try:
        import resource
    except ImportError:
        return
    for what, most in (
        (resource.RLIMIT_AS, MEMORY_BYTES),
        (resource.RLIMIT_FSIZE, FILE_BYTES),
        (resource.RLIMIT_NOFILE, 256),
        (resource.RLIMIT_CORE, 0),
    ):
        try:
            resource.setrlimit(what, (most, most))
        except (ValueError, OSError):
            pass  # a system that does not know this limit; the time limit outside still holds


def shell():
    """An IPython shell that reads answer cells as a kernel of the course does."""
    from IPython.core.interactiveshell import InteractiveShell
    from traitlets.config import Config

    settings = Config()
    settings.HistoryManager.enabled = False
    settings.InteractiveShell.colors = "NoColor"
    made = InteractiveShell.instance(config=settings)
    made.extension_manager.load_extension("workbench.answering")
    return made


def on_time(signum, frame):
    """A cell has had its time."""
    raise TimeoutError("the cell took too long")


def run(cells: list[dict], seconds: float) -> None:
    """Run the cells in order, each within its time; a cell that raises costs only itself."""
    place = shell()
    from workbench import answering

    troubles: dict[str, str] = {}
    alarm = hasattr(signal, "SIGALRM")
    if alarm:
        signal.signal(signal.SIGALRM, on_time)
    for cell in cells:
        leave(answering, troubles, cell["id"])
        if alarm:
            signal.setitimer(signal.ITIMER_REAL, seconds)
        try:
            outcome = place.run_cell(cell["source"], store_history=False)
            failed = outcome.error_before_exec or outcome.error_in_exec
        except BaseException as escaped:  # a late alarm, or a shell that a cell has broken
            failed = escaped
        finally:
            if alarm:
                signal.setitimer(signal.ITIMER_REAL, 0)
        if failed is not None:
            troubles[cell["id"]] = said(failed)
    leave(answering, troubles, None)


def said(failed: BaseException) -> str:
    """An error in a line, whatever its own text does."""
    try:
        return f"{type(failed).__name__}: {failed}"[:300]
    except Exception:
        return "an error that cannot be shown"


def leave(answering, troubles: dict, at: str | None) -> None:
    """Leave what was read so far; `at` is the cell being run, None at the end."""
    left = {
        "answers": {key: text[:LONGEST_TEXT] for key, text in answering.answers().items()},
        "refusals": {key: text[:LONGEST_TEXT] for key, text in answering.refusals().items()},
        "troubles": troubles,
        "at": at,
    }
    with open("result.part", "w", encoding="utf-8") as handle:
        json.dump(left, handle)
    os.replace("result.part", "result.json")


if __name__ == "__main__":
    with open("cells.json", encoding="utf-8") as handle:
        job = json.load(handle)
    os.remove("cells.json")
    limit()
    run(job["cells"], job["seconds"])
    sys.stdout.flush()
    os._exit(0)  # nothing that a cell left behind (atexit, threads, __del__) runs after the last answer
