"""Riveted joints, groups and spacing against values printed by others; the source stands beside each value."""

import csv
import json
import math
from pathlib import Path

import pytest

from workbench.rivets import group
from workbench.rivets.joint import Seam, bearing_n, shear_n
from workbench.rivets.net_section import net_width_mm
from workbench.rivets.spacing import spacing

INCH_MM, POUND_N, KSI_MPA = 25.4, 4.4482216, 6.894757


def seam(given):
    return Seam(**{**given, "rows": tuple(given["rows"])})


def failure(which, **given):
    one = seam(given["seam"])
    return one.weakest()[1] if which == "weakest" else one.failures()[which]


def stress_of_a_rivet(given):
    """Shear stress in a rivet at a quarter of the load that ruptures the seam."""
    one = seam(given)
    return one.weakest()[1] / 4 / (sum(one.rows) * math.pi / 4 * one.hole_mm**2)


def loads(places, force, at):
    return [math.hypot(*load) for load in group.rivet_loads_n(places, force, at)]


def worth(n, spacing_in, eccentricity_in):
    places = [(0, INCH_MM * spacing_in * place) for place in range(n)]
    _, middle = group.centroid_mm(places)
    return group.rivets_worth(places, (0, -1), (INCH_MM * eccentricity_in, middle))


def distance(diameter_mm, document, flush, what):
    rule = spacing(diameter_mm, document, flush)
    usual = rule.pitch_usual_mm or (None, None)
    return {
        "pitch least": rule.pitch_least_mm, "pitch most": rule.pitch_most_mm, "edge least": rule.edge_least_mm,
        "edge most": rule.edge_most_mm, "row least": rule.row_least_mm, "usual least": usual[0],
        "usual most": usual[1]}[what]  # fmt: skip


CALCULATIONS = {
    "shear in inches": lambda hole_in, ksi: shear_n(hole_in * INCH_MM, ksi * KSI_MPA) / POUND_N,
    "bearing in inches": lambda hole_in, t_in, ksi: bearing_n(25.4 * hole_in, 25.4 * t_in, ksi * KSI_MPA) / POUND_N,
    "failure": failure,
    "stress at a quarter of the load": lambda **given: stress_of_a_rivet(given["seam"]),
    "efficiency": lambda **given: 100 * seam(given["seam"]).efficiency(),
    "net width": lambda width, hole, places: net_width_mm(width, hole, places)[0],
    "centroid": lambda places, axis: group.centroid_mm(places)["xy".index(axis)],
    "polar moment": lambda places: group.polar_moment_mm2(places),
    "worst rivet": lambda places, force, at: group.worst_rivet(places, force, at)[1],
    "least rivet": lambda places, force, at: min(loads(places, force, at)),
    "one share": lambda force, n: loads([(0, 50 * place) for place in range(n)], (0, -force), (0, 25 * (n - 1)))[0],
    "worth": worth,
    "spacing": distance,
    "thin": lambda t, d: Seam(d, t, 4 * d, (1,), shear_mpa=180, tension_mpa=400, bearing_mpa=500).thin_for_bearing(),
}


def rows():
    text = Path(__file__).with_name("riveted_joints.csv").read_text(encoding="utf-8")
    return list(csv.DictReader(text.splitlines()))


@pytest.mark.parametrize("row", rows(), ids=lambda row: row["id"])
def test_published(row):
    """The calculation gives the value that the named source prints."""
    found = CALCULATIONS[row["calculation"]](**json.loads(row["inputs"]))
    assert found == pytest.approx(float(row["expected"]), rel=0, abs=float(row["tolerance"])), row["source"]
