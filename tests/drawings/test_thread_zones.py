"""The drawn tolerance zones: to scale, on the right sides of the basic profile."""

import numpy as np
import pytest
from matplotlib.figure import Figure

from workbench.drawings.thread_zones import PITCH_LINE, PITCH_PX, RIDGE, ThreadZones, picture


@pytest.fixture(scope="module")
def drawing():
    return ThreadZones()


def bar(drawing, of):
    """Lower and upper deviation in um, as drawn from the zero line."""
    y = drawing.bars[of].get_path().vertices[:4, 1]
    return (np.array([y.min(), y.max()]) - drawing.zero.get_ydata()[0]) / drawing.px_per_um


def at_pitch_line(points):
    """Where the left flank of an edge crosses the pitch line (x in px)."""
    x, y = points.T
    return np.interp(PITCH_LINE, y[:3][np.argsort(y[:3])], x[:3][np.argsort(y[:3])])


# limits of the pitch diameter, ISO 965-2 (M10 6g/6H; M20 6g/6H; M6 6g/6H), deviations from d2 of ISO 724 hand-worked
@pytest.mark.parametrize(
    ("size", "screw", "nut"),
    [((10, 1.5), (8.862 - 9.026, 8.994 - 9.026), (0, 9.206 - 9.026)),
     ((20, 2.5), (18.164 - 18.376, 18.334 - 18.376), (0, 18.600 - 18.376)),
     ((6, 1), (5.212 - 5.350, 5.324 - 5.350), (0, 5.500 - 5.350))],
)
def test_bars_are_the_published_limits(drawing, size, screw, nut):
    """Bars of screw and nut reach from the lower to the upper deviation, in one scale from the zero line."""
    drawing.show(*size)
    assert bar(drawing, "screw") == pytest.approx(np.array(screw) * 1000, abs=0.01)
    assert bar(drawing, "nut") == pytest.approx(np.array(nut) * 1000, abs=0.01)
    said = drawing.dimensions.said
    assert f"least {-screw[1] * 1000:.0f}" in said and f"greatest {(nut[1] - screw[0]) * 1000:.0f}" in said


def test_zones_of_the_profile_are_to_the_scale_of_the_profile(drawing):
    """At the pitch line the zone is, along the axis, half its width on the diameter times tan 30° (geometry)."""
    drawing.show(10, 1.5)
    zone = drawing.zones["screw"].get_path().vertices
    low, high = zone[:6], zone[6:12][::-1]
    px_per_mm = PITCH_PX / 1.5
    assert (at_pitch_line(low) - at_pitch_line(high)) / px_per_mm == pytest.approx(
        0.132 / 2 * np.tan(np.radians(30)), rel=1e-3)
    assert high[:, 1].max() - low[:, 1].max() == pytest.approx(0.236 / 2 * px_per_mm)  # Td of 6g at P 1.5: 236 um
    nut = drawing.zones["nut"].get_path().vertices
    assert nut[6:12, 1].min() - nut[:6, 1].min() == pytest.approx(0.300 / 2 * px_per_mm)  # TD1 of 6H at P 1.5: 300 um


def test_basic_profile_is_that_of_iso_68(drawing):
    """Crest flat P/8, root flat P/4 (two halves), height 0.541266 P, flanks 30°, ridge and groove equal at the line."""
    drawing.show(20, 2.5)
    x, y = (drawing.basic.get_xydata() - (RIDGE, PITCH_LINE)).T / PITCH_PX
    assert x[3] - x[2] == pytest.approx(1 / 8, rel=1e-3)
    assert 2 * (x[1] - x[0]) == pytest.approx(1 / 4, rel=2e-3)
    assert y.max() - y.min() == pytest.approx(0.541266, rel=1e-3)
    assert np.degrees(np.arctan2(x[2] - x[1], y[2] - y[1])) == pytest.approx(30, abs=0.05)
    assert np.interp(0, y[:3], x[:3]) == pytest.approx(-1 / 4, abs=1e-3)


@pytest.mark.parametrize(("screw", "nut"), [("6g", "6H"), ("4h", "4H"), ("6e", "6G"), ("8g", "7H")])
def test_screw_stays_inside_and_nut_outside_the_basic_profile(drawing, screw, nut):
    """No zone crosses the basic profile: these letters never interfere."""
    drawing.show(12, 1.75, screw, nut)
    basic = drawing.basic.get_xydata()
    for of, side in (("screw", -1), ("nut", 1)):
        for corner in drawing.zones[of].get_path().vertices[:12]:
            assert side * (corner[1] - np.interp(corner[0], basic[:, 0], basic[:, 1])) > -0.6  # rounding to 1 um


def test_refused_pair_leaves_the_picture():
    """A class that ISO 965-1 does not give at a pitch is refused with the classes that it gives."""
    drawing = ThreadZones()
    before = drawing.png()
    with pytest.raises(ValueError, match="4H, 5H"):
        drawing.show(1, 0.25, "6h", "6H")
    assert drawing.png() == before


@pytest.mark.parametrize("size", [(1, 0.25), (3, 0.5), (10, 1.25), (64, 6), (90, 4)])
def test_everything_stays_on_the_sheet(drawing, size):
    """Finest and coarsest pairs fit on the sheet."""
    drawing.show(*size, *(("6h", "5H") if size[0] == 1 else ("6g", "6H")))
    ink = drawing.dimensions.ink.get_path().vertices
    assert ink.min() > 2 and ink[:, 0].max() < 898 and ink[:, 1].max() < 398
    for zone in drawing.zones.values():
        y = zone.get_path().vertices[:12, 1]
        assert y.min() > 28 and y.max() < 390


def test_moves_make_no_figure_and_stills_keep_values_back(drawing, monkeypatch):
    """Another pair moves the artists that are there; a still has letters only."""
    text = picture(10, 1.5)[1]
    assert "344" not in text and "32" not in text
    monkeypatch.setattr(Figure, "__init__", lambda *args, **options: pytest.fail("a new figure was made"))
    assert len({(drawing.show(10, 1.5, screw, nut), drawing.png())[1]
                for screw in ("6g", "6h", "4h") for nut in ("6H", "6G")}) == 6
    drawing.show(10, 1.5, figures=False)
    assert {"least", "greatest"} <= set(drawing.dimensions.said)
    assert not [text for text in drawing.dimensions.said if text.strip("+−").isdigit()]
