"""Batches of one shift as columns on a time line: what is driven, what is left over, and how long each keeps.

A column stands at its quench; its height counts its rivets, to scale: shaded what is driven, hatched what is left over.
The line below each column reaches as far as the batch keeps; an arrow says that this lies beyond the picture.
What is shown is given, not worked out here.
"""

import numpy as np
from matplotlib.lines import Line2D
from matplotlib.patches import PathPatch
from matplotlib.path import Path

from workbench.drawings.cylinder import outline
from workbench.drawings.dimensions import Dimensions, words
from workbench.drawings.hatching import RISING, hatching
from workbench.drawings.sheet import INK, NARROW, PAPER, SHADE, WIDE, Sheet

LEFT, RIGHT, FLOOR, TALL, HALF = 70.0, 850.0, 150.0, 0.6, 15.0  # px: time line, its height, a rivet, half a column
_NONE = outline([(0, 0)])
_BREAK = (np.nan, np.nan)


class BatchPlan:
    """One drawing for all plans: `BatchPlan(from_min, to_min, shift, clock)`, then `show(columns)`.

    shift: (from, to) of the work, in minutes; clock: function of a minute giving its time of day in words.
    """

    def __init__(self, from_min, to_min, shift, clock, width_px=900, height_px=400):
        self.from_min, self.to_min, self.clock = from_min, to_min, clock
        self.sheet = Sheet(width_px, height_px)
        view = self.sheet.view(0, 0, 900, 400, 1, 0, 0)
        moving, still = self.sheet.moving, self.sheet.still
        still(view, Line2D([LEFT, RIGHT], [FLOOR, FLOOR], color=INK, lw=NARROW))
        still(view, Line2D([self.x(shift[0]), self.x(shift[1])], [FLOOR, FLOOR], color=INK, lw=3 * WIDE))
        for minute in range(from_min, to_min + 1, 60):
            x = self.x(minute)
            still(view, Line2D([x, x], [FLOOR, FLOOR - 6], color=INK, lw=NARROW))
            still(view, PathPatch(words(clock(minute), x, FLOOR - 16), fc=INK, lw=0))
        for name, x in (("driven", 90), ("left over", 230), ("keeps until", 390), ("the shift", 570)):
            still(view, PathPatch(words(name, x + 40, 388, align="left"), fc=INK, lw=0))
        for x, face in ((90, SHADE), (230, PAPER)):
            still(view, PathPatch(outline(self._box(x + 15, 381, 395)), fc=face, ec=INK, lw=WIDE))
        still(view, Line2D(*hatching(self._box(245, 381, 395), 5, RISING), color=INK, lw=NARROW))
        still(view, Line2D([390, 422], [388, 388], color=INK, lw=WIDE))
        still(view, Line2D([570, 602], [388, 388], color=INK, lw=3 * WIDE))
        self.driven = moving(view, PathPatch(_NONE, fc=SHADE, ec=INK, lw=WIDE))
        self.over = moving(view, PathPatch(_NONE, fc=PAPER, ec=INK, lw=WIDE))
        self.hatch = moving(view, Line2D([], [], color=INK, lw=NARROW))
        self.keeps = moving(view, Line2D([], [], color=INK, lw=WIDE))
        self.dimensions = Dimensions(self.sheet, view)

    def x(self, minute):
        """Place of a minute on the sheet (px)."""
        return LEFT + (RIGHT - LEFT) * (minute - self.from_min) / (self.to_min - self.from_min)

    @staticmethod
    def _box(middle, low, high):
        return [(middle - HALF, low), (middle + HALF, low), (middle + HALF, high), (middle - HALF, high)]

    def show(self, columns):
        """Show columns (quench minute, rivets driven, rivets left over, last minute that the batch keeps)."""
        self.columns = columns
        marks = self.dimensions
        marks.clear()
        boxes, rest, lines, keeps = [], [], [], []
        for number, (quench, driven, over, until) in enumerate(columns):
            x, top = self.x(quench), FLOOR + TALL * driven
            if driven:
                boxes.append(outline(self._box(x, FLOOR, top)))
            if over:
                box = self._box(x, top, top + TALL * over)
                rest.append(outline(box))
                lines.append(hatching(box, 6, RISING))
            marks.word(f"{driven} + {over}" if over else f"{driven}", x, top + TALL * over + 12)
            y = FLOOR - 34 - 12 * number
            end = self.x(min(until, self.to_min))
            keeps += [(x, y), (end, y), _BREAK]
            if until > self.to_min:
                marks.arrow(end, y, 0)
            marks.word(self.clock(until), end + 6, y, "left")
        for patch, paths in ((self.driven, boxes), (self.over, rest)):
            patch.set_path(Path.make_compound_path(*paths) if paths else _NONE)
        self.hatch.set_data(*(np.concatenate(lines, axis=1) if lines else ([], [])))
        self.keeps.set_data(*np.array(keeps, dtype=float).T)
        marks.show()

    def png(self):
        """The picture as PNG bytes."""
        return self.sheet.png()

    def text(self):
        """What is drawn, in words."""
        said = "; ".join(f"{self.clock(quench)}: {driven + over} rivets, {over} left over"
                         for quench, driven, over, _ in self.columns)
        return f"{len(self.columns)} batches on a time line. {said}."
