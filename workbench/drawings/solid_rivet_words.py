"""A solid rivet with the words of the trade on it, before driving and after, and the head marks of the alloys.

The section has the proportions of a universal head in two sheets: the sheets are cut and hatched opposite ways, the
rivet is whole (ISO 128-3). Beside it each head mark is seen from above, drawn simply.
"""

from functools import lru_cache

import numpy as np
from matplotlib.lines import Line2D
from matplotlib.patches import Circle, PathPatch

from workbench.drawings.cylinder import outline
from workbench.drawings.dimensions import Dimensions, words
from workbench.drawings.hatching import FALLING, RISING, hatching
from workbench.drawings.rivet_selection import standing_head
from workbench.drawings.sheet import CENTRE_LINE, DIMENSION, INK, NARROW, PAPER, SATIN, SHADE, WIDE, Sheet
from workbench.rivets.formed_head import limits
from workbench.rivets.head import head
from workbench.rivets.hole import metric_hole
from workbench.rivets.length import wanted_length_mm

PLACES, FACE, HALF, PX = {"before": 150.0, "after": 415.0}, 290.0, 84.0, 14.0  # px: axes, top face, half a sheet; a mm
SIZE, SHEETS_MM = "4", (2.0, 3.0)
MARKS = ("plain", "dimple", "raised dot", "two raised dashes", "raised cross")
MARK_X, MARK_TOP, MARK_STEP, MARK_RADIUS = 660.0, 338.0, 68.0, 27.0
GLOSSARY = ("made head", "shank", "grip", "length", "D", "formed head (tail)")
_BREAK = (np.nan, np.nan)


class LabelledRivet:
    """The drawing; `rivets` holds both outlines, `marks` the artists of each head mark by name."""

    def __init__(self):
        self.sheet = Sheet(900, 400)
        self.view = self.sheet.view(0, 0, 900, 400, 1, 0, 0)
        self.diameter_mm, self.hole_mm = float(SIZE), metric_hole(SIZE).hole_mm
        self.head, self.grip_mm = head("universal", self.diameter_mm), sum(SHEETS_MM)
        self.formed, self.length_mm = limits(self.diameter_mm), wanted_length_mm(self.grip_mm, self.diameter_mm)
        self._sheets()
        self.rivets = {state: self._put(PathPatch(outline(self._at(state, self._body(state))), fc=PAPER, ec=INK,
                                                  lw=WIDE)) for state in PLACES}  # fmt: skip
        self._axes()
        self.marks = {name: self._mark(name, MARK_TOP - MARK_STEP * place) for place, name in enumerate(MARKS)}
        for text, x in (("before driving", PLACES["before"]), ("after driving", PLACES["after"]),
                        ("marks, seen from above", MARK_X + 70)):  # fmt: skip
            self._put(PathPatch(words(text, x, 384, 12), fc=INK, lw=0))
        self._name()

    def _put(self, artist):
        return self.sheet.still(self.view, artist)

    def _at(self, state, points):
        """Points about the axis, in mm from the top face, as places on the sheet."""
        return [(PLACES[state] + PX * x, FACE + PX * y) for x, y in points]

    def _sheets(self):
        bore, reach = self.hole_mm / 2, HALF / PX
        for state in PLACES:
            top = 0.0
            for thick, way in zip(SHEETS_MM, (RISING, FALLING), strict=True):
                for side in (-1, 1):
                    face = self._at(state, [(side * reach, top), (side * bore, top), (side * bore, top - thick),
                                            (side * reach, top - thick)])  # fmt: skip
                    self._put(PathPatch(outline(face), fc=SATIN, ec=INK, lw=WIDE))
                    self._put(Line2D(*hatching(face, 7, way), color=INK, lw=0.55 * NARROW))
                top -= thick

    def _body(self, state):
        """Before driving straight and with play; after driving as wide as the hole, with its formed head."""
        upper = standing_head(self.head.kind, self.head.width_mm, self.head.height_mm)
        if state == "before":
            half = self.diameter_mm / 2
            return [*upper, (-half, 0), (-half, -self.length_mm), (half, -self.length_mm), (half, 0)]
        half, wide, high = self.hole_mm / 2, self.formed.target_width_mm / 2, self.formed.target_height_mm
        barrel = [(0.94 * wide, 0.0), (wide, 0.25 * high), (wide, 0.75 * high), (0.94 * wide, high)]
        left = [(-x, -self.grip_mm - y) for x, y in barrel]
        return [*upper, (-half, 0), (-half, -self.grip_mm), *left, *[(-x, y) for x, y in left[::-1]],
                (half, -self.grip_mm), (half, 0)]  # fmt: skip

    def _axes(self):
        over = FACE + PX * self.head.height_mm + 12
        ends = {"before": PX * self.length_mm, "after": PX * (self.grip_mm + self.formed.target_height_mm)}
        for state, x in PLACES.items():
            self._put(Line2D([x, x], [over, FACE - ends[state] - 6], color=DIMENSION, lw=NARROW, ls=CENTRE_LINE))

    def _mark(self, name, y):
        """A head from above with its mark: what stands up is white with an edge, the hollow is dark."""
        raised = {"fc": PAPER, "ec": INK, "lw": WIDE}
        self._put(Circle((MARK_X, y), MARK_RADIUS, fc=SHADE, ec=INK, lw=WIDE))
        self._put(PathPatch(words(name, MARK_X + MARK_RADIUS + 16, y, 11, "left"), fc=INK, lw=0))

        def bar(across, up, x=0.0):
            corners = [(MARK_X + x + across * i, y + up * j) for i, j in ((-1, -1), (1, -1), (1, 1), (-1, 1))]
            return PathPatch(outline(corners), **raised)

        drawn = {
            "plain": [], "dimple": [Circle((MARK_X, y), 4.5, fc=INK, ec=INK, lw=WIDE)],
            "raised dot": [Circle((MARK_X, y), 5.5, **raised)],
            "two raised dashes": [bar(5, 2.2, side * 16) for side in (-1, 1)],
            "raised cross": [self._cross(y, raised)],
        }[name]  # fmt: skip
        return [self._put(artist) for artist in drawn]

    def _cross(self, y, style):
        """One outline, so that no edge runs through the middle."""
        long, thin = 14.0, 2.6
        quarter = [(thin, long), (thin, thin), (long, thin)]
        corners = [*quarter, *[(x, -y) for x, y in quarter[::-1]], *[(-x, -y) for x, y in quarter],
                   *[(-x, y) for x, y in quarter[::-1]]]  # fmt: skip
        return PathPatch(outline([(MARK_X + dx, y + dy) for dx, dy in corners]), **style)

    def _name(self):
        marks = self.dimensions = Dimensions(self.sheet, self.view)
        before, after = PLACES["before"], PLACES["after"]
        shank, end, low = PX * self.diameter_mm / 2, FACE - PX * self.length_mm, FACE - PX * self.grip_mm
        top = FACE + PX * self.head.height_mm
        marks.up(low, FACE, before - HALF - 22, "grip", before - HALF, before - HALF)
        marks.up(end, FACE, before + HALF + 22, "length", before + shank, before + HALF)
        marks.across(before - shank, before + shank, end - 32, "D", end, end)
        marks.leader((before + 0.2 * shank, top - 4), (before + 34, top + 26), "made head")
        marks.leader((before - 0.5 * shank, end + 40), (before - 46, end + 12), "shank", "right")
        foot = low - PX * self.formed.target_height_mm
        marks.leader((after + 8, foot + 8), (after + 30, foot - 34), "formed head (tail)")
        marks.leader((after + 0.2 * shank, top - 4), (after + 34, top + 26), "made head")
        marks.show()

    def png(self):
        """The picture as PNG bytes."""
        return self.sheet.png()

    def text(self):
        """What is drawn, in words."""
        return (f"Section through two sheets with a rivet, before driving and after. Named are: {', '.join(GLOSSARY)}. "
                "The length runs from under the made head to the end of the shank. After driving the shank fills the "
                f"hole. Beside it five heads from above: {', '.join(MARKS)}.")


@lru_cache(maxsize=1)
def _drawing():
    return LabelledRivet()


def picture():
    """The still: (PNG bytes, alternative text)."""
    return _drawing().png(), _drawing().text()
