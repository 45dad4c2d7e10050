"""What holds a load: the steps before anybody reaches in, the least friction, and a bearing that takes it away."""

from itertools import permutations

from workbench.exercises.draws import as_round, third_figure, up
from workbench.exercises.exercise import Exercise, Misstep, Order, Quantity
from workbench.exercises.threads_that_move.outcomes import HOLD as OUTCOME
from workbench.exercises.threads_that_move.screws import COSINE, lifting, tan, thread
from workbench.screws.power import (
    collar_torque_nmm,
    efficiency_of,
    least_coefficient,
    lowering_torque_nmm,
    raising_torque_nmm,
)

_STEPS = {
    "raise": "Raise the load with the crank, a little higher than needed.",
    "prop": "Push the prop under it, upright, on firm ground.",
    "rest": "Lower the load until it rests on the prop.",
    "work": "Reach in and do the work.",
}
_RIGHT_ORDER = ("raise", "prop", "rest", "work")


def _step_draws():
    """Orders of the list that give nothing away: the right order itself is not listed so."""
    return [
        {"part": part, "margin": margin, "order": order}
        for part, margin in (("gear box", 1.8), ("water tank", 2.1), ("sand box", 2.4))
        for order in permutations(_STEPS)
        if order != _RIGHT_ORDER
    ]


def _least(v):
    return least_coefficient(thread(v))


def _least_draws():
    draws = lifting(range(4, 15), (0.12,), starts=(1, 2, 3), smallest=18, largest=80, step=("usual", "coarse"))
    draws = [{**draw, "tangent": round(tan(draw["climb"]), 4)} for draw in draws if 4 < draw["climb"] < 12]
    draws = [{name: draw[name] for name in ("size", "pitch", "starts", "climb", "tangent")} for draw in draws]
    return as_round(draws, lambda v: round(_least(v), 3), 3)


def _least_spread(v):
    """Half the last figure, and the printed tangent kept to three figures."""
    return up(0.0005 + third_figure(10 * v["tangent"]) / 10, 0.0001)


def _thread_back(v):
    """Torque with which the load drives the thread."""
    return -lowering_torque_nmm(v["force"], thread(v), v["rubs"]) / 1000


def _collar(v):
    return collar_torque_nmm(v["force"], v["under"], v["collar"]) / 1000


def _raising(v):
    return raising_torque_nmm(v["force"], thread(v), v["rubs"]) / 1000


def _bearing_draws():
    """Screws that stay with their plain collar, lift with under half of the work, and run back without it."""
    draws = []
    for screw in lifting((5, 6, 7, 8, 9, 10), (0.08, 0.09, 0.1), starts=(2, 3), smallest=24, largest=60):
        for force in (4300, 5900, 7600, 9200):
            draw = {**screw, "force": force, "under": 0.13, "collar": round(1.4 * screw["size"])}
            if draw["climb"] - draw["friction"] < 2.5 or _collar(draw) < 1.3 * _thread_back(draw):
                continue
            torque = 1000 * (_raising(draw) + _collar(draw))
            draw["share"] = round(100 * efficiency_of(force, screw["pitch"] * screw["starts"], torque))
            if draw["share"] < 48:
                draws.append(draw)
    return as_round(draws, lambda v: round(_thread_back(v), 1), 1)


def _back_spread(v):
    left = v["climb"] - v["friction"]
    return up(0.05 + _thread_back(v) * (0.01 / left + third_figure(10 * tan(left)) / 10 / tan(left)), 0.1)


BEFORE = Exercise(
    key="threads_that_move.before_reaching",
    asks="The {part} must be lifted with a screw jack, and somebody must reach in under its edge. "
    "The thread stays by itself: its friction is {margin:g} times what it needs. "
    "In which order are the four steps done?",
    answer=Order(_STEPS),
    draws=_step_draws,
    right=lambda v: _RIGHT_ORDER,
    missteps=(
        Misstep(
            "prop-stands-beside-the-load",
            lambda v: ("raise", "prop", "work", "rest"),
            "Your order agrees with a prop that carries nothing while the work is done.",
            "What carries the load at the moment when the hand goes in?",
        ),
        Misstep(
            "thread-trusted",
            lambda v: ("raise", "work", "prop", "rest"),
            "Your order agrees with a load that only friction holds. Oil and shaking take friction away.",
            "Which step makes the load safe without friction?",
        ),
        Misstep(
            "prop-before-the-lift",
            lambda v: ("prop", "raise", "rest", "work"),
            "Your order agrees with a prop that is set under a load which still lies low.",
            "Is there room for the prop before the load is up?",
        ),
        Misstep(
            "lowered-before-the-prop",
            lambda v: ("raise", "rest", "prop", "work"),
            "Your order agrees with a load that is let down before the prop stands.",
            "On what can the load rest at that moment?",
        ),
    ),
    hints=(
        "Ask at each step: what carries the load now?",
        "Nobody reaches in before the load rests on something that needs no friction.",
        "A similar case, at a car: jack up, set the stand, let the car down on it. Only then take off the wheel.",
    ),
    marks=1,
    outcome=OUTCOME,
    critical=True,
)

LEAST = Exercise(
    key="threads_that_move.least",
    asks="A jack has a screw Tr{size:g}, pitch {pitch:g} mm, starts: {starts}. Its lead angle is {climb:g}°. "
    "A workmate asks how much friction it needs to stay where it is. He has begun:\n"
    "It stays while tan(friction angle) is at least tan {climb:g}° = {tangent:.4f}.\n"
    "On a sloping flank tan(friction angle) = coefficient ÷ cos(flank angle). The cosine of its flank is 0.966.\n"
    "Least coefficient = ?\n\n"
    "Fill in the last line.",
    answer=Quantity("", 0.001, (0.001, 2), spread=_least_spread),
    draws=_least_draws,
    right=_least,
    missteps=(
        Misstep(
            "flank-left-out",
            lambda v: tan(v["climb"]),
            "{entry} agrees with a square thread.",
            "A sloping flank wedges, so it holds with a little less. Use its cosine.",
        ),
        Misstep(
            "cosine-divided",
            lambda v: tan(v["climb"]) / COSINE,
            "{entry} agrees with a sloping flank that holds worse than a square one.",
            "Turn the second line round: coefficient = ?",
        ),
        Misstep(
            "degrees-for-a-coefficient",
            lambda v: v["climb"],
            "{entry} agrees with an angle in degrees.",
            "A coefficient is compared with a tangent. Write the unit beside both.",
        ),
        Misstep(
            "whole-angle-used",
            lambda v: tan(v["climb"]) * (2 * COSINE**2 - 1),
            "{entry} agrees with the whole angle of 30° between the flanks.",
            "The flank leans by half of that angle. Take the cosine that is printed.",
        ),
    ),
    hints=(
        "Put the two lines together: coefficient ÷ 0.966 must be at least the tangent.",
        "Least coefficient = tangent of the lead angle × cosine of the flank angle.",
        "A similar case: a metric thread, lead angle 20°. tan 20° = 0.364, cosine 0.866. 0.364 × 0.866 = 0.315.",
    ),
    marks=1,
    outcome=OUTCOME,
)

BEARING = Exercise(
    key="threads_that_move.bearing",
    asks="A jack Tr{size:g}, pitch {pitch:g} mm, has {starts} starts. It carries {force} N and stays. "
    "A prop stands under the load. With its plain collar only {share} % of the work lifts. "
    "Somebody fits a ball bearing in place of the collar, to make it turn easily. Take its friction as nil. "
    "Mean diameter {mean:g} mm, lead angle {climb:g}°, friction angle {friction:g}°. "
    "Which torque must a brake now hold?",
    answer=Quantity("N*m", 0.1, (-2000, 2000), spread=_back_spread),
    draws=_bearing_draws,
    right=_thread_back,
    missteps=(
        Misstep(
            "rule-of-thumb-trusted",
            lambda v: 0,
            "{entry} agrees with the rule “under half of the work lifts, so it stays”.",
            "The collar held this screw. Where has its friction gone?",
        ),
        Misstep(
            "angles-added",
            _raising,
            "{entry} agrees with the torque that lifts.",
            "The load drives the screw down. Which angle helps it, and which one is against it?",
        ),
        Misstep(
            "sign-turned-round",
            lambda v: -_thread_back(v),
            "{entry} agrees with friction angle less lead angle. A minus there means that it runs down.",
            "Say how much must be held: take the smaller angle off the larger one.",
            keeps=1,
        ),
        Misstep(
            "diameter-for-radius",
            lambda v: 2 * _thread_back(v),
            "{entry} agrees with the whole mean diameter as the arm.",
            "How far is the ridge from the middle of the screw?",
            keeps=1,
        ),
        Misstep(
            "friction-left-out",
            lambda v: v["force"] * v["mean"] / 2000 * tan(v["climb"]),
            "{entry} agrees with a thread that has no friction either.",
            "Only the collar lost its friction. What does the thread still hold?",
        ),
    ),
    hints=(
        "Compare the two angles. Does the thread alone stay?",
        "What is left over drives the screw: load × mean radius × tan(lead angle − friction angle).",
        "A similar case: 100000 N, mean diameter 94 mm, lead angle 12°, friction angle 6°. "
        "100000 × 0.047 × tan 6° = 494 N m.",
    ),
    marks=2,
    outcome=OUTCOME,
    critical=True,
)
