"""A through bolt and its plates as springs, from the size alone."""

import pytest

from workbench.screws.through_joint import through_joint


def test_an_m10_joint_of_steel_by_hand():
    """Bolt: 205000 / (28/78.54 + 12/57.99) = 363.9 kN/mm. Plates: two cones of 3021 kN/mm in a row, 1510 kN/mm."""
    joint = through_joint("M10", 40)
    assert joint.bolt_n_per_mm / 1000 == pytest.approx(363.9, abs=0.3)
    assert joint.parts_n_per_mm / 1000 == pytest.approx(1510.5, abs=2)


def test_softer_plates_leave_the_bolt_alone():
    """The bolt's spring is that of its steel, the plates' goes with their modulus (70/205 of steel's)."""
    steel, light = through_joint("M12", 30), through_joint("M12", 30, "aluminium")
    assert light.bolt_n_per_mm == steel.bolt_n_per_mm
    assert light.parts_n_per_mm == pytest.approx(steel.parts_n_per_mm * 70 / 205)


def test_a_grip_shorter_than_the_thread_is_all_thread():
    """M10 on 10 mm: 205000 x 57.99 / 10."""
    assert through_joint("M10", 10).bolt_n_per_mm == pytest.approx(205000 * 57.99 / 10, rel=1e-3)


@pytest.mark.parametrize("size, grip", [("M11", 40), ("M10", 0), ("M10", -5)])
def test_what_there_is_not_is_refused(size, grip):
    """A size outside the tables, or no grip."""
    with pytest.raises(ValueError):
        through_joint(size, grip)
