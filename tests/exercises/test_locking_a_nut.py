"""The locking exercises against printed sizes and arithmetic done by hand.

Sources: DIN 935-1 and ISO 1234 as reprinted (slots, floors, pins), VDI 2230 (greatest clamp of class 8.8, from memory);
springs in a row and the helix are mechanics. Which lock holds, which way a joint goes, pins once only: common practice,
no source; the spring washer that does not hold: Junker 1969, from memory. Sums stand beside each value.
"""

import re
from pathlib import Path

import pytest

from workbench.exercises import find, of_lesson
from workbench.marking import MISSTEP, judge

ON = {"thread": "M12", "size": 12, "pitch": 1.75, "slots": 6, "past": 22, "bolt": 300, "parts": 1200}
GAIN = {**ON, "earlier": 38}
WASHER = {"thread": "M12", "pitch": 1.75, "slots": 6, "short": 20}
ROOM = {"pitch": 1.75, "slots": 6, "low": 30, "limit": 43, "both": 400, "past": 22, "missing": 38}
CENTRE = {"parts": 22, "washer": 2.5, "shim": 0.5, "floor": 10, "height": 15, "middle": 12.5}
M24 = {"parts": 22, "washer": 4, "shim": 0.5, "floor": 19, "height": 27, "middle": 23}
SPARE = {"room": 1.05, "first": 0.2, "second": 0.3, "third": 0.1}
LENGTH = {"over": 19, "size": 3.2, "times": 2, "eye": 6.4}
PAYS = {"minutes": 6, "rate": 45, "parts": 0.1, "loss": 920}

RIGHT = [
    # 60 - 22; 45 - 22; eased by what is past
    ("turn_on", ON, 38, 1e-9),
    ("turn_on", {**ON, "slots": 8}, 23, 1e-9),
    ("eased", {"slots": 6, "past": 22}, -22, 1e-9),
    # 1.75 x 40 / 360
    ("washer", WASHER, 0.194444, 1e-6),
    # 1.75 / 6; 4.5 / 8
    ("step", {"size": 12, "pitch": 1.75, "slots": 6}, 0.291667, 1e-6),
    ("step", {"size": 42, "pitch": 4.5, "slots": 8}, 0.5625, 1e-9),
    # way 1.75 x 38 / 360 = 0.184722 mm; together 300 x 1200 / 1500 = 240 kN/mm
    ("gain", GAIN, 44.3333, 1e-4),
    # 13 kN / 400 = 0.0325 mm; / 1.75 x 360
    ("room", ROOM, 6.685714, 1e-6),
    # 22 + 2.5 + 0.5 + 12.5
    ("centre", CENTRE, 37.5, 1e-9),
    # 1.05 - 0.6
    ("spare", SPARE, 0.45, 1e-9),
    # 19 + 2 x 3.2
    ("length", LENGTH, 25.4, 1e-9),
    # 4.5 + 0.1 = 4.6; / 920
    ("pays", PAYS, 0.5, 1e-9),
]

# one value for each misstep in the order listed; sums by hand
WRONG = [
    ("turn_on", ON, [-22, 60, 68, 22]),
    ("eased", {"slots": 6, "past": 22}, [38, -82, 22, -38]),
    # 1.75 x 20 / 360; 1.75 / 6; 1.75 x 40 / 60; 1.75 x 80 / 360
    ("washer", WASHER, [0.0972222, 0.2916667, 1.1666667, 0.3888889]),
    # 1.75; / 12; / 8; / 360; 6 / 1.75
    ("step", {"size": 12, "pitch": 1.75, "slots": 6}, [1.75, 0.1458333, 0.21875, 0.0048611, 3.4285714]),
    # eight slots: 3; / 16; / 6; / 360; 8 / 3
    ("step", {"size": 72, "pitch": 3, "slots": 8}, [3, 0.1875, 0.5, 0.0083333, 2.6666667]),
    # 44.3333 / 1000; 0.1847222 x 300; 0.2916667 x 240; 0.1847222 x 1500
    ("gain", GAIN, [0.0443333, 55.4166667, 70, 277.0833333]),
    # to the slot; 43 / 700 x 360; 13 / 400 x 360; 30 / 700 x 360
    ("room", ROOM, [38, 22.1142857, 11.7, 15.4285714]),
    # 22 + 12.5; 24.5 + 12.5; 25 + 7.5; 25 + 10; 22 + 3; 0.5 + 12.5
    ("centre", CENTRE, [34.5, 37, 32.5, 35, 25, 13]),
    # M24: 22 + 23; 26 + 23; 26.5 + 13.5; 26.5 + 19; 22 + 4.5; 0.5 + 23
    ("centre", M24, [45, 49, 40, 45.5, 26.5, 23.5]),
    # - 0.3; - root of 0.14 = 0.3741657; - 1.2; the sum
    ("spare", SPARE, [0.75, 0.6758343, -0.15, 0.6]),
    # 19; + 12.8; 25.4 + 6.4; 19 + 2
    ("length", LENGTH, [19, 31.8, 31.8, 21]),
    # 0.1 / 920; 4.5 / 920; 270.1 / 920, all x 100; 920 / 4.6
    ("pays", PAYS, [0.0108696, 0.4891304, 29.3586957, 200]),
]


@pytest.mark.parametrize("name, variant, expected, within", RIGHT, ids=[f"{row[0]}-{row[2]}" for row in RIGHT])
def test_the_right_answer_is_the_one_worked_by_hand(name, variant, expected, within):
    """Right answers agree with sums done by hand."""
    assert find(f"locking_a_nut.{name}").right(variant) == pytest.approx(expected, abs=within)


@pytest.mark.parametrize("name, variant, expected", WRONG, ids=[f"{row[0]}-{row[2][0]}" for row in WRONG])
def test_each_misstep_gives_the_value_that_its_error_leads_to(name, variant, expected):
    """Wrong values agree with the error worked through by hand."""
    wrong = [misstep.wrong(variant) for misstep in find(f"locking_a_nut.{name}").missteps]
    assert wrong == pytest.approx(expected, rel=1e-5, abs=1e-6)


def three(value):
    """A value kept to three figures on the way, as on a small calculator."""
    return float(f"{value:.3g}")


# the working as the hints teach it, each intermediate result kept to three figures
BY_HAND = {
    "turn_on": lambda v: 360 / v["slots"] - v["past"],
    "eased": lambda v: -v["past"],
    "washer": lambda v: v["pitch"] * (360 / v["slots"] - v["short"]) / 360,
    "step": lambda v: v["pitch"] / v["slots"],
    "gain": lambda v: three(v["pitch"] * v["earlier"] / 360) * three(v["bolt"] * v["parts"] / (v["bolt"] + v["parts"])),
    "room": lambda v: three(three(v["limit"] - v["low"]) / v["both"]) / v["pitch"] * 360,
    "centre": lambda v: v["parts"] + v["washer"] + v["shim"] + v["middle"],
    "spare": lambda v: v["room"] - (v["first"] + v["second"] + v["third"]),
    "length": lambda v: v["over"] + three(v["times"] * v["size"]),
    "pays": lambda v: three(three(v["minutes"] / 60 * v["rate"]) + v["parts"]) / v["loss"] * 100,
}


@pytest.mark.parametrize("name", BY_HAND)
def test_honest_rounding_on_the_way_is_right(name):
    """In every draw the hints' own working, rounded on the way and at the end as asked, is within the tolerance."""
    exercise = find(f"locking_a_nut.{name}")
    for draw in exercise.draws():
        variant = exercise.of_draw(draw)
        for typed in (BY_HAND[name](variant), exercise.answer.rounded(BY_HAND[name](variant))):
            assert exercise.answer.same(typed, exercise.right(variant), variant), (draw, typed)


def test_newtons_for_kilonewtons_are_named_before_a_turn_without_gain():
    """In every draw the gain in N but called kN, a thousandth of it, and no gain are sent to the unit first."""
    gain = find("locking_a_nut.gain")
    for draw in gain.draws():
        variant = gain.of_draw(draw)
        way_mm = variant["pitch"] * variant["earlier"] / 360
        kn = way_mm * variant["bolt"] * variant["parts"] / (variant["bolt"] + variant["parts"])
        for typed in (f"{kn:.1f} N", "0 kN"):
            verdict = judge(gain, variant, typed)
            assert verdict.standing == MISSTEP and verdict.message.index("unit") < verdict.message.index("nothing")


def test_on_and_back_are_never_the_same_size():
    """No draw stands at half a step, where "to the next" and "back" would have one size."""
    for name in ("turn_on", "eased"):
        for draw in find(f"locking_a_nut.{name}").draws():
            assert abs(draw["past"] - 180 / draw["slots"]) >= 3
    for draw in find("locking_a_nut.washer").draws():
        assert abs(draw["short"] - 180 / draw["slots"]) >= 8


def test_the_rule_of_thumb_fails_in_every_draw():
    """The limit comes before the slot: the permitted turn is less than half of what is missing."""
    room = find("locking_a_nut.room")
    for draw in room.draws():
        assert 0 < 2 * room.right(draw) < draw["missing"] == 360 / draw["slots"] - draw["past"]


@pytest.mark.parametrize("thread, limit_kn", [("M8", 18.6), ("M10", 29.6), ("M12", 43.0), ("M16", 80.9)])
def test_the_limit_is_the_clamp_that_class_8_8_may_get(thread, limit_kn):
    """Greatest assembly preload of class 8.8 at friction 0.12: VDI 2230:2003 table A1 (from memory), within 0.7 %."""
    asked = {draw["limit"] for draw in find("locking_a_nut.room").draws() if draw["thread"] == thread}
    assert asked and all(value == pytest.approx(limit_kn, rel=0.007) for value in asked)


PRINTED = {  # DIN 935-1 and ISO 1234 as reprinted: pin, thickest shank, least slot, floor, top, width over the pin
    "M8": (2, 1.8, 2.5, 6.5, 9.5, 13), "M10": (2.5, 2.3, 2.8, 8, 12, 16), "M12": (3.2, 2.9, 3.5, 10, 15, 16),
    "M16": (4, 3.7, 4.5, 13, 19, 22), "M20": (4, 3.7, 4.5, 16, 22, 28), "M24": (5, 4.6, 5.5, 19, 27, 34),
}  # fmt: skip


def test_questions_print_the_sizes_of_the_standards():
    """Floor, top and room of the slot, pin and width are those that DIN 935-1 and ISO 1234 print."""
    for draw in find("locking_a_nut.centre").draws():
        _, _, _, floor, top, _ = PRINTED[draw["thread"]]
        assert (draw["floor"], draw["height"]) == (floor, top) and draw["middle"] == (floor + top) / 2
    for draw in find("locking_a_nut.spare").draws():
        if draw["thread"] in PRINTED:
            _, shank, _, floor, top, _ = PRINTED[draw["thread"]]
            assert draw["room"] == pytest.approx((top - floor - shank) / 2, abs=0.005)
    for draw in find("locking_a_nut.length").draws():
        if draw["thread"] in PRINTED:
            assert (draw["size"], draw["over"]) == (PRINTED[draw["thread"]][0], PRINTED[draw["thread"]][5])


def test_washers_and_shims_never_equal_half_the_slots_depth():
    """Else "washer left out" and "hole at the slot's floor" would give one number."""
    for draw in find("locking_a_nut.centre").draws():
        half = (draw["height"] - draw["floor"]) / 2
        assert abs(draw["washer"] + draw["shim"] - half) > 0.15 and abs(draw["shim"] - half) > 0.15


def test_a_workmates_line_follows_from_the_figures():
    """The printed wrong working is pitch x missing angle / 360, to two decimals."""
    for draw in find("locking_a_nut.washer").draws():
        assert draw["shown"] == pytest.approx(draw["pitch"] * draw["short"] / 360, abs=0.00501)


def test_what_can_hurt_is_marked_safety():
    """Lock, wire, way of the nut, limit and pin are safety items (common practice), with these answers."""
    critical = {exercise.name: exercise.right(exercise.variant(0)) for exercise in of_lesson("locking_a_nut")
                if exercise.critical}  # fmt: skip
    assert set(critical) == {"holds", "wire", "turn_on", "room", "reuse"}
    assert (critical["holds"], critical["reuse"]) == ("pin", "new")


def test_a_wire_pulls_the_top_of_a_right_hand_head_to_the_right():
    """Clockwise from above the top goes right; a left-hand screw wants the bottom (common practice, no source)."""
    wire = find("locking_a_nut.wire")
    assert {(draw["hand"], wire.right(draw)) for draw in wire.draws()} == {("right", "top"), ("left", "bottom")}


def test_the_thin_nut_goes_on_first():
    """Thin nut inside, held, full nut outside tightened against it (common practice, no source)."""
    pair = find("locking_a_nut.pair")
    assert all(pair.right(draw) == ("thin", "full", "hold", "lock") for draw in pair.draws())


LESSON = Path(__file__).parents[2] / "instructor" / "lessons" / "locking_a_nut.md"


def test_the_lesson_names_its_marks_and_outcomes_first():
    """The first screen's count of questions and marks is that of the exercises; every outcome is promised there."""
    first = LESSON.read_text(encoding="utf-8").split("+++")[0]
    asked = of_lesson("locking_a_nut")
    assert f"{len(asked)} questions, {sum(exercise.marks for exercise in asked)} marks" in first
    for outcome in {exercise.outcome for exercise in asked}:
        assert outcome.removeprefix("can ") in first


def test_each_outcome_is_judged_three_times_or_more():
    """With the second set of numbers every outcome has at least six judged items."""
    outcomes = [exercise.outcome for exercise in of_lesson("locking_a_nut")]
    assert len(set(outcomes)) == 4 and min(outcomes.count(outcome) for outcome in outcomes) >= 3


def test_cautions_come_first_and_the_parts_of_the_lesson_in_order():
    """Cautions before the first question; worked, faded, alone; mistake, rule and failing case; bench, sentences."""
    text = LESSON.read_text(encoding="utf-8")
    order = ["Afterwards you can", "How it is marked", "Before you touch", "```{question} holds", "Predict first",
             "```{panel} slotted_nut", "Worked:", "Faded:", "Alone", "Find the mistake", "where it fails",
             "```{question} room", "```{panel} pin_stack", "At the bench", "Three sentences to remember",
             "To leave"]  # fmt: skip
    found = [text.index(mark) for mark in order]
    assert found == sorted(found)
    assert all(part.count("```{question}") <= 4 for part in re.split("Save and stop here", text))


def test_the_table_of_sizes_prints_published_figures():
    """Pin, shank, slot, floor, top and width of six nuts as reprinted; distance to the end ISO 7378, from memory."""
    text = LESSON.read_text(encoding="utf-8")
    ends = {"M8": "3.9", "M10": "4.9", "M12": "5.9", "M16": "7.0", "M20": "7.7", "M24": "10.0"}
    for thread, (pin, shank, slot, floor, top, over) in PRINTED.items():
        row = f"| {thread} | {pin} | {shank} | {slot} | {floor} to {top} | {over} | {ends[thread]} |"
        assert row in text, row


def test_the_worked_cases_of_the_lesson_add_up_and_are_nobodys_question():
    """M30 by hand: 45 deg, -15, 0.23 and 0.35 mm, 0.4375 mm, 140 kN, 73.0 mm; 11 coins, 0.5 %; M10 on 300 mm 4 kN."""
    assert 3.5 * 24 / 360 == pytest.approx(0.23, abs=0.005) and 3.5 * 36 / 360 == pytest.approx(0.35, abs=0.005)
    assert 3.5 * 45 / 360 == 0.4375 and 0.4375 * 400 * 1600 / 2000 == 140
    assert 2 - (0.3 + 0.2 + 0.1) == pytest.approx(1.4) and "2.00 − 0.60 = 1.40 mm" in LESSON.read_text(encoding="utf-8")
    assert 40 + 4 + 0.5 + (24 + 33) / 2 == 73 and 12 / 60 * 50 + 1 == 11 and 11 / 2200 == 0.005
    bolt = 58.0 * 205 / 300  # kN/mm; stress area of ISO 898-1; parts four times as stiff
    assert 1.5 * 30 / 360 * 0.8 * bolt == pytest.approx(4, abs=0.1)
    for exercise in of_lesson("locking_a_nut"):
        for draw in exercise.draws():
            if draw.get("thread") == "M30":
                assert draw.get("short") != 24 and draw.get("past") != 15 and draw.get("parts") != 40


def test_the_explore_boards_table_is_that_of_the_geometric_distribution():
    """Chance, mean and 90 % point of each window as scipy.stats.geom gives them."""
    from scipy.stats import geom

    text = (LESSON.parent / "explore" / "slot_chance.md").read_text(encoding="utf-8")
    rows = re.findall(r"^\| (\d+)° \| (\d+) % \| ([\d.]+) \| (\d+) \|$", text, re.M)
    assert len(rows) == 5
    assert rows.pop() == ("60", "100", "1", "1")  # a window of a whole step is certain
    for window, percent, mean, nine in rows:
        each = int(window) / 60
        assert int(percent) == round(100 * each) and float(mean) == round(float(geom.mean(each)), 1)
        assert int(nine) == geom.ppf(0.9, each)
