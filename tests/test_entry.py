"""workbench.entry: what is taken, what is handed back, and why."""

import numpy
import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from workbench.entry import LONGEST, NotRead, as_text, read
from workbench.exercises.exercise import Choice, Designation, Order, Quantity
from workbench.threads.designation import parse

MM = Quantity("mm", 0.01, (0, 25))
MM_WIDE = Quantity("mm", 1, (0, 5000))
MM_UNIT_TESTED = Quantity("mm", 0.01, (0, 25), unit_given=False)
INCH = Quantity("inch", 0.001, (0, 5), forms=("fraction",))
DRILL = Quantity("inch", 0.0001, (0, 1), forms=("drill",))
ANGLE = Quantity("deg", 0.1, (-90, 90))
SECONDS = Quantity("second", 1, (0, 500))
COUNT = Quantity("divisions", 1, (0, 500))
DRIVE = Choice({"ratchet": "the ratchet", "thimble": "the thimble", "frame": "the frame", "lock": "the lock"})
STEPS = Order({"clean": "clean", "zero": "zero", "measure": "measure"})
CALL_OUT = Designation(also=("screw_class",))
FULL = Designation(with_pitch=True)
LISTED = {"order": ("lock", "ratchet", "frame", "thimble")}

# the inch is 25.4 mm exactly (international yard and pound agreement, 1959); a thou is 0.001 in


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("3.25 mm", MM, 3.25),
        ("3,25 mm", MM, 3.25),
        ("3.25mm", MM, 3.25),
        ("3.25", MM, 3.25),
        ("  3.25   mm ", MM, 3.25),
        ("3.25\u00a0mm", MM, 3.25),
        ("+3.25 mm", MM, 3.25),
        ("-3.25 mm", MM, -3.25),
        ("\u22123.25 mm", MM, -3.25),
        ("\u20133.25 mm", MM, -3.25),
        ("0.128 in", MM, 0.128 * 25.4),
        ("128 thou", MM, 0.128 * 25.4),
        ("0.325 cm", MM, 3.25),
        ("3250 µm", MM, 3.25),
        ('"3.25 mm"', MM, 3.25),
        ("'3.25 mm'", MM, 3.25),
        ("“3.25 mm”", MM, 3.25),
        ("„3,25 mm“", MM, 3.25),
        ('3.25 mm"', MM, 3.25),
        ("'3.25 mm", MM, 3.25),
        ("= 3.25 mm", MM, 3.25),
        ("3.25 MM", MM, 3.25),
        ("3.25 millimetres", MM, 3.25),
        (".5 mm", MM, 0.5),
        ("1e1 mm", MM, 10),
        ("1.2x10^-3 mm", MM, 0.0012),
        ("1,250 mm", MM, 1.25),
        ("1,250 mm", Quantity("mm", 1, (100, 5000)), 1250),
        ("0,250 mm", MM_WIDE, 0.25),
        ("1 250 mm", MM_WIDE, 1250),
        ("1,250.5 mm", MM_WIDE, 1250.5),
        ("1.250,5 mm", MM_WIDE, 1250.5),
        ("1/8 in", INCH, 0.125),
        ('1/8"', INCH, 0.125),
        ("1 1/8 in", INCH, 1.125),
        ("1⅛ in", INCH, 1.125),
        ("0,364″", INCH, 0.364),
        ("14°30'", ANGLE, 14.5),
        ("14° 30′ 36″", ANGLE, 14.51),
        ("14.5 deg", ANGLE, 14.5),
        ("14,5°", ANGLE, 14.5),
        ("-7°30'", ANGLE, -7.5),
        ("#41", DRILL, 0.096),  # ASME B94.11M, from memory: No. 41 is 0.0960 in
        ("No. 41", DRILL, 0.096),
        ("e", DRILL, 0.25),  # letter E is exactly 1/4 in
        ("20 divisions", COUNT, 20),
        ("20", COUNT, 20),
    ],
)
def test_taken(text, kind, value):
    """Each usual way of writing a value is read as that value in the asked unit."""
    assert read(text, kind, {}).value == pytest.approx(value, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "kind", "why"),
    [
        (None, MM, "nothing is typed"),
        ("", MM, "nothing is typed"),
        ("  ", MM, "nothing is typed"),
        ('""', MM, "nothing is typed"),
        ("abc", MM, "no number"),
        ("mm", MM, "no number"),
        ("nan", MM, "no number"),
        ("inf mm", MM, "no number"),
        ("3.25", MM_UNIT_TESTED, "unit is missing"),
        ("1,250 mm", MM_WIDE, "two ways"),
        ("1,250 mm", Quantity("mm", 1, (2000, 5000)), "two ways"),
        ("5 mil", MM, "thousandth of an inch to some"),
        ("3 tenths", MM, "0.1 mm to some"),
        ("3 hundredths", MM, "of what"),
        ("3 lb", MM, "mass to some"),
        ("3 kN", MM, "another kind"),
        ("3.25 furlongs", MM, "not known"),
        ("20 mm", COUNT, "out of place"),
        ("3 turns", MM, "counts something else"),
        ("3 turns", COUNT, "counts something else"),
        ("3 25 mm", MM, "two numbers"),
        ("3.25.1 mm", MM, "more than one decimal mark"),
        ("1.25,0,1 mm", MM, "do not fit together"),
        ("3.2 to 3.4 mm", MM, "not one value"),
        ("±3 mm", MM, "not one value"),
        ("about 3 mm", MM, "not one value"),
        ("3.25 mm 4", MM, "not known"),
        ("1e400 mm", MM, "too large"),
        ("1/0 in", INCH, "divides by zero"),
        ("14°75'", ANGLE, "below 60"),
        ("#99", DRILL, "no drill"),
        ("[3.25]", MM, "does not begin with a number"),
        ("٣.٢٥ mm", MM, "does not begin with a number"),
        ("22.4", COUNT, "whole number"),
        ("x" * 10_000_000, MM, "10,000,000 characters"),
        ([3.25], MM, "list"),
        (3.25, MM, "float"),
    ],
)
def test_handed_back(text, kind, why):
    """What has no reading, or two, is handed back with the reason and never guessed at."""
    with pytest.raises(NotRead, match=why):
        read(text, kind, {})


@pytest.mark.parametrize(
    ("text", "kind", "letter", "figure"),
    [
        ("1.O58 mm", MM, "O", 0), ("13.5l2 mm", MM, "l", 1), ("5.S", MM, "S", 5), ("13.5O mm", MM, "O", 0),
        ("30.2l", MM, "l", 1), ("O.5 mm", MM, "O", 0), ("1.2I mm", MM, "I", 1), ("2S mm", MM, "S", 5),
        ("13.5Omm", MM, "O", 0), ("1l/16 in", INCH, "l", 1), ("1o°", ANGLE, "o", 0), ("5.S s", SECONDS, "S", 5),
    ],
)  # fmt: skip
def test_a_letter_among_the_figures_is_named(text, kind, letter, figure):
    """O for 0, l and I for 1, S for 5 inside a number are handed back with the figure to type."""
    with pytest.raises(NotRead, match=f"a letter {letter} stands in the number .*: type the figure {figure}"):
        read(text, kind, {})


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [("5 s", SECONDS, 5), ("5s", SECONDS, 5), ("5S", SECONDS, 5), ("5sec", SECONDS, 5), ("5IN", INCH, 5),
     ("5Inch", INCH, 5), ("3starts", Quantity("starts", 1, (1, 12)), 3), ("s", DRILL, 0.348)],
)  # fmt: skip
def test_a_unit_that_begins_with_such_a_letter_stays_a_unit(text, kind, value):
    """Seconds, inches, starts and drill S (0.3480 in, ASME B94.11M, from memory) are read as before."""
    assert read(text, kind, {}).value == pytest.approx(value, rel=1e-12)


@pytest.mark.parametrize("text", ["5lbf", "5 lines", "5lb", "5 S"])
def test_another_unit_is_still_called_a_unit(text):
    """Pounds, lines and a parted S are refused for what they are, not for a letter in the number."""
    with pytest.raises(NotRead) as reason:
        read(text, MM, {})
    assert "a letter" not in str(reason.value)


@pytest.mark.parametrize(("text", "nut", "screw"), [("M6x1-7H/8G", "7H", "8G"), ("M6x1-7h/8g", "7h", "8g")])
def test_a_pair_with_two_letters_alike_is_read_where_both_classes_count(text, nut, screw):
    """Two capitals or two small letters are kept as typed, to be judged; elsewhere they are handed back."""
    found = read(text, Designation(also=("screw_class", "nut_class")), {}).value
    assert (found.nut_class, found.screw_class, found.pitch_mm) == (nut, screw, 1)
    with pytest.raises(NotRead, match="two nuts|has a small letter"):
        read(text, CALL_OUT, {})


@given(st.text(max_size=LONGEST + 5))
def test_no_text_crashes_the_reader(text):
    """Any text is read or handed back; nothing else ever comes out."""
    for kind in (MM, MM_UNIT_TESTED, INCH, ANGLE, DRILL, COUNT):
        try:
            assert isinstance(read(text, kind, {}).value, float | int)
        except NotRead as reason:
            assert str(reason)
    for kind in (CALL_OUT, FULL):
        try:
            assert read(text, kind, {}).value.pitch_mm > 0
        except NotRead as reason:
            assert str(reason)
    for kind in (DRIVE, STEPS):
        try:
            read(text, kind, LISTED if kind is DRIVE else {"order": ("zero", "clean", "measure")})
        except NotRead as reason:
            assert str(reason)


@given(st.integers(0, 2500), st.sampled_from([".", ","]), st.sampled_from([" mm", "mm", ""]))
def test_every_reading_survives_being_written(steps, mark, unit):
    """A value written with two decimals, point or comma, is read back as itself."""
    text = f"{steps // 100}{mark}{steps % 100:02d}{unit}"
    assert read(text, MM, {}).value == pytest.approx(steps / 100, abs=1e-12)


def test_a_choice_is_one_of_its_letters():
    """A letter stands for the option that the variant lists there, in either case, bracketed or not."""
    assert [read(text, DRIVE, LISTED).value for text in ("b", "B", "b)", "(b)", "'b'")] == ["ratchet"] * 5
    for text in ("e", "ab", "ratchet", "1"):
        with pytest.raises(NotRead, match="letters a, b, c, d"):
            read(text, DRIVE, LISTED)


def test_an_order_names_each_letter_once():
    """An order is read with any separators; a missing or doubled letter is named."""
    listed = {"order": ("zero", "clean", "measure")}
    for text in ("b a c", "bac", "b, a, c", "B > A > C", "b then a then c"):
        assert read(text, STEPS, listed).value == ("clean", "zero", "measure")
    with pytest.raises(NotRead, match="c is missing"):
        read("b a", STEPS, listed)
    with pytest.raises(NotRead, match="a stands twice"):
        read("b a a c", STEPS, listed)


@pytest.mark.parametrize(
    "text",
    ["M6x1-6g", "M6×1-6g", "m6 x 1 - 6g", "M 6 X 1,0 – 6g", "'M6x1-6g'", "= M6x1-6g", "M six by one class six small g"],
)
def test_a_call_out_is_read_however_it_is_written_or_said(text):
    """Signs, blanks, quotes, a decimal comma and spoken words give the same thread: M6, pitch 1 mm, class 6g."""
    found = read(text, CALL_OUT, {}).value
    assert (found.form, found.major_mm, found.pitch_mm, found.screw_class) == ("metric", 6, 1, "6g")
    assert CALL_OUT.same(found, parse("M6x1-6g"), {})


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("M6x", "after the last sign: a number is due"),
        ("M6xx1", "sign 4"),
        ("M10x1.25-6q", "sign 11 .*no such tolerance class"),
        ("M20x14", "sign 5"),  # no pitch, and too short for its length
        ("6x1", "a metric call-out begins with M"),
        ("G1/2", "a pipe thread"),
        ("the blue one", "no call-out begins like this"),
    ],
)
def test_a_call_out_that_cannot_be_read_is_handed_back_with_the_place(text, why):
    """An unreadable call-out names the sign at which it goes wrong, or what it may be."""
    with pytest.raises(NotRead, match=why):
        read(text, CALL_OUT, {})


def test_a_pitch_that_must_be_written_is_asked_for_and_never_given_away():
    """Where the pitch is asked, M10 alone is handed back, and no echo says the pitch that was left out."""
    with pytest.raises(NotRead, match="the pitch is left out") as refused:
        read("M10", FULL, {})
    assert "1.5" not in str(refused.value)  # ISO 261: M10 coarse
    assert read("M10", CALL_OUT, {}).shown == "M10"
    assert read("M10 x 1.5", FULL, {}).shown == "M10×1.5"


def test_only_the_fields_asked_for_count():
    """A class that nobody asked for makes no answer wrong; another hand, pitch or number of starts does."""
    plain = Designation()
    assert plain.same(parse("M10x1-6g"), parse("M10x1"), {})
    for other in ("M10x1.25", "M12x1", "M10x1-LH", "MJ10x1", "M10xPh2P1"):
        assert not plain.same(parse(other), parse("M10x1"), {})
    assert not CALL_OUT.same(parse("M10x1-6h"), parse("M10x1-6g"), {})


def test_cell_values_become_text():
    """Numbers and pint quantities become the text that would have been typed."""
    ureg = pint.UnitRegistry()
    assert as_text(3.25) == "3.25"
    assert as_text(numpy.float64(3.25)) == "3.25"
    assert read(as_text(3.25 * ureg.mm), MM, {}).value == 3.25
    assert read(as_text(0.128 * ureg.inch), MM, {}).value == pytest.approx(3.2512)
    assert as_text(None) is None


@pytest.mark.parametrize(
    "value", [True, [1], (1, 2), {}, 1j, float("nan"), float("inf"), 10**400, numpy.ones(3), object()]
)
def test_other_objects_are_no_answer(value):
    """Only text, plain numbers and quantities count; an object cannot act as a number."""
    with pytest.raises(NotRead):
        as_text(value)


def test_an_entry_in_the_asked_unit_is_echoed_once():
    """A unit of two words repeats nothing: 28.5 N m is read as 28.5 N m, and 28500 N mm says both."""
    torque = Quantity("N*m", 0.1, (0, 100))
    assert read("28.5 N m", torque, {}).shown == "28.5 N m"
    assert read("28.5Nm", torque, {}).shown == "28.5 N m"
    assert read("28500 N mm", torque, {}).shown == "28500 N mm = 28.5 N m"


def test_a_converted_entry_is_echoed_to_the_figures_asked_for():
    """47.4 lbf in are 5.35548 N m (1 lbf in = 0.1129848 N m, NIST SP 811): 5.36, never ten figures."""
    torque = Quantity("N*m", 0.1, (0, 100))
    assert read("47.4 lbf in", torque, {}).shown == "47.4 lbf in = 5.36 N m"
    assert read("474 lbf in", torque, {}).shown == "474 lbf in = 53.6 N m"
    assert read("7 um", MM, {}).shown == "7 um = 0.007 mm"
    assert read("0 lbf in", torque, {}).shown == "0 lbf in = 0 N m"
