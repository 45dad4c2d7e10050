"""The drawn feed: dial, thread and nut follow the geometry of the screw."""

import numpy as np
import pytest
from matplotlib.figure import Figure

from workbench.drawings.feed_dial import DIAL_RADIUS, NUT_RIGHT, NUT_WIDTH, FeedDial, picture


def pointer_mm(drawing):
    """Where the pointer's tip stands on the scale, counted from its zero, away from the handle."""
    tip = drawing.view.transData.inverted().transform(
        drawing.pointer.get_transform().transform(drawing.pointer.get_xy()))[2]
    return NUT_RIGHT - NUT_WIDTH / 2 - tip[0]


@pytest.mark.parametrize(
    ("pitch", "starts", "dial", "turned", "way"),
    # hand-worked: pitch x starts x turned / divisions
    [(2, 1, 100, 37, 0.74), (1.5, 2, 100, 320, 9.6), (3, 3, 80, 340, 38.25), (0.5, 1, 50, 50, 0.5)],
)
def test_nut_travels_by_the_lead(pitch, starts, dial, turned, way):
    """The nut goes by pitch x starts for each turn, on the drawn millimetre scale."""
    drawing = FeedDial(pitch, starts, dial)
    drawing.show(turned)
    assert pointer_mm(drawing) == pytest.approx(way)


@pytest.mark.parametrize("starts", [1, 2, 3])
def test_crests_stand_a_pitch_apart_and_climb_a_lead(starts):
    """Neighbouring crests are a pitch apart; half a turn of a crest climbs half a lead (left-hand thread)."""
    drawing = FeedDial(2.0, starts, 100)
    crests = [patch.get_path().vertices for patch in drawing.crests]
    first = crests[0][:25]
    assert first[-1, 0] - first[0, 0] == pytest.approx(2.0 * starts / 2)
    assert first[-1, 1] > first[0, 1]  # the near side climbs to the right: left-hand
    feet = np.sort(np.concatenate([c[~np.isnan(c[:, 0])][c[~np.isnan(c[:, 0])][:, 1] <= -6.999][:, 0] for c in crests]))
    assert np.diff(feet) == pytest.approx(2.0)


def test_dial_line_stands_at_the_index():
    """After 37 divisions, line 37 is at the index and higher numbers come from below."""
    drawing = FeedDial(2.0, 1, 100)
    marks = drawing.dial.path(0).vertices
    assert marks[:, 1].max() <= DIAL_RADIUS
    drawing.show(37)
    assert drawing.shown == 37
    y = drawing.lines.get_path().vertices
    bars = [(bar[:, 0].max(), (bar[0, 1] + bar[3, 1]) / 2) for bar in _bars(drawing.lines.get_path())]
    long = sorted(round(np.arcsin(mid / DIAL_RADIUS) / drawing.step) for reach, mid in bars if 5 < reach < 6)
    assert {-3, 2} <= set(long) and len(y)  # 40 three below the index, 35 two above


@pytest.mark.parametrize("dial", [20, 25, 40, 100, 200])
def test_more_numbers_than_nought_are_in_sight(dial):
    """Within 75° of the index, where figures can be read, at least three numbers stand, whatever the dial."""
    drawing = FeedDial(2.0, 1, dial)
    angles = np.array([at for at, x in zip(drawing.dial._at, drawing.dial._x, strict=True) if x.min() > 6])
    turned = (angles + np.pi) % (2 * np.pi) - np.pi
    assert (np.abs(turned) < np.radians(75)).sum() >= 3


def _bars(path):
    starts = np.flatnonzero(path.codes == 1)
    pieces = [path.vertices[a:b] for a, b in zip(starts, [*starts[1:], len(path)], strict=True)]
    return [piece for piece in pieces if len(piece) == 5 and piece[:, 0].min() == 0]


def test_moving_and_fitting_make_no_figure(monkeypatch):
    """Another screw or dial, and each turn, use the artists that are there, and each picture differs."""
    drawing = FeedDial()
    monkeypatch.setattr(Figure, "__init__", lambda *args, **options: pytest.fail("a new figure was made"))
    shots = set()
    for pitch in (1, 2, 3):
        drawing.fit(pitch, 1, 100)
        for turned in range(5):
            drawing.show(turned)
            shots.add(drawing.png())
    assert len(shots) == 15


def test_end_of_the_slide_is_refused():
    """The nut does not leave its slide."""
    with pytest.raises(ValueError, match="fewer turns"):
        picture(3000)
