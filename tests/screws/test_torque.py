"""Torque and preload: work, friction, there and back, refusals."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from workbench.screws.stiffness import Springs
from workbench.screws.torque import (
    exact_form,
    face_mean_mm,
    long_form,
    nut_factor,
    nut_factor_preload_n,
    nut_factor_torque_nmm,
    preload_n,
)
from workbench.screws.turning import preload_gain_n

M10 = {"pitch_mm": 1.5, "pitch_diameter_mm": 9.026, "face_mean_mm": 13}
friction = st.floats(0.02, 0.4)


def test_the_long_form_by_hand():
    """24 kN, M10, 0.12 and 0.12: 24000 (0.2387 + 0.6253 + 0.78) = 39.46 N m, of which 5.73, 15.01, 18.72."""
    found = long_form(24000, thread_friction=0.12, face_friction=0.12, **M10)
    assert [found.stretch_nmm, found.thread_nmm, found.face_nmm] == pytest.approx([5730, 15008, 18720], rel=1e-3)
    assert found.total_nmm == pytest.approx(39458, rel=1e-3)
    assert found.useful_share == pytest.approx(0.145, abs=0.001)


@given(friction, friction, st.floats(1000, 60000))
def test_torque_and_preload_are_each_others_reverse(thread, face, force):
    """Preload from the torque of a preload is that preload."""
    torque = long_form(force, thread_friction=thread, face_friction=face, **M10).total_nmm
    assert preload_n(torque, thread_friction=thread, face_friction=face, **M10) == pytest.approx(force)


@given(friction, friction)
def test_the_long_form_is_a_little_under_the_wedge_in_full(thread, face):
    """Long form and exact form differ by what it leaves out: 0 to 2 percent of the thread's part."""
    short, full = (form(1000, thread_friction=thread, face_friction=face, **M10) for form in (long_form, exact_form))
    assert 1 <= full.in_thread_nmm / short.in_thread_nmm < 1.03


def test_doubling_all_friction_nearly_halves_the_clamp():
    """Only the stretching part does not grow with friction."""
    dry, oiled = (preload_n(40000, thread_friction=mu, face_friction=mu, **M10) for mu in (0.24, 0.12))
    assert 0.5 < dry / oiled < 0.56


def test_work_of_the_wrench_without_friction_is_the_energy_of_the_springs():
    """Integrating torque over the angle gives F^2 / (2 k), by scipy: nothing is lost where nothing rubs."""
    springs = Springs(300000, 1200000)

    def torque(angle_rad):
        force = preload_gain_n(math.degrees(angle_rad), 1.5, springs)
        return exact_form(force, thread_friction=0, face_friction=0, **M10).total_nmm

    end = math.radians(24)
    work, _ = quad(torque, 0, end)
    assert work == pytest.approx(24000**2 / (2 * 240000))


def test_work_with_friction_is_energy_and_rubbing():
    """Work = energy of the springs + rubbing in thread and face along their ways, by scipy."""
    springs, angle = Springs(300000, 1200000), math.radians(24)
    work, _ = quad(lambda a: long_form(preload_gain_n(math.degrees(a), 1.5, springs), thread_friction=0.12,
                                       face_friction=0.15, **M10).total_nmm, 0, angle)  # fmt: skip
    mean = 24000 / 2
    rubbed = mean * angle * (0.12 / math.cos(math.radians(30)) * 9.026 / 2 + 0.15 * 13 / 2)
    assert work == pytest.approx(24000**2 / (2 * 240000) + rubbed)


def test_nut_factor_there_and_back():
    """0.2 x 24 kN x 10 mm = 48 N m, and back; a nut factor is that of its torque."""
    assert nut_factor_torque_nmm(0.2, 24000, 10) == pytest.approx(48000)
    assert nut_factor_preload_n(0.14, 48000, 10) == pytest.approx(24000 * 0.2 / 0.14)
    assert nut_factor(48000, 24000, 10) == pytest.approx(0.2)


def test_arrays_broadcast():
    """A row of frictions gives a row of preloads, falling."""
    found = preload_n(40000, thread_friction=np.array([0.08, 0.12, 0.2]), face_friction=0.12, **M10)
    assert found.shape == (3,) and (np.diff(found) < 0).all()


@pytest.mark.parametrize("act, says", [
    (lambda: long_form(1000, thread_friction=-0.1, face_friction=0.1, **M10), "never negative"),
    (lambda: preload_n(1000, thread_friction=0.1, face_friction=12, **M10), "0.12 is meant"),
    (lambda: long_form(-1000, thread_friction=0.1, face_friction=0.1, **M10), "only pulls"),
    (lambda: nut_factor_torque_nmm(20, 24000, 10), "nut factors run"),
    (lambda: face_mean_mm(10, 11), "pulls through"),
    (lambda: exact_form(1000, 30, 9, 1.0, 13, 0.1), "cannot be turned"),
])  # fmt: skip
def test_bad_input_is_refused(act, says):
    """Negative friction, percentages, pushes, locked threads are refused with the likely cause."""
    with pytest.raises(ValueError, match=says):
        act()
