"""Choosing a screw: the whole series is tried, every refusal is true, and none is missing."""

from dataclasses import replace

import pytest

from workbench.screws.power_choice import Task, allowed_pressure_mpa, choose, series, tried
from workbench.tables import table
from workbench.threads.profile import profile

JACK = Task(load_n=8000, stroke_mm=200, hand_n=150, crank_mm=300)


@pytest.mark.parametrize("form, sizes", [
    ("trapezoidal", "trapezoidal_sizes"), ("acme", "acme_sizes"),
    ("buttress 3/30", "trapezoidal_sizes"), ("square", "trapezoidal_sizes"),
])  # fmt: skip
def test_every_size_of_the_series_is_tried(form, sizes):
    """One candidate a size and number of starts, thinnest first."""
    found = choose(JACK, form, starts=(1, 2))
    assert len(found) == 2 * len(table(sizes).rows)
    majors = [one.thread.major_mm for one in found]
    assert majors == sorted(majors)
    assert len({one.call for one in found}) == len(found)


def test_one_to_four_starts_are_tried_unless_told_otherwise():
    """Without a wish each size is tried with 1, 2, 3 and 4 starts."""
    assert {one.thread.starts for one in choose(JACK)} == {1, 2, 3, 4}


def test_one_size_by_hand():
    """Tr20x4, 8 kN: 72000 x (0.070736 + 0.165643) / (1 - 0.011717) + 8000 x 0.10 x 25 / 2 = 27221 N mm; / 300 = 90.7 N.

    Most friction of oiled steel in bronze 0.16 / cos 15 deg = 0.165643; starting collar 0.10 (textbook tables).
    Least 0.10 against 0.070736 x 0.965926 = 0.068326: margin 1.464. Flanks 8000 / (10 x 113.097) = 7.074 MPa.
    """
    one = tried("Tr20x4", profile("trapezoidal", 20, 4), JACK)
    assert one.torque_nmm == pytest.approx(27221, abs=2)
    assert one.hand_n == pytest.approx(90.74, abs=0.01)
    assert one.margin == pytest.approx(1.4636, abs=0.0005)
    assert one.pressure_mpa == pytest.approx(7.074, abs=0.001)
    assert one.speed_mm_s == pytest.approx(2)
    assert one.refusals == ()


@pytest.mark.parametrize("change, size, reason", [
    ({"hand_n": 90}, (20, 4, 1), "the hand needs 91 N, 90 N are allowed"),
    ({"speed_mm_s": 2.5}, (20, 4, 1), "it moves 2 mm/s, 2.5 mm/s are wanted"),
    ({}, (20, 4, 3), "it runs back by itself .margin 0.49."),
    ({"load_n": 25000, "hand_n": 1000, "stroke_mm": 10}, (20, 4, 1), "its flanks carry 22.1 MPa, 11 MPa are allowed"),
    ({"load_n": 12000, "hand_n": 1000, "stroke_mm": 10}, (20, 4, 1), "its root carries .* yield of C45.N ÷ 3 is 102"),
    ({"stroke_mm": 400}, (20, 4, 1), "it buckles at .* N, load × 3 is 24000 N"),
])  # fmt: skip
def test_each_limit_refuses_with_its_reason(change, size, reason):
    """A limit moved past the candidate brings exactly that reason, among others perhaps."""
    import re

    found = tried("Tr", profile("trapezoidal", *size), replace(JACK, **change))
    assert [said for said in found.refusals if re.fullmatch(reason + r".*", said)], found.refusals


@pytest.mark.parametrize("form", ["trapezoidal", "acme", "buttress 3/30", "square"])
def test_what_serves_meets_every_limit(form):
    """No candidate without refusals breaks a limit of the task, and each form has one that serves."""
    serving = [one for one in choose(JACK, form) if not one.refusals]
    assert serving
    for one in serving:
        assert one.hand_n <= 150 and one.margin >= 1 and one.buckles_at_n >= 24000
        assert one.stress_mpa <= 305 / 3 and one.pressure_mpa <= 17.2


def test_a_screw_that_may_run_back_is_taken_where_that_is_allowed():
    """With stays=False the only reason against a steep lead falls away."""
    thread = profile("trapezoidal", 30, 6, 3)
    assert any("runs back" in said for said in tried("Tr", thread, JACK).refusals)
    assert not any("runs back" in said for said in tried("Tr", thread, replace(JACK, stays=False)).refusals)


def test_allowed_pressure_takes_the_safer_figure():
    """Lower figure of the row; between two rows that of the faster (textbook table, from memory)."""
    assert allowed_pressure_mpa("bronze", 1.5) == 17.2
    assert allowed_pressure_mpa("bronze", 1.51) == 11.0
    assert allowed_pressure_mpa("bronze", 4) == 5.5
    assert allowed_pressure_mpa("cast iron", 0) == 6.9
    assert allowed_pressure_mpa("bronze", 60) == 1.0


def test_names_of_sizes():
    """Call-outs carry the letters of the form, and the starts where there are several."""
    assert series("buttress 3/30")[5][0].startswith("S")
    assert series("trapezoidal", 2)[0][0] == "Tr8x1.5, 2 starts"
    assert ("1-5 Acme" in dict(series("acme"))) and dict(series("acme"))["1-5 Acme"].major_mm == pytest.approx(25.4)


@pytest.mark.parametrize("call, says", [
    (lambda: Task(0, 200, 150, 300), "load_n = 0"),
    (lambda: Task(8000, -1, 150, 300), "stroke_mm = -1"),
    (lambda: Task(8000, 200, 0, 300), "hand_n = 0"),
    (lambda: Task(8000, 200, 150, 0), "crank_mm = 0"),
    (lambda: Task(8000, 200, 150, 300, turns_per_min=0), "turns_per_min = 0"),
    (lambda: Task(8000, 200, 150, 300, speed_mm_s=-1), "speed_mm_s = -1"),
    (lambda: choose("jack"), "task = 'jack': must be a Task"),
    (lambda: series("metric"), "form = 'metric': is no form for moving a load; there are trapezoidal.*does it fasten"),
    (lambda: series("trapezoidal", 0), "starts = 0"),
    (lambda: series("trapezoidal", 9), "starts = 9: must be at most 8"),
    (lambda: allowed_pressure_mpa("wood", 1), "material = 'wood': is no nut of the table; there are bronze, cast iron"),
    (lambda: allowed_pressure_mpa("bronze", 61), "sliding_m_min = 61: is faster than the table goes"),
    (lambda: choose(replace(JACK, steel="cheese")), "no row 'cheese' in table screw_steels"),
    (lambda: choose(replace(JACK, pair="wet")), "no row 'wet' in table power_screw_friction"),
])  # fmt: skip
def test_bad_input_is_refused_with_a_reason(call, says):
    """Nothing to lift, forms that fasten, unknown materials, a speed beyond the table."""
    with pytest.raises(ValueError, match=says):
        call()


def test_small_tasks_are_taken():
    """Only nothing and less is refused: half a newton over half a millimetre."""
    assert Task(0.5, 0.5, 0.5, 0.5, turns_per_min=0.5).load_n == 0.5


@pytest.mark.parametrize("limit, value", [("hand_n", "hand_n"), ("speed_mm_s", "speed_mm_s")])
def test_a_limit_that_is_just_met_is_met(limit, value):
    """Hand force and speed equal to the limit are no reason against a screw."""
    thread = profile("trapezoidal", 20, 4)
    exact = getattr(tried("Tr", thread, JACK), value)
    assert tried("Tr", thread, replace(JACK, **{limit: exact})).refusals == ()


def test_buckling_counts_stroke_and_half_the_nut():
    """Free length of Tr20x4: 200 + 20 mm, K 2.1: pi^2 205000 (pi/64 15.5^4) / 462^2 = 26857 N (Euler, s 119)."""
    one = tried("Tr20x4", profile("trapezoidal", 20, 4), JACK)
    assert one.buckles_at_n == pytest.approx(26857, abs=10)


def test_stress_of_root_and_ridge_together_by_hand():
    """Tr20x4: axial -42.397, torsion 16 x 27221/(pi 15.5^3) = 37.228; foot 2 + 1.25 x 0.5359 = 2.670 mm wide:

    bending 6 x 800 x 1.25 / (pi x 15.5 x 7.128) = 17.286; sqrt(42.397^2 + 42.397 x 17.286 + 17.286^2 + 3 x 37.228^2).
    """
    one = tried("Tr20x4", profile("trapezoidal", 20, 4), JACK)
    assert one.stress_mpa == pytest.approx(83.59, abs=0.01)
