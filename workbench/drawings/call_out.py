"""A screw as its call-out describes it, in the simplified convention of ISO 6410-1, dimensioned after ISO 129.

Crests are wide lines, roots narrow lines, the end of the full thread is a wide line across; in the end view the root
is three quarters of a narrow circle. A call-out of a nut shows a tapped hole in section. Hexagon head: height 0.7 d
and 2 d over corners, common drawing practice, no source. Dimensions in brackets are not in the call-out.
"""

from dataclasses import replace

import numpy as np
from matplotlib.lines import Line2D
from matplotlib.patches import PathPatch
from matplotlib.path import Path

from workbench.drawings.cylinder import outline
from workbench.drawings.dimensions import Dimensions
from workbench.drawings.hatching import hatching
from workbench.drawings.sheet import CENTRE_LINE, DIMENSION, INK, NARROW, STEEL, WIDE, Sheet
from workbench.threads.designation import parse, write
from workbench.threads.profile import profile

AXIS, UNDER_HEAD, LONGEST, THICKEST, END_VIEW = 214.0, 150.0, 440.0, 102.0, 778.0  # px
FASTENS = ("metric", "MJ", "unified", "UNJ")
HEAD, CORNERS = 0.7, 2.0  # of d
GAP = (np.nan, np.nan)
_NONE = outline([(0, 0)])


def _mirrored(corners):
    """A closed outline from its upper half, left to right."""
    corners = np.asarray(corners, dtype=float)
    return np.vstack([corners, corners[::-1] * (1, -1)])


def _circle(radius, start_deg=0.0, end_deg=360.0):
    turn = np.radians(np.linspace(start_deg, end_deg, 73))
    return np.column_stack([END_VIEW + radius * np.cos(turn), AXIS + radius * np.sin(turn)])


class CallOut:
    """One drawing for all call-outs: `show(designation)` moves it."""

    def __init__(self, width_px=900, height_px=400):
        self.sheet = Sheet(width_px, height_px)
        self.view = view = self.sheet.view(0, 0, 900, 400, 1, 0, 0)
        self.solid = self.sheet.moving(view, PathPatch(_NONE, fc=STEEL, lw=0))
        self.hatch = self.sheet.moving(view, Line2D([], [], color=INK, lw=0.55 * NARROW))
        self.wide = self.sheet.moving(view, Line2D([], [], color=INK, lw=WIDE, solid_capstyle="butt"))
        self.narrow = self.sheet.moving(view, Line2D([], [], color=INK, lw=NARROW))
        self.centre = self.sheet.moving(view, Line2D([], [], color=DIMENSION, lw=NARROW, ls=CENTRE_LINE))
        self.dimensions = Dimensions(self.sheet, view)
        self.show(parse("M10x40"))

    def show(self, designation, thread_mm=None, figures=True):
        """Show a `Designation`; thread_mm: thread length where the call-out gives the screw's length alone.

        figures=False: letters in place of values.
        """
        one = self.designation = designation
        self.form = profile(one.form, one.major_mm, one.pitch_mm, one.starts)
        self.figures = figures
        self.nut = bool(one.nut_class) and not one.screw_class and one.form != "acme" and one.length_mm is None
        self.dimensions.clear()
        self._solid, self._wide, self._narrow, self._hatch = [], [], [], [GAP]
        if self.nut:
            self._show_hole(one)
        else:
            self._show_screw(one, thread_mm)
        self.solid.set_path(Path.make_compound_path(*self._solid))
        for artist, points in ((self.wide, self._wide), (self.narrow, self._narrow), (self.hatch, self._hatch)):
            artist.set_data(*np.array(points, dtype=float).T)
        self.dimensions.show()

    def _scale(self, long_mm):
        self.scale = min(THICKEST / self.designation.major_mm, LONGEST / long_mm)

    def _stroke(self, kind, *points):
        kind += [*points, GAP]

    def _both(self, kind, *points):
        """A line above and below the axis; points (px, px from the axis)."""
        for side in (1, -1):
            self._stroke(kind, *[(x, AXIS + side * y) for x, y in points])

    def _face(self, corners):
        """A filled face with a wide outline."""
        self._solid.append(outline(corners))
        self._stroke(self._wide, *corners, corners[0])

    def _words(self):
        one = replace(self.designation, length_mm=None, thread_length_mm=None, full_thread=False, property_class="")
        return write(one) if self.figures else "d"

    def _show_screw(self, one, thread_mm):
        length, threaded = one.length_mm, one.thread_length_mm
        self.bracketed = length is not None and threaded is None and not one.full_thread and thread_mm is not None
        threaded = thread_mm if self.bracketed else threaded
        self.headed = length is not None and one.form in FASTENS
        to_head = one.full_thread or threaded is None or length is not None and threaded >= length
        self.bracketed = self.bracketed and not to_head
        self._scale(max(length or (threaded or 0) + 2.2 * one.major_mm, 0.5 * one.major_mm))
        scale, crest, root = self.scale, one.major_mm / 2 * self.scale, self.form.screw_minor_mm / 2 * self.scale
        left = UNDER_HEAD if self.headed else UNDER_HEAD + 60
        right = left + (length if length is not None else (threaded or 0) + 2 * one.major_mm) * scale
        chamfer = min(crest - root, (right - left) / 3)
        if to_head:  # a thread cannot be cut right up to the head: common practice, 2 pitches
            start = left + 2 * one.pitch_mm * scale if self.headed else left
        else:
            start = right - threaded * scale
        start = min(max(start, left), right - chamfer)
        shank = [(left, crest), (right - chamfer, crest), (right, crest - chamfer)]
        if not self.headed and length is not None:
            shank[:1] = [(left, crest - chamfer), (left + chamfer, crest)]
        if length is None:
            self._broken_off(shank)
        else:
            self._face(_mirrored(shank) + (0, AXIS))
        self._both(self._wide, (right - chamfer, crest), (right - chamfer, 0))
        if not to_head or self.headed:
            self._both(self._wide, (start, crest), (start, 0))
        elif length is not None:
            self._both(self._wide, (left + chamfer, crest), (left + chamfer, 0))
        self._both(self._narrow, (start, root), (right, root))
        if self.headed:
            self._show_head(left, one.major_mm * scale)
        self.start, self.right, self.left, self.crest, self.root = start, right, left, crest, root
        low = CORNERS / 2 * one.major_mm * scale if self.headed else crest
        self._end_view(one.major_mm / 2 * scale, root, low if self.headed else None)
        far = left - HEAD * one.major_mm * scale if self.headed else left
        self.centre.set_data([far - 14, right + 14, np.nan, END_VIEW - low - 12, END_VIEW + low + 12, np.nan,
                              END_VIEW, END_VIEW], [AXIS, AXIS, np.nan, AXIS, AXIS, np.nan, AXIS - low - 12,
                                                    AXIS + low + 12])
        self._dimension_screw(one, length, threaded, to_head, low)

    def _broken_off(self, shank):
        """A bar whose left end is not shown: a narrow break line in place of an edge."""
        (left, crest), wave = shank[0], np.linspace(-1, 1, 41)
        torn = np.column_stack([left + 3 * np.sin(2 * np.pi * wave), AXIS + crest * wave])
        bar = _mirrored(shank)[1:-1] + (0, AXIS)
        self._solid.append(outline(np.vstack([torn, bar])))
        self._stroke(self._wide, torn[-1], *bar, torn[0])
        self._stroke(self._narrow, *torn)

    def _show_head(self, left, d):
        """Three faces of a hexagon: a straight top as wide as the flats, 30° to the corners, an arc on each face."""
        far, flats = left - HEAD * d, 3**0.5 / 2 * d
        bite = (d - flats) * np.tan(np.radians(30))
        bow = np.linspace(-1, 1, 9)
        middle = [(far + bite * t**2, AXIS + d / 2 * t) for t in bow]
        upper = [(far + bite * t**2, AXIS + 0.75 * d + d / 4 * t) for t in bow]
        lower = [(x, 2 * AXIS - y) for x, y in upper]
        rim = [(far + bite, AXIS + d), (far, AXIS + flats), (far, AXIS - flats), (far + bite, AXIS - d)]
        self._face([(left, AXIS - d), (left, AXIS + d), *rim])
        for arc in (upper, middle, lower):
            self._stroke(self._wide, *arc)
        for edge in (d / 2, -d / 2):
            self._stroke(self._wide, (far + bite, AXIS + edge), (left, AXIS + edge))
        self.head = (far, left, d)

    def _end_view(self, crest, root, corners):
        if corners:
            turn = np.radians(30 + 60 * np.arange(6))
            self._face(np.column_stack([END_VIEW + corners * np.cos(turn), AXIS + corners * np.sin(turn)]))
        wide, narrow = (crest, root) if not self.nut else (root, crest)
        self._stroke(self._wide, *_circle(wide))
        self._stroke(self._narrow, *_circle(narrow, 95, 355))  # open in the upper right quarter
        if not corners and not self.nut:
            self._solid.append(outline(_circle(crest)))

    def _dimension_screw(self, one, length, threaded, to_head, low):
        marks = self.dimensions
        self._dimension_thread(self.right, self.crest, self.right + 40)
        at = AXIS - self.crest - 30
        if threaded is not None and not to_head:
            text = f"{threaded:g}" if self.figures else "b"
            marks.across(self.start, self.right, at, f"({text})" if self.bracketed else text, AXIS - self.crest,
                         AXIS - self.crest)
            at -= 32
        elif one.full_thread:
            x = (self.start + self.right) / 2
            marks.leader((x, AXIS - self.crest), (x + 16, AXIS - self.crest - 34), "full thread")
        if length is not None:
            at = min(at, AXIS - low - 24, AXIS - self.crest - 62)
            self._lowest = at
            marks.across(self.left, self.right, at, f"{length:g}" if self.figures else "l", AXIS - low,
                         AXIS - self.crest)

    def _dimension_thread(self, x, reach, at):
        """The diameter over the crests; its words stand on a shelf above the part."""
        marks, text = self.dimensions, self._words()
        shelf = max(AXIS + reach + 34, AXIS + 60)
        for y in (AXIS + reach, AXIS - reach):
            marks.line((x, y), (at + 5, y))
        side = 1 if self.nut else -1
        if reach > 16:
            marks.line((at, AXIS - reach), (at, shelf), (at + side * 10, shelf))
            marks.arrow(at, AXIS + reach, np.pi / 2)
            marks.arrow(at, AXIS - reach, -np.pi / 2)
        else:
            marks.line((at, AXIS - reach - 24), (at, shelf), (at + side * 10, shelf))
            marks.arrow(at, AXIS + reach, -np.pi / 2)
            marks.arrow(at, AXIS - reach, np.pi / 2)
        marks.word(text, at + 4 * side, shelf + 10, "left" if self.nut else "right", height=11)

    def _show_hole(self, one):
        """A tapped hole in section, and its view from the front."""
        d, bore = one.major_mm, self.form.nut_minor_mm
        self.bracketed = self.headed = False
        self._scale(2.4 * d)
        scale = self.scale
        left, right, half = 260.0, 260.0 + 1.6 * d * scale, 1.05 * d * scale
        crest, root = d / 2 * scale, bore / 2 * scale
        for side in (1, -1):
            face = [(left, AXIS + side * root), (right, AXIS + side * root), (right, AXIS + side * half),
                    (left, AXIS + side * half)]
            self._stroke(self._wide, *face, face[0])
            x, y = hatching(face, 8)
            self._hatch += list(zip(x, y, strict=True))
            self._stroke(self._narrow, (left, AXIS + side * crest), (right, AXIS + side * crest))
        for x in (left, right):  # the edges of the bore behind the cut
            self._stroke(self._wide, (x, AXIS - root), (x, AXIS + root))
        self.start, self.right, self.left, self.crest, self.root = left, right, left, crest, root
        self._solid.append(_NONE)
        self._end_view(crest, root, None)
        self._stroke(self._wide, *_circle(half))
        self.centre.set_data([left - 14, right + 14, np.nan, END_VIEW - half - 12, END_VIEW + half + 12, np.nan,
                              END_VIEW, END_VIEW], [AXIS, AXIS, np.nan, AXIS, AXIS, np.nan, AXIS - half - 12,
                                                    AXIS + half + 12])
        self._dimension_thread(right, crest, right + 50)

    def png(self, trimmed=False):
        """The picture as PNG bytes; trimmed: a bolt without the empty sheet above and below it."""
        if not trimmed or not self.headed:
            return self.sheet.png()
        far = CORNERS / 2 * self.designation.major_mm * self.scale
        high = max(AXIS + far + 18, AXIS + self.crest + 60, AXIS + 86)
        return self.sheet.png((0, 400 - high, 900, 400 - min(self._lowest - 14, AXIS - far - 18)))

    def text(self):
        """What is drawn, in words; sizes only where the drawing carries them."""
        one = self.designation
        if self.nut:
            part = "Tapped hole in section, and from the front"
        elif self.headed:
            part = "Hexagon bolt from the side, and from its end"
        elif one.length_mm is None:
            part = "End of a threaded bar, broken off to the left, and from its end"
        else:
            part = "Threaded bar from the side, and from its end"
        wide = "bore" if self.nut else "crests"
        said = ", ".join(self.dimensions.said) if self.figures else "letters only"
        return (f"{part}, in the simplified manner: wide lines for the {wide}, narrow lines for the "
                f"{'major diameter' if self.nut else 'roots'} of the thread. Dimensions: {said}.")


def picture(call_out, thread_mm=None, figures=True):
    """A still for a question: (PNG bytes, alternative text); figures=False has letters d, l, b in place of values."""
    drawing = CallOut()
    drawing.show(parse(call_out), thread_mm, figures)
    return drawing.png(trimmed=True), drawing.text()
