"""Length of a solid rivet: the grip, and beyond it the metal for the head that is formed.

L = grip + k D; k = 1.5 for a flat or round head to be formed, about 0.6 where the tail is formed flush in a
countersink. Grip is everything the rivet passes through; a countersunk manufactured head lies in it, so that its rivet
is measured over all. Sources: USAAF structural repair manual; common practice for the flush tail.
"""

import math
from dataclasses import dataclass
from fractions import Fraction

from workbench.refusals import numbers, one_number, refuse
from workbench.rivets.size import INCH_MM, stack_mm
from workbench.tables import table


def grip_mm(sheets_mm, between_mm=0.0):
    """All that lies between the heads: the sheets, and sealant, shim or paint between them.

    >>> round(grip_mm((1.0, 1.6), between_mm=0.2), 9)
    2.8
    """
    return sum(stack_mm(sheets_mm)) + one_number("between_mm", between_mm, at_least=0)


def allowance_mm(diameter_mm, tail="flat"):
    """What is allowed beyond the grip: k D by the head to be formed.

    tail: "flat" (1.5 D), "round" (1.5 D), "countersunk flush" (0.6 D).

    >>> allowance_mm(4), round(allowance_mm(4, "countersunk flush"), 9)
    (6.0, 2.4)
    """
    return numbers("diameter_mm", diameter_mm, above=0) * table("rivet_tails").row(tail)["allowance_d"]


def wanted_length_mm(grip, diameter_mm, tail="flat"):
    """Length before rounding to a size that is made: grip + k D, in mm.

    >>> round(wanted_length_mm(2.6, 4.8), 9)
    9.8
    """
    return numbers("grip", grip, above=0, cause="is it the grip in mm?") + allowance_mm(diameter_mm, tail)


@dataclass(frozen=True)
class Length:
    """A length that is made, how much it stands out, and whether that lies in the band of the tail."""

    name: str
    length_mm: float
    stands_out_mm: float
    enough: bool
    too_much: bool

    @property
    def good(self):
        """Neither too short for a sound head nor too long to be driven straight."""
        return self.enough and not self.too_much


def judge_length(length_mm, grip, diameter_mm, tail="flat", name=""):
    """What a length leaves beyond the grip, against the band of the tail (flat: 1.3 to 1.7 D).

    Refused: a rivet that does not reach through. Band: common practice, no source.

    >>> judge_length(8, 2.6, 4).stands_out_mm, judge_length(8, 2.6, 4).good, judge_length(10, 2.6, 4).too_much
    (5.4, True, True)
    """
    one_number("length_mm", length_mm, above=0)
    out = length_mm - one_number("grip", grip, above=0)
    if out <= 0:
        refuse("length_mm", length_mm, f"does not reach through a grip of {grip:g} mm", "was one sheet left out?")
    row = table("rivet_tails").row(tail)
    least, most = (row[f"{end}_d"] * one_number("diameter_mm", diameter_mm, above=0) for end in ("least", "most"))
    return Length(name or f"{length_mm:g} mm", length_mm, round(out, 9), out >= least - 1e-9, out > most + 1e-9)


def made_length(grip, diameter_mm, tail="flat", system="metric"):
    """The length that is made nearest to the wanted one: list of DIN 660, or sixteenths of an inch.

    One inside the band of the tail comes before a nearer one outside; of two as near, the longer.

    >>> made_length(2.6, 4).name, made_length(2.6, 3.175, system="inch").name
    ('8 mm', '5/16 in')
    """
    wanted = wanted_length_mm(grip, diameter_mm, tail)
    made = _made(system)
    if wanted > max(made.values()) * 1.05:
        refuse("length", wanted, f"is longer than any made here, {max(made.values()):g} mm", "take a bolt or refer")
    judged = [judge_length(size, grip, diameter_mm, tail, name) for name, size in made.items() if size > grip]
    return min(judged, key=lambda one: (not one.good, round(abs(one.length_mm - wanted), 6), -one.length_mm))


def _made(system):
    if system == "metric":
        return {name: row["length_mm"] for name, row in table("rivet_lengths").rows.items()}
    if system != "inch":
        refuse("system", system, "must be 'metric' or 'inch'")
    return {_inches(sixteenths): round(sixteenths / 16 * INCH_MM, 4) for sixteenths in range(2, 49)}


def _inches(sixteenths):
    whole, parts = divmod(sixteenths, 16)
    part = Fraction(parts, 16)
    return " ".join(text for text in (f"{whole}" if whole else "", f"{part}" if parts else "") if text) + " in"


def formed_width_mm(stands_out_mm, height_mm, grip, shank_mm, hole_mm):
    """Width of a flat head formed to a height, from the metal that is there: a picture by equal volume.

    What stands out first fills the hole: out - grip ((dh/d)^2 - 1); the rest becomes a cylinder, w = d sqrt(rest/h).
    Real heads bulge a little. Refused: nothing left, a hole smaller than the shank. Geometry; no source.

    >>> round(formed_width_mm(6, 2.5, 2.6, 4, 4.1), 2)
    6.13
    """
    one_number("shank_mm", shank_mm, above=0)
    one_number("hole_mm", hole_mm, at_least=shank_mm, cause="the rivet would not enter")
    rest = one_number("stands_out_mm", stands_out_mm, above=0)
    rest -= one_number("grip", grip, above=0) * ((hole_mm / shank_mm) ** 2 - 1)
    one_number("metal left", rest, above=0, cause="filling the hole takes all of it: the hole is too large")
    return shank_mm * math.sqrt(rest / one_number("height_mm", height_mm, above=0))
