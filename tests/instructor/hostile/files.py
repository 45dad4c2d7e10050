"""Files that are no notebook, or more than one: what lies in a folder or zip that is handed in."""

import io
import json
import os
import socket
import zipfile

import nbformat

from tests.instructor.hostile.case import LESSON, NONE, Case, content_of

NAME = f"{LESSON}.ipynb"
PASSED = "passed over"


def number(place) -> str:
    return f"{place.candidate:03d}"


def folder(given, place):
    """The folder named by the number."""
    path = given / number(place)
    path.mkdir()
    return path


def as_file(make):
    """Hand in what `make` makes of the notebook's bytes, as the notebook."""

    def hand_in(given, work, place):
        (folder(given, place) / NAME).write_bytes(make(content_of(work)))

    return hand_in


def large(given, work, place):
    """A sparse file of 200 MB."""
    with (folder(given, place) / NAME).open("wb") as handle:
        handle.write(content_of(work))
        handle.truncate(200_000_000)


def padded(size):
    """A notebook that is large by what it shows."""

    def make(content):
        work = json.loads(content)
        work["metadata"]["padding"] = "x" * size
        return json.dumps(work).encode()

    return make


def many_cells(content):
    work = json.loads(content)
    work["cells"] += [{"cell_type": "code", "source": "1", "metadata": {}}] * 100_000
    return json.dumps(work).encode()


def old(version):
    def make(content):
        return nbformat.writes(nbformat.convert(nbformat.reads(content.decode(), 4), version), version).encode()

    return make


def renumbered(version):
    def make(content):
        return json.dumps(json.loads(content) | {"nbformat": version}).encode()

    return make


def accented(content):
    work = json.loads(content)
    work["cells"].append({"cell_type": "markdown", "source": "größe", "metadata": {}})
    return json.dumps(work, ensure_ascii=False).encode("latin-1", "replace")


def beside(name, make):
    """The honest notebook, and beside it something else under a name that collecting looks at."""

    def hand_in(given, work, place):
        path = folder(given, place)
        (path / NAME).write_bytes(content_of(work))
        make(path / name, place)

    return hand_in


def bound(path, place):
    with socket.socket(socket.AF_UNIX) as made:
        here = os.getcwd()
        os.chdir(path.parent)  # a socket's path may not be long
        try:
            made.bind(path.name)
        finally:
            os.chdir(here)


def zipped(*entries):
    """A zip named by the number with the honest notebook and these entries: (name, content or maker)."""

    def hand_in(given, work, place):
        with zipfile.ZipFile(given / f"{number(place)}.zip", "w", zipfile.ZIP_DEFLATED) as archive:
            archive.writestr(f"course/{LESSON}/{NAME}", content_of(work))
            for name, content in entries:
                content = content(place) if callable(content) else content
                archive.writestr(name.replace("PEER", f"{place.peer:03d}") if isinstance(name, str) else name, content)

    return hand_in


def link_entry():
    """A zip's entry that is a link, and newer than the notebook."""
    entry = zipfile.ZipInfo(NAME, (2099, 1, 1, 0, 0, 0))
    entry.external_attr = 0o120777 << 16
    return entry


def nested(depth):
    content = b"x"
    for _ in range(depth):
        held = io.BytesIO()
        with zipfile.ZipFile(held, "w") as archive:
            archive.writestr("in.zip", content)
        content = held.getvalue()
    return content


def other_number(given, work, place):
    """The copy of the course says that it is another's."""
    path = folder(given, place)
    (path / NAME).write_bytes(content_of(work))
    (path / "candidate.txt").write_text(f"{place.peer}\n")


def deep_folder(given, work, place):
    path = folder(given, place)
    (path / NAME).write_bytes(content_of(work))
    for _ in range(200):
        path = path / "d"
        path.mkdir()
    (path / "other.ipynb").write_bytes(b"{}")


ZEROS = b"\0" * 60_000_000
FILES = {
    "200 MB": Case("is larger than 50 MB", NONE, hand_in=large),
    "30 MB of padding": Case("30 MB large; the limit is 20 MB", NONE, hand_in=as_file(padded(30_000_000))),
    "10 MB of padding": Case(hand_in=as_file(padded(10_000_000))),
    "100,000 cells": Case("cells; the limit is", NONE, hand_in=as_file(many_cells)),
    "empty file": Case("the file is empty", NONE, hand_in=as_file(lambda content: b"")),
    "half a notebook": Case("not JSON", NONE, hand_in=as_file(lambda content: content[: len(content) // 2])),
    "no notebook": Case("names no notebook format", NONE, hand_in=as_file(lambda content: b"{}")),
    "nested 100,000 deep": Case("nested|not JSON", NONE, hand_in=as_file(lambda content: b"[" * 100_000)),
    "format 3": Case("the old format 3; it was upgraded", hand_in=as_file(old(3))),
    "format 3 in name only": Case("cannot be read|left to", NONE, hand_in=as_file(renumbered(3))),
    "format 99": Case("newer than the 4 known here", NONE, hand_in=as_file(renumbered(99))),
    "format -1": Case("cannot be read", NONE, hand_in=as_file(renumbered(-1))),
    "not UTF-8": Case("not UTF-8 text", NONE, hand_in=as_file(accented)),
    "UTF-16": Case("UTF-16 text; it was read all the same", hand_in=as_file(lambda one: one.decode().encode("utf-16"))),
    "link to another's work": Case(f"is a link or no plain file; {PASSED}", hand_in=beside(
        "other.ipynb", lambda path, place: path.symlink_to(place.other))),
    "link to the cohort's gradebook": Case(f"is a link or no plain file; {PASSED}", hand_in=beside(
        "attempts.jsonl", lambda path, place: path.symlink_to(place.cohort / "gradebook.db"))),
    "link to an endless device": Case(f"is a link or no plain file; {PASSED}", hand_in=beside(
        "measuring_screw (1).ipynb", lambda path, place: path.symlink_to("/dev/zero"))),
    "link to a folder": Case(hand_in=beside("link", lambda path, place: path.symlink_to(place.other.parent))),
    "pipe that nobody fills": Case(f"is a link or no plain file; {PASSED}", hand_in=beside(
        "measuring_screw (1).ipynb", lambda path, place: os.mkfifo(path))),
    "socket": Case(f"is a link or no plain file; {PASSED}", hand_in=beside("s.ipynb", bound)),
    "folder named as a notebook": Case(hand_in=beside("a.ipynb", lambda path, place: path.mkdir())),
    "200 folders deep": Case(hand_in=deep_folder),
    "zip: path that leads outside": Case("points outside the zip", hand_in=zipped(
        (f"../../PEER/{LESSON}/{NAME}", b"{}"), ("/etc/measuring_screw.ipynb", b"{}"), ("C:\\x\\a.ipynb", b"{}"))),
    "zip: another's folder": Case("more than one candidate", hand_in=zipped(
        (f"PEER/{LESSON}/{NAME}", b'{"nbformat": 4, "cells": []}'))),
    "zip: link": Case(f"is a link; {PASSED}", hand_in=zipped((link_entry(), b"/etc/passwd"))),
    "zip: bomb": Case("unpacks to more than", hand_in=zipped(("measuring_screw (1).ipynb", ZEROS))),
    "zip: bomb just below the limit, many times": Case("unpacks to more than", hand_in=zipped(
        *[(f"{n}/{NAME}", ZEROS[:49_000_000]) for n in range(8)])),
    "zip: zips in it": Case("a zip in a zip in a zip", hand_in=zipped(("in.zip", nested(6)))),
    "zip: 30,000 files": Case("more than any work does", NONE, hand_in=zipped(
        *[(f"{n}.txt", b"") for n in range(30_000)])),
    "zip: broken zip in it": Case("cannot be opened", hand_in=zipped(("in.zip", b"PK\x03\x04 broken"))),
    "candidate.txt of another": Case("its candidate.txt says", hand_in=other_number),
}
