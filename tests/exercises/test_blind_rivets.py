"""The blind-rivet exercises against tables and arithmetic done by hand.

Sources: ISO 15977 (sizes, grips, breaking loads) from memory; anodic index table of the MIL-F-14072 kind, partly seen
in a reprint; costs and statics are sums by hand, shown beside each value; shop rules are common practice, no source.
"""

import re
from pathlib import Path

import pytest

from workbench.exercises import find, of_lesson
from workbench.rivets.setting import blind_rivet, stub_mm
from workbench.tables import table

STACK = {"lid": 1.2, "frame": 2.0, "sheets": 3.2, "gasket": 0.8, "paint": 0.16}
LONG = {"body": 4.0, "length": 12.0, "beyond": 4.0, "stack": 7.3}
THIN = {"body": 4.0, "length": 16, "least": 8.5, "largest": 12.5, "stack": 6.1}
COAT = {"body": 4.0, "least": 4.1, "coat": 0.08}
PAIR = {"rivet_v": -0.30, "sheet_v": -0.90, "allowed": 0.25}
SAWN = {"head": 1.7, "stack": 4.0, "tail": 1.5, "notch": 8.1}
PULLED = {"body": 4.0, "rivet": 1800.0, "head": 8.0, "sheet": 0.5, "shear": 60}
BRACKET = {"across": 1500, "apart": 4200, "shear": 1200.0, "pull": 1700.0, "factor": 3}
HOUR = {"seconds": 20, "rate": 42}
TWO_WAYS = {"rate": 42, "part_solid": 2, "seconds_solid": 20, "part_blind": 7, "seconds_blind": 15}
TOOLS = {"hand": 30, "hand_each": 0.35, "air": 242, "air_each": 0.15}

RIGHT = [
    # 1.2 + 2.0 + 0.8 + 0.16
    ("grip", STACK, 4.16, 1e-9),
    # 12 + 4 - 7.3
    ("room", LONG, 8.7, 1e-9),
    # 8.5 - 6.1
    ("too_long", THIN, 2.4, 1e-9),
    # 4.1 + 2 x 0.08
    ("hole", COAT, 4.26, 1e-9),
    # |0.30 - 0.90| - 0.25
    ("couple", PAIR, 0.35, 1e-9),
    # 8.1 - 1.5 - 4.0 - 1.7
    ("stub", SAWN, 0.9, 1e-9),
    # 3.14159 x 8 x 0.5 x 60
    ("pull", PULLED, 753.98, 0.01),
    # a thick sheet: the rivet counts
    ("pull", {**PULLED, "sheet": 2.0}, 1800, 1e-9),
    # 1500/400 = 3.75 -> 4; 4200/566.67 = 7.41 -> 8
    ("count", BRACKET, 8, 1e-9),
    # 2 x 20 x 4200 / 3600
    ("labour", HOUR, 46.6667, 1e-4),
    # (2 + 46.667) - (7 + 17.5)
    ("dearer", TWO_WAYS, 24.1667, 1e-4),
    # (242 - 30) / 0.20
    ("break_even", TOOLS, 1060, 1e-6),
    # the misstep list's own example: (1200 - 200)/(0.9 - 0.4)
    ("break_even", {"hand": 200, "hand_each": 0.9, "air": 1200, "air_each": 0.4}, 2000, 1e-6),
]

# one value for each misstep in the order listed, on the draw named; sums by hand
WRONG = [
    # 3.2; - gasket; - paint; - twice paint; 4.16 + 0.16
    ("grip", STACK, [3.2, 3.36, 4.0, 3.84, 4.32]),
    # 0; 12 - 7.3; 12 + 4; 12; 16 + 7.3; 12 - 4 - 7.3
    ("room", LONG, [0, 4.7, 16, 12, 23.3, 0.7]),
    # 12.5 - 6.1; 16 - 4 - 6.1; 16 - 6.1; 12.5 - 8.5; 6.1 - 8.5
    ("too_long", THIN, [6.4, 5.9, 9.9, 4.0, -2.4]),
    # 4.1 + 0.08; 4 + 0.16; 4.1; 4.1 - 0.16; 4.5 + 0.16
    ("hole", COAT, [4.18, 4.16, 4.1, 3.94, 4.66]),
    # 0.60; 1.20 - 0.25; 0.60 + 0.25; 1.20; 0.25 - 0.60
    ("couple", PAIR, [0.6, 0.95, 0.85, 1.2, -0.35]),
    # 8.1 - 5.5; 8.1 - 5.7; 8.1 - 4; 8.1 - 3.2; 1.5 + 4.0 + 1.7
    ("stub", SAWN, [2.6, 2.4, 4.1, 4.9, 7.2]),
    # T; pi x 4 x 30; 8 x 30; pi/4 x 64 x 60; T + 753.98
    ("pull", PULLED, [1800, 376.991, 240, 3015.929, 2553.982]),
    # 3.75 up; 4 + 8; 4200/1700 = 2.47 up; 4200/400 = 10.5 up; 4200/5100 = 0.82 up
    ("count", BRACKET, [4, 12, 3, 11, 1]),
    # one worker; x 60; / 4; x 2; / 100
    ("labour", HOUR, [23.33333, 2800, 11.66667, 93.33333, 0.466667]),
    # (2 + 23.333) - 24.5; 46.667 - 17.5; 24.1667 - 4 + 14; 48.6667; 48.6667 + 24.5; 48.6667 - (7 + 35)
    ("dearer", TWO_WAYS, [0.83333, 29.16667, 34.16667, 48.66667, 73.16667, 6.66667]),
    # 242/0.20; -1060; 212/0.35; 212/0.50; 272/0.20
    ("break_even", TOOLS, [1210, -1060, 605.714, 424, 1360]),
]


@pytest.mark.parametrize("name, variant, expected, within", RIGHT, ids=[f"{row[0]}-{row[2]}" for row in RIGHT])
def test_the_right_answer_is_the_one_worked_by_hand(name, variant, expected, within):
    """Right answers agree with sums done by hand on sizes of the standard."""
    assert find(f"blind_rivets.{name}").right(variant) == pytest.approx(expected, abs=within)


@pytest.mark.parametrize("name, variant, expected", WRONG, ids=[row[0] for row in WRONG])
def test_each_misstep_gives_the_value_that_its_error_leads_to(name, variant, expected):
    """Wrong values agree with the error worked through by hand."""
    wrong = [misstep.wrong(variant) for misstep in find(f"blind_rivets.{name}").missteps]
    assert wrong == pytest.approx(expected, rel=2e-5, abs=1e-5)


def three(value):
    """A value kept to three figures on the way, as on a small calculator."""
    return float(f"{value:.3g}")


# the working as the hints teach it, each intermediate result kept to three figures, printed constants as printed
BY_HAND = {
    "grip": lambda v: v["sheets"] + v["gasket"] + v["paint"],
    "room": lambda v: v["length"] + v["beyond"] - v["stack"],
    "too_long": lambda v: v["least"] - v["stack"],
    "hole": lambda v: v["least"] + 2 * v["coat"],
    "couple": lambda v: three(abs(v["rivet_v"] - v["sheet_v"])) - v["allowed"],
    "stub": lambda v: v["notch"] - v["tail"] - v["stack"] - v["head"],
    "pull": lambda v: three(3.142 * v["head"] * v["sheet"]) * v["shear"],
    "labour": lambda v: v["paid"] * v["rate"] * 100 / 3600,
    "dearer": lambda v: (v["part_solid"] + three(2 * v["seconds_solid"] * v["rate"] / 36)
                         - v["part_blind"] - three(v["seconds_blind"] * v["rate"] / 36)),
    "break_even": lambda v: (v["air"] - v["hand"]) / (v["hand_each"] - v["air_each"]),
}  # fmt: skip


@pytest.mark.parametrize("name", BY_HAND)
def test_honest_rounding_on_the_way_is_right(name):
    """In every draw the hints' own working, rounded on the way and at the end as asked, is within the tolerance."""
    exercise = find(f"blind_rivets.{name}")
    for draw in exercise.draws():
        variant = exercise.of_draw(draw)
        for typed in (BY_HAND[name](variant), exercise.answer.rounded(BY_HAND[name](variant))):
            assert exercise.answer.same(typed, exercise.right(variant), variant), (draw, typed)


def test_a_count_stays_the_same_with_rounded_permitted_loads():
    """Rounding S/3 and T/3 to whole newtons changes no count of rivets in any draw."""
    exercise = find("blind_rivets.count")
    for v in exercise.draws():
        counts = [-(-v["across"] // round(v["shear"] / 3)), -(-v["apart"] // round(v["pull"] / 3))]
        assert max(counts) == exercise.right(v) and v["his"] == counts[0] < counts[1]


def test_grips_and_sizes_asked_about_stand_in_the_table():
    """Lengths, ranges, holes and head sizes of all draws are rows of the tables; stacks lie where the text says."""
    grips = {(row["body_mm"], row["length_mm"]): (row["grip_least_mm"], row["grip_largest_mm"])
             for row in table("blind_grips").rows.values() if row["standard"] == "ISO 15977"}  # fmt: skip
    for v in find("blind_rivets.room").draws():
        low, high = grips[v["body"], v["length"]]
        assert low <= v["stack"] <= high
        assert v["beyond"] == table("blind_sizes").row(f"{v['body']:g}")["beyond_mm"]
    for v in find("blind_rivets.too_long").draws():
        assert grips[v["body"], v["length"]] == (v["least"], v["largest"]) and v["stack"] < v["least"]
        assert v["length"] >= v["stack"] + v["body"]  # the rule of thumb says yes
    for v in find("blind_rivets.hole").draws():
        assert v["least"] == table("blind_sizes").row(f"{v['body']:g}")["hole_least_mm"]


def test_the_sawn_rivets_are_those_of_the_geometry():
    """In every draw notch and stub agree with the setting geometry of a rivet in a stack under its range."""
    seen = 0
    for v in find("blind_rivets.stub").draws():
        for row in table("blind_grips").rows.values():
            if row["standard"] == "ISO 15977" and row["body_mm"] == v["body"] and row["grip_least_mm"] > v["stack"]:
                rivet = blind_rivet("ISO 15977", v["body"], row["length_mm"])
                out = v["notch"] - v["tail"] - v["stack"] - v["head"]
                if abs(rivet.notch_mm - v["notch"]) <= 0.051:
                    assert stub_mm(rivet, v["stack"], v["body"] + 0.1) == pytest.approx(out, abs=0.06)
                    seen += 1
                    break
    assert seen == len(find("blind_rivets.stub").draws())


def test_the_pairs_are_forbidden_in_their_place():
    """Every pair asked about is over its limit: 0.15 V outdoors, 0.25 V in a store, 0.50 V in a dry room."""
    limits = {"outdoors in salt air": 0.15, "in a store without heating": 0.25, "in a dry, warm room": 0.50}
    for v in find("blind_rivets.couple").draws():
        assert v["allowed"] == limits[v["place"]]
        assert abs(v["rivet_v"] - v["sheet_v"]) > v["allowed"]


def test_the_thin_sheet_gives_before_the_rivet():
    """In every draw of the pull question the table's load is the tempting, larger figure."""
    for v in find("blind_rivets.pull").draws():
        assert 3.142 * v["head"] * v["sheet"] * v["shear"] < 0.85 * v["rivet"]
        assert v["rivet"] == table("blind_loads").row(f"ISO 15977 H {v['body']:g}")["tension_n"]


def test_the_printed_lines_of_a_working_follow_from_each_other():
    """What a workmate has written is a sum of two sheets, twice the seconds, a third of the load."""
    for v in find("blind_rivets.grip").draws():
        assert v["sheets"] == pytest.approx(v["lid"] + v["frame"])
    for v in find("blind_rivets.labour").draws():
        assert v["paid"] == 2 * v["seconds"]
    for v in find("blind_rivets.count").draws():
        assert v["permitted"] == pytest.approx(v["shear"] / 3)


def test_two_questions_touch_safety():
    """Flying pins and a pin broken high (common practice, no source); nothing else is critical."""
    critical = {exercise.name: exercise.right(exercise.variant(0))
                for exercise in of_lesson("blind_rivets") if exercise.critical}  # fmt: skip
    assert critical == {"flying": "caught", "broken": "replace"}
    assert find("blind_rivets.soft").right({}) == "wide"


LESSON = Path(__file__).parents[2] / "instructor" / "lessons" / "blind_rivets.md"


def test_the_lesson_names_its_marks_and_outcomes_first():
    """The first screen's count of questions and marks is that of the exercises; every outcome is promised there."""
    first = LESSON.read_text(encoding="utf-8").split("+++")[0]
    asked = of_lesson("blind_rivets")
    assert f"{len(asked)} questions, {sum(exercise.marks for exercise in asked)} marks" in first
    for outcome in {exercise.outcome for exercise in asked}:
        assert outcome.removeprefix("can ") in first


def test_each_outcome_is_judged_three_times_or_more():
    """With the second set of numbers every outcome has at least six judged items."""
    outcomes = [exercise.outcome for exercise in of_lesson("blind_rivets")]
    assert len(set(outcomes)) == 4 and min(outcomes.count(outcome) for outcome in outcomes) >= 3


def test_cautions_come_first_and_the_parts_of_the_lesson_in_order():
    """Cautions before the first question; worked, faded, alone; rule and failing case; bench, three sentences."""
    text = LESSON.read_text(encoding="utf-8")
    order = ["Afterwards you can", "How it is marked", "Before you touch", "```{question} flying", "Worked:", "Faded:",
             "Alone", "where it fails", "```{question} too_long", "Predict first", "```{panel} blind_rivet_setting",
             "```{question} stub", "Find the mistake", "```{question} count", "```{question} break_even",
             "At the bench", "Three sentences to remember", "To leave"]  # fmt: skip
    found = [text.index(mark) for mark in order]
    assert found == sorted(found)
    assert all(part.count("```{question}") <= 4 for part in re.split("Save and stop here", text))
    for danger in ("pin", "eye", "finger", "swarf", "drill"):
        assert danger in text.split("```{question} flying")[0].lower()


def test_the_sums_printed_in_the_lesson_are_right():
    """3.142 x 12 x 30 = 1131 N; 90 s at 4000 cents: 100."""
    text = LESSON.read_text(encoding="utf-8")
    assert "4.2 + 6.3 = 10.5, so 11" in text and "30 − 6 − 15 − 4 = 5 mm" in text and "= 12.7 mm" in text
    assert "1131 N" in text and 3.142 * 12 * 30 == pytest.approx(1131, abs=0.5)
    assert "= 100 cents" in text and 2 * 45 / 3600 * 4000 == pytest.approx(100)
    grips = table("blind_grips").rows
    for length, printed in ((6, "1 to 3"), (8, "3 to 5"), (10, "5 to 6.5"), (12, "6.5 to 8.5"), (16, "8.5 to 12.5")):
        row = grips[f"ISO 15977 4x{length}"]
        assert f"{row['grip_least_mm']:g} to {row['grip_largest_mm']:g}" == printed and f"| {printed} |" in text
    loads = table("blind_loads").rows
    for column, line in (("shear_n", "750 | 1250 | 1850"), ("tension_n", "1100 | 1800 | 2600")):
        assert line == " | ".join(f"{loads[f'ISO 15977 H {body}'][column]:g}" for body in ("3.2", "4", "4.8"))
        assert line in text


def test_the_worked_cases_of_the_lesson_are_nobodys_question():
    """The worked results of grip, room, pull, labour and break-even are no right answer of any draw."""
    for name, value in (("grip", 5.5), ("break_even", 2000), ("room", 8.5), ("pull", 1131), ("labour", 100)):
        exercise = find(f"blind_rivets.{name}")
        assert all(abs(exercise.right(draw) - value) > exercise.answer.step / 2 for draw in exercise.draws()), name
