"""Which form for which load and motion, which way round, and what keeps a lifted load up."""

from itertools import permutations

from workbench.exercises.draws import third_figure, up
from workbench.exercises.exercise import Choice, Exercise, Misstep, Quantity
from workbench.exercises.thread_forms.outcomes import CHOOSE
from workbench.exercises.thread_forms.sizes import tangent
from workbench.threads.flank import radial_load_n

_HOLDS = {
    "stop": "A positive stop, pawl or prop, set and checked first: it needs no friction.",
    "friction": "The thread alone: its friction angle is the larger one, so it cannot run back.",
    "hand": "A workmate's hand on the crank: he feels it when the load begins to creep.",
    "dry": "The thread, wiped free of oil first: a dry thread has the most friction.",
}

_FORMS = {
    "metric": "Metric, 60°: its sloping flanks grip, and taps and dies are cheap.",
    "trapezoidal": "Trapezoidal, 30°: strong both ways, and sloping enough for a half nut to drop in.",
    "buttress": "Buttress, 3° and 30°: one steep flank for the load, and a thick root.",
    "square": "Square, 0°: no outward push at all, but slow and dear to cut.",
}

_JOBS = {
    "metric": (
        "The hinge of the instrument case is fastened to its lid. Nothing may move. The screws must be cheap.",
        "The foot of the hoist is bolted to the bench. It must stay tight. The bolts must be cheap.",
        "A cover is fastened to the gear box of the hoist. It must stay tight. The screws must be cheap.",
    ),
    "trapezoidal": (
        "A slide is driven both ways under load. A nut in two halves must drop onto the turning screw.",
        "A carriage is pushed and pulled along a bed. Its nut opens in two halves and closes again.",
        "A feed screw works in both directions. A split nut must close on it at any place.",
    ),
    "buttress": (
        "A press pushes very hard, always the same way. The way back is free of load.",
        "A clamp takes a heavy thrust from one side only. Nothing ever pulls it the other way.",
        "A spindle carries a great load, always from the same side. It goes back empty.",
    ),
    "square": (
        "A thin bronze sleeve is the nut. It must not be pushed open at all, loaded from either side.",
        "A screw moves a load both ways in a thin whole nut. The nut bears no outward push. Cost does not count.",
        "A test rig needs a screw that pushes its nut along the axis only, both ways. Cost does not count.",
    ),
}

_FLANKS = {
    "steep": "The steep flank: it pushes along the screw and hardly opens the nut.",
    "shallow": "The shallow flank: it is the longer one, so it wears less.",
    "either": "Either flank: a screw bears the same load both ways round.",
    "both": "Both flanks, half each: with a tight nut they share the load.",
}


def _hold_draws():
    """Lead angles below the friction angle, so that the tempting reason is true on paper."""
    return [
        {"part": part, "climb": climb, "friction": friction, "order": order}
        for part, climb, friction in (("gear box", 3.8, 6.9), ("water tank", 4.2, 7.3), ("sand box", 4.6, 7.8))
        for order in permutations(_HOLDS)
    ]


def _form_draws():
    return [
        {"job": job, "best": best, "order": order}
        for best, jobs in _JOBS.items()
        for job in jobs
        for order in permutations(_FORMS)
    ]


def _unless_best(form):
    return lambda v: None if v["best"] == form else form


def _flank_draws():
    return [
        {"part": part, "load": load, "other": other, "order": order}
        for part in ("press", "clamp")
        for load, other in ((3, 30), (7, 45))
        for order in permutations(_FLANKS)
    ]


def _both(v):
    return radial_load_n(v["force"], v["load"]), radial_load_n(v["force"], v["other"])


def _more(v):
    right_way, wrong_way = _both(v)
    return wrong_way - right_way


def _more_spread(v):
    right_way, wrong_way = _both(v)
    return up(third_figure(right_way) + third_figure(wrong_way) + 0.0001 * v["force"], 1)


def _more_draws():
    return [
        {"force": force, "load": load, "other": other, "tan_load": tangent(load), "tan_other": tangent(other)}
        for force in range(2100, 9800, 300)
        for load, other in ((3, 30), (7, 45))
    ]


HOLD = Exercise(
    key="thread_forms.hold",
    asks="A screw has lifted the {part}. Its lead angle is {climb:g}°, its friction angle {friction:g}°. "
    "Somebody must work beside the raised load. What must keep it up, and why?",
    answer=Choice(_HOLDS),
    draws=_hold_draws,
    right=lambda v: "stop",
    missteps=(
        Misstep(
            "trust-in-friction",
            lambda v: "friction",
            "Your choice suits a thread that is never shaken or oiled. Friction can fall without a warning.",
            "What happens to the friction angle when oil comes and a machine shakes the bench?",
        ),
        Misstep(
            "held-by-hand",
            lambda v: "hand",
            "Your choice suits a person as a stop. A crank that runs back breaks an arm.",
            "Which choice still holds when the person looks away?",
        ),
        Misstep(
            "dry-thread-trusted",
            lambda v: "dry",
            "Your choice suits a dry thread. It wears and seizes, and shaking still loosens it.",
            "Which choice needs no friction?",
        ),
    ),
    hints=(
        "Ask of each choice: what if its friction goes?",
        "A positive stop bears the load by its shape.",
        "A similar case, at the car jack: nobody goes under the car before stands bear it.",
    ),
    marks=1,
    outcome=CHOOSE,
    critical=True,
)

CHOOSE_FORM = Exercise(
    key="thread_forms.choose",
    asks="{job} Which form do you choose, and why?",
    answer=Choice(_FORMS),
    draws=_form_draws,
    right=lambda v: v["best"],
    missteps=(
        Misstep(
            "metric-for-a-job-that-moves",
            _unless_best("metric"),
            "Your choice suits a thread that fastens. Its flanks rub hard and push the nut open.",
            "Does this thread fasten, or does it carry a load while it turns?",
        ),
        Misstep(
            "trapezoidal-out-of-place",
            _unless_best("trapezoidal"),
            "Your choice suits a screw that moves both ways, with a nut that may be split.",
            "Read the job again: which way is the load, and what may the nut bear?",
        ),
        Misstep(
            "buttress-out-of-place",
            _unless_best("buttress"),
            "Your choice suits a thrust from one side only.",
            "Read the job again: does the load always come from the same side?",
        ),
        Misstep(
            "square-out-of-place",
            _unless_best("square"),
            "Your choice suits a nut that must not be pushed outward at all, whatever it costs.",
            "Read the job again: what does it say of cost, or of a nut that must close?",
        ),
    ),
    hints=(
        "Ask in this order: does it fasten or move? From which side is the load? What nut is it?",
        "Then look at the table of forms, line by line.",
        "A similar case: a jar lid fastens and must be cheap. It gets sloping, rounded flanks.",
    ),
    marks=1,
    outcome=CHOOSE,
)

BUTTRESS = Exercise(
    key="thread_forms.buttress",
    asks="You build a {part} with a buttress screw. One flank leans by {load}°, the other by {other}°. "
    "Which flank must carry the thrust, and why?",
    answer=Choice(_FLANKS),
    draws=_flank_draws,
    right=lambda v: "steep",
    missteps=(
        Misstep(
            "loaded-on-the-shallow-flank",
            lambda v: "shallow",
            "Your choice suits a screw set the wrong way round. It pushes the nut open with great force.",
            "Push by hand along the axis. Watch which flank touches.",
        ),
        Misstep(
            "way-round-of-no-matter",
            lambda v: "either",
            "Your choice suits a form with two equal flanks.",
            "Compare the two angles. Which one acts like a blunt wedge?",
        ),
        Misstep(
            "both-flanks-share",
            lambda v: "both",
            "Your choice suits a nut without play. A load from one side presses one flank only.",
            "Pull on a loose nut. Where is the gap?",
        ),
    ),
    hints=(
        "A flank that leans acts like a wedge. The more it leans, the more it spreads the nut.",
        "Lay the two angles beside a square corner. Which one is nearly square to the screw?",
        "A similar case: a saw tooth bites on its upright side and slides on its sloping one.",
    ),
    marks=1,
    outcome=CHOOSE,
    critical=True,
)

REVERSED = Exercise(
    key="thread_forms.reversed",
    asks="Somebody has set a buttress screw the wrong way round. The thrust is {force} N. "
    "It should rest on the flank of {load}°, but rests on the flank of {other}°. "
    "Here are the tangents: tan {load}° = {tan_load:.4f}, tan {other}° = {tan_other:.4f}. "
    "How much more outward push does the nut get than the right way round?",
    answer=Quantity("N", 1, (1, 100000), spread=_more_spread),
    draws=_more_draws,
    right=_more,
    missteps=(
        Misstep(
            "wrong-way-alone",
            lambda v: _both(v)[1],
            "{entry} agrees with the whole push on the shallow flank.",
            "That is sound. Now take off what the nut would get anyway.",
            keeps=1,
        ),
        Misstep(
            "right-way-alone",
            lambda v: _both(v)[0],
            "{entry} agrees with the push on the steep flank.",
            "That is the push the right way round. Work out the other one too.",
        ),
        Misstep(
            "pushes-added",
            lambda v: sum(_both(v)),
            "{entry} agrees with the two pushes added.",
            "The thrust rests on one flank at a time. Asked is the difference.",
        ),
        Misstep(
            "angles-taken-off-first",
            lambda v: radial_load_n(v["force"], v["other"] - v["load"]),
            "{entry} agrees with the tangent of the difference of the angles.",
            "Work out two pushes, each with its own tangent. Only then take one off.",
        ),
        Misstep(
            "ratio-for-difference",
            lambda v: _both(v)[1] / _both(v)[0],
            "{entry} agrees with how many times as large the wrong push is.",
            "Asked is how many newtons more. Take one push off the other.",
            keeps=1,
        ),
    ),
    hints=(
        "Outward push = thrust × tangent of the flank that carries it.",
        "Work out both pushes. Then take the smaller off the larger.",
        "A similar case: 1000 N, tangents 0.2 and 0.5. The pushes are 200 N and 500 N: 300 N more.",
    ),
    marks=2,
    outcome=CHOOSE,
)
