"""Why a tight nut comes loose: sideways slip, and clamp lost by settling and with time.

While the parts slide to and fro across the bolt, the friction in the thread works sideways and no longer holds the nut
round the axis; then the thread's own slope unwinds it (Junker 1969, from memory). So the first cure is a clamp that
lets nothing slip. Figures show the way things go; a real joint is proved by test and by the maker's data.
"""

import math

from workbench.refusals import numbers, one_number
from workbench.screws.turning import preload_gain_n


def slip_force_n(preload_n, friction, faces=1):
    """Sideways force at which the parts begin to slide: mu F n, n faces in friction. Coulomb's friction; no source.

    >>> slip_force_n(20000, 0.2)
    4000.0
    """
    hold = numbers("preload_n", preload_n, at_least=0) * one_number("faces", faces, at_least=1)
    return hold * numbers("friction", friction, at_least=0, at_most=1)


def preload_against_slip_n(side_n, friction, faces=1):
    """Preload that has to remain so that nothing slides: Fq / (mu n).

    >>> preload_against_slip_n(4000, 0.2)
    20000.0
    """
    friction = numbers("friction", friction, above=0, at_most=1, cause="without friction no clamp holds sideways")
    return numbers("side_n", side_n, at_least=0) / (friction * one_number("faces", faces, at_least=1))


def unwinding_torque_n_mm(preload_n, pitch_mm):
    """Torque with which the thread's slope turns the nut off when friction is gone: F P / (2 pi).

    >>> round(unwinding_torque_n_mm(20000, 1.75))
    5570
    """
    return numbers("preload_n", preload_n, at_least=0) * numbers("pitch_mm", pitch_mm, above=0) / (2 * math.pi)


def clamp_left_n(preload_n, unwound_deg, pitch_mm, springs):
    """Clamp left when slip has unwound the nut by an angle, never below 0.

    >>> from workbench.screws.stiffness import Springs
    >>> clamp_left_n(20000, 12, 1.5, Springs(100000, 400000)), clamp_left_n(20000, 60, 1.5, Springs(100000, 400000))
    (16000.0, 0.0)
    """
    one_number("unwound_deg", unwound_deg, at_least=0, cause="count the unwinding as positive")
    start = one_number("preload_n", preload_n, at_least=0)
    return max(0.0, start - preload_gain_n(unwound_deg, pitch_mm, springs))


def sideways_give_mm(preload_n, friction, grip_mm, root_mm, modulus=205000.0):
    """Sideways movement that the bolt takes by bending before its head slips: mu F l^3 / (12 E I), I = pi d3^4 / 64.

    Both ends held square. A long thin bolt gives more, so it loosens less (rule of thumb: grip 5 d or more). Source:
    bending of a bar; use in loosening from memory.

    >>> round(sideways_give_mm(30000, 0.12, 60, 9.853), 3)
    0.683
    """
    side = slip_force_n(preload_n, friction)
    length = numbers("grip_mm", grip_mm, above=0)
    stiff = 12 * numbers("modulus", modulus, above=0) * math.pi / 64 * numbers("root_mm", root_mm, above=0) ** 4
    return side * length**3 / stiff


def relaxed_n(preload_n, hours, share_per_decade, from_hours=0.1):
    """Clamp left after a time: F (1 - s lg(t / t0)), so much for each tenfold of time; never below 0.

    share_per_decade s: 0.01 to 0.05 for metal faces, far more with paint or a gasket (common practice, no source);
    from_hours t0: when the preload was measured. Times shorter than t0 are refused.

    >>> round(relaxed_n(20000, 1000, 0.02))
    18400
    """
    one_number("from_hours", from_hours, above=0)
    one_number("hours", hours, at_least=from_hours, cause="count from the tightening, in hours")
    one_number("share_per_decade", share_per_decade, at_least=0, at_most=1, cause="write 0.02 for 2 %")
    left = 1 - share_per_decade * math.log10(hours / from_hours)
    return numbers("preload_n", preload_n, at_least=0) * max(0.0, left)
