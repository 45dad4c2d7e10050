"""Look-alikes: which threads a measured screw may still be, what to measure next, and how far a wrong pair goes.
"""

import math
from dataclasses import dataclass

from workbench.refusals import refuse
from workbench.tables import table
from workbench.threads.known_threads import KnownThread, known_threads
from workbench.threads.measured import Measured


def possible(major=None, pitch=None, angle=None, taper=None):
    """All known threads that the measurements leave possible, the nearest in diameter first.

    major, pitch: Measured, in mm; angle: Measured, degrees between the flanks; taper: Measured, change of diameter
    a length along. What was not measured excludes nothing. A thread stays possible when value ± uncertainty meets
    its sizes (see known_threads for the band over the crests).

    >>> found = possible(Measured(7.87, 0.02), Measured(1.25, 0.02))
    >>> [one.name for one in found]
    ['M8', 'MJ8x1.25']
    """
    given = {"major": major, "pitch": pitch, "angle": angle, "taper": taper}
    for name, value in given.items():
        if value is not None and not isinstance(value, Measured):
            refuse(name, value, "must be Measured(value, uncertainty)", "with which instrument was it measured?")
    if all(value is None for value in given.values()):
        refuse("measurements", None, "at least one must be given", "measure over the crests first")
    found = [one for one in known_threads()
             if all(value is None or value.meets(*_shows(one, name)) for name, value in given.items())]
    return tuple(sorted(found, key=lambda one: abs(one.major_mm - major.value)) if major else found)


def _shows(one, what):
    """Least and largest value that a good screw of this thread shows."""
    if what == "major":
        low, high = one.crest_band_mm
        return (low - one.taper * 4 * one.pitch_mm, high + one.taper * 4 * one.pitch_mm) if one.taper else (low, high)
    if what == "pitch":
        return one.pitch_mm, one.pitch_mm
    if what == "angle":
        return one.profile.thread_angle_deg, one.profile.thread_angle_deg
    if what == "taper":
        return one.taper, one.taper
    row = one.profile.row
    if row["root_radius_most"]:
        return row["root_radius_least"] * one.pitch_mm, row["root_radius_most"] * one.pitch_mm
    return one.profile.root_radius_mm, one.profile.root_radius_mm


@dataclass(frozen=True)
class NextStep:
    """The measurement that parts the candidates best: the way, how to do it, and the groups that remain."""

    way: str
    how: str
    groups: tuple


def _groups(threads, what, uncertainty):
    """Threads that the measurement cannot part, together; in the order of what they show."""
    spans = sorted(((*_shows(one, what), one) for one in threads), key=lambda span: span[:2])
    groups, reach = [], -math.inf
    for low, high, one in spans:
        if low - uncertainty > reach + uncertainty + 1e-9:
            groups.append([])
        groups[-1].append(one)
        reach = max(reach, high)
    return tuple(tuple(group) for group in groups)


def next_measurement(threads):
    """The measurement that leaves the smallest largest group; the simpler one where two do equally well.

    threads: two or more candidates, as from `possible`. None where no way of the table `thread_instruments`
    parts any of them.

    >>> from workbench.threads.known_threads import known_thread
    >>> step = next_measurement((known_thread("M8"), known_thread("5/16-18 UNC")))
    >>> step.way, [[one.name for one in group] for group in step.groups]
    ('pitch leaf', [['M8'], ['5/16-18 UNC']])
    """
    threads = tuple(threads)
    if len(threads) < 2 or not all(isinstance(one, KnownThread) for one in threads):
        refuse("threads", threads, "must be two or more known threads", "with one candidate nothing is left to part")
    best, least = None, len(threads)
    for row in table("thread_instruments").rows.values():
        groups = _groups(threads, row["tells"], row["uncertainty"])
        largest = max(len(group) for group in groups)
        if largest < least:
            best, least = NextStep(row["way"], row["how"], groups), largest
    if best is None and len(threads) > 2:  # some way may split one off without shrinking the largest group
        for row in table("thread_instruments").rows.values():
            groups = _groups(threads, row["tells"], row["uncertainty"])
            if len(groups) > 1:
                return NextStep(row["way"], row["how"], groups)
    return best


@dataclass(frozen=True)
class WrongPair:
    """How far a screw of one thread goes into a nut of another: turns (inf: all the way), and why it stops there."""

    turns: float
    why: str


def turns_before_binding(screw, nut):
    """Turns that a screw makes in a nut of another thread before it binds: axial play / difference of pitch.

    Both parts are taken from the middle of a medium fit (see known_threads). Play along the axis = clearance at
    the pitch diameter x tan(mean flank angle) - depth of engagement x difference of the two tangents. Each turn
    brings one more pair of ridges together, out of step by one difference of pitch more. Geometry; no source.

    >>> from workbench.threads.known_threads import known_thread
    >>> pair = turns_before_binding(known_thread("5/16-18 UNC"), known_thread("M8"))
    >>> round(pair.turns, 1), pair.why
    (1.2, 'the pitches differ by 0.161 mm: ridge after ridge falls out of step until the flanks wedge')
    """
    for name, one in (("screw", screw), ("nut", nut)):
        if not isinstance(one, KnownThread):
            refuse(name, one, "must be a known thread", "as from known_thread('M8')")
    outer, inner = screw.profile, nut.profile
    tolerance = (screw.pitch_tolerance_mm + 1.32 * nut.pitch_tolerance_mm) / 2
    crest = screw.usual_crest_mm
    if crest <= inner.nut_minor_mm:
        return WrongPair(math.inf, "the screw is smaller than the bore of the nut: it slips through and holds nothing")
    if crest > inner.nut_major_mm + 0.07 * nut.pitch_mm:  # half of what ISO 965-1 leaves at the root of a nut
        return WrongPair(0.0, "the crests of the screw are larger than the grooves of the nut: it does not enter")
    clearance = inner.pitch_diameter_mm - outer.pitch_diameter_mm + screw.allowance_mm + tolerance
    slopes = [math.tan(math.radians(one.thread_angle_deg / 2)) for one in (outer, inner)]
    depth = min(crest, inner.nut_major_mm) / 2 - max(inner.nut_minor_mm, outer.screw_minor_mm) / 2
    play = clearance * sum(slopes) / 2 - max(depth, 0) * abs(slopes[0] - slopes[1])
    if play <= 0:
        return WrongPair(0.0, "the ridges are wider than the grooves: it jams at the first thread")
    mismatch = abs(screw.pitch_mm - nut.pitch_mm)
    if mismatch < 1e-9:
        return WrongPair(math.inf, "the pitches are equal: it runs on, though fit, flank angle or root may be wrong")
    return WrongPair(play / mismatch, f"the pitches differ by {mismatch:.3f} mm: ridge after ridge falls out of step "
                     "until the flanks wedge")
