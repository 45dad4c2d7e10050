"""Values printed by others about tightening and bolted joints, with the source beside each in bolted_joints.csv."""

import csv
import json
from pathlib import Path

import pytest

from workbench.screws.bearing import hexagon
from workbench.screws.fatigue import class_endurance_mpa, goodman_factor, swing
from workbench.screws.joint import bolt_load_n, opening_load_n
from workbench.screws.preload import class_at_yield_n
from workbench.screws.scatter import least_n
from workbench.screws.settling import settling_mm
from workbench.screws.stiffness import Springs, bolt_n_per_mm, cone_n_per_mm, parts_n_per_mm, tapped_grip_mm
from workbench.screws.stripping import Engagement, nut_shear_mm, screw_shear_mm
from workbench.screws.torque import exact_form, face_mean_mm, long_form, nut_factor, nut_factor_torque_nmm
from workbench.screws.torque_wrench import converted, crosswise
from workbench.tables import table
from workbench.threads.limits_unified import unified_limits
from workbench.threads.profile import profile
from workbench.threads.property_classes import sae_grade
from workbench.threads.strength import loads_of, stress_area_mm2
from workbench.threads.tapping import clearance_hole_mm

HERE = Path(__file__).parent
INCH, LBF, MPSI = 25.4, 4.4482216, 6894.757
ROWS = list(csv.DictReader((HERE / "bolted_joints.csv").read_text(encoding="utf-8").splitlines()))


def yield_preload(d, P, mu, **which):
    return class_at_yield_n(d, P, which["class"], mu) / 1000


def torque_of(force, d, P, mu):
    """As the guideline's tables: hexagon face, medium hole, one friction for thread and face."""
    face = face_mean_mm(hexagon(d)["face_mm"], clearance_hole_mm(d))
    return long_form(force, P, profile("metric", d, P).pitch_diameter_mm, mu, face, mu)


def yield_torque(d, P, mu, **which):
    return torque_of(yield_preload(d, P, mu, **which), d, P, mu).total_nmm  # kN mm = N m


def inch_torque(F, d_in, tpi, f, fc, dc_in):
    thread = profile("unified", INCH * d_in, INCH / tpi)
    return exact_form(F, 1 / tpi, thread.pitch_diameter_mm / INCH, f, dc_in, fc).total_nmm


def inch_nut_factor(d_in, tpi, f, fc):
    return nut_factor(inch_torque(1000, d_in, tpi, f, fc, 1.25 * d_in), 1000, d_in)


def inch_preload(grade, d_in, tpi, share):
    area = stress_area_mm2(INCH * d_in, INCH / tpi, "unified")
    return share * loads_of(area, sae_grade(grade, d_in)).proof_n / LBF


def spanner_force(F, dm, P, f, dc, fc, arm):
    return exact_form(F, P, dm, f, dc, fc, flank_deg=0).total_nmm / arm


def mlbf_per_inch(n_per_mm):
    return n_per_mm * INCH / LBF / 1e6


def inch_bolt(d, tpi, shank, thread, E):
    return mlbf_per_inch(bolt_n_per_mm(INCH * d, INCH / tpi, INCH * shank, INCH * thread, E * MPSI, "unified"))


def inch_parts(d, D, layers):
    whole = tuple((INCH * thick, E * MPSI) for thick, E in layers)
    return mlbf_per_inch(parts_n_per_mm(whole, INCH * d, INCH * D))


def inch_shear(of, d_in, tpi):
    screw, nut = unified_limits(d_in, tpi, "2A"), unified_limits(d_in, tpi, "2B")
    if of == "screw":
        return screw_shear_mm(1 / tpi, float(nut.minor.high), float(screw.pitch.low))
    return nut_shear_mm(1 / tpi, float(screw.major.low), float(nut.pitch.high))


def load_factor(proof, preload, share, load):
    """How many times the load may grow before the bolt is at its proof load."""
    return (proof - preload) / (bolt_load_n(preload, load, share) - preload)


def swung(preload, load, share, area):
    return swing(preload, 0, load, share, area)


def goodman(Se, Su, **loads):
    one = swung(**loads)
    return goodman_factor(one.preload_mpa, one.mean_mpa, one.amplitude_mpa, Se, Su)


CALCULATIONS = {
    "share": lambda kb, kp: Springs(kb, kp).share,
    "bolt stress": lambda kb, kp, preload, load, area: bolt_load_n(preload, load, Springs(kb, kp).share) / area,
    "nut factor torque": lambda K, F, d: nut_factor_torque_nmm(K, F, d),
    "nut factor": lambda surface: table("nut_factors").row(surface)["factor"],
    "inch torque": inch_torque,
    "inch nut factor": inch_nut_factor,
    "inch preload": inch_preload,
    "yield preload": yield_preload,
    "yield torque": yield_torque,
    "least preload": lambda factor, **which: least_n(yield_preload(**which), factor),
    "useful share": lambda d, P, mu: 100 * torque_of(1, d, P, mu).useful_share,
    "spanner force": spanner_force,
    "inch cone": lambda d, D, t, E: mlbf_per_inch(cone_n_per_mm(INCH * d, INCH * D, INCH * t, E * MPSI)),
    "inch parts": inch_parts,
    "inch bolt": inch_bolt,
    "tapped grip": lambda plate, base, d: tapped_grip_mm(plate, base, d),
    "load factor": load_factor,
    "opening factor": lambda preload, share, load: opening_load_n(preload, share) / load,
    "amplitude": lambda **loads: swung(**loads).amplitude_mpa,
    "mean": lambda **loads: swung(**loads).mean_mpa,
    "goodman": goodman,
    "endurance": lambda d, **which: class_endurance_mpa(which["class"], d),
    "inch screw shear": lambda **size: inch_shear("screw", **size),
    "inch nut shear": lambda **size: inch_shear("nut", **size),
    "settling": lambda rz, joints, load: 1000 * settling_mm(rz, joints, load),
    "converted": converted,
    "crosswise": lambda count: int("".join(f"{place:02d}" for place in crosswise(count))),
    "engaged diameters": lambda d, P, screw, part: Engagement(d, P, screw, part).needed_mm / d,
}


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["id"])
def test_published(row):
    """The calculation gives the value that the named source prints."""
    found = CALCULATIONS[row["calculation"]](**json.loads(row["inputs"]))
    assert found == pytest.approx(float(row["expected"]), rel=0, abs=float(row["tolerance"])), row["source"]


def test_every_row_names_its_source_and_how_far_to_trust_it():
    """No row is without a source; every standing says seen, from memory, derived or common practice."""
    standings = ("seen in a reprint", "from memory", "derived from geometry", "common practice, no source")
    for row in ROWS:
        assert row["source"] and row["standing"].startswith(standings), row["id"]
