"""Pressure under a head and what a washer does."""

import math

import pytest

from workbench.screws.bearing import face_pressure_mpa, face_through_washer_mm, hexagon, pressure_limit_mpa, washer


def test_pressure_by_hand():
    """24 kN on a ring from 11 to 14.63 mm: 73.07 mm2, 328 MPa."""
    area = math.pi / 4 * (14.63**2 - 11**2)
    assert area == pytest.approx(73.07, abs=0.01)
    assert face_pressure_mpa(24000, 14.63, 11) == pytest.approx(328.4, abs=0.1)


def test_a_washer_lowers_the_pressure_on_a_soft_part():
    """M10 at 24 kN is too much for wrought aluminium without a washer, and bearable with one."""
    bare = face_pressure_mpa(24000, hexagon(10)["face_mm"], 11)
    disc = washer(10)
    wide = face_through_washer_mm(hexagon(10)["face_mm"], disc["thickness_mm"], disc["outer_mm"])
    assert bare > pressure_limit_mpa("wrought aluminium") > face_pressure_mpa(24000, wide, 11)


def test_a_thick_washer_spreads_no_further_than_its_rim():
    """Face through a washer is at most the washer."""
    assert face_through_washer_mm(14.63, 20, 20) == 20
    assert face_through_washer_mm(14.63, 2, 20) == pytest.approx(17.83)


@pytest.mark.parametrize("act, says", [
    (lambda: face_pressure_mpa(1, 11, 11), "pulls through"),
    (lambda: face_through_washer_mm(14.63, 2, 12), "narrower than the head"),
    (lambda: washer(10, "huge"), "normal or large"),
    (lambda: hexagon(11), "nearest names"),
    (lambda: pressure_limit_mpa("cheese"), "nearest names"),
])  # fmt: skip
def test_bad_input_is_refused(act, says):
    """No face, a washer too small, unknown sizes and materials: refused."""
    with pytest.raises(ValueError, match=says):
        act()
