"""The slotted nut: steps, the kind of joint, preload at the next slot, the window."""

import math

import numpy
import pytest
from scipy.optimize import brentq

from workbench.screws.slotted_nut import (
    axial_step_mm,
    eased_play_mm,
    nut,
    over_nut_mm,
    play_deg,
    step_deg,
    to_slot,
    turn_to_slot_deg,
    window_deg,
)
from workbench.screws.stiffness import Springs, bolt_n_per_mm
from workbench.threads.strength import bolt_loads

STIFF = Springs(300000, 1200000)


def test_six_slots_are_sixty_degrees_and_a_sixth_of_the_pitch_apart():
    """M12: 1.75 / 6 = 0.29167 mm by hand; eight slots: 45 degrees."""
    assert (step_deg(6), step_deg(8), step_deg()) == (60, 45, 60)
    assert axial_step_mm(1.75) == pytest.approx(0.291667, abs=1e-6)
    assert axial_step_mm(numpy.array([1.5, 3])).tolist() == [0.25, 0.5]


@pytest.mark.parametrize("slots, says", [(5, "must be even"), (0, "at least 2"), (6.5, "whole number")])
def test_a_nut_whose_slots_do_not_face_each_other_is_refused(slots, says):
    """A straight pin needs a slot opposite: odd, none or part slots are refused."""
    with pytest.raises(ValueError, match=says):
        step_deg(slots)


def test_the_kind_of_joint_decides_the_way():
    """Gone past by 22 degrees: a clamped joint 38 on, a turning one 22 back; at the hole it stays (common practice)."""
    assert turn_to_slot_deg("clamped", 22) == 38
    assert turn_to_slot_deg("turning", 22) == -22
    assert turn_to_slot_deg("clamped", 0) == turn_to_slot_deg("turning", 0) == 0
    assert turn_to_slot_deg("clamped", 22, slots=8) == 23
    assert turn_to_slot_deg("clamped", numpy.array([0, 22, 59])).tolist() == [0, 38, 1]


def test_a_clamped_joint_is_never_backed_off():
    """No angle in the step gives a clamped joint a turn back, nor a turning one a turn on."""
    past = numpy.linspace(0, 59.99, 601)
    assert (turn_to_slot_deg("clamped", past) >= 0).all() and (turn_to_slot_deg("turning", past) <= 0).all()


@pytest.mark.parametrize("joint, past, says", [
    ("tight", 22, "ask first"), ("clamped", 60, "above 0"), ("clamped", -1, "at least 0"),
])  # fmt: skip
def test_an_unknown_joint_or_an_angle_beyond_the_step_is_refused(joint, past, says):
    """The kind of joint must be said, and the angle lies within one step."""
    with pytest.raises(ValueError, match=says):
        turn_to_slot_deg(joint, past)


def test_the_preload_at_the_next_slot_by_hand():
    """30 kN, 20 deg at P 1.5: 0.08333 mm x 80 000 N/mm = 6667 N more; share of 48 kN = 0.7639."""
    landing = to_slot(30000, 40, 1.5, Springs(100000, 400000), 48000)
    assert landing.turn_deg == 20
    assert landing.axial_mm == pytest.approx(0.083333, abs=1e-6)
    assert landing.preload_n == pytest.approx(36666.7, abs=0.1)
    assert landing.share == pytest.approx(0.76389, abs=1e-5)
    assert to_slot(30000, 0, 1.5, Springs(100000, 400000), 48000).preload_n == 30000
    assert to_slot(0, 40, 1.5, Springs(100000, 400000), 48000).preload_n == pytest.approx(6666.7, abs=0.1)


def test_a_sixth_of_a_turn_is_far_more_than_a_short_bolt_can_stretch():
    """M12 8.8 on 20 mm grip: the nut moves 0.29 mm, the bolt stretches about 0.05 mm; it is refused (by hand)."""
    bolt = bolt_n_per_mm(12, 1.75, 0, 20)
    limit = bolt_loads(12, 1.75, "8.8").yield_n
    assert axial_step_mm(1.75) > 5 * 0.9 * limit / bolt
    with pytest.raises(ValueError, match="neither on nor back"):
        to_slot(40000, 1, 1.75, Springs(bolt, 4 * bolt), limit)


def test_the_limit_itself_is_reached_and_not_passed():
    """38 deg on the stiff joint add 44 333.3 N (by hand): a limit just above lets it pass, one just below does not."""
    assert to_slot(10000, 22, 1.75, STIFF, 54334).preload_n == pytest.approx(54333.3, abs=0.1)
    with pytest.raises(ValueError, match="would become 54333 N"):
        to_slot(10000, 22, 1.75, STIFF, 54333)
    with pytest.raises(ValueError, match="over the limit of 9000 N already"):
        to_slot(10000, 22, 1.75, STIFF, 9000)


def test_a_turning_joint_gets_the_play_of_the_way_back():
    """22 deg back at P 1.5: 0.09167 mm of play (by hand)."""
    assert eased_play_mm(22, 1.5) == pytest.approx(0.091667, abs=1e-6)
    assert eased_play_mm(36, 0.7) == pytest.approx(0.07)


def test_the_window_is_the_turn_between_two_preloads():
    """6 kN more at 80 000 N/mm and P 1.5: 0.075 mm = 18 deg (by hand); swapped preloads are refused."""
    assert window_deg(30000, 36000, 1.5, Springs(100000, 400000)) == pytest.approx(18)
    assert window_deg(0, 6000, 1.5, Springs(100000, 400000)) == pytest.approx(18)  # from a slack joint
    with pytest.raises(ValueError, match="are the two preloads swapped"):
        window_deg(36000, 30000, 1.5, STIFF)


def test_the_play_of_the_pin_by_turning_the_slot_until_it_touches():
    """Turning a slot about the axis until its corner meets the shank, solved by scipy: within 1 % of the formula."""
    for slot, shank, over in ((3.5, 2.9, 16), (2.5, 1.8, 13), (5.5, 4.6, 34)):

        def gap(turn, slot=slot, shank=shank, over=over):
            return slot / 2 - shank / 2 / math.cos(turn) - over / 2 * math.tan(turn)

        exact = 2 * math.degrees(brentq(gap, 0, 0.5))
        assert play_deg(slot, shank, over) == pytest.approx(exact, rel=0.01)


def test_a_pin_that_fills_the_slot_has_no_play_and_a_thicker_one_is_refused():
    """Slot 3 and shank 3: no play; shank 3.1 is refused."""
    assert play_deg(3, 3, 16) == 0
    assert play_deg(0.9, 0.7, 8) == pytest.approx(2 * math.degrees(math.asin(0.025)))
    with pytest.raises(ValueError, match="thicker than the slot of 3 mm"):
        play_deg(3, 3.1, 16)
    with pytest.raises(ValueError, match="width over the nut"):
        play_deg(20, 3, 16)


def test_the_pin_lies_across_the_crown_or_across_the_flats():
    """M12 has a crown of 16 mm, M8 none: 13 mm across flats (DIN 935-1, seen in a reprint)."""
    assert (over_nut_mm("M12"), over_nut_mm("M8"), nut("M8")["crown_mm"]) == (16, 13, 0)
