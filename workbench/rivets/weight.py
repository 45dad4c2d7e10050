"""Weight of solid rivets: volume of shank and head times density; and the metal that the holes take away.

Head volumes from its usual width and height: round, universal and mushroom as the cap of a sphere, pan and flat as a
cylinder, countersunk as a cone cut off. A countersunk rivet's length is over all. Geometry; densities as stored.
"""

import math

from workbench.refusals import numbers, one_number
from workbench.rivets.alloy import alloy
from workbench.rivets.head import head

_CYLINDERS = ("pan", "flat")


def head_volume_mm3(kind, diameter_mm):
    """Volume of a manufactured head.

    >>> round(head_volume_mm3("round", 4), 1), round(head_volume_mm3("countersunk 90", 4), 1)
    (53.4, 58.6)
    """
    one = head(kind, diameter_mm)
    across, high = one.width_mm / 2, one.height_mm
    if one.flush:
        return math.pi * high / 3 * (across**2 + across * diameter_mm / 2 + diameter_mm**2 / 4)
    if kind in _CYLINDERS:
        return math.pi * across**2 * high
    return math.pi * high / 6 * (3 * across**2 + high**2)


def mass_g(kind, diameter_mm, length_mm, alloy_name):
    """Mass of one rivet before driving, in g (driving changes its shape, not its mass).

    length_mm under the head; countersunk: over all, and longer than the head is deep.

    >>> round(mass_g("round", 4, 8, "2117"), 3)
    0.423
    """
    one = head(kind, diameter_mm)
    shank = one_number("length_mm", length_mm, above=one.height_mm if one.flush else 0, cause="is it over all, in mm?")
    if one.flush:
        shank = length_mm - one.height_mm
    volume = math.pi / 4 * diameter_mm**2 * shank + head_volume_mm3(kind, diameter_mm)
    return volume * alloy(alloy_name).density_kg_dm3 / 1000


def drilled_g(hole_mm, grip_mm, density_kg_dm3, holes=1):
    """Mass of the metal that holes take out of the sheets, in g: n pi/4 dh^2 g rho.

    >>> round(drilled_g(4.2, 2.6, 2.78, holes=15), 2)
    1.5
    """
    area = math.pi / 4 * numbers("hole_mm", hole_mm, above=0) ** 2
    out = numbers("holes", holes, at_least=0) * area * numbers("grip_mm", grip_mm, above=0)
    return out * one_number("density_kg_dm3", density_kg_dm3, above=0) / 1000
