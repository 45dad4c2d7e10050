"""Several starts: travel of a part turn, lead angle, turns for a stroke."""

import math

from workbench.exercises.draws import as_round, third_figure, up
from workbench.exercises.exercise import Exercise, Misstep, Quantity
from workbench.exercises.thread_forms.outcomes import LEAD
from workbench.exercises.thread_forms.sizes import moving
from workbench.threads.profile import profile


def _lead(v):
    return profile("trapezoidal", v["size"], v["pitch"], v["starts"]).lead_mm


def _part_turn(v):
    return _lead(v) * v["angle"] / 360


def _part_turn_draws():
    """The share of a turn never comes out in two decimals."""
    draws = [
        {**row, "starts": starts, "angle": angle, "share": round(angle / 360, 3)}
        for row in moving((4, 5, 6, 7, 8))
        for starts in (2, 3)
        for angle in (100, 130, 140, 170, 190, 200, 220, 230)
    ]
    return as_round(draws, lambda v: round(_part_turn(v), 2), 2)


def _lead_angle(v):
    return profile("trapezoidal", v["size"], v["pitch"], v["starts"]).lead_angle_deg


def _angle_of(way, round_mm):
    return math.degrees(math.atan(way / round_mm))


def _lead_angle_spread(v):
    """Half the last figure, and what the way round and the tangent lose when kept to three figures."""
    round_mm = math.pi * (v["size"] - v["pitch"] / 2)
    return up(0.05 + _lead_angle(v) * (third_figure(round_mm) / round_mm + 0.0005 * round_mm / _lead(v)), 0.01)


def _lead_angle_draws():
    draws = [{**row, "starts": starts} for row in moving((4, 5, 6, 7, 8, 9), largest=80) for starts in (2, 3, 4)]
    return as_round(draws, lambda v: round(_lead_angle(v), 1), 1)


def _turns(v):
    return v["stroke"] / _lead(v)


def _turns_draws():
    """Half turns; no pitch that equals the starts or their square, where two slips give one number."""
    return [
        {**row, "starts": starts, "stroke": row["pitch"] * starts * turns}
        for row in moving((5, 6, 7, 8))
        for starts in (2, 3)
        for turns in (3.5, 4.5, 5.5, 6.5, 7.5)
    ]


PART_TURN = Exercise(
    key="thread_forms.part_turn",
    asks="The lid of the case has a quick screw Tr{size:g}: pitch {pitch:g} mm, {starts} starts. "
    "You turn it by {angle}°. A workmate has begun:\n"
    "Share of a turn: {angle} ÷ 360 = {share:.3f}.\n"
    "One whole turn moves: ? mm.\n"
    "The lid moves: ? mm.\n\n"
    "Fill in both lines. How far does the lid move?",
    answer=Quantity("mm", 0.01, (0.01, 100), spread=lambda v: up(0.0005 * _lead(v) + 0.005)),
    draws=_part_turn_draws,
    right=_part_turn,
    missteps=(
        Misstep(
            "pitch-for-lead",
            lambda v: v["pitch"] * v["angle"] / 360,
            "{entry} agrees with a screw with one start.",
            "Count the beginnings at the end face. How many pitches does one turn move?",
        ),
        Misstep(
            "starts-divided",
            lambda v: v["pitch"] / v["starts"] * v["angle"] / 360,
            "{entry} agrees with starts that shorten the travel.",
            "More starts make a steeper thread. Does a turn then go further or less far?",
        ),
        Misstep(
            "whole-turn-taken",
            _lead,
            "{entry} agrees with a whole turn.",
            "The lead is right. Now take the share of a turn of it.",
        ),
        Misstep(
            "share-of-half-a-turn",
            lambda v: _lead(v) * v["angle"] / 180,
            "{entry} agrees with a turn of 180°.",
            "How many degrees has a whole turn?",
        ),
        Misstep(
            "divided-by-the-share",
            lambda v: _lead(v) * 360 / v["angle"],
            "{entry} agrees with lead ÷ share of a turn.",
            "Less than a turn: does the lid go further than one lead, or less far?",
        ),
    ),
    hints=(
        "One turn moves one lead: pitch × starts.",
        "Travel = lead × share of a turn.",
        "A similar case: pitch 12 mm, 5 starts, a turn of 90°. Lead 60 mm, share 0.25. The travel is 15 mm.",
    ),
    marks=1,
    outcome=LEAD,
)

LEAD_ANGLE = Exercise(
    key="thread_forms.lead_angle",
    asks="Now alone. A fast press screw Tr{size:g} has a pitch of {pitch:g} mm and {starts} starts. "
    "Its pitch diameter is the size less half a pitch. Take π = 3.142. "
    "How large is the lead angle at the pitch diameter?",
    answer=Quantity("deg", 0.1, (0.1, 89.9), spread=_lead_angle_spread),
    draws=_lead_angle_draws,
    right=_lead_angle,
    missteps=(
        Misstep(
            "pitch-for-lead",
            lambda v: _angle_of(v["pitch"], math.pi * (v["size"] - v["pitch"] / 2)),
            "{entry} agrees with a screw with one start.",
            "One turn climbs one lead. How many starts are there?",
        ),
        Misstep(
            "crest-for-pitch-diameter",
            lambda v: _angle_of(_lead(v), math.pi * v["size"]),
            "{entry} agrees with the diameter over the crests.",
            "The load sits at the pitch diameter. Take half a pitch off first.",
            keeps=1,
        ),
        Misstep(
            "diameter-for-round",
            lambda v: _angle_of(_lead(v), v["size"] - v["pitch"] / 2),
            "{entry} agrees with a way round as long as the diameter.",
            "Unroll one turn. How long is it, seen along the axis?",
        ),
        Misstep(
            "triangle-upside-down",
            lambda v: 90 - _lead_angle(v),
            "{entry} agrees with the angle at the other end of the triangle.",
            "Is the screw steep or flat? Lead ÷ way round, not the other way.",
        ),
        Misstep(
            "tangent-for-angle",
            lambda v: math.tan(math.radians(_lead_angle(v))),
            "{entry} agrees with the tangent itself, or an angle in radians.",
            "Press the tan⁻¹ key once more. Does the display say DEG?",
            keeps=1,
        ),
        Misstep(
            "whole-pitch-taken-off",
            lambda v: _angle_of(_lead(v), math.pi * (v["size"] - v["pitch"])),
            "{entry} agrees with a size less a whole pitch.",
            "How much of a pitch lies between the size and the pitch diameter?",
            keeps=1,
        ),
    ),
    hints=(
        "Unroll one turn: a triangle. It climbs one lead over a way of π × pitch diameter.",
        "Tangent = lead ÷ (π × pitch diameter). Then the tan⁻¹ key.",
        "A similar case: Tr100, pitch 12 mm, 2 starts. 24 ÷ (3.142 × 94) = 0.0813. The lead angle is 4.6°.",
    ),
    marks=2,
    outcome=LEAD,
)

TURNS = Exercise(
    key="thread_forms.turns",
    asks="The ram of the press must go {stroke:g} mm. Its screw is Tr{size:g}, pitch {pitch:g} mm, {starts} starts. "
    "How many turns does that take?",
    answer=Quantity("turns", 0.1, (0.01, 1000)),
    draws=_turns_draws,
    right=_turns,
    missteps=(
        Misstep(
            "starts-left-out",
            lambda v: v["stroke"] / v["pitch"],
            "{entry} agrees with a screw with one start.",
            "Each turn moves as many pitches as there are starts.",
        ),
        Misstep(
            "starts-multiplied",
            lambda v: v["stroke"] * v["starts"] / v["pitch"],
            "{entry} agrees with starts that ask for more turns.",
            "More starts go further in a turn. Do you then need more turns or fewer?",
        ),
        Misstep(
            "pitch-left-out",
            lambda v: v["stroke"] / v["starts"],
            "{entry} agrees with a pitch of 1 mm.",
            "One turn moves pitch × starts. Put in the pitch.",
        ),
        Misstep(
            "turned-upside-down",
            lambda v: _lead(v) / v["stroke"],
            "{entry} agrees with lead ÷ stroke.",
            "Asked are turns. How often does the lead go into the stroke?",
        ),
    ),
    hints=(
        "First how far one turn goes. Then how often that goes into the stroke.",
        "Turns = stroke ÷ (pitch × starts).",
        "A similar case: stroke 300 mm, pitch 12 mm, 10 starts. One turn goes 120 mm. That is 300 ÷ 120 = 2.5 turns.",
    ),
    marks=1,
    outcome=LEAD,
)
