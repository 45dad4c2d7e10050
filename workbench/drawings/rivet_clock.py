"""A shift's batches of soft rivets on a time line: usable, doubtful or hard, and where each was cold.

One row a batch: a full bar while it is usable, a hatched one while doubtful, an empty one when hard; a thick line below
the bar for its time in the cold store; a pointer across all rows. The states are given, not worked out here.
"""

import numpy as np
from matplotlib.lines import Line2D
from matplotlib.patches import PathPatch
from matplotlib.path import Path

from workbench.drawings.cylinder import outline
from workbench.drawings.dimensions import Dimensions, words
from workbench.drawings.hatching import RISING, hatching
from workbench.drawings.sheet import INK, NARROW, PAPER, SHADE, WIDE, Sheet

LEFT, FLOOR, TOP, ROW, BAR = 165.0, 62.0, 330.0, 66.0, 26.0  # px: time line, first and last row, a row, a bar
RIGHT = 775.0
_NONE = outline([(0, 0)])
_BREAK = (np.nan, np.nan)


class RivetClock:
    """One drawing for all shifts: `RivetClock(from_min, to_min, clock)`, then `show(rows, at_min)`.

    clock: function of a minute giving its time of day in words.
    """

    def __init__(self, from_min, to_min, clock, width_px=900, height_px=400):
        self.from_min, self.to_min, self.clock = from_min, to_min, clock
        self.sheet = Sheet(width_px, height_px)
        self.view = view = self.sheet.view(0, 0, 900, 400, 1, 0, 0)
        moving, still = self.sheet.moving, self.sheet.still
        still(view, Line2D([LEFT, RIGHT], [FLOOR, FLOOR], color=INK, lw=WIDE))
        for minute in range(from_min, to_min + 1, 30):
            x = self.x(minute)
            still(view, Line2D([x, x], [FLOOR, FLOOR - 6], color=INK, lw=NARROW))
            still(view, PathPatch(words(clock(minute), x, FLOOR - 17), fc=INK, lw=0))
        key = (("usable", 300), ("doubtful", 430), ("hard", 570), ("in the cold", 680))
        for name, x in key:
            still(view, PathPatch(words(name, x + 40, 14, align="left"), fc=INK, lw=0))
        still(view, PathPatch(outline(self._box(300, 330, 14)), fc=SHADE, ec=INK, lw=WIDE))
        still(view, PathPatch(outline(self._box(430, 460, 14)), fc=PAPER, ec=INK, lw=WIDE))
        still(view, Line2D(*hatching(self._box(430, 460, 14), 5, RISING), color=INK, lw=NARROW))
        still(view, PathPatch(outline(self._box(570, 600, 14)), fc=PAPER, ec=INK, lw=WIDE))
        still(view, Line2D([680, 712], [14, 14], color=INK, lw=3 * WIDE))
        self.bars = {state: moving(view, PathPatch(_NONE, fc=shade, ec=INK, lw=WIDE))
                     for state, shade in (("usable", SHADE), ("doubtful", PAPER), ("hard", PAPER))}
        self.hatch = moving(view, Line2D([], [], color=INK, lw=NARROW))
        self.cold = moving(view, Line2D([], [], color=INK, lw=3 * WIDE))
        self.pointer = moving(view, Line2D([], [], color=INK, lw=1.6 * WIDE, ls=(0, (5, 2))))
        self.dimensions = Dimensions(self.sheet, view)

    def x(self, minute):
        """Place of a minute on the sheet (px)."""
        return LEFT + (RIGHT - LEFT) * (minute - self.from_min) / (self.to_min - self.from_min)

    @staticmethod
    def _box(left, right, middle):
        return [(left, middle - 7), (right, middle - 7), (right, middle + 7), (left, middle + 7)]

    def show(self, rows, at_min):
        """Show rows (name, stretches, cold, now): stretches (from, to, state) in minutes, cold (from, to) or None, and
        the state at the pointer's minute."""
        self.rows, self.at_min = rows, at_min
        marks = self.dimensions
        marks.clear()
        boxes, lines, cold = {state: [] for state in self.bars}, [], []
        for number, (name, stretches, stay, now) in enumerate(rows):
            y = TOP - ROW * number
            marks.word(name, LEFT - 12, y, "right")
            marks.word(now, RIGHT + 10, y, "left")
            for start, end, state in stretches:
                left, right = self.x(max(start, self.from_min)), self.x(min(end, self.to_min))
                if right <= left or state not in boxes:
                    continue
                box = [(left, y - BAR / 2), (right, y - BAR / 2), (right, y + BAR / 2), (left, y + BAR / 2)]
                boxes[state].append(outline(box))
                if state == "doubtful":
                    lines.append(hatching(box, 6, RISING))
            if stay:
                start, end = (self.x(min(max(minute, self.from_min), self.to_min)) for minute in stay)
                cold += [(start, y - BAR / 2 - 7), (end, y - BAR / 2 - 7), _BREAK]
        for state, patch in self.bars.items():
            patch.set_path(Path.make_compound_path(*boxes[state]) if boxes[state] else _NONE)
        self.hatch.set_data(*(np.concatenate(lines, axis=1) if lines else ([], [])))
        self.cold.set_data(*(np.array(cold, dtype=float).T if cold else ([], [])))
        x = self.x(at_min)
        self.pointer.set_data([x, x], [FLOOR, TOP + 34])
        marks.word(self.clock(at_min), x, TOP + 44)
        marks.show()

    def png(self):
        """The picture as PNG bytes."""
        return self.sheet.png()

    def text(self):
        """What is drawn, in words."""
        states = "; ".join(f"{name} {now}" for name, _, _, now in self.rows)
        return f"Time line of {len(self.rows)} batches of rivets at {self.clock(self.at_min)}: {states}."
