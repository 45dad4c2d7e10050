"""Tables of solid rivets: whole, in order, and consistent with each other."""

import math

import pytest

from workbench.tables import table

INCH_SIZES = [(row["diameter_in"], row) for row in table("rivet_sizes_inch").rows.values()]


def rows(name):
    return list(table(name).rows.values())


@pytest.mark.parametrize("name", ["rivet_sizes_inch", "rivets_metric"])
def test_everything_grows_with_the_shank(name):
    """Heads, depths, holes and shanks rise from size to size."""
    for column, first in rows(name)[0].items():
        if isinstance(first, float):
            found = [row[column] for row in rows(name)]
            assert found == sorted(set(found)), column


def test_a_hole_is_a_little_larger_than_its_shank():
    """Metric 0.05 to 0.4 mm (DIN 660), inch 0.0005 to 0.011 in (drill sizes), never less than the shank."""
    for row in rows("rivets_metric"):
        assert 0.05 - 1e-9 <= row["hole_mm"] - row["diameter_mm"] <= 0.4 + 1e-9
        assert 0.85 * row["diameter_mm"] < row["least_shank_mm"] < row["diameter_mm"]
    drills = table("number_drills")
    for across, row in INCH_SIZES:
        for column in ("drill", "drill_strength", "drill_older"):
            assert 0.0005 <= drills.row(row[column])["diameter_in"] - across <= 0.0111, (row["size"], column)


def test_names_of_inch_sizes_are_their_diameters():
    """3/32 is 0.09375 in: a name is the fraction itself."""
    for across, row in INCH_SIZES:
        over, under = row["size"].split("/")
        assert across == int(over) / int(under)


def test_din_proportions():
    """Round heads are about 1.75 d by 0.6 d, countersunk ones 1.75 d by 0.5 d (DIN 660 and 661, from memory)."""
    for row in rows("rivets_metric"):
        across = row["diameter_mm"]
        assert row["round_width_mm"] == pytest.approx(1.75 * across, abs=0.08)
        assert row["round_height_mm"] == pytest.approx(0.6 * across, abs=0.05)
        assert row["csk_width_mm"] == row["round_width_mm"]
        assert row["csk_height_mm"] == pytest.approx(0.5 * across, abs=0.101)


def test_a_countersunk_head_is_the_cone_of_its_angle():
    """Proportions of 75, 90, 100, 120 degrees and MS20426 agree with (w - d)/2 = h tan(A/2)."""
    for row in rows("rivet_heads"):
        if row["angle_deg"]:
            slope = math.tan(math.radians(row["angle_deg"] / 2))
            assert (row["width_d"] - 1) / 2 == pytest.approx(row["height_d"] * slope, rel=0.005)
    for across, row in INCH_SIZES:
        depth = (row["csk_width_in"] - across) / 2 / math.tan(math.radians(50))
        assert row["csk_height_in"] == pytest.approx(depth, abs=0.001)


def test_universal_heads_are_twice_the_shank_and_less_than_half_as_high():
    """MS20470: width 2 D, height about 0.43 D (from memory)."""
    for across, row in INCH_SIZES:
        assert row["universal_width_in"] == pytest.approx(2 * across, abs=0.001)
        assert row["universal_height_in"] == pytest.approx(0.428 * across, abs=0.001)


def test_codes_name_one_alloy_each_and_part_numbers_only_known_codes():
    """No two alloys share a letter code except stainless and none; every letter of a part number is a known code."""
    codes = [row["code"] for row in rows("rivet_alloys")]
    assert len(set(codes)) == len(codes)
    for row in rows("rivet_part_numbers"):
        assert set(row["letters"].split()) <= set(codes)
        assert (row["angle_deg"] > 0) == row["head"].startswith("countersunk")
        assert row["head"] == f"countersunk {row['angle_deg']:g}" or not row["angle_deg"]


def test_metals_stand_in_the_anodic_index():
    """Alloys and metric materials have their row in the table of the index."""
    for row in rows("rivet_alloys") + rows("rivet_materials"):
        assert row["metal"] in table("anodic_index").rows
        assert 2.6 <= row["density_kg_dm3"] <= 9


def test_only_the_copper_alloys_that_age_are_heat_treated():
    """2017 and 2024 are driven soft, 2117 as received (FAA-H-8083-31)."""
    assert {row["alloy"] for row in rows("rivet_alloys") if row["before_driving"] == "heat treat"} == {"2017", "2024"}


def test_bands_hold_their_middle():
    """Least <= target <= most for tails and formed heads; 7050 asks for more; a flush tail needs less metal."""
    for row in rows("rivet_tails"):
        assert row["least_d"] < row["allowance_d"] < row["most_d"]
    for row in rows("formed_head_limits"):
        for what in ("width", "height"):
            most = row[f"most_{what}_d"] or math.inf
            assert row[f"least_{what}_d"] < row[f"target_{what}_d"] < most
        assert row["least_width_7050_d"] >= row["least_width_d"]
    tails = table("rivet_tails")
    assert tails.row("countersunk flush")["most_d"] < tails.row("flat")["least_d"]


def test_the_allowance_holds_the_metal_of_the_head():
    """By volume the usual allowance is at least the head's own metal and at most 1.45 times it (the hole is filled)."""
    for row in rows("rivet_tails"):
        if row["angle_deg"]:
            metal = row["height_d"] / 3 * (row["width_d"] ** 2 + row["width_d"] + 1) - row["height_d"]
        elif row["tail"] == "flat":
            metal = row["width_d"] ** 2 * row["height_d"]
        else:
            metal = row["height_d"] * (3 * row["width_d"] ** 2 / 4 + row["height_d"] ** 2) * 2 / 3
        assert metal <= row["allowance_d"] <= 1.45 * metal, row["tail"]


def test_every_fault_has_a_verdict_and_something_to_do():
    """Twelve faults; accept is never the verdict on a fault."""
    assert len(rows("rivet_defects")) == 12
    for row in rows("rivet_defects"):
        assert row["verdict"] in ("replace", "refer")
        assert all(row[column] for column in ("sign", "cause", "act"))
