"""Two cost lines against quantity: each begins at the price of its tool and climbs by the cost of one fastening.

The slow way is drawn in full, the quick one dashed; a chain line drops from the crossing. Costs come from
`workbench.rivets.cost`. The scale of money steps through round figures, so that lines can be compared.
"""

import numpy as np
from matplotlib.lines import Line2D
from matplotlib.patches import Circle, PathPatch

from workbench.drawings.dimensions import Dimensions, words
from workbench.drawings.sheet import CENTRE_LINE, DIMENSION, INK, NARROW, PAPER, WIDE, Sheet

ORIGIN, WIDTH, HEIGHT = (92.0, 56.0), 640.0, 312.0  # px: of the diagram
MOST = 10_000  # fastenings
SCALES = (500, 1000, 2000, 3000, 4000, 5000, 10_000, 20_000, 50_000)  # francs at the top


class BreakEven:
    """One drawing for all pairs of ways: `show(slow, quick, crossing)` moves it."""

    def __init__(self, width_px=900, height_px=400):
        self.sheet = Sheet(width_px, height_px)
        view = self.sheet.view(0, 0, 900, 400, 1, 0, 0)
        still, moving = self.sheet.still, self.sheet.moving
        x0, y0 = ORIGIN
        for count in range(0, MOST + 1, 2000):
            x = x0 + WIDTH * count / MOST
            still(view, Line2D([x, x], [y0, y0 - 5], color=INK, lw=NARROW))
            still(view, PathPatch(words(f"{count}", x, y0 - 14), fc=INK, lw=0))
        still(view, Line2D([x0, x0, x0 + WIDTH + 10], [y0 + HEIGHT + 8, y0, y0], color=INK, lw=WIDE))
        still(view, PathPatch(words("fastenings", x0 + WIDTH / 2, 16), fc=INK, lw=0))
        still(view, PathPatch(words("cost in francs, tool and all fastenings", 16, y0 + HEIGHT / 2, turned=True),
                              fc=INK, lw=0))  # fmt: skip
        self.drop = moving(view, Line2D([], [], color=DIMENSION, lw=NARROW, ls=CENTRE_LINE))
        self.slow = moving(view, Line2D([], [], color=INK, lw=1.5 * WIDE))
        self.quick = moving(view, Line2D([], [], color=INK, lw=1.5 * WIDE, ls=(0, (6, 2.5))))
        self.mark = moving(view, Circle((0, 0), 5, fc=PAPER, ec=INK, lw=WIDE))
        self.dimensions = Dimensions(self.sheet, view)

    def show(self, slow, quick, crossing, names=("hand tool", "air tool")):
        """Show two ways, each (price of the tool, cost of one), and the quantity where they cross, or None."""
        self.ways, self.crossing, self.names = (slow, quick), crossing, names
        ends = [fixed + each * MOST for fixed, each in self.ways]
        self.top = next((scale for scale in SCALES if max(ends) <= scale), SCALES[-1])
        marks = self.dimensions
        marks.clear()
        for part in range(0, 6):
            money = self.top * part / 5
            (x, y) = self.px(0, money)
            marks.line((x - 5, y), (x, y))
            marks.word(f"{money:g}", x - 9, y, "right")
        heights = []
        for line, (fixed, _), end in zip((self.slow, self.quick), self.ways, ends, strict=True):
            points = np.array([self.px(0, fixed), self.px(MOST, end)])
            line.set_data(points[:, 0], points[:, 1])
            heights.append(points[1, 1])
        apart = max(0.0, 15 - abs(heights[0] - heights[1])) / 2  # labels of lines that end close together
        first = 1 if heights[0] >= heights[1] else -1
        self.name_heights = (heights[0] + first * apart, heights[1] - first * apart)
        for name, height in zip(names, self.name_heights, strict=True):
            marks.word(name, ORIGIN[0] + WIDTH + 14, height, "left")
        self._show_crossing()
        marks.show()

    def px(self, count, money):
        """Pixels of a quantity and its cost."""
        return ORIGIN[0] + WIDTH * count / MOST, ORIGIN[1] + HEIGHT * money / self.top

    def _show_crossing(self):
        seen = self.crossing is not None and self.crossing <= MOST
        self.mark.set_visible(seen)
        if not seen:
            self.drop.set_data([], [])
            return
        fixed, each = self.ways[0]
        x, y = self.px(self.crossing, fixed + each * self.crossing)
        self.mark.set_center((x, y))
        self.drop.set_data([x, x], [y, ORIGIN[1]])
        self.dimensions.leader((x - 3, y + 4), (x - 30, min(y + 44, 384)), f"same cost at {self.crossing:.1f}", "right")

    def png(self):
        """The picture as PNG bytes."""
        return self.sheet.png()

    def text(self):
        """What is drawn, in words."""
        said = "; ".join(f"{name}: {fixed:g} francs, then {each:.3f} francs for each fastening"
                         for name, (fixed, each) in zip(self.names, self.ways, strict=True))  # fmt: skip
        cross = ("The lines do not cross up to 10 000 fastenings." if self.crossing is None or self.crossing > MOST
                 else f"The lines cross at {self.crossing:.1f} fastenings.")  # fmt: skip
        return f"Two straight cost lines over the number of fastenings. {said}. {cross}"
