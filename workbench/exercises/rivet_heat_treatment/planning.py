"""How much to issue at once, and which baskets leave fewest rivets over."""

from functools import cache

from workbench.exercises.draws import decimals_of
from workbench.exercises.exercise import Exercise, Misstep, Quantity
from workbench.exercises.rivet_heat_treatment.figures import limit_min, unprinted
from workbench.exercises.rivet_heat_treatment.outcomes import PLAN
from workbench.rivets.documents import Rule
from workbench.rivets.planning import Bath, Handling, issue_length_min, plan
from workbench.rivets.shifts import Shift, batches_for, rivets_to_issue


def _life(v):
    return issue_length_min(Rule("sheet", v["alloy"], v["limit"], 0, 24), Handling(v["store"], v["carry"], -18))


def _life_draws():
    """Rates that give no whole number of rivets in the time left, nor in the whole limit."""
    draws = []
    for document, alloy in (("navy", "2017"), ("navy", "2024"), ("transactions", "2017")):
        for store in (3, 4, 5):
            for carry in (2, 6, 7, 8):
                for rate in (85, 95, 105, 115, 125):
                    draws.append({"alloy": alloy, "limit": limit_min(document, alloy), "store": store, "carry": carry,
                                  "rate": rate})
    draws = [v for v in draws if abs(v["store"] - v["carry"]) > 1 and abs(_life(v) - v["store"] - v["carry"]) > 1]
    draws = unprinted(draws, _life, also=(1, 8, 14, 19, 27, 33))
    draws = unprinted(draws, lambda v: _rivets(v, _life(v)), also=(8, 27, 33, 50, 60))
    return [v for v in draws if decimals_of(v["rate"] * _life(v) / 60) > 1]


def _rivets(v, minutes):
    return rivets_to_issue(v["rate"], minutes)


@cache
def _left_over(rate, hours, loads):
    """What the planner leaves over with these baskets, in one shift that any run can serve."""
    shift = Shift("day", 600, 600 + 60 * hours, rate)
    return plan([shift], Bath(loads, cycle_min=20, ahead_min=600), Rule("sheet", "2017", 20, 0, 24)).wasted


def _over(v, load):
    return batches_for(v["needed"], load) * load - v["needed"]


def _baskets_draws():
    """A small and a large basket: both kinds together leave less over than either kind alone, and some."""
    draws = []
    for rate in range(40, 75, 3):
        for small in (70, 80, 90, 110):
            for large in (130, 150, 170, 190, 210):
                v = {"rate": rate, "hours": 6, "needed": 6 * rate, "small": small, "large": large}
                best = _least(v)
                alone = (_over(v, small), _over(v, large))
                if 2 < best < min(alone) - 2 and abs(alone[0] - alone[1]) > 2:
                    draws.append(v)
    return unprinted(draws, _least, also=(60,))


def _least(v):
    """The same by counting, so that the draws are found quickly."""
    small, large, needed = v["small"], v["large"], v["needed"]
    return min(a * small + batches_for(max(needed - a * small, 0), large) * large - needed
               for a in range(batches_for(needed, small) + 1))


LIFE = Exercise(
    key="rivet_heat_treatment.life",
    asks="Rivets of {alloy} may be warm for {limit} min. "
    "From the quench into the store they take {store} min, from the store to the bench {carry} min. "
    "A workmate has begun:\n"
    "On the way: {store} min and {carry} min.\n"
    "Left to drive one portion: ? min.\n\n"
    "Fill in the last line.",
    answer=Quantity("minute", 1, (1, 120)),
    draws=_life_draws,
    right=_life,
    missteps=(
        Misstep(
            "way-to-the-bench-alone",
            lambda v: v["limit"] - v["carry"],
            "{entry} agrees with the way to the bench alone.",
            "The rivets were warm on the way to the store as well.",
        ),
        Misstep(
            "way-to-the-store-alone",
            lambda v: v["limit"] - v["store"],
            "{entry} agrees with the way to the store alone.",
            "Life runs during delivery as well. Walk it with a stopwatch.",
        ),
        Misstep(
            "no-way-counted",
            lambda v: v["limit"],
            "{entry} agrees with rivets that come out of the water beside you.",
            "Both ways are warm. Take them off.",
        ),
        Misstep(
            "the-ways-themselves",
            lambda v: v["store"] + v["carry"],
            "{entry} agrees with the minutes on the way.",
            "Asked is what the ways leave.",
        ),
        Misstep(
            "ways-added-to-the-limit",
            lambda v: v["limit"] + v["store"] + v["carry"],
            "{entry} comes from both ways added to the limit.",
            "Does a longer way leave more minutes to drive, or fewer?",
        ),
    ),
    hints=(
        "Both ways are warm. Add them.",
        "Left to drive = limit − both ways.",
        "A similar case: limit 60 min, ways of 14 min and 19 min. 60 − 33 = 27 min.",
    ),
    marks=1,
    outcome=PLAN,
)

PORTION = Exercise(
    key="rivet_heat_treatment.portion",
    asks="The same rivets. The bench drives {rate} rivets an hour. How many may one portion hold at most, "
    "so that none turns hard? Start from the minutes that you found. A part of a rivet does not count.",
    answer=Quantity("rivets", 1, (1, 1000)),
    draws=_life_draws,
    right=lambda v: _rivets(v, v["earlier"]),
    missteps=(
        Misstep(
            "carrying-time-left-out",
            lambda v: _rivets(v, v["limit"]),
            "{entry} agrees with the whole limit. Life runs on the way.",
            "Use the minutes that the ways leave.",
        ),
        Misstep(
            "a-whole-shift-issued",
            lambda v: 8 * v["rate"],
            "{entry} agrees with a whole shift of 8 h. Most would be hard before they are driven.",
            "How long does one portion stay soft?",
        ),
        Misstep(
            "a-whole-hour-issued",
            lambda v: v["rate"],
            "{entry} agrees with the rivets of an hour.",
            "A portion lasts some minutes. What part of an hour is that?",
        ),
        Misstep(
            "a-rivet-a-minute",
            lambda v: v["earlier"],
            "{entry} agrees with one rivet a minute.",
            "How many rivets go into one minute at this rate?",
        ),
        Misstep(
            "sixty-left-out",
            lambda v: v["rate"] * v["earlier"],
            "{entry} comes from the rate for each minute.",
            "The rate is for an hour. How many minutes has an hour?",
        ),
    ),
    hints=(
        "Rivets in one minute = rivets an hour ÷ 60.",
        "Rivets = rate × minutes ÷ 60. Round down: one more would be hard.",
        "A similar case: 50 an hour, 33 min. 50 × 33 ÷ 60 = 27.5, so 27 rivets.",
    ),
    marks=1,
    outcome=PLAN,
    follows=LIFE,
)

BASKETS = Exercise(
    key="rivet_heat_treatment.baskets",
    asks="A shift drives {rate} rivets an hour for {hours} h, so {needed} rivets. All fit in one store life. "
    "Two baskets are there: one holds {small}, the other {large}. Each run of the bath takes one full basket. "
    "You may mix the runs as you like. All runs together must reach {needed}. "
    "How many rivets are left over at least?",
    answer=Quantity("rivets", 1, (0, 1000)),
    draws=_baskets_draws,
    right=lambda v: _left_over(v["rate"], v["hours"], (v["small"], v["large"])),
    missteps=(
        Misstep(
            "largest-basket-alone",
            lambda v: _over(v, v["large"]),
            "{entry} agrees with the large basket in every run: fewest batches, and more left over.",
            "Put one small basket in place of a large one. What does the sum become?",
            keeps=1,
        ),
        Misstep(
            "smallest-basket-alone",
            lambda v: _over(v, v["small"]),
            "{entry} agrees with the small basket in every run.",
            "Put one large basket among them. How many small ones are then enough?",
            keeps=1,
        ),
        Misstep(
            "batches-rounded-down",
            lambda v: v["needed"] % v["large"],
            "{entry} agrees with batches rounded down: so many rivets are missing, not left over.",
            "A part of a batch is a batch. Multiply back: are there enough?",
        ),
        Misstep(
            "nothing-left-over",
            lambda v: 0,
            "{entry} agrees with part-filled baskets.",
            "Each basket goes in full. Which sums of full baskets can you make?",
        ),
        Misstep(
            "made-for-left-over",
            lambda v: v["needed"] + _least(v),
            "{entry} agrees with all rivets made.",
            "Asked is what stays when the needed ones are driven.",
            keeps=1,
        ),
    ),
    hints=(
        "Try no large basket, then one, then two. Fill up with small ones each time.",
        "Write each sum that is enough. Take the smallest, and take off what is needed.",
        "A similar case: 500 needed, baskets of 160 and 240. 160 + 160 + 240 = 560: 60 over. "
        "Alone: 640 or 720.",
    ),
    marks=2,
    outcome=PLAN,
)
