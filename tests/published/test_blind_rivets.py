"""Values of blind rivets and galvanic partners printed by others, the source beside each in blind_rivets.csv."""

import csv
import json
from collections import Counter
from pathlib import Path

import pytest

from workbench.rivets import blind, corrosion
from workbench.rivets.blind_designation import inch_hole_in, read_trade_code
from workbench.rivets.blind_strength import bearing_n
from workbench.rivets.cost import break_even_quantity
from workbench.rivets.grip import grip_range
from workbench.tables import table

ROWS = list(csv.DictReader((Path(__file__).parent / "blind_rivets.csv").read_text(encoding="utf-8").splitlines()))


def din(given):
    return table("blind_heads_din_7337").row(f"{given['body_mm']:g}")


CALCULATIONS = {
    "least grip": lambda g: grip_range(**g).least_mm,
    "largest grip": lambda g: grip_range(**g).largest_mm,
    "largest body": lambda g: max(row["body_mm"] for row in table("blind_sizes").rows.values()),
    "in series": lambda g: din(g)["series"] == g["series"],
    "DIN head": lambda g: din(g)["head_mm"],
    "DIN head height": lambda g: din(g)["head_height_mm"],
    "shear": lambda g: blind.breaking_loads_n(**g)[0],
    "tension": lambda g: blind.breaking_loads_n(**g)[1],
    "least hole": lambda g: blind.hole_mm(**g)[0],
    "largest hole": lambda g: blind.hole_mm(**g)[1],
    "largest head": lambda g: blind.body_size(**g)["head_largest_mm"],
    "head height": lambda g: blind.body_size(**g)["head_height_mm"],
    "least inch hole": lambda g: inch_hole_in(**g)[0],
    "largest inch hole": lambda g: inch_hole_in(**g)[1],
    "trade code body": lambda g: read_trade_code(**g).body_in,
    "trade code grip": lambda g: read_trade_code(**g).grip_in,
    "bearing": lambda g: bearing_n(**g),
    "anodic index": lambda g: corrosion.anodic_index_v(**g),
    "allowed difference": lambda g: corrosion.allowed_difference_v(**g),
    "sea-water rank": lambda g: corrosion.sea_water_rank(**g),
    "sea-water potential": lambda g: corrosion.sea_water_potential_v(**g),
    "which dissolves": lambda g: corrosion.sea_water_rank(g["one"]) < corrosion.sea_water_rank(g["other"]),
    "small anode warned": lambda g: corrosion.couple(**g).small_anode,
    "break-even": lambda g: break_even_quantity(**g),
}


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["id"])
def test_published_value(row):
    """The calculation gives the printed value within the tolerance of its last figure, source beside it."""
    assert row["source"] and row["standing"] in ("seen in a reprint", "from memory", "common practice")
    calculated = CALCULATIONS[row["calculation"]](json.loads(row["inputs"]))
    assert calculated == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]) + 1e-9, rel=0), row


def test_most_kinds_of_value_are_checked_and_each_once():
    """At least 45 values come from a reprint; no check stands twice."""
    standings = Counter(row["standing"] for row in ROWS)
    assert standings["seen in a reprint"] >= 45
    assert len({(row["calculation"], row["inputs"]) for row in ROWS}) == len(ROWS)
