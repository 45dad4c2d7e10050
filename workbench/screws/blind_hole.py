"""A screw in a tapped blind hole: how deep to drill, how much thread holds, and whether the screw stops on the ground.

Lengths in mm. Sources: geometry; lead of a tap 4 pitches (taper 8, bottoming 2) and a drill point of 118 deg are
common practice, no source.
"""

import math
from dataclasses import dataclass

from workbench.refusals import numbers, one_number, refuse

POINT_DEG = 118.0
TAP_LEADS = {"taper": 8, "plug": 4, "bottoming": 2}


def point_height_mm(drill_mm, point_deg=POINT_DEG):
    """Height of a drill point: drill / (2 tan(point / 2)).

    >>> round(point_height_mm(8.5), 3)
    2.554
    """
    one_number("point_deg", point_deg, at_least=60, at_most=170, cause="the whole angle of the point, usually 118")
    return numbers("drill_mm", drill_mm, above=0) / (2 * math.tan(math.radians(point_deg / 2)))


def drill_depth_mm(full_thread_mm, pitch_mm, drill_mm, lead_pitches=4, point_deg=POINT_DEG):
    """Depth to the tip of the drill: full thread + tap lead x P + point height.

    lead_pitches: unfinished threads of the tap, see `TAP_LEADS`.

    >>> round(drill_depth_mm(15, 1.5, 8.5), 3)
    23.554
    """
    full = numbers("full_thread_mm", full_thread_mm, above=0)
    lead = numbers("lead_pitches", lead_pitches, at_least=0) * numbers("pitch_mm", pitch_mm, above=0)
    return full + lead + point_height_mm(drill_mm, point_deg)


def full_thread_mm(depth_mm, pitch_mm, drill_mm, lead_pitches=4, point_deg=POINT_DEG):
    """Full thread in a hole of that depth to the tip; refused where nothing is left.

    >>> round(full_thread_mm(23.554, 1.5, 8.5), 3)
    15.0
    """
    lost = lead_pitches * one_number("pitch_mm", pitch_mm, above=0) + point_height_mm(drill_mm, point_deg)
    left = one_number("depth_mm", depth_mm, above=0) - lost
    return one_number("full thread", left, above=0, cause=f"tap lead and drill point take {lost:.1f} mm")


@dataclass(frozen=True)
class ScrewInHole:
    """A screw through parts into a blind hole.

    length_mm under the head; thread_mm from the end, at most the length; grip_mm: parts and washers above the hole;
    full_thread_mm: of the hole. Refused: less than one pitch engaged.

    >>> ScrewInHole(40, 26, 1.5, 20, 15).gap_mm
    5
    """

    length_mm: float
    thread_mm: float
    pitch_mm: float
    grip_mm: float
    full_thread_mm: float

    def __post_init__(self):
        one_number("length_mm", self.length_mm, above=0)
        one_number("pitch_mm", self.pitch_mm, above=0)
        one_number("thread_mm", self.thread_mm, above=0, at_most=self.length_mm,
                   cause="the thread is part of the length")
        one_number("grip_mm", self.grip_mm, above=0)
        one_number("full_thread_mm", self.full_thread_mm, above=0)
        if self.engaged_mm < self.pitch_mm:
            refuse("length_mm", self.length_mm,
                   f"leaves {self.engaged_mm:g} mm engaged, under one pitch ({self.pitch_mm:g} mm)",
                   "the screw is too short for its parts")

    @property
    def engaged_mm(self):
        """Thread that holds."""
        return min(self.length_mm - self.grip_mm, self.full_thread_mm)

    @property
    def gap_mm(self):
        """How far the head is stopped short of the parts: by the end of the hole's thread, or of the screw's."""
        bottomed = self.length_mm - self.grip_mm - self.full_thread_mm
        return max(0.0, bottomed, self.length_mm - self.thread_mm - self.grip_mm)

    @property
    def clamps(self):
        """Whether the head presses the parts."""
        ends = self.length_mm - self.grip_mm < self.full_thread_mm
        return ends and self.length_mm - self.thread_mm < self.grip_mm

    def findings(self):
        """What is to be said, in sentences.

        >>> ScrewInHole(40, 26, 1.5, 20, 15).findings()[0][:57]
        'Torque but no clamp: the screw stops in the hole, 5.00 mm'
        """
        if self.clamps:
            return (f"The screw clamps, with {self.engaged_mm:.2f} mm of thread engaged.",)
        where = "in the hole" if self.length_mm - self.grip_mm >= self.full_thread_mm else "on its own shank"
        return (f"Torque but no clamp: the screw stops {where}, {self.gap_mm:.2f} mm too early. "
                "Take a shorter screw or a deeper thread, or add washers.",)
