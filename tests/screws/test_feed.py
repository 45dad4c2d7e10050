"""Dials of a lathe and a press: divisions for a change, and slack."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from workbench.screws.feed import (
    diameter_change_mm,
    divisions_after_reversal,
    divisions_for_diameter,
    divisions_for_travel,
    moved_after_reversal,
)
from workbench.screws.measuring import travel

marks = st.floats(0.005, 1)


def test_press_screw_by_hand():
    """A two-start screw of 2 mm pitch with 40 divisions moves 0.1 mm a division: 0.35 mm are 3.5 divisions."""
    assert divisions_for_travel(0.35, 2, 40, starts=2) == pytest.approx(3.5)
    assert divisions_for_travel(-0.1, 2, 40) == pytest.approx(-2)


@given(st.floats(-10, 10), st.floats(0.1, 10), st.integers(1, 400), st.integers(1, 4))
def test_divisions_turned_give_the_travel_wanted(wanted, pitch, divisions, starts):
    """Turning the divisions found moves the screw as wanted."""
    turned = divisions_for_travel(wanted, pitch, divisions, starts)
    assert travel(pitch, turned / divisions, starts) == pytest.approx(wanted, abs=1e-9)


def test_radius_dial_by_hand():
    """From 30.0 to 29.2 mm on a dial of 0.02 mm tool movement: 0.4 mm of tool, 20 divisions."""
    assert divisions_for_diameter(30, 29.2, 0.02) == pytest.approx(20)


def test_diameter_dial_by_hand():
    """The same cut on a dial marked 0.02 mm of diameter takes 40 divisions."""
    assert divisions_for_diameter(30, 29.2, 0.02, "diameter") == pytest.approx(40)


@given(st.floats(5, 100), st.floats(5, 100), marks, st.sampled_from(["radius", "diameter"]))
def test_divisions_fed_give_the_diameter_wanted(large, small, mark, dial):
    """Feeding the divisions found takes the diameter from one size to the other, either way."""
    fed = divisions_for_diameter(large, small, mark, dial)
    assert diameter_change_mm(fed, mark, dial) == pytest.approx(large - small, abs=1e-9)


def test_a_radius_dial_takes_off_twice_its_mark():
    """One division of tool movement is two of diameter."""
    assert diameter_change_mm(5, 0.02) == pytest.approx(0.2)
    assert diameter_change_mm(5, 0.02, "diameter") == pytest.approx(0.1)


def test_slack_by_hand():
    """20 divisions of 0.02 mm back with 0.15 mm slack move the slide 0.25 mm; 7 divisions move nothing."""
    assert moved_after_reversal(20, 0.02, 0.15) == pytest.approx(0.25)
    assert moved_after_reversal(7, 0.02, 0.15) == 0
    assert moved_after_reversal(np.array([7, 20]), 0.02, 0.15).tolist() == pytest.approx([0, 0.25])


@given(st.floats(0.001, 10), marks, st.floats(0, 1))
def test_divisions_after_reversal_move_the_slide_as_wanted(wanted, mark, slack):
    """The divisions found take up the slack and then move the slide by the wanted amount."""
    assert moved_after_reversal(divisions_after_reversal(wanted, mark, slack), mark, slack) == pytest.approx(wanted)


@pytest.mark.parametrize(("calculate", "message"), [
    (lambda: diameter_change_mm(5, 0.02, "both"), "dial = 'both': must be 'radius' or 'diameter'; is it marked"),
    (lambda: diameter_change_mm(5, 0), "division_mm = 0: must be above 0"),
    (lambda: diameter_change_mm("5", 0.02), "divisions = '5': must be one number"),
    (lambda: divisions_for_diameter(0, 5, 0.02), "from_mm = 0: must be above 0"),
    (lambda: divisions_for_diameter(5, 0, 0.02), "to_mm = 0: must be above 0"),
    (lambda: divisions_for_diameter(5, 4, 0), "division_mm = 0: must be above 0"),
    (lambda: divisions_for_travel(1, 0, 40), "pitch_mm = 0: must be above 0"),
    (lambda: divisions_for_travel(1, 2, 0), "divisions = 0: must be at least 1"),
    (lambda: moved_after_reversal(-1, 0.02, 0), "divisions = -1: must be at least 0; count from the reversal"),
    (lambda: moved_after_reversal(1, 0, 0), "division_mm = 0: must be above 0"),
    (lambda: moved_after_reversal(1, 0.02, -0.1), "backlash_mm = -0.1: must be at least 0"),
    (lambda: divisions_after_reversal(0, 0.02, 0), "wanted_mm = 0: must be above 0; after a reversal"),
    (lambda: divisions_after_reversal(1, 0, 0), "division_mm = 0: must be above 0"),
    (lambda: divisions_after_reversal(1, 0.02, -1), "backlash_mm = -1: must be at least 0"),
])
def test_a_feed_that_cannot_be_is_refused(calculate, message):
    """Each impossible dial, cut or slack is refused with value and rule."""
    with pytest.raises(ValueError, match=message):
        calculate()
