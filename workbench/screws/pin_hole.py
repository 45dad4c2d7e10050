"""The hole through the bolt: where it must lie so that the pin goes through the slot, and what the tolerances do.

Lengths count from under the bolt's head, in mm. Slot: from the nut's slot floor h to its top m.
Sources: sums along the bolt; least distance to the bolt's end: ISO 7378 (table iso_7378_pin_holes).
"""

import math

from workbench.refusals import numbers, one_number, refuse
from workbench.screws.slotted_nut import step_deg
from workbench.tables import table


def hole(thread):
    """Hole and least distance to the bolt's end for a thread (ISO 7378).

    >>> hole("M12")["hole_mm"], hole("M12")["end_mm"]
    (3.2, 5.9)
    """
    return table("iso_7378_pin_holes").row(thread)


def _slot(floor_mm, height_mm):
    floor = numbers("floor_mm", floor_mm, above=0)
    height = numbers("height_mm", height_mm, above=0)
    numbers("height_mm", height - floor, above=0, cause="the slot's floor lies below the nut's top: are they swapped?")
    return floor, height


def centre_mm(parts_mm, washers_mm, floor_mm, height_mm):
    """Hole's centre from under the head, in the middle of the slot: G + w + (h + m) / 2.

    parts_mm G > 0; washers_mm w >= 0, all of them together; floor_mm h, height_mm m of the nut.

    >>> centre_mm(22, 1.5, 10, 15)
    36.0
    """
    floor, height = _slot(floor_mm, height_mm)
    stack = numbers("parts_mm", parts_mm, above=0) + numbers("washers_mm", washers_mm, at_least=0)
    return stack + (floor + height) / 2


def room_mm(floor_mm, height_mm, shank_mm):
    """How far the hole's centre may lie from the middle of the slot with the pin still clear: (m - h) / 2 - d / 2.

    The pin must clear the floor; above, it must lie within the slot for the walls to hold it.

    >>> round(room_mm(10, 15, 2.9), 2)
    1.05
    """
    floor, height = _slot(floor_mm, height_mm)
    spare = (height - floor - numbers("shank_mm", shank_mm, above=0)) / 2
    return numbers("shank_mm", spare, at_least=0, cause="the pin is thicker than the slot is deep")


def worst_mm(*tolerances_mm):
    """Worst reach of a stack, all off the same way: t1 + t2 + ..., each a half-width (+/-).

    >>> round(worst_mm(0.2, 0.3, 0.1), 9)
    0.6
    """
    return sum(_tolerances(tolerances_mm))


def likely_mm(*tolerances_mm):
    """Likely reach where the parts vary apart from each other: sqrt(t1^2 + t2^2 + ...).

    >>> round(likely_mm(0.2, 0.3, 0.1), 5)
    0.37417
    """
    return math.sqrt(sum(one * one for one in _tolerances(tolerances_mm)))


def _tolerances(tolerances_mm):
    if not tolerances_mm:
        refuse("tolerances_mm", tolerances_mm, "must hold at least one", "give each half-width by itself")
    return [one_number("tolerance", one, at_least=0, cause="give half-widths, no signs") for one in tolerances_mm]


def thicker_washer_mm(short_deg, pitch_mm, slots=6):
    """Extra washer that brings the slot before to the hole at the same torque: P (360/s - a) / 360.

    short_deg a: what the next slot still lacks to the hole at the greatest torque, 0 < a < 360/s. A thicker washer
    holds the nut back, so that the slot which went before comes to the hole.

    >>> round(thicker_washer_mm(20, 1.75), 5)
    0.19444
    """
    step, short = _short(short_deg, slots)
    return numbers("pitch_mm", pitch_mm, above=0) * (step - short) / 360


def thinner_washer_mm(short_deg, pitch_mm, slots=6):
    """What a thinner washer has to save, so that the next slot reaches the hole at the same torque: P a / 360.

    >>> round(thinner_washer_mm(20, 1.75), 5)
    0.09722
    """
    _, short = _short(short_deg, slots)
    return numbers("pitch_mm", pitch_mm, above=0) * short / 360


def _short(short_deg, slots):
    step = step_deg(slots)
    short = numbers("short_deg", short_deg, above=0, cause="a slot that stands at the hole needs no washer")
    numbers("short_deg", step - short, above=0, cause="a slot comes past every 360/s degrees")
    return step, short


def from_end_mm(thread, bolt_length_mm, centre_from_head_mm):
    """Distance of the hole's centre from the bolt's end; refused below the least of ISO 7378: the hole would break out.

    >>> from_end_mm("M12", 45, 36)
    9
    >>> from_end_mm("M12", 40, 36)
    Traceback (most recent call last):
    ...
    ValueError: bolt_length_mm = 40: leaves 4 mm behind the hole's centre, less than 5.9 mm; take a longer bolt: the \
hole would break out
    """
    one_number("bolt_length_mm", bolt_length_mm, above=0)
    left = bolt_length_mm - one_number("centre_from_head_mm", centre_from_head_mm, above=0)
    least = hole(thread)["end_mm"]
    if left < least:
        refuse("bolt_length_mm", bolt_length_mm, f"leaves {left:g} mm behind the hole's centre, less than {least:g} mm",
               "take a longer bolt: the hole would break out")
    return left


def bolt_length_mm(thread, parts_mm, washers_mm, floor_mm, height_mm):
    """The next length of ISO 888 that leaves the hole its distance to the end.

    >>> bolt_length_mm("M12", 22, 1.5, 10, 15)
    45.0
    """
    needed = one_number("parts_mm", centre_mm(parts_mm, washers_mm, floor_mm, height_mm)) + hole(thread)["end_mm"]
    for row in table("nominal_lengths").rows.values():
        if row["length_mm"] >= needed:
            return row["length_mm"]
    refuse("parts_mm", parts_mm, f"asks for a bolt of {needed:g} mm, longer than the table", "are the parts in mm?")
