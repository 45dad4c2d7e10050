"""A long screw under thrust: at which load it bows out sideways.

The root of the thread is the column. Slender: Euler, pi^2 E I / (K l)^2. Stocky: the parabola that runs from the
yield stress into Euler's curve at half of it (J. B. Johnson). Sources: textbooks of machine design; K from the
table `column_ends`. Forces in N, lengths in mm, stresses in MPa. Numbers or arrays.
"""

import math

from workbench.refusals import numbers, refuse
from workbench.tables import table


def end_factor(ends, ideal=False):
    """K: free length of the column of the same strength with both ends guided / its own length.

    ends: a row of `column_ends`; ideal: the theoretical K, otherwise the one recommended for real ends.

    >>> end_factor("fixed free"), end_factor("fixed free", ideal=True)
    (2.1, 2.0)
    """
    return table("column_ends").row(ends)["theory" if ideal else "recommended"]


def slenderness(root_mm, length_mm, factor):
    """K l / r with the radius of gyration r = d3 / 4 of a round bar: 4 K l / d3.

    root_mm d3, length_mm l (free, the longest in use), factor K: all above 0.

    >>> slenderness(20, 500, 2.0)
    200.0
    """
    length = numbers("length_mm", length_mm, above=0) * numbers("factor", factor, above=0)
    return 4 * length / numbers("root_mm", root_mm, above=0)


def limit_slenderness(yield_mpa, modulus_mpa):
    """Slenderness where Euler's stress is half of yield: pi sqrt(2 E / Sy); above it Euler holds.

    >>> round(limit_slenderness(500, 207000), 1)
    90.4
    """
    ratio = 2 * numbers("modulus_mpa", modulus_mpa, above=0) / numbers("yield_mpa", yield_mpa, above=0)
    return math.pi * ratio**0.5


def _area(root_mm):
    return math.pi / 4 * numbers("root_mm", root_mm, above=0) ** 2


def euler_load_n(root_mm, length_mm, factor, modulus_mpa):
    """Load under which a slender screw bows out: pi^2 E A / (K l / r)^2, the same as pi^2 E I / (K l)^2.

    Too high for a stocky screw: use `critical_load_n` where the slenderness is not known.

    >>> round(euler_load_n(20, 1000, 1.0, 207000))
    16046
    """
    modulus = numbers("modulus_mpa", modulus_mpa, above=0)
    return math.pi**2 * modulus * _area(root_mm) / slenderness(root_mm, length_mm, factor) ** 2


def johnson_load_n(root_mm, length_mm, factor, modulus_mpa, yield_mpa):
    """Load under which a stocky screw gives way: A Sy (1 - Sy s^2 / (4 pi^2 E)), s = K l / r.

    Refused for a slender screw, where the parabola has left Euler's curve.

    >>> round(johnson_load_n(20, 375, 1.0, 207000, 500))
    103019
    """
    lean = slenderness(root_mm, length_mm, factor)
    slender = lean > limit_slenderness(yield_mpa, modulus_mpa) * (1 + 1e-9)
    if getattr(slender, "any", lambda: slender)():
        refuse("length_mm", length_mm, "makes the screw too slender for the parabola", "use euler_load_n")
    bent = numbers("yield_mpa", yield_mpa, above=0) * lean**2 / (4 * math.pi**2 * modulus_mpa)
    return _area(root_mm) * yield_mpa * (1 - bent)


def critical_load_n(root_mm, length_mm, factor, modulus_mpa, yield_mpa):
    """Johnson below the limit slenderness, Euler above it. The two meet there, so nothing jumps.

    >>> round(critical_load_n(20, 1000, 1.0, 207000, 500)), round(critical_load_n(20, 375, 1.0, 207000, 500))
    (16046, 103019)
    """
    slender = slenderness(root_mm, length_mm, factor) > limit_slenderness(yield_mpa, modulus_mpa)
    euler = euler_load_n(root_mm, length_mm, factor, modulus_mpa)
    if getattr(slender, "shape", ()) == ():
        return euler if slender else johnson_load_n(root_mm, length_mm, factor, modulus_mpa, yield_mpa)
    import numpy

    crushed = _area(root_mm) * yield_mpa
    # Johnson in terms of Euler's load: A Sy (1 - A Sy / (4 Pe))
    return numpy.where(slender, euler, crushed * (1 - crushed / (4 * euler)))
