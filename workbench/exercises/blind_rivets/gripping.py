"""Grip of a stack, room behind it, and a body that is too long."""

from workbench.exercises.blind_rivets.outcomes import GRIP
from workbench.exercises.draws import as_round
from workbench.exercises.exercise import Exercise, Misstep, Quantity
from workbench.rivets.blind import body_size
from workbench.rivets.grip import grip_mm, grip_range, grip_ranges, room_behind_mm

STANDARD = "ISO 15977"


def _grip(v):
    return grip_mm(v["lid"], v["frame"], v["gasket"], v["paint"])


def _grip_draws():
    """Two decimals throughout; lid and frame unlike."""
    draws = [
        {"lid": lid, "frame": frame, "sheets": round(lid + frame, 1), "gasket": gasket, "paint": paint}
        for lid in (0.8, 1.2, 1.5)
        for frame in (1.6, 2.0, 2.5)
        for gasket in (0.5, 0.8, 1.0)
        for paint in (0.12, 0.16, 0.24)
    ]
    return as_round(draws, lambda v: round(_grip(v), 2), 2)


def _room(v):
    return room_behind_mm(v["body"], v["length"], v["stack"])


def _room_draws():
    """Stacks inside the range of their rivet, in tenths that are not nought."""
    draws = [
        {"body": body, "length": one.length_mm, "beyond": body_size(body)["beyond_mm"], "stack": stack}
        for body in (3.2, 4.0, 4.8, 6.4)
        for one in grip_ranges(STANDARD, body)
        if 10 <= one.length_mm <= 20
        for stack in (round(one.least_mm + part * (one.largest_mm - one.least_mm), 1) for part in (0.2, 0.4, 0.6, 0.8))
    ]
    return as_round(draws, _room, 1)


def _short_by(v):
    return v["least"] - v["stack"]


def _too_long_draws():
    """Stacks two to five lengths too thin, where the rule of thumb says yes."""
    draws = []
    for body in (3.2, 4.0, 4.8):
        for length in (12, 16, 20):
            one = grip_range(STANDARD, body, length)
            for under in (1.3, 1.6, 2.2, 2.4, 2.7, 3.1):
                draws.append({"body": body, "length": length, "least": one.least_mm, "largest": one.largest_mm,
                              "stack": round(one.least_mm - under, 1)})  # fmt: skip
    return as_round(draws, lambda v: round(_short_by(v), 1), 1)


GRIP_OF_STACK = Exercise(
    key="blind_rivets.grip",
    asks="The lid of the instrument case is {lid:g} mm thick, its frame {frame:g} mm. A gasket of {gasket:g} mm lies "
    "between them. The paint adds {paint:g} mm in all. A workmate has begun:\n"
    "Sheets: {lid:g} + {frame:g} = {sheets:g} mm.\n"
    "Everything between the heads: ? mm.\n\n"
    "Fill in the last line. How large is the grip?",
    answer=Quantity("mm", 0.01, (0.1, 50)),
    draws=_grip_draws,
    right=_grip,
    missteps=(
        Misstep(
            "only-the-sheets",
            lambda v: v["sheets"],
            "{entry} agrees with the two sheets alone.",
            "Put a finger on each thing that the heads squeeze. What lies between the sheets, and on them?",
        ),
        Misstep(
            "gasket-left-out",
            lambda v: _grip(v) - v["gasket"],
            "{entry} agrees with a stack without its gasket.",
            "Put a caliper on the clamped stack. Is the gasket in it?",
        ),
        Misstep(
            "paint-left-out",
            lambda v: _grip(v) - v["paint"],
            "{entry} agrees with bare sheets and the gasket.",
            "Paint lies between the heads too. Look at a scratch with a lens.",
        ),
        Misstep(
            "paint-taken-off",
            lambda v: _grip(v) - 2 * v["paint"],
            "{entry} comes from paint that makes the stack thinner.",
            "Does paint add to a sheet, or take away from it?",
        ),
        Misstep(
            "paint-counted-twice",
            lambda v: _grip(v) + v["paint"],
            "{entry} comes from paint that was counted twice.",
            "Read the question again: is the paint given for one sheet, or in all?",
        ),
    ),
    hints=(
        "The grip is everything between the two heads.",
        "Grip = sheets + gasket + paint.",
        "A similar case: 3.0 mm and 4.0 mm, gasket 2.0 mm, paint 0.3 mm. The grip is 9.3 mm.",
    ),
    marks=1,
    outcome=GRIP,
)

ROOM = Exercise(
    key="blind_rivets.room",
    asks="Now alone. The case has a closed frame, and nobody can look inside. The rivet is {body:g} × {length:g}. "
    "Before it is set, its mandrel head stands {beyond:g} mm past the body. The grip is {stack:g} mm. "
    "How much free room does the rivet need behind the sheets?",
    answer=Quantity("mm", 0.1, (0, 60)),
    draws=_room_draws,
    right=_room,
    missteps=(
        Misstep(
            "no-room-needed",
            lambda v: 0.0,
            "{entry} agrees with a rivet that needs nothing behind.",
            "The body goes in before it is set. Push one into a hole and look at it from the side.",
        ),
        Misstep(
            "mandrel-head-left-out",
            lambda v: v["length"] - v["stack"],
            "{entry} agrees with the body alone.",
            "What sits at the far end of the body?",
        ),
        Misstep(
            "whole-rivet-behind",
            lambda v: v["length"] + v["beyond"],
            "{entry} agrees with a whole rivet behind the sheets.",
            "Part of the body stays inside the sheets. Take that part away.",
        ),
        Misstep(
            "body-behind",
            lambda v: v["length"],
            "{entry} agrees with the length of the body.",
            "One part of it stays in the sheets, and the mandrel head comes on top.",
        ),
        Misstep(
            "grip-added",
            lambda v: v["length"] + v["beyond"] + v["stack"],
            "{entry} comes from a grip that was added.",
            "Does a thicker stack leave more of the rivet behind, or less?",
        ),
        Misstep(
            "mandrel-head-taken-off",
            lambda v: v["length"] - v["beyond"] - v["stack"],
            "{entry} comes from a mandrel head that makes the rivet shorter.",
            "Where does the mandrel head sit: inside the body, or past its end?",
        ),
    ),
    hints=(
        "Draw it: the head on the left, then the sheets, then what stands out behind.",
        "Room = body + mandrel head − grip.",
        "A similar case: body 30 mm, mandrel head 6 mm, grip 21 mm. The room is 36 − 21 = 15 mm.",
    ),
    marks=2,
    outcome=GRIP,
)

TOO_LONG = Exercise(
    key="blind_rivets.too_long",
    asks="A stack is {stack:g} mm thick. A workmate takes {body:g} × {length:g}. “Longer is always safe,” he says. "
    "The table gives grips of {least:g} to {largest:g} mm for this rivet. "
    "By how much is the stack too thin for it?",
    answer=Quantity("mm", 0.1, (0, 50)),
    draws=_too_long_draws,
    right=_short_by,
    missteps=(
        Misstep(
            "other-end-of-the-range",
            lambda v: v["largest"] - v["stack"],
            "{entry} agrees with the distance to the largest grip.",
            "Which end of the range lies nearer to the stack?",
        ),
        Misstep(
            "spare-by-the-rule",
            lambda v: v["length"] - v["body"] - v["stack"],
            "{entry} agrees with what the rule of thumb leaves over.",
            "Put the rule away. Compare the stack with the two figures of the table.",
        ),
        Misstep(
            "body-that-sticks-out",
            lambda v: v["length"] - v["stack"],
            "{entry} agrees with the part of the body behind the sheets.",
            "The question asks about the range. Where does it begin?",
        ),
        Misstep(
            "width-of-the-range",
            lambda v: v["largest"] - v["least"],
            "{entry} agrees with the width of the range.",
            "Mark the stack on a line, then the two ends. How far is it to the first end?",
        ),
        Misstep(
            "sign-turned-round",
            lambda v: v["stack"] - v["least"],
            "{entry} comes from a difference taken the wrong way round.",
            "Asked is how much is missing. Which of the two is larger?",
            keeps=1,
        ),
    ),
    hints=(
        "A rivet has a least grip and a largest grip. Find the one that the stack misses.",
        "Too thin by = least grip − stack.",
        "A similar case: 20 mm stack, range 28 to 33 mm. The stack is too thin by 28 − 20 = 8 mm.",
    ),
    marks=2,
    outcome=GRIP,
)
