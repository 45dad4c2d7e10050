"""Shift patterns, clock times past midnight, issue periods, and how many rivets and batches."""

import doctest

import pytest
from hypothesis import given
from hypothesis import strategies as st

from workbench.rivets import clock, shifts
from workbench.rivets.clock import after, minute, minute_of_day, written
from workbench.rivets.shifts import EXAMPLE, Shift, batches_for, periods, read_shifts, rivets_to_issue, shifts_of


@pytest.mark.parametrize("module", [clock, shifts])
def test_examples_run(module):
    """The examples in the docstrings give what they print."""
    failed, tried = doctest.testmod(module)
    assert tried and not failed


def test_the_clock_turns_over_at_midnight():
    """23:50 and 20 min is 00:10 of the next day: 10 minutes, not 1450."""
    assert after(minute_of_day("23:50"), 20) == 10
    assert written(minute("Sun 23:50") + 20) == "Mon+ 00:10"


@given(st.integers(0, 10079))
def test_what_is_written_is_read_back(at):
    """Every minute of a week survives being written and read."""
    assert minute(written(at)) == at


@pytest.mark.parametrize("text", ["00:10", "Tue", "Tuf 00:10", ""])
def test_a_minute_of_the_week_needs_its_day(text):
    """A clock time without its day, or a day unknown, is refused."""
    with pytest.raises(ValueError, match="day and a clock time"):
        minute(text)


def test_the_last_minute_of_an_hour_and_long_names_of_days_are_read():
    """23:59 is minute 1439 (24 x 60 - 1); Monday 00:01 is minute 1."""
    assert minute_of_day("23:59") == 1439 and minute("Monday 00:01") == 1


@pytest.mark.parametrize("text", ["24:00", "23:60", "7", "7.30", "", "ab:cd"])
def test_what_is_no_clock_time_is_refused(text):
    """24:00 is 00:00 of the new day; anything else is no time."""
    with pytest.raises(ValueError, match="from 00:00 to 23:59"):
        minute_of_day(text)


def test_a_night_shift_ends_the_next_day():
    """22:00 to 06:00 on Friday ends Saturday 06:00; its break at 01:00 is Saturday's."""
    night = [one for one in read_shifts(EXAMPLE) if one.name == "night"][-1]
    assert (written(night.start_min), written(night.end_min)) == ("Fri 22:00", "Sat 06:00")
    assert written(night.breaks[0][0]) == "Sat 01:00"


def test_a_pattern_names_its_own_tags_or_gets_unlike_ones(tmp_path):
    """Colour and shape come from the file; where it names none, shifts still differ in both."""
    path = tmp_path / "shifts.csv"
    path.write_text("# our bay\nshift,days,from,to,rivets_per_h\none,Mon Wed,06:00,14:00,40\ntwo,Tue,06:00,14:00,40\n")
    found = shifts_of(path)
    assert [written(one.start_min) for one in found] == ["Mon 06:00", "Tue 06:00", "Wed 06:00"]
    assert len({one.colour for one in found}) == len({one.shape for one in found}) == 2
    assert read_shifts(EXAMPLE)[0].colour == "white"


@pytest.mark.parametrize(("old", "new", "said"), [
    ("shift,days", "shift,day", "lacks days"),
    ("Mon-Fri,06:00", "Mon-Fry,06:00", "must be days"),
    ("Mon-Fri,06:00", "Fri-Mon,06:00", "must be days"),
    ("06:00,14:00,90", "06:00,14:30,90", "begins Mon 14:00, before early ends at Mon 14:30"),
    (",90,09:00-09:15", ",many,09:00-09:15", "rivets_per_h"),
    ("09:00-09:15", "05:00-05:15", "must lie inside"),
    ("09:00-09:15", "09:00", "from 00:00 to 23:59"),
])
def test_a_pattern_with_a_fault_is_refused(old, new, said):
    """A lost column, a day unknown, shifts that overlap, a word for a rate, a break outside the shift."""
    with pytest.raises(ValueError, match=said):
        read_shifts(EXAMPLE.replace(old, new))


@given(st.integers(0, 300), st.integers(31, 500), st.integers(1, 60))
def test_periods_are_never_short_and_never_a_rivet_too_many(rate, length, cut):
    """At the end of each period the rivets issued are the rate times the minutes, rounded up, and no more."""
    one = Shift("a", 100, 100 + length, rate, ((110, 120),))
    given_out = 0
    for period in periods([one], cut):
        assert period.end_min - period.start_min <= cut
        assert period.end_min <= 110 or period.start_min >= 120
        given_out += period.rivets
        worked = period.end_min - 100 - (10 if period.start_min >= 120 else 0)
        assert given_out - 1 < rate * worked / 60 + 1e-6 and given_out >= rate * worked / 60 - 1e-6


@pytest.mark.parametrize(("rate", "life", "way", "rivets"), [(90, 20, 4, 24), (90, 20, 0, 30), (60, 10, 3, 7),
                                                             (100, 10, 4, 10), (90, 3, 4, 0)])
def test_rivets_to_issue_count_the_way(rate, life, way, rivets):
    """90 an hour in 20 - 4 min: 24; in all 20: 30; 60 in 7: 7; 100 in 6: 10; no time: none (by hand)."""
    assert rivets_to_issue(rate, life, way) == rivets


def test_a_part_of_a_batch_is_a_batch():
    """1000 in 24s: 41.67, so 42; 48 in 24s: 2 exactly; 49: 3."""
    assert rivets_to_issue(90, 0) == 0 and rivets_to_issue(0, 20) == 0
    assert [batches_for(rivets, 24) for rivets in (1000, 48, 49, 0)] == [42, 2, 3, 0]
