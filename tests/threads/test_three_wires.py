"""Three wires: the formulas against circles and cylinders seated numerically in the groove."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq, fsolve, minimize, minimize_scalar

from workbench.threads.three_wires import (
    best_wire,
    groove,
    lead_correction,
    over_wires,
    pitch_diameter_from,
    shop_wires,
    touches_at,
    usable_wires,
)

FORMS = {"60 degrees": (30, 30), "55 degrees": (27.5, 27.5), "Acme": (14.5, 14.5), "trapezoidal": (15, 15),
         "buttress 7/45": (7, 45), "buttress 3/30": (3, 30)}


def seated_circle(pitch_diameter, pitch, wire, left_deg, right_deg):
    """Centre of the circle that touches both flanks of an axial groove, and its two contact points: by solving.

    Axis along x, groove edges at the pitch line at x = -P/4 and +P/4; each flank a line through its edge.
    """
    radius, line = wire / 2, pitch_diameter / 2

    def gap(x, y, edge, sign, angle):
        along = np.array([sign * math.sin(math.radians(angle)), math.cos(math.radians(angle))])
        offset = np.array([x - edge, y - line])
        return offset[0] * along[1] - offset[1] * along[0], np.array([edge, line]) + along * (offset @ along)

    def apart(centre):
        left, _ = gap(*centre, -pitch / 4, -1, left_deg)
        right, _ = gap(*centre, pitch / 4, 1, right_deg)
        return left - radius, -right - radius

    (x, y), _, solved, message = fsolve(apart, (0.0, line + wire / 2), full_output=True)
    assert solved == 1, message
    contacts = [gap(x, y, -pitch / 4, -1, left_deg)[1], gap(x, y, pitch / 4, 1, right_deg)[1]]
    return x, y, contacts


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("factor", [0.85, 1.0, 1.2])
def test_reading_is_that_of_tangent_circles(form, factor):
    """M from the formula is twice the height of a circle solved to touch both flanks, plus the wire, for each form."""
    pitch_diameter, pitch = 18.0, 4.0
    wire = factor * best_wire(pitch, *FORMS[form])
    shift, height, contacts = seated_circle(pitch_diameter, pitch, wire, *FORMS[form])
    assert over_wires(pitch_diameter, wire, pitch, *FORMS[form]) == pytest.approx(2 * height + wire, abs=1e-9)
    for contact in contacts:
        assert math.dist(contact, (shift, height)) == pytest.approx(wire / 2, abs=1e-9)


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("factor", [0.85, 1.0, 1.2])
def test_contacts_are_those_of_tangent_circles(form, factor):
    """The heights of the contacts are those of a circle solved to touch both flanks, flank by flank, for each form."""
    wire = factor * best_wire(4.0, *FORMS[form])
    _, _, contacts = seated_circle(18.0, 4.0, wire, *FORMS[form])
    heights = touches_at(wire, 4.0, *FORMS[form])
    assert heights == pytest.approx([contact[1] - 9.0 for contact in contacts], abs=1e-9)


@settings(deadline=None, max_examples=40)
@given(st.floats(5, 45), st.floats(5, 45), st.floats(0.4, 8), st.floats(0.8, 1.4))
def test_reading_is_that_of_tangent_circles_at_any_angles(left, right, pitch, factor):
    """The same holds for any two flank angles, pitches and wires."""
    wire = factor * best_wire(pitch, left, right)
    _, height, _ = seated_circle(50.0, pitch, wire, left, right)
    assert over_wires(50.0, wire, pitch, left, right) == pytest.approx(2 * height + wire, abs=1e-7)


@pytest.mark.parametrize("form", FORMS)
def test_the_best_wire_touches_at_the_pitch_line(form):
    """Both contacts of the best wire lie on the pitch line; with unlike flanks their mean does."""
    wire = best_wire(4.0, *FORMS[form])
    _, _, contacts = seated_circle(18.0, 4.0, wire, *FORMS[form])
    heights = [contact[1] - 9.0 for contact in contacts]
    assert sum(heights) == pytest.approx(0, abs=1e-9)
    if FORMS[form][0] == FORMS[form][1]:
        assert heights == pytest.approx([0, 0], abs=1e-9)


@pytest.mark.parametrize("angle", [14.5, 15, 27.5, 30])
def test_the_best_wire_does_not_mind_the_flank_angle(angle):
    """Half a degree more or less on both flanks moves the reading over the best wire far less than over others."""
    wire = best_wire(2.0, angle)

    def swing(size):
        return abs(over_wires(20.0, size, 2.0, angle + 0.5) - over_wires(20.0, size, 2.0, angle - 0.5))

    assert swing(wire) < 0.001 and min(swing(0.85 * wire), swing(1.15 * wire)) > 10 * swing(wire)


@pytest.mark.parametrize(("form", "crest"), [("60 degrees", 0.32476), ("trapezoidal", 0.25), ("buttress 7/45", 0.3)])
def test_usable_wires_end_flush_and_at_the_crest_edge(form, crest):
    """The smallest wire just reaches the crests, the largest just touches the crest edge of one flank."""
    smallest, largest = usable_wires(1.0, crest, *FORMS[form])
    _, height, _ = seated_circle(20.0, 1.0, smallest, *FORMS[form])
    assert height + smallest / 2 == pytest.approx(10.0 + crest, abs=1e-9)
    _, _, contacts = seated_circle(20.0, 1.0, largest, *FORMS[form])
    assert max(contact[1] for contact in contacts) == pytest.approx(10.0 + crest, abs=1e-9)
    assert smallest < best_wire(1.0, *FORMS[form]) < largest


def test_the_shop_rule_stays_inside_the_geometry():
    """0.56 P and 0.90 P lie inside the sharp limits of a full 60 degree crest, the best wire between them."""
    smallest, largest = usable_wires(1.0, 0.32476)
    low, high = shop_wires(1.0)
    assert smallest < low < best_wire(1.0) < high < largest
    assert shop_wires(2.0) == pytest.approx((1.12, 1.8))


def test_a_thread_of_which_no_flank_is_said_has_60_degrees():
    """Left out, the flank is 30 degrees: best wire 0.57735 P, M = d2 + 3 W - 0.86603 P (workshop texts)."""
    assert best_wire(1.0) == pytest.approx(0.57735, abs=1e-5) and groove(1.0).seat == pytest.approx(2)
    assert over_wires(9.026, 0.866, 1.5) == pytest.approx(10.325, abs=0.0005)
    assert pitch_diameter_from(10.325, 0.866, 1.5) == pytest.approx(9.026, abs=0.0005)
    assert touches_at(best_wire(1.5), 1.5) == pytest.approx((0, 0), abs=1e-9)
    # tan lam = 1.5 / (9.026 pi); W tan^2 cos 30 cot 30 / 2, the handbooks' short correction
    assert lead_correction(9.026, 0.866, 1.5) == pytest.approx(0.866 * 0.0529**2 * 1.5 / 2, rel=0.01)
    assert usable_wires(1.0, 0.32476) == pytest.approx((0.50519, 1.01038), abs=1e-4)  # 2/3 and 4/3 of 7/8 H


def seated_cylinder_reading(pitch_diameter, pitch, wire, lead, angle_deg):
    """Reading over a straight cylinder that seats itself in the helical groove as deep as it can, by search."""
    slope, radius = math.tan(math.radians(angle_deg)), wire / 2

    def flank(r, turn):
        return np.array([r * math.cos(turn), r * math.sin(turn),
                         lead * turn / (2 * math.pi) + pitch / 4 + (r - pitch_diameter / 2) * slope])

    def distance(x, tilt):
        along = np.array([0, math.cos(tilt), math.sin(tilt)])

        def apart(place):
            offset = flank(*place) - np.array([x, 0, 0])
            return np.linalg.norm(offset - along * (offset @ along))

        return minimize(apart, [pitch_diameter / 2, 0.0], method="Nelder-Mead",
                        options={"xatol": 1e-9, "fatol": 1e-12, "maxiter": 2000}).fun

    def height(tilt):
        line = pitch_diameter / 2
        return brentq(lambda x: distance(x, tilt) - radius, line - 0.3 * pitch, line + 2 * wire)

    lead_angle = math.atan(lead / (math.pi * pitch_diameter))
    tilts = 0.7 * lead_angle, 1.1 * lead_angle
    best = minimize_scalar(height, bounds=tilts, method="bounded", options={"xatol": 1e-5})
    return 2 * best.fun + wire


@pytest.mark.parametrize(("size", "pitch", "starts", "angle"), [(9.026, 1.5, 1, 30), (18, 4, 1, 15), (18, 4, 2, 15)])
def test_lead_correction_is_that_of_a_seated_cylinder(size, pitch, starts, angle):
    """The correction lies 0 to 6 percent above what a cylinder seated in the helicoid shows."""
    wire, lead = best_wire(pitch, angle), pitch * starts
    true = seated_cylinder_reading(size, pitch, wire, lead, angle) - over_wires(size, wire, pitch, angle)
    assert true > 0.001
    assert 1 < lead_correction(size, wire, lead, angle) / true < 1.06


@pytest.mark.parametrize("angle", [14.5, 27.5, 30])
def test_lead_correction_is_the_handbook_formula_to_first_order(angle):
    """At a small lead angle c = W tan(lam)^2 cos(a) cot(a) / 2 (NBS Handbook H28, from memory)."""
    tangent = 0.5 / (math.pi * 30)
    alpha = math.radians(angle)
    handbook = 0.3 * tangent**2 * math.cos(alpha) / math.tan(alpha) / 2
    assert lead_correction(30, 0.3, 0.5, angle) == pytest.approx(handbook, rel=1e-3)


@pytest.mark.parametrize("lead", [None, 1.5, 3.0])
@pytest.mark.parametrize("form", FORMS)
def test_reading_and_pitch_diameter_are_inverses(form, lead):
    """The pitch diameter comes back from its reading, with lead within a micrometre."""
    wire = best_wire(1.5, *FORMS[form])
    reading = over_wires(14.0, wire, 1.5, *FORMS[form], lead=lead)
    assert pitch_diameter_from(reading, wire, 1.5, *FORMS[form], lead=lead) == pytest.approx(14.0, abs=1e-3)


def test_arrays_broadcast():
    """Several readings at once give several pitch diameters."""
    found = pitch_diameter_from(np.array([10.325, 10.315]), 0.866, 1.5, lead=1.5)
    assert found.shape == (2,) and found[0] - found[1] == pytest.approx(0.01, abs=1e-5)


@pytest.mark.parametrize(("call", "says"), [
    (lambda: groove(1.5, 0), "square thread"),
    (lambda: groove(1.5, 75), "included angle given"),
    (lambda: groove(-1), "pitch, not the lead"),
    (lambda: best_wire(0), "above 0"),
    (lambda: usable_wires(1, -0.1), "above 0"),
    (lambda: over_wires(9, 0, 1.5), "wire = 0"),
    (lambda: pitch_diameter_from(1.0, 0.866, 1.5), "one unit"),
    (lambda: lead_correction(10, 1, 12), "so steep"),
    (lambda: lead_correction(10, 1, -1.5), "left-hand thread"),
    (lambda: over_wires((9, 26), 0.866, 1.5), "decimal comma"),
])
def test_refusals(call, says):
    """An impossible groove, wire, reading or lead is refused with its likely cause."""
    with pytest.raises(ValueError, match=says):
        call()
