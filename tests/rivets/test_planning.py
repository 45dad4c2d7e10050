"""The planner against a checker written apart from it, and against enumeration of every plan in small cases."""

import doctest
from itertools import product

import pytest
from hypothesis import HealthCheck, assume, example, given, settings
from hypothesis import strategies as st

from workbench.rivets import batches, covering, planning
from workbench.rivets.batches import Batch
from workbench.rivets.documents import Rule, rule
from workbench.rivets.planning import Bath, Handling, habit, plan
from workbench.rivets.shifts import EXAMPLE, Shift, periods, read_shifts

OWN = Rule("own", "2024", drive_within_min=20, store_at_most_degc=0, cold_for_h=3)


def faults(found, shifts, bath):
    """What is wrong with a plan, rivet by rivet and minute by minute; knows nothing of how it was made."""
    one, way, told = found.rule, found.handling, []
    quenched = [run.quenched_min for run in found.runs]
    if any(later - earlier < bath.cycle_min for earlier, later in zip(quenched, quenched[1:], strict=False)):
        told.append("two runs in the bath at once")
    for run in found.runs:
        hours = [(shift.start_min - bath.ahead_min, shift.end_min) for shift in shifts]
        if not any(a <= run.loaded_min for a, b in hours) or not any(run.quenched_min <= b for a, b in hours):
            told.append("bath out of hours")
        if run.rivets not in bath.loads or run.quenched_min - run.loaded_min != bath.cycle_min:
            told.append("no such load or time")
    taken = [0] * len(found.runs)
    for issue in found.issues:
        taken[issue.run] += issue.rivets
        quench = quenched[issue.run]
        if issue.rivets < 1 or not issue.out_min <= issue.from_min < issue.until_min:
            told.append("issue runs backwards")
        if issue.from_min - issue.out_min < way.delivery_min:
            told.append("no time to carry")
        if way.store_degc is None:
            warm = issue.until_min - quench
            if issue.out_min < quench:
                told.append("issued before the quench")
        else:
            stored = quench + way.to_store_min
            cold, warm = issue.out_min - stored, (stored - quench) + (issue.until_min - issue.out_min)
            if way.store_degc > one.store_at_most_degc or not 0 <= cold <= one.cold_for_h * 60:
                told.append("kept in the cold beyond the document")
        if warm > one.drive_within_min:
            told.append("driven hard")
    if any(used > run.rivets for used, run in zip(taken, found.runs, strict=True)):
        told.append("more issued than made")
    for shift in shifts:
        mine = [one for one in found.issues if shift.start_min <= one.from_min < shift.end_min]
        if any(one.until_min > shift.end_min or any(one.from_min < b and one.until_min > a for a, b in shift.breaks)
               for one in mine):
            told.append("driven in a break")
        worked = 0
        for minute in range(shift.start_min, shift.end_min):
            worked += not any(a <= minute < b for a, b in shift.breaks)
            at_hand = sum(one.rivets for one in mine if one.from_min <= minute)
            if at_hand * 60 < shift.rivets_per_h * worked:
                told.append("short of rivets")
                break
    if found.made - sum(taken) != found.wasted or found.wasted < 0:
        told.append("waste miscounted")
    return told


@st.composite
def tasks(draw, small=False):
    """A shift pattern, a bath, a document's rule and the ways between bath, store and bench."""
    shifts, at = [], draw(st.integers(0, 600))
    for name in "abc"[:draw(st.integers(1, 2 if small else 3))]:
        length = draw(st.integers(30, 150 if small else 600))
        breaks = ()
        if draw(st.booleans()):
            first = draw(st.integers(1, length - 2))
            breaks = ((at + first, at + draw(st.integers(first + 1, length - 1))),)
        shifts.append(Shift(name, at, at + length, draw(st.integers(1, 90 if small else 200)), breaks))
        at += length + draw(st.integers(0, 120 if small else 900))
    cold = st.floats(0.5, 3) if small else st.floats(0.5, 60)
    one = Rule("drawn", "2024", draw(st.integers(5, 60)), draw(st.integers(-20, 0)), draw(cold))
    store = None if draw(st.integers(0, 3)) == 0 else draw(st.integers(-30, 0))
    loads = draw(st.lists(st.integers(5, 90), min_size=1, max_size=2 if small else 3, unique=True))
    bath = Bath(tuple(loads), draw(st.integers(45, 90) if small else st.integers(5, 90)), draw(st.integers(0, 180)))
    return shifts, bath, one, Handling(draw(st.integers(0, 6)), draw(st.integers(0, 6)), store)


def never_outside(task):
    shifts, bath, one, handling = task
    try:
        found = plan(*task)
    except ValueError:
        assume(False)
    assert faults(found, shifts, bath) == []
    for issue in found.issues:
        quench = found.runs[issue.run].quenched_min
        kept = {} if handling.store_degc is None else {
            "stored_min": quench + handling.to_store_min, "out_min": issue.out_min, "store_degc": handling.store_degc}
        assert batches.state(Batch("x", "2024", quench, **kept), issue.until_min, one) == batches.USABLE


SLOW = [HealthCheck.too_slow, HealthCheck.filter_too_much]


@settings(max_examples=300, deadline=None, suppress_health_check=SLOW)
@given(tasks())
def test_no_rivet_is_ever_driven_outside_its_document(task):
    """In 300 random shift patterns each rivet is driven inside the limits, none is short, the bath runs as it can."""
    never_outside(task)


@pytest.mark.exhaustive
@settings(max_examples=10_000, deadline=None, suppress_health_check=SLOW)
@given(tasks())
def test_no_rivet_is_ever_driven_outside_its_document_in_ten_thousand_patterns(task):
    """The same in 10,000 random shift patterns."""
    never_outside(task)


@pytest.mark.parametrize(("change", "fault"), [
    ({"until_min": 30}, "driven hard"),
    ({"out_min": -400, "from_min": -396}, "kept in the cold beyond the document"),
    ({"rivets": 1000}, "more issued than made"),
    ({"rivets": 1}, "short of rivets"),
])
def test_the_checker_sees_a_planted_fault(change, fault):
    """A late, an early, a doubled and a missing rivet are each seen: the checker is able to fail."""
    from dataclasses import replace

    shifts, bath = [Shift("a", 0, 60, 30)], Bath((50,), 60, 120)
    found = plan(shifts, bath, OWN)
    assert faults(found, shifts, bath) == []
    issues = (replace(found.issues[0], **change), *found.issues[1:])
    assert fault in faults(replace(found, issues=issues), shifts, bath)


def every_plan(task):
    """Each choice of loads that leaves nothing short, by issuing rivet after rivet: (waste, batches)."""
    shifts, bath, one, handling = task
    due = periods(shifts, planning.issue_length_min(one, handling))
    bath_on = sorted({minute for shift in shifts
                      for minute in range(shift.start_min - bath.ahead_min + 1, shift.end_min + 1)})
    times, on_for = [], 0
    for place, minute in enumerate(bath_on):  # minute by minute; a gap begins the count anew
        on_for = on_for + 1 if place and bath_on[place - 1] == minute - 1 else 1
        if on_for % bath.cycle_min == 0:
            times.append(minute)
    needed = sum(period.rivets for period in due)
    assume(1 <= len(times) <= 7)
    for loads in product((0, *bath.loads), repeat=len(times)):
        if sum(loads) < needed:
            continue
        stock, enough = list(loads), True
        for period in due:
            wanted = period.rivets
            for place, quench in enumerate(times):
                out = period.start_min - handling.delivery_min
                if handling.store_degc is None:
                    good = out >= quench and period.end_min <= quench + one.drive_within_min
                else:
                    good = 0 <= out - quench - handling.to_store_min <= 60 * one.cold_for_h
                taken = min(wanted, stock[place]) if good else 0
                stock[place] -= taken
                wanted -= taken
            if wanted:
                enough = False
                break
        if enough:
            yield sum(loads) - needed, sum(load > 0 for load in loads)


# the largest basket first wastes more: 60 rivets from baskets of 40 and 50
GREEDY_FAILS = [
    ([Shift("a", 0, 120, 40)], Bath((40, 50), 60, 120), OWN, Handling()),
    ([Shift("a", 0, 120, 30)], Bath((20, 50), 60, 240), OWN, Handling()),
    ([Shift("a", 0, 60, 70), Shift("b", 200, 260, 20)], Bath((30, 40), 60, 120), OWN, Handling()),
]


@settings(max_examples=150, deadline=None, suppress_health_check=SLOW)
@given(tasks(small=True))
@example(GREEDY_FAILS[0])
@example(GREEDY_FAILS[1])
@example(GREEDY_FAILS[2])
def test_least_waste_and_fewest_batches_equal_enumeration(task):
    """In small cases the plan wastes as little as the best of all plans, with as few batches; or there is none."""
    try:
        planning.issue_length_min(*task[2:])
    except ValueError:
        assume(False)
    all_of_them = list(every_plan(task))
    if not all_of_them:
        with pytest.raises(ValueError, match="cannot be had"):
            plan(*task)
        return
    found = plan(*task)
    assert (found.wasted, len(found.runs)) == min(all_of_them)


@pytest.mark.parametrize("task", GREEDY_FAILS)
def test_habit_wastes_more_where_baskets_differ(task):
    """Filling the largest basket whenever rivets run short wastes more than the plan."""
    assert habit(*task).wasted > plan(*task).wasted


@settings(max_examples=150, deadline=None, suppress_health_check=SLOW)
@given(tasks(small=True))
def test_habit_keeps_the_limits_too_and_never_wastes_less(task):
    """The comparison is fair: habit's plan passes the same checker, and no plan of its kind beats the planner."""
    try:
        usual, best = habit(*task), plan(*task)
    except ValueError:
        assume(False)
    assert faults(usual, task[0], task[1]) == []
    assert usual.wasted >= best.wasted


def test_a_number_of_batches_can_be_asked():
    """80 rivets from baskets of 40 and 50: 2 batches waste nothing; 1 is too few."""
    task = GREEDY_FAILS[0]
    assert plan(*task, batches=2).wasted == 0
    with pytest.raises(ValueError, match="too few"):
        plan(*task, batches=1)


@settings(max_examples=60, deadline=None, suppress_health_check=SLOW)
@given(tasks(small=True), st.integers(1, 4))
def test_a_number_of_batches_asked_for_is_kept_and_wastes_least(task, number):
    """With so many batches the waste is the least of all plans with so many that need each of them."""
    try:
        found = plan(*task, batches=number)
    except ValueError:
        assume(False)
    assert len(found.runs) == number and faults(found, task[0], task[1]) == []
    assert found.wasted == min(waste for waste, count in every_plan(task) if count == number)


def test_a_week_of_three_shifts_is_planned_without_a_rivet_short():
    """The example week, by the shortest of all documents: every batch inside its limits, the count by hand.

    Early and late: 7.25 h at 90 = 652.5, so 653 a shift; night: 7.5 h at 60 = 450; five days: 8780.
    """
    shifts, bath = read_shifts(EXAMPLE), Bath((200, 320))
    found = plan(shifts, bath, rule("shortest", "2024"))
    assert faults(found, shifts, bath) == []
    assert (found.driven, found.wasted) == (8780, 20)  # 8800 is the next sum of 200s and 320s: both are 40s


def test_a_shortage_is_refused_with_its_moment():
    """A basket too small for the rate is refused, with the first period that is short and what would help."""
    with pytest.raises(ValueError, match=r"rivets from Mon .*cannot be had.*larger basket"):
        plan(read_shifts(EXAMPLE), Bath((20,)), rule("navy", "2017"))


@pytest.mark.parametrize(("rule_", "handling", "said"), [
    (Rule("x", "2017"), Handling(), "prints no time to drive"),
    (Rule("x", "2017", 20), Handling(), "prints no hours in the cold"),
    (Rule("x", "2017", 20, -18, 24), Handling(store_degc=-5), "at or below -18 degC"),
    (Rule("x", "2017", 7, 0, 24), Handling(), "uses up the 7 min"),
    (Rule("x", "2017", 4), Handling(store_degc=None), "uses up the 4 min"),
])
def test_a_document_that_cannot_be_kept_is_refused(rule_, handling, said):
    """A document without a figure, a store too warm, ways too long: refused before anything is planned."""
    with pytest.raises(ValueError, match=said):
        plan([Shift("a", 0, 60, 30)], Bath((50,)), rule_, handling)


def test_batches_run_as_late_as_they_can():
    """One batch for a shift that starts at 10:00 is quenched at the last run that still serves it, not before."""
    found = plan([Shift("a", 600, 660, 30)], Bath((50,), 20, 120), OWN)
    assert [run.quenched_min for run in found.runs] == [580]  # 3 min to the store, 4 min to the bench: by 593


def test_too_much_at_once_is_refused():
    """A plan that would fill the memory is refused before it does."""
    with pytest.raises(ValueError, match="plan a shorter stretch"):
        covering.fewest_wasted([covering.Stretch(0, 1000, (), 10**6)], (10**6,), 1000)


def test_examples_run():
    """The examples in the docstrings give what they print."""
    failed, tried = doctest.testmod(planning)
    assert tried and not failed
