"""Heights of heads and nominal lengths: consistent, and as remembered from the standards."""

from workbench.tables import table


def test_larger_screws_have_heads_no_lower():
    """Within one kind of head the height never falls as the diameter grows."""
    for kind in ("hexagon", "countersunk"):
        rows = [row for row in table("head_heights").rows.values() if row["head"] == kind]
        assert [row["diameter_mm"] for row in rows] == sorted(row["diameter_mm"] for row in rows)
        assert [row["height_mm"] for row in rows] == sorted(row["height_mm"] for row in rows)


def test_heads_are_about_six_to_seven_tenths_of_the_diameter_or_half_and_less_where_countersunk():
    """A hexagon head is 0.6 to 0.72 d high, a countersunk one 0.48 to 0.7 d (common practice, no source)."""
    bands = {"hexagon": (0.6, 0.72), "countersunk": (0.48, 0.7)}
    for row in table("head_heights").rows.values():
        low, high = bands[row["head"]]
        assert low <= row["height_mm"] / row["diameter_mm"] <= high, row["screw"]


def test_nominal_lengths_rise_in_steps_that_grow():
    """Lengths rise by 2 to 5 mm at first, by 5 to 70 mm, by 10 to 160 mm, then by 20 mm (ISO 888, from memory)."""
    lengths = [row["length_mm"] for row in table("nominal_lengths").rows.values()]
    steps = [later - earlier for earlier, later in zip(lengths, lengths[1:], strict=False)]
    assert lengths == sorted(set(lengths))
    assert {step for step, at in zip(steps, lengths, strict=False) if 20 <= at < 70} == {5}
    assert {step for step, at in zip(steps, lengths, strict=False) if 70 <= at < 160} == {10}
    assert {step for step, at in zip(steps, lengths, strict=False) if at >= 160} == {20}
