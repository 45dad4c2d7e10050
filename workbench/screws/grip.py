"""A bolt through parts: what lies where along it, and whether the nut clamps at all.

Lengths in mm, counted from under the head. The plain shank ends where full thread begins (length - thread length);
a nut cannot run past that place. Sources: ISO 888 (lengths); threads past the nut and thread in the parts are common
practice, no source.
"""

import math
from dataclasses import dataclass

from workbench.refusals import numbers, one_number, refuse
from workbench.tables import table

_FEWEST_PAST, _MOST_PAST = 1, 3  # threads past the nut: common practice, no source


def washers_needed(shank_mm, parts_mm, washer_mm):
    """Washers under the nut so that it clamps before it meets the end of the thread: (shank - parts) / washer, up.

    Where the division comes out whole one more is needed: a nut that only just touches clamps nothing.

    >>> washers_needed(30, 27, 1.6)
    2
    """
    over = one_number("shank_mm", shank_mm, at_least=0) - one_number("parts_mm", parts_mm, above=0)
    fill = one_number("washer_mm", washer_mm, above=0)
    return max(0, math.floor(round(over / fill, 9)) + 1)


def next_length_mm(grip_mm, nut_mm, pitch_mm, threads_past=2):
    """The next length of ISO 888 that leaves so many threads past the nut: grip + nut + n P, rounded up.

    >>> next_length_mm(22, 8.4, 1.5)
    35.0
    """
    needed = one_number("grip_mm", grip_mm, above=0) + one_number("nut_mm", nut_mm, above=0)
    needed += numbers("threads_past", threads_past, at_least=0) * one_number("pitch_mm", pitch_mm, above=0)
    for row in table("nominal_lengths").rows.values():
        if row["length_mm"] >= needed - 1e-9:
            return row["length_mm"]
    refuse("grip_mm", grip_mm, f"asks for a bolt of {needed:g} mm, longer than the table", "are the parts in mm?")


@dataclass(frozen=True)
class ThroughBolt:
    """A bolt with nut through a stack of parts.

    length_mm: under the head; thread_mm: thread length b from the end, at most the length; parts_mm: tuple, from the
    head on; head_washer_mm, nut_washer_mm: total thickness there. Refused: a bolt with less than one pitch in the nut.

    >>> ThroughBolt(60, 26, 1.5, (12, 15), 8.4).gap_mm
    7.0
    >>> ThroughBolt(60, 26, 1.5, (12, 15), 8.4).clamps
    False
    """

    length_mm: float
    thread_mm: float
    pitch_mm: float
    parts_mm: tuple
    nut_mm: float
    head_washer_mm: float = 0.0
    nut_washer_mm: float = 0.0

    def __post_init__(self):
        one_number("length_mm", self.length_mm, above=0)
        one_number("pitch_mm", self.pitch_mm, above=0)
        one_number("thread_mm", self.thread_mm, above=0, at_most=self.length_mm,
                   cause="the thread is part of the length")
        one_number("nut_mm", self.nut_mm, above=0)
        for name in ("head_washer_mm", "nut_washer_mm"):
            one_number(name, getattr(self, name), at_least=0)
        if not isinstance(self.parts_mm, tuple) or not self.parts_mm:
            refuse("parts_mm", self.parts_mm, "must be a tuple of thicknesses", "is a comma missing after one part?")
        for part in self.parts_mm:
            one_number("part_mm", part, above=0)
        if self.engaged_mm < self.pitch_mm:
            refuse("length_mm", self.length_mm,
                   f"leaves {self.engaged_mm:g} mm in the nut, under one pitch ({self.pitch_mm:g} mm)",
                   "the bolt is too short for its stack")

    @property
    def grip_mm(self):
        """Everything between head and nut: washers and parts."""
        return self.head_washer_mm + sum(self.parts_mm) + self.nut_washer_mm

    @property
    def shank_mm(self):
        """Plain length under the head."""
        return self.length_mm - self.thread_mm

    @property
    def engaged_mm(self):
        """Thread inside the nut, if the nut sits on its stack."""
        return min(self.nut_mm, self.length_mm - self.grip_mm)

    @property
    def past_nut_mm(self):
        """What stands out past the nut; negative: the nut is not full."""
        return round(self.length_mm - self.grip_mm - self.nut_mm, 9)  # binary fractions: 48.4 - 40 - 8.4 is 0

    @property
    def threads_past(self):
        """The same in threads."""
        return self.past_nut_mm / self.pitch_mm

    @property
    def gap_mm(self):
        """How far the nut is stopped short of the stack by the end of the thread; 0 where it can clamp."""
        return max(0.0, self.shank_mm - self.grip_mm)

    @property
    def clamps(self):
        """Whether a turn of the nut presses the parts: the thread must begin inside the grip."""
        return self.shank_mm < self.grip_mm

    @property
    def thread_in_parts_mm(self):
        """Thread that lies in the holes of the parts, for each part in order."""
        starts = [self.head_washer_mm + sum(self.parts_mm[:place]) for place in range(len(self.parts_mm))]
        ends = [start + part for start, part in zip(starts, self.parts_mm, strict=True)]
        return tuple(max(0.0, end - max(start, self.shank_mm)) for start, end in zip(starts, ends, strict=True))

    def findings(self):
        """What is to be said about the stack, in sentences; the gravest first.

        >>> ThroughBolt(60, 26, 1.5, (12, 15), 8.4).findings()[0][:51]
        'Torque but no clamp: the nut stops at the end of th'
        """
        said = []
        if not self.clamps:
            said.append(f"Torque but no clamp: the nut stops at the end of the thread, {self.gap_mm:.2f} mm "
                        "short of the parts. Add washers under the nut, or take a bolt with a shorter shank.")
        if self.past_nut_mm < 0:
            said.append(f"The nut is not full: {self.engaged_mm:.2f} mm of {self.nut_mm:g} mm hold. "
                        "Take a longer bolt.")
        elif self.threads_past < _FEWEST_PAST:
            said.append(f"Only {self.threads_past:.1f} threads stand past the nut: take the next length.")
        elif self.threads_past > _MOST_PAST:
            said.append(f"{self.threads_past:.1f} threads stand past the nut: more weight and snagging than use.")
        if self.thread_in_parts_mm[-1] > self.parts_mm[-1] / 2:  # half the last part: common practice, no source
            said.append(f"Thread lies along {self.thread_in_parts_mm[-1]:.2f} mm of the last part "
                        f"({self.parts_mm[-1]:g} mm). A load across it would bear on thread: take a longer shank.")
        return tuple(said) or ("The nut clamps, is full, and the shank fills the parts.",)
