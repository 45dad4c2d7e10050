"""The torque wrench: how to pull it, in which unit, with an adaptor in line or square, on a nut that drags."""

from itertools import permutations

from workbench.exercises.draws import as_round, third_figure, up
from workbench.exercises.exercise import Choice, Exercise, Misstep, Quantity
from workbench.exercises.tightening.outcomes import WRENCH
from workbench.screws.torque_wrench import at_nut_nm, converted, setting_nm, with_run_down_nm

_PULLS = {
    "pull": "I pull slowly towards me, feet apart, hand on the grip: if it slips, I keep my balance.",
    "push": "I push it away with straight arms: so my whole weight helps.",
    "tube": "I slide a tube over the handle: a longer lever needs less force.",
    "jerk": "I jerk it in short blows: so the nut does not stick.",
}
_FOOT = 1.356  # lbf ft in N m, as the question prints it: the exact 1.35582 is a tenth off at 392
_KGF_CM_NM = 0.0980665  # exact by definition, as the kilogram-force


def _stance_draws():
    return [
        {"part": part, "order": order}
        for part in ("foot of the hoist", "bearing block of the hoist", "handle plate of the case")
        for order in permutations(_PULLS)
    ]


def _metric(v):
    return converted(v["marked"], "lbf in", "N m")


def _dragged(v):
    return with_run_down_nm(_metric(v), v["drag"])


def _unit_draws():
    """With a drag in N m, so that the plate's figure alone, in its own unit, is no answer."""
    draws = [{"marked": marked, "drag": drag} for marked in range(105, 400, 7) for drag in (2.4, 3.1, 3.7)]
    return as_round(draws, lambda v: UNIT.answer.rounded(_dragged(v)), 1)


def _setting(v):
    return setting_nm(v["torque"], v["arm"], v["adaptor"])


def _extension_draws():
    draws = [
        {"torque": torque, "arm": arm, "adaptor": adaptor, "lever": arm + adaptor}
        for torque in (34, 38, 46, 52, 58, 64)
        for arm in (320, 360, 410)
        for adaptor in (65, 80, 95, 110)
    ]
    return as_round(draws, lambda v: EXTENSION.answer.rounded(_setting(v)), 1)


def _square(v):
    return setting_nm(with_run_down_nm(v["torque"], v["drag"]), v["arm"], v["adaptor"], 90)


def _square_draws():
    draws = [
        {"torque": torque, "drag": drag, "arm": arm, "adaptor": adaptor}
        for torque in (32, 37, 43, 48, 56)
        for drag in (4.5, 5.5, 6.5, 7.5)
        for arm, adaptor in ((320, 80), (360, 95), (410, 110))
    ]
    return as_round(draws, lambda v: SQUARE.answer.rounded(_square(v)), 1)


STANCE = Exercise(
    key="tightening.stance",
    asks="You tighten the bolts of the {part} with a torque wrench. The socket may slip off. "
    "How do you pull, and why?",
    answer=Choice(_PULLS),
    draws=_stance_draws,
    right=lambda v: "pull",
    missteps=(
        Misstep(
            "pushed-away",
            lambda v: "push",
            "Your choice agrees with pushing. A tool that slips then throws you forward.",
            "Where do your hands and face go when the socket slips?",
        ),
        Misstep(
            "tube-on-the-handle",
            lambda v: "tube",
            "Your choice agrees with a longer lever. The wrench was not set or built for it.",
            "Who checked the wrench with a tube on it?",
        ),
        Misstep(
            "jerked",
            lambda v: "jerk",
            "Your choice agrees with blows. They overshoot before the wrench can click.",
            "Which way of pulling lets you feel the click and stop?",
        ),
    ),
    hints=(
        "Think of the moment in which the socket slips off.",
        "In which choice do you stand firm, and does the wrench stay as it was made?",
        "A similar case: a drawer that sticks. Who pulls with feet together sits on the floor when it gives way.",
    ),
    marks=1,
    outcome=WRENCH,
    critical=True,
)

UNIT = Exercise(
    key="tightening.unit",
    asks="A plate on an inch machine says {marked} lbf in. Your wrench shows N m. "
    "1 lbf in is 0.113 N m, and 1 lbf ft is 1.356 N m. "
    "The self-locking nut drags with {drag:g} N m, which is not in the plate's figure. What do you set?",
    answer=Quantity("N m", 0.1, (0.1, 2000), spread=lambda v: 0.1),
    draws=_unit_draws,
    right=_dragged,
    missteps=(
        Misstep(
            "foot-for-inch",
            lambda v: _FOOT * v["marked"] + v["drag"],
            "{entry} agrees with pound-feet. The plate says another unit. That would be about twelve times the torque.",
            "Read the unit on the plate aloud. Let a second person check the setting.",
        ),
        Misstep(
            "drag-left-out",
            _metric,
            "{entry} agrees with the plate alone.",
            "The nut drags before it seats. What becomes of that part of your pull?",
        ),
        Misstep(
            "figure-kept",
            lambda v: v["marked"] + v["drag"],
            "{entry} agrees with the figure of the plate as it stands.",
            "Two units are added there. Turn the plate's figure into N m first.",
        ),
        Misstep(
            "old-metric-unit",
            lambda v: _KGF_CM_NM * v["marked"] + v["drag"],
            "{entry} agrees with kilogram-force and centimetre, an old unit on some wrenches.",
            "Use the figure that the question prints for inches.",
        ),
        Misstep(
            "drag-taken-off",
            lambda v: _metric(v) - v["drag"],
            "{entry} agrees with drag taken off.",
            "Drag works against you. Does the wrench need more or less?",
        ),
    ),
    hints=(
        "Find the unit of the plate in the question, letter for letter. What is one of it worth in N m?",
        "Turn the plate's figure into N m. Then add the drag.",
        "A similar case: 1000 lbf in, drag 10 N m. 1000 × 0.113 = 113 N m. Set 123.0 N m.",
    ),
    marks=1,
    outcome=WRENCH,
    critical=True,
)

EXTENSION = Exercise(
    key="tightening.extension",
    asks="A nut must get {torque} N m. An adaptor of {adaptor} mm sits in line with the handle. "
    "The wrench is {arm} mm long, from its drive to the middle of your hand. A workmate has begun:\n"
    "Lever from nut to hand: {arm} + {adaptor} = {lever} mm.\n"
    "Setting = torque × one length ÷ the other = ? N m.\n\n"
    "Fill in the last line.",
    answer=Quantity("N m", 0.1, (0.1, 2000), spread=lambda v: up(2 * third_figure(_setting(v)), 0.1)),
    draws=_extension_draws,
    right=_setting,
    missteps=(
        Misstep(
            "adaptor-not-allowed-for",
            lambda v: v["torque"],
            "{entry} agrees with a wrench without adaptor.",
            "The nut feels a longer lever than the wrench. Does it get more or less than the scale shows?",
        ),
        Misstep(
            "setting-raised",
            lambda v: at_nut_nm(v["torque"], v["arm"], v["adaptor"]),
            "{entry} agrees with a setting that was raised.",
            "A longer lever gives more at the nut. Which way must the setting go?",
        ),
        Misstep(
            "adaptor-over-arm",
            lambda v: v["torque"] * v["adaptor"] / v["arm"],
            "{entry} agrees with adaptor ÷ wrench length.",
            "Compare the two whole levers: up to the drive, and up to the nut.",
        ),
        Misstep(
            "adaptor-taken-off",
            lambda v: v["torque"] * (v["arm"] - v["adaptor"]) / v["arm"],
            "{entry} agrees with an adaptor taken off the wrench length.",
            "The workmate's first line is sound. Use its lever.",
        ),
    ),
    hints=(
        "The longer lever puts more on the nut than the scale shows. So set less.",
        "Setting = torque × wrench length ÷ whole lever.",
        "A similar case: 100 N m, wrench 600 mm, adaptor 200 mm. 100 × 600 ÷ 800 = 75.0 N m.",
    ),
    marks=1,
    outcome=WRENCH,
    shows=lambda v: ("torque_wrench", {"arm_mm": v["arm"], "adaptor_mm": v["adaptor"], "angle_deg": 0}),
)

SQUARE = Exercise(
    key="tightening.square",
    asks="Now alone. A self-locking nut drags with {drag:g} N m before it seats. It must seat with {torque} N m. "
    "An adaptor of {adaptor} mm sits square to the handle. The wrench is {arm} mm long. What do you set?",
    answer=Quantity("N m", 0.1, (0.1, 2000), spread=lambda v: 0.1),
    draws=_square_draws,
    right=_square,
    missteps=(
        Misstep(
            "drag-left-out",
            lambda v: v["torque"],
            "{entry} agrees with a nut that runs freely.",
            "Part of the torque only drags the nut. Is it still there when the nut seats?",
        ),
        Misstep(
            "corrected-as-if-in-line",
            lambda v: setting_nm(v["torque"] + v["drag"], v["arm"], v["adaptor"]),
            "{entry} agrees with an adaptor in line with the handle.",
            "Draw the handle and the nut from above. How much nearer or further is the hand?",
            keeps=1,
        ),
        Misstep(
            "corrected-as-if-folded-back",
            lambda v: setting_nm(v["torque"] + v["drag"], v["arm"], v["adaptor"], 180),
            "{entry} agrees with an adaptor folded back over the handle.",
            "Draw the handle and the nut from above. How much nearer or further is the hand?",
            keeps=1,
        ),
        Misstep(
            "raised-as-if-in-line",
            lambda v: at_nut_nm(v["torque"] + v["drag"], v["arm"], v["adaptor"]),
            "{entry} agrees with an adaptor in line, and with a longer lever that asks for more.",
            "Draw the handle and the nut from above. Does the lever change at all?",
        ),
        Misstep(
            "drag-taken-off",
            lambda v: v["torque"] - v["drag"],
            "{entry} agrees with drag taken off.",
            "Drag works against you. Does the wrench need more or less?",
        ),
    ),
    hints=(
        "Square to the handle, the adaptor hardly changes the lever. Leave it out.",
        "The drag comes on top of the seating torque.",
        "A similar case: drag 12 N m, seating 80 N m, adaptor square. Set 92.0 N m.",
    ),
    marks=2,
    outcome=WRENCH,
    shows=lambda v: ("torque_wrench", {"arm_mm": v["arm"], "adaptor_mm": v["adaptor"], "angle_deg": 90}),
)
