"""A table of plain text for the screen."""

from collections.abc import Iterable, Sequence


def listing(head: Sequence[str], rows: Iterable[Sequence[object]]) -> str:
    """Columns as wide as their longest cell; numbers stand to the right, the last column runs free.

    >>> print(listing(("name", "marks"), [("travel", 2), ("gap", 10)]))
    name    marks
    travel      2
    gap        10
    """
    rows = [list(row) for row in rows]
    text = [list(head), *([str(cell) for cell in row] for row in rows)]
    numeric = [bool(rows) and all(_is_number(row[i]) for row in rows) for i in range(len(head))]
    widths = [max(len(line[i]) for line in text) for i in range(len(head))]
    lines = (
        "  ".join(cell.rjust(width) if right else cell.ljust(width)
                  for cell, width, right in zip(line, widths, numeric, strict=True)).rstrip()
        for line in text
    )
    return "\n".join(lines)


def _is_number(cell: object) -> bool:
    return isinstance(cell, int | float) or str(cell).replace(".", "", 1).isdecimal() or cell == "-"
