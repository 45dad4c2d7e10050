"""Joint under load: two springs solved as equations, opening, slip, needed preload."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from workbench.screws.joint import bolt_load_n, clamp_left_n, needed_preload_n, opening_load_n, slip_load_n
from workbench.screws.stiffness import Springs

stiff = st.floats(1e4, 1e7)


@given(stiff, stiff, st.floats(1000, 50000), st.floats(0, 0.99))
def test_share_follows_from_equilibrium_and_equal_movement(bolt, parts, preload, part_of_opening):
    """Bolt F + kb x, parts F - kp x, and bolt - parts = W: solved as two equations, they agree."""
    share = Springs(bolt, parts).share
    load = part_of_opening * opening_load_n(preload, share)
    more, left = np.linalg.solve([[1, -1], [1 / bolt, 1 / parts]], [load, preload / bolt + preload / parts])
    assert bolt_load_n(preload, load, share) == pytest.approx(more, rel=1e-6)
    assert clamp_left_n(preload, load, share) == pytest.approx(left, rel=1e-4, abs=1)


def test_by_hand():
    """24 kN, C = 0.2, 8 kN: bolt 25.6 kN, clamp 17.6 kN; it opens at 30 kN; beyond, the bolt bears the load."""
    assert bolt_load_n(24000, 8000, 0.2) == pytest.approx(25600)
    assert clamp_left_n(24000, 8000, 0.2) == pytest.approx(17600)
    assert opening_load_n(24000, 0.2) == pytest.approx(30000)
    assert bolt_load_n(24000, 36000, 0.2) == pytest.approx(36000)


def test_arrays_broadcast_past_the_opening():
    """Along a row of loads the bolt's load bends at the opening, without a jump."""
    loads = np.array([0, 29999.0, 30001.0, 36000])
    assert bolt_load_n(24000, loads, 0.2) == pytest.approx([24000, 29999.8, 30001, 36000])
    assert clamp_left_n(24000, loads, 0.2) == pytest.approx([24000, 0.8, 0, 0], abs=1e-6)


def test_the_needed_preload_just_keeps_the_clamp():
    """At the least preload, less settling, the clamp left under load is the one asked for."""
    largest = needed_preload_n(5000, 8000, 0.2, settling_n=1600, factor=1.6)
    assert clamp_left_n(largest / 1.6 - 1600, 8000, 0.2) == pytest.approx(5000)
    assert clamp_left_n(needed_preload_n(5000, 8000, 0.2), 8000, 0.2) == pytest.approx(5000)  # no settling, no scatter


def test_slip_is_judged_on_the_clamp_left():
    """Two faces, 18 kN, 0.15: 5.4 kN (Coulomb)."""
    assert slip_load_n(18000, 0.15, faces=2) == pytest.approx(5400)
    assert slip_load_n(18000, 0.15) == pytest.approx(2700)  # one face


@pytest.mark.parametrize("act, says", [
    (lambda: slip_load_n(1000, -0.1), "never negative"),
    (lambda: opening_load_n(1000, 1), "nothing is clamped"),
    (lambda: bolt_load_n(1000, -5, 0.2), "pulls the parts apart"),
    (lambda: bolt_load_n(1000, 5, 20), "between 0 and 1"),
    (lambda: needed_preload_n(1, 1, 0.2, factor=0.6), "largest over smallest"),
])  # fmt: skip
def test_bad_input_is_refused(act, says):
    """Negative friction, shares beyond one, pushes: refused with the likely cause."""
    with pytest.raises(ValueError, match=says):
        act()
