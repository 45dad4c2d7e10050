"""One row of rivets in a lap joint: plan and section to true size, with the failure that comes first made visible.

Plan: three rivets of the row; the upper sheet covers the lower one, whose hidden edge is dashed; each sheet is pulled
across the row. Section through one rivet: the sheets hatched opposite ways, the rivet whole (ISO 128-3: fasteners are
not cut lengthwise). What fails comes from `workbench.rivets.joint`.
"""

import numpy as np
from matplotlib.lines import Line2D
from matplotlib.patches import PathPatch
from matplotlib.path import Path

from workbench.drawings.cylinder import outline
from workbench.drawings.dimensions import Dimensions, words
from workbench.drawings.hatching import FALLING, RISING, hatching
from workbench.drawings.sheet import CENTRE_LINE, DIMENSION, INK, NARROW, PAPER, SATIN, STEEL, WIDE, Sheet

ROW, MIDDLE, PLAN = 205.0, 280.0, (40.0, 520.0)  # px: the row, the middle rivet, the ends of the plan
TOP, BOTTOM = 372.0, 38.0  # where the sheets are broken off
PX, SECTION_PX, SECTION = 3.6, 9.0, 720.0  # px a mm in the plan and in the section; middle of the section
HALF = 120.0  # px of sheet shown each side of the rivet in the section
SNAP, FORMED = (1.75, 0.6), (1.5, 0.5)  # width and height in diameters: DIN 660 head; formed head, common practice
_NONE = outline([(0, 0)])
_GAP = (np.nan, np.nan)


def _circle(x, y, radius, start=0.0, end=2 * np.pi):
    turn = np.linspace(start, end, 49)
    return np.column_stack([x + radius * np.cos(turn), y + radius * np.sin(turn)])


def _broken_off():
    """Freehand lines where the sheets go on: x and y with gaps."""
    lines = []
    for x in PLAN:
        y = np.linspace(BOTTOM, TOP, 40)
        lines += [*zip(x + 2.5 * np.sin(0.11 * y), y, strict=True), _GAP]
    for y in (BOTTOM, TOP):
        x = np.linspace(*PLAN, 60)
        lines += [*zip(x, y + 2.5 * np.sin(0.09 * x), strict=True), _GAP]
    return np.array(lines).T


class RivetRow:
    """One drawing for all rows: `show(seam, diameter_mm)` moves it."""

    def __init__(self, width_px=900, height_px=400):
        self.sheet = Sheet(width_px, height_px)
        self.view = view = self.sheet.view(0, 0, 900, 400, 1, 0, 0)
        moving = self.sheet.moving
        self.lower = moving(view, PathPatch(_NONE, fc=SATIN, lw=0))
        self.upper = moving(view, PathPatch(_NONE, fc=STEEL, lw=0))
        moving(view, Line2D(*_broken_off(), color=INK, lw=NARROW))
        self.edge = moving(view, Line2D([], [], color=INK, lw=WIDE))
        self.hidden = moving(view, Line2D([], [], color=INK, lw=NARROW, ls=(0, (6, 4))))
        self.cut = {part: moving(view, PathPatch(_NONE, fc=PAPER, ec=INK, lw=WIDE)) for part in ("upper", "lower")}
        self.hatch = moving(view, Line2D([], [], color=INK, lw=0.55 * NARROW))
        self.rivets = moving(view, PathPatch(_NONE, fc=PAPER, ec=INK, lw=WIDE))
        self.centre = moving(view, Line2D([], [], color=DIMENSION, lw=NARROW, ls=CENTRE_LINE))
        self.crushed = moving(view, PathPatch(_NONE, fc=INK, lw=0))
        self.torn = moving(view, Line2D([], [], color=INK, lw=2.6 * WIDE))
        for text, x, y in (("seen from above", MIDDLE, 12), ("section through a rivet", SECTION, 12)):
            self.sheet.still(view, PathPatch(words(text, x, y), fc=INK, lw=0))
        self.dimensions = Dimensions(self.sheet, view)

    def show(self, seam, diameter_mm):
        """Show a seam of one row (`Seam` with an edge) riveted with that shank."""
        self.seam, self.diameter_mm = seam, diameter_mm
        self.failing = seam.weakest()[0]
        self.dimensions.clear()
        self._show_plan()
        self._show_section()
        self._show_failure()
        self.dimensions.show()

    def places(self):
        """Where rivets of the row are drawn (px)."""
        pitch = PX * self.seam.pitch_mm
        each_side = int((PLAN[1] - MIDDLE) // pitch)
        return MIDDLE + pitch * np.arange(-each_side, each_side + 1)

    def _show_plan(self):
        edge = PX * self.seam.edge_mm
        left, right = PLAN
        self.lower.set_path(outline([(left, ROW - edge), (right, ROW - edge), (right, TOP), (left, TOP)]))
        self.upper.set_path(outline([(left, BOTTOM), (right, BOTTOM), (right, ROW + edge), (left, ROW + edge)]))
        self.edge.set_data([left, right], [ROW + edge] * 2)
        self.hidden.set_data([left, right], [ROW - edge] * 2)
        heads = [outline(_circle(x, ROW, PX * self.diameter_mm * SNAP[0] / 2)) for x in self.places()]
        holes = [outline(_circle(x, ROW, PX * self.seam.hole_mm / 2)) for x in self.places()]
        self._plan = (heads, holes)
        marks = self.dimensions
        for y, way, text_y in ((TOP - 8, 1, TOP - 26), (BOTTOM + 8, -1, BOTTOM + 26)):
            marks.line((MIDDLE - 60, y - way * 30), (MIDDLE - 60, y))
            marks.arrow(MIDDLE - 60, y, way * np.pi / 2)
            marks.word("F", MIDDLE - 72, text_y)
        marks.word("upper sheet", right - 44, BOTTOM + 12)
        marks.word("lower sheet", right - 44, TOP - 12)
        first, second = self.places()[[len(self.places()) // 2, len(self.places()) // 2 + 1]]
        level = ROW + max(edge, PX * self.diameter_mm) + 16
        marks.across(first, second, level, f"p {self.seam.pitch_mm:g}", ROW, ROW)
        marks.up(ROW, ROW + edge, left - 14, f"e {self.seam.edge_mm:g}", left, left)

    def _show_section(self):
        px, t, d = SECTION_PX, self.seam.thickness_mm, self.diameter_mm
        hole, seat = px * self.seam.hole_mm / 2, px * t
        edge = min(px * self.seam.edge_mm, HALF - 14)
        bounds = {"upper": (SECTION - HALF, SECTION + edge, ROW, ROW + seat),
                  "lower": (SECTION - edge, SECTION + HALF, ROW - seat, ROW)}
        lines, outlines = [], {}
        for part, way in (("upper", RISING), ("lower", FALLING)):
            left, right, low, high = bounds[part]
            halves = [[(left, low), (SECTION - hole, low), (SECTION - hole, high), (left, high)],
                      [(SECTION + hole, low), (right, low), (right, high), (SECTION + hole, high)]]
            outlines[part] = Path.make_compound_path(*map(outline, halves))
            lines += [hatching(half, 6, way) for half in halves]
        for part, path in outlines.items():
            self.cut[part].set_path(path)
        self.hatch.set_data(*np.concatenate(lines, axis=1))
        made, formed = (px * d * SNAP[0] / 2, px * d * SNAP[1]), (px * d * FORMED[0] / 2, px * d * FORMED[1])
        radius = (made[0] ** 2 + made[1] ** 2) / (2 * made[1])  # a snap head is a cap of a ball
        half_angle = np.arcsin(min(1.0, made[0] / radius))
        dome = np.linspace(np.pi / 2 - half_angle, np.pi / 2 + half_angle, 33)
        head = np.column_stack([SECTION + radius * np.cos(dome),
                                ROW + seat + made[1] - radius + radius * np.sin(dome)])
        tail = formed[0] * np.array([1.0, 1.06, 1.06, 1.0])
        depth = -formed[1] * np.array([0.0, 0.3, 0.7, 1.0])
        left_tail = np.column_stack([SECTION - tail, ROW - seat + depth])
        right_tail = np.column_stack([SECTION + tail, ROW - seat + depth])[::-1]
        rivet = [*head, (SECTION - hole, ROW + seat), (SECTION - hole, ROW - seat), *left_tail, *right_tail,
                 (SECTION + hole, ROW - seat), (SECTION + hole, ROW + seat)]
        heads, holes = self._plan
        self.rivets.set_path(Path.make_compound_path(*heads, outline(rivet)))
        self._holes = holes
        crosses = [(PLAN[0] - 6, ROW), (PLAN[1] + 6, ROW), _GAP]
        reach = PX * self.diameter_mm * SNAP[0] / 2 + 8
        for x in self.places():
            crosses += [(x, ROW - reach), (x, ROW + reach), _GAP]
        crosses += [(SECTION, ROW - seat - formed[1] - 6), (SECTION, ROW + seat + made[1] + 10)]
        self.centre.set_data(*np.array(crosses, dtype=float).T)
        marks = self.dimensions
        marks.up(ROW, ROW + seat, SECTION - HALF - 14, f"t {t:g}", SECTION - HALF, SECTION - HALF)
        below = ROW - seat - formed[1] - 26
        marks.across(SECTION - hole, SECTION + hole, below, f"hole {self.seam.hole_mm:g}", ROW - seat, ROW - seat)
        for y, x, way in ((ROW + seat / 2, SECTION - HALF + 4, -1), (ROW - seat / 2, SECTION + HALF - 4, 1)):
            marks.line((x + way * 4, y), (x + way * 34, y))
            marks.arrow(x + way * 34, y, 0 if way > 0 else np.pi)
            marks.word("F", x + way * 42, y)

    def _show_failure(self):
        """Wide lines where metal parts, black where it is crushed."""
        torn, crushed = [], []
        hole, px = PX * self.seam.hole_mm / 2, SECTION_PX
        edge, seat, section_hole = PX * self.seam.edge_mm, px * self.seam.thickness_mm, px * self.seam.hole_mm / 2
        places = self.places()
        if self.failing == "rivets sheared":
            torn = [(SECTION - section_hole, ROW), (SECTION + section_hole, ROW), _GAP]
            for x in places:
                torn += [*_circle(x, ROW, hole), _GAP]
        elif self.failing == "plate crushed at the rivets":
            crushed = [outline([*_circle(x, ROW, hole, 0, np.pi), *_circle(x, ROW + hole / 3, hole, np.pi, 0)])
                       for x in places]
            gap = px * self.seam.hole_mm / 10
            crushed += [outline([(SECTION + side * section_hole, low), (SECTION + side * (section_hole + gap), low),
                                 (SECTION + side * (section_hole + gap), low + seat),
                                 (SECTION + side * section_hole, low + seat)])
                        for side, low in ((1, ROW), (-1, ROW - seat))]
        elif self.failing == "edge torn out":
            for x in places:
                torn += [(x - hole, ROW), (x - hole, ROW + edge), _GAP, (x + hole, ROW), (x + hole, ROW + edge), _GAP]
        else:
            ends = [PLAN[0], *(value for x in places for value in (x - hole, x + hole)), PLAN[1]]
            for start, end in zip(ends[::2], ends[1::2], strict=True):
                x = np.linspace(start, end, max(3, 2 * int((end - start) / 10) + 1))
                torn += [*zip(x, ROW + 3 * (np.arange(len(x)) % 2), strict=True), _GAP]
        self.torn.set_data(*np.array(torn or [_GAP], dtype=float).T)
        self.crushed.set_path(Path.make_compound_path(*crushed) if crushed else _NONE)

    def png(self):
        """The picture as PNG bytes."""
        return self.sheet.png()

    def text(self):
        """What is drawn, in words."""
        seam = self.seam
        return (f"A lap joint of two sheets of {seam.thickness_mm:g} mm with a row of {self.diameter_mm:g} mm rivets, "
                f"{seam.pitch_mm:g} mm apart and {seam.edge_mm:g} mm from the edge, from above and in section through "
                f"a rivet. Marked where it gives way first: {self.failing}.")
