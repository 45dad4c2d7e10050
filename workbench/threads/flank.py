"""What the slope of a flank does to a load along the axis: outward push, friction, and two threads on one spindle.

Angles: flank angle against a plane across the axis (15 deg for a 30 deg trapezoidal thread, 30 deg for metric).
Mechanics of the wedge; no source.
"""

import math

from workbench.refusals import numbers, refuse
from workbench.threads.profile import Profile


def _tan(angle_deg):
    numbers("flank_deg", angle_deg, at_least=0, at_most=60, cause="give half the thread angle of a symmetrical form")
    return math.tan(math.radians(angle_deg))


def radial_load_n(axial_n, flank_deg):
    """Sum of the outward push all round a nut: F tan(flank).

    >>> round(radial_load_n(10000, 15), 1)
    2679.5
    """
    return numbers("axial_n", axial_n, at_least=0) * _tan(flank_deg)


def parting_force_n(axial_n, flank_deg):
    """What parts each half of a nut split lengthwise: F tan(flank) / pi, as pressure parts a ring.

    >>> round(parting_force_n(10000, 15), 1)
    852.9
    """
    return radial_load_n(axial_n, flank_deg) / math.pi


def friction_angle_deg(coefficient, flank_deg):
    """Angle of friction on a sloping flank: atan(mu / cos(flank)).

    >>> round(friction_angle_deg(0.12, 15), 4)
    7.0818
    """
    numbers("coefficient", coefficient, at_least=0, at_most=2, cause="is it an angle? give the coefficient")
    _tan(flank_deg)
    return math.degrees(math.atan(coefficient / math.cos(math.radians(flank_deg))))


def efficiency(lead_angle_deg, coefficient, flank_deg):
    """Share of the work of turning that lifts, thread alone: tan(lead angle) / tan(lead angle + friction angle).

    >>> round(efficiency(4.05, 0.12, 15), 3)
    0.36
    """
    numbers("lead_angle_deg", lead_angle_deg, above=0, at_most=60)
    climb = math.radians(lead_angle_deg)
    total = climb + math.radians(friction_angle_deg(coefficient, flank_deg))
    if total >= math.pi / 2:
        refuse("lead_angle_deg", lead_angle_deg, "with this friction the thread cannot be turned")
    return math.tan(climb) / math.tan(total)


def holds_still(lead_angle_deg, coefficient, flank_deg):
    """Does the thread hold a load by friction alone? It does not where vibration or oil takes the friction away.

    >>> holds_still(4.05, 0.12, 15)
    True
    """
    return lead_angle_deg <= friction_angle_deg(coefficient, flank_deg)


def travel_of_two_mm(first, second, turns):
    """How far apart two nuts on one turning spindle move: (L1 - L2) T for one hand, (L1 + L2) T for opposite hands.

    first, second: Profile; turns T, negative = back. Same hand, nearly equal leads: a fine adjustment.

    >>> from workbench.threads.profile import profile
    >>> travel_of_two_mm(profile("metric", 16, 2), profile("metric", 12, 1.75), 3)
    0.75
    """
    for name, one in (("first", first), ("second", second)):
        if not isinstance(one, Profile):
            refuse(name, one, "must be a Profile", "as from profile('metric', 16, 2)")
    signed = first.lead_mm - second.lead_mm
    if first.left_hand != second.left_hand:
        signed = first.lead_mm + second.lead_mm
    return signed * numbers("turns", turns)
