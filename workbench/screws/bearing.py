"""Pressure under head and nut, and what a washer does for a soft part.

Forces in N, lengths in mm, pressure in MPa. Sources: ISO 7089, ISO 7093-1, ISO 4014, ISO 4032 (sizes); VDI 2230
(limits, spreading through a washer).
"""

import math

from workbench.refusals import numbers, one_number, refuse
from workbench.tables import table

_SPREAD = 1.6  # a washer of thickness h widens the face by 1.6 h (VDI 2230, from memory)


def hexagon(diameter_mm):
    """Sizes of hexagon head and nut M3 to M39: across_flats_mm s, face_mm dw, nut_height_mm m.

    >>> hexagon(10)["across_flats_mm"], hexagon(10)["nut_height_mm"]
    (16.0, 8.4)
    """
    one_number("diameter_mm", diameter_mm, above=0)
    return table("hexagon_sizes").row(f"M{diameter_mm:g}")


def washer(diameter_mm, series="normal"):
    """Sizes of a plain washer: hole_mm, outer_mm, thickness_mm; series "normal" (M1.6 to M39) or "large" (M3 to M36).

    >>> washer(10)["outer_mm"], washer(10, "large")["outer_mm"]
    (20.0, 30.0)
    """
    one_number("diameter_mm", diameter_mm, above=0)
    if series not in ("normal", "large"):
        refuse("series", series, "must be normal or large")
    return table("iso_7089_washers").row(f"{series} M{diameter_mm:g}")


def face_pressure_mpa(force_n, face_mm, hole_mm):
    """Pressure of a round face about a hole: F / (pi/4 (D^2 - d^2)).

    >>> round(face_pressure_mpa(24000, 14.63, 11))
    328
    """
    face, hole = numbers("face_mm", face_mm, above=0), numbers("hole_mm", hole_mm, above=0)
    numbers("face_mm - hole_mm", face - hole, above=0, cause="a head that is no wider than its hole pulls through")
    return numbers("force_n", force_n, at_least=0) / (math.pi / 4 * (face**2 - hole**2))


def face_through_washer_mm(face_mm, thickness_mm, outer_mm):
    """Face that presses on the part under a washer: head face + 1.6 x thickness, at most the washer itself.

    >>> round(face_through_washer_mm(14.63, 2, 20), 2)
    17.83
    """
    face = one_number("face_mm", face_mm, above=0)
    spread = face + _SPREAD * one_number("thickness_mm", thickness_mm, above=0)
    return min(spread, one_number("outer_mm", outer_mm, at_least=face, cause="a washer narrower than the head"))


def pressure_limit_mpa(material):
    """Largest pressure that a material bears under a turning head; ValueError with the nearest names.

    >>> pressure_limit_mpa("mild steel")
    260.0
    """
    return table("bearing_pressures").row(material)["limit_mpa"]
