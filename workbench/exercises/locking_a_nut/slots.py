"""The slot that will not line up: turn on, ease back, or change the washer."""

from workbench.exercises.draws import as_round
from workbench.exercises.exercise import Exercise, Misstep, Quantity
from workbench.exercises.locking_a_nut.outcomes import SLOT
from workbench.exercises.locking_a_nut.sizes import joint, nuts, springs, unprinted
from workbench.screws.pin_hole import thicker_washer_mm, thinner_washer_mm
from workbench.screws.slotted_nut import axial_step_mm, step_deg, turn_to_slot_deg
from workbench.screws.turning import preload_gain_n

_TURNING = ("hinge of the case lid", "fork joint of the brake rod", "wheel bearing of the barrow", "pivot of the catch")
_THREADS = ("M10", "M12", "M16", "M20", "M24", "M42", "M48")


def _apart(past, slots):
    """Not near half a step: there "on" and "back" are the same size."""
    return abs(2 * past - step_deg(slots)) > 6


def turn_draws():
    """A clamped joint on a long bolt, so that the clamp gained stays a thinkable figure; shared with GAIN."""
    draws = []
    for row in nuts():
        if row["thread"] not in _THREADS:
            continue
        for grip in (8, 10):
            bolt, parts = joint(row["thread"], grip * row["size"])
            for past in range(7, int(step_deg(row["slots"])) - 5, 4):
                draws.append({**row, "past": past, "bolt": bolt, "parts": parts})
    draws = [draw for draw in draws if _apart(draw["past"], draw["slots"])]
    return as_round(draws, lambda v: round(_gain_kn(v), 1), 1)


def _gain_kn(v):
    return preload_gain_n(turn_to_slot_deg("clamped", v["past"], v["slots"]), v["pitch"], springs(v)) / 1000


def _eased_draws():
    return [
        {"joint": joint_, "past": past, "slots": 6}
        for joint_ in _TURNING
        for past in range(6, 55)
        if _apart(past, 6)
    ]


def _washer_draws():
    draws = [
        {"thread": row["thread"], "pitch": row["pitch"], "slots": row["slots"], "short": short}
        for row in nuts(8, 36)
        for short in range(8, 54, 3)
        if abs(2 * short - 60) > 16
    ]
    draws = [{**draw, "shown": round(_thinner(draw), 2)} for draw in draws]
    draws = as_round(draws, lambda v: v["shown"], 2)
    draws = as_round(draws, lambda v: round(_thicker(v), 2), 2)
    return unprinted(draws, _thicker, 2, 0.33)


def _thicker(v):
    return thicker_washer_mm(v["short"], v["pitch"], v["slots"])


def _thinner(v):
    return thinner_washer_mm(v["short"], v["pitch"], v["slots"])


TURN_ON = Exercise(
    key="locking_a_nut.turn_on",
    asks="A joint that must clamp, bolt {thread}, nut with {slots} slots. The low torque is reached. "
    "A slot has just gone past the hole by {past}°. A workmate has begun:\n"
    "From slot to slot: 360° ÷ {slots}.\n"
    "Turn of the nut, + on or − back: ?\n\n"
    "Fill in the last line.",
    answer=Quantity("deg", 1, (-400, 400)),
    draws=turn_draws,
    right=lambda v: turn_to_slot_deg("clamped", v["past"], v["slots"]),
    missteps=(
        Misstep(
            "backed-off-to-the-last-slot",
            lambda v: -v["past"],
            "{entry} agrees with a nut that is turned back. That takes clamp away, and the pin hides it.",
            "Must this joint clamp, or must it turn?",
        ),
        Misstep(
            "full-step-turned",
            lambda v: step_deg(v["slots"]),
            "{entry} agrees with a whole step from slot to slot.",
            "Part of the step is done already. How much is left?",
        ),
        Misstep(
            "square-for-the-step",
            lambda v: 90 - v["past"],
            "{entry} agrees with slots that stand square to each other.",
            "Count the slots once round. How many degrees lie between two?",
        ),
        Misstep(
            "turned-on-by-what-is-past",
            lambda v: v["past"],
            "{entry} agrees with the angle that the slot has gone past already.",
            "Turning on takes this slot further away. Which slot comes next?",
        ),
    ),
    hints=(
        "A clamped joint is never backed off.",
        "The next slot lacks: 360° ÷ slots − what the last slot has gone past.",
        "A similar case: 4 slots, gone past by 35°. From slot to slot 90°. The nut turns on by 55°.",
    ),
    marks=2,
    outcome=SLOT,
    critical=True,
)

EASED = Exercise(
    key="locking_a_nut.eased",
    asks="Now alone. The {joint} must turn freely. Its slotted nut has {slots} slots. The maker's rule: "
    "run it snug, then ease it to the nearest slot that leaves play. Snug, a slot has gone past the hole by {past}°. "
    "By how many degrees is the nut turned? On is +, back is −.",
    answer=Quantity("deg", 1, (-400, 400)),
    draws=_eased_draws,
    right=lambda v: turn_to_slot_deg("turning", v["past"], v["slots"]),
    missteps=(
        Misstep(
            "tightened-as-a-clamp",
            lambda v: step_deg(v["slots"]) - v["past"],
            "{entry} agrees with a joint that must clamp. This one would jam or run hot.",
            "Must this joint clamp, or must it turn?",
        ),
        Misstep(
            "eased-a-slot-too-far",
            lambda v: -v["past"] - step_deg(v["slots"]),
            "{entry} agrees with one slot more than needed. The joint would rattle.",
            "Which slot is the nearest one on the way back?",
        ),
        Misstep(
            "eased-the-wrong-way",
            lambda v: v["past"],
            "{entry} agrees with the right angle, turned on.",
            "Which sign has a turn back?",
        ),
        Misstep(
            "rest-of-the-step-eased",
            lambda v: v["past"] - step_deg(v["slots"]),
            "{entry} agrees with the way to the next slot, turned back.",
            "How far has the slot gone past? That is the way back.",
        ),
    ),
    hints=(
        "Easing means back. The slot that has just gone past comes to the hole again.",
        "So turn back exactly what it has gone past, with a minus.",
        "A similar case: a slot has gone past by 5°. The nut is eased by −5°.",
    ),
    marks=1,
    outcome=SLOT,
)

WASHER = Exercise(
    key="locking_a_nut.washer",
    asks="At the greatest torque the next slot is still {short}° short of the hole. "
    "Thread {thread}, pitch {pitch:g} mm, {slots} slots. Only thicker washers are at hand. A workmate writes:\n"
    "{short}° are missing. {pitch:g} × {short} ÷ 360 = {shown:.2f} mm.\n"
    "So I take a washer that is {shown:.2f} mm thicker.\n\n"
    "How much thicker must the washer really be?",
    answer=Quantity("mm", 0.01, (0.001, 20)),
    draws=_washer_draws,
    right=_thicker,
    missteps=(
        Misstep(
            "as-the-workmate",
            _thinner,
            "{entry} agrees with what a thinner washer would have to save.",
            "A thicker washer carries the nut back. Which slot comes to the hole then?",
        ),
        Misstep(
            "whole-step-of-washer",
            lambda v: axial_step_mm(v["pitch"], v["slots"]),
            "{entry} agrees with a whole step from slot to slot.",
            "The slot before has gone past by less than a step. By how many degrees?",
        ),
        Misstep(
            "step-for-a-turn",
            lambda v: v["pitch"] * (step_deg(v["slots"]) - v["short"]) / step_deg(v["slots"]),
            "{entry} agrees with a nut that moves one pitch from slot to slot.",
            "How many degrees belong to one pitch?",
        ),
        Misstep(
            "step-and-more",
            lambda v: v["pitch"] * (step_deg(v["slots"]) + v["short"]) / 360,
            "{entry} agrees with the step and the missing angle added.",
            "Going back, is the slot before nearer than a whole step, or further?",
        ),
    ),
    hints=(
        "A thicker washer stops the nut earlier. So the nut stands further back.",
        "The slot before has gone past by: step − missing angle. Pitch × that angle ÷ 360.",
        "A similar case: pitch 6 mm, 6 slots, 40° short. The slot before is past by 20°. 6 × 20 ÷ 360 = 0.33 mm.",
    ),
    marks=2,
    outcome=SLOT,
)
