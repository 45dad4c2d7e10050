"""The measuring-screw exercises against worked readings and arithmetic done by hand.

Sources: US Navy training manuals NAVEDTRA 14001 and 14003 (inch reading); D. A. Swyt, J. Res. NIST 99, 31
(1994) (expansion coefficients, 20 degC); the inch is 25.4 mm by definition. The other scales are common
practice, no source; their sums are written out beside each value.
"""

from itertools import permutations

import pytest

from workbench.exercises import find
from workbench.exercises.exercise import letters
from workbench.marking import judge
from workbench.screws.measuring import INCH, METRIC, METRIC_VERNIER, instrument, scales_of

RIGHT = [
    # 7 + 0.5
    ("sleeve", {"whole": 7, "line": 38}, 7.5),
    # 7 + 0.5 + 0.38
    ("pin", {"whole": 7, "line": 38}, 7.88),
    # 7.88 - 0.02
    ("pin_size", {"whole": 7, "line": 38, "zero": 0.02, "earlier": 7.88}, 7.86),
    # 7 + 0.47, the half line only peeps
    ("peeping", {"whole": 7, "line": 47}, 7.47),
    # line 48 stands two lines short: 7.88 + 0.02
    ("short", {"closed": 48, "reading": 7.88}, 7.90),
    # 25 + 6 + 0.5 + 0.14
    ("frame", {"whole": 6, "line": 14}, 31.64),
    # 5.5 + 0.28 + 0.003, a reading printed in trade instructions (common practice)
    ("vernier", {"whole": 5, "line": 28, "vernier": 3}, 5.783),
    # 7 exposed, 12 on the thimble: NAVEDTRA 14001/14003
    ("inch", {"tenths": 7, "beyond": 0, "line": 12}, 0.712),
    # 0.3 + 2 x 0.025 + 0.014
    ("inch", {"tenths": 3, "beyond": 2, "line": 14}, 0.364),
    # 128 thou = 3.2512 mm; 3.30 - 3.2512
    ("clearance", {"thou": 128, "bore": 3.30}, 0.0488),
    # 1.5 x 2 / 100
    ("division", {"pitch": 1.5, "starts": 2, "dial": 100}, 0.03),
    # 3 turns of 3 mm + 20 x 0.03
    ("travel", {"pitch": 1.5, "starts": 2, "dial": 100, "turns": 3, "line": 20, "earlier": 0.03}, 9.6),
    # 0.8 off the diameter, 0.4 of tool movement, 0.05 a division
    ("cut", {"before": 30, "after": 29.2, "division": 0.05}, 8),
    # 0.8 off the diameter, 0.05 a division
    ("repair", {"before": 30, "after": 29.2, "division": 0.05}, 16),
    # 20 x 0.02 - 0.15
    ("slack", {"back": 20, "division": 0.02, "slack": 0.15}, 0.25),
    # 0.1 m x (23.1 - 11.5) x 12; coefficients and 20 degC from Swyt 1994
    ("warm", {"reading": 100, "degc": 32, "work": 23.1, "own": 11.5}, 13.92),
    # 10.000 - 0.004
    ("sure", {"lower": 9.964, "upper": 10.0, "doubt": 0.004}, 9.996),
]

# one value for each misstep in the order listed, on the draw named; sums by hand
WRONG = [
    # whole lines; all of it; 15 lines from zero; the next whole line
    ("sleeve", {"whole": 7, "line": 38}, [7, 7.88, 15, 8]),
    # 7 + 0.38; 7.5 + 0.12; 7.5 + 0.76; 15 + 0.38; 7.5 + 0.038
    ("pin", {"whole": 7, "line": 38}, [7.38, 7.62, 8.26, 15.38, 7.538]),
    # + 0.02; left; 7.38 - 0.02; - 0.2
    ("pin_size", {"whole": 7, "line": 38, "zero": 0.02, "earlier": 7.88}, [7.90, 7.88, 7.36, 7.68]),
    # 7.47 + 0.5; 7 + 0.03; 7 + 0.94; 7 + 0.047
    ("peeping", {"whole": 7, "line": 47}, [7.97, 7.03, 7.94, 7.047]),
    # - 0.48; - 0.02; left; + 0.48
    ("short", {"closed": 48, "reading": 7.88}, [7.40, 7.86, 7.88, 8.36]),
    # 6.64; 25 + 6.14; 25 + 6.5 + 0.36; 50 - 6.64
    ("frame", {"whole": 6, "line": 14}, [6.64, 31.14, 31.86, 43.36]),
    # 12.5 + 0.32 + 0.007; 12.81 + 0.038; 12.81 + 0.07; 12.31 + 0.007;
    # 12 + 0.32 + 0.007; 12.5 + 0.31; 25 lines from zero + 0.31 + 0.007
    (
        "vernier",
        {"whole": 12, "line": 31, "vernier": 7},
        [12.827, 12.848, 12.88, 12.317, 12.327, 12.81, 25.317],
    ),
    # 0.3 + 0.025 + 0.014; + 0.02; + 0.1; 3 + 0.05; 0.3 + 0.075 + 0.014; 0.3 + 0.05
    ("inch", {"tenths": 3, "beyond": 2, "line": 14}, [0.339, 0.334, 0.414, 3.064, 0.389, 0.35]),
    # 3.30 - 3.20; - 1.28; - 0.128; 3.2512
    ("clearance", {"thou": 128, "bore": 3.30}, [0.10, 2.02, 3.172, 3.2512]),
    # 1.5/100; 0.75/100; 0.01; 100/3
    ("division", {"pitch": 1.5, "starts": 2, "dial": 100}, [0.015, 0.0075, 0.01, 100 / 3]),
    # 1.5 x 3.2; 3 x 3; 9 + 0.2; 0.75 x 3.2
    ("travel", {"pitch": 1.5, "starts": 2, "dial": 100, "turns": 3, "line": 20, "earlier": 0.03}, [4.8, 9, 9.2, 2.4]),
    # 0.8/0.05; 0.2/0.05; 0.4/0.01
    ("cut", {"before": 30, "after": 29.2, "division": 0.05}, [16, 4, 40]),
    # 0.4/0.05; 0.2/0.05; 1.6/0.05; 0.8/0.01
    ("repair", {"before": 30, "after": 29.2, "division": 0.05}, [8, 4, 32, 80]),
    # 0.4; 0.4 + 0.15; 0.4 - 0.3; 0.2 - 0.15
    ("slack", {"back": 20, "division": 0.02, "slack": 0.15}, [0.40, 0.55, 0.10, 0.05]),
    # 0.1 x 23.1 x 12; 0.1 x 34.6 x 12; 0.1 x 11.6 x 32; 100 x 11.6 x 12
    ("warm", {"reading": 100, "degc": 32, "work": 23.1, "own": 11.5}, [27.72, 41.52, 37.12, 13920]),
    # 10; + 0.004; 9.964 + 0.004; - 0.008
    ("sure", {"lower": 9.964, "upper": 10.0, "doubt": 0.004}, [10.0, 10.004, 9.968, 9.992]),
]


@pytest.mark.parametrize("name, variant, expected", RIGHT, ids=[f"{row[0]}-{row[2]}" for row in RIGHT])
def test_the_right_answer_is_the_one_worked_by_hand(name, variant, expected):
    """Right answers agree with published readings and with sums done by hand."""
    assert find(f"measuring_screw.{name}").right(variant) == pytest.approx(expected, abs=1e-9)


@pytest.mark.parametrize("name, variant, expected", WRONG, ids=[row[0] for row in WRONG])
def test_each_misstep_gives_the_value_that_its_error_leads_to(name, variant, expected):
    """Wrong values agree with the error worked through by hand."""
    wrong = [misstep.wrong(variant) for misstep in find(f"measuring_screw.{name}").missteps]
    assert wrong == pytest.approx(expected, rel=1e-12, abs=1e-9)


def test_the_steps_begin_with_the_stopped_machine_and_must_be_right():
    """The order that keeps a hand safe is stop, clean, zero, measure, correct, and competence needs it."""
    steps = find("measuring_screw.steps")
    assert steps.critical
    assert steps.right(steps.variant(0)) == ("stop", "clean", "zero", "measure", "correct")  # common practice


def test_every_order_that_does_not_begin_with_the_stopped_machine_is_warned():
    """Of the 120 orders the 96 that begin otherwise are told that a turning machine can pull a hand in."""
    steps = find("measuring_screw.steps")
    variant = steps.variant(0)
    letter = {name: one for one, name in letters(variant).items()}
    warned = {}
    for order in permutations(letter):
        verdict = judge(steps, variant, " ".join(letter[step] for step in order))
        warned.setdefault(order[0] == "stop", []).append("pull" in verdict.message)
        assert verdict.marks == (order == steps.right(variant))
    assert all(warned[False]) and len(warned[False]) == 96
    assert not any(warned[True]) and len(warned[True]) == 24


def test_the_drive_to_turn_is_the_ratchet():
    """The ratchet gives everybody the same measuring force (common practice, no source)."""
    drive = find("measuring_screw.drive")
    assert drive.right(drive.variant(0)) == "ratchet"


@pytest.mark.parametrize(
    "name, used, sub_lines, lines",
    [
        ("pin", METRIC, {1}, range(11, 45)),
        ("sleeve", METRIC, {1}, range(11, 45)),
        ("peeping", METRIC, {0}, range(45, 50)),
        ("frame", instrument("metric 25-50"), {1}, range(11, 45)),
        ("vernier", METRIC_VERNIER, {1}, range(11, 45)),
        ("inch", INCH, {2, 3}, range(6, 25)),
    ],
)
def test_the_picture_shows_the_scales_of_the_draw_and_the_same_traps_for_all(name, used, sub_lines, lines):
    """In every draw the half line is out alike, and the instrument in the picture shows the draw's own lines."""
    exercise = find(f"measuring_screw.{name}")
    for draw in exercise.draws():
        shown = exercise.shows(exercise.of_draw(draw))[1]
        assert shown["instrument"] == used
        scales = scales_of(shown["gap"], used)
        assert scales.sub_lines in sub_lines and scales.thimble_line in lines
        assert scales.thimble_line == draw["line"]
        assert scales.main_lines == draw.get("whole", draw.get("tenths"))
        assert scales.vernier_line == draw.get("vernier", 0)


def test_closed_faces_short_of_zero_show_the_line_of_the_draw():
    """The closed screw in the picture stands short of zero, at the draw's own thimble line, in every draw."""
    exercise = find("measuring_screw.short")
    for draw in exercise.draws():
        shown = exercise.shows(draw)[1]
        scales = scales_of(shown["gap"], shown["instrument"])
        assert scales.below_zero and scales.thimble_line == draw["closed"] and shown["gap"] == 0


def test_heat_takes_answers_whose_two_growths_were_rounded_to_three_figures():
    """The tolerance on heat covers both growths rounded to three figures before they are taken off each other."""
    warm = find("measuring_screw.warm")
    for draw in warm.draws():
        metres, degrees = draw["reading"] / 1000, draw["degc"] - 20
        rounded = float(f"{metres * 23.1 * degrees:.3g}") - float(f"{metres * 11.5 * degrees:.3g}")  # Swyt 1994
        assert warm.answer.same(rounded, warm.right(draw), draw)


def test_a_clearance_needs_its_unit():
    """Thou beside millimetres: a bare number is handed back, inches and millimetres are both taken."""
    from workbench.marking import judge

    clearance = find("measuring_screw.clearance")
    variant = {"thou": 300, "bore": 7.68}  # 7.62 mm: 0.06 mm
    assert judge(clearance, variant, "0.06").standing == "not judged"
    assert judge(clearance, variant, "0.06 mm").standing == "right"
    assert judge(clearance, variant, "0.0024 in").standing == "right"  # 0.061 mm


def test_a_clearance_needs_no_rule_for_rounding():
    """In every draw the clearance worked out fully lies 0.002 mm or more from a half of 0.01 mm."""
    draws = find("measuring_screw.clearance").draws()
    for draw in draws:
        tenths_um = draw["bore"] * 10000 - draw["thou"] * 254  # 25.4 mm an inch, by definition
        assert abs(round(tenths_um) % 100 - 50) >= 20, draw
    assert len(draws) >= 40


@pytest.mark.parametrize("candidate", [0, 7])
def test_every_picture_can_be_drawn_and_its_text_keeps_the_reading_back(candidate):
    """Each question's picture is a PNG; its text equivalent names lines, never the right answer."""
    from importlib import import_module

    from workbench.exercises import of_lesson

    for exercise in (*of_lesson("measuring_screw"), *of_lesson("start")):
        if exercise.shows is None:
            continue
        variant = exercise.variant(candidate)
        name, arguments = exercise.shows(variant)
        png, text = import_module(f"workbench.drawings.{name}").picture(**arguments)
        assert png.startswith(b"\x89PNG")
        assert f"{exercise.right(variant):.{exercise.answer.decimals}f}" not in text
