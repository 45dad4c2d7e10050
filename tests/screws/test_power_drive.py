"""Driving a screw: speeds, hand, power and heat by hand, and energy kept."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from workbench.screws.power import efficiency_of, raising_torque_nmm
from workbench.screws.power_drive import (
    duty,
    hand_force_n,
    heat_w,
    most_duty,
    power_w,
    radius_for_mm,
    sliding_speed_m_min,
    travel_speed_mm_s,
    turns_per_min_for,
    warming_k,
)
from workbench.threads.profile import profile

TR24 = profile("trapezoidal", 24, 5, starts=2)


def test_speeds_by_hand():
    """90 turns a minute, lead 10 mm: 15 mm/s; on the flank sqrt((21.5 pi)^2 + 10^2) = 68.28 mm x 90 = 6.145 m/min."""
    assert travel_speed_mm_s(90, TR24) == 15
    assert travel_speed_mm_s(-90, TR24) == -15
    assert turns_per_min_for(15, TR24) == 90
    assert sliding_speed_m_min(90, TR24) == pytest.approx(6.145, abs=0.001)


def test_crank_by_hand():
    """25 N m at 250 mm: 100 N, or 50 N for each of two hands."""
    assert hand_force_n(25000, 250) == 100
    assert hand_force_n(25000, 250, hands=2) == 50
    assert radius_for_mm(25000, 100) == 250
    assert radius_for_mm(25000, 50, hands=2) == 250


@given(st.floats(100, 20000), st.floats(1, 300))
def test_power_in_is_power_out_and_heat(load, turns):
    """Power at the crank = load x travel speed + heat of friction."""
    torque = raising_torque_nmm(load, TR24, 0.12)
    share = efficiency_of(load, TR24.lead_mm, torque)
    lifted = load * travel_speed_mm_s(turns, TR24) / 1000
    assert power_w(torque, turns) == pytest.approx(lifted + heat_w(torque, turns, share))


def test_heat_and_duty_by_hand():
    """100 N m at 60/min: 200 pi W; 30 s in 120 s a quarter; 12 W off 0.05 m2 at 12 W/m2K: 20 K."""
    assert power_w(100000, 60) == pytest.approx(200 * math.pi)
    assert heat_w(100000, 60, 0.25) == pytest.approx(150 * math.pi)
    assert duty(30, 90) == 0.25
    assert warming_k(12, 0.05) == pytest.approx(20)
    assert warming_k(12, 0.05, 6) == pytest.approx(40)


def test_the_most_duty_warms_just_as_far_as_allowed():
    """Heat x duty warms the nut by what is allowed; a cool nut may run all the time."""
    share = most_duty(48, 20, 0.05)
    assert warming_k(48 * share, 0.05) == pytest.approx(20)
    assert most_duty(5, 20, 0.05) == 1
    assert most_duty(np.array([5, 48]), 20, 0.05).tolist() == pytest.approx([1, 0.25])


@pytest.mark.parametrize("call, says", [
    (lambda: hand_force_n(25000, 0), "radius_mm = 0: must be above 0; give it in mm, from axis to grip"),
    (lambda: hand_force_n(25000, 250, 3), "hands = 3"),
    (lambda: hand_force_n(25000, 250, 0), "hands = 0"),
    (lambda: radius_for_mm(25000, 0), "hand_n = 0"),
    (lambda: radius_for_mm(0, 10), "torque_nmm = 0"),
    (lambda: radius_for_mm(10, 10, 3), "hands = 3"),
    (lambda: heat_w(1, 1, 25), "efficiency = 25: must be at most 1; give a share, not percent"),
    (lambda: heat_w(1, 1, -0.1), "efficiency = -0.1"),
    (lambda: duty(0, 10), "run_s = 0"),
    (lambda: duty(1, -1), "rest_s = -1"),
    (lambda: warming_k(1, 0), "face_m2 = 0"),
    (lambda: warming_k(-1, 1), "mean_heat_w = -1"),
    (lambda: warming_k(1, 1, 0), "leaves_w_per_m2k = 0"),
    (lambda: most_duty(0, 20, 1), "running_heat_w = 0"),
    (lambda: most_duty(1, 0, 1), "allowed_k = 0"),
    (lambda: travel_speed_mm_s(1, "Tr24x5"), "must be a Profile"),
    (lambda: sliding_speed_m_min(-1, TR24), "turns_per_min = -1"),
])  # fmt: skip
def test_bad_input_is_refused_with_a_reason(call, says):
    """No arm, three hands, percent for a share, no face to leave heat."""
    with pytest.raises(ValueError, match=says):
        call()


def test_small_amounts_are_taken():
    """Only nothing and less is refused: below one of each unit still counts."""
    assert sliding_speed_m_min(0.5, TR24) == pytest.approx(0.0341, abs=0.0001)
    assert sliding_speed_m_min(0, TR24) == 0
    assert radius_for_mm(0.5, 0.5) == 1
    assert hand_force_n(1, 0.5) == 2
    assert duty(0.5, 0.5) == 0.5 and duty(0.5, 0) == 1
    assert warming_k(0, 1) == 0
    assert warming_k(0.5, 0.5, 0.5) == 2
    assert most_duty(0.5, 0.5, 0.05, 12) == pytest.approx(0.6)
    assert heat_w(1000, 60, 0) == pytest.approx(2 * math.pi) and heat_w(1000, 60, 1) == 0
