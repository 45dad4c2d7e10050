"""Pitch over crests, leaves of a pitch gauge, flank angle on the projector."""

import math

import pytest

from workbench.threads.measured_form import axial_flank_deg, flank_angle_deg, leaf_gap, leaves_that_fit, pitch_over


def test_ten_spaces_divide_the_error_of_the_rule_by_ten():
    """Half a millimetre wrong over ten spaces is a twentieth on the pitch."""
    assert pitch_over(13.0) - pitch_over(12.5) == pytest.approx(0.05)
    assert pitch_over(25.4, 20) == pytest.approx(1.27)


def test_20_threads_an_inch_looks_like_pitch_1_25_over_a_short_length():
    """Four spaces of 20 tpi on a 1.25 leaf miss by 0.08 mm, twelve by 0.24 (25.4/20 = 1.27 exactly)."""
    assert leaf_gap(1.27, 1.25, 4) == pytest.approx(0.08)
    leaves = (1, 1.25, 25.4 / 20, 1.5)
    assert leaves_that_fit(1.27, leaves, 4, 0.1) == (1.27, 1.25)
    assert leaves_that_fit(1.27, leaves, 12, 0.1) == (1.27,)
    assert leaves_that_fit(1.38, leaves, 8, 0.02) == ()


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


@pytest.mark.parametrize(("call", "says"), [
    (lambda: pitch_over(0), "above 0"),
    (lambda: pitch_over(12, 0), "fewer than crests"),
    (lambda: pitch_over(12, 2.5), "fewer than crests"),
    (lambda: leaf_gap(1.25, -1, 4), "leaf_pitch"),
    (lambda: leaves_that_fit(1.25, (1,), 4, 0), "visible_gap"),
    (lambda: flank_angle_deg(0, 1, 1, 1), "two heights"),
    (lambda: axial_flank_deg(90, 3), "included angle"),
])
def test_refusals(call, says):
    """Readings that cannot be are refused with the likely cause."""
    with pytest.raises(ValueError, match=says):
        call()
