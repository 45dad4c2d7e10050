"""A bolt through two parts with its nut run up as far as the thread goes, in section.

Parts are cut and hatched opposite ways, bolt and nut are whole (ISO 128-3). Sizes from ISO 4014, ISO 4032, ISO 273,
to scale. Thread: a narrow line at its root (ISO 6410-1).
"""

from matplotlib.lines import Line2D
from matplotlib.patches import PathPatch

from workbench.drawings.cylinder import outline
from workbench.drawings.dimensions import Dimensions
from workbench.drawings.hatching import FALLING, RISING, hatching
from workbench.drawings.sheet import CENTRE_LINE, DIMENSION, INK, NARROW, PAPER, SATIN, STEEL, WIDE, Sheet
from workbench.tables import table
from workbench.threads.profile import profile

PX, UNDER_HEAD, AXIS, HALF = 7.6, 130.0, 170.0, 82.0  # px: a mm, under the head, the axis, half a part


def _box(left, right, low, high):
    return [(left, low), (right, low), (right, high), (left, high)]


class ThroughBoltDrawing:
    """One stack: size and pitch of the thread, length under the head, thread, parts, in mm."""

    def __init__(self, size_mm, pitch_mm, length_mm, thread_mm, parts_mm, width_px=900, height_px=340):
        row = table("hexagon_sizes").row(f"M{size_mm:g}")
        self.sheet = Sheet(width_px, height_px, (900, 340))
        self.view = self.sheet.view(0, 0, 900, 340, 1, 0, 0)
        flats = PX * row["across_flats_mm"] / 2
        hole = PX * table("iso_273_clearance_holes").row(f"M{size_mm:g}")["medium"] / 2
        rim, root = PX * size_mm / 2, PX * profile("metric", size_mm, pitch_mm).screw_minor_mm / 2
        self.end = UNDER_HEAD + PX * length_mm
        self.thread = self.end - PX * thread_mm
        place = UNDER_HEAD
        edges = [place]
        for part, way in zip(parts_mm, (RISING, FALLING), strict=True):
            edges.append(place + PX * part)
            for low, high in ((AXIS + hole, AXIS + HALF), (AXIS - HALF, AXIS - hole)):
                self._cut(_box(place, edges[-1], low, high), way)
            place = edges[-1]
        self.parts = place
        stop = max(self.thread, self.parts)
        self.nut = stop, stop + PX * row["nut_height_mm"]
        head = PX * table("head_heights").row(f"hexagon M{size_mm:g}")["height_mm"]
        self._whole(_box(UNDER_HEAD - head, UNDER_HEAD, AXIS - flats, AXIS + flats), STEEL)
        self._whole(_box(UNDER_HEAD, self.end, AXIS - rim, AXIS + rim), PAPER)
        self._whole(_box(self.thread, self.thread, AXIS - rim, AXIS + rim), PAPER)
        for side in (root, -root):
            self.sheet.still(self.view, Line2D([self.thread, self.end], [AXIS + side] * 2, color=INK, lw=NARROW))
        self._whole(_box(*self.nut, AXIS - flats, AXIS + flats), STEEL)
        for left, right in ((UNDER_HEAD - head, UNDER_HEAD), self.nut):
            for side in (flats / 2, -flats / 2):
                self.sheet.still(self.view, Line2D([left, right], [AXIS + side] * 2, color=INK, lw=NARROW))
        self.sheet.still(self.view, Line2D([UNDER_HEAD - head - 15, self.end + 15], [AXIS] * 2, color=DIMENSION,
                                           lw=NARROW, ls=CENTRE_LINE))  # fmt: skip
        self._write(Dimensions(self.sheet, self.view), length_mm, thread_mm, parts_mm, edges, flats, rim)

    def _cut(self, corners, way):
        self.sheet.still(self.view, PathPatch(outline(corners), fc=SATIN, ec=INK, lw=WIDE))
        self.sheet.still(self.view, Line2D(*hatching(corners, 9, way), color=INK, lw=0.55 * NARROW))

    def _whole(self, corners, ink):
        self.sheet.still(self.view, PathPatch(outline(corners), fc=ink, ec=INK, lw=WIDE))

    def _write(self, ink, length_mm, thread_mm, parts_mm, edges, flats, rim):
        top, foot = AXIS + HALF, AXIS - HALF
        ink.across(UNDER_HEAD, self.end, top + 62, f"length {length_mm:g}", AXIS + flats, AXIS + rim)
        ink.across(self.thread, self.end, top + 26, f"thread {thread_mm:g}", AXIS + flats, AXIS + rim)
        for left, right, part in zip(edges, edges[1:], parts_mm, strict=False):
            ink.across(left, right, foot - 28, f"{part:g}", foot, foot)
        ink.leader(((self.nut[0] + self.nut[1]) / 2, AXIS - 0.7 * flats), (self.nut[1] + 40, foot - 10), "nut")
        ink.show()


def picture(size_mm, pitch_mm, length_mm, thread_mm, first_mm, second_mm):
    """The stack as PNG bytes, and the same in words."""
    text = (f"A bolt M{size_mm:g}, {length_mm:g} mm long under its head, with {thread_mm:g} mm of thread at its end. "
            f"It goes through a part of {first_mm:g} mm and a part of {second_mm:g} mm. "
            "The nut has run up to where the thread ends. Between it and the parts there is a gap.")
    drawing = ThroughBoltDrawing(size_mm, pitch_mm, length_mm, thread_mm, (first_mm, second_mm))
    return drawing.sheet.png((60, 0, drawing.end + 60, 310)), text
