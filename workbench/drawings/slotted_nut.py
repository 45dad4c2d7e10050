"""A slotted nut seen end-on, turning past the hole of the bolt, and the preload on the way.

Left: hexagon, crown, slots and bolt end in true proportion (DIN 935-1); the pin's hole lies hidden across the bolt
(dashed) and stands still while the nut turns. Right: preload over the turn, with the band in which a slot stands at the
hole and the lines of the least, the greatest and the yield preload. Numbers come from `workbench.screws`.
"""

import numpy as np
from matplotlib.lines import Line2D
from matplotlib.patches import PathPatch
from matplotlib.path import Path

from workbench.drawings.cylinder import outline
from workbench.drawings.dimensions import Dimensions, words
from workbench.drawings.sheet import CENTRE_LINE, DIMENSION, INK, NARROW, PAPER, SATIN, SHADE, STEEL, WIDE, Sheet
from workbench.screws.pin_hole import hole
from workbench.screws.slotted_nut import nut, play_deg, step_deg
from workbench.screws.split_pin import pin
from workbench.threads.profile import profile

CENTRE, ACROSS = (190.0, 205.0), 240.0  # px: middle of the nut; its width across flats
ORIGIN, PX_PER_DEG, YIELD_PX = (614.0, 60.0), 3.2, 250.0  # px: turn 0; a degree; the yield preload
TURNS = (-60, 75)
_NONE = outline([(0, 0)])
_BREAK = (np.nan, np.nan)


class SlottedNut:
    """One drawing for all nuts: `show(...)` moves it."""

    def __init__(self, width_px=900, height_px=400):
        self.sheet = Sheet(width_px, height_px)
        self.view = view = self.sheet.view(0, 0, 900, 400, 1, 0, 0)
        moving, still = self.sheet.moving, self.sheet.still
        self.hexagon = moving(view, PathPatch(_NONE, fc=SATIN, ec=INK, lw=WIDE))
        self.crown = moving(view, PathPatch(_NONE, fc=STEEL, ec=INK, lw=WIDE))
        self.slots = moving(view, PathPatch(_NONE, fc=SHADE, lw=0))
        self.sides = moving(view, Line2D([], [], color=INK, lw=WIDE))
        self.bolt = moving(view, PathPatch(_NONE, fc=PAPER, ec=INK, lw=WIDE))
        self.root = moving(view, Line2D([], [], color=INK, lw=NARROW))
        self.hole = moving(view, Line2D([], [], color=INK, lw=NARROW, ls=(0, (6, 4))))
        self.centre = moving(view, Line2D([], [], color=DIMENSION, lw=NARROW, ls=CENTRE_LINE))
        self.meets = moving(view, PathPatch(_NONE, fc=SHADE, lw=0))
        self.window = moving(view, PathPatch(_NONE, fc=SATIN, lw=0))
        self.way = moving(view, Line2D([], [], color=INK, lw=1.3 * WIDE))
        self.limits = moving(view, Line2D([], [], color=INK, lw=NARROW, ls=(0, (6, 3))))
        self.now = moving(view, PathPatch(_NONE, fc=INK, lw=0))
        x0, y0 = ORIGIN
        left, right = (x0 + PX_PER_DEG * turn for turn in TURNS)
        still(view, Line2D([left, right], [y0, y0], color=INK, lw=WIDE))
        still(view, Line2D([x0, x0], [y0, y0 + 1.15 * YIELD_PX], color=INK, lw=WIDE))
        for turn in range(-60, 76, 15):
            x = x0 + PX_PER_DEG * turn
            still(view, Line2D([x, x], [y0, y0 - 5], color=INK, lw=NARROW))
            still(view, PathPatch(words(f"{turn}".replace("-", "−"), x, y0 - 15), fc=INK, lw=0))
        for text, x in (("nut seen from the bolt's end", CENTRE[0]),
                        ("turn of the nut in degrees, + tightens", x0 + 24)):
            still(view, PathPatch(words(text, x, 14), fc=INK, lw=0))
        self.dimensions = Dimensions(self.sheet, view)

    def show(self, thread, gone_past_deg, turn_deg, preload_n, limits_n, slope_n_per_deg):
        """Show a nut turned on by turn_deg from where its last slot had gone past the hole by gone_past_deg.

        limits_n: least, greatest and yield preload (N); slope_n_per_deg: preload for a degree, 0 for a joint that is
        not clamped.
        """
        self.thread, self.past_deg, self.turn_deg, self.preload_n = thread, gone_past_deg, turn_deg, preload_n
        self.row = nut(thread)
        self.play_deg = play_deg(self.row["slot_min_mm"], pin(self.row["pin_mm"])["shank_max_mm"],
                                 self.row["crown_mm"] or self.row["flats_mm"])
        # the slot that stands nearest the hole, and how far it still is from it
        step = step_deg(int(self.row["slots"]))
        self.off_deg = (gone_past_deg + turn_deg + step / 2) % step - step / 2
        self.at_hole = abs(self.off_deg) <= self.play_deg / 2 + 1e-9
        self.dimensions.clear()
        self._show_nut()
        self._show_preload(limits_n, slope_n_per_deg)
        self.dimensions.show()

    def _show_nut(self):
        row, px = self.row, ACROSS / self.row["flats_mm"]
        middle, slots = np.array(CENTRE), int(row["slots"])
        turned = -np.radians(self.past_deg + self.turn_deg)  # tightening is clockwise for the reader
        corners = np.radians(60 * np.arange(6) + 30) + turned
        across = ACROSS / np.sqrt(3)
        self.hexagon.set_path(outline(middle + across * np.column_stack([np.cos(corners), np.sin(corners)])))
        outer = px * (row["crown_mm"] or row["flats_mm"]) / 2
        circle = np.linspace(0, 2 * np.pi, 97)
        rim = np.column_stack([np.cos(circle), np.sin(circle)])
        self.crown.set_path(outline(middle + (outer if row["crown_mm"] else 0.98 * outer) * rim))
        half, bolt = px * row["slot_min_mm"] / 2, px * row["diameter_mm"] / 2
        gaps, sides = [], []
        for slot in range(slots):
            angle = turned + 2 * np.pi * slot / slots
            along, side = np.array([np.cos(angle), np.sin(angle)]), np.array([-np.sin(angle), np.cos(angle)])
            reach = np.sqrt(outer**2 - half**2) + 1.5  # open at the rim
            corners = [middle + r * along + s * side for r, s in (
                (0.9 * bolt, -half), (reach, -half), (reach, half), (0.9 * bolt, half))]
            gaps.append(outline(corners))
            sides += [*corners[:2], _BREAK, *corners[2:], _BREAK]
        self.slots.set_path(Path.make_compound_path(*gaps))
        self.sides.set_data(*np.array(sides, dtype=float).T)
        self.bolt.set_path(outline(middle + bolt * rim))
        root = px * profile("metric", row["diameter_mm"], row["pitch_mm"]).screw_minor_mm / 2
        arc = np.radians(np.linspace(80, 350, 90))  # three quarters of a circle: a thread seen end-on (ISO 6410)
        self.root.set_data(*(middle + root * np.column_stack([np.cos(arc), np.sin(arc)])).T)
        width = px * hole(self.thread)["hole_mm"] / 2
        end = np.sqrt(bolt**2 - width**2)
        self.hole.set_data(*np.array([middle + (-end, width), middle + (end, width), _BREAK,
                                      middle + (-end, -width), middle + (end, -width)]).T)
        over = across + 14
        self.centre.set_data(*np.array([middle - (over, 0), middle + (over, 0), _BREAK,
                                        middle - (0, over), middle + (0, over)]).T)
        if abs(self.off_deg) > 0.5:  # from the hole to the slot
            start, end = sorted((0.0, -self.off_deg))
            self.dimensions.angle(*middle, over - 6, start, end, f"{abs(self.off_deg):g}°", (22, 0))
        else:
            self.dimensions.word("at the hole", middle[0] + over + 4, middle[1] + 12, "left")

    def _show_preload(self, limits_n, slope):
        x0, y0 = ORIGIN
        least, greatest, most = limits_n
        scale = YIELD_PX / most

        def at(turn, force):
            return x0 + PX_PER_DEG * turn, y0 + scale * force

        step = step_deg(int(self.row["slots"]))
        bands = []
        for number in range(-2, 3):
            turn = number * step - self.past_deg
            if TURNS[0] <= turn <= TURNS[1]:
                half = self.play_deg / 2
                bands.append(outline([at(turn - half, 0), at(turn + half, 0), at(turn + half, 1.1 * most),
                                      at(turn - half, 1.1 * most)]))
                self.dimensions.word("slot", *np.add(at(turn, 1.1 * most), (0, 10)))
        self.meets.set_path(Path.make_compound_path(*bands) if bands else _NONE)
        marks = self.dimensions
        if slope:
            end = (most - least) / slope
            self.window.set_path(outline([at(0, least), at((greatest - least) / slope, greatest),
                                          at((greatest - least) / slope, 0), at(0, 0)]))
            turns = min(end, TURNS[1])
            self.way.set_data(*np.array([at(0, least), at(turns, least + slope * turns)]).T)
            lines = []
            for force, name in ((least, "least"), (greatest, "greatest"), (most, "yield")):
                lines += [at(0, force), at(TURNS[1], force), _BREAK]
                marks.word(f"{name} {force / 1000:.1f} kN", at(TURNS[1], 0)[0] - 4, at(0, force)[1] + 9, "right", 8.5)
            self.limits.set_data(*np.array(lines).T)
        else:
            self.window.set_path(_NONE)
            self.way.set_data(*np.array([at(TURNS[0], 0), at(0, 0)]).T)
            self.limits.set_data([], [])
            marks.word("snug at 0°, then eased", at(TURNS[1], 0)[0] - 4, y0 + 20, "right")
        x, y = at(self.turn_deg, self.preload_n)
        turn = np.linspace(0, 2 * np.pi, 25)
        self.now.set_path(outline(np.column_stack([x + 5 * np.cos(turn), y + 5 * np.sin(turn)])))
        marks.line((x, y0), (x, y))

    def png(self):
        """The picture as PNG bytes."""
        return self.sheet.png()

    def text(self):
        """What is drawn, in words."""
        stands = "A slot stands at the hole." if self.at_hole else (
            f"The nearest slot is {abs(self.off_deg):g} degrees {'past' if self.off_deg > 0 else 'short of'} the hole.")
        return (f"A slotted nut {self.thread} seen from the bolt's end, turned by {self.turn_deg:g} degrees; the pin's "
                f"hole lies across the bolt. {stands} Beside it the preload over the turn: "
                f"{self.preload_n / 1000:.1f} kN now.")
