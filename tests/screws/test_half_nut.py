"""Half nuts: drawing off checked on the helical faces in space, forces by integration, play on the outline."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from workbench.screws.half_nut import (
    clear_angle_deg,
    closing,
    closing_for_mm,
    entry_window_mm,
    greatest_axial_n,
    half_nut_pressure_mpa,
    lost_turn_deg,
    play_mm,
    play_taken_up_mm,
    spreading_force_n,
)
from workbench.threads.flank import parting_force_n
from workbench.threads.profile import profile

TR20 = profile("trapezoidal", 20, 4)
MOVING = ("metric", "square", "trapezoidal", "acme", "buttress 3/30", "buttress 7/45")


def of(form, starts=1):
    return profile(form, *((38.1, 6.35) if form == "acme" else (36, 6)), starts)


@pytest.mark.parametrize("form", [form for form in MOVING if form != "square"])
@pytest.mark.parametrize("starts", [1, 3])
def test_up_to_the_clear_angle_a_half_draws_straight_off(form, starts):
    """On the faces in space: a half moved outward frees both flanks within the angle, and catches just beyond it."""
    thread = of(form, starts)
    middle, rise, away = thread.pitch_diameter_mm / 2, thread.lead_mm / (2 * math.pi), 1e-5
    slopes = [math.tan(math.radians(thread.flank_deg(side))) for side in ("load", "clearance")]

    def gap(turn):
        """Least axial room between flank of nut and flank of screw after the move, both flanks."""
        x, y = middle * math.cos(turn) + away, middle * math.sin(turn)
        outward, turned = math.hypot(x, y) - middle, math.atan2(y, x) - turn
        return min(outward * slopes[0] - rise * turned, outward * slopes[1] + rise * turned)

    clear = math.radians(clear_angle_deg(thread))
    inside = np.linspace(-0.99 * clear, 0.99 * clear, 101)
    assert min(gap(turn) for turn in inside) > 0
    assert min(gap(1.01 * clear), gap(-1.01 * clear)) < 0


def test_the_clear_angle_by_hand():
    """Tr20x4: atan(0.267949 / 0.070736) = 75.21 deg; buttress 3/30: atan(0.052408 / ramp) is far less; square 0."""
    assert clear_angle_deg(TR20) == pytest.approx(75.21, abs=0.01)
    butt = profile("buttress 3/30", 20, 4)  # d2 = 20 - 0.75 x 4 = 17: ramp 4/(17 pi) = 0.074897
    assert clear_angle_deg(butt) == pytest.approx(34.98, abs=0.01)
    assert clear_angle_deg(profile("square", 20, 4)) == 0


@pytest.mark.parametrize("form, standing", [
    ("metric", "full halves"), ("trapezoidal", "full halves"), ("acme", "full halves"),
    ("buttress 3/30", "narrow halves"), ("square", "none"),
])  # fmt: skip
def test_which_form_allows_half_nuts(form, standing):
    """Sloping flanks do, square ones do not, one steep flank only narrowly (common practice, no source)."""
    found = closing(of(form))
    assert found.standing == standing and found.says
    assert found.entry_window_mm == entry_window_mm(of(form))
    assert found.clear_angle_deg == clear_angle_deg(of(form))


def test_many_starts_spoil_a_half_nut():
    """The steeper the lead, the narrower the halves that draw off."""
    assert closing(of("trapezoidal", 4)).standing == "narrow halves"


@pytest.mark.parametrize("form", MOVING)
def test_the_entry_window_is_mouth_less_crest(form):
    """Groove of the screw at its mouth less the crest of the nut, both measured on the flanks' lines."""
    thread = of(form)
    mouth = thread.pitch_mm - thread.ridge_width_mm(thread.major_mm / 2)
    crest = thread.ridge_width_mm(thread.nut_minor_mm / 2, "nut")
    assert entry_window_mm(thread) == pytest.approx(mouth - crest, abs=1e-12)


def test_the_entry_window_of_a_trapezoidal_thread_by_hand():
    """ISO 2901: 2 x 0.5 P x tan 15 deg = 0.26795 P."""
    assert entry_window_mm(TR20) == pytest.approx(0.267949 * 4, abs=1e-5)


@pytest.mark.parametrize("wrap", [40, 90, 120, 180])
@pytest.mark.parametrize("halves", [1, 2])
def test_spreading_force_by_summing_the_pushes(wrap, halves):
    """Outward push of each degree of the wrap, its part across the split summed by scipy."""
    reach = math.radians(wrap) / 2
    per_radian = 10000 * math.tan(math.radians(15)) / halves / (2 * reach)
    summed = quad(lambda turn: per_radian * math.cos(turn), -reach, reach)[0]
    assert spreading_force_n(10000, TR20, wrap_deg=wrap, halves=halves) == pytest.approx(summed)


def test_two_full_halves_part_as_a_ring():
    """F tan 15 / pi = 852.9 N, the parting force of the flank module; a square thread parts nothing."""
    assert spreading_force_n(10000, TR20) == pytest.approx(parting_force_n(10000, 15))
    assert spreading_force_n(10000, TR20) == pytest.approx(852.909, abs=0.001)
    assert spreading_force_n(10000, profile("square", 20, 4)) == 0
    butt = profile("buttress 7/45", 36, 6)
    assert spreading_force_n(1000, butt, "clearance") == pytest.approx(1000 / math.pi)


@given(st.floats(1, 5000), st.floats(20, 180), st.integers(1, 2))
def test_the_latch_opens_at_the_greatest_thrust(latch, wrap, halves):
    """greatest_axial_n undoes spreading_force_n."""
    thrust = greatest_axial_n(latch, TR20, "load", wrap, halves)
    assert spreading_force_n(thrust, TR20, "load", wrap, halves) == pytest.approx(latch)


def test_narrow_or_single_halves_press_harder():
    """A third of the way round on either side carries 240 of 360 deg: pressure x 1.5; one full half: x 2."""
    assert half_nut_pressure_mpa(8000, TR20, 36) == pytest.approx(7.860, abs=0.001)
    assert half_nut_pressure_mpa(8000, TR20, 36, wrap_deg=120) == pytest.approx(1.5 * 7.860, abs=0.002)
    assert half_nut_pressure_mpa(8000, TR20, 36, halves=1) == pytest.approx(2 * 7.860, abs=0.002)


def test_closing_takes_up_play_by_hand():
    """Tr20x4: 0.1 mm of play needs 0.1 / 0.535898 = 0.18660 mm; 0.25 mm of clearance takes up 0.13397 mm at most."""
    assert closing_for_mm(0.1, TR20) == pytest.approx(0.186603, abs=1e-6)
    assert play_taken_up_mm(0.25, TR20) == pytest.approx(0.133975, abs=1e-6)
    assert closing_for_mm(0, TR20) == 0


@pytest.mark.parametrize("form", ["trapezoidal", "acme"])
def test_play_is_seen_on_the_outlines(form):
    """A nut moved out by s leaves its crest's flanks room: groove width of the screw less ridge of the nut."""
    thread = of(form)
    radius, away = thread.pitch_diameter_mm / 2, 0.1
    groove = thread.pitch_mm - thread.ridge_width_mm(radius)
    ridge = thread.ridge_width_mm(radius - away, "nut")  # what stood s further in
    assert play_taken_up_mm(away, thread) == pytest.approx(groove - ridge, abs=1e-12)
    assert play_mm(2 * away, thread) == pytest.approx(groove - ridge, abs=1e-12)


def test_lost_turn_by_hand():
    """0.1 mm of play on a lead of 4 mm: 9 deg; on two starts 4.5 deg."""
    assert lost_turn_deg(0.1, TR20) == pytest.approx(9)
    assert lost_turn_deg(0.1, profile("trapezoidal", 20, 4, 2)) == pytest.approx(4.5)


def test_arrays_broadcast():
    """Forces, plays and gaps may be arrays."""
    many = np.array([0.0, 0.1])
    assert closing_for_mm(many, TR20).tolist() == pytest.approx([0, 0.186603], abs=1e-6)
    assert play_mm(many, TR20).shape == lost_turn_deg(many, TR20).shape == (2,)
    assert spreading_force_n(10000, TR20) == pytest.approx(852.909, abs=0.001)


@pytest.mark.parametrize("call, says", [
    (lambda: closing_for_mm(0.2, TR20), "is more than the crest clearance .0.25 mm."),
    (lambda: play_taken_up_mm(0.3, TR20), "closing_mm = 0.3: is more than the crest clearance"),
    (lambda: play_taken_up_mm(np.array([0.1, 0.3]), TR20), "crest clearance"),
    (lambda: closing_for_mm(0.1, profile("square", 20, 4)), "thread = 'square': has square flanks.*renew the nut"),
    (lambda: closing_for_mm(-0.1, TR20), "play_mm = -0.1"),
    (lambda: greatest_axial_n(100, profile("square", 20, 4)), "does not push the halves apart"),
    (lambda: greatest_axial_n(0, TR20), "latch_n = 0"),
    (lambda: spreading_force_n(-1, TR20), "axial_n = -1"),
    (lambda: spreading_force_n(1, TR20, halves=3), "halves = 3: must be at most 2"),
    (lambda: spreading_force_n(1, TR20, wrap_deg=200), "wrap_deg = 200: must be at most 180; one half"),
    (lambda: spreading_force_n(1, TR20, wrap_deg=0), "wrap_deg = 0"),
    (lambda: spreading_force_n(1, TR20, "top"), "side = 'top'"),
    (lambda: half_nut_pressure_mpa(8000, TR20, 3), "is under one pitch"),
    (lambda: half_nut_pressure_mpa(8000, TR20, 36, halves=3), "halves = 3"),
    (lambda: play_mm(-0.1, TR20), "gap_mm = -0.1"),
    (lambda: lost_turn_deg(-0.1, TR20), "axial_play_mm = -0.1"),
    (lambda: closing("Tr20x4"), "thread = 'Tr20x4': must be a Profile"),
    (lambda: lost_turn_deg(0.1, "Tr20x4"), "must be a Profile"),
])  # fmt: skip
def test_bad_input_is_refused_with_a_reason(call, says):
    """Closing beyond the clearance, square flanks, a third half, engagement under one pitch."""
    with pytest.raises(ValueError, match=says):
        call()


def test_small_amounts_are_taken():
    """Only nothing and less is refused: below one of each unit still counts."""
    assert spreading_force_n(0, TR20) == 0
    assert greatest_axial_n(0.5, TR20) == pytest.approx(0.5 * math.pi / 0.2679492)
    assert spreading_force_n(1000, TR20, wrap_deg=0.5) == pytest.approx(1000 * 0.2679492 / 2, rel=1e-4)
    assert play_mm(0, TR20) == lost_turn_deg(0, TR20) == play_taken_up_mm(0, TR20) == 0


def test_full_halves_begin_at_sixty_degrees():
    """Tr24x5: one start clears 74.6 deg, three starts 50.3 (ramp 3 x 5/(21.5 pi) = 0.22208): narrow; two 61.1: full."""
    found = [(clear_angle_deg(one), closing(one).standing)
             for one in (profile("trapezoidal", 24, 5, starts) for starts in (1, 2, 3))]  # fmt: skip
    assert [angle for angle, _ in found] == pytest.approx([74.55, 61.08, 50.35], abs=0.01)
    assert [standing for _, standing in found] == ["full halves", "full halves", "narrow halves"]
