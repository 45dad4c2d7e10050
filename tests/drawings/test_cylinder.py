"""Engraving on round parts: the projection of what the reader sees."""

import numpy as np
import pytest
from matplotlib.path import Path

from workbench.drawings.cylinder import Engraving


def extent(path):
    drawn = path.vertices[path.codes != Path.CLOSEPOLY]
    return drawn.min(axis=0), drawn.max(axis=0)


@pytest.mark.parametrize("degrees", [-80, -30, 0, 45, 80])
def test_line_stands_at_radius_times_sine(degrees):
    """A line at an angle is seen at y = r sin(angle) (geometry of the orthographic view)."""
    scale = Engraving(radius=10)
    scale.line(0, 3, np.radians(degrees), 0.1)
    low, high = extent(scale.path())
    assert (low[1] + high[1]) / 2 == pytest.approx(10 * np.sin(np.radians(degrees)), abs=2e-3)
    assert (low[0], high[0]) == (0, 3)


def test_rear_half_is_not_seen():
    """Of 50 lines around a part the reader sees the front half: 25."""
    scale = Engraving(radius=6.4)
    for n in range(50):
        scale.line(0, 2, np.radians(7.2 * n + 1), 0.1)
    assert len(scale.path()) == 25 * 5  # a line is four corners and its closing point


def test_lines_crowd_towards_the_edge():
    """Equal divisions look narrower away from the middle, by the cosine of the angle."""
    scale = Engraving(radius=10)
    for degrees in (0, 6, 60, 66):
        scale.line(0, 1, np.radians(degrees), 0.02)
    y = scale.path().vertices[:, 1].reshape(4, 5).mean(axis=1)
    assert (y[3] - y[2]) / (y[1] - y[0]) == pytest.approx(np.cos(np.radians(63)) / np.cos(np.radians(3)), rel=1e-3)


def test_cone_widens():
    """On a bevel a line keeps its angle, so its far end stands further from the axis."""
    scale = Engraving(radius=6, slope=0.25)
    scale.line(0, 4, np.radians(30), 1e-6)
    assert scale.path().vertices[:4, 1] == pytest.approx([3.0, 3.5, 3.5, 3.0], abs=1e-5)


def test_number_stays_upright_and_in_place():
    """A number is centred where it was cut and is narrower in height only, never mirrored."""
    scale = Engraving(radius=8)
    scale.figures("7", 5, np.radians(40), 1.5)
    low, high = extent(scale.path())
    assert (low[0] + high[0]) / 2 == pytest.approx(5)
    assert (low[1] + high[1]) / 2 == pytest.approx(8 * np.sin(np.radians(40)), abs=0.05)
    assert high[1] - low[1] == pytest.approx(1.5 * np.cos(np.radians(40)), rel=0.03)
    corners = scale.path().vertices[scale.path().codes != Path.CLOSEPOLY]
    top = corners[corners[:, 1] > high[1] - 0.05, 0]
    foot = corners[corners[:, 1] < low[1] + 0.05, 0]
    assert np.ptp(top) > 2 * np.ptp(foot)  # a 7 has its bar on top
