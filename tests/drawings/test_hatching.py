"""Hatching: lines at 45 degrees that stay inside the cut face."""

import numpy as np
import pytest
from matplotlib.path import Path

from workbench.drawings.hatching import FALLING, RISING, hatching

NOTCHED = [(0, 0), (60, 0), (60, 30), (40, 30), (30, 10), (20, 30), (0, 30)]


def lines(corners, spacing, way):
    x, y = hatching(corners, spacing, way)
    return np.stack([np.column_stack([x[0::3], y[0::3]]), np.column_stack([x[1::3], y[1::3]])], axis=1)


@pytest.mark.parametrize("way", [RISING, FALLING])
def test_lines_stay_inside_a_notched_face(way):
    """No point of a line lies outside the outline, and every line runs at 45 degrees the way that was asked."""
    face = Path(NOTCHED)
    found = lines(NOTCHED, 4, way)
    assert len(found) > 10
    for start, end in found:
        along = start + np.linspace(0.01, 0.99, 20)[:, None] * (end - start)
        assert face.contains_points(along, radius=1e-6).all() or face.contains_points(along, radius=-1e-6).all()
        assert (end - start)[1] == pytest.approx(way * (end - start)[0])


def test_lines_cover_the_whole_face():
    """Total length of line x spacing is the area of the face (geometry), here 60 x 30 less the notch of 20 x 20 / 2."""
    found = lines(NOTCHED, 0.2, RISING)
    length = np.hypot(*(found[:, 1] - found[:, 0]).T).sum()
    assert length * 0.2 == pytest.approx(60 * 30 - 200, rel=0.002)
