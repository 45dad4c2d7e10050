"""A clamped joint: bolt and parts in section, and the joint diagram beside it.

Left: head, bolt, nut and two plates to true size; the bolt is not cut (ISO 128-3), its thread is drawn as wide crest
and narrow root lines (ISO 6410). When the joint has opened, a gap shows between the plates, not to scale. Right:
force over stretch: the bolt's line rises, the parts' line falls, both meet at the preload; the outside load W stands
between them. Forces come from `workbench.screws.joint`.
"""

import numpy as np
from matplotlib.lines import Line2D
from matplotlib.patches import PathPatch
from matplotlib.path import Path

from workbench.drawings.cylinder import outline
from workbench.drawings.dimensions import Dimensions, words
from workbench.drawings.hatching import FALLING, RISING, hatching
from workbench.drawings.sheet import CENTRE_LINE, DIMENSION, INK, NARROW, PAPER, SATIN, STEEL, WIDE, Sheet
from workbench.tables import table
from workbench.threads.profile import profile

AXIS, MIDDLE, PX = 150.0, 205.0, 3.0  # px: the bolt's axis, the joint face; px a mm
HALF = 100.0  # px: half the width of the plates
ORIGIN = (400.0, 58.0)  # px: of the diagram
PX_PER_KN, TOP_KN, WIDEST = 5.0, 62, 420.0
GAP = 7.0  # px: of an open joint
_NONE = outline([(0, 0)])
_BREAK = (np.nan, np.nan)


class JointDiagram:
    """One drawing for all joints of one bolt size: `show(...)` moves it."""

    def __init__(self, size="M10", pitch_mm=1.5, width_px=900, height_px=400):
        row = table("hexagon_sizes").row(size)
        self.diameter_mm, self.flats_mm, self.nut_mm = row["diameter_mm"], row["across_flats_mm"], row["nut_height_mm"]
        self.head_mm = table("head_heights").row(f"hexagon {size}")["height_mm"]
        self.root_mm = profile("metric", self.diameter_mm, pitch_mm).screw_minor_mm
        self.hole_mm = table("iso_273_clearance_holes").row(size)["medium"]
        self.sheet = Sheet(width_px, height_px)
        self.view = view = self.sheet.view(0, 0, 900, 400, 1, 0, 0)
        moving = self.sheet.moving
        self.plates = moving(view, PathPatch(_NONE, fc=SATIN, ec=INK, lw=WIDE))
        self.hatch = moving(view, Line2D([], [], color=INK, lw=0.55 * NARROW))
        self.bolt = moving(view, PathPatch(_NONE, fc=PAPER, ec=INK, lw=WIDE))
        self.thread = moving(view, Line2D([], [], color=INK, lw=NARROW))
        self.centre = moving(view, Line2D([], [], color=DIMENSION, lw=NARROW, ls=CENTRE_LINE))
        self.clamp = moving(view, PathPatch(_NONE, fc=STEEL, lw=0))
        self.lines = moving(view, Line2D([], [], color=INK, lw=1.4 * WIDE))
        self.levels = moving(view, Line2D([], [], color=INK, lw=NARROW, ls=(0, (6, 3))))
        x0, y0 = ORIGIN
        for force in range(0, TOP_KN + 1, 10):
            y = y0 + PX_PER_KN * force
            self.sheet.still(view, Line2D([x0, x0 - 5], [y, y], color=INK, lw=NARROW))
            self.sheet.still(view, PathPatch(words(f"{force}", x0 - 9, y, align="right"), fc=INK, lw=0))
        self.sheet.still(view, Line2D([x0, x0, 888], [y0 + PX_PER_KN * TOP_KN, y0, y0], color=INK, lw=WIDE))
        for text, x, y, turned in (("stretch of the bolt, then squeeze of the parts, in µm", 640, 10, False),
                                   ("force in kN", x0 - 40, y0 + PX_PER_KN * TOP_KN / 2, True)):
            self.sheet.still(view, PathPatch(words(text, x, y, turned=turned), fc=INK, lw=0))
        self.dimensions = Dimensions(self.sheet, view)

    def show(self, grip_mm, springs, preload_kn, load_kn, clamp_kn, bolt_kn):
        """Show a joint: grip in mm, `Springs` of bolt and parts, preload, outside load, and what they leave, in kN."""
        self.grip_mm, self.preload_kn, self.load_kn = grip_mm, preload_kn, load_kn
        self.clamp_kn, self.bolt_kn, self.open = clamp_kn, bolt_kn, clamp_kn <= 0
        self.dimensions.clear()
        self._show_joint()
        self._show_diagram(springs)
        self.dimensions.show()

    def _show_joint(self):
        half, gap = PX * self.grip_mm / 2, GAP / 2 if self.open else 0.0
        hole, shank, root = (PX * size / 2 for size in (self.hole_mm, self.diameter_mm, self.root_mm))
        head = PX * self.flats_mm / np.cos(np.pi / 6) / 2  # across the corners
        top, bottom = MIDDLE + half + gap, MIDDLE - half - gap
        halves, lines = [], []
        for low, high, way in ((MIDDLE + gap, top, RISING), (bottom, MIDDLE - gap, FALLING)):
            for inner, outer in ((-hole, -HALF), (hole, HALF)):
                corners = [(AXIS + inner, low), (AXIS + outer, low), (AXIS + outer, high), (AXIS + inner, high)]
                halves.append(outline(corners))
                lines.append(hatching(corners, 8, way))
        self.plates.set_path(Path.make_compound_path(*halves))
        self.hatch.set_data(*np.concatenate(lines, axis=1))
        nut, end = bottom - PX * self.nut_mm, bottom - PX * self.nut_mm - 8

        def box(left, right, low, high):
            return outline([(AXIS + left, low), (AXIS + right, low), (AXIS + right, high), (AXIS + left, high)])

        head_top = top + PX * self.head_mm
        self.bolt.set_path(Path.make_compound_path(
            box(-shank, shank, end, top), box(-head, head, top, head_top), box(-head, head, nut, bottom)))
        threaded = max(bottom, min(top - 4, bottom + PX * 12))  # thread above the nut
        edges = [(-head / 2, top, head_top), (head / 2, top, head_top),
                 (-head / 2, nut, bottom), (head / 2, nut, bottom),
                 (-root, bottom, threaded), (root, bottom, threaded), (-root, end, nut), (root, end, nut)]
        points = [point for x, low, high in edges for point in ((AXIS + x, low), (AXIS + x, high), _BREAK)]
        points += [(AXIS - shank, threaded), (AXIS + shank, threaded)]
        self.thread.set_data(*np.array(points, dtype=float).T)
        self.centre.set_data([AXIS, AXIS], [end - 10, head_top + 10])
        marks = self.dimensions
        marks.up(bottom, top, AXIS - HALF - 16, f"grip {self.grip_mm:g}", AXIS - HALF, AXIS - HALF)
        if self.load_kn:
            for way, level in ((1, top), (-1, bottom)):
                for side in (-1, 1):
                    x = AXIS + side * (HALF - 14)
                    marks.line((x, level), (x, level + way * 30))
                    marks.arrow(x, level + way * 30, way * np.pi / 2)
                marks.word("W/2", AXIS + HALF + 8, level + way * 22)
        if self.open:
            marks.leader((AXIS + HALF, MIDDLE), (AXIS + HALF + 20, MIDDLE + 24), "open")

    def _show_diagram(self, springs):
        x0, y0 = ORIGIN
        preload, load, clamp, bolt = self.preload_kn, self.load_kn, self.clamp_kn, self.bolt_kn
        stretch = springs.bolt_stretch_mm(1000 * preload) * 1000
        squeeze = springs.parts_squeeze_mm(1000 * preload) * 1000
        now = springs.bolt_stretch_mm(1000 * bolt) * 1000
        reach = max(stretch + squeeze, now) * 1.05
        # doubled and halved only, so that joints of about one size can be compared
        self.px_per_um = scale = 2.0 ** np.floor(np.log2(WIDEST / reach))

        def at(stretch_um, force_kn):
            return x0 + scale * stretch_um, y0 + PX_PER_KN * force_kn

        foot, peak = at(stretch + squeeze, 0), at(stretch, preload)
        beyond = max(preload, bolt) + 6
        tip = at(stretch * beyond / preload, beyond)
        self.clamp.set_path(outline([at(now, 0), at(now, clamp), foot]) if clamp > 0 else _NONE)
        self.lines.set_data(*np.array([at(0, 0), tip, _BREAK, peak, foot]).T)
        self.levels.set_data(*np.array([at(0, preload), peak, _BREAK, at(0, bolt), at(now, bolt)]).T)
        marks = self.dimensions
        marks.across(x0, peak[0], y0 - 25, f"{stretch:.0f}", y0, peak[1])
        marks.across(peak[0], foot[0], y0 - 25, f"{squeeze:.0f}", None, y0)
        marks.word("bolt", tip[0] + 8, tip[1] + 4, "left")
        marks.word("parts", (peak[0] + 2 * foot[0]) / 3 + 10, (peak[1] + 2 * foot[1]) / 3 + 8, "left")
        marks.word(f"F {preload:g}", x0 + 6, at(0, preload)[1] - 9, "left")
        if load:
            x, low = at(now, clamp)
            high = at(now, bolt)[1]
            marks.line((x, low), (x, high))
            marks.arrow(x, high, np.pi / 2)
            marks.arrow(x, low, -np.pi / 2)
            marks.word(f"W {load:g}", x + 8, (low + high) / 2, "left")
            marks.word(f"bolt feels {bolt:.1f}", x0 + 6, high + 10, "left")
            if clamp > 0:
                marks.line((x, y0), (x, low))
                marks.word(f"clamp left {clamp:.1f}", foot[0] + 8, y0 + 10, "left")

    def png(self):
        """The picture as PNG bytes."""
        return self.sheet.png()

    def text(self):
        """What is drawn, in words."""
        state = "The joint is open." if self.open else f"{self.clamp_kn:.1f} kN of clamp are left."
        return (f"Section through a bolt M{self.diameter_mm:g} that clamps two plates, grip {self.grip_mm:g} mm. "
                f"Beside it the joint diagram: preload {self.preload_kn:g} kN, outside load {self.load_kn:g} kN "
                "between the falling line of the parts and the rising line of the bolt. "
                f"The bolt feels {self.bolt_kn:.1f} kN. {state}")
