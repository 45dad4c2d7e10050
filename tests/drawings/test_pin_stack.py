"""The drawn stack: lengths to scale, and the hole seen only where the slot shows it."""

import numpy as np
import pytest

from workbench.drawings.pin_stack import AXIS, PX, UNDER_HEAD, PinStack


@pytest.fixture(scope="module")
def drawing():
    return PinStack("M12")


def shown(drawing, centre=37.0, washers=2.5, goes_in=True):
    drawing.show(22.0, washers, 2.5, centre, 50.0, goes_in)


def test_lengths_run_from_under_the_head(drawing):
    """Bolt's end at 50 mm, slot from 34.5 to 39.5 mm (22 + 2.5 + 10 and + 15), hole's middle at 37 mm."""
    shown(drawing)
    bolt = drawing.bolt.get_path().vertices[:, 0]
    assert (bolt.max() - UNDER_HEAD) / PX == pytest.approx(50)
    slot = (drawing.slot.get_path().vertices[:, 0] - UNDER_HEAD) / PX
    assert (slot.min(), slot.max()) == (pytest.approx(34.5), pytest.approx(39.5))
    x = drawing.hole.get_xdata()
    assert (np.nanmin(x) + np.nanmax(x)) / 2 == pytest.approx(UNDER_HEAD + PX * 37)
    assert np.nanmax(x) - np.nanmin(x) == pytest.approx(3.2 * PX, rel=1e-3)


def test_a_hole_under_the_nut_is_hidden(drawing):
    """Before the slot's floor the hole is dashed; in the slot it is seen; past the nut it is seen again."""
    for centre, seen in ((30.0, False), (37.0, True), (43.0, True)):
        shown(drawing, centre, goes_in=False)
        assert np.isfinite(drawing.hole.get_xdata()).any() == seen
        assert np.isfinite(drawing.hidden.get_xdata()).any() != seen


def test_the_pin_is_drawn_only_where_it_goes_in(drawing):
    """The pin's shank of 2.9 mm (ISO 1234) lies in the hole; without a way in there is none."""
    shown(drawing)
    pin = drawing.shank.get_path().vertices
    assert np.ptp(pin[:, 0]) == pytest.approx(2.9 * PX, rel=1e-3) and pin[:-1, 1].mean() == pytest.approx(AXIS, abs=0.5)
    shown(drawing, 30.0, goes_in=False)
    assert len(drawing.shank.get_path().vertices) <= 2
    assert drawing.text().endswith("The pin does not go in.")


@pytest.mark.parametrize("count", [0, 1, 3])
def test_each_washer_is_cut(drawing, count):
    """Parts and washers have two cut faces each, above and below the bolt."""
    shown(drawing, washers=2.5 * count)
    assert len(drawing.parts.get_path().to_polygons(closed_only=False)) == 2 * (1 + count)
