"""The drawn slotted nut: true proportions, and slots that stand where the turn puts them."""

import numpy as np
import pytest

from workbench.drawings.slotted_nut import ACROSS, CENTRE, ORIGIN, PX_PER_DEG, YIELD_PX, SlottedNut

LIMITS = (30000, 36000, 54000)


@pytest.fixture(scope="module")
def drawing():
    return SlottedNut()


def directions(drawing):
    """The angle of each slot's middle, in degrees, as drawn."""
    gaps = drawing.slots.get_path().to_polygons(closed_only=False)
    middles = np.array([gap[:4].mean(axis=0) for gap in gaps]) - CENTRE
    return np.degrees(np.arctan2(middles[:, 1], middles[:, 0]))


@pytest.mark.parametrize("turn", [0, 10, 38])
def test_slots_stand_where_the_turn_puts_them(drawing, turn):
    """Six slots 60 degrees apart; the last one has gone past the hole by 22 degrees and the turn, clockwise."""
    drawing.show("M12", 22, turn, 30000, LIMITS, 2000)
    found = np.sort(directions(drawing) % 60)
    assert np.allclose(np.minimum(found, 60 - found), min((22 + turn) % 60, -(22 + turn) % 60), atol=1e-6)
    assert drawing.at_hole == (turn == 38)


def test_turned_on_the_nut_goes_clockwise(drawing):
    """Seen from the bolt's end a right-hand nut tightens clockwise: the slot near the hole moves downward there."""
    drawing.show("M12", 5, 0, 30000, LIMITS, 2000)
    before = directions(drawing)[0]
    drawing.show("M12", 5, 10, 30000, LIMITS, 2000)
    assert directions(drawing)[0] - before == pytest.approx(-10)


def test_sizes_are_those_of_din_935(drawing):
    """M12: slot 3.5, crown 16, bolt 12 against 18 mm across flats; the hole 3.2 (ISO 7378)."""
    drawing.show("M12", 22, 0, 30000, LIMITS, 2000)
    px = ACROSS / 18
    gap = drawing.slots.get_path().to_polygons(closed_only=False)[0]
    assert np.hypot(*(gap[1] - gap[2])) == pytest.approx(3.5 * px)
    assert np.ptp(drawing.crown.get_path().vertices[:, 0]) == pytest.approx(16 * px, rel=1e-3)
    assert np.ptp(drawing.bolt.get_path().vertices[:, 0]) == pytest.approx(12 * px, rel=1e-3)
    hole = drawing.hole.get_ydata()
    assert np.nanmax(hole) - np.nanmin(hole) == pytest.approx(3.2 * px)


def test_the_preload_line_rises_to_yield(drawing):
    """From 30 to 54 kN at 2 kN a degree: 12 degrees."""
    drawing.show("M12", 22, 4, 38000, LIMITS, 2000)
    x, y = drawing.way.get_data()
    assert (x[1] - x[0]) / PX_PER_DEG == pytest.approx(12)
    assert y[1] - ORIGIN[1] == pytest.approx(YIELD_PX)
    now = drawing.now.get_path().vertices[:-1].mean(axis=0)
    assert now[1] - ORIGIN[1] == pytest.approx(38 / 54 * YIELD_PX, abs=0.5)


def test_words_say_where_the_slot_stands(drawing):
    """The alternative text names the slot's distance, or that it stands at the hole."""
    drawing.show("M12", 22, 0, 30000, LIMITS, 2000)
    assert "22 degrees past the hole" in drawing.text()
    drawing.show("M12", 22, 38, 30000, LIMITS, 2000)
    assert "A slot stands at the hole." in drawing.text()
