"""Pitch and flank angle as measured: over several crests, with a leaf gauge against the light, on a projector."""

import math

from workbench.refusals import numbers, one_number, whole


def pitch_over(length, spaces=10):
    """Pitch from a length over several spaces: length / spaces; an error of the rule is divided as well.

    length > 0, crest to crest, unit of the result; spaces: whole number; n spaces lie between n + 1 crests.

    >>> pitch_over(12.5)
    1.25
    """
    numbers("length", length, above=0)
    return length / whole("spaces", spaces, cause="count the spaces between crests, one fewer than crests")


def leaf_gap(pitch, leaf_pitch, spaces):
    """Mismatch at the last tooth of a leaf held on the thread: spaces |P - P_leaf|, unit of the pitches.

    >>> round(leaf_gap(1.25, 25.4 / 20, 8), 3)
    0.16
    """
    numbers("pitch", pitch, above=0)
    numbers("leaf_pitch", leaf_pitch, above=0)
    return whole("spaces", spaces) * abs(pitch - leaf_pitch)


def leaves_that_fit(pitch, leaf_pitches, spaces, visible_gap):
    """Those leaves of a pitch gauge whose mismatch the eye cannot see, best first.

    visible_gap > 0: smallest gap seen against the light, unit of the pitches (about 0.02 mm: common practice, no
    source). More than one leaf: take more spaces, or measure the diameter. None: a worn thread, or another form.

    >>> leaves_that_fit(1.27, (1, 1.25, 1.5), 4, 0.1)
    (1.25,)
    """
    one_number("visible_gap", visible_gap, above=0)
    near = sorted((leaf_gap(pitch, leaf, spaces), leaf) for leaf in leaf_pitches)
    return tuple(leaf for gap, leaf in near if gap <= visible_gap)


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
