"""A torque wrench with an adaptor, seen along the bolt: what is the lever at the drive, what at the nut?

Lengths are to scale; the thickness of handle, adaptor and nut is not.
"""

import numpy as np
from matplotlib.patches import Circle, PathPatch, Polygon

from workbench.drawings.cylinder import outline
from workbench.drawings.dimensions import Dimensions
from workbench.drawings.sheet import INK, NARROW, PAPER, SATIN, SHADE, STEEL, WIDE, Sheet

PX, LEFT, LOW = 1.35, 110.0, 110.0  # px: a mm, middle of the hand, middle of the handle
_GRIP, _HANDLE, _ADAPTOR, _RING, _NUT = 13.0, 8.0, 7.0, 17.0, 11.0  # half widths and radii


def _bar(start, end, half):
    """A bar of half width between two points."""
    (x0, y0), (x1, y1) = start, end
    along = np.array([x1 - x0, y1 - y0]) / np.hypot(x1 - x0, y1 - y0)
    side = half * np.array([-along[1], along[0]])
    return [np.array(start) + side, np.array(end) + side, np.array(end) - side, np.array(start) - side]


class TorqueWrench:
    """One wrench with its adaptor at an angle from the line of the handle (0 in line, 90 square)."""

    def __init__(self, arm_mm, adaptor_mm, angle_deg, width_px=900, height_px=320):
        self.sheet = Sheet(width_px, height_px, (900, 320))
        view = self.sheet.view(0, 0, 900, 320, 1, 0, 0)
        turn = np.radians(angle_deg)
        self.hand, self.drive = (LEFT, LOW), (LEFT + PX * arm_mm, LOW)
        self.nut = (self.drive[0] + PX * adaptor_mm * np.cos(turn), LOW + PX * adaptor_mm * np.sin(turn))
        for corners, ink in (
            (_bar((LEFT, LOW), self.drive, _HANDLE), STEEL),
            (_bar((LEFT - 60, LOW), (LEFT + 60, LOW), _GRIP), SHADE),
            (_bar(self.drive, self.nut, _ADAPTOR), SATIN),
        ):
            self.sheet.still(view, PathPatch(outline(corners), fc=ink, ec=INK, lw=WIDE))
        self.sheet.still(view, Circle(self.drive, _RING, fc=STEEL, ec=INK, lw=WIDE))
        self.sheet.still(view, Polygon(_bar((self.drive[0] - 6, LOW), (self.drive[0] + 6, LOW), 6), fc=PAPER, ec=INK,
                                       lw=NARROW))  # fmt: skip
        self.sheet.still(view, Circle(self.nut, _RING, fc=SATIN, ec=INK, lw=WIDE))
        six = np.radians(np.arange(0, 360, 60))
        corners = np.column_stack([self.nut[0] + _NUT * np.cos(six), self.nut[1] + _NUT * np.sin(six)])
        self.sheet.still(view, Polygon(corners, fc=PAPER, ec=INK, lw=WIDE))
        self._write(Dimensions(self.sheet, view), arm_mm, adaptor_mm, angle_deg)

    def _write(self, ink, arm_mm, adaptor_mm, angle_deg):
        ink.across(self.hand[0], self.drive[0], 45, f"wrench {arm_mm:g} mm", LOW - _GRIP, LOW - _RING)
        if angle_deg == 0:
            ink.across(self.drive[0], self.nut[0], 45, f"adaptor {adaptor_mm:g} mm", LOW - _RING, LOW - _RING)
        else:
            ink.up(self.drive[1], self.nut[1], self.nut[0] + 55, f"adaptor {adaptor_mm:g} mm",
                   self.drive[0] + _RING, self.nut[0] + _RING)  # fmt: skip
        ink.line((LEFT, LOW + 100), (LEFT, LOW + _GRIP + 2))
        ink.arrow(LEFT, LOW + _GRIP + 2, -np.pi / 2)
        ink.word("pull", LEFT + 8, LOW + 92, "left")
        ink.leader((self.drive[0] - 6, LOW + 6), (self.drive[0] - 60, LOW + 70), "drive of the wrench", "right")
        ink.leader((self.nut[0] - 4, self.nut[1] + 8), (self.nut[0] - 40, self.nut[1] + 45), "nut", "right")
        ink.show()


def picture(arm_mm, adaptor_mm, angle_deg=0):
    """The wrench as PNG bytes, and the same in words."""
    how = {0: "in line with", 90: "square to"}[angle_deg]
    text = (f"A torque wrench seen along the bolt. From the middle of the hand to its drive: {arm_mm:g} mm. "
            f"An adaptor, {how} the handle, leads from the drive to the nut: {adaptor_mm:g} mm.")
    top = 90 if angle_deg == 0 else 0
    return TorqueWrench(arm_mm, adaptor_mm, angle_deg).sheet.png((30, top, 860, 300)), text
