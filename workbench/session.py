"""Who is working, on which release: read from the files beside the notebook, or set by a marking run."""

import json
import os
import time
from dataclasses import dataclass
from functools import cache
from pathlib import Path


@dataclass(frozen=True)
class Session:
    """candidate: place on the roll, or None where it is not set; series: which numbers; mode: "practice"
    or "assessment"; lesson: the release's lesson, or None; marking: a marking run, which logs and draws
    nothing; folder: where the notebook lies.
    """

    candidate: int | None
    series: int
    mode: str
    lesson: str | None
    marking: bool
    folder: Path

    @property
    def shows_verdicts(self) -> bool:
        """Practice shows a verdict at once, an assessment only to the marking run."""
        return self.marking or self.mode != "assessment"


@cache
def _folder() -> Path:
    """The notebook's folder: the working directory when the kernel first asked."""
    return Path.cwd()


def current() -> Session:
    """The session as the files beside the notebook give it now."""
    folder = _folder()
    slip = _slip(folder)
    marking = os.environ.get("WORKBENCH_CANDIDATE")
    series = os.environ.get("WORKBENCH_SERIES") if marking else None
    return Session(
        candidate=_number(marking) if marking else _candidate(folder),
        series=_number(series) or slip.get("series", 1),
        mode=slip.get("mode", "practice"),
        lesson=slip.get("lesson"),
        marking=marking is not None,
        folder=folder,
    )


def variant(exercise) -> dict:
    """The present candidate's numbers for an exercise; sample numbers where no candidate is set."""
    now = current()
    return exercise.variant(now.candidate or 0, now.series)


def set_candidate(candidate: int) -> Path:
    """Write the candidate's number into the copy of the course; ValueError where it is no place on a roll."""
    if not 0 <= candidate <= 9999:
        raise ValueError(f"candidate {candidate} is not a number from 0 to 9999; your instructor gave you one")
    path = _candidate_file(_folder()) or _root(_folder()) / "candidate.txt"
    path.write_text(f"{candidate}\n", encoding="utf-8")
    return path


def log(verdict):
    """Add a judged attempt to the log beside the notebook; a log that cannot be written stops nobody."""
    now = current()
    if now.marking or now.lesson is None:
        return
    row = {
        "time": time.strftime("%Y-%m-%dT%H:%M:%S"),
        "candidate": now.candidate,
        "series": now.series,
        "key": verdict.data()["key"],
        "standing": verdict.standing,
        "tag": verdict.tag,
    }
    try:
        with open(now.folder / "attempts.jsonl", "a", encoding="utf-8") as file:
            file.write(json.dumps(row) + "\n")
    except OSError:
        pass


def _slip(folder: Path) -> dict:
    try:
        with open(f"{folder}/release.json", encoding="utf-8") as file:  # read before each cell: no detour
            slip = json.load(file)
    except (OSError, ValueError):
        return {}
    return slip if isinstance(slip, dict) else {}


def _candidate_file(folder: Path) -> Path | None:
    for place in (folder, *folder.parents):
        if (place / "candidate.txt").is_file():
            return place / "candidate.txt"
    return None


def _root(folder: Path) -> Path:
    """The root of the copy: the folder that holds the start page."""
    for place in (folder, *folder.parents):
        if (place / "start.ipynb").is_file():
            return place
    return folder


def _candidate(folder: Path) -> int | None:
    path = _candidate_file(folder)
    return _number(path.read_text(encoding="utf-8", errors="replace")) if path else None


def _number(text: str | None) -> int | None:
    text = (text or "").strip()
    return int(text) if text.isascii() and text.isdigit() and len(text) <= 4 else None
