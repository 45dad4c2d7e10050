"""Dimension lines in the manner of ISO 129: drawn in pixels of the sheet, so that arrows and figures keep their size
whatever the scale of the part. Figures are read from below or from the right.
"""

from functools import lru_cache
from math import cos, sin

import numpy as np
from matplotlib.lines import Line2D
from matplotlib.patches import PathPatch
from matplotlib.path import Path

from workbench.drawings.cylinder import lettering, outline
from workbench.drawings.sheet import DIMENSION, INK, NARROW

LETTER, ARROW, THIN = 9.5, 11.0, 1.9  # height of figures; length and half width of an arrow head
OVERSHOOT = 5.0  # of extension lines past the dimension line
_NOWHERE = outline([(0, 0)])


@lru_cache(maxsize=500)
def _word(text, height):
    """Points and codes of a word about (0, 0), and where it begins and ends."""
    path = lettering(text, height)
    drawn = path.vertices[path.codes != Path.CLOSEPOLY, 0]
    return path.vertices, path.codes, drawn.min(), drawn.max()


def width(text, height=LETTER):
    """How long a word is."""
    _, _, left, right = _word(text, height)
    return right - left


def words(text, x, y, height=LETTER, align="centre", turned=False):
    """The outline of a word: (x, y) is its centre, its left or its right end; turned: reads upwards.

    >>> right, left = (words("12", 100, 50, align=end).vertices[0, 0] for end in ("left", "right"))
    >>> bool(abs(right - left - width("12")) < 1e-9)
    True
    """
    return Path(*_placed(text, x, y, height, align, turned))


def _placed(text, x, y, height, align, turned):
    points, codes, left, right = _word(text, height)
    points = points + ({"left": -left, "right": -right, "centre": 0.0}[align], 0.0)
    if turned:
        points = np.column_stack([-points[:, 1], points[:, 0]])
    return points + (x, y), codes


_TRIANGLE = np.array([Path.MOVETO, Path.LINETO, Path.LINETO, Path.CLOSEPOLY], dtype=Path.code_type)


def _head(x, y, way, length, half_width):
    """Points of an arrow head with its point at (x, y), pointing along the angle `way` (radians)."""
    c, s = cos(way), sin(way)
    back_x, back_y, side_x, side_y = x - length * c, y - length * s, -half_width * s, half_width * c
    return np.array([(x, y), (back_x + side_x, back_y + side_y), (back_x - side_x, back_y - side_y), (x, y)])


class Dimensions:
    """All dimension lines of one view: one artist for the lines, one for arrows and figures.

    Between `clear()` and `show()` any number of dimensions is added; the artists are built once.
    """

    def __init__(self, sheet, view):
        self.lines = sheet.moving(view, Line2D([], [], color=DIMENSION, lw=NARROW))
        self.ink = sheet.moving(view, PathPatch(_NOWHERE, fc=INK, lw=0))
        self.clear()

    def clear(self):
        """Nothing is dimensioned."""
        self._points, self._filled, self.said = [], [], []

    def show(self):
        """Hand lines, arrows and figures to the artists."""
        points = np.array(self._points or [(np.nan, np.nan)], dtype=float)
        self.lines.set_data(points[:, 0], points[:, 1])
        self.ink.set_path(Path(np.concatenate([points for points, _ in self._filled]),
                               np.concatenate([codes for _, codes in self._filled])) if self._filled else _NOWHERE)

    def line(self, *points):
        """A narrow line through points (x, y)."""
        self._points += [*points, (np.nan, np.nan)]

    def arrow(self, x, y, way, length=ARROW, half_width=THIN):
        """An arrow head with its point at (x, y)."""
        self._filled.append((_head(x, y, way, length, half_width), _TRIANGLE))

    def word(self, text, x, y, align="centre", height=LETTER, turned=False):
        """A word; (x, y) is its middle, its left or its right end."""
        self.said.append(text)
        self._filled.append(_placed(text, x, y, height, align, turned))

    def across(self, x0, x1, y, text, from0=None, from1=None):
        """A dimension along x at height y; from0, from1: heights where the extension lines begin."""
        x0, x1, from0, from1 = (x0, x1, from0, from1) if x0 <= x1 else (x1, x0, from1, from0)
        for x, start in ((x0, from0), (x1, from1)):
            if start is not None:
                self.line((x, start), (x, y + np.copysign(OVERSHOOT, y - start)))
        room = width(text) + 6
        if x1 - x0 >= max(room, 3 * ARROW):
            self.line((x0, y), (x1, y))
            self._heads(x0, x1, y, inside=True)
            self.word(text, (x0 + x1) / 2, y + LETTER * 0.5 + 4)
        elif x1 - x0 >= 2.4 * ARROW:  # arrows inside, the figure beside
            self.line((x0, y), (x1 + 6 + room, y))
            self._heads(x0, x1, y, inside=True)
            self.word(text, x1 + 8, y + LETTER * 0.5 + 4, "left")
        else:
            self.line((x0 - 2 * ARROW, y), (x1 + ARROW + room, y))
            self._heads(x0, x1, y, inside=False)
            self.word(text, x1 + ARROW + 3, y + LETTER * 0.5 + 4, "left")

    def _heads(self, x0, x1, y, inside):
        self.arrow(x0, y, np.pi if inside else 0)
        self.arrow(x1, y, 0 if inside else np.pi)

    def up(self, y0, y1, x, text, from0=None, from1=None):
        """A dimension along y at place x; from0, from1: places where the extension lines begin."""
        y0, y1, from0, from1 = (y0, y1, from0, from1) if y0 <= y1 else (y1, y0, from1, from0)
        for y, start in ((y0, from0), (y1, from1)):
            if start is not None:
                self.line((start, y), (x + np.copysign(OVERSHOOT, x - start), y))
        room = width(text) + 6
        left = x - LETTER * 0.5 - 4
        if y1 - y0 >= max(room, 3 * ARROW):
            self.line((x, y0), (x, y1))
            self._points_up(x, y0, y1, inside=True)
            self.word(text, left, (y0 + y1) / 2, turned=True)
        else:
            inside = y1 - y0 >= 2.4 * ARROW
            over = 6 if inside else ARROW
            self.line((x, y0 - (0 if inside else 2 * ARROW)), (x, y1 + over + room))
            self._points_up(x, y0, y1, inside)
            self.word(text, left, y1 + over + room / 2, turned=True)

    def _points_up(self, x, y0, y1, inside):
        quarter = np.pi / 2
        self.arrow(x, y0, -quarter if inside else quarter)
        self.arrow(x, y1, quarter if inside else -quarter)

    def angle(self, x, y, radius, start_deg, end_deg, text, label):
        """An angle about (x, y) between two directions; label = (dx, dy) of the figure from the middle of the arc.

        Small angles have their arrows outside. An angle of 0 has no arc.
        """
        start, end = np.radians(start_deg), np.radians(end_deg)
        middle = (start + end) / 2
        self.word(text, x + radius * np.cos(middle) + label[0], y + radius * np.sin(middle) + label[1])
        if start == end:
            return
        narrow = radius * (end - start) < 2.2 * ARROW
        spare = 2 * ARROW / radius if narrow else 0
        turn = np.linspace(start - spare, end + spare, 25)
        self.line(*zip(x + radius * np.cos(turn), y + radius * np.sin(turn), strict=True))
        lean = ARROW / radius / 2  # an arrow head lies along its chord
        for angle, way in ((start, -1), (end, 1)):
            way = -way if narrow else way
            self.arrow(x + radius * np.cos(angle), y + radius * np.sin(angle),
                       angle + way * (np.pi / 2 - lean))

    def leader(self, point, elbow, text, align="left"):
        """A word with a leader line whose arrow touches a point."""
        way = np.arctan2(point[1] - elbow[1], point[0] - elbow[0])
        side = 1 if align == "left" else -1
        self.line(point, elbow, (elbow[0] + side * (width(text) + 8), elbow[1]))
        self.arrow(*point, way)
        self.word(text, elbow[0] + 4 * side, elbow[1] + LETTER * 0.5 + 4, align)
