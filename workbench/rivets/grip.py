"""Grip of a blind rivet: all that lies between its heads, and the body length made for it.

A length is made for a range of grips. Below it the mandrel breaks too early, above it no tail is left. The range
is that of the table (ISO 15977, 15979, 15981, 15983, or the maker's); a rule of thumb is only a first guess.
"""

from dataclasses import dataclass

from workbench.refusals import numbers, one_number, refuse
from workbench.rivets.blind import body_size
from workbench.tables import table


def grip_mm(*layers_mm):
    """Grip: the sum of everything between the heads (sheets, gasket, sealant, paint, gap that stays), mm.

    >>> grip_mm(1.5, 2, 1, 0.2)
    4.7
    """
    if not layers_mm:
        refuse("layers_mm", layers_mm, "must be at least one thickness")
    return sum(numbers("layers_mm", one, at_least=0, cause="a thickness is nought or more") for one in layers_mm)


@dataclass(frozen=True)
class GripRange:
    """A body length of a standard and the grips that it is made for, all in mm."""

    standard: str
    body_mm: float
    length_mm: float
    least_mm: float
    largest_mm: float

    def holds(self, grip):
        """Does a grip lie in the range, ends included?"""
        return self.margin_mm(grip) >= -1e-9

    def margin_mm(self, grip):
        """How far a grip lies inside the nearer end; negative: how far outside.

        >>> round(grip_range("ISO 15977", 4, 8).margin_mm(4.7), 9)
        0.3
        """
        one_number("grip", grip, at_least=0)
        return min(grip - self.least_mm, self.largest_mm - grip)


def grip_ranges(standard, body_mm):
    """All lengths of a body diameter with their grips, shortest first.

    >>> [(one.length_mm, one.least_mm, one.largest_mm) for one in grip_ranges("ISO 15981", 2.4)]
    [(6.0, 0.5, 3.0), (9.0, 3.0, 6.0), (12.0, 6.0, 9.0)]
    """
    body_size(body_mm)
    rows = [row for row in table("blind_grips").rows.values() if row["standard"] == standard]
    if not rows:
        given = sorted({row["standard"] for row in table("blind_grips").rows.values()})
        refuse("standard", standard, "no grips are tabulated here; there are " + ", ".join(given))
    found = [GripRange(standard, row["body_mm"], row["length_mm"], row["grip_least_mm"], row["grip_largest_mm"])
             for row in rows if row["body_mm"] == body_mm]  # fmt: skip
    if not found:
        refuse("body_mm", body_mm, f"is not made by {standard}")
    return tuple(sorted(found, key=lambda one: one.length_mm))


def grip_range(standard, body_mm, length_mm):
    """The grips of one length; refused, with the lengths there are, where it is not made.

    >>> grip_range("ISO 15977", 4, 12).largest_mm
    8.5
    """
    one_number("length_mm", length_mm, above=0)
    made = grip_ranges(standard, body_mm)
    for one in made:
        if one.length_mm == length_mm:
            return one
    refuse("length_mm", length_mm, f"is no length of {standard} with a {body_mm:g} mm body; there are "
           + ", ".join(f"{one.length_mm:g}" for one in made))


def length_for(standard, body_mm, grip):
    """The length made for a grip; where two ranges meet, the shorter one (less pokes out behind).

    Refused where no length holds it: too thin, too thick, or between two ranges.

    >>> length_for("ISO 15977", 4, 4.7).length_mm
    8.0
    >>> length_for("ISO 15977", 4, 0.8)
    Traceback (most recent call last):
    ...
    ValueError: grip = 0.8: must be 1 to 21.5 mm with a 4 mm body of ISO 15977; is a sheet missing? take a thinner body
    """
    one_number("grip", grip, above=0)
    made = grip_ranges(standard, body_mm)
    for one in made:
        if one.holds(grip):
            return one
    least, largest = made[0].least_mm, max(one.largest_mm for one in made)
    rule = f"must be {least:g} to {largest:g} mm with a {body_mm:g} mm body of {standard}"
    if grip < least:
        refuse("grip", grip, rule, "is a sheet missing? take a thinner body")
    refuse("grip", grip, rule, "take a thicker body or a screw")


def rule_of_thumb_mm(length_mm, body_mm):
    """First guess of the largest grip: l - D, as the tail takes about one diameter. Common practice; the table decides.

    >>> rule_of_thumb_mm(10, 4)
    6
    """
    left = numbers("length_mm", length_mm, above=0) - numbers("body_mm", body_mm, above=0)
    return numbers("length_mm - body_mm", left, above=0, cause="were length and diameter swapped?")


def room_behind_mm(body_mm, length_mm, grip):
    """Room needed behind the sheets before setting: l + beyond - G, mm.

    beyond: the mandrel's head past the body (table blind_sizes). A rivet that meets a wall cannot be pushed home.

    >>> room_behind_mm(4, 12, 7)
    9.0
    """
    reach = one_number("length_mm", length_mm, above=0) + body_size(body_mm)["beyond_mm"]
    one_number("grip", grip, above=0, at_most=length_mm, cause="the body must reach through the stack")
    return reach - grip
