"""Power screws: work and energy, forces on the unwrapped thread, what holds, what is refused."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from workbench.screws.power import (
    collar_mean_mm,
    collar_torque_nmm,
    efficiency_of,
    holding,
    least_coefficient,
    lowering_torque_nmm,
    raising_torque_nmm,
    ramp,
    rub,
)
from workbench.threads.flank import efficiency, friction_angle_deg
from workbench.threads.profile import forms, profile

TR20 = profile("trapezoidal", 20, 4)
SIZE = {"trapezoidal": (36, 6), "acme": (38.1, 6.35)}
EVERY = [(form, side, starts) for form in forms() for side in ("load", "clearance") for starts in (1, 2, 3)]


def of(form, starts=1):
    """A thread of about 36 mm of each form."""
    return profile(form, *SIZE.get(form, (36, 6)), starts)


def pressed(load, thread, coefficient, side, up=True):
    """Force on the flank and force on the arm d2/2, from equilibrium of a piece of unwrapped thread.

    Unknown N (square to the flank, which leans from the ramp by the flank angle) and H (level, on the arm);
    friction mu N runs along the ramp, down it while raising. Rows: along the axis, level.
    """
    climb, lean = math.atan(ramp(thread)), math.radians(thread.flank_deg(side))
    rubs = coefficient if up else -coefficient
    rows = [[math.cos(lean) * math.cos(climb) - rubs * math.sin(climb), 0],
            [math.cos(lean) * math.sin(climb) + rubs * math.cos(climb), -1]]  # fmt: skip
    return np.linalg.solve(rows, [load, 0])


@pytest.mark.parametrize("form, side, starts", EVERY)
def test_the_work_of_one_turn_lifts_and_rubs(form, side, starts):
    """Integral of the raising torque over a turn = integral of the load over the lead + friction work, every form.

    The load grows along the way as a spring's does; friction work is mu N along the thread and mu_c F at the collar.
    """
    thread, mu, mu_collar, collar = of(form, starts), 0.13, 0.1, 60
    lead = thread.lead_mm

    def load(angle):
        return 5000 + 300 * lead * angle / (2 * math.pi)

    def torque(angle):
        thrust = load(angle)
        return raising_torque_nmm(thrust, thread, mu, side) + collar_torque_nmm(thrust, mu_collar, collar)

    slope = lead / (2 * math.pi)
    along = math.hypot(thread.pitch_diameter_mm / 2, slope)
    work = quad(torque, 0, 2 * math.pi)[0]
    lifted = quad(lambda way: 5000 + 300 * way, 0, lead)[0]
    rubbed = quad(lambda angle: mu * pressed(load(angle), thread, mu, side)[0] * along, 0, 2 * math.pi)[0]
    at_collar = quad(lambda angle: mu_collar * load(angle) * collar / 2, 0, 2 * math.pi)[0]
    assert work == pytest.approx(lifted + rubbed + at_collar, rel=1e-9)


@pytest.mark.parametrize("form, side, starts", EVERY)
def test_lowering_gives_back_what_friction_leaves(form, side, starts):
    """Work of the lowering torque over a turn + work of the load = friction work, every form."""
    thread, mu, load = of(form, starts), 0.13, 5000
    along = math.hypot(thread.pitch_diameter_mm / 2, thread.lead_mm / (2 * math.pi))
    work = quad(lambda angle: lowering_torque_nmm(load, thread, mu, side), 0, 2 * math.pi)[0]
    flank = pressed(load, thread, mu, side, up=False)[0]
    assert work + load * thread.lead_mm == pytest.approx(mu * flank * along * 2 * math.pi, rel=1e-9)


@pytest.mark.parametrize("form, side, starts", EVERY)
def test_the_torque_is_the_level_force_on_the_mean_radius(form, side, starts):
    """Raising and lowering torque = force from equilibrium x d2 / 2."""
    thread = of(form, starts)
    for up, torque in ((True, raising_torque_nmm), (False, lowering_torque_nmm)):
        level = pressed(5000, thread, 0.13, side, up)[1] * (1 if up else -1)
        assert torque(5000, thread, 0.13, side) == pytest.approx(level * thread.pitch_diameter_mm / 2, rel=1e-9)


@pytest.mark.parametrize("form, side", [(form, side) for form in forms() for side in ("load", "clearance")])
def test_the_flank_angle_of_the_axial_section_is_near_enough(form, side):
    """Against the true normal of the helical flank (by differences), the torque of one start differs by under 1 %."""
    thread, load, mu = of(form), 5000, 0.13
    radius, lean = thread.pitch_diameter_mm / 2, math.tan(math.radians(thread.flank_deg(side)))

    def point(r, turn):
        return np.array([r * math.cos(turn), r * math.sin(turn),
                         thread.lead_mm * turn / (2 * math.pi) - (r - radius) * lean])  # fmt: skip

    step = 1e-6
    outward = (point(radius + step, 0) - point(radius - step, 0)) / (2 * step)
    along = (point(radius, step) - point(radius, -step)) / (2 * step)
    normal = np.cross(outward, along)
    normal, along = normal / np.linalg.norm(normal), along / np.linalg.norm(along)
    normal = normal if normal[2] > 0 else -normal
    up = normal - mu * along  # what the flank gives to the nut's load while it is raised
    exact = load / up[2] * -up[1] * radius
    assert raising_torque_nmm(load, thread, mu, side) == pytest.approx(exact, rel=0.01)


def test_the_textbook_triangle_by_hand():
    """Tr20x4, 8 kN, mu 0.12: 4/(18 pi) = 0.070736; 0.12/0.965926 = 0.124233; sum 0.194969 / 0.991212 x 72000."""
    assert ramp(TR20) == pytest.approx(0.070736, abs=1e-6)
    assert rub(TR20, 0.12) == pytest.approx(0.124233, abs=1e-6)
    assert raising_torque_nmm(8000, TR20, 0.12) == pytest.approx(14162, abs=1)
    assert lowering_torque_nmm(8000, TR20, 0.12) == pytest.approx(72000 * 0.053497 / 1.008788, abs=1)


def test_a_buttress_thread_turned_round_needs_more_torque():
    """On its 45 deg flank friction counts 0.12/0.7071 = 0.1697 instead of 0.12/0.9925 = 0.1209 on its 7 deg one."""
    thread = profile("buttress 7/45", 36, 6)
    assert rub(thread, 0.12) == pytest.approx(0.12090, abs=1e-5)
    assert rub(thread, 0.12, "clearance") == pytest.approx(0.16971, abs=1e-5)
    steep, shallow = (raising_torque_nmm(8000, thread, 0.12, side) for side in ("load", "clearance"))
    assert shallow > 1.25 * steep


@given(st.floats(0, 0.5), st.sampled_from(forms()), st.integers(1, 4))
def test_friction_and_slope_agree_with_the_angles_of_the_flank_module(mu, form, starts):
    """rub and efficiency are the tangent of the friction angle and the efficiency that `flank` gives."""
    thread = of(form, starts)
    flank = thread.flank_deg()
    assert rub(thread, mu) == pytest.approx(math.tan(math.radians(friction_angle_deg(mu, flank))), abs=1e-12)
    share = efficiency_of(5000, thread.lead_mm, raising_torque_nmm(5000, thread, mu))
    assert share == pytest.approx(efficiency(thread.lead_angle_deg, mu, flank), rel=1e-9)


@given(st.sampled_from(forms()), st.integers(1, 4), st.sampled_from(["load", "clearance"]))
def test_at_the_least_coefficient_nothing_turns(form, starts, side):
    """With the least coefficient the lowering torque is nil; a little less and the load turns the screw."""
    thread = of(form, starts)
    least = least_coefficient(thread, side)
    assert lowering_torque_nmm(5000, thread, least, side) == pytest.approx(0, abs=1e-6)
    assert lowering_torque_nmm(5000, thread, 0.99 * least, side) < 0 < lowering_torque_nmm(5000, thread, 1.01 * least,
                                                                                          side)  # fmt: skip


@given(st.sampled_from(forms()), st.integers(1, 2))
def test_on_the_verge_of_running_back_just_under_half_the_work_lifts(form, starts):
    """At the edge of running back the efficiency of the thread is (1 - tan^2(lead angle)) / 2: under one half."""
    thread = of(form, starts)
    torque = raising_torque_nmm(5000, thread, least_coefficient(thread))
    assert efficiency_of(5000, thread.lead_mm, torque) == pytest.approx((1 - ramp(thread) ** 2) / 2, rel=1e-9)


def test_a_low_efficiency_is_no_proof_of_holding():
    """Square 32 x 4, two starts, mu 0.08 with a plain collar: 31 % and yet the thread alone runs back (textbook)."""
    thread = profile("square", 32, 4, starts=2)
    whole = raising_torque_nmm(6400, thread, 0.08) + collar_torque_nmm(6400, 0.08, 40)
    assert efficiency_of(6400, thread.lead_mm, whole) < 0.5
    assert holding(thread, 0.08).standing == "runs back"


@pytest.mark.parametrize("coefficient, standing", [
    (0.06, "runs back"), (0.08, "may creep"), (0.12, "stays while still"),
])  # fmt: skip
def test_no_standing_says_that_a_load_is_held(coefficient, standing):
    """Tr20x4 (least 0.0683): margins 0.88, 1.17, 1.76; every message asks for a pawl, a brake or a stop."""
    found = holding(TR20, coefficient)
    assert found.standing == standing and found.margin == pytest.approx(coefficient / 0.06833, rel=1e-3)
    assert "Self-locking is not holding" in found.says and "positive stop" in found.says


def test_the_margin_changes_its_name_at_one_and_a_half():
    """Just below and just above 1.5 times the least coefficient (common practice, no source)."""
    least = least_coefficient(TR20)
    assert [holding(TR20, least * times).standing for times in (0.999, 1.001, 1.499, 1.501)] == [
        "runs back", "may creep", "may creep", "stays while still"]  # fmt: skip


def test_collar_new_and_worn_in():
    """100/65 mm: worn in 82.5; new 2/3 (10^6 - 274625)/(10^4 - 4225) = 2/3 x 725375/5775 = 83.737; no bore: 2/3 D."""
    assert collar_mean_mm(100, 65) == 82.5
    assert collar_mean_mm(100, 65, worn_in=False) == pytest.approx(83.737, abs=0.001)
    assert collar_mean_mm(60, 0, worn_in=False) == pytest.approx(40)
    assert collar_torque_nmm(8000, 0.12, 26) == pytest.approx(12480)


def test_new_collars_by_integration():
    """Friction of evenly pressed rings, summed over the face, acts at the diameter given for a new collar."""
    face = quad(lambda r: 2 * math.pi * r * r, 32.5, 50)[0] / (math.pi * (50**2 - 32.5**2))
    assert collar_mean_mm(100, 65, worn_in=False) == pytest.approx(2 * face, rel=1e-9)


def test_arrays_broadcast():
    """Loads, sizes and coefficients may be arrays, each result that of the single numbers."""
    thread = profile("trapezoidal", np.array([20, 24]), np.array([4, 5]))
    loads, mus = np.array([[1000], [8000]]), np.array([0.1, 0.2])
    both = raising_torque_nmm(loads, thread, mus)
    assert both.shape == (2, 2)
    assert both[1, 0] == pytest.approx(raising_torque_nmm(8000, TR20, 0.1))
    assert lowering_torque_nmm(loads, thread, mus)[0, 1] == pytest.approx(
        lowering_torque_nmm(1000, profile("trapezoidal", 24, 5), 0.2))  # fmt: skip
    assert collar_torque_nmm(loads, mus, 30).shape == collar_mean_mm(np.array([50, 60]), np.array([[20], [30]])).shape
    assert efficiency_of(loads, thread.lead_mm, both).shape == (2, 2)


@pytest.mark.parametrize("call, says", [
    (lambda: raising_torque_nmm(8000, TR20, -0.1), "coefficient = -0.1: must be at least 0; friction is never"),
    (lambda: rub(TR20, 6.8), "at most 1; .*is it an angle"),
    (lambda: raising_torque_nmm(-8000, TR20, 0.1), "load_n = -8000: must be at least 0"),
    (lambda: lowering_torque_nmm(-8000, TR20, 0.1), "load_n = -8000: must be at least 0"),
    (lambda: raising_torque_nmm(8000, "Tr20x4", 0.1), "thread = 'Tr20x4': must be a Profile"),
    (lambda: raising_torque_nmm(8000, profile("metric", 36, 6, 16), 1), "thread jams"),
    (lambda: raising_torque_nmm(8000, TR20, 0.1, "wrong"), "side = 'wrong': must be 'load' or 'clearance'"),
    (lambda: collar_torque_nmm(8000, -0.1, 26), "coefficient = -0.1"),
    (lambda: collar_torque_nmm(8000, 0.1, 0), "mean_diameter_mm = 0: must be above 0"),
    (lambda: collar_torque_nmm(-1, 0.1, 26), "load_n = -1"),
    (lambda: collar_mean_mm(20, 50), "bore_mm = 50: must be smaller than the outside, 20 mm; were the two swapped"),
    (lambda: collar_mean_mm(50, 50), "must be smaller"),
    (lambda: efficiency_of(8000, 4, 25), "torque_nmm = 25: is less than the load needs.*is it in N m"),
    (lambda: holding(TR20, np.array([0.1, 0.2])), "must be one number"),
])  # fmt: skip
def test_bad_input_is_refused_with_a_reason(call, says):
    """Negative friction, an angle for a coefficient, a jammed thread, swapped diameters, N m for N mm."""
    with pytest.raises(ValueError, match=says):
        call()


def test_no_friction_at_all_is_allowed():
    """Without friction all work lifts: efficiency 1, lowering torque = - raising torque."""
    torque = raising_torque_nmm(8000, TR20, 0)
    assert efficiency_of(8000, 4, torque) == pytest.approx(1)
    assert lowering_torque_nmm(8000, TR20, 0) == pytest.approx(-torque)


def test_small_amounts_are_taken():
    """Only nothing and less is refused: a load of 0.5 N, a collar of 0.5 mm, a lead and a torque below 1."""
    assert collar_torque_nmm(0.5, 0.1, 0.5) == pytest.approx(0.0125)
    assert collar_mean_mm(0.9, 0.5) == pytest.approx(0.7)
    assert efficiency_of(0.5, 0.5, 0.5) == pytest.approx(0.25 / math.pi)


def test_a_jammed_thread_is_refused_at_the_very_limit():
    """A friction slope of one over the ramp is refused, a hair less is not (square: no cosine)."""
    steep = profile("square", 36, 6, 24)  # ramp 144 / (33 pi) = 1.389
    at = 1 / ramp(steep)
    with pytest.raises(ValueError, match="thread jams"):
        raising_torque_nmm(1, steep, at * (1 + 1e-12))
    assert raising_torque_nmm(1, steep, 0.999 * at) > 1000


def test_no_torque_below_the_frictionless_one_is_taken():
    """A hundredth less torque than without friction would give 101 %: refused; the frictionless one gives 1."""
    with pytest.raises(ValueError, match="less than the load needs"):
        efficiency_of(8000, 4, 0.99 * 32000 / (2 * math.pi))
    assert efficiency_of(8000, 4, 32000 / (2 * math.pi)) == pytest.approx(1)
