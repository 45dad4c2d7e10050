"""Stiffness of bolts and clamped parts: against integration, springs in a row, limits."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from workbench.screws.stiffness import (
    Springs,
    bolt_n_per_mm,
    bolt_with_ends_n_per_mm,
    cone_n_per_mm,
    in_row_n_per_mm,
    modulus_mpa,
    parts_n_per_mm,
    tapped_grip_mm,
)

STEEL = 205000


@pytest.mark.parametrize("hole, face, thick, half_angle",
                         [(10, 15, 20, 30), (11, 16, 6, 30), (5.5, 8, 30, 25), (22, 30, 9, 45)])
def test_a_cone_is_the_sum_of_thin_rings(hole, face, thick, half_angle):
    """1/k is the integral of dx / (E A(x)) over the cone, by scipy."""
    slope = math.tan(math.radians(half_angle))
    gives, _ = quad(lambda x: 4 / (math.pi * STEEL * ((face + 2 * x * slope) ** 2 - hole**2)), 0, thick)
    assert cone_n_per_mm(hole, face, thick, STEEL, half_angle) == pytest.approx(1 / gives, rel=1e-9)


@given(st.floats(0.01, 0.99))
def test_parting_a_layer_in_two_changes_nothing(share):
    """One layer of 30 mm, or the same steel in two layers, wherever they part, is as stiff."""
    two = ((30 * share, STEEL), (30 * (1 - share), STEEL))
    assert parts_n_per_mm(two, 11, 16) == pytest.approx(parts_n_per_mm(((30, STEEL),), 11, 16))


def test_parts_are_the_same_seen_from_either_end():
    """Turning the stack over changes nothing."""
    layers = ((2, STEEL), (12, 70000), (25, 100000))
    assert parts_n_per_mm(layers, 11, 16) == pytest.approx(parts_n_per_mm(layers[::-1], 11, 16))


def test_a_bolt_by_hand():
    """M10, 20 mm shank of 78.5 mm2, 20 mm thread of 58.0 mm2: 205000 / (0.2548 + 0.3448) = 341900 N/mm."""
    assert bolt_n_per_mm(10, 1.5, 20, 20) == pytest.approx(341900, rel=1e-3)
    assert bolt_with_ends_n_per_mm(10, 1.5, 20, 20) == pytest.approx(205000 / (29 / 78.54 + 25 / 52.29), rel=1e-3)


def test_springs_by_hand():
    """300 and 1200 kN/mm: share 0.2, together 240 kN/mm; 24 kN stretches 0.08 mm and squeezes 0.02 mm."""
    springs = Springs(300000, 1200000)
    assert springs.share == pytest.approx(0.2) and springs.together_n_per_mm == pytest.approx(240000)
    assert springs.bolt_stretch_mm(24000) == pytest.approx(0.08)
    assert springs.parts_squeeze_mm(24000) == pytest.approx(0.02)


def test_arrays_broadcast():
    """A row of bolt stiffnesses gives a row of shares, each as alone."""
    rows = Springs(np.array([100.0, 300.0]), 900.0)
    assert rows.share == pytest.approx([0.1, 0.25])
    cones = cone_n_per_mm(10, np.array([15.0, 18.0]), 20, STEEL)
    assert cones[1] == pytest.approx(cone_n_per_mm(10, 18, 20, STEEL))


def test_steel_gives_more_than_aluminium():
    """Moduli near 205 and 70 GPa; parts of aluminium are as much softer."""
    ratio = modulus_mpa("steel") / modulus_mpa("aluminium")
    assert 2.8 < ratio < 3.1
    steel, light = (parts_n_per_mm(((20, modulus_mpa(name)),), 11, 16) for name in ("steel", "aluminium"))
    assert steel / light == pytest.approx(ratio)


def test_a_thin_base_counts_half_of_itself():
    """A screw in a base thinner than its diameter: half the base; in a thick one: half the diameter."""
    assert tapped_grip_mm(17, 8, 12) == pytest.approx(21) and tapped_grip_mm(17, 30, 12) == pytest.approx(23)


@pytest.mark.parametrize("act, says", [
    (lambda: cone_n_per_mm(11, 11, 10, STEEL), "pulls through"),
    (lambda: bolt_n_per_mm(10, 1.5, 0, 0), "no grip"),
    (lambda: parts_n_per_mm((20, STEEL), 11, 16), "comma missing"),
    (lambda: parts_n_per_mm((), 11, 16), "must be a tuple"),
    (lambda: in_row_n_per_mm(), "at least one"),
    (lambda: Springs(0, 1), "must be above 0"),
])  # fmt: skip
def test_bad_joints_are_refused(act, says):
    """No face, no grip, no layers, no spring: refused with the likely cause."""
    with pytest.raises(ValueError, match=says):
        act()
