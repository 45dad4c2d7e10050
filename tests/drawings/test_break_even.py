"""The drawn cost lines: they begin at the price of the tool and cross where both ways cost the same."""

import numpy as np
import pytest
from matplotlib.figure import Figure

from workbench.drawings.break_even import HEIGHT, MOST, ORIGIN, WIDTH, BreakEven

SLOW, QUICK = (200, 0.9), (1200, 0.4)  # cross at 2000 fastenings and 2000 francs (hand-worked)


@pytest.fixture(scope="module")
def drawing():
    return BreakEven()


def read(drawing, x, y):
    """Quantity and money at a pixel."""
    return (x - ORIGIN[0]) / WIDTH * MOST, (y - ORIGIN[1]) / HEIGHT * drawing.top


def test_lines_begin_at_the_tools_and_climb_by_the_cost_of_one(drawing):
    """At 0 they stand at 200 and 1200 francs, at 10 000 at 9200 and 5200."""
    drawing.show(SLOW, QUICK, 2000)
    for line, start, end in ((drawing.slow, 200, 9200), (drawing.quick, 1200, 5200)):
        (x0, x1), (y0, y1) = line.get_data()
        assert read(drawing, x0, y0) == pytest.approx((0, start))
        assert read(drawing, x1, y1) == pytest.approx((MOST, end))
    assert drawing.quick.get_linestyle() != drawing.slow.get_linestyle()


def test_the_mark_lies_on_both_lines(drawing):
    """The circle stands at 2000 fastenings and 2000 francs; the chain line drops from it to the axis."""
    drawing.show(SLOW, QUICK, 2000)
    assert read(drawing, *drawing.mark.get_center()) == pytest.approx((2000, 2000))
    x, y = drawing.drop.get_data()
    assert x[0] == x[1] and y[1] == ORIGIN[1]
    for line in (drawing.slow, drawing.quick):
        assert np.interp(x[0], *line.get_data()) == pytest.approx(y[0])
    assert "same cost at 2000.0" in drawing.dimensions.said


def test_without_a_crossing_there_is_no_mark(drawing):
    """Side by side, or crossing beyond 10 000: no circle, and the words say so."""
    for crossing in (None, 12_000):
        drawing.show((30, 0.3), (500, 0.29), crossing)
        assert not drawing.mark.get_visible() and "do not cross" in drawing.text()


def test_names_of_lines_that_end_close_together_do_not_touch(drawing):
    """Two lines that end at one height have their names 15 px apart, the upper line's name above."""
    for slow, quick, upper in (((30, 0.3), (40, 0.299), 0), ((30, 0.3), (40, 0.3), 1)):
        drawing.show(slow, quick, None)
        heights = drawing.name_heights
        assert heights[0] - heights[1] == pytest.approx(15 if upper == 0 else -15)


def test_moves_make_no_figure_and_differ(drawing, monkeypatch):
    """Each price is drawn with the artists that are there, and each picture differs."""
    monkeypatch.setattr(Figure, "__init__", lambda *args, **options: pytest.fail("a new figure was made"))
    shots = set()
    for price in range(100, 2000, 100):
        drawing.show((30, 0.3), (price, 0.2), (price - 30) / 0.1)
        shots.add(drawing.png())
    assert len(shots) == 19
