"""Wires and gauges: the best wire, the pitch diameter over wires, what a pitch error does, go and not-go."""

import math
from itertools import permutations

from workbench.exercises.draws import as_round
from workbench.exercises.exercise import Choice, Exercise, Misstep, Quantity
from workbench.exercises.thread_geometry.outcomes import GAUGE
from workbench.exercises.thread_geometry.sizes import threads
from workbench.threads.gauging import pitch_error_effect
from workbench.threads.limits_metric import metric_limits
from workbench.threads.three_wires import best_wire, over_wires, pitch_diameter_from

# usual sizes of measuring wires (from memory), each inside the shop rule 0.56 P to 0.90 P
_WIRES = {1.25: 0.725, 1.5: 0.895, 1.75: 1.1, 2: 1.35, 2.5: 1.65, 3: 2.05, 3.5: 2.05, 4: 2.55}

_VERDICTS = {
    "accept": "I accept it: the go ring went on, and a not-go ring may start, by two turns at most.",
    "start": "I reject it: a not-go ring must not even start.",
    "swapped": "I reject it: the not-go ring has to go on over the whole length.",
    "thick": "I cut it once more: the not-go ring stopped, so the thread is still too thick.",
}


def _best_wire(v):
    return best_wire(v["pitch"])


def _best_wire_draws():
    """P 1.5 is left out: its wire, 0.866 mm, has the figures of the cosine."""
    draws = threads((0.75, 1.25, 2, 2.5, 3, 3.5, 4, 4.5, 5))
    return as_round(draws, lambda v: round(_best_wire(v), 3), 3)


def _wires(v):
    return "three_wires", {"major_mm": v["diameter"], "pitch_mm": v["pitch"], "wire_mm": v.get("wire")}


def _measured(v):
    return pitch_diameter_from(v["over"], v["wire"], v["pitch"])


def _acts_as(v, size):
    return size + pitch_error_effect(v["error"])


def _measured_draws():
    """Screws within 6g, a little under their largest pitch diameter; pitch out by a few hundredths."""
    draws = []
    for place, draw in enumerate(threads(tuple(_WIRES), largest=24)):
        wire, high = _WIRES[draw["pitch"]], metric_limits(draw["diameter"], draw["pitch"], "6g").pitch.high
        for under in (0.017, 0.034, 0.052):
            over = round(float(over_wires(high - under, wire, draw["pitch"])), 3)
            draws.append({**draw, "wire": wire, "over": over, "error": round(0.021 + 0.003 * (place % 8), 3)})
    draws = as_round(draws, lambda v: v["over"], 3)
    draws = as_round(draws, lambda v: round(_measured(v), 3), 3)
    return as_round(draws, lambda v: round(_acts_as(v, _measured(v)), 3), 3)


def _verdict_draws():
    """Not-go turns within the two of ISO 1502, never a whole number."""
    return [
        {**draw, "turns": turns, "order": order}
        for draw, turns in zip(threads((1.25, 1.75, 2, 2.5), largest=20), (0.75, 1.25, 1.5) * 4, strict=False)
        for order in permutations(_VERDICTS)
    ]


BEST_WIRE = Exercise(
    key="thread_geometry.best_wire",
    asks="You measure a screw M{diameter:g} × {pitch:g} over wires. Its thread angle is 60°. "
    "Here are two cosines: cos 30° = 0.866, cos 60° = 0.500. A workmate has begun:\n"
    "Best wire = pitch ÷ (2 × cos of half the thread angle).\n"
    "Best wire: ? mm.\n\n"
    "Fill in the last line.",
    answer=Quantity("mm", 0.001, (0.01, 10)),
    draws=_best_wire_draws,
    right=_best_wire,
    missteps=(
        Misstep(
            "whole-angle-taken",
            lambda v: v["pitch"] / (2 * math.cos(math.radians(60))),
            "{entry} agrees with the whole thread angle.",
            "Draw the groove with its middle line. Which angle lies between middle line and flank?",
        ),
        Misstep(
            "half-the-pitch",
            lambda v: v["pitch"] / 2,
            "{entry} agrees with a wire as wide as the groove at the pitch line.",
            "Such a wire sinks lower and touches below the pitch line. Divide by the cosine too.",
        ),
        Misstep(
            "cosine-multiplied",
            lambda v: v["pitch"] / 2 * math.cos(math.radians(30)),
            "{entry} agrees with half the pitch times the cosine.",
            "The wire is a little thicker than half the pitch. Multiply or divide?",
        ),
        Misstep(
            "two-left-out",
            lambda v: v["pitch"] / math.cos(math.radians(30)),
            "{entry} agrees with a wire for the whole pitch.",
            "At the pitch line the groove is half a pitch wide. Look at the 2 in the working.",
        ),
    ),
    hints=(
        "Half of the thread angle goes into the cosine.",
        "First multiply 2 by the cosine. Then divide the pitch by it.",
        "A similar case: pitch 6 mm. 6 ÷ (2 × 0.866) = 3.464 mm.",
    ),
    marks=1,
    outcome=GAUGE,
    shows=_wires,
)

MEASURED = Exercise(
    key="thread_geometry.measured",
    asks="Now alone. A screw M{diameter:g} × {pitch:g} lies between three wires of {wire:.3f} mm. "
    "Over the wires you read {over:.3f} mm. The height of the triangle is 0.866 × pitch. "
    "What is the pitch diameter of the screw? Keep three decimals on the way.",
    answer=Quantity("mm", 0.001, (1, 80), spread=lambda v: 0.001),
    draws=_measured_draws,
    right=_measured,
    missteps=(
        Misstep(
            "groove-left-out",
            lambda v: v["over"] - 3 * v["wire"],
            "{entry} agrees with wires that lie on the pitch diameter.",
            "The wires sink into the groove. Does that depth come off, or go back on?",
        ),
        Misstep(
            "groove-wrong-sign",
            lambda v: v["over"] - 3 * v["wire"] - math.sqrt(3) / 2 * v["pitch"],
            "{entry} agrees with a triangle that is taken off.",
            "The wires sink, so the reading is smaller. Which sign makes that good?",
        ),
        Misstep(
            "two-wires-taken-off",
            lambda v: v["over"] - 2 * v["wire"] + math.sqrt(3) / 2 * v["pitch"],
            "{entry} agrees with two wires taken off.",
            "Two wires lie in the line of measuring. In a 60° groove each stands higher than itself: count 3.",
        ),
        Misstep(
            "pitch-for-height",
            lambda v: v["over"] - 3 * v["wire"] + v["pitch"],
            "{entry} agrees with a whole pitch put on.",
            "Put on the height of the triangle. It is a little less than the pitch.",
            keeps=1,
        ),
        Misstep(
            "one-wire-taken-off",
            lambda v: v["over"] - v["wire"] + math.sqrt(3) / 2 * v["pitch"],
            "{entry} agrees with one wire taken off.",
            "How many wires does the formula take off, and why?",
        ),
    ),
    hints=(
        "Reading over wires = pitch diameter + 3 wires − height of the triangle.",
        "Turn it round: pitch diameter = reading − 3 wires + height of the triangle.",
        "A similar case: reading 66.000 mm, wire 4.000 mm, pitch 6 mm. "
        "66.000 − 12.000 + 5.196 = 59.196 mm.",
    ),
    marks=2,
    outcome=GAUGE,
    shows=_wires,
)

ACTS_AS = Exercise(
    key="thread_geometry.acts_as",
    asks="The same screw, M{diameter:g} × {pitch:g}. Over the length of the nut its pitch is out by {error:.3f} mm. "
    "For the nut this makes the screw thicker: by the pitch error ÷ tan 30°. Take tan 30° = 0.577. "
    "As how large a pitch diameter does the screw act? Start from the one that you found.",
    answer=Quantity("mm", 0.001, (1, 80), spread=lambda v: 0.002),
    draws=_measured_draws,
    right=lambda v: _acts_as(v, v["earlier"]),
    missteps=(
        Misstep(
            "error-one-to-one",
            lambda v: v["earlier"] + v["error"],
            "{entry} agrees with a pitch error put on as it is.",
            "Draw one flank and shift it along the axis. By how much must the nut open?",
            keeps=1,
        ),
        Misstep(
            "tangent-upside-down",
            lambda v: v["earlier"] + v["error"] * math.tan(math.radians(30)),
            "{entry} agrees with a pitch error times the tangent.",
            "The growth is larger than the error itself. Multiply or divide by 0.577?",
            keeps=1,
        ),
        Misstep(
            "growth-taken-off",
            lambda v: v["earlier"] - pitch_error_effect(v["error"]),
            "{entry} agrees with a screw that gets thinner.",
            "A nut meets flanks in the wrong place. Does the screw go in more easily or less?",
        ),
        Misstep(
            "growth-left-out",
            lambda v: v["earlier"],
            "{entry} agrees with the pitch diameter that the wires gave.",
            "Wires touch two or three grooves. A nut touches many. Put the growth on.",
        ),
        Misstep(
            "growth-alone",
            lambda v: pitch_error_effect(v["error"]),
            "{entry} agrees with the growth alone.",
            "That is sound. On which diameter do you put it?",
            keeps=1,
        ),
    ),
    hints=(
        "First work out the growth alone: pitch error ÷ 0.577.",
        "Then put the growth on the pitch diameter that you measured.",
        "A similar case: 60.000 mm, pitch out by 0.100 mm. 0.100 ÷ 0.577 = 0.173. It acts as 60.173 mm.",
    ),
    marks=2,
    outcome=GAUGE,
    follows=MEASURED,
)

VERDICT = Exercise(
    key="thread_geometry.verdict",
    asks="You gauge a screw M{diameter:g} × {pitch:g} by hand, by ISO 1502. "
    "The go ring runs on over the whole thread. The not-go ring starts, and stops after {turns:g} turns. "
    "What do you do, and why?",
    answer=Choice(_VERDICTS),
    draws=_verdict_draws,
    right=lambda v: "accept",
    missteps=(
        Misstep(
            "any-start-rejected",
            lambda v: "start",
            "Your choice uses a rule of no turn at all. The ends of a thread are often a little thin.",
            "How many turns does the gauge standard let the not-go ring start?",
        ),
        Misstep(
            "rings-swapped",
            lambda v: "swapped",
            "Your choice swaps the two rings.",
            "Read the marks on both rings. Which one must go?",
        ),
        Misstep(
            "not-go-taken-as-too-thick",
            lambda v: "thick",
            "Your choice speaks of a screw that is too thick. Such a screw would stop the go ring.",
            "Which ring finds a thick screw, and which a thin one?",
        ),
    ),
    hints=(
        "The go ring finds what is too thick. The not-go ring finds what is too thin.",
        "A thin start at the end of the thread is permitted, up to the turns of the standard.",
        "A similar case, with a plug in a nut: go runs through, not-go holds after half a turn. The nut is good.",
    ),
    marks=1,
    outcome=GAUGE,
)
