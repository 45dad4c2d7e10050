"""A bolt through a stack, a slotted nut and the pin's hole, seen along the pin: does the hole lie in the slot?

Parts and washers are cut and hatched opposite ways; bolt and nut are whole (ISO 128-3). The view looks along the pin,
so the near slot shows the bolt and its hole. Sizes from DIN 935-1, ISO 7378, ISO 1234 and ISO 7089, to scale.
"""

import numpy as np
from matplotlib.lines import Line2D
from matplotlib.patches import PathPatch
from matplotlib.path import Path

from workbench.drawings.cylinder import outline
from workbench.drawings.dimensions import Dimensions, words
from workbench.drawings.hatching import FALLING, RISING, hatching
from workbench.drawings.sheet import CENTRE_LINE, DIMENSION, INK, NARROW, PAPER, SATIN, SHADE, STEEL, WIDE, Sheet
from workbench.screws.pin_hole import hole
from workbench.screws.slotted_nut import nut
from workbench.screws.split_pin import pin
from workbench.tables import table
from workbench.threads.profile import profile

AXIS, UNDER_HEAD, PX, HALF = 212.0, 130.0, 9.0, 120.0  # px: bolt's axis, under the head, a mm, half a plate
_NONE = outline([(0, 0)])
_BREAK = (np.nan, np.nan)


def _box(left, right, low, high):
    return [(left, low), (right, low), (right, high), (left, high)]


class PinStack:
    """One drawing for all stacks of one thread: `show(...)` moves it."""

    def __init__(self, thread="M12", width_px=900, height_px=400):
        self.thread, self.nut, self.pin_hole = thread, nut(thread), hole(thread)
        self.pin = pin(self.nut["pin_mm"])
        self.head_mm = table("head_heights").row(f"hexagon {thread}")["height_mm"]
        self.outside_mm = table("iso_273_clearance_holes").row(thread)["medium"]
        self.root_mm = profile("metric", self.nut["diameter_mm"], self.nut["pitch_mm"]).screw_minor_mm
        self.sheet = Sheet(width_px, height_px)
        self.view = view = self.sheet.view(0, 0, 900, 400, 1, 0, 0)
        moving = self.sheet.moving
        self.parts = moving(view, PathPatch(_NONE, fc=SATIN, ec=INK, lw=WIDE))
        self.hatch = moving(view, Line2D([], [], color=INK, lw=0.55 * NARROW))
        self.bolt = moving(view, PathPatch(_NONE, fc=PAPER, ec=INK, lw=WIDE))
        self.body = moving(view, PathPatch(_NONE, fc=STEEL, ec=INK, lw=WIDE))
        self.slot = moving(view, PathPatch(_NONE, fc=PAPER, ec=INK, lw=WIDE))
        self.edges = moving(view, Line2D([], [], color=INK, lw=NARROW))
        self.hole = moving(view, Line2D([], [], color=INK, lw=WIDE))
        self.hidden = moving(view, Line2D([], [], color=INK, lw=NARROW, ls=(0, (4, 3))))
        self.shank = moving(view, PathPatch(_NONE, fc=SHADE, ec=INK, lw=NARROW))
        self.sure = moving(view, Line2D([], [], color=INK, lw=NARROW, ls=(0, (2, 2))))
        self.centre = moving(view, Line2D([], [], color=DIMENSION, lw=NARROW, ls=CENTRE_LINE))
        self.sheet.still(view, PathPatch(words("seen along the pin; parts and washers cut", 450, 14), fc=INK, lw=0))
        self.dimensions = Dimensions(self.sheet, view)

    def show(self, parts_mm, washers_mm, washer_mm, centre_mm, length_mm, goes_in, tolerance_mm=0.0):
        """Show a stack: parts and all washers in mm, one washer, the hole's centre from under the head, the bolt's
        length, whether the pin goes in, and by how much the stack may differ each way."""
        self.stack_mm, self.centre_mm, self.goes_in = parts_mm + washers_mm, centre_mm, goes_in
        self.dimensions.clear()
        self._show_parts(parts_mm, washers_mm, washer_mm)
        self._show_bolt(length_mm)
        self._show_hole(parts_mm, washers_mm)
        self._show_sure(tolerance_mm)
        self.dimensions.show()

    def _x(self, mm):
        return UNDER_HEAD + PX * mm

    def _show_parts(self, parts, washers, washer):
        inner = PX * self.outside_mm / 2
        blocks = [(0, parts, HALF)]
        count = round(washers / washer) if washer else 0
        blocks += [(parts + n * washer, parts + (n + 1) * washer, PX * self.nut["diameter_mm"]) for n in range(count)]
        cut, lines = [], []
        for number, (start, end, reach) in enumerate(blocks):
            for side in (-1, 1):
                corners = _box(self._x(start), self._x(end), *sorted((AXIS + side * inner, AXIS + side * reach)))
                cut.append(outline(corners))
                lines.append(hatching(corners, 7, FALLING if number % 2 else RISING))
        self.parts.set_path(Path.make_compound_path(*cut))
        self.hatch.set_data(*np.concatenate(lines, axis=1))

    def _show_bolt(self, length):
        row, radius = self.nut, PX * self.nut["diameter_mm"] / 2
        corner = PX * row["flats_mm"] / np.sqrt(3)
        head_left, end = self._x(-self.head_mm), self._x(length)
        chamfer = PX * (row["diameter_mm"] - self.root_mm) / 2
        tip = [(self._x(0), AXIS - radius), (end - chamfer, AXIS - radius), (end, AXIS - radius + chamfer),
               (end, AXIS + radius - chamfer), (end - chamfer, AXIS + radius), (self._x(0), AXIS + radius)]
        head = outline(_box(head_left, self._x(0), AXIS - corner, AXIS + corner))
        self.bolt.set_path(Path.make_compound_path(outline(tip), head))
        start, top = self._x(self.stack_mm), self._x(self.stack_mm + row["height_mm"])
        crown = row["crown_mm"] or row["flats_mm"]
        shoulder = self._x(self.stack_mm + row["floor_mm"]) if row["crown_mm"] else top
        self.body.set_path(Path.make_compound_path(
            outline(_box(start, shoulder, AXIS - corner, AXIS + corner)),
            *([outline(_box(shoulder, top, AXIS - PX * crown / 2, AXIS + PX * crown / 2))] if row["crown_mm"] else [])))
        floor, half = self._x(self.stack_mm + row["floor_mm"]), PX * row["slot_min_mm"] / 2
        self.slot.set_path(outline(_box(floor, top, AXIS - half, AXIS + half)))
        root = PX * self.root_mm / 2
        lines = [(head_left, AXIS - corner / 2), (self._x(0), AXIS - corner / 2), _BREAK,
                 (head_left, AXIS + corner / 2), (self._x(0), AXIS + corner / 2), _BREAK,
                 (start, AXIS - corner / 2), (shoulder, AXIS - corner / 2), _BREAK,
                 (start, AXIS + corner / 2), (shoulder, AXIS + corner / 2), _BREAK,
                 (top, AXIS - root), (end, AXIS - root), _BREAK, (top, AXIS + root), (end, AXIS + root)]
        self.edges.set_data(*np.array(lines, dtype=float).T)
        self.centre.set_data([head_left - 14, end + 20], [AXIS, AXIS])

    def _show_hole(self, parts, washers):
        row, turn = self.nut, np.linspace(0, 2 * np.pi, 73)
        x, radius = self._x(self.centre_mm), PX * self.pin_hole["hole_mm"] / 2
        circle = np.column_stack([x + radius * np.cos(turn), AXIS + radius * np.sin(turn)])
        floor, top = (self._x(self.stack_mm + row[name]) for name in ("floor_mm", "height_mm"))
        half = PX * row["slot_min_mm"] / 2 + 0.5
        seen = (circle[:, 0] > top) | ((circle[:, 0] > floor) & (np.abs(circle[:, 1] - AXIS) < half))
        for line, shown in ((self.hole, seen), (self.hidden, ~seen)):
            points = np.where(shown[:, None], circle, np.nan)
            line.set_data(*points.T)
        shank = PX * self.pin["shank_max_mm"] / 2
        self.shank.set_path(outline(np.column_stack([x + shank * np.cos(turn), AXIS + shank * np.sin(turn)]))
                            if self.goes_in else _NONE)
        marks = self.dimensions
        below = AXIS - HALF - 24
        marks.across(self._x(0), self._x(parts), below, f"G {parts:g}", AXIS - HALF, AXIS - HALF)
        if washers:
            marks.across(self._x(parts), self._x(parts + washers), below, f"w {washers:g}", AXIS - HALF,
                         AXIS - PX * row["diameter_mm"])
        marks.across(self._x(0), x, AXIS + HALF + 40, f"hole {self.centre_mm:g}", AXIS + HALF, AXIS)
        corner = PX * row["flats_mm"] / np.sqrt(3)
        under = AXIS - corner
        marks.across(self._x(self.stack_mm), floor, AXIS + corner + 16, f"h {row['floor_mm']:g}", AXIS + corner,
                     AXIS + corner)
        marks.across(self._x(self.stack_mm), top, under - 28, f"m {row['height_mm']:g}", under, under)

    def _show_sure(self, tolerance):
        """Dotted lines inside the slot: between them there is slot with every stack."""
        floor, top = (self._x(self.stack_mm + self.nut[name]) for name in ("floor_mm", "height_mm"))
        inside, reach = PX * tolerance, PX * self.nut["slot_min_mm"]
        lines = [(x, AXIS + side * reach) for x in (floor + inside, top - inside) for side in (-1, 1)]
        self.sure.set_data(*np.array([*lines[:2], _BREAK, *lines[2:]], dtype=float).T if tolerance else ([], []))

    def png(self):
        """The picture as PNG bytes."""
        return self.sheet.png()

    def text(self):
        """What is drawn, in words."""
        return (f"A bolt {self.thread} through a stack of {self.stack_mm:g} mm with a slotted nut, seen along the pin. "
                f"The hole lies {self.centre_mm:g} mm from under the head; the slot reaches from "
                f"{self.stack_mm + self.nut['floor_mm']:g} to {self.stack_mm + self.nut['height_mm']:g} mm. "
                f"The pin {'goes in' if self.goes_in else 'does not go in'}.")
