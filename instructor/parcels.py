"""What was handed in, file by file: from folders, from zips, from zips in folders or in zips.

Nothing is unpacked to the disk. A path that points outside, a link, a bomb or a broken zip is reported and
passed over; a file is read only when it is wanted, and only up to a limit.
"""

import io
import os
import stat
import zipfile
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path, PurePosixPath

LARGEST_FILE = 50_000_000
MOST_FILES = 20_000
DEEPEST_ZIP = 2
LARGEST_RATIO = 100  # notebooks pack to a tenth, or a thirtieth
SMALL_FILE = 2_000_000
WANTED = (".ipynb", ".zip", "candidate.txt", "release.json", "attempts.jsonl")
PASSED_OVER = (".ipynb_checkpoints", "__MACOSX", ".git", ".workbench", "__pycache__")


@dataclass(frozen=True)
class Handed:
    """One file that was handed in.

    parts: its path, from the name of the folder or zip that was given. read: gives its content, or raises
    `NotTaken`. modified: when it was last changed, in seconds.
    """

    parts: tuple[str, ...]
    read: Callable[[], bytes]
    modified: float

    @property
    def name(self) -> str:
        """The file's own name."""
        return self.parts[-1]

    @property
    def folder(self) -> tuple[str, ...]:
        """The folder that it lies in."""
        return self.parts[:-1]

    @property
    def where(self) -> str:
        """The path as told to the instructor."""
        return "/".join(self.parts)


class NotTaken(Exception):
    """A file that is not taken; the text says why."""


def files(given: Path, report: Callable[[str], None]) -> Iterator[Handed]:
    """All wanted files of a folder or zip; `report` is told what was passed over and why."""
    if given.is_dir():
        yield from _folder(given, report)
    elif given.exists() and not given.is_file():  # never opened: a pipe that nobody fills has no end
        report(f"{given}: neither a folder nor a plain file")
    elif zipfile.is_zipfile(given):
        yield from _zip(given.read_bytes(), (given.stem,), report, 1)
    elif given.suffix == ".ipynb":
        yield _on_disk(given, (given.name,))
    elif given.exists():
        report(f"{given}: neither a folder nor a zip that can be opened")
    else:
        report(f"{given}: there is no such folder or zip")


def _folder(given: Path, report) -> Iterator[Handed]:
    count = 0
    for folder, inside, names in os.walk(given):  # links to folders are not followed
        inside[:] = sorted(name for name in inside if name not in PASSED_OVER)
        for name in sorted(names):
            path = Path(folder, name)
            parts = (given.resolve().name, *path.relative_to(given).parts)
            if not name.lower().endswith(WANTED):
                continue
            count += 1
            if count > MOST_FILES:
                report(f"{given}: holds more than {MOST_FILES:,} files; the rest was passed over")
                return
            if path.is_symlink() or not path.is_file():
                report(f"{'/'.join(parts)}: is a link or no plain file; passed over")
            elif name.lower().endswith(".zip"):
                if path.stat().st_size > LARGEST_FILE * 4:
                    report(f"{'/'.join(parts)}: is larger than {LARGEST_FILE * 4 // 10**6} MB; passed over")
                    continue
                yield from _zip(path.read_bytes(), (*parts[:-1], path.stem), report, 1)
            else:
                yield _on_disk(path, parts)


def _on_disk(path: Path, parts: tuple[str, ...]) -> Handed:
    def read() -> bytes:
        if path.stat().st_size > LARGEST_FILE:
            raise NotTaken(f"is larger than {LARGEST_FILE // 10**6} MB")
        return path.read_bytes()

    return Handed(parts, read, path.stat().st_mtime)


def _zip(content: bytes, parts: tuple[str, ...], report, depth: int) -> Iterator[Handed]:
    where = "/".join(parts)
    try:
        archive = zipfile.ZipFile(io.BytesIO(content))
        entries = archive.infolist()
    except (zipfile.BadZipFile, ValueError, OSError, NotImplementedError) as broken:
        report(f"{where}.zip: cannot be opened ({broken})")
        return
    if len(entries) > MOST_FILES:
        report(f"{where}.zip: holds {len(entries):,} files, more than any work does; passed over")
        return
    for entry in entries:
        name = entry.filename.replace("\\", "/")
        inside = PurePosixPath(name).parts
        if entry.is_dir() or not name.lower().endswith(WANTED) or set(inside) & set(PASSED_OVER):
            continue
        if name.startswith("/") or ".." in inside or ":" in inside[0]:
            report(f"{where}.zip: {name[:80]!r} points outside the zip; passed over")
            continue
        if stat.S_ISLNK(entry.external_attr >> 16):
            report(f"{where}.zip: {name[:80]!r} is a link; passed over")
            continue
        if name.lower().endswith(".zip"):
            if depth >= DEEPEST_ZIP:
                report(f"{where}.zip: {name[:80]!r} is a zip in a zip in a zip; passed over")
                continue
            try:
                yield from _zip(_bounded(archive, entry)(), (*parts, *inside[:-1], inside[-1][:-4]), report, depth + 1)
            except NotTaken as reason:
                report(f"{where}.zip: {name[:80]!r} {reason}; passed over")
            continue
        yield Handed((*parts, *inside), _bounded(archive, entry), _when(entry))


def _bounded(archive: zipfile.ZipFile, entry: zipfile.ZipInfo) -> Callable[[], bytes]:
    """Reads a zip's entry up to the limit, whatever size its head claims."""

    def read() -> bytes:
        if entry.file_size > LARGEST_FILE:  # nothing is unpacked beyond what the head claims
            raise NotTaken(f"unpacks to more than {LARGEST_FILE // 10**6} MB")
        if entry.file_size > max(SMALL_FILE, LARGEST_RATIO * entry.compress_size):
            raise NotTaken(f"unpacks to more than {LARGEST_RATIO} times its size")
        try:
            with archive.open(entry) as handle:
                content = handle.read(LARGEST_FILE + 1)
        except (RuntimeError, zipfile.BadZipFile, NotImplementedError, OSError, EOFError, ValueError) as failed:
            raise NotTaken(f"cannot be unpacked ({str(failed)[:80]})") from None
        except Exception as failed:  # zlib and lzma raise errors of their own
            raise NotTaken(f"cannot be unpacked ({type(failed).__name__})") from None
        if len(content) > LARGEST_FILE:
            raise NotTaken(f"unpacks to more than {LARGEST_FILE // 10**6} MB")
        return content

    return read


def _when(entry: zipfile.ZipInfo) -> float:
    try:
        return datetime(*entry.date_time).timestamp()
    except (ValueError, OverflowError, OSError):
        return 0.0
