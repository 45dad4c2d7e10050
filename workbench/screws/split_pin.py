"""Split pins: the size for a bolt or a clevis pin, the length, and the load at which a pin is cut.

A split pin is named by its hole; the pin itself is thinner. Its length counts from under the eye to the end of the
shorter leg. Sizes: ISO 1234:1997 (table iso_1234_split_pins); a pin is used once only (common practice, no source).
"""

import math

from workbench.refusals import numbers, one_number, refuse
from workbench.tables import table

BEND_PER_SIZE = 1.5  # what stands out to be bent, in pin sizes: common practice; so are most pins of DIN 935-1


def pins():
    """All sizes of ISO 1234, a list of rows, smallest first."""
    return list(table("iso_1234_split_pins").rows.values())


def pin(size_mm):
    """The row of one size, named by its hole.

    >>> pin(3.2)["shank_max_mm"]
    2.9
    """
    one_number("size_mm", size_mm, above=0)
    for row in pins():
        if math.isclose(row["size_mm"], size_mm):
            return row
    sizes = ", ".join(row["size"] for row in pins())
    refuse("size_mm", size_mm, f"must be one of {sizes}", "was the shank measured? a pin is named by its hole")


def _used_in(diameter_mm, over, up_to, what):
    one_number("diameter_mm", diameter_mm, above=0)
    for row in pins():
        if row[over] < diameter_mm <= row[up_to]:
            return row
    refuse("diameter_mm", diameter_mm, f"is no {what} of ISO 1234", "is the diameter in mm?")


def for_bolt(diameter_mm):
    """The pin for a bolt of that nominal diameter (ISO 1234: over ... up to and including).

    >>> for_bolt(12)["size_mm"], for_bolt(20)["size_mm"]
    (3.2, 4.0)
    """
    return _used_in(diameter_mm, "bolt_over_mm", "bolt_up_to_mm", "bolt")


def for_clevis_pin(diameter_mm):
    """The split pin for a clevis pin; ISO 1234 gives it one size more for the same diameter in places.

    >>> for_clevis_pin(12)["size_mm"], for_clevis_pin(14)["size_mm"]
    (3.2, 4.0)
    """
    return _used_in(diameter_mm, "clevis_over_mm", "clevis_up_to_mm", "clevis pin")


def of_shank(shank_mm):
    """The size of a pin whose shank was measured: the row whose limits hold it. 0.9 mm may be size 1 or 1.2: refused.

    >>> of_shank(2.85)["size_mm"]
    3.2
    """
    one_number("shank_mm", shank_mm, above=0)
    found = [row for row in pins() if row["shank_min_mm"] <= shank_mm <= row["shank_max_mm"]]
    if not found:
        cause = "is the pin bent, worn or an inch size?"
        refuse("shank_mm", shank_mm, "lies within no shank limits of ISO 1234", cause)
    if len(found) > 1:
        sizes = " or ".join(row["size"] for row in found)
        refuse("shank_mm", shank_mm, f"may be size {sizes}", "try the pin in drilled holes of both sizes")
    return found[0]


def goes_through(size_mm, hole_mm, slot_mm):
    """Free play of a pin in hole and slot, (hole - thickest shank, slot - thickest shank); refused where it is too big.

    >>> [round(play, 2) for play in goes_through(3.2, 3.2, 3.5)]
    [0.3, 0.6]
    >>> goes_through(4, 4, 3.5)
    Traceback (most recent call last):
    ...
    ValueError: size_mm = 4: needs a slot of at least 3.7 mm, not 3.5; take the size that the bolt's hole names
    """
    shank = pin(size_mm)["shank_max_mm"]
    plays = []
    for what, width in (("hole", hole_mm), ("slot", slot_mm)):
        one_number(f"{what}_mm", width, above=0)
        if width < shank:
            refuse("size_mm", size_mm, f"needs a {what} of at least {shank:g} mm, not {width:g}",
                   "take the size that the bolt's hole names")
        plays.append(width - shank)
    return tuple(plays)


def needed_length_mm(over_nut_mm, bend_mm):
    """Length from under the eye: the way over the nut, and what is to be bent: D + b.

    over_nut_mm D: across the crown, or across the flats where the slots lie in the hexagon, > 0; bend_mm b > 0.

    >>> needed_length_mm(19, 10)
    29
    """
    over = numbers("over_nut_mm", over_nut_mm, above=0)
    return over + numbers("bend_mm", bend_mm, above=0, cause="with nothing to bend the pin falls out")


def length_mm(size_mm, over_nut_mm, bend_mm=None):
    """The next length of ISO 1234 that is long enough; bend_mm left out: 1.5 sizes (common practice, no source).

    Refused where the size is not made so long.

    >>> length_mm(3.2, 16), length_mm(4, 22)
    (22.0, 28.0)
    """
    row = pin(size_mm)
    needed = needed_length_mm(one_number("over_nut_mm", over_nut_mm, above=0),
                              BEND_PER_SIZE * size_mm if bend_mm is None else bend_mm)  # fmt: skip
    for one in table("split_pin_lengths").rows.values():
        if one["length_mm"] >= max(needed, row["shortest_mm"]) and one["length_mm"] <= row["longest_mm"]:
            return one["length_mm"]
    refuse("over_nut_mm", over_nut_mm, f"asks for {needed:g} mm, but size {size_mm:g} ends at {row['longest_mm']:g} mm",
           "is it the width of this nut?")


def legs_area_mm2(shank_mm):
    """Metal of both legs at one section: two half rounds make one circle, pi/4 x shank^2 (the gap left out).

    >>> round(legs_area_mm2(2.8), 2)
    6.16
    """
    return math.pi / 4 * numbers("shank_mm", shank_mm, above=0) ** 2


def shear_load_n(area_mm2, shear_mpa):
    """Load that cuts the pin where nut meets bolt, on both sides: 2 A tau. Mechanics; no source.

    area_mm2 A: metal at one section; shear_mpa tau: shear strength, about 0.6 of the tensile strength (from memory).

    >>> shear_load_n(6.2, 250)
    3100.0
    """
    area = numbers("area_mm2", area_mm2, above=0)
    return 2 * area * numbers("shear_mpa", shear_mpa, above=0)


def shear_torque_n_mm(area_mm2, shear_mpa, bolt_mm):
    """Torque on the nut that cuts the pin: both sections act at the bolt's radius, A tau d.

    >>> shear_torque_n_mm(6.2, 250, 12)
    18600.0
    """
    return shear_load_n(area_mm2, shear_mpa) * numbers("bolt_mm", bolt_mm, above=0) / 2
