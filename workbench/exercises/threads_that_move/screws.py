"""Screws that lift, as the questions print them: size, mean diameter, lead angle, friction angle."""

import math

from workbench.exercises.thread_forms.sizes import moving
from workbench.threads.flank import friction_angle_deg
from workbench.threads.profile import profile

FLANK_DEG = 15
COSINE = 0.966  # of the flank of a trapezoidal thread, as printed


def lifting(pitches, coefficients, starts=(1,), smallest=16, largest=44, step=("usual",)) -> list[dict]:
    """Trapezoidal screws of ISO 2902 with a coefficient of friction, and the angles rounded as printed.

    >>> lifting((4,), (0.12,), largest=16)[0]["climb"], lifting((4,), (0.12,), largest=16)[0]["friction"]
    (5.2, 7.08)
    """
    return [
        {**row, "starts": count, "mean": row["size"] - row["pitch"] / 2, "rubs": rubs,
         "climb": round(thread(row, count).lead_angle_deg, 2),
         "friction": round(friction_angle_deg(rubs, FLANK_DEG), 2)}
        for row in moving(pitches, smallest, largest, step)
        for count in starts
        for rubs in coefficients
    ]  # fmt: skip


def thread(v, starts=None):
    """The profile of a trapezoidal screw of a draw."""
    return profile("trapezoidal", v["size"], v["pitch"], v["starts"] if starts is None else starts)


def tan(degrees):
    """The tangent of an angle in degrees."""
    return math.tan(math.radians(degrees))
