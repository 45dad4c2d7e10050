"""Lock wire: the pull, its way round, the twists."""

import math

import pytest

from workbench.screws.lock_wire import tightening_arm_mm, tightening_torque_n_mm, twists


def test_a_wire_that_leaves_over_the_top_to_the_right_pulls_a_right_hand_screw_tight():
    """From above, a pull to the right at the top turns clockwise: tight; at the bottom: loose; at the axis: none."""
    assert tightening_arm_mm((0, 6), (40, 6)) == 6
    assert tightening_arm_mm((0, -6), (40, -6)) == -6
    assert tightening_arm_mm((6, 0), (40, 0)) == 0


def test_a_left_hand_screw_wants_the_other_way():
    """The sign of a left-hand screw is the other one."""
    assert tightening_arm_mm((0, 6), (40, 6), left_hand=True) == -6


def test_the_arm_is_the_distance_of_the_wire_from_the_axis():
    """A slanting wire: the distance of a line from a point, 30 deg off the radius of 6 mm: 3 mm (by hand)."""
    to = (6 + 40 * math.cos(math.radians(150)), -40 * math.sin(math.radians(150)))
    assert tightening_arm_mm((6, 0), to) == pytest.approx(3)
    assert tightening_arm_mm((3, 4), (43, 34)) == pytest.approx(1.4)  # (4 x 40 - 3 x 30) / 50


def test_wrong_points_are_refused():
    """Two points at one place, or no pair of numbers."""
    with pytest.raises(ValueError, match="must lie away"):
        tightening_arm_mm((0, 6), (0, 6))
    with pytest.raises(ValueError, match="must be a pair"):
        tightening_arm_mm(6, (40, 6))


def test_torque_is_pull_times_arm_and_twists_are_counted_by_the_inch():
    """30 N x 6 mm = 180 N mm; two inches at 7 an inch are 14 twists (by hand)."""
    assert tightening_torque_n_mm(30, (0, 6), (40, 6)) == 180
    assert twists(50.8, 7) == pytest.approx(14)
    assert twists(25.4, 0.5) == pytest.approx(0.5) and tightening_torque_n_mm(0, (0, 6), (40, 6)) == 0
