"""The clock of a batch: minutes before and after the cold store, midnight, decimal hours."""

from workbench.exercises.exercise import Exercise, Misstep, Quantity
from workbench.exercises.rivet_heat_treatment.figures import clock, limit_min, unprinted
from workbench.exercises.rivet_heat_treatment.outcomes import CLOCK
from workbench.rivets.batches import Batch, minutes_left
from workbench.rivets.clock import after
from workbench.rivets.documents import rule

_NAVY = "navy"
_KEPT_COLD = ((_NAVY, "2017"), (_NAVY, "2024"), ("handbook older passage", "2017"))
_QUENCHED = tuple(range(23 * 60 + 31, 23 * 60 + 58))


def _past(v):
    return after(v["start"], v["limit"])


def _past_draws():
    """Quenched before midnight, hard after it. With a limit of 60 min the clock time would print the answer."""
    draws = []
    for document, alloy in ((_NAVY, "2017"), (_NAVY, "2024"), ("transactions", "2017")):
        limit = limit_min(document, alloy)
        for start in _QUENCHED:
            before = 1440 - start
            if 2 < limit - before and abs(limit - 2 * before) > 2:
                draws.append({"alloy": alloy, "limit": limit, "start": start, "at": clock(start), "before": before})
    return unprinted(draws, _past)


def _left(v):
    batch = Batch("tag", v["alloy"], 0, v["warm"], v["warm"] + v["stay"], -18)
    return minutes_left(batch, v["warm"] + v["stay"] + v["since"], rule(v["document"], v["alloy"]))


def _left_draws():
    """Through the store and past midnight; minutes before and after unlike, and unlike what is left."""
    draws = []
    for document, alloy in _KEPT_COLD:
        for quench in (23 * 60 + 41, 23 * 60 + 44, 23 * 60 + 47, 23 * 60 + 52):
            for warm in (3, 4, 6, 7, 8):
                for stay, since in ((253, 3), (187, 5), (341, 8), (276, 9), (224, 2)):
                    times = [clock(quench + shift) for shift in (0, warm, warm + stay, warm + stay + since)]
                    draws.append({"document": document, "alloy": alloy, "limit": limit_min(document, alloy),
                                  "quench": times[0], "stored": times[1], "out": times[2], "now": times[3],
                                  "warm": warm, "since": since, "stay": stay})
    draws = [v for v in draws if len({v["warm"], v["since"], _left(v)}) == 3
             and min(abs(_left(v) - v["since"]), abs(v["warm"] - v["since"]), abs(_left(v) - v["warm"])) > 1]
    return unprinted(draws, _left, also=(0, 14, 18, 25, 35))


def _from_hours(v):
    return v["limit"] - round(60 * v["hours"])


def _hours_draws():
    """Tenths and twentieths of an hour, read off a counter that runs while the rivets are warm."""
    draws = []
    for document in ("handbook", "transactions"):
        limit = limit_min(document, "2017")
        for hours in (0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.55, 0.6, 0.65, 0.7, 0.75, 0.8, 0.85):
            for store in ("top", "middle", "bottom"):
                if 4 < limit - 60 * hours and 100 * hours != limit and abs(limit - 120 * hours) > 3:
                    draws.append({"limit": limit, "hours": hours, "store": store})
    return unprinted(draws, _from_hours, also=(3, 5, 6, 9))


HARD_AT = Exercise(
    key="rivet_heat_treatment.hard_at",
    asks="Rivets of {alloy} are quenched at {at} and go straight to the bench. The document allows {limit} min. "
    "A workmate has begun:\n"
    "Until midnight: {before} min.\n"
    "The last usable minute, counted from midnight: ? min.\n\n"
    "Fill in the last line.",
    answer=Quantity("minute", 1, (0, 720)),
    draws=_past_draws,
    right=_past,
    missteps=(
        Misstep(
            "date-not-turned-over",
            lambda v: v["start"] + v["limit"],
            "{entry} agrees with a clock that runs on past midnight.",
            "At midnight the clock starts again. Take the whole old day off.",
        ),
        Misstep(
            "limit-counted-from-midnight",
            lambda v: v["limit"],
            "{entry} agrees with a clock that begins at midnight.",
            "Some minutes are used up before midnight. How many?",
        ),
        Misstep(
            "minutes-before-midnight-added",
            lambda v: v["limit"] + v["before"],
            "{entry} agrees with the minutes before midnight added.",
            "They are used up. Do they make the rest longer or shorter?",
        ),
        Misstep(
            "minutes-before-midnight-alone",
            lambda v: v["before"],
            "{entry} agrees with the minutes before midnight.",
            "The first line has them. What is left of the limit after it?",
        ),
        Misstep(
            "hour-not-turned-over",
            lambda v: v["limit"] + 60 - v["before"],
            "{entry} comes from minutes counted on from the last full hour of the old day.",
            "Draw the line again. Where on it does your count begin?",
        ),
    ),
    hints=(
        "Draw a line from the quench. Mark midnight on it.",
        "Minutes past midnight = limit − minutes before midnight.",
        "A similar case: quenched 23:30, limit 120 min. 30 min before midnight, so 90 min after it: 01:30.",
    ),
    marks=1,
    outcome=CLOCK,
)

LEFT = Exercise(
    key="rivet_heat_treatment.left",
    asks="Now alone. The tag of a portion of {alloy}: quenched {quench}, into the cold store {stored}, out {out}. "
    "The store stands at −18 °C. It is now {now}, in the same night. The document allows {limit} min warm. "
    "How many minutes may these rivets still be driven?",
    answer=Quantity("minute", 1, (0, 120)),
    draws=_left_draws,
    right=_left,
    missteps=(
        Misstep(
            "clock-started-at-taking-out",
            lambda v: v["limit"] - v["since"],
            "{entry} agrees with a clock that starts at the store's door.",
            "The rivets were warm before the store too. Draw both stretches on one line.",
            keeps=1,
        ),
        Misstep(
            "cold-thought-to-reset-the-clock",
            lambda v: v["limit"],
            "{entry} agrees with rivets as new. The cold slows ageing; it does not undo it.",
            "Draw both warm stretches on one line. Add them.",
        ),
        Misstep(
            "only-before-the-store",
            lambda v: v["limit"] - v["warm"],
            "{entry} agrees with the minutes before the store alone.",
            "They have been out again since. Count that stretch too.",
        ),
        Misstep(
            "used-for-left",
            lambda v: v["warm"] + v["since"],
            "{entry} agrees with the minutes that are used up.",
            "Asked is what is left of the limit.",
            keeps=1,
        ),
        Misstep(
            "stretches-taken-off-each-other",
            lambda v: v["limit"] - abs(v["warm"] - v["since"]),
            "{entry} comes from one warm stretch taken off the other.",
            "Both stretches age the rivets. What do you do with two stretches?",
        ),
    ),
    hints=(
        "Two stretches were warm: quench to store, and store to now.",
        "Minutes left = limit − both warm stretches together.",
        "A similar case: limit 60 min, 21 min before the store, 14 min after it. 60 − 35 = 25 min.",
    ),
    marks=2,
    outcome=CLOCK,
    critical=True,
)

HOURS = Exercise(
    key="rivet_heat_treatment.hours",
    asks="A counter on the {store} shelf adds up the time out of the cold, in decimal hours. "
    "For a tin of 2017 it shows {hours:g} h, the time before the store included. The document allows {limit} min warm. "
    "How many minutes are left?",
    answer=Quantity("minute", 1, (0, 120)),
    draws=_hours_draws,
    right=_from_hours,
    missteps=(
        Misstep(
            "decimals-read-as-minutes",
            lambda v: v["limit"] - 100 * v["hours"],
            "{entry} agrees with decimals read as minutes.",
            "A tenth of an hour is a tenth of 60 min. How many minutes is that?",
        ),
        Misstep(
            "used-for-left",
            lambda v: 60 * v["hours"],
            "{entry} agrees with the minutes that are used up.",
            "Asked is what is left of the limit.",
        ),
        Misstep(
            "counter-not-taken-off",
            lambda v: v["limit"],
            "{entry} agrees with a tin that was never out.",
            "The counter shows time out of the cold. Take it off.",
        ),
        Misstep(
            "both-added",
            lambda v: v["limit"] + 60 * v["hours"],
            "{entry} agrees with the used time added.",
            "Used time makes the rest shorter.",
        ),
    ),
    hints=(
        "Turn the hours into minutes: × 60.",
        "Minutes left = limit − hours × 60.",
        "A similar case: 1.5 h of 120 min. 1.5 × 60 = 90, and 120 − 90 = 30 min.",
    ),
    marks=1,
    outcome=CLOCK,
)
