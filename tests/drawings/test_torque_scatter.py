"""The drawn fan: rays, strip and bars stand where the numbers put them."""

import numpy as np
import pytest

from workbench.drawings.torque_scatter import FLOOR, LEFT, PX_PER_KN, PX_PER_NM, TorqueScatter


@pytest.fixture(scope="module")
def drawing():
    return TorqueScatter()


def shown(drawing, torque=40, error=0.1, slopes=(1.0, 1.5, 2.0), preloads=tuple(range(18, 28))):
    drawing.show(torque, error, slopes, (0.08, 0.12, 0.16), 30, preloads)


def test_the_rays_have_the_slopes_given(drawing):
    """1.0 and 2.0 N m for a kilonewton: rays that rise by 1 and by half a kilonewton for each newton metre."""
    shown(drawing)
    x, y = drawing.lines.get_data()
    for start, slope in ((0, 1.0), (3, 0.5)):
        assert (x[start], y[start]) == (LEFT, FLOOR)
        rise = (y[start + 1] - FLOOR) / PX_PER_KN / ((x[start + 1] - LEFT) / PX_PER_NM)
        assert rise == pytest.approx(slope)


def test_the_strip_covers_error_and_friction(drawing):
    """40 N m within 10 percent: from 36 to 44 N m, from 36/2 to 44/1 kN."""
    shown(drawing)
    strip = (drawing.strip.get_path().vertices[:4] - (LEFT, FLOOR)) / (PX_PER_NM, PX_PER_KN)
    assert strip[:, 0].min() == pytest.approx(36) and strip[:, 0].max() == pytest.approx(44)
    assert strip[:, 1].min() == pytest.approx(18) and strip[:, 1].max() == pytest.approx(44)


def test_ten_bars_stand_for_ten_screws(drawing):
    """Each bar is as high as its preload; first and last carry their figures."""
    shown(drawing)
    bars = drawing.bars.get_path().to_polygons(closed_only=False)
    assert [np.ptp(bar[:, 1]) / PX_PER_KN for bar in bars] == pytest.approx(range(18, 28))
    assert {"18.0", "27.0", "40 N m", "µ 0.08", "µ 0.16"} <= set(drawing.dimensions.said)
    assert "18.0 to 27.0 kN" in drawing.text()


def test_what_is_off_the_scale_leaves_the_axes(drawing):
    """A preload far over the scale is drawn up to the edge of the plot; its figure still stands."""
    shown(drawing, torque=100, preloads=tuple(range(50, 150, 10)))
    assert "140.0" in drawing.dimensions.said and drawing.png().startswith(b"\x89PNG")
