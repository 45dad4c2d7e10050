"""Measuring screws: the exact split of a gap into lines, zero error, travel."""

import itertools
from dataclasses import replace
from decimal import Decimal

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from workbench.screws.measuring import (
    INCH,
    INCH_VERNIER,
    METRIC,
    METRIC_VERNIER,
    Instrument,
    Scales,
    division_value,
    gap_of,
    instrument,
    line_in_view,
    pitch_of_tpi_mm,
    reading_of,
    scales_of,
    size_of,
    travel,
    turns_for,
    zero_error_of,
)
from workbench.tables import table

ALL = [instrument(name) for name in table("measuring_screws").rows]
COARSE = instrument("metric 0-25 one millimetre pitch")
DEPTH = instrument("metric depth 0-25")


@st.composite
def instruments(draw):
    """Any pitch in hundredths of a millimetre, any division count, any vernier, any range."""
    pitch = draw(st.integers(1, 300)) / 100
    lines = draw(st.integers(1, 8))
    start = draw(st.integers(0, 10)) * pitch
    vernier = draw(st.sampled_from([0, 2, 5, 10]))
    divisions = draw(st.sampled_from([1, 2, 4, 5, 10, 25, 50, 100]))
    made = Instrument("drawn", "mm", pitch, divisions, vernier, lines * pitch, start, start + 20 * pitch)
    zero = draw(st.integers(1 - made.steps_per_turn, made.steps_per_turn - 1))
    return replace(made, zero_error=zero * made.resolution)


@given(instruments(), st.data())
def test_any_instrument_and_gap_are_exact_inverses(which, data):
    """Whatever the pitch, divisions, vernier, range and zero error, the gap behind the lines is the gap set."""
    step = data.draw(st.integers(which.steps_of(which.start), which.steps_of(which.end)))
    scales = scales_of(which.length_of(step), which)
    assert which.steps_of(gap_of(scales, which)) == step
    assert 0 <= scales.thimble_line < which.divisions
    assert 0 <= scales.sub_lines < which.lines_per_main


@given(st.floats(0, 25))
def test_a_gap_between_lines_shows_the_nearest(gap):
    """Off the grid, the reading is never further than half a division from the gap."""
    assert abs(reading_of(scales_of(gap)) - gap) <= METRIC.resolution / 2 + 1e-9


@pytest.mark.parametrize(("gap", "lines"), [
    (0, (0, 0, 0)), (0.49, (0, 0, 49)), (0.5, (0, 1, 0)), (0.99, (0, 1, 49)), (1, (1, 0, 0)),
    (7.38, (7, 0, 38)), (7.88, (7, 1, 38)), (7.47, (7, 0, 47)), (25, (25, 0, 0)),
    (7.884, (7, 1, 38)), (7.885, (7, 1, 39)), (7.996, (8, 0, 0)), (0.1 + 0.2, (0, 0, 30)),
    (7.885 - 1e-10, (7, 1, 39)), (7.885 - 1e-8, (7, 1, 38)),  # a billionth is dust, ten of them are not
])
def test_the_half_line_shows_from_half_a_millimetre_on(gap, lines):
    """The half line is out from x.50 to x.99 and not a hundredth earlier; half a step goes up."""
    assert scales_of(gap) == Scales(*lines)


@pytest.mark.parametrize(("gap", "lines"), [
    (0.025, (0, 1, 0)), (0.099, (0, 3, 24)), (0.1, (1, 0, 0)), (0.364, (3, 2, 14)), (1, (10, 0, 0)),
])
def test_inch_sleeve_shows_tenths_and_quarter_tenths(gap, lines):
    """Four lines of 0.025 inch make a numbered tenth."""
    assert scales_of(gap, INCH) == Scales(*lines)


def test_vernier_lines():
    """The last figure comes from the vernier line; the thimble line is the one already passed."""
    assert scales_of(12.817, METRIC_VERNIER) == Scales(12, 1, 31, 7)
    assert scales_of(12.819, METRIC_VERNIER) == Scales(12, 1, 31, 9)
    assert scales_of(0.2862, INCH_VERNIER) == Scales(2, 3, 11, 2)


def test_a_pitch_of_one_millimetre_has_no_half_line():
    """With 1 mm pitch and 100 divisions there is one line a turn and no line between."""
    assert scales_of(7.88, COARSE) == Scales(7, 0, 88)
    assert (COARSE.lines_per_main, COARSE.resolution) == (1, 0.01)


def test_start_of_the_range_is_added():
    """A 25 to 50 mm instrument shows from its own zero; the reading holds the 25."""
    large = instrument("metric 25-50")
    assert scales_of(32.14, large) == Scales(7, 0, 14)
    assert reading_of(Scales(7, 0, 14), large) == 32.14


def test_depth_counts_covered_lines():
    """On a depth instrument the line in view is one beyond the last counted; on an outside one it is counted."""
    assert line_in_view(Scales(11, 0, 22), DEPTH) == 11.5
    assert line_in_view(Scales(11, 1, 22), DEPTH) == 12
    assert line_in_view(Scales(11, 1, 22), METRIC) == 11.5
    with pytest.raises(ValueError, match="thimble_line"):
        line_in_view(Scales(11, 1, 50), METRIC)


def test_closed_faces_with_a_negative_zero_error_stand_below_zero():
    """Two divisions short of zero show line 48 and no sleeve line."""
    off = replace(METRIC, zero_error=-0.02)
    assert scales_of(0, off) == Scales(0, 0, 48, below_zero=True)
    assert reading_of(Scales(0, 0, 48, below_zero=True), off) == -0.02
    assert scales_of(0.02, off) == Scales(0, 0, 0)
    assert line_in_view(Scales(0, 1, 0), off) == 0.5


@pytest.mark.parametrize(("line", "side", "which", "vernier", "zero"), [
    (48, "short", METRIC, 0, -0.02), (3, "past", METRIC, 0, 0.03), (0, "past", METRIC, 0, 0),
    (24, "short", INCH, 0, -0.001), (2, "past", INCH_VERNIER, 3, 0.0023),
    (49, "short", METRIC_VERNIER, 4, -0.006),
])
def test_zero_error_from_the_closed_faces(line, side, which, vernier, zero):
    """Past zero is plus, short of zero is minus the lines that are missing."""
    assert zero_error_of(line, side, which, vernier) == zero


@pytest.mark.parametrize("steps", [-4, -1, 0, 2])
def test_zero_error_read_is_the_zero_error_set(steps):
    """What closed faces show, read by the sign rule, is the zero error that the instrument has."""
    off = replace(METRIC_VERNIER, zero_error=steps * 0.001)
    scales = scales_of(0, off)
    side = "short" if scales.below_zero else "past"
    assert zero_error_of(scales.thimble_line, side, off, scales.vernier_line) == pytest.approx(off.zero_error)


def test_size_is_reading_less_zero_error():
    """An instrument that shows 0.02 closed reads 0.02 too much; one that stands short reads too little."""
    assert size_of(7.88, 0.02) == pytest.approx(7.86)
    assert size_of(7.88, -0.02) == pytest.approx(7.90)
    assert size_of(np.array([1.0, 2.0]), 0.25).tolist() == [0.75, 1.75]


def test_travel_is_pitch_times_starts_times_turns():
    """Three turns and 20 of 100 divisions of a two-start screw of 1.5 mm pitch move 9.6 mm; back is minus."""
    assert travel(1.5, 3 + 20 / 100, 2) == pytest.approx(9.6)
    assert travel(0.5, -0.5) == -0.25
    assert travel(np.array([0.5, 1]), np.array([[1], [2]])).tolist() == [[0.5, 1], [1, 2]]


@given(st.floats(0.01, 20), st.floats(-500, 500), st.integers(1, 6))
def test_turns_undo_travel(pitch, turns, starts):
    """The turns found for a travel give that travel."""
    assert turns_for(pitch, travel(pitch, turns, starts), starts) == pytest.approx(turns, abs=1e-9)


def test_doubling_starts_doubles_travel_and_halves_turns():
    """A two-start screw needs half the turns for the same way."""
    assert travel(2, 3, 2) == 2 * travel(2, 3) == 12
    assert turns_for(2, 6, 2) == turns_for(2, 6) / 2 == 1.5
    assert division_value(2, 50, 2) == 2 * division_value(2, 50) == pytest.approx(0.08)


def test_forty_threads_an_inch():
    """Forty threads an inch are 0.635 mm pitch, the inch instrument's 0.025 inch."""
    assert pitch_of_tpi_mm(40) == pytest.approx(INCH.pitch * 25.4)
    assert pitch_of_tpi_mm(1) == 25.4


@pytest.mark.parametrize("bad", [0, -0.5, float("nan"), float("inf"), "0.5", [0.5], (0, 5), None, True, 1j])
@pytest.mark.parametrize("calculate", [
    lambda pitch: travel(pitch, 1), lambda pitch: turns_for(pitch, 1), lambda pitch: division_value(pitch, 50),
    lambda pitch: Instrument("bad", "mm", pitch, 50), pitch_of_tpi_mm,
])
def test_a_pitch_that_is_no_positive_number_is_refused(calculate, bad):
    """Zero, negative, not finite, text, list, tuple, nothing, a truth value and a complex pitch are refused."""
    with pytest.raises(ValueError, match=r"(pitch|threads_per_inch)\w* = .*: must be"):
        calculate(bad)


@pytest.mark.parametrize("bad", [0, -50, 2.5, float("nan"), float("inf"), "50", [50], None])
@pytest.mark.parametrize("calculate", [
    lambda divisions: division_value(0.5, divisions), lambda divisions: Instrument("bad", "mm", 0.5, divisions),
])
def test_divisions_that_cannot_be_counted_are_refused(calculate, bad):
    """Zero, negative, broken, text or listed divisions are refused."""
    with pytest.raises(ValueError, match="divisions = .*: must be"):
        calculate(bad)


@pytest.mark.parametrize("calculate", [travel, turns_for])
@pytest.mark.parametrize("bad", [0, -1, 1.5, "2", float("nan")])
def test_starts_that_cannot_be_counted_are_refused(calculate, bad):
    """Starts are counted thread beginnings, at least one."""
    with pytest.raises(ValueError, match="starts = .*: must be"):
        calculate(1, 1, bad)


@pytest.mark.parametrize("bad", ["3", [3], (3, 25), float("nan"), float("inf"), np.array([1, np.nan]), np.array(["3"])])
def test_turns_that_are_no_numbers_are_refused(bad):
    """Text, lists and gaps in an array of turns are refused."""
    with pytest.raises(ValueError, match="turns = "):
        travel(0.5, bad)


@pytest.mark.parametrize(("change", "message"), [
    ({"unit": "cm"}, "unit = 'cm': must be 'mm' or 'in'; convert"),
    ({"kind": "inside"}, "kind = 'inside': must be 'outside' or 'depth'"),
    ({"vernier": 1}, "vernier = 1: must be 0 or at least 2; one vernier division divides nothing"),
    ({"vernier": -1}, "vernier = -1: must be at least 0"),
    ({"main_line": 0.75}, "main_line = 0.75: must be a whole number of pitches of 0.5; are"),
    ({"main_line": 0}, "main_line = 0: must be above 0"),
    ({"start": -1}, "start = -1: must be at least 0"),
    ({"start": 25}, "end = 25.0: must be above 25; are start and end swapped?"),
    ({"end": 24.999}, "end = 24.999: must be a whole number of steps of 0.01 mm; is it"),
    ({"zero_error": 0.005}, "zero_error = 0.005: must be a whole number of steps of 0.01 mm; is it"),
    ({"zero_error": 0.5}, r"zero_error = 0.5: must be smaller than one turn \(0.5 mm\); an instrument"),
    ({"zero_error": -0.5}, "zero_error = -0.5: must be smaller than one turn"),
    ({"zero_error": float("nan")}, "zero_error = nan: must be finite"),
])
def test_an_instrument_that_nobody_makes_is_refused(change, message):
    """Each impossible part of an instrument is refused with value, rule and likely cause."""
    with pytest.raises(ValueError, match=message):
        replace(METRIC, **change)


@pytest.mark.parametrize("gap", [-0.001, 25.001, 1000, -5])
def test_a_gap_outside_the_range_is_refused(gap):
    """A gap beyond either end of the range is refused, however little."""
    with pytest.raises(ValueError, match=f"gap = {gap}: metric 0-25 spans 0 to 25 mm; is it"):
        scales_of(gap)


@pytest.mark.parametrize("gap", ["7.88", [7.88], (7, 88), None, float("nan"), "x" * 10_000_000])
def test_a_gap_that_is_no_number_is_refused_shortly(gap):
    """Text, lists and ten megabytes are refused in less than 200 letters."""
    with pytest.raises(ValueError, match="gap = .*: must be") as refusal:
        scales_of(gap)
    assert len(str(refusal.value)) < 200


@pytest.mark.parametrize(("scales", "which", "message"), [
    (Scales(7, 1, 50), METRIC, "thimble_line = 50: must be at most 49; a full turn"),
    (Scales(7, 2, 0), METRIC, "sub_lines = 2: must be at most 1; is it one main line more"),
    (Scales(7, 1, 0), COARSE, "sub_lines = 1: must be at most 0"),
    (Scales(7, 1, 38, 1), METRIC, "vernier_line = 1: must be at most 0; is it another"),
    (Scales(7, 1, 38, 10), METRIC_VERNIER, "vernier_line = 10: must be at most 9"),
    (Scales(-1, 1, 0), METRIC, "main_lines = -1: must be at least 0"),
    (Scales(0, 0, -1), METRIC, "thimble_line = -1: must be at least 0"),
    (Scales(0, 0, 1.5), METRIC, "thimble_line = 1.5: must be a whole number"),
    (Scales(25, 0, 1), METRIC, "reading = 25.01: metric 0-25 spans 0 to 25 mm with zero error 0; is a line"),
    (Scales(0, 0, 49, below_zero=True), METRIC, "reading = -0.01: metric 0-25 spans"),
    (Scales(1, 0, 49, below_zero=True), METRIC, "no sleeve line counts while the thimble stands below zero"),
    (Scales(0, 1, 49, below_zero=True), METRIC, "no sleeve line counts while the thimble stands below zero"),
    (Scales(0, 0, 1), replace(METRIC, zero_error=0.02), "reading = 0.01: .*zero error's sign"),
])
def test_a_reading_the_instrument_cannot_show_is_refused(scales, which, message):
    """Lines that no setting shows are refused with value, rule and likely cause."""
    with pytest.raises(ValueError, match=message):
        reading_of(scales, which)


@pytest.mark.parametrize("arguments", [(50, "short"), (-1, "past"), (3, "left"), (3, "past", METRIC, 1),
                                       (3, "past", METRIC_VERNIER, 10), (3, "past", METRIC_VERNIER, -1)])
def test_a_zero_that_cannot_be_read_is_refused(arguments):
    """A line that the thimble or vernier does not have, or a side that is none, is refused."""
    with pytest.raises(ValueError, match="must be"):
        zero_error_of(*arguments)


def test_an_instrument_is_a_common_metric_one_unless_said():
    """Pitch and divisions alone describe an outside instrument of 0 to 25 mm without vernier or zero error."""
    assert Instrument("plain", "mm", 0.5, 50) == replace(METRIC, name="plain")
    assert zero_error_of(48, "short") == -0.02


def test_named_instruments_are_those_of_the_table():
    """The four names stand for 0.01, 0.001 mm, 0.001 and 0.0001 inch."""
    assert [which.resolution for which in (METRIC, METRIC_VERNIER, INCH, INCH_VERNIER)] == [
        0.01, 0.001, 0.001, 0.0001]
    assert [which.unit for which in (METRIC, INCH)] == ["mm", "in"]
    assert METRIC.span == "0 to 25 mm" and instrument("inch 1-2").span == "1 to 2 in"


@pytest.mark.parametrize(("name", "start", "end", "kind"), [
    ("metric 0-25", 0, 25, "outside"), ("metric 25-50", 25, 50, "outside"),
    ("metric 0-25 vernier", 0, 25, "outside"), ("metric 0-25 one millimetre pitch", 0, 25, "outside"),
    ("metric depth 0-25", 0, 25, "depth"), ("inch 0-1", 0, 1, "outside"), ("inch 1-2", 1, 2, "outside"),
    ("inch 0-1 vernier", 0, 1, "outside"), ("inch depth 0-1", 0, 1, "depth"),
])
def test_instruments_have_the_range_of_their_name(name, start, end, kind):
    """The range in the name is the range of the instrument (common practice: 25 mm or 1 inch of travel)."""
    which = instrument(name)
    assert (which.start, which.end, which.kind) == (start, end, kind)


def test_step_by_step_the_thimble_advances_by_one():
    """One resolution step moves the last figure by one, and the thimble starts again after a full turn."""
    for step in range(2499):
        now, then = scales_of(METRIC.length_of(step)), scales_of(METRIC.length_of(step + 1))
        assert then.thimble_line == (now.thimble_line + 1) % 50


def test_instruments_have_unique_readings_in_all_units():
    """No instrument shows the same lines for two neighbouring gaps."""
    for which in ALL:
        gaps = [which.length_of(which.steps_of(which.start) + step) for step in range(200)]
        assert all(a != b for a, b in itertools.pairwise(scales_of(gap, which) for gap in gaps))


@pytest.mark.parametrize("which", ALL, ids=lambda which: which.name)
def test_every_gap_comes_back_exactly(which):
    """Over every step of the range, gap -> lines -> gap is the identity, and no two gaps show the same lines."""
    steps = range(which.steps_of(which.start), which.steps_of(which.end) + 1)
    gaps = [which.length_of(step) for step in steps]
    shown = [scales_of(gap, which) for gap in gaps]
    assert [reading_of(scales, which) for scales in shown] == gaps
    assert len(set(shown)) == len(gaps) == round((which.end - which.start) / which.resolution) + 1


@pytest.mark.parametrize("which", ALL, ids=lambda which: which.name)
@pytest.mark.parametrize("sign", [1, -1])
def test_every_gap_comes_back_with_a_zero_error(which, sign):
    """With a zero error of either sign the gap still comes back, and the reading is out by exactly it."""
    off = replace(which, zero_error=which.length_of(sign * 3))
    for step in range(off.steps_of(off.start), off.steps_of(off.end) + 1, 37):
        gap = off.length_of(step)
        scales = scales_of(gap, off)
        assert gap_of(scales, off) == gap
        assert Decimal(str(reading_of(scales, off))) - Decimal(str(gap)) == Decimal(str(off.zero_error))
