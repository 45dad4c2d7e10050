"""Marks on rivets' heads, seen from above: what tells the alloys apart (MS20470 heads, FAA-H-8083-30, from memory).

A raised mark casts a shade beside it, a dimple is a hollow drawn with a second ring; each stands over its name.
"""

from matplotlib.patches import Circle, PathPatch, Rectangle

from workbench.drawings.dimensions import words
from workbench.drawings.sheet import INK, NARROW, PAPER, SATIN, SHADE, WIDE, Sheet

LEVEL, HEAD, WIDTH_PX, HEIGHT_PX = 130.0, 78.0, 900, 230  # px
PLACES = (170.0, 450.0, 730.0)
NAMES = (("2017", "raised dot"), ("2024", "two raised dashes"), ("2117", "dimple, a hollow"))


def picture():
    """PNG bytes and the text equivalent."""
    sheet = Sheet(WIDTH_PX, HEIGHT_PX, (WIDTH_PX, HEIGHT_PX))
    view = sheet.view(0, 0, WIDTH_PX, HEIGHT_PX, 1, 0, 0)
    for x, (alloy, mark) in zip(PLACES, NAMES, strict=True):
        sheet.still(view, Circle((x, LEVEL), HEAD, fc=SATIN, ec=INK, lw=WIDE))
        sheet.still(view, PathPatch(words(f"{alloy}: {mark}", x, 24), fc=INK, lw=0))
    dot, dashes, hollow = PLACES
    _raised(sheet, view, lambda dx, dy, **how: Circle((dot + dx, LEVEL + dy), 11, **how))
    for side in (-1, 1):  # two dashes in line, toward the rim
        _raised(sheet, view, lambda dx, dy, s=side, **how: Rectangle(
            (dashes + 47 * s - 17 + dx, LEVEL - 5 + dy), 34, 10, **how))
    sheet.still(view, Circle((hollow, LEVEL), 13, fc=SHADE, ec=INK, lw=WIDE))
    sheet.still(view, Circle((hollow, LEVEL), 8, fc=PAPER, ec=INK, lw=NARROW))
    said = "; ".join(f"{alloy}: {mark}" for alloy, mark in NAMES)
    return sheet.png(), f"Three rivet heads seen from above. {said}."


def _raised(sheet, view, shape):
    """A shape standing up from the head: its shade below and to the right, then the shape."""
    sheet.still(view, shape(4, -4, fc=INK, lw=0))
    sheet.still(view, shape(0, 0, fc=PAPER, ec=INK, lw=WIDE))
