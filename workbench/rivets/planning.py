"""Batches for a shift pattern: which runs of the bath to use, so that no rivet is short and fewest are wasted.

The bath runs back to back in its hours; each run quenches one of its loads (baskets filled to their mark). Every load
passes through the cold store, or is driven straight from the quench where there is none, oldest first. Rivets that are
not driven inside the document's limits are wasted: they go back for heat treatment, if the document allows it.
"""

from dataclasses import dataclass

from workbench.refusals import refuse, whole
from workbench.rivets.clock import written
from workbench.rivets.covering import Stretch, as_late, fewest_wasted, first_short
from workbench.rivets.documents import Rule
from workbench.rivets.shifts import periods


@dataclass(frozen=True)
class Bath:
    """loads: rivets that a basket filled to its mark holds, one of them a run. cycle_min: from one quench to the next.

    ahead_min: how long before a shift the bath may start; it stops with the shift.
    """

    loads: tuple[int, ...]
    cycle_min: int = 60
    ahead_min: int = 120

    def __post_init__(self):
        if not self.loads:
            refuse("loads", self.loads, "name at least one basket")
        for load in self.loads:
            whole("loads", load, cause="count the rivets of a full basket")
        whole("cycle_min", self.cycle_min)
        whole("ahead_min", self.ahead_min, at_least=0)

    def runs_min(self, shifts):
        """When a quench can be: minutes since Monday 00:00, a cycle apart within the hours of the bath."""
        hours = []
        for shift in shifts:
            start = shift.start_min - self.ahead_min
            if hours and start <= hours[-1][1]:
                hours[-1][1] = max(hours[-1][1], shift.end_min)
            else:
                hours.append([start, shift.end_min])
        return [at for a, b in hours for at in range(a + self.cycle_min, b + 1, self.cycle_min)]


@dataclass(frozen=True)
class Handling:
    """to_store_min: quench until in the store. delivery_min: store (or quench) until at the place of work.

    store_degc: temperature of the cold store; None: there is none.
    """

    to_store_min: int = 3
    delivery_min: int = 4
    store_degc: float | None = -18

    def __post_init__(self):
        whole("to_store_min", self.to_store_min, at_least=0)
        whole("delivery_min", self.delivery_min, at_least=0)


@dataclass(frozen=True)
class Run:
    """One run of the bath that the plan uses. mark: tag of its batch, such as Mon-early-1."""

    mark: str
    shift: str
    loaded_min: int
    quenched_min: int
    rivets: int


@dataclass(frozen=True)
class Issue:
    """A portion: taken from a run's batch at out_min, driven from from_min and never after until_min."""

    run: int
    out_min: int
    from_min: int
    until_min: int
    rivets: int


@dataclass(frozen=True)
class Plan:
    """runs and issues in order of time; rivets made, driven and wasted."""

    rule: Rule
    handling: Handling
    runs: tuple[Run, ...]
    issues: tuple[Issue, ...]

    @property
    def made(self):
        return sum(run.rivets for run in self.runs)

    @property
    def driven(self):
        return sum(issue.rivets for issue in self.issues)

    @property
    def wasted(self):
        return self.made - self.driven


def issue_length_min(rule, handling):
    """The longest issue period: what the drive limit leaves after the ways to the store and to the bench.

    Without a store the rivets are issued every five minutes.

    >>> issue_length_min(Rule("navy", "2017", 20, 0, 24), Handling(3, 4, -18))
    13
    """
    if rule.drive_within_min is None:
        refuse("rule", rule.document, f"prints no time to drive {rule.alloy}", "choose a document that does")
    if handling.store_degc is None:
        left = int(rule.drive_within_min - handling.delivery_min)
        length = min(5, left)
    else:
        if rule.cold_for_h is None or rule.store_at_most_degc is None:
            refuse("rule", rule.document, f"prints no hours in the cold for {rule.alloy}",
                   "choose a document that does, or plan without a store")
        if handling.store_degc > rule.store_at_most_degc:
            refuse("store_degc", handling.store_degc,
                   f"must be at or below {rule.store_at_most_degc:g} degC, says {rule.document}")
        left = length = int(rule.drive_within_min - handling.to_store_min - handling.delivery_min)
    if left < 1:
        refuse("handling", (handling.to_store_min, handling.delivery_min),
               f"uses up the {rule.drive_within_min:g} min to drive", "are store and bench too far apart?")
    return length


def served(quench_min, period, rule, handling):
    """May a rivet quenched then be driven anywhere in this period? The document's limits, minute by minute."""
    out = period.start_min - handling.delivery_min
    if handling.store_degc is None:
        return quench_min <= out and period.end_min - quench_min <= rule.drive_within_min
    stored = quench_min + handling.to_store_min
    return 0 <= out - stored <= 60 * rule.cold_for_h


def plan(shifts, bath, rule, handling=None, batches=None):
    """The plan with the least waste, and among those with the fewest batches, each as late as it can be.

    shifts: from `shifts.read_shifts`; bath: Bath; rule: Rule of the document chosen; handling: Handling;
    batches: exactly so many, or None. Refused where rivets would be short, with the moment.
    """
    times, stretches = _stretches(shifts, bath, rule, handling or Handling())
    short = first_short(stretches, [max(bath.loads)] * len(times))
    if short is not None:
        refuse("plan", f"{short.rivets} rivets from {written(short.periods[0].start_min)}",
               "cannot be had, even with every run of the bath full",
               "a larger basket, an earlier start, a longer store life or a slower rate is needed")
    loads = as_late(fewest_wasted(stretches, bath.loads, len(times), batches), stretches)
    return _plan(loads, times, stretches, shifts, bath, rule, handling or Handling())


def _stretches(shifts, bath, rule, handling):
    """When the bath can quench, and the stretches of work."""
    due = periods(shifts, issue_length_min(rule, handling))
    if not due:
        refuse("shifts", len(shifts), "drive no rivets at all")
    times, runs, first, last = bath.runs_min(shifts), {}, 0, 0
    way = handling.delivery_min + (0 if handling.store_degc is None else handling.to_store_min)
    for period in due:
        while last < len(times) and times[last] + way <= period.start_min:
            last += 1
        while first < last and not served(times[first], period, rule, handling):
            first += 1
        runs.setdefault((first, last), []).append(period)
    return times, [Stretch(*served_by, tuple(found), sum(one.rivets for one in found))
                   for served_by, found in runs.items()]


def _plan(loads, times, stretches, shifts, bath, rule, handling):
    """Runs and issues, oldest rivets first."""
    runs, number, stock, issues = [], {}, {}, []
    for place, load in enumerate(loads):
        if load:
            number[place], stock[place] = len(runs), load
            shift = next((one for one in shifts if times[place] <= one.end_min), shifts[-1])
            place_and_shift = f"{written(times[place])[:3]}-{shift.name}-"
            count = 1 + sum(run.mark.startswith(place_and_shift) for run in runs)
            quench = times[place]
            runs.append(Run(f"{place_and_shift}{count}", shift.name, quench - bath.cycle_min, quench, load))
    for stretch in stretches:
        for period in stretch.periods:
            wanted = period.rivets
            for place in range(stretch.first, stretch.last):
                taken = min(wanted, stock.get(place, 0))
                if taken:
                    stock[place] -= taken
                    wanted -= taken
                    out = period.start_min - handling.delivery_min
                    issues.append(Issue(number[place], out, period.start_min, period.end_min, taken))
            assert wanted == 0, "the program's plan leaves a period short"
    return Plan(rule, handling, tuple(runs), tuple(issues))


def habit(shifts, bath, rule, handling=None):
    """What habit does: fill the largest basket at the last run that still serves, whenever rivets would be short.

    For comparison: it often wastes more than `plan`, and may end in a shortage that planning ahead avoids (refused).
    """
    times, stretches = _stretches(shifts, bath, rule, handling or Handling())
    loads = [0] * len(times)
    while (short := first_short(stretches, loads)) is not None:
        free = [run for run in range(short.first, short.last) if not loads[run]]
        if not free:
            refuse("habit", written(short.periods[0].start_min), "is short: every run that serves it is full")
        loads[free[-1]] = max(bath.loads)
    return _plan(loads, times, stretches, shifts, bath, rule, handling or Handling())
