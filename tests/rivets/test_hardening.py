"""The teaching picture of hardening: its shape, its label, and that no limit is taken from it."""

import doctest
import re
from pathlib import Path

import numpy
import pytest

import workbench.rivets
from workbench.rivets import hardening
from workbench.rivets.documents import rule
from workbench.rivets.hardening import hardened_share
from workbench.rivets.planning import Bath, habit, plan
from workbench.rivets.shifts import Shift


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


def test_the_ends_of_the_picture_belong_to_it():
    """-60 and 60 degC are drawn."""
    assert 0 < hardened_share(1, -60) < hardened_share(1, 60) < 1


@pytest.mark.parametrize(("hours", "degc"), [(-1, 20), (1, 60.5), (1, -60.5)])
def test_outside_the_picture_is_refused(hours, degc):
    """No time before the quench, no temperature of an oven or of liquid gas."""
    with pytest.raises(ValueError):
        hardened_share(hours, degc)


def test_the_board_prints_what_the_picture_gives():
    """The explore board's table of shares is the picture's, to the figures printed, under its warning."""
    text = (Path(__file__).parents[2] / "instructor/lessons/explore/batch_plan.md").read_text(encoding="utf-8")
    assert "teaching picture with assumed constants" in text and "Never use it" in text
    rows = re.findall(r"^\| (\d+) \| (.+) % \| (.+) % \| (.+) % \|$", text, re.M)
    assert len(rows) == 3
    for hours, *shares in rows:
        for share, degc in zip(shares, (20, 0, -18), strict=True):
            last = 0.05 if "." in share else 0.5
            assert abs(100 * hardened_share(float(hours), degc) - float(share)) <= last + 0.01


def test_the_board_s_sums_of_baskets_are_the_planner_s():
    """450 rivets in a night from baskets of 200 and 130: 3 batches leave 10, 4 leave 70, habit leaves 150 (by hand)."""
    night = [Shift("night", 1320, 1800, 60, ((1500, 1530),))]
    bath, kept = Bath((200, 130)), rule("navy", "2017")
    assert [plan(night, bath, kept, batches=number).wasted for number in (3, 4)] == [10, 70]
    assert habit(night, bath, kept).wasted == 150
