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


# typed a second time from memory of the documents that the tables name, column by column
REMEMBERED = {
    ("iso_7089_washers", "normal", "hole_mm"):
        "1.7 2.2 2.7 3.2 4.3 5.3 6.4 8.4 10.5 13 15 17 19 21 23 25 28 31 34 37 42",
    ("iso_7089_washers", "normal", "outer_mm"): "4 5 6 7 9 10 12 16 20 24 28 30 34 37 39 44 50 56 60 66 72",
    ("iso_7089_washers", "normal", "thickness_mm"):
        "0.3 0.3 0.5 0.5 0.8 1 1.6 1.6 2 2.5 2.5 3 3 3 3 4 4 4 5 5 6",
    ("iso_7089_washers", "large", "hole_mm"): "3.2 4.3 5.3 6.4 8.4 10.5 13 15 17 21 25 33 39",
    ("iso_7089_washers", "large", "outer_mm"): "9 12 15 18 24 30 37 44 50 60 72 92 110",
    ("iso_7089_washers", "large", "thickness_mm"): "0.8 1 1 1.6 2 2.5 3 3 3 4 5 6 8",
    ("hexagon_sizes", "", "across_flats_mm"): "5.5 7 8 10 13 16 18 21 24 27 30 34 36 41 46 50 55 60",
    ("hexagon_sizes", "", "face_mm"):
        "4.57 5.88 6.88 8.88 11.63 14.63 16.63 19.64 22.49 25.34 28.19 31.71 33.61 38 42.75 46.55 51.11 55.86",
    ("hexagon_sizes", "", "nut_height_mm"):
        "2.4 3.2 4.7 5.2 6.8 8.4 10.8 12.8 14.8 15.8 18 19.4 21.5 23.8 25.6 28.7 31 33.4",
    ("friction_classes", "", "low"): "0.04 0.08 0.14 0.20 0.30",
    ("friction_classes", "", "high"): "0.10 0.16 0.24 0.35 0.50",
    ("tightening_methods", "", "factor_low"): "1.1 1.2 1.2 1.2 1.4 1.6 2.5 2.5",
    ("tightening_methods", "", "factor_high"): "1.2 1.4 1.4 1.6 1.6 2.0 4.0 4.0",
    ("nut_factors", "", "factor"): "0.30 0.20 0.20 0.18 0.16 0.15 0.12",
    ("bolt_endurance", "", "endurance_mpa"): "129 140 162 190",
    ("bolt_endurance", "", "from_mm"): "16 1.6 5 1.6",
    ("bolt_endurance", "", "up_to_mm"): "36 16 36 36",
    ("elastic_moduli", "", "modulus_mpa"): "205000 193000 100000 169000 70000 105000 110000 114000 44800",
    ("bearing_pressures", "", "limit_mpa"): "260 420 700 800 230 370 220 180 120 140",
    ("settling", "pull", "face_um"): "2.5 3 4",
    ("settling", "pull", "joint_um"): "1.5 2 3",
    ("settling", "shear", "face_um"): "3 4.5 6.5",
    ("settling", "shear", "joint_um"): "2 2.5 3.5",
    ("settling", "", "thread_um"): "3 3 3 3 3 3",
    ("settling", "pull", "up_to_rz_um"): "10 40 160",
    ("settling", "shear", "over_rz_um"): "0 10 40",
}  # fmt: skip


@pytest.mark.parametrize("name, kind, column", REMEMBERED)
def test_columns_are_those_of_the_documents(name, kind, column):
    """Each column reads as in the document that its table names (from memory, typed a second time)."""
    field = {"settling": "load", "iso_7089_washers": "series"}.get(name)
    found = [row[column] for row in rows(name, **({field: kind} if kind else {}))]
    assert found == [float(cell) for cell in REMEMBERED[name, kind, column].split()]


def test_a_washers_hole_is_the_fine_clearance_hole():
    """ISO 7089 takes the fine series of ISO 273 for its hole from M3 to M36 (from memory)."""
    fine = {row["diameter_mm"]: row["fine"] for row in rows("iso_273_clearance_holes")}
    for row in rows("iso_7089_washers", series="normal"):
        if 3 <= row["diameter_mm"] <= 36:
            assert row["hole_mm"] == fine[row["diameter_mm"]], row["washer"]
