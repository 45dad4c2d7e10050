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


def test_colder_keeps_longer():
    """Days rise as the store's temperature falls; both scales agree to half a degree."""
    for alloys in ("2014 2024 2219", "6061 7075"):
        rows = [row for row in table("cold_storage").rows.values() if row["alloys"] == alloys]
        assert [row["days"] for row in rows] == sorted(row["days"] for row in rows)
        assert [row["at_most_degc"] for row in rows] == sorted((row["at_most_degc"] for row in rows), reverse=True)
        assert all(abs(celsius(row["at_most_degf"]) - row["at_most_degc"]) <= 0.5 for row in rows)


@pytest.mark.parametrize("column", ["drive_within_min", "cold_for_h", "load_after_h"])
def test_figures_of_documents_are_whole_or_left_out(column):
    """A document's cell is a whole figure above nought, or empty: never a dash or a guess."""
    for row in table("rivet_documents").rows.values():
        assert row[column] == "" or float(row[column]) > 0 and float(row[column]).is_integer()
        assert row["rule"] == f"{row['document']} {row['alloy']:g}"
        assert row["says"]
