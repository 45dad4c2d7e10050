"""The drawn thread forms, read back from their artists as a toolmaker would measure them."""

import math
import re

import numpy as np
import pytest
from matplotlib.figure import Figure
from matplotlib.path import Path

from workbench.drawings.thread_forms import AXIS, LEFT, SAID, ThreadForms, picture

# flank angles (load, clearance), depth of engagement in P, width of the crest in P:
# ISO 68-1, ASME B1.5, ISO 2901, DIN 513, ASME B1.9; square: common practice, no source
PUBLISHED = {
    "metric": (30, 30, 0.541266, 0.125),
    "acme": (14.5, 14.5, 0.5, 0.3707),
    "trapezoidal": (15, 15, 0.5, 0.366025),
    "buttress 3/30": (3, 30, 0.75, 0.263841),
    "buttress 7/45": (7, 45, 0.6, 0.163165),
    "square": (0, 0, 0.5, 0.5),
}


@pytest.fixture(scope="module")
def drawing():
    return ThreadForms()


def edge(drawing, of):
    return (drawing.edges[of].get_xydata() - (LEFT, AXIS)) / drawing.scale


@pytest.mark.parametrize("form", PUBLISHED)
@pytest.mark.parametrize(("major", "pitch"), [(20, 4), (10, 2), (60, 9)])
def test_flanks_pitch_depth_and_crest_are_those_of_the_standard(drawing, form, major, pitch):
    """Flank angles, pitch, engaged depth and crest flat, measured on the picture, are the published ones."""
    drawing.show(form, major, pitch)
    load, clearance, depth, flat = PUBLISHED[form]
    screw, nut = edge(drawing, "screw"), edge(drawing, "nut")
    assert screw[:, 1].max() == pytest.approx(major / 2)
    crests = screw[np.isclose(screw[:, 1], major / 2)][:, 0]
    starts = crests[0::2]
    assert np.diff(starts) == pytest.approx(pitch)
    assert crests[1::2] - starts == pytest.approx(flat * pitch, rel=1e-4)
    assert screw[:, 1].max() - nut[:, 1].min() == pytest.approx(depth * pitch, rel=1e-5)
    step = np.diff(screw, axis=0)
    high = np.abs(step[:, 1]) > 0.4 * depth * pitch  # the straight flanks
    angle = np.degrees(np.arctan2(step[high, 0], np.abs(step[high, 1])))
    rising = step[high, 1] > 0
    assert angle[rising] == pytest.approx(load, abs=1e-6) and angle[~rising] == pytest.approx(clearance, abs=1e-6)
    assert rising.sum() >= 4 and (~rising).sum() >= 4


@pytest.mark.parametrize("form", SAID)
def test_nut_never_cuts_into_the_screw(drawing, form):
    """Along the engaged length the nut's edge lies nowhere below the screw's, and on the flanks both meet."""
    drawing.show(form, 20, 4)
    screw, nut = edge(drawing, "screw"), edge(drawing, "nut")[:-3]  # without the outer wall
    if form == "square":  # upright flanks: compare between them
        x = np.array([-1.5, 1.5, 2.5, 5.5]) + 4
        gap = np.array([nut[np.abs(nut[:, 0] - one).argsort()[:2], 1].max() for one in x])
        assert (gap >= 8 - 1e-9).all()
        return
    x = np.linspace(2.001, 13.999, 2000)
    gap = np.interp(x, nut[:, 0], nut[:, 1]) - np.interp(x, screw[:, 0], screw[:, 1])
    assert gap.min() > -1e-6
    assert (gap < 1e-6).mean() > 0.15


@pytest.mark.parametrize(("away", "lean"), [(True, 3), (False, 30)])
def test_loaded_flank_is_drawn_heavy(drawing, away, lean):
    """Pushed away from the head the nut bears on the flanks that face the head, and the other way round."""
    drawing.show("buttress 3/30", 20, 4, away=away)
    heavy = drawing.contact.get_xydata()
    low, high = heavy[0], heavy[1]
    angle = np.degrees(np.arctan2(high[0] - low[0], high[1] - low[1]))
    assert angle == pytest.approx(lean if away else -lean)  # the load flank leans away from the head
    assert (high[1] - low[1]) / drawing.scale == pytest.approx(0.75 * 4)  # over the whole depth of engagement
    assert drawing.contact.get_linewidth() > 2 * drawing.edges["screw"].get_linewidth()
    arrow = drawing.load_arrow.get_path().vertices
    nut = drawing.edges["nut"].get_xydata()
    assert arrow[0, 0] == pytest.approx(nut[:, 0].min() if away else nut[:, 0].max())  # its point on the nut's face
    assert (arrow[:, 0].mean() < arrow[0, 0]) == away


def test_screw_and_nut_are_hatched_opposite_ways(drawing):
    """Lines of the screw rise, those of the nut fall, and each stays within its own face."""
    drawing.show("trapezoidal", 24, 5)
    for of, way in (("screw", 1), ("nut", -1)):
        points = drawing.hatches[of].get_xydata()
        start, end = points[0::3], points[1::3]
        assert len(start) > 20
        assert (end - start)[:, 1] == pytest.approx(way * (end - start)[:, 0])
        face = drawing.faces[of].get_path()
        middle = (start + end) / 2
        long = np.hypot(*(end - start).T) > 1
        inside = face.contains_points(middle[long], radius=0.5) | face.contains_points(middle[long], radius=-0.5)
        assert inside.all()


# hand-worked: tan = pitch x starts / (pi d2); Tr20x4: d2 = 18 (ISO 2904); metric 36 x 6: d2 = 32.103 (ISO 724)
@pytest.mark.parametrize(
    ("form", "major", "pitch", "starts", "degrees"),
    [("trapezoidal", 20, 4, 1, 4.046), ("trapezoidal", 20, 4, 4, 15.798), ("metric", 36, 6, 2, 6.785)],
)
def test_unrolled_turn_has_the_lead_angle(drawing, form, major, pitch, starts, degrees):
    """The triangle of one turn climbs at the lead angle; the lead spans as many ridges as there are starts."""
    drawing.show(form, major, pitch, starts)
    (x0, y0), _, (x2, y2), _ = drawing.helix.get_xydata()
    assert np.degrees(np.arctan2(y2 - y0, x2 - x0)) == pytest.approx(degrees, abs=0.005)
    said = drawing.dimensions.said
    assert f"lead = {pitch * starts:g}" in said
    assert said.count("1") == len(range(0, 6, starts))  # ridges that belong to the first start


@pytest.mark.parametrize(("form", "major", "pitch"), [
    ("metric", 20, 2), ("metric", 60, 4), ("acme", 48, 8), ("trapezoidal", 60, 9), ("square", 40, 3),
    ("buttress 3/30", 60, 3), ("metric", 8, 1.25), ("trapezoidal", 20, 4)])
@pytest.mark.parametrize("figures", [True, False])
def test_nothing_runs_through_the_name_of_the_pitch_line(drawing, form, major, pitch, figures):
    """However thin the thread is drawn, the words "pitch line" stand clear of all lines, arrows and other words."""
    drawing.show(form, major, pitch, figures=figures)
    marks = drawing.dimensions
    lettered = [points for points, codes in marks._filled if len(codes) > 4]  # an arrow head has four corners
    name = lettered[marks.said.index("pitch line")]
    (left, low), (right, high) = name.min(axis=0), name.max(axis=0)
    for lines in (marks.lines, drawing.pitch_line):
        ends = lines.get_xydata()
        steps = np.linspace(0, 1, 400)[:, None, None]
        points = (ends[:-1] + steps * np.diff(ends, axis=0)).reshape(-1, 2)
        inside = (points[:, 0] > left) & (points[:, 0] < right) & (points[:, 1] > low) & (points[:, 1] < high)
        assert not inside.any()
    for other, _ in marks._filled:
        apart = other[:, 0].max() < left or other[:, 0].min() > right or other[:, 1].max() < low or (
            other[:, 1].min() > high)
        assert other is name or apart


def test_outward_push_is_the_tangent_of_the_loaded_flank(drawing):
    """The upright arrow is tan(flank) of the level one: 30° gives 0.577, 3° gives 0.052, square none (wedge)."""
    for form, away, share in (("metric", True, 0.57735), ("buttress 3/30", True, 0.05241),
                              ("buttress 3/30", False, 0.57735), ("square", True, 0)):
        drawing.show(form, away=away)
        base, corner, tip = drawing.forces.get_xydata()
        assert (tip[1] - corner[1]) / (corner[0] - base[0]) == pytest.approx(share, abs=1e-5)


def test_small_sections_show_all_forms_at_one_pitch(drawing):
    """Each form has its own small section with ridges one pitch apart; the frame marks the large one."""
    for form, (x, y) in drawing.cells.items():
        drawing.show(form)
        assert drawing.frame.get_x() == pytest.approx(x - 2) and drawing.frame.get_y() == pytest.approx(y)
    path = drawing.small["screw"].get_path()
    starts = np.flatnonzero(path.codes == Path.MOVETO)
    assert len(starts) == len(SAID)
    tops = [part[np.isclose(part[:, 1], part[:, 1].max())][:, 0] for part in np.split(path.vertices, starts[1:])]
    for one in tops:
        assert np.diff(one[0::2][:3]) == pytest.approx(36)


@pytest.mark.parametrize(("major", "pitch"), [(8, 1.25), (12, 1.75), (20, 2.5), (6, 1), (42, 4.5)])
def test_every_coarse_metric_thread_is_drawn(drawing, major, pitch):
    """A metric pitch that no trapezoidal thread has (1.25, 1.75, 2.5 mm) is drawn as well (ISO 261)."""
    drawing.show("metric", major, pitch)
    screw = edge(drawing, "screw")
    crests = screw[np.isclose(screw[:, 1], major / 2)][:, 0]
    assert np.diff(crests[0::2]) == pytest.approx(pitch)


def test_moves_make_no_figure_and_differ(drawing, monkeypatch):
    """Every form, load and number of starts is drawn with the artists that are there, and each picture differs."""
    monkeypatch.setattr(Figure, "__init__", lambda *args, **options: pytest.fail("a new figure was made"))
    shots = set()
    for form in SAID:
        for starts in (1, 2, 3, 4):
            for away in (True, False):
                drawing.show(form, starts=starts, away=away)
                shots.add(drawing.png())
    assert len(shots) == 48


def test_a_still_keeps_its_values_back():
    """For a question letters stand in place of values, and neither picture nor words state lead, depth or angle."""
    drawing = ThreadForms()
    drawing.show("trapezoidal", 24, 5, 3, figures=False)
    assert not [text for text in drawing.dimensions.said if re.search(r"\d\.|=|°", text)]
    text = picture("trapezoidal", 24, 5, 3)[1]
    assert "15 mm" not in text and "2.5" not in text and "12.5" not in text
    assert "load" not in text and set(drawing.dimensions.said) <= {"H₁", "h₃", "pitch line"}
    assert not drawing.load_arrow.get_path().vertices.any() and np.isnan(drawing.contact.get_xydata()).all()


@pytest.mark.parametrize("form, angles", [("buttress 3/30", {"3°", "30°"}), ("buttress 7/45", {"7°", "45°"})])
def test_a_loaded_still_shows_load_and_flanks_and_no_sizes(form, angles):
    """A buttress the wrong way round: F, both flank angles of the name, heavy lines on the flank that leans more."""
    drawing = ThreadForms()
    drawing.show(form, 36, 6, away=False, figures=False, loaded=True)
    assert set(drawing.dimensions.said) == {"F", *angles} and not drawing.pitch_line.get_visible()
    heavy = drawing.contact.get_xydata()[:2]
    lean = math.degrees(math.atan(abs(np.diff(heavy[:, 0])[0] / np.diff(heavy[:, 1])[0])))
    assert lean == pytest.approx(max(float(said[:-1]) for said in angles))
    drawing.show(form, 36, 6)
    assert drawing.pitch_line.get_visible()


def test_the_hatching_of_the_screw_ends_in_a_freehand_line():
    """The lower edge of the hatched part is a narrow wavy line from end to end (ISO 128-3, from memory)."""
    drawing = ThreadForms()
    screw, lines = drawing.edges["screw"].get_xydata(), drawing.breaks.get_xydata()
    last = lines[np.flatnonzero(np.isnan(lines[:, 0]))[-1] + 1:]
    assert last[[0, -1], 0] == pytest.approx(screw[[0, -1], 0])
    assert 0 < np.ptp(last[:, 1]) < 4 and last[:, 1].max() < screw[:, 1].min()
    assert drawing.breaks.get_linewidth() < drawing.edges["screw"].get_linewidth()
