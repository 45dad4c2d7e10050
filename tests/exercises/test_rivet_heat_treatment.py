"""The heat-treatment exercises against the documents' figures and arithmetic done by hand.

Sources: FAA-H-8083-30 (2017 about 1 h, 2024 10 min, driven rivets about 9 days; soak 30 min in salts, 60 min in air),
NAVEDTRA 14014 (20 min, 24 h at or below 32 degF), USAF T.O. 1-1A-9 (96 h), all seen in reprints; bands of MIL-H-6088 /
AMS 2770 type (2024 488 to 499, 2017 496 to 510 degC) and the 10 s of quench delay from memory. Sums beside each value.
"""

import re
from importlib import import_module
from itertools import product
from pathlib import Path

import pytest

from workbench.exercises import find, of_lesson
from workbench.marking import RIGHT as STANDS
from workbench.marking import judge

LESSON = "rivet_heat_treatment"
SETTING = {"alloy": "2024", "low": 488, "high": 499, "furnace": 2.6, "gauge": 1.2}
SOAK = {"furnace": "salt bath", "soak": 30, "loaded": "13:49", "ready": "14:07", "warmed": 18, "mixed": 58}
DELAY = {"limit": 10, "lift": 1.7, "carry": 2.8, "sink": 1.9}
PAST = {"alloy": "2017", "limit": 20, "start": 1430, "at": "23:50", "before": 10}
KEPT = {"document": "navy", "alloy": "2017", "limit": 20, "quench": "23:50", "stored": "23:56", "out": "04:56",
        "now": "05:01", "warm": 6, "since": 5, "stay": 300}
COUNTED = {"limit": 60, "hours": 0.35, "store": "top"}
DASHES = {"warm": 8, "tray": "left", "limit_dd": 10, "limit_d": 60, "shown": 52}
WAIT = {"seam": "lid", "days": 9, "gone": 50, "late": 216, "early": 96}
WAYS = {"alloy": "2017", "limit": 20, "store": 3, "carry": 4, "rate": 90}
BASKETS = {"rate": 60, "hours": 6, "needed": 360, "small": 80, "large": 150}

RIGHT = [
    # (925 - 32) / 1.8 = 893 / 1.8; 930 degF is printed as 499 degC
    ("celsius", {"chart": 925, "less": 893}, 496.111, 0.001),
    ("celsius", {"chart": 930, "less": 898}, 498.889, 0.001),
    # 499 - (2.6 + 1.2); 510 - (3.2 + 1.9)
    ("setting", SETTING, 495.2, 1e-9),
    ("setting", {"alloy": "2017", "low": 496, "high": 510, "furnace": 3.2, "gauge": 1.9}, 504.9, 1e-9),
    # 13:49 to 14:07 is 11 + 7 = 18; 18 + 30
    ("soak_end", SOAK, 48, 1e-9),
    # 10 - (1.7 + 2.8 + 1.9) = 10 - 6.4
    ("in_hand", DELAY, 3.6, 1e-9),
    # 20 - 10: ten past midnight
    ("hard_at", PAST, 10, 1e-9),
    # 20 - (6 + 5)
    ("left", KEPT, 9, 1e-9),
    # 0.35 h is 21 min: 60 - 21
    ("hours", COUNTED, 39, 1e-9),
    # two raised dashes are 2024: 10 - 8
    ("other_alloy", DASHES, 2, 1e-9),
    # 9 x 24 - 50
    ("load_wait", WAIT, 166, 1e-9),
    # 20 - 3 - 4
    ("life", WAYS, 13, 1e-9),
    # 90 x 13 / 60 = 19.5, rounded down
    ("portion", {**WAYS, "earlier": 13}, 19, 1e-9),
    # 360 from 80s and 150s: 150 + 150 + 80 = 380, 150 + 3 x 80 = 390, 5 x 80 = 400, 3 x 150 = 450
    ("baskets", BASKETS, 20, 1e-9),
]

WRONG = [
    ("celsius", {"chart": 925, "less": 893}, "thirty-two-not-taken-off", 513.889),
    ("celsius", {"chart": 925, "less": 893}, "thirty-two-taken-off-last", 481.889),
    ("celsius", {"chart": 925, "less": 893}, "thirty-two-added", 531.667),
    ("celsius", {"chart": 925, "less": 893}, "halved", 446.5),
    ("celsius", {"chart": 925, "less": 893}, "multiplied-by-one-point-eight", 1607.4),
    ("setting", SETTING, "top-of-the-band", 499),
    ("setting", SETTING, "about-five-hundred", 500),
    ("setting", SETTING, "furnace-error-alone", 496.4),
    ("setting", SETTING, "instrument-error-alone", 497.8),
    ("setting", SETTING, "errors-added-to-the-top", 502.8),
    ("setting", SETTING, "errors-set-against-each-other", 497.6),  # 499 - 2.6 + 1.2
    ("setting", SETTING, "lowest-setting", 491.8),  # 488 + 3.8
    ("soak_end", SOAK, "soak-counted-from-loading", 30),
    ("soak_end", SOAK, "soak-of-the-other-furnace", 78),  # 18 + 60
    ("soak_end", SOAK, "warming-alone", 18),
    ("soak_end", SOAK, "clock-times-taken-off-as-figures", 88),  # 1407 - 1349 = 58
    ("soak_end", SOAK, "warming-taken-off", 12),
    ("in_hand", DELAY, "only-the-carry-timed", 7.2),
    ("in_hand", DELAY, "sinking-left-out", 5.5),
    ("in_hand", DELAY, "lifting-left-out", 5.3),
    ("in_hand", DELAY, "delay-for-what-is-left", 6.4),
    ("in_hand", DELAY, "delay-added", 16.4),
    ("hard_at", PAST, "date-not-turned-over", 1450),
    ("hard_at", PAST, "hour-not-turned-over", 70),  # 50 min past eleven and 20
    ("hard_at", PAST, "limit-counted-from-midnight", 20),
    ("hard_at", PAST, "minutes-before-midnight-added", 30),
    ("left", KEPT, "clock-started-at-taking-out", 15),
    ("left", KEPT, "cold-thought-to-reset-the-clock", 20),
    ("left", KEPT, "only-before-the-store", 14),
    ("left", KEPT, "stretches-taken-off-each-other", 19),  # 20 - (6 - 5)
    ("left", KEPT, "used-for-left", 11),
    ("hours", COUNTED, "decimals-read-as-minutes", 25),
    ("hours", COUNTED, "used-for-left", 21),
    ("hours", COUNTED, "both-added", 81),
    ("other_alloy", DASHES, "limit-of-the-other-alloy", 52),
    ("other_alloy", DASHES, "limit-without-the-minutes-warm", 10),
    ("other_alloy", DASHES, "difference-of-the-limits", 50),
    ("other_alloy", DASHES, "warm-minutes-added", 18),
    ("load_wait", WAIT, "earlier-document-taken", 46),
    ("load_wait", WAIT, "days-of-eight-hours", 22),
    ("load_wait", WAIT, "both-documents-added", 262),
    ("load_wait", WAIT, "hours-gone-added", 266),
    ("load_wait", WAIT, "earlier-document-whole", 96),
    ("life", WAYS, "way-to-the-bench-alone", 16),
    ("life", WAYS, "way-to-the-store-alone", 17),
    ("life", WAYS, "the-ways-themselves", 7),
    ("life", WAYS, "ways-added-to-the-limit", 27),
    ("portion", {**WAYS, "earlier": 13}, "carrying-time-left-out", 30),
    ("portion", {**WAYS, "earlier": 13}, "a-whole-shift-issued", 720),
    ("portion", {**WAYS, "earlier": 13}, "a-whole-hour-issued", 90),
    ("portion", {**WAYS, "earlier": 13}, "a-rivet-a-minute", 13),
    ("baskets", BASKETS, "largest-basket-alone", 90),
    ("baskets", BASKETS, "smallest-basket-alone", 40),
    ("baskets", BASKETS, "batches-rounded-down", 60),
    ("portion", {**WAYS, "earlier": 13}, "sixty-left-out", 1170),
    ("baskets", BASKETS, "nothing-left-over", 0),
    ("baskets", BASKETS, "made-for-left-over", 380),
]


def exercise(name):
    return find(f"{LESSON}.{name}")


@pytest.mark.parametrize(("name", "variant", "value", "within"), RIGHT)
def test_the_right_value_is_the_one_worked_by_hand(name, variant, value, within):
    """Each right answer agrees with the sum beside it."""
    assert exercise(name).right(variant) == pytest.approx(value, abs=within)


@pytest.mark.parametrize(("name", "variant", "tag", "value"), WRONG)
def test_a_misstep_leads_to_the_value_worked_by_hand(name, variant, tag, value):
    """Each slip gives the number that the slip gives on paper."""
    found = {misstep.tag: misstep.wrong(variant) for misstep in exercise(name).missteps}
    assert found[tag] == pytest.approx(value, abs=0.001)


@pytest.mark.parametrize(("name", "right"), [("damp", "stop"), ("returned", "tin")])
def test_the_safe_choice_is_right_in_every_order(name, right):
    """Water near salts and rivets without a clock have one answer, wherever it stands in the list."""
    one = exercise(name)
    for draw in one.draws():
        letter = "abcd"[draw["order"].index(right)]
        assert judge(one, one.of_draw(draw), letter).standing == STANDS


def test_what_can_hurt_or_scrap_must_be_right():
    """Damp basket, setting, quench delay, minutes left, alloy, load and doubtful rivets are critical."""
    critical = {one.name for one in of_lesson(LESSON) if one.critical}
    assert critical == {"damp", "setting", "in_hand", "left", "other_alloy", "load_wait", "returned"}


def test_the_setting_keeps_the_hottest_corner_in_the_band():
    """With both errors against it the right setting still ends at the top of the band, in every draw."""
    one = exercise("setting")
    for draw in one.draws():
        assert one.right(draw) + draw["furnace"] + draw["gauge"] == pytest.approx(draw["high"])
        assert one.right(draw) - draw["furnace"] - draw["gauge"] > draw["low"]


def test_clock_times_of_a_question_agree_with_its_minutes():
    """What is printed as clock times gives the minutes used, past midnight too, worked out anew from the texts."""

    def minutes(text):
        hours, rest = text.split(":")
        return 60 * int(hours) + int(rest)

    for draw in exercise("left").draws():
        quench, stored, out, now = (minutes(draw[key]) for key in ("quench", "stored", "out", "now"))
        assert ((stored - quench) % 1440, (now - out) % 1440) == (draw["warm"], draw["since"])
        assert now < quench  # the night runs past midnight
        assert exercise("left").right(draw) == draw["limit"] - (stored - quench) % 1440 - (now - out) % 1440
    for draw in exercise("soak_end").draws():
        assert minutes(draw["ready"]) - minutes(draw["loaded"]) == draw["warmed"]
        assert int(draw["ready"].replace(":", "")) - int(draw["loaded"].replace(":", "")) == draw["mixed"]
    for draw in exercise("hard_at").draws():
        assert 1440 - minutes(draw["at"]) == draw["before"]


def test_the_fewest_left_over_is_the_least_of_all_sums_of_baskets():
    """Every mix of full baskets is tried: none that is enough leaves fewer over, in every draw."""
    one = exercise("baskets")
    for draw in one.draws():
        sums = [a * draw["small"] + b * draw["large"] for a, b in product(range(9), repeat=2)]
        assert one.right(draw) == min(total for total in sums if total >= draw["needed"]) - draw["needed"]


def test_the_limits_in_the_questions_are_those_of_the_documents():
    """2017: 60 or 30 or 20 min, 2024: 10 or 20 min; nine days and 96 h (sources above)."""
    assert {draw["limit"] for draw in exercise("hard_at").draws()} == {20, 30}
    assert {(draw["limit_d"], draw["limit_dd"]) for draw in exercise("other_alloy").draws()} == {(60, 10)}
    assert {(draw["days"], draw["early"]) for draw in exercise("load_wait").draws()} == {(9, 96)}
    assert {(draw["alloy"], draw["low"], draw["high"]) for draw in exercise("setting").draws()} == {
        ("2024", 488, 499), ("2017", 496, 510)}
    assert {(draw["furnace"], draw["soak"]) for draw in exercise("soak_end").draws()} == {
        ("salt bath", 30), ("air furnace", 60)}


@pytest.mark.parametrize("typed", ["9", "9 min", "9 minutes", "9.0", "0.15 h", "540 s"])
def test_minutes_may_be_typed_in_any_unit_of_time(typed):
    """9 minutes are right as minutes, hours or seconds."""
    assert judge(exercise("left"), KEPT, typed).standing == STANDS


@pytest.mark.parametrize("module", ["figures"])
def test_examples_run(module):
    """The examples in the docstrings give what they print."""
    import doctest

    failed, tried = doctest.testmod(import_module(f"workbench.exercises.{LESSON}.{module}"))
    assert tried and not failed


TEXT = (Path(__file__).parents[2] / "instructor" / "lessons" / f"{LESSON}.md").read_text(encoding="utf-8")


def test_the_lesson_counts_its_questions_and_marks():
    """The first screen says how many questions and marks there are, and every outcome."""
    asked = of_lesson(LESSON)
    assert f"{len(asked)} questions, {sum(one.marks for one in asked)} marks" in TEXT.split("+++")[0]
    for one in asked:
        assert one.outcome.removeprefix("can ") in TEXT.split("+++")[0]


def test_every_outcome_has_three_items():
    """Four outcomes, each shown by three items at least."""
    counts = {}
    for one in of_lesson(LESSON):
        counts[one.outcome] = counts.get(one.outcome, 0) + 1
    assert len(counts) == 4 and min(counts.values()) >= 3


@pytest.mark.parametrize("hazard", ["nitrate salts", "Water", "magnesium", "oil", "quench", "solvent", "cold burns",
                                    "No live bath"])
def test_hazards_stand_before_the_first_question(hazard):
    """What can hurt is named before anything is asked (common practice)."""
    assert hazard.lower() in TEXT.split("```{question}")[0].lower()


def test_the_lesson_stops_every_three_or_four_questions():
    """No more than four questions stand between two places to stop; the marks stand at each."""
    parts = re.split(r"Save and stop here", TEXT)
    assert len(parts) >= 4
    assert all(part.count("```{question}") <= 4 for part in parts)
    assert TEXT.count("```{marks}") >= len(parts) - 1


def test_worked_sums_of_the_lesson_are_sound():
    """Each sum printed in a worked table is what its line says (checked by hand here, term by term)."""
    for said in ("(986 − 32) ÷ 1.8 | 530 °C", "541 − 4 − 1 | 536 °C", "14 + 50 | 64 min", "60 − 14 − 9 = 37 min",
                 "48 × 37 ÷ 60 = 29.6 | 29 rivets"):
        assert said in TEXT, said
    assert ((986 - 32) / 1.8, 541 - 4 - 1, 14 + 50, 60 - 14 - 9, 48 * 37 // 60) == (530, 536, 64, 37, 29)
