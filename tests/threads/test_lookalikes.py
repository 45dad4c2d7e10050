"""Look-alikes: which threads stay possible, what to measure next, how far a wrong pair goes; flanks under load."""

import math

import pytest
from scipy.optimize import brentq

from workbench.tables import table
from workbench.threads.flank import (
    efficiency,
    friction_angle_deg,
    holds_still,
    parting_force_n,
    radial_load_n,
    travel_of_two_mm,
)
from workbench.threads.known_threads import KnownThread, known_thread, known_threads
from workbench.threads.lookalikes import next_measurement, possible, turns_before_binding
from workbench.threads.measured import Measured
from workbench.threads.profile import profile


def names(found):
    return [one.name for one in found]


def test_all_families_are_known():
    """Metric coarse and fine, MJ, Unified, UNJ, Whitworth, pipe and BA threads are in the list, names once each."""
    families = {one.family for one in known_threads()}
    assert {"metric coarse", "metric fine", "MJ", "UNC", "UNF", "UNEF", "UNJC", "UNJF", "BSW", "BSF",
            "G pipe, parallel", "R pipe, tapered", "BA"} == families
    assert len({one.name for one in known_threads()}) == len(known_threads())


@pytest.mark.parametrize("family", sorted({one.family for one in known_threads()}))
def test_every_thread_is_possible_for_its_own_measurements(family):
    """Measured in the middle of its band, every thread is among its own candidates, whatever else is."""
    for one in known_threads():
        if one.family == family:
            low, high = one.crest_band_mm
            found = possible(Measured((low + high) / 2, 0.01), Measured(one.pitch_mm, 0.003),
                             Measured(one.profile.thread_angle_deg, 0.4))
            assert one in found


@pytest.mark.parametrize(("major", "pitch", "pair"), [
    # pairs that the trade confuses (common practice, no source; sizes from the standards)
    (7.85, None, {"M8", "5/16-18 UNC"}), (4.75, 0.8, {"#10-32 UNF", "2 BA"}), (6.3, 1.27, {"1/4-20 UNC", "1/4-20 BSW"}),
    (12.6, None, {"1/2-13 UNC", "1/2-12 BSW"}), (9.45, None, {"3/8-16 UNC", "3/8-16 BSW"}),
    (20.8, None, {"G 1/2", "R 1/2"}), (9.85, 1.5, {"M10", "MJ10x1.5"}), (13.0, 1.337, {"G 1/4"})])
def test_known_pairs_are_both_named(major, pitch, pair):
    """The threads that are confused at the bench both stay possible until they are measured further."""
    pitch = None if pitch is None else Measured(pitch, 0.02)
    assert pair <= set(names(possible(Measured(major, 0.05), pitch)))


def test_a_better_measurement_never_adds_candidates():
    """Less uncertainty or one more quantity keeps a subset."""
    wide = set(possible(Measured(7.87, 0.05)))
    narrow = set(possible(Measured(7.87, 0.01)))
    more = set(possible(Measured(7.87, 0.05), Measured(1.25, 0.02)))
    assert narrow <= wide and more <= wide and more < wide


@pytest.mark.parametrize(("these", "way"), [
    (("M8", "5/16-18 UNC"), "pitch leaf"),
    (("#10-32 UNF", "M5"), "thirty crests"),
    (("1/4-20 UNC", "1/4-20 BSW"), "flank leaf"),
    (("G 1/2", "R 1/2"), "two diameters"),
    (("M24", "MJ24x3"), "projector root"),
    (("2 BA", "#10-32 UNF"), "ten crests"),
])
def test_the_next_measurement_parts_the_pair(these, way):
    """Pitch, diameter, flank, taper or root: the simplest way that tells the two apart is named."""
    step = next_measurement([known_thread(name) for name in these])
    assert step.way == way
    assert [len(group) for group in step.groups] == [1, 1]
    assert step.how == table("thread_instruments").row(way)["how"]


def test_the_next_measurement_leads_to_one_family():
    """Measuring as told, step by step, narrows a bin screw of 7.87 mm to metric or Unified with the pitch known."""
    target, found = known_thread("5/16-18 UNC"), possible(Measured(7.87, 0.02))
    for _ in range(6):
        step = next_measurement(found) if len(found) > 1 else None
        if step is None:
            break
        found = next(group for group in step.groups if target in group)
    assert target in found and {one.family for one in found} <= {"UNC", "UNJC"}


def test_groups_hold_every_candidate_once():
    """No candidate is lost or doubled by grouping."""
    found = possible(Measured(12.5, 0.1))
    step = next_measurement(found)
    assert sorted(names(one for group in step.groups for one in group)) == sorted(names(found))


def by_simulation(screw, nut):
    """Turns at which a row of screw ridges just fits a row of nut grooves: shifting the screw along (brentq).

    Independent of the closed form: flank by flank at the pitch line, both parts mid-tolerance, equal flank angles.
    """
    outer, inner = screw.profile, nut.profile
    half = math.tan(math.radians(outer.thread_angle_deg / 2))
    d2 = outer.pitch_diameter_mm - screw.allowance_mm - screw.pitch_tolerance_mm / 2
    nut_d2 = inner.pitch_diameter_mm + 1.32 * nut.pitch_tolerance_mm / 2
    radius = nut_d2 / 2
    ridge = screw.pitch_mm / 2 - 2 * (radius - d2 / 2) * half  # width of the screw's ridge at the nut's pitch line
    groove = nut.pitch_mm / 2

    def room(turns):
        """Least room on a side after so many turns, the screw shifted to the best place."""
        step = screw.pitch_mm - nut.pitch_mm
        lows = [-(groove - ridge) / 2 - index * step for index in (0, turns)]
        highs = [(groove - ridge) / 2 - index * step for index in (0, turns)]
        return min(highs) - max(lows)

    # half a pitch is shared by ridge and groove: a longer pitch also makes a wider ridge, which the form counts
    # by the difference of the pitch diameters; here the ridge's own width is used
    return brentq(room, 1e-6, 1e3) if room(1e-6) > 0 else 0.0


@pytest.mark.parametrize(("screw", "nut"), [("5/16-18 UNC", "M8"), ("M4", "#8-32 UNC"), ("M12", "1/2-13 UNC"),
                                            ("7/16-14 UNC", "M12")])
def test_turns_against_a_simulated_row_of_ridges(screw, nut):
    """The closed form counts the same play as ridges laid in grooves one by one, up to half the pitch difference."""
    screw, nut = known_thread(screw), known_thread(nut)
    mismatch = abs(screw.pitch_mm - nut.pitch_mm)
    found = turns_before_binding(screw, nut).turns * mismatch
    laid = by_simulation(screw, nut) * mismatch
    assert found == pytest.approx(laid, abs=mismatch / 2 + 1e-9)


@pytest.mark.parametrize(("screw", "nut", "least", "most"), [
    ("5/16-18 UNC", "M8", 0.5, 3), ("M12", "1/2-13 UNC", 1, 4), ("1/4-20 UNC", "M6", 0, 0), ("M8x1", "M8", 0, 0),
    ("1/4-20 UNC", "1/4-20 BSW", math.inf, math.inf), ("M3", "M8", math.inf, math.inf)])
def test_wrong_pairs_as_the_bench_knows_them(screw, nut, least, most):
    """5/16-18 wedges in M8 after a turn or two; 1/4 does not enter M6 (common practice, no source)."""
    assert least <= turns_before_binding(known_thread(screw), known_thread(nut)).turns <= most


def test_a_wrong_flank_angle_costs_play():
    """A 60 deg screw 10 x 1.5 in a 55 deg nut 10 x 1.6, worked by hand from the formulas of the two forms.

    Tolerances: 90 P^0.4 d^0.1 micrometres, nut 1.32 times that, allowance 15 + 11 P (ISO 965-1, from memory).
    """
    screw = KnownThread("screw", "", "unified", 10, 1.5)
    nut = KnownThread("nut", "", "whitworth", 10, 1.6)
    ease = 0.0315 + 0.090 * 10**0.1 * (1.5**0.4 + 1.32 * 1.6**0.4) / 2
    clearance = (10 - 0.640327 * 1.6) - (10 - 0.649519 * 1.5) + ease
    crest = 10 - 0.0315 - (180 * 1.5 ** (2 / 3) - 3.15 / 1.5**0.5) / 2000
    depth = crest / 2 - (10 - 1.19078 * 1.5) / 2  # the root of the screw lies outside the bore of the nut, 7.951 mm
    flat, steep = math.tan(math.radians(30)), math.tan(math.radians(27.5))
    play = clearance * (flat + steep) / 2 - depth * (flat - steep)
    assert turns_before_binding(screw, nut).turns == pytest.approx(play / 0.1, rel=1e-4)


def test_right_pairs_run_to_the_end():
    """No thread binds in its own nut."""
    for one in known_threads():
        assert turns_before_binding(one, one).turns == math.inf


def test_mj_threads_begin_at_1_6_mm():
    """ISO 5855 starts with MJ1.6; smaller metric sizes have no MJ form (from memory)."""
    assert min(one.major_mm for one in known_threads() if one.family == "MJ") == 1.6


def test_an_unknown_name_is_cut_at_forty_signs():
    """A name of a hundred signs is quoted with its first forty."""
    with pytest.raises(ValueError, match=f"no thread '{'q' * 40}' in"):
        known_thread("q" * 100)


def test_pipe_threads_of_the_two_standards_share_their_sizes():
    """R threads have the sizes of G threads at the gauge plane (ISO 7-1, ISO 228-1)."""
    for one in known_threads():
        if one.family.startswith("R"):
            twin = known_thread("G" + one.name[1:])
            assert (twin.major_mm, twin.pitch_mm) == (one.major_mm, one.pitch_mm) and one.taper == 1 / 16


def test_ba_sizes_follow_their_rule():
    """Pitch 0.9^N mm and diameter 6 P^1.2 mm, both to two figures (BS 93)."""
    for row in table("ba_sizes").rows.values():
        number = int(row["thread"].split()[0])
        assert row["pitch_mm"] == float(f"{0.9**number:.2g}")
        assert row["diameter_mm"] == float(f"{6 * (0.9**number) ** 1.2:.2g}")


@pytest.mark.parametrize("name", ["unified_sizes", "acme_sizes", "whitworth_sizes"])
def test_inch_series_run_in_order(name):
    """Within a series the diameters rise and the threads an inch never do; the finer series has the finer pitch."""
    rows = list(table(name).rows.values())
    for series in {row.get("series", "Acme") for row in rows}:
        one = [row for row in rows if row.get("series", "Acme") == series]
        sizes = [row["major_in"] for row in one]
        counts = [row["threads_per_inch"] for row in one]
        assert sizes == sorted(set(sizes))
        if series != "BSF":  # 3/16-32 BSF is finer than its neighbours on both sides
            assert counts == sorted(counts, reverse=True)
    for series in (("UNC", "UNF"), ("UNF", "UNEF"), ("BSW", "BSF")):
        by_size = [{row["size"]: row["threads_per_inch"] for row in rows if row.get("series") == one} for one in series]
        assert all(by_size[0][size] < by_size[1][size] for size in by_size[0].keys() & by_size[1].keys())


def test_trapezoidal_sizes_run_in_order():
    """Diameters rise; the usual pitch lies between the fine and the coarse one and never falls with the diameter."""
    rows = list(table("trapezoidal_sizes").rows.values())
    usual = [row for row in rows if row["step"] == "usual"]
    assert [row["diameter_mm"] for row in usual] == sorted({row["diameter_mm"] for row in rows})
    assert [row["pitch_mm"] for row in usual] == sorted(row["pitch_mm"] for row in usual)
    pitches = {row["pitch_mm"] for row in table("trapezoidal_clearances").rows.values()}
    assert {row["pitch_mm"] for row in rows} <= pitches
    clearances = [row["crest_clearance_mm"] for row in table("trapezoidal_clearances").rows.values()]
    assert clearances == sorted(clearances)


def test_flank_decides_the_outward_push():
    """The flatter the flank the more the nut is pushed open: square 0 < 3 < 7 < 14.5 < 15 < 30 < 45 deg."""
    pushes = [radial_load_n(10_000, angle) for angle in (0, 3, 7, 14.5, 15, 30, 45)]
    assert pushes == sorted(pushes) and pushes[0] == 0
    assert pushes[-1] == pytest.approx(10_000)
    assert pushes[2] == pytest.approx(1227.8, abs=0.1)  # 10000 tan 7 deg, worked by hand


def test_parting_force_is_the_push_across_the_split():
    """The push all round, taken across the split: integral of q sin(angle) over half a ring = F tan(a) / pi."""
    steps = 200_000
    per_radian = radial_load_n(10_000, 15) / (2 * math.pi)
    half = sum(per_radian * math.sin((step + 0.5) * math.pi / steps) for step in range(steps)) * math.pi / steps
    assert half == pytest.approx(parting_force_n(10_000, 15), rel=1e-6)


def test_efficiency_from_the_work_of_one_turn():
    """Lifted work F x lead over turning work 2 pi T with T = F d2/2 tan(lead angle + friction angle)."""
    thread = profile("trapezoidal", 20, 4)
    climb, friction = math.radians(thread.lead_angle_deg), math.radians(friction_angle_deg(0.12, 15))
    torque = 8000 * thread.pitch_diameter_mm / 2 * math.tan(climb + friction)
    assert efficiency(thread.lead_angle_deg, 0.12, 15) == pytest.approx(8000 * 4 / (2 * math.pi * torque))
    assert efficiency(4, 0.12, 0) > efficiency(4, 0.12, 15) > efficiency(4, 0.12, 30)


def test_more_starts_stop_holding_still():
    """One start of Tr40x7 holds at mu 0.12, four starts run down by themselves."""
    assert holds_still(profile("trapezoidal", 40, 7).lead_angle_deg, 0.12, 15)
    assert not holds_still(profile("trapezoidal", 40, 7, starts=4).lead_angle_deg, 0.12, 15)
    assert holds_still(friction_angle_deg(0.12, 15), 0.12, 15)  # just
    # hand-worked: tan 0.5 / tan (0.5 + 7.0818) = 0.008727 / 0.13309
    assert efficiency(0.5, 0.12, 15) == pytest.approx(0.0656, abs=0.0001)


def test_two_threads_on_one_spindle():
    """Same hand: the difference of the leads; opposite hands: their sum, as in a turnbuckle."""
    coarse, fine = profile("metric", 16, 2), profile("metric", 12, 1.75)
    assert travel_of_two_mm(coarse, fine, 3) == pytest.approx(0.75)
    assert travel_of_two_mm(coarse, profile("metric", 12, 1.75, left_hand=True), 3) == pytest.approx(11.25)


@pytest.mark.parametrize(("call", "message"), [
    (lambda: possible(), "at least one"),
    (lambda: possible(7.9), "which instrument"),
    (lambda: next_measurement([known_thread("M8")]), "two or more"),
    (lambda: turns_before_binding("M8", known_thread("M8")), "known thread"),
    (lambda: known_thread("M8.5"), "nearest names"),
    (lambda: radial_load_n(100, 75), "half the thread angle"),
    (lambda: friction_angle_deg(7, 15), "is it an angle"),
    (lambda: friction_angle_deg(2.1, 15), "at most 2"),
    (lambda: efficiency(50, 1.9, 30), "cannot be turned"),
    (lambda: travel_of_two_mm(2, 1.75, 3), "must be a Profile"),
])
def test_refusals(call, message):
    """Bad input is refused with value, rule and likely cause."""
    with pytest.raises(ValueError, match=message):
        call()
