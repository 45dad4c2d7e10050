"""The drawn time line: bars, cold and pointer stand at their minutes."""

import numpy as np
import pytest

from workbench.drawings.rivet_clock import LEFT, RIGHT, RivetClock

ROWS = [
    ("one", [(-30, 0, "not yet quenched"), (0, 60, "usable"), (60, 90, "doubtful"), (90, 180, "hard")], (10, 40),
     "usable"),
    ("two", [(-30, 180, "hard")], None, "hard"),
]


@pytest.fixture(scope="module")
def drawing():
    drawing = RivetClock(-30, 180, lambda minute: f"{minute:g} min")
    drawing.show(ROWS, 45)
    return drawing


def minutes(drawing, px):
    """The minute at a place on the sheet."""
    return -30 + 210 * (px - LEFT) / (RIGHT - LEFT)


@pytest.mark.parametrize(
    ("state", "spans"),
    [("usable", [(0, 60)]), ("doubtful", [(60, 90)]), ("hard", [(90, 180), (-30, 180)])],
)
def test_each_bar_reaches_from_its_first_to_its_last_minute(drawing, state, spans):
    """One bar a stretch; before the quench there is none."""
    bars = drawing.bars[state].get_path().to_polygons(closed_only=False)
    found = [(minutes(drawing, bar[:, 0].min()), minutes(drawing, bar[:, 0].max())) for bar in bars]
    assert np.array(found) == pytest.approx(np.array(spans, dtype=float))


def test_cold_and_pointer_stand_at_their_minutes(drawing):
    """The stay in the store as a thick line, the pointer across all rows with its time above."""
    cold = drawing.cold.get_xdata()
    assert [minutes(drawing, x) for x in cold[:2]] == pytest.approx([10, 40])
    assert minutes(drawing, drawing.pointer.get_xdata()[0]) == pytest.approx(45)
    assert {"45 min", "one", "two", "usable", "hard"} <= set(drawing.dimensions.said)


def test_only_doubtful_bars_are_hatched(drawing):
    """State can be told on a grey print: full, hatched, empty."""
    x = drawing.hatch.get_xdata()
    assert np.nanmin(x) >= drawing.x(60) - 1 and np.nanmax(x) <= drawing.x(90) + 1


def test_words_give_each_batch_its_state(drawing):
    """The alternative text names the time and every state under the pointer."""
    assert drawing.text() == "Time line of 2 batches of rivets at 45 min: one usable; two hard."
