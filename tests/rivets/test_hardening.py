"""The teaching picture of hardening: its shape, its label, and that no limit is taken from it."""

import doctest
from pathlib import Path

import numpy
import pytest

import workbench.rivets
from workbench.rivets import hardening
from workbench.rivets.hardening import hardened_share


def test_examples_run():
    """The examples in the docstrings give what they print."""
    failed, tried = doctest.testmod(hardening)
    assert tried and not failed


def test_it_grows_with_time_and_slows_in_the_cold():
    """Nothing at first, all in the end, later where it is colder; at -18 degC the assumed constants slow it 39 times.

    exp(60 / 0.0083145 x (1 / 255.15 - 1 / 293.15)) = exp(3.6663) = 39.1, by hand.
    """
    hours = numpy.array([0.0, 1, 8, 96])
    warm, cold = hardened_share(hours, 20), hardened_share(hours, -18)
    assert warm[0] == 0 and (numpy.diff(warm) > 0).all() and warm[-1] > 0.999
    assert (cold[1:] < warm[1:]).all()
    assert hardened_share(39.1 * 8, -18) == pytest.approx(hardened_share(8, 20), abs=0.001)


def test_it_is_marked_as_a_picture():
    """Its title says what it is and what it must not be used for."""
    assert "Teaching picture with assumed constants" in hardening.TITLE and "Never" in hardening.TITLE


def test_no_rule_is_taken_from_the_picture():
    """No other calculation of rivets looks at the picture: documents decide."""
    for path in Path(workbench.rivets.__file__).parent.glob("*.py"):
        text = path.read_text(encoding="utf-8")
        assert "rivets.hardening" not in text and "import hardening" not in text, path.name


@pytest.mark.parametrize(("hours", "degc"), [(-1, 20), (1, 100), (1, -100)])
def test_outside_the_picture_is_refused(hours, degc):
    """No time before the quench, no temperature of an oven or of liquid gas."""
    with pytest.raises(ValueError):
        hardened_share(hours, degc)
