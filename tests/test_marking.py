"""workbench.marking: from an entry to a verdict."""

import dataclasses

import pytest

from workbench import marking
from workbench.exercises.exercise import Choice, Designation, Exercise, Misstep, Order, Quantity
from workbench.threads.designation import parse


def draws():
    """Sleeve and thimble of a 0.01 mm screw with a zero error; own numbers, made up for this test."""
    return [{"s": s, "n": n, "z": z} for s in range(3, 13) for n in (31, 38) for z in (0.02, 0.03)]


READ = Exercise(
    key="toy.read",
    asks="Sleeve {s} mm and the half line, thimble {n}. Read it.",
    answer=Quantity("mm", 0.01, (0, 25)),
    draws=draws,
    right=lambda v: v["s"] + 0.5 + v["n"] / 100,
    missteps=(
        Misstep("half-line-missed", lambda v: v["s"] + v["n"] / 100, "{entry} fits a missed half line.", "Look again."),
        Misstep("wrong-side", lambda v: v["s"] + 0.5 + (50 - v["n"]) / 100, "{entry}: counted down.", "Count up."),
        Misstep(
            "division-doubled", lambda v: v["s"] + 0.5 + v["n"] / 50, "{entry}: 0.02 a line.", "Count turns.", keeps=1
        ),
    ),
    hints=("Read the sleeve first.",),
    marks=2,
    outcome="can read a measuring screw",
)
SIZE = dataclasses.replace(
    READ,
    key="toy.size",
    right=lambda v: v["earlier"] - v["z"],
    missteps=(
        Misstep("sign", lambda v: v["earlier"] + v["z"], "{entry}: z was added.", "Which way?"),
        Misstep("left-out", lambda v: v["earlier"], "{entry}: z was left out.", "Apply it."),
        Misstep("zero-only", lambda v: v["z"], "{entry} is the zero error.", "Start from the reading."),
    ),
    marks=1,
    follows=READ,
)
CALL_OUT = dataclasses.replace(
    READ,
    key="toy.thread",
    answer=Designation(also=("screw_class",), with_pitch=True),
    right=lambda v: parse("M10x1.25-6g"),
    missteps=(
        Misstep("coarse", lambda v: parse("M10x1.5-6g"), "{entry} is coarse.", "Look again.", keeps=1),
        Misstep("capital", lambda v: parse("M10x1.25-6G"), "{entry} is a nut.", "Small or capital?"),
    ),
)
V = {"s": 7, "n": 38, "z": 0.02}  # 7.5 + 0.38 = 7.88; 7.88 - 0.02 = 7.86
V_SIZE = SIZE.of_draw(V)


def standing(exercise, variant, entry, earlier=None):
    verdict = marking.judge(exercise, variant, entry, earlier)
    return verdict.standing, verdict.tag, verdict.marks


@pytest.mark.parametrize(
    ("entry", "expected"),
    [
        ("7.88 mm", ("right", "", 2)),
        ("7,88", ("right", "", 2)),
        ("7.8845", ("right", "", 2)),
        ("7.885", ("right", "", 2)),
        ("7.886", ("not yet", "", 0)),
        ("7.38", ("known misstep", "half-line-missed", 0)),
        ("7.62", ("known misstep", "wrong-side", 0)),
        ("8.26", ("known misstep", "division-doubled", 1)),
        ("5 mm", ("not yet", "", 0)),
        ("78.8", ("known misstep", "decimal-point-moved", 0)),
        ("0.788 cm", ("right", "", 2)),
        ("7.88 cm", ("known misstep", "decimal-point-moved", 0)),
        ("7.88 in", ("known misstep", "inch-for-mm", 0)),  # 7.88 x 25.4 = 200.152 mm
        ("0.31 in", ("not yet", "", 0)),  # 0.31 x 25.4 = 7.874 mm: an inch value, rounded
        ("7.9", ("known misstep", "rounded-too-early", 0)),
        ("7.88 mil", ("not judged", "", 0)),
        ("", ("not judged", "", 0)),
        (None, ("not judged", "", 0)),
    ],
)
def test_standings(entry, expected):
    """Right within half the last figure; each misstep under its own tag; junk is not judged; worked by hand."""
    assert standing(READ, V, entry) == expected


def test_an_own_earlier_slip_is_carried_forward():
    """7.38 read for 7.88, then 7.36 worked from it: the second answer earns its mark."""
    assert standing(SIZE, V_SIZE, "7.36", "7.38") == ("right", marking.CARRIED, 1)
    assert standing(SIZE, V_SIZE, "7.36", "7.88") == ("not yet", "", 0)
    assert standing(SIZE, V_SIZE, "7.36", None) == ("not yet", "", 0)


def test_a_misstep_on_a_carried_value_is_still_named():
    """7.38 read, then 7.40: the sign of the zero error was turned on the own value."""
    assert standing(SIZE, V_SIZE, "7.40", "7.38") == ("known misstep", "sign", 0)


def test_right_beats_carried_and_misstep():
    """The right value is right whatever was typed before."""
    assert standing(SIZE, V_SIZE, "7.86", "7.84") == ("right", "", 1)


@pytest.mark.parametrize("earlier", ["0", "-3", "30 mm", "abc", "7.88 mil", "8", "7.9"])
def test_what_may_not_be_carried(earlier):
    """Nothing unreadable, impossible, or rounder than the right value is carried forward."""
    own = {"0": "-0.02", "-3": "-3.02", "30 mm": "29.98", "8": "7.98", "7.9": "7.88"}.get(earlier, "5.01")
    assert standing(SIZE, V_SIZE, own, earlier)[1] != marking.CARRIED


def test_nothing_is_carried_into_a_critical_item():
    """A critical item must be right on the right earlier value."""
    critical = dataclasses.replace(SIZE, critical=True)
    assert standing(critical, V_SIZE, "7.36", "7.38")[0] == "not yet"


def test_a_misstep_that_meets_the_right_answer_sleeps():
    """At thimble 25 the line counted from the wrong side is the same line: that misstep is not offered."""
    tags = [misstep.tag for misstep, _ in READ.awake({"s": 7, "n": 25, "z": 0.02})]
    assert tags == ["half-line-missed", "division-doubled"]


def test_choices_and_orders():
    """The same judging holds for letters: right, named wrong option, other order."""
    choice = dataclasses.replace(
        READ,
        answer=Choice({"ratchet": "ratchet, the same force", "thimble": "thimble, to be sure"}),
        right=lambda v: "ratchet",
        missteps=(Misstep("thimble-as-clamp", lambda v: "thimble", "{entry}: force springs the frame.", "Try both."),),
    )
    listed = {"order": ("thimble", "ratchet")}
    assert standing(choice, listed, "b") == ("right", "", 2)
    assert standing(choice, listed, "a") == ("known misstep", "thimble-as-clamp", 0)
    order = dataclasses.replace(
        choice,
        answer=Order({"clean": "clean", "zero": "zero", "read": "read"}),
        right=lambda v: ("clean", "zero", "read"),
        missteps=(Misstep("read-first", lambda v: ("read", "clean", "zero"), "{entry}: a chip.", "Paper."),),
    )
    listed = {"order": ("read", "zero", "clean")}
    assert standing(order, listed, "c b a") == ("right", "", 2)
    assert standing(order, listed, "a c b") == ("known misstep", "read-first", 0)
    assert standing(order, listed, "b c a") == ("not yet", "", 0)


def test_call_outs():
    """A call-out is right, a named slip, not yet, or handed back with the place; what is asked is said."""
    assert standing(CALL_OUT, {}, "M10 x 1,25 - 6g") == ("right", "", 2)
    assert standing(CALL_OUT, {}, "M ten by one point five, class six small g") == ("known misstep", "coarse", 1)
    assert standing(CALL_OUT, {}, "M10x1.25-6h") == ("not yet", "", 0)
    assert standing(CALL_OUT, {}, "M10-6g") == ("not judged", "", 0)
    handed_back = marking.judge(CALL_OUT, {}, "M10x1.25-6q")
    assert handed_back.standing == "not judged" and "sign 11" in handed_back.message
    assert "Write the pitch too" in marking.allowance(CALL_OUT, {})


def test_variants_differ_over_the_roll_and_between_series():
    """While the roll is no longer than the list all have other numbers; a second series gives new ones."""
    first = [tuple(READ.variant(candidate).items()) for candidate in range(40)]
    assert len(set(first)) == 40
    assert all(READ.variant(c, 1) != READ.variant(c, 2) != READ.variant(c, 3) for c in range(40))


def test_followers_share_the_draw():
    """The exercise that follows asks about the same part: same numbers, right earlier value added."""
    for candidate in range(40):
        before, after = READ.variant(candidate), SIZE.variant(candidate)
        assert after == {**before, "earlier": READ.right(before)}


def test_the_text_form_is_the_mark_and_the_html_the_message():
    """A verdict's plain form is its marks, so that a stock gradebook run finds the same figure."""
    bundle = marking.judge(READ, V, "8.26")._repr_mimebundle_()
    assert bundle["text/plain"] == "1"
    assert "Known misstep" in bundle["text/html"] and "8.26 mm: 0.02 a line." in bundle["text/html"]
    assert bundle[marking.MIME]["entry"] == "8.26"


def test_what_was_typed_cannot_become_markup():
    """Typed markup is shown as text."""
    block = marking.judge(READ, V, "3 <script>").html()
    assert "<script>" not in block and "&lt;script&gt;" in block


@pytest.mark.parametrize("unit, said", [
    ("N*m", "Answer in N m, 1 decimal. Taken as right within ±0.05 N m."),
    ("", "Answer as a plain number, 1 decimal. Taken as right within ±0.05."),
])  # fmt: skip
def test_products_of_units_and_plain_numbers_are_asked_for_in_plain_words(unit, said):
    """A torque is asked for in N m, a coefficient as a plain number."""
    asked = dataclasses.replace(READ, answer=Quantity(unit, 0.1, (0, 9)))
    assert marking.allowance(asked, V) == said
