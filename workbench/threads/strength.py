"""What a thread can carry along its axis: three areas, and proof, yield and ultimate load of a bolt or nut.

Areas in mm2, loads in N, stresses in MPa. Sources: ISO 898-1 (metric), ASME B1.1 (Unified stress area),
ISO 898-2 (nuts).
"""

import math
from dataclasses import dataclass
from fractions import Fraction

from workbench.refusals import numbers, refuse
from workbench.tables import table
from workbench.threads.profile import profile
from workbench.threads.property_classes import Strength, nut_proof_mpa, property_class


def _circle(diameter):
    return math.pi / 4 * diameter**2


def stress_diameter_mm(major_mm, pitch_mm, form="metric"):
    """Diameter of the round bar that breaks at the same load: d - 13/12 H metric, d - 9/8 H Unified.

    Other forms: the mean of pitch diameter and root diameter (metric: the same thing). Numbers or arrays.

    >>> round(stress_diameter_mm(10, 1.5), 3)
    8.593
    """
    thread = profile(form, major_mm, pitch_mm)
    below = thread.row["stress_below_crest"]
    if below == "mean":
        return (thread.pitch_diameter_mm + thread.screw_minor_mm) / 2
    return major_mm - float(Fraction(below)) * thread.triangle_mm


def stress_area_mm2(major_mm, pitch_mm, form="metric"):
    """Tensile stress area As = pi / 4 x stress diameter^2.

    >>> round(stress_area_mm2(10, 1.5), 1)
    58.0
    """
    return _circle(stress_diameter_mm(major_mm, pitch_mm, form))


def shank_area_mm2(diameter_mm):
    """Area of the plain shank: pi / 4 d^2.

    >>> round(shank_area_mm2(10), 1)
    78.5
    """
    return _circle(numbers("diameter_mm", diameter_mm, above=0))


def minor_area_mm2(major_mm, pitch_mm, form="metric"):
    """Area at the root of the screw: pi / 4 d3^2.

    >>> round(minor_area_mm2(10, 1.5), 1)
    52.3
    """
    return _circle(profile(form, major_mm, pitch_mm).screw_minor_mm)


@dataclass(frozen=True)
class Loads:
    """Loads of a bolt: proof (it must not stretch for good), yield, ultimate (least it must hold), in N.

    tabulated: proof and ultimate stand in ISO 898-1, else area x stress. proof_n None: not given.
    """

    area_mm2: float
    proof_n: float | None
    yield_n: float
    ultimate_n: float
    tabulated: bool


def loads_of(area_mm2, strength):
    """Area x stress for each of the three.

    >>> round(loads_of(58.0, property_class("8.8", 10)).ultimate_n)
    46400
    """
    numbers("area_mm2", area_mm2, above=0)
    if not isinstance(strength, Strength):
        refuse("strength", strength, "must be a Strength", "as from property_class('8.8', 10)")
    proof = None if strength.proof_mpa is None else area_mm2 * strength.proof_mpa
    return Loads(area_mm2, proof, area_mm2 * strength.yield_mpa, area_mm2 * strength.tensile_mpa, False)


def bolt_loads(major_mm, pitch_mm, bolt_class):
    """Loads of a metric bolt (ISO 898-1): the printed figures where the standard has the size, else computed.

    >>> bolt_loads(10, 1.5, "8.8")
    Loads(area_mm2=58.0, proof_n=33700.0, yield_n=37120.0, ultimate_n=46400.0, tabulated=True)
    """
    strength = property_class(bolt_class, major_mm)
    row = _printed(major_mm, pitch_mm, bolt_class)
    if row is None:
        return loads_of(stress_area_mm2(major_mm, pitch_mm), strength)
    yield_n = row["stress_area_mm2"] * strength.yield_mpa
    return Loads(row["stress_area_mm2"], row["proof_load_n"], yield_n, row["ultimate_load_n"], True)


def _printed(major_mm, pitch_mm, bolt_class):
    name = f"M{major_mm:g}x{pitch_mm:g} {bolt_class}"
    for series in ("coarse", "fine"):
        row = table(f"iso_898_1_loads_{series}").rows.get(name)
        if row:
            return row
    return None


def nut_proof_load_n(major_mm, pitch_mm, nut_class):
    """Proof load of a nut with coarse thread: stress area of the thread x proof stress of its class (ISO 898-2).

    The area is the one ISO 898-1 prints where it has the size.

    >>> round(nut_proof_load_n(10, 1.5, "8"))
    50460
    """
    row = _printed(major_mm, pitch_mm, "4.6")
    area = row["stress_area_mm2"] if row else stress_area_mm2(major_mm, pitch_mm)
    return area * nut_proof_mpa(nut_class, major_mm)
