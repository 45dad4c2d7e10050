"""The state of a batch at any moment: minutes warm add up, the cold does not undo them, gaps make it doubtful."""

import doctest

import pytest
from hypothesis import given
from hypothesis import strategies as st

from workbench.rivets import batches
from workbench.rivets.batches import DOUBTFUL, HARD, NOT_YET, USABLE, Batch, minutes_left, state, usable_until_min
from workbench.rivets.documents import Rule, rule, rules_of

NAVY = Rule("navy", "2017", 20, 0, 24)
KEPT = Batch("A", "2017", 0, stored_min=6, out_min=606, store_degc=-5)


def test_examples_run():
    """The examples in the docstrings give what they print."""
    failed, tried = doctest.testmod(batches)
    assert tried and not failed


@pytest.mark.parametrize(("at", "said"), [(-1, NOT_YET), (0, USABLE), (6, USABLE), (606, USABLE), (620, USABLE),
                                          (621, HARD)])
def test_minutes_before_and_after_the_store_add_up(at, said):
    """6 min before, 14 min after: 20 min in all is the last usable minute (20 - 6 = 14; 606 + 14 = 620)."""
    assert state(KEPT, at, NAVY) == said


def test_the_cold_has_its_own_limit():
    """24 h in the store: at 6 + 1440 min still usable, a minute later hard, though it was warm for 6 min only."""
    one = Batch("A", "2017", 0, stored_min=6, store_degc=-5)
    assert (state(one, 1446, NAVY), state(one, 1447, NAVY)) == (USABLE, HARD)


def test_a_store_too_warm_counts_as_warm():
    """At +2 degC nothing is delayed: hard after 20 min, in the store or not."""
    one = Batch("A", "2017", 0, stored_min=6, store_degc=2)
    assert (state(one, 20, NAVY), state(one, 21, NAVY)) == (USABLE, HARD)


def test_a_store_just_at_the_document_s_temperature_counts_as_cold():
    """At or below 0 degC: at 0 it is kept 24 h, at 0.1 it is not."""
    kept = [Batch("A", "2017", 0, stored_min=6, store_degc=degc) for degc in (0, 0.1)]
    assert [state(one, 1000, NAVY) for one in kept] == [USABLE, HARD]


def test_a_store_nobody_read_makes_it_doubtful():
    """Without a reading it is usable as if warm, then doubtful for as long as the cold could have held it."""
    one = Batch("A", "2017", 0, stored_min=6, store_degc=None)
    assert [state(one, at, NAVY) for at in (20, 21, 1446, 1447)] == [USABLE, DOUBTFUL, DOUBTFUL, HARD]


def test_what_was_put_back_is_never_usable():
    """Put back after issue: doubtful at best, hard when no reading of the record saves it."""
    one = Batch("A", "2017", 0, 6, 8, -5, returned=True)
    assert (state(one, 12, NAVY), state(one, 400, NAVY)) == (DOUBTFUL, HARD)
    assert usable_until_min(one, NAVY) is None


def test_documents_that_disagree_leave_a_doubtful_stretch():
    """2017 warm: usable to 20 min by the shortest, doubtful to 60 min, then hard by all (handbook 60, navy 20)."""
    one, shortest, others = Batch("A", "2017", 0), rule("shortest", "2017"), rules_of("2017")
    assert [state(one, at, shortest, others) for at in (20, 21, 60, 61)] == [USABLE, DOUBTFUL, DOUBTFUL, HARD]


def test_a_document_without_hours_for_its_store_leaves_doubt():
    """"Several days" is no figure: what the handbook keeps cold is doubtful, not usable and not hard."""
    handbook = rule("handbook", "2017")
    assert state(Batch("A", "2017", 0, 6, None, -18), 600, handbook) == DOUBTFUL


def test_the_limit_of_the_other_alloy_is_refused():
    """A 2024 batch is never judged by the limit of 2017: refused, with the head mark named."""
    with pytest.raises(ValueError, match="sort by head mark"):
        state(Batch("B", "2024", 0), 8, NAVY)


@pytest.mark.parametrize(("times", "said"), [
    ({"stored_min": -5}, "runs backwards.*midnight"),
    ({"out_min": 5}, "was never put into the store"),
    ({"stored_min": 9, "out_min": 5}, "runs backwards"),
    ({"heats": 0}, "counts as 1"),
])
def test_a_record_that_cannot_be_is_refused(times, said):
    """Times that run backwards, out without in, no heat at all."""
    with pytest.raises(ValueError, match=said):
        Batch("A", "2017", 0, **times)


@pytest.mark.parametrize(("had", "left"), [(1, 3), (3, 1), (4, 0), (5, 0)])
def test_the_first_heat_comes_on_top_of_the_re_treatments(had, left):
    """Three re-treatments permit four heats in all."""
    assert batches.heats_left(Batch("A", "2024", 0, heats=had), Rule("own", "2024", 20, retreatments=3)) == left


def test_no_number_of_heats_is_made_up():
    """Where the document sets no number, none is given."""
    assert batches.heats_left(Batch("A", "2017", 0), NAVY) is None


def test_nine_days_are_counted_night_and_day():
    """216 h after Monday 08:00 is Wednesday of the next week, 08:00: 9 x 1440 min later."""
    assert batches.load_from_min(480, rule("shortest", "2017")) == 480 + 9 * 1440
    with pytest.raises(ValueError, match="ask who answers"):
        batches.load_from_min(480, rule("shortest", "2024"))


def test_a_rule_without_a_time_to_drive_judges_nothing():
    """The air force's row prints no time to drive: refused, not taken as nought or as endless."""
    with pytest.raises(ValueError, match="prints no time to drive"):
        minutes_left(Batch("A", "2017", 0), 5, rule("air force", "2017"))


@pytest.mark.parametrize(("batch", "until"), [
    (Batch("A", "2017", 1430), 1450),  # 23:50 and 20 min
    (Batch("A", "2017", 1430, 1436, 1700, -5), 1714),  # 20 - 6 = 14 min after the store
    (Batch("A", "2017", 1430, 1436, None, -5), 2876),  # 1436 and 24 h
    (Batch("A", "2017", 1430, 1436, 2877, -5), 2876),  # out a minute too late: the store's end counts
    (Batch("A", "2017", 1430, 1436, 1700, 5), 1450),  # too warm a store delays nothing
    (Batch("A", "2017", 1430, 1450, None, -5), 2890),  # stored in its last minute
    (Batch("A", "2017", 1430, 1451, None, -5), 1450),  # stored a minute too late
])
def test_how_long_it_is_usable_by_hand(batch, until):
    """The sums beside each case, by the Navy manual: 20 min warm, 24 h at or below 0 degC."""
    assert usable_until_min(batch, NAVY) == until
    assert (state(batch, until, NAVY), state(batch, until + 1, NAVY) == USABLE) == (USABLE, False)


def test_minutes_left_count_down_one_by_one_and_only_while_warm():
    """Quenched at 1430: 20 left; at 1436 in the store 14 left, and still 14 at 1700; 5 min later 9."""
    one = Batch("A", "2017", 1430, 1436, 1700, -5)
    assert [minutes_left(one, at, NAVY) for at in (1430, 1431, 1436, 1500, 1700, 1705)] == [20, 19, 14, 14, 14, 9]
    assert batches.warm_and_cold_min(one, 1429, NAVY) == (0, 0)


def test_any_time_in_the_cold_is_over_where_the_document_prints_none():
    """A rule that prints no hours in the cold leaves nothing after a minute of it."""
    one = Batch("A", "2017", 0, 6, None, -18)
    assert minutes_left(one, 6, rule("handbook", "2017")) == 54
    assert minutes_left(one, 7, rule("handbook", "2017")) == -1


@given(st.integers(0, 90), st.integers(0, 3000), st.integers(1, 90), st.integers(1, 48),
       st.sampled_from([None, "store", "out"]), st.sampled_from([-5, 3, None]), st.integers(0, 2000))
def test_usable_until_is_the_last_usable_minute(before, stay, drive, cold, how, degc, quench):
    """Usable at every minute up to that moment, and at none after it; minutes warm never fall and never jump."""
    kept = {None: {}, "store": {"stored_min": quench + before},
            "out": {"stored_min": quench + before, "out_min": quench + before + stay}}[how]
    one, limits = Batch("A", "2017", quench, store_degc=degc, **kept), Rule("x", "2017", drive, 0, cold)
    until = usable_until_min(one, limits)
    at = sorted({quench, quench + before, quench + before + stay, until, until + 1, until + 7, until + 5000})
    assert [state(one, minute, limits) == USABLE for minute in at] == [minute <= until for minute in at]
