"""The thread-forms exercises against printed sizes and arithmetic done by hand.

Sources: ISO 2904 (root diameters of trapezoidal threads) as reprinted; ISO 2901, ASME B1.5, ASME B1.9 and DIN 513
(heights of the sharp triangle) as reprinted; a machine-design textbook's worked power screw, from memory. Outward
push and parting force are the wedge and the hoop of mechanics: common practice, no source. Tangents, cosines and
arcs are those of a four-figure table, carried further with a pocket calculator; other sums stand beside each value.
"""

import math
import re
from importlib import import_module
from pathlib import Path

import pytest

from workbench.exercises import find, of_lesson
from workbench.tables import table

TR20 = {"size": 20, "pitch": 4, "clearance": 0.25}
THREE_THIRTY = {"size": 20, "pitch": 5, "load": 3, "other": 30}
SEVEN_FORTY_FIVE = {"size": 20, "pitch": 4, "load": 7, "other": 45}
REVERSED = {"force": 3000, "load": 7, "other": 45}
TR_PUSH = {"force": 10000, "whole": 30}
RUBS = {"climb": 4.05, "rubs": 0.12, "whole": 30}
TR24 = {"size": 24, "pitch": 5, "starts": 2}
CREEPS = {"climb": 9.04, "dry": 0.16, "shaken": 0.04, "whole": 30}
SPINDLE = {"size": 16, "pitch": 2, "inner": 12, "fine": 1.75, "turns": 3}
WAY = {"size": 12, "pitch": 2, "inner": 8, "fine": 1.25, "way": 0.9, "both": 3.25}

RIGHT = [
    # 23.8 - 5/2
    ("mean_diameter", {"crest": 23.8, "pitch": 5}, 21.3, 1e-9),
    # ISO 2904 prints d3 of Tr20x4, Tr28x5, Tr12x3, Tr16x2
    ("root", TR20, 15.5, 1e-9),
    ("root", {"size": 28, "pitch": 5, "clearance": 0.25}, 22.5, 1e-9),
    ("root", {"size": 12, "pitch": 3, "clearance": 0.25}, 8.5, 1e-9),
    ("root", {"size": 16, "pitch": 2, "clearance": 0.25}, 13.5, 1e-9),
    # DIN 513 prints H = 1.5879 P (from memory); ASME B1.9 prints H = 0.890643 P
    ("triangle", THREE_THIRTY, 7.9395, 0.0005),
    ("triangle", SEVEN_FORTY_FIVE, 3.562572, 5e-6),
    # 3000 x (1 - 0.122785)
    ("reversed", REVERSED, 2631.646, 0.001),
    # 10000 x 0.267949; x 0.258618
    ("push", TR_PUSH, 2679.492, 0.001),
    ("push", {"force": 10000, "whole": 29}, 2586.176, 0.001),
    # 2679.492 / 3.141593
    ("parting", {**TR_PUSH, "earlier": 2679.492}, 852.909, 0.001),
    # 0.12 / 0.965926 = 0.124233, whose arc is 7.0818 degrees
    ("friction", RUBS, 7.0818, 0.0001),
    # 0.070805 / 0.196735
    ("efficiency", {**RUBS, "earlier": 7.08}, 35.99, 0.005),
    # textbook power screw (from memory): square, 32 mm, pitch 4 mm, two starts, f = 0.08: lead angle 4.852,
    # friction angle 4.574 degrees; thread alone needs 15.94 N m for 6.4 kN: 6.4 x 8 / (2 pi x 15.94) = 0.511
    ("efficiency", {"climb": 4.852, "earlier": 4.574}, 51.1, 0.05),
    # 10 x 100 / 360
    ("part_turn", {**TR24, "angle": 100}, 2.777778, 1e-6),
    # 10 / (3.141593 x 21.5) = 0.148052
    ("lead_angle", TR24, 8.4216, 0.0001),
    # the same textbook screw: 8 / (pi x 30)
    ("lead_angle", {"size": 32, "pitch": 4, "starts": 2}, 4.852, 0.0005),
    # 55 / (5 x 2); 90 / (5 x 3)
    ("turns", {**TR24, "stroke": 55}, 5.5, 1e-9),
    ("turns", {"size": 24, "pitch": 5, "starts": 3, "stroke": 90}, 6, 1e-9),
    # 0.04 / 0.965926 = 0.041411, arc 2.3713; 9.04 - 2.3713
    ("creeps", CREEPS, 6.6687, 0.0001),
    # (2 - 1.75) x 3; (2 + 1.75) x 3; 0.9 / 0.75
    ("fine", SPINDLE, 0.75, 1e-9),
    ("tensioner", SPINDLE, 11.25, 1e-9),
    ("repair", WAY, 1.2, 1e-9),
]

# one value for each misstep in the order listed, on the draw named; sums by hand
WRONG = [
    # 23.8 - 5; - 1.25; whole; - 10; + 2.5
    ("mean_diameter", {"crest": 23.8, "pitch": 5}, [18.8, 22.55, 23.8, 13.8, 26.3]),
    # 20 - 4; - 0.25; - 1.226869 x 4; - 8 - 0.5; - 2.25; - 0.5
    ("root", TR20, [16, 15.75, 15.092523, 11.5, 17.75, 19.5]),
    # 4 / (2 x 0.1227846); 4 / 2; 4 / tan 52 = 4 / 1.2799416; 4 x 1.1227846; 4 / 0.1227846; 4 / 1
    ("triangle", SEVEN_FORTY_FIVE, [16.288693, 2, 3.125143, 4.491138, 32.577386, 4]),
    # 3000; x 0.1227846; x 1.1227846; x tan 38 = 0.7812856; 1 / 0.1227846
    ("reversed", REVERSED, [3000, 368.3537, 3368.3537, 2343.8569, 8.144345]),
    # x tan 30; nil; / 0.2679492; x sin 15 = 0.2588190; itself
    ("push", TR_PUSH, [5773.5027, 0, 37320.508, 2588.1905, 10000]),
    # / 2; whole; x pi; / 2 pi
    ("parting", {**TR_PUSH, "earlier": 1000}, [500, 1000, 3141.5927, 159.15494]),
    # arc of 0.12; of 0.12 / 0.8660254; of 0.12 x 0.9659258; 0.12 / 0.9659258
    ("friction", RUBS, [6.8427734, 7.8889094, 6.6117, 0.12423313]),
    # 0.070805 / 0.124201; 100 - 35.990; 1 / 0.35990; 0.070805
    ("efficiency", {**RUBS, "earlier": 7.08}, [57.008, 64.01, 277.86, 7.0805]),
    # half; 5 / 2 x 100 / 360; 10; 10 x 100 / 180; 10 x 3.6
    ("part_turn", {**TR24, "angle": 100}, [1.3888889, 0.69444444, 10, 5.5555556, 36]),
    # arcs of 0.074026, of 10 / 75.398224, of 10 / 21.5; 90 - 8.4216; 0.148052; arc of 10 / 59.690260 = 0.167531
    ("lead_angle", TR24, [4.23366, 7.55499, 24.94389, 81.57841, 0.148052, 9.51053]),
    # 55 / 5; 55 x 2 / 5; 55 / 2; 10 / 55
    ("turns", {**TR24, "stroke": 55}, [11, 22, 27.5, 0.18181818]),
    # 9.04 - arc of 0.16 / 0.9659258 = 9.4053; 9.04 - 2.29061; other sign; 2.37135
    ("creeps", CREEPS, [-0.36531, 6.74939, -6.66865, 2.37135]),
    # 3.75 x 3; 2 x 3; 1.75 x 3; 0.25
    ("fine", SPINDLE, [11.25, 6, 5.25, 0.25]),
    # 0.25 x 3; 2 x 3; 1.75 x 3; 11.25 / 2; once
    ("tensioner", SPINDLE, [0.75, 6, 5.25, 5.625, 3.75]),
    # 0.9 / 3.25; / 2; 0.75 / 0.9; 0.9 / 1.25; 1.2 - 0.276923
    ("repair", WAY, [0.27692308, 0.45, 0.83333333, 0.72, 0.92307692]),
]


@pytest.mark.parametrize("name, variant, expected, within", RIGHT, ids=[f"{row[0]}-{row[2]}" for row in RIGHT])
def test_the_right_answer_is_the_one_printed_or_worked_by_hand(name, variant, expected, within):
    """Right answers agree with reprinted standards, a textbook's screw, and sums done by hand."""
    assert find(f"thread_forms.{name}").right(variant) == pytest.approx(expected, abs=within)


@pytest.mark.parametrize("name, variant, expected", WRONG, ids=[row[0] for row in WRONG])
def test_each_misstep_gives_the_value_that_its_error_leads_to(name, variant, expected):
    """Wrong values agree with the error worked through by hand."""
    wrong = [misstep.wrong(variant) for misstep in find(f"thread_forms.{name}").missteps]
    assert wrong == pytest.approx(expected, rel=2e-5, abs=1e-5)


def three(value):
    """A value kept to three figures on the way, as on a small calculator."""
    return float(f"{value:.3g}")


def tan(degrees):
    """The tangent that a calculator set to degrees shows."""
    return math.tan(math.radians(degrees))


def arc(value):
    """The tan⁻¹ key, in degrees."""
    return math.degrees(math.atan(value))


# the working as the hints teach it, each intermediate result kept to three figures, printed constants as printed
BY_HAND = {
    "mean_diameter": lambda v: v["crest"] - 2 * v["depth"] / 2,
    "root": lambda v: v["size"] - 2 * (v["pitch"] / 2 + v["clearance"]),
    "triangle": lambda v: v["pitch"] / three(v["tan_load"] + v["tan_other"]),
    "reversed": lambda v: three(v["force"] * v["tan_other"]) - three(v["force"] * v["tan_load"]),
    "push": lambda v: v["force"] * v["tan_half"],
    "parting": lambda v: three(BY_HAND["push"](v)) / 3.142,
    "friction": lambda v: arc(three(v["rubs"] / v["cos_half"])),
    "efficiency": lambda v: 100 * three(tan(v["climb"])) / three(tan(v["climb"] + three(BY_HAND["friction"](v)))),
    "part_turn": lambda v: v["share"] * v["pitch"] * v["starts"],
    "lead_angle": lambda v: arc(three(v["pitch"] * v["starts"] / three(3.142 * (v["size"] - v["pitch"] / 2)))),
    "turns": lambda v: v["stroke"] / (v["pitch"] * v["starts"]),
    "creeps": lambda v: v["climb"] - three(arc(three(v["shaken"] / 0.966))),
    "fine": lambda v: (v["pitch"] - v["fine"]) * v["turns"],
    "tensioner": lambda v: (v["pitch"] + v["fine"]) * v["turns"],
    "repair": lambda v: v["way"] / (v["pitch"] - v["fine"]),
}


@pytest.mark.parametrize("name", BY_HAND)
def test_honest_rounding_on_the_way_is_right(name):
    """In every draw the hints' own working, rounded on the way and at the end as asked, is within the tolerance."""
    exercise = find(f"thread_forms.{name}")
    for draw in exercise.draws():
        variant = exercise.of_draw(draw)
        for typed in (BY_HAND[name](variant), exercise.answer.rounded(BY_HAND[name](variant))):
            assert exercise.answer.same(typed, exercise.right(variant), variant), (draw, typed)


def test_every_trapezoidal_size_asked_about_is_one_of_iso_2902():
    """Sizes and pitches of all draws that say Tr are sizes of the table of ISO 2902."""
    known = {(row["diameter_mm"], row["pitch_mm"]) for row in table("trapezoidal_sizes").rows.values()}
    for exercise in of_lesson("thread_forms"):
        for draw in exercise.draws():
            assert "size" not in draw or (draw["size"], draw["pitch"]) in known, (exercise.key, draw)


def test_the_fine_thread_fits_inside_the_moving_one():
    """The metric thread is a coarse one of ISO 261 and at least 1 mm thinner than the root d - P - 2 a_c (ISO 2904)."""
    coarse = {(row["diameter_mm"], row["pitch_mm"]) for row in table("iso_261_metric").rows.values()
              if row["series"] == "coarse"}  # fmt: skip
    for name in ("fine", "tensioner", "repair"):
        for draw in find(f"thread_forms.{name}").draws():
            assert (draw["inner"], draw["fine"]) in coarse
            assert draw["inner"] <= draw["size"] - draw["pitch"] - 2 * 0.25 - 1  # a_c 0.25 for P 2 to 5: ISO 2901
            assert draw["fine"] < draw["pitch"]


def test_the_printed_lines_of_a_working_follow_from_each_other():
    """What a workmate has written is half a pitch, a share of a turn, a sum of two leads, to the figures printed."""
    for draw in find("thread_forms.mean_diameter").draws():
        assert draw["depth"] == draw["pitch"] / 2
    for draw in find("thread_forms.part_turn").draws():
        assert draw["share"] == pytest.approx(draw["angle"] / 360, abs=0.0005)
    for draw in find("thread_forms.repair").draws():
        assert draw["both"] == draw["pitch"] + draw["fine"]
        assert draw["shown"] == pytest.approx(draw["way"] / draw["both"], abs=0.005)


@pytest.mark.parametrize("name, angles", [
    ("push", {"tan_half": "whole / 2", "tan_whole": "whole"}),
    ("triangle", {"tan_load": "load", "tan_other": "other"}),
    ("reversed", {"tan_load": "load", "tan_other": "other"}),
])  # fmt: skip
def test_printed_tangents_are_those_of_a_four_figure_table(name, angles):
    """tan 3, 7, 14.5, 15, 29, 30, 45 degrees from a four-figure table (from memory)."""
    printed = {3: 0.0524, 7: 0.1228, 14.5: 0.2586, 15: 0.2679, 29: 0.5543, 30: 0.5774, 45: 1.0}
    for draw in find(f"thread_forms.{name}").draws():
        for field, angle in angles.items():
            degrees = draw[angle.split()[0]] / (2 if "/" in angle else 1)
            assert draw[field] == printed[degrees]


def test_a_screw_that_holds_dry_runs_back_when_oiled_and_shaken():
    """In every draw the lead angle lies below the dry friction angle and above the shaken one: the rule fails."""
    for draw in find("thread_forms.creeps").draws():
        assert arc(draw["shaken"] / 0.966) < draw["climb"] < arc(draw["dry"] / 0.966)


def test_the_load_on_the_thread_alone_would_hold_on_paper():
    """The tempting reason is true on paper: friction angle above lead angle in every draw of the safety question."""
    for draw in find("thread_forms.hold").draws():
        assert draw["climb"] < draw["friction"]


def test_a_lifted_load_needs_a_stop_and_a_buttress_its_steep_flank():
    """Both are safety items (common practice, no source), and nothing else is."""
    critical = {exercise.name: exercise.right(exercise.variant(0))
                for exercise in of_lesson("thread_forms") if exercise.critical}  # fmt: skip
    assert critical == {"hold": "stop", "buttress": "steep"}


@pytest.mark.parametrize("job, form", [
    ("fastened to its lid", "metric"), ("split nut must close", "trapezoidal"), ("nut in two halves", "trapezoidal"),
    ("always the same way", "buttress"), ("thrust from one side only", "buttress"), ("thin bronze sleeve", "square"),
])  # fmt: skip
def test_the_form_follows_from_load_and_motion(job, form):
    """Fastening metric, half nut trapezoidal, one-way thrust buttress, no push square (common practice, no source)."""
    choose = find("thread_forms.choose")
    asked = [draw for draw in choose.draws() if job in draw["job"]]
    assert asked and {choose.right(draw) for draw in asked} == {form}


LESSON = Path(__file__).parents[2] / "instructor" / "lessons" / "thread_forms.md"


def test_the_lesson_names_its_marks_and_outcomes_first():
    """The first screen's count of questions and marks is that of the exercises; every outcome is promised there."""
    first = LESSON.read_text(encoding="utf-8").split("+++")[0]
    asked = of_lesson("thread_forms")
    assert f"{len(asked)} questions, {sum(exercise.marks for exercise in asked)} marks" in first
    for outcome in {exercise.outcome for exercise in asked}:
        assert outcome.removeprefix("can ") in first


def test_each_outcome_is_judged_three_times_or_more():
    """With the second set of numbers every outcome has at least six judged items."""
    outcomes = [exercise.outcome for exercise in of_lesson("thread_forms")]
    assert len(set(outcomes)) == 5 and min(outcomes.count(outcome) for outcome in outcomes) >= 3


def test_cautions_come_first_and_the_parts_of_the_lesson_in_order():
    """Cautions before the first question; worked, faded, alone; rule and failing case; bench, three sentences."""
    text = LESSON.read_text(encoding="utf-8")
    order = ["Afterwards you can", "How it is marked", "Before you touch", "```{question} hold", "Predict first",
             "```{panel}", "Worked:", "Faded:", "Alone", "where it fails", "```{question} creeps", "Find the mistake",
             "At the bench", "Three sentences to remember", "To leave"]  # fmt: skip
    found = [text.index(mark) for mark in order]
    assert found == sorted(found)
    assert all(part.count("```{question}") <= 4 for part in re.split("Save and stop here", text))


def test_the_table_of_forms_prints_published_figures():
    """H of ISO 68-1, ISO 2901, ASME B1.5 (1.9334 P); shared depth 0.5413 P, P/2, ASME B1.9 0.6 P, DIN 513 0.75 P."""
    text = LESSON.read_text(encoding="utf-8")
    for row in ("| metric 60° | 30° | 0.54 × pitch | 0.866 × pitch |", "| 15° | 0.5 × pitch | 1.866 × pitch |",
                "| 14.5° | 0.5 × pitch | 1.933 × pitch |", "| 3° and 30° | 0.75 × pitch |",
                "| 7° and 45° | 0.6 × pitch |", "| square | 0° | 0.5 × pitch |"):  # fmt: skip
        assert row in text


def test_the_worked_case_of_the_lesson_adds_up_and_is_nobodys_question():
    """Tr100x12 (d2 94, d3 87: ISO 2904) by hand: 268 N, 85 N, 28 %; metric 26 %, square 29 %; lead angle 4.6."""
    assert 1000 * tan(15) == pytest.approx(268, abs=0.5) and 268 / 3.142 == pytest.approx(85, abs=0.5)
    assert arc(12 / (3.142 * 94)) == pytest.approx(2.33, abs=0.005)
    for cosine, percent in ((0.966, 28), (0.866, 26), (1, 29)):
        assert 100 * tan(2.33) / tan(2.33 + arc(0.10 / cosine)) == pytest.approx(percent, abs=0.5)
    assert arc(24 / (3.142 * 94)) == pytest.approx(4.6, abs=0.05)
    assert 12 / (0.2679 + 0.2679) == pytest.approx(22.4, abs=0.05)
    assert all(draw.get("size") != 100 for exercise in of_lesson("thread_forms") for draw in exercise.draws())


@pytest.mark.parametrize("candidate", [0, 7])
def test_every_picture_can_be_drawn_and_keeps_the_answer_back(candidate):
    """Each question's picture is a PNG; its text equivalent never names the right answer."""
    shown = [exercise for exercise in of_lesson("thread_forms") if exercise.shows is not None]
    assert shown
    for exercise in shown:
        variant = exercise.variant(candidate)
        name, arguments = exercise.shows(variant)
        png, text = import_module(f"workbench.drawings.{name}").picture(**arguments)
        assert png.startswith(b"\x89PNG")
        assert f"{exercise.right(variant):.{exercise.answer.decimals}f}" not in text
