"""A measuring screw of the outside type, to true scale: general view, and the scales enlarged 4 : 1.

Both views share one frame of lengths: x = 0 is the sleeve's zero line, in mm, whatever the unit of the
instrument. The edge of the thimble stands where the scales say; the lines of sleeve and thimble are cut
into round parts and seen from the front. The bevel runs out to the sleeve's surface, so that a thimble
line meets the datum without parallax. Sizes of the parts: common practice, no source; thimble lines
0.8 mm apart for 50 divisions (from memory: the least that ISO 3611 wants).
"""

from functools import lru_cache
from math import floor, pi, radians, sin

import numpy as np
from matplotlib.lines import Line2D
from matplotlib.patches import PathPatch, Rectangle
from matplotlib.path import Path
from matplotlib.text import Text
from matplotlib.transforms import Affine2D

from workbench.drawings.cylinder import Engraving, lettering, outline
from workbench.drawings.measuring_screw_parts import (
    FACE_RADIUS,
    HUB_FACE,
    SLEEVE_LEFT,
    draw_frame,
    draw_rear,
    draw_work,
    rear_transform,
)
from workbench.drawings.sheet import DIMENSION, INK, NARROW, SATIN, SHADE, STEEL, WIDE, Sheet
from workbench.screws.measuring import METRIC, MM_PER_INCH, reading_of, scales_of

RADIUS = 6.4  # of the sleeve, and of the thimble at its edge
THIMBLE_RADIUS, BEVEL, THIMBLE_LENGTH = 7.8, 7.0, 42.0
LINE_WIDTH = 0.16  # of the engraved lines: half of it shows before the thimble reaches zero
FINE_WIDTH = 0.10  # where a vernier line must be seen to meet a thimble line
EDGE = 0.08
GENERAL_SCALE, DETAIL_SCALE = 5, 20  # pixels to the millimetre


class MeasuringScrew:
    """One drawing of an outside measuring screw: built once, `show(gap)` moves it, `png()` gives the picture.

    instrument: a `workbench.screws.measuring.Instrument` of kind "outside", range up to 26 mm long and
    starting below 26 mm (larger frames do not fit on the sheet at this scale).
    """

    def __init__(self, instrument=METRIC, width_px=900, height_px=400):
        self.instrument = instrument
        self.mm = MM_PER_INCH if instrument.unit == "in" else 1.0
        self.reach_mm = (instrument.end - instrument.start) * self.mm
        if instrument.kind != "outside" or self.reach_mm > 26 or instrument.start * self.mm > 26:
            raise ValueError(f"{instrument.name}: this drawing shows outside measuring screws up to 50 mm or 2 in; "
                             "is it a depth type or a large frame?")
        self.pitch_mm = instrument.pitch * self.mm
        self.step = 2 * pi / instrument.divisions
        self.datum = 0.0
        if instrument.vernier:  # turn it towards the reader, so that vernier and sleeve lines are both in sight
            self.vernier_step = self.step * (instrument.vernier - 1) / instrument.vernier
            self.datum = -min(radians(38), instrument.vernier * self.vernier_step / 2 - radians(12))
        self.anvil_mm = HUB_FACE - 28.6 - instrument.start * self.mm
        self.sheet = Sheet(width_px, height_px)
        self._slide = Affine2D()
        self._engrave_sleeve()
        self._engrave_thimble()
        self._draw_general()
        self._draw_detail()
        self.work = (None, False)
        self.show(instrument.start)

    def _engrave_sleeve(self):
        """Main and sub lines, their numbers, the vernier: `self.sleeve`, the lines alone `self.sleeve_lines`."""
        ins = self.instrument
        self.sleeve, self.sleeve_lines = Engraving(RADIUS), Engraving(RADIUS)
        every = 5 if ins.unit == "mm" else 1  # main lines from number to number
        both_sides = ins.lines_per_main == 2 and not ins.vernier
        self.line_places = [n * self.pitch_mm for n in range(round(self.reach_mm / self.pitch_mm) + 1)]
        for n, x in enumerate(self.line_places):
            main, sub = divmod(n, ins.lines_per_main)
            numbered = sub == 0 and main % every == 0
            length = 2.5 if numbered else 1.9 if sub == 0 else 1.5 if ins.lines_per_main > 2 else 1.7
            up = not ins.vernier and not (both_sides and sub)
            side = 1 if up else -1
            end = self.datum + side * length / RADIUS
            for engraving in (self.sleeve, self.sleeve_lines):
                engraving.ring(x, self.datum, end, LINE_WIDTH)
            if numbered:
                self.sleeve.figures(str(main), x, self.datum + side * 3.5 / RADIUS, 1.3)
        right = self.reach_mm + 2
        for engraving in (self.sleeve, self.sleeve_lines):
            engraving.line(-1.1 if ins.vernier else SLEEVE_LEFT + 1, right, self.datum, LINE_WIDTH)
        for k in range(ins.vernier + 1 if ins.vernier else 0):
            angle = self.datum + k * self.vernier_step
            if k:
                self.sleeve.line(-1.1, right, angle, FINE_WIDTH)
            self.sleeve.figures(str(k % 10), -1.8, angle, 0.55)

    def _engrave_thimble(self):
        slope = (THIMBLE_RADIUS - RADIUS) / BEVEL
        self.thimble, self.thimble_lines = Engraving(RADIUS, slope), Engraving(RADIUS, slope)
        width = FINE_WIDTH if self.instrument.vernier else min(LINE_WIDTH, 0.25 * RADIUS * self.step)
        for n in range(self.instrument.divisions):
            length = 2.0 if n % 5 else 3.0
            for engraving in (self.thimble, self.thimble_lines):
                engraving.line(0, length, n * self.step, width)
            if n % 5 == 0:
                self.thimble.figures(str(n), 4.4, n * self.step, 1.3)

    def _thimble_body(self, edge):
        right = edge + THIMBLE_LENGTH
        half = [(edge, RADIUS), (edge + BEVEL, THIMBLE_RADIUS), (right - 0.6, THIMBLE_RADIUS),
                (right, THIMBLE_RADIUS - 0.6)]
        return outline(half + [(x, -y) for x, y in reversed(half)])

    def _sleeve_ground(self, view, marks, left=SLEEVE_LEFT):
        self.sheet.still(view, Rectangle((left, -RADIUS), 42, 2 * RADIUS, fc=STEEL, ec=INK, lw=WIDE))
        self.sheet.still(view, PathPatch(marks.path(), fc=INK, lw=0, snap=False))

    def _draw_general(self):
        sheet, left = self.sheet, self.anvil_mm - 18
        self.general = view = sheet.view(10, 274, 880, 124, GENERAL_SCALE, left, -15.4)
        draw_frame(sheet, view, self.anvil_mm)
        self._sleeve_ground(view, self.sleeve_lines)
        detail_left, detail_width = self._detail_window()
        sheet.still(view, Rectangle((detail_left, -8.9), detail_width, 17.8, fill=False, ec=DIMENSION, lw=NARROW,
                                    zorder=5))
        sheet.still(view, Text(detail_left + 0.6, -11.4, "A", size=9, color=INK))
        sheet.still(view, Text(detail_left + 8, -14.9, "A (4 : 1) = view A, four times larger", size=9,
                               color=INK))
        ins = self.instrument
        sheet.still(view, Text(left + 175.5, -11.4, f"{ins.span}   {ins.resolution:g} {ins.unit}", size=8,
                               color=DIMENSION, ha="right"))
        self.spindle = sheet.moving(view, PathPatch(outline([(0, 0)]), fc=STEEL, ec=INK, lw=WIDE))
        self.body = sheet.moving(view, PathPatch(outline([(0, 0)]), fc=SATIN, ec=INK, lw=WIDE))
        self.far_lines = sheet.moving(view, PathPatch(outline([(0, 0)]), fc=INK, lw=0))
        draw_rear(sheet, view, THIMBLE_RADIUS, BEVEL, THIMBLE_LENGTH, rear_transform(self._slide, view))
        self.dimension = sheet.moving(view, Line2D([], [], color=DIMENSION, lw=NARROW))
        self.arrows = sheet.moving(view, PathPatch(outline([(0, 0)]), fc=DIMENSION, lw=0))

    def _detail_window(self):
        """Left end and width (mm) of what view A shows; the vernier type leaves room for view B."""
        return (-3.4, 36.0) if self.instrument.vernier else (-6.0, 44.0)

    def _draw_detail(self):
        sheet, (left, width) = self.sheet, self._detail_window()
        self.detail = view = sheet.view(10, 4, width * DETAIL_SCALE, 266, DETAIL_SCALE, left, -6.65)
        self._sleeve_ground(view, self.sleeve)
        if left < SLEEVE_LEFT:
            sheet.still(view, Rectangle((left - 1, -8), SLEEVE_LEFT - left + 1, 16, fc=SHADE, ec=INK, lw=WIDE))
        self.near_body = sheet.moving(view, PathPatch(outline([(0, 0)]), fc=SATIN, lw=0))
        self.near_edge = sheet.moving(view, PathPatch(outline([(0, 0)]), fc=INK, lw=0))
        self.near_lines = sheet.moving(view, PathPatch(outline([(0, 0)]), fc=INK, lw=0))
        sheet.moving(view, Rectangle((left, -6.65), width, 13.3, fill=False, ec=DIMENSION, lw=1.2 * NARROW))
        if self.instrument.vernier:
            self._draw_vernier()

    def _draw_vernier(self):
        """View B: the vernier where it meets the thimble, larger, travelling with the thimble's edge."""
        sheet, top = self.sheet, self.datum + self.instrument.vernier * self.vernier_step
        low, high = RADIUS * sin(self.datum), RADIUS * sin(min(top, radians(80)))
        times = floor(266 / (high - low + 0.9) / GENERAL_SCALE)
        scale = times * GENERAL_SCALE
        bottom = (low + high) / 2 - 133 / scale
        view = sheet.view(776, 4, 114, 266, scale, -66 / scale, bottom)
        labels = sheet.view(748, 4, 28, 266, scale, 0, bottom)
        sheet.still(view, Rectangle((-9, -RADIUS), 9, 2 * RADIUS, fc=STEEL, ec=INK, lw=NARROW))
        for k in range(self.instrument.vernier + 1):
            angle = self.datum + k * self.vernier_step
            if angle < radians(80):
                sheet.still(labels, Text(0.8 - 0.4 * (k % 2), RADIUS * sin(angle), str(k % 10), size=9,
                                         color=INK, transform=labels.transData, ha="right", va="center"))
        self._follow = Affine2D()
        sheet.moving(view, PathPatch(self.sleeve.path(), fc=INK, lw=0, transform=self._follow + view.transData))
        sheet.moving(view, Rectangle((0, -RADIUS), 9, 2 * RADIUS, fc=SATIN, lw=0))
        self.vernier_lines = sheet.moving(view, PathPatch(outline([(0, 0)]), fc=INK, lw=0))
        sheet.moving(view, Rectangle((0, -RADIUS), EDGE / 2, 2 * RADIUS, fc=INK, lw=0))
        sheet.moving(view, Rectangle((-66 / scale, bottom), 114 / scale, 266 / scale, fill=False, ec=DIMENSION,
                                     lw=1.2 * NARROW))
        sheet.still(self.general, Text(self.anvil_mm - 18 + 175.5, -14.9,
                                       f"B ({times} : 1) = view B, {times} times larger", size=9, color=INK,
                                       ha="right"))

    def show(self, gap, work=None, ring=False):
        """Move the screw to a gap (in the instrument's unit); `work`: size of a piece between the faces, `ring`:
        it is a ring."""
        ins = self.instrument
        self.scales = scales_of(gap, ins)
        edge = (reading_of(self.scales, ins) - ins.start) * self.mm
        self._slide.clear().translate(edge, 0)
        turned = self.datum - 2 * pi * edge / self.pitch_mm
        body, lines = self._thimble_body(edge), self.thimble.path(turned)
        face = self.anvil_mm + gap * self.mm
        self.spindle.set_path(outline([(face, -FACE_RADIUS), (face, FACE_RADIUS), (HUB_FACE, FACE_RADIUS),
                                       (HUB_FACE, -FACE_RADIUS)]))
        self.body.set_path(body)
        self.near_body.set_path(body)
        self.near_edge.set_path(outline([(edge, -RADIUS), (edge + EDGE, -RADIUS), (edge + EDGE, RADIUS),
                                         (edge, RADIUS)]))
        if ins.vernier:
            self.vernier_lines.set_path(lines)
            self._follow.clear().translate(-edge, 0)
        self.near_lines.set_path(_moved(lines, edge))
        self.far_lines.set_path(_moved(self.thimble_lines.path(turned), edge))
        self._show_dimension(face)
        if (work, ring) != self.work:
            self.work = work, ring
            draw_work(self.sheet, self.general, self.anvil_mm, None if work is None else work * self.mm, ring)

    def _show_dimension(self, face):
        """Extension lines, dimension line and arrows of the gap; arrows stand outside when it is narrow."""
        anvil, y, long, thin = self.anvil_mm, -10.0, 2.2, 0.38
        inside = face - anvil > 12
        ends = (anvil, face) if inside else (anvil - 4.5, face + 4.5)
        gap = [np.nan, np.nan]
        self.dimension.set_data([anvil, anvil, gap[0], face, face, gap[0], *ends],
                                [-FACE_RADIUS - 0.6, y - 1, gap[1], -FACE_RADIUS - 0.6, y - 1, gap[1], y, y])
        first = -long if not inside else long
        left = outline([(anvil, y), (anvil + first, y + thin), (anvil + first, y - thin)])
        right = outline([(face, y), (face - first, y + thin), (face - first, y - thin)])
        # beside the dimension line, since a thick part reaches down to it
        place = (anvil - 2.7 if inside else face + 7.2, y - 0.2)
        word = lettering("gap", 1.6)  # outlines: a text artist takes as long as all the rest of the view
        self.arrows.set_path(Path.make_compound_path(left, right, Path(word.vertices + place, word.codes)))

    def png(self, detail=False):
        """The picture as PNG bytes; `detail`: only the enlarged scales."""
        return self.sheet.png((0, 126, 900, 400) if detail else None)

    def text(self):
        """What the scales show, in words, without the reading: the text equivalent of the picture."""
        ins, seen = self.instrument, self.scales
        to_next = self.pitch_mm * (1 - (seen.thimble_line + seen.vernier_line / max(ins.vernier, 1)) / ins.divisions)
        peeping = to_next < LINE_WIDTH / 2 and (seen.thimble_line or seen.vernier_line)
        words = [f"Measuring screw, {ins.span}."]
        if self.work[0] is not None:
            words.append(f"A {'ring' if self.work[1] else 'work piece'} lies between the faces.")
        if seen.below_zero:
            words.append("The thimble stands short of the sleeve's zero line.")
        elif ins.lines_per_main == 2:
            half = "in view" if seen.sub_lines else "only its edge shows" if peeping else "not in view"
            words.append(f"Last whole line in view: {seen.main_lines}. Half line: {half}.")
        else:
            words.append(f"Last main line in view: {seen.main_lines}.")
            if ins.lines_per_main > 1:
                words.append(f"Lines in view beyond it: {seen.sub_lines}.")
        if peeping and (seen.sub_lines or ins.lines_per_main != 2 or seen.below_zero):
            words.append("The edge of the next line shows.")
        if ins.vernier:
            words.append(f"Thimble line at or just below the datum: {seen.thimble_line}. "
                         f"Vernier line that meets a thimble line: {seen.vernier_line}.")
        else:
            words.append(f"Thimble line at the datum: {seen.thimble_line}.")
        return " ".join(words)


def _moved(path, x):
    return Path(path.vertices + (x, 0), path.codes)


@lru_cache(maxsize=6)
def _drawing(instrument):
    return MeasuringScrew(instrument)


def picture(gap, instrument=METRIC, work=None, detail=False, ring=False):
    """A still for a question: (PNG bytes, alternative text that does not state the reading).

    gap, work: in the instrument's unit; a zero error is part of the instrument, and "closed" is its start.

    >>> picture(7.88)[1]
    'Measuring screw, 0 to 25 mm. Last whole line in view: 7. Half line: in view. Thimble line at the datum: 38.'
    """
    drawing = _drawing(instrument)
    drawing.show(gap, work, ring)
    return drawing.png(detail), drawing.text()
