"""Tightening by angle: movement shared by two springs, there and back, never past yield."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from workbench.screws.stiffness import Springs
from workbench.screws.turning import angle_for_deg, preload_after_turn_n, preload_gain_n

stiff = st.floats(1e4, 1e7)


def test_a_turn_by_hand():
    """60 deg of 1.5 mm are 0.25 mm; with 300 and 1200 kN/mm (240 together) that is 60 kN."""
    assert preload_gain_n(60, 1.5, Springs(300000, 1200000)) == pytest.approx(60000)


@given(stiff, stiff, st.floats(1, 90))
def test_stretch_and_squeeze_together_are_the_way_of_the_nut(bolt, parts, angle):
    """At the force gained, bolt stretch + squeeze of the parts = P q / 360."""
    springs = Springs(bolt, parts)
    gained = preload_gain_n(angle, 1.75, springs)
    assert springs.bolt_stretch_mm(gained) + springs.parts_squeeze_mm(gained) == pytest.approx(1.75 * angle / 360)
    assert angle_for_deg(gained, 1.75, springs) == pytest.approx(angle)


def test_turned_past_yield_is_refused_and_backed_off_is_loose():
    """A sixth of a turn on a short joint passes yield; backing off far leaves nothing, never less."""
    springs = Springs(300000, 1200000)
    with pytest.raises(ValueError, match="over the yield load"):
        preload_after_turn_n(20000, 60, 1.5, springs, 37120)
    assert preload_after_turn_n(20000, -60, 1.5, springs, 37120) == 0
    with pytest.raises(ValueError, match="= 20499.6"):  # the load reached is said to a tenth of a newton
        preload_after_turn_n(20000, 0.49958, 1.5, springs, 20100)
