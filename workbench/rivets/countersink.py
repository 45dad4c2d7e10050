"""Countersinks for flush rivets: depth from head, hole and angle, the least sheet, and what to do in thinner sheet.

h = (Dk - dh) / (2 tan(A/2)), A the whole angle. A head as deep as its sheet leaves a knife edge in which cracks start.
Least sheet: 1.5 h, the head no deeper than two thirds of the sheet (from memory, the safer); other documents only ask
that the sheet be thicker than the head. Thinner sheet is dimpled (pressed), not cut. Geometry; common practice.
"""

import math
from dataclasses import dataclass

from workbench.refusals import numbers, one_number, refuse

SHARE = 2 / 3  # of the sheet, that the head may take
DIMPLE_MOST_MM = 1.02  # sheet of 0.040 in: thicker sheet is not dimpled cold by hand tools (from memory)


def depth_mm(head_mm, hole_mm, angle_deg):
    """Depth of the cone from the surface to the hole: (Dk - dh) / (2 tan(A/2)).

    head_mm Dk > hole_mm dh > 0; angle_deg A: the whole angle, 60 to 130. Numbers or arrays.

    >>> round(float(depth_mm(7.6, 4.1, 100)), 4)
    1.4684
    """
    numbers("hole_mm", hole_mm, above=0)
    numbers("head_mm - hole_mm", head_mm - hole_mm, above=0, cause="were head and hole swapped?")
    return (head_mm - hole_mm) / (2 * math.tan(_half(angle_deg)))


def top_mm(hole_mm, depth, angle_deg):
    """Width of the cone at the surface for a depth: dh + 2 h tan(A/2), the reverse of `depth_mm`.

    >>> round(float(top_mm(4.1, 1.4684, 100)), 2)
    7.6
    """
    numbers("hole_mm", hole_mm, above=0)
    return hole_mm + 2 * numbers("depth", depth, above=0) * math.tan(_half(angle_deg))


def least_sheet_mm(depth, share=SHARE):
    """Thinnest sheet for a countersink: depth / share; share 2/3 by default, 1 where a document lets the head take all.

    >>> least_sheet_mm(1.0)
    1.5
    """
    one_number("share", share, above=0, at_most=1, cause="a part of the sheet, as 2/3")
    return numbers("depth", depth, above=0) / share


@dataclass(frozen=True)
class Way:
    """How a flush head is let into a sheet: "countersink", "dimple" or "neither", with the reason."""

    way: str
    depth_mm: float
    left_mm: float
    reason: str


def way_in(sheet_mm, head_mm, hole_mm, angle_deg, share=SHARE):
    """Countersink, dimple or neither, for a head let into a sheet.

    left_mm: cylinder of the hole left under the cone; below nought the cone comes out of the back.

    >>> way_in(1.0, 7.6, 4.1, 100).way, way_in(2.5, 7.6, 4.1, 100).way, way_in(1.2, 7.6, 4.1, 100).way
    ('dimple', 'countersink', 'neither')
    """
    one_number("sheet_mm", sheet_mm, above=0)
    depth = float(depth_mm(head_mm, hole_mm, angle_deg))
    least, left = least_sheet_mm(depth, share), sheet_mm - depth
    if sheet_mm >= least - 1e-9:
        return Way("countersink", depth, left, f"a cone of {depth:.2f} mm leaves {left:.2f} mm of the hole")
    bad = f"a cone of {depth:.2f} mm asks for a sheet of {least:.2f} mm: {sheet_mm:g} mm leaves a knife edge"
    if sheet_mm <= DIMPLE_MOST_MM:
        return Way("dimple", depth, left, f"{bad}; press the sheet instead")
    return Way("neither", depth, left, f"{bad}, and is too thick to dimple; take a head that stands up, or less D")


def proud_mm(head_mm, hole_mm, rivet_deg, top, cutter_deg):
    """How far a head stands out of a cone (negative: below the surface), where the cutter's angle may be another.

    top: width of the cut cone at the surface. Cutter narrower than the head: the head hangs on its wide end, at the
    rim of the cone or on its own rim. Cutter wider: the head rests on the corner of the hole. Either way it is loose.

    >>> round(proud_mm(7.6, 4.1, 100, 7.0368, 90), 3), round(abs(proud_mm(7.6, 4.1, 100, 7.6, 100)), 3)
    (0.236, 0.0)
    """
    deep = float(depth_mm(head_mm, hole_mm, rivet_deg))
    cut = float(depth_mm(top, hole_mm, cutter_deg))
    if cutter_deg > rivet_deg:
        return deep - cut
    slope = math.tan(_half(rivet_deg if top < head_mm else cutter_deg))
    return (head_mm - top) / 2 / slope


def _half(angle_deg):
    if not 60 <= one_number("angle_deg", angle_deg) <= 130:
        refuse("angle_deg", angle_deg, "must be 60 to 130, the whole angle of the cone", "was half the angle given?")
    return math.radians(angle_deg / 2)
