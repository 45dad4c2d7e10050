"""The torque wrench: lever, drag, units, error, range, order and passes."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from workbench.screws.torque_wrench import (
    at_nut_nm,
    converted,
    crosswise,
    error_nm,
    in_range_nm,
    passes_nm,
    setting_nm,
    with_run_down_nm,
)

TURN = st.floats(0, 180)


@given(TURN, st.floats(10, 150))
def test_the_setting_is_the_moment_about_the_drive(angle, extension):
    """A hand force square to the handle: its moment about drive and about nut, by cross product, gives the ratio."""
    hand = np.array([-400.0, 0.0])  # drive at the origin, handle to the left
    nut = extension * np.array([math.cos(math.radians(angle)), math.sin(math.radians(angle))])
    force = np.array([0.0, -100.0])
    about_drive = hand[0] * force[1] - hand[1] * force[0]
    about_nut = (hand - nut)[0] * force[1] - (hand - nut)[1] * force[0]
    assert at_nut_nm(about_drive, 400, extension, angle) == pytest.approx(about_nut)
    assert setting_nm(about_nut, 400, extension, angle) == pytest.approx(about_drive)


def test_three_positions_by_hand():
    """40 N m, arm 400, adaptor 100: 32 in line, 40 square, 53.3 folded back."""
    assert setting_nm(40, 400, 100) == pytest.approx(32)
    assert setting_nm(40, 400, 100, 90) == pytest.approx(40)
    assert setting_nm(40, 400, 100, 180) == pytest.approx(53.333, abs=0.001)


def test_drag_is_added():
    """Seating 40 N m and drag 6 N m: 46 N m."""
    assert with_run_down_nm(40, 6) == 46


@given(st.sampled_from(["N m", "lbf in", "lbf ft"]), st.sampled_from(["N m", "lbf in", "lbf ft"]), st.floats(1, 999))
def test_units_go_there_and_back(one, other, torque):
    """There and back is the same torque; a foot is twelve inches."""
    assert converted(converted(torque, one, other), other, one) == pytest.approx(torque)
    assert converted(torque, "lbf ft", "lbf in") == pytest.approx(12 * torque)


def test_full_scale_error_stands_still():
    """4 % of full scale of 200 N m is 8 N m at 30 and at 180 N m; of the reading 1.2 and 7.2 N m."""
    torques = np.array([30.0, 180.0])
    assert error_nm(torques, 4, 200) == pytest.approx([1.2, 7.2])
    assert error_nm(30, 4, 200, of="full scale") == error_nm(180, 4, 200, of="full scale") == 8


@pytest.mark.parametrize("count", range(3, 25))
def test_every_bolt_has_its_turn_once(count):
    """The order holds every bolt of the ring once."""
    assert sorted(crosswise(count)) == list(range(1, count + 1))


@pytest.mark.parametrize("count", range(4, 25, 2))
def test_opposite_bolts_follow_each_other(count):
    """In an even ring each pair stands half a ring apart."""
    order = crosswise(count)
    for first, second in zip(order[::2], order[1::2], strict=True):
        assert second - first == count // 2


def test_passes_rise_to_the_full_torque():
    """50 N m in three passes: 15, 30, 50 (common practice, no source)."""
    assert passes_nm(50) == pytest.approx((15, 30, 50))


@pytest.mark.parametrize("act, says", [
    (lambda: setting_nm(40, 100, 120, 180), "reaches past the hand"),
    (lambda: in_range_nm(20, 200), "take a smaller wrench"),
    (lambda: in_range_nm(210, 200), "take a larger wrench"),
    (lambda: error_nm(300, 4, 200), "over the wrench's range"),
    (lambda: error_nm(30, 4, 200, of="torque"), "certificate"),
    (lambda: converted(1, "kgf m", "N m"), "must be N m"),
    (lambda: crosswise(2), "in turn"),
    (lambda: passes_nm(50, (0.5, 0.9)), "rise to 1"),
])  # fmt: skip
def test_bad_input_is_refused(act, says):
    """Levers that vanish, torques outside the range, unknown units: refused."""
    with pytest.raises(ValueError, match=says):
        act()
