"""The limits of the panels' speed, held by the benchmark itself."""

import pytest

from tests.benchmarks.panels import CASES, measure


@pytest.mark.parametrize("name", CASES)
def test_a_move_is_fast_enough(name):
    """A move costs under 15 ms of processor time (a busy machine does not count), at most half of a new figure."""
    row = measure(name)
    assert row["cpu_median_ms"] < 15 and row["cpu_ratio"] <= 0.5, row
