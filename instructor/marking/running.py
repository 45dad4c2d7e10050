"""Stage 2, run: the apprentice's cells in a process of their own; what comes back is text by key.

The process is separate and limited in time, memory and file size; it knows the candidate's number and
nothing else of the cohort. Its answers are data, bounded in size; no object of it is ever loaded here.
"""

import json
import os
import signal
import subprocess
import sys
import tempfile
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from nbformat import NotebookNode

CELL_SECONDS = 8
NOTEBOOK_SECONDS = 40
LARGEST_RESULT = 4_000_000
_SCRIPT = Path(__file__).with_name("cell_process.py")


@dataclass(frozen=True)
class Run:
    """What came out of a notebook.

    answers: the entry's text, by key. refusals: why an entry was not read, by key. troubles: cells that
    raised, by id, with the error. stopped: why the run ended early, or "". outputs: what the apprentice's
    own cells showed, by id, as outputs of a notebook.
    """

    answers: Mapping[str, str] = field(default_factory=dict)
    refusals: Mapping[str, str] = field(default_factory=dict)
    troubles: Mapping[str, str] = field(default_factory=dict)
    stopped: str = ""
    outputs: Mapping[str, list] = field(default_factory=dict)


def run(notebook: NotebookNode, candidate: int, series: int, cell_seconds: float = CELL_SECONDS,
        notebook_seconds: float = NOTEBOOK_SECONDS) -> Run:
    """Run the answer cells and extra cells of a restored notebook; locked cells need no running."""
    cells = [{"id": cell.id, "source": cell.source} for cell in notebook.cells if _is_run(cell)]
    with tempfile.TemporaryDirectory(prefix="marking-") as folder:
        place = Path(folder)
        job = {"cells": cells, "seconds": cell_seconds}
        (place / "cells.json").write_text(json.dumps(job), encoding="utf-8")
        stopped = _process(place, candidate, series, notebook_seconds)
        return _result(place / "result.json", stopped)


def _is_run(cell: NotebookNode) -> bool:
    marks = cell.metadata.get("nbgrader", {})
    return cell.cell_type == "code" and not (marks.get("locked") or marks.get("grade"))


def _process(place: Path, candidate: int, series: int, seconds: float) -> str:
    """Start the process and wait for it; why it ended early, or nothing."""
    environment = {
        "PATH": os.defpath,
        "HOME": str(place),
        "IPYTHONDIR": str(place),
        "MPLCONFIGDIR": str(place),
        "MPLBACKEND": "Agg",
        "LANG": "C.UTF-8",
        "PYTHONDONTWRITEBYTECODE": "1",
        "WORKBENCH_CANDIDATE": str(candidate),
        "WORKBENCH_SERIES": str(series),
    }
    with open(place / "output", "wb") as output:
        process = subprocess.Popen(
            [sys.executable, "-P", str(_SCRIPT)], cwd=place, env=environment, stdin=subprocess.DEVNULL,
            stdout=output, stderr=subprocess.STDOUT, start_new_session=True,
        )
        try:
            code = process.wait(timeout=seconds)
        except subprocess.TimeoutExpired:
            return f"its cells took more than {seconds:g} s"
        finally:
            _end(process)
    return "" if code == 0 else f"its process ended by itself ({_said(code)})"


def _end(process: subprocess.Popen) -> None:
    """End the process and all that it started in its session."""
    try:
        os.killpg(process.pid, signal.SIGKILL)
    except (ProcessLookupError, PermissionError):
        pass
    process.wait()


def _said(code: int) -> str:
    try:
        return f"signal {signal.Signals(-code).name}" if code < 0 else f"exit code {code}"
    except ValueError:
        return f"code {code}"


def _result(path: Path, stopped: str) -> Run:
    """What the process left: taken only where it has the expected form, cell by cell."""
    try:
        if path.is_symlink() or path.stat().st_size > LARGEST_RESULT:
            return Run(stopped=stopped or "it left more than any answers need")
        left = json.loads(path.read_text(encoding="utf-8"))
    except (OSError, ValueError, RecursionError):
        return Run(stopped=stopped or "it left nothing that can be read")
    if not isinstance(left, dict):
        return Run(stopped=stopped or "it left nothing that can be read")
    if stopped and isinstance(left.get("at"), str):
        stopped = f"{stopped}, at cell {left['at'][:64]}"
    return Run(_texts(left, "answers"), _texts(left, "refusals"), _texts(left, "troubles"), stopped)


def _texts(left: dict, part: str) -> dict[str, str]:
    found = left.get(part)
    pairs = found.items() if isinstance(found, dict) else ()
    return {key: text for key, text in pairs if isinstance(text, str)}
