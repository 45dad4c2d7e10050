"""What state a batch of heat-treated rivets is in at any moment: usable, doubtful, or hard.

The limits are those of the document chosen (`workbench.rivets.documents`). All minutes warm since the quench add up;
the cold slows ageing and does not undo it. Times are minutes on one clock, such as those since Monday 00:00.
"""

from dataclasses import dataclass, replace

from workbench.refusals import one_number, refuse
from workbench.rivets.documents import Rule

NOT_YET, USABLE, DOUBTFUL, HARD = "not yet quenched", "usable", "doubtful", "hard"


@dataclass(frozen=True)
class Batch:
    """A basket of rivets, or a portion of it, from one quench.

    name: as on its tag. alloy. quenched_min: when the last rivet was under water.
    stored_min, out_min: into and out of the cold store, None where it was not.
    store_degc: the store's temperature, None where nobody read it.
    returned: put back into the store after it was out: its clock is no longer known.
    heats: heats in all, the first one counted.
    """

    name: str
    alloy: str
    quenched_min: float
    stored_min: float | None = None
    out_min: float | None = None
    store_degc: float | None = None
    returned: bool = False
    heats: int = 1

    def __post_init__(self):
        if self.out_min is not None and self.stored_min is None:
            refuse("out_min", self.out_min, f"batch {self.name} was never put into the store")
        times = [time for time in (self.quenched_min, self.stored_min, self.out_min) if time is not None]
        for name, time in zip(("quenched_min", "stored_min", "out_min"), times, strict=False):
            one_number(name, time)
        if times != sorted(times):
            refuse("times", tuple(times), f"batch {self.name} runs backwards: quenched, stored, out",
                   "was the date not turned over at midnight?")
        if self.heats < 1:
            refuse("heats", self.heats, "the first heat counts as 1")


def warm_and_cold_min(batch, at_min, rule):
    """Minutes warm and minutes cold from the quench until a moment: (warm, cold).

    A store that is not at or below the document's temperature counts as warm; so does one that was never read.

    >>> one = Batch("A", "2017", 0, stored_min=6, out_min=606, store_degc=-5)
    >>> warm_and_cold_min(one, 611, Rule("navy", "2017", 20, 0, 24))
    (11, 600)
    """
    _checked(batch, rule)
    since = at_min - batch.quenched_min
    if since < 0 or batch.stored_min is None or at_min <= batch.stored_min:
        return max(since, 0), 0
    stay = (at_min if batch.out_min is None else min(at_min, batch.out_min)) - batch.stored_min
    cold_enough = (rule.store_at_most_degc is not None and batch.store_degc is not None
                   and batch.store_degc <= rule.store_at_most_degc)
    return (since - stay, stay) if cold_enough else (since, 0)


def minutes_left(batch, at_min, rule):
    """Minutes in which the batch may still be driven, if it is warm from now on; below nought: hard.

    The document's drive limit less all minutes warm; a stay in the cold beyond the document's hours leaves nothing.

    >>> minutes_left(Batch("A", "2017", 0, 6, 606, -5), 611, Rule("navy", "2017", 20, 0, 24))
    9
    """
    if rule.drive_within_min is None:
        refuse("rule", rule.document, f"prints no time to drive {rule.alloy}", "choose a document that does")
    warm, cold = warm_and_cold_min(batch, at_min, rule)
    left = rule.drive_within_min - warm
    over = cold - 60 * (rule.cold_for_h or 0)
    return min(left, -over) if over > 0 else left


def state(batch, at_min, rule, others=()):
    """State at a moment: "not yet quenched", "usable", "doubtful" or "hard".

    usable: inside the chosen rule, by a complete record; the last minute itself still counts. hard: outside this rule
    and all `others`, however the record is read. doubtful: all between, as where another document would allow it, the
    store was not read, the document prints no hours for its store, or the rivets were put back after they were out.
    Only what is usable may be driven; a doubtful batch is set aside and asked about.

    >>> state(Batch("A", "2024", 0), 12, Rule("handbook", "2024", 10), [Rule("navy", "2024", 20)])
    'doubtful'
    """
    if at_min < batch.quenched_min:
        return NOT_YET
    if minutes_left(batch, at_min, rule) >= 0 and not batch.returned:
        return USABLE
    allowing = [rule, *(one for one in others if one.drive_within_min is not None)]
    return DOUBTFUL if any(_could_hold(batch, at_min, one) for one in allowing) else HARD


def _could_hold(batch, at_min, rule):
    """Inside a rule, if each gap of the record and of the document is read in the rivets' favour?"""
    if batch.stored_min is not None and batch.store_degc is None:
        batch = replace(batch, store_degc=-273)
    if rule.store_at_most_degc is not None and rule.cold_for_h is None:
        rule = replace(rule, cold_for_h=float("inf"))
    return minutes_left(batch, at_min, rule) >= 0


def usable_until_min(batch, rule):
    """The last minute at which the batch is usable if it stays where it is; None where it never is.

    >>> usable_until_min(Batch("A", "2017", 100, stored_min=105, store_degc=-5), Rule("navy", "2017", 20, 0, 24))
    1545
    """
    if batch.returned:
        return None
    minutes_left(batch, batch.quenched_min, rule)  # refuses what cannot be judged
    warm_end = batch.quenched_min + rule.drive_within_min
    stored = batch.stored_min
    if stored is None or stored > warm_end or not warm_and_cold_min(batch, stored + 1, rule)[1]:
        return warm_end
    cold_end = stored + 60 * (rule.cold_for_h or 0)
    if batch.out_min is None or batch.out_min > cold_end:
        return cold_end
    return warm_end + batch.out_min - stored


def heats_left(batch, rule):
    """How often the batch may still be heat-treated: 1 + re-treatments - heats had; None: the document sets no number.

    >>> heats_left(Batch("A", "2024", 0, heats=2), Rule("own", "2024", 20, retreatments=3))
    2
    """
    if rule.retreatments is None:
        return None
    return max(0, int(1 + rule.retreatments - batch.heats))


def load_from_min(driven_min, rule):
    """When a joint may bear its load: driven + the document's hours, day and night.

    >>> load_from_min(0, Rule("handbook", "2017", 60, load_after_h=216))
    12960
    """
    if rule.load_after_h is None:
        refuse("rule", rule.document, f"prints no time until a joint of {rule.alloy} may be loaded",
               "ask who answers for the joint")
    return one_number("driven_min", driven_min) + 60 * rule.load_after_h


def _checked(batch, rule):
    if not isinstance(rule, Rule):
        refuse("rule", rule, "must be a Rule", "as from documents.rule('navy', '2017')")
    if batch.alloy != rule.alloy:
        refuse("rule", f"{rule.document} {rule.alloy}", f"batch {batch.name} is {batch.alloy}, another alloy",
               "sort by head mark: each alloy has its own limit")
