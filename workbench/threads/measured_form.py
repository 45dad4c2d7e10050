"""Flank angle as measured on a projector or microscope (pitch as measured: `workbench.threads.measured`)."""

import math

from workbench.refusals import one_number


def flank_angle_deg(axial_1, radial_1, axial_2, radial_2):
    """Flank angle from two points on the projected flank: atan(|axial step| / |radial step|), from the normal.

    Four readings of a projector or microscope in one unit, at any magnification. Refused: no radial step.

    >>> round(flank_angle_deg(0, 0, 0.5, 0.866), 1)
    30.0
    """
    for name, value in (("axial_1", axial_1), ("radial_1", radial_1), ("axial_2", axial_2), ("radial_2", radial_2)):
        one_number(name, value)
    radial = one_number("radial step", abs(radial_2 - radial_1), above=0, cause="the points must lie at two heights")
    return math.degrees(math.atan(abs(axial_2 - axial_1) / radial))


def axial_flank_deg(seen_deg, lead_angle_deg):
    """Flank angle in the axial section from the one seen along the thread: tan a = tan a_n / cos lam.

    The projector is tilted by the lead angle to see a sharp flank, and shows the normal section, in which the
    flank is a little steeper. seen_deg 0 to 60; lead_angle_deg 0 to 45. Source: geometry.

    >>> round(axial_flank_deg(30, 3.03), 3)
    30.035
    """
    one_number("seen_deg", seen_deg, at_least=0, at_most=60, cause="was the included angle given? halve it")
    one_number("lead_angle_deg", lead_angle_deg, at_least=0, at_most=45)
    return math.degrees(math.atan(math.tan(math.radians(seen_deg)) / math.cos(math.radians(lead_angle_deg))))
