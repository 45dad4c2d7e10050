"""Money: two workers on two sides against one on one side, and when the dearer tool pays."""

from workbench.exercises.blind_rivets.outcomes import COST
from workbench.exercises.draws import as_round, up
from workbench.exercises.exercise import Exercise, Misstep, Quantity
from workbench.rivets.cost import break_even_quantity, cost_each, labour_cost

CENTS = 100


def _labour(v):
    return CENTS * labour_cost(2, v["seconds"], v["rate"])


def _labour_draws():
    draws = [
        {"seconds": seconds, "rate": rate, "paid": 2 * seconds}
        for seconds in range(13, 32)
        for rate in (33, 39, 42, 45, 51, 57)
    ]
    return as_round(draws, lambda v: round(_labour(v), 1), 1)


def _each(part, workers, seconds, rate):
    return CENTS * cost_each(part / CENTS, workers, seconds, rate)


def _solid(v):
    return _each(v["part_solid"], 2, v["seconds_solid"], v["rate"])


def _blind(v):
    return _each(v["part_blind"], 1, v["seconds_blind"], v["rate"])


def _dearer(v):
    return _solid(v) - _blind(v)


def _dearer_spread(v):
    """Both sums rounded to tenths of a cent on the way."""
    return up(0.05 + 0.1, 0.01)


def _dearer_draws():
    draws = [
        {"rate": rate, "part_solid": solid, "seconds_solid": slow, "part_blind": blind, "seconds_blind": quick}
        for rate in (33, 39, 42, 51)
        for solid, blind in ((2, 7), (3, 9), (4, 11))
        for slow, quick in ((19, 13), (23, 14), (26, 17), (22, 16))
    ]
    return as_round([draw for draw in draws if _dearer(draw) > 5], lambda v: round(_dearer(v), 1), 1)


def _break_even(v):
    return break_even_quantity(v["hand"], v["hand_each"], v["air"], v["air_each"])


def _break_even_draws():
    """Prices that cross at a whole number of rivets; never a round hundred."""
    return [
        {"hand": hand, "hand_each": slow, "air": round(hand + count * (slow - quick)), "air_each": quick}
        for hand in (30, 45, 60)
        for slow, quick in ((0.35, 0.15), (0.42, 0.17), (0.38, 0.18), (0.45, 0.20))
        for count in (1060, 1340, 1580, 1820, 2140, 2360)
        if abs(count * (slow - quick) - round(count * (slow - quick))) < 1e-9
    ]


LABOUR = Exercise(
    key="blind_rivets.labour",
    asks="A solid rivet takes {seconds} seconds. One worker drives, the other holds the bar. "
    "An hour of one worker costs {rate} francs, which is {rate}00 cents. A workmate has begun:\n"
    "Paid time: 2 × {seconds} = {paid} s.\n"
    "Share of an hour: {paid} ÷ 3600.\n"
    "Labour for one rivet: ? cents.\n\n"
    "Fill in the last line.",
    answer=Quantity("cents", 0.1, (0.1, 2000)),
    draws=_labour_draws,
    right=_labour,
    missteps=(
        Misstep(
            "second-worker-left-out",
            lambda v: CENTS * labour_cost(1, v["seconds"], v["rate"]),
            "{entry} agrees with one worker.",
            "Count heads: the one with the bar is paid too.",
        ),
        Misstep(
            "minutes-for-hours",
            lambda v: 60 * _labour(v),
            "{entry} comes from seconds divided by 60.",
            "How many seconds has an hour?",
        ),
        Misstep(
            "shared-between-two",
            lambda v: _labour(v) / 4,
            "{entry} comes from two workers who share the time.",
            "Does the job go twice as fast, or are two people busy for the whole time?",
        ),
        Misstep(
            "workers-twice",
            lambda v: 2 * _labour(v),
            "{entry} comes from two workers counted twice.",
            "Look at the first line of the workmate. Is the second worker in it?",
        ),
        Misstep(
            "francs-for-cents",
            lambda v: _labour(v) / CENTS,
            "{entry} comes from francs.",
            "The question asks in cents. How many cents has a franc?",
        ),
    ),
    hints=(
        "Both are paid for every second.",
        "Labour = paid seconds ÷ 3600 × cents an hour.",
        "A similar case: 2 × 60 s at 6000 cents an hour. 120 ÷ 3600 × 6000 = 200 cents.",
    ),
    marks=1,
    outcome=COST,
)

DEARER = Exercise(
    key="blind_rivets.dearer",
    asks="Now alone. An hour of one worker costs {rate}00 cents.\n"
    "Solid rivet: {part_solid} cents, {seconds_solid} s, two workers.\n"
    "Blind rivet: {part_blind} cents, {seconds_blind} s, one worker.\n\n"
    "By how many cents is one solid fastening dearer?",
    answer=Quantity("cents", 0.1, (0.1, 2000), spread=_dearer_spread),
    draws=_dearer_draws,
    right=_dearer,
    missteps=(
        Misstep(
            "second-worker-left-out",
            lambda v: _each(v["part_solid"], 1, v["seconds_solid"], v["rate"]) - _blind(v),
            "{entry} agrees with one worker on each.",
            "Who holds the bar while the other drives?",
        ),
        Misstep(
            "parts-left-out",
            lambda v: _dearer(v) - v["part_solid"] + v["part_blind"],
            "{entry} agrees with the labour alone.",
            "The rivets have a price too. Add each to its own labour.",
        ),
        Misstep(
            "prices-the-wrong-way",
            lambda v: _dearer(v) - 2 * v["part_solid"] + 2 * v["part_blind"],
            "{entry} comes from rivet prices added the wrong way round.",
            "Work out two full sums first. Then take one from the other.",
        ),
        Misstep(
            "solid-alone",
            _solid,
            "{entry} agrees with the solid fastening alone.",
            "The question asks for the difference of the two.",
        ),
        Misstep(
            "added-not-compared",
            lambda v: _solid(v) + _blind(v),
            "{entry} comes from both fastenings added.",
            "The question asks for the difference of the two.",
        ),
        Misstep(
            "two-workers-on-both",
            lambda v: _solid(v) - _each(v["part_blind"], 2, v["seconds_blind"], v["rate"]),
            "{entry} agrees with two workers on each.",
            "Who stands behind the sheet of a blind rivet?",
        ),
    ),
    hints=(
        "Work out each fastening for itself: price of the rivet + labour.",
        "Labour = workers × seconds ÷ 3600 × cents an hour.",
        "A similar case at 7200 cents an hour. Solid: 10 + 2 × 30 s × 2 = 130 cents. Blind: 40 + 20 s × 2 = 80 cents. "
        "It is 50 cents dearer.",
    ),
    marks=1,
    outcome=COST,
)

BREAK_EVEN = Exercise(
    key="blind_rivets.break_even",
    asks="A hand tool costs {hand} francs. Each rivet set with it costs {hand_each:.2f} francs. "
    "An air tool costs {air} francs. Each rivet set with it costs {air_each:.2f} francs. "
    "At how many rivets do both ways cost the same?",
    answer=Quantity("rivets", 1, (1, 100000)),
    draws=_break_even_draws,
    right=_break_even,
    missteps=(
        Misstep(
            "only-the-dearer-tool",
            lambda v: v["air"] / (v["hand_each"] - v["air_each"]),
            "{entry} agrees with a hand tool that costs nothing.",
            "Both ways have a starting cost. How much more does the air tool cost?",
        ),
        Misstep(
            "sign-turned-round",
            lambda v: -_break_even(v),
            "{entry} comes from a difference taken the wrong way round.",
            "Can a number of rivets be below nought? Swap one of the two differences.",
        ),
        Misstep(
            "saving-left-out",
            lambda v: (v["air"] - v["hand"]) / v["hand_each"],
            "{entry} comes from the whole cost of a rivet.",
            "Each rivet saves only the difference. How much does one rivet save?",
        ),
        Misstep(
            "costs-added",
            lambda v: (v["air"] - v["hand"]) / (v["hand_each"] + v["air_each"]),
            "{entry} comes from both costs of a rivet added.",
            "Draw the two cost lines. Where they cross, what has one line made up on the other?",
        ),
        Misstep(
            "tools-added",
            lambda v: (v["air"] + v["hand"]) / (v["hand_each"] - v["air_each"]),
            "{entry} comes from both tools bought.",
            "You need one tool or the other. What is the difference?",
        ),
    ),
    hints=(
        "How much dearer is the air tool? How much does it save on each rivet?",
        "Rivets = difference of the tools ÷ difference for each rivet.",
        "A similar case: tools 100 and 700 francs, 0.90 and 0.30 francs each. 600 ÷ 0.60 = 1000 rivets.",
    ),
    marks=2,
    outcome=COST,
)
