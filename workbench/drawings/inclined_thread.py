"""One turn of a thread unrolled, and the forces on it: load, hand, and the friction angle either side of the slope.

Left: the ramp, one circumference long and one lead high, to true angle, with a piece of the nut on it. Right: the load
F downward; from its upper end three rays: at the lead angle, and a friction angle more and less. Where they meet the
level line they cut off the force that pushes along: without friction, to raise, to lower. The ray to lower passes
the load's line where the thread begins to run back. Angles come from `workbench.screws.power`.
"""

import math

import numpy as np
from matplotlib.lines import Line2D
from matplotlib.patches import PathPatch

from workbench.drawings.cylinder import outline
from workbench.drawings.dimensions import Dimensions, width, words
from workbench.drawings.hatching import RISING, hatching
from workbench.drawings.sheet import INK, NARROW, SHADE, STEEL, WIDE, Sheet

LEFT, FLOOR, BASE = 70.0, 84.0, 360.0  # px: foot of the ramp; its length
FOOT, LOAD = (590.0, 84.0), 260.0  # px: lower end of the load's line; its length
_NONE = outline([(0, 0)])
_BREAK = (np.nan, np.nan)


class InclinedThread:
    """One drawing for all threads: `show(...)` moves it."""

    def __init__(self, width_px=900, height_px=400):
        self.sheet = Sheet(width_px, height_px)
        self.view = view = self.sheet.view(0, 0, 900, 400, 1, 0, 0)
        moving, still = self.sheet.moving, self.sheet.still
        self.ramp = moving(view, PathPatch(_NONE, fc=STEEL, ec=INK, lw=WIDE))
        self.hatch = moving(view, Line2D([], [], color=INK, lw=0.55 * NARROW))
        self.block = moving(view, PathPatch(_NONE, fc=SHADE, ec=INK, lw=WIDE))
        self.rays = moving(view, Line2D([], [], color=INK, lw=NARROW))
        self.slope_ray = moving(view, Line2D([], [], color=INK, lw=NARROW, ls=(0, (6, 3))))
        self.pushes = moving(view, Line2D([], [], color=INK, lw=2 * WIDE))
        still(view, Line2D([FOOT[0]] * 2, [FOOT[1], FOOT[1] + LOAD], color=INK, lw=WIDE))
        for text, x in (("one turn of the thread, unrolled", LEFT + BASE / 2), ("forces on the thread", 640)):
            still(view, PathPatch(words(text, x, 14), fc=INK, lw=0))
        self.dimensions = Dimensions(self.sheet, view)

    def show(self, turn_mm, lead_mm, friction_deg, load_kn):
        """Show a ramp of one turn (circumference at the pitch diameter) and one lead, rubbing by a friction angle."""
        self.lead_deg, self.friction_deg = math.degrees(math.atan2(lead_mm, turn_mm)), friction_deg
        self.raising_kn = load_kn * math.tan(math.radians(self.lead_deg + friction_deg))
        self.lowering_kn = load_kn * math.tan(math.radians(friction_deg - self.lead_deg))
        self.dimensions.clear()
        self._show_ramp(turn_mm, lead_mm)
        self._show_forces(load_kn)
        self.dimensions.show()

    def _show_ramp(self, turn_mm, lead_mm):
        slope = math.radians(self.lead_deg)
        height = BASE * math.tan(slope)
        corners = [(LEFT, FLOOR), (LEFT + BASE, FLOOR), (LEFT + BASE, FLOOR + height)]
        self.ramp.set_path(outline(corners))
        self.hatch.set_data(*hatching(corners, 9, RISING))
        along = np.array([math.cos(slope), math.sin(slope)])
        across = np.array([-along[1], along[0]])
        seat = np.array([LEFT + 0.45 * BASE, FLOOR + 0.45 * height])
        self.block.set_path(outline([seat, seat + 84 * along, seat + 84 * along + 46 * across, seat + 46 * across]))
        middle = seat + 42 * along + 23 * across
        marks = self.dimensions
        x, y = middle
        marks.line((x, y + 90), (x, y + 26))
        marks.arrow(x, y + 26, -math.pi / 2)
        marks.word("load F", x + 8, y + 82, "left")
        marks.line((x - 120, y), (x - 48, y))
        marks.arrow(x - 48, y, 0)
        marks.word("hand", x - 128, y, "right")
        marks.across(LEFT, LEFT + BASE, FLOOR - 28, f"π × d₂ = {turn_mm:.1f}", FLOOR, FLOOR)
        marks.up(FLOOR, FLOOR + height, LEFT + BASE + 22, f"lead {lead_mm:g}", LEFT + BASE, LEFT + BASE)
        marks.word("nut", *(middle + (20, 0)))

    def _show_forces(self, load_kn):
        x0, y0 = FOOT
        top = (x0, y0 + LOAD)
        at = {name: x0 + LOAD * math.tan(math.radians(angle)) for name, angle in (
            ("slope", self.lead_deg), ("raise", self.lead_deg + self.friction_deg),
            ("lower", self.lead_deg - self.friction_deg))}
        self.slope_ray.set_data(*np.array([top, (at["slope"], y0)]).T)
        self.rays.set_data(*np.array([top, (at["raise"], y0), _BREAK, top, (at["lower"], y0), _BREAK,
                                      (min(x0, at["lower"]) - 16, y0), (at["raise"] + 16, y0)]).T)
        self.pushes.set_data(*np.array([(x0, y0), (at["raise"], y0), _BREAK, (x0, y0 - 26), (at["lower"], y0 - 26)]).T)
        marks = self.dimensions
        marks.arrow(at["raise"], y0, 0, 13, 4)
        if abs(at["lower"] - x0) > 14:
            marks.arrow(at["lower"], y0 - 26, 0 if at["lower"] > x0 else math.pi, 13, 4)
        marks.arrow(x0, y0, -math.pi / 2)
        marks.word(f"F {load_kn:g} kN", x0 - 30, y0 + 0.35 * LOAD, "right")
        marks.word(f"raise {self.raising_kn:.2f} kN", at["raise"] + 10, y0 + 12, "left")
        force = abs(self.lowering_kn)
        word = f"lower {force:.2f} kN" if self.lowering_kn >= 0 else f"hold back {force:.2f} kN"
        marks.word(word, max(x0, at["lower"]) + 10, y0 - 26, "left")
        down = -90.0  # the load's line, seen from its upper end; angles run to the right from there
        for radius, start, end, name in ((150, 0, self.lead_deg, f"lead {self.lead_deg:.1f}°"),
                                         (105, self.lead_deg, self.lead_deg + self.friction_deg,
                                          f"friction {self.friction_deg:.1f}°")):
            middle = radius * math.sin(math.radians((start + end) / 2))
            clear = radius * math.sin(math.radians(self.lead_deg + self.friction_deg)) + 24 + width(name) / 2
            marks.angle(*top, radius, down + start, down + end, name, (clear - middle, 6))

    def png(self):
        """The picture as PNG bytes."""
        return self.sheet.png()

    def text(self):
        """What is drawn, in words."""
        runs = ("the load needs a push to come down" if self.lowering_kn >= 0 else
                "the load comes down by itself and must be held back")
        return (f"One turn of thread unrolled as a ramp of {self.lead_deg:.2f} degrees with a piece of nut on it. "
                f"Beside it the forces: {self.raising_kn:.2f} kN to raise; friction angle {self.friction_deg:.2f} "
                f"degrees, so {runs}.")
