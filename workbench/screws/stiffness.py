"""How stiff a bolt and the parts that it clamps are: springs made of bars and of cones.

Forces in N, lengths in mm, moduli in MPa, stiffness in N/mm. Sources: bars in a row; cones of pressure after
textbooks of machine design (half angle 30 deg); resilience of head and nut after VDI 2230.
"""

import math
from dataclasses import dataclass

from workbench.refusals import numbers, one_number, refuse
from workbench.tables import table
from workbench.threads.profile import profile
from workbench.threads.strength import shank_area_mm2, stress_area_mm2

CONE_DEG = 30.0
# head, engaged thread and nut of a through bolt, as lengths in diameters (VDI 2230, from memory)
_HEAD, _ENGAGED, _NUT = 0.5, 0.5, 0.4


def modulus_mpa(material):
    """Young's modulus of a material; ValueError with the nearest names.

    >>> modulus_mpa("steel")
    205000.0
    """
    return table("elastic_moduli").row(material)["modulus_mpa"]


def bar_n_per_mm(area_mm2, length_mm, modulus):
    """Stiffness of a bar: A E / l. Numbers or arrays, all above 0.

    >>> round(bar_n_per_mm(58.0, 40, 205000))
    297250
    """
    area = numbers("area_mm2", area_mm2, above=0) * numbers("modulus", modulus, above=0, cause="give it in MPa")
    return area / numbers("length_mm", length_mm, above=0)


def in_row_n_per_mm(*springs):
    """Springs one behind the other, each carrying the whole force: 1 / sum(1 / k).

    >>> in_row_n_per_mm(300000, 1200000)
    240000.0
    """
    if not springs:
        refuse("springs", springs, "must be at least one")
    return 1 / sum(1 / numbers("spring", spring, above=0) for spring in springs)


def bolt_n_per_mm(diameter_mm, pitch_mm, shank_mm, thread_mm, modulus=205000.0, form="metric"):
    """Stiffness of a bolt between head and nut: plain shank and free thread in a row.

    shank_mm: plain length in the grip, 0 or more; thread_mm: threaded length in the grip, 0 or more; together
    they are the grip and above 0. Head and nut count as rigid: see `bolt_with_ends_n_per_mm`. Source: textbooks of
    machine design, kb = Ad As E / (Ad lt + As ld).

    >>> round(bolt_n_per_mm(10, 1.5, 20, 20))
    341930
    """
    shank, thread = _lengths(shank_mm, thread_mm)
    modulus = numbers("modulus", modulus, above=0, cause="give it in MPa")
    gives = shank / shank_area_mm2(diameter_mm) + thread / stress_area_mm2(diameter_mm, pitch_mm, form)
    return modulus / gives


def bolt_with_ends_n_per_mm(diameter_mm, pitch_mm, shank_mm, thread_mm, modulus=205000.0):
    """The same with what head, engaged thread and nut give: free thread on its root area (VDI 2230).

    Adds 0.5 d of shank for the head, 0.5 d at the root for the engaged thread, 0.4 d of shank for the nut.

    >>> round(bolt_with_ends_n_per_mm(10, 1.5, 20, 20))
    241939
    """
    shank, thread = _lengths(shank_mm, thread_mm)
    root = math.pi / 4 * profile("metric", diameter_mm, pitch_mm).screw_minor_mm ** 2
    plain = (shank + (_HEAD + _NUT) * diameter_mm) / shank_area_mm2(diameter_mm)
    return numbers("modulus", modulus, above=0) / (plain + (thread + _ENGAGED * diameter_mm) / root)


def _lengths(shank_mm, thread_mm):
    shank = numbers("shank_mm", shank_mm, at_least=0)
    thread = numbers("thread_mm", thread_mm, at_least=0)
    numbers("grip_mm", shank + thread, above=0, cause="a bolt that clamps nothing has no grip")
    return shank, thread


def cone_n_per_mm(hole_mm, face_mm, thickness_mm, modulus, half_angle_deg=CONE_DEG):
    """Stiffness of a cone of pressure round a hole, from its small face down through a thickness.

    k = pi E d tan(a) / ln[(2 t tan(a) + D - d)(D + d) / ((2 t tan(a) + D + d)(D - d))]; d hole, D face (larger),
    t thickness, a half angle 20 to 45 deg. Numbers or arrays. Source: textbooks of machine design.

    >>> round(cone_n_per_mm(10, 15, 20, 205000) / 1000)
    3469
    """
    hole = numbers("hole_mm", hole_mm, above=0)
    face = numbers("face_mm", face_mm, above=0)
    numbers("face_mm - hole_mm", face - hole, above=0, cause="a head that is no wider than its hole pulls through")
    numbers("thickness_mm", thickness_mm, above=0)
    numbers("modulus", modulus, above=0, cause="give it in MPa")
    slope = math.tan(math.radians(one_number("half_angle_deg", half_angle_deg, at_least=20, at_most=45)))
    wide = face + 2 * thickness_mm * slope
    ratio = (wide - hole) * (face + hole) / ((wide + hole) * (face - hole))
    return math.pi * modulus * hole * slope / _log(ratio)


def _log(value):
    if getattr(value, "shape", ()) == ():
        return math.log(value)
    import numpy

    return numpy.log(value)


def parts_n_per_mm(layers, hole_mm, face_mm, half_angle_deg=CONE_DEG):
    """Stiffness of the clamped parts: two cones, from head and nut, that meet in the middle of the grip.

    layers: tuple of (thickness_mm, modulus), from the head to the nut, washers included; face_mm: the face that
    presses, at both ends. The parts must be at least as wide as the cones get (face + grip x tan a).

    >>> round(parts_n_per_mm(((20, 205000), (20, 205000)), 11, 14.6) / 1000)
    1503
    """
    pairs = isinstance(layers, tuple) and all(isinstance(one, tuple) and len(one) == 2 for one in layers)
    if not pairs or not layers:
        refuse("layers", layers, "must be a tuple of (thickness_mm, modulus)", "is a comma missing after one layer?")
    for thickness, modulus in layers:
        one_number("thickness_mm", thickness, above=0)
        one_number("modulus", modulus, above=0, cause="give it in MPa")
    middle = sum(thickness for thickness, _ in layers) / 2
    slope = math.tan(math.radians(one_number("half_angle_deg", half_angle_deg, at_least=20, at_most=45)))
    cones = []
    for side in (layers, layers[::-1]):
        depth = 0.0
        for thickness, modulus in side:
            inside = min(thickness, middle - depth)
            if inside > 1e-12 * middle:
                face = face_mm + 2 * depth * slope
                cones.append(cone_n_per_mm(hole_mm, face, inside, modulus, half_angle_deg))
            depth += thickness
    return in_row_n_per_mm(*cones)


def tapped_grip_mm(plate_mm, base_mm, diameter_mm):
    """Grip of a screw in a tapped base: plates and washer + half the diameter (half the base, if thinner than d).

    Source: textbooks of machine design. The base counts as the last layer, as thick as what is added.

    >>> tapped_grip_mm(17, 30, 12)
    23.0
    """
    one_number("plate_mm", plate_mm, above=0)
    base = one_number("base_mm", base_mm, above=0)
    return plate_mm + min(base, one_number("diameter_mm", diameter_mm, above=0)) / 2


@dataclass(frozen=True)
class Springs:
    """A bolt and the parts that it clamps, as two springs: stiffness kb and kp in N/mm (numbers or arrays).

    >>> Springs(300000, 1200000).share
    0.2
    """

    bolt_n_per_mm: float
    parts_n_per_mm: float

    def __post_init__(self):
        numbers("bolt_n_per_mm", self.bolt_n_per_mm, above=0)
        numbers("parts_n_per_mm", self.parts_n_per_mm, above=0)

    @property
    def share(self):
        """C: the part of an outside load that the bolt feels, kb / (kb + kp)."""
        return self.bolt_n_per_mm / (self.bolt_n_per_mm + self.parts_n_per_mm)

    @property
    def together_n_per_mm(self):
        """Clamp force for each mm that the nut moves along the thread: kb kp / (kb + kp)."""
        return in_row_n_per_mm(self.bolt_n_per_mm, self.parts_n_per_mm)

    def bolt_stretch_mm(self, preload_n):
        """How far the bolt is stretched: F / kb.

        >>> Springs(300000, 1200000).bolt_stretch_mm(24000)
        0.08
        """
        return numbers("preload_n", preload_n, at_least=0) / self.bolt_n_per_mm

    def parts_squeeze_mm(self, preload_n):
        """How far the parts are squeezed: F / kp.

        >>> Springs(300000, 1200000).parts_squeeze_mm(24000)
        0.02
        """
        return numbers("preload_n", preload_n, at_least=0) / self.parts_n_per_mm
