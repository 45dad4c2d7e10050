"""Which screw for which machine, how fast it travels, and a buttress screw that is turned round."""

import math
from itertools import permutations

from workbench.exercises.draws import as_round, third_figure, up
from workbench.exercises.exercise import Choice, Exercise, Misstep, Quantity
from workbench.exercises.thread_forms.sizes import moving
from workbench.exercises.threads_that_move.outcomes import CHOOSE as OUTCOME
from workbench.exercises.threads_that_move.screws import tan
from workbench.screws.power import raising_torque_nmm
from workbench.screws.power_drive import travel_speed_mm_s
from workbench.threads.flank import friction_angle_deg
from workbench.threads.profile import profile

_SCREWS = {
    "one": "Trapezoidal, one start: it moves under load both ways, and a nut in two halves closes on it.",
    "three": "Trapezoidal, three starts: it goes far in one turn, but may run back under load.",
    "buttress": "Buttress, one start, steep flank to the load: a great thrust one way, hardly spreading the nut.",
    "fine": "Fine metric, one start: a very small step for each turn, then a lock nut holds it.",
}

_JOBS = {
    "one": (
        "A lathe's feed pushes the slide both ways. Its nut must open and close while the screw turns.",
        "The lead screw of a lathe cuts threads both ways. Its nut opens in two halves after each cut.",
    ),
    "three": (
        "A valve on the water tank must open fully in two turns. Nothing pushes its spindle back.",
        "A guard is wound out of the way in two turns. It slides level, and nothing pushes it back.",
    ),
    "buttress": (
        "A screw jack carries the hoist. Its great load always presses down. The whole, thin nut must not burst.",
        "A press pushes very hard, always down, and goes back without load. Its whole, thin nut must not burst.",
    ),
    "fine": (
        "The lower stop of a press is set by hundredths of a millimetre. After that nothing may move.",
        "The zero of a lathe's stop is adjusted by hundredths of a millimetre, and then stays so.",
    ),
}


def _job_draws():
    return [
        {"job": job, "best": best, "order": order}
        for best, jobs in _JOBS.items()
        for job in jobs
        for order in permutations(_SCREWS)
    ]


def _unless_best(screw):
    return lambda v: None if v["best"] == screw else screw


def _way(v, minutes=False):
    one = profile("trapezoidal", v["size"], v["pitch"], v["starts"])
    return travel_speed_mm_s(v["turns"], one) * (60 if minutes else 1)


def _way_draws():
    draws = [
        {**row, "starts": starts, "turns": turns}
        for row in moving((3, 4, 5, 6, 7), smallest=14, largest=30)
        for starts in (2, 3)
        for turns in (33, 39, 42, 51, 66, 78, 84, 93)
    ]
    return as_round(draws, _way, 1)


def _turned(v, side="clearance"):
    return raising_torque_nmm(v["force"], profile(v["form"], v["size"], v["pitch"]), v["rubs"], side) / 1000


def _friction(v):
    return friction_angle_deg(v["rubs"], v["other"])


def _turned_draws():
    draws = []
    for form, load, other in (("buttress 3/30", 3, 30), ("buttress 7/45", 7, 45)):
        for row in moving((4, 5, 6, 7, 8), largest=52):
            for rubs, force in ((0.12, 9300), (0.13, 7700), (0.14, 8600), (0.16, 6200)):
                one = profile(form, row["size"], row["pitch"])
                draws.append({
                    "form": form, **row, "mean": round(one.pitch_diameter_mm, 2), "climb": round(one.lead_angle_deg, 2),
                    "rubs": rubs, "force": force, "load": load, "other": other,
                    "cos_load": round(math.cos(math.radians(load)), 3),
                    "cos_other": round(math.cos(math.radians(other)), 3),
                })  # fmt: skip
    draws = [draw for draw in draws if round(_turned(draw), 1) != draw["mean"]]
    return as_round(draws, lambda v: round(_turned(v), 1), 1)


def _turned_spread(v):
    """Half the last figure; friction angle and tangent kept to three figures, lead angle and cosine as printed."""
    angle, arm = v["climb"] + _friction(v), v["force"] * v["mean"] / 2000
    lost = (third_figure(_friction(v)) + 0.005 + 0.0007 * _friction(v)) / angle
    lost += third_figure(10 * tan(angle)) / (10 * tan(angle)) + third_figure(arm) / arm
    return up(0.05 + _turned(v) * lost, 0.1)


JOB = Exercise(
    key="threads_that_move.job",
    asks="{job} Which screw serves best, and why?",
    answer=Choice(_SCREWS),
    draws=_job_draws,
    right=lambda v: v["best"],
    missteps=(
        Misstep(
            "one-start-out-of-place",
            _unless_best("one"),
            "Your choice agrees with a screw that works both ways under load.",
            "Read again: from which side is the load, how far is a turn, how fine is a step?",
        ),
        Misstep(
            "many-starts-out-of-place",
            _unless_best("three"),
            "Your choice agrees with a screw that must go far in few turns.",
            "Read again: is there a load that could turn this screw back?",
        ),
        Misstep(
            "buttress-out-of-place",
            _unless_best("buttress"),
            "Your choice agrees with a great thrust that always comes from one side.",
            "Read again: does this screw carry such a thrust, always from the same side?",
        ),
        Misstep(
            "fine-thread-out-of-place",
            _unless_best("fine"),
            "Your choice agrees with a screw that is set once and then locked.",
            "Read again: does this screw move while it carries?",
        ),
    ),
    hints=(
        "Ask in this order: does it move under load? From which side? How far must one turn go?",
        "Then ask what the nut is: in two halves, or whole and thin.",
        "A similar case: a tap for water turns a quarter of a turn, from shut to open. It has a steep thread.",
    ),
    marks=1,
    outcome=OUTCOME,
)

SECOND = Exercise(
    key="threads_that_move.second",
    asks="A valve has a spindle Tr{size:g}, pitch {pitch:g} mm, with {starts} starts. "
    "A hand wheel turns it {turns} times a minute. How far does the spindle travel in one second?",
    answer=Quantity("mm", 0.1, (0.1, 2000)),
    draws=_way_draws,
    right=_way,
    missteps=(
        Misstep(
            "minutes-left-in",
            lambda v: _way(v, minutes=True),
            "{entry} agrees with the travel of a whole minute.",
            "How many seconds has a minute?",
        ),
        Misstep(
            "starts-left-out",
            lambda v: _way(v) / v["starts"],
            "{entry} agrees with one start.",
            "How far does one turn go when several ridges run side by side?",
        ),
        Misstep(
            "divided-by-the-starts",
            lambda v: _way(v) / v["starts"] ** 2,
            "{entry} agrees with a pitch that is shared among the starts.",
            "Pitch is from one ridge to the next already. More starts: more travel or less?",
        ),
        Misstep(
            "turns-left-out",
            lambda v: v["pitch"] * v["starts"],
            "{entry} agrees with the travel of one turn.",
            "That is the lead. How many turns does the wheel make in a second?",
        ),
    ),
    hints=(
        "First the travel of one turn: lead = pitch × starts.",
        "Then the turns in one second: turns a minute ÷ 60.",
        "A similar case: pitch 12 mm, 2 starts, 30 turns a minute. 24 × 0.5 = 12 mm.",
    ),
    marks=1,
    outcome=OUTCOME,
)

TURNED = Exercise(
    key="threads_that_move.turned_round",
    asks="A jack has a buttress screw {size:g} × {pitch:g}. Somebody has put screw and nut in upside down. "
    "Its load of {force} N should rest on the flank of {load}°, but rests on the flank of {other}°. "
    "Mean diameter {mean:g} mm, lead angle {climb:g}°, coefficient of friction {rubs:g}. "
    "cos {load}° = {cos_load:.3f}, cos {other}° = {cos_other:.3f}. "
    "Which torque does the thread need now, to lift? The picture shows it lying. F is the load.",
    answer=Quantity("N*m", 0.1, (0.1, 2000), spread=_turned_spread),
    draws=_turned_draws,
    right=_turned,
    missteps=(
        Misstep(
            "right-way-round",
            lambda v: _turned(v, "load"),
            "{entry} agrees with the screw the right way round.",
            "On which flank does the load rest now? Take the cosine of that one.",
            keeps=1,
        ),
        Misstep(
            "cosine-multiplied",
            lambda v: v["force"] * v["mean"] / 2000
            * tan(v["climb"] + math.degrees(math.atan(v["rubs"] * math.cos(math.radians(v["other"]))))),
            "{entry} agrees with a sloping flank that is slippery.",
            "Does a wedge rub more or less than a flat face? Multiply or divide?",
        ),
        Misstep(
            "angle-between-the-flanks",
            lambda v: v["force"] * v["mean"] / 2000
            * tan(v["climb"] + friction_angle_deg(v["rubs"], v["load"] + v["other"])),
            "{entry} agrees with the angle between the two flanks.",
            "Only one flank carries. How far does that one lean?",
        ),
        Misstep(
            "diameter-for-radius",
            lambda v: 2 * _turned(v),
            "{entry} agrees with the whole mean diameter as the arm.",
            "How far is the ridge from the middle of the screw?",
            keeps=1,
        ),
        Misstep(
            "lead-angle-left-out",
            lambda v: v["force"] * v["mean"] / 2000 * tan(_friction(v)),
            "{entry} agrees with a thread that does not climb.",
            "The load must rise too. Which angle says how steeply?",
        ),
    ),  # fmt: skip
    hints=(
        "First the friction angle on the flank that carries: tan⁻¹ of (coefficient ÷ its cosine).",
        "Then, as before: load × mean radius × tan(lead angle + friction angle).",
        "A similar case: 100000 N, mean diameter 94 mm, lead angle 2°, coefficient 0.20, cosine 0.5. "
        "Friction angle 21.8°. 100000 × 0.047 × tan 23.8° = 2073 N m.",
    ),
    marks=2,
    outcome=OUTCOME,
    shows=lambda v: ("thread_forms", {"form": v["form"], "major_mm": v["size"], "pitch_mm": v["pitch"], "away": False,
                                      "loaded": True}),
)
