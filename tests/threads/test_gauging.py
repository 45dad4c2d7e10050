"""Gauges on simulated parts; virtual pitch diameter against a mating thread fitted by linear programming."""

import math

import numpy as np
import pytest
from scipy.optimize import linprog

from workbench.threads.gauging import (
    Part,
    flank_error_effect,
    go_enters,
    inspect,
    not_go_accepts,
    not_go_turns,
    pitch_error_effect,
)
from workbench.threads.limits_acme import acme_limits
from workbench.threads.limits_metric import metric_limits

BOLT = metric_limits(10, 1.5, "6g")
NUT = metric_limits(10, 1.5, "6H")
GOOD = {"major": 9.85, "pitch_diameter": 8.93, "minor": 8.1, "pitch": 1.5}
GOOD_NUT = {"major": 10.2, "pitch_diameter": 9.1, "minor": 8.5, "pitch": 1.5, "inside": True}


def fitted_growth(pitch_error, flank_errors_deg, flank_deg, depth, ridges=9):
    """Growth of the perfect nut that just goes over a bad screw: the least, over all axial shifts.

    Every ridge of the screw sits a little further on (the pitch error spread over the length), its flanks are turned
    about the pitch line. Both ends of each straight flank must lie inside the nut's groove: linear in growth and shift.
    """
    slope = math.tan(math.radians(flank_deg))
    rows, bounds = [], []
    for ridge in np.linspace(0, pitch_error, ridges):
        for height in (-depth / 2, 0, depth / 2):
            for side, error in zip((1, -1), flank_errors_deg, strict=True):
                wrong = math.tan(math.radians(flank_deg + error))
                # flank of the screw beyond the perfect flank, on its own side, at this height
                beyond = side * ridge + height * (slope - wrong)
                # beyond - side * shift <= growth / 2 * slope
                rows.append([-slope / 2, -side])
                bounds.append(-beyond)
    found = linprog([1, 0], A_ub=rows, b_ub=bounds, bounds=[(0, None), (None, None)])
    assert found.status == 0
    return found.x[0]


@pytest.mark.parametrize("flank_deg", [14.5, 15, 27.5, 30])
@pytest.mark.parametrize("pitch_error", [0.01, -0.03])
def test_pitch_error_grows_the_screw_as_a_fitted_nut_shows(pitch_error, flank_deg):
    """A pitch error alone costs |dp| / tan a, whichever way it goes."""
    fitted = fitted_growth(pitch_error, (0, 0), flank_deg, 0.8)
    assert pitch_error_effect(pitch_error, flank_deg) == pytest.approx(fitted, rel=1e-6)


@pytest.mark.parametrize("errors", [(0.5, 0.5), (1, 0), (-0.7, 0.4), (-1, -1)])
@pytest.mark.parametrize("flank_deg", [14.5, 27.5, 30])
def test_flank_errors_grow_the_screw_as_a_fitted_nut_shows(errors, flank_deg):
    """Wrong flank angles alone cost depth (|e1| + |e2|) / sin 2a, to 4 percent at a degree."""
    fitted = fitted_growth(0, errors, flank_deg, 0.8)
    assert flank_error_effect(0.8, errors, flank_deg) == pytest.approx(fitted, rel=0.04)


def test_both_errors_add():
    """Pitch and flank errors together cost the sum, as the fitted nut shows."""
    fitted = fitted_growth(0.02, (0.5, 0.5), 30, 0.812)
    assert pitch_error_effect(0.02) + flank_error_effect(0.812, (0.5, 0.5)) == pytest.approx(fitted, rel=0.02)


def test_errors_always_work_against_assembly():
    """A screw with errors acts thicker, a nut narrower, whatever their signs."""
    for sign in (1, -1):
        errors = {"pitch_error": sign * 0.01, "flank_errors_deg": (sign * 0.5, 0)}
        assert Part(**GOOD, **errors).virtual_pitch_diameter() > GOOD["pitch_diameter"]
        assert Part(**GOOD_NUT, **errors).virtual_pitch_diameter() < GOOD_NUT["pitch_diameter"]


def test_a_part_in_the_middle_of_its_limits_is_accepted():
    """Screw and nut in mid-tolerance without errors pass every gauge."""
    assert inspect(Part(**GOOD), BOLT).accepted
    assert inspect(Part(**GOOD_NUT), NUT).accepted


@pytest.mark.parametrize(("change", "go", "not_go", "crest", "says"), [
    ({"pitch_diameter": 9.0}, False, 0, True, "go gauge does not go on: virtual pitch diameter 9.000 is above 8.994"),
    ({"pitch_diameter": 8.85}, True, math.inf, True, "not-go gauge runs through"),
    ({"major": 9.72}, True, 0, False, "major diameter 9.72 is outside 9.732 to 9.968"),
    ({"major": 9.98}, True, 0, False, "major diameter 9.98 is outside"),
    ({"minor": 8.36}, False, 0, True, "root 8.36 is above 8.344"),
    ({"pitch_error": 0.05}, False, 0, True, "virtual pitch diameter 9.017 is above 8.994"),
    ({"flank_errors_deg": (3, 3)}, False, 0, True, "go gauge does not go on"),
    ({"start_turns": 2.5}, True, 2.5, True, "not-go gauge goes on 2.5 turns: ISO 1502 permits 2"),
])
def test_each_fault_of_a_screw_is_found_by_its_own_gauge(change, go, not_go, crest, says):
    """Too thick, too thin, bad crest, high root, bad pitch, bad flanks, thin start: one gauge each speaks."""
    found = inspect(Part(**(GOOD | change)), BOLT)
    assert (found.go, found.not_go_turns, found.crest) == (go, not_go, crest)
    assert len(found.reasons) == 1 and says in found.reasons[0]


@pytest.mark.parametrize(("change", "says"), [
    ({"pitch_diameter": 9.02}, "virtual pitch diameter 9.020 is below 9.026"),
    ({"pitch_diameter": 9.21}, "not-go gauge runs through"),
    ({"minor": 8.7}, "minor diameter 8.7 is outside 8.376 to 8.676"),
    ({"major": 9.99}, "root 9.99 is below 10"),
    ({"pitch_error": 0.06}, "virtual pitch diameter 8.996 is below 9.026"),
])
def test_each_fault_of_a_nut_is_found_by_its_own_gauge(change, says):
    """The same for a nut with plug gauges."""
    found = inspect(Part(**(GOOD_NUT | change)), NUT)
    assert len(found.reasons) == 1 and says in found.reasons[0]


def test_a_short_go_gauge_overlooks_the_pitch_error():
    """Taylor's principle: over the full length the go refuses the part, over two pitches it lets it pass."""
    part = Part(**GOOD, pitch_error=0.05, engaged_pitches=8)
    assert not go_enters(part, BOLT) and go_enters(part, BOLT, pitches=2)


def test_a_full_form_not_go_overlooks_a_thin_thread():
    """Taylor's principle: bad pitch stops a full-form not-go on a thread 0.01 too thin, which thereby passes."""
    part = Part(**(GOOD | {"pitch_diameter": 8.852}), pitch_error=0.03)
    assert math.isinf(not_go_turns(part, BOLT)) and not_go_turns(part, BOLT, full_form=True) == 0


@pytest.mark.parametrize(("turns", "iso", "asme"), [(0, True, True), (2, True, True), (2.1, False, True),
                                                    (3, False, True), (3.1, False, False), (math.inf, False, False)])
def test_a_not_go_may_start(turns, iso, asme):
    """Two turns pass by ISO 1502, three by ASME B1.2, more never."""
    assert (not_go_accepts(turns), not_go_accepts(turns, "ASME B1.2")) == (iso, asme)


def test_the_rule_changes_the_verdict():
    """A start of two and a half turns fails by ISO 1502 and passes by ASME B1.2."""
    part = Part(**GOOD, start_turns=2.5)
    assert not inspect(part, BOLT).accepted and inspect(part, BOLT, "ASME B1.2").accepted


def test_other_forms_are_gauged_too():
    """An Acme nut in inch is accepted in mid-tolerance and refused with too large a bore."""
    limits = acme_limits(0.5, 10, "2G", inside=True)
    nut = {"major": 0.53, "pitch_diameter": 0.456, "minor": 0.402, "pitch": 0.1, "inside": True, "flank_deg": 14.5}
    assert inspect(Part(**nut), limits).accepted
    assert not inspect(Part(**(nut | {"minor": 0.41})), limits).accepted


@pytest.mark.parametrize(("call", "says"), [
    (lambda: Part(9, 9.5, 8, 1.5), "must rise"),
    (lambda: Part(9.9, 8.9, 8.1, 0), "pitch = 0"),
    (lambda: Part(**GOOD, start_turns=-1), "start_turns"),
    (lambda: inspect(Part(**GOOD), NUT), "same kind"),
    (lambda: not_go_accepts(1, "house rule"), "must be one of ISO 1502, ASME B1.2"),
    (lambda: not_go_accepts(-1), "0 or more"),
    (lambda: pitch_error_effect(0.01, 0), "above 0"),
    (lambda: flank_error_effect(0.8, (30, 30)), "in place of its error"),
])
def test_refusals(call, says):
    """Impossible parts, gauges of the other kind and unknown rules are refused."""
    with pytest.raises(ValueError, match=says):
        call()


def test_a_shallow_thread_is_touched_no_deeper_than_it_is():
    """The flank that a mate can touch is 5/8 H = 0.812 mm at P 1.5, on a part 0.4 mm deep only 0.4 mm (geometry)."""
    assert Part(9.9, 8.95, 8.2, 1.5).contact_depth == pytest.approx(0.8119, abs=1e-4)
    assert Part(9.4, 8.95, 8.6, 1.5).contact_depth == pytest.approx(0.4)
