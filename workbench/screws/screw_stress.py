"""Stresses in a screw that moves a load: in its root, and in the ridges of screw and nut.

Root: thrust over the root area, torsion, and both together (von Mises). Ridge: a short beam unwrapped from the
root, bent and sheared by its share of the load, and pressed on its flank. `thread` is a Profile; stresses in MPa.
Numbers or arrays. Sources: textbooks of machine design (power screws).
"""

import math
from dataclasses import dataclass

from workbench.refusals import numbers, refuse
from workbench.threads.profile import Profile


def _thread(thread):
    if not isinstance(thread, Profile):
        refuse("thread", thread, "must be a Profile", "as from profile('trapezoidal', 20, 4)")
    return thread


def root_axial_mpa(load_n, thread):
    """Thrust over the root: F / (pi/4 d3^2); a minus means pressed together.

    >>> from workbench.threads.profile import profile
    >>> round(root_axial_mpa(8000, profile("trapezoidal", 20, 4)), 2)
    42.4
    """
    return numbers("load_n", load_n) / (math.pi / 4 * _thread(thread).screw_minor_mm ** 2)


def root_torsion_mpa(torque_nmm, thread):
    """Shear at the surface of the root: 16 T / (pi d3^3).

    torque_nmm T: what goes through the root; where the collar is at the driven end its share does too.

    >>> from workbench.threads.profile import profile
    >>> round(root_torsion_mpa(14162, profile("trapezoidal", 20, 4)), 2)
    19.37
    """
    return 16 * numbers("torque_nmm", torque_nmm) / (math.pi * _thread(thread).screw_minor_mm ** 3)


def von_mises_mpa(axial_mpa, shear_mpa, across_mpa=0):
    """One stress to compare with yield: sqrt(s1^2 - s1 s2 + s2^2 + 3 t^2).

    axial_mpa s1 and across_mpa s2: stresses at right angles (tension plus, pressure minus); shear_mpa t.
    The shear turns round the axis; with s2 the bending of a ridge at its foot, which points along the radius.

    >>> round(von_mises_mpa(42.4, 19.37), 1)
    54.1
    """
    one, other = numbers("axial_mpa", axial_mpa), numbers("across_mpa", across_mpa)
    return (one**2 - one * other + other**2 + 3 * numbers("shear_mpa", shear_mpa) ** 2) ** 0.5


def greatest_shear_mpa(axial_mpa, shear_mpa):
    """The largest shear of thrust and torsion together: sqrt((s / 2)^2 + t^2), to compare with half of yield.

    >>> round(greatest_shear_mpa(31.83, 41.86), 1)
    44.8
    """
    return ((numbers("axial_mpa", axial_mpa) / 2) ** 2 + numbers("shear_mpa", shear_mpa) ** 2) ** 0.5


def ridges_engaged(nut_length_mm, thread):
    """Ridges one above another in the nut: length / pitch. By pitch, not by lead: all starts carry.

    Under one pitch is refused: no ridge is held all round.

    >>> from workbench.threads.profile import profile
    >>> ridges_engaged(36, profile("trapezoidal", 20, 4, starts=2))
    9.0
    """
    count = numbers("nut_length_mm", nut_length_mm, above=0) / _thread(thread).pitch_mm
    short = count < 1
    if getattr(short, "any", lambda: short)():
        refuse("nut_length_mm", nut_length_mm, f"is under one pitch ({thread.pitch_mm:g} mm)", "is it in turns?")
    return count


@dataclass(frozen=True)
class RidgeStress:
    """Stresses in one ridge, in MPa: bending and shear at its foot, pressure on its flank.

    shear_mpa: load over area, as a designer uses it; its greatest value in a beam of this section is 3/2 of it.
    """

    bending_mpa: float
    shear_mpa: float
    pressure_mpa: float


def ridge_stress(load_n, thread, ridges, of="screw"):
    """Bending, shear and pressure in the ridges that share a load.

    Foot width b along the axis at the root diameter D_f (d3 of the screw, D4 of the nut), length pi D_f for each
    ridge, lever a from the foot to the pitch line: bending 6 F a / (n pi D_f b^2), shear F / (n pi D_f b),
    pressure F / (n pi/4 (d^2 - D1^2)). ridges n: 1 or more, see `ridges_engaged`; for the first ridge alone give
    n = 1 and its share of the load (textbooks: 0.38 of it). The load counts as spread evenly over n.

    >>> from workbench.threads.profile import profile
    >>> stress = ridge_stress(0.38 * 6400, profile("square", 32, 4, starts=2), 1)
    >>> round(stress.bending_mpa, 1), round(stress.pressure_mpa, 1)
    (41.5, 12.9)
    """
    load = numbers("load_n", load_n, at_least=0) / numbers("ridges", ridges, at_least=1,
                                                           cause="less than one ridge holds nothing")  # fmt: skip
    if of not in ("screw", "nut"):
        refuse("of", of, "must be 'screw' or 'nut'")
    _thread(thread)
    foot = thread.screw_minor_mm if of == "screw" else thread.nut_major_mm
    lever = abs(thread.pitch_diameter_mm - foot) / 2
    width, round_it = thread.ridge_width_mm(foot / 2, of), math.pi * foot
    return RidgeStress(
        6 * load * lever / (round_it * width**2), load / (round_it * width), load / thread.contact_area_mm2
    )


def flank_pressure_mpa(load_n, thread, nut_length_mm):
    """Pressure on the flanks of a whole nut: F P / (l pi/4 (d^2 - D1^2)).

    >>> from workbench.threads.profile import profile
    >>> round(flank_pressure_mpa(8000, profile("trapezoidal", 20, 4, starts=2), 36), 2)
    7.86
    """
    return ridge_stress(load_n, thread, ridges_engaged(nut_length_mm, thread)).pressure_mpa


def nut_length_for_mm(load_n, thread, pressure_mpa):
    """Nut length at which the flanks bear a pressure: F P / (p pi/4 (d^2 - D1^2)); at least one pitch.

    >>> from workbench.threads.profile import profile
    >>> round(nut_length_for_mm(8000, profile("trapezoidal", 20, 4), 7.86), 1)
    36.0
    """
    area = _thread(thread).contact_area_mm2 * numbers("pressure_mpa", pressure_mpa, above=0)
    ridges = numbers("load_n", load_n, above=0) / area
    if getattr(ridges, "shape", ()) == ():
        return max(1.0, ridges) * thread.pitch_mm
    import numpy

    return numpy.maximum(1.0, ridges) * thread.pitch_mm
