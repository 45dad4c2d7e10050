"""The outline of a thread in the section through its axis: straight lines and arcs, repeated every pitch.

x runs along the axis from the head to the free end, r is the distance from the axis; both in mm. Geometry;
no source.
"""

import math
from dataclasses import dataclass


@dataclass(frozen=True)
class Corner:
    """A corner of the outline before rounding: place and the radius that rounds it (0 = left sharp)."""

    x_mm: float
    r_mm: float
    radius_mm: float = 0.0


@dataclass(frozen=True)
class Line:
    """A straight piece from (x0, r0) to (x1, r1)."""

    x0_mm: float
    r0_mm: float
    x1_mm: float
    r1_mm: float

    def radius_at(self, x_mm):
        """Distance from the axis at x, which lies between the ends; numbers or arrays."""
        return self.r0_mm + (x_mm - self.x0_mm) * (self.r1_mm - self.r0_mm) / (self.x1_mm - self.x0_mm)

    def points(self, steps):
        """Both ends; a line needs no steps between."""
        return [(self.x0_mm, self.r0_mm), (self.x1_mm, self.r1_mm)]

    def moved(self, along_mm):
        """The same piece further along the axis."""
        return Line(self.x0_mm + along_mm, self.r0_mm, self.x1_mm + along_mm, self.r1_mm)


@dataclass(frozen=True)
class Arc:
    """A round piece about (centre x, centre r) from one angle to another, in radians from the x axis."""

    x_mm: float
    r_mm: float
    radius_mm: float
    start: float
    end: float

    def _at(self, angle):
        return self.x_mm + self.radius_mm * math.cos(angle), self.r_mm + self.radius_mm * math.sin(angle)

    @property
    def x0_mm(self):
        """Where the arc begins along the axis."""
        return self._at(self.start)[0]

    @property
    def x1_mm(self):
        """Where the arc ends along the axis."""
        return self._at(self.end)[0]

    def radius_at(self, x_mm):
        """Distance from the axis at x, which lies between the ends; numbers or arrays."""
        side = 1 if math.sin((self.start + self.end) / 2) > 0 else -1
        rise = self.radius_mm**2 - (x_mm - self.x_mm) ** 2
        return self.r_mm + side * (rise * (rise > 0)) ** 0.5

    def points(self, steps):
        """steps + 1 points along the arc, ends included."""
        return [self._at(self.start + (self.end - self.start) * step / steps) for step in range(steps + 1)]

    def moved(self, along_mm):
        """The same piece further along the axis."""
        return Arc(self.x_mm + along_mm, self.r_mm, self.radius_mm, self.start, self.end)


def _rounded(before, corner, after):
    """The arc that rounds a corner, and the points where it leaves the two sides; None for a sharp corner."""
    to_before = math.atan2(before.r_mm - corner.r_mm, before.x_mm - corner.x_mm)
    to_after = math.atan2(after.r_mm - corner.r_mm, after.x_mm - corner.x_mm)
    between = (to_after - to_before + math.pi) % (2 * math.pi) - math.pi  # signed angle between the sides
    half = abs(between) / 2
    back = corner.radius_mm / math.tan(half)
    first = (corner.x_mm + back * math.cos(to_before), corner.r_mm + back * math.sin(to_before))
    last = (corner.x_mm + back * math.cos(to_after), corner.r_mm + back * math.sin(to_after))
    middle = to_before + between / 2
    away = corner.radius_mm / math.sin(half)
    x, r = corner.x_mm + away * math.cos(middle), corner.r_mm + away * math.sin(middle)
    start = math.atan2(first[1] - r, first[0] - x)
    turn = (math.atan2(last[1] - r, last[0] - x) - start + math.pi) % (2 * math.pi) - math.pi
    return first, Arc(x, r, corner.radius_mm, start, start + turn), last


def pieces(corners, pitch_mm):
    """Lines and arcs of exactly one pitch of the outline that passes the corners and repeats.

    corners: two or more, in the order of x, within one pitch; a radius rounds its corner. Sides must be long
    enough for the roundings (the forms see to that).

    >>> [type(piece).__name__ for piece in pieces((Corner(0, 1), Corner(1, 2, 0.1)), 2)]
    ['Line', 'Arc', 'Line']
    """
    def shifted(turn):
        return [Corner(one.x_mm + turn * pitch_mm, one.r_mm, one.radius_mm) for one in corners]

    ring = [shifted(-1)[-1], *shifted(0), *shifted(1), *shifted(2)]
    found, here = [], None
    for place in range(len(corners) + 1):
        before, corner, after = ring[place : place + 3]
        arrive, arc, leave = (corner.x_mm, corner.r_mm), None, (corner.x_mm, corner.r_mm)
        if corner.radius_mm:
            arrive, arc, leave = _rounded(before, corner, after)
        if here is not None:
            found.append(Line(*here, *arrive))
        if arc is not None and place < len(corners):
            found.append(arc)
        here = leave
    return tuple(found)


def radius_at(outline, x_mm, pitch_mm):
    """Distance of the outline from the axis at any x, exact; one number.

    outline: the pieces of one pitch; an upright side counts with the piece before it.
    """
    start = outline[0].x0_mm
    x = (x_mm - start) % pitch_mm + start
    for piece in outline:
        if piece.x0_mm <= x <= piece.x1_mm and piece.x1_mm > piece.x0_mm:
            return piece.radius_at(x)
    return outline[-1].radius_at(outline[-1].x1_mm)  # the last rounding error before the pitch closes


def points(outline, pitch_mm, pitches=1, arc_steps=12):
    """x and r of the outline over whole pitches, for drawing: two lists, arcs in arc_steps straight steps."""
    places = []
    for turn in range(pitches):
        for piece in outline:
            for place in piece.moved(turn * pitch_mm).points(arc_steps):
                if not places or math.dist(place, places[-1]) > 1e-12:
                    places.append(place)
    return [x for x, _ in places], [r for _, r in places]
