"""Two drilled screw heads A and B from above, each with the hours of a clock face; no wire, for its run is asked.

An arrow round each head shows clockwise, the way a right-hand screw tightens.
"""

from functools import lru_cache

import numpy as np
from matplotlib.lines import Line2D
from matplotlib.patches import Circle, PathPatch

from workbench.drawings.cylinder import outline
from workbench.drawings.dimensions import words
from workbench.drawings.sheet import CENTRE_LINE, DIMENSION, INK, NARROW, PAPER, SATIN, SHADE, WIDE, Sheet

HEADS = {"A": (250.0, 180.0), "B": (650.0, 180.0)}  # px: middles; B lies at 3 o'clock from A
HOURS, FLAT, SWEEP = (12, 3, 6, 9), 84.0, 122.0  # px: half across the flats, radius of the arrow


def place(hour, radius, middle=(0.0, 0.0)):
    """Place of an hour of the clock face: 12 at the top, 3 to the right.

    >>> [round(float(one), 9) for one in place(3, 10)]
    [10.0, 0.0]
    """
    angle = np.radians(90 - 30 * np.asarray(hour, dtype=float))
    return middle[0] + radius * np.cos(angle), middle[1] + radius * np.sin(angle)


class LockWireHeads:
    """The drawing; `hours` holds the place of each printed hour by head and hour, `arrows` each head's sweep."""

    def __init__(self):
        self.sheet = Sheet(900, 360)
        self.view = self.sheet.view(0, 0, 900, 360, 1, 0, 0)
        self.hours, self.arrows = {}, {}
        (left, level), (right, _) = HEADS.values()
        self._put(Line2D([left - 150, right + 150], [level, level], color=DIMENSION, lw=NARROW, ls=CENTRE_LINE))
        for name, middle in HEADS.items():
            self._head(name, middle)
            self._arrow(name, middle)
        self._word("seen from above", (left + right) / 2, 336)
        self._word("arrows: clockwise", (left + right) / 2, 24)

    def _put(self, artist):
        return self.sheet.still(self.view, artist)

    def _word(self, text, x, y, size=12):
        self._put(PathPatch(words(text, x, y, size), fc=INK, lw=0))

    def _head(self, name, middle):
        corners = [place(hour, FLAT / np.cos(np.pi / 6), middle) for hour in range(1, 13, 2)]
        self._put(PathPatch(outline(corners), fc=SATIN, ec=INK, lw=WIDE))
        self._put(Circle(middle, FLAT, fc=SHADE, ec=INK, lw=NARROW))
        self._word(name, *middle, 22)
        for hour in HOURS:
            spot = self.hours[name, hour] = place(hour, 0.74 * FLAT, middle)
            self._put(Circle(spot, 13, fc=PAPER, ec=INK, lw=NARROW))
            self._word(str(hour), *spot, 12)

    def _arrow(self, name, middle):
        """From 10 to 2 over the top of the head, with a filled point."""
        hours = np.linspace(-1.6, 1.4, 40)
        x, y = self.arrows[name] = place(hours, SWEEP, middle)
        self._put(Line2D(x, y, color=INK, lw=WIDE))
        tip, inner, outer = (place(hour, radius, middle) for hour, radius in
                             ((1.75, SWEEP), (1.38, SWEEP - 6), (1.38, SWEEP + 6)))  # fmt: skip
        self._put(PathPatch(outline([tip, inner, outer]), fc=INK, ec=INK, lw=NARROW))

    def png(self):
        """The picture as PNG bytes."""
        return self.sheet.png()

    def text(self):
        """What is drawn, in words."""
        return (
            "Two screw heads A and B, seen from above. B lies to the right of A, at 3 o'clock. On each head are hours "
            "of a clock face: 12 at the top, 3 to the right, 6 at the bottom, 9 to the left. An arrow over each "
            "head shows clockwise. No wire is drawn."
        )


@lru_cache(maxsize=1)
def _drawing():
    return LockWireHeads()


def picture():
    """The still: (PNG bytes, alternative text)."""
    return _drawing().png(), _drawing().text()
