"""A solid rivet in its hole, in section: before driving and after, with a head that stands up or lies flush.

The sheets are cut and hatched opposite ways, the rivet is whole (ISO 128-3). Before driving the shank has play in the
hole and stands out; after driving it fills the hole, and what stood out has become the formed head, of equal volume.
Sizes come from `workbench.rivets`.
"""

import math

import numpy as np
from matplotlib.lines import Line2D
from matplotlib.patches import PathPatch
from matplotlib.path import Path

from workbench.drawings.cylinder import outline
from workbench.drawings.dimensions import Dimensions, words
from workbench.drawings.hatching import FALLING, RISING, hatching
from workbench.drawings.sheet import CENTRE_LINE, DIMENSION, INK, NARROW, PAPER, SATIN, WIDE, Sheet

PLACES, FACE, HALF, PX = {"before": 220.0, "after": 630.0}, 300.0, 150.0, 11.0  # px: axes, top face, half a sheet; a mm
_NONE = outline([(0, 0)])
_BREAK = (np.nan, np.nan)


def standing_head(kind, width, height):
    """Points of a standing head about x = 0 on the level 0, from right to left (mm)."""
    half = width / 2
    if kind in ("flat", "pan"):
        top = half * (0.98 if kind == "flat" else 0.75)
        return [(half, 0), (half, 0.55 * height), (top, height), (-top, height), (-half, 0.55 * height), (-half, 0)]
    turn = np.linspace(0, math.pi, 41)
    if kind == "universal":  # a dome flattened on top
        return list(zip(half * np.sign(np.cos(turn)) * np.abs(np.cos(turn)) ** 0.8, height * np.sin(turn) ** 0.7,
                        strict=True))  # fmt: skip
    radius = (half**2 + height**2) / (2 * height)  # round, mushroom: a cap of a ball
    reach = math.asin(min(1.0, half / radius))
    turn = np.linspace(math.pi / 2 - reach, math.pi / 2 + reach, 41)
    return list(zip(radius * np.cos(turn), height - radius + radius * np.sin(turn), strict=True))


class RivetSelection:
    """One drawing for all rivets: `show(rivet, sheets_mm, formed_width_mm)` moves it."""

    def __init__(self, width_px=900, height_px=400):
        self.sheet = Sheet(width_px, height_px)
        self.view = view = self.sheet.view(0, 0, 900, 400, 1, 0, 0)
        moving = self.sheet.moving
        self.sheets = moving(view, PathPatch(_NONE, fc=SATIN, ec=INK, lw=WIDE))
        self.hatch = moving(view, Line2D([], [], color=INK, lw=0.55 * NARROW))
        self.rivets = moving(view, PathPatch(_NONE, fc=PAPER, ec=INK, lw=WIDE))
        self.centre = moving(view, Line2D([], [], color=DIMENSION, lw=NARROW, ls=CENTRE_LINE))
        for text, x in (("before driving", PLACES["before"]), ("after driving", PLACES["after"])):
            self.sheet.still(view, PathPatch(words(text, x, 14), fc=INK, lw=0))
        self.dimensions = Dimensions(self.sheet, view)

    def show(self, rivet, sheets_mm, formed_width_mm, load_n=0):
        """Show a `Rivet` of `workbench.rivets.selection` in its sheets; formed_width_mm: of the formed head; load_n
        on it in shear."""
        self.rivet, self.sheets_mm, self.formed_mm = rivet, sheets_mm, formed_width_mm
        self.dimensions.clear()
        cut, lines = [], []
        for x0 in PLACES.values():
            for number, corners in enumerate(self._faces()):
                points = [(x0 + PX * x, FACE + PX * y) for x, y in corners]
                cut.append(outline(points))
                lines.append(hatching(points, 7, FALLING if number // 2 else RISING))
        self.sheets.set_path(Path.make_compound_path(*cut))
        self.hatch.set_data(*np.concatenate(lines, axis=1))
        self.rivets.set_path(Path.make_compound_path(*(
            outline([(PLACES[state] + PX * x, FACE + PX * y) for x, y in self._body(state)]) for state in PLACES)))
        over, under = PX * rivet.head.height_mm * (not rivet.head.flush) + 12, PX * rivet.length.length_mm + 14
        self.centre.set_data(*np.array([
            (PLACES["before"], FACE + over), (PLACES["before"], FACE - under), _BREAK, (PLACES["after"], FACE + over),
            (PLACES["after"], FACE - PX * (rivet.grip_mm + self._dip(0.0) + rivet.formed.target_height_mm) - 12)]).T)
        self._dimension()
        self._pull(load_n)
        self.dimensions.show()

    def _dip(self, x):
        """How far a dimple pushes the sheets down at a distance from the axis (mm)."""
        rivet, bore = self.rivet, self.rivet.hole.hole_mm / 2
        if rivet.let_in != "dimple":
            return 0.0
        half = rivet.head.width_mm / 2
        return rivet.head.height_mm * min(1.0, max(0.0, (half - abs(x)) / (half - bore)))

    def _faces(self):
        """Four cut faces: both sides of the upper and of the lower sheet (mm, from the top face)."""
        rivet, bore = self.rivet, self.rivet.hole.hole_mm / 2
        reach, half = HALF / PX, rivet.head.width_mm / 2
        faces, top = [], 0.0
        for number, thick in enumerate(self.sheets_mm):
            low = top - thick
            for side in (-1, 1):
                if rivet.let_in == "dimple":
                    dip = rivet.head.height_mm
                    face = [(reach, top), (half, top), (bore, top - dip), (bore, low - dip), (half, low), (reach, low)]
                elif rivet.let_in == "countersink" and not number:
                    depth = rivet.head.height_mm
                    face = [(reach, top), (half, top), (bore, top - depth), (bore, low), (reach, low)]
                else:
                    face = [(reach, top), (bore, top), (bore, low), (reach, low)]
                faces.append([(side * x, y) for x, y in face])
            top = low
        return faces

    def _body(self, state):
        """The rivet's outline (mm): before driving with play and length, after driving filling the hole."""
        rivet = self.rivet
        head, shank = rivet.head, (rivet.diameter_mm if state == "before" else rivet.hole.hole_mm) / 2
        under = 0.0 if rivet.length.length_mm and not head.flush else -head.height_mm
        upper = [(head.width_mm / 2, 0.0), (-head.width_mm / 2, 0.0)] if head.flush else standing_head(
            head.kind, head.width_mm, head.height_mm)
        if state == "before":
            end = -rivet.length.length_mm
            return [*upper, (-shank, under), (-shank, end), (shank, end), (shank, under)]
        seat = -rivet.grip_mm - self._dip(0.0)
        half, height = self.formed_mm / 2, rivet.formed.target_height_mm
        barrel = [(0.94, 0.0), (1.0, 0.25), (1.0, 0.75), (0.94, 1.0)]
        left = [(-half * wide, seat - height * deep) for wide, deep in barrel]
        right = [(-x, y) for x, y in left[::-1]]
        return [*upper, (-shank, under), (-shank, seat), *left, *right, (shank, seat), (shank, under)]

    def _dimension(self):
        rivet, marks = self.rivet, self.dimensions
        before, after = PLACES["before"], PLACES["after"]
        below, (upper, lower) = FACE - PX * rivet.grip_mm, self.sheets_mm
        for thick, middle, apart in ((upper, upper / 2, 4), (lower, upper + lower / 2, -4)):  # thin sheets lie close
            marks.word(f"{thick:g}", before - HALF - 8, FACE - PX * middle + apart, "right")
        end, dip, shank = FACE - PX * rivet.length.length_mm, PX * self._dip(0.0), PX * rivet.diameter_mm / 2
        marks.up(end, FACE, before + HALF + 40, f"length {rivet.length.length_mm:g}", before + shank, before + HALF)
        marks.across(before - shank, before + shank, end - 26, f"D {rivet.diameter_mm:g}", end, end)
        foot, formed = below - dip - PX * rivet.formed.target_height_mm, PX * self.formed_mm / 2
        marks.across(after - formed, after + formed, foot - 26, f"{self.formed_mm:.1f}", foot, foot)
        marks.up(foot, below - dip, after + HALF + 30, f"{rivet.formed.target_height_mm:g}", after + formed,
                 after + formed)

    def _pull(self, load_n):
        """The load along the sheets, which would cut the driven rivet."""
        upper, lower = self.sheets_mm
        if load_n:
            for side, depth in ((-1, upper / 2), (1, upper + lower / 2)):
                x, y = PLACES["after"] + side * (HALF + 4), FACE - PX * depth
                self.dimensions.line((x, y), (x + side * 30, y))
                self.dimensions.arrow(x + side * 30, y, 0 if side > 0 else math.pi)
            self.dimensions.word(f"{load_n:g} N", x + 36, y, "left")

    def png(self):
        """The picture as PNG bytes."""
        return self.sheet.png()

    def text(self):
        """What is drawn, in words."""
        rivet = self.rivet
        way = {"countersink": ", let into a countersink", "dimple": ", let into dimpled sheets"}.get(rivet.let_in, "")
        return (f"Section through sheets of {self.sheets_mm[0]:g} and {self.sheets_mm[1]:g} mm with a rivet of "
                f"{rivet.diameter_mm:g} × {rivet.length.length_mm:g} mm, {rivet.head.kind} head{way}. Before driving "
                f"it stands {rivet.length.stands_out_mm:.1f} mm out; after driving the formed head is "
                f"{self.formed_mm:.1f} mm wide and {rivet.formed.target_height_mm:g} mm high.")
