"""Up and down the ramp: torque at the thread, the collar, the crank, the way down, and a wrong efficiency."""

import math

from workbench.exercises.draws import as_round, third_figure, up
from workbench.exercises.exercise import Exercise, Misstep, Quantity
from workbench.exercises.threads_that_move.outcomes import TORQUE as OUTCOME
from workbench.exercises.threads_that_move.screws import lifting, tan, thread
from workbench.screws.power import collar_torque_nmm, efficiency_of, lowering_torque_nmm, raising_torque_nmm
from workbench.screws.power_drive import hand_force_n


def _raising(v):
    return raising_torque_nmm(v["force"], thread(v), v["rubs"]) / 1000


def _arm_nm(v):
    """Load x mean radius."""
    return v["force"] * v["mean"] / 2000


def _collar(v):
    return collar_torque_nmm(v["force"], v["under"], v["collar"]) / 1000


def _share_lost(angle):
    """Share by which the tangent of a printed angle may be off: its last figure, and three figures of the tangent."""
    return (0.0002 + third_figure(10 * tan(angle)) / 10) / tan(angle)


def _raising_spread(v):
    found = _raising(v)
    return up(0.05 + found * (_share_lost(v["climb"] + v["friction"]) + third_figure(_arm_nm(v)) / _arm_nm(v)), 0.1)


def _both_spread(v):
    return up(_raising_spread(v) + 2 * third_figure(_collar(v)), 0.1)


def _jack_draws():
    """A jack with a plain collar and a crank; masses are whole hundreds, so that newtons are not."""
    draws = []
    for screw in lifting((3, 4, 5, 6), (0.11, 0.12, 0.14, 0.16), largest=36):
        for mass, radius in ((400, 250), (600, 300), (700, 350), (900, 400)):
            under = {0.11: 0.09, 0.12: 0.11, 0.14: 0.13, 0.16: 0.12}[screw["rubs"]]
            collar = round(1.4 * screw["size"])
            draws.append({**screw, "mass": mass, "force": round(9.81 * mass), "under": under, "collar": collar,
                          "radius": radius})  # fmt: skip
    draws = as_round(draws, lambda v: round(_raising(v), 1), 1)
    return as_round(draws, lambda v: round(_raising(v) + _collar(v), 1), 1)


def _hand(v):
    return hand_force_n(1000 * v["earlier"], v["radius"])


def _lowering(v):
    return lowering_torque_nmm(v["force"], thread(v), v["rubs"]) / 1000


def _lowering_draws():
    draws = [
        {**screw, "force": force}
        for screw in lifting((3, 4, 5, 6, 7), (0.12, 0.14, 0.16))
        for force in (4200, 6300, 7700, 9400)
    ]
    draws = [draw for draw in draws if draw["friction"] - draw["climb"] > 1.5 and _lowering(draw) > 3]
    return as_round(draws, lambda v: round(_lowering(v), 1), 1)


def _lowering_spread(v):
    left = v["friction"] - v["climb"]
    lost = _share_lost(left) + 0.01 / left + third_figure(_arm_nm(v)) / _arm_nm(v)
    return up(0.05 + _lowering(v) * lost, 0.1)


def _wrong_work(v):
    return v["force"] * v["lead"]


def _repaired(v):
    return 100 * efficiency_of(v["force"], v["lead"], v["torque"])


def _repair_draws():
    """Workings whose wrong efficiency looks like that of a good screw: 55 to 95 %."""
    draws = []
    for lead in (3, 4, 5, 6, 8):
        for force in (4700, 5300, 6100, 7300, 8900):
            for shown in (57, 63, 71, 78, 86, 93):
                torque = round(100 * force * lead / shown, -2)
                work = force * lead
                draws.append({"lead": lead, "force": force, "torque": int(torque), "work": work,
                              "shown": round(100 * work / torque)})  # fmt: skip
    return as_round(draws, lambda v: round(_repaired(v), 1), 1)


RAISE = Exercise(
    key="threads_that_move.raise_torque",
    asks="The sample hoist stands on a screw jack Tr{size:g} × {pitch:g}, one start. It must lift {mass} kg. "
    "Its mean diameter is {mean:g} mm. Lead angle {climb:g}°, friction angle {friction:g}°. A workmate has begun:\n"
    "Load = {mass} × 9.81 = {force} N.\n"
    "Torque at the thread = load × mean radius × tangent of the angle on the way up.\n"
    "Torque at the thread = ? N m.\n\n"
    "Fill in the last line.",
    answer=Quantity("N*m", 0.1, (0.1, 2000), spread=_raising_spread),
    draws=_jack_draws,
    right=_raising,
    missteps=(
        Misstep(
            "diameter-for-radius",
            lambda v: 2 * _raising(v),
            "{entry} agrees with the whole mean diameter as the arm.",
            "Sketch the screw from its end. How far is the ridge from the middle?",
        ),
        Misstep(
            "newton-millimetres",
            lambda v: 1000 * _raising(v),
            "{entry} agrees with N mm: the mean radius was taken in mm.",
            "How many mm has a metre? Picture that pull on a crank one metre long.",
        ),
        Misstep(
            "way-down-for-way-up",
            lambda v: _arm_nm(v) * tan(v["friction"] - v["climb"]) if v["friction"] > v["climb"] else None,
            "{entry} agrees with the way down: one angle is taken off the other.",
            "Push a block up a ramp. Do slope and friction help each other or add up against you?",
        ),
        Misstep(
            "friction-left-out",
            lambda v: _arm_nm(v) * tan(v["climb"]),
            "{entry} agrees with a thread that has no friction.",
            "Which angle stands beside the lead angle in the question?",
        ),
        Misstep(
            "lead-angle-left-out",
            lambda v: _arm_nm(v) * tan(v["friction"]),
            "{entry} agrees with a thread that does not climb.",
            "The load must rise too. Which angle says how steeply?",
        ),
        Misstep(
            "kilograms-for-newtons",
            lambda v: _raising(v) * v["mass"] / v["force"],
            "{entry} agrees with a load that is taken in kilograms.",
            "A mass of 1 kg pulls with 9.81 N. Which line gives the load in newtons?",
        ),
    ),
    hints=(
        "On the way up the hand works against slope and friction. Add the two angles first.",
        "Mean radius = half of the mean diameter. In metres it gives N m at once.",
        "A similar case: 100000 N, mean diameter 94 mm, 2° and 6°. 100000 × 0.047 × tan 8° = 661 N m.",
    ),
    marks=1,
    outcome=OUTCOME,
)

COLLAR = Exercise(
    key="threads_that_move.with_collar",
    asks="Now alone. Under the head of the same jack a plain collar rubs. It bears the same load of {force} N. "
    "Its mean diameter is {collar} mm, its coefficient of friction {under:g}. "
    "Which torque does the whole screw need to lift? Start from the torque that you found.",
    answer=Quantity("N*m", 0.1, (0.1, 4000), spread=_both_spread),
    draws=_jack_draws,
    right=lambda v: v["earlier"] + _collar(v),
    missteps=(
        Misstep(
            "collar-left-out",
            lambda v: v["earlier"],
            "{entry} agrees with the thread alone.",
            "The collar rubs too. Turn a clamp with and without a ball under its screw: what changes?",
        ),
        Misstep(
            "collar-alone",
            _collar,
            "{entry} agrees with the collar alone.",
            "That part is sound. What does the thread need besides?",
            keeps=1,
        ),
        Misstep(
            "collar-on-its-diameter",
            lambda v: v["earlier"] + 2 * _collar(v),
            "{entry} agrees with the whole mean diameter of the collar as the arm.",
            "How far from the middle does the collar rub?",
            keeps=1,
        ),
        Misstep(
            "collar-taken-off",
            lambda v: v["earlier"] - _collar(v) if v["earlier"] > _collar(v) else None,
            "{entry} agrees with a collar that helps.",
            "Friction never helps to turn. Add or take off?",
        ),
    ),
    hints=(
        "Rubbing force at the collar = load × coefficient. It acts on the mean radius of the collar.",
        "Whole torque = torque at the thread + torque at the collar.",
        "A similar case: 100000 N, collar of 120 mm, coefficient 0.20. 100000 × 0.20 × 0.060 = 1200 N m. "
        "With 661 N m at the thread: 1861 N m.",
    ),
    marks=2,
    outcome=OUTCOME,
    follows=RAISE,
)

CRANK = Exercise(
    key="threads_that_move.crank",
    asks="A crank turns this jack. From its axis to its grip are {radius} mm. "
    "Which force must the hand give at the grip? Start from the whole torque that you found.",
    answer=Quantity(
        "N", 1, (1, 20000),
        spread=lambda v: up((_both_spread(v) + third_figure(v["earlier"])) * 1000 / v["radius"], 1),
    ),  # fmt: skip
    draws=_jack_draws,
    right=_hand,
    missteps=(
        Misstep(
            "radius-halved",
            lambda v: 2 * _hand(v),
            "{entry} agrees with half of the crank as its arm.",
            "Is the length given from grip to grip or from axis to grip?",
        ),
        Misstep(
            "metres-and-millimetres-mixed",
            lambda v: v["earlier"] / v["radius"],
            "{entry} agrees with N m divided by millimetres.",
            "Write the units on every line. Turn one of the two first.",
        ),
        Misstep(
            "torque-times-radius",
            lambda v: v["earlier"] * v["radius"] / 1000,
            "{entry} agrees with torque times radius.",
            "Does a longer crank make the work of the hand lighter or heavier?",
        ),
        Misstep(
            "screw-without-friction",
            lambda v: v["force"] * v["pitch"] / (2 * math.pi * v["radius"]),
            "{entry} agrees with a screw that has no friction at all.",
            "Start from your own torque. It holds the friction already.",
        ),
    ),
    hints=(
        "Torque = force × arm. The arm runs from the axis to the grip.",
        "Force = torque ÷ arm, with N m and metres.",
        "A similar case: 1861 N m on a lever of 3000 mm. 1861 ÷ 3 = 620 N.",
    ),
    marks=1,
    outcome=OUTCOME,
    follows=COLLAR,
)

LOWER = Exercise(
    key="threads_that_move.lower",
    asks="A screw Tr{size:g} × {pitch:g}, one start, carries {force} N. Its mean diameter is {mean:g} mm. "
    "Lead angle {climb:g}°, friction angle {friction:g}°. "
    "A ball bearing stands in place of the collar. Take its friction as nil. "
    "Which torque must you give to lower the load?",
    answer=Quantity("N*m", 0.1, (-2000, 2000), spread=_lowering_spread),
    draws=_lowering_draws,
    right=_lowering,
    missteps=(
        Misstep(
            "way-up-for-way-down",
            _raising,
            "{entry} agrees with the way up.",
            "On the way down the slope is on your side. What happens to the lead angle?",
        ),
        Misstep(
            "no-torque-needed",
            lambda v: 0,
            "{entry} agrees with a load that goes down for nothing.",
            "This thread does not run back. Must you turn it, or not?",
        ),
        Misstep(
            "sign-turned-round",
            lambda v: -_lowering(v),
            "{entry} agrees with lead angle less friction angle. A minus there: it runs down.",
            "Which of the two angles is larger? Say in words what that means.",
            keeps=1,
        ),
        Misstep(
            "diameter-for-radius",
            lambda v: 2 * _lowering(v),
            "{entry} agrees with the whole mean diameter as the arm.",
            "How far is the ridge from the middle of the screw?",
            keeps=1,
        ),
        Misstep(
            "friction-angle-alone",
            lambda v: _arm_nm(v) * tan(v["friction"]),
            "{entry} agrees with a thread that does not climb.",
            "The load helps you down the slope. Which angle says by how much?",
        ),
    ),
    hints=(
        "Push a block down a ramp. Friction is against you, the slope helps.",
        "Torque to lower = load × mean radius × tan(friction angle − lead angle).",
        "A similar case: 100000 N, mean diameter 94 mm, lead angle 2°, friction angle 6°. "
        "100000 × 0.047 × tan 4° = 329 N m.",
    ),
    marks=2,
    outcome=OUTCOME,
)

REPAIR = Exercise(
    key="threads_that_move.repair",
    asks="A workmate has worked out how much of his work lifts. The lead is {lead} mm. "
    "He measured a torque of {torque} N mm.\n"
    "Work of the load in one turn = {force} N × {lead} mm = {work} N mm.\n"
    "Work of the hand in one turn = {torque} N mm.\n"
    "Efficiency = {work} ÷ {torque} = {shown} %. “A good screw!”\n\n"
    "One line is wrong. Put it right. How large is the efficiency, in percent?",
    answer=Quantity("percent", 0.1, (0.1, 1000), spread=lambda v: up(0.05 + 0.004 * _repaired(v), 0.1)),
    draws=_repair_draws,
    right=_repaired,
    missteps=(
        Misstep(
            "two-pi-left-out",
            lambda v: 100 * _wrong_work(v) / v["torque"],
            "{entry} agrees with the working as it stands.",
            "How far does a grip at 1 mm from the axis travel in one turn?",
        ),
        Misstep(
            "pi-alone",
            lambda v: 100 * _wrong_work(v) / (math.pi * v["torque"]),
            "{entry} agrees with half a turn of the hand.",
            "One whole turn is 2 π times the arm.",
            keeps=1,
        ),
        Misstep(
            "two-pi-multiplied",
            lambda v: 200 * math.pi * _wrong_work(v) / v["torque"],
            "{entry} agrees with more work coming out than goes in.",
            "Is the work of the hand larger or smaller than he wrote?",
        ),
        Misstep(
            "loss-given",
            lambda v: 100 - _repaired(v),
            "{entry} agrees with the part that is lost.",
            "Asked is the part that lifts. The two make 100 %.",
            keeps=1,
        ),
    ),
    hints=(
        "Check each line by its meaning. Work = force × way.",
        "A torque of 1 N mm is 1 N on an arm of 1 mm. In one turn it goes 2 π mm.",
        "A similar case: 1000 N, lead 12 mm, 12000 N mm. 12000 ÷ (6.283 × 12000) = 15.9 %.",
    ),
    marks=2,
    outcome=OUTCOME,
)
