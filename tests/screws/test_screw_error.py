"""Errors of the screw that add up over the travel."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from workbench.screws.screw_error import cumulative_pitch_error, reading_error


def test_a_long_pitch_reads_too_little_by_hand():
    """Each turn 0.2 um too long: after 10 mm (20 turns of 0.5) the reading is 4 um too small."""
    assert reading_error(0.5, 10, 0.0002) == pytest.approx(-0.004)


def test_a_progressive_error_by_hand():
    """Pitches out by 1, 2, 3, 4 um add up to 10 um after four turns."""
    assert reading_error(1, 4, 0.001, 0.001) == pytest.approx(-0.010)


@given(st.integers(1, 50), st.floats(-0.01, 0.01), st.floats(-0.001, 0.001))
def test_the_formula_is_the_running_sum(turns, first, growth):
    """After whole turns the formula and the pitch-by-pitch sum agree."""
    errors = first + growth * np.arange(turns)
    reading = reading_error(0.5, 0.5 * turns, first, growth)
    assert reading == pytest.approx(-cumulative_pitch_error(errors)[-1], abs=1e-12)


def test_error_over_an_array_of_travels():
    """Travels broadcast; without travel there is no error."""
    assert reading_error(0.5, np.array([0, 0.5, 1]), 0.001).tolist() == pytest.approx([0, -0.001, -0.002])


@pytest.mark.parametrize("bad", [[0.001], "0.001", 0.001, np.array([[0.001]]), np.array([np.nan]), np.array(["a"])])
def test_errors_that_are_no_row_of_numbers_are_refused(bad):
    """A list, one number, a table or a gap is no row of pitch errors."""
    with pytest.raises(ValueError, match="errors_mm"):
        cumulative_pitch_error(bad)


@pytest.mark.parametrize("arguments", [(0, 1, 0), (-0.5, 1, 0), (0.5, -1, 0), (0.5, 1, "0"), (0.5, 1, 0, [0])])
def test_a_screw_that_nobody_makes_is_refused(arguments):
    """Pitch above 0, travel from the zero end, numbers only."""
    with pytest.raises(ValueError, match="must be"):
        reading_error(*arguments)
