"""The benchmark of the panels keeps its own promises; the times are for people to read."""

import pytest

from tests.benchmarks.panels import CASES, measure
from workbench.panels import PANELS


def test_every_panel_is_measured():
    """No panel is left out of the benchmark."""
    assert set(CASES) == set(PANELS)


@pytest.mark.parametrize("name", CASES)
def test_a_row_stands_for_distinct_pictures_without_a_new_figure(name):
    """Every figure that is promised is there; `measure` itself refuses pictures that are alike and new Figures."""
    row = measure(name)
    assert set(row) == {"median_ms", "p95_ms", "new_figure_median_ms", "ratio", "cpu_median_ms", "cpu_ratio"}
    assert all(isinstance(figure, float) and figure > 0 for figure in row.values()), row
