"""The limits of the panels' speed, held by the benchmark itself."""

from tests.benchmarks.panels import measure


def test_measuring_screw_moves_fast_enough():
    """A move costs under 15 ms of processor time (a busy machine does not count), at most half of a new figure."""
    row = measure("measuring_screw")
    assert row["cpu_median_ms"] < 15 and row["ratio"] <= 0.5, row
