"""The threads-that-move exercises against worked examples and arithmetic done by hand.

Sources: textbooks' power screws (Shigley's example of a square thread 32 x 4 mm, a lathe's half nut by the wedge and
the hoop of mechanics), from memory; the rest common practice, no source. Tangents and cosines are those of a
four-figure table, carried further with a pocket calculator; the sums stand beside each value.
"""

import math
import re
from importlib import import_module
from pathlib import Path

import pytest

from workbench.exercises import find, of_lesson
from workbench.exercises.exercise import Choice
from workbench.screws.buckling import critical_load_n, end_factor
from workbench.screws.half_nut import closing
from workbench.screws.power import holding, raising_torque_nmm
from workbench.screws.screw_stress import root_axial_mpa, root_torsion_mpa, von_mises_mpa
from workbench.tables import table
from workbench.threads.profile import profile

JACK = {"size": 20, "pitch": 4, "starts": 1, "mean": 18, "rubs": 0.12, "climb": 4.05, "friction": 7.08,
        "mass": 815, "force": 8000, "under": 0.12, "collar": 26, "radius": 250}  # fmt: skip
STEEP = {"size": 24, "pitch": 5, "starts": 2, "mean": 21.5, "rubs": 0.08, "climb": 8.42, "friction": 4.73,
         "force": 5900, "share": 40}  # fmt: skip
WRONG_WAY = {"form": "buttress 7/45", "size": 36, "pitch": 6, "mean": 32.4, "climb": 3.37, "rubs": 0.12,
             "force": 9300, "load": 7, "other": 45}  # fmt: skip
WORK = {"lead": 4, "force": 8000, "torque": 25000}
WORN = {"size": 20, "pitch": 4, "play": 0.1}
CLOSED = {"size": 20, "pitch": 4, "starts": 2, "length": 36, "force": 8000}

RIGHT = [
    # 4/(18 pi) = 0.0707355; 0.12/0.9659258 = 0.1242331; 72 x 0.1949687 / (1 - 0.0087877)
    ("raise_torque", JACK, 14.1622, 0.0001),
    # 15.37 + 8 x 0.12 x 13 (the worked case: thread alone 15 370 N mm, with the collar 27 850)
    ("with_collar", {**JACK, "earlier": 15.37}, 27.85, 0.0001),
    ("crank", {**JACK, "earlier": 25}, 100, 1e-9),
    # 72 x (0.1242331 - 0.0707355) / 1.0087877
    ("lower", JACK, 3.8183, 0.0001),
    # 0.0707355 x 0.9659258; two starts twice that
    ("least", {"size": 20, "pitch": 4, "starts": 1}, 0.0683253, 1e-6),
    ("least", {"size": 20, "pitch": 4, "starts": 2}, 0.1366506, 1e-6),
    # 10/(21.5 pi) = 0.1480511; 0.08/0.9659258 = 0.0828221; 63.425 x 0.0652290 / 1.0122619
    ("bearing", STEEP, 4.0870, 0.0001),
    # 32000 / (6.2831853 x 25000)
    ("repair", WORK, 20.3718, 0.0001),
    # textbook square screw 32 x 4, two starts, 6.4 kN, 26.18 N m: efficiency 0.311
    ("repair", {"lead": 8, "force": 6400, "torque": 26180}, 31.1, 0.05),
    # 90 x 5 x 2 / 60; 33 x 7 x 3 / 60
    ("second", {"size": 24, "pitch": 5, "starts": 2, "turns": 90}, 15, 1e-9),
    ("second", {"size": 30, "pitch": 7, "starts": 3, "turns": 33}, 11.55, 1e-9),
    # 6/(32.4 pi) = 0.0589463; 0.12/0.7071068 = 0.1697056; 150.66 x 0.2286519 / 0.9899965
    ("turned_round", WRONG_WAY, 34.7968, 0.0001),
    # d2 = 36 - 0.75 x 6 = 31.5: 6/(31.5 pi) = 0.0606305; 0.12/0.8660254 = 0.1385641; 146.475 x 0.1991946 / 0.9915988
    ("turned_round", {**WRONG_WAY, "form": "buttress 3/30", "other": 30, "load": 3}, 29.4242, 0.0001),
    # 0.1 / 0.5358984
    ("take_up", WORN, 0.1866025, 1e-6),
    # 852.909 x 3.1415927 / 0.2679492: the parting force of 10 kN, turned round; 500 x pi / 0.2679492
    ("latch", {"latch": 852.909}, 10000, 0.1),
    ("latch", {"latch": 500}, 5862.29, 0.01),
    # 8000 / (pi x 18 x 2 x 9)
    ("pressure", CLOSED, 7.8595, 0.0001),
]

# one value for each misstep in the order listed, on the draw named; sums by hand
WRONG = [
    # twice; in N mm; 72 tan 3.03 = 72 x 0.0529328; 72 x 0.0708038; 72 x 0.1242021; x 815/8000
    ("raise_torque", JACK, [28.3244, 14162.2, 3.81116, 5.09787, 8.94255, 1.442774]),
    # alone; 12.48; + 24.96; - 12.48
    ("with_collar", {**JACK, "earlier": 15.37}, [15.37, 12.48, 40.33, 2.89]),
    # twice; 25 / 250; 25 x 0.25; 8000 x 4 / (2 pi x 250)
    ("crank", {**JACK, "earlier": 25}, [200, 0.1, 6.25, 20.37183]),
    ("lower", JACK, [14.1622, 0, -3.818274, 7.636548, 8.94255]),
    # tan 4.05; / 0.966; the angle; x 0.866312
    ("least", {"size": 20, "pitch": 4, "starts": 1, "climb": 4.05}, [0.0708038, 0.0732959, 4.05, 0.0613382]),
    # 63.425 x (0.1480511 + 0.0828221) / (1 - 0.0122619)... = 14.82491 / 2.. sums for 5900 N: half of 63.425
    ("bearing", STEEP, [0, 14.824915, -4.087035, 8.174071, 9.388413]),
    ("repair", WORK, [128, 40.743665, 804.24772, 79.628167]),
    ("second", {"size": 24, "pitch": 5, "starts": 2, "turns": 90}, [900, 7.5, 3.75, 10]),
    # on 7 deg: 150.66 x (0.0589463 + 0.1209012) / ...; multiplied; cos 52; twice; 150.66 x 0.1697056
    ("turned_round", WRONG_WAY, [27.290307, 21.764364, 38.681144, 69.593572, 25.567850]),
    # 0.1 / 0.2679492; / 1.1547005; x 0.5358984; itself; / 1.0717968
    ("take_up", WORN, [0.3732051, 0.0866025, 0.0535898, 0.1, 0.0933013]),
    # / pi; tan 30; twice; 500 x 0.2679492 / pi
    ("latch", {"latch": 500}, [1866.0254, 2720.69905, 11724.5834, 42.645438]),
    # two leads; nine ridges; half; x pi
    ("pressure", CLOSED, [15.719007, 70.735530, 3.929752, 24.691358]),
]


@pytest.mark.parametrize("name, variant, expected, within", RIGHT, ids=[f"{row[0]}-{row[2]}" for row in RIGHT])
def test_the_right_answer_is_the_one_printed_or_worked_by_hand(name, variant, expected, within):
    """Right answers agree with a textbook's screw and sums done by hand."""
    assert find(f"threads_that_move.{name}").right(variant) == pytest.approx(expected, abs=within)


@pytest.mark.parametrize("name, variant, expected", WRONG, ids=[row[0] for row in WRONG])
def test_each_misstep_gives_the_value_that_its_error_leads_to(name, variant, expected):
    """Wrong values agree with the error worked through by hand."""
    wrong = [misstep.wrong(variant) for misstep in find(f"threads_that_move.{name}").missteps]
    assert wrong == pytest.approx(expected, rel=2e-5, abs=1e-6)


def three(value):
    """A value kept to three figures on the way, as on a small calculator."""
    return float(f"{value:.3g}")


def tan(degrees):
    """The tangent that a calculator set to degrees shows."""
    return math.tan(math.radians(degrees))


def arc(value):
    """The tan⁻¹ key, in degrees."""
    return math.degrees(math.atan(value))


# the working as the hints teach it, each intermediate result kept to three figures, printed figures as printed
BY_HAND = {
    "raise_torque": lambda v: three(v["force"] * v["mean"] / 2000) * three(tan(v["climb"] + v["friction"])),
    "with_collar": lambda v: three(BY_HAND["raise_torque"](v)) + three(three(v["force"] * v["under"])
                                                                         * v["collar"] / 2000),
    "crank": lambda v: three(BY_HAND["with_collar"](v)) / v["radius"] * 1000,
    "lower": lambda v: three(v["force"] * v["mean"] / 2000) * three(tan(v["friction"] - v["climb"])),
    "least": lambda v: three(v["tangent"]) * 0.966,
    "bearing": lambda v: three(v["force"] * v["mean"] / 2000) * three(tan(v["climb"] - v["friction"])),
    "repair": lambda v: 100 * v["work"] / three(6.283 * v["torque"]),
    "second": lambda v: v["pitch"] * v["starts"] * v["turns"] / 60,
    "turned_round": lambda v: three(v["force"] * v["mean"] / 2000)
    * three(tan(v["climb"] + three(arc(three(v["rubs"] / v["cos_other"]))))),
    "take_up": lambda v: v["play"] / three(2 * v["tan_half"]),
    "latch": lambda v: three(v["latch"] * 3.142) / v["tan_half"],
    "pressure": lambda v: v["force"] / three(three(3.142 * v["mean"] * v["shared"]) * v["length"] / v["pitch"]),
}  # fmt: skip


@pytest.mark.parametrize("name", BY_HAND)
def test_honest_rounding_on_the_way_is_right(name):
    """In every draw the hints' own working, rounded on the way and at the end as asked, is within the tolerance."""
    exercise = find(f"threads_that_move.{name}")
    for draw in exercise.draws():
        variant = exercise.of_draw(draw)
        for typed in (BY_HAND[name](variant), exercise.answer.rounded(BY_HAND[name](variant))):
            assert exercise.answer.same(typed, exercise.right(variant), variant), (draw, typed)


@pytest.mark.parametrize("name", [name for name in BY_HAND if name not in ("least", "second")])
def test_tolerances_stay_small(name):
    """What honest rounding may cost is under 4 % of the answer in every draw."""
    exercise = find(f"threads_that_move.{name}")
    for draw in exercise.draws():
        variant = exercise.of_draw(draw)
        assert exercise.answer.tolerance(variant) <= 0.04 * exercise.right(variant), draw


def test_every_size_asked_about_is_one_of_iso_2902():
    """Sizes and pitches of all draws are sizes of the table of ISO 2902 (DIN 513 uses its plan, from memory)."""
    known = {(row["diameter_mm"], row["pitch_mm"]) for row in table("trapezoidal_sizes").rows.values()}
    for exercise in of_lesson("threads_that_move"):
        for draw in exercise.draws():
            assert "size" not in draw or (draw["size"], draw["pitch"]) in known, (exercise.key, draw)


def test_the_printed_lines_of_a_working_follow_from_each_other():
    """What a workmate has written is 9.81 N for each kilogram, load x lead, a quotient, to the figures printed."""
    for draw in find("threads_that_move.raise_torque").draws():
        assert draw["force"] == pytest.approx(draw["mass"] * 9.81, abs=0.5)
        assert draw["mean"] == draw["size"] - draw["pitch"] / 2
        assert draw["friction"] == pytest.approx(arc(draw["rubs"] / 0.9659258), abs=0.005)
        assert draw["climb"] == pytest.approx(arc(draw["pitch"] / (math.pi * draw["mean"])), abs=0.005)
    for draw in find("threads_that_move.repair").draws():
        assert draw["work"] == draw["force"] * draw["lead"]
        assert draw["shown"] == pytest.approx(100 * draw["work"] / draw["torque"], abs=0.5)
        assert 50 < draw["shown"] < 100, "the wrong working looks like that of a good screw"
    for draw in find("threads_that_move.least").draws():
        assert draw["tangent"] == pytest.approx(tan(draw["climb"]), abs=0.00005)
    for draw in find("threads_that_move.take_up").draws() + find("threads_that_move.latch").draws():
        assert (draw["tan_half"], draw["tan_whole"]) == (0.2679, 0.5774)  # four-figure table, from memory


def test_the_rule_of_thumb_is_tempting_and_fails():
    """In every draw under half of the work lifts and the collar holds the screw, but the thread alone runs back."""
    for draw in find("threads_that_move.bearing").draws():
        arm = draw["force"] * draw["mean"] / 2000
        up, back = arm * tan(draw["climb"] + draw["friction"]), arm * tan(draw["climb"] - draw["friction"])
        collar = draw["force"] * draw["under"] * draw["collar"] / 2000
        lead = draw["pitch"] * draw["starts"] / 1000
        share = 100 * draw["force"] * lead / (2 * math.pi * (up + collar))
        assert share == pytest.approx(draw["share"], abs=0.7) and share < 50
        assert collar > 1.2 * back > 0
        assert holding(profile("trapezoidal", draw["size"], draw["pitch"], draw["starts"]), draw["rubs"]).margin < 1


def test_a_worn_nut_still_closes():
    """The play of every draw is less than the crest clearance of ISO 2901 can take up: 0.25 mm at 5, 0.5 from 6 on."""
    for draw in find("threads_that_move.take_up").draws():
        clearance = 0.25 if draw["pitch"] <= 5 else 0.5
        assert draw["play"] <= clearance * 0.5359


def test_what_is_lifted_rests_on_a_prop_before_anybody_reaches_in():
    """The two safety items: the order ends rest, work; a screw that lost its collar needs a brake."""
    critical = {exercise.name for exercise in of_lesson("threads_that_move") if exercise.critical}
    assert critical == {"before_reaching", "bearing"}
    before = find("threads_that_move.before_reaching")
    assert {before.right(draw) for draw in before.draws()} == {("raise", "prop", "rest", "work")}
    assert all(draw["order"] != ("raise", "prop", "rest", "work") for draw in before.draws())


@pytest.mark.parametrize("job, screw", [
    ("lathe's feed", "one"), ("lead screw of a lathe", "one"), ("valve on the water tank", "three"),
    ("screw jack", "buttress"),
    ("press pushes very hard", "buttress"), ("stop of a press", "fine"), ("zero of a lathe's stop", "fine"),
])  # fmt: skip
def test_the_screw_follows_from_the_machine(job, screw):
    """Feed and lead screw trapezoidal, valve several starts, jack and press buttress, stops fine (common practice)."""
    choose = find("threads_that_move.job")
    asked = [draw for draw in choose.draws() if job in draw["job"]]
    assert asked and {choose.right(draw) for draw in asked} == {screw}


def test_halves_close_on_the_form_that_the_lesson_names():
    """Of the four screws only the trapezoidal one of one start is named for a nut in two halves, and it closes."""
    options = find("threads_that_move.job").answer.options
    assert [name for name, text in options.items() if "halves" in text] == ["one"]
    assert closing(profile("trapezoidal", 24, 5)).standing == "full halves"


LESSON = Path(__file__).parents[2] / "instructor" / "lessons" / "threads_that_move.md"
BOARD = LESSON.parent / "explore" / "screw_jack.md"


def test_the_lesson_names_its_marks_and_outcomes_first():
    """The first screen's count of questions and marks is that of the exercises; every outcome is promised there."""
    first = LESSON.read_text(encoding="utf-8").split("+++")[0]
    asked = of_lesson("threads_that_move")
    assert f"{len(asked)} questions, {sum(exercise.marks for exercise in asked)} marks" in first
    for outcome in {exercise.outcome for exercise in asked}:
        assert outcome.removeprefix("can ") in first


def test_each_outcome_is_judged_three_times_or_more():
    """With the second set of numbers every outcome has at least six judged items; choices are a fifth at most."""
    asked = of_lesson("threads_that_move")
    outcomes = [exercise.outcome for exercise in asked]
    assert len(set(outcomes)) == 4 and min(outcomes.count(outcome) for outcome in outcomes) >= 3
    guessed = sum(exercise.marks for exercise in asked if isinstance(exercise.answer, Choice))
    assert guessed <= sum(exercise.marks for exercise in asked) / 5


def test_diagnoses_say_agrees_and_never_fits():
    """`fits` is a word for parts; no diagnosis says that something was forgotten."""
    for exercise in of_lesson("threads_that_move"):
        for misstep in exercise.missteps:
            said = f"{misstep.diagnosis} {misstep.next_step}"
            assert "agrees with" in misstep.diagnosis
            assert not re.search(r"\bfits\b|forg[eo]t", said)


def test_cautions_come_first_and_the_parts_of_the_lesson_in_order():
    """Cautions before the first question; worked, faded, alone; rule and failing case; bench, three sentences."""
    text = LESSON.read_text(encoding="utf-8")
    order = ["Afterwards you can", "How it is marked", "Before you touch", "```{question} before_reaching",
             "Predict first", "```{panel} inclined_thread", "Worked:", "Faded:", "Alone", "where it fails",
             "```{question} bearing", "Find the mistake", "```{panel} nut_halves", "At the bench",
             "Three sentences to remember", "To leave"]  # fmt: skip
    found = [text.index(mark) for mark in order]
    assert found == sorted(found)
    assert all(part.count("```{question}") <= 4 for part in re.split("Save and stop here", text))


def test_the_worked_case_of_the_lesson_adds_up_and_is_nobodys_question():
    """Tr100x12 (d2 94, d3 87, ISO 2904; cos 15 deg 0.966) by hand, to the figures printed."""
    assert arc(12 / (3.142 * 94)) == pytest.approx(2.33, abs=0.005)
    assert arc(0.10 / 0.966) == pytest.approx(5.91, abs=0.005)
    assert 47 * tan(8.24) * 10 == pytest.approx(68.1, abs=0.05)
    assert 10000 * 0.08 * 0.060 == pytest.approx(48)
    assert 116.1 / 0.4 == pytest.approx(290, abs=0.5)
    assert 470 * tan(5.91 - 2.33) == pytest.approx(29.4, abs=0.05)
    assert tan(2.33) * 0.966 == pytest.approx(0.039, abs=0.0005) and 0.10 / 0.0393 == pytest.approx(2.5, abs=0.05)
    assert 100 * tan(8.4) / tan(8.4 + 4.7) == pytest.approx(63, abs=0.5)
    assert 63 / 1.7 == pytest.approx(37, abs=0.5)
    assert 0.2 / (2 * 0.2679) == pytest.approx(0.373, abs=0.0005)
    assert 1000 * 3.142 / 0.2679 == pytest.approx(11728, abs=1)
    assert all(draw.get("size") != 100 for exercise in of_lesson("threads_that_move") for draw in exercise.draws())
    text = LESSON.read_text(encoding="utf-8")
    for figure in ("2.33°", "5.91°", "68.1 N m", "48 N m", "116.1 N m", "290 N", "29.4 N m", "0.039", "0.373 mm",
                   "11728 N", "63 %", "37 %"):  # fmt: skip
        assert figure in text


def test_the_figures_for_those_who_want_more_are_computed():
    """Board: Tr10x2 and Tr20x4 300 mm up with a free top by Euler; pressure, twist and both in the thinner root."""
    text = BOARD.read_text(encoding="utf-8")
    for root, said in ((7.5, "873 N"), (15.5, "15924 N")):
        by_hand = math.pi**2 * 205000 * math.pi / 64 * root**4 / 600**2
        assert f"{by_hand:.0f} N" == said and said in text
        assert critical_load_n(root, 300, end_factor("fixed free", ideal=True), 205000, 305) == pytest.approx(by_hand)
    thin = profile("trapezoidal", 10, 2)  # d2 9, d3 7.5: ISO 2904
    torque = raising_torque_nmm(5000, thin, 0.12)
    pressed, twisted = root_axial_mpa(5000, thin), root_torsion_mpa(torque, thin)
    for said, value, unit in ((4.4, torque / 1000, "N m"), (113, pressed, "MPa"), (53, twisted, "MPa"),
                              (146, von_mises_mpa(pressed, twisted), "MPa")):  # fmt: skip
        assert value == pytest.approx(said, abs=0.5 if said > 10 else 0.05)
        assert f"{said:g} {unit}" in text


@pytest.mark.parametrize("candidate", [0, 7])
def test_every_picture_can_be_drawn_and_keeps_the_answer_back(candidate):
    """Each question's picture is a PNG; its text equivalent never names the right answer."""
    shown = [exercise for exercise in of_lesson("threads_that_move") if exercise.shows is not None]
    assert shown
    for exercise in shown:
        variant = exercise.variant(candidate)
        name, arguments = exercise.shows(variant)
        png, text = import_module(f"workbench.drawings.{name}").picture(**arguments)
        assert png.startswith(b"\x89PNG")
        assert f"{exercise.right(variant):.{exercise.answer.decimals}f}" not in text
