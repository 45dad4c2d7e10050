"""Self-loosening: slip, unwinding, bending before slip, clamp lost with time."""

import math

import numpy
import pytest
from scipy.integrate import solve_bvp

from workbench.screws.self_loosening import (
    clamp_left_n,
    preload_against_slip_n,
    relaxed_n,
    sideways_give_mm,
    slip_force_n,
    unwinding_torque_n_mm,
)
from workbench.screws.stiffness import Springs
from workbench.screws.torque import long_form


def test_slip_begins_at_friction_times_clamp():
    """20 kN, mu 0.2: 4000 N, two faces 8000 N (by hand); the preload against slip is the way back."""
    assert slip_force_n(20000, 0.2) == 4000 and slip_force_n(20000, 0.2, 2) == 8000
    assert preload_against_slip_n(8000, 0.2, 2) == 20000 and preload_against_slip_n(4000, 0.2) == 20000
    assert slip_force_n(0, 0.2) == slip_force_n(20000, 0) == 0
    with pytest.raises(ValueError, match="without friction"):
        preload_against_slip_n(4000, 0)
    with pytest.raises(ValueError, match="friction = -0.1"):
        slip_force_n(20000, -0.1)


def test_the_slope_of_the_thread_unwinds_with_the_work_of_one_pitch_a_turn():
    """Torque x one turn = clamp x pitch: 20 kN x 1.75 mm / 2 pi = 5570.4 N mm (by hand)."""
    assert unwinding_torque_n_mm(20000, 1.75) * 2 * math.pi == pytest.approx(35000)
    assert unwinding_torque_n_mm(1000, 0.7) * 2 * math.pi == pytest.approx(700)


def test_it_is_the_part_of_the_tightening_torque_that_stretches():
    """The torque formula's first part, worked out by the other module, is the torque that unwinds."""
    tightening = long_form(20000, 1.75, 10.863, 0.12, 15, 0.12)
    assert unwinding_torque_n_mm(20000, 1.75) == pytest.approx(tightening.stretch_nmm)


def test_a_few_degrees_of_unwinding_lose_a_stiff_joint():
    """12 deg at P 1.5 and 80 000 N/mm: 0.05 mm = 4000 N (by hand); never below nothing."""
    assert clamp_left_n(20000, 12, 1.5, Springs(100000, 400000)) == pytest.approx(16000)
    assert clamp_left_n(20000, 61, 1.5, Springs(100000, 400000)) == 0
    with pytest.raises(ValueError, match="unwound_deg = -1"):
        clamp_left_n(20000, -1, 1.5, Springs(100000, 400000))


def test_a_bolt_bends_sideways_as_a_bar_held_square_at_both_ends():
    """mu F l^3 / 12 E I against the bar's equation solved by scipy, slope nought at both ends."""
    side, length, root, modulus = 3600.0, 60.0, 9.853, 205000.0
    stiff = modulus * math.pi / 64 * root**4

    def bar(x, y):
        return numpy.vstack((y[1], (side / stiff) * (length / 2 - x)))

    solved = solve_bvp(bar, lambda left, right: numpy.array([left[0], left[1]]), numpy.linspace(0, length, 50),
                       numpy.zeros((2, 50)))  # fmt: skip
    assert abs(solved.sol(length)[1]) < 1e-6  # the other end is square too
    assert sideways_give_mm(30000, 0.12, length, root) == pytest.approx(float(solved.sol(length)[0]), rel=1e-4)


def test_twice_the_grip_gives_eight_times_the_movement():
    """The cube of the length: why a long thin bolt loosens less."""
    assert sideways_give_mm(30000, 0.12, 120, 9.853) == pytest.approx(8 * sideways_give_mm(30000, 0.12, 60, 9.853))


def test_each_tenfold_of_time_takes_the_same_share():
    """From 0.1 h to 1000 h are four tenfolds: 4 x 2 % = 8 % of 20 kN (by hand)."""
    assert relaxed_n(20000, 1000, 0.02) == pytest.approx(18400)
    assert relaxed_n(20000, 0.1, 0.02) == 20000
    assert relaxed_n(20000, 1e6, 0.5) == 0
    with pytest.raises(ValueError, match="hours = 0.01"):
        relaxed_n(20000, 0.01, 0.02)
