"""How much thread must be engaged so that the bolt breaks before a thread strips.

Lengths in mm, areas in mm2, stresses in MPa, loads in N. The thread that shears first is the weaker of two: that of
the screw shears on the bore of the nut, that of the nut on the crest of the screw. Worst case of the tolerances.
Sources: FED-STD-H28 (shear areas); ISO 965-1 (limits). Metric threads, 60 deg.
"""

import math
from dataclasses import dataclass

from workbench.refusals import numbers, one_number, refuse
from workbench.threads.limits_metric import metric_limits
from workbench.threads.strength import stress_area_mm2

_LEAN = 1 / math.sqrt(3)  # tan 30 deg
SHEAR_SHARE = 0.577  # shear strength over tensile strength of a tough metal (von Mises)


def screw_shear_mm(pitch_mm, nut_minor_high_mm, screw_pitch_low_mm):
    """Shear area of the screw's thread for each mm engaged: pi D1max / P (P/2 + (d2min - D1max) tan 30), in mm2/mm.

    Any unit of length will do. Source: FED-STD-H28.

    >>> round(screw_shear_mm(1.5, 8.676, 8.862), 2)
    15.58
    """
    return _per_length(pitch_mm, nut_minor_high_mm, screw_pitch_low_mm - nut_minor_high_mm)


def nut_shear_mm(pitch_mm, screw_major_low_mm, nut_pitch_high_mm):
    """Shear area of the nut's thread for each mm engaged: pi dmin / P (P/2 + (dmin - D2max) tan 30), in mm2/mm.

    >>> round(nut_shear_mm(1.5, 9.732, 9.206), 2)
    21.48
    """
    return _per_length(pitch_mm, screw_major_low_mm, screw_major_low_mm - nut_pitch_high_mm)


def _per_length(pitch, diameter, overlap):
    numbers("pitch_mm", pitch, above=0)
    thick = pitch / 2 + overlap * _LEAN
    numbers("ridge thickness", thick, above=0, cause="do screw and nut belong together?")
    return math.pi * numbers("diameter", diameter, above=0) / pitch * thick


def shear_strength_mpa(tensile_mpa):
    """Shear strength taken as 0.577 of the tensile strength.

    >>> round(shear_strength_mpa(800))
    462
    """
    return SHEAR_SHARE * numbers("tensile_mpa", tensile_mpa, above=0)


@dataclass(frozen=True)
class Engagement:
    """A metric screw in a nut or tapped part of another material.

    screw_tensile_mpa, part_tensile_mpa: tensile strengths; classes: of the threads. Stress and shear areas follow.

    >>> Engagement(10, 1.5, 800, 250).needed_mm > Engagement(10, 1.5, 800, 500).needed_mm
    True
    """

    diameter_mm: float
    pitch_mm: float
    screw_tensile_mpa: float
    part_tensile_mpa: float
    screw_class: str = "6g"
    part_class: str = "6H"

    def __post_init__(self):
        one_number("screw_tensile_mpa", self.screw_tensile_mpa, above=0)
        one_number("part_tensile_mpa", self.part_tensile_mpa, above=0)

    @property
    def screw_area_mm(self):
        """Least shear area of the screw's thread for each mm engaged."""
        screw = metric_limits(self.diameter_mm, self.pitch_mm, self.screw_class)
        part = metric_limits(self.diameter_mm, self.pitch_mm, self.part_class)
        return screw_shear_mm(self.pitch_mm, part.minor.high, screw.pitch.low)

    @property
    def part_area_mm(self):
        """Least shear area of the nut's thread for each mm engaged."""
        screw = metric_limits(self.diameter_mm, self.pitch_mm, self.screw_class)
        part = metric_limits(self.diameter_mm, self.pitch_mm, self.part_class)
        return nut_shear_mm(self.pitch_mm, screw.major.low, part.pitch.high)

    @property
    def breaking_n(self):
        """Load at which the screw breaks: stress area x tensile strength."""
        return stress_area_mm2(self.diameter_mm, self.pitch_mm) * self.screw_tensile_mpa

    def stripping_n(self, engaged_mm):
        """Load at which the first thread strips, and whose: (N, "screw" or "part"). Refused: under one pitch.

        >>> Engagement(10, 1.5, 800, 250).stripping_n(15)[1]
        'part'
        >>> Engagement(10, 1.5, 800, 250).stripping_n(1)
        Traceback (most recent call last):
        ...
        ValueError: engaged_mm = 1: is shorter than one pitch (1.5 mm); was the length given in turns?
        """
        one_number("engaged_mm", engaged_mm, above=0)
        if engaged_mm < self.pitch_mm:
            refuse("engaged_mm", engaged_mm, f"is shorter than one pitch ({self.pitch_mm:g} mm)",
                   "was the length given in turns?")
        return min((load * engaged_mm, whose) for load, whose in self._per_mm())

    def _per_mm(self):
        """Load for each mm engaged, and whose thread shears at it."""
        return ((self.screw_area_mm * shear_strength_mpa(self.screw_tensile_mpa), "screw"),
                (self.part_area_mm * shear_strength_mpa(self.part_tensile_mpa), "part"))

    @property
    def needed_mm(self):
        """Length engaged at which the screw breaks before a thread strips; full threads, without the chamfer."""
        return max(self.pitch_mm, self.breaking_n / min(load for load, _ in self._per_mm()))
