"""One torque, many preloads: the fan of preload against torque over a range of friction, and ten screws beside it.

Left: preload (kN) over torque (N m), lines for the lowest, middle and highest friction; the set torque with the
wrench's own error as a strip. Right: ten screws spread evenly over friction and error, to the same scale. Computed
by `workbench.screws.torque`; the drawing is given the numbers.
"""

import numpy as np
from matplotlib.lines import Line2D
from matplotlib.patches import PathPatch
from matplotlib.path import Path

from workbench.drawings.cylinder import outline
from workbench.drawings.dimensions import Dimensions, words
from workbench.drawings.sheet import INK, NARROW, PAPER, SATIN, SHADE, WIDE, Sheet

LEFT, FLOOR = 62.0, 46.0  # px: the origin
PX_PER_NM, PX_PER_KN = 4.2, 5.2
MOST_NM, MOST_KN = 110, 64
BARS, BAR, STEP = 612.0, 16.0, 26.0  # px: where the ten screws begin, how wide, how far apart
_NONE = outline([(0, 0)])
_GAP = (np.nan, np.nan)


def _x(torque_nm):
    return LEFT + PX_PER_NM * torque_nm


def _y(preload_kn):
    return FLOOR + PX_PER_KN * preload_kn


class TorqueScatter:
    """One drawing for all settings: `show(...)` moves it."""

    def __init__(self, width_px=900, height_px=400):
        self.sheet = Sheet(width_px, height_px)
        self.view = view = self.sheet.view(0, 0, 900, 400, 1, 0, 0)
        moving, still = self.sheet.moving, self.sheet.still
        for torque in range(0, MOST_NM + 1, 20):
            still(view, Line2D([_x(torque)] * 2, [FLOOR, FLOOR - 5], color=INK, lw=NARROW))
            still(view, PathPatch(words(f"{torque}", _x(torque), FLOOR - 14), fc=INK, lw=0))
        for preload in range(0, MOST_KN + 1, 10):
            still(view, Line2D([LEFT, LEFT - 5], [_y(preload)] * 2, color=INK, lw=NARROW))
            still(view, PathPatch(words(f"{preload}", LEFT - 9, _y(preload), align="right"), fc=INK, lw=0))
        for text, x, y in (("torque at the nut in N m", _x(MOST_NM / 2), 12), ("ten screws, one torque", 735, 12)):
            still(view, PathPatch(words(text, x, y), fc=INK, lw=0))
        still(view, PathPatch(words("preload in kN", 16, _y(MOST_KN / 2), turned=True), fc=INK, lw=0))
        height = PX_PER_KN * MOST_KN  # what lies higher is cut off
        plot = self.sheet.view(LEFT, FLOOR, PX_PER_NM * MOST_NM, height, 1, LEFT, FLOOR)
        bars = self.sheet.view(BARS - 4, FLOOR, 10 * STEP + 4, height, 1, BARS - 4, FLOOR)
        self.fan = moving(plot, PathPatch(_NONE, fc=SATIN, lw=0))
        self.strip = moving(plot, PathPatch(_NONE, fc=SHADE, lw=0))
        self.bars = moving(bars, PathPatch(_NONE, fc=PAPER, ec=INK, lw=WIDE))
        self.lines = moving(plot, Line2D([], [], color=INK, lw=WIDE))
        self.middle = moving(plot, Line2D([], [], color=INK, lw=NARROW, ls=(0, (8, 3))))
        self.limit = moving(view, Line2D([], [], color=INK, lw=1.4 * WIDE, ls=(0, (3, 2))))
        still(view, Line2D([LEFT, LEFT, _x(MOST_NM)], [_y(MOST_KN), FLOOR, FLOOR], color=INK, lw=WIDE))
        still(view, Line2D([BARS - 14, BARS + 10 * STEP], [FLOOR, FLOOR], color=INK, lw=WIDE))
        self.dimensions = Dimensions(self.sheet, view)

    def show(self, torque_nm, error, per_kn_nm, frictions, limit_kn, preloads_kn):
        """Show a setting.

        torque_nm set, error of the wrench (0.04 for 4 percent); per_kn_nm: torque in N m for 1 kN at the lowest,
        middle and highest friction; frictions: these three; limit_kn: where the screw is near yield; preloads_kn:
        of the ten screws.
        """
        self.preloads_kn, self.limit_kn, self.torque_nm = np.asarray(preloads_kn), limit_kn, torque_nm
        lowest, mean, highest = per_kn_nm
        origin = (LEFT, FLOOR)
        rays = {name: (_x(2 * MOST_NM), _y(2 * MOST_NM / slope))
                for name, slope in (("low", lowest), ("mean", mean), ("high", highest))}
        self.fan.set_path(outline([origin, rays["low"], rays["high"]]))
        self.lines.set_data(*np.array([origin, rays["low"], _GAP, origin, rays["high"]]).T)
        self.middle.set_data(*np.array([origin, rays["mean"]]).T)
        least, most = torque_nm * (1 - error), torque_nm * (1 + error)
        band = [(_x(least), _y(least / highest)), (_x(most), _y(most / highest)),
                (_x(most), _y(most / lowest)), (_x(least), _y(least / lowest))]
        self.strip.set_path(outline(band))
        self.limit.set_data(*np.array([(LEFT, _y(limit_kn)), (_x(MOST_NM), _y(limit_kn)), _GAP,
                                       (BARS - 14, _y(limit_kn)), (BARS + 10 * STEP, _y(limit_kn))]).T)
        tops = _y(self.preloads_kn)
        self.bars.set_path(Path.make_compound_path(*(
            outline([(BARS + STEP * n, FLOOR), (BARS + STEP * n + BAR, FLOOR), (BARS + STEP * n + BAR, top),
                     (BARS + STEP * n, top)]) for n, top in enumerate(tops))))
        marks = self.dimensions
        marks.clear()
        for slope, friction in ((lowest, frictions[0]), (highest, frictions[2])):
            end = min(MOST_NM, MOST_KN * slope)  # where the ray leaves the plot
            marks.word(f"µ {friction:.2f}", _x(end) + 5, _y(end / slope) - (12 if end < MOST_NM else 0), "left")
        marks.line((_x(torque_nm), FLOOR), (_x(torque_nm), _y(MOST_KN) + 2))
        marks.word(f"{torque_nm:g} N m", _x(torque_nm), _y(MOST_KN) + 12)
        marks.word("90 % of yield", LEFT + 6, _y(limit_kn) + 10, "left", 8.5)
        slack, tight = self.preloads_kn[[0, -1]]
        for n, preload in ((0, slack), (9, tight)):
            marks.word(f"{preload:.1f}", BARS + STEP * n + BAR / 2, FLOOR + 22, height=8.5, turned=True)
        marks.show()

    def png(self):
        """The picture as PNG bytes."""
        return self.sheet.png()

    def text(self):
        """What is drawn, in words."""
        slack, tight = self.preloads_kn[[0, -1]]
        return (f"Preload over torque as a fan between the lowest and the highest friction, {self.torque_nm:g} N m "
                f"marked. Beside it ten screws with that torque: preloads from {slack:.1f} to {tight:.1f} kN. "
                f"A dashed line at {self.limit_kn:.1f} kN: 90 % of yield.")
