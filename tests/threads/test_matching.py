"""Call-out against part: what satisfies, what fails by how much, where the instrument cannot tell; marks."""

import pytest

from workbench.tables import table
from workbench.threads.designation import parse
from workbench.threads.marks import read_marks
from workbench.threads.matching import (
    Part,
    compare,
    length_limits_mm,
    major_limits_mm,
    sort_bin,
    thread_length_mm,
)
from workbench.threads.measured import CANNOT_TELL, FAILS, SATISFIES, Measured, pitch_by_leaf, pitch_over_crests

FINE = Measured(1.5, 0.006)


def verdicts(call_out, asked_head="", **part):
    """Verdict by field."""
    return {field.name: field.verdict for field in compare(parse(call_out), Part(**part), asked_head).fields}


def by(call_out, name, **part):
    """By how much a field fails."""
    return next(field.by for field in compare(parse(call_out), Part(**part)).fields if field.name == name)


@pytest.mark.parametrize(("value", "uncertainty", "verdict"), [
    (9.85, 0.01, SATISFIES), (9.968, 0.0, SATISFIES), (9.732, 0.0, SATISFIES), (9.975, 0.01, CANNOT_TELL),
    (9.725, 0.01, CANNOT_TELL),
    (9.96, 0.02, CANNOT_TELL), (9.99, 0.01, FAILS), (9.70, 0.01, FAILS), (10.0, 0.05, CANNOT_TELL)])
def test_a_size_is_judged_with_its_uncertainty(value, uncertainty, verdict):
    """M10-6g lies between 9.732 and 9.968 mm (ISO 965-2, seen in a reprint); a straddling result stays open."""
    assert verdicts("M10-6g", major=Measured(value, uncertainty), pitch=FINE)["major diameter"] == verdict


def test_a_better_instrument_turns_cannot_tell_into_a_verdict():
    """The same value with half the uncertainty, and half again, ends in a verdict that then stays."""
    found = [verdicts("M10", major=Measured(9.955, u), pitch=FINE)["major diameter"] for u in (0.05, 0.02, 0.01, 0.001)]
    assert found == [CANNOT_TELL, CANNOT_TELL, SATISFIES, SATISFIES]


@pytest.mark.parametrize(("call_out", "low", "high"), [
    # ISO 965-2 (seen in a reprint), ASME B1.1 2A: 1/4-20 UNC 0.2408 to 0.2489 in, 2-56 UNC 0.0813 to 0.0854 in
    ("M10", 9.732, 9.968), ("M10-6h", 9.764, 10.0), ("1/4-20 UNC-2A", 0.2408 * 25.4, 0.2489 * 25.4),
    ("2-56 UNC", 0.0813 * 25.4, 0.0854 * 25.4), ("Tr8x1.5-7e", 7.85, 8.0), ("Tr10x2-7e", 9.82, 10.0),
    ("2-56 UNRC-2A", 0.0813 * 25.4, 0.0854 * 25.4), ("MJ10x1.5-4h6h", 9.764, 10.0), ("M10-7H/8g", 9.593, 9.968)])
def test_limits_over_the_crests_come_from_the_standard(call_out, low, high):
    """The limits used are the printed ones, also where the class was left out."""
    assert major_limits_mm(parse(call_out))[:2] == pytest.approx((low, high), abs=0.00101)


def test_the_inch_twin_fails_by_its_pitch():
    """5/16-18 offered for M8 fails by 25.4/18 - 1.25 = 0.161 mm, although its diameter may pass."""
    twin = {"major": Measured(7.85, 0.02), "pitch": pitch_over_crests(9 * 25.4 / 18, 10)}
    found = verdicts("M8", **twin)
    assert found == {"major diameter": SATISFIES, "pitch": FAILS}
    assert by("M8", "pitch", **twin) == pytest.approx(25.4 / 18 - 1.25)


def test_a_rule_cannot_tell_m5_from_number_10_32():
    """#10-32 (0.794 mm) and M5 x 0.8 differ by 6 micrometres: a leaf of 0.8 leaves it open where both diameters fit."""
    part = {"major": Measured(4.79, 0.08), "pitch": Measured(0.8, 0.02)}
    assert verdicts("M5", **part)["pitch"] == CANNOT_TELL
    part["major"] = Measured(4.93, 0.01)  # over the crests of any good #10 (0.190 in = 4.826 mm at most)
    assert verdicts("M5", **part)["pitch"] == SATISFIES


def test_pitch_over_ten_crests_has_nine_gaps():
    """Ten crests span nine pitches: 11.25 mm is 1.25 mm (geometry)."""
    assert pitch_over_crests(11.25, 10).value == pytest.approx(1.25)
    assert pitch_over_crests(11.25, 10, 0.09).uncertainty == pytest.approx(0.01)
    assert pitch_by_leaf(1.25, teeth=11, seen_mm=0.1).uncertainty == pytest.approx(0.01)
    # half a millimetre wrong over ten gaps is a twentieth on the pitch
    assert pitch_over_crests(13, 11).value - pitch_over_crests(12.5, 11).value == pytest.approx(0.05)


def test_20_threads_an_inch_looks_like_pitch_1_25_over_a_short_leaf():
    """Over four gaps a 1.25 leaf misses 25.4/20 = 1.27 mm by 0.08 mm, unseen; over twelve by 0.24 mm, seen (0.1 mm)."""
    assert pitch_by_leaf(1.25, teeth=5, seen_mm=0.1).meets(25.4 / 20, 25.4 / 20)
    assert not pitch_by_leaf(1.25, teeth=13, seen_mm=0.1).meets(25.4 / 20, 25.4 / 20)
    assert Measured(1.25).uncertainty == 0  # where none is said
    assert pitch_by_leaf(1.25, teeth=2, seen_mm=0.1).uncertainty == 0.1  # two teeth have one gap


@pytest.mark.parametrize(("head", "overall", "height", "verdict"), [
    ("hexagon", 46.4, 6.4, SATISFIES), ("hexagon", 40.0, 6.4, FAILS), ("countersunk", 40.1, 5.0, SATISFIES),
    ("countersunk", 46.4, 5.0, FAILS), ("none", 40.45, None, CANNOT_TELL), ("hexagon", 46.4, None, CANNOT_TELL)])
def test_length_counts_from_where_the_head_form_says(head, overall, height, verdict):
    """M10x40: hexagon under the head, countersunk over all (ISO 225); js15 permits +-0.5 mm (ISO 4759-1)."""
    height = None if height is None else Measured(height, 0.05)
    found = verdicts("M10x40", major=Measured(9.85, 0.01), pitch=FINE, overall=Measured(overall, 0.1), head=head,
                     head_height=height)
    assert found["length"] == verdict


def test_uncertainties_of_two_lengths_add_in_squares():
    """Overall +-0.3 and head +-0.4 leave the length +-0.5 (GUM 5.1.2)."""
    part = Part(Measured(9.85), FINE, Measured(46.4, 0.3), head="hexagon", head_height=Measured(6.4, 0.4))
    assert part.length.uncertainty == pytest.approx(0.5)


@pytest.mark.parametrize(("length", "low", "high"), [(16, 15.65, 16.35), (20, 19.58, 20.42), (40, 39.5, 40.5),
                                                     (60, 59.4, 60.6), (100, 99.3, 100.7)])
def test_length_tolerance(length, low, high):
    """js15 of ISO 286-2: +-0.35, 0.42, 0.5, 0.6, 0.7 mm (from memory)."""
    assert length_limits_mm(length) == pytest.approx((low, high))


@pytest.mark.parametrize(("d", "length", "b"), [(12, 80, 30), (10, 60, 26), (16, 150, 44), (20, 240, 65)])
def test_thread_length_of_a_part_threaded_bolt(d, length, b):
    """b = 2d + 6, + 12 above 125 mm, + 25 above 200 mm (ISO 888, ISO 4014, from memory)."""
    assert thread_length_mm(d, length) == b


def test_thread_length_and_full_thread():
    """A thread 5 mm short of the head is no full thread at P 1.5, but satisfies a thread length of 35 mm."""
    part = {"major": Measured(9.85, 0.01), "pitch": FINE, "threaded": Measured(35.0, 0.3)}
    assert verdicts("M10x40 full thread", **part)["thread length"] == FAILS
    assert by("M10x40 full thread", "thread length", **part) == pytest.approx(35 - (40 - 4.5))
    assert verdicts("M10x40 thread length 34", **part)["thread length"] == SATISFIES
    assert verdicts("M10x40 thread length 26", **part)["thread length"] == FAILS
    for length, verdict in ((25.5, FAILS), (26.5, SATISFIES), (28.5, SATISFIES), (29.5, FAILS), (29.0, CANNOT_TELL)):
        part["threaded"] = Measured(length, 0.1)  # 26 to 26 + 2 P = 29 mm
        assert verdicts("M10x40 thread length 26", **part)["thread length"] == verdict
    assert verdicts("M10x40 thread length 26", major=Measured(9.85), pitch=FINE)["thread length"] == CANNOT_TELL


def test_hand_head_and_class():
    """A left-hand screw, another head and a softer class fail; what was not looked at stays open."""
    part = {"major": Measured(9.85, 0.01), "pitch": FINE}
    assert verdicts("M10-LH", **part)["hand"] == CANNOT_TELL
    assert verdicts("M10-LH", left_hand=False, **part)["hand"] == FAILS
    assert verdicts("M10", left_hand=True, **part)["hand"] == FAILS
    assert verdicts("M10", asked_head="pan", **part)["head"] == CANNOT_TELL
    assert verdicts("M10x40-8.8", marks="XYZ 8.8", **part)["property class"] == SATISFIES
    assert verdicts("M10x40-10.9", marks="XYZ 8.8", **part)["property class"] == FAILS
    assert by("M10x40-10.9", "property class", marks="XYZ 8.8", **part) == 0  # a class has no size to be out by
    assert by("M10x40-8.8", "property class", marks="XYZ", **part) == 0
    assert verdicts("M10x40-8.8", marks="XYZ", **part)["property class"] == CANNOT_TELL


def test_one_failing_field_fails_the_part():
    """fails beats cannot tell beats satisfies, and the bin is sorted in that order."""
    good = Part(Measured(9.85, 0.01), FINE)
    open_ = Part(Measured(9.96, 0.02), FINE)
    bad = Part(Measured(9.96, 0.02), Measured(1.25, 0.006))
    found = sort_bin(parse("M10"), {"bad": bad, "open": open_, "good": good})
    assert {name: one.verdict for name, one in found.items()} == {"good": SATISFIES, "open": CANNOT_TELL, "bad": FAILS}
    assert list(found) == ["good", "open", "bad"]
    assert [field.name for field in found["bad"].failing] == ["pitch"]


def test_every_metric_thread_satisfies_its_own_call_out():
    """A part in the middle of the limits, measured finely, satisfies its own call-out and fails the next diameter's."""
    for row in table("iso_261_metric").rows.values():
        if row["series"] != "coarse" or row["diameter_mm"] > 64:
            continue
        one = parse(row["thread"])
        low, high, _ = major_limits_mm(one)
        part = Part(Measured((low + high) / 2, 0.001), Measured(one.pitch_mm, 0.001))
        assert compare(one, part).verdict == SATISFIES, row["thread"]
        assert compare(one, Part(Measured(one.major_mm * 1.1, 0.001), part.pitch)).verdict == FAILS


def test_a_thread_without_limits_stays_open():
    """A buttress call-out has no limits here: the diameter cannot be told, and the reason is said."""
    field = compare(parse("S48x8"), Part(Measured(47.8, 0.02), Measured(8, 0.01))).fields[0]
    assert field.verdict == CANNOT_TELL and "no limits" in field.says


@pytest.mark.parametrize(("struck", "on", "kinds", "says"), [
    ("8.8", "bolt", ["property class"], "640 MPa"),
    ("ABC 10.9 L", "bolt", ["maker", "property class", "left hand"], "1000 MPa"),
    ("A2-70", "bolt", ["property class"], "700 MPa"),
    ("08.8", "bolt", ["property class"], "weak head"),
    ("six lines", "bolt", ["grade"], "grade 8 or 8.2"),
    ("no lines", "bolt", ["grade"], "grade 1 or 2"),
    ("three lines", "bolt", ["grade"], "grade 5 or 5.2"),
    ("4 lines", "bolt", ["unknown"], "no SAE grade"),
    ("8", "nut", ["property class"], "870 MPa"),
    ("05", "nut", ["property class"], "thin nut"),
    ("8.8", "nut", ["unknown"], "one figure"),
    ("7", "nut", ["unknown"], "no such class"),
    ("7.7", "bolt", ["unknown"], "no such"),
    ("?!", "bolt", ["unknown"], "ask"),
    ("left arrow", "bolt", ["left hand"], "anticlockwise"),
])
def test_marks_are_read(struck, on, kinds, says):
    """Marks of class, grade, hand and maker are told apart (ISO 898-1, ISO 898-2, SAE J429, from memory)."""
    found = read_marks(struck, on)
    assert [mark.kind for mark in found] == kinds
    assert says in " ".join(mark.meaning for mark in found)


@pytest.mark.parametrize(("call", "message"), [
    (lambda: Measured(9.8, -0.1), "half width"),
    (lambda: Part(9.8, FINE), "which instrument"),
    (lambda: Part(Measured(9.8), None), "which instrument"),
    (lambda: Part(Measured(9.8), FINE, head="hexagonal"), "hexagon"),
    (lambda: compare("M10", Part(Measured(9.8), FINE)), "parse the call-out first"),
    (lambda: sort_bin(parse("M10"), {}), "at least one"),
    (lambda: read_marks("", "bolt"), "blank head"),
    (lambda: read_marks("8", "washer"), "'bolt' or 'nut'"),
    (lambda: read_marks("8" * 100), "80 signs"),
    (lambda: length_limits_mm(0), "above 0"),
    (lambda: pitch_over_crests(11, 1), "no gap"),
    (lambda: pitch_over_crests(0, 10), "above 0"),
    (lambda: pitch_over_crests(12, 2.5), "no gap"),
    (lambda: pitch_by_leaf(1.25, teeth=1), "teeth"),
    (lambda: pitch_by_leaf(-1), "leaf_mm"),
    (lambda: pitch_by_leaf(1.25, seen_mm=0), "seen_mm"),
])
def test_refusals(call, message):
    """Bad input is refused with value, rule and likely cause."""
    with pytest.raises(ValueError, match=message):
        call()
