"""Three wires, read back from the drawing: tangent to the flanks, under the faces, the right reading."""

import numpy as np
import pytest
from matplotlib.figure import Figure
from matplotlib.path import Path

from workbench.drawings.three_wires import AXIS, LEVEL, MIDDLE, PITCH_PX, ThreeWires, picture


@pytest.fixture(scope="module")
def drawing():
    return ThreeWires()


def circles(path):
    """Centre and radius of each circle of a path."""
    starts = np.flatnonzero(path.codes == Path.MOVETO)
    parts = [path.vertices[a : b - 2] for a, b in zip(starts, [*starts[1:], len(path)], strict=True)]
    return [((part.max(axis=0) + part.min(axis=0)) / 2, np.ptp(part[:, 0]) / 2) for part in parts]


def distance(point, line):
    """Least distance of a point from a drawn line."""
    a, b = line[:-1], line[1:]
    along = b - a
    share = np.clip(((point - a) * along).sum(axis=1) / np.maximum((along**2).sum(axis=1), 1e-12), 0, 1)
    return np.hypot(*(a + share[:, None] * along - point).T).min()


CASES = [("metric", 10, 1.5, 0.866), ("metric", 10, 1.5, 1.2), ("trapezoidal", 20, 4, None), ("acme", 24, 5, 2.6),
         ("buttress 7/45", 20, 4, 2.6), ("unified", 6.35, 1.27, None), ("whitworth", 12.7, 2.1167, None)]


@pytest.mark.parametrize("case", CASES)
def test_each_wire_touches_the_drawn_flanks_and_cuts_nothing(drawing, case):
    """The distance from the centre of each wire to the drawn edge is its radius: tangent, to true geometry."""
    drawing.show(*case)
    *small, (centre, radius) = circles(drawing.wires.get_path())
    assert distance(centre, drawing.groove.get_xydata()) == pytest.approx(radius, abs=0.05)
    edges = drawing.edges.get_xydata()
    cut = np.flatnonzero(np.isnan(edges[:, 0]))[0]
    for centre, radius in small:
        line = edges[:cut] if centre[1] > AXIS else edges[cut + 1:]
        assert distance(centre, line) == pytest.approx(radius, abs=0.05)


@pytest.mark.parametrize("case", CASES)
def test_contacts_lie_on_both_flanks(drawing, case):
    """The two marked contacts lie on the wire and on the drawn edge, one on each side."""
    drawing.show(*case)
    centre, radius = circles(drawing.wires.get_path())[-1]
    contacts = [point for point, _ in circles(drawing.contacts.get_path())]
    for point in contacts:
        assert np.hypot(*(point - centre)) == pytest.approx(radius, rel=1e-3)
        assert distance(point, drawing.groove.get_xydata()) < 0.05
    assert contacts[0][0] < centre[0] < contacts[1][0]


# hand-worked with M = d2 + 3 W - 0.86603 P (workshop texts), d2 of ISO 724: M10: 9.026, M20x2.5: 18.376
@pytest.mark.parametrize(
    ("case", "reading"), [(("metric", 10, 1.5, 0.866), 10.325), (("metric", 20, 2.5, 1.65), 21.161)]
)
def test_faces_stand_the_reading_apart(drawing, case, reading):
    """The faces touch the wires from outside, and their distance is M to scale; the figure says the same."""
    drawing.show(*case)
    y = drawing.anvils.get_path().vertices[:, 1]
    upper, lower = y[y > AXIS].min(), y[y < AXIS].max()
    wires = circles(drawing.wires.get_path())[:3]
    assert upper == pytest.approx(max(c[1] + r for c, r in wires)) and lower == pytest.approx(
        min(c[1] - r for c, r in wires))
    diameter = np.ptp(drawing.edges.get_ydata()[~np.isnan(drawing.edges.get_ydata())]) / case[1]  # px to the mm
    assert (upper - lower) / diameter == pytest.approx(reading, abs=0.001)
    assert f"M = {reading:.3f}" in drawing.dimensions.said


@pytest.mark.parametrize(("starts", "apart"), [(1, 0.5), (2, 1.0), (3, 0.5)])
def test_one_wire_above_lies_midway_between_two_below(drawing, starts, apart):
    """The single wire stands over the middle of the two others, each in a groove of its own side."""
    drawing.show("trapezoidal", 24, 5, None, starts)
    (one, *two) = [centre[0] for centre, _ in circles(drawing.wires.get_path())[:3]]
    assert np.mean(two) == pytest.approx(one) and abs(one - two[0]) / drawing.scale == pytest.approx(apart * 5)


def test_best_wire_touches_at_the_pitch_line(drawing):
    """The best wire's contacts lie on the pitch line, half a pitch apart; a larger one touches above it."""
    drawing.show("metric", 10, 1.5)
    contacts = np.array([point for point, _ in circles(drawing.contacts.get_path())])
    assert contacts[:, 1] == pytest.approx(LEVEL, abs=0.01) and np.ptp(contacts[:, 0]) == pytest.approx(PITCH_PX / 2)
    assert "at the pitch line" in drawing.text()
    drawing.show("metric", 10, 1.5, 1.1)
    assert min(point[1] for point, _ in circles(drawing.contacts.get_path())) > LEVEL
    assert "above the pitch line" in drawing.text()


@pytest.mark.parametrize(("wire", "reason"), [(0.6, "below the crests"), (1.6, "touches no flank")])
def test_useless_wires_are_refused(drawing, wire, reason):
    """A wire below the crests, or too thick for the groove, is refused with the usable range."""
    with pytest.raises(ValueError, match=f"{reason}.*usable"):
        drawing.show("metric", 10, 1.5, wire)


def test_moves_make_no_figure_and_stills_keep_values_back(drawing, monkeypatch):
    """Another wire moves the artists that are there; a still has letters only."""
    assert "10.32" not in picture("metric", 10, 1.5)[1]
    monkeypatch.setattr(Figure, "__init__", lambda *args, **options: pytest.fail("a new figure was made"))
    shots = set()
    for wire in (0.8, 0.85, 0.9, 1.0):
        drawing.show("metric", 10, 1.5, wire)
        shots.add(drawing.png())
    assert len(shots) == 4
    drawing.show(figures=False)
    assert sorted(drawing.dimensions.said) == ["M", "d₂", "pitch line", "wire W", "½ P"]
    assert drawing.ends[0] < MIDDLE < drawing.ends[1]
