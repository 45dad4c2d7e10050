"""The chance of a slot: closed form, tries, and assemblies put together at random."""

import numpy
import pytest
from scipy.stats import geom

from workbench.screws.slot_chance import chance, chance_within, mean_tries, tries_for
from workbench.screws.slotted_nut import window_deg
from workbench.screws.stiffness import Springs


def test_a_slot_comes_past_every_sixty_degrees():
    """18 degrees of 60 are 0.3 (by hand); with 4.3 deg of play 22.3 / 60; a window wider than a step is certain."""
    assert chance(18) == pytest.approx(0.3)
    assert chance(18, play_deg=4.3) == pytest.approx(0.371667, abs=1e-6)
    assert chance(18, slots=8) == pytest.approx(0.4)
    assert chance(60) == chance(100) == 1
    assert chance(0) == 0
    assert chance(numpy.array([0, 30, 90])).tolist() == [0, 0.5, 1]


def test_tries_are_those_of_the_geometric_distribution():
    """Mean, chance within n tries and the 90 % point agree with scipy.stats.geom."""
    for each in (0.05, 0.3, 0.372, 0.9):
        assert mean_tries(each) == pytest.approx(geom.mean(each))
        assert [chance_within(each, n) for n in (1, 3, 10)] == pytest.approx(geom.cdf([1, 3, 10], each))
        assert tries_for(each, 0.9) == geom.ppf(0.9, each)
        assert tries_for(each, 0.5) == geom.ppf(0.5, each)
    assert tries_for(1) == 1
    with pytest.raises(ValueError, match="sure = 1: must be at most 0.9999"):
        tries_for(0.3, 1)
    assert tries_for(0.5, 0.75) == 2 and tries_for(0.5, 0.76) == 3


@pytest.mark.parametrize("bad, says", [(0, "no number of tries"), (1.2, "at most 1"), (-0.1, "at least 0")])
def test_a_chance_that_is_none_is_refused(bad, says):
    """Nought tries for ever; over one or below nought is no chance."""
    for reckoned in (mean_tries, tries_for):
        with pytest.raises(ValueError, match=says):
            reckoned(bad)


@pytest.mark.parametrize("slots, play", [(6, 0), (6, 4.3), (8, 0)])
def test_assemblies_put_together_at_random_agree_with_the_closed_form(slots, play):
    """40 000 joints with washer, parts, hole and thread start left to chance: within four standard errors."""
    random = numpy.random.default_rng(935)
    count, pitch, springs = 40_000, 1.5, Springs(100000, 400000)
    low, high = 30000, 36000
    stack = 22 + random.uniform(-0.3, 0.3, count) + 2.5 + random.uniform(-0.2, 0.2, count)
    hole, start, nut = (random.uniform(0, 360, count) for _ in range(3))  # where drilled; where the threads begin
    snug = start + nut - 360 * stack / pitch  # a higher stack stops the nut earlier
    at_low = snug + 360 * low / (pitch * springs.together_n_per_mm)
    window = 360 * (high - low) / (pitch * springs.together_n_per_mm)
    lacks = (hole - at_low + play / 2) % (360 / slots)  # turn until the slot is far enough for the pin
    met = (lacks <= window + play).mean()
    closed = chance(window_deg(low, high, pitch, springs), slots, play)
    assert met == pytest.approx(closed, abs=4 * (closed * (1 - closed) / count) ** 0.5)


def test_a_long_soft_joint_meets_more_often_than_a_short_stiff_one():
    """The same window of preload: a fifth of the stiffness gives five times the chance."""
    short = chance(window_deg(30000, 36000, 1.5, Springs(500000, 2000000)))
    long = chance(window_deg(30000, 36000, 1.5, Springs(100000, 400000)))
    assert long == pytest.approx(5 * short)
