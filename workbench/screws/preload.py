"""How much preload a bolt can take: a share of its proof load, and yield while it is pulled and twisted at once.

N, mm, MPa, N mm. Sources: textbooks (share of proof load); VDI 2230 (90 percent of yield in pull and twist).
"""

import math

from workbench.refusals import numbers, one_number, refuse
from workbench.threads.profile import profile
from workbench.threads.property_classes import property_class
from workbench.threads.strength import bolt_loads, stress_area_mm2, stress_diameter_mm

REUSED = 0.75  # share of the proof load in joints that are opened again


def of_proof_n(diameter_mm, pitch_mm, bolt_class, share=REUSED):
    """Preload as a share of the proof load: share x Sp x As. 0.75 for joints opened again, 0.90 for lasting ones.

    share above 0, at most 1. Source: textbooks of machine design, on ISO 898-1.

    >>> round(of_proof_n(10, 1.5, "8.8"))
    25275
    """
    one_number("share", share, above=0, at_most=1, cause="above the proof load a bolt stretches for good")
    return share * bolt_loads(diameter_mm, pitch_mm, bolt_class).proof_n


def twist_mpa(torque_nmm, diameter_mm, plastic=False):
    """Shear stress at the rim of a round bar: 16 T / (pi d^3), or 12 T / (pi d^3) once it yields all through.

    >>> round(twist_mpa(20000, 8.593), 1), round(twist_mpa(20000, 8.593, plastic=True), 1)
    (160.5, 120.4)
    """
    arm = math.pi * numbers("diameter_mm", diameter_mm, above=0) ** 3
    return (12 if plastic else 16) * numbers("torque_nmm", torque_nmm, at_least=0) / arm


def combined_mpa(pull_mpa, shear_mpa):
    """Pull and shear as one stress to hold against yield: sqrt(pull^2 + 3 shear^2) (von Mises).

    >>> round(combined_mpa(500, 120.4), 1)
    541.7
    """
    pull, shear = numbers("pull_mpa", pull_mpa, at_least=0), numbers("shear_mpa", shear_mpa, at_least=0)
    return (pull**2 + 3 * shear**2) ** 0.5


def while_tightening_mpa(preload_n, thread_torque_nmm, diameter_mm, pitch_mm):
    """Combined stress in the thread while the nut still turns, as VDI 2230 counts it (twist all through).

    thread_torque_nmm: the torque in the thread (`Torque.in_thread_nmm`), without the face.

    >>> round(while_tightening_mpa(29600, 25700, 10, 1.5))
    577
    """
    pull = numbers("preload_n", preload_n, at_least=0) / stress_area_mm2(diameter_mm, pitch_mm)
    shear = twist_mpa(thread_torque_nmm, stress_diameter_mm(diameter_mm, pitch_mm), plastic=True)
    return combined_mpa(pull, shear)


def at_yield_n(diameter_mm, pitch_mm, yield_mpa, thread_friction, share=0.9):
    """Preload at which pull and twist together reach a share of yield (VDI 2230).

    F = As share Rp / sqrt(1 + 3 [3/2 d2/dS tan(lead angle + friction angle)]^2). share above 0, at most 1 (usual 0.9);
    friction 0 to 1, number or array. Refused: negative friction. The guideline prints P / (pi d2) + 1.155 mu for the
    tangent; its tables agree better with the wedge in full, which differs by half a percent at high friction.

    >>> round(at_yield_n(10, 1.5, 640, 0.12), -2)
    29600.0
    """
    one_number("share", share, above=0, at_most=1, cause="beyond yield the bolt stretches for good")
    rub = numbers("thread_friction", thread_friction, at_least=0, at_most=1,
                  cause="friction is never negative, and 0.12 is meant, not 12")
    middle = profile("metric", diameter_mm, pitch_mm).pitch_diameter_mm
    climb = pitch_mm / (math.pi * middle)
    rub = rub / math.cos(math.radians(30))
    twist = 1.5 * middle / stress_diameter_mm(diameter_mm, pitch_mm) * (climb + rub) / (1 - climb * rub)
    pull = share * numbers("yield_mpa", yield_mpa, above=0) / (1 + 3 * twist**2) ** 0.5
    return pull * stress_area_mm2(diameter_mm, pitch_mm)


def class_at_yield_n(diameter_mm, pitch_mm, bolt_class, thread_friction):
    """The same at 90 percent for a property class of ISO 898-1.

    >>> round(class_at_yield_n(12, 1.75, "8.8", 0.14), -2)
    41900.0
    """
    return at_yield_n(diameter_mm, pitch_mm, property_class(bolt_class, diameter_mm).yield_mpa, thread_friction)


def below_yield_n(preload_n, diameter_mm, pitch_mm, bolt_class):
    """The preload given back, refused where it is over the yield load of the bolt in plain pull.

    >>> below_yield_n(25000, 10, 1.5, "8.8")
    25000
    >>> below_yield_n(40000, 10, 1.5, "8.8")
    Traceback (most recent call last):
    ...
    ValueError: preload_n = 40000: is over the yield load of M10x1.5 8.8 (37120 N); is it the load of a stronger class?
    """
    limit = bolt_loads(diameter_mm, pitch_mm, bolt_class).yield_n
    force = one_number("preload_n", preload_n, at_least=0, cause="a bolt only pulls")
    if force > limit:
        refuse("preload_n", preload_n,
               f"is over the yield load of M{diameter_mm:g}x{pitch_mm:g} {bolt_class} ({limit:.0f} N)",
               "is it the load of a stronger class?")
    return force
