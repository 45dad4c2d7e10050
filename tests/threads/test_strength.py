"""Areas, classes and loads: order, limits of the standards, refusals."""

import math

import pytest

from workbench.tables import table
from workbench.threads.profile import profile
from workbench.threads.property_classes import (
    nominal_mpa,
    nut_for,
    nut_proof_mpa,
    property_class,
    sae_grade,
    stainless,
)
from workbench.threads.strength import (
    bolt_loads,
    loads_of,
    minor_area_mm2,
    nut_proof_load_n,
    shank_area_mm2,
    stress_area_mm2,
    stress_diameter_mm,
)

CLASSES = ("4.6", "4.8", "5.6", "5.8", "6.8", "8.8", "9.8", "10.9", "12.9")


def test_the_stress_area_lies_between_root_and_shank():
    """For every metric thread: root area < stress area < area at d2 < shank area."""
    for row in table("iso_261_metric").rows.values():
        d, pitch = row["diameter_mm"], row["pitch_mm"]
        middle = math.pi / 4 * profile("metric", d, pitch).pitch_diameter_mm ** 2
        assert minor_area_mm2(d, pitch) < stress_area_mm2(d, pitch) < middle < shank_area_mm2(d)


def test_the_metric_stress_diameter_is_the_mean_of_pitch_and_root():
    """d - 13/12 H is (d2 + d3) / 2 (ISO 898-1, clause 9.1.6.1, from memory)."""
    thread = profile("metric", 12, 1.75)
    assert stress_diameter_mm(12, 1.75) == pytest.approx((thread.pitch_diameter_mm + thread.screw_minor_mm) / 2)
    assert stress_diameter_mm(20, 4, "trapezoidal") == (18 + 15.5) / 2  # mean rule, d2 and d3 of ISO 2904


def test_a_fine_thread_is_stronger_than_a_coarse_one():
    """At equal diameter the finer pitch leaves the larger stress area."""
    assert stress_area_mm2(10, 1) > stress_area_mm2(10, 1.25) > stress_area_mm2(10, 1.5)


@pytest.mark.parametrize("name", CLASSES)
def test_proof_lies_below_yield_below_tensile(name):
    """In every class proof stress < least yield < least tensile strength, and tensile is at least nominal."""
    found = property_class(name, 10)
    assert found.proof_mpa < found.yield_mpa < found.tensile_mpa
    tensile, yields = nominal_mpa(name)
    assert tensile <= found.tensile_mpa <= 1.06 * tensile
    # ISO 898-1 table 3 note: nominal proof ratio Sp / yield from 0.88 to 0.94 (from memory)
    assert 0.87 < found.proof_mpa / found.yield_mpa < 0.95
    assert yields <= found.yield_mpa + 1e-9 or name == "6.8"


def test_loads_grow_with_size_and_class():
    """Printed proof and ultimate loads rise with the size of one class and with the class of one size."""
    rows = list(table("iso_898_1_loads_coarse").rows.values())
    for column in ("proof_load_n", "ultimate_load_n"):
        for name in CLASSES:
            one = [row[column] for row in rows if f"{row['property_class']:.1f}" == name]
            assert one == sorted(one) and len(one) in (11, 20)
        at_m10 = {f"{row['property_class']:.1f}": row[column] for row in rows if row["thread"] == "M10x1.5"}
        assert at_m10["4.6"] < at_m10["5.8"] < at_m10["8.8"] < at_m10["9.8"] < at_m10["10.9"] < at_m10["12.9"]
    assert all(row["proof_load_n"] < row["ultimate_load_n"] for row in rows)


def test_printed_loads_come_first_and_others_are_computed():
    """M10 is printed; M10 x 0.75 is not in the tables and is computed from its area."""
    assert bolt_loads(10, 1.5, "8.8").tabulated
    assert bolt_loads(10, 1.5, "8.8").yield_n == 58.0 * 640  # As,nom x Rp0.2 (ISO 898-1, tables 3 and 4)
    computed = bolt_loads(10, 0.75, "8.8")
    assert not computed.tabulated
    assert computed.ultimate_n == pytest.approx(800 * math.pi / 4 * (10 - 0.9382 * 0.75) ** 2, rel=1e-4)


def test_nuts_carry_the_proof_load_of_their_bolts():
    """A nut of the paired class carries at least the stress at which its bolt yields, at every size."""
    for name in CLASSES:
        for size in (5, 8, 10, 14):
            assert nut_proof_mpa(nut_for(name), size) >= property_class(name, size).yield_mpa
    assert nut_proof_load_n(10, 1.5, "8") > bolt_loads(10, 1.5, "8.8").ultimate_n


@pytest.mark.parametrize(("bolt", "nut"), [("4.6", "5"), ("5.8", "5"), ("6.8", "6"), ("8.8", "8"), ("9.8", "9"),
                                           ("10.9", "10"), ("12.9", "12")])
def test_nut_for_a_bolt(bolt, nut):
    """The nut's figure is at least the first figure of the bolt (ISO 898-2, table 2, from memory)."""
    assert nut_for(bolt) == nut


def test_larger_bolts_of_8_8_are_a_little_stronger():
    """8.8 promises 800 MPa up to 16 mm and 830 above (ISO 898-1, table 3)."""
    assert [property_class("8.8", size).tensile_mpa for size in (16, 16.001)] == [800, 830]


def test_sae_grades_weaken_with_size():
    """Grades 2 and 5 have a lower strength above their first size range (SAE J429, table 1)."""
    assert sae_grade("5", 0.25) == sae_grade("5", 1)  # both ends of the first range belong to it
    assert sae_grade("5", 1).tensile_mpa > sae_grade("5", 1.125).tensile_mpa
    assert sae_grade("2", 0.75).proof_mpa > sae_grade("2", 0.875).proof_mpa
    for row in table("sae_j429_grades").rows.values():
        assert row["proof_ksi"] < row["yield_ksi"] < row["tensile_ksi"]


def test_stainless_class_is_a_tenth_of_the_strength():
    """A2-70 holds 700 MPa (ISO 3506-1)."""
    for figure in (50, 70, 80):
        assert stainless(f"A2-{figure}").tensile_mpa == 10 * figure


@pytest.mark.parametrize(("name", "by_class"), [
    ("iso_898_1_classes", True), ("iso_898_2_nuts", True), ("screw_lengths", False), ("thread_lengths", False)])
def test_ranges_follow_without_gap(name, by_class):
    """The size ranges of a class, or of lengths, begin where the one before ends, from nothing upwards."""
    ranges = {}
    for row in table(name).rows.values():
        which = row["row"].split()[0] if by_class else ""
        ranges.setdefault(which, []).append((row["over_mm"], row["up_to_mm"]))
    for one in ranges.values():
        assert one[0][0] == 0
        assert all(before[1] == after[0] for before, after in zip(one, one[1:], strict=False))
        assert all(low < high for low, high in one)


def test_nut_proof_stress_rises_with_the_class():
    """At every size a higher class of full nut holds more (ISO 898-2)."""
    for size in (4, 6, 8, 12, 24):
        stresses = [nut_proof_mpa(name, size) for name in ("5", "6", "8", "10", "12")]
        assert stresses == sorted(set(stresses))
        assert nut_proof_mpa("04", size) < nut_proof_mpa("05", size) < nut_proof_mpa("5", size)


def test_length_tolerance_rises_with_the_length():
    """js15 is wider for longer screws (ISO 286-2)."""
    widths = [row["tolerance_mm"] for row in table("screw_lengths").rows.values()]
    assert widths == sorted(set(widths))


@pytest.mark.parametrize(("call", "message"), [
    (lambda: property_class("8", 10), "two figures with a point"),
    (lambda: property_class(8.8, 10), "a number and not text"),
    (lambda: property_class("7.7", 10), "misread"),
    (lambda: property_class("9.8", 20), "up to 16 mm"),
    (lambda: property_class("8.8", 42), "up to 39 mm"),
    (lambda: sae_grade("9", 0.5), "must be one of"),
    (lambda: sae_grade("5", 12), "in mm"),
    (lambda: stainless("8.8"), "A2-70"),
    (lambda: nut_proof_mpa("7", 10), "must be one of"),
    (lambda: nut_for("14.9"), "no nut"),
    (lambda: loads_of(58, 800), "must be a Strength"),
    (lambda: shank_area_mm2(-1), "above 0"),
])
def test_refusals(call, message):
    """Bad classes and sizes are refused with value, rule and likely cause."""
    with pytest.raises(ValueError, match=message):
        call()
