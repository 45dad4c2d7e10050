"""Refusing bad input: value, rule, likely cause, never a screenful."""

from fractions import Fraction

import numpy as np
import pytest

from workbench.refusals import numbers, one_number, refuse, whole


def test_a_refusal_says_value_rule_and_cause():
    """All three parts stand in the message; without a cause it ends after the rule."""
    with pytest.raises(ValueError, match="^pitch = 0: must be above 0; was it left out\\?$"):
        refuse("pitch", 0, "must be above 0", "was it left out?")
    with pytest.raises(ValueError, match="^pitch = 0: must be above 0$"):
        refuse("pitch", 0, "must be above 0")


@pytest.mark.parametrize(("letters", "shown"), [(58, "'" + "x" * 58 + "'"), (59, "'" + "x" * 56 + "...")])
def test_a_long_value_is_cut_at_sixty_letters(letters, shown):
    """Sixty letters, quotes included, are shown whole; more are cut to sixty."""
    with pytest.raises(ValueError) as refusal:
        refuse("entry", "x" * letters, "must be one number")
    assert str(refusal.value) == f"entry = {shown}: must be one number"
    assert len(shown) == 60


@pytest.mark.parametrize("value", [3, 0.5, Fraction(1, 3), np.float64(2), np.int32(2)])
def test_a_number_comes_back_as_it_came(value):
    """Whole numbers, fractions and numpy's own numbers pass unchanged."""
    assert one_number("size", value) is value
    assert numbers("size", value) is value


def test_an_array_without_dimension_is_one_number():
    """numpy.array(2.5) counts as 2.5, and must be finite like any other."""
    assert one_number("size", np.array(2.5)) == 2.5
    with pytest.raises(ValueError, match="size = nan: must be finite; did an earlier step divide by zero"):
        one_number("size", np.array(np.nan))


@pytest.mark.parametrize(("value", "cause"), [
    ("3", "is it text"), ((3, 25), "decimal comma"), ([3], "numpy array"), (True, "yes or no"),
    (None, "left out"), (1j, "plain number"),
])
def test_what_is_no_number_gets_its_likely_cause(value, cause):
    """Each wrong type is refused with the cause that is likely for it."""
    with pytest.raises(ValueError, match=f"must be one number; .*{cause}"):
        one_number("size", value)


@pytest.mark.parametrize("check", [one_number, lambda name, value, **rule: numbers(name, np.array([value]), **rule)])
def test_limits_hold_for_one_and_for_many(check):
    """'above' leaves its limit out, 'at least' and 'at most' take it in; the first offender is named."""
    check("size", 1, at_least=1, at_most=1)
    for rule, message in [({"above": 1}, "above 1"), ({"at_least": 2}, "at least 2"), ({"at_most": 0}, "at most 0")]:
        with pytest.raises(ValueError, match=rf"size = 1(\.0)?: must be {message}"):
            check("size", 1, **rule)


def test_the_first_bad_one_of_many_is_named():
    """Of an array the first value outside is shown, not the whole array."""
    with pytest.raises(ValueError, match="size = -2.0: must be at least 0"):
        numbers("size", np.array([[1, -2], [-3, 4]]), at_least=0)
    with pytest.raises(ValueError, match="size = -1.0: must be at least 0"):
        numbers("size", np.array([0, -1]), at_least=0)
    with pytest.raises(ValueError, match="size = 2.0: must be at most 1"):
        numbers("size", np.array([1, 2]), at_most=1)
    with pytest.raises(ValueError, match="size = .*: must hold plain numbers"):
        numbers("size", np.array([True]))


def test_whole_numbers():
    """4.0 counts as 4; 4.5 is refused; the limit itself is taken, and 1 is the lowest unless said."""
    assert whole("divisions", 4.0) == 4 and isinstance(whole("divisions", 4.0), int)
    assert whole("divisions", 1) == 1
    assert whole("divisions", 0, at_least=0, at_most=0) == 0
    for bad, message in [(4.5, "whole number; count divisions"), (0, "at least 1"), ("4", "one number")]:
        with pytest.raises(ValueError, match=f"must be (a )?{message}"):
            whole("divisions", bad)
