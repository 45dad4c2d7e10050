"""Holes for screws: drill before tapping with the depth of thread it leaves, and clearance holes.

A percentage of thread means nothing without its basis. Two are in use: the depth that nut and screw share
at most, 5/8 H (1.0825 P on the diameter), and the full depth of the old form, 3/4 H (1.2990 P). The same drill
is 92 % of the one and 77 % of the other.
"""

from dataclasses import dataclass

from workbench.refusals import numbers, one_number, refuse
from workbench.tables import table
from workbench.threads.limits_metric import basic_diameters_mm, metric_limits

_HEIGHT = 3**0.5 / 2  # H / P of a 60 degree thread
# double depth over P, by basis
_BASES = {"5/8 H": 1.25 * _HEIGHT, "3/4 H": 1.5 * _HEIGHT}


def thread_percent(major, pitch, hole, basis):
    """Percentage of thread that a hole leaves: 100 (d - hole) / (k P), k = 1.0825 or 1.2990 by basis.

    major, pitch, hole in one unit, above 0, hole at most the major diameter; numbers or arrays; basis "5/8 H"
    (ISO 68-1, Unified: the shared depth) or "3/4 H" (old American form, many drill charts). 60 degree threads.
    Refused: no basis, a hole over the major diameter. Source: geometry of ISO 68-1.

    >>> round(thread_percent(10, 1.5, 8.5, "5/8 H"), 1), round(thread_percent(10, 1.5, 8.5, "3/4 H"), 1)
    (92.4, 77.0)
    """
    numbers("major", major, above=0)
    numbers("pitch", pitch, above=0)
    numbers("hole", hole, above=0)
    numbers("major - hole", major - hole, at_least=0, cause="a hole larger than the screw is a clearance hole")
    return 100 * (major - hole) / (_double_depth(basis) * pitch)


def hole_for_percent(major, pitch, percent, basis):
    """Hole that leaves a percentage of thread: d - percent/100 k P, the reverse of `thread_percent`.

    percent above 0, at most 100 on 5/8 H; on 3/4 H at most 83.3, where the hole reaches the basic minor diameter.
    Refused beyond: the tap would have to cut a smaller bore than the standard has.

    >>> round(hole_for_percent(10, 1.5, 75, "3/4 H"), 2)
    8.54
    """
    numbers("major", major, above=0)
    numbers("pitch", pitch, above=0)
    double_depth = _double_depth(basis)
    fullest = 100 * _BASES["5/8 H"] / double_depth
    numbers("percent", percent, above=0, at_most=fullest + 1e-9,
            cause=f"on {basis} the basic minor diameter is at {fullest:.1f} percent; which basis was meant?")
    return major - percent / 100 * double_depth * pitch


@dataclass(frozen=True)
class TappedHole:
    """What a drilled hole leaves of a metric thread (mm, percent)."""

    percent_of_shared_depth: float
    percent_of_old_full_depth: float
    depth_mm: float
    below_minor_mm: float
    above_limit_mm: float

    @property
    def within_limits(self):
        """Whether the bore lies in the limits of the minor diameter of the class."""
        return self.below_minor_mm == 0 and self.above_limit_mm == 0


def tapped_hole(diameter_mm, pitch_mm, hole_mm, tolerance_class="6H"):
    """What remains of a metric thread M d x P in a hole: both percentages, depth (d - hole)/2, and the limits.

    below_minor_mm: how far the hole is under D1 low (hard on the tap), above_limit_mm: over D1 high (thread too
    shallow); both 0 inside the limits. hole_mm as drilled: a drill cuts over its size. Refused as in
    `metric_limits` and `thread_percent`. Source: ISO 68-1, ISO 965-1.

    >>> tapped_hole(10, 1.5, 8.5).within_limits
    True
    >>> round(tapped_hole(10, 1.5, 8.8).above_limit_mm, 3)
    0.124
    """
    minor = metric_limits(diameter_mm, pitch_mm, tolerance_class).minor
    return TappedHole(
        thread_percent(diameter_mm, pitch_mm, hole_mm, "5/8 H"),
        thread_percent(diameter_mm, pitch_mm, hole_mm, "3/4 H"),
        (diameter_mm - hole_mm) / 2,
        max(0.0, minor.low - hole_mm),
        max(0.0, hole_mm - minor.high),
    )


def tapping_drill_mm(diameter_mm, pitch_mm):
    """The drill that ISO 2306 gives for a metric thread (about d - P), M1 to M52.

    Refused: a thread that is not in the table. Source: ISO 2306, as stored.

    >>> tapping_drill_mm(12, 1.75)
    10.2
    """
    one_number("diameter_mm", diameter_mm, above=0)
    one_number("pitch_mm", pitch_mm, above=0)
    name = f"M{diameter_mm:g}x{pitch_mm:g}"
    if name not in table("iso_2306_tapping_drills").rows:
        bore = basic_diameters_mm(diameter_mm, pitch_mm)[1]
        refuse("thread", name, "has no drill in ISO 2306 as stored",
               f"take a drill just over D1 = {bore} mm and check it with tapped_hole")
    return table("iso_2306_tapping_drills").row(name)["drill_mm"]


def clearance_hole_mm(diameter_mm, series="medium"):
    """Clearance hole for a screw: series fine, medium or coarse of ISO 273 (H12, H13, H14), M1 to M150.

    Refused: a size that the standard does not list (nothing is interpolated), another series. Source: ISO 273.

    >>> clearance_hole_mm(8, "fine"), clearance_hole_mm(8), clearance_hole_mm(8, "coarse")
    (8.4, 9.0, 10.0)
    """
    if series not in ("fine", "medium", "coarse"):
        refuse("series", series, "must be fine, medium or coarse", "medium is the usual one")
    one_number("diameter_mm", diameter_mm, above=0)
    rows = table("iso_273_clearance_holes").rows
    size = f"M{diameter_mm:g}"
    if size not in rows:
        near = sorted(rows.values(), key=lambda row: abs(row["diameter_mm"] - diameter_mm))[:2]
        refuse("size", size, "is not in ISO 273", "nearest sizes: " + ", ".join(row["size"] for row in near))
    return rows[size][series]


def _double_depth(basis):
    if basis not in _BASES:
        refuse("basis", basis, "must be '5/8 H' (1.0825 P) or '3/4 H' (1.2990 P)",
               "charts differ: say which depth is 100 percent")
    return _BASES[basis]
