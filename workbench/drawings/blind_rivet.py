"""A blind rivet in section while it is set, to true geometry: the tool on the left, the side nobody sees on the right.

Body and sheets are cut and hatched, the two sheets opposite ways; the mandrel is a pin and is not cut (ISO 128-3).
Chain lines: the centre line and the nose of the tool. The outlines come from `workbench.rivets.setting`.
"""

from math import pi

import numpy as np
from matplotlib.lines import Line2D
from matplotlib.patches import PathPatch
from matplotlib.path import Path

from workbench.drawings.cylinder import outline
from workbench.drawings.dimensions import Dimensions
from workbench.drawings.hatching import FALLING, RISING, hatching
from workbench.drawings.sheet import CENTRE_LINE, DIMENSION, INK, NARROW, PAPER, SHADE, STEEL, WIDE, Sheet
from workbench.rivets.blind import hole_mm
from workbench.rivets.setting import badly_set, blind_rivet, pushed_in

AXIS, RIGHT, HALF = 212.0, 870.0, 138.0  # px: centre line; right end of an unset mandrel; half height of the sheets
NEAR_SHEET = 0.4  # of the stack
PHANTOM = (0, (12, 3, 2, 3, 2, 3))
_NONE = outline([(0, 0)])
_GAP = (np.nan, np.nan)


class BlindRivetSetting:
    """One drawing for all rivets and stages: `show(rivet, stack_mm, hole_mm, stage)` moves it."""

    def __init__(self, width_px=900, height_px=400):
        self.sheet = Sheet(width_px, height_px)
        view = self.sheet.view(0, 0, 900, 400, 1, 0, 0)
        moving = self.sheet.moving
        self.sheets = moving(view, PathPatch(_NONE, fc=STEEL, lw=0))
        self.sheet_hatch = moving(view, Line2D([], [], color=INK, lw=0.55 * NARROW))
        self.sheet_edges = moving(view, Line2D([], [], color=INK, lw=WIDE))
        self.breaks = moving(view, Line2D([], [], color=INK, lw=NARROW))
        self.body = moving(view, PathPatch(_NONE, fc=SHADE, ec=INK, lw=WIDE))
        self.body_hatch = moving(view, Line2D([], [], color=INK, lw=0.55 * NARROW))
        self.mandrel = moving(view, PathPatch(_NONE, fc=PAPER, ec=INK, lw=WIDE))
        self.nose = moving(view, Line2D([], [], color=DIMENSION, lw=NARROW, ls=PHANTOM))
        self.centre = moving(view, Line2D([], [], color=DIMENSION, lw=NARROW, ls=CENTRE_LINE))
        self.dimensions = Dimensions(self.sheet, view)

    def show(self, rivet, stack_mm, hole_mm, stage, figures=True):
        """Show a stage. figures=False puts letters in place of values, so that it may stand beside a question."""
        self.rivet, self.stack_mm, self.hole_mm, self.stage, self.figures = rivet, stack_mm, hole_mm, stage, figures
        beyond = rivet.length_mm + rivet.cone_mm + 0.25 * rivet.body_mm
        left = rivet.head_height_mm + 2.9 * rivet.body_mm
        self.scale = min((RIGHT - 20) / (beyond + left), 1.7 * HALF / rivet.head_mm)
        self.zero = RIGHT - (RIGHT - 20 - self.scale * (beyond + left)) / 2 - self.scale * beyond
        self._show_sheets()
        self._show_rivet()
        self._show_nose()
        self.dimensions.clear()
        self._dimension()
        self.dimensions.show()

    def px(self, points, side=1):
        """Pixels of points (z, r) in mm; side -1: below the centre line."""
        return np.asarray(points, dtype=float) * (self.scale, side * self.scale) + (self.zero, AXIS)

    def _show_sheets(self):
        hole, middle = self.hole_mm / 2, NEAR_SHEET * self.stack_mm
        self.top = HALF / self.scale
        faces, lines, edges, torn = [], [], [], []
        wave = np.linspace(0, 1, 21)
        for start, end, way in ((0.0, middle, RISING), (middle, self.stack_mm, FALLING)):
            for side in (1, -1):
                corners = self.px([(start, hole), (start, self.top), (end, self.top), (end, hole)], side)
                faces.append(outline(corners))
                lines.append(hatching(corners, 8, way))
                edges += [*corners[[1, 0, 3, 2]], _GAP]
                x = corners[1, 0] + (corners[2, 0] - corners[1, 0]) * wave
                torn += [*zip(x, corners[1, 1] + 2.5 * np.sin(2 * pi * wave), strict=True), _GAP]
        self.sheets.set_path(Path.make_compound_path(*faces))
        self.sheet_hatch.set_data(*np.concatenate(lines, axis=1))
        self.sheet_edges.set_data(*np.array(edges).T)
        self.breaks.set_data(*np.array(torn).T)

    def _show_rivet(self):
        halves = [self.px(self.stage.body, side) for side in (1, -1)]
        self.body.set_path(Path.make_compound_path(*map(outline, halves)))
        self.body_hatch.set_data(*np.concatenate([hatching(half, 5, RISING) for half in halves], axis=1))
        end = self.px([(max(z for z, _ in self.stage.mandrel[0]), 0)])[0, 0]
        self.centre.set_data([6, end + 14], [AXIS, AXIS])
        pieces = [outline(np.vstack([self.px(piece), self.px(piece[::-1], -1)])) for piece in self.stage.mandrel]
        self.mandrel.set_path(Path.make_compound_path(*pieces))

    def _show_nose(self):
        """The tool's nose against the head; drawn back with the broken pin."""
        away = 0.8 * self.rivet.body_mm if self.stage.broken else 0.0
        face = -self.rivet.head_height_mm - away
        inner, outer = 0.65 * self.rivet.mandrel_mm, 0.42 * self.rivet.head_mm
        points = []
        for side in (1, -1):
            left = -self.zero / self.scale
            points += [*self.px([(left, inner), (face, inner), (face, outer), (left, outer)], side), _GAP]
        self.nose.set_data(*np.array(points).T)

    def _dimension(self):
        marks, rivet, stage = self.dimensions, self.rivet, self.stage
        (zero, top), (back, _) = self.px([(0, self.top), (self.stack_mm, 0)])
        bottom = 2 * AXIS - top
        said = f"grip {self.stack_mm:g}" if self.figures else "grip"
        marks.across(zero, back, bottom - 26, said, bottom - 4, bottom - 4)
        self._name_parts(top)
        tail = stage.tail_mm / 2
        if stage.travel_mm:
            lip = max(z for z, _ in stage.body)
            wide = max(stage.body, key=lambda point: point[1] if point[0] > self.stack_mm else 0.0)
            (x, high), (edge, _) = self.px([wide, (lip, 0)])
            place = edge + 0.55 * rivet.body_mm * self.scale + 34
            marks.up(2 * AXIS - high, high, place, f"Ø {2 * tail:.1f}" if self.figures else "Ø tail", x + 2, x + 2)
        if stage.broken:
            self._dimension_pin(top, bottom)
        elif not (self.figures or stage.travel_mm):
            self._dimension_room(back, zero, bottom)

    def _dimension_room(self, back, zero, bottom):
        """Length of the body, and what stands behind the sheets, on a rivet that is not yet pulled."""
        end = max(z for piece in self.stage.mandrel for z, _ in piece)
        (body, side), (tip, level) = self.px([(self.rivet.length_mm, -0.5 * self.rivet.body_mm), (end, 0)])
        self.dimensions.across(zero, body, bottom - 52, "length", None, side)
        self.dimensions.across(back, tip, bottom - 26, "room", None, level)

    def _name_parts(self, top):
        """Leaders to body, mandrel head and notch, above the sheets."""
        marks, rivet, stage = self.dimensions, self.rivet, self.stage
        head_end = max(z for piece in stage.mandrel for z, _ in piece)
        (x, y), = self.px([(head_end - 0.12 * rivet.body_mm, rivet.mandrel_head_mm / 2)])
        marks.leader((x, y), (min(x + 24, 760), top - 12), "mandrel head")
        if self.figures or not stage.broken:
            x, y = max(((x, y) for x, y in self.px(stage.body) if x < self.zero - 1), key=lambda point: point[1])
            marks.leader((x, y), (x - 26, top - 4), "head", "right")
        if not stage.travel_mm:
            (x, y), = self.px([(rivet.length_mm - 0.7 * rivet.body_mm, -0.5 * rivet.body_mm)])
            marks.leader((x, y), (x + 20, 2 * AXIS - top + 14), "body")
        notch = min(stage.mandrel[0]) if stage.broken else (self._notch_mm(), 0.65 * rivet.mandrel_mm / 2)
        (x, y), = self.px([(notch[0], -0.65 * rivet.mandrel_mm / 2)])
        if not (self.figures or stage.broken):
            marks.leader((130, AXIS + rivet.mandrel_mm / 2 * self.scale), (154, top - 12), "mandrel, or pin")
            marks.leader((60, AXIS - 0.42 * rivet.head_mm * self.scale), (84, 2 * AXIS - top - 14), "nose of the tool")
        word = "broken at the notch" if stage.broken else "notch"
        clear = self.zero - self.scale * rivet.head_height_mm - 12  # left of the head
        marks.leader((x, y), (min(x - 46, clear), 2 * AXIS - top + 14), word, "right")

    def _notch_mm(self):
        return self.rivet.length_mm - self.stage.travel_mm - self.rivet.notch_mm

    def _dimension_pin(self, top, bottom):
        """How far the pin ends from the top of the head; with letters, the parts that the pin passes."""
        marks, rivet, stage = self.dimensions, self.rivet, self.stage
        ((notch, _), (head, flat), (zero, _), (back, _), (cone, level)) = self.px(
            [(self._notch_mm(), 0), (-rivet.head_height_mm, -0.175 * rivet.head_mm), (0, 0), (self.stack_mm, 0),
             (rivet.length_mm - stage.travel_mm, -rivet.mandrel_mm / 2)])  # fmt: skip
        if self.figures:
            if abs(stage.stub_mm) >= 0.05:
                marks.across(notch, head, bottom - 52, f"{abs(stage.stub_mm):.1f}", AXIS, flat)
            return
        marks.across(back, cone, bottom - 26, "tail", None, level)
        marks.across(head, zero, top + 14, "head", 2 * AXIS - flat, top + 3)
        marks.across(notch, cone, bottom - 52, "notch length", AXIS, level)

    def png(self):
        """The picture as PNG bytes."""
        return self.sheet.png()

    def text(self):
        """What is drawn, in words."""
        rivet, stage = self.rivet, self.stage
        state = ("The pin has broken at its notch and is drawn off." if stage.broken
                 else "The mandrel head has swollen the tail." if stage.travel_mm
                 else "The rivet is pushed in, not yet pulled.")  # fmt: skip
        filled = " The body fills the hole behind." if stage.fills else " There is play between body and hole."
        stack = f" of {self.stack_mm:g} mm" if self.figures else ""
        return (f"Section along a blind rivet {rivet.body_mm:g} × {rivet.length_mm:g} through two sheets{stack}: head "
                f"and tool's nose on the left, tail and mandrel head on the right. {state}{filled}")


def picture(body_mm, length_mm, stack_mm, sawn=True, standard="ISO 15977"):
    """A still with words in place of values: a sawn rivet, set in any stack, or one that is only pushed in."""
    drawing, rivet = BlindRivetSetting(), blind_rivet(standard, body_mm, length_mm)
    hole = hole_mm(body_mm)[0]
    drawing.show(rivet, stack_mm, hole, (badly_set if sawn else pushed_in)(rivet, stack_mm, hole), figures=False)
    return drawing.png(), drawing.text()
