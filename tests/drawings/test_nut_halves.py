"""The drawn half nut: true outlines, each half where it stands, play where it is worn."""

import numpy as np
import pytest

from workbench.drawings.nut_halves import AXIS, DETAIL_PX, PX, NutHalves
from workbench.threads.profile import profile

TR20 = profile("trapezoidal", 20, 4)  # ISO 2904: d 20, d3 15.5, D4 20.5, D1 16


@pytest.fixture(scope="module")
def drawing():
    return NutHalves()


def test_screw_and_nut_have_the_diameters_of_iso_2904(drawing):
    """Screw over crests 20 mm; bore of the nut 16 mm while both halves lie on their seats."""
    drawing.show(TR20, 0, 0, 0.1)
    screw = drawing.screw.get_path().vertices[:, 1]
    assert np.ptp(screw) == pytest.approx(20 * PX)
    upper, lower = drawing.halves.get_path().to_polygons(closed_only=False)
    assert upper[:, 1].min() - lower[:, 1].max() == pytest.approx(16 * PX)


@pytest.mark.parametrize("out", [-0.1, 0.5, 3])
def test_both_halves_stand_out_alike(drawing, out):
    """An opening moves each half by as much away from the axis."""
    drawing.show(TR20, 0, 0, 0.1)
    at_rest = drawing.halves.get_path().to_polygons(closed_only=False)[0][:, 1].min()
    drawing.show(TR20, out, 0, 0.1)
    upper, lower = drawing.halves.get_path().to_polygons(closed_only=False)
    assert upper[:, 1].min() - at_rest == pytest.approx(out * PX)
    assert upper[:, 1].min() - AXIS == pytest.approx(AXIS - lower[:, 1].max())


def test_below_the_axis_the_ridges_stand_half_a_pitch_further(drawing):
    """One start: a crest above stands opposite a groove below."""
    drawing.show(TR20, 0, 0, 0.0)
    points = drawing.screw.get_path().vertices
    above, below = ({round(x / PX % 4, 3) for x, y in points if side * (y - AXIS) > 9.99 * PX
                     and points[:, 0].min() + 1 < x < points[:, 0].max() - 1} for side in (1, -1))
    assert len(above) == 2 and sorted((x + 2) % 4 for x in above) == pytest.approx(sorted(below), abs=2e-3)


def test_the_play_shows_on_both_flanks(drawing):
    """At the pitch line each flank of the enlarged ridge stands half the play away; closed by 0.187 mm they touch."""

    def gaps():
        found = []
        level = drawing.ridge.get_path().vertices[:, 1].max() - 1.0 * DETAIL_PX  # 1 mm below the crest: the pitch line
        for patch in (drawing.ridge, drawing.groove):
            points = patch.get_path().vertices[:-1]
            x, y = points[:, 0], points[:, 1]
            crossing = [x[n] + (level - y[n]) / (y[n + 1] - y[n]) * (x[n + 1] - x[n])
                        for n in range(len(x) - 1) if (y[n] - level) * (y[n + 1] - level) < 0]
            middle = (drawing.ridge.get_path().vertices[:, 0].min() + drawing.ridge.get_path().vertices[:, 0].max()) / 2
            found.append(sorted(crossing, key=lambda at: abs(at - middle))[:2])
        return [abs(a - b) / DETAIL_PX for a, b in zip(sorted(found[0]), sorted(found[1]), strict=True)]

    drawing.show(TR20, 0, 0, 0.1)
    assert gaps() == pytest.approx([0.05, 0.05], abs=1e-3)
    drawing.show(TR20, -0.1866, 0, 0.1)
    assert gaps() == pytest.approx([0, 0], abs=1e-3)
    drawing.show(TR20, 0.5, 0.1, 0.1)  # 0.05 + 0.5 tan 15°, and 0.1 mm to one side
    assert sorted(gaps()) == pytest.approx([0.084, 0.284], abs=1e-3)


def test_words_tell_the_opening(drawing):
    """The alternative text says how each half stands and how worn the grooves are."""
    drawing.show(TR20, -0.1, 0, 0.1)
    assert "0.1 mm further in than its seat" in drawing.text() and "wider by 0.1 mm" in drawing.text()


def test_the_ridges_run_round_as_a_right_handed_screw(drawing):
    """Every crest edge goes on 2 mm (half of the lead) to the right from above to below: right-hand."""
    drawing.show(TR20, 2, 0, 0.1)
    lines = drawing.helix.get_xydata().reshape(-1, 3, 2)
    assert len(lines) >= 12
    for above, below, gap in lines:
        assert above[1] - AXIS == pytest.approx(10 * PX) and AXIS - below[1] == pytest.approx(10 * PX)
        assert below[0] - above[0] == pytest.approx(2 * PX) and np.isnan(gap).all()
