"""Designations of metric solid rivets: read, written, and handed back with the place."""

import pytest

from workbench.rivets.designation import MetricRivet, read, write
from workbench.tables import table
from workbench.threads.spelling import NotACallOut


@pytest.mark.parametrize("typed, head, diameter, length, material, measured", [
    ("Rivet DIN 660 - 4 × 20 - St", "round", 4, 20, "St", "under the head"),
    ("din660-4x20-st", "round", 4, 20, "St", "under the head"),
    ("DIN 661 2,5 x 10", "countersunk", 2.5, 10, "", "over all"),
    ("solid rivet DIN 660 – 1.6 x 5 – AlMg", "round", 1.6, 5, "AlMg", "under the head"),
    ("DIN 661 - 8x40-A2", "countersunk", 8, 40, "A2", "over all"),
])  # fmt: skip
def test_a_designation_says_head_sizes_and_material(typed, head, diameter, length, material, measured):
    """DIN 660 round and DIN 661 countersunk, shank x length, material last (from memory of both standards)."""
    one = read(typed)
    assert (one.head, one.diameter_mm, one.length_mm, one.material, one.measured) == (
        head, diameter, length, material, measured)  # fmt: skip


def test_what_is_written_is_read_again():
    """All diameters, lengths and materials of the tables come back as they were written."""
    for row in table("rivets_metric").rows.values():
        for material in ("", *table("rivet_materials").rows):
            for standard in ("660", "661"):
                rivet = MetricRivet(standard, row["diameter_mm"], 20, material)
                assert read(write(rivet)) == rivet


HANDED_BACK = [
    ("DIN 660 - 4 20", 12, "an x is due"),
    ("4 x 20", 0, "the standard is due"),
    ("DIN 660 - 20 x 4", 10, "no shank diameter"),
    ("DIN 660 - 8 x 5", 14, "swapped"),
    ("DIN 660 - 4.5 x 20", 10, "nearest: 4 or 5"),
    ("DIN 660 - 4 x 21", 14, "nearest: 20 or 22"),
    ("DIN 660 - 4 x", 13, "length in mm is due"),
    ("DIN 660 x 20", 8, "shank diameter in mm is due"),
    ("DIN 660 - 4 x 20 - Pb", 19, "no material known"),
    ("DIN 660 - 4 x 20 - St - 3", 22, "more follows"),
    ("DIN 7337 - 4 x 10", 4, "not known here"),
    ("ISO 15977 - 4 x 10 - AlA/St", 4, "blind rivet"),
    ("ISO 1051 - 4 x 20", 4, "names no head"),
    ("", 0, "the standard is due"),
    ("1" * 90, 80, "at most 80 signs"),
]


@pytest.mark.parametrize("typed, place, rule", HANDED_BACK, ids=[row[0][:20] for row in HANDED_BACK])
def test_what_cannot_be_read_is_handed_back_with_its_place(typed, place, rule):
    """The refusal names the sign, the rule and the likely meaning."""
    with pytest.raises(NotACallOut) as caught:
        read(typed)
    assert rule in str(caught.value)
    assert caught.value.place == place


def test_only_what_is_made_can_be_written():
    """Unknown standard, material and thing are refused."""
    with pytest.raises(ValueError, match="must be 660"):
        MetricRivet("124", 4, 20)
    with pytest.raises(ValueError, match="must be one of St"):
        MetricRivet("660", 4, 20, "Pb")
    with pytest.raises(ValueError, match="must be a MetricRivet"):
        write("4x20")
    with pytest.raises(NotACallOut, match="a designation is text"):
        read(None)
