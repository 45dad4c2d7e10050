"""The limits of the panels' speed, held by the benchmark itself."""

import pytest

from tests.benchmarks.panels import CASES, measure


@pytest.mark.parametrize("name", CASES)
def test_a_move_costs_at_most_half_of_a_new_figure(name):
    """A kept figure is worth its code: half the processor's time of a new one, measured in turns."""
    row = measure(name)
    assert row["cpu_ratio"] <= 0.5, row


def test_measuring_screw_moves_fast_enough():
    """A move costs under 15 ms of processor time (a busy machine does not count)."""
    row = measure("measuring_screw")
    assert row["cpu_median_ms"] < 15, row
