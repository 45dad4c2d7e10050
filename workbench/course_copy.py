"""The apprentice's own copy of the course: made, updated, never overwritten.

The copy is the apprentice's. Each file put there is noted with a fingerprint in `.workbench/placed.json`, so
that an update can tell a file that is still as it was placed (it may be refreshed) from one that the
apprentice changed (it is never overwritten).
"""

import hashlib
import json
import os
import secrets
from dataclasses import dataclass, field
from pathlib import Path

PACKAGE = Path(__file__).parent
OWN = ".workbench"  # the folder of the copy in which the launcher keeps its notes
PLACED = f"{OWN}/placed.json"
START = "start.ipynb"
SLIP = "release.json"
NUMBER = "candidate.txt"
DEFAULT_FOLDER = "workbench-course"


class Refused(Exception):
    """What the apprentice asked for cannot be done; the text says why, in plain words."""


@dataclass
class Update:
    """What placing the course did: the paths added, refreshed and kept, each relative to the copy."""

    added: list[str] = field(default_factory=list)
    refreshed: list[str] = field(default_factory=list)
    kept: list[str] = field(default_factory=list)


def course_source() -> Path:
    """The course that came with this package: inside an installed one, beside the package in a checkout."""
    for folder in (PACKAGE / "course", PACKAGE.parent / "course"):
        if (folder / START).is_file():
            return folder
    raise Refused("The course did not come with this installation of workbench: install workbench again.")


def course_files(source: Path) -> list[str]:
    """Every file of a course, relative to it; hidden files and logs of attempts are not part of it."""
    found = (path.relative_to(source) for path in source.rglob("*") if path.is_file())
    return sorted(
        path.as_posix()
        for path in found
        if not any(part.startswith((".", "__")) for part in path.parts) and path.name != "attempts.jsonl"
    )


def fingerprint(path: Path) -> str:
    """SHA-256 of what a person can have changed in a file.

    For a notebook that is the kind and text of its cells: only opening or running it is no change.
    """
    data = path.read_bytes()
    if path.suffix == ".ipynb":
        try:
            cells = [(cell["cell_type"], "".join(cell["source"])) for cell in json.loads(data)["cells"]]
            data = json.dumps(cells).encode()
        except (ValueError, KeyError, TypeError):
            pass  # no readable notebook: its bytes stand for it
    return hashlib.sha256(data).hexdigest()


def usable(folder: Path, source: Path) -> Path:
    """The folder, made where missing; `Refused` with the reason where it cannot hold the copy."""
    try:
        folder, source = folder.expanduser().resolve(), source.resolve()
        names = [path.name for path in folder.iterdir()] if folder.is_dir() else []
    except (OSError, RuntimeError, ValueError) as error:
        raise Refused(f"{folder} cannot be used ({error}). Choose another folder with --folder.") from None
    if folder == source or source in folder.parents or folder in (PACKAGE, PACKAGE.parent):
        raise Refused(
            f"{folder} is the course itself, from which copies are made. Choose another folder for your copy."
        )
    if folder.is_file():
        raise Refused(f"{folder} is a file, not a folder. Choose another name with --folder.")
    if names and START not in names and OWN not in names:
        raise Refused(
            f"{folder} already holds other things. The course needs a folder of its own, "
            f"for example {folder / DEFAULT_FOLDER}"
        )
    try:
        (folder / OWN).mkdir(parents=True, exist_ok=True)
        trial = folder / OWN / f"trial-{secrets.token_hex(4)}"
        trial.write_bytes(b"")
        trial.unlink()
    except OSError as error:
        raise Refused(
            f"Nothing can be written in {folder} ({error.strerror}). Choose another folder with --folder."
        ) from None
    return folder


def _placed(folder: Path) -> dict[str, str]:
    """What was placed at earlier starts; a lost or damaged note means that nothing may be refreshed."""
    try:
        noted = json.loads((folder / PLACED).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    return noted if isinstance(noted, dict) else {}


def _write(path: Path, data: bytes) -> None:
    """Write whole or not at all, so that a pulled plug leaves no half file."""
    path.parent.mkdir(parents=True, exist_ok=True)
    part = path.with_name(f".{path.name}.part")
    part.write_bytes(data)
    os.replace(part, path)


def place(folder: Path, source: Path) -> Update:
    """Make or update the copy of the course in `folder`.

    New and missing files are added. A file that is still as it was placed is refreshed. What the apprentice
    changed stays, and with it its whole lesson: a lesson's notebook and its slip belong together.
    """
    placed = _placed(folder)
    update = Update()
    files = course_files(source)
    lessons = {str(Path(name).parent) for name in files if Path(name).name == SLIP}
    new = {name: fingerprint(source / name) for name in files}
    here = {name: fingerprint(folder / name) for name in files if (folder / name).is_file()}
    changed = {name for name in here if here[name] not in (placed.get(name), new[name])}
    held = {str(Path(name).parent) for name in changed} & lessons
    for name in files:
        if name in changed or (name in here and str(Path(name).parent) in held):
            if new[name] != placed.get(name):
                update.kept.append(name)
            continue
        if here.get(name) != new[name]:
            _write(folder / name, (source / name).read_bytes())
            (update.refreshed if name in here else update.added).append(name)
        placed[name] = new[name]
    _write(folder / PLACED, json.dumps(placed, indent=1).encode())
    return update


def set_candidate(folder: Path, candidate: int) -> None:
    """Write the candidate's number into the copy; a copy that belongs to another number is refused."""
    path = folder / NUMBER
    known = path.read_text(encoding="utf-8", errors="replace").strip() if path.is_file() else ""
    if known and known != str(candidate):
        raise Refused(
            f"This copy belongs to candidate {known}, not {candidate}: its numbers differ. "
            f"Use another --folder for candidate {candidate}. "
            f"If {known} was a mistake and nothing is answered yet, delete {path} and start again."
        )
    _write(path, f"{candidate}\n".encode())
