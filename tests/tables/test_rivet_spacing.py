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
