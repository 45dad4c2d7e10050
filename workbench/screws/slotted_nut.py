"""The slotted nut: from slot to slot, and what the bolt's preload does on the way.

A clamped joint is tightened on to the next slot and never backed off; a joint that must turn (clevis, hinge, wheel
bearing) is run snug and eased to the next slot. So the kind of joint is asked first.
Sources: geometry of the helix; the preload of a turn from `turning`; the rule of the next slot: a US Navy training
manual (NAVEDTRA 14014): torque to the low side, tighten to the next slot, never over the maximum.
"""

import math
from dataclasses import dataclass

from workbench.refusals import numbers, one_number, refuse, whole
from workbench.screws.turning import angle_for_deg, preload_gain_n
from workbench.tables import table

JOINTS = ("clamped", "turning")


def nut(thread):
    """The row of a slotted nut of DIN 935-1 (table din_935_slotted_nuts), by its coarse thread.

    >>> nut("M12")["slot_min_mm"], nut("M12")["pin_mm"]
    (3.5, 3.2)
    """
    return table("din_935_slotted_nuts").row(thread)


def over_nut_mm(thread):
    """How wide the nut is where the pin lies: across the crown, or across flats where it has none.

    >>> over_nut_mm("M12"), over_nut_mm("M8")
    (16.0, 13.0)
    """
    row = nut(thread)
    return row["crown_mm"] or row["flats_mm"]


def _slots(slots):
    slots = whole("slots", slots, at_least=2, cause="count the slots round the nut")
    if slots % 2:
        refuse("slots", slots, "must be even", "a straight pin leaves through the slot opposite")
    return slots


def step_deg(slots=6):
    """Turn from one slot to the next with one hole through the bolt: 360 / s. Both ends of the hole line up together.

    >>> step_deg(6), step_deg(8)
    (60.0, 45.0)
    """
    return 360 / _slots(slots)


def axial_step_mm(pitch_mm, slots=6):
    """Way of the nut along the bolt from one slot to the next: P / s.

    >>> round(axial_step_mm(1.75), 5)
    0.29167
    """
    return numbers("pitch_mm", pitch_mm, above=0) / _slots(slots)


def turn_to_slot_deg(joint, gone_past_deg, slots=6):
    """Turn that brings a slot to the hole, + tightens: 360/s - a for a clamped joint, -a for a turning one.

    gone_past_deg a: how far the last slot has gone past the hole in the tightening sense, 0 <= a < 360/s (a number or
    an array). A nut that already stands at the hole (a = 0) stays there. joint: "clamped" or "turning".

    >>> turn_to_slot_deg("clamped", 22), turn_to_slot_deg("turning", 22), turn_to_slot_deg("clamped", 0)
    (38.0, -22, 0.0)
    """
    if joint not in JOINTS:
        refuse("joint", joint, "must be 'clamped' or 'turning'", "ask first: must it hold still, or must it turn?")
    step = step_deg(slots)
    past = numbers("gone_past_deg", gone_past_deg, at_least=0)
    numbers("gone_past_deg", step - past, above=0, cause="a slot comes past every 360/s degrees")
    return (step - past) % step if joint == "clamped" else -past


@dataclass(frozen=True)
class Landing:
    """Where the nut stands with a slot at the hole: turn and way (+ tightens), preload there, share of the limit."""

    turn_deg: float
    axial_mm: float
    preload_n: float
    share: float


def to_slot(preload_n, gone_past_deg, pitch_mm, springs, limit_n, slots=6):
    """The clamped joint turned on to the next slot; refused where that asks for more preload than the limit.

    preload_n: now, at the low side of the torque window; springs: Springs of bolt and parts; limit_n: yield load of
    the bolt, or the greatest preload permitted (the torsion of tightening is the limit's business).

    >>> from workbench.screws.stiffness import Springs
    >>> landing = to_slot(30000, 40, 1.5, Springs(100000, 400000), 48000)
    >>> round(landing.turn_deg), round(landing.axial_mm, 4), round(landing.preload_n), round(landing.share, 2)
    (20, 0.0833, 36667, 0.76)
    >>> to_slot(40000, 22, 1.75, Springs(300000, 1200000), 54000)
    Traceback (most recent call last):
    ...
    ValueError: preload_n = 40000: would become 84333 N at the next slot, over the limit of 54000 N; neither on \
nor back: change the washer or the nut
    """
    one_number("preload_n", preload_n, at_least=0)
    one_number("limit_n", limit_n, above=0)
    if preload_n > limit_n:
        refuse("preload_n", preload_n, f"is over the limit of {limit_n:g} N already", "is the limit the yield load?")
    turn = turn_to_slot_deg("clamped", one_number("gone_past_deg", gone_past_deg), slots)
    after = preload_n + preload_gain_n(turn, pitch_mm, springs)
    if after > limit_n:
        refuse("preload_n", preload_n, f"would become {after:.0f} N at the next slot, over the limit of {limit_n:g} N",
               "neither on nor back: change the washer or the nut")
    return Landing(turn, pitch_mm * turn / 360, after, after / limit_n)


def eased_play_mm(gone_past_deg, pitch_mm, slots=6):
    """Play that a turning joint gets when it is eased from snug to the slot behind: P a / 360.

    >>> round(eased_play_mm(22, 1.5), 4)
    0.0917
    """
    back = turn_to_slot_deg("turning", gone_past_deg, slots)
    return -back * numbers("pitch_mm", pitch_mm, above=0) / 360


def window_deg(low_n, high_n, pitch_mm, springs):
    """Turn of the nut between the least and the greatest preload: (F2 - F1) 360 / (P k), k of both springs together.

    The torque window is meant: its two torques give the two preloads at the same friction.

    >>> from workbench.screws.stiffness import Springs
    >>> round(window_deg(30000, 36000, 1.5, Springs(100000, 400000)), 9)
    18.0
    """
    rise = numbers("high_n", high_n, above=0) - numbers("low_n", low_n, at_least=0)
    numbers("high_n - low_n", rise, above=0, cause="are the two preloads swapped?")
    return angle_for_deg(rise, pitch_mm, springs)


def play_deg(slot_mm, shank_mm, over_mm):
    """Turn of the nut through which the pin still goes in: 2 asin((n - d) / D).

    slot_mm n, shank_mm d of the pin, over_mm D across the slots' outer ends. Geometry: a pin square to the axis
    touches the slot's corner at the outer end first (its own small tilt left out).

    >>> round(play_deg(3.5, 2.9, 16), 2)
    4.3
    """
    one_number("over_mm", over_mm, above=0)
    spare = one_number("slot_mm", slot_mm, above=0) - one_number("shank_mm", shank_mm, above=0)
    if spare < 0:
        refuse("shank_mm", shank_mm, f"is thicker than the slot of {slot_mm:g} mm", "was a larger pin taken?")
    if spare >= over_mm:
        refuse("over_mm", over_mm, "must be larger than the play in the slot", "is it the width over the nut?")
    return 2 * math.degrees(math.asin(spare / over_mm))
