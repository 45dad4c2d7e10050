"""Columns: Euler by solving the bent bar, Johnson where the two meet, refusals."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.linalg import eigh

from workbench.screws.buckling import (
    critical_load_n,
    end_factor,
    euler_load_n,
    johnson_load_n,
    limit_slenderness,
    slenderness,
)

E_MPA, YIELD = 205000, 305


def bar_load_n(root, length, held):
    """Least load at which a bar bows out, by beam elements (cubic shapes): stiffness against geometric stiffness."""
    count = 12
    part, stiff = length / count, E_MPA * math.pi * root**4 / 64
    a, b = 6 * part, part**2
    bend = stiff / part**3 * np.array([[12, a, -12, a], [a, 4 * b, -a, 2 * b],
                                       [-12, -a, 12, -a], [a, 2 * b, -a, 4 * b]])  # fmt: skip
    a = 3 * part
    push = 1 / (30 * part) * np.array([[36, a, -36, a], [a, 4 * b, -a, -b], [-36, -a, 36, -a], [a, -b, -a, 4 * b]])
    size = 2 * (count + 1)
    bends, pushes = np.zeros((size, size)), np.zeros((size, size))
    for place in range(count):
        at = slice(2 * place, 2 * place + 4)
        bends[at, at] += bend
        pushes[at, at] += push
    free = [index for index in range(size) if index not in {index % size for index in held}]
    keep = np.ix_(free, free)
    return 1 / eigh(pushes[keep], bends[keep], eigvals_only=True)[-1]


# numbers of the held movements: 0 sideways and 1 tilt at the foot, -2 and -1 at the top
HELD = {"fixed free": (0, 1), "both guided": (0, -2), "fixed guided": (0, 1, -2), "both fixed": (0, 1, -2, -1),
        "fixed sliding": (0, 1, -1), "guided sliding": (0, -1)}  # fmt: skip


@pytest.mark.parametrize("ends", HELD)
def test_eulers_load_is_that_of_the_bent_bar(ends):
    """With the theoretical K each case gives the least load of a bar of beam elements, to 0.5 % (K 0.7 for 0.699)."""
    found = euler_load_n(20, 800, end_factor(ends, ideal=True), E_MPA)
    assert found == pytest.approx(bar_load_n(20, 800, HELD[ends]), rel=0.005)


def test_real_ends_are_never_stiffer_than_ideal_ones():
    """The recommended K is at least the theoretical one; guided ends are as good as ideal."""
    assert all(end_factor(ends) >= end_factor(ends, ideal=True) for ends in HELD)
    assert end_factor("both guided") == 1


def test_a_free_top_buckles_at_a_quarter():
    """pi^2 x 210000 x 2833 / (2 x 500)^2 = 5871.7 N; both ends guided four times that (by hand)."""
    root = (64 * 2833 / math.pi) ** 0.25
    assert euler_load_n(root, 500, 2, 210000) == pytest.approx(5871.7, abs=0.1)
    assert euler_load_n(root, 500, 1, 210000) == pytest.approx(23486.9, abs=0.3)


@given(st.floats(8, 80), st.floats(200, 1200), st.floats(0.5, 2.1))
def test_the_two_curves_meet_with_the_same_slope(root, strength, factor):
    """At the limit slenderness Johnson = Euler = half the yield load; a little to either side they still agree."""
    length = limit_slenderness(strength, E_MPA) * root / 4 / factor
    crushed = math.pi / 4 * root**2 * strength
    assert euler_load_n(root, length, factor, E_MPA) == pytest.approx(crushed / 2, rel=1e-9)
    assert johnson_load_n(root, length, factor, E_MPA, strength) == pytest.approx(crushed / 2, rel=1e-6)
    shorter = johnson_load_n(root, 0.99 * length, factor, E_MPA, strength)
    assert shorter == pytest.approx(euler_load_n(root, 0.99 * length, factor, E_MPA), rel=0.001)


def test_a_very_short_screw_reaches_its_yield_load():
    """At nearly no length the critical load is yield times area: 305 x 314.16 = 95819 N."""
    assert critical_load_n(20, 1, 1, E_MPA, YIELD) == pytest.approx(95819, abs=5)


def test_arrays_give_what_single_numbers_give():
    """Lengths on both sides of the limit in one array."""
    lengths = np.array([100, 300, 600, 1200])
    found = critical_load_n(20, lengths, 1, E_MPA, YIELD)
    singly = [critical_load_n(20, int(length), 1, E_MPA, YIELD) for length in lengths]
    assert found.tolist() == pytest.approx(singly)
    assert (np.diff(found) < 0).all()
    assert slenderness(20, lengths, 1).tolist() == [20, 60, 120, 240]


@pytest.mark.parametrize("call, says", [
    (lambda: johnson_load_n(20, 2000, 1, E_MPA, YIELD), "length_mm = 2000: makes the screw too slender.*euler_load_n"),
    (lambda: johnson_load_n(20, np.array([100, 2000]), 1, E_MPA, YIELD), "too slender"),
    (lambda: euler_load_n(0, 500, 1, E_MPA), "root_mm = 0"),
    (lambda: euler_load_n(20, -500, 1, E_MPA), "length_mm = -500"),
    (lambda: euler_load_n(20, 500, 0, E_MPA), "factor = 0"),
    (lambda: euler_load_n(20, 500, 1, 0), "modulus_mpa = 0"),
    (lambda: limit_slenderness(0, E_MPA), "yield_mpa = 0"),
    (lambda: limit_slenderness(YIELD, 0), "modulus_mpa = 0"),
    (lambda: end_factor("hinged"), "no row 'hinged' in table column_ends"),
])  # fmt: skip
def test_bad_input_is_refused_with_a_reason(call, says):
    """Slender screws in the parabola, nil sizes, unknown ends."""
    with pytest.raises(ValueError, match=says):
        call()


def test_small_amounts_are_taken():
    """Only nothing and less is refused: half a millimetre of wire, half a newton of stiffness and strength."""
    assert slenderness(0.5, 0.5, 0.5) == 2
    assert limit_slenderness(0.5, 0.5) == pytest.approx(math.pi * 2**0.5)
    assert euler_load_n(0.5, 0.5, 0.5, 0.5) == pytest.approx(math.pi**2 * 0.5 * math.pi / 16 / 4, rel=1e-9)
    assert johnson_load_n(0.5, 0.5, 0.5, 0.5, 0.5) == pytest.approx(math.pi / 32 * (1 - 1 / math.pi**2))


def test_the_parabola_ends_at_the_limit():
    """A hundredth more slender than the limit is refused."""
    length = limit_slenderness(YIELD, E_MPA) * 20 / 4
    with pytest.raises(ValueError, match="too slender"):
        johnson_load_n(20, 1.01 * length, 1, E_MPA, YIELD)
