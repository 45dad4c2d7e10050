"""Values printed by others about split pins, slotted nuts and locking, with the source beside each in locking.csv."""

import csv
import json
from pathlib import Path

import pytest

from workbench.screws.pin_hole import hole
from workbench.screws.self_loosening import unwinding_torque_n_mm
from workbench.screws.slotted_nut import axial_step_mm, nut, over_nut_mm, to_slot
from workbench.screws.split_pin import for_bolt, for_clevis_pin, length_mm, pin
from workbench.screws.stiffness import Springs, bolt_n_per_mm
from workbench.screws.turning import angle_for_deg
from workbench.tables import table

POUND_N, INCH_MM = 4.4482216, 25.4

CALCULATIONS = {
    "pin": lambda size, what: pin(size)[what],
    "pin for": lambda what, diameter: {"bolt": for_bolt, "clevis": for_clevis_pin}[what](diameter)["size_mm"],
    "nut": lambda thread, what: nut(thread)[what],
    "pin length": lambda thread: length_mm(nut(thread)["pin_mm"], over_nut_mm(thread)),
    "turn to preload": lambda fi_lbf, tpi, kb, km: angle_for_deg(
        fi_lbf * POUND_N, INCH_MM / tpi, Springs(kb * POUND_N / INCH_MM, km * POUND_N / INCH_MM)
    ),
    "stretch": lambda d, P, grip, preload_n: preload_n / bolt_n_per_mm(d, P, 0, grip),
    "axial step": lambda P, slots: axial_step_mm(P, slots),
    "prevailing": lambda thread, what: table("iso_2320_prevailing").row(thread)[what],
    "hole end": lambda thread: hole(thread)["end_mm"],
    "unwinding torque": lambda preload_n, P: unwinding_torque_n_mm(preload_n, P),
}


@pytest.mark.parametrize(
    "row",
    list(csv.DictReader((Path(__file__).parent / "locking.csv").read_text(encoding="utf-8").splitlines())),
    ids=lambda row: row["id"],
)
def test_published(row):
    """The calculation gives the value that the named source prints."""
    found = CALCULATIONS[row["calculation"]](**json.loads(row["inputs"]))
    assert found == pytest.approx(float(row["expected"]), rel=0, abs=float(row["tolerance"])), row["source"]


def test_low_torque_then_on_to_the_next_slot_and_never_over_the_maximum():
    """NAVEDTRA 14014 (seen in a reprint): torque to the low side, tighten to the next slot, never over the maximum."""
    springs = Springs(100000, 400000)
    landing = to_slot(30000, 40, 1.5, springs, 37000)
    assert landing.turn_deg > 0 and 30000 < landing.preload_n <= 37000
    with pytest.raises(ValueError, match="over the limit of 36000 N; neither on nor back"):
        to_slot(30000, 40, 1.5, springs, 36000)
