"""Three wires in the grooves of a screw, to true geometry: two on one side, one on the other, faces over them.

Left: the screw between the two measuring faces. Right: one groove, larger, where the wire touches both flanks.
The wires are drawn without the tilt of the lead. Sizes: `workbench.threads.profile`, `workbench.threads.three_wires`.
"""

from math import cos, radians, sin, tan

import numpy as np
from matplotlib.lines import Line2D
from matplotlib.patches import PathPatch
from matplotlib.path import Path

from workbench.drawings.cylinder import outline
from workbench.drawings.dimensions import Dimensions, words
from workbench.drawings.sheet import CENTRE_LINE, DIMENSION, INK, NARROW, SATIN, SHADE, STEEL, WIDE, Sheet
from workbench.drawings.thread_section import edge
from workbench.threads.profile import profile
from workbench.threads.three_wires import best_wire, over_wires, touches_at, usable_wires

AXIS, MIDDLE, TALLEST, WIDEST = 200.0, 250.0, 296.0, 300.0  # px: screw's axis and middle, room for it
GROOVE, LEVEL, PITCH_PX = 690.0, 170.0, 190.0  # px: middle of the large groove, its pitch line, one pitch
SAID = {"acme": "Acme", "whitworth": "Whitworth"}
_NONE = outline([(0, 0)])


def _circle(x, y, radius):
    turn = np.linspace(0, 2 * np.pi, 49)
    return outline(np.column_stack([x + radius * np.cos(turn), y + radius * np.sin(turn)]))


class ThreeWires:
    """One drawing for all forms with sloping flanks: `show(form, major_mm, pitch_mm, wire_mm)` moves it."""

    def __init__(self, width_px=900, height_px=400):
        self.sheet = Sheet(width_px, height_px)
        self.view = view = self.sheet.view(0, 0, 900, 400, 1, 0, 0)

        def face(**style):
            return self.sheet.moving(view, PathPatch(_NONE, **style))

        def line(**style):
            return self.sheet.moving(view, Line2D([], [], **style))

        self.anvils = face(fc=SHADE, ec=INK, lw=WIDE)
        self.screw = face(fc=STEEL, lw=0)
        self.edges = line(color=INK, lw=WIDE)
        self.breaks = line(color=INK, lw=NARROW)
        self.groove = line(color=INK, lw=WIDE)
        self.wires = face(fc=SATIN, ec=INK, lw=WIDE)
        self.sharp = line(color=INK, lw=NARROW, ls=(0, (5, 3)))
        self.centre = line(color=DIMENSION, lw=NARROW, ls=CENTRE_LINE)
        self.contacts = face(fc=INK, lw=0)
        self.sheet.still(view, PathPatch(words("one groove, enlarged", GROOVE, 14), fc=INK, lw=0))
        self.dimensions = Dimensions(self.sheet, view)
        self.show()

    def show(self, form="metric", major_mm=10.0, pitch_mm=1.5, wire_mm=None, starts=1, figures=True):
        """Show wires of a diameter (the best where left out) on a thread; figures=False: letters only.

        Refused: square threads; a wire that lies wholly below the crests or touches no flank.
        """
        one = self.profile = profile(form, major_mm, pitch_mm, starts)
        flanks = one.flank_deg("load"), one.flank_deg("clearance")
        self.wire_mm = float(best_wire(pitch_mm, *flanks)) if wire_mm is None else wire_mm
        self.over_mm = over_wires(one.pitch_diameter_mm, self.wire_mm, pitch_mm, *flanks)
        self.centre_mm = (self.over_mm - self.wire_mm) / 2  # of a wire, from the axis
        load, clear = (radians(angle) for angle in flanks)
        radius, above = self.wire_mm / 2, self.centre_mm - one.pitch_diameter_mm / 2
        # from the middle of a ridge: the centre of the wire, and where it touches the two flanks of the groove
        self.at_mm = pitch_mm / 4 + radius / cos(clear) - above * tan(clear)
        at_load, at_clear = (one.pitch_diameter_mm / 2 + high for high in touches_at(self.wire_mm, pitch_mm, *flanks))
        self.touch_mm = ((self.at_mm - radius * cos(clear), at_clear), (self.at_mm + radius * cos(load), at_load))
        if self.over_mm <= major_mm or max(r for _, r in self.touch_mm) > major_mm / 2:
            wrong = "lies below the crests" if self.over_mm <= major_mm else "touches no flank"
            small, large = usable_wires(pitch_mm, one.screw_crest_mm, *flanks)
            raise ValueError(f"wire {self.wire_mm:.4g} mm {wrong} of this thread; usable are wires between "
                             f"{small:.3f} and {large:.3f} mm")
        self.dimensions.clear()
        self._show_screw(one)
        self._show_groove(one, load, clear)
        self._dimension(one, figures)
        self.dimensions.show()

    def _show_screw(self, one):
        pitch, self.scale = one.pitch_mm, min(TALLEST / self.over_mm, WIDEST / (5 * one.pitch_mm))
        half = max(2, int(WIDEST / self.scale / pitch / 2)) * pitch  # whole pitches to either side
        shift = 0.0 if one.starts % 2 == 0 else 0.5 * pitch  # the other side is half a lead along
        top = edge(one, "screw", -half, half)
        low = edge(one, "screw", shift - half, shift + half) - (shift, 0)
        # ridges of the upper side stand about x = 0, of the lower side about x = shift
        low = edge(one, "screw", -half - shift, half - shift) + (shift, 0)
        top, low = (np.column_stack([MIDDLE + self.scale * side[:, 0], AXIS + way * self.scale * side[:, 1]])
                    for side, way in ((top, 1), (low, -1)))
        self.screw.set_path(outline(np.vstack([top, low[::-1]])))
        self.edges.set_data(*np.vstack([top, [(np.nan, np.nan)], low]).T)
        wave, torn = np.linspace(0, 1, 21), []
        for end in (0, -1):
            (x, high), (_, deep) = top[end], low[end]
            torn += [*zip(x + 3 * np.sin(4 * np.pi * wave), deep + (high - deep) * wave, strict=True), (np.nan, np.nan)]
        self.breaks.set_data(*np.array(torn).T)
        self.ends = top[0, 0], top[-1, 0]
        # one wire above, two below, about the same place along the axis
        below = (-1, 0) if one.starts % 2 else (-1, 1)
        self.places = [(self.at_mm, 1), *((self.at_mm + shift + turn * pitch, -1) for turn in below)]

    def _show_groove(self, one, load, clear):
        large, pitch = PITCH_PX / one.pitch_mm, one.pitch_mm
        self.large = large

        def px(points):
            return (np.asarray(points) - (pitch / 2, one.pitch_diameter_mm / 2)) * large + (GROOVE, LEVEL)

        self.groove_px = px
        line = px(edge(one, "screw", -0.5 * pitch, 1.5 * pitch, 16))
        line = line[(line[:, 0] >= GROOVE - 150) & (line[:, 0] <= GROOVE + 150)]
        self.groove.set_data(*line.T)
        bottom = one.pitch_diameter_mm / 2 - pitch / (tan(load) + tan(clear)) / 2
        sharp = px([(pitch / 4, one.pitch_diameter_mm / 2),
                    (pitch / 4 + (one.pitch_diameter_mm / 2 - bottom) * tan(clear), bottom),
                    (3 * pitch / 4, one.pitch_diameter_mm / 2)])
        self.sharp.set_data(*(sharp if sharp[1, 1] > LEVEL - 100 else sharp[:0]).T)  # where the sheet has room for it
        touch, (x, y) = px(self.touch_mm), px([(self.at_mm, self.centre_mm)])[0]
        radius = self.wire_mm / 2 * large
        circles = [_circle(MIDDLE + self.scale * at, AXIS + way * self.scale * self.centre_mm,
                           self.scale * self.wire_mm / 2) for at, way in self.places]
        self.wires.set_path(Path.make_compound_path(*circles, _circle(x, y, radius)))
        self.contacts.set_path(Path.make_compound_path(*(_circle(*point, 4.0) for point in touch)))
        gap, crosses = (np.nan, np.nan), []
        for at, way in self.places:
            u, v = MIDDLE + self.scale * at, AXIS + way * self.scale * self.centre_mm
            reach = self.scale * self.wire_mm / 2 + 6
            crosses += [(u - reach, v), (u + reach, v), gap, (u, v - reach), (u, v + reach), gap]
        self.centre.set_data(*np.array([
            (self.ends[0] - 16, AXIS), (self.ends[1] + 16, AXIS), gap, *crosses, (x - radius - 10, y),
            (x + radius + 10, y), gap, (x, y - radius - 10), (x, y + radius + 10), gap, (GROOVE - 165, LEVEL),
            (GROOVE + 165, LEVEL)]).T)
        self.wire_px = x, y, radius, touch

    def _dimension(self, one, figures):
        marks, scale = self.dimensions, self.scale

        def sized(symbol, value, places=3):
            return f"{symbol} = {value:.{places}f}" if figures else symbol

        reach = self.over_mm / 2 * scale
        left, right = (MIDDLE + way * max(scale * (self.wire_mm + 1.1 * one.pitch_mm), 60) for way in (-1, 1))
        self.anvils.set_path(Path.make_compound_path(*(
            outline([(left, AXIS + way * reach), (right, AXIS + way * reach), (right, AXIS + way * (reach + 16)),
                     (left, AXIS + way * (reach + 16))]) for way in (1, -1))))
        at = self.ends[1] + 60
        marks.up(AXIS - reach, AXIS + reach, at, sized("M", self.over_mm), right, right)
        half = one.pitch_diameter_mm / 2 * scale
        at = self.ends[0] - 34
        marks.up(AXIS - half, AXIS + half, at, "d₂", self.ends[0] + 8, self.ends[0] + 8)
        x, y, radius, touch = self.wire_px
        slant = radians(40)
        edge_point = (x + radius * cos(slant), y + radius * sin(slant))
        marks.leader(edge_point, (edge_point[0] + 34, edge_point[1] + 34), sized("wire W", self.wire_mm))
        for point in touch:
            marks.line((x, y), tuple(point))
        marks.word("pitch line", GROOVE + 132, LEVEL + 9, "left", 8)
        foot = self.groove_px([(one.pitch_mm / 4, one.pitch_diameter_mm / 2)])[0]
        far = self.groove_px([(3 * one.pitch_mm / 4, one.pitch_diameter_mm / 2)])[0]
        marks.across(foot[0], far[0], LEVEL - 118, "½ P", LEVEL - 2, LEVEL - 2)

    def png(self):
        """The picture as PNG bytes."""
        return self.sheet.png()

    def text(self):
        """What is drawn, in words, without the reading."""
        one = self.profile
        low, high = sorted(r - one.pitch_diameter_mm / 2 for _, r in self.touch_mm)
        near = 0.005 * one.pitch_mm
        where = ("both flanks at the pitch line" if max(-low, high) < near else
                 "both flanks above the pitch line" if low > -near else
                 "both flanks below the pitch line" if high < near else
                 "one flank above the pitch line, the other below it")
        return (f"Screw of {SAID.get(one.form, one.form)} form, {one.major_mm:g} mm, pitch {one.pitch_mm:g} mm, "
                "between two flat faces. One wire lies in a groove above, two lie below; M is dimensioned over the "
                f"wires. Beside it one groove enlarged: the wire touches {where}.")


def picture(form="metric", major_mm=10.0, pitch_mm=1.5, wire_mm=None, starts=1, figures=False):
    """A still for a question: (PNG bytes, alternative text); letters M, W, or values with `figures`."""
    drawing = ThreeWires()
    drawing.show(form, major_mm, pitch_mm, wire_mm, starts, figures)
    return drawing.png(), drawing.text()
