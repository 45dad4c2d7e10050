"""Tables of locking: sizes rise together, pins pass their holes and slots, and the standards agree with each other."""

from itertools import pairwise

import pytest

from workbench.tables import table

PINS = list(table("iso_1234_split_pins").rows.values())
NUTS = list(table("din_935_slotted_nuts").rows.values())
HOLES = table("iso_7378_pin_holes").rows
COARSE = {row["diameter_mm"]: row["pitch_mm"] for row in table("iso_261_metric").rows.values()
          if row["series"] == "coarse"}  # fmt: skip


@pytest.mark.parametrize("column", ["size_mm", "shank_max_mm", "shank_min_mm", "eye_max_mm", "eye_min_mm",
                                    "bolt_over_mm", "bolt_up_to_mm", "clevis_over_mm", "clevis_up_to_mm"])  # fmt: skip
def test_larger_pins_are_larger_in_every_size(column):
    """Shank, eye, bolts and clevis pins of ISO 1234 rise from row to row."""
    values = [row[column] for row in PINS]
    assert values == sorted(set(values))


def test_bolt_and_clevis_ranges_follow_each_other_without_a_gap():
    """Where one pin's range of bolts or clevis pins ends, the next begins (ISO 1234: over ... up to)."""
    for before, after in pairwise(PINS):
        assert before["bolt_up_to_mm"] == after["bolt_over_mm"]
        assert before["clevis_up_to_mm"] == after["clevis_over_mm"]


def test_a_pin_is_thinner_than_the_hole_that_names_it_and_its_eye_is_wider():
    """Shank below the size, eye above it; least below greatest; lengths of the range stand in the list of lengths."""
    lengths = {row["length_mm"] for row in table("split_pin_lengths").rows.values()}
    for row in PINS:
        assert row["shank_min_mm"] < row["shank_max_mm"] < row["size_mm"] < row["eye_min_mm"] < row["eye_max_mm"]
        assert row["lead_min_mm"] == pytest.approx(row["lead_max_mm"] / 2)
        assert {row["shortest_mm"], row["longest_mm"]} <= lengths


def test_lengths_grow_as_preferred_numbers():
    """From 10 mm on each length is 8 to 15 % longer than the last (about R 20; ISO 1234, from memory)."""
    lengths = [row["length_mm"] for row in table("split_pin_lengths").rows.values()]
    assert lengths == sorted(set(lengths))
    assert all(1.08 <= after / before <= 1.21 for before, after in pairwise(lengths) if before >= 10)


@pytest.mark.parametrize("nut", NUTS, ids=lambda nut: nut["thread"])
def test_each_nut_takes_the_pin_that_iso_1234_names_for_its_bolt(nut):
    """Pin size of DIN 935-1 = pin of ISO 1234 for the bolt = hole of ISO 7378; the pin passes the narrowest slot."""
    row = next(row for row in PINS if row["bolt_over_mm"] < nut["diameter_mm"] <= row["bolt_up_to_mm"])
    assert nut["pin_mm"] == row["size_mm"] < nut["slot_min_mm"]
    assert row["shortest_mm"] <= nut["pin_length_mm"] <= row["longest_mm"]
    if nut["thread"] in HOLES:
        assert HOLES[nut["thread"]]["hole_mm"] == nut["pin_mm"]


@pytest.mark.parametrize("nut", NUTS, ids=lambda nut: nut["thread"])
def test_a_slotted_nut_is_a_full_nut_with_slots_on_top(nut):
    """Coarse pitch of ISO 261; floor about 0.8 d; slot deeper than the pin; crown inside the flats; pin longer."""
    assert nut["pitch_mm"] == COARSE[nut["diameter_mm"]]
    assert 0.68 <= nut["floor_mm"] / nut["diameter_mm"] <= 0.84
    assert nut["height_mm"] - nut["floor_mm"] >= nut["pin_mm"]
    assert nut["crown_mm"] < nut["flats_mm"] and nut["pin_length_mm"] > (nut["crown_mm"] or nut["flats_mm"])
    it14 = next(width for over, width in ((10, 0.43), (6, 0.36), (3, 0.3), (0, 0.25)) if nut["slot_min_mm"] > over)
    assert nut["slot_max_mm"] - nut["slot_min_mm"] == pytest.approx(it14)  # H14 of ISO 286 (from memory)
    assert nut["slots"] == (6 if nut["diameter_mm"] <= 39 else 8)


def test_holes_keep_more_than_their_own_size_to_the_end():
    """The hole's centre lies 1.4 to 2.3 hole sizes from the bolt's end, and never nearer for a larger bolt."""
    rows = list(HOLES.values())
    assert all(1.4 <= row["end_mm"] / row["hole_mm"] <= 2.3 for row in rows)
    assert [row["end_mm"] for row in rows] == sorted(row["end_mm"] for row in rows)


def test_a_nut_drags_less_each_time_it_comes_off():
    """First on above first off above fifth off, and every column rises with the size (ISO 2320)."""
    rows = list(table("iso_2320_prevailing").rows.values())
    for row in rows:
        assert row["first_on_max_nm"] > row["first_off_min_nm"] > row["fifth_off_min_nm"] > 0
    for column in ("first_on_max_nm", "first_off_min_nm", "fifth_off_min_nm"):
        assert [row[column] for row in rows] == sorted(row[column] for row in rows)


def test_the_spring_washer_holds_nothing_and_every_positive_way_holds_on():
    """No friction way holds under slip; every positive way keeps the nut on; the spring washer does neither."""
    rows = table("locking_methods").rows
    assert {row["kind"] for row in rows.values()} == {"positive", "friction", "adhesive"}
    for row in rows.values():
        assert row["slip"] == (row["kind"] != "friction")
        assert row["lost"] or row["kind"] == "friction"
    washer = rows["split spring washer"]
    assert (washer["slip"], washer["lost"], washer["preload"]) == (0, 0, 0)
