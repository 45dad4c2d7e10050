"""A group of rivets loaded off its centre."""

import math

import numpy
import pytest
from hypothesis import assume, given
from hypothesis import strategies as some

from workbench.rivets.group import centroid_mm, polar_moment_mm2, rivet_loads_n, rivets_worth, worst_rivet

SQUARE = [(0, 0), (60, 0), (60, 80), (0, 80)]

groups = some.lists(some.tuples(some.integers(0, 6), some.integers(0, 6)), min_size=2, max_size=9, unique=True)
forces = some.tuples(some.integers(-500, 500), some.integers(-500, 500)).filter(any)
points = some.tuples(some.integers(-400, 400), some.integers(-400, 400))


@given(groups, forces, points)
def test_the_rivets_balance_the_load_in_force_and_moment(grid, force, at):
    """Sum of forces and of moments about any point (here the origin) equal those of the load."""
    places = numpy.array([(20.0 * x, 20.0 * y) for x, y in grid])
    loads = rivet_loads_n(places, force, at)
    assert loads.sum(axis=0) == pytest.approx(force, abs=1e-6)
    turning = (places[:, 0] * loads[:, 1] - places[:, 1] * loads[:, 0]).sum()
    assert turning == pytest.approx(at[0] * force[1] - at[1] * force[0], abs=1e-4)


def test_a_load_through_the_centre_is_shared_evenly():
    """Without an arm each of four rivets takes a quarter."""
    assert rivet_loads_n(SQUARE, (0, -1000), (30, 10)) == pytest.approx(numpy.tile([0, -250], (4, 1)))


def test_a_pair_under_pure_turning_is_a_couple():
    """Two rivets 100 mm apart, 200 N m: 2000 N each, opposite, by the lever."""
    loads = rivet_loads_n([(-50, 0), (50, 0)], (0, -1000), (200, 0))
    assert loads[:, 1] == pytest.approx([-500 + 2000, -500 - 2000])


@given(groups, forces, points)
def test_a_straight_curve_gives_the_elastic_method_again(grid, force, at):
    """The instantaneous centre with a straight load-slip line and the vector sum agree: two different routes."""
    places = [(20.0 * x, 20.0 * y) for x, y in grid]
    cx, cy = centroid_mm(places)
    arm = abs((at[0] - cx) * force[1] - (at[1] - cy) * force[0]) / math.hypot(*force)
    size = math.sqrt(polar_moment_mm2(places) / len(places))
    assume(0.05 * size < arm < 20 * size)
    elastic = math.hypot(*force) / worst_rivet(places, force, at)[1]
    assert rivets_worth(places, force, at, "straight") == pytest.approx(elastic, rel=1e-6)


def test_a_curved_line_lets_the_other_rivets_help():
    """Where slip evens the loads out, the group carries more than by the elastic method, never more than all rivets."""
    elastic = rivets_worth(SQUARE, (0, -1), (200, 40), "straight")
    assert elastic < rivets_worth(SQUARE, (0, -1), (200, 40)) < 4


def test_a_load_through_the_centre_slips_all_alike():
    """Nothing turns: all four reach (1 - exp(-3.4))^0.55 of a rivet at the last slip (0.9815 each, by hand)."""
    assert rivets_worth(SQUARE, (0, -1), (30, 0)) == pytest.approx(4 * 0.9815, abs=0.001)


@pytest.mark.parametrize(
    "call, rule",
    [
        (lambda: rivet_loads_n([(0, 0)], (0, -10), (5, 0)), "cannot take a moment"),
        (lambda: rivets_worth([(0, 0)], (0, -1), (5, 0)), "cannot take a moment"),
        (lambda: rivets_worth(SQUARE, (0, 0), (5, 0)), "must not be nought"),
        (lambda: rivets_worth(SQUARE, (0, 1), (5, 0), "wavy"), "must be one of"),
        (lambda: centroid_mm([1, 2]), "list of"),
        (lambda: centroid_mm([(0, float("nan"))]), "list of"),
    ],
)
def test_what_cannot_be_worked_out_is_refused(call, rule):
    """One place under a moment, no direction, an unknown curve or no places are refused."""
    with pytest.raises(ValueError, match=rule):
        call()
