"""The sharp triangle of a metric thread and what is cut off it: crest, pitch line, bore and root (ISO 68-1).

A still for a lesson's text; sizes come from `workbench.threads.profile`.
"""

import numpy as np
from matplotlib.lines import Line2D
from matplotlib.patches import PathPatch

from workbench.drawings.cylinder import outline
from workbench.drawings.dimensions import Dimensions
from workbench.drawings.sheet import CENTRE_LINE, DIMENSION, INK, NARROW, SATIN, STEEL, WIDE, Sheet
from workbench.drawings.thread_section import edge
from workbench.threads.profile import profile

LEFT, LEVEL, PITCH = 150.0, 160.0, 230.0  # px: first ridge, pitch line, one pitch
TOP, BOTTOM, NAMES = 292.0, 26.0, 590.0  # px: outer faces of nut and screw, where the names begin


class ThreadTriangle:
    """Two ridges of a metric thread with the triangle that they are cut from."""

    def __init__(self, major_mm=20.0, pitch_mm=2.5):
        self.profile = one = profile("metric", major_mm, pitch_mm)
        self.sheet = Sheet(900, 318, layout=(900, 318))
        view = self.sheet.view(0, 0, 900, 318, 1, 0, 0)
        self.scale = PITCH / pitch_mm
        for of, level, shade in (("nut", TOP, SATIN), ("screw", BOTTOM, STEEL)):
            line = self.px(edge(one, of, -pitch_mm / 2, 1.5 * pitch_mm))
            face = np.vstack([line, [(line[-1, 0], level), (line[0, 0], level)]])
            self.sheet.still(view, PathPatch(outline(face), fc=shade, lw=0))
            self.sheet.still(view, Line2D(*line.T, color=INK, lw=WIDE))
        half = one.triangle_mm / 2 * self.scale
        self.sharp = np.array([(LEFT + (n - 1) * PITCH / 2, LEVEL + (half if n % 2 else -half)) for n in range(5)])
        self.sheet.still(view, Line2D(*self.sharp.T, color=INK, lw=NARROW, ls=(0, (6, 3))))
        self.dimensions = marks = Dimensions(self.sheet, view)
        self.levels = {}
        for name, diameter, reach in (
            ("crest: major diameter", one.major_mm, PITCH),
            ("pitch line: 3/8 of H from the crest", one.pitch_diameter_mm, 406),
            ("bore of the nut: 5/8 of H from the crest", one.nut_minor_mm, 1.5 * PITCH),
            ("root of the screw: 17/24 of H from the crest", one.screw_minor_mm, 1.5 * PITCH),
        ):  # fmt: skip
            y = self.levels[name] = LEVEL + (diameter - one.pitch_diameter_mm) / 2 * self.scale
            marks.line((LEFT + reach, y), (NAMES - 6, y))
            marks.word(name, NAMES, y, "left")
        self.sheet.still(view, Line2D([30, 508], [LEVEL, LEVEL], color=DIMENSION, lw=NARROW, ls=CENTRE_LINE))
        (top_x, top), (low_x, low) = self.sharp[3], self.sharp[4]
        marks.up(low, top, 545, "H", low_x + 4, top_x + 4)
        marks.across(self.sharp[1, 0], top_x, top + 16, "pitch", top + 2, top + 2)
        marks.angle(*self.sharp[2], 74, 60, 120, "60°", (0, 13))
        marks.word("nut", LEFT - 92, TOP - 16)
        marks.word("screw", LEFT - 88, BOTTOM + 14)
        marks.show()

    def px(self, points):
        """Pixels of points (x, r) in mm."""
        return (np.asarray(points) - (0, self.profile.pitch_diameter_mm / 2)) * self.scale + (LEFT, LEVEL)

    def png(self):
        """The picture as PNG bytes."""
        return self.sheet.png()

    def text(self):
        """What is drawn, in words."""
        return ("Section through two ridges of a metric thread. Broken lines lengthen the flanks to sharp triangles of "
                "60°; their base is the pitch, their height H. From the crest inward: the pitch line at 3/8 of H, the "
                "bore of the nut at 5/8, the rounded root of the screw at 17/24.")


def picture():
    """A still: (PNG bytes, alternative text)."""
    drawing = ThreadTriangle()
    return drawing.png(), drawing.text()
