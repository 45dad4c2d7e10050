"""Before the reading: which part to turn, and in which order to work."""

from itertools import permutations

from workbench.exercises.exercise import Choice, Exercise, Misstep, Order
from workbench.exercises.measuring_screw.outcomes import PREPARE

_DRIVES = {
    "ratchet": "The ratchet, until it slips three times: it gives the same light force each time.",
    "thimble": "The thimble, firmly: a tight grip keeps the part still while I read.",
    "spin": "The frame: I hold the thimble and swing the frame round, since that is fastest.",
    "lock": "The thimble, to the size on the drawing; then I lock it and push the part through.",
}

_STEPS = {
    "stop": "Stop the machine, and wait until nothing turns.",
    "clean": "Wipe the part in the machine and the faces of the measuring screw.",
    "zero": "Close the faces with the ratchet and note the zero error (what they then show).",
    "measure": "Close the faces on the part with the ratchet and note the reading.",
    "correct": "Take the zero error off the reading and write down the size.",
}


def _drive_draws():
    parts = ("crank pin", "drum shaft", "pawl pin", "spacer ring")
    return [{"part": part, "order": order} for part in parts for order in permutations(_DRIVES)]


def _step_draws():
    """Every step stands away from its own place, so that no list is half sorted beforehand."""
    own = tuple(_STEPS)
    return [
        {"order": order} for order in permutations(own) if all(step != own[place] for place, step in enumerate(order))
    ]


def _order_of(*steps):
    return lambda v: steps


DRIVE = Exercise(
    key="measuring_screw.drive",
    asks="You close the measuring screw on the {part}. Which part of the screw do you turn for the last bit, and why?",
    answer=Choice(_DRIVES),
    draws=_drive_draws,
    right=lambda v: "ratchet",
    missteps=(
        Misstep(
            "thimble-as-a-clamp",
            lambda v: "thimble",
            "Your choice uses the screw as a clamp. More force springs the frame, and the reading comes out small.",
            "Measure one block with a light and with a tight grip. Compare the two readings.",
        ),
        Misstep(
            "frame-swung-round",
            lambda v: "spin",
            "Your choice swings the frame to save time. The faces then meet hard and wear.",
            "Look for the small end piece that slips when the force is enough.",
        ),
        Misstep(
            "locked-and-pushed-through",
            lambda v: "lock",
            "Your choice uses the screw as a fixed gauge. Pushing a part through locked faces wears them.",
            "Which end piece makes the force equal for everybody?",
        ),
    ),
    hints=(
        "The reading changes with the force. Which choice makes the force equal each time?",
        "The faces must stay true for years. Which choices rub or hammer them?",
        "A similar case: a torque wrench clicks when the force is enough. A screw has a piece that slips.",
    ),
    marks=1,
    outcome=PREPARE,
)

STEPS = Exercise(
    key="measuring_screw.steps",
    asks="The drum shaft sits in the lathe and the lathe is running. You must measure the shaft in place. "
    "Put the five steps in order.",
    answer=Order(_STEPS),
    draws=_step_draws,
    right=lambda v: tuple(_STEPS),
    missteps=(
        Misstep(
            "wiped-while-turning",
            _order_of("clean", "stop", "zero", "measure", "correct"),
            "Your order brings a cloth near turning work. It can pull a hand in.",
            "Which step must come before a hand goes near the part?",
        ),
        Misstep(
            "stopped-too-late",
            _order_of("clean", "zero", "stop", "measure", "correct"),
            "Your order begins while the machine still turns. A hand or a sleeve can be pulled in.",
            "Which step must come before a hand goes near the part?",
            covers=lambda steps: steps[0] != "stop",
        ),
        Misstep(
            "zero-on-dirty-faces",
            _order_of("stop", "zero", "clean", "measure", "correct"),
            "Your order closes the faces before they are wiped. A chip would look like a zero error.",
            "What must be true of the faces before you trust their zero?",
        ),
        Misstep(
            "zero-after-measuring",
            _order_of("stop", "clean", "measure", "zero", "correct"),
            "Your order looks at the zero after the part. A bad zero is then found too late.",
            "Which check tells you that the screw is fit to use?",
        ),
        Misstep(
            "measured-before-cleaning",
            _order_of("stop", "measure", "clean", "zero", "correct"),
            "Your order measures the part with its chips on. They are then in the reading.",
            "What lies on a part that was just turned?",
        ),
    ),
    hints=(
        "Safety first: what can hurt a hand here?",
        "Then the screw itself: is it clean, and what does it show when closed?",
        "A similar case, at a scale: empty the pan, wipe it, set it to 0. Only then weigh.",
    ),
    marks=1,
    outcome=PREPARE,
    critical=True,
)
