"""Tables of published values, one CSV each.

The first lines of a table begin with `#` and give `standard`, `edition`, `clause` and `seen` (how the
values were seen: in a reprint, from memory, our own list). The first column names the row. A column in
which every cell is a number is read as numbers. Nothing but the standard library is used.
"""

import csv
import difflib
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from types import MappingProxyType

_HERE = Path(__file__).parent
_HEADER = ("standard", "edition", "clause", "seen")


@dataclass(frozen=True)
class Table:
    """A table with its source: `standard`, `edition`, `clause`, `seen`, and its `rows` by name."""

    name: str
    standard: str
    edition: str
    clause: str
    seen: str
    rows: MappingProxyType

    def row(self, name):
        """The row of that name, a mapping from column to value; ValueError with the nearest names.

        >>> table("thermal_expansion").row("aluminium")["per_million_per_degc"]
        23.1
        """
        try:
            return self.rows[name]
        except (KeyError, TypeError):
            shown = str(name)[:40]
            near = _nearest(shown, self.rows)
            raise ValueError(f"no row {shown!r} in table {self.name}; {near}") from None


def _nearest(name, known):
    near = difflib.get_close_matches(name, known, n=3, cutoff=0.4) or sorted(known)[:6]
    return "nearest names: " + ", ".join(near)


def names():
    """The names of all tables, in order.

    >>> "number_drills" in names()
    True
    """
    return tuple(sorted(path.stem for path in _HERE.glob("*.csv")))


def _columns(lines):
    """Header and records of the CSV lines, numeric columns turned into numbers."""
    header, *records = csv.reader(lines)
    columns = [list(cells) for cells in zip(*records, strict=True)]
    for place, cells in enumerate(columns):
        if place:  # the first column names the row and stays text
            try:
                columns[place] = [float(cell) for cell in cells]
            except ValueError:
                pass
    return header, list(zip(*columns, strict=True))


@cache
def table(name):
    """The table of that name, read once; ValueError with the nearest names where there is none.

    >>> table("number_drills").row("1")["diameter_in"]
    0.228
    """
    if name not in names():
        shown = str(name)[:40]
        raise ValueError(f"no table {shown!r}; {_nearest(shown, names())}")
    lines = (_HERE / f"{name}.csv").read_text(encoding="utf-8").splitlines()
    notes = dict(line[1:].strip().split(": ", 1) for line in lines if line.startswith("#"))
    missing = [key for key in _HEADER if not notes.get(key)]
    if missing:
        raise ValueError(f"table {name} must say its {missing[0]}; add a line '# {missing[0]}: ...' on top")
    header, records = _columns([line for line in lines if line and not line.startswith("#")])
    rows = {}
    for record in records:
        if record[0] in rows:
            raise ValueError(f"table {name} holds row {record[0]!r} twice; delete one")
        rows[record[0]] = MappingProxyType(dict(zip(header, record, strict=True)))
    return Table(name, *(notes[key] for key in _HEADER), MappingProxyType(rows))
