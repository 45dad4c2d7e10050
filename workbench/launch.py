"""`python -m workbench`: makes or updates the apprentice's copy of the course and opens JupyterLab on it."""

import argparse
import os
import signal
import subprocess
import sys
from pathlib import Path

from workbench.course_copy import (
    DEFAULT_FOLDER,
    NUMBER,
    OWN,
    PACKAGE,
    START,
    Refused,
    Update,
    course_source,
    place,
    set_candidate,
    usable,
)


def settings_environment() -> dict[str, str]:
    """The environment for Jupyter: the course's own settings first, this Python's kernels before others."""
    paths = [str(PACKAGE / "jupyter"), os.environ.get("JUPYTER_CONFIG_PATH", "")]
    return {
        **os.environ,
        "JUPYTER_CONFIG_PATH": os.pathsep.join(path for path in paths if path),
        "JUPYTER_PREFER_ENV_PATH": "1",
    }


def jupyter_command(folder: Path, port: int | None, browser: bool) -> list[str]:
    """The command that serves the copy to this machine only, and opens the start page."""
    command = [
        sys.executable, "-m", "jupyterlab",
        "--ServerApp.ip=127.0.0.1",
        f"--ServerApp.root_dir={folder}",
        f"--LabApp.default_url=/lab/tree/{START}",
        # tabs of this copy are remembered in this copy: those of other Jupyter work would not be found here
        f"--LabApp.workspaces_dir={folder / OWN / 'workspaces'}",
        "--ServerApp.answer_yes=True",
        "--Application.log_level=ERROR",
    ]  # fmt: skip
    if port is not None:
        command.append(f"--ServerApp.port={port}")
    if not browser:
        command.append("--no-browser")
    return command


def serve(command: list[str], environment: dict[str, str]) -> int:
    """Run JupyterLab until it ends; Ctrl+C reaches it too, so wait for it to close the kernels."""
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(0))
    child = subprocess.Popen(command, env=environment)
    try:
        while True:
            try:
                return child.wait()
            except KeyboardInterrupt:
                continue
    finally:
        if child.poll() is None:
            child.terminate()
            child.wait()


def _whole_number(low: int, high: int, what: str):
    def read(text: str) -> int:
        try:
            value = int(text)
        except ValueError:
            value = low - 1
        if not low <= value <= high:
            raise argparse.ArgumentTypeError(f"{text!r} is not {what}, a whole number from {low} to {high}")
        return value

    return read


def _arguments(words: list[str] | None) -> argparse.Namespace:
    parser = argparse.ArgumentParser(
        prog="python -m workbench",
        description="Open the course in JupyterLab, on your own copy of it. Start it again any day: "
        "your work is kept, and new lessons are added.",
    )
    parser.add_argument(
        "--folder",
        type=Path,
        metavar="DIR",
        help=f"where your copy lives (default: {DEFAULT_FOLDER} in your home)",
    )
    parser.add_argument(
        "--candidate",
        type=_whole_number(1, 9999, "a candidate's number"),
        metavar="N",
        help="your number, from your instructor; needed once",
    )
    parser.add_argument("--no-browser", action="store_true", help="only print the address")
    parser.add_argument(
        "--port",
        type=_whole_number(1, 65535, "a port"),
        metavar="N",
        help="the port to serve on (default: 8888, or the next free one)",
    )
    return parser.parse_args(words)


def _say(folder: Path, update: Update) -> None:
    print(f"Your copy of the course: {folder}")
    if update.added:
        print(f"  added: {', '.join(update.added)}")
    if update.refreshed:
        print(f"  refreshed (you had not changed them): {', '.join(update.refreshed)}")
    if update.kept:
        print(f"  yours, kept as they are, though the course has a newer version: {', '.join(update.kept)}")
        print("  (to get the newer version, rename your file or folder and start again)")
    number = folder / NUMBER
    if number.is_file():
        print(f"Candidate: {number.read_text(encoding='utf-8', errors='replace').strip()}")
    else:
        print("No candidate's number is set: questions show sample numbers. Set yours with --candidate N.")
    print("To stop: save, close the browser tab, then press Ctrl+C in this window.")
    print("To open it again: run the same command.", flush=True)


def main(words: list[str] | None = None) -> int:
    """Make or update the copy, then run JupyterLab on it; 2 and one sentence where that cannot be."""
    arguments = _arguments(words)
    try:
        source = course_source()
        folder = usable(arguments.folder or Path.home() / DEFAULT_FOLDER, source)
        if arguments.candidate is not None:
            set_candidate(folder, arguments.candidate)
        update = place(folder, source)
    except Refused as refusal:
        print(refusal, file=sys.stderr)
        return 2
    except OSError as error:
        print(f"The copy could not be made: {error}. Choose another folder with --folder.", file=sys.stderr)
        return 2
    _say(folder, update)
    return serve(jupyter_command(folder, arguments.port, not arguments.no_browser), settings_environment())
