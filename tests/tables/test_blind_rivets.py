"""Tables of blind rivets and of galvanic partners: consistent in themselves and with each other."""

from itertools import pairwise

import pytest

from workbench.tables import table


def grips():
    """(standard, body) -> its rows, shortest length first."""
    found = {}
    for row in table("blind_grips").rows.values():
        found.setdefault((row["standard"], row["body_mm"]), []).append(row)
    return {key: sorted(rows, key=lambda row: row["length_mm"]) for key, rows in found.items()}


@pytest.mark.parametrize("key", grips(), ids=lambda key: f"{key[0]}-{key[1]:g}")
def test_grips_of_one_body_follow_each_other_without_a_gap(key):
    """The next length begins where the shorter one ends, and every length is longer than its largest grip."""
    rows = grips()[key]
    for shorter, longer in pairwise(rows):
        assert longer["grip_least_mm"] == shorter["grip_largest_mm"]
    for row in rows:
        assert 0 < row["grip_least_mm"] < row["grip_largest_mm"] < row["length_mm"]


def test_the_rule_of_thumb_is_near_the_table_and_no_more():
    """l - D lies within 3.6 mm of the tabulated largest grip, and on both sides of it (common practice, no source)."""
    over = [row["length_mm"] - row["body_mm"] - row["grip_largest_mm"] for row in table("blind_grips").rows.values()]
    assert max(map(abs, over)) <= 3.6 and min(over) < 0 < max(over)


def test_holes_are_a_tenth_to_two_tenths_over_the_body():
    """Hole D + 0.1 to D + 0.2 mm, so that the largest body still enters; head 2.1 d and 0.415 d high (annex A)."""
    for row in table("blind_sizes").rows.values():
        body = row["body_mm"]
        assert row["hole_least_mm"] == pytest.approx(body + 0.1) and row["hole_largest_mm"] == pytest.approx(body + 0.2)
        assert row["body_least_mm"] < body < row["body_largest_mm"] < row["hole_least_mm"]
        assert (row["body_largest_mm"], row["body_least_mm"]) == pytest.approx((body + 0.08, body - 0.15))
        assert row["head_largest_mm"] == pytest.approx(2.1 * body, abs=0.051)
        assert row["head_height_mm"] == pytest.approx(0.415 * body, abs=0.0551)
        assert 0.55 * body < row["mandrel_mm"] < 0.7 * body


def test_loads_rise_with_the_body_and_a_set_rivet_holds_more_in_pull_than_in_shear():
    """Within a standard and level both loads rise with the diameter; tension is the larger (mandrel kept)."""
    rows = list(table("blind_loads").rows.values())
    for one, other in pairwise(rows):
        if (one["standard"], one["level"]) == (other["standard"], other["level"]):
            assert one["body_mm"] < other["body_mm"]
            assert one["shear_n"] < other["shear_n"] and one["tension_n"] < other["tension_n"]
    assert all(row["shear_n"] < row["tension_n"] for row in rows)


def test_harder_bodies_hold_more():
    """For a 4 mm body: AlA/AlA under AlA/St L, H, steel, stainless, in shear and in pull."""
    rows = table("blind_loads").rows
    order = ("ISO 15981 4", "ISO 15977 L 4", "ISO 15977 H 4", "ISO 15979 4", "ISO 15983 4")
    for weaker, stronger in pairwise(order):
        assert rows[weaker]["shear_n"] < rows[stronger]["shear_n"]
        assert rows[weaker]["tension_n"] < rows[stronger]["tension_n"]


def test_mean_shear_stress_of_the_tubular_section_is_that_of_the_metal():
    """Shear load / (pi/4 d^2): aluminium 35 to 135, steel 110 to 180, stainless 200 to 270 MPa (no source)."""
    bands = {"ISO 15981": (35, 60), "ISO 15977": (50, 120), "ISO 15979": (110, 180), "ISO 15983": (200, 270)}
    for row in table("blind_loads").rows.values():
        if row["standard"] in bands:
            low, high = bands[row["standard"]]
            assert low <= row["shear_n"] / (0.785398 * row["body_mm"] ** 2) <= high, row["row"]


def test_a_mandrel_breaks_above_the_pull_that_its_rivet_holds():
    """The mandrel's largest break load is above the rivet's least tension, for every body."""
    for row in table("blind_break_loads").rows.values():
        level = " H" if row["standard"] == "ISO 15977" else ""
        rivet = table("blind_loads").row(f"{row['standard']}{level} {row['body_mm']:g}")
        assert row["break_largest_n"] > rivet["tension_n"]


def test_families_name_metals_of_the_anodic_index():
    """Body and mandrel of each family stand in the table of the anodic index; grips and loads name known families."""
    families = table("blind_families").rows
    for row in families.values():
        assert row["body_metal"] in table("anodic_index").rows and row["mandrel_metal"] in table("anodic_index").rows
    for name in ("blind_grips", "blind_loads", "blind_break_loads"):
        assert {row["standard"] for row in table(name).rows.values()} <= set(families)


def test_inch_holes_are_those_of_their_drills():
    """Each recommended drill (number and letter drills, ASME B94.11M) lies within 0.0015 in of the least hole."""
    for row in table("blind_holes_inch").rows.values():
        drill = table("number_drills").row(row["drill"].removeprefix("#"))["diameter_in"]
        assert abs(drill - row["hole_least_in"]) <= 0.0015 and row["body_in"] < drill
        assert row["hole_least_in"] < row["hole_largest_in"]


def test_the_index_falls_from_gold_to_beryllium():
    """Anodic indices are ordered, nought for gold, and in steps of 0.05 V; limits grow with dryness."""
    values = [row["index_v"] for row in table("anodic_index").rows.values()]
    assert values == sorted(values, reverse=True) and values[0] == 0
    assert all(round(value / 0.05, 6) == round(value / 0.05) for value in values)
    limits = [row["largest_v"] for row in table("anodic_environments").rows.values()]
    assert limits == sorted(limits)


def test_the_two_sea_water_series_rank_alike():
    """Metals named in both sea-water tables stand in the same order: zinc, aluminium, steel, copper, ..."""
    volts = {row["metal"]: row["potential_v"] for row in table("sea_water_series").rows.values()}
    ranks = {row["metal"]: row["rank"] for row in table("sea_water_ranks").rows.values()}
    order = (("zinc", "zinc"), ("aluminium 3003-H", "aluminium 3003-H25"), ("carbon steel", "steel 1010"),
             ("stainless 410 active", "stainless 410 active"), ("copper", "copper"))  # fmt: skip
    assert [volts[one] for one, _ in order] == sorted(volts[one] for one, _ in order)
    assert [ranks[other] for _, other in order] == sorted(ranks[other] for _, other in order)
