"""The chance that a slot meets the hole within the torque window, and how many tries that takes.

Where the thread begins, how the hole was drilled and how thick the washer is are all left to chance, so the slot may
stand anywhere in its step when the low torque is reached. A try is an assembly with another washer or nut.
Elementary probability; no source.
"""

import math

from workbench.refusals import numbers, one_number, refuse, whole
from workbench.screws.slotted_nut import step_deg


def chance(window_deg, slots=6, play_deg=0):
    """Chance that a slot falls in a window of q degrees: s (q + play) / 360, at most 1.

    window_deg q >= 0, a number or an array; play_deg: turn through which the pin goes in all the same.

    >>> round(chance(18), 3), round(chance(18, play_deg=4.3), 3), chance(80)
    (0.3, 0.372, 1.0)
    """
    free = numbers("window_deg", window_deg, at_least=0) + numbers("play_deg", play_deg, at_least=0)
    share = free / step_deg(slots)
    return min(1.0, share) if getattr(share, "shape", ()) == () else share.clip(max=1)


def _of_a_try(chance_each):
    one_number("chance_each", chance_each, at_most=1, at_least=0, cause="write 0.3 for 30 %")
    if chance_each == 0:
        refuse("chance_each", chance_each, "must be above 0", "with no window no number of tries is enough")
    return chance_each


def mean_tries(chance_each):
    """Tries that it takes on average: 1 / p.

    >>> round(mean_tries(0.3), 3)
    3.333
    """
    return 1 / _of_a_try(chance_each)


def chance_within(chance_each, tries):
    """Chance that at least one of n tries meets: 1 - (1 - p)^n.

    >>> round(chance_within(0.3, 3), 3)
    0.657
    """
    return 1 - (1 - _of_a_try(chance_each)) ** whole("tries", tries)


def tries_for(chance_each, sure=0.9):
    """Tries after which a slot has met with the wanted sureness: the least n with 1 - (1 - p)^n >= sure.

    >>> tries_for(0.3), tries_for(1)
    (7, 1)
    """
    one_number("sure", sure, at_least=0, at_most=0.9999, cause="write 0.9 for 90 %")
    miss = 1 - _of_a_try(chance_each)
    if miss == 0:
        return 1
    return max(1, math.ceil(math.log(1 - sure) / math.log(miss) - 1e-9))
