"""Tables of tightening: whole, rising, and as remembered from the standards."""

import pytest

from workbench.tables import table


def rows(name, **where):
    return [row for row in table(name).rows.values() if all(row[key] == value for key, value in where.items())]


@pytest.mark.parametrize("name, column, where", [
    ("iso_7089_washers", "outer_mm", {"series": "normal"}), ("iso_7089_washers", "outer_mm", {"series": "large"}),
    ("iso_7089_washers", "hole_mm", {"series": "normal"}), ("iso_7089_washers", "thickness_mm", {"series": "normal"}),
    ("hexagon_sizes", "across_flats_mm", {}), ("hexagon_sizes", "face_mm", {}), ("hexagon_sizes", "nut_height_mm", {}),
])  # fmt: skip
def test_sizes_never_fall_as_the_diameter_grows(name, column, where):
    """Along a series each size is at least that of the smaller one."""
    found = [row[column] for row in rows(name, **where)]
    assert found == sorted(found) and len(found) >= 13


def test_a_washer_passes_its_bolt_and_carries_its_head():
    """Hole over the diameter by 4 to 10 percent or so; outer diameter over the head's face."""
    faces = {row["diameter_mm"]: row["face_mm"] for row in rows("hexagon_sizes")}
    for row in rows("iso_7089_washers"):
        assert 1.02 < row["hole_mm"] / row["diameter_mm"] < 1.12
        assert row["outer_mm"] > faces.get(row["diameter_mm"], 0)
        wide = 2.9 if row["series"] == "large" else 2.05
        assert row["outer_mm"] / row["diameter_mm"] == pytest.approx(wide, rel=0.25)


def test_a_large_washer_is_wider_and_no_thinner():
    """Large series against normal series, size by size."""
    normal = {row["diameter_mm"]: row for row in rows("iso_7089_washers", series="normal")}
    for row in rows("iso_7089_washers", series="large"):
        beside = normal[row["diameter_mm"]]
        assert row["outer_mm"] > beside["outer_mm"] and row["thickness_mm"] >= beside["thickness_mm"]


def test_a_face_is_a_little_less_than_the_flats_and_a_nut_about_nine_tenths_high():
    """dw is 0.83 to 0.95 of s (ISO 4759-1); m of a style 1 nut is 0.8 to 0.95 d (ISO 4032), from memory."""
    for row in rows("hexagon_sizes"):
        assert 0.82 < row["face_mm"] / row["across_flats_mm"] < 0.96
        assert 0.79 < row["nut_height_mm"] / row["diameter_mm"] < 0.95


@pytest.mark.parametrize("size, flats", [("M6", 10), ("M8", 13), ("M10", 16), ("M12", 18), ("M16", 24), ("M20", 30)])
def test_widths_across_flats_are_those_of_the_spanner(size, flats):
    """ISO 272 (from memory): M10 takes 16 mm, M12 18 mm; older sets have 17 and 19."""
    assert table("hexagon_sizes").row(size)["across_flats_mm"] == flats


def test_factors_and_frictions_are_ordered():
    """Every low figure lies below its high one; tightening factors are over one; nut factors 0.1 to 0.35."""
    assert all(1 < row["factor_low"] < row["factor_high"] for row in rows("tightening_methods"))
    assert all(0 < row["low"] < row["high"] < 1 for row in rows("friction_classes"))
    assert all(0.1 <= row["factor"] <= 0.35 for row in rows("nut_factors"))


def test_settling_rises_with_roughness():
    """Within a kind of load each rougher row settles at least as much, and the bands follow each other."""
    for load in ("pull", "shear"):
        found = rows("settling", load=load)
        for smoother, rougher in zip(found, found[1:], strict=False):
            assert smoother["up_to_rz_um"] == rougher["over_rz_um"]
            assert all(smoother[part] <= rougher[part] for part in ("thread_um", "face_um", "joint_um"))


def test_stronger_classes_endure_more_and_steel_is_stiffest_but_for_none():
    """Endurance rises with the class; no listed metal is stiffer than plain steel."""
    endured = [row["endurance_mpa"] for row in rows("bolt_endurance")]
    assert endured == sorted(endured)
    assert max(rows("elastic_moduli"), key=lambda row: row["modulus_mpa"])["material"] == "steel"


def test_soft_parts_bear_less_under_a_head():
    """Mild steel bears less than medium carbon and heat-treated steel; die-cast aluminium less than wrought."""
    limit = {row["material"]: row["limit_mpa"] for row in rows("bearing_pressures")}
    assert limit["mild steel"] < limit["medium carbon steel"] < limit["heat-treated steel"]
    assert limit["die-cast aluminium"] < limit["wrought aluminium"] < limit["high-strength aluminium"]
