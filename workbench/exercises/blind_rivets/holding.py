"""What holds: the wide head on the soft side, pull in thin sheet, shear and pull together."""

import math
from itertools import permutations

from workbench.exercises.blind_rivets.outcomes import HOLD
from workbench.exercises.draws import third_figure, up
from workbench.exercises.exercise import Choice, Exercise, Misstep, Quantity
from workbench.rivets.blind import breaking_loads_n
from workbench.rivets.blind_strength import permitted_n, pull_n, rivets_needed

_SIDES = {
    "wide": "From the soft side, with a wide head: it spreads the pull over the soft part.",
    "hard": "From the frame side: the wide head lies on metal, and the tail grips the soft part.",
    "either": "From either side: head and tail press equally hard.",
    "sunk": "From the soft side, with a head sunk into it: then nothing stands out.",
}

_SOFT = {"plastic panel": 40, "soft aluminium sheet": 60, "fibre board": 20}  # shear strength, MPa, common practice
_HEADS = {3.2: 6.4, 4.0: 8.0, 4.8: 9.6}  # twice the body, as printed in the lesson
_FACTOR = 3


def _side_draws():
    return [
        {"part": part, "order": order}
        for part in ("plastic panel", "leather strap")
        for order in permutations(_SIDES)
    ]


def _pull(v):
    return pull_n(v["rivet"], v["head"], v["sheet"], v["shear"])[0]


def _pull_spread(v):
    """The ring's face rounded to three figures on the way, and the last figure."""
    ring = math.pi * v["head"] * v["sheet"]
    return up(third_figure(ring) * v["shear"] + 0.0002 * _pull(v) + 0.5, 0.1)


def _pull_draws():
    """Sheets that give well before the rivet does."""
    draws = [
        {"part": part, "body": body, "rivet": breaking_loads_n("ISO 15977", body, "H")[1], "head": head,
         "sheet": sheet, "shear": shear}
        for part, shear in _SOFT.items()
        for body, head in _HEADS.items()
        for sheet in (0.5, 0.6, 0.8, 0.9, 1.1, 1.2, 1.4, 1.6)
    ]  # fmt: skip
    return [draw for draw in draws if _pull(draw) < 0.8 * draw["rivet"]]


def _ceil(load, breaks, factor=_FACTOR):
    return math.ceil(load * factor / breaks)


def _count(v):
    shear, pull = (permitted_n(v[name], v["factor"]) for name in ("shear", "pull"))
    return float(rivets_needed(v["across"], v["apart"], shear, pull))


def _count_draws():
    """The pull asks for more rivets; no count is near a whole number before rounding up; slips lie two apart."""
    draws = []
    for body, level in ((3.2, "L"), (4.0, "L"), (4.8, "L"), (4.0, "H"), (4.8, "H")):
        shear, pull = breaking_loads_n("ISO 15977", body, level)
        for across in range(900, 2600, 100):
            for apart in range(2300, 6000, 100):
                counts = [_FACTOR * across / shear, _FACTOR * apart / pull, apart / pull, _FACTOR * apart / shear]
                seen = sorted(map(math.ceil, counts))
                apart_enough = all(later - earlier >= 2 for earlier, later in zip(seen, seen[1:], strict=False))
                if apart_enough and counts[0] < counts[1] < 16 and all(0.2 < one % 1 < 0.8 for one in counts[:2]):
                    draws.append({"shear": shear, "pull": pull, "factor": _FACTOR, "across": across, "apart": apart,
                                  "permitted": shear / _FACTOR, "his": math.ceil(counts[0])})  # fmt: skip
    return draws[::5]


SOFT = Exercise(
    key="blind_rivets.soft",
    asks="A {part} is fastened to a metal frame. This time both sides can be reached. "
    "From which side do you set the blind rivet, and with which head?",
    answer=Choice(_SIDES),
    draws=_side_draws,
    right=lambda v: "wide",
    missteps=(
        Misstep(
            "wide-head-on-the-hard-side",
            lambda v: "hard",
            "The small tail then pulls into the soft part.",
            "Set one each way in scrap and peel them apart.",
        ),
        Misstep(
            "head-and-tail-alike",
            lambda v: "either",
            "Head and tail differ in width, so their pressure differs.",
            "Measure both on a set rivet.",
        ),
        Misstep(
            "sunk-into-the-soft-part",
            lambda v: "sunk",
            "Sinking takes away just the material that has to hold.",
            "How much soft material is left under a sunk head?",
        ),
    ),
    hints=(
        "The same pull on a larger face presses less.",
        "Which end of the rivet is the wider one? Where is it needed?",
        "A similar case: under a screw in wood lies a washer. It lies on the wood, not on the metal.",
    ),
    marks=1,
    outcome=HOLD,
)

PULL = Exercise(
    key="blind_rivets.pull",
    asks="Now alone. A {part} of {sheet:g} mm is pulled away from its frame. Its shear strength is {shear:g} N/mm². "
    "The head is {head:g} mm wide. The table gives {rivet:g} N as breaking load of the {body:g} mm rivet in pull. "
    "At which pull does the joint give? Take π = 3.142.",
    answer=Quantity("N", 1, (1, 20000), spread=_pull_spread),
    draws=_pull_draws,
    right=_pull,
    missteps=(
        Misstep(
            "rivet-of-the-table",
            lambda v: v["rivet"],
            "{entry} agrees with the rivet of the table.",
            "The head may go through the sheet earlier. Work out the sheet too, then compare.",
        ),
        Misstep(
            "body-for-head",
            lambda v: math.pi * v["body"] * v["sheet"] * v["shear"],
            "{entry} comes from a ring as wide as the body.",
            "Which part has to be pulled through, the body or the head?",
        ),
        Misstep(
            "no-way-round",
            lambda v: v["head"] * v["sheet"] * v["shear"],
            "{entry} comes from the width of the head, not from the way round it.",
            "The sheet tears along the rim. How long is the rim?",
        ),
        Misstep(
            "face-of-the-head",
            lambda v: math.pi / 4 * v["head"] ** 2 * v["shear"],
            "{entry} comes from the whole face of the head.",
            "What is cut is the wall of a ring: its way round times the thickness.",
        ),
        Misstep(
            "both-added",
            lambda v: v["rivet"] + _pull(v),
            "{entry} comes from rivet and sheet added up.",
            "A chain gives at one link. Which one is weaker here?",
        ),
    ),
    hints=(
        "Two things can give: the rivet, or the sheet round the head. The weaker one counts.",
        "Sheet: π × head × thickness × shear strength.",
        "A similar case: head 20 mm, sheet 2 mm, 10 N/mm². 3.142 × 20 × 2 × 10 = 1257 N. The rivet holds 3000 N. "
        "The joint gives at 1257 N.",
    ),
    marks=2,
    outcome=HOLD,
)

COUNT = Exercise(
    key="blind_rivets.count",
    asks="Find the mistake. One day a bracket is pushed across with {across:g} N. Another day it is pulled away "
    "with {apart:g} N. The two never act at once. "
    "One rivet breaks at {shear:g} N in shear and at {pull:g} N in pull. The job asks for a factor of {factor}. "
    "A workmate writes:\n"
    "One rivet may carry {shear:g} ÷ {factor} = {permitted:.0f} N.\n"
    "{across:g} ÷ {permitted:.0f}, rounded up: {his} rivets.\n\n"
    "How many rivets does the bracket need, so that it holds on both days?",
    answer=Quantity("rivets", 1, (1, 200)),
    draws=_count_draws,
    right=_count,
    missteps=(
        Misstep(
            "shear-only",
            lambda v: _ceil(v["across"], v["shear"]),
            "{entry} agrees with the workmate: shear alone.",
            "What does the load of the other day ask for? Work it out with its own strength.",
        ),
        Misstep(
            "both-counts-added",
            lambda v: _ceil(v["across"], v["shear"]) + _ceil(v["apart"], v["pull"]),
            "{entry} comes from two counts added up.",
            "The two loads never act at once here. On each day all rivets help. Which count is the larger?",
        ),
        Misstep(
            "factor-left-out",
            lambda v: _ceil(v["apart"], v["pull"], 1),
            "{entry} comes from rivets loaded up to where they break.",
            "Underline “breaks” in the question. What does the factor do to it?",
        ),
        Misstep(
            "pull-on-shear-strength",
            lambda v: _ceil(v["apart"], v["shear"]),
            "{entry} comes from the pull set against the strength in shear.",
            "Each load has its own strength. Which one belongs to the pull?",
        ),
        Misstep(
            "factor-turned-round",
            lambda v: _ceil(v["apart"], v["pull"] * v["factor"], 1),
            "{entry} comes from a breaking load times the factor.",
            "Does the factor make the permitted load smaller, or larger?",
        ),
    ),
    hints=(
        "Work out the count for shear. Then work out the count for pull.",
        "Count = load ÷ (breaking load ÷ factor), rounded up. The loads never act at once, so take the larger count.",
        "A similar case, factor 2. Shear: 30000 ÷ (3000 ÷ 2) = 20. Pull: 9000 ÷ (500 ÷ 2) = 36. It needs 36 rivets.",
    ),
    marks=2,
    outcome=HOLD,
)
