"""The torque wrench: adaptors, drag of a locking nut, units, error, range, and the order of a ring of bolts.

Torques in N m here, as on the scale. Sources: the lever; ISO 6789-1 (tolerance and range, from memory); common
practice for passes and order.
"""

import math

from workbench.refusals import numbers, one_number, refuse, whole

_LBF_N = 4.4482216152605  # pound-force, exact by definition
_NEWTON_METRES = {"N m": 1.0, "lbf in": _LBF_N * 0.0254, "lbf ft": _LBF_N * 0.3048}
LEAST_SHARE = 0.2  # a setting wrench is checked from a fifth of its largest torque (ISO 6789-1, from memory)


def setting_nm(torque_nm, arm_mm, extension_mm, angle_deg=0.0):
    """What to set so that the nut gets its torque: T A / (A + X cos angle).

    arm_mm A: drive to the middle of the hand; extension_mm X: drive to nut; angle between extension and handle: 0 in
    line (longer lever), 90 square (T itself), 180 folded back over the handle. Refused: A + X cos angle not above 0.

    >>> setting_nm(40, 400, 100), round(setting_nm(40, 400, 100, 90), 9)
    (32.0, 40.0)
    """
    torque = numbers("torque_nm", torque_nm, at_least=0)
    arm, lever = _lever(arm_mm, extension_mm, angle_deg)
    return torque * arm / lever


def at_nut_nm(setting_nm, arm_mm, extension_mm, angle_deg=0.0):
    """What the nut gets at a setting: S (A + X cos angle) / A.

    >>> at_nut_nm(32, 400, 100)
    40.0
    """
    setting = numbers("setting_nm", setting_nm, at_least=0)
    arm, lever = _lever(arm_mm, extension_mm, angle_deg)
    return setting * lever / arm


def _lever(arm_mm, extension_mm, angle_deg):
    arm = numbers("arm_mm", arm_mm, above=0)
    one_number("angle_deg", angle_deg, at_least=0, at_most=180)
    along = numbers("extension_mm", extension_mm, at_least=0) * math.cos(math.radians(angle_deg))
    numbers("lever_mm", arm + along, above=0, cause="the adaptor folded back reaches past the hand")
    return arm, arm + along


def with_run_down_nm(seating_nm, run_down_nm):
    """Wrench torque for a nut that drags: seating torque + run-down torque (drag over the last free turn).

    >>> with_run_down_nm(40, 6)
    46
    """
    return numbers("seating_nm", seating_nm, at_least=0) + numbers("run_down_nm", run_down_nm, at_least=0)


def converted(torque, unit, wanted):
    """A torque in another unit; units "N m", "lbf in", "lbf ft".

    >>> round(converted(100, "lbf in", "N m"), 3), round(converted(1, "lbf ft", "lbf in"), 9)
    (11.298, 12.0)
    """
    for name, one in (("unit", unit), ("wanted", wanted)):
        if one not in _NEWTON_METRES:
            refuse(name, one, "must be N m, lbf in or lbf ft", "is it read as printed on the scale?")
    return numbers("torque", torque) * _NEWTON_METRES[unit] / _NEWTON_METRES[wanted]


def error_nm(torque_nm, percent, full_scale_nm, of="reading"):
    """Half-width of the wrench's error: percent of the reading, or of full scale (the same at every torque).

    torque_nm from 0 to full scale.

    >>> error_nm(30, 4, 200), error_nm(30, 4, 200, of="full scale")
    (1.2, 8.0)
    """
    if of not in ("reading", "full scale"):
        refuse("of", of, "must be 'reading' or 'full scale'", "the certificate says which")
    full = one_number("full_scale_nm", full_scale_nm, above=0)
    share = numbers("percent", percent, at_least=0, at_most=100) / 100
    torque = numbers("torque_nm", torque_nm, at_least=0, at_most=full, cause="the torque is over the wrench's range")
    return share * (torque if of == "reading" else full)


def in_range_nm(torque_nm, full_scale_nm, least_share=LEAST_SHARE):
    """The torque given back, refused outside the range in which a wrench is checked: a fifth of full scale and up.

    >>> in_range_nm(40, 200)
    40
    >>> in_range_nm(25, 200)
    Traceback (most recent call last):
    ...
    ValueError: torque_nm = 25: must be at least 40.0; take a smaller wrench: this one is not checked so low
    """
    full = one_number("full_scale_nm", full_scale_nm, above=0)
    least = one_number("least_share", least_share, at_least=0, at_most=1) * full
    one_number("torque_nm", torque_nm, at_most=full, cause="take a larger wrench")
    return one_number("torque_nm", torque_nm, at_least=least,
                      cause="take a smaller wrench: this one is not checked so low")


def crosswise(count):
    """Order in which a ring of bolts, numbered round, is tightened: opposite pairs, each far from those before.

    count: 3 or more; an odd ring is stepped across by half a turn. Common practice, no source.

    >>> crosswise(8), crosswise(5)
    ((1, 5, 3, 7, 2, 6, 4, 8), (1, 3, 5, 2, 4))
    """
    whole("count", count, at_least=3, cause="two bolts are tightened in turn")
    if count % 2:
        return tuple(1 + step * (count // 2) % count for step in range(count))
    half, firsts = count // 2, [0]

    def away(place):
        """How far from each pair before, the nearest first."""
        steps = [min(abs(place - one), half - abs(place - one)) for one in firsts]
        return min(steps), sum(steps), -place

    while len(firsts) < half:
        firsts.append(max((place for place in range(half) if place not in firsts), key=away))
    return tuple(1 + place for first in firsts for place in (first, first + half))


def passes_nm(torque_nm, shares=(0.3, 0.6, 1)):
    """Torque of each crosswise pass, as parts of the final one; a last round at the full torque follows.

    shares: rising, the last one 1. Common practice, no source.

    >>> passes_nm(50)
    (15.0, 30.0, 50)
    """
    torque = one_number("torque_nm", torque_nm, above=0)
    if list(shares) != sorted(set(shares)) or shares[-1] != 1 or shares[0] <= 0:
        refuse("shares", shares, "must rise to 1", "the last pass is the full torque")
    return tuple(torque * share for share in shares)
