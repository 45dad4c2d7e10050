"""Holes for *solid* rivets: they are filled by the swelling shank, so they are close. Blind rivets have their own.

Inch sizes: number and letter drills. Metric sizes: hole d7 of DIN 660 (H12). For 4 mm the solid rivet's hole is 4.2 mm,
a blind rivet's 4.1 mm: the tables must not be mixed. Older manuals name other drills; all are given with their source.
"""

from dataclasses import dataclass

from workbench.refusals import one_number, refuse
from workbench.rivets.size import INCH_MM
from workbench.tables import table

SOURCES = {"today": "drill", "strength table": "drill_strength", "older manual": "drill_older"}


@dataclass(frozen=True)
class Hole:
    """A hole for a solid rivet: shank and hole in mm, the drill's name."""

    size: str
    shank_mm: float
    hole_mm: float
    drill: str

    @property
    def clearance_mm(self):
        """Hole less shank, on the diameter."""
        return self.hole_mm - self.shank_mm


def metric_hole(size):
    """The hole of a metric solid rivet (DIN 660, d7).

    >>> metric_hole("4").hole_mm
    4.2
    """
    row = table("rivets_metric").row(size)
    return Hole(size, row["diameter_mm"], row["hole_mm"], f"{row['hole_mm']:g} mm")


def inch_hole(size, source="today"):
    """The hole of an inch solid rivet by the drill that a source names: "today", "strength table", "older manual".

    >>> inch_hole("1/8").drill, round(inch_hole("1/8").hole_mm, 3), inch_hole("5/32", "older manual").drill
    ('30', 3.264, '22')
    """
    if source not in SOURCES:
        refuse("source", source, "must be one of " + ", ".join(SOURCES), "documents name different drills")
    row = table("rivet_sizes_inch").row(size)
    drill = row[SOURCES[source]]
    across = table("number_drills").row(drill)["diameter_in"]
    return Hole(size, row["diameter_in"] * INCH_MM, across * INCH_MM, drill)


def hole(size, system="metric"):
    """The hole of a size in either system, by today's drill.

    >>> hole("3/16", "inch").drill, hole("3").drill
    ('11', '3.1 mm')
    """
    if system == "metric":
        return metric_hole(size)
    if system == "inch":
        return inch_hole(size)
    refuse("system", system, "must be 'metric' or 'inch'")


def judge_hole(measured_mm, size, system="metric"):
    """A drilled hole: "small" (the rivet will not enter), "good", "large" (up to the next size's hole) or "spoilt".

    Good: over the shank and at most 0.12 mm over the named drill up to 3 mm, 0.15 mm above (about H13; common practice,
    no source). Between that and the next size's hole it is "large": drill it out for the next size if permitted.

    >>> judge_hole(4.2, "4"), judge_hole(4.5, "4"), judge_hole(3.9, "4"), judge_hole(5.6, "4")
    ('good', 'large', 'small', 'spoilt')
    """
    from workbench.rivets.size import next_size

    named = hole(size, system)
    one_number("measured_mm", measured_mm, above=0, at_most=30, cause="is it in mm?")
    if measured_mm <= named.shank_mm:
        return "small"
    if measured_mm <= named.hole_mm + (0.12 if named.hole_mm <= 3 else 0.15) + 1e-9:
        return "good"
    return "large" if measured_mm <= hole(next_size(size, system), system).hole_mm else "spoilt"
