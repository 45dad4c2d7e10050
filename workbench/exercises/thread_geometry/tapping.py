"""Before the tap: safe hands, percentage of thread with its basis, the rule of thumb, a blind hole."""

import math
from itertools import permutations

from workbench.exercises.draws import as_round, third_figure, up
from workbench.exercises.exercise import Choice, Exercise, Misstep, Quantity
from workbench.exercises.thread_geometry.outcomes import TAP
from workbench.exercises.thread_geometry.sizes import threads
from workbench.threads.limits_metric import metric_limits
from workbench.threads.tapping import hole_for_percent, tapping_drill_mm, thread_percent

_BASIC, _OLD = "5/8 H", "3/4 H"
_PITCHES = (1.25, 1.5, 1.75, 2, 2.5, 3, 3.5, 4)
_POINT = 1 / (2 * math.tan(math.radians(59)))  # height of a 118 degree drill point over the drill

_SWARF = {
    "brush": "I stop, turn the tap out, and lift the chips with a brush: chips cut like knives.",
    "finger": "I stop, turn the tap out, and wipe the hole with a finger: so I feel every chip.",
    "air": "I blow the hole out with the air line and look in closely: so no chip stays.",
    "running": "I hold a cloth against the tap while the spindle turns: so it cleans itself.",
}


def _swarf_draws():
    parts = ("foot plate", "bearing block", "crank hub", "case corner")
    return [{"part": part, "order": order} for part in parts for order in permutations(_SWARF)]


def _percent(v):
    return thread_percent(v["diameter"], v["pitch"], v["hole"], _BASIC)


def _permitted(v, hole):
    """Does the hole lie within 6H, so that the gauge passes it?"""
    bore = metric_limits(v["diameter"], v["pitch"], "6H").minor
    return bore.low <= hole <= bore.high


def _percent_spread(v):
    depth = 1.0825 * v["pitch"]
    return up(_percent(v) * third_figure(depth) / depth, 0.1)


def _percent_draws():
    """Drills a little over the usual one, so that the rule of thumb does not give the answer."""
    draws = [
        {**draw, "hole": round(tapping_drill_mm(draw["diameter"], draw["pitch"]) + more, 1)}
        for draw in threads(_PITCHES, largest=39)
        for more in (0.1, 0.2, 0.3, 0.4)
    ]
    draws = [draw for draw in draws if _percent(draw) < 91 and _permitted(draw, draw["hole"])]
    return as_round(draws, lambda v: round(_percent(v), 1), 1)


def _drill(v):
    return hole_for_percent(v["diameter"], v["pitch"], v["percent"], _OLD)


def _off(share):
    """d less a share of the pitch times the percentage."""
    return lambda v: v["diameter"] - v["percent"] / 100 * share * v["pitch"]


def _drill_spread(v):
    full = 1.299 * v["pitch"]
    return up(v["percent"] / 100 * third_figure(full) + third_figure(v["percent"] / 100 * full))


def _drill_draws():
    """As shallow as 6H permits, and clear of the 77 % of the rule of thumb."""
    draws = [{**draw, "percent": percent} for draw in threads(_PITCHES, largest=39) for percent in (69, 70, 71, 72, 73)]
    draws = [draw for draw in draws if _permitted(draw, _drill(draw))]
    return as_round(draws, lambda v: round(_drill(v), 2), 2)


def _over_limit(v):
    return v["rule"] + v["over"] - v["high"]


def _over_limit_draws():
    """Fine threads whose bore comes out too large: the rule holds, the drill does not."""
    draws = []
    for draw in threads((0.35, 0.5, 0.75), largest=12, series=("fine",)):
        bore = metric_limits(draw["diameter"], draw["pitch"], "6H").minor
        rule = round(draw["diameter"] - draw["pitch"], 2)
        for over in (0.08, 0.09, 0.11, 0.12, 0.13, 0.14, 0.15, 0.16, 0.17, 0.18):
            draws.append({**draw, "rule": rule, "over": over, "low": bore.low, "high": bore.high})
    draws = [draw for draw in draws if 0.004 < _over_limit(draw) < 0.06]
    return as_round(draws, lambda v: round(_over_limit(v), 3), 3)


def _hole_depth(v):
    return v["thread"] + v["lead"] * v["pitch"] + _POINT * v["hole"]


def _hole_depth_draws():
    draws = [
        {**draw, "hole": tapping_drill_mm(draw["diameter"], draw["pitch"]), "lead": lead, "thread": thread}
        for draw in threads(_PITCHES, largest=20)
        for lead in (3, 4)
        for thread in (round(1.5 * draw["diameter"]), round(2 * draw["diameter"]) + 1)
    ]
    return as_round(draws, lambda v: round(_hole_depth(v), 1), 1)


SWARF = Exercise(
    key="thread_geometry.swarf",
    asks="You tap a hole in the {part}. It fills with chips, and the tap in the machine begins to squeak. "
    "What do you do, and why?",
    answer=Choice(_SWARF),
    draws=_swarf_draws,
    right=lambda v: "brush",
    missteps=(
        Misstep(
            "finger-in-the-hole",
            lambda v: "finger",
            "Your choice puts a finger into a threaded hole. Chips and fresh threads cut it.",
            "Which tool could go into the hole in place of a finger?",
        ),
        Misstep(
            "chips-blown-out",
            lambda v: "air",
            "Your choice uses an air line. It throws chips and oil into eyes, yours and others'.",
            "Which way of lifting chips keeps them low and slow?",
        ),
        Misstep(
            "cloth-at-the-turning-tap",
            lambda v: "running",
            "Your choice brings a cloth near a turning tap. It can pull a hand in.",
            "Which step must come before a hand goes near the tap?",
        ),
    ),
    hints=(
        "Safety first: what can turn, and what can cut?",
        "Ask where the chips go: into the skin, into the air, or onto the bench.",
        "A similar case, at the drill: switch off, wait, and sweep the table. Only then reach in.",
    ),
    marks=1,
    outcome=TAP,
    critical=True,
)

PERCENT = Exercise(
    key="thread_geometry.percent",
    asks="A hole of {hole:g} mm is drilled for M{diameter:g} × {pitch:g}. "
    "The bay counts the basic depth as 100 %: 1.0825 × pitch, on the diameter. "
    "What percentage of thread will the tapped hole have?",
    answer=Quantity("percent", 0.1, (0, 200), spread=_percent_spread),
    draws=_percent_draws,
    right=_percent,
    missteps=(
        Misstep(
            "other-basis",
            lambda v: thread_percent(v["diameter"], v["pitch"], v["hole"], _OLD),
            "{entry} agrees with the old full depth as 100 %.",
            "Two meanings of 100 % are in use. Read in the question which one holds here.",
            keeps=1,
        ),
        Misstep(
            "depth-off-one-side",
            lambda v: _percent(v) / 2,
            "{entry} agrees with a depth on one side beside a depth on the diameter.",
            "Major diameter − hole counts both sides. So does 1.0825 × pitch.",
        ),
        Misstep(
            "share-of-the-pitch",
            lambda v: 100 * (v["diameter"] - v["hole"]) / v["pitch"],
            "{entry} agrees with a whole pitch as 100 %.",
            "Look up in the question what counts as 100 %.",
            keeps=1,
        ),
        Misstep(
            "hole-as-share-of-diameter",
            lambda v: 100 * v["hole"] / v["diameter"],
            "{entry} agrees with the hole as a share of the diameter.",
            "Asked is the thread that stands in the hole. How much does the major diameter exceed the hole?",
        ),
        Misstep(
            "both-sides-counted-again",
            lambda v: 2 * _percent(v),
            "{entry} agrees with a depth that is doubled once more.",
            "Can a thread be deeper than 100 %? Major diameter − hole counts both sides.",
        ),
    ),
    hints=(
        "First what the thread has: major diameter − hole. Then what 100 % would be.",
        "Divide the first by the second, and multiply by 100.",
        "A similar case: M64 × 6, hole 57.9 mm. 64 − 57.9 = 6.1 mm. 100 % is 6.495 mm. 6.1 ÷ 6.495 × 100 = 93.9 %.",
    ),
    marks=2,
    outcome=TAP,
)

DRILL = Exercise(
    key="thread_geometry.drill",
    asks="Tough steel breaks taps, so the bay taps it with a shallower thread. "
    "The chart on the wall asks for {percent} % of thread. "
    "It counts the old full depth as 100 %: 1.299 × pitch, on the diameter. "
    "Which hole do you drill for M{diameter:g} × {pitch:g}?",
    answer=Quantity("mm", 0.01, (1, 80), spread=_drill_spread),
    draws=_drill_draws,
    right=_drill,
    missteps=(
        Misstep(
            "other-basis",
            _off(1.082532),
            "{entry} agrees with the basic depth as 100 %.",
            "Two meanings of 100 % are in use. Which one does the chart have?",
            keeps=1,
        ),
        Misstep(
            "rule-of-thumb",
            lambda v: v["diameter"] - v["pitch"],
            "{entry} agrees with the rule: major diameter − pitch.",
            "The rule does not know the percentage of the chart. Work with it.",
        ),
        Misstep(
            "depth-off-one-side",
            _off(1.299038 / 2),
            "{entry} agrees with a depth that is halved.",
            "The chart's depth is meant on the diameter. It counts both sides already.",
        ),
        Misstep(
            "percentage-left-out",
            lambda v: v["diameter"] - 1.299038 * v["pitch"],
            "{entry} agrees with 100 % of thread.",
            "Take only the percentage of the chart. Will the hole grow or shrink?",
        ),
        Misstep(
            "pitch-as-full-depth",
            _off(1),
            "{entry} agrees with a whole pitch as 100 %.",
            "What does the chart count as 100 %?",
            keeps=1,
        ),
    ),
    hints=(
        "First what 100 % would be, in millimetres. Then the percentage of it.",
        "Hole = major diameter − percentage × 1.299 × pitch.",
        "A similar case: M64 × 6 with 75 %. 1.299 × 6 = 7.794 mm, 75 % of it 5.846 mm. The hole is 58.15 mm.",
    ),
    marks=2,
    outcome=TAP,
)

OVER_LIMIT = Exercise(
    key="thread_geometry.over_limit",
    asks="The lid of the case gets a fine thread M{diameter:g} × {pitch:g} − 6H. "
    "By the rule of thumb you take a drill of {rule:.2f} mm. In the hand drill it cuts {over:.2f} mm over its size. "
    "The finished bore must lie between {low:.3f} mm and {high:.3f} mm. "
    "By how much is the bore too large?",
    answer=Quantity("mm", 0.001, (-3, 3)),
    draws=_over_limit_draws,
    right=_over_limit,
    missteps=(
        Misstep(
            "drill-taken-for-hole",
            lambda v: v["rule"] - v["high"],
            "{entry} agrees with a hole of exactly the drill's size.",
            "Write the size of the hole first, with what the drill cuts over.",
        ),
        Misstep(
            "compared-with-lower-limit",
            lambda v: v["rule"] + v["over"] - v["low"],
            "{entry} agrees with a comparison with the lower limit.",
            "Which limit does a hole break that is too large?",
        ),
        Misstep(
            "taken-the-other-way",
            lambda v: -_over_limit(v),
            "{entry} agrees with limit less hole: a minus says too small.",
            "Is the hole above or below the upper limit?",
        ),
        Misstep(
            "excess-counted-twice",
            lambda v: v["rule"] + 2 * v["over"] - v["high"],
            "{entry} agrees with an excess that is counted on each side.",
            "The drill cuts over on its diameter. Put the excess on once.",
        ),
    ),
    hints=(
        "First the hole: drill + what it cuts over.",
        "Then take the upper limit off the hole.",
        "A similar case: drill 30.00 mm cuts 0.50 mm over, upper limit 30.400 mm. The bore is 0.100 mm too large.",
    ),
    marks=1,
    outcome=TAP,
)

HOLE_DEPTH = Exercise(
    key="thread_geometry.hole_depth",
    asks="The bearing block gets a blind hole: one that ends in the part. It is for M{diameter:g} × {pitch:g} "
    "with {thread} mm of full thread. "
    "The tap's chamfer, its first {lead} pitches, does not cut full depth. Drill: {hole:g} mm. "
    "Its point adds 0.3 × drill. How deep do you drill, down to the tip of the point?",
    answer=Quantity("mm", 0.1, (0, 300), spread=lambda v: 0.1),
    draws=_hole_depth_draws,
    right=_hole_depth,
    missteps=(
        Misstep(
            "drilled-to-thread-length",
            lambda v: v["thread"],
            "{entry} agrees with the full thread alone.",
            "Stand the tap beside the hole. Where do its first turns go?",
        ),
        Misstep(
            "drill-point-left-out",
            lambda v: v["thread"] + v["lead"] * v["pitch"],
            "{entry} agrees with full thread and chamfer alone.",
            "Hold the drill to a rule. How long is its point?",
            keeps=1,
        ),
        Misstep(
            "chamfer-left-out",
            lambda v: v["thread"] + _POINT * v["hole"],
            "{entry} agrees with full thread and drill point alone.",
            "Look at the end of the tap. Do its first turns cut full depth?",
            keeps=1,
        ),
        Misstep(
            "chamfer-as-millimetres",
            lambda v: v["thread"] + v["lead"] + _POINT * v["hole"],
            "{entry} agrees with a chamfer counted in millimetres.",
            "The chamfer is given in pitches. How long is one pitch?",
            keeps=1,
        ),
        Misstep(
            "whole-drill-as-point",
            lambda v: v["thread"] + v["lead"] * v["pitch"] + v["hole"],
            "{entry} agrees with a point as long as the drill is thick.",
            "Hold the drill to a rule. Which share of its thickness is the point?",
            keeps=1,
        ),
    ),
    hints=(
        "Three lengths lie behind each other: full thread, chamfer of the tap, drill point.",
        "Chamfer = number of pitches × pitch. Point = 0.3 × drill.",
        "A similar case: 100 mm of thread, 5 pitches of 6 mm, drill 58 mm. 100 + 30 + 17.4 = 147.4 mm.",
    ),
    marks=2,
    outcome=TAP,
)
