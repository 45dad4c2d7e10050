"""Way and clamp on the turn to the next slot, and how far the nut may turn at all."""

from workbench.exercises.draws import as_round, third_figure, up
from workbench.exercises.exercise import Exercise, Misstep, Quantity
from workbench.exercises.locking_a_nut.outcomes import CLAMP
from workbench.exercises.locking_a_nut.sizes import joint, nuts, springs, unprinted
from workbench.exercises.locking_a_nut.slots import TURN_ON, turn_draws
from workbench.screws.preload import class_at_yield_n
from workbench.screws.slotted_nut import axial_step_mm, step_deg
from workbench.screws.stiffness import Springs
from workbench.screws.turning import angle_for_deg, preload_gain_n
from workbench.tables import table


def _step(v):
    return axial_step_mm(v["pitch"], v["slots"])


def _step_draws():
    slots = {row["size"]: row["slots"] for row in nuts()}
    draws = [
        {"size": row["diameter_mm"], "pitch": row["pitch_mm"], "slots": slots[row["diameter_mm"]]}
        for row in table("iso_261_metric").rows.values()
        if row["diameter_mm"] in slots and row["pitch_mm"] > 1
    ]
    return as_round(draws, lambda v: round(_step(v), 3), 3)


def _gain(v):
    return preload_gain_n(v["earlier"], v["pitch"], springs(v)) / 1000


def _gain_spread(v):
    """Half the last figure, with way and stiffness kept to three figures."""
    way, together = abs(v["pitch"] * v["earlier"] / 360), springs(v).together_n_per_mm / 1000
    return up(0.05 + way * third_figure(together) + together * third_figure(way), 0.1)


def _room(v):
    return angle_for_deg(1000 * (v["limit"] - v["low"]), v["pitch"], _one(v))


def _one(v):
    """The printed stiffness of both together, as two equal springs in a row."""
    return Springs(2000 * v["both"], 2000 * v["both"])


def _room_draws():
    """Short joints, class 8.8, thread friction 0.12: the limit comes before the slot, so that the rule fails."""
    draws = []
    for row in nuts(8, 20):
        limit = round(class_at_yield_n(row["size"], row["pitch"], "8.8", 0.12) / 1000, 1)
        for grip in (2, 3, 4):
            bolt, parts = joint(row["thread"], grip * row["size"])
            both = round(Springs(bolt, parts).together_n_per_mm / 10) * 10
            for number, share in enumerate((0.68, 0.72, 0.76, 0.81)):
                draws.append({**row, "limit": limit, "low": round(share * limit, 1), "both": both,
                              "past": 11 + 7 * ((number + grip) % 4)})  # fmt: skip
    draws = [{**draw, "missing": int(step_deg(draw["slots"])) - draw["past"]} for draw in draws]
    draws = as_round(draws, lambda v: round(_room(v), 1), 1)
    return unprinted(draws, _room, 1, 7.2, 8.8)


STEP = Exercise(
    key="locking_a_nut.step",
    asks="A bolt M{size:g} × {pitch:g} has one hole for the pin. Its nut has {slots} slots. "
    "How far does the nut move along the bolt from one slot to the next?",
    answer=Quantity("mm", 0.001, (0.0001, 20)),
    draws=_step_draws,
    right=_step,
    missteps=(
        Misstep(
            "whole-pitch-used",
            lambda v: v["pitch"],
            "{entry} agrees with a whole turn.",
            "From one slot to the next is only part of a turn. What part?",
        ),
        Misstep(
            "both-hole-ends-counted",
            lambda v: v["pitch"] / (2 * v["slots"]),
            "{entry} agrees with two hole ends that take turns.",
            "The slots lie opposite each other. Do both ends line up together, or one after the other?",
        ),
        Misstep(
            "slots-of-another-nut",  # sizes up to M39 have six slots, larger ones eight
            lambda v: v["pitch"] / (14 - v["slots"]),
            "{entry} agrees with a nut that has another number of slots.",
            "How many slots has this one? Read the question again.",
        ),
        Misstep(
            "per-degree",
            lambda v: v["pitch"] / 360,
            "{entry} agrees with the way for one degree.",
            "How many degrees lie between two slots?",
        ),
        Misstep(
            "turned-upside-down",
            lambda v: v["slots"] / v["pitch"],
            "{entry} agrees with slots divided by pitch.",
            "Is the way from slot to slot longer or shorter than the pitch?",
        ),
    ),
    hints=(
        "One turn moves the nut by one pitch.",
        "From slot to slot: pitch ÷ number of slots.",
        "A similar case: pitch 9 mm, 4 slots. 9 ÷ 4 = 2.250 mm.",
    ),
    marks=1,
    outcome=CLAMP,
)

GAIN = Exercise(
    key="locking_a_nut.gain",
    asks="Back to your clamped joint {thread}, pitch {pitch:g} mm, gone past by {past}°. "
    "The bolt's stiffness is {bolt} kN/mm, that of the parts {parts} kN/mm. "
    "How much clamp does the nut gain on its way to the next slot? Start from the turn that you found.",
    answer=Quantity("kN", 0.1, (-2000, 20000), spread=_gain_spread),
    draws=turn_draws,
    right=_gain,
    missteps=(
        Misstep(
            "thousandth-or-nothing",  # within the tolerance these two are one value; the unit is named first
            lambda v: _gain(v) / 1000,
            "{entry} agrees with the right figures in a unit 1000 times too small. It also agrees with no gain at all.",
            "First look at the unit: N or kN? Or did you take it that the turn changes nothing? The bolt stretches.",
        ),
        Misstep(
            "bolt-alone",
            lambda v: v["pitch"] * v["earlier"] / 360 * v["bolt"],
            "{entry} agrees with the bolt alone.",
            "The parts give way too. Two springs end to end: which formula joins them?",
            keeps=1,
        ),
        Misstep(
            "whole-step-taken",
            lambda v: preload_gain_n(step_deg(v["slots"]), v["pitch"], springs(v)) / 1000,
            "{entry} agrees with a whole step from slot to slot.",
            "Only the rest of the step is turned.",
            keeps=1,
        ),
        Misstep(
            "stiffnesses-added",
            lambda v: v["pitch"] * v["earlier"] / 360 * (v["bolt"] + v["parts"]),
            "{entry} agrees with two springs side by side.",
            "Bolt and parts share the way. Is the pair softer or stiffer than the bolt?",
        ),
    ),
    hints=(
        "Way = pitch × turn ÷ 360.",
        "Both together = bolt × parts ÷ (bolt + parts). Clamp gained = way × that.",
        "A similar case: way 0.20 mm, bolt 100, parts 300. Together 75 kN/mm. The gain is 15.0 kN.",
    ),
    marks=2,
    outcome=CLAMP,
    follows=TURN_ON,
)

ROOM = Exercise(
    key="locking_a_nut.room",
    asks="A short joint, bolt {thread} of class 8.8, pitch {pitch:g} mm. At the low torque its clamp is {low:.1f} kN. "
    "The limit is {limit:.1f} kN. Bolt and parts together: {both} kN/mm. "
    "A slot has gone past by {past}°, so {missing}° are missing to the next. "
    "A workmate says: a little more, up to the slot, does no harm. "
    "How many degrees may the nut turn on before the limit is reached?",
    answer=Quantity("deg", 0.1, (0.01, 400), spread=lambda v: up(0.05 + 0.005 * _room(v), 0.1)),
    draws=_room_draws,
    right=_room,
    missteps=(
        Misstep(
            "on-to-the-slot-regardless",
            lambda v: v["missing"],
            "{entry} agrees with the workmate.",
            "What clamp would the bolt have there? Compare it with the limit.",
        ),
        Misstep(
            "clamp-already-there-forgotten",
            lambda v: angle_for_deg(1000 * v["limit"], v["pitch"], _one(v)),
            "{entry} agrees with a joint that is still slack.",
            "Some of the limit is used already. How much is left?",
            keeps=1,
        ),
        Misstep(
            "pitch-left-out",
            lambda v: angle_for_deg(1000 * (v["limit"] - v["low"]), 1, _one(v)),
            "{entry} agrees with a thread of 1 mm pitch.",
            "The way is clamp ÷ stiffness. Which turn of this thread makes that way?",
            keeps=1,
        ),
        Misstep(
            "clamp-there-for-clamp-left",
            lambda v: angle_for_deg(1000 * v["low"], v["pitch"], _one(v)),
            "{entry} agrees with the clamp that is already there.",
            "Asked is what may still come. How much is left up to the limit?",
        ),
    ),
    hints=(
        "Clamp left = limit − clamp there.",
        "Way = clamp left ÷ stiffness. Turn = way ÷ pitch × 360.",
        "A similar case: 6 kN left, 100 kN/mm, pitch 3 mm. Way 0.06 mm. Turn 0.06 ÷ 3 × 360 = 7.2°.",
    ),
    marks=2,
    outcome=CLAMP,
    critical=True,
)
