"""Stresses in root and ridges: against eigenvalues, a beam by hand, and area by integration."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from workbench.screws.screw_stress import (
    flank_pressure_mpa,
    greatest_shear_mpa,
    nut_length_for_mm,
    ridge_stress,
    ridges_engaged,
    root_axial_mpa,
    root_torsion_mpa,
    von_mises_mpa,
)
from workbench.threads.profile import profile

TR20 = profile("trapezoidal", 20, 4)
MOVING = ("square", "trapezoidal", "acme", "buttress 3/30", "buttress 7/45")
stress = st.floats(-500, 500)


def of(form):
    return profile(form, *((38.1, 6.35) if form == "acme" else (36, 6)))


def test_root_by_hand():
    """Tr20x4, root 15.5 mm: 8000 / 188.692 = 42.397 MPa; 16 x 14162 / (pi x 3723.875) = 19.368 MPa."""
    assert root_axial_mpa(8000, TR20) == pytest.approx(42.397, abs=0.001)
    assert root_axial_mpa(-8000, TR20) == pytest.approx(-42.397, abs=0.001)
    assert root_torsion_mpa(14162, TR20) == pytest.approx(19.368, abs=0.001)


@given(stress, stress, stress)
def test_von_mises_from_principal_stresses(one, other, shear):
    """The same as from the three principal stresses of the whole tensor (numpy): s1 axial, s2 radial, t round."""
    tensor = [[one, 0, shear], [0, other, 0], [shear, 0, 0]]
    a, b, c = np.linalg.eigvalsh(tensor)
    expected = math.sqrt(((a - b) ** 2 + (b - c) ** 2 + (c - a) ** 2) / 2)
    assert von_mises_mpa(one, shear, other) == pytest.approx(expected, abs=1e-6)


@given(stress, stress)
def test_greatest_shear_from_principal_stresses(axial, shear):
    """Half the difference of the principal stresses (numpy)."""
    low, high = np.linalg.eigvalsh([[axial, shear], [shear, 0]])
    assert greatest_shear_mpa(axial, shear) == pytest.approx((high - low) / 2, abs=1e-6)


@pytest.mark.parametrize("form", MOVING)
@pytest.mark.parametrize("of_part", ["screw", "nut"])
def test_the_ridge_is_a_short_beam(form, of_part):
    """Bending is moment over section modulus of the foot, which is the outline's own width at the root diameter."""
    thread = of(form)
    half = thread.screw_minor_mm / 2 if of_part == "screw" else thread.nut_major_mm / 2
    lean = math.tan(math.radians(thread.load_flank_deg)) + math.tan(math.radians(thread.clearance_flank_deg))
    lever = abs(thread.pitch_diameter_mm / 2 - half)
    width = thread.pitch_mm / 2 + lever * lean  # wider by both slopes from the pitch line down to the foot
    load, ridges = 6000, 7
    modulus = 2 * math.pi * half * width**2 / 6
    found = ridge_stress(load, thread, ridges, of_part)
    assert found.bending_mpa == pytest.approx(load / ridges * lever / modulus)
    assert found.shear_mpa == pytest.approx(load / ridges / (2 * math.pi * half * width))


def test_a_square_ridge_by_the_textbook_formula():
    """Square thread: bending 6 F / (pi dr n p), shear 2 F / (pi dr n p), pressure 2 F / (pi dm n p)."""
    found = ridge_stress(6400, profile("square", 32, 4), 5)
    assert found.bending_mpa == pytest.approx(6 * 6400 / (math.pi * 28 * 5 * 4))
    assert found.shear_mpa == pytest.approx(2 * 6400 / (math.pi * 28 * 5 * 4))
    assert found.pressure_mpa == pytest.approx(2 * 6400 / (math.pi * 30 * 5 * 4))


@pytest.mark.parametrize("form", MOVING)
def test_pressure_acts_on_the_ring_between_bore_and_crest(form):
    """Load over the ring from the bore of the nut to the crest of the screw, summed over the ridges."""
    thread = of(form)
    ring = quad(lambda r: 2 * math.pi * r, thread.nut_minor_mm / 2, thread.major_mm / 2)[0]
    assert flank_pressure_mpa(6000, thread, 36) == pytest.approx(6000 / (ring * 36 / thread.pitch_mm))


def test_ridges_are_counted_by_pitch_whatever_the_starts():
    """36 mm of nut on a pitch of 4 mm: 9 ridges with one start and with three; 8000/(18 x pi x 2 x 9) = 7.860 MPa."""
    for starts in (1, 2, 3):
        thread = profile("trapezoidal", 20, 4, starts)
        assert ridges_engaged(36, thread) == 9
        assert flank_pressure_mpa(8000, thread, 36) == pytest.approx(7.860, abs=0.001)


@given(st.floats(100, 50000), st.floats(1, 25))
def test_the_length_found_gives_the_pressure_wanted(load, pressure):
    """nut_length_for_mm and flank_pressure_mpa undo each other; never under one pitch."""
    length = nut_length_for_mm(load, TR20, pressure)
    assert length >= 4
    found = flank_pressure_mpa(load, TR20, length)
    assert found == pytest.approx(pressure) if length > 4 else found <= pressure * (1 + 1e-9)


def test_arrays_broadcast():
    """Loads, threads and lengths may be arrays."""
    threads, loads = profile("trapezoidal", np.array([20, 24]), np.array([4, 5])), np.array([[1000], [2000]])
    assert ridge_stress(loads, threads, np.array([2, 3])).bending_mpa.shape == (2, 2)
    assert nut_length_for_mm(np.array([0.5]), TR20, 5).tolist() == [4]
    assert nut_length_for_mm(loads, threads, 5)[1, 0] == pytest.approx(nut_length_for_mm(2000, TR20, 5))
    assert von_mises_mpa(np.array([3, 4]), 0).tolist() == [3, 4]
    assert root_axial_mpa(loads, threads).shape == root_torsion_mpa(loads, threads).shape == (2, 2)


@pytest.mark.parametrize("call, says", [
    (lambda: ridges_engaged(3, TR20), "nut_length_mm = 3: is under one pitch .4 mm.; is it in turns"),
    (lambda: ridges_engaged(np.array([8, 3]), TR20), "is under one pitch"),
    (lambda: flank_pressure_mpa(8000, TR20, 3), "is under one pitch"),
    (lambda: ridge_stress(8000, TR20, 0.5), "ridges = 0.5: must be at least 1; less than one ridge"),
    (lambda: ridge_stress(-8000, TR20, 2), "load_n = -8000"),
    (lambda: ridge_stress(8000, TR20, 2, "bolt"), "of = 'bolt': must be 'screw' or 'nut'"),
    (lambda: ridge_stress(8000, "Tr20x4", 2), "thread = 'Tr20x4': must be a Profile"),
    (lambda: root_axial_mpa(8000, 20), "thread = 20: must be a Profile"),
    (lambda: nut_length_for_mm(0, TR20, 5), "load_n = 0"),
    (lambda: nut_length_for_mm(8000, TR20, 0), "pressure_mpa = 0"),
    (lambda: root_torsion_mpa("8", TR20), "torque_nmm = '8': must be one number"),
])  # fmt: skip
def test_bad_input_is_refused_with_a_reason(call, says):
    """Engagement under one pitch, less than one ridge, negative loads, text for a thread."""
    with pytest.raises(ValueError, match=says):
        call()


def test_one_pitch_is_enough():
    """A nut of just one pitch has one ridge."""
    assert ridges_engaged(4, TR20) == 1


def test_small_amounts_are_taken():
    """Only nothing and less is refused: half a newton, half a megapascal; no load at all is no stress."""
    assert ridge_stress(0, TR20, 1).bending_mpa == 0
    assert nut_length_for_mm(0.5, TR20, 0.5) == 4
    with pytest.raises(ValueError, match="under one pitch"):
        ridges_engaged(0.5, TR20)
