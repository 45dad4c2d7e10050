"""What lies where along a bolt, and whether the nut clamps."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from workbench.screws.grip import ThroughBolt, next_length_mm, washers_needed


def test_a_nut_that_stops_on_the_shank_is_found_and_said():
    """Shank 34 mm in 27 mm of parts: 7 mm short; the first finding says torque but no clamp."""
    one = ThroughBolt(60, 26, 1.5, (12, 15), 8.4)
    assert not one.clamps and one.gap_mm == pytest.approx(7)
    assert one.findings()[0].startswith("Torque but no clamp") and "7.00 mm" in one.findings()[0]


def test_washers_by_hand():
    """Shank 30 in 27 with washers of 1.6: two; with 1.5 two washers would just touch, so three; 26 in 27: none."""
    assert washers_needed(30, 27, 1.6) == 2
    assert washers_needed(30, 27, 1.5) == 3
    assert washers_needed(26, 27, 1.6) == 0


@given(st.floats(20, 40), st.floats(10, 38), st.floats(1, 4))
def test_with_the_washers_found_the_nut_clamps_and_with_one_fewer_not(shank, parts, washer):
    """The number found is the least that clamps."""
    count = washers_needed(shank, parts, washer)

    def stack(number):
        return ThroughBolt(shank + 40, 40, 1.5, (parts,), 8.4, nut_washer_mm=number * washer)

    assert stack(count).clamps
    if count:
        assert not stack(count - 1).clamps or parts + (count - 1) * washer == pytest.approx(shank)


def test_a_good_stack_by_hand():
    """M10 x 60, b 26, parts 20 + 20, washers 2 + 2, nut 8.4: 7.6 mm past the nut, 5.1 threads; thread in 8 mm."""
    one = ThroughBolt(60, 26, 1.5, (20, 20), 8.4, 2, 2)
    assert one.grip_mm == 44 and one.past_nut_mm == pytest.approx(7.6)
    assert one.threads_past == pytest.approx(5.07, abs=0.01)
    assert one.thread_in_parts_mm == pytest.approx((0, 8)) and one.clamps and one.engaged_mm == 8.4


@pytest.mark.parametrize("stack, says", [
    (ThroughBolt(45, 26, 1.5, (20, 20), 8.4), "The nut is not full: 5.00 mm of 8.4 mm"),
    (ThroughBolt(49, 26, 1.5, (20, 20), 8.4), "threads stand past the nut: take the next length"),
    (ThroughBolt(70, 32, 1.5, (20, 20), 8.4), "more weight and snagging"),
    (ThroughBolt(52, 26, 1.5, (20, 20), 8.4), "Thread lies along 14.00 mm of the last part"),
    (ThroughBolt(52, 15, 1.5, (20, 20), 8.4), "The nut clamps, is full"),
])  # fmt: skip
def test_each_fault_is_said_in_words(stack, says):
    """A nut not full, too few or too many threads past it, thread in bearing, or nothing wrong."""
    assert any(says in sentence for sentence in stack.findings()), stack.findings()


def test_a_nut_that_just_fills_is_full_and_half_the_last_part_is_bearable():
    """A bolt that ends with its nut has a full nut; thread along exactly half of the last part is not complained of."""
    level = ThroughBolt(48.4, 20, 1.5, (20, 20), 8.4).findings()
    assert not any("not full" in said for said in level) and any("0.0 threads stand past" in said for said in level)
    halves = ThroughBolt(52, 22, 1.5, (10, 30, 10), 8.4, 0, 0)
    assert ThroughBolt(52, 22, 1.5, (20, 20), 8.4).thread_in_parts_mm == (0, 10)
    assert not any("Thread lies" in said for said in ThroughBolt(52, 22, 1.5, (20, 20), 8.4).findings())
    assert halves.thread_in_parts_mm == (0, 10, 10)
    assert any("last part (10 mm)" in said for said in halves.findings())


@pytest.mark.parametrize("past, said", [(1.4, "take the next length"), (1.6, ""), (4.4, ""), (4.6, "snagging")])
def test_one_to_three_threads_past_the_nut_are_not_complained_of(past, said):
    """With 1.5 mm pitch 1.5 to 4.5 mm may stand out (common practice, no source)."""
    found = ThroughBolt(48.4 + past, 15, 1.5, (20, 20), 8.4).findings()
    assert said in found[0] and (said or found[0].startswith("The nut clamps"))


def test_the_next_length_is_a_listed_one():
    """22 + 8.4 + 3 = 33.4: 35 mm (ISO 888, from memory); an exact sum is taken."""
    assert next_length_mm(22, 8.4, 1.5) == 35
    assert next_length_mm(23.6, 8.4, 1.5, threads_past=2) == 35


@pytest.mark.parametrize("act, says", [
    (lambda: ThroughBolt(41, 26, 1.5, (20, 20), 8.4), "under one pitch"),
    (lambda: ThroughBolt(60, 70, 1.5, (20,), 8.4), "part of the length"),
    (lambda: ThroughBolt(60, 26, 1.5, 20, 8.4), "comma missing"),
    (lambda: next_length_mm(900, 8.4, 1.5), "longer than the table"),
])  # fmt: skip
def test_bad_stacks_are_refused(act, says):
    """Less than a pitch in the nut, thread longer than the bolt, no tuple: refused."""
    with pytest.raises(ValueError, match=says):
        act()
