"""Tables of heat treatment: consistent in themselves."""

from itertools import pairwise

import pytest

from workbench.rivets.heat_treatment import celsius
from workbench.tables import table


def test_both_scales_of_a_band_agree():
    """degC is degF rounded to a whole degree, both ends of every band."""
    for row in table("solution_bands").rows.values():
        for end in ("low", "high"):
            assert abs(celsius(row[f"{end}_degf"]) - row[f"{end}_degc"]) <= 0.5 + 1e-9, row["band"]
        assert row["low_degf"] < row["high_degf"]


def test_steps_of_size_follow_on_without_a_gap():
    """Each row begins where the row before ends, within a document and furnace."""
    for name in ("soak_times", "quench_delays"):
        rows = list(table(name).rows.values())
        for before, row in pairwise(rows):
            same = all(before.get(key) == row.get(key) for key in ("document", "furnace"))
            assert row["over_in"] == (before["up_to_in"] if same else 0), row["row"]
            assert row["over_in"] < row["up_to_in"]


def test_rows_are_named_by_what_they_hold():
    """The name of a band is its document and alloy; of a soak row, the size that it goes up to."""
    for row in table("solution_bands").rows.values():
        assert row["band"] == f"{row['document']} {row['alloy']:g}"
    for row in table("soak_times").rows.values():
        assert row["most_min"] == 0 or row["most_min"] >= row["least_min"]
        assert row["document"] == "specification" or row["most_min"] == 0
    assert {row["up_to_in"] for row in table("quench_delays").rows.values() if "0." not in row["row"]} == {1}


def test_colder_keeps_longer():
    """Days rise as the store's temperature falls; both scales agree to half a degree."""
    for alloys in ("2014 2024 2219", "6061 7075"):
        rows = [row for row in table("cold_storage").rows.values() if row["alloys"] == alloys]
        assert [row["days"] for row in rows] == sorted(row["days"] for row in rows)
        assert [row["at_most_degc"] for row in rows] == sorted((row["at_most_degc"] for row in rows), reverse=True)
        assert [row["at_most_degf"] for row in rows] == [10, 0, -10]  # ASM after AMS 2770, from memory
        assert all(round(celsius(row["at_most_degf"])) == row["at_most_degc"] for row in rows)
        assert len({row["delay_min"] for row in rows}) == 1


@pytest.mark.parametrize("column", ["drive_within_min", "cold_for_h", "load_after_h"])
def test_figures_of_documents_are_whole_or_left_out(column):
    """A document's cell is a whole figure above nought, or empty: never a dash or a guess."""
    for row in table("rivet_documents").rows.values():
        assert row[column] == "" or float(row[column]) > 0 and float(row[column]).is_integer()
        assert row["rule"] == f"{row['document']} {row['alloy']:g}"
        assert row["says"] and row["store_at_most_degc"] in ("0", "")  # 32 degF, where a store is spoken of
