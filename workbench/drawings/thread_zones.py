"""Tolerance zones of a metric screw and its nut: about the basic profile to true geometry, and at the pitch diameter.

Left: one ridge, all three diameters at their limits (radii, one scale). Right: the zones of the pitch diameter, as
deviations from its basic size, larger. The screw is hatched one way, the nut the other. The least
root of the screw is rounded; here its zone ends flat. Limits come from `workbench.threads.limits_metric`.
"""

import numpy as np
from matplotlib.lines import Line2D
from matplotlib.patches import PathPatch

from workbench.drawings.cylinder import outline
from workbench.drawings.dimensions import Dimensions, words
from workbench.drawings.hatching import FALLING, RISING, hatching
from workbench.drawings.sheet import CENTRE_LINE, DIMENSION, INK, NARROW, PAPER, SATIN, STEEL, WIDE, Sheet
from workbench.threads.limits import fit
from workbench.threads.limits_metric import basic_diameters_mm, metric_limits

PITCH_PX, RIDGE, PITCH_LINE = 330.0, 200.0, 186.0  # px: one pitch; middle of the ridge; pitch line
COLUMNS = {"nut": (560.0, 630.0), "screw": (650.0, 720.0)}
TALLEST = 300.0
_NONE = outline([(0, 0)])


class ThreadZones:
    """One drawing for all metric pairs: `show(diameter_mm, pitch_mm, screw_class, nut_class)` moves it."""

    def __init__(self, width_px=900, height_px=400):
        self.sheet = Sheet(width_px, height_px)
        self.view = view = self.sheet.view(0, 0, 900, 400, 1, 0, 0)
        moving = self.sheet.moving
        self.bodies = {of: moving(view, PathPatch(_NONE, fc=shade, lw=0))
                       for of, shade in (("nut", SATIN), ("screw", STEEL))}
        self.zones = {of: moving(view, PathPatch(_NONE, fc=PAPER, ec=INK, lw=NARROW)) for of in self.bodies}
        self.bars = {of: moving(view, PathPatch(_NONE, fc=PAPER, ec=INK, lw=WIDE)) for of in self.bodies}
        self.hatch = moving(view, Line2D([], [], color=INK, lw=0.55 * NARROW))
        self.basic = moving(view, Line2D([], [], color=INK, lw=1.5 * WIDE))
        self.zero = moving(view, Line2D([], [], color=INK, lw=1.5 * WIDE))
        moving(view, Line2D([18, 400], [PITCH_LINE] * 2, color=DIMENSION, lw=NARROW, ls=CENTRE_LINE))
        for text, x, y in (("basic profile and zones, to one scale", 205, 12),
                           ("zones of the pitch diameter, in µm from basic", 690, 12)):
            self.sheet.still(view, PathPatch(words(text, x, y), fc=INK, lw=0))
        self.dimensions = Dimensions(self.sheet, view)
        self.show(10.0, 1.5)

    def show(self, diameter_mm, pitch_mm, screw_class="6g", nut_class="6H", figures=True):
        """Show a pair; refused is what ISO 965-1 does not give. figures=False: no values."""
        screw, nut = (metric_limits(diameter_mm, pitch_mm, one) for one in (screw_class, nut_class))
        self.fit, self.limits = fit(screw, nut), {"nut": nut, "screw": screw}
        self.basic_mm = basic_diameters_mm(diameter_mm, pitch_mm)[0]
        self.scale, self.pitch_mm = PITCH_PX / pitch_mm, pitch_mm
        self._show_profile(diameter_mm, pitch_mm)
        self.dimensions.clear()
        self._show_bars(figures)
        self._label(screw_class, nut_class)
        self.dimensions.show()

    def line(self, major_mm, pitch_diameter_mm, minor_mm):
        """Pixels of half a groove, a ridge, half a groove with these diameters (flanks 30°)."""
        radii = np.array([minor_mm, major_mm]) / 2
        half = self.pitch_mm / 4 - (radii - pitch_diameter_mm / 2) * np.tan(np.radians(30))
        half = np.clip(half, 0, self.pitch_mm / 2)
        x = [-self.pitch_mm / 2, -half[0], -half[1], half[1], half[0], self.pitch_mm / 2]
        r = radii[[0, 0, 1, 1, 0, 0]]
        return np.column_stack([RIDGE + self.scale * np.array(x),
                                PITCH_LINE + self.scale * (r - self.basic_mm / 2)])

    def _show_profile(self, diameter_mm, pitch_mm):
        self._hatched = {}
        for of, way, level in (("nut", FALLING, 390), ("screw", RISING, 28)):
            limits = self.limits[of]
            low = self.line(limits.major.low, limits.pitch.low, limits.minor.low)
            high = self.line(limits.major.high, limits.pitch.high, limits.minor.high)
            metal = high if of == "nut" else low  # metal that every part has
            self.bodies[of].set_path(outline([*metal, (metal[-1, 0], level), (metal[0, 0], level)]))
            zone = np.vstack([low, high[::-1]])
            self.zones[of].set_path(outline(zone))
            self._hatched[of] = (zone, way)
        self.basic.set_data(*self.line(diameter_mm, self.basic_mm, basic_diameters_mm(diameter_mm, pitch_mm)[1]).T)

    def _show_bars(self, figures):
        marks = self.dimensions
        deviations = {of: [round(1000 * (size - self.basic_mm)) for size in (limits.pitch.low, limits.pitch.high)]
                      for of, limits in self.limits.items()}
        lowest, highest = deviations["screw"][0], deviations["nut"][1]
        # doubled and halved only, so that pairs of about one size can be compared
        self.px_per_um = 2.0 ** np.floor(np.log2(TALLEST / (highest - lowest)))
        self.zero_px = zero = 205 - self.px_per_um * (highest + lowest) / 2
        lines = []
        for of, (left, right) in COLUMNS.items():
            low, high = (zero + self.px_per_um * one for one in deviations[of])
            bar = [(left, low), (right, low), (right, high), (left, high)]
            self.bars[of].set_path(outline(bar))
            zone, way = self._hatched[of]
            lines += [hatching(zone, 6.5, way), hatching(bar, 9, way)]
            for level, value in ((low, deviations[of][0]), (high, deviations[of][1])):
                if figures:
                    at, align, off = (left - 6, "right", 8) if of == "nut" else (right + 6, "left", -8)
                    marks.word(f"{value:+d}".replace("-", "−") if value else "0", at, level + off, align)
        self.hatch.set_data(*np.concatenate(lines, axis=1))
        self.zero.set_data([530, 750], [zero, zero])
        marks.word("basic", 524, zero, "right")
        screw_low, screw_high = (zero + self.px_per_um * one for one in deviations["screw"])
        nut_low, nut_high = (zero + self.px_per_um * one for one in deviations["nut"])
        least, most = ((f"least {1000 * self.fit.least:.0f}", f"greatest {1000 * self.fit.most:.0f}") if figures
                       else ("least", "greatest"))
        marks.up(screw_high, nut_low, 810, least, COLUMNS["screw"][1], COLUMNS["nut"][1])
        marks.up(screw_low, nut_high, 866, most, COLUMNS["screw"][1], COLUMNS["nut"][1])

    def _label(self, screw_class, nut_class):
        marks = self.dimensions
        nut, screw = self.limits["nut"], self.limits["screw"]
        marks.word(f"nut {nut_class}", (COLUMNS["nut"][0] + COLUMNS["nut"][1]) / 2,
                   self.zero_px + self.px_per_um * 1000 * (nut.pitch.high - self.basic_mm) + 12)
        marks.word(f"screw {screw_class}", (COLUMNS["screw"][0] + COLUMNS["screw"][1]) / 2,
                   self.zero_px + self.px_per_um * 1000 * (screw.pitch.low - self.basic_mm) - 12)
        marks.word(nut.thread.replace("x", "×"), RIDGE, 376, height=11)
        lean = 30 * np.tan(np.radians(30))
        marks.leader((RIDGE + PITCH_PX / 4 - lean, PITCH_LINE + 30), (372, PITCH_LINE + 62), "basic profile")
        marks.word("nut", RIDGE - 0.42 * PITCH_PX, PITCH_LINE + 60)
        marks.word("screw", RIDGE, PITCH_LINE - 60)
        marks.word("pitch line", 376, PITCH_LINE + 9, "left", 8)

    def png(self):
        """The picture as PNG bytes."""
        return self.sheet.png()

    def text(self):
        """What is drawn, in words, without the limits."""
        nut, screw = self.limits["nut"], self.limits["screw"]
        return (f"Basic profile of {nut.thread} with the tolerance zones of a nut {nut.tolerance_class} on its outer "
                f"side and a screw {screw.tolerance_class} on its inner side. Beside it the two zones of the pitch "
                "diameter as bars about the basic size, with the least and the greatest clearance dimensioned.")


def picture(diameter_mm=10.0, pitch_mm=1.5, screw_class="6g", nut_class="6H", figures=False):
    """A still for a question: (PNG bytes, alternative text); values only with `figures`."""
    drawing = ThreadZones()
    drawing.show(diameter_mm, pitch_mm, screw_class, nut_class, figures)
    return drawing.png(), drawing.text()
