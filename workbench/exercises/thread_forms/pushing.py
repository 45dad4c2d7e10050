"""What a sloping flank costs: outward push, a split nut, friction, efficiency, and a thread that runs back."""

import math

from workbench.exercises.draws import as_round, third_figure, up
from workbench.exercises.exercise import Exercise, Misstep, Quantity
from workbench.exercises.thread_forms.outcomes import PUSH as OUTCOME
from workbench.exercises.thread_forms.sizes import moving, tangent
from workbench.tables import table
from workbench.threads.flank import efficiency, friction_angle_deg, radial_load_n
from workbench.threads.profile import profile

_WHOLE = {"trapezoidal": 30, "Acme": 29}  # angle between the flanks


def _tan(degrees):
    return math.tan(math.radians(degrees))


def _cos(degrees):
    return math.cos(math.radians(degrees))


def _atan(value):
    return math.degrees(math.atan(value))


def _push(v):
    return radial_load_n(v["force"], v["whole"] / 2)


def _push_draws():
    draws = [
        {"form": form, "whole": whole, "force": force, "tan_half": tangent(whole / 2), "tan_whole": tangent(whole)}
        for form, whole in _WHOLE.items()
        for force in range(2300, 9900, 200)
    ]
    return [draw for draw in draws if draw["force"] % 1000]


def _push_spread(v):
    return up(0.00005 * v["force"] + third_figure(_push(v)), 1)


def _climbing():
    """Call-out, angles and lead angle of moving threads of ISO 2902 and ASME B1.5."""
    for row in moving((3, 4, 5, 6, 7, 8), largest=44):
        one = profile("trapezoidal", row["size"], row["pitch"])
        yield {"call": f"Tr{row['size']:g} × {row['pitch']:g}", "whole": 30, "climb": round(one.lead_angle_deg, 2)}
    for row in table("acme_sizes").rows.values():
        if 0.5 <= row["major_in"] <= 2:
            one = profile("acme", 25.4 * row["major_in"], 25.4 / row["threads_per_inch"])
            call = f"{row['size']}-{row['threads_per_inch']:g} Acme"
            yield {"call": call, "whole": 29, "climb": round(one.lead_angle_deg, 2)}


def _friction(v):
    return friction_angle_deg(v["rubs"], v["whole"] / 2)


def _friction_draws():
    draws = [
        {**thread, "rubs": rubs, "cos_half": round(_cos(thread["whole"] / 2), 3),
         "cos_whole": round(_cos(thread["whole"]), 3)}
        for thread in _climbing()
        for rubs in (0.11, 0.12, 0.13, 0.14, 0.16)
    ]  # fmt: skip
    draws = as_round(draws, lambda v: round(_friction(v), 2), 2)
    draws = as_round(draws, lambda v: v["climb"], 2)
    return as_round(draws, lambda v: round(100 * efficiency(v["climb"], v["rubs"], v["whole"] / 2), 1), 1)


def _share(v, friction):
    return 100 * _tan(v["climb"]) / _tan(v["climb"] + friction)


def _share_spread(v):
    """Half the last figure; upper tangent, lower tangent and friction angle kept to three figures."""
    top, bottom = _tan(v["climb"]), _tan(v["climb"] + v["earlier"])
    lost = 0.00005 / top + third_figure(bottom) / bottom + third_figure(v["earlier"]) / (v["climb"] + v["earlier"])
    return up(0.05 + _share(v, v["earlier"]) * lost, 0.1)


def _excess(v):
    return v["climb"] - friction_angle_deg(v["shaken"], v["whole"] / 2)


def _excess_draws():
    """Two and three starts: they hold by the dry coefficient and run back by the shaken one."""
    draws = [
        {
            **row, "starts": starts, "whole": 30, "dry": 0.16, "shaken": shaken,
            "climb": round(profile("trapezoidal", row["size"], row["pitch"], starts).lead_angle_deg, 2),
        }
        for row in moving((4, 5, 6, 7, 8, 9, 10), largest=80)
        for starts in (2, 3)
        for shaken in (0.04, 0.05, 0.06)
    ]  # fmt: skip
    draws = [d for d in draws if _excess(d) > 0.5 and d["climb"] < friction_angle_deg(d["dry"], 15) - 0.3]
    draws = as_round(draws, lambda v: v["climb"], 2)
    return as_round(draws, lambda v: round(_excess(v), 2), 2)


PUSH = Exercise(
    key="thread_forms.push",
    asks="A bronze nut carries {force} N along its axis. Its thread is {form}: {whole}° between the flanks. "
    "A workmate has begun:\n"
    "Outward push = thrust × tangent of the flank angle.\n"
    "He looks up tan {whole}° = {tan_whole:.4f} and tan of half that angle = {tan_half:.4f}.\n"
    "Outward push, all round the nut: ? N.\n\n"
    "Fill in the last line.",
    answer=Quantity("N", 1, (1, 100000), spread=_push_spread),
    draws=_push_draws,
    right=_push,
    missteps=(
        Misstep(
            "included-angle-used",
            lambda v: radial_load_n(v["force"], v["whole"]),
            "{entry} agrees with the whole angle between the flanks.",
            "Draw one flank and a line square to the axis. How large is the angle between them?",
        ),
        Misstep(
            "no-push-at-all",
            lambda v: 0,
            "{entry} agrees with a square thread.",
            "Press a cone into a ring that is cut open. What does the ring do?",
        ),
        Misstep(
            "divided-by-the-tangent",
            lambda v: v["force"] / _tan(v["whole"] / 2),
            "{entry} agrees with a push that is larger than the thrust.",
            "The flank leans a little only. Is the push larger or smaller than the thrust?",
        ),
        Misstep(
            "sine-for-tangent",
            lambda v: v["force"] * math.sin(math.radians(v["whole"] / 2)),
            "{entry} agrees with the sine of the flank angle.",
            "The thrust runs along the screw, the push across it. Draw both with a square corner between them.",
        ),
        Misstep(
            "whole-thrust",
            lambda v: v["force"],
            "{entry} agrees with the whole thrust.",
            "The thrust runs along the screw. Which share of it goes outward?",
        ),
    ),
    hints=(
        "The flank angle is counted from a line square to the axis. Both flanks lean alike.",
        "So the flank angle is half of the angle between the flanks.",
        "A similar case: a metric nut of 60°, 100 N. tan 30° = 0.5774. The push is 57.7 N.",
    ),
    marks=1,
    outcome=OUTCOME,
)

PARTING = Exercise(
    key="thread_forms.parting",
    asks="The same nut is now split lengthwise into two half nuts. The thrust is {force} N as before. "
    "What parts the halves is the outward push of the whole nut ÷ π. Take π = 3.142. "
    "With which force is each half pushed away? Start from the push that you found.",
    answer=Quantity("N", 1, (1, 100000), spread=lambda v: up(_push_spread(v) / math.pi + 0.0002 * v["earlier"], 1)),
    draws=_push_draws,
    right=lambda v: v["earlier"] / math.pi,
    missteps=(
        Misstep(
            "shared-by-two",
            lambda v: v["earlier"] / 2,
            "{entry} agrees with the push shared between two halves.",
            "Draw arrows all round a ring of paper. How many point straight across the split?",
        ),
        Misstep(
            "whole-push",
            lambda v: v["earlier"],
            "{entry} agrees with the whole push on each half.",
            "The push points all ways. Much of it stays within a half.",
        ),
        Misstep(
            "pi-multiplied",
            lambda v: v["earlier"] * math.pi,
            "{entry} agrees with the push times π.",
            "Is the parting force larger or smaller than the push all round?",
        ),
        Misstep(
            "shared-once-more",
            lambda v: v["earlier"] / (2 * math.pi),
            "{entry} agrees with a parting force that is halved once more.",
            "Push ÷ π holds for each half already. Leave it.",
        ),
    ),
    hints=(
        "Push a hoop from inside, all round. Only what points across the split parts it.",
        "Parting force on each half = outward push ÷ π.",
        "A similar case: an outward push of 100 N. Each half is pushed with 100 ÷ 3.142 = 31.8 N.",
    ),
    marks=1,
    outcome=OUTCOME,
    follows=PUSH,
)

FRICTION = Exercise(
    key="thread_forms.friction",
    asks="A screw {call} has {whole}° between its flanks. Its coefficient of friction is {rubs:g}. "
    "cos {whole}° = {cos_whole:.3f}, and the cosine of half that angle is {cos_half:.3f}. "
    "How large is the friction angle on its flank?",
    answer=Quantity("deg", 0.01, (0.5, 60), spread=lambda v: 0.03),
    draws=_friction_draws,
    right=_friction,
    missteps=(
        Misstep(
            "flank-left-out",
            lambda v: _atan(v["rubs"]),
            "{entry} agrees with a square thread.",
            "A sloping flank wedges. Divide the coefficient by its cosine first.",
        ),
        Misstep(
            "included-angle-used",
            lambda v: friction_angle_deg(v["rubs"], v["whole"]),
            "{entry} agrees with the whole angle between the flanks.",
            "One flank leans by half of that angle. Use the other cosine.",
        ),
        Misstep(
            "cosine-multiplied",
            lambda v: _atan(v["rubs"] * _cos(v["whole"] / 2)),
            "{entry} agrees with a slope that makes the thread slippery.",
            "Does a wedge hold more or less than a flat face? Multiply or divide?",
        ),
        Misstep(
            "tangent-for-angle",
            lambda v: v["rubs"] / _cos(v["whole"] / 2),
            "{entry} agrees with the tangent itself, or an angle in radians.",
            "Press the tan⁻¹ key once more. Does the display say DEG?",
        ),
    ),
    hints=(
        "The slope raises the friction: coefficient ÷ cosine of the flank angle.",
        "The friction angle is tan⁻¹ of that.",
        "A similar case: a metric thread, 0.20. cos 30° = 0.866. 0.20 ÷ 0.866 = 0.231. The friction angle is 13.00°.",
    ),
    marks=1,
    outcome=OUTCOME,
)

EFFICIENCY = Exercise(
    key="thread_forms.efficiency",
    asks="The same screw, {call}. Its lead angle is {climb:g}°. "
    "Efficiency = tangent of the lead angle ÷ tangent of (lead angle + friction angle). "
    "What part of your work lifts the load, in percent? Start from the friction angle that you found.",
    answer=Quantity("percent", 0.1, (0.1, 300), spread=_share_spread),
    draws=_friction_draws,
    right=lambda v: _share(v, v["earlier"]),
    missteps=(
        Misstep(
            "climb-left-out-below",
            lambda v: 100 * _tan(v["climb"]) / _tan(v["earlier"]),
            "{entry} agrees with the friction angle alone below the line.",
            "Your hand must climb and rub. Add the two angles before you press tan.",
        ),
        Misstep(
            "loss-given",
            lambda v: 100 - _share(v, v["earlier"]),
            "{entry} agrees with the part that is lost in friction.",
            "Asked is the part that lifts. The two make 100 %.",
            keeps=1,
        ),
        Misstep(
            "turned-upside-down",
            lambda v: 1e4 / _share(v, v["earlier"]),
            "{entry} agrees with a screw that gives more work than it gets.",
            "Which tangent stands above the line?",
        ),
        Misstep(
            "lead-angle-alone",
            lambda v: 100 * _tan(v["climb"]),
            "{entry} agrees with the slope of the thread.",
            "That is the upper tangent. Divide it by the lower one.",
        ),
    ),
    hints=(
        "First add the two angles. Then take the two tangents.",
        "Divide the smaller tangent by the larger one, and multiply by 100.",
        "A similar case: lead angle 20°, friction angle 10°. 0.3640 ÷ 0.5774 = 0.630. The efficiency is 63.0 %.",
    ),
    marks=2,
    outcome=OUTCOME,
    follows=FRICTION,
)

CREEPS = Exercise(
    key="thread_forms.creeps",
    asks="A lifting screw Tr{size:g}, pitch {pitch:g} mm, {starts} starts, has a lead angle of {climb:g}°. "
    "Dry, its coefficient of friction is {dry:g}, and it holds its load. "
    "Oiled and shaken, the coefficient falls to {shaken:g}. "
    "The cosine of its flank angle is 0.966. "
    "By how many degrees is the lead angle now larger than the friction angle?",
    answer=Quantity("deg", 0.01, (-60, 60), spread=lambda v: 0.01),
    draws=_excess_draws,
    right=_excess,
    missteps=(
        Misstep(
            "dry-coefficient-used",
            lambda v: v["climb"] - friction_angle_deg(v["dry"], v["whole"] / 2),
            "{entry} agrees with the dry thread.",
            "What has oil and shaking made of the coefficient?",
        ),
        Misstep(
            "flank-left-out",
            lambda v: v["climb"] - _atan(v["shaken"]),
            "{entry} agrees with a square thread.",
            "Divide the coefficient by the cosine of the flank angle first.",
            keeps=1,
        ),
        Misstep(
            "taken-the-other-way",
            lambda v: -_excess(v),
            "{entry} agrees with friction angle less lead angle. A minus there means that the load runs back.",
            "Asked is lead angle less friction angle.",
            keeps=1,
        ),
        Misstep(
            "friction-angle-alone",
            lambda v: friction_angle_deg(v["shaken"], v["whole"] / 2),
            "{entry} agrees with the friction angle alone.",
            "That is sound. Compare it with the lead angle.",
            keeps=1,
        ),
    ),
    hints=(
        "First the friction angle now: tan⁻¹ of (coefficient ÷ cosine).",
        "Then take it off the lead angle. What is left drives the load down.",
        "A similar case: lead angle 14.00°, coefficient 0.20, cosine 0.866. "
        "Friction angle 13.00°. The lead angle is larger by 1.00°.",
    ),
    marks=2,
    outcome=OUTCOME,
)
