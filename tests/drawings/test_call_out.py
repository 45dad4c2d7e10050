"""The drawn call-out: the simplified convention of ISO 6410-1, to scale, with the dimensions that the call-out has."""

import numpy as np
import pytest
from matplotlib.figure import Figure

from workbench.drawings.call_out import AXIS, END_VIEW, CallOut, picture
from workbench.threads.designation import parse


@pytest.fixture(scope="module")
def drawing():
    return CallOut()


def show(drawing, text, **more):
    drawing.show(parse(text), **more)
    return drawing


def runs(line):
    """The strokes of a line artist."""
    points = line.get_xydata()
    cuts = np.flatnonzero(np.isnan(points[:, 0]))
    return [piece[~np.isnan(piece[:, 0])] for piece in np.split(points, cuts) if (~np.isnan(piece[:, 0])).any()]


def roots(drawing):
    """The two narrow lines along the thread."""
    return [run for run in runs(drawing.narrow) if len(run) == 2 and run[0, 1] == run[1, 1]]


@pytest.mark.parametrize(
    ("text", "length", "thread", "diameter", "minor"),
    # minor = d3 of ISO 724 / ISO 965 (d - 1.226869 P), hand-worked: M10: 8.160; M12: 9.853; M10x1.25: 8.466
    [("M10x40 thread length 26", 40, 26, 10, 8.160), ("M12x80 thread length 30", 80, 30, 12, 9.853),
     ("M10x1.25x60 thread length 20", 60, 20, 10, 8.466)],
)
def test_lengths_and_diameters_are_to_one_scale(drawing, text, length, thread, diameter, minor):
    """Length from under the head, thread length, crest and root are in the proportion of their sizes."""
    show(drawing, text)
    high, low = roots(drawing)
    scale = (drawing.right - drawing.left) / length
    assert (high[1, 0] - high[0, 0]) / scale == pytest.approx(thread)
    assert (high[0, 1] - low[0, 1]) / scale == pytest.approx(minor, abs=0.001)
    limit = [run for run in runs(drawing.wide) if len(run) == 2 and np.allclose(run[:, 0], high[0, 0])]
    assert np.ptp(np.vstack(limit)[:, 1]) / scale == pytest.approx(diameter)  # wide, right across
    assert {f"{length:g}", f"{thread:g}"} <= set(drawing.dimensions.said)


def test_line_weights_are_two_to_one(drawing):
    """Crests are wide lines, roots narrow lines, 2 : 1 (ISO 128-2)."""
    assert drawing.wide.get_linewidth() == 2 * drawing.narrow.get_linewidth()


def test_the_head_has_a_straight_top_as_wide_as_its_flats(drawing):
    """Corners 2 d give flats of sqrt(3) d = 1.732 d; from there 30° to the corners; arcs touch the top (geometry)."""
    show(drawing, "M10x40")
    far, left, d = drawing.head
    head = next(run for run in runs(drawing.wide) if np.isclose(run, (left, AXIS + d)).all(axis=1).any()
                and np.isclose(run[:, 0], far).sum() >= 2)
    top = np.sort(head[np.isclose(head[:, 0], far), 1])
    assert (top[-1] - top[0]) / d == pytest.approx(1.7320508)
    corner = head[np.isclose(head[:, 1], AXIS + d) & (head[:, 0] < left - 1)][0]
    assert np.degrees(np.arctan2(corner[0] - far, corner[1] - top[-1])) == pytest.approx(30)
    arcs = [run for run in runs(drawing.wide) if len(run) == 9]
    assert len(arcs) == 3 and all(arc[:, 0].min() == pytest.approx(far) for arc in arcs)


@pytest.mark.parametrize(("text", "inside"), [("M10x40", False), ("M6-6H", True)])
def test_end_view_has_three_quarters_of_a_narrow_circle(drawing, text, inside):
    """The narrow circle covers about 3/4 and is open at the upper right; outside the wide one only in a nut."""
    show(drawing, text)
    arc = max(runs(drawing.narrow), key=len) - (END_VIEW, AXIS)
    angle = np.degrees(np.unwrap(np.arctan2(arc[:, 1], arc[:, 0])))
    assert 240 <= np.ptp(angle) <= 290
    missing = (angle[-1] + angle[0] + 360) / 2 % 360
    assert 20 < missing < 70
    radius = np.hypot(*arc[0])
    circles = [run - (END_VIEW, AXIS) for run in runs(drawing.wide) if len(run) == 73]
    smallest = min(np.hypot(*one[0]) for one in circles)
    assert (radius > smallest) == inside


def test_full_thread_reaches_the_head(drawing):
    """A full thread begins at most three pitches from the head and has no thread length of its own."""
    show(drawing, "M10x30 full thread")
    high = roots(drawing)[0]
    assert 0 < (high[0, 0] - drawing.left) / drawing.scale <= 3 * 1.5
    assert "full thread" in drawing.dimensions.said and "30" in drawing.dimensions.said


def test_length_from_a_standard_stands_in_brackets(drawing):
    """A thread length that the call-out leaves out is drawn in brackets, as an auxiliary dimension (ISO 129-1)."""
    show(drawing, "M10x40", thread_mm=26)
    assert "(26)" in drawing.dimensions.said and "26" not in drawing.dimensions.said
    show(drawing, "M10x20", thread_mm=26)
    assert not [text for text in drawing.dimensions.said if "26" in text]


def test_a_bar_without_length_is_broken_off(drawing):
    """Where no length is given, none is dimensioned, no head is drawn, and the left end is a wavy narrow line."""
    show(drawing, "Tr40x14(P7)LH-7e")
    assert drawing.dimensions.said == ["Tr40×14(P7)-7e-LH"] and not drawing.headed
    wave = [run for run in runs(drawing.narrow) if len(run) == 41][0]
    assert np.ptp(wave[:, 0]) > 3 and wave[:, 0].mean() == pytest.approx(drawing.left, abs=0.5)


def test_hatching_of_a_tapped_hole_ends_at_the_bore(drawing):
    """In section the hatching crosses the narrow line of the major diameter and ends at the bore (ISO 6410-1)."""
    show(drawing, "M6-6H")
    heights = np.abs(drawing.hatch.get_ydata() - AXIS)
    assert np.nanmin(heights) == pytest.approx(drawing.root, abs=0.5)
    assert drawing.root / drawing.crest == pytest.approx(4.917 / 6, abs=1e-3)  # D1 of M6 = 4.917 (ISO 724)


@pytest.mark.parametrize("text", ["M1x3", "M64x500", "M6x200", "1/4-20 UNC-2A", "1/2-10 Acme 2G", "S36x6",
                                  "Sq30x6", "MJ6x1x20", "M3x5 full thread", "M10x1.25 -6H/6g"])
def test_everything_stays_on_the_sheet(drawing, text):
    """Small, long and slender parts, and their dimensions, stay within 900 x 400 pixels."""
    show(drawing, text)
    for points in (drawing.dimensions.ink.get_path().vertices, drawing.dimensions.lines.get_xydata(),
                   drawing.wide.get_xydata(), drawing.centre.get_xydata()):
        x, y = points[~np.isnan(points[:, 0])].T
        assert x.min() > 2 and x.max() < 898 and y.min() > 2 and y.max() < 398
    ink = drawing.dimensions.ink.get_path().vertices
    assert ink[:, 0].max() < END_VIEW - 2 or drawing.nut or ink[:, 0].max() < END_VIEW


def test_another_call_out_makes_no_figure(drawing, monkeypatch):
    """Each call-out moves the artists that are there, and the pictures differ."""
    monkeypatch.setattr(Figure, "__init__", lambda *args, **options: pytest.fail("a new figure was made"))
    texts = ("M10x40", "M10x50", "M6-6H", "Tr20x4", "M10x40 full thread", "1/4-20 UNC-2A")
    assert len({show(drawing, text).png() for text in texts}) == len(texts)


def test_a_still_can_carry_letters_only():
    """With letters in place of values neither picture nor words give a size away."""
    png, text = picture("M12x1.25x70-6g", figures=False)
    assert png.startswith(b"\x89PNG") and not any(figure in text for figure in "0123456789")
    drawing = CallOut()
    drawing.show(parse("M12x1.25x70 thread length 30"), figures=False)
    assert sorted(drawing.dimensions.said) == ["b", "d", "l"]
