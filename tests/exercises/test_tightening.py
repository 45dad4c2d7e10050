"""The tightening exercises against printed figures and arithmetic done by hand.

Sources: ISO 898-1 (proof stress, stress area) as reprinted; VDI 2230 (long form, scatter) from memory; the other
right values are rules of the trade (T = K F d, T A/(A + X), F + C W), common practice, no source, worked by hand
with the sums beside them. The missteps' example values are those of a trade teacher's list, worked by hand too.
"""

import math
import re
from pathlib import Path

import pytest

from workbench.exercises import find, of_lesson
from workbench.marking import judge
from workbench.screws.grip import ThroughBolt
from workbench.screws.joint import opening_load_n
from workbench.screws.scatter import method
from workbench.screws.through_joint import through_joint
from workbench.tables import table

M10 = {"size": 10, "pitch": 1.5, "class": "10.9", "area": 58.0, "shank_area": 78.5, "proof": 830.0, "tensile": 1040.0}
TORQUE = {**M10, "factor": 0.2, "earlier": 24000}
OILED = {**M10, "clamp": 24000, "dry": 0.2, "oiled": 0.14}
LONG = {**M10, "clamp": 24000, "middle": 9.026, "face": 13, "rubs": 0.12, "shown": 20.7}
ARM = {"torque": 40, "arm": 400, "adaptor": 100}
JOINT = {"clamp": 24000, "load": 8000, "share": 0.2}
OPENS = {"clamp": 24000, "spread": 25, "share": 0.2}
STACK = {"size": 8, "length": 60, "threaded": 30, "pitch": 1.25, "first": 12, "second": 15, "parts": 27, "nut": 6.8,
         "washer": 1.6}  # fmt: skip

RIGHT = [
    # 0.75 x 830 x 58
    ("preload", M10, 36105, 1e-6),
    # ISO 898-1 prints a proof load of 33.7 kN for M10 8.8: three quarters are 25.3 kN
    ("preload", {**M10, "class": "8.8", "proof": 580.0}, 25275, 50),
    # 0.2 x 24000 x 10 / 1000
    ("torque", TORQUE, 48, 1e-9),
    # 24000 x 0.2 / 0.14
    ("oiled", OILED, 34285.714, 0.001),
    # 24000 (0.238732 + 0.625340 + 0.78) / 1000; with the printed 0.159 and 0.577: 39.443
    ("repair", LONG, 39.458, 0.001),
    ("repair", LONG, 39.443, 0.02),
    # 100 x 0.1129848 (NIST SP 811, from memory) + 3
    ("unit", {"marked": 100, "drag": 3}, 14.29848, 1e-5),
    # 40 x 400 / 500
    ("extension", ARM, 32, 1e-9),
    # 40 + 6
    ("square", {**ARM, "drag": 6}, 46, 1e-9),
    # 24000 + 0.2 x 8000; 24000 - 0.8 x 8000
    ("bolt_load", JOINT, 25600, 1e-6),
    ("clamp_left", JOINT, 17600, 1e-6),
    # 18000 / 0.8
    ("opens", OPENS, 22500, 1e-6),
    # 60 - 30 - 27; 3 / 1.6 = 1.875, so 2 x 1.6
    ("gap", STACK, 3, 1e-9),
    ("washers", {**STACK, "earlier": 3}, 3.2, 1e-9),
]

# one value for each misstep in the order listed, on the draw named; sums by hand
WRONG = [
    # x 78.5; 0.75 x 1040 x 58; 830 x 58; / 0.75
    ("preload", M10, [48866.25, 45240, 48140, 64186.667]),
    # N mm; / 0.2; half; / 0.04
    ("torque", TORQUE, [48000, 240, 24, 1200]),
    # kept; x 0.7; 34285.714 - 24000; x 1.06
    ("oiled", OILED, [24000, 16800, 10285.714, 25440]),
    # as written; 5.730 + 15.008 + 2 x 18.72; 18.72; 5.7296
    ("repair", LONG, [20.7, 58.178, 18.72, 5.72958]),
    # 100 x 1.356 + 3; without 3; 100 + 3; 9.80665 + 3; 11.29848 - 3
    ("unit", {"marked": 100, "drag": 3}, [138.6, 11.29848, 103, 12.80665, 8.29848]),
    # kept; 40 x 1.25; 40 x 0.25; 40 x 0.75
    ("extension", ARM, [40, 50, 10, 30]),
    # kept; 46 x 0.8; 46 / 0.75; 46 x 1.25; 34
    ("square", {**ARM, "drag": 6}, [40, 36.8, 61.3333, 57.5, 34]),
    # all; 24000 + 6400; kept; 1600
    ("bolt_load", JOINT, [32000, 30400, 24000, 1600]),
    # 24000 - 1600; - 8000; kept; + 1600
    ("clamp_left", JOINT, [22400, 16000, 24000, 25600]),
    # 24000 / 0.8; 18000; 30000 / 0.8; 18000 x 0.8
    ("opens", OPENS, [30000, 18000, 37500, 14400]),
    # 60 - 27; nil; 3 + 6.8; 3 - 6.8; 60 - 27 - 6.8; 30 - 12
    ("gap", STACK, [33, 0, 9.8, -3.8, 26.2, 18]),
    # one fewer; the gap; the count; one more
    ("washers", {**STACK, "earlier": 3}, [1.6, 3, 2, 4.8]),
]


@pytest.mark.parametrize("name, variant, expected, within", RIGHT, ids=[f"{row[0]}-{row[2]}" for row in RIGHT])
def test_the_right_answer_is_the_one_printed_or_worked_by_hand(name, variant, expected, within):
    """Right answers agree with reprinted standards and sums done by hand."""
    assert find(f"tightening.{name}").right(variant) == pytest.approx(expected, abs=within)


@pytest.mark.parametrize("name, variant, expected", WRONG, ids=[row[0] for row in WRONG])
def test_each_misstep_gives_the_value_that_its_error_leads_to(name, variant, expected):
    """Wrong values agree with the error worked through by hand."""
    wrong = [misstep.wrong(variant) for misstep in find(f"tightening.{name}").missteps]
    assert wrong == pytest.approx(expected, rel=2e-5, abs=1e-5)


def three(value):
    """A value kept to three figures on the way, as on a small calculator."""
    return float(f"{value:.3g}")


# the working as the hints teach it, each intermediate result kept to three figures, printed constants as printed
BY_HAND = {
    "preload": lambda v: three(0.75 * v["proof"]) * v["area"],
    "torque": lambda v: three(three(v["factor"] * three(v["earlier"])) * v["size"] / 1000),
    "oiled": lambda v: three(three(v["dry"] / v["oiled"]) * v["clamp"]),
    "repair": lambda v: v["clamp"] * three(v["total"] + three(v["rubs"] * v["face"] / 2)) / 1000,
    "unit": lambda v: three(v["marked"] * 0.113) + v["drag"],
    "extension": lambda v: v["torque"] * three(v["arm"] / v["lever"]),
    "square": lambda v: v["torque"] + v["drag"],
    "bolt_load": lambda v: v["clamp"] + three(v["share"] * v["load"]),
    "clamp_left": lambda v: v["clamp"] - three((1 - v["share"]) * v["load"]),
    "opens": lambda v: three(three(v["clamp"] * (1 - v["spread"] / 100)) / (1 - v["share"])),
    "gap": lambda v: v["length"] - v["threaded"] - v["parts"],
    "washers": lambda v: v["washer"] * -(-v["earlier"] // v["washer"]),
}


@pytest.mark.parametrize("name", BY_HAND)
def test_honest_rounding_on_the_way_is_right(name):
    """In every draw the hints' own working, rounded on the way and at the end as asked, is within the tolerance."""
    exercise = find(f"tightening.{name}")
    for draw in exercise.draws():
        variant = exercise.of_draw(draw)
        for typed in (BY_HAND[name](variant), exercise.answer.rounded(BY_HAND[name](variant))):
            assert exercise.answer.same(typed, exercise.right(variant), variant), (draw, typed)


@pytest.mark.parametrize("name", BY_HAND)
def test_no_tolerance_is_wider_than_two_percent(name):
    """The allowance for rounding stays below two percent of the right answer, or one step of a length."""
    exercise = find(f"tightening.{name}")
    for draw in exercise.draws():
        variant = exercise.of_draw(draw)
        assert exercise.answer.tolerance(variant) <= max(0.02 * exercise.right(variant), exercise.answer.step)


def test_every_bolt_asked_about_has_its_printed_figures():
    """Stress areas and stresses of all draws are those of ISO 898-1 as stored; bolts are of coarse thread."""
    loads = table("iso_898_1_loads_coarse").rows
    for name in ("preload", "torque", "oiled", "repair"):
        for draw in find(f"tightening.{name}").draws():
            row = loads[f"M{draw['size']}x{draw['pitch']:g} {draw['class']}"]
            assert row["stress_area_mm2"] == draw["area"]
            assert row["proof_load_n"] == pytest.approx(draw["proof"] * draw["area"], rel=0.006)


def test_oil_takes_every_bolt_past_its_proof_load_but_not_past_yield():
    """The rule fails in every draw: the oiled clamp is over the proof load, and the bolt has not yet yielded."""
    oiled = find("tightening.oiled")
    for draw in oiled.draws():
        assert draw["proof_load"] < oiled.right(draw)
        share = {"8.8": 0.8, "10.9": 0.9, "12.9": 0.9}[draw["class"]]
        assert oiled.right(draw) < share * draw["tensile"] * draw["area"] * 1.01


def test_the_workmates_lines_follow_from_each_other():
    """What the workmate has written are right sums of the printed figures; only the face is missing."""
    for draw in find("tightening.repair").draws():
        assert draw["stretch"] == pytest.approx(0.159 * draw["pitch"], abs=0.000501)
        assert draw["thread"] == pytest.approx(0.577 * draw["rubs"] * draw["middle"], abs=0.000501)
        assert draw["total"] == pytest.approx(draw["stretch"] + draw["thread"], abs=1e-9)
        assert draw["shown"] == pytest.approx(draw["clamp"] * draw["total"] / 1000, abs=0.05)
    for draw in find("tightening.extension").draws():
        assert draw["lever"] == draw["arm"] + draw["adaptor"]


def test_every_stack_is_one_that_rattles_and_that_washers_cure():
    """In every draw the nut stops on the thread's end; with the washers found it clamps, with one fewer it does not."""
    gap, washers = find("tightening.gap"), find("tightening.washers")
    for draw in washers.draws():
        thick = washers.right(washers.of_draw(draw))

        def stack(under_nut, v=draw):
            return ThroughBolt(v["length"], v["threaded"], v["pitch"], (v["first"], v["second"]), v["nut"],
                               nut_washer_mm=under_nut)  # fmt: skip

        assert not stack(0).clamps and stack(0).gap_mm == pytest.approx(gap.right(draw))
        assert stack(thick).clamps and not stack(thick - draw["washer"]).clamps
        assert draw["threaded"] == 2 * draw["size"] + 6  # ISO 888 up to 125 mm, from memory
        assert draw["parts"] == pytest.approx(draw["first"] + draw["second"])


def test_the_plates_own_unit_is_no_answer():
    """An entry in lbf in, which the reading turns into N m by itself, is not right: the drag is missing."""
    unit = find("tightening.unit")
    for candidate in range(40):
        variant = unit.variant(candidate)
        verdict = judge(unit, variant, f"{variant['marked']} lbf in")
        assert (verdict.marks, verdict.tag) == (0, "drag-left-out")


@pytest.mark.parametrize("name, numbers, entry, tag", [
    # 392 x 1.356 + 3.1 = 534.652; exact foot: 392 x 1.355818 + 3.1 = 534.581
    ("unit", {"marked": 392, "drag": 3.1}, "534.7", "foot-for-inch"),
    ("unit", {"marked": 392, "drag": 3.1}, "534.6", "foot-for-inch"),
    # 70 - 22 = 48; 48 - 12.4 - 31.5 - 6.8 = -2.7; 70 - 43.9 - 6.8 = 19.3
    ("gap", "M8", "-2.7", "nut-among-the-parts"), ("gap", "M8", "19.3", "thread-past-the-nut"),
    # (48 + 4.5) x (360 + 95) / 360 = 66.354
    ("square", {"torque": 48, "drag": 4.5, "arm": 360, "adaptor": 95}, "66.4", "raised-as-if-in-line"),
])  # fmt: skip
def test_the_likely_slips_at_what_can_hurt_are_named(name, numbers, entry, tag):
    """Pound-feet for pound-inches, the nut counted in, the adaptor the wrong way: each by its own tag."""
    if numbers == "M8":
        numbers = {**STACK, "length": 70, "threaded": 22, "first": 12.4, "second": 31.5, "parts": 43.9}
    verdict = judge(find(f"tightening.{name}"), numbers, entry)
    assert (verdict.standing, verdict.tag, verdict.marks) == ("known misstep", tag, 0)


def test_what_can_hurt_must_be_right():
    """Pulling, the unit on the plate and the nut that bottoms are safety items (common practice, no source)."""
    assert {one.name for one in of_lesson("tightening") if one.critical} == {"stance", "unit", "gap"}
    assert find("tightening.stance").right({}) == "pull" and find("tightening.crosswise").right({}) == "cross"


LESSON = Path(__file__).parents[2] / "instructor" / "lessons" / "tightening.md"


def test_the_lesson_names_its_marks_and_outcomes_first():
    """The first screen's count of questions and marks is that of the exercises; every outcome is promised there."""
    first = LESSON.read_text(encoding="utf-8").split("+++")[0]
    asked = of_lesson("tightening")
    assert f"{len(asked)} questions, {sum(exercise.marks for exercise in asked)} marks" in first
    for outcome in {exercise.outcome for exercise in asked}:
        assert outcome.removeprefix("can ") in first


def test_each_outcome_is_judged_three_times_or_more():
    """With the second set of numbers every outcome has at least six judged items."""
    outcomes = [exercise.outcome for exercise in of_lesson("tightening")]
    assert len(set(outcomes)) == 4 and min(outcomes.count(outcome) for outcome in outcomes) >= 3


def test_cautions_come_first_and_the_parts_of_the_lesson_in_order():
    """Cautions before the first question; worked, faded, alone; rule and failing case; bench, three sentences."""
    text = LESSON.read_text(encoding="utf-8")
    order = ["Afterwards you can", "How it is marked", "Before you touch", "licensed people", "```{question} stance",
             "Predict first", "```{panel} torque_scatter", "Worked:", "Faded", "Alone", "where it fails",
             "```{question} oiled", "Find the mistake", "```{question} repair", "```{panel} joint_diagram",
             "torque but no clamp", "At the bench", "Three sentences to remember", "To leave"]  # fmt: skip
    found = [text.index(mark) for mark in order]
    assert found == sorted(found)
    assert all(part.count("```{question}") <= 4 for part in re.split("Save and stop here", text))


def test_the_scatter_printed_in_the_lesson_is_that_of_the_methods():
    """Give or take (f - 1) / (f + 1): VDI 2230's largest factors 4, 2, 1.4, 1.2 are 60, 33, 17, 9 % (from memory)."""
    text = LESSON.read_text(encoding="utf-8")
    for factor, name, words in (
        (4, "by feel", "by feel"), (2, "torque wrench - friction from a table", "torque wrench, friction from a table"),
        (1.4, "angle-controlled", "nut turned by an angle"),
        (1.2, "stretch measured by ultrasound", "stretch of the bolt measured"),
    ):  # fmt: skip
        percent = 100 * (factor - 1) / (factor + 1)
        assert f"| {words} | {percent:.0f} % |" in text
        assert 100 * method(name).half_spread == pytest.approx(percent)


def test_the_figures_of_the_explore_board_follow_from_its_formulas():
    """The unmarked part's figures by its own printed formulas, worked here step by step."""
    text = (LESSON.parent / "explore" / "joint_opens.md").read_text(encoding="utf-8")
    bolt = 205000 / (28 / 78.5 + 12 / 58.0)
    slope, wide = math.tan(math.radians(30)), 14.63 + 2 * 20 * math.tan(math.radians(30))
    cone = math.pi * 205000 * 11 * slope / math.log((wide - 11) * (14.63 + 11) / ((wide + 11) * (14.63 - 11)))
    together = bolt * cone / 2 / (bolt + cone / 2)
    assert bolt == pytest.approx(364000, rel=1e-3) and cone == pytest.approx(3020000, rel=2e-3)
    assert bolt / (bolt + cone / 2) == pytest.approx(0.19, abs=0.005) and cone / 2000 == pytest.approx(1510, abs=1)
    assert together == pytest.approx(293000, rel=2e-3) and 0.011 * together == pytest.approx(3230, abs=10)
    assert 0.19 * 8000 / 116 == pytest.approx(13, abs=0.5) and 8000 / 116 == pytest.approx(69, abs=0.5)
    for figure in ("364 000", "3 020 000", "1510", "0.19", "293 000", "3230", "= 13 MPa", "= 69 MPa"):
        assert figure in text


def test_softer_plates_double_the_share_and_open_later():
    """What the board calls the surprise: M10, 40 mm, steel against light alloy."""
    steel, light = (through_joint("M10", 40, plates) for plates in ("steel", "aluminium"))
    assert light.share / steel.share == pytest.approx(2, abs=0.2)
    assert opening_load_n(24000, light.share) > 1.2 * opening_load_n(24000, steel.share)


def test_the_worked_cases_of_the_lesson_add_up_and_are_nobodys_question():
    """M24, 84 N m, 50 kN and M20 by hand: no draw has those figures."""
    text = LESSON.read_text(encoding="utf-8")
    assert 0.75 * 600 * 353 == 158850 and 0.2 * 158850 * 24 == 762480
    assert three(0.159 * 3 + 1.527 + 0.12 * 30 / 2) * 100 == pytest.approx(380)
    assert 0.577 * 0.12 * 22.05 == pytest.approx(1.527, abs=0.0005)
    assert 90 * 450 / 600 == 67.5
    assert three(50000 / 0.75) == 66700 and three(35000 / 0.75) == 46700
    for figure in ("158 850", "762 480", "3.804 × 100 000", "67.5 N m", "66 700", "46 700"):
        assert figure in text
    worked = {"clamping": {"size": 24}, "wrench": {"torque": 84}, "loading": {"clamp": 50000}, "stacking": {"size": 20}}
    for one in of_lesson("tightening"):
        for field, figure in worked[one.draws.__module__.split(".")[-1]].items():
            assert all(draw.get(field) != figure for draw in one.draws()), one.key
