"""Flank angle on the projector."""

import math

import pytest

from workbench.threads.measured_form import axial_flank_deg, flank_angle_deg


@pytest.mark.parametrize("flank", [7, 14.5, 15, 27.5, 30, 45])
def test_flank_angle_from_two_points(flank):
    """Two points on a flank give its angle at any magnification and either way round."""
    step = math.tan(math.radians(flank))
    for scale in (1, 20):
        assert flank_angle_deg(3, 1, 3 + step * scale, 1 + scale) == pytest.approx(flank)
        assert flank_angle_deg(3 + step * scale, 1 + scale, 3, 1) == pytest.approx(flank)


def test_a_flank_parallel_to_the_normal_has_no_angle():
    """A square thread's flank reads 0 degrees."""
    assert flank_angle_deg(2, 1, 2, 5) == 0


def test_the_tilted_view_shows_a_steeper_flank():
    """Across the helix the spacing shrinks by cos lam and the depth stays: the axial angle is the larger.

    By hand: P/2 = 1 axial over H/2 = 1.732; seen at lam = 10: cos 10 = 0.98481 over 1.732, 29.62 degrees.
    """
    seen = math.degrees(math.atan(0.98481 / 1.73205))
    assert seen == pytest.approx(29.62, abs=0.005)
    assert axial_flank_deg(seen, 10) == pytest.approx(30, abs=0.001)
    assert axial_flank_deg(30, 0) == pytest.approx(30)
    assert axial_flank_deg(0, 10) == 0


@pytest.mark.parametrize(("call", "says"), [
    (lambda: flank_angle_deg(0, 1, 1, 1), "two heights"),
    (lambda: axial_flank_deg(90, 3), "included angle"),
    (lambda: axial_flank_deg(60.5, 3), "at most 60"),
    (lambda: axial_flank_deg(30, 45.5), "at most 45"),
])
def test_refusals(call, says):
    """Readings that cannot be are refused with the likely cause."""
    with pytest.raises(ValueError, match=says):
        call()
