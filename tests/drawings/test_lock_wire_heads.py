"""The two heads from above: their hours stand as on a clock, and the arrow runs clockwise."""

import numpy as np
import pytest

from workbench.drawings.lock_wire_heads import HEADS, LockWireHeads, picture


@pytest.fixture(scope="module")
def drawing():
    return LockWireHeads()


def test_the_hours_stand_as_on_a_clock(drawing):
    """On each head 12 lies above the middle, 3 to its right, 6 below and 9 to its left."""
    for name, (x, y) in HEADS.items():
        for hour, way in {12: (0, 1), 3: (1, 0), 6: (0, -1), 9: (-1, 0)}.items():
            away = np.subtract(drawing.hours[name, hour], (x, y))
            assert away / np.hypot(*away) == pytest.approx(way, abs=1e-9), (name, hour)


def test_b_lies_at_three_oclock_from_a():
    """B lies straight to the right of A, as the question says."""
    assert HEADS["B"][0] > HEADS["A"][0] and HEADS["B"][1] == HEADS["A"][1]


def test_the_arrow_runs_clockwise(drawing):
    """Going along the arrow the cross product about the head's middle is negative: clockwise where y points up."""
    for name, middle in HEADS.items():
        x, y = np.subtract(drawing.arrows[name], np.reshape(middle, (2, 1)))
        assert np.all(x[:-1] * y[1:] - y[:-1] * x[1:] < 0)


def test_its_words_name_what_is_seen():
    """The text says heads, clock and clockwise, and that no wire is drawn; the picture is a PNG."""
    png, text = picture()
    assert png.startswith(b"\x89PNG")
    for word in ("A and B", "from above", "12 at the top", "clockwise", "No wire"):
        assert word in text
