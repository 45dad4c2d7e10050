"""A screw in a tapped blind hole."""

import pytest

from workbench.screws.blind_hole import TAP_LEADS, ScrewInHole, drill_depth_mm, full_thread_mm, point_height_mm


def test_a_drill_point_by_hand():
    """118 deg: 0.3004 of the drill, so 2.554 mm for 8.5 mm (a drill chart's 0.3 D rule)."""
    assert point_height_mm(8.5) == pytest.approx(2.554, abs=0.001)
    assert point_height_mm(10, 90) == pytest.approx(5)


def test_depth_by_hand_and_back():
    """15 + 4 x 1.5 + 2.554 = 23.554 mm; and from that depth 15 mm of full thread."""
    depth = drill_depth_mm(15, 1.5, 8.5)
    assert depth == pytest.approx(23.554, abs=0.001)
    assert full_thread_mm(depth, 1.5, 8.5) == pytest.approx(15)


def test_a_bottoming_tap_leaves_more_thread():
    """The same hole holds two pitches more thread after a bottoming tap than after a plug tap."""
    plug, bottoming = (full_thread_mm(25, 1.5, 8.5, TAP_LEADS[name]) for name in ("plug", "bottoming"))
    assert bottoming - plug == pytest.approx(3)


def test_a_screw_that_stops_in_the_hole_is_found_and_said():
    """40 mm through 20 mm into 15 mm of thread: 5 mm too early."""
    one = ScrewInHole(40, 26, 1.5, 20, 15)
    assert not one.clamps and one.gap_mm == 5
    assert "Torque but no clamp: the screw stops in the hole, 5.00 mm too early" in one.findings()[0]


def test_a_screw_that_stops_on_its_shank_is_found_and_said():
    """A thread that ends above the parts stops the screw at the mouth of the hole."""
    one = ScrewInHole(40, 16, 1.5, 22, 30)
    assert not one.clamps and one.gap_mm == 2 and "on its own shank" in one.findings()[0]


def test_a_screw_that_clamps():
    """30 mm through 20 mm into 15 mm: 10 mm engaged."""
    one = ScrewInHole(30, 26, 1.5, 20, 15)
    assert one.clamps and one.engaged_mm == 10 and one.gap_mm == 0
    assert "10.00 mm of thread engaged" in one.findings()[0]


@pytest.mark.parametrize("act, says", [
    (lambda: ScrewInHole(21, 16, 1.5, 20, 15), "under one pitch"),
    (lambda: full_thread_mm(8, 1.5, 8.5), "tap lead and drill point take"),
    (lambda: point_height_mm(8.5, 200), "whole angle"),
    (lambda: ScrewInHole(30, 40, 1.5, 20, 15), "part of the length"),
])  # fmt: skip
def test_bad_holes_are_refused(act, says):
    """Less than a pitch, no room for thread, an impossible point: refused."""
    with pytest.raises(ValueError, match=says):
        act()


def test_leads_of_taps_and_a_screw_that_just_touches():
    """Taper 8, plug 4, bottoming 2 pitches (common practice, no source); a screw that just touches clamps nothing."""
    assert TAP_LEADS == {"taper": 8, "plug": 4, "bottoming": 2}
    one = ScrewInHole(35, 26, 1.5, 20, 15)
    assert not one.clamps and one.gap_mm == 0
    assert not ScrewInHole(40, 20, 1.5, 20, 30).clamps  # the screw's own thread just ends at the parts
