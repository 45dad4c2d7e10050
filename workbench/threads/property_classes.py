"""Property classes and grades: what the figures on a head or a nut promise.

Bolts: ISO 898-1 (metric), SAE J429 (inch), ISO 3506-1 (stainless); nuts: ISO 898-2.
"""

import re
from dataclasses import dataclass

from workbench.refusals import one_number, refuse
from workbench.tables import table

_KSI_MPA = 6.894757  # 1000 lbf/in2: 4.4482216 N / 0.64516 mm2, both exact by definition


@dataclass(frozen=True)
class Strength:
    """What a class promises: proof stress, least yield (or proof strength), least tensile strength, in MPa.

    proof_mpa is None where the standard gives none (stainless).
    """

    name: str
    proof_mpa: float | None
    yield_mpa: float
    tensile_mpa: float


def nominal_mpa(property_class):
    """Nominal tensile strength and yield from the figures themselves: a.b gives 100 a and 100 a x b / 10.

    >>> nominal_mpa("8.8")
    (800, 640)
    """
    if not isinstance(property_class, str) or not re.fullmatch(r"[0-9]{1,2}\.[0-9]", property_class):
        refuse("property_class", property_class, "must be two figures with a point, as 8.8",
               "is it the class of a nut (one figure), or a number and not text?")
    tensile, share = (int(part) for part in property_class.split("."))
    return 100 * tensile, 10 * tensile * share


def _within(rows, diameter, over, up_to):
    return next((row for row in rows if row[over] < diameter <= row[up_to]), None)


def property_class(name, diameter_mm):
    """The property class of a metric bolt of that diameter (ISO 898-1, table 3; up to 39 mm).

    >>> property_class("8.8", 10)
    Strength(name='8.8', proof_mpa=580.0, yield_mpa=640.0, tensile_mpa=800.0)
    >>> property_class("8.8", 20).tensile_mpa
    830.0
    """
    nominal_mpa(name)
    one_number("diameter_mm", diameter_mm, above=0)
    rows = [row for row in table("iso_898_1_classes").rows.values() if f"{row['property_class']:.1f}" == name]
    if not rows:
        known = {f"{row['property_class']:.1f}": 1 for row in table("iso_898_1_classes").rows.values()}
        refuse("property_class", name, "must be one of " + ", ".join(known), "is it a misread figure?")
    row = _within(rows, diameter_mm, "over_mm", "up_to_mm")
    if row is None:
        refuse("diameter_mm", diameter_mm, f"class {name} is given up to {rows[-1]['up_to_mm']:g} mm (ISO 898-1)")
    return Strength(name, row["proof_mpa"], row["yield_mpa"], row["tensile_mpa"])


def sae_grade(name, diameter_in):
    """The SAE grade of an inch bolt of that diameter (SAE J429, table 1), turned into MPa.

    >>> sae_grade("5", 0.5)
    Strength(name='SAE 5', proof_mpa=586.1, yield_mpa=634.3, tensile_mpa=827.4)
    """
    rows = [row for row in table("sae_j429_grades").rows.values() if f"{row['grade']:g}" == str(name)]
    if not rows:
        known = {f"{row['grade']:g}": 1 for row in table("sae_j429_grades").rows.values()}
        refuse("grade", name, "must be one of " + ", ".join(known), "metric classes have two figures and a point")
    one_number("diameter_in", diameter_in, above=0)
    row = next((row for row in rows if row["from_in"] <= diameter_in <= row["up_to_in"]), None)
    if row is None:
        rule = f"grade {name} is given from {rows[0]['from_in']:g} to {rows[-1]['up_to_in']:g} in (SAE J429)"
        refuse("diameter_in", diameter_in, rule, "was the size given in mm?")
    stresses = (round(row[f"{what}_ksi"] * _KSI_MPA, 1) for what in ("proof", "yield", "tensile"))
    return Strength(f"SAE {name}", *stresses)


def stainless(name):
    """A stainless grade and class, as A2-70: strength in tenths of MPa after the dash (ISO 3506-1).

    >>> stainless("A2-70").tensile_mpa
    700.0
    """
    found = re.fullmatch(r"A[1-5]-(50|70|80)", name) if isinstance(name, str) else None
    if not found:
        refuse("grade", name, "must be A1 to A5, a dash and 50, 70 or 80, as A2-70", "is it a carbon steel class?")
    row = table("iso_3506_1_grades").row(found[1])
    return Strength(name, None, row["yield_mpa"], row["tensile_mpa"])


def nut_proof_mpa(nut_class, diameter_mm):
    """Proof stress of a coarse nut on the stress area of its thread (ISO 898-2, table 5; up to 39 mm).

    >>> nut_proof_mpa("8", 10)
    870.0
    """
    rows = [row for row in table("iso_898_2_nuts").rows.values() if _nut_name(row) == str(nut_class)]
    if not rows:
        known = {_nut_name(row): 1 for row in table("iso_898_2_nuts").rows.values()}
        refuse("nut_class", nut_class, "must be one of " + ", ".join(known), "a nut carries one figure, as 8")
    one_number("diameter_mm", diameter_mm, above=0)
    row = _within(rows, diameter_mm, "over_mm", "up_to_mm")
    if row is None:
        refuse("diameter_mm", diameter_mm, f"nut class {nut_class} is given up to {rows[-1]['up_to_mm']:g} mm")
    return row["proof_mpa"]


def _nut_name(row):
    return row["row"].partition(" ")[0]


def nut_for(bolt_class):
    """The lowest nut class that holds a bolt of that class: the nut whose bolt class is at least as strong.

    >>> nut_for("8.8"), nut_for("4.6")
    ('8', '5')
    """
    tensile, _ = nominal_mpa(bolt_class)
    pairs = {_nut_name(row): row["bolt_class"] for row in table("iso_898_2_nuts").rows.values()}
    fits = [name for name, bolt in pairs.items() if bolt != "none" and nominal_mpa(bolt)[0] >= tensile]
    if not fits:
        refuse("bolt_class", bolt_class, "has no nut in ISO 898-2")
    return min(fits, key=int)
