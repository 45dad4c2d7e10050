"""Dimension lines: where lines, arrows and figures stand."""

import numpy as np
import pytest
from matplotlib.path import Path

from workbench.drawings.dimensions import ARROW, Dimensions, words
from workbench.drawings.sheet import Sheet


@pytest.fixture
def marks():
    sheet = Sheet(900, 400)
    return Dimensions(sheet, sheet.view(0, 0, 900, 400, 1, 0, 0))


def heads(marks):
    """Points of all arrow heads: the corner at which three-cornered outlines begin."""
    path = marks.ink.get_path()
    starts = np.flatnonzero(path.codes == Path.MOVETO)
    pieces = [path.vertices[a:b] for a, b in zip(starts, [*starts[1:], len(path)], strict=True)]
    return [piece for piece in pieces if len(piece) == 4]


def test_arrows_touch_the_extension_lines_from_inside(marks):
    """A wide dimension has its two arrow points on the sizes, the shafts between them."""
    marks.across(100, 200, 50, "25", 80, 80)
    marks.show()
    left, right = heads(marks)
    assert tuple(left[0]) == (100, 50) and tuple(right[0]) == (200, 50)
    assert left[1:3, 0].min() > 100 and right[1:3, 0].max() < 200
    lines = marks.lines.get_xydata()
    assert np.nanmin(lines[:, 1]) < 50 and np.nanmax(lines[:, 1]) == 80  # from the part past the dimension line


@pytest.mark.parametrize("way", ["across", "up"])
def test_narrow_dimension_has_its_arrows_outside(marks, way):
    """Where there is no room, arrows point inwards from outside."""
    getattr(marks, way)(100, 100 + ARROW, 50, "1.5")
    marks.show()
    axis = 0 if way == "across" else 1
    first, second = heads(marks)
    assert first[1:3, axis].max() < 100 and second[1:3, axis].min() > 100 + ARROW


def test_figures_of_upright_dimensions_read_from_the_right():
    """A turned word reads upwards: it is higher than wide, its beginning below."""
    word = words("12345", 0, 0, turned=True).vertices
    assert np.ptp(word[:, 1]) > 3 * np.ptp(word[:, 0])
    level = words("1.", 0, 0).vertices
    upright = words("1.", 0, 0, turned=True).vertices
    assert upright == pytest.approx(np.column_stack([-level[:, 1], level[:, 0]]))


def test_angle_has_its_arrows_on_both_sides(marks):
    """Arrow points of an angle stand on the two directions at the radius."""
    marks.angle(0, 0, 100, 60, 90, "30°", (0, 10))
    marks.show()
    (first, *_), (second, *_) = heads(marks)
    assert np.hypot(*first) == pytest.approx(100) and np.hypot(*second) == pytest.approx(100)
    assert np.degrees(np.arctan2(*first[::-1])) == pytest.approx(60)
    assert np.degrees(np.arctan2(*second[::-1])) == pytest.approx(90)


def test_cleared_dimensions_leave_nothing(marks):
    """After clear and show no line and no figure is left."""
    marks.across(0, 100, 0, "1")
    marks.clear()
    marks.show()
    assert not marks.said and np.isnan(marks.lines.get_xydata()).all() and not heads(marks)
