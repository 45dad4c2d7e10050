"""The solid-rivet exercises against printed rules and arithmetic done by hand.

Sources: NAVEDTRA 14014 and a US Army manual (2 D, 2.5 D, 3 D, as reprinted), USAAF structural repair manual (1.5 D),
MIL-HDBK-5 (driven shear 28, 30, 38 ksi), FAA-H-8083-31 (marks and codes, from memory), DIN 660 (holes, from memory).
Two thirds of the sheet for a countersink: from memory. Sums stand beside each value.
"""

import math
import re
from itertools import permutations
from pathlib import Path

import pytest

from workbench import marking, question_sheet
from workbench.exercises import find, of_lesson
from workbench.exercises.solid_rivets import sizing
from workbench.exercises.solid_rivets.row import EDGE_D
from workbench.rivets.alloy import alloys
from workbench.rivets.defect import removal
from workbench.rivets.part_number import read
from workbench.session import Session
from workbench.tables import table

LESSON = Path(__file__).parents[2] / "instructor" / "lessons" / "solid_rivets.md"
SHEETS = {"one": 1.0, "other": 1.6}
LENGTH = {**SHEETS, "grip": 2.6, "size": 4.8}
FLUSH = {"one": 1.6, "other": 1.6, "size": 4, "deep": 1.7, "grip": 3.2}
CONE = {"size": 4, "hole": 4.1, "angle": 100, "width": 7.6, "tan_half": 1.1918}
SHEAR = {"size": 4, "hole": 4.1, "stress": 180, "count": 10}
STEPS = ("flat", "mark", "drill", "snap", "drive", "look")

RIGHT = [
    # 5/32 in = 3.96875 mm; 3/16 in = 4.7625 mm
    ("code", {"first": 5, "second": 7}, 3.96875, 1e-9),
    ("code", {"first": 6, "second": 7}, 4.7625, 1e-9),
    # 3 x 1.6
    ("diameter", SHEETS, 4.8, 1e-9),
    # 2.6 + 7.2
    ("length", LENGTH, 9.8, 1e-9),
    # 3.2 + 6.0, nothing taken off
    ("flush_length", FLUSH, 9.2, 1e-9),
    # 1.75 / 1.19175
    ("countersink", CONE, 1.46842, 1e-5),
    # 120 degrees: 1.9 / 1.73205
    ("countersink", {"size": 4, "hole": 4.2, "angle": 120, "width": 8.0}, 1.09697, 1e-5),
    # x 1.5
    ("least_sheet", {"earlier": 1.0}, 1.5, 1e-9),
    # 2 x 8 + 0.5
    ("edge", {"size": 8, "filed": 0.5}, 16.5, 1e-9),
    # (320 - 40) / 14
    ("pitch", {"seam": 320, "end": 20, "count": 15}, 20, 1e-9),
    # 0.785398 x 16.81 = 13.20254; x 180 = 2376.46; ten of them
    ("shear", SHEAR, 23764.6, 0.1),
    # 0.95 - 0.3
    ("cover", {"width": 6.1, "hole": 4.2, "offset": 0.3}, 0.65, 1e-9),
    # 9 / 5
    ("oversize", {"size": 4, "larger": 5, "edge": 9}, 1.8, 1e-9),
]

# one value for each misstep in the order listed
WRONG = [
    # 5/16; 7/32; 7/16; inches; bare
    ("code", {"first": 5, "second": 7}, [7.9375, 5.55625, 11.1125, 0.15625, 5]),
    # 3 x 1; 3 x 2.6; 1.6; 1.5 x 1.6; 3 x 1.3
    ("diameter", SHEETS, [3, 7.8, 1.6, 2.4, 3.9]),
    # 2.6 + 4.8; 2.6 + 2.4; 1.6 + 7.2; 3.9 + 4.8; 2.6 + 2.88; 7.2
    ("length", LENGTH, [7.4, 5.0, 8.8, 8.7, 5.48, 7.2]),
    # 9.2 - 1.7; 3.2 - 1.7 + 4; 9.2 + 1.7; 7.2; 3.2 + 2.4
    ("flush_length", FLUSH, [7.5, 5.5, 10.9, 7.2, 5.6]),
    # 1.75; 3.5 / 1.1918; 1.8 / 1.1918; 1.75 x 1.1918; 3.8 / 1.1918
    ("countersink", CONE, [1.75, 2.936734, 1.510320, 2.08565, 3.188455]),
    # whole; two thirds; + 1.5; twice; 1.2 + 0.4
    ("least_sheet", {"earlier": 1.2}, [1.2, 0.8, 2.7, 2.4, 1.6]),
    # 16; 20.5; 12.5; 8.5; 16 - 0.5; 24 + 0.5
    ("edge", {"size": 8, "filed": 0.5}, [16, 20.5, 12.5, 8.5, 15.5, 24.5]),
    # 280 / 15; 320 / 14; 300 / 14; 280 / 16; 320 / 15
    ("pitch", {"seam": 320, "end": 20, "count": 15}, [18.666667, 22.857143, 21.428571, 17.5, 21.333333]),
    # twice; 10 x 12.56637 x 180; one; 10 x 16.81 x 180; four times; 10 x 13.20254
    ("shear", SHEAR, [47529.2, 22619.467, 2376.458, 30258, 95058.33, 132.0254]),
    # 1.9 - 0.3; 0.95; 1.25; 1.05 - 0.3; 0.95 - 0.15; 1.9
    ("cover", {"width": 6.1, "hole": 4.2, "size": 4, "offset": 0.3}, [1.6, 0.95, 1.25, 0.75, 0.8, 1.9]),
    # 9 / 4; 6.5 / 5; 5 / 9; 9 - 5; 2 x 5
    ("oversize", {"size": 4, "larger": 5, "edge": 9}, [2.25, 1.3, 0.5555556, 4, 10]),
]


@pytest.mark.parametrize("name, variant, expected, within", RIGHT, ids=[f"{row[0]}-{row[2]}" for row in RIGHT])
def test_the_right_answer_is_the_one_printed_or_worked_by_hand(name, variant, expected, within):
    """Right answers agree with the rules named above, worked by hand."""
    assert find(f"solid_rivets.{name}").right(variant) == pytest.approx(expected, abs=within)


@pytest.mark.parametrize("name, variant, expected", WRONG, ids=[row[0] for row in WRONG])
def test_each_misstep_gives_the_value_that_its_error_leads_to(name, variant, expected):
    """Wrong values agree with the error worked through by hand."""
    wrong = [misstep.wrong(variant) for misstep in find(f"solid_rivets.{name}").missteps]
    assert wrong == pytest.approx(expected, rel=2e-5)


def three(value):
    """A value kept to three figures on the way, as on a small calculator."""
    return float(f"{value:.3g}")


# the working as the hints teach it, each intermediate result kept to three figures, printed constants as printed
BY_HAND = {
    "code": lambda v: int(re.search(r"[A-Z](\d)-", v["code"])[1]) / 32 * 25.4,
    "diameter": lambda v: 3 * max(v["one"], v["other"]),
    "length": lambda v: v["one"] + v["other"] + 1.5 * v["size"],
    "flush_length": lambda v: v["one"] + v["other"] + 1.5 * v["size"],
    "countersink": lambda v: three((v["width"] - v["hole"]) / 2) / v["tan_half"],
    "least_sheet": lambda v: round(BY_HAND["countersink"](v), 2) / 2 * 3,
    "edge": lambda v: 2 * v["size"] + v["filed"],
    "pitch": lambda v: (v["seam"] - 2 * v["end"]) / (v["count"] - 1),
    "shear": lambda v: v["count"] * three(three(0.7854 * v["hole"] * v["hole"]) * v["stress"]),
    "cover": lambda v: (v["width"] - v["hole"]) / 2 - v["offset"],
    "oversize": lambda v: v["edge"] / {3: 4, 4: 5, 5: 6}[v["size"]],
}


@pytest.mark.parametrize("name", BY_HAND)
def test_honest_rounding_on_the_way_is_right(name):
    """In every draw the hints' own working, rounded on the way and at the end as asked, is within the tolerance."""
    exercise = find(f"solid_rivets.{name}")
    for draw in exercise.draws():
        variant = exercise.of_draw(draw)
        for typed in (BY_HAND[name](variant), exercise.answer.rounded(BY_HAND[name](variant))):
            assert exercise.answer.same(typed, exercise.right(variant), variant), (draw, typed)


def test_no_diameter_is_asked_for_two_things_of_one_and_a_half_d():
    """Length, flush length and edge distance (whose last limit is 1.5 D) never share a diameter."""
    asked = {name: {draw["size"] for draw in find(f"solid_rivets.{name}").draws()}
             for name in ("length", "flush_length", "edge")}  # fmt: skip
    assert not asked["length"] & asked["flush_length"] and not asked["length"] & asked["edge"]
    assert not asked["flush_length"] & asked["edge"]
    assert (asked["length"], asked["flush_length"], asked["edge"]) == (
        set(sizing.LENGTH_D), set(sizing.FLUSH_D), set(EDGE_D))  # fmt: skip


def test_no_end_distance_is_half_a_pitch():
    """Otherwise the seam over the pitch would be the number of rivets, whichever way it was counted."""
    for draw in find("solid_rivets.pitch").draws():
        assert abs(draw["end"] - (draw["seam"] - 2 * draw["end"]) / (draw["count"] - 1) / 2) > 0.2


def test_a_row_keeps_the_rules_it_teaches():
    """4 mm rivets: end distance 2 D to 4 D, pitch 3 D to 10 D (army manual)."""
    for draw in find("solid_rivets.pitch").draws():
        assert 8 <= draw["end"] <= 16 and 12 <= BY_HAND["pitch"](draw) <= 40


def test_every_code_asked_about_can_be_read():
    """The code printed is a part number whose two dash numbers are those of the draw."""
    for draw in find("solid_rivets.code").draws():
        one = read(draw["code"])
        assert (one.diameter_32nds, one.length_16ths) == (draw["first"], draw["second"])
        assert one.alloy == "2117"


def test_printed_figures_of_a_question_follow_from_each_other():
    """Grips are sums; what somebody wrote has the head taken off, or the old diameter divided by, and looks right."""
    for draw in [*find("solid_rivets.length").draws(), *find("solid_rivets.flush_length").draws()]:
        assert draw["grip"] == pytest.approx(draw["one"] + draw["other"])
    for draw in find("solid_rivets.flush_length").draws():
        assert draw["shown"] == pytest.approx(draw["grip"] + 1.5 * draw["size"] - draw["deep"])
        assert draw["one"] >= 1.2 * draw["deep"]  # the made head lies in a sheet that can hold it
    for draw in find("solid_rivets.oversize").draws():
        assert draw["shown"] == pytest.approx(draw["edge"] / draw["size"], abs=0.005)
        assert draw["shown"] > 2 > draw["edge"] / draw["larger"]


def test_holes_are_those_of_din_660_and_stresses_those_of_mil_hdbk_5():
    """3.1, 4.2, 5.2, 6.3 mm; 28, 30, 38 ksi = 193, 207, 262 MPa; tan 50 and 60 degrees of a four-figure table."""
    holes = {3: 3.1, 4: 4.2, 5: 5.2, 6: 6.3}
    for name in ("countersink", "shear", "cover"):
        assert all(draw["hole"] == holes[draw["size"]] for draw in find(f"solid_rivets.{name}").draws())
    stresses = {"5056": 193, "2117": 207, "2017": 262}
    assert all(draw["stress"] == stresses[draw["alloy"]] for draw in find("solid_rivets.shear").draws())
    tangents = {100: 1.1918, 120: 1.7321}
    assert all(draw["tan_half"] == tangents[draw["angle"]] for draw in find("solid_rivets.countersink").draws())


@pytest.mark.parametrize("mark, name", [
    ("dimple", "2117"), ("raised dot", "2017"), ("two raised dashes", "2024"), ("raised cross", "5056"),
])  # fmt: skip
def test_the_mark_leads_to_its_alloy(mark, name):
    """FAA-H-8083-31, from memory; dot and dashes are the two that are heat treated first."""
    item = find("solid_rivets.mark")
    asked = [draw for draw in item.draws() if draw["mark"] == mark]
    assert len(asked) == 24 and {item.right(draw) for draw in asked} == {name}
    assert ("heat treat" in item.answer.options[name]) == alloys()[name].heat_treat == (name in ("2017", "2024"))


def test_taking_out_goes_from_flat_to_look():
    """The order of steps is common practice, no source; a step too early is named, whatever else is moved."""
    item = find("solid_rivets.removal")
    variant = item.variant(3)
    assert item.right(variant) == STEPS
    letters = {name: "abcdef"[place] for place, name in enumerate(variant["order"])}

    def tag(*order):
        return marking.judge(item, variant, " ".join(letters[name] for name in order)).tag

    assert tag("flat", "mark", "drill", "drive", "snap", "look") == "driven-out-with-its-head-on"
    assert tag("drive", "flat", "mark", "drill", "snap", "look") == "driven-out-with-its-head-on"
    assert tag("drill", "flat", "mark", "snap", "drive", "look") == "drilled-without-a-mark"
    assert tag("mark", "flat", "drill", "snap", "drive", "look") == "marked-on-the-round-head"
    assert tag("look", "flat", "mark", "drill", "snap", "drive") == "hole-measured-too-early"
    assert tag("flat", "mark", "snap", "drill", "drive", "look") == "snapped-before-drilling"
    for order in permutations(STEPS):  # no wrong order is left without a name
        assert bool(tag(*order)) == (order != STEPS)


def test_edge_distance_crack_and_next_size_are_safety_items():
    """These three decide whether a joint may be used, and nothing else is critical."""
    assert {exercise.name for exercise in of_lesson("solid_rivets") if exercise.critical} == {
        "edge", "crack", "oversize"}  # fmt: skip
    assert find("solid_rivets.crack").right({}) == "out"


def test_the_lesson_names_its_marks_and_outcomes_first():
    """The first screen's count of questions and marks is that of the exercises; every outcome is promised there."""
    first = LESSON.read_text(encoding="utf-8").split("+++")[0]
    asked = of_lesson("solid_rivets")
    assert f"{len(asked)} questions, {sum(exercise.marks for exercise in asked)} marks" in first
    for outcome in {exercise.outcome for exercise in asked}:
        assert outcome.removeprefix("can ") in first


def test_each_outcome_is_judged_three_times_or_more():
    """With the second set of numbers every outcome has at least six judged items."""
    outcomes = [exercise.outcome for exercise in of_lesson("solid_rivets")]
    assert len(set(outcomes)) == 4 and min(outcomes.count(outcome) for outcome in outcomes) >= 3


def test_cautions_come_first_and_the_parts_of_the_lesson_in_order():
    """Cautions before the first question; worked, faded, find the mistake, alone; rule and failing case; bench."""
    text = LESSON.read_text(encoding="utf-8")
    order = ["Afterwards you can", "How it is marked", "Before you touch", "eye and ear protection", "approved data",
             "```{panel} solid_rivet_words", "```{question} mark", "Predict first", "```{panel} rivet_selection",
             "Worked: D 10 mm", "Faded: one step", "```{question} length", "Find the mistake",
             "```{question} flush_length", "countersunk head lies in the grip", "Before you drill",
             "Alone:\n\n```{question} countersink",
             "Punch and file", "```{question} edge", "lap joint", "1 MPa", "```{question} shear",
             "```{panel} rivet_row", "Cracked heads cut", "```{question} cover", "**Caution.**", "Hold the formed head",
             "```{question} removal", "where it fails", "```{question} oversize", "At the bench",
             "Three sentences to remember", "To leave"]  # fmt: skip
    found = [text.index(mark) for mark in order]
    assert found == sorted(found)
    assert all(part.count("```{question}") <= 4 for part in re.split("Save and stop here", text))


def test_the_tables_of_the_lesson_print_published_figures():
    """DIN 660 holes and head, MS20470 universal, MIL-HDBK-5 least head, navy and army spacing, 1.5 D."""
    text = LESSON.read_text(encoding="utf-8")
    for row in ("| Hole (DIN 660) | 3.1 | 4.2 | 5.2 | 6.3 mm |", "| universal | 2 D × 0.43 D |",
                "| round | 1.75 D × 0.6 D |", "| least, strength tables | 1.3 D | 0.3 D |",
                "| aim at | 1.5 D | 0.5 D |", "raised head | 2 D |", "flush head | 2.5 D |",
                "| flat or round | 1.5 D |", "| pitch | 3 D | navy manual |",
                "| pitch, usual | 6 to 8 D, never over 10 D | army manual |"):  # fmt: skip
        assert row in text
    for name, row in table("rivet_heads").rows.items():
        line = next((line for line in text.splitlines() if line.startswith(f"| {name}")), None)
        if line:
            shown = [float(figure) for figure in re.findall(r"(\d+(?:\.\d+)?) D", line)]
            assert shown == pytest.approx([row["width_d"], row["height_d"]], abs=0.005)


def test_the_worked_cases_of_the_lesson_add_up_and_are_nobodys_question():
    """By hand: 6.35; 12; 25; 4; 6; 43; 20; 7850 N; 3 mm over 1.9 mm; drill 3.9 mm; Unwin 24 mm."""
    text = LESSON.read_text(encoding="utf-8")
    for worked in ("0.25 × 25.4 = 6.35 mm", "4 ÷ 2 × 3 = 6 mm", "2 × 20 + 3 = 43 mm", "With D 19 mm, 0.1 D is 1.9 mm"):
        assert worked in text
    assert (8 / 32, 4 / 2 * 3, 2 * 20 + 3) == (0.25, 6, 43) and 0.25 * 25.4 == pytest.approx(6.35)
    assert "for 4 mm, 3.9 mm" in text and removal("4", 1.72).drill_mm == 3.9
    assert (3 * 4, 10 + 1.5 * 10, (20 - 12) / 2 / 1, (100 - 40) / 3, (30 - 20) / 2 - 2) == (12, 25, 4, 20, 3)
    assert 0.7854 * 100 * 100 == pytest.approx(7850, abs=5) and 6 * math.sqrt(16) == 24
    assert all(draw.get("size", 0) < 10 for exercise in of_lesson("solid_rivets") for draw in exercise.draws())


def test_a_question_as_shown_has_no_open_field(tmp_path):
    """What the apprentice sees holds no brace, and a safety question says what hangs on it."""
    for exercise in of_lesson("solid_rivets"):
        shown = question_sheet.html(exercise, Session(3, 1, "practice", "solid_rivets", False, tmp_path))
        assert not {"{", "}"} & set(re.sub(r"<style.*?</style>", "", shown, flags=re.S)), exercise.key
        assert ("does not count as passed" in shown) == exercise.critical
