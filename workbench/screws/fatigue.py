"""Fatigue of a bolt: a load that comes and goes, seen through preload.

Stresses in MPa on the stress area. Sources: textbooks of machine design (Goodman line with preload); VDI 2230
(endurance of rolled threads). Bolts break by fatigue first at the first thread in the nut.
"""

from dataclasses import dataclass

from workbench.refusals import numbers, one_number, refuse
from workbench.screws.joint import bolt_load_n
from workbench.tables import table


@dataclass(frozen=True)
class Swing:
    """What a changing load does to a bolt, in MPa: stress of the preload, mean stress, amplitude to each side."""

    preload_mpa: float
    mean_mpa: float
    amplitude_mpa: float


def swing(preload_n, least_load_n, most_load_n, share, area_mm2):
    """Mean stress and amplitude of a bolt under an outside load between two limits; opening of the joint counts.

    loads 0 or more, most at least least; share C; area As. While the joint stays closed the amplitude is
    C (Wmax - Wmin) / (2 As); a joint that opens lets the bolt feel the whole load.

    >>> swing(24000, 0, 8000, 0.2, 58.0).amplitude_mpa
    13.793103448275861
    >>> round(swing(4000, 0, 8000, 0.2, 58.0).amplitude_mpa, 1)
    34.5
    """
    area = numbers("area_mm2", area_mm2, above=0)
    numbers("most_load_n - least_load_n", most_load_n - least_load_n, at_least=0, cause="were the limits swapped?")
    low, high = (bolt_load_n(preload_n, load, share) for load in (least_load_n, most_load_n))
    return Swing(preload_n / area, (high + low) / 2 / area, (high - low) / 2 / area)


def goodman_factor(preload_mpa, mean_mpa, amplitude_mpa, endurance_mpa, tensile_mpa):
    """How many times the changing part may grow before fatigue: Se (Sut - Si) / (Sut Sa + Se (Sm - Si)).

    The preload stress Si stays as it is. A load that falls to nought: Se (Sut - Si) / (Sa (Sut + Se)).
    Refused: a preload stress at or over the tensile strength, no changing load. Source: textbooks of machine design.

    >>> round(goodman_factor(63.72, 66.82, 3.10, 18.6, 120), 2)
    2.44
    """
    start = numbers("preload_mpa", preload_mpa, at_least=0)
    numbers("tensile_mpa - preload_mpa", tensile_mpa - start, above=0, cause="preload over the strength of the bolt")
    above = numbers("mean_mpa - preload_mpa", mean_mpa - start, at_least=0, cause="an outside pull raises the mean")
    endurance = numbers("endurance_mpa", endurance_mpa, above=0)
    changing = tensile_mpa * numbers("amplitude_mpa", amplitude_mpa, above=0) + endurance * above
    return endurance * (tensile_mpa - start) / changing


def class_endurance_mpa(bolt_class, diameter_mm):
    """Endurance strength of a property class, rolled thread, from the textbook table.

    >>> class_endurance_mpa("10.9", 12)
    162.0
    """
    rows = table("bolt_endurance").rows
    if bolt_class not in rows:
        refuse("bolt_class", bolt_class, "must be one of " + ", ".join(rows), "softer bolts are not listed")
    row = rows[bolt_class]
    one_number("diameter_mm", diameter_mm, at_least=row["from_mm"], at_most=row["up_to_mm"],
               cause=f"class {bolt_class} is listed for these sizes only")
    return row["endurance_mpa"]


def rolled_endurance_mpa(diameter_mm):
    """Endurance amplitude of a thread rolled before heat treatment: 0.85 (150 / d + 45), M6 to M39 (VDI 2230).

    >>> rolled_endurance_mpa(10)
    51.0
    """
    return 0.85 * (150 / numbers("diameter_mm", diameter_mm, at_least=6, at_most=39) + 45)
