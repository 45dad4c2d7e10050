"""Values printed by others about solid rivets, with the source beside each in rivets_solid.csv."""

import csv
import json
from pathlib import Path

import pytest

from workbench.rivets import alloy, countersink, defect, formed_head, length, size
from workbench.rivets.head import head
from workbench.rivets.hole import inch_hole, metric_hole
from workbench.rivets.part_number import PartNumber
from workbench.tables import table

IN = 25.4
LBF = 4.4482216
HERE = Path(__file__).parent


def thin_limit():
    """The thinnest sheet, in D, to which check_diameter does not object, searched in thousandths."""
    sheets = [thousandth / 1000 for thousandth in range(50, 400)]
    return next(sheet for sheet in sheets if not size.check_diameter(1, (sheet, 0.5)).thin_sheet)


def din_660(d, what):
    return metric_hole(f"{d:g}").hole_mm if what == "hole_mm" else table("rivets_metric").row(f"{d:g}")[what]


def made(d):
    return size.sizes_mm()[size.nearest_size(d)]


CALCULATIONS = {
    "least diameter over thickest sheet": lambda sheets: size.least_and_most_mm(tuple(sheets))[0] / max(sheets),
    "most diameter over thickest sheet": lambda sheets: size.least_and_most_mm(tuple(sheets))[1] / max(sheets),
    "least formed head over D": lambda what, alloy: getattr(
        formed_head.limits(1, "MIL-HDBK-5", alloy), f"least_{what}_mm"),
    "thinnest sheet over D for bearing tables": thin_limit,
    "tube least diameter over outside": lambda: size.tube_least_mm(20) / 20,
    "32nds of 2117 in place": lambda alloy, n: defect.replacement_32nds(alloy, n),
    "head angle": lambda number: PartNumber(number, "2117", 4, 6).angle_deg,
    "formed head": lambda d_in, what, document="training practice": getattr(
        formed_head.limits(d_in * IN, document), what) / IN,
    "protrusion": lambda d_in: length.allowance_mm(d_in * IN) / IN,
    "drill": lambda **which: inch_hole(**which).hole_mm / IN,
    "single shear": lambda alloy, size: single_shear(alloy, size),
    "DIN 660": din_660,
    "head over D": lambda kind, what: getattr(head(kind, 1), what),
    "head": lambda kind, d, what: getattr(head(kind, d), what),
    "countersink depth": lambda head, hole, angle: float(countersink.depth_mm(head, hole, angle)),
    "unwin mm": lambda t: size.unwin_mm(t),
    "unwin in": lambda t: size.unwin_in(t),
    "shank diameter is made": made,
    "driven shear": lambda alloy: driven(alloy),
    "heat treat before driving": lambda alloy: treated(alloy),
}  # fmt: skip


def single_shear(name, which):
    return alloy.single_shear_n(name, inch_hole(which, "strength table").hole_mm) / LBF


def driven(name):
    return alloy.alloy(name).driven_shear_mpa / 6.894757


def treated(name):
    return int(alloy.alloy(name).heat_treat)


def rows():
    return list(csv.DictReader((HERE / "rivets_solid.csv").read_text(encoding="utf-8").splitlines()))


@pytest.mark.parametrize("row", rows(), ids=lambda row: row["id"])
def test_published(row):
    """The calculation gives the value that the named source prints."""
    found = CALCULATIONS[row["calculation"]](**json.loads(row["inputs"]))
    assert found == pytest.approx(float(row["expected"]), rel=0, abs=float(row["tolerance"])), row["source"]
