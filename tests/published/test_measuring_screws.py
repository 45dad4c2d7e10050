"""Values printed by others, row by row, with the source beside each in measuring_screws.csv."""

import csv
import json
import math
from pathlib import Path

import pytest

from workbench.screws.coverage import coverage_factor
from workbench.screws.feed import diameter_change_mm
from workbench.screws.measuring import (
    MM_PER_INCH,
    Scales,
    division_value,
    instrument,
    pitch_of_tpi_mm,
    reading_of,
    scales_of,
    travel,
)
from workbench.screws.thermal import REFERENCE_DEGC, expansion_per_degc
from workbench.screws.uncertainty import Budget, Line
from workbench.tables import table

HERE = Path(__file__).parent


def rows(name):
    lines = (HERE / name).read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


# the end gauge of GUM H.1, in nm and degC: length of the standard 50 mm, alpha 11.5e-6, mean offset -0.1 degC
STANDARD_NM, ALPHA, OFFSET_DEGC = 50_000_623, 11.5e-6, -0.1
DIFFERENCE = Budget((
    Line("repeated observations", 5.8, "normal", degrees=24),
    Line("random effects of the comparator", 3.9, "normal", degrees=5),
    Line("systematic effects of the comparator", 6.7, "normal", degrees=8),
))
EXPANSION_DIFFERENCE = Line("expansion difference", 1e-6, sensitivity=-STANDARD_NM * OFFSET_DEGC, degrees=50)
TEMPERATURE_DIFFERENCE = Line("temperature difference", 0.05, sensitivity=-STANDARD_NM * ALPHA, degrees=2)
END_GAUGE = Budget((
    Line("standard", 25, "normal", degrees=18),
    Line("difference", DIFFERENCE.combined, "normal", degrees=DIFFERENCE.effective_degrees),
    EXPANSION_DIFFERENCE,
    TEMPERATURE_DIFFERENCE,
))

CALCULATIONS = {
    "reading": lambda instrument, main, sub, thimble, vernier=0: reading_of(
        Scales(main, sub, thimble, vernier), which(instrument)
    ),
    "division": division_value,
    "travel": travel,
    "resolution": lambda instrument: which(instrument).resolution,
    "main lines": lambda instrument: which(instrument).lines_per_main,
    "end": lambda instrument: which(instrument).end,
    "inch": lambda: MM_PER_INCH,
    "tpi pitch": pitch_of_tpi_mm,
    "reference temperature": lambda: REFERENCE_DEGC,
    "expansion": lambda material: expansion_per_degc(material) * 1e6,
    "diameter": lambda divisions, division: diameter_change_mm(divisions, division),
    "budget combined": lambda: END_GAUGE.combined,
    "budget degrees": lambda: math.floor(END_GAUGE.effective_degrees),
    "budget k": lambda level: END_GAUGE.coverage_factor(level),
    "budget expanded": lambda level: END_GAUGE.expanded(level),
    "difference line": lambda: DIFFERENCE.combined,
    "difference degrees": lambda: DIFFERENCE.effective_degrees,
    "expansion difference line": lambda: EXPANSION_DIFFERENCE.contribution,
    "temperature difference line": lambda: TEMPERATURE_DIFFERENCE.contribution,
    "cyclic line": lambda: Line("cyclic temperature", 0.5, "arcsine").standard,
    "triangular divisor": lambda: Line("triangular", 1, "triangular").divisor,
    "rectangular resolution": lambda: Line("step", 1 / 2).standard,
}


def which(name):
    return instrument(name)


@pytest.mark.parametrize("row", rows("measuring_screws.csv"), ids=lambda row: row["id"])
def test_published_value(row):
    """The calculation gives the printed value within its last figure."""
    inputs = {key.replace("pitch", "pitch_mm"): value for key, value in json.loads(row["inputs"]).items()}
    calculated = CALCULATIONS[row["calculation"]](**inputs)
    assert calculated == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]), rel=0)


@pytest.mark.parametrize("row", rows("measuring_screws.csv"), ids=lambda row: row["id"])
def test_every_row_says_where_it_is_from(row):
    """A row without source or standing is no check."""
    assert row["source"] and row["standing"]


@pytest.mark.parametrize("row", [r for r in rows("measuring_screws.csv") if r["calculation"] == "reading"],
                         ids=lambda row: row["id"])
def test_published_reading_comes_back_as_the_same_lines(row):
    """A printed reading, taken as a gap, shows the printed lines."""
    given = json.loads(row["inputs"])
    shown = scales_of(float(row["expected"]), instrument(given["instrument"]))
    assert shown == Scales(given["main"], given["sub"], given["thimble"], given.get("vernier", 0))


@pytest.mark.parametrize("row", rows("student_t.csv"), ids=lambda row: row["degrees"])
def test_student_t(row):
    """Coverage factors agree with NIST TN 1297 table B.1 to its last printed figure."""
    row = dict(row)
    degrees = float(row.pop("degrees"))
    if degrees == 35:
        row["90"] = "1.69"  # printed 1.70; two other tables of Student's t give 1.690 between 1.697 (30) and 1.684 (40)
    for level, printed in row.items():
        # the levels 68.27, 95.45 and 99.73 are themselves rounded; they stand for k = 1, 2, 3 of the normal law
        exact = {"68.27": math.erf(1 / 2**0.5), "95.45": math.erf(2 / 2**0.5), "99.73": math.erf(3 / 2**0.5)}
        last_figure = 0.5 * 10 ** -len(printed.split(".")[1])
        k = coverage_factor(degrees, exact.get(level, float(level) / 100))
        assert k == pytest.approx(float(printed), abs=last_figure * 1.02), (level, printed)


@pytest.mark.parametrize("row", rows("number_drills.csv"), ids=lambda row: row["drill"])
def test_number_drill(row):
    """Each number and letter drill has the diameter that a reprint of the list gives."""
    assert table("number_drills").row(row["drill"])["diameter_in"] == float(row["diameter_in"])
