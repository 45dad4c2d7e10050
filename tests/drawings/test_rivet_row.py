"""The drawn row of rivets: true proportions, and the failure marked where it happens."""

import numpy as np
import pytest

from workbench.drawings.rivet_row import MIDDLE, PX, ROW, SECTION, SECTION_PX, RivetRow
from workbench.rivets.joint import Seam

LIGHT = dict(shear_mpa=200, tension_mpa=400, bearing_mpa=800, edge_shear_mpa=250)


@pytest.fixture(scope="module")
def drawing():
    return RivetRow()


def shown(drawing, diameter=4.0, thickness=1.0, pitch=24, edge=8.0):
    drawing.show(Seam(diameter + 0.1, thickness, pitch, (1,), edge_mm=edge, **LIGHT), diameter)


def test_pitch_and_edge_are_to_scale(drawing):
    """Rivets stand a pitch apart, the sheet's edge an edge distance above the row, the hidden one below."""
    shown(drawing)
    assert np.diff(drawing.places()) == pytest.approx(24 * PX)
    assert MIDDLE in drawing.places()
    assert drawing.edge.get_ydata()[0] - ROW == pytest.approx(8 * PX)
    assert ROW - drawing.hidden.get_ydata()[0] == pytest.approx(8 * PX)


@pytest.mark.parametrize("pitch", [6, 24, 60])
def test_at_least_three_rivets_are_seen_and_all_lie_on_the_sheet(drawing, pitch):
    """At each pitch of the panel the row can be seen as a row."""
    shown(drawing, diameter=2.4, pitch=pitch)
    assert len(drawing.places()) >= 3
    assert drawing.places()[0] > 40 and drawing.places()[-1] < 520


def test_the_section_has_the_proportions_of_the_trade(drawing):
    """Made head 1.75 D wide and 0.6 D high (DIN 660), formed head 0.5 D high and about 1.5 D wide (common practice)."""
    shown(drawing, diameter=4.0, thickness=2.0)
    rivet = drawing.rivets.get_path().vertices
    section = rivet[rivet[:, 0] > 600] - (SECTION, ROW)
    above, below = section[section[:, 1] > 2.0 * SECTION_PX - 0.1], section[section[:, 1] < -2.0 * SECTION_PX + 0.1]
    assert np.ptp(above[:, 0]) == pytest.approx(1.75 * 4 * SECTION_PX, rel=0.01)
    assert above[:, 1].max() - 2 * SECTION_PX == pytest.approx(0.6 * 4 * SECTION_PX, rel=0.01)
    assert -below[:, 1].min() - 2 * SECTION_PX == pytest.approx(0.5 * 4 * SECTION_PX, rel=0.01)
    assert np.ptp(below[:, 0]) == pytest.approx(1.5 * 4 * SECTION_PX, rel=0.07)


@pytest.mark.parametrize(
    ("sizes", "failing"),
    [({}, "rivets sheared"), ({"edge": 5.0}, "edge torn out"), ({"thickness": 0.5, "edge": 12.0, "pitch": 40},
     "plate crushed at the rivets"), ({"thickness": 0.5, "edge": 12.0, "pitch": 6}, "plate torn at row 1")],
)  # fmt: skip
def test_the_weakest_failure_is_marked_and_named(drawing, sizes, failing):
    """Parting metal is a wide line, crushed metal black; the words name the failure."""
    shown(drawing, **sizes)
    assert drawing.failing == failing and failing in drawing.text()
    crushed = len(drawing.crushed.get_path().vertices) > 2
    assert crushed == (failing == "plate crushed at the rivets")
    assert np.isfinite(drawing.torn.get_xdata()).any() != crushed


def test_a_torn_edge_is_two_strips_from_each_hole_to_the_edge(drawing):
    """The strips are a hole apart and end at the sheet's edge."""
    shown(drawing, edge=5.0)
    x, y = drawing.torn.get_data()
    assert x[3] - x[0] == pytest.approx(4.1 * PX) and y[1] - ROW == pytest.approx(5 * PX)
