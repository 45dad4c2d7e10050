"""Engraving on a round part, as seen from the front: y = radius x sin(angle), the visible half only.

Angles are in radians, 0 facing the reader, upwards positive; x runs along the axis in mm.
"""

import numpy as np
from matplotlib.path import Path
from matplotlib.textpath import TextPath

_QUARTER = np.pi / 2
_UPRIGHT = {}


def outline(corners):
    """A closed path through the corners (x, y)."""
    corners = np.asarray(corners, dtype=float)
    return Path(np.vstack([corners, corners[:1]]), closed=True)


def lettering(text, height):
    """The outline of a number or word, digits `height` mm high, centred on (0, 0)."""
    if (text, height) not in _UPRIGHT:
        path = TextPath((0, 0), text, size=height * 1.37)  # digits are 0.73 of the nominal size
        drawn = path.vertices[path.codes != Path.CLOSEPOLY]
        low, high = drawn.min(axis=0), drawn.max(axis=0)
        _UPRIGHT[text, height] = Path(path.vertices - (low + high) / 2, path.codes)
    return _UPRIGHT[text, height]


class Engraving:
    """Lines and figures cut into a cylinder of `radius` mm, or a cone that widens by `slope` mm a mm of x.

    >>> scale = Engraving(radius=5)
    >>> scale.line(0, 2, angle=np.radians(30), width=0.1)
    >>> round(float(scale.path().vertices[:4, 1].mean()), 2)
    2.5
    >>> len(scale.path(turned=np.radians(90)))   # turned away from the reader
    0
    """

    def __init__(self, radius, slope=0.0):
        self.radius, self.slope = radius, slope
        self._x, self._angle, self._codes, self._owner, self._at = [], [], [], [], []
        self._packed = None

    def _add(self, x, angle, codes, at):
        self._owner.append(np.full(len(x), len(self._at)))
        self._x.append(x)
        self._angle.append(angle)
        self._codes.append(codes)
        self._at.append(at)
        self._packed = None

    def _bar(self, x, angle, at):
        x, angle = np.array(x, dtype=float), np.array(angle, dtype=float)
        self._add(x, angle, [Path.MOVETO, Path.LINETO, Path.LINETO, Path.LINETO, Path.CLOSEPOLY], at)

    def line(self, start, end, angle, width):
        """A line along the axis from x = start to end, `width` mm wide."""
        half = width / self.radius / 2
        low, high = angle - half, angle + half
        self._bar([start, end, end, start, start], [low, low, high, high, low], angle)

    def ring(self, x, start, end, width):
        """A line around the axis at x, from angle `start` to `end`, in short steps so that it stays true."""
        steps = np.linspace(min(start, end), max(start, end), 9)
        there, back = np.full(9, x + width / 2), np.full(9, x - width / 2)  # same sense as `line`: no holes
        points = np.concatenate([there, back, there[:1]])
        codes = [Path.MOVETO] + [Path.LINETO] * 17 + [Path.CLOSEPOLY]
        self._add(points, np.concatenate([steps, steps[::-1], steps[:1]]), codes, (start + end) / 2)

    def figures(self, text, x, angle, height):
        """An upright number centred at (x, angle)."""
        path = lettering(text, height)
        local = self.radius + self.slope * x
        self._add(path.vertices[:, 0] + x, path.vertices[:, 1] / local + angle, path.codes, angle)

    def path(self, turned=0.0):
        """What is seen of it after the part was turned by an angle: a path of filled areas."""
        if self._packed is None:
            self._packed = tuple(np.concatenate(part) for part in (self._x, self._angle, self._codes, self._owner))
        x, angle, codes, owner = self._packed
        at = np.asarray(self._at) + turned
        whole_turns = 2 * np.pi * np.round(at / (2 * np.pi))
        seen = (np.abs(at - whole_turns) < _QUARTER)[owner]
        shown = np.clip((angle + turned - whole_turns[owner])[seen], -_QUARTER, _QUARTER)
        x = x[seen]
        y = (self.radius + self.slope * x) * np.sin(shown)
        return Path(np.column_stack([x, y]), codes[seen].astype(Path.code_type))
