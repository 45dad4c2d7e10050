"""Values of rivet heat treatment printed by others, the source beside each in heat_treatment.csv.

-1 stands for "the document prints no figure". Many rows are from memory and say so: they show that the tables hold
what was remembered, not that the document prints it.
"""

import csv
import json
from pathlib import Path

import pytest

from workbench.rivets import heat_treatment as heat
from workbench.rivets.documents import disagreements, heat_treated, rule
from workbench.tables import table

ROWS = list(csv.DictReader((Path(__file__).parent / "heat_treatment.csv").read_text(encoding="utf-8").splitlines()))


def degf(given, end):
    document = given["document"]
    return table("solution_bands").row(f"{document} {given['alloy']}")[f"{end}_degf"]


def soak(given, end):
    return heat.soak_min(25.4 * given["size_in"], given["furnace"], given.get("document", "specification"))[end]


def figure(given):
    value = getattr(rule(given["document"], given["alloy"]), given["figure"])
    return -1 if value is None else value


CALCULATIONS = {
    "least soak": lambda g: soak(g, 0),
    "most soak": lambda g: soak(g, 1),
    "band low degF": lambda g: degf(g, "low"),
    "band high degF": lambda g: degf(g, "high"),
    "band low": lambda g: heat.band(g["alloy"]).low_degc,
    "band high": lambda g: heat.band(g["alloy"]).high_degc,
    "below melting": lambda g: g["solidus_degc"] - heat.band(g["alloy"]).high_degc,
    "celsius": lambda g: heat.celsius(g["degf"]),
    "rule": figure,
    "heat treated": lambda g: int(heat_treated(g["alloy"])),
    "delay in hand": lambda g: heat.delay_in_hand_s(**g),
    "quench delay": lambda g: heat.quench_delay_s(25.4 * g["size_in"], g.get("document", "specification")),
    "cold days": lambda g: heat.cold_storage_days(g["alloy"], heat.celsius(g["degf"]))[0],
    "cold delay": lambda g: heat.cold_storage_days(g["alloy"], -20)[1],
}


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["id"])
def test_published_value(row):
    """The calculation gives the printed value within the tolerance of its last figure, source beside it."""
    assert row["source"] and row["standing"] in ("seen in a reprint", "from memory")
    calculated = CALCULATIONS[row["calculation"]](json.loads(row["inputs"]))
    assert calculated == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]), rel=0), row


def test_the_quench_clock_runs_as_the_air_force_says():
    """From the door beginning to open to the last portion under water (USAF T.O. 1-1A-9, seen in a reprint)."""
    clause = table("quench_delays").clause
    assert "door begins to open" in clause and "last corner under water" in clause


@pytest.mark.parametrize(("alloy", "figures", "values"), [
    ("2017", "drive_within_min", {60, 20, 30}),  # handbook, navy, transactions
    ("2024", "drive_within_min", {10, 20}),  # handbook, navy
    ("2017", "cold_for_h", {336, 24}),  # older passage, navy
    ("2017", "load_after_h", {96, 216}),  # air force and transactions, handbook
])
def test_where_sources_disagree_both_are_kept(alloy, figures, values):
    """Each pair of sources that disagree stands side by side, none merged or dropped."""
    assert set(disagreements(alloy)[figures].values()) == values


def test_the_safer_is_the_default():
    """To drive: 20 and 10 min; in the cold: 24 h; to load: nine days, not 96 h (the course's own rule)."""
    assert rule("shortest", "2017").drive_within_min == 20
    assert rule("shortest", "2024").drive_within_min == 10
    assert rule("shortest", "2017").cold_for_h == rule("shortest", "2024").cold_for_h == 24
    assert rule("shortest", "2017").load_after_h == 9 * 24
