"""Collects handed-in work into submitted/<candidate>/<release>/, whatever its layout.

A notebook's candidate is told by a folder, zip or file named by the number, or by candidate.txt in the copy
of the course that it lies in. Work collected before is never lost: what is replaced moves to earlier/.
"""

import json
import re
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import UTC, datetime
from hashlib import sha256
from pathlib import Path

from instructor.cohort import Cohort
from instructor.parcels import Handed, NotTaken, files
from instructor.release import read_slip
from instructor.roll import folder_name, read_number

_COPY_MARK = re.compile(r"(\s*\(\d+\)|[-_ ]copy\s*\d*|\s*- Copy)+$", re.IGNORECASE)


@dataclass
class Collected:
    """What a collection did: candidates by what happened to their work, and notes for the instructor."""

    new: list[int] = field(default_factory=list)
    changed: list[int] = field(default_factory=list)
    same: list[int] = field(default_factory=list)
    missing: list[int] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)


def collect(cohort: Cohort, release: str, given: Iterable[Path]) -> Collected:
    """Collect the work for a release from folders and zips."""
    slip = read_slip(cohort.released(release))
    roll, done = cohort.roll, Collected()
    found: dict[int, list[tuple[Handed, bytes]]] = defaultdict(list)
    logs: dict[tuple[str, ...], Handed] = {}
    for path in given:
        handed = list(files(path, done.notes.append))
        by_path = {one.parts: one for one in handed}
        for one in handed:
            if one.name == "attempts.jsonl":
                logs[one.folder] = one
            if not one.name.lower().endswith(".ipynb") or not _of_release(one, by_path, release):
                continue
            content, note = _wanted(one, slip.lesson, roll, done.notes)
            if content is None:
                continue
            candidate = _candidate(one, by_path, (release, slip.lesson), roll, done.notes)
            if candidate is not None:
                found[candidate].append((one, content))
                done.notes += [note] if note else []
    for candidate, works in sorted(found.items()):
        _keep(cohort, release, slip.lesson, candidate, works, logs, done)
    done.missing = [one for one in roll if not cohort.submitted(one, release).is_dir()]
    return done


def _of_release(one: Handed, by_path: dict, release: str) -> bool:
    """False where the slip beside a notebook says that it belongs to another release."""
    slip = by_path.get((*one.folder, "release.json"))
    try:
        return slip is None or json.loads(slip.read()).get("name", release) == release
    except (NotTaken, OSError, ValueError, AttributeError):
        return True  # a slip that cannot be read decides nothing


def _wanted(one: Handed, lesson: str, roll, notes: list[str]) -> tuple[bytes | None, str]:
    """The notebook's content where it is this lesson's, by name or by what stands in it; a note if renamed."""
    try:
        content = one.read()
    except (NotTaken, OSError) as reason:
        notes.append(f"{one.where}: {reason}; passed over")
        return None, ""
    stem = _COPY_MARK.sub("", one.name[:-6])
    besides = re.sub(r"[\W_]|candidate", "", stem.lower().replace(lesson, "", 1)) if lesson in stem.lower() else None
    if besides is not None and (not besides or read_number(besides)):
        return content, ""
    if re.search(rb"#\s*Answer\s+" + lesson.encode() + rb"\.", content):
        return content, "" if read_number(stem) else f"{one.where}: renamed; its answer cells are {lesson}'s"
    if read_number(stem) in roll and not re.search(rb"#\s*Answer\s+\w+\.", content):
        return content, f"{one.where}: no lesson can be made out in it; taken as {lesson}.ipynb"
    return None, ""


def _candidate(one: Handed, by_path: dict, known: tuple[str, ...], roll, notes: list[str]) -> int | None:
    """Whose work it is, or None, told in a note."""
    stems = [_COPY_MARK.sub("", part.removesuffix(".ipynb")) for part in reversed(one.parts)]
    plain = [number for number in map(read_number, stems) if number is not None]
    own = _own_number(one, by_path)
    for name in known:
        stems = [stem.replace(name, " ") for stem in stems]
    inside = [{int(digits) for digits in re.findall(r"\d+", stem) if len(digits) <= 4} for stem in stems]
    embedded = [next(iter(numbers)) for numbers in inside if len(numbers) == 1]
    by_name = [number for number in plain if number in roll]
    if len(set(by_name)) > 1:  # an inner name is whatever the sender made it: it could put this in another's place
        notes.append(f"{one.where}: its path names more than one candidate, {' and '.join(map(str, by_name))}; "
                     "passed over")
        return None
    if by_name:
        if own not in (None, by_name[0]):
            notes.append(f"{one.where}: its candidate.txt says {own}; taken as candidate {by_name[0]}'s, "
                         "as the folder or file is named")
        return by_name[0]
    if plain and own is None:
        notes.append(f"{one.where}: unknown candidate {plain[0]}, not on the roll; passed over")
        return None
    for number in ([own] if own is not None else [*embedded]):
        if number in roll:
            return number
    seen = own if own is not None else next(iter(embedded), None)
    whose = f"unknown candidate {seen}, not on the roll" if seen is not None else "no candidate's number in its path"
    notes.append(f"{one.where}: {whose}; passed over")
    return None


def _own_number(one: Handed, by_path: dict) -> int | None:
    """The number in candidate.txt, in the notebook's folder or above it."""
    for depth in range(len(one.folder), 0, -1):
        note = by_path.get((*one.folder[:depth], "candidate.txt"))
        if note is not None:
            try:
                return read_number(note.read()[:20].decode("utf-8", "replace"))
            except (NotTaken, OSError):
                return None
    return None


def _keep(cohort: Cohort, release: str, lesson: str, candidate: int, works, logs: dict, done: Collected) -> None:
    """Keep the newest of a candidate's files as the submission, all others in earlier/."""
    works.sort(key=lambda work: work[0].modified)
    one, content = works[-1]
    others = {sha256(other).hexdigest(): handed for handed, other in works[:-1] if other != content}
    if others:
        done.notes.append(f"candidate {candidate}: {len(others) + 1} different files; the newest counts, "
                          f"{one.where}; the others are kept in earlier/")
        for _, other in works[:-1]:
            if other != content:
                _set_aside(cohort, candidate, release, other)
    folder = cohort.submitted(candidate, release)
    target = folder / f"{lesson}.ipynb"
    before = target.read_bytes() if target.exists() else None
    if before == content:
        done.same.append(candidate)
    else:
        if before is not None:
            aside = _set_aside(cohort, candidate, release, before)
            done.notes.append(f"candidate {candidate}: replaces work collected before, kept as "
                              f"{aside.relative_to(cohort.root)}")
        folder.mkdir(parents=True, exist_ok=True)
        _write(target, content)
        _write(folder / "timestamp.txt", datetime.now(UTC).strftime("%Y-%m-%d %H:%M:%S UTC\n").encode())
        (done.new if before is None else done.changed).append(candidate)
    if one.folder in logs:
        try:
            _write(folder / "attempts.jsonl", logs[one.folder].read())
        except (NotTaken, OSError) as reason:
            done.notes.append(f"candidate {candidate}: attempts.jsonl {reason}; passed over")


def _set_aside(cohort: Cohort, candidate: int, release: str, content: bytes) -> Path:
    """Keep a file in earlier/, named by its content, so that nothing is kept twice or overwritten."""
    folder = cohort.root / "earlier" / folder_name(candidate) / release
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / f"{sha256(content).hexdigest()[:16]}.ipynb"
    if not path.exists():
        _write(path, content)
    return path


def _write(path: Path, content: bytes) -> None:
    part = path.with_name(f".{path.name}.part")
    part.write_bytes(content)
    part.replace(path)
