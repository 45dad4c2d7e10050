"""Go and not-go gauging of a thread: a simulated part, its virtual pitch diameter, what each gauge does.

Taylor's principle: the go gauge has the full form and full length and tests everything at once, at maximum material;
the not-go gauge is short with cut-back crests and tests one thing, the pitch diameter, at minimum material.
Gauges here are perfect and have the limits of the part; real ones have tolerances and wear of their own (ISO 1502).
"""

import math
from dataclasses import dataclass

from workbench.refusals import numbers, one_number, refuse

# turns that a not-go may start on a good part: ISO 1502 not more than two, ASME B1.2 not more than three
NOT_GO_TURNS = {"ISO 1502": 2, "ASME B1.2": 3}


def pitch_error_effect(pitch_error, flank_deg=30):
    """How much a pitch error changes the virtual pitch diameter: |dp| / tan a; 1.732 dp at 60 degrees.

    pitch_error: error of pitch between any two threads of the engaged length, unit of the result; flank_deg: flank
    angle, above 0. Always against assembly: a screw acts larger, a nut smaller. Numbers or arrays.
    Source: geometry; 1.92 dp for the 55 degree thread in metrology texts.

    >>> round(pitch_error_effect(0.02), 6)
    0.034641
    """
    numbers("pitch_error", pitch_error)
    one_number("flank_deg", flank_deg, above=0, at_most=60, cause="was the included angle given? halve it")
    return abs(pitch_error) / math.tan(math.radians(flank_deg))


def flank_error_effect(depth, flank_errors_deg, flank_deg=30):
    """How much wrong flank angles change the virtual pitch diameter: depth (|e1| + |e2|) / sin 2a, e in radian.

    depth: height of straight flank in contact, half above, half below the pitch line, > 0; flank_errors_deg: the errors
    of the two flanks, small (below 5 degrees); flank_deg as before. Always against assembly.
    Source: geometry (each flank turns about the pitch line and bears at one end).

    >>> round(flank_error_effect(0.541266, (1, 0)), 5)
    0.01091
    """
    numbers("depth", depth, above=0)
    one_number("flank_deg", flank_deg, above=0, at_most=60, cause="was the included angle given? halve it")
    for error in flank_errors_deg:
        numbers("flank_errors_deg", error, at_least=-5, at_most=5, cause="was the angle given in place of its error?")
    total = sum(abs(error) for error in flank_errors_deg)
    return depth * total * math.pi / 180 / math.sin(math.radians(2 * flank_deg))


@dataclass(frozen=True)
class Part:
    """A made thread: diameters, pitch, its errors, all in one unit (angles in degrees).

    pitch_diameter: the simple one, over a groove as wide as the ridge; pitch_error: largest between any two of the
    engaged threads; engaged_pitches: how many pitches the full-length gauge covers; flank_errors_deg: of both flanks;
    start_turns: turns at the end, thinner than the rest, that a not-go gauge may find. Refused: diameters out of
    order.
    """

    major: float
    pitch_diameter: float
    minor: float
    pitch: float
    inside: bool = False
    pitch_error: float = 0.0
    engaged_pitches: float = 8
    flank_errors_deg: tuple = (0.0, 0.0)
    start_turns: float = 0.0
    flank_deg: float = 30

    def __post_init__(self):
        for name in ("major", "pitch_diameter", "minor", "pitch", "engaged_pitches"):
            one_number(name, getattr(self, name), above=0)
        one_number("start_turns", self.start_turns, at_least=0)
        if not self.minor < self.pitch_diameter < self.major:
            refuse("minor, pitch_diameter, major", (self.minor, self.pitch_diameter, self.major), "must rise",
                   "were two diameters swapped?")

    @property
    def contact_depth(self):
        """Straight flank that the mating thread can touch: 5/8 of H, not more than the part's own depth."""
        return min(5 / 8 * self.pitch / (2 * math.tan(math.radians(self.flank_deg))), (self.major - self.minor) / 2)

    def virtual_pitch_diameter(self, pitches=None):
        """Pitch diameter of the perfect mating thread that just assembles over a number of pitches.

        A screw: simple + pitch effect + flank effect; a nut: simple - both. pitches: length of the mating thread, all
        that are engaged when left out; a shorter one meets its share of the pitch error.

        >>> bolt = Part(9.9, 8.95, 8.2, 1.5, pitch_error=0.02)
        >>> round(bolt.virtual_pitch_diameter(), 3)
        8.985
        """
        share = 1 if pitches is None else min(1, pitches / self.engaged_pitches)
        effect = pitch_error_effect(self.pitch_error * share, self.flank_deg)
        effect += flank_error_effect(self.contact_depth, self.flank_errors_deg, self.flank_deg)
        return self.pitch_diameter - effect if self.inside else self.pitch_diameter + effect


def go_enters(part, limits, pitches=None):
    """Whether the go gauge of these limits goes on: virtual pitch diameter and the root are clear of it.

    pitches: length of the gauge; left out, it is as long as the engagement, as it has to be. A shorter go
    gauge overlooks part of the pitch error. Refused: a screw against limits of a nut.
    """
    _same_kind(part, limits)
    virtual = part.virtual_pitch_diameter(pitches)
    if part.inside:
        return bool(virtual >= limits.pitch.low and part.major >= limits.major.low)
    return bool(virtual <= limits.pitch.high and (limits.minor.high is None or part.minor <= limits.minor.high))


def not_go_turns(part, limits, full_form=False):
    """Turns that the not-go gauge goes on: infinity where it runs right through, else those of the thin start.

    It runs through where the simple pitch diameter is beyond minimum material. full_form=True shows the wrong gauge, a
    not-go of full form and length: it feels pitch and flank errors too and may refuse to enter a part that is too thin.

    >>> from workbench.threads.limits_metric import metric_limits
    >>> not_go_turns(Part(9.9, 8.85, 8.1, 1.5), metric_limits(10, 1.5, "6g"))
    inf
    """
    _same_kind(part, limits)
    size = part.virtual_pitch_diameter() if full_form else part.pitch_diameter
    beyond = size > limits.pitch.high if part.inside else size < limits.pitch.low
    return math.inf if beyond else part.start_turns


def not_go_accepts(turns, rule="ISO 1502"):
    """Whether a not-go that went on for so many turns accepts the part: two turns by ISO 1502, three by ASME B1.2.

    Refused: negative turns, another rule. Source: ISO 1502 and ASME B1.2, both as read in gauge makers' summaries
    ("not more than two", "not more than three complete turns").

    >>> not_go_accepts(2.5), not_go_accepts(2.5, "ASME B1.2")
    (False, True)
    """
    if rule not in NOT_GO_TURNS:
        refuse("rule", rule, "must be one of " + ", ".join(NOT_GO_TURNS), "metric parts: ISO 1502; Unified: ASME B1.2")
    if not turns >= 0:
        refuse("turns", turns, "must be 0 or more", "count the turns from first grip")
    return turns <= NOT_GO_TURNS[rule]


@dataclass(frozen=True)
class Inspection:
    """What the gauges say of a part: each gauge, and the reasons against it (none = accepted)."""

    go: bool
    not_go_turns: float
    crest: bool
    reasons: tuple

    @property
    def accepted(self):
        """True where no gauge speaks against the part."""
        return not self.reasons


def inspect(part, limits, rule="ISO 1502"):
    """Go gauge, not-go gauge and plain crest gauge on a part, each with its reason where it speaks against it.

    Crest: major diameter of a screw, minor diameter of a nut, within its band. Source: ISO 1502, ASME B1.2.

    >>> from workbench.threads.limits_metric import metric_limits
    >>> inspect(Part(9.9, 8.95, 8.2, 1.5, pitch_error=0.05), metric_limits(10, 1.5, "6g")).reasons
    ('go gauge does not go on: virtual pitch diameter 9.037 is above 8.994',)
    """
    turns = not_go_turns(part, limits)
    go = go_enters(part, limits)
    band, size, name = ((limits.minor, part.minor, "minor") if part.inside else (limits.major, part.major, "major"))
    crest = bool(band.holds(size))
    reasons = []
    if not go:
        reasons.append("go gauge does not go on: " + _why_not_go(part, limits))
    if not not_go_accepts(turns, rule):
        went = "runs through" if math.isinf(turns) else f"goes on {turns:g} turns"
        reasons.append(f"not-go gauge {went}: {rule} permits {NOT_GO_TURNS[rule]}")
    if not crest:
        reasons.append(f"{name} diameter {size:g} is outside {band.low:g} to {band.high:g}")
    return Inspection(go, turns, crest, tuple(reasons))


def _why_not_go(part, limits):
    virtual = part.virtual_pitch_diameter()
    if part.inside:
        if virtual < limits.pitch.low:
            return f"virtual pitch diameter {virtual:.3f} is below {limits.pitch.low:.3f}"
        return f"root {part.major:g} is below {limits.major.low:g}"
    if virtual > limits.pitch.high:
        return f"virtual pitch diameter {virtual:.3f} is above {limits.pitch.high:.3f}"
    return f"root {part.minor:g} is above {limits.minor.high:g}"


def _same_kind(part, limits):
    if part.inside != limits.inside:
        refuse("limits", limits.tolerance_class, "must belong to the same kind as the part",
               "rings gauge screws (small letters, A), plugs gauge nuts (capitals, B)")
