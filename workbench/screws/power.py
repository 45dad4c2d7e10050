"""Screws that move a load: torque to raise and to lower it, the collar's share, efficiency, and whether it runs back.

One turn of thread unwrapped is a ramp that climbs one lead over one circumference. Seen on the ramp, the load is
pushed up against friction; a sloping flank wedges, so its friction counts mu / cos(flank). `thread` is a Profile
(workbench/threads/profile.py), which gives pitch diameter d2, lead L and flank angles; `side` is the flank that
carries, 'load' or 'clearance': for a buttress thread the steep or the shallow one. Forces in N, torques in N mm.
Numbers or arrays. Sources: textbooks of machine design, power screws with the flank angle in the axial section.
"""

import math
from dataclasses import dataclass

from workbench.refusals import numbers, one_number, refuse
from workbench.threads.profile import Profile

HOLDS_FROM = 1.5  # margin over the least coefficient before "holds while still" is said: common practice, no source


def _coefficient(name, value):
    return numbers(name, value, at_least=0, at_most=1, cause="friction is never negative and seldom above 1: "
                   "is it an angle?")  # fmt: skip


def _thread(thread):
    if not isinstance(thread, Profile):
        refuse("thread", thread, "must be a Profile", "as from profile('trapezoidal', 20, 4)")
    return thread


def ramp(thread):
    """Slope of the unwrapped thread: L / (pi d2), the tangent of the lead angle.

    >>> from workbench.threads.profile import profile
    >>> round(ramp(profile("trapezoidal", 20, 4)), 5)
    0.07074
    """
    return _thread(thread).lead_mm / (math.pi * thread.pitch_diameter_mm)


def rub(thread, coefficient, side="load"):
    """Slope up to which the load stays where it is: mu / cos(flank), the tangent of the friction angle.

    coefficient mu: 0 to 1.

    >>> from workbench.threads.profile import profile
    >>> round(rub(profile("trapezoidal", 20, 4), 0.12), 5)
    0.12423
    """
    flank = math.radians(_thread(thread).flank_deg(side))
    return _coefficient("coefficient", coefficient) / math.cos(flank)


def raising_torque_nmm(load_n, thread, coefficient, side="load"):
    """Torque at the thread that raises a load: F d2/2 tan(lead angle + friction angle).

    load_n F: 0 or more, along the axis. Refused where the two angles reach 90 deg: no torque turns such a thread.

    >>> from workbench.threads.profile import profile
    >>> round(raising_torque_nmm(8000, profile("trapezoidal", 20, 4), 0.12))
    14162
    """
    load = numbers("load_n", load_n, at_least=0, cause="give its size; which flank carries is said by side")
    climb, friction = ramp(thread), rub(thread, coefficient, side)
    left = 1 - climb * friction
    if getattr(left <= 0, "any", lambda: left <= 0)():
        refuse("coefficient", coefficient, "is so large that the thread jams", "is the lead too steep for it?")
    return load * thread.pitch_diameter_mm / 2 * (climb + friction) / left


def lowering_torque_nmm(load_n, thread, coefficient, side="load"):
    """Torque at the thread that lowers a load: F d2/2 tan(friction angle - lead angle).

    Above 0: the screw must be turned down too. Below 0: the load drives the screw, and so much must hold it back.

    >>> from workbench.threads.profile import profile
    >>> round(lowering_torque_nmm(8000, profile("trapezoidal", 20, 4), 0.12))
    3818
    >>> round(lowering_torque_nmm(8000, profile("trapezoidal", 20, 4, starts=3), 0.12))
    -6171
    """
    load = numbers("load_n", load_n, at_least=0, cause="give its size; which flank carries is said by side")
    climb, friction = ramp(thread), rub(thread, coefficient, side)
    return load * thread.pitch_diameter_mm / 2 * (friction - climb) / (1 + climb * friction)


def collar_torque_nmm(load_n, coefficient, mean_diameter_mm):
    """Torque that a rubbing thrust face takes, either way: F mu_c d_c / 2; 0 coefficient for a ball bearing.

    >>> round(collar_torque_nmm(8000, 0.12, 26))
    12480
    """
    load = numbers("load_n", load_n, at_least=0) * _coefficient("coefficient", coefficient)
    return load * numbers("mean_diameter_mm", mean_diameter_mm, above=0, cause="the mean of outside and bore") / 2


def collar_mean_mm(outside_mm, bore_mm, worn_in=True):
    """Diameter at which a collar's friction acts: (D + d) / 2 worn in, 2/3 (D^3 - d^3) / (D^2 - d^2) when new.

    Worn in: uniform wear; new: uniform pressure. outside_mm D > bore_mm d >= 0. Source: textbooks of machine design.

    >>> collar_mean_mm(100, 65)
    82.5
    """
    outside, bore = numbers("outside_mm", outside_mm, above=0), numbers("bore_mm", bore_mm, at_least=0)
    closed = outside <= bore
    if getattr(closed, "any", lambda: closed)():
        refuse("bore_mm", bore_mm, f"must be smaller than the outside, {outside_mm} mm", "were the two swapped?")
    return (outside + bore) / 2 if worn_in else 2 / 3 * (outside**3 - bore**3) / (outside**2 - bore**2)


def efficiency_of(load_n, lead_mm, torque_nmm):
    """Share of the work of one turn that lifts: F L / (2 pi T), with all friction that the torque T overcomes.

    A share over 1 is refused: no screw gives more than it gets. Thread alone: `flank.efficiency`.

    >>> round(efficiency_of(8000, 4, 25000), 4)
    0.2037
    """
    load, lead = numbers("load_n", load_n, above=0), numbers("lead_mm", lead_mm, above=0)
    share = load * lead / (2 * math.pi * numbers("torque_nmm", torque_nmm, above=0))
    over = share > 1 + 1e-9
    if getattr(over, "any", lambda: over)():
        rule = "is less than the load needs without any friction"
        refuse("torque_nmm", torque_nmm, rule, "is it in N m? give N mm; or is it the lowering torque?")
    return share


def least_coefficient(thread, side="load"):
    """Coefficient of friction below which the load turns the thread back: tan(lead angle) cos(flank).

    >>> from workbench.threads.profile import profile
    >>> round(least_coefficient(profile("trapezoidal", 20, 4)), 4)
    0.0683
    """
    return ramp(thread) * math.cos(math.radians(thread.flank_deg(side)))


@dataclass(frozen=True)
class Holding:
    """Whether a thread at rest stays where it is: margin = coefficient / least coefficient, and what it means.

    standing: "runs back" (below 1), "may creep" (below 1.5), "stays while still"; none of them holds a load.
    """

    margin: float
    standing: str
    says: str


_STOP = "Self-locking is not holding: a lifted load needs a pawl, a brake or a positive stop."
_SAYS = {
    "runs back": f"The load turns this screw back as soon as the hand leaves it. {_STOP}",
    "may creep": f"Friction only just exceeds the slope: oil or shaking lets this screw creep. {_STOP}",
    "stays while still": f"This screw stays while nothing shakes it and no oil gets in. {_STOP}",
}


def holding(thread, coefficient, side="load"):
    """Does the thread alone stay put? The collar is not counted: a bearing or oil takes its friction away.

    One thread and one coefficient, 0 to 1.

    >>> from workbench.threads.profile import profile
    >>> holding(profile("trapezoidal", 20, 4), 0.12).standing
    'stays while still'
    """
    margin = one_number("coefficient", _coefficient("coefficient", coefficient)) / least_coefficient(thread, side)
    standing = "runs back" if margin < 1 else "may creep" if margin < HOLDS_FROM else "stays while still"
    return Holding(margin, standing, _SAYS[standing])
