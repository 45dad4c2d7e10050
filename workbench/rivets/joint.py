"""Strength of a riveted seam: every way in which one repeating length can fail, and the weakest of them.

A driven rivet fills its hole, so the hole's diameter counts in shear and bearing. Loads in N, lengths in mm, stresses
in MPa. Method of the textbooks of machine design (each failure for itself, friction between the plates left out).
"""

import math
from dataclasses import dataclass

from workbench.refusals import numbers, one_number, refuse, whole

THIN_SHEET = 0.18  # t/D below which tabulated bearing loads no longer hold (MIL-HDBK-5 chapter 8, seen in a reprint)


def _planes(planes):
    return numbers("planes", planes, at_least=1, at_most=2, cause="a lap joint cuts a rivet once, two covers twice")


def shear_n(hole_mm, shear_mpa, planes=1):
    """What one driven rivet carries in shear: planes x pi/4 d^2 tau.

    hole_mm d > 0; shear_mpa tau > 0; planes: 1 in a lap, 2 between two covers (some boiler codes count 1.875).

    >>> round(float(shear_n(4.1, 180)), 1)
    2376.5
    """
    area = math.pi / 4 * numbers("hole_mm", hole_mm, above=0) ** 2
    return _planes(planes) * area * numbers("shear_mpa", shear_mpa, above=0)


def bearing_n(hole_mm, thickness_mm, bearing_mpa):
    """What one rivet may press on its plate: d t sigma; in a lap the thinner sheet governs.

    >>> round(bearing_n(4.1, 1, 500), 9)
    2050.0
    """
    area = numbers("hole_mm", hole_mm, above=0) * numbers("thickness_mm", thickness_mm, above=0)
    return area * numbers("bearing_mpa", bearing_mpa, above=0)


def net_section_n(width_mm, hole_mm, thickness_mm, tension_mpa, holes=1):
    """What the plate carries between its holes: (w - n d) t sigma. Over one pitch w = p and n = 1.

    >>> round(net_section_n(20, 4.1, 1, 400), 9)
    6360.0
    """
    drilled = whole("holes", holes, at_least=0) * numbers("hole_mm", hole_mm, above=0)
    left = numbers("width_mm", width_mm, above=0) - drilled
    numbers("width_mm - holes x hole_mm", left, above=0, cause="the holes touch: take a larger pitch")
    return left * numbers("thickness_mm", thickness_mm, above=0) * numbers("tension_mpa", tension_mpa, above=0)


def tear_out_n(edge_mm, hole_mm, thickness_mm, shear_mpa):
    """What it takes to push one rivet out through the edge: two strips sheared, 2 (e - d/2) t tau.

    edge_mm e: from the hole's centre to the plate's end; shear_mpa: of the plate. Strips counted from the hole's
    edge, the careful way; some books count them from its centre (2 e t tau).

    >>> tear_out_n(8, 4, 1, 250)
    3000.0
    """
    strip = numbers("edge_mm", edge_mm, above=0) - numbers("hole_mm", hole_mm, above=0) / 2
    numbers("edge_mm - hole_mm/2", strip, above=0, cause="the hole breaks the edge: measure to its centre")
    return 2 * strip * numbers("thickness_mm", thickness_mm, above=0) * numbers("shear_mpa", shear_mpa, above=0)


def pull_through_n(head_mm, thickness_mm, shear_mpa):
    """What it takes to pull a protruding head through a sheet: a round plug sheared at the head's rim, pi D t tau.

    An upper limit: a thin sheet dishes and lets go earlier; for work, a tested value counts.

    >>> round(pull_through_n(7, 1, 250), 1)
    5497.8
    """
    rim = math.pi * numbers("head_mm", head_mm, above=0)
    return rim * numbers("thickness_mm", thickness_mm, above=0) * numbers("shear_mpa", shear_mpa, above=0)


def rivets_for_load(load_n, one_n, factor=1.0):
    """How many rivets for a load, unrounded: factor x load / what one carries. Take the next whole number above.

    >>> rivets_for_load(15000, 2050, factor=1.5)
    10.975609756097562
    """
    wanted = numbers("load_n", load_n, above=0) * numbers("factor", factor, at_least=1, cause="it multiplies the load")
    return wanted / numbers("one_n", one_n, above=0)


@dataclass(frozen=True)
class Seam:
    """One repeating length of a riveted seam.

    hole_mm d; thickness_mm t: the plate, in a lap the thinner one; pitch_mm p: of the outer row, the length that
    repeats; rows: rivets in that length, from the row that the plate's pull meets first; shear_mpa of the rivet,
    tension_mpa and bearing_mpa of the plate; planes: 1 lap, 2 butt with two covers, or one figure a row;
    covers_mm: thickness of all covers together (butt); edge_mm with edge_shear_mpa of the plate: counts tear-out too.
    Zig-zag rows: the cut between the rows is not among the failures; see `net_section` for it.
    Refused: holes that touch, sizes not above nought, rows without rivets.

    >>> seam = Seam(4.1, 1.0, 20, (1,), shear_mpa=180, tension_mpa=400, bearing_mpa=500)
    >>> {name: round(float(load)) for name, load in seam.failures().items()}
    {'plate torn at row 1': 6360, 'rivets sheared': 2376, 'plate crushed at the rivets': 2050}
    >>> seam.weakest()[0], round(seam.efficiency(), 5)
    ('plate crushed at the rivets', 0.25625)
    """

    hole_mm: float
    thickness_mm: float
    pitch_mm: float
    rows: tuple
    shear_mpa: float
    tension_mpa: float
    bearing_mpa: float
    planes: float | tuple = 1
    covers_mm: float | None = None
    edge_mm: float | None = None
    edge_shear_mpa: float | None = None

    def __post_init__(self):
        for name in ("hole_mm", "thickness_mm", "pitch_mm", "shear_mpa", "tension_mpa", "bearing_mpa"):
            one_number(name, getattr(self, name), above=0)
        if not isinstance(self.rows, tuple) or not self.rows:
            refuse("rows", self.rows, "must be a tuple of rivets a row", "write (1,) for one row, (1, 1) for two")
        for count in self.rows:
            whole("rows", count)
        if isinstance(self.planes, tuple) and len(self.planes) != len(self.rows):
            refuse("planes", self.planes, f"must be one figure, or {len(self.rows)}: one a row")
        if (self.edge_mm is None) != (self.edge_shear_mpa is None):
            refuse("edge_shear_mpa", self.edge_shear_mpa, "must be given together with edge_mm")
        self.failures()  # what cannot be built is refused at once

    def rivet_loads_n(self):
        """What a rivet of each row carries before it shears or crushes its plate: (shear, bearing) a row."""
        planes = self.planes if isinstance(self.planes, tuple) else (self.planes,) * len(self.rows)
        shown = self.thickness_mm if self.covers_mm is None else min(self.thickness_mm, self.covers_mm)
        bearing = bearing_n(self.hole_mm, shown, self.bearing_mpa)
        return [(shear_n(self.hole_mm, self.shear_mpa, cut), bearing) for cut in planes]

    def failures(self):
        """Name of each failure -> the load in N on one repeating length at which it comes."""
        each = self.rivet_loads_n()
        found, passed_on = {}, 0.0
        for place, (count, one) in enumerate(zip(self.rows, each, strict=True), start=1):
            torn = net_section_n(self.pitch_mm, self.hole_mm, self.thickness_mm, self.tension_mpa, holes=count)
            name = f"plate torn at row {place}" + (", rivets before it give way" if place > 1 else "")
            found[name] = torn + passed_on
            passed_on += count * min(one)
        found["rivets sheared"] = sum(count * shear for count, (shear, _) in zip(self.rows, each, strict=True))
        found["plate crushed at the rivets"] = sum(self.rows) * each[0][1]
        if self.covers_mm is not None:
            found["covers torn at the inner row"] = net_section_n(
                self.pitch_mm, self.hole_mm, self.covers_mm, self.tension_mpa, holes=self.rows[-1])
        if self.edge_mm is not None:
            one = tear_out_n(self.edge_mm, self.hole_mm, self.thickness_mm, self.edge_shear_mpa)
            found["edge torn out"] = self.rows[-1] * one + (sum(self.rows) - self.rows[-1]) * min(each[0])
        return found

    def weakest(self):
        """(name, load in N) of the failure that comes first."""
        return min(self.failures().items(), key=lambda failure: failure[1])

    def efficiency(self):
        """Weakest failure against the plate before it was drilled: min / (p t sigma)."""
        return self.weakest()[1] / (self.pitch_mm * self.thickness_mm * self.tension_mpa)

    def thin_for_bearing(self):
        """Is the sheet so thin (t/D below 0.18) that tabulated bearing loads no longer hold?"""
        return self.thickness_mm / self.hole_mm < THIN_SHEET
