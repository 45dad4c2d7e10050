"""A clamped joint under load: what the bolt feels, what clamp is left, and when the joint opens."""

from workbench.exercises.draws import third_figure, up
from workbench.exercises.exercise import Exercise, Misstep, Quantity
from workbench.exercises.tightening.outcomes import JOINT
from workbench.exercises.tightening.sizes import lost
from workbench.screws.joint import bolt_load_n, clamp_left_n, opening_load_n
from workbench.screws.scatter import band_n

_CLAMPS = (18300, 21700, 24600, 27900, 31400, 35800, 38200)
_LOADS = (6300, 7400, 8700, 9600)


def _bolt(v):
    return bolt_load_n(v["clamp"], v["load"], v["share"])


def _left(v):
    return clamp_left_n(v["clamp"], v["load"], v["share"])


def _joint_draws(shares):
    return [
        {"clamp": clamp, "load": load, "share": share} for clamp in _CLAMPS for load in _LOADS for share in shares
    ]


def _bolt_draws():
    return _joint_draws((0.17, 0.22, 0.27))


def _left_draws():
    return _joint_draws((0.16, 0.21, 0.26))


def _opens(v, clamp=None):
    least, _ = band_n(v["clamp"], v["spread"] / 100)
    return opening_load_n(least if clamp is None else clamp, v["share"])


def _opens_spread(v):
    least, _ = band_n(v["clamp"], v["spread"] / 100)
    return up(_opens(v) * lost(least, _opens(v)), 10)


def _opens_draws():
    return [
        {"clamp": clamp, "spread": spread, "share": share}
        for clamp in _CLAMPS
        for spread in (25, 28, 30, 35)
        for share in (0.14, 0.17, 0.19)
    ]


BOLT_LOAD = Exercise(
    key="tightening.bolt_load",
    asks="A bolt clamps two plates with {clamp} N. Then an outside load of {load} N pulls the plates apart. "
    "The bolt's share is {share:g}. A workmate has begun:\n"
    "Before the load, the bolt is pulled with {clamp} N.\n"
    "The bolt feels only its share of the outside load.\n"
    "Pull in the bolt now: ? N.\n\n"
    "Fill in the last line.",
    answer=Quantity("N", 1, (1, 1000000), spread=lambda v: up(third_figure(_bolt(v)), 10)),
    draws=_bolt_draws,
    right=_bolt,
    missteps=(
        Misstep(
            "whole-load-added",
            lambda v: v["clamp"] + v["load"],
            "{entry} agrees with the whole outside load on the bolt.",
            "Most of the load only eases the plates. Look at the joint diagram: which line rises little?",
        ),
        Misstep(
            "share-of-the-parts",
            lambda v: v["clamp"] + (1 - v["share"]) * v["load"],
            "{entry} agrees with the share of the plates.",
            "The share in the question is the bolt's own.",
        ),
        Misstep(
            "load-not-felt",
            lambda v: v["clamp"],
            "{entry} agrees with a bolt that feels nothing.",
            "The plates ease a little, so the bolt stretches a little. By which force?",
        ),
        Misstep(
            "share-alone",
            lambda v: v["share"] * v["load"],
            "{entry} agrees with the bolt's part of the load.",
            "That comes on top of something. What pulled the bolt before?",
        ),
    ),
    hints=(
        "The bolt was pulled before the load came.",
        "Pull in the bolt = clamp + share × outside load.",
        "A similar case: clamp 1000 N, load 500 N, share 0.2. 1000 + 0.2 × 500 = 1100 N.",
    ),
    marks=1,
    outcome=JOINT,
)

CLAMP_LEFT = Exercise(
    key="tightening.clamp_left",
    asks="Now alone. Another bolt clamps with {clamp} N. An outside load of {load} N pulls its plates apart. "
    "The bolt's share is {share:g}. With which force do the plates still press on each other?",
    answer=Quantity("N", 1, (1, 1000000), spread=lambda v: up(2 * third_figure(_left(v)), 10)),
    draws=_left_draws,
    right=_left,
    missteps=(
        Misstep(
            "bolt-share-taken-off",
            lambda v: v["clamp"] - v["share"] * v["load"],
            "{entry} agrees with the bolt's share taken off the clamp.",
            "The bolt takes its share. Who loses the rest?",
        ),
        Misstep(
            "whole-load-taken-off",
            lambda v: v["clamp"] - v["load"],
            "{entry} agrees with the whole load taken off the clamp.",
            "The bolt takes a share of the load. So the plates lose less than all of it.",
        ),
        Misstep(
            "clamp-unchanged",
            lambda v: v["clamp"],
            "{entry} agrees with plates that feel nothing.",
            "The load pulls the plates apart. Do they press as hard as before?",
        ),
        Misstep(
            "pull-in-the-bolt",
            lambda v: _bolt(v),
            "{entry} agrees with the pull in the bolt.",
            "The bolt holds the plates and the load. Asked is what the plates feel.",
            keeps=1,
        ),
    ),
    hints=(
        "What the bolt does not feel, the plates lose.",
        "Clamp left = clamp − (1 − share) × outside load.",
        "A similar case: clamp 1000 N, load 500 N, share 0.2. 1000 − 0.8 × 500 = 600 N.",
    ),
    marks=2,
    outcome=JOINT,
)

OPENS = Exercise(
    key="tightening.opens",
    asks="A torque wrench clamps a joint with {clamp} N, give or take {spread} %. The bolt's share is {share:g}. "
    "A joint must hold even where the clamp came out least. "
    "At which outside load does that joint begin to open?",
    answer=Quantity("N", 1, (1, 1000000), spread=_opens_spread),
    draws=_opens_draws,
    right=_opens,
    missteps=(
        Misstep(
            "scatter-left-out",
            lambda v: _opens(v, v["clamp"]),
            "{entry} agrees with the clamp in the middle.",
            "How small may the clamp come out? Judge holding by that one.",
            keeps=1,
        ),
        Misstep(
            "opens-at-the-clamp",
            lambda v: band_n(v["clamp"], v["spread"] / 100)[0],
            "{entry} agrees with a joint that opens at its clamp force.",
            "That is the least clamp. The plates lose less than each newton applied. Go one step on.",
            keeps=1,
        ),
        Misstep(
            "largest-clamp",
            lambda v: _opens(v, band_n(v["clamp"], v["spread"] / 100)[1]),
            "{entry} agrees with the largest clamp.",
            "Strength is judged on the largest clamp. What is holding judged on?",
        ),
        Misstep(
            "multiplied-by-the-rest",
            lambda v: band_n(v["clamp"], v["spread"] / 100)[0] * (1 - v["share"]),
            "{entry} agrees with a joint that opens before its clamp is reached.",
            "The plates lose only part of the load. Is the load at opening larger or smaller than the clamp?",
        ),
    ),
    hints=(
        "First the least clamp: take the scatter off.",
        "Opening load = least clamp ÷ (1 − share).",
        "A similar case: 1000 N give or take 40 %, share 0.25. Least clamp 600 N. 600 ÷ 0.75 = 800 N.",
    ),
    marks=2,
    outcome=JOINT,
)
