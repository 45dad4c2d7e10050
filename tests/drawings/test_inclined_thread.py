"""The unrolled thread: true angles, and forces that close."""

import math

import numpy as np
import pytest

from workbench.drawings.inclined_thread import BASE, FOOT, LOAD, InclinedThread


@pytest.fixture(scope="module")
def drawing():
    return InclinedThread()


def test_the_ramp_has_the_lead_angle(drawing):
    """Lead 8 on 56.55 mm: tan = 0.14147."""
    drawing.show(56.55, 8, 7.08, 5)
    corners = drawing.ramp.get_path().vertices
    assert (corners[2, 1] - corners[1, 1]) / BASE == pytest.approx(0.14147, abs=1e-5)


@pytest.mark.parametrize("lead", [4, 8, 16])
def test_the_nut_lies_on_the_ramp(drawing, lead):
    """The lower edge of the nut's piece runs along the slope."""
    drawing.show(56.55, lead, 7.08, 5)
    block, foot = drawing.block.get_path().vertices, drawing.ramp.get_path().vertices[0]
    for corner in block[:2]:
        assert (corner[1] - foot[1]) / (corner[0] - foot[0]) == pytest.approx(lead / 56.55, rel=1e-6)
    assert np.dot(block[1] - block[0], block[3] - block[0]) == pytest.approx(0, abs=1e-6)


def test_level_forces_are_to_the_scale_of_the_load(drawing):
    """5 kN raised at 4.046° + 7.2°: 5 tan 11.246° = 0.994 kN; lowered 5 tan 3.154° = 0.276 kN, to the other side."""
    drawing.show(56.55, 4, 7.2, 5)
    x = drawing.pushes.get_xdata()
    assert (x[1] - FOOT[0]) / LOAD * 5 == pytest.approx(0.994, abs=0.002)
    assert (x[4] - FOOT[0]) / LOAD * 5 == pytest.approx(-0.276, abs=0.002)
    assert {"raise 0.99 kN", "lower 0.28 kN"} <= set(drawing.dimensions.said)


def test_past_the_friction_angle_the_load_must_be_held_back(drawing):
    """At a lead angle of 15.8° and 7.08° of friction: 5 tan 8.72° = 0.767 kN hold it back, on the raising side."""
    drawing.show(56.55, 16, 7.08, 5)
    assert "hold back 0.77 kN" in drawing.dimensions.said and "held back" in drawing.text()
    assert drawing.pushes.get_xdata()[4] > FOOT[0]
    assert math.isclose(drawing.lead_deg, 15.80, abs_tol=0.01)
