"""The hole for the pin: place, tolerances, washers, distance to the end."""

import math

import numpy
import pytest

from workbench.screws.pin_hole import (
    bolt_length_mm,
    centre_mm,
    from_end_mm,
    hole,
    likely_mm,
    room_mm,
    thicker_washer_mm,
    thinner_washer_mm,
    worst_mm,
)


def test_everything_between_head_and_slot_counts():
    """22 + 1.5 + (10 + 15) / 2 = 36 mm by hand."""
    assert centre_mm(22, 1.5, 10, 15) == 36
    assert centre_mm(22, 0, 10, 15) == 34.5
    assert centre_mm(numpy.array([22, 30]), 2.5, 10, 15).tolist() == [37, 45]


@pytest.mark.parametrize("sizes, says", [
    ((0, 1.5, 10, 15), "parts_mm = 0"), ((22, -1, 10, 15), "washers_mm = -1"), ((22, 1.5, 15, 10), "are they swapped"),
])  # fmt: skip
def test_impossible_stacks_are_refused(sizes, says):
    """No parts, a negative washer, a slot floor above the nut's top."""
    with pytest.raises(ValueError, match=says):
        centre_mm(*sizes)


def test_room_is_what_the_pin_leaves_of_the_slot_on_each_side():
    """M12: slot 5 deep, pin 2.9: (5 - 2.9) / 2 = 1.05 mm (by hand)."""
    assert room_mm(10, 15, 2.9) == pytest.approx(1.05)
    with pytest.raises(ValueError, match="thicker than the slot is deep"):
        room_mm(10, 12, 2.9)


def test_worst_adds_and_likely_adds_squares():
    """0.2 + 0.3 + 0.1 = 0.6; the root of 0.04 + 0.09 + 0.01 is 0.37417 (by hand)."""
    assert worst_mm(0.2, 0.3, 0.1) == pytest.approx(0.6)
    assert likely_mm(0.2, 0.3, 0.1) == pytest.approx(0.374166, abs=1e-6)
    with pytest.raises(ValueError, match="give half-widths"):
        worst_mm(0.2, -0.1)
    with pytest.raises(ValueError, match="at least one"):
        likely_mm()


def test_likely_agrees_with_stacks_drawn_at_random():
    """Three normal spreads added 100 000 times have the spread that the root of squares gives."""
    random = numpy.random.default_rng(7378)
    stacks = sum(random.normal(0, spread, 100_000) for spread in (0.2, 0.3, 0.1))
    assert stacks.std() == pytest.approx(likely_mm(0.2, 0.3, 0.1), rel=0.01)
    assert numpy.abs(sum(random.uniform(-t, t, 100_000) for t in (0.2, 0.3, 0.1))).max() <= worst_mm(0.2, 0.3, 0.1)


def test_a_thicker_washer_goes_back_to_the_slot_before_and_a_thinner_on_to_the_next():
    """20 deg short at P 1.75: 1.75 x 40 / 360 = 0.19444 thicker, 1.75 x 20 / 360 = 0.09722 thinner (by hand)."""
    assert thicker_washer_mm(20, 1.75) == pytest.approx(0.194444, abs=1e-6)
    assert thinner_washer_mm(20, 1.75) == pytest.approx(0.097222, abs=1e-6)
    assert thicker_washer_mm(20, 1.75, slots=8) == pytest.approx(1.75 * 25 / 360)
    assert thicker_washer_mm(0.5, 0.7) == pytest.approx(0.7 * 59.5 / 360)  # M4, all but there
    for bad in (0, 60):
        with pytest.raises(ValueError, match="short_deg"):
            thicker_washer_mm(bad, 1.75)


def test_a_washer_turns_the_nut_by_its_thickness_over_the_pitch():
    """Turned back by 360 t / P the slot before, 60 - a past the hole, stands at it; likewise 360 t / P on the next."""
    for short in (5, 20, 55):
        assert 360 * thicker_washer_mm(short, 1.75) / 1.75 == pytest.approx(60 - short)
        assert 360 * thinner_washer_mm(short, 1.75) / 1.75 == pytest.approx(short)


def test_a_hole_too_near_the_end_is_refused():
    """M12 wants 5.9 mm (ISO 7378, from memory): 42 - 36 = 6 is enough, 41 - 36 = 5 is not."""
    assert from_end_mm("M12", 42, 36) == 6
    with pytest.raises(ValueError, match="leaves 5 mm .* less than 5.9 mm; take a longer bolt"):
        from_end_mm("M12", 41, 36)


def test_the_bolt_is_the_next_length_that_keeps_the_end():
    """36 + 5.9 = 41.9: the next of ISO 888 is 45 mm."""
    assert bolt_length_mm("M12", 22, 1.5, 10, 15) == 45
    assert hole("M12")["hole_mm"] == 3.2
    assert math.isclose(from_end_mm("M12", 45, 36), 9)
    with pytest.raises(ValueError, match="longer than the table"):
        bolt_length_mm("M12", 900, 1.5, 10, 15)
