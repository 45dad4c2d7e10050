"""Shapes of thread forms: how the outline of a form runs. A new form is one row of the table `thread_forms`,
and, where no shape here serves it, one more class with the decorator `shape`.
"""

import math
from fractions import Fraction

from workbench.refusals import refuse
from workbench.tables import table
from workbench.threads.outline import Corner
from workbench.threads.profile import Profile, shape

_INCH_MM = table("definitions").row("inch")["value"]


def _each(function, value):
    """function of a number, or of each number of an array."""
    if getattr(value, "shape", ()) == ():
        return function(value)
    import numpy

    return numpy.array([function(one) for one in value.flat]).reshape(value.shape)


def trapezoidal_row(pitch_mm):
    """The row of the table `trapezoidal_clearances` for a pitch; refused where ISO 2901 gives none.

    >>> trapezoidal_row(4)["crest_clearance_mm"]
    0.25
    """
    rows = table("trapezoidal_clearances").rows
    found = rows.get(f"{pitch_mm:g}")
    if found is None:
        near = min(rows.values(), key=lambda row: abs(row["pitch_mm"] - pitch_mm))
        refuse("pitch_mm", pitch_mm, "is no pitch of ISO 2901",
               f"nearest is {near['pitch']} mm; with several starts give the pitch, not the lead")
    return found


def _acme_clearance_mm(pitch_mm):
    """0.010 in on the radius from 0.1 in pitch (10 threads an inch and coarser), 0.005 in below (ASME B1.5)."""
    return (0.010 if pitch_mm > _INCH_MM / 10 - 1e-6 else 0.005) * _INCH_MM


_CLEARANCES = {
    "none": lambda pitch_mm: 0.0,
    "iso 2901": lambda pitch_mm: trapezoidal_row(pitch_mm)["crest_clearance_mm"],
    "asme b1.5": _acme_clearance_mm,
}


@shape("flanked")
class Flanked(Profile):
    """Two straight flanks; crests and roots flat, rounded by one arc that touches both flanks, or filleted.

    H = P / (tan load + tan clearance) is the height of the sharp triangle; the pitch line halves it.

    >>> from workbench.threads.profile import profile
    >>> tr = profile("trapezoidal", 20, 4)
    >>> tr.pitch_diameter_mm, tr.screw_minor_mm, tr.nut_major_mm, tr.nut_minor_mm
    (18.0, 15.5, 20.5, 16.0)
    """

    @property
    def load_flank_deg(self):
        """Angle of the flank that carries the thrust, against a plane across the axis."""
        return self.row["load_flank_deg"]

    @property
    def clearance_flank_deg(self):
        """Angle of the other flank."""
        return self.row["clearance_flank_deg"]

    @property
    def thread_angle_deg(self):
        """The angle between the two flanks."""
        return self.load_flank_deg + self.clearance_flank_deg

    @property
    def _slope(self):
        return sum(math.tan(math.radians(angle)) for angle in (self.load_flank_deg, self.clearance_flank_deg))

    @property
    def triangle_mm(self):
        """H: height of the sharp triangle; infinite where the flanks stand square."""
        return self.pitch_mm / self._slope if self._slope else math.inf

    def _height(self, column):
        part = float(Fraction(self.row[column]))
        return part * (self.triangle_mm if self.row["measure"] == "H" else self.pitch_mm)

    @property
    def crest_clearance_mm(self):
        """a_c: gap between the crest of one and the root of the other, on the radius."""
        return _each(_CLEARANCES[self.row["clearance"]], self.pitch_mm)

    @property
    def screw_crest_mm(self):
        """Height of the crest of the screw above the pitch line."""
        return self._height("screw_crest")

    @property
    def screw_root_mm(self):
        """Depth of the root of the screw below the pitch line."""
        return self._height("screw_root") + self.crest_clearance_mm

    @property
    def nut_root_mm(self):
        """Height of the root of the nut above the pitch line."""
        return self._height("nut_root") + self.crest_clearance_mm

    @property
    def nut_crest_mm(self):
        """Depth of the crest of the nut below the pitch line."""
        return self._height("nut_crest")

    def ridge_width_mm(self, radius_mm, of="screw"):
        """Width of the ridge of screw or nut along the axis at a distance from the axis, between its flanks."""
        out = (radius_mm - self.pitch_diameter_mm / 2) * self._slope
        return self.pitch_mm / 2 + (out if of == "nut" else -out)

    def _round_mm(self, height_mm):
        """Radius of the arc that touches both flanks and reaches this height from the pitch line."""
        half = math.radians(self.thread_angle_deg) / 2
        tilt = math.radians(self.clearance_flank_deg - self.load_flank_deg) / 2
        return (self.triangle_mm / 2 - height_mm) / (math.cos(tilt) / math.sin(half) - 1)

    @property
    def root_radius_mm(self):
        """Radius in the root of the screw: one arc, or the corner radius; 0 where the corners are sharp."""
        end = self.row["screw_root_end"]
        if end == "round":
            return self._round_mm(self.screw_root_mm)
        return self._fillet_mm if end == "filleted" else 0.0

    @property
    def _fillet_mm(self):
        """Radius of the two corners of a filleted root."""
        if self.row["root_fillet"] == "by pitch":
            return _each(lambda pitch_mm: trapezoidal_row(pitch_mm)["root_radius_max_mm"], self.pitch_mm)
        return self._height("root_fillet")

    @property
    def crest_flat_mm(self):
        """Width of the flat crest of the screw."""
        flat = self.ridge_width_mm(self.major_mm / 2)
        return 0.0 if self.row["screw_crest_end"] == "round" else flat

    @property
    def groove_area_mm2(self):
        """Area of one groove of the screw below the major diameter, in the section through the axis.

        Flat root: trapezium (filleted: less two corners); round root: triangle less the tip below the arc;
        round crest: plus what the arc takes off the crest.
        """
        half = math.radians(self.thread_angle_deg) / 2
        depth = self.screw_depth_mm
        top = self.pitch_mm / 2 + self.screw_crest_mm * self._slope
        root_end, crest_end = self.row["screw_root_end"], self.row["screw_crest_end"]
        if root_end == "round":
            area = top**2 / (2 * self._slope) - _tip_area(self.root_radius_mm, half)
        else:
            area = depth * (top - depth * self._slope / 2)
            for angle in (self.load_flank_deg, self.clearance_flank_deg) if root_end == "filleted" else ():
                area = area - _tip_area(self.root_radius_mm, math.radians(90 + angle) / 2)
        if crest_end == "round":  # above the arc lies the corner of the sharp ridge, cut at the major diameter
            peak = (self.pitch_mm - top) ** 2 / (2 * self._slope)
            area = area + _tip_area(self._round_mm(self.screw_crest_mm), half) - peak
        return area

    def screw_corners(self):
        """Corners of the screw's ridge in the order of x, radii with them."""
        middle = self.pitch_diameter_mm / 2
        ends = ((self.screw_crest_mm, "screw_crest_end", 1), (self.screw_root_mm, "screw_root_end", -1))
        return self._corners(middle, ends, outward=True)

    def nut_corners(self):
        """Corners of the nut's outline, its groove about x = 0 where the ridge of the screw sits."""
        middle = self.pitch_diameter_mm / 2
        ends = ((self.nut_root_mm, "nut_root_end", 1), (self.nut_crest_mm, "nut_crest_end", -1))
        return self._corners(middle, ends, outward=False)

    def _corners(self, middle, ends, outward):
        load, clear = (math.tan(math.radians(a)) for a in (self.load_flank_deg, self.clearance_flank_deg))
        quarter, corners = self.pitch_mm / 4, []
        for height, column, side in ends:
            end = self.row[column]
            if end == "round":
                # where the flanks would meet: on the ridge's side above, in the next groove below
                sharp = self.triangle_mm / 2
                x = -quarter + sharp * load if side > 0 else quarter + sharp * clear
                corners.append(Corner(x, middle + side * sharp, self._round_mm(height)))
                continue
            radius = self._fillet_mm if end == "filleted" else 0.0
            level = middle + side * height
            if side > 0:
                places = (-quarter + height * load, quarter - height * clear)
            else:
                places = (quarter + height * clear, 3 * quarter - height * load)
            corners += [Corner(x, level, radius) for x in places]
        return tuple(corners)


def _tip_area(radius_mm, half):
    """Area between a corner of half angle `half` and the arc that rounds it: R^2 (cot half - (pi/2 - half))."""
    return radius_mm**2 * (1 / math.tan(half) - (math.pi / 2 - half))
