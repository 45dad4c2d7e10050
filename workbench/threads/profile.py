"""The profile of a thread: every dimension that follows from form, major diameter, pitch and starts.

The pitch line parts ridge and groove into equal widths. All heights are counted from it: outward to the
crest of the screw and the root of the nut, inward to the root of the screw and the crest of the nut.
`profile("metric", 10, 1.5)` gives one; a form is a row of the table `thread_forms`, whose column `shape`
names the class (see forms.py) that knows how its outline runs.
"""

import math
from dataclasses import dataclass

from workbench.refusals import numbers, refuse, whole
from workbench.tables import table
from workbench.threads.outline import pieces

_SHAPES = {}


def shape(name):
    """Class decorator: the subclass of Profile serves the forms whose row says this shape."""

    def enter(kind):
        _SHAPES[name] = kind
        return kind

    return enter


def forms():
    """The names of all forms of the library.

    >>> forms()[:3]
    ('metric', 'MJ', 'unified')
    """
    return tuple(table("thread_forms").rows)


def profile(form, major_mm, pitch_mm, starts=1, left_hand=False):
    """The profile of a thread: form, nominal major diameter d, pitch P (spacing of neighbouring ridges), starts.

    major_mm, pitch_mm: > 0, numbers or arrays that broadcast; starts: whole, 1 or more. Refused: unknown
    forms, pitches that the form's standard does not give, a root that would reach the axis.
    Sources: the column `standard` of the table `thread_forms`.

    >>> round(profile("metric", 10, 1.5).pitch_diameter_mm, 3)
    9.026
    >>> profile("metric", 1.5, 10)
    Traceback (most recent call last):
    ...
    ValueError: pitch_mm = 10: is too coarse for a major diameter of 1.5 mm; were diameter and pitch swapped?
    """
    import workbench.threads.forms  # noqa: F401 - enters the shapes on first use

    row = table("thread_forms").row(form)
    return _SHAPES[row["shape"]](form, major_mm, pitch_mm, starts, left_hand)


def lead_angle_deg(lead_mm, diameter_mm):
    """Angle of the helix against a plane across the axis: atan(lead / (pi x diameter)).

    >>> round(lead_angle_deg(3, 15.026), 4)
    3.6364
    """
    slope = numbers("lead_mm", lead_mm, above=0) / (math.pi * numbers("diameter_mm", diameter_mm, above=0))
    if getattr(slope, "shape", ()) == ():
        return math.degrees(math.atan(slope))
    import numpy

    return numpy.degrees(numpy.arctan(slope))


@dataclass(frozen=True)
class Profile:
    """What all forms share. A shape gives the four heights, the flank angles and the corners of the outline."""

    form: str
    major_mm: float
    pitch_mm: float
    starts: int
    left_hand: bool

    def __post_init__(self):
        numbers("major_mm", self.major_mm, above=0)
        numbers("pitch_mm", self.pitch_mm, above=0, cause="is it in threads an inch? pitch = 25.4 / n mm")
        whole("starts", self.starts, cause="count the beginnings of the thread at the end face")
        deep = self.screw_minor_mm <= 0
        if getattr(deep, "any", lambda: deep)():
            rule = f"is too coarse for a major diameter of {self.major_mm} mm"
            refuse("pitch_mm", self.pitch_mm, rule, "were diameter and pitch swapped?")

    @property
    def row(self):
        """The row of the form library."""
        return table("thread_forms").row(self.form)

    @property
    def lead_mm(self):
        """Advance for one turn: pitch x starts."""
        return self.pitch_mm * self.starts

    @property
    def pitch_diameter_mm(self):
        """d2 = D2: where ridge and groove are equally wide."""
        return self.major_mm - 2 * self.screw_crest_mm

    @property
    def screw_minor_mm(self):
        """d3: the root of the screw."""
        return self.pitch_diameter_mm - 2 * self.screw_root_mm

    @property
    def nut_major_mm(self):
        """D4 (D where there is no clearance): the root of the nut."""
        return self.pitch_diameter_mm + 2 * self.nut_root_mm

    @property
    def nut_minor_mm(self):
        """D1: the bore of the nut."""
        return self.pitch_diameter_mm - 2 * self.nut_crest_mm

    @property
    def screw_depth_mm(self):
        """h3: depth of the thread of the screw, on the radius."""
        return self.screw_crest_mm + self.screw_root_mm

    @property
    def nut_depth_mm(self):
        """H4: depth of the thread of the nut, on the radius."""
        return self.nut_crest_mm + self.nut_root_mm

    @property
    def engagement_mm(self):
        """H1: depth over which screw and nut overlap, on the radius: (d - D1) / 2."""
        return self.screw_crest_mm + self.nut_crest_mm

    @property
    def lead_angle_deg(self):
        """Lead angle at the pitch diameter."""
        return lead_angle_deg(self.lead_mm, self.pitch_diameter_mm)

    @property
    def contact_area_mm2(self):
        """Area on which one turn of one ridge bears, seen along the axis: pi / 4 (d^2 - D1^2)."""
        return math.pi / 4 * (self.major_mm**2 - self.nut_minor_mm**2)

    def flank_deg(self, side="load"):
        """Angle of a flank against a plane across the axis; side 'load' (towards the head) or 'clearance'."""
        if side not in ("load", "clearance"):
            refuse("side", side, "must be 'load' or 'clearance'", "which flank carries the thrust?")
        return self.load_flank_deg if side == "load" else self.clearance_flank_deg

    def outline(self, of="screw"):
        """Lines and arcs of one pitch in the section through the axis; of 'screw' or 'nut'.

        The ridge of the screw stands about x = 0 with its load flank on the side of the head (smaller x).
        """
        if of not in ("screw", "nut"):
            refuse("of", of, "must be 'screw' or 'nut'")
        return pieces(self.screw_corners() if of == "screw" else self.nut_corners(), self.pitch_mm)
