"""Power screws and columns of textbooks, with the source beside each in power_screws.csv.

Inch examples are put in as inch and lbf: the formulas are the same in any units that belong together. A mean
diameter d2 of a square thread is put in as the major diameter d2 + P / 2.
"""

import csv
import json
import math
from pathlib import Path

import pytest

from workbench.screws.buckling import critical_load_n, end_factor, limit_slenderness, slenderness
from workbench.screws.power import (
    collar_mean_mm,
    collar_torque_nmm,
    efficiency_of,
    least_coefficient,
    lowering_torque_nmm,
    raising_torque_nmm,
    ramp,
)
from workbench.screws.power_drive import hand_force_n, power_w, radius_for_mm, turns_per_min_for
from workbench.screws.screw_stress import (
    greatest_shear_mpa,
    nut_length_for_mm,
    ridge_stress,
    root_axial_mpa,
    root_torsion_mpa,
    von_mises_mpa,
)
from workbench.threads.profile import profile

HERE = Path(__file__).parent


def thread(given):
    return profile(given["form"], given["d"], given["P"], given["starts"])


def collar(given):
    if "fc" not in given:
        return 0
    mean = given.get("dc") or collar_mean_mm(given["outside"], given["bore"])
    return collar_torque_nmm(given["F"], given["fc"], mean)


def raising(**given):
    return raising_torque_nmm(given["F"], thread(given), given["f"]) + collar(given)


def lowering(**given):
    return lowering_torque_nmm(given["F"], thread(given), given["f"]) + collar(given)


CALCULATIONS = {
    "pitch diameter": lambda **given: thread(given).pitch_diameter_mm,
    "root diameter": lambda **given: thread(given).screw_minor_mm,
    "lead": lambda **given: thread(given).lead_mm,
    "lead angle": lambda **given: math.degrees(math.atan(ramp(thread(given)))),
    "raising torque": raising,
    "lowering torque": lowering,
    "efficiency": lambda **given: efficiency_of(given["F"], thread(given).lead_mm, raising(**given)),
    "least coefficient": lambda **given: least_coefficient(thread(given)),
    "force for torque": lambda **given: given["T"] / raising(**{**given, "F": 1}),
    "hand force": lambda **given: hand_force_n((raising if given["way"] == "up" else lowering)(**given), given["r"]),
    "hand wheel": lambda T, F, hands: radius_for_mm(T, F, hands),
    "power": lambda T, n: power_w(T, n),
    "driving power": lambda **given: power_w(raising(**given), given["n"]),
    "turns a minute": lambda **given: turns_per_min_for(given["v"], thread(given)),
    "root axial": lambda **given: root_axial_mpa(given["F"], thread(given)),
    "root torsion": lambda **given: root_torsion_mpa(given["T"], thread(given)),
    "ridge bending": lambda **given: ridge_stress(given["F"], thread(given), given["n"]).bending_mpa,
    "ridge pressure": lambda **given: ridge_stress(given["F"], thread(given), given["n"]).pressure_mpa,
    "ridges for pressure": lambda **given: nut_length_for_mm(given["F"], thread(given), given["p"]) / given["P"],
    "von Mises": lambda axial, shear, across: von_mises_mpa(axial, shear, across),
    "greatest shear": lambda axial, shear: greatest_shear_mpa(axial, shear),
    "end factor": lambda ends, ideal: end_factor(ends, ideal),
    "slenderness": lambda **given: slenderness(given["d"], given["l"], given["K"]),
    "limit slenderness": lambda **given: limit_slenderness(given["yield"], given["E"]),
    "column load": lambda **given: critical_load_n(given["d"], given["l"], given["K"], given["E"], given["yield"]),
}


def rows():
    return list(csv.DictReader((HERE / "power_screws.csv").read_text(encoding="utf-8").splitlines()))


@pytest.mark.parametrize("row", rows(), ids=lambda row: row["id"])
def test_published(row):
    """The calculation gives the value that the named book prints."""
    found = CALCULATIONS[row["calculation"]](**json.loads(row["inputs"]))
    assert found == pytest.approx(float(row["expected"]), rel=0, abs=float(row["tolerance"])), row["source"]
