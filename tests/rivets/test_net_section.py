"""The weakest cut through a plate with holes."""

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as some

from workbench.rivets.net_section import net_width_mm, slant_gain_mm


def by_trying_all(width, hole, places):
    """The same rule by trying every choice of holes: W - n d + sum of s^2 / (4 g)."""
    ordered = sorted(places, key=lambda place: place[1])
    least = width
    for count in range(1, len(ordered) + 1):
        for cut in itertools.combinations(ordered, count):
            if any(b[1] <= a[1] for a, b in itertools.pairwise(cut)):
                continue
            gain = sum((b[0] - a[0]) ** 2 / (4 * (b[1] - a[1])) for a, b in itertools.pairwise(cut))
            least = min(least, width - count * hole + gain)
    return least


def test_a_slanting_step_gains_width():
    """s = 40, g = 50: 1600 / 200 (Cochrane's rule, from memory)."""
    assert slant_gain_mm(40, 50) == 8


def test_a_wide_stagger_leaves_one_hole_in_the_cut():
    """Far enough apart along the pull, a second hole costs more to reach than it saves."""
    assert net_width_mm(150, 20, [(0, 50), (100, 100)]) == (130, ((0, 50),))


@given(some.lists(some.tuples(some.integers(0, 6), some.integers(1, 5)), min_size=1, max_size=7, unique=True))
def test_no_cut_is_weaker_than_the_one_found(grid):
    """On any pattern the found cut is the least of all cuts tried one by one."""
    places = [(25.0 * x, 25.0 * y) for x, y in grid]
    assert net_width_mm(150, 20, places)[0] == pytest.approx(by_trying_all(150, 20, places))


@pytest.mark.parametrize(
    "places, rule",
    [([], "at least one hole"), ([(0, 5)], "above 10"), ([(0, 145)], "breaks"), ([(0, 50), (5, 55)], "touch")],
)
def test_what_cannot_be_drilled_is_refused(places, rule):
    """No hole, a hole over the edge, or holes that touch are refused with the rule."""
    with pytest.raises(ValueError, match=rule):
        net_width_mm(150, 20, places)
