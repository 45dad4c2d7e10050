"""Shift patterns: who drives how many rivets when, cut into issue periods; each shift has its tag colour and shape.

A pattern is a CSV file: shift, days, from, to, rivets_per_h, breaks, colour, shape. Times are clock times; a shift
that ends at or before its start ends on the next day. Rates are rivets taken, spoiled ones included.
"""

import csv
import math
from dataclasses import dataclass
from pathlib import Path

from workbench.refusals import one_number, refuse, whole
from workbench.rivets.clock import DAY_MIN, DAYS, minute_of_day, written

# tags told apart by shape and word as well as colour; a pattern may name its own
TAGS = (("white", "disc"), ("yellow", "square"), ("blue", "triangle"), ("red", "ring"), ("green", "bar"))

# a week of three shifts, invented: the example where nothing else is given
EXAMPLE = """\
shift,days,from,to,rivets_per_h,breaks,colour,shape
early,Mon-Fri,06:00,14:00,90,09:00-09:15 12:00-12:30,white,disc
late,Mon-Fri,14:00,22:00,90,17:00-17:15 19:00-19:30,yellow,square
night,Mon-Fri,22:00,06:00,60,01:00-01:30,blue,triangle
"""


@dataclass(frozen=True)
class Shift:
    """One shift of one day. Minutes since Monday 00:00; breaks: (from, to) pairs inside the shift."""

    name: str
    start_min: int
    end_min: int
    rivets_per_h: float
    breaks: tuple[tuple[int, int], ...] = ()
    colour: str = TAGS[0][0]
    shape: str = TAGS[0][1]

    def __post_init__(self):
        whole("start_min", self.start_min, at_least=-(10**7))
        if not self.start_min < self.end_min <= self.start_min + DAY_MIN:
            refuse("shift", self.name, "must last from a minute to a day")
        one_number("rivets_per_h", self.rivets_per_h, at_least=0, at_most=3600)
        edges = [self.start_min, *(edge for pair in self.breaks for edge in pair), self.end_min]
        if edges != sorted(edges):
            refuse("breaks", self.breaks, f"of shift {self.name} must lie inside it, one after the other")

    def working(self):
        """The stretches between breaks, as (from, to)."""
        edges = [self.start_min, *(edge for pair in self.breaks for edge in pair), self.end_min]
        return [(a, b) for a, b in zip(edges[::2], edges[1::2], strict=True) if a < b]


@dataclass(frozen=True)
class Period:
    """A stretch for which rivets are issued at once: all of them are driven between its start and its end."""

    start_min: int
    end_min: int
    rivets: int
    shift: str


def read_shifts(text):
    """The shifts of a pattern, in order of time, from the text of its CSV.

    >>> [written(one.start_min) for one in read_shifts(EXAMPLE)][:4]
    ['Mon 06:00', 'Mon 14:00', 'Mon 22:00', 'Tue 06:00']
    """
    rows = list(csv.DictReader(line for line in text.splitlines() if line.strip() and not line.startswith("#")))
    needed = ("shift", "days", "from", "to", "rivets_per_h")
    missing = [name for name in needed if not rows or not all(row.get(name) for row in rows)]
    if missing:
        refuse("shift pattern", text[:40], f"lacks {', '.join(missing)}", "is the first row its column names?")
    names = list(dict.fromkeys(row["shift"].strip() for row in rows))
    found = []
    for row in rows:
        tag = TAGS[names.index(row["shift"].strip()) % len(TAGS)]
        for day in _days(row["days"]):
            found.append(_shift(row, day, tag))
    found.sort(key=lambda one: one.start_min)
    for one, following in zip(found, found[1:], strict=False):
        if following.start_min < one.end_min:
            refuse("shift pattern", following.name, f"begins {written(following.start_min)}, before "
                   f"{one.name} ends at {written(one.end_min)}", "put both rates into one shift")
    return tuple(found)


def shifts_of(path):
    """The shifts of a pattern file."""
    return read_shifts(Path(path).read_text(encoding="utf-8-sig"))


def periods(shifts, length_min):
    """Issue periods of at most so many minutes; none crosses a break. Rivets are whole, and never too few.

    >>> [one.rivets for one in periods([Shift("a", 0, 60, 50)], 20)]
    [17, 17, 16]
    """
    length = whole("length_min", length_min, cause="does carrying use up the whole time to drive?")
    found = []
    for shift in shifts:
        worked, given = 0, 0
        for start, end in shift.working():
            for begin in range(start, end, length):
                stop = min(begin + length, end)
                worked += stop - begin
                due = math.ceil(round(shift.rivets_per_h * worked / 60, 6))
                if due > given:
                    found.append(Period(begin, stop, due - given, shift.name))
                given = due
    return tuple(found)


def rivets_to_issue(rivets_per_h, life_min, delivery_min=0):
    """Rivets that can be driven before they are hard: floor(rate x (life - delivery) / 60).

    >>> rivets_to_issue(90, 20, 4)
    24
    """
    rate = one_number("rivets_per_h", rivets_per_h, at_least=0)
    life = one_number("life_min", life_min, at_least=0) - one_number("delivery_min", delivery_min, at_least=0)
    return max(0, math.floor(round(rate * life / 60, 6)))


def batches_for(rivets, each):
    """Batches for so many rivets: ceil(rivets / each). A part of a batch is a batch.

    >>> batches_for(1000, 24)
    42
    """
    return -(-whole("rivets", rivets, at_least=0) // whole("each", each))


def _shift(row, day, tag):
    name, start = row["shift"].strip(), DAY_MIN * day + minute_of_day(row["from"])
    end = _next(minute_of_day(row["to"]), start)
    breaks = []
    for pair in (row.get("breaks") or "").split():
        first, _, last = pair.partition("-")
        begin = _next(minute_of_day(first), start)
        breaks.append((begin, _next(minute_of_day(last), begin)))
    try:
        rate = float(row["rivets_per_h"])
    except ValueError:
        refuse("rivets_per_h", row["rivets_per_h"], f"of shift {name} must be a number")
    colour, shape = (row.get("colour") or tag[0]).strip(), (row.get("shape") or tag[1]).strip()
    return Shift(name, start, end, rate, tuple(breaks), colour, shape)


def _next(clock, after_min):
    """The first minute later than after_min that shows this clock time."""
    return after_min + ((clock - after_min) % DAY_MIN or DAY_MIN)


def _days(text):
    """"Mon-Fri" or "Mon Wed" as numbers from 0."""
    found = []
    for part in text.replace(",", " ").split():
        first, _, last = (name[:3].capitalize() for name in part.partition("-"))
        if first not in DAYS or (last or first) not in DAYS or DAYS.index(last or first) < DAYS.index(first):
            refuse("days", text, "must be days such as Mon-Fri or Mon Wed")
        found += range(DAYS.index(first), DAYS.index(last or first) + 1)
    return found
