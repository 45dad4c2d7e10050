"""The drawn rivet: true sizes before and after driving, in countersunk, dimpled and plain sheets."""

import numpy as np
import pytest

from workbench.drawings.rivet_selection import FACE, PLACES, PX, RivetSelection
from workbench.rivets.selection import Job, select


@pytest.fixture(scope="module")
def drawing():
    return RivetSelection()


def shown(drawing, sheets, width=6.4, **needs):
    rivet = select(Job(sheets, load_n=500, **needs)).rivet
    drawing.show(rivet, sheets, width)
    before, after = (body - (x, FACE) for body, x in zip(
        drawing.rivets.get_path().to_polygons(closed_only=False), PLACES.values(), strict=True))
    return before / PX, after / PX


def test_before_driving_the_shank_has_its_length_and_play(drawing):
    """4 x 8 mm: the shank ends 8 mm below the top face and is 4 mm thick in a hole of 4.2 mm (DIN 660)."""
    before, _ = shown(drawing, (1.0, 1.6))
    assert before[:, 1].min() == pytest.approx(-8)
    low = before[before[:, 1] < -3]
    assert np.ptp(low[:, 0]) == pytest.approx(4)
    faces = drawing.sheets.get_path().to_polygons(closed_only=False)
    inner = min(abs(corner[0] - PLACES["before"]) for corner in faces[0]) / PX
    assert inner == pytest.approx(2.1)


def test_after_driving_the_shank_fills_the_hole_and_the_head_is_formed(drawing):
    """In the grip the rivet is 4.2 mm thick; the formed head is as wide as given and 0.5 D high (common practice)."""
    _, after = shown(drawing, (1.0, 1.6))
    assert after[:, 1].min() == pytest.approx(-2.6 - 2.0)
    assert np.ptp(after[after[:, 1] < -3][:, 0]) == pytest.approx(6.4)
    assert {4.2} == {round(2 * abs(x), 6) for x, y in after if -2.7 < y < -0.001 and abs(x) < 3}


def test_a_standing_head_has_its_proportions(drawing):
    """Universal head on 4 mm: 8 mm wide, 0.43 D = 1.72 mm high (from memory)."""
    before, _ = shown(drawing, (1.0, 1.6))
    assert np.ptp(before[:, 0]) == pytest.approx(8.0)
    assert before[:, 1].max() == pytest.approx(1.72, abs=0.01)


def test_a_flush_head_lies_level_with_its_sheet(drawing):
    """Countersunk: nothing stands above the face; in thin sheet both sheets are pressed down by the head's depth."""
    before, _ = shown(drawing, (1.0, 1.6), flush=True)
    assert before[:, 1].max() == pytest.approx(0)
    assert drawing.rivet.let_in == "dimple" and "dimpled" in drawing.text()
    lower = drawing.sheets.get_path().to_polygons(closed_only=False)[2]
    assert (FACE - lower[:, 1].min()) / PX == pytest.approx(2.6 + drawing.rivet.head.height_mm)
    shown(drawing, (3.0, 1.6), flush=True)
    assert drawing.rivet.let_in == "countersink" and "countersink" in drawing.text()
    upper, lower = (drawing.sheets.get_path().to_polygons(closed_only=False)[n] for n in (0, 2))
    assert (FACE - lower[:, 1].min()) / PX == pytest.approx(4.6)
    top = [abs(x - PLACES["before"]) / PX for x, y in upper if abs(y - FACE) < 1e-6]
    assert min(top) == pytest.approx(drawing.rivet.head.width_mm / 2)
