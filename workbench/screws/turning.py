"""Tightening by angle: what a turn of the nut past snug does to the clamp force.

The nut moves P q / 360 along the thread; bolt and parts share that way as two springs in a row. Mechanics; no source.
"""

from workbench.refusals import numbers, one_number, refuse
from workbench.screws.stiffness import Springs


def _springs(springs):
    if not isinstance(springs, Springs):
        refuse("springs", springs, "must be Springs", "as from Springs(300000, 1200000)")
    return springs


def preload_gain_n(angle_deg, pitch_mm, springs):
    """Clamp gained by a turn past snug: P q / 360 x kb kp / (kb + kp). A negative angle is backed off: a loss.

    >>> preload_gain_n(60, 1.5, Springs(300000, 1200000))
    60000.0
    """
    way = numbers("angle_deg", angle_deg) / 360 * numbers("pitch_mm", pitch_mm, above=0)
    return way * _springs(springs).together_n_per_mm


def angle_for_deg(gain_n, pitch_mm, springs):
    """Turn past snug for a gain of clamp: 360 dF / (P k).

    >>> angle_for_deg(24000, 1.5, Springs(300000, 1200000))
    24.0
    """
    way = numbers("gain_n", gain_n) / _springs(springs).together_n_per_mm
    return 360 * way / numbers("pitch_mm", pitch_mm, above=0)


def preload_after_turn_n(preload_n, angle_deg, pitch_mm, springs, yield_n):
    """Preload after a further turn, refused beyond the yield load: there the springs no longer hold.

    Nothing is left below 0: a nut that is backed off further is loose.

    >>> preload_after_turn_n(20000, 10, 1.5, Springs(300000, 1200000), 37120)
    30000.0
    >>> preload_after_turn_n(20000, 60, 1.5, Springs(300000, 1200000), 37120)
    Traceback (most recent call last):
    ...
    ValueError: preload_n = 80000.0: is over the yield load of 37120 N; a short stiff joint takes only a few degrees
    """
    one_number("yield_n", yield_n, above=0)
    start = one_number("preload_n", preload_n, at_least=0)
    after = start + preload_gain_n(one_number("angle_deg", angle_deg), pitch_mm, springs)
    if after > yield_n:
        refuse("preload_n", round(after, 1), f"is over the yield load of {yield_n:g} N",
               "a short stiff joint takes only a few degrees")
    return max(0.0, after)
