"""The drawn measuring screw, read back from its artists as a toolmaker would read it."""

import struct
from dataclasses import replace
from io import BytesIO

import numpy as np
import pytest
from matplotlib.figure import Figure
from matplotlib.image import imread
from matplotlib.path import Path
from matplotlib.textpath import TextPath

from workbench.drawings.measuring_screw import EDGE, LINE_WIDTH, RADIUS, MeasuringScrew, picture
from workbench.screws.measuring import INCH, INCH_VERNIER, METRIC, METRIC_VERNIER, Scales, instrument, scales_of

LARGE = instrument("metric 25-50")
NUMBERS = {number: TextPath((0, 0), str(number), size=1).vertices[:, 0] for number in range(0, 100, 5)}


@pytest.fixture(scope="module")
def drawn():
    """One drawing for each instrument, moved from test to test."""
    drawings = {}

    def of(ins, gap, **more):
        if ins not in drawings:
            drawings[ins] = MeasuringScrew(ins)
        drawings[ins].show(gap, **more)
        return drawings[ins]

    return of


def thimble_edge(drawing):
    """Where the edge of the thimble stands on the sleeve, in mm from its zero line."""
    return drawing.near_body.get_path().vertices[:, 0].min()


def pieces(path):
    """The separate outlines of a drawn path."""
    starts = np.flatnonzero(path.codes == Path.MOVETO)
    return [path.vertices[first:last] for first, last in zip(starts, [*starts[1:], len(path)], strict=True)]


def angle_of(bar):
    """Where a line lies around the part, from the heights of its two sides at the thimble's edge."""
    return np.arcsin(np.clip(bar[[0, 3], 1] / RADIUS, -1, 1)).mean()


def thimble_marks(drawing):
    """The lines in view: (length from the edge, angle at the edge), as drawn."""
    bars = pieces(drawing.far_lines.get_path())
    return [(np.ptp(bar[:, 0]), angle_of(bar)) for bar in bars]


def thimble_numbers(drawing):
    """{number as engraved beside a line: angle of that line}, the number told from the shape of its figures."""
    edge, found, angle, shapes = thimble_edge(drawing), {}, None, []
    for piece in [*pieces(drawing.near_lines.get_path()), None]:
        if piece is None or len(piece) == 5 and abs(piece[:, 0].min() - edge) < 1e-9:
            if shapes:
                widths = np.concatenate(shapes)[:, 0]
                found[_number_of(widths - widths.mean())] = angle
            shapes = []
            if piece is not None:
                angle = angle_of(piece)
        else:
            shapes.append(piece)
    return found


def _number_of(widths):
    """The number whose figures, set by matplotlib, have these widths."""
    for number, x in NUMBERS.items():
        x = x - x.mean()
        if len(x) == len(widths) and np.allclose(x / np.ptp(x), widths / np.ptp(widths), atol=1e-6):
            return number
    raise AssertionError("figures that are no number of the thimble")


def read_back(drawing):
    """Scales from the drawn artists alone: the sleeve lines left of the edge, the numbers around the datum."""
    ins, edge = drawing.instrument, thimble_edge(drawing)
    bars = [bar[:, 0] for bar in pieces(drawing.sleeve_lines.path())]
    places = [(x.min() + x.max()) / 2 for x in bars if np.ptp(x) < 1]  # lines across, not along the axis
    passed = sum(place <= edge + 1e-6 for place in places) - 1
    step = 2 * np.pi / ins.divisions
    number, angle = min(thimble_numbers(drawing).items(), key=lambda pair: abs(pair[1] - drawing.datum))
    at_datum = (number - (angle - drawing.datum) / step) * max(ins.vernier, 1)  # numbers rise upwards
    assert at_datum == pytest.approx(round(at_datum), abs=1e-4)
    thimble, vernier = divmod(round(at_datum) % ins.steps_per_turn, max(ins.vernier, 1))
    if passed < 0:
        return Scales(0, 0, thimble, vernier, below_zero=True)
    return Scales(passed // ins.lines_per_main, passed % ins.lines_per_main, thimble, vernier)


@pytest.mark.parametrize("ins", [METRIC, METRIC_VERNIER, INCH, INCH_VERNIER, LARGE], ids=lambda ins: ins.name)
def test_fifty_settings_read_back(drawn, ins):
    """At random settings the drawn lines, counted, give what the screw shows."""
    steps = np.random.default_rng(7).integers(ins.steps_of(ins.start), ins.steps_of(ins.end), 50)
    for gap in [ins.length_of(int(n)) for n in steps]:
        assert read_back(drawn(ins, gap)) == scales_of(gap, ins), gap


@pytest.mark.parametrize(
    ("ins", "gap", "expected"),
    [  # US Navy training manual NAVEDTRA 14001: 0.7 in exposed, 12 on the thimble
        (INCH, 0.712, Scales(7, 0, 12)),
        # common practice (seen in a reprint): 5.5 + 0.28 + 0.003 mm
        (METRIC_VERNIER, 5.783, Scales(5, 1, 28, 3)),
        # hand-worked: 7 + 0.5 + 0.38, and 7 + 0.47 where the half line only peeps out
        (METRIC, 7.88, Scales(7, 1, 38)),
        (METRIC, 7.47, Scales(7, 0, 47)),
        (METRIC, 25.0, Scales(25, 0, 0)),
    ],
)
def test_published_settings_are_drawn(drawn, ins, gap, expected):
    """Worked readings from manuals appear on the drawn scales."""
    assert read_back(drawn(ins, gap)) == expected


@pytest.mark.parametrize("gap", [0.0, 3.21, 12.5, 24.99])
def test_edge_and_faces_are_to_scale(drawn, gap):
    """The faces stand the gap apart and the thimble's edge that far from the zero line, in one scale."""
    drawing = drawn(METRIC, gap)
    assert drawing.spindle.get_path().vertices[:, 0].min() - drawing.anvil_mm == pytest.approx(gap)
    assert thimble_edge(drawing) == pytest.approx(gap)
    for view, scale in ((drawing.general, 5), (drawing.detail, 20)):
        (x0, y0), (x1, y1) = view.transData.transform([(0, 0), (1, 1)])
        assert (x1 - x0, y1 - y0) == pytest.approx((scale, scale))


def test_inch_instrument_is_drawn_in_true_millimetres(drawn):
    """0.364 in is 9.2456 mm between the faces (25.4 mm to the inch, exact by definition)."""
    drawing = drawn(INCH, 0.364)
    assert drawing.spindle.get_path().vertices[:, 0].min() - drawing.anvil_mm == pytest.approx(9.2456)


def test_vernier_meets_where_it_should(drawn):
    """At 12.817 mm only vernier line 7 meets a thimble line (10 vernier = 9 thimble divisions, NAVEDTRA 14001)."""
    drawing = drawn(METRIC_VERNIER, 12.817)
    along = [bar for bar in pieces(drawing.sleeve.path()) if np.ptp(bar[:, 0]) > 20]  # datum and vernier lines
    vernier = sorted(angle_of(bar) for bar in along)
    assert len(vernier) == 11 and vernier[10] - vernier[0] == pytest.approx(9 * 2 * np.pi / 50)
    thimble = np.array([angle for _, angle in thimble_marks(drawing)])
    apart = [np.abs(thimble - angle).min() / (2 * np.pi / 50) for angle in vernier]
    assert int(np.argmin(apart)) == 7
    assert apart[7] < 1e-6 and sorted(apart)[1] > 0.09


def test_faces_follow_the_gap_and_edge_the_reading():
    """With a zero error of +0.03 mm the faces stand 7.50 mm apart and the scales show 7.53 mm."""
    drawing = MeasuringScrew(replace(METRIC, zero_error=0.03))
    drawing.show(7.50)
    assert drawing.spindle.get_path().vertices[:, 0].min() - drawing.anvil_mm == pytest.approx(7.50)
    assert thimble_edge(drawing) == pytest.approx(7.53)


def test_large_frame_starts_at_25(drawn):
    """A 25 to 50 mm screw at 32.14 mm has its faces 32.14 mm apart, its edge at 7.14 mm on the sleeve."""
    drawing = drawn(LARGE, 32.14)
    assert drawing.spindle.get_path().vertices[:, 0].min() - drawing.anvil_mm == pytest.approx(32.14)
    assert thimble_edge(drawing) == pytest.approx(7.14)


def test_numbers_rise_past_the_datum_as_the_gap_opens(drawn):
    """Opening brings higher thimble numbers down to the datum: each line sinks by one division."""
    step = 2 * np.pi / 50
    at_20 = {number: round(angle / step) for number, angle in thimble_numbers(drawn(METRIC, 7.20)).items()}
    at_21 = {number: round(angle / step) for number, angle in thimble_numbers(drawn(METRIC, 7.21)).items()}
    assert (at_20[20], at_20[25], at_20[15]) == (0, 5, -5)
    assert (at_21[20], at_21[25], at_21[15]) == (-1, 4, -6)


def test_sleeve_lines_are_whole_above_and_half_below(drawn):
    """Whole millimetres stand above the datum, half ones below, each fifth one longer."""
    bars = pieces(drawn(METRIC, 0).sleeve_lines.path())
    across = {round((bar[:, 0].min() + bar[:, 0].max()) / 2, 3): bar[:, 1] for bar in bars if np.ptp(bar[:, 0]) < 1}
    assert len(across) == 51  # 0 to 25 mm by halves
    assert all((y.max() > 1) == (x % 1 == 0) and (y.min() < -1) == (x % 1 != 0) for x, y in across.items())
    assert min(across[x].max() for x in range(0, 26, 5)) > max(across[x].max() for x in range(26) if x % 5)


def pixels(drawing):
    return np.round(255 * imread(BytesIO(drawing.png()), format="png")).astype(int)


def row_of_half_lines(drawing, gap):
    """Grey values along the sleeve, 1 mm below the datum, with the pixel column of a place x."""
    image = pixels(drawing)
    transform = drawing.detail.transData
    row = image.shape[0] - int(round(transform.transform((0, -1.0))[1]))
    return image[row], lambda x: transform.transform((x, 0))[0]


@pytest.mark.parametrize(
    ("gap", "peeps"),
    [(7.38, False), (7.40, False), (7.47, True), (7.49, True), (7.50, True)],
)
def test_next_line_peeps_only_just_before_zero(drawn, gap, peeps):
    """Half a line's width (0.08 mm) before it is due, the 7.5 line comes out of the edge; not earlier."""
    row, column = row_of_half_lines(drawn(METRIC, gap), gap)
    edge = int(np.floor(column(gap)))
    before = row[edge - 2:edge]  # the last two pixels of the sleeve
    assert (before.min() < 200) == peeps
    assert (7.5 - LINE_WIDTH / 2 < gap) == peeps  # as the geometry of the line says


def test_lines_under_the_thimble_are_hidden(drawn):
    """Right of the edge no sleeve line shows; left of it each is there."""
    row, column = row_of_half_lines(drawn(METRIC, 7.88), 7.88)
    dark = [x for x in np.arange(0.5, 25, 1) if row[int(round(column(x)))] < 80]
    assert dark == [0.5, 1.5, 2.5, 3.5, 4.5, 5.5, 6.5, 7.5]


def test_edge_line_lies_on_the_thimble(drawn):
    """The drawn edge covers nothing of the sleeve: it begins where the thimble begins."""
    x = drawn(METRIC, 7.88).near_edge.get_path().vertices[:, 0]
    assert (x.min(), x.max()) == pytest.approx((7.88, 7.88 + EDGE))


def test_every_setting_gives_its_own_picture(drawn):
    """Of 100 neighbouring settings no two pictures are alike."""
    shots = {drawn(METRIC, METRIC.length_of(700 + n)).png() for n in range(100)}
    assert len(shots) == 100


def test_moving_makes_no_figure(drawn, monkeypatch):
    """A move uses the artists that are there."""
    drawing = drawn(METRIC, 1.0, work=1.0)
    count = len(drawing.general.get_children()) + len(drawing.detail.get_children())
    monkeypatch.setattr(Figure, "__init__", lambda *args, **options: pytest.fail("a new figure was made"))
    for gap in (2.0, 3.3, 24.1):
        drawing.show(gap, work=1.0)
        drawing.png()
    assert len(drawing.general.get_children()) + len(drawing.detail.get_children()) == count


def test_going_back_gives_the_same_picture(drawn):
    """A picture depends on the setting alone, whatever was shown before, work piece included."""
    first = drawn(METRIC, 12.0).png()
    drawn(METRIC, 12.0, work=12.0).png()
    drawn(METRIC, 3.0, work=3.0).png()
    assert drawn(METRIC, 12.0).png() == first


def test_work_is_drawn_between_the_faces(drawn):
    """A work piece of the gap's size fills the gap: grey-white-black of hatching where white paper was."""
    empty, full = pixels(drawn(METRIC, 12.0)), pixels(drawn(METRIC, 12.0, work=12.0))
    changed = np.argwhere(empty != full)[:, 1]
    drawing = drawn(METRIC, 12.0)
    left, right = (drawing.general.transData.transform((drawing.anvil_mm + x, 0))[0] for x in (0, 12.0))
    assert changed.min() == pytest.approx(left, abs=2.5) and changed.max() == pytest.approx(right, abs=2.5)


@pytest.mark.parametrize("gap", [3.45, 11.9, 12.1, 17.9, 18.5, 24.99])
def test_word_at_the_gap_is_clear_of_the_part(drawn, gap):
    """The word “gap” stands outside the extension lines and below faces and part, at all sizes."""
    drawing = drawn(METRIC, gap, work=gap)
    word = np.concatenate(pieces(drawing.arrows.get_path())[2:])  # after the two arrow heads
    face = drawing.anvil_mm + gap
    assert word[:, 0].max() < drawing.anvil_mm - 0.3 or word[:, 0].min() > face + 0.3
    assert word[:, 1].max() < -9 and word[:, 0].max() < -15.5  # lowest point of a part of 18 mm; hub


def test_ring_is_cut_into_two_hatched_walls(drawn):
    """A ring has hatching at both faces and none in its bore; its outer size is the gap."""
    drawing = drawn(METRIC, 12.0, work=12.0, ring=True)
    lines = [artist for artist in drawing.general.get_children() if artist.get_gid() == "work"]
    hatch = np.concatenate([artist.get_xdata() for artist in lines if hasattr(artist, "get_xdata")])
    hatch = hatch[~np.isnan(hatch)] - drawing.anvil_mm
    assert hatch.min() >= 0 and hatch.max() <= 12 + 1e-6
    assert (hatch < 3.01).any() and (hatch > 8.99).any() and not ((hatch > 3.01) & (hatch < 8.99)).any()
    assert "A ring lies between the faces." in drawing.text()
    assert drawing.png() != drawn(METRIC, 12.0, work=12.0).png()


def test_closed_faces_show_the_zero_error():
    """Closed and two divisions short of zero, the thimble shows line 48 and the zero line is half covered."""
    png, words = picture(0.0, replace(METRIC, zero_error=-0.02))
    assert "short of the sleeve's zero line" in words and "datum: 48" in words
    assert png != picture(0.0)[0]


@pytest.mark.parametrize(
    ("gap", "ins", "said"),
    [
        (7.88, METRIC, "Last whole line in view: 7. Half line: in view. Thimble line at the datum: 38."),
        (7.38, METRIC, "Last whole line in view: 7. Half line: not in view. Thimble line at the datum: 38."),
        (7.47, METRIC, "Last whole line in view: 7. Half line: only its edge shows. Thimble line at the datum: 47."),
        (7.97, METRIC, "Last whole line in view: 7. Half line: in view. The edge of the next line shows."),
        (0.364, INCH, "Last main line in view: 3. Lines in view beyond it: 2. Thimble line at the datum: 14."),
        (12.817, METRIC_VERNIER, "below the datum: 31. Vernier line that meets a thimble line: 7."),
    ],
)
def test_text_equivalent_tells_the_scales_not_the_reading(gap, ins, said):
    """The alternative text gives what is seen; the reading is left to the reader."""
    words = picture(gap, ins)[1]
    assert said in words and str(gap) not in words


def test_detail_is_the_lower_part():
    """`detail` gives the enlarged scales alone, at the same size."""
    width, height = struct.unpack(">II", picture(7.88, detail=True)[0][16:24])
    assert (width, height) == (900, 274)


@pytest.mark.parametrize("name", ["metric depth 0-25", "inch depth 0-1"])
def test_other_types_are_refused(name):
    """A depth type is not drawn wrongly but refused with the likely cause."""
    with pytest.raises(ValueError, match="outside"):
        MeasuringScrew(instrument(name))


def test_gap_out_of_range_is_refused(drawn):
    """A gap that the screw does not open to is refused by value and range."""
    with pytest.raises(ValueError, match="26"):
        drawn(METRIC, 26.0)
