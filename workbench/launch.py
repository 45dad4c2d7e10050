"""`python -m workbench`: makes or updates the apprentice's copy of the course and opens JupyterLab on it."""

import argparse
import os
import secrets
import signal
import socket
import subprocess
import sys
import time
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

HERE = "127.0.0.1"
FIRST_PORT = 8888
START_PAGE = f"/lab/tree/{START}"


def free_port(wanted: int | None) -> int:
    """The port to serve on: the wanted one, or the first free one from 8888."""
    for port in [wanted] if wanted else range(FIRST_PORT, FIRST_PORT + 100):
        with socket.socket() as trial:
            if trial.connect_ex((HERE, port)) == 0:
                continue  # somebody answers there
        return port
    raise Refused(f"Port {wanted or FIRST_PORT} is in use by another program. Choose another one with --port.")


def environment(token: str) -> dict[str, str]:
    """The environment for Jupyter: the course's own settings first, this Python's kernels before others."""
    paths = [str(PACKAGE / "jupyter"), os.environ.get("JUPYTER_CONFIG_PATH", "")]
    return {
        **os.environ,
        "JUPYTER_CONFIG_PATH": os.pathsep.join(path for path in paths if path),
        "JUPYTER_PREFER_ENV_PATH": "1",
        "JUPYTER_TOKEN": token,  # not on the command line, where others on this machine could read it
    }


def jupyter_command(folder: Path, port: int, browser: bool) -> list[str]:
    """The command that serves the copy to this machine only, and opens the start page."""
    command = [
        sys.executable, "-m", "jupyterlab",
        f"--ServerApp.ip={HERE}",
        f"--ServerApp.port={port}",
        "--ServerApp.port_retries=0",
        f"--ServerApp.root_dir={folder}",
        f"--LabApp.default_url={START_PAGE}",
        # tabs of this copy are remembered in this copy: those of other Jupyter work would not be found here
        f"--LabApp.workspaces_dir={folder / OWN / 'workspaces'}",
        "--ServerApp.answer_yes=True",
        "--Application.log_level=WARN",
    ]  # fmt: skip
    return command if browser else [*command, "--no-browser"]


def _answers(child: subprocess.Popen, port: int) -> bool:
    """Wait until JupyterLab takes calls; False where it ended instead."""
    while child.poll() is None:
        with socket.socket() as trial:
            trial.settimeout(1)
            if trial.connect_ex((HERE, port)) == 0:
                return True
        time.sleep(0.1)
    return False


def serve(folder: Path, port: int, browser: bool) -> int:
    """Run JupyterLab on the copy until it ends; what it has to say goes to a file of the copy."""
    token = secrets.token_hex(16)
    notes = folder / OWN / "jupyter.log"
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(0))
    with notes.open("wb") as log:
        child = subprocess.Popen(jupyter_command(folder, port, browser), env=environment(token), stdout=log, stderr=log)
        try:
            if _answers(child, port):
                print(f"If no browser opens, copy this address into one:\n  {address(port, token)}", flush=True)
            status = child.wait()
        except KeyboardInterrupt:  # Ctrl+C reaches JupyterLab too; it closes the kernels, then ends
            child.wait()
            status = 0
        finally:
            if child.poll() is None:
                child.terminate()
                child.wait()
    if status:
        print(f"JupyterLab ended with an error. Its own notes are in {notes}", file=sys.stderr)
        return 1
    print(f"Stopped. Your work is in {folder}")
    return 0


def address(port: int, token: str) -> str:
    """The address of the start page."""
    return f"http://{HERE}:{port}{START_PAGE}?token={token}"


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
        type=_whole_number(0, 9999, "a candidate's number"),
        metavar="N",
        help="your number, from your instructor, or 0 if you work alone; needed once",
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
        port = free_port(arguments.port)
    except Refused as refusal:
        print(refusal, file=sys.stderr)
        return 2
    except OSError as error:
        print(f"The copy could not be made: {error}. Choose another folder with --folder.", file=sys.stderr)
        return 2
    _say(folder, update)
    return serve(folder, port, browser=not arguments.no_browser)
