"""The call-out exercises against published sizes and arithmetic done by hand.

Sources: ISO 261 and ISO 262 (coarse and fine pitches; reprints); ISO 965-1 and ISO 965-2 (M10-6g over the
crests 9.968 to 9.732 mm, so es = 0.032 and Td = 0.236 mm; reprints, also ASME B1.13M); ISO 898-1 (stress areas,
marks of property classes; reprints); ISO 888 (b = 2 d + 6), ISO 2902 (trapezoidal), ASME B1.1 (UNC, UNF) and
ISO 4014 (height of heads), from memory; the inch is 25.4 mm by definition. Nine gaps between ten crests:
counted. The hand-worked sums stand beside each value.
"""

from importlib import import_module
from pathlib import Path

import pytest

from workbench import exercises
from workbench.exercises import find, of_lesson
from workbench.exercises.exercise import Designation, Quantity
from workbench.marking import judge
from workbench.threads.designation import parse
from workbench.threads.explanation import spoken
from workbench.threads.known_threads import known_thread
from workbench.threads.lookalikes import possible, turns_before_binding
from workbench.threads.matching import major_limits_mm
from workbench.threads.measured import Measured

LESSON = Path(__file__).parents[2] / "instructor" / "lessons" / "reading_a_callout.md"
DRAWERS_8 = {"drawers": "M8, M8x1, 5/16-18 UNC, 5/16-24 UNF", "bare": "M8", "coarse": 1.25}
M10 = {"size": 10, "pitch": 1.5, "screw": "6g", "below": 0.032, "width": 0.236}

RIGHT = [
    # ISO 261: 2 for M16 and M14, 3.5 for M30, 1.25 for M8
    ("in_full", {"size": 16, "length": 60}, "M16x2x60"),
    ("in_full", {"size": 30, "length": 100}, "M30x3.5x100"),
    ("in_full", {"size": 8, "length": 30}, "M8x1.25x30"),
    # letter, diameter, pitch, class, hand
    ("heard", {"size": 12, "pitch": 1.25, "screw": "6g"}, "M12x1.25-6g-LH"),
    # 25.4 / 20 and 25.4 / 13
    ("inch_pitch", {"per_inch": 20}, 1.27),
    ("inch_pitch", {"per_inch": 13}, 1.953846),
    # 6 / 2; ISO 965-1 prints M16×Ph3P1.5 as two starts
    ("starts", {"size": 20, "lead": 6, "pitch": 2}, 3),
    ("starts", {"size": 16, "lead": 3, "pitch": 1.5}, 2),
    # 14 x 2.5, the example of ISO 2902
    ("advance", {"size": 40, "lead": 14, "pitch": 7, "turns": 2.5}, 35),
    # 46.4 - 6.4 (ISO 4014: M10 has a head of 6.4)
    ("ordered", {"size": 10, "overall": 46.4, "head": 6.4}, 40),
    # 8 + 32
    ("flush", {"size": 10, "head": 5, "cover": 8, "reach": 32}, 40),
    # 80 - 30 (ISO 888: b = 30 for M12 up to 125)
    ("plain", {"size": 12, "length": 80}, 50),
    # nut first
    ("pair", {"size": 10, "pitch": 1.25, "nut": 7, "screw": 6, "letter": "g"}, "M10x1.25-7H/6g"),
    # 10 - 0.032 - 0.236: the lower limit that ISO 965-2 prints
    ("least", M10, 9.732),
    # 9.968 - 9.900
    ("repair", {**M10, "measured": 9.9, "under": 0.1}, 0.068),
    # 58.0 mm2 x 640 MPa = 37 120 N; by its figures 10.9 yields at 900 MPa: 84.3 x 900 = 75 870 N
    ("load", {"property_class": "8.8", "area": 58.0}, 37.12),
    ("load", {"property_class": "10.9", "area": 84.3}, 75.87),
    # 11.25 / 9
    ("crests", {"length": 11.25}, 1.25),
    # 12.70 / 9 = 1.411 = 25.4 / 18; 11.25 / 9 = 1.25; 9.52 / 9 = 1.058 = 25.4 / 24; 9.00 / 9 = 1
    ("which", {**DRAWERS_8, "length": 12.70}, "5/16-18 UNC"),
    ("which", {**DRAWERS_8, "length": 11.25}, "M8x1.25"),
    ("which", {**DRAWERS_8, "length": 9.52}, "5/16-24 UNF"),
    ("which", {**DRAWERS_8, "length": 9.00}, "M8x1"),
    # 4 x (25.4 / 18 - 1.25) = 4 x 0.161111
    ("mismatch", {"per_inch": 18, "pitch": 1.25, "turns": 4}, 0.644444),
]

# one value for each misstep in the order listed; None: asleep
WRONG = [
    # ISO 261: M16 has 2, 1.5 and 1
    ("in_full", {"size": 16, "length": 60}, ["M16x1.5x60", "M16x1x60", "M16x2"]),
    # hand; capital; coarse 1.75; 125 without its point is a length, the pitch then coarse; class
    ("heard", {"size": 12, "pitch": 1.25, "screw": "6g"},
     ["M12x1.25-6g", "M12x1.25-6G-LH", "M12x1.75-6g-LH", "M12x1.75x125-6g-LH", "M12x1.25-LH"]),
    # 1 / 20; 25 / 20; 20 / 25.4; the count
    ("inch_pitch", {"per_inch": 20}, [0.05, 1.25, 0.7874016, 20]),
    # Ph; one; 6 x 2
    ("starts", {"size": 20, "lead": 6, "pitch": 2}, [6, 1, 12]),
    # 7 x 2.5; 28 x 2.5; 14 x 2; 2 x 2.5; once
    ("advance", {"size": 40, "lead": 14, "pitch": 7, "turns": 2.5}, [17.5, 70, 28, 5, 14]),
    # all; + 6.4; the thread; 46.4 - 12.8
    ("ordered", {"size": 10, "overall": 46.4, "head": 6.4, "threaded": 26}, [46.4, 52.8, 26, 33.6]),
    # 40 - 5; 40 + 5; frame alone; cover alone; 32 + 5
    ("flush", {"size": 10, "head": 5, "cover": 8, "reach": 32}, [35, 45, 32, 8, 37]),
    # 80 - 24; 30; 80 - 18; 0; 80 - 12; 50 - 6
    ("plain", {"size": 12, "length": 80}, [56, 30, 62, 0, 68, 44]),
    # grades; letters; one of the two; coarse (ISO 261: M10 has 1.5); two nuts; two screws; e for g
    ("pair", {"size": 10, "pitch": 1.25, "nut": 7, "screw": 6, "letter": "g"},
     ["M10x1.25-6H/7g", "M10x1.25-7G/6h", "M10x1.25-6g", "M10x1.25-7H", "M10-7H/6g",
      ("7H", "6G"), ("7h", "6g"), "M10x1.25-7H/6e"]),
    # 10 - 0.236; 10 - 0.118; 10 - 0.032; 10.032 - 0.236; 9.968 + 0.236; 10.032 + 0.236
    ("least", M10, [9.764, 9.882, 9.968, 9.796, 10.204, 10.268]),
    # 10 - 9.9; 9.9 - 9.732; 10.032 - 9.9; 9.9 - 9.882
    ("repair", {**M10, "measured": 9.9, "under": 0.1}, [0.1, 0.168, 0.132, 0.018]),
    # 84.3 x 1000; x 1090; x 90; x 640, the 8.8 of the lesson
    ("load", {"property_class": "10.9", "area": 84.3}, [84.3, 91.887, 7.587, 53.952]),
    # 11.25 / 10; / 11; 9 / 11.25
    ("crests", {"length": 11.25}, [1.125, 1.0227273, 0.8]),
    # same family; then the inch drawers: 1.27 (12.70 / 10) points to M8
    ("which", {**DRAWERS_8, "length": 12.70}, ["5/16-24 UNF", "M8", "M8x1"]),
    # once; 4 x (25 / 18 - 1.25); 4 x (1.25 - 1 / 18); 8 - 7.9375
    ("mismatch", {"per_inch": 18, "pitch": 1.25, "turns": 4, "inches": 0.3125, "nut": "M8"},
     [0.161111, 0.555556, 4.777778, 0.0625]),
]  # fmt: skip


def agrees(exercise, value, expected):
    """The value worked by hand: a figure, the thread of a call-out with all its fields, or its two classes."""
    if isinstance(expected, tuple):
        return (value.nut_class, value.screw_class) == expected
    if isinstance(exercise.answer, Designation):
        return value == parse(expected)
    return value == pytest.approx(expected, abs=1e-6)


@pytest.mark.parametrize("name, variant, expected", RIGHT, ids=[f"{row[0]}-{row[2]}" for row in RIGHT])
def test_the_right_answer_is_the_one_worked_by_hand(name, variant, expected):
    """Right answers agree with published sizes and with sums done by hand."""
    exercise = find(f"reading_a_callout.{name}")
    assert agrees(exercise, exercise.right(variant), expected)


@pytest.mark.parametrize("name, variant, expected", WRONG, ids=[row[0] for row in WRONG])
def test_each_misstep_gives_the_value_that_its_error_leads_to(name, variant, expected):
    """Wrong values agree with the error worked through by hand."""
    exercise = find(f"reading_a_callout.{name}")
    wrong = [misstep.wrong(variant) for misstep in exercise.missteps]
    assert len(wrong) == len(expected)
    assert all(agrees(exercise, found, value) for found, value in zip(wrong, expected, strict=True))


def test_every_item_with_figures_is_worked_by_hand():
    """No item but the two choices goes without a right answer and missteps worked above."""
    asked = {exercise.name for exercise in of_lesson("reading_a_callout")}
    assert asked == {row[0] for row in RIGHT} | {"tight", "hand"} == {row[0] for row in WRONG} | {"tight", "hand"}


def test_a_pair_that_goes_tight_is_taken_apart_and_this_must_be_right():
    """Stop and compare is the safe act, competence needs it; LH tightens anticlockwise (common practice, no source)."""
    tight, hand = find("reading_a_callout.tight"), find("reading_a_callout.hand")
    assert tight.critical and tight.right(tight.variant(0)) == "stop"
    assert hand.right(hand.variant(0)) == "against" and hand.answer.options["against"].startswith("Anticlockwise")


def test_every_outcome_is_judged_six_times_over_the_lesson_and_its_second_set():
    """Three items an outcome, asked again with other numbers, are six."""
    found = [exercise.outcome for exercise in of_lesson("reading_a_callout")]
    assert all(2 * found.count(outcome) >= 6 for outcome in found)
    assert len(set(found)) == 5


@pytest.mark.parametrize("name, tolerance_class", [("least", None), ("repair", "6g")])
def test_limits_printed_in_a_question_are_the_limits_of_its_call_out(name, tolerance_class):
    """In every draw, place and width of the zone lead to the limits that the call-out has on its own."""
    for draw in find(f"reading_a_callout.{name}").draws():
        low, high, used = major_limits_mm(parse(f"M{draw['size']:g}x{draw['pitch']:g}-{draw['screw']}"))
        top = draw["size"] - draw["below"]
        assert (round(top - draw["width"], 3), round(top, 3)) == (round(low, 3), round(high, 3))
        assert tolerance_class in (None, used)


def test_the_workmates_screw_is_good_and_nearer_to_the_upper_limit_for_everybody():
    """In every draw of the find-the-mistake the screw passes, and the same limit is the nearer one."""
    for draw in find("reading_a_callout.repair").draws():
        low, high, _ = major_limits_mm(parse(f"M{draw['size']:g}x{draw['pitch']:g}-6g"))
        assert low < draw["measured"] < high
        assert high - draw["measured"] < draw["measured"] - low


def test_what_was_measured_leaves_one_drawer():
    """In every draw, size over the crests and ten crests by calliper leave just the right drawer possible."""
    which = find("reading_a_callout.which")
    for draw in which.draws():
        # ± 0.02 mm over the crests, ± 0.05 mm over nine gaps (common practice, no source)
        left = {one.name for one in possible(Measured(draw["major"], 0.02), Measured(draw["length"] / 9, 0.05 / 9))}
        drawers = draw["drawers"].split(", ")
        assert [parse(one) for one in drawers if one in left] == [which.right(draw)], draw


def test_the_slips_with_class_letters_are_judged_and_a_swapped_pair_is_told_so():
    """7H/8G, 7h/8g and 7H/8e have names; 8g/7H is handed back without a class that nobody gave."""
    pair = find("reading_a_callout.pair")
    variant = {"size": 10, "pitch": 1.25, "nut": 7, "screw": 8, "letter": "g", "begins": "a little below nominal"}
    for typed, tag in (("7H/8G", "both-letters-capital"), ("7h/8g", "both-letters-small"),
                       ("7H/8e", "other-small-letter"), ("8H/7g", "grades-swapped")):  # fmt: skip
        assert judge(pair, variant, f"M10x1.25-{typed}").tag == tag
    verdict = judge(pair, variant, "M10x1.25-8g/7H")
    assert verdict.standing == "not judged" and "other way round" in verdict.message and "6H" not in verdict.message


def test_the_rule_of_thumb_fails_as_the_lesson_says():
    """A 5/16-18 UNC screw enters an M8 nut for more than one turn and then binds; an M8 goes all the way."""
    assert 1 < turns_before_binding(known_thread("5/16-18 UNC"), known_thread("M8")).turns < 3
    assert turns_before_binding(known_thread("M8"), known_thread("M8")).turns == float("inf")


def test_a_pitch_rounded_to_three_figures_is_good_enough_for_the_mismatch():
    """In every draw the pitch of the inch screw, rounded to three figures, still leads to a right answer."""
    mismatch = find("reading_a_callout.mismatch")
    for draw in mismatch.draws():
        rounded = draw["turns"] * abs(float(f"{25.4 / draw['per_inch']:.3g}") - draw["pitch"])
        assert mismatch.answer.same(rounded, mismatch.right(draw), draw)


def test_what_is_called_across_the_bay_reads_back_as_the_call_out():
    """In every draw the words that are heard say the thread that is wanted, and nothing of it is printed."""
    heard = find("reading_a_callout.heard")
    for draw in heard.draws():
        assert draw["said"].replace(",", "") == spoken(heard.right(draw))
        assert judge(heard, draw, draw["said"]).standing == "right"


def test_a_call_out_without_its_pitch_is_handed_back_where_the_pitch_is_asked():
    """M16x60 says nothing about the pitch: not judged; the class of a screw may be typed beside it."""
    in_full = find("reading_a_callout.in_full")
    variant = {"size": 16, "length": 60, "pitches": "1, 1.5, 2"}
    assert judge(in_full, variant, "M16x60").standing == "not judged"
    assert judge(in_full, variant, "M16x2x60-6g").standing == "right"
    assert judge(in_full, variant, "M16 by 1,5 by 60").tag == "fine-pitch-supplied"


def test_the_bolt_is_shown_with_letters_alone():
    """The picture of the plain part can be drawn for everybody and gives no figure away."""
    plain = find("reading_a_callout.plain")
    for candidate in (0, 7):
        name, arguments = plain.shows(plain.variant(candidate))
        png, text = import_module(f"workbench.drawings.{name}").picture(**arguments)
        assert png.startswith(b"\x89PNG") and not any(sign.isdigit() for sign in text)


def test_the_lesson_text_keeps_its_promises():
    """Marks, outcomes, cautions before the act, worked, faded, alone, and a stop at least every four questions."""
    text = LESSON.read_text(encoding="utf-8")
    asked = of_lesson("reading_a_callout")
    assert f"{len(asked)} questions, {sum(exercise.marks for exercise in asked)} marks" in text
    assert all(exercise.outcome.removeprefix("can ") in text.split("+++")[0] for exercise in asked)
    order = ["Afterwards you can", "How it is marked", "±0.05 mm", "Before you touch", "```{question}", "```{panel}",
             "Worked:", "Faded:", "Alone:", "Find the mistake", "where it fails", "At the bench",
             "Three sentences to remember", "To leave"]  # fmt: skip
    found = [text.index(mark) for mark in order]
    assert found == sorted(found)
    parts = text.split("Save and stop here")
    assert len(parts) == 5 and all(part.count("```{question}") <= 4 for part in parts)


def test_worked_examples_in_the_lesson_come_out_as_printed():
    """Figures of the lesson's text: coarse M10, 20 threads an inch, M2-6g limits, the wrong pair."""
    text = LESSON.read_text(encoding="utf-8")
    assert "M10×1.5×50" in text and parse("M10x50").pitch_mm == 1.5  # ISO 261
    assert "1.270 mm" in text  # 25.4 / 20
    assert "1.981" in text and "1.886" in text  # ISO 965-2: M2-6g 1.981 to 1.886 mm, from memory
    assert major_limits_mm(parse("M2-6g"))[:2] == (1.886, 1.981)
    assert "0.64 mm" in text  # 4 x 0.1611


def test_choices_are_few_and_most_marks_are_for_figures_or_call_outs():
    """Two letters are asked among seventeen items; all else is a figure or a call-out."""
    kinds = [exercise.answer for exercise in exercises.of_lesson("reading_a_callout")]
    assert sum(isinstance(kind, Quantity | Designation) for kind in kinds) == len(kinds) - 2
