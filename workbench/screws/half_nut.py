"""Half nuts: a nut split along its axis, whose halves close on a screw that may be turning.

Sloping flanks let the crests find the grooves and take up wear; in return the load pushes the halves apart. Only
slopes do both: a square thread does neither. `thread` is a Profile; `side` is the flank that carries, 'load' or
'clearance'. A half reaches `wrap_deg` round the screw (180: the full half). Friction is not counted: while the screw
turns it acts along the thread and holds nothing shut. Geometry and mechanics of the wedge; no source.
"""

import math
from dataclasses import dataclass

from workbench.refusals import numbers, one_number, refuse, whole
from workbench.screws.power import ramp
from workbench.screws.screw_stress import flank_pressure_mpa
from workbench.threads.flank import radial_load_n
from workbench.threads.profile import Profile

FULL_FROM_DEG = 60  # clear angle from which full halves with eased edges work: common practice, no source


def _slopes(thread):
    if not isinstance(thread, Profile):
        refuse("thread", thread, "must be a Profile", "as from profile('trapezoidal', 20, 4)")
    return [math.tan(math.radians(thread.flank_deg(side))) for side in ("load", "clearance")]


def _wrap(wrap_deg):
    return one_number("wrap_deg", wrap_deg, above=0, at_most=180, cause="one half reaches half round at most")


def entry_window_mm(thread):
    """How far along the axis the screw may stand wrong and a crest still enters its groove: H1 (tan a + tan b).

    The groove is so much wider at its mouth than the crest of the nut. Square: 0.

    >>> from workbench.threads.profile import profile
    >>> round(entry_window_mm(profile("trapezoidal", 20, 4)), 3)
    1.072
    """
    slopes = _slopes(thread)
    return thread.engagement_mm * sum(slopes)


def clear_angle_deg(thread):
    """How far from its middle a half draws straight off the screw: atan(tan(steeper flank) / ramp).

    Beyond it the thread climbs faster sideways than the flank gives way, and the edge catches. Either side of the
    middle, at most 90; one thread.

    >>> from workbench.threads.profile import profile
    >>> round(clear_angle_deg(profile("trapezoidal", 20, 4)), 1)
    75.2
    """
    return math.degrees(math.atan2(min(_slopes(thread)), one_number("ramp", ramp(thread))))


@dataclass(frozen=True)
class Closing:
    """Whether a nut in halves closes on a form: standing "full halves", "narrow halves" or "none", and why."""

    standing: str
    says: str
    entry_window_mm: float
    clear_angle_deg: float


_SAYS = {
    "full halves": "Both flanks slope: the crests find their grooves, and closing further takes up wear.",
    "narrow halves": "One flank is too steep for its lead: only narrow halves draw off, and they bear little.",
    "none": "A square flank gives no way: crest and groove must stand exactly right, and wear stays.",
}


def closing(thread):
    """Which half nut a form allows.

    >>> from workbench.threads.profile import profile
    >>> [closing(profile(form, 20, 4)).standing for form in ("trapezoidal", "buttress 3/30", "square")]
    ['full halves', 'narrow halves', 'none']
    """
    clear = clear_angle_deg(thread)
    standing = "none" if clear == 0 else "narrow halves" if clear < FULL_FROM_DEG else "full halves"
    return Closing(standing, _SAYS[standing], entry_window_mm(thread), clear)


def spreading_force_n(axial_n, thread, side="load", wrap_deg=180, halves=2):
    """Force that each half is pushed away with, and that its latch must hold: share x tan(flank) x sin(w) / w.

    share: the outward push of the thrust that one half carries, F tan(flank) / halves; w: half of the wrap, in
    radians. Two full halves: F tan(flank) / pi each. halves: 1 (the other side of the screw bears on nothing and is
    bent) or 2. axial_n: 0 or more.

    >>> from workbench.threads.profile import profile
    >>> tr = profile("trapezoidal", 20, 4)
    >>> round(spreading_force_n(10000, tr), 1), round(spreading_force_n(10000, tr, halves=1), 1)
    (852.9, 1705.8)
    """
    _slopes(thread)
    count = whole("halves", halves, at_most=2, cause="a nut has two halves; some lathes close only one")
    reach = math.radians(_wrap(wrap_deg)) / 2
    return radial_load_n(axial_n, thread.flank_deg(side)) / count * math.sin(reach) / reach


def greatest_axial_n(latch_n, thread, side="load", wrap_deg=180, halves=2):
    """Thrust at which a latch that holds so much on each half is pushed open: the inverse of `spreading_force_n`.

    Refused for a square flank, which pushes nothing open.

    >>> from workbench.threads.profile import profile
    >>> round(greatest_axial_n(852.9, profile("trapezoidal", 20, 4)))
    10000
    """
    per_newton = spreading_force_n(1, thread, side, wrap_deg, halves)
    if not per_newton:
        refuse("side", side, "does not push the halves apart", "a square flank has no outward push")
    return numbers("latch_n", latch_n, above=0) / per_newton


def half_nut_pressure_mpa(load_n, thread, length_mm, wrap_deg=180, halves=2):
    """Pressure on the flanks: that of the whole nut, times 360 / (halves x wrap).

    length_mm: at least one pitch.

    >>> from workbench.threads.profile import profile
    >>> round(half_nut_pressure_mpa(8000, profile("trapezoidal", 20, 4), 36, wrap_deg=120), 2)
    11.79
    """
    count = whole("halves", halves, at_most=2, cause="a nut has two halves; some lathes close only one")
    return flank_pressure_mpa(load_n, thread, length_mm) * 360 / (count * _wrap(wrap_deg))


def play_taken_up_mm(closing_mm, thread):
    """Axial play that closing each half by so much takes up: s (tan a + tan b), at its middle.

    closing_mm s: radial way of one half, from 0 to the crest clearance; then crest meets root and nothing is left.

    >>> from workbench.threads.profile import profile
    >>> round(play_taken_up_mm(0.25, profile("trapezoidal", 20, 4)), 3)
    0.134
    """
    slopes = _slopes(thread)
    most = thread.crest_clearance_mm
    beyond = numbers("closing_mm", closing_mm, at_least=0) > most + 1e-9
    if getattr(beyond, "any", lambda: beyond)():
        refuse("closing_mm", closing_mm, f"is more than the crest clearance ({most:g} mm)",
               "crest and root touch, and the flanks do not close any further")
    return closing_mm * sum(slopes)


def closing_for_mm(play_mm, thread):
    """How far to close each half so that axial play is gone: b / (tan a + tan b).

    Refused for square flanks, and where the crest clearance is used up first: such a nut is worn out.

    >>> from workbench.threads.profile import profile
    >>> round(closing_for_mm(0.1, profile("trapezoidal", 20, 4)), 3)
    0.187
    """
    slope = sum(_slopes(thread))
    if not slope:
        refuse("thread", thread.form, "has square flanks", "closing the halves takes up no play; renew the nut")
    way = numbers("play_mm", play_mm, at_least=0) / slope
    play_taken_up_mm(way, thread)
    return way


def play_mm(gap_mm, thread):
    """Axial play of a nut whose pitch diameter is larger than the screw's by a gap: gap / 2 (tan a + tan b).

    gap_mm: on the diameter, 0 or more (allowance, and what has worn off at right angles to the axis).

    >>> from workbench.threads.profile import profile
    >>> round(play_mm(0.3, profile("trapezoidal", 20, 4)), 4)
    0.0804
    """
    return numbers("gap_mm", gap_mm, at_least=0) / 2 * sum(_slopes(thread))


def lost_turn_deg(axial_play_mm, thread):
    """Angle through which the screw turns before the nut moves back: 360 b / L.

    >>> from workbench.threads.profile import profile
    >>> round(lost_turn_deg(0.1, profile("trapezoidal", 20, 4)), 9)
    9.0
    """
    _slopes(thread)
    return 360 * numbers("axial_play_mm", axial_play_mm, at_least=0) / thread.lead_mm
