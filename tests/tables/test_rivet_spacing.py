"""The spacing rules of the documents agree with each other where all must."""

from workbench.tables import table


def test_least_is_never_above_most_and_flush_heads_need_no_less():
    """In each document least <= usual <= most, and a flush head keeps at least as far from the edge."""
    for row in table("rivet_spacing").rows.values():
        pitches = [row[name] for name in ("pitch_least_d", "pitch_usual_least_d", "pitch_usual_most_d", "pitch_most_d")]
        given = [pitch for pitch in pitches if pitch]
        assert given == sorted(given)
        assert row["edge_least_d"] <= row["edge_flush_least_d"]
        assert not row["edge_most_d"] or row["edge_flush_least_d"] < row["edge_most_d"]


def test_sheet_is_weaker_in_shear_and_stronger_in_bearing_than_in_tension():
    """Light alloys shear at about 0.6 of their tension and bear about twice it (common practice, no source)."""
    for row in table("sheet_strengths").rows.values():
        assert 0.55 <= row["shear_mpa"] / row["tension_mpa"] <= 0.68
        assert 1.8 <= row["bearing_mpa"] / row["tension_mpa"] <= 2.2
