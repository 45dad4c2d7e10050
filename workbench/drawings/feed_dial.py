"""A feed: screw and nut with a graduated dial, true to scale.

The screw has a left-hand thread, as a cross slide has: turned clockwise (seen from the handle) the near
side goes up, the numbers rise past the index, and the nut travels away from the handle. x = 0 is the edge
of the dial, in mm. Sizes of the parts: common practice, no source.
"""

from math import pi

import numpy as np
from matplotlib.lines import Line2D
from matplotlib.patches import PathPatch, Polygon, Rectangle
from matplotlib.path import Path
from matplotlib.text import Text
from matplotlib.transforms import Affine2D

from workbench.drawings.cylinder import Engraving, outline
from workbench.drawings.sheet import CENTRE_LINE, DIMENSION, INK, NARROW, SATIN, SHADE, STEEL, WIDE, Sheet
from workbench.screws.measuring import travel

SCALE = 8  # pixels to the millimetre
DIAL_RADIUS, DIAL_WIDTH, SCREW_RADIUS = 18.0, 15.0, 7.0
SCREW_LEFT, SCREW_RIGHT = -80.0, -14.0
NUT_RIGHT, NUT_WIDTH = -18.0, 12.0
REACH_MM = 48.0  # how far the nut may travel from its start, away from the handle


class FeedDial:
    """Dial, screw and nut: built once; `fit` changes the screw or the dial, `show(divisions)` turns it."""

    def __init__(self, pitch_mm=2.0, starts=1, dial=100, width_px=900, height_px=400):
        self.sheet = Sheet(width_px, height_px)
        view = self.view = self.sheet.view(0, 0, 900, 400, SCALE, -83.5, -28.5)
        self._turn, self._slide = Affine2D(), Affine2D()
        self._draw_fixed()
        sheet, none = self.sheet, outline([(0, 0)])
        bore = Rectangle((SCREW_LEFT, -SCREW_RADIUS), SCREW_RIGHT - SCREW_LEFT, 2 * SCREW_RADIUS)
        self.crests = [sheet.moving(view, PathPatch(none, fill=False, ec=INK, lw=weight,
                                                    transform=self._turn + view.transData))
                       for weight in (1.6 * WIDE, NARROW)]
        for crest in self.crests:
            crest.set_clip_path(bore.get_path(), bore.get_patch_transform() + view.transData)
        self._draw_nut(self._slide + view.transData)
        self.lines = sheet.moving(view, PathPatch(none, fc=INK, lw=0))
        self._fitted = None
        self.fit(pitch_mm, starts, dial)
        self.show(0)

    def _draw_fixed(self):
        def still(artist):
            self.sheet.still(self.view, artist)

        still(Line2D([-83, 28], [0, 0], color=DIMENSION, lw=NARROW, ls=CENTRE_LINE, zorder=0))
        still(Rectangle((SCREW_LEFT, -SCREW_RADIUS), SCREW_RIGHT - SCREW_LEFT, 2 * SCREW_RADIUS, fc=STEEL, ec=INK,
                        lw=WIDE))
        still(Rectangle((SCREW_RIGHT, -15), -SCREW_RIGHT, 30, fc=SHADE, ec=INK, lw=WIDE))
        still(Rectangle((0, -DIAL_RADIUS), DIAL_WIDTH, 2 * DIAL_RADIUS, fc=SATIN, ec=INK, lw=WIDE))
        still(Rectangle((DIAL_WIDTH, -4), 7, 8, fc=STEEL, ec=INK, lw=WIDE))
        still(Rectangle((DIAL_WIDTH + 7, -14), 4, 28, fc=SHADE, ec=INK, lw=WIDE))
        still(Rectangle((-8, -0.12), 8, 0.24, fc=INK, lw=0, snap=False))
        still(Text(-12.5, 1.0, "index: read here", size=8, color=INK))
        home = NUT_RIGHT - NUT_WIDTH / 2
        still(Rectangle((home - REACH_MM - 2, -27), REACH_MM + 4, 8, fc="white", ec=INK, lw=NARROW))
        for mm in range(round(REACH_MM) + 1):
            long = 3.6 if mm % 10 == 0 else 2.8 if mm % 5 == 0 else 1.8
            still(Rectangle((home - mm - 0.06, -19 - long), 0.12, long, fc=INK, lw=0, snap=False))
            if mm % 10 == 0:
                still(Text(home - mm, -25.9, str(mm), size=8, color=INK, ha="center"))
        still(Text(home + 3, -25.9, "mm", size=8, color=INK))

    def _draw_nut(self, moving):
        left, thick = NUT_RIGHT - NUT_WIDTH, 5.0
        hatch = []
        for bottom in (SCREW_RADIUS, -SCREW_RADIUS - thick):
            block = Rectangle((left, bottom), NUT_WIDTH, thick, fc="white", ec=INK, lw=WIDE, transform=moving)
            self.sheet.moving(self.view, block)
            for c in np.arange(-thick + 0.9, NUT_WIDTH, 1.4):  # lines at 45 degrees
                low, high = max(0, c), min(NUT_WIDTH, c + thick)
                hatch += [(left + low, bottom + low - c), (left + high, bottom + high - c), (np.nan, np.nan)]
        x, y = zip(*hatch, strict=True)
        self.sheet.moving(self.view, Line2D(x, y, color=INK, lw=0.6 * NARROW, transform=moving))
        middle, foot = NUT_RIGHT - NUT_WIDTH / 2, -SCREW_RADIUS - thick
        self.pointer = self.sheet.moving(self.view, Polygon(
            [(middle - 1.2, foot), (middle + 1.2, foot), (middle, -19)], fc=INK, lw=0, transform=moving))

    def fit(self, pitch_mm, starts, dial):
        """Another screw or dial: pitch in mm, number of starts, divisions on the dial."""
        if (pitch_mm, starts, dial) == self._fitted:
            return
        self._fitted = (pitch_mm, starts, dial)
        self.lead_mm = float(travel(pitch_mm, 1, starts))
        angle = np.linspace(-pi / 2, pi / 2, 25)
        first, other = [], []
        for n in range(int((SCREW_RIGHT - SCREW_LEFT) / pitch_mm) + 3 * starts):
            crest = np.column_stack([SCREW_LEFT + n * pitch_mm + self.lead_mm * angle / (2 * pi),
                                     SCREW_RADIUS * np.sin(angle)])
            (other if n % starts else first).append(crest)
        for patch, curves in zip(self.crests, (first, other), strict=True):
            patch.set_path(Path.make_compound_path(*(Path(curve) for curve in curves)))
        self.step = 2 * pi / dial
        self.dial = Engraving(DIAL_RADIUS)
        every = next(n for n in (1, 5, 10, 20, 50) if n * self.step * DIAL_RADIUS > 4)
        width = min(0.22, 0.3 * self.step * DIAL_RADIUS)
        for n in range(dial):
            length = 3.0 if n % 5 else 4.2 if n % every else 5.4
            self.dial.line(0, length, -n * self.step, width)
            if n % every == 0:
                self.dial.figures(str(n), 8.6, -n * self.step, 2.0)

    def show(self, divisions):
        """Turn the dial to so many divisions past zero, whole turns included; minus is backing off."""
        pitch_mm, starts, dial = self._fitted
        travelled = float(travel(pitch_mm, divisions / dial, starts))
        if not -0.5 <= travelled <= REACH_MM:
            raise ValueError(f"travel {travelled:g} mm: the nut of this drawing goes from 0 to {REACH_MM:g} mm; "
                             "take fewer turns")
        self.lines.set_path(self.dial.path(divisions * self.step))
        self._turn.clear().translate(-(travelled % self.lead_mm), 0)
        self._slide.clear().translate(-travelled, 0)
        self.shown = divisions % dial

    def png(self):
        """The picture as PNG bytes."""
        return self.sheet.png()

    def text(self):
        """What dial and pointer show, in words."""
        pitch_mm, starts, dial = self._fitted
        thread = f"{starts} start{'s' if starts > 1 else ''}"
        return (f"Feed screw, pitch {pitch_mm:g} mm, {thread}; dial with {dial} divisions. "
                f"Dial line at the index: {self.shown:g}. The nut's pointer stands on a millimetre scale.")


def picture(divisions, pitch_mm=2.0, starts=1, dial=100):
    """A still for a question: (PNG bytes, alternative text); `divisions` turned from zero."""
    drawing = FeedDial(pitch_mm, starts, dial)
    drawing.show(divisions)
    return drawing.png(), drawing.text()
