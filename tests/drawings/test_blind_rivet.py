"""The drawn blind rivet, read back from its artists as a toolmaker would measure it."""

import numpy as np
import pytest
from matplotlib.figure import Figure

from workbench.drawings.blind_rivet import AXIS, NEAR_SHEET, BlindRivetSetting, picture
from workbench.rivets.setting import blind_rivet, set_rivet


@pytest.fixture(scope="module")
def drawing():
    return BlindRivetSetting()


def show(drawing, body=4, length=12, stack=7.0, pulled=1.0, broken=False):
    rivet = blind_rivet("ISO 15977", body, length)
    drawing.show(rivet, stack, body + 0.1, set_rivet(rivet, stack, body + 0.1, pulled, broken))
    return rivet


def millimetres(drawing, path):
    points = np.concatenate(path.to_polygons())
    return (points - (drawing.zero, AXIS)) / drawing.scale


@pytest.mark.parametrize(("body", "length", "stack"), [(3.2, 8, 4), (4, 12, 7), (4.8, 16, 10), (6.4, 20, 12)])
def test_body_head_and_length_are_those_of_the_standard(drawing, body, length, stack):
    """Unset: body D wide and l long beyond the sheet's face, head between its limits and k high (ISO 15977)."""
    show(drawing, body, length, stack, 0.0)
    points = millimetres(drawing, drawing.body.get_path())
    beyond = points[points[:, 0] > 1e-6]
    assert beyond[:, 1].max() == pytest.approx(body / 2) and beyond[:, 0].max() == pytest.approx(length)
    limits = {3.2: (5.8, 6.7, 1.3), 4: (6.9, 8.4, 1.7), 4.8: (8.3, 10.1, 2.0), 6.4: (11.6, 13.4, 2.7)}[body]
    assert limits[0] <= 2 * points[:, 1].max() <= limits[1]
    assert -points[:, 0].min() == pytest.approx(limits[2])


def test_upper_and_lower_half_mirror_each_other(drawing):
    """Each part is as wide below the centre line as above it."""
    show(drawing, pulled=0.7)
    for artist in (drawing.body, drawing.mandrel, drawing.sheets):
        y = millimetres(drawing, artist.get_path())[:, 1]
        assert y.max() == pytest.approx(-y.min())


def test_the_sheets_touch_and_leave_the_hole(drawing):
    """Two sheets fill the stack of 7 mm, the near one 0.4 of it, with a hole of 4.1 mm between their edges."""
    show(drawing)
    points = millimetres(drawing, drawing.sheets.get_path())
    assert points[:, 0].min() == pytest.approx(0) and points[:, 0].max() == pytest.approx(7)
    assert np.unique(np.round(points[:, 0], 6)) == pytest.approx([0, 7 * NEAR_SHEET, 7])
    assert 2 * np.abs(points[:, 1]).min() == pytest.approx(4.1)


def test_neighbouring_sheets_are_hatched_opposite_ways_and_the_pin_is_not_cut(drawing):
    """Near sheet rising, far sheet falling, body hatched, mandrel white (ISO 128-3)."""
    show(drawing)
    lines = drawing.sheet_hatch.get_xydata()
    start, end = lines[0::3], lines[1::3]
    long = np.hypot(*(end - start).T) > 2
    slope = ((end - start)[:, 1] / (end - start)[:, 0])[long]
    middle = ((start + end)[long, 0] / 2 - drawing.zero) / drawing.scale
    assert slope[middle < 2.8] == pytest.approx(1) and slope[middle > 2.8] == pytest.approx(-1)
    assert len(drawing.body_hatch.get_xdata()) > 60
    assert drawing.mandrel.get_facecolor()[:3] == (1, 1, 1)


def test_the_tail_dimension_is_the_drawn_width(drawing):
    """The tail of a 4 mm body ends 5.6 mm wide and stands behind the sheets; its dimension says so."""
    show(drawing)
    points = millimetres(drawing, drawing.body.get_path())
    tail = points[points[:, 0] > 7 - 1e-6]
    assert 2 * tail[:, 1].max() == pytest.approx(5.6, rel=1e-4)
    assert {"Ø 5.6", "grip 7"} <= set(drawing.dimensions.said)


def test_the_pin_breaks_in_two_at_its_notch(drawing):
    """Whole it is one outline, broken two; the nose of the tool goes back with the loose piece."""
    show(drawing)
    nose = drawing.nose.get_xdata()
    assert len(drawing.mandrel.get_path().to_polygons()) == 1 and "notch" in drawing.dimensions.said
    show(drawing, broken=True)
    stays, goes = drawing.mandrel.get_path().to_polygons()
    assert goes[:, 0].max() < stays[:, 0].min()
    assert np.nanmax(drawing.nose.get_xdata()) < np.nanmax(nose)
    assert "broken at the notch" in drawing.dimensions.said


def test_nothing_leaves_the_sheet_in_any_stage(drawing):
    """Body, sheets and mandrel head stay inside 900 x 400 px for every rivet of the panel, at both ends of its grip."""
    from workbench.panels.blind_rivet_setting import RIVETS

    for body, length in RIVETS.values():
        rivet = blind_rivet("ISO 15977", body, length)
        for stack in (rivet.least_grip_mm, rivet.largest_grip_mm):
            for pulled in (0, 0.5, 1):
                show(drawing, body, length, stack, pulled)
                for artist in (drawing.body, drawing.sheets):
                    points = np.concatenate(artist.get_path().to_polygons())
                    assert points[:, 0].min() > 100 and points[:, 0].max() < 890
                    assert points[:, 1].min() > 10 and points[:, 1].max() < 390
                assert np.concatenate(drawing.mandrel.get_path().to_polygons())[:, 0].max() < 890


def test_moves_make_no_figure_and_differ(drawing, monkeypatch):
    """Each pull and stack is drawn with the artists that are there, and each picture differs."""
    monkeypatch.setattr(Figure, "__init__", lambda *args, **options: pytest.fail("a new figure was made"))
    shots = set()
    for stack in (6.5, 7.5, 8.5):
        for step in range(11):
            show(drawing, stack=stack, pulled=step / 10)
            shots.add(drawing.png())
    assert len(shots) == 33


def test_the_word_picture_names_every_part_and_no_value():
    """Head, body, mandrel, its head, notch, nose and grip of a rivet that is pushed in; one alternative text."""
    assert "not yet pulled" in picture(4, 10, 5.5, sawn=False)[1]
    drawing, rivet = BlindRivetSetting(), blind_rivet("ISO 15977", 4, 10)
    drawing.show(rivet, 5.5, 4.1, set_rivet(rivet, 5.5, 4.1, 0.0), figures=False)
    assert set(drawing.dimensions.said) == {
        "head", "body", "mandrel, or pin", "mandrel head", "notch", "nose of the tool", "grip", "length",
        "room"}  # fmt: skip


def test_a_still_keeps_its_values_back():
    """For a question letters stand in place of values, and the words state no thickness."""
    png, text = picture(4, 12, 5.4)
    assert png.startswith(b"\x89PNG") and "5.4" not in text
    drawing = BlindRivetSetting()
    from workbench.rivets.setting import badly_set

    rivet = blind_rivet("ISO 15977", 4, 12)
    drawing.show(rivet, 5.4, 4.1, badly_set(rivet, 5.4, 4.1), figures=False)
    assert not [said for said in drawing.dimensions.said if any(sign.isdigit() for sign in said)]
    assert {"grip", "tail", "head", "notch length"} <= set(drawing.dimensions.said)
