"""Values printed by others about threads, with the source beside each in thread_geometry.csv, thread_strength.csv."""

import csv
import json
from pathlib import Path

import pytest

from workbench.tables import table
from workbench.threads.designation import INCH_MM, coarse_pitch_mm, metric_pitches_mm, parse
from workbench.threads.profile import profile
from workbench.threads.property_classes import property_class, sae_grade
from workbench.threads.strength import bolt_loads, minor_area_mm2, nut_proof_load_n, stress_area_mm2

HERE = Path(__file__).parent

SIZES = {
    "H": lambda thread: thread.triangle_mm,
    "H1": lambda thread: thread.engagement_mm,
    "h3": lambda thread: thread.screw_depth_mm,
    "d2": lambda thread: thread.pitch_diameter_mm,
    "d3": lambda thread: thread.screw_minor_mm,
    "D1": lambda thread: thread.nut_minor_mm,
    "D4": lambda thread: thread.nut_major_mm,
    "root radius": lambda thread: thread.root_radius_mm,
    "crest flat": lambda thread: thread.crest_flat_mm,
    "d-d2": lambda thread: thread.major_mm - thread.pitch_diameter_mm,
    "d-d3": lambda thread: thread.major_mm - thread.screw_minor_mm,
    "d-D1": lambda thread: thread.major_mm - thread.nut_minor_mm,
}


def called(thread):
    """The profile of a call-out."""
    one = parse(thread)
    return profile(one.form, one.major_mm, one.pitch_mm)


def per_pitch(form, what):
    """A size of the form at a pitch of 4 mm, divided by the pitch."""
    return SIZES[what](profile(form, 40, 4)) / 4


def inch_stress_area(thread):
    one = parse(thread)
    return stress_area_mm2(one.major_mm, one.pitch_mm, "unified") / INCH_MM**2


CALCULATIONS = {
    "coarse pitch": lambda d: coarse_pitch_mm(d),
    "is fine pitch": lambda d, P: P in metric_pitches_mm(d)[1:],
    "per pitch": per_pitch,
    "size": lambda form, d, P, what: SIZES[what](profile(form, d, P)),
    "inch size": lambda thread, what: SIZES[what](called(thread)) / INCH_MM,
    "thread angle": lambda form: profile(form, 40, 4).thread_angle_deg,
    "flank": lambda form, side: profile(form, 40, 4).flank_deg(side),
    "metric stress area": lambda d: stress_area_mm2(d, coarse_pitch_mm(d)),
    "fine stress area": lambda d, P: stress_area_mm2(d, P),
    "minor area": lambda d, P: minor_area_mm2(d, P),
    "inch stress area": inch_stress_area,
    "proof load": lambda d, **which: bolt_loads(d, coarse_pitch_mm(d), which["class"]).proof_n,
    "ultimate load": lambda d, **which: bolt_loads(d, coarse_pitch_mm(d), which["class"]).ultimate_n,
    "tensile strength": lambda d, **which: property_class(which["class"], d).tensile_mpa,
    "proof stress": lambda d, **which: property_class(which["class"], d).proof_mpa,
    "nut proof load": lambda d, P, **which: nut_proof_load_n(d, P, which["class"]),
    "sae proof": lambda grade, d: sae_grade(grade, d).proof_mpa,
    "sae yield": lambda grade, d: sae_grade(grade, d).yield_mpa,
    "sae tensile": lambda grade, d: sae_grade(grade, d).tensile_mpa,
}


def rows():
    for name in ("thread_geometry", "thread_strength"):
        yield from csv.DictReader((HERE / f"{name}.csv").read_text(encoding="utf-8").splitlines())


@pytest.mark.parametrize("row", list(rows()), ids=lambda row: row["id"])
def test_published(row):
    """The calculation gives the value that the named source prints."""
    found = CALCULATIONS[row["calculation"]](**json.loads(row["inputs"]))
    assert found == pytest.approx(float(row["expected"]), rel=0, abs=float(row["tolerance"])), row["source"]


@pytest.mark.parametrize("series", ["coarse", "fine"])
def test_printed_loads_agree_with_area_times_stress(series):
    """Every printed load is As,nom x stress of the class to the three figures of the print (ISO 898-1)."""
    for row in table(f"iso_898_1_loads_{series}").rows.values():
        diameter, pitch = (float(part) for part in row["thread"][1:].split("x"))
        strength = property_class(f"{row['property_class']:.1f}", diameter)
        area = row["stress_area_mm2"]
        assert area == pytest.approx(stress_area_mm2(diameter, pitch), rel=0.004)
        assert row["ultimate_load_n"] == pytest.approx(area * strength.tensile_mpa, rel=0.008)
        assert row["proof_load_n"] == pytest.approx(area * strength.proof_mpa, rel=0.006)
