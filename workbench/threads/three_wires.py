"""Pitch diameter over three wires, for any two flank angles, with and without correction for the lead angle.

Three equal wires lie in the grooves, two on one side, one on the other; the micrometer reads M over them. A
flank angle is taken from the normal to the axis: 30 degrees on a 60 degree thread, 7 and 45 on a buttress thread.
"""

import math
from dataclasses import dataclass

from workbench.refusals import numbers, one_number, refuse


@dataclass(frozen=True)
class Groove:
    """The groove between two flanks, as wide as the ridge at the pitch line.

    `depth` = P / (tan a + tan b): the sharp bottom lies depth / 2 below the pitch line. `seat` = cos((a - b)/2) /
    sin((a + b)/2): the centre of a circle of radius 1 that touches both flanks lies that far above the bottom.
    """

    pitch: object
    flank_deg: float
    other_flank_deg: float

    @property
    def depth(self):
        """Sharp groove depth, in the unit of the pitch."""
        return self.pitch / (_tan(self.flank_deg) + _tan(self.other_flank_deg))

    @property
    def seat(self):
        """Height of the centre of the unit circle above the sharp bottom."""
        return math.cos(math.radians(self.flank_deg - self.other_flank_deg) / 2) / math.sin(self._half)

    @property
    def mean_contact(self):
        """Mean height of the two contact points of the unit circle above the sharp bottom."""
        cosines = math.cos(math.radians(self.flank_deg)) + math.cos(math.radians(self.other_flank_deg))
        return cosines / 2 / math.tan(self._half)

    @property
    def _half(self):
        return math.radians(self.flank_deg + self.other_flank_deg) / 2


def groove(pitch, flank_deg=30, other_flank_deg=None):
    """The groove of a thread; pitch > 0 in any unit (number or array); flank angles 0 to 60 degrees, not both 0.

    other_flank_deg is left out where both flanks lean alike. Refused: a square thread, in which a wire
    touches no flank. Source: geometry.

    >>> round(groove(1.5).seat, 6)
    2.0
    """
    numbers("pitch", pitch, above=0, cause="with several starts give the pitch, not the lead")
    other = flank_deg if other_flank_deg is None else other_flank_deg
    for name, angle in (("flank_deg", flank_deg), ("other_flank_deg", other)):
        one_number(name, angle, at_least=0, at_most=60, cause="was the included angle given? halve it")
    if flank_deg + other == 0:
        refuse("flank_deg", flank_deg, "must leave a V for the wire", "a square thread cannot be measured over wires")
    return Groove(pitch, flank_deg, other)


def best_wire(pitch, flank_deg=30, other_flank_deg=None):
    """Wire diameter that touches at the pitch line, so that a wrong flank angle does least harm: W = P / (2 cos a).

    With unlike flanks one wire cannot touch both at the pitch line: the mean of its two contacts lies there (our
    own choice; with equal flanks the same formula). Unit of the pitch. Source: geometry; 0.57735 P at 60 degrees in
    workshop texts.

    >>> round(best_wire(1.5), 4)
    0.866
    """
    one = groove(pitch, flank_deg, other_flank_deg)
    return one.depth / one.mean_contact


def usable_wires(pitch, crest_height, flank_deg=30, other_flank_deg=None):
    """Smallest and largest wire that works: it must stand out above the crest and touch straight flanks.

    crest_height: crest above the pitch line on the radius, (d - d2)/2, above 0, unit of the pitch. The smallest
    wire is flush with the crests, the largest touches at the crest edge. Sharp limits of geometry: keep well inside
    them (`shop_wires`). Refused: a crest at or below the pitch line. Source: geometry.

    >>> [round(float(wire), 3) for wire in usable_wires(1, 0.32476)]
    [0.505, 1.01]
    """
    one = groove(pitch, flank_deg, other_flank_deg)
    numbers("crest_height", crest_height, above=0, cause="half of d - d2, in the unit of the pitch")
    crest = one.depth / 2 + crest_height
    cosine = max(math.cos(math.radians(one.flank_deg)), math.cos(math.radians(one.other_flank_deg)))
    return 2 * crest / (1 + one.seat), 2 * crest * math.tan(one._half) / cosine


def touches_at(wire, pitch, flank_deg=30, other_flank_deg=None):
    """Heights above the pitch line at which a wire touches the two flanks; minus: below it; unit of the pitch.

    h = W/2 (cos((a - b)/2) / sin((a + b)/2) - sin a) - P / (2 (tan a + tan b)), for the flank a, and with sin b for
    the other. wire above 0. Numbers or arrays. Source: geometry.

    >>> [round(height, 3) for height in touches_at(1.0, 1.5)]
    [0.101, 0.101]
    """
    numbers("wire", wire, above=0)
    one = groove(pitch, flank_deg, other_flank_deg)
    return tuple(wire / 2 * (one.seat - math.sin(math.radians(angle))) - one.depth / 2
                 for angle in (one.flank_deg, one.other_flank_deg))


def shop_wires(pitch):
    """Smallest and largest wire by the shop rule for 60 degree threads: 0.56 P and 0.90 P; pitch > 0.

    Well inside the sharp limits of `usable_wires`. Source: three-wire note of a machinists' society (0.560/N, 0.900/N).

    >>> [round(wire, 4) for wire in shop_wires(1 / 14)]
    [0.04, 0.0643]
    """
    numbers("pitch", pitch, above=0)
    return 0.56 * pitch, 0.90 * pitch


def over_wires(pitch_diameter, wire, pitch, flank_deg=30, other_flank_deg=None, lead=None):
    """Reading M over three wires of diameter W on a thread of pitch diameter d2, all in one unit.

    M = d2 - P / (tan a + tan b) + W (1 + cos((a - b)/2) / sin((a + b)/2)); at 60 degrees M = d2 + 3 W - 0.86603 P.
    lead: lead of the thread (pitch x starts); given, the correction for tilted wires is added (`lead_correction`).
    pitch_diameter, wire above 0. Numbers or arrays. Source: geometry; 60 degree form in workshop texts.

    >>> round(over_wires(9.026, 0.866, 1.5), 3)
    10.325
    """
    numbers("pitch_diameter", pitch_diameter, above=0)
    numbers("wire", wire, above=0)
    one = groove(pitch, flank_deg, other_flank_deg)
    correction = 0 if lead is None else lead_correction(pitch_diameter, wire, lead, flank_deg, other_flank_deg)
    return pitch_diameter - one.depth + wire * (1 + one.seat) + correction


def pitch_diameter_from(reading, wire, pitch, flank_deg=30, other_flank_deg=None, lead=None):
    """Pitch diameter from the reading M over three wires: `over_wires` turned round, same symbols.

    With a lead the correction is taken at the pitch diameter first found without it; its change is of the
    second order. Refused: a reading that leaves no pitch diameter.

    >>> round(pitch_diameter_from(10.325, 0.866, 1.5), 3)
    9.026
    """
    numbers("reading", reading, above=0)
    numbers("wire", wire, above=0)
    one = groove(pitch, flank_deg, other_flank_deg)
    found = reading + one.depth - wire * (1 + one.seat)
    numbers("pitch diameter found", found, above=0, cause="do reading, wire and pitch have one unit?")
    return found if lead is None else found - lead_correction(found, wire, lead, flank_deg, other_flank_deg)


def lead_correction(pitch_diameter, wire, lead, flank_deg=30, other_flank_deg=None):
    """What the tilt of the wires adds to the reading: c = W (seat in the normal section - seat in the axial section).

    The wire lies along the thread and meets the narrower normal section, tan a_n = tan a cos lam, with
    tan lam = lead / (pi d2); it rides higher. To first order, with equal flanks, c = W tan(lam)^2 cos(a) cot(a) / 2,
    the approximate correction of the handbooks. lead > 0 in the unit of the diameters. A straight cylinder seated in
    the helical groove rises 3 to 5 percent less than c, since its axis lies further out than d2: harmless at
    fastening threads, a few micrometres at screws of several starts.
    Refused: a lead angle over 15 degrees. Source: NBS Handbook H28 (from memory); checked by seating a cylinder.

    >>> round(lead_correction(9.026, 0.866, 1.5), 4)
    0.0018
    """
    numbers("lead", lead, above=0, cause="a left-hand thread has a positive lead too")
    tangent = lead / (math.pi * pitch_diameter)
    numbers("tangent of the lead angle", tangent, at_most=math.tan(math.radians(15)),
            cause="the short correction does not hold for so steep a thread")
    import numpy

    cosine = 1 / numpy.sqrt(1 + tangent**2)
    axial = groove(1, flank_deg, other_flank_deg)
    one, other = (numpy.arctan(_tan(angle) * cosine) for angle in (axial.flank_deg, axial.other_flank_deg))
    rise = wire * (numpy.cos((one - other) / 2) / numpy.sin((one + other) / 2) - axial.seat)
    return rise if getattr(rise, "shape", ()) else float(rise)


def _tan(angle_deg):
    return math.tan(math.radians(angle_deg))
