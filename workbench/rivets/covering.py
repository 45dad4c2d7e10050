"""Which runs of a bath to use, and with which load, so that all rivets due are covered and fewest are wasted.

Pure counting: a run serves a stretch of work or it does not. With one store life for all, oldest first is never worse
than another order; so one count says all about a plan so far: how many of the rivets due, in their order, it covers.
"""

from dataclasses import dataclass
from itertools import accumulate

from workbench.refusals import refuse


@dataclass(frozen=True)
class Stretch:
    """Periods one after the other that the same runs serve: those from `first` to before `last`."""

    first: int
    last: int
    periods: tuple
    rivets: int


def first_short(stretches, loads):
    """The first stretch that is short of rivets with these loads, or None.

    Oldest first, what has left the store by then = max(what left before, all out of date) + what is due.
    """
    made, left = [0, *accumulate(loads)], 0
    for stretch in stretches:
        left = max(left, made[stretch.first]) + stretch.rivets
        if left > made[stretch.last]:
            return stretch
    return None


def fewest_wasted(stretches, loads, runs, batches=None):
    """The load of each run, 0 where it is not used: the least total, then the fewest batches (or so many as asked).

    cost[layer, c]: rivets made so far, and then batches, for c rivets of those due covered. A run at time t with a load
    of s covers c + s, but no more than fall due within its life. Layers count batches where their number is asked.
    """
    import numpy as np

    loads = sorted(set(loads))
    total = sum(stretch.rivets for stretch in stretches)
    layers = 1 if batches is None else batches + 1
    if layers * (total + 1) * runs > 10**8:
        refuse("rivets", total, f"too many to plan at once over {runs} runs of the bath", "plan a shorter stretch")
    far = np.iinfo(np.int64).max // 2
    cost = np.full((layers, total + 1), far)
    cost[0, 0] = 0
    came_from = []
    for run in range(runs):
        needed = sum(one.rivets for one in stretches if one.last <= run)  # no later run serves these
        cost[:, :needed] = far
        reach = sum(one.rivets for one in stretches if one.first <= run)  # later ones are beyond its life
        origin = np.tile(np.arange(total + 1, dtype=np.int32), (layers, 1))
        new = cost.copy()
        here, there = (cost, new) if batches is None else (cost[:-1], new[1:])
        before = origin if batches is None else origin[1:]
        for load in loads:
            price = load * (runs + 1) + 1  # one rivet weighs more than all batches
            whole_to = max(reach - load, 0)  # from here on the load is not used up
            _better(there, before, slice(load, load + whole_to), here[:, :whole_to] + price, np.arange(whole_to))
            if whole_to < reach:
                rest = here[:, whole_to:reach]
                best = rest.argmin(axis=1)[:, None]
                _better(there, before, slice(reach, reach + 1), np.take_along_axis(rest, best, 1) + price,
                        whole_to + best)
        came_from.append(origin)
        cost = new
    layer = 0 if batches is None else batches
    if cost[layer, total] >= far:
        refuse("batches", batches, "are too few for this pattern, or more than it can use")
    chosen, covered = [0] * runs, total
    for run in reversed(range(runs)):
        earlier = int(came_from[run][layer, covered])
        if earlier != covered:
            chosen[run] = next(load for load in loads if load >= covered - earlier)
            layer -= batches is not None
        covered = earlier
    return chosen


def _better(cost, origin, place, price, source):
    """Where the price is lower, take it and remember where it came from."""
    import numpy as np

    lower = price < cost[:, place]
    cost[:, place] = np.where(lower, price, cost[:, place])
    origin[:, place] = np.where(lower, source, origin[:, place])


def as_late(loads, stretches):
    """The same batches, each moved to the latest free run at which nothing is short: fresher, and no more waste."""
    for run in reversed(range(len(loads))):
        for later in reversed(range(run + 1, len(loads))):
            if loads[run] and not loads[later]:
                moved = list(loads)
                moved[run], moved[later] = 0, loads[run]
                if first_short(stretches, moved) is None:
                    loads = moved
                    break
    return loads
