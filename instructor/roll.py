"""The roll of a cohort: its candidates, each a number, the only name that they have here."""

import csv
import re
from collections.abc import Iterable
from pathlib import Path

from instructor.refusal import Refusal

LARGEST = 9999


def folder_name(candidate: int) -> str:
    """The candidate's folder: at least three digits.

    >>> folder_name(7)
    '007'
    """
    return f"{candidate:03d}"


def read_number(text: str) -> int | None:
    """The candidate's number in a text such as "007", or None where it is not one."""
    found = re.fullmatch(r"\s*0*([1-9]\d{0,3})\s*", text)
    return int(found[1]) if found else None


def parse_range(text: str) -> tuple[int, ...]:
    """Candidates given as numbers and ranges.

    >>> parse_range("1-4, 9")
    (1, 2, 3, 4, 9)
    """
    candidates: list[int] = []
    for part in text.split(","):
        first, dash, last = part.partition("-")
        low, high = read_number(first), read_number(last if dash else first)
        if low is None or high is None or high < low:
            raise Refusal(f"{part.strip()!r} is not a candidate's number or a range such as 1-12 "
                          f"(numbers run from 1 to {LARGEST})")
        candidates.extend(range(low, high + 1))
    return tuple(sorted(set(candidates)))


def read_roll(path: Path) -> tuple[int, ...]:
    """The candidates of a roll file: CSV with a column `candidate`, other columns are passed over."""
    try:
        with path.open(newline="", encoding="utf-8-sig") as handle:
            rows = csv.DictReader(handle)
            if "candidate" not in (rows.fieldnames or ()):
                raise Refusal(f"{path.name} has no column 'candidate': its first line must name the columns")
            cells = [row["candidate"] or "" for row in rows]
    except FileNotFoundError:
        raise Refusal(f"there is no roll at {path}") from None
    except UnicodeDecodeError:
        raise Refusal(f"{path.name} is not UTF-8 text: save it again as 'CSV UTF-8'") from None
    candidates = []
    for line, cell in enumerate(cells, start=2):
        number = read_number(cell)
        if number is None:
            raise Refusal(f"{path.name} line {line}: {cell!r} is not a whole number from 1 to {LARGEST}")
        if number in candidates:
            raise Refusal(f"{path.name} line {line}: candidate {number} stands on the roll twice")
        candidates.append(number)
    if not candidates:
        raise Refusal(f"{path.name} names no candidate")
    return tuple(sorted(candidates))


def write_roll(path: Path, candidates: Iterable[int]) -> None:
    """Write a roll file, one candidate a line."""
    lines = ["candidate", *(str(candidate) for candidate in candidates)]
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")
