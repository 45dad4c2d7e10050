"""Values of thread limits, wires, gauges and holes printed by others, the source beside each in thread_limits.csv."""

import csv
import json
from pathlib import Path

import pytest

from workbench.tables import table
from workbench.threads import gauging
from workbench.threads.designation import coarse_pitch_mm
from workbench.threads.limits_acme import acme_limits
from workbench.threads.limits_metric import basic_diameters_mm, metric_limits, screw_root_mm
from workbench.threads.limits_trapezoidal import trapezoidal_limits
from workbench.threads.limits_unified import unified_limits
from workbench.threads.tapping import clearance_hole_mm, tapping_drill_mm
from workbench.threads.three_wires import best_wire, groove, over_wires, pitch_diameter_from, shop_wires

ROWS = list(csv.DictReader((Path(__file__).parent / "thread_limits.csv").read_text(encoding="utf-8").splitlines()))


def metric(thread, tolerance_class):
    diameter, _, pitch = thread.removeprefix("M").partition("x")
    return metric_limits(float(diameter), float(pitch) if pitch else coarse_pitch_mm(float(diameter)), tolerance_class)


def side(limits, given):
    return getattr(getattr(limits, given["diameter"]), given["side"])


def unified(given):
    return unified_limits(given["major_in"], given["tpi"], given["class"], given["series"])


def upper_deviation(given):
    diameter, pitch = map(float, given["thread"].removeprefix("M").split("x"))
    return 1000 * (metric(given["thread"], given["class"]).pitch.high - basic_diameters_mm(diameter, pitch)[0])


def reading_from_major(major, tpi, wire, flank_deg, major_factor):
    return over_wires(major - major_factor / tpi, wire, 1 / tpi, flank_deg)


def pitch_factor(major_factor=0, **flanks):
    return groove(1, **flanks).depth + major_factor


CALCULATIONS = {
    "metric limit": lambda g: side(metric(g["thread"], g["class"]), g),
    "metric root": lambda g: getattr(screw_root_mm(g["diameter_mm"], g["pitch_mm"], g["class"]), g["side"]),
    "metric tolerance": lambda g: 1000 * getattr(metric(g["thread"], g["class"]), g["diameter"]).tolerance,
    "metric deviation": lambda g: table("iso_965_deviations").row(f"{g['pitch']:g}")[g["position"]],
    "upper deviation of D2": upper_deviation,
    "trapezoidal limit": lambda g: side(trapezoidal_limits(g["diameter_mm"], g["pitch_mm"], g["class"]), g),
    "acme limit": lambda g: side(acme_limits(g["major_in"], g["tpi"], g["class"]), g),
    "acme nut limit": lambda g: side(acme_limits(g["major_in"], g["tpi"], g["class"], inside=True), g),
    "unified limit": lambda g: side(unified(g), g),
    "clearance hole": lambda g: clearance_hole_mm(float(g["size"].removeprefix("M")), g["series"]),
    "tapping drill": lambda g: tapping_drill_mm(**g),
    "best wire": lambda g: best_wire(**g),
    "wire factor": lambda g: 1 + groove(1, **g).seat,
    "pitch factor": lambda g: pitch_factor(**g),
    "pitch factor from major": lambda g: pitch_factor(**g),
    "smallest shop wire": lambda g: shop_wires(**g)[0],
    "largest shop wire": lambda g: shop_wires(**g)[1],
    "over wires from major": lambda g: reading_from_major(**g),
    "pitch diameter": lambda g: pitch_diameter_from(g["reading"], g["wire"], 1 / g["tpi"], g["flank_deg"]),
    "pitch error effect": lambda g: gauging.pitch_error_effect(**g),
    "flank error effect": lambda g: gauging.flank_error_effect(g["depth"], (1, 0), g["flank_deg"]),
    "not-go turns": lambda g: gauging.NOT_GO_TURNS[g["rule"]],
}


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["id"])
def test_published_value(row):
    """The calculation gives the printed value within the tolerance of its last figure, source beside it."""
    assert row["source"] and row["standing"] in ("seen in a reprint", "from memory")
    calculated = CALCULATIONS[row["calculation"]](json.loads(row["inputs"]))
    assert calculated == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]) + 1e-9, rel=0), row
