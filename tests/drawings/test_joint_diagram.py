"""The drawn joint: true sizes on the left, forces and stretches to scale on the right."""

import numpy as np
import pytest

from workbench.drawings.joint_diagram import AXIS, GAP, ORIGIN, PX, PX_PER_KN, JointDiagram
from workbench.screws.stiffness import Springs

SPRINGS = Springs(300000, 1200000)  # C = 0.2: 24 kN stretch the bolt by 80 um and squeeze the parts by 20 um


@pytest.fixture(scope="module")
def drawing():
    return JointDiagram()


def shown(drawing, load=8.0, clamp=17.6, bolt=25.6, grip=40):
    drawing.show(grip, SPRINGS, 24.0, load, clamp, bolt)


def test_bolt_line_and_parts_line_meet_at_the_preload(drawing):
    """The bolt's line rises from the origin; both meet at 80 um and 24 kN; the parts' line ends 20 um further."""
    shown(drawing)
    x, y = drawing.lines.get_data()
    assert (x[0], y[0]) == ORIGIN
    peak, foot = (x[3], y[3]), (x[4], y[4])
    assert (peak[0] - ORIGIN[0]) / drawing.px_per_um == pytest.approx(80)
    assert (peak[1] - ORIGIN[1]) / PX_PER_KN == pytest.approx(24)
    assert (foot[0] - peak[0]) / drawing.px_per_um == pytest.approx(20) and foot[1] == ORIGIN[1]
    assert {"80", "20"} <= set(drawing.dimensions.said)


def test_the_load_stands_between_parts_and_bolt(drawing):
    """At 25.6 kN the bolt is 85.3 um long; there the parts' line stands at 17.6 kN (hand-worked), the shaded clamp."""
    shown(drawing)
    corner = drawing.clamp.get_path().vertices[1]
    assert (corner[0] - ORIGIN[0]) / drawing.px_per_um == pytest.approx(25600 / 300)
    assert (corner[1] - ORIGIN[1]) / PX_PER_KN == pytest.approx(17.6)
    assert {"W 8", "bolt feels 25.6", "clamp left 17.6"} <= set(drawing.dimensions.said)
    x, y = drawing.lines.get_data()
    at = np.interp(corner[0], x[3:5], y[3:5])
    assert at == pytest.approx(corner[1])


def test_an_open_joint_shows_a_gap_and_no_clamp(drawing):
    """Plates part, the clamp is gone, and the words say that it is open."""
    shown(drawing, load=40.0, clamp=0.0, bolt=40.0)
    assert "open" in drawing.dimensions.said and drawing.text().endswith("The joint is open.")
    y = drawing.plates.get_path().vertices[:, 1]
    levels = np.unique(np.round(y, 6))
    assert levels[2] - levels[1] == pytest.approx(GAP)
    shown(drawing)
    assert len(np.unique(np.round(drawing.plates.get_path().vertices[:, 1], 6))) == 3


def test_bolt_head_and_nut_have_the_sizes_of_the_standards(drawing):
    """M10: 16 mm across flats, so 18.475 mm across corners; head 6.4 mm (ISO 4014), nut 8.4 mm (ISO 4032)."""
    shown(drawing)
    boxes = drawing.bolt.get_path().to_polygons()
    shank, head, nut = boxes
    assert np.ptp(shank[:, 0]) == pytest.approx(10 * PX) and shank[:, 0].mean() == pytest.approx(AXIS, abs=6)
    assert np.ptp(head[:, 0]) == pytest.approx(18.475 * PX, rel=1e-3)
    assert np.ptp(head[:, 1]) == pytest.approx(6.4 * PX) and np.ptp(nut[:, 1]) == pytest.approx(8.4 * PX)
    assert head[:, 1].min() - nut[:, 1].max() == pytest.approx(40 * PX)
