"""Profiles: outlines integrated by numbers against closed forms, contact, flanks by direction, a form that joins."""

import math
from types import MappingProxyType

import numpy
import pytest
from scipy.integrate import quad
from scipy.optimize import brentq

import workbench.threads.profile as library
from workbench.tables import Table, table
from workbench.threads.forms import Flanked, trapezoidal_row
from workbench.threads.outline import Corner, pieces, points, radius_at
from workbench.threads.profile import forms, lead_angle_deg, profile

SIZES = {"acme": (25.4, 5.08), "BA": (6, 1), "trapezoidal": (20, 4)}
CASES = [(form, *SIZES.get(form, (20, 2.5))) for form in forms()] + [
    ("metric", 6, 1), ("metric", 64, 6), ("trapezoidal", 8, 1.5), ("trapezoidal", 100, 12), ("acme", 6.35, 1.5875),
    ("buttress 3/30", 80, 10), ("buttress 7/45", 63.5, 3.175), ("square", 24, 5)]


def breaks(outline, pitch):
    """Where one piece ends and the next begins, along one pitch."""
    return sorted({piece.x0_mm for piece in outline}) + [outline[0].x0_mm + pitch]


def integral(outline, pitch, function):
    """Sum over the pieces of one pitch, by adaptive quadrature (scipy)."""
    places = breaks(outline, pitch)
    return sum(quad(lambda x: function(radius_at(outline, x, pitch)), low + 1e-12, high - 1e-12)[0]
               for low, high in zip(places, places[1:], strict=False) if high - low > 1e-9)


@pytest.mark.parametrize(("form", "major", "pitch"), CASES)
def test_groove_area_by_quadrature(form, major, pitch):
    """The closed form of the groove's area equals the integral of the exact outline (scipy.integrate.quad)."""
    thread = profile(form, major, pitch)
    found = integral(thread.outline(), pitch, lambda radius: major / 2 - radius)
    assert found == pytest.approx(thread.groove_area_mm2, rel=1e-8)


@pytest.mark.parametrize(("form", "major", "pitch"), CASES)
def test_outline_reaches_its_diameters(form, major, pitch):
    """The outlines of screw and nut reach exactly the diameters that the formulas give."""
    thread = profile(form, major, pitch)
    _, screw = points(thread.outline(), pitch, 1, 3000)
    _, nut = points(thread.outline("nut"), pitch, 1, 3000)
    # 2e-4 P on the diameter: the depths of the buttress forms are printed to five figures
    near = pytest.approx
    assert 2 * max(screw) == near(major, abs=1e-5)
    assert 2 * min(screw) == near(thread.screw_minor_mm, abs=3e-4 * pitch)
    assert 2 * max(nut) == near(thread.nut_major_mm, abs=3e-4 * pitch)
    assert 2 * min(nut) == near(thread.nut_minor_mm, abs=1e-5)


@pytest.mark.parametrize(("form", "major", "pitch"), CASES)
def test_ridge_and_groove_are_equal_at_the_pitch_line(form, major, pitch):
    """At d2 the ridge of the outline is half a pitch wide (roots of the outline, scipy.optimize.brentq)."""
    thread = profile(form, major, pitch)
    outline, middle = thread.outline(), thread.pitch_diameter_mm / 2
    if form == "square":
        return  # upright flanks have no single crossing
    left = brentq(lambda x: radius_at(outline, x, pitch) - middle, -pitch / 2 + 1e-6, 0)
    right = brentq(lambda x: radius_at(outline, x, pitch) - middle, 0, pitch / 2 - 1e-6)
    assert right - left == pytest.approx(pitch / 2, abs=1e-9)
    assert thread.ridge_width_mm(middle) == pytest.approx(pitch / 2)
    assert thread.ridge_width_mm(middle, "nut") == pytest.approx(pitch / 2)


@pytest.mark.parametrize(("form", "major", "pitch"), CASES)
def test_flanks_of_screw_and_nut_touch_and_never_overlap(form, major, pitch):
    """In the middle position the nut's outline nowhere lies below the screw's, and the flanks coincide."""
    thread = profile(form, major, pitch)
    screw, nut = thread.outline(), thread.outline("nut")
    along = numpy.linspace(-pitch / 2, pitch / 2, 4001)[1:-1] + 1e-7
    gap = numpy.array([radius_at(nut, x, pitch) - radius_at(screw, x, pitch) for x in along])
    assert gap.min() > -2e-4 * pitch
    if form != "square":
        # contact along the straight flanks: both flanks over H1, less the roundings of screw and nut
        touching = (gap < 1e-9).mean() * pitch
        flanks = thread.engagement_mm * sum(math.tan(math.radians(thread.flank_deg(side)))
                                            for side in ("load", "clearance"))
        assert touching >= 0.55 * flanks


@pytest.mark.parametrize(("form", "major", "pitch"), CASES)
def test_contact_area_by_quadrature(form, major, pitch):
    """Bearing area seen along the axis = ring between d and D1, integrated ring by ring (scipy)."""
    thread = profile(form, major, pitch)
    area, _ = quad(lambda radius: 2 * math.pi * radius, thread.nut_minor_mm / 2, major / 2)
    assert area == pytest.approx(thread.contact_area_mm2)


@pytest.mark.parametrize(("form", "load", "clearance"), [
    ("metric", 30, 30), ("unified", 30, 30), ("whitworth", 27.5, 27.5), ("trapezoidal", 15, 15), ("acme", 14.5, 14.5),
    ("buttress 7/45", 7, 45), ("buttress 3/30", 3, 30), ("square", 0, 0)])
def test_flanks_stand_at_their_angles(form, load, clearance):
    """The slopes of the drawn flanks are the angles of the standard: load flank towards the head."""
    major, pitch = SIZES.get(form, (20, 2.5))
    thread = profile(form, major, pitch)
    assert (thread.flank_deg("load"), thread.flank_deg("clearance")) == (load, clearance)
    lines = [piece for piece in thread.outline() if hasattr(piece, "x1_mm") and hasattr(piece, "r1_mm")
             and abs(piece.r1_mm - piece.r0_mm) > pitch / 10]
    angles = {piece.r1_mm > piece.r0_mm: math.degrees(math.atan(abs(
        (piece.x1_mm - piece.x0_mm) / (piece.r1_mm - piece.r0_mm)))) for piece in lines}
    assert angles[True] == pytest.approx(load, abs=1e-9)  # rising with x: faces the head
    assert angles[False] == pytest.approx(clearance, abs=1e-9)


def test_round_roots_touch_the_flanks_without_a_kink():
    """Where an arc meets a line, both run in the same direction (metric, Whitworth, buttress)."""
    for form in ("metric", "whitworth", "buttress 3/30", "buttress 7/45", "trapezoidal"):
        major, pitch = SIZES.get(form, (20, 2.5))
        outline = profile(form, major, pitch).outline()
        for piece, after in zip(outline, outline[1:], strict=False):
            if hasattr(piece, "start") == hasattr(after, "start"):
                continue
            ends = piece.points(100_000)[-2:], after.points(100_000)[:2]
            slopes = [math.atan2(b[1] - a[1], b[0] - a[0]) for a, b in ends]
            assert slopes[0] == pytest.approx(slopes[1], abs=1e-4), form


def test_several_starts_climb_several_pitches():
    """Lead = pitch x starts; the lead angle of M16 with lead 3 at d2 is 3.6364 deg (worked by hand: atan(3/47.206))."""
    double = profile("metric", 16, 1.5, starts=2)
    assert double.lead_mm == 3
    assert double.lead_angle_deg == pytest.approx(3.6364, abs=1e-4)
    assert math.tan(math.radians(double.lead_angle_deg)) == pytest.approx(
        2 * math.tan(math.radians(profile("metric", 16, 1.5).lead_angle_deg)))


def test_unrolled_helix_has_the_lead_angle():
    """A point that goes round at d2 and rises by the lead climbs at the lead angle (by differences)."""
    thread = profile("trapezoidal", 40, 7, starts=2)
    turn = numpy.linspace(0, 2 * math.pi, 100_001)
    x, y = (thread.pitch_diameter_mm / 2 * function(turn) for function in (numpy.cos, numpy.sin))
    z = thread.lead_mm * turn / (2 * math.pi)
    around = numpy.hypot(numpy.diff(x), numpy.diff(y)).sum()
    assert math.degrees(math.atan2(z[-1], around)) == pytest.approx(thread.lead_angle_deg, abs=1e-6)


def test_dimensions_of_many_sizes_at_once():
    """Arrays of diameters and pitches give the same as one call each."""
    rows = list(table("iso_261_metric").rows.values())
    major = numpy.array([row["diameter_mm"] for row in rows])
    pitch = numpy.array([row["pitch_mm"] for row in rows])
    many = profile("metric", major, pitch)
    for name in ("pitch_diameter_mm", "screw_minor_mm", "nut_minor_mm", "lead_angle_deg", "groove_area_mm2"):
        alone = [getattr(profile("metric", *size), name) for size in zip(major, pitch, strict=True)]
        assert getattr(many, name) == pytest.approx(numpy.array(alone))
    trapezoidal = profile("trapezoidal", numpy.array([20.0, 40.0]), numpy.array([4.0, 7.0]))
    assert trapezoidal.screw_minor_mm == pytest.approx([15.5, 32.0])  # ISO 2904


@pytest.mark.parametrize("row", list(table("trapezoidal_sizes").rows.values())[::7], ids=lambda row: row["thread"])
def test_trapezoidal_diameters_follow_iso_2904(row):
    """d2 = d - P/2, d3 = d - P - 2 a_c, D4 = d + 2 a_c, D1 = d - P (ISO 2904)."""
    d, pitch = row["diameter_mm"], row["pitch_mm"]
    clearance = trapezoidal_row(pitch)["crest_clearance_mm"]
    thread = profile("trapezoidal", d, pitch)
    assert thread.pitch_diameter_mm == pytest.approx(d - pitch / 2)
    assert thread.screw_minor_mm == pytest.approx(d - pitch - 2 * clearance)
    assert thread.nut_major_mm == pytest.approx(d + 2 * clearance)
    assert thread.nut_minor_mm == pytest.approx(d - pitch)


def with_row(monkeypatch, **row):
    known = table("thread_forms")
    more = MappingProxyType({**known.rows, row["form"]: MappingProxyType({**known.rows["square"], **row})})
    fresh = Table(known.name, known.standard, known.edition, known.clause, known.seen, more)
    monkeypatch.setattr(library, "table", lambda name: fresh if name == "thread_forms" else table(name))
    return fresh


def test_a_form_joins_by_one_row(monkeypatch):
    """A 53 deg form needs one more row only: its triangle and depth follow."""
    with_row(monkeypatch, form="fifty-three", load_flank_deg=26.5, clearance_flank_deg=26.5, measure="H",
             screw_crest="3/8", screw_root="1/4", nut_root="3/8", nut_crest="1/4")
    thread = profile("fifty-three", 10, 1)
    assert thread.triangle_mm == pytest.approx(1 / (2 * math.tan(math.radians(26.5))))
    assert thread.screw_depth_mm == pytest.approx(5 / 8 * thread.triangle_mm)


def test_a_shape_joins_by_one_row_and_one_class(monkeypatch):
    """A knuckle of two arcs, which no shape here draws, needs one row and one class."""
    with_row(monkeypatch, form="knuckle", shape="arcs")
    monkeypatch.setitem(library._SHAPES, "arcs", None)

    @library.shape("arcs")
    class Arcs(library.Profile):
        screw_crest_mm = screw_root_mm = nut_root_mm = nut_crest_mm = property(lambda self: self.pitch_mm / 8)
        load_flank_deg = clearance_flank_deg = 45.0

        def screw_corners(self):
            middle, part = self.pitch_diameter_mm / 2, self.pitch_mm / 4
            radius = part / 2 / (math.sqrt(2) - 1)
            return Corner(0, middle + part, radius), Corner(2 * part, middle - part, radius)

        nut_corners = screw_corners

    thread = profile("knuckle", 20, 4)
    assert thread.pitch_diameter_mm == 19 and thread.flank_deg() == 45
    _, radii = points(thread.outline(), 4, 2, 400)
    assert (2 * max(radii), 2 * min(radii)) == (pytest.approx(20, abs=1e-3), pytest.approx(18, abs=1e-3))


@pytest.mark.parametrize(("call", "message"), [
    (lambda: profile("metric", 1.5, 10), "were diameter and pitch swapped"),
    (lambda: profile("metrik", 10, 1.5), "metric"),
    (lambda: profile("metric", "10", 1.5), "major_mm = '10'"),
    (lambda: profile("metric", 10, 0), "threads an inch"),
    (lambda: profile("metric", 10, 1.5, starts=1.5), "whole number"),
    (lambda: profile("trapezoidal", 40, 14.5), "no pitch of ISO 2901"),
    (lambda: profile("metric", 10, 1.5).flank_deg("left"), "'load' or 'clearance'"),
    (lambda: profile("metric", 10, 1.5).outline("bolt"), "'screw' or 'nut'"),
    (lambda: lead_angle_deg(0, 10), "lead_mm"),
])
def test_refusals(call, message):
    """Bad sizes are refused with value, rule and likely cause."""
    with pytest.raises(ValueError, match=message):
        call()


def test_an_outline_repeats_every_pitch():
    """The outline a hundred pitches along the axis is the outline here."""
    thread = profile("buttress 3/30", 48, 8)
    outline = thread.outline()
    for x in numpy.linspace(-4, 4, 33):
        assert radius_at(outline, x + 800, 8) == pytest.approx(radius_at(outline, x, 8), abs=1e-9)


def test_a_rounded_corner_cuts_the_corner():
    """A right-angled corner of radius R, rounded, misses the corner by R (sqrt 2 - 1)."""
    outline = pieces((Corner(0, 1), Corner(1, 2, 0.3), Corner(2, 1)), 4)
    assert 2 - radius_at(outline, 1, 4) == pytest.approx(0.3 * (math.sqrt(2) - 1))


def test_ba_threads_are_six_tenths_of_the_pitch_deep():
    """Screw, nut and their overlap are 0.6 P deep, crests and roots alike (BS 93, from memory)."""
    thread = profile("BA", 6.0, 1.0)
    found = (thread.screw_depth_mm, thread.nut_depth_mm, thread.engagement_mm, thread.nut_major_mm)
    assert found == pytest.approx((0.6, 0.6, 0.6, 6.0))


def test_square_thread_is_half_ridge_half_groove():
    """Ridge, groove and depth of a square thread are half a pitch each (common practice, no source)."""
    thread = profile("square", 24, 5)
    assert isinstance(thread, Flanked)
    assert (thread.crest_flat_mm, thread.screw_depth_mm, thread.groove_area_mm2) == (2.5, 2.5, 6.25)
    assert thread.triangle_mm == math.inf
