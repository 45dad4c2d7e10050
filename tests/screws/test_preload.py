"""How much preload: share of proof, pull and twist together, yield."""

import math

import numpy as np
import pytest
from scipy.optimize import brentq

from workbench.screws.preload import (
    at_yield_n,
    below_yield_n,
    class_at_yield_n,
    combined_mpa,
    of_proof_n,
    twist_mpa,
    while_tightening_mpa,
)
from workbench.screws.torque import exact_form
from workbench.threads.profile import profile


def test_share_of_the_printed_proof_load():
    """ISO 898-1 prints 48.1 kN proof for M10 10.9: three quarters are 36.1 kN."""
    assert of_proof_n(10, 1.5, "10.9") == pytest.approx(0.75 * 48100)


@pytest.mark.parametrize("size, pitch, friction", [(6, 1, 0.08), (10, 1.5, 0.12), (12, 1.25, 0.14), (24, 3, 0.2)])
def test_at_that_preload_pull_and_twist_come_to_nine_tenths_of_yield(size, pitch, friction):
    """Solving the combined stress for 0.9 Rp by scipy gives the closed form's preload."""
    middle = profile("metric", size, pitch).pitch_diameter_mm

    def over(force):
        twist = exact_form(force, pitch, middle, friction, size, 0).in_thread_nmm
        return while_tightening_mpa(force, twist, size, pitch) - 0.9 * 640

    assert at_yield_n(size, pitch, 640, friction) == pytest.approx(brentq(over, 10, 1e6), rel=1e-6)


def test_a_thread_without_friction_still_twists_a_little():
    """Without friction the lead alone twists: a little under 0.9 of yield in plain pull."""
    pull = 0.9 * 640 * math.pi / 4 * 8.593**2
    assert 0.97 * pull < at_yield_n(10, 1.5, 640, 0) < pull


def test_twist_of_a_round_bar():
    """16 T / (pi d^3) elastic; yielding all through three quarters of it (strength of materials)."""
    assert twist_mpa(math.pi * 1000, 10) == pytest.approx(16)
    assert twist_mpa(math.pi * 1000, 10, plastic=True) == pytest.approx(12)
    assert combined_mpa(3, 0) == 3 and combined_mpa(0, 1) == pytest.approx(math.sqrt(3))


def test_more_friction_leaves_less_preload_at_yield():
    """An array of frictions gives falling preloads, each as alone."""
    found = class_at_yield_n(10, 1.5, "8.8", np.array([0.08, 0.12, 0.2]))
    assert (np.diff(found) < 0).all() and found[1] == pytest.approx(class_at_yield_n(10, 1.5, "8.8", 0.12))


@pytest.mark.parametrize("act, says", [
    (lambda: below_yield_n(40000, 10, 1.5, "8.8"), "over the yield load"),
    (lambda: of_proof_n(10, 1.5, "8.8", 1.2), "stretches for good"),
    (lambda: at_yield_n(10, 1.5, 640, -0.1), "never negative"),
    (lambda: at_yield_n(10, 1.5, 640, 0.1, share=1.1), "stretches for good"),
])  # fmt: skip
def test_preload_over_yield_and_negative_friction_are_refused(act, says):
    """Preload over yield, a share over one, negative friction: refused with the likely cause."""
    with pytest.raises(ValueError, match=says):
        act()
