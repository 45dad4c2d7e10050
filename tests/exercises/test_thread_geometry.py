"""The thread-geometry exercises against printed sizes and arithmetic done by hand.

Sources: ISO 724 (pitch and minor diameters) and ISO 68-1 (root, depths) as reprinted; ISO 965-2 and ASME B1.13M
(limits of 6g and 6H) as reprinted; a three-wire note with M = d2 + 3W - 0.866025P and W = 0.57735P as reprinted;
ISO 1502 (not-go may start by two turns) as read in gauge makers' summaries. Other sums are written out beside
each value.
"""

import math
import re
from pathlib import Path

import pytest

from workbench.exercises import find, of_lesson
from workbench.exercises.draws import up
from workbench.tables import table
from workbench.threads.gauging import not_go_accepts

M10 = {"diameter": 10, "pitch": 1.5, "height": 1.299, "below": 0.487, "depth": 0.812, "shown": 8.38}
# d2 9.026 less 32, then 132 wide; nut 180 wide: ASME B1.13M, ISO 965-2 reprints
PAIR = {
    "diameter": 10, "pitch": 1.5, "basic": 9.026, "largest": 8.994, "below": 32, "screw_width": 132, "nut_width": 180,
}  # fmt: skip
OVER = {"diameter": 10, "pitch": 1.5, "wire": 0.866, "over": 10.325, "error": 0.02}
HOLE = {"diameter": 10, "pitch": 1.5, "hole": 8.5}
FINE = {"diameter": 8, "pitch": 0.75, "rule": 7.25, "over": 0.15, "low": 7.188, "high": 7.378}
BLIND = {"diameter": 10, "pitch": 1.5, "hole": 8.5, "lead": 4, "thread": 15}

RIGHT = [
    # ISO 724 prints d2 of M10, M12, M16
    ("pitch_diameter", M10, 9.026, 0.0005),
    ("pitch_diameter", {"diameter": 12, "pitch": 1.75}, 10.863, 0.0005),
    ("pitch_diameter", {"diameter": 16, "pitch": 2}, 14.701, 0.0005),
    # ISO 724 prints D1
    ("bore", M10, 8.376, 0.0005),
    ("bore", {"diameter": 12, "pitch": 1.75}, 10.106, 0.0005),
    ("bore", {"diameter": 18, "pitch": 2.5}, 15.294, 0.0005),
    # (10 - 8.376) / 2; ISO 68-1: H1 = 0.541266 P = 0.812
    ("engagement", {**M10, "earlier": 8.376}, 0.812, 1e-9),
    # ISO 68-1 reprints: d3 of M10, M12, M14
    ("root", M10, 8.160, 0.0005),
    ("root", {"diameter": 12, "pitch": 1.75}, 9.853, 0.0005),
    ("root", {"diameter": 14, "pitch": 2}, 11.546, 0.0005),
    # ASME B1.13M prints 8.862 for M10-6g
    ("thinnest", PAIR, 8.862, 1e-9),
    # ISO 965-2 prints D2 9.206 at most for M10-6H; 9.206 - 8.862
    ("play", {**PAIR, "earlier": 8.862}, 0.344, 1e-9),
    # four layers on the pitch diameter at 60 degrees (plating rule, from memory): 32 - 4 x 5
    ("plated", {"below": 32, "layer": 5}, 12, 1e-9),
    # 0.57735 x 2, three-wire note
    ("best_wire", {"pitch": 2}, 1.1547, 1e-5),
    # 10.325 - 2.598 + 0.866025 x 1.5, three-wire note
    ("measured", OVER, 9.02604, 1e-5),
    # 1.732051 x 0.020 = 0.034641
    ("acts_as", {**OVER, "earlier": 9.026}, 9.060641, 1e-6),
    # 150 / 1.623798 (ISO 68-1: d - D1 = 1.082532 P)
    ("percent", HOLE, 92.376, 0.001),
    # 10 - 0.65 x 1.299038 x 1.5
    ("drill", {"diameter": 10, "pitch": 1.5, "percent": 65}, 8.733438, 1e-6),
    # 7.25 + 0.15 - 7.378; D1 of M8x0.75-6H 7.188 to 7.378 from memory of ISO 965-2
    ("over_limit", FINE, 0.022, 1e-9),
    # 15 + 6 + 4.25 / tan 59 = 15 + 6 + 4.25 / 1.664279
    ("hole_depth", BLIND, 23.553658, 1e-5),
]

# one value for each misstep in the order listed, on the draw named; H = 1.299038 at P 1.5; sums by hand
WRONG = [
    # 10 - 0.487139; - 1.299038; - 1.623798; + 0.974279
    ("pitch_diameter", M10, [9.512861, 8.700962, 8.376202, 10.974279]),
    # 10 - 0.811899; - 0.974279; - 1.840304; - 1.5; - 2.598076; 1.623798; 10 - 1.0825
    ("bore", M10, [9.188101, 9.025721, 8.159696, 8.5, 7.401924, 1.623798, 8.9175]),
    # 10 - 8.376; 17/24 x 1.299038; 1.299038; 1.624/4; itself
    ("engagement", {**M10, "earlier": 8.376}, [1.624, 0.920152, 1.299038, 0.406, 8.376]),
    # 10 - 1.623798; - 0.920152; - 2.598076; - 1.5
    ("root", M10, [8.376202, 9.079848, 7.401924, 8.5]),
    # 9.026 - 0.132; 8.994 + 0.132; - 0.066; - 1.32; 8.862 - 0.032
    ("thinnest", PAIR, [8.894, 9.126, 8.928, 7.674, 8.83]),
    # 0.180 + 0.132; 0.180 - 0.132; 9.026 - 8.862; 0.032; 9.206 - 8.994
    ("play", {**PAIR, "earlier": 8.862}, [0.312, 0.048, 0.164, 0.032, 0.212]),
    # 32 - 10; - 5; 32; + 20
    ("plated", {"below": 32, "layer": 5}, [22, 27, 32, 52]),
    # 2/(2 x 0.5); 2/2; 1 x 0.866025; 2/0.866025
    ("best_wire", {"pitch": 2}, [2, 1, 0.866025, 2.309401]),
    # 10.325 - 2.598; 7.727 - 1.299038; 10.325 - 1.732 + 1.299038; 7.727 + 1.5; 10.325 - 0.866 + 1.299038
    ("measured", OVER, [7.727, 6.427962, 9.892038, 9.227, 10.758038]),
    # + 0.020; + 0.011547; - 0.034641; left; 0.034641
    ("acts_as", {**OVER, "earlier": 9.026}, [9.046, 9.037547, 8.991359, 9.026, 0.034641]),
    # 150/1.948557; 92.376/2; 150/1.5; 850/10; 2 x 92.376
    ("percent", HOLE, [76.980036, 46.188022, 100, 85, 184.752086]),
    # 10 - 0.65 x 1.623798; 8.5; - 0.65 x 0.974279; - 1.948557; - 0.975
    ("drill", {"diameter": 10, "pitch": 1.5, "percent": 65}, [8.944531, 8.5, 9.366719, 8.051443, 9.025]),
    # 7.25 - 7.378; 7.40 - 7.188; other sign; 7.55 - 7.378
    ("over_limit", FINE, [-0.128, 0.212, -0.022, 0.172]),
    # 15; + 6; + 2.553658; 15 + 4 + 2.553658; 21 + 8.5
    ("hole_depth", BLIND, [15, 21, 17.553658, 21.553658, 29.5]),
]


@pytest.mark.parametrize("name, variant, expected, within", RIGHT, ids=[f"{row[0]}-{row[2]}" for row in RIGHT])
def test_the_right_answer_is_the_one_printed_or_worked_by_hand(name, variant, expected, within):
    """Right answers agree with reprinted standards and with sums done by hand."""
    assert find(f"thread_geometry.{name}").right(variant) == pytest.approx(expected, abs=within)


@pytest.mark.parametrize("name, variant, expected", WRONG, ids=[row[0] for row in WRONG])
def test_each_misstep_gives_the_value_that_its_error_leads_to(name, variant, expected):
    """Wrong values agree with the error worked through by hand."""
    wrong = [misstep.wrong(variant) for misstep in find(f"thread_geometry.{name}").missteps]
    assert wrong == pytest.approx(expected, abs=2e-6)


def three(value):
    """A value kept to three figures on the way, as on a small calculator."""
    return float(f"{value:.3g}")


# the working as the hints teach it, each intermediate result kept to three figures (wires: three decimals), the
# last one rounded as asked
BY_HAND = {
    "pitch_diameter": lambda v: v["diameter"] - 2 * v["below"],
    "bore": lambda v: v["diameter"] - 2 * three(5 / 8 * three(0.866 * v["pitch"])),
    "engagement": lambda v: (v["diameter"] - (v["diameter"] - 2 * three(5 / 8 * three(0.866 * v["pitch"])))) / 2,
    "root": lambda v: v["diameter"] - 2 * three(17 / 24 * v["height"]),
    "best_wire": lambda v: v["pitch"] / 1.732,
    "measured": lambda v: v["over"] - round(3 * v["wire"], 3) + round(0.866 * v["pitch"], 3),
    "acts_as": lambda v: round(BY_HAND["measured"](v), 3) + round(v["error"] / 0.577, 3),
    "percent": lambda v: 100 * (v["diameter"] - v["hole"]) / three(1.0825 * v["pitch"]),
    "drill": lambda v: v["diameter"] - three(v["percent"] / 100 * three(1.299 * v["pitch"])),
    "hole_depth": lambda v: v["thread"] + v["lead"] * v["pitch"] + 0.3 * v["hole"],
}


@pytest.mark.parametrize("name", BY_HAND)
def test_honest_rounding_on_the_way_is_right(name):
    """In every draw the hints' own working with printed constants, rounded on the way, is within the tolerance."""
    exercise = find(f"thread_geometry.{name}")
    for draw in exercise.draws():
        variant = exercise.of_draw(draw)
        assert exercise.answer.same(BY_HAND[name](variant), exercise.right(variant), variant), draw


def test_every_thread_asked_about_is_one_of_iso_261():
    """Diameters and pitches of all draws are sizes of the table of ISO 261 without a restriction."""
    known = {(row["diameter_mm"], row["pitch_mm"]) for row in table("iso_261_metric").rows.values() if not row["note"]}
    for exercise in of_lesson("thread_geometry"):
        for draw in exercise.draws():
            assert "diameter" not in draw or (draw["diameter"], draw["pitch"]) in known


def test_the_printed_lines_of_a_working_follow_from_each_other():
    """What a workmate has written is what 0.866 P, 3/8, 5/8 and letter g give, to the figures printed."""
    for draw in find("thread_geometry.pitch_diameter").draws():
        assert draw["height"] == pytest.approx(0.866025 * draw["pitch"], abs=0.0006)
        assert draw["below"] == pytest.approx(0.324760 * draw["pitch"], abs=0.0006)
    for draw in find("thread_geometry.root").draws():
        assert draw["shown"] == pytest.approx(draw["diameter"] - 2 * draw["depth"], abs=0.006)
    for draw in find("thread_geometry.thinnest").draws():
        assert draw["largest"] == pytest.approx(draw["basic"] - draw["below"] / 1000, abs=1e-9)


def test_wires_lie_inside_the_shop_rule():
    """Every wire lies between 0.56 P and 0.90 P (three-wire note of a machinists' society)."""
    for draw in find("thread_geometry.measured").draws():
        assert 0.56 * draw["pitch"] <= draw["wire"] <= 0.90 * draw["pitch"]


def test_the_screw_that_is_gauged_is_good():
    """The not-go starts by less than two turns (ISO 1502), so the screw is accepted in every draw."""
    verdict = find("thread_geometry.verdict")
    for draw in verdict.draws():
        assert not_go_accepts(draw["turns"]) and draw["turns"] % 1
        assert verdict.right(draw) == "accept"


def test_chips_are_brushed_from_a_stopped_tap_and_competence_needs_it():
    """No finger, no air line, nothing near a turning tap (common practice, no source)."""
    swarf = find("thread_geometry.swarf")
    assert swarf.critical and swarf.right(swarf.variant(0)) == "brush"


def test_a_bore_breaks_its_limit_in_fine_threads_only():
    """The rule d - P gives 92.4 % anywhere; the same excess that a fine bore cannot bear a coarse one can."""
    for draw in find("thread_geometry.over_limit").draws():
        assert draw["pitch"] <= 1 and draw["low"] < draw["rule"] < draw["high"]
    assert 8.5 + 0.15 < 8.676 and 9.25 + 0.15 > 9.378  # M10-6H and M10x0.75-6H, D1 at most: ISO 965-2


def test_every_hole_asked_about_passes_its_gauge():
    """d - D1 of 6H at most as ISO 965-1 has it: 1.0825 P less the tolerance of grade 6 (from memory), in every draw."""
    grade_6 = {1.25: 0.265, 1.5: 0.3, 1.75: 0.335, 2: 0.375, 2.5: 0.45, 3: 0.5, 3.5: 0.56, 4: 0.6}
    for name in ("percent", "drill"):
        exercise = find(f"thread_geometry.{name}")
        for draw in exercise.draws():
            hole = draw.get("hole") or exercise.right(draw)
            deepest = 1.0825318 * draw["pitch"]
            assert deepest - grade_6[draw["pitch"]] - 0.001 <= draw["diameter"] - hole <= deepest + 0.001, draw
    assert 57.505 < 58.15 < 58.305 and 57.505 < 57.9  # the hints' M64x6-6H: ISO 965-2, from memory


@pytest.mark.parametrize("value, expected", [(0.0101, 0.011), (0.012, 0.012), (0.0, 0.0)])
def test_a_printed_width_is_never_too_small(value, expected):
    """A tolerance is rounded up to thousandths, by hand."""
    assert up(value) == expected


LESSON = Path(__file__).parents[2] / "instructor" / "lessons" / "thread_geometry.md"


def test_the_lesson_names_its_marks_and_outcomes_first():
    """The first screen's count of questions and marks is that of the exercises; every outcome is promised there."""
    first = LESSON.read_text(encoding="utf-8").split("+++")[0]
    asked = of_lesson("thread_geometry")
    assert f"{len(asked)} questions, {sum(exercise.marks for exercise in asked)} marks" in first
    for outcome in {exercise.outcome for exercise in asked}:
        assert outcome.removeprefix("can ") in first


def test_each_outcome_is_judged_three_times_or_more():
    """With the second set of numbers every outcome has at least six judged items."""
    outcomes = [exercise.outcome for exercise in of_lesson("thread_geometry")]
    assert min(outcomes.count(outcome) for outcome in outcomes) >= 3


def test_cautions_come_first_and_the_parts_of_the_lesson_in_order():
    """Cautions before the first question; worked, faded, alone; rule and failing case; bench, three sentences."""
    text = LESSON.read_text(encoding="utf-8")
    order = ["Afterwards you can", "How it is marked", "Before you touch", "```{question} swarf",
             "Worked:", "Faded:", "Alone", "Find the mistake", "where it fails", "At the bench",
             "Three sentences to remember", "To leave"]  # fmt: skip
    found = [text.index(mark) for mark in order]
    assert found == sorted(found)
    assert text.index("Predict first") < text.index("```{panel} thread_zones") < text.index("```{question} thinnest")
    assert all(part.count("```{question}") <= 4 for part in re.split("Save and stop here", text))


def test_the_worked_case_of_the_lesson_is_m6_of_the_standards():
    """M6: H 0.866, d2 5.350, D1 4.917, d3 4.773 (ISO 724, 68-1), 6g 5.324 to 5.212, 6H to 5.500 (ISO 965-2)."""
    text = LESSON.read_text(encoding="utf-8")
    for printed in ("0.866", "5.350", "4.917", "4.773", "5.324", "5.212", "5.500", "0.288"):
        assert printed in text
    assert math.isclose(5.500 - 5.212, 0.288)
    assert all(draw.get("diameter") != 6 or draw["pitch"] != 1
               for exercise in of_lesson("thread_geometry") for draw in exercise.draws())  # fmt: skip


@pytest.mark.parametrize("candidate", [0, 7])
def test_every_picture_can_be_drawn_and_keeps_the_answer_back(candidate):
    """Each question's picture is a PNG; its text equivalent never names the right answer."""
    from importlib import import_module

    for exercise in of_lesson("thread_geometry"):
        if exercise.shows is not None:
            variant = exercise.variant(candidate)
            name, arguments = exercise.shows(variant)
            png, text = import_module(f"workbench.drawings.{name}").picture(**arguments)
            assert png.startswith(b"\x89PNG")
            assert f"{exercise.right(variant):.{exercise.answer.decimals}f}" not in text
