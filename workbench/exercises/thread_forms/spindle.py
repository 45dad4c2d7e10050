"""Two forms on one spindle: a fine thread on a moving thread, of one hand or of opposite hands."""

from workbench.exercises.draws import as_round
from workbench.exercises.exercise import Exercise, Misstep, Quantity
from workbench.exercises.thread_forms.outcomes import TWO
from workbench.exercises.thread_forms.sizes import moving
from workbench.tables import table
from workbench.threads.flank import travel_of_two_mm
from workbench.threads.profile import profile


def _pairs(pitches, inner_pitches, smallest=14):
    """A trapezoidal thread, and a coarse metric one (ISO 261, choice 1 or 2) that fits inside its root."""
    metric = [
        row for row in table("iso_261_metric").rows.values()
        if row["series"] == "coarse" and row["choice"] < 3 and row["pitch_mm"] in inner_pitches and not row["note"]
    ]  # fmt: skip
    for row in moving(pitches, smallest, 40, step=("usual", "fine")):
        root = profile("trapezoidal", row["size"], row["pitch"]).screw_minor_mm
        inside = [one for one in metric if root - 8 < one["diameter_mm"] <= root - 1]
        for one in inside:
            yield {**row, "inner": float(one["diameter_mm"]), "fine": float(one["pitch_mm"])}


def _moved(v, opposite=False):
    outer = profile("trapezoidal", v["size"], v["pitch"])
    return travel_of_two_mm(outer, profile("metric", v["inner"], v["fine"], left_hand=opposite), v["turns"])


def _fine_draws():
    """No travel that equals the fine pitch, which is printed."""
    draws = [{**pair, "turns": turns} for pair in _pairs((2, 3), (1.25, 1.5, 1.75)) for turns in (3, 5, 7, 9, 11, 13)]
    draws = [draw for draw in draws if _moved(draw) != draw["fine"]]
    return as_round(draws, _moved, 2)


def _opposite_draws():
    draws = [
        {**pair, "turns": turns}
        for pair in _pairs((3, 4, 5), (1.25, 1.75))
        for turns in (3, 5, 7, 9, 11, 13)
    ]  # fmt: skip
    return as_round(draws, lambda v: _moved(v, opposite=True), 2)


def _needed(v):
    return v["way"] / _moved({**v, "turns": 1})


def _repair_draws():
    draws = []
    for pair in _pairs((2,), (1.25, 1.5, 1.75), smallest=12):
        for turns in (1.2, 1.4, 1.6, 2.4, 2.8, 3.2, 3.6, 4.4):
            way = round(turns * (pair["pitch"] - pair["fine"]), 2)
            both = pair["pitch"] + pair["fine"]
            draws.append({**pair, "way": way, "both": both, "shown": round(way / both, 2)})
    return as_round(draws, lambda v: round(_needed(v), 1), 1)


FINE = Exercise(
    key="thread_forms.fine",
    asks="A spindle has two threads, both right hand. Tr{size:g} × {pitch:g} moves it in the frame. "
    "M{inner:g} × {fine:g} moves a slide on it. The slide cannot turn. A workmate has begun:\n"
    "One turn moves the spindle {pitch:g} mm forward.\n"
    "The same turn takes the slide {fine:g} mm back along the spindle.\n"
    "In {turns} turns the slide moves: ? mm.\n\n"
    "Fill in the last line.",
    answer=Quantity("mm", 0.01, (0.01, 200)),
    draws=_fine_draws,
    right=_moved,
    missteps=(
        Misstep(
            "leads-added",
            lambda v: (v["pitch"] + v["fine"]) * v["turns"],
            "{entry} agrees with threads of opposite hands.",
            "Forward by one thread, back by the other. What remains?",
        ),
        Misstep(
            "moving-thread-alone",
            lambda v: v["pitch"] * v["turns"],
            "{entry} agrees with a slide that is fixed to the spindle.",
            "The slide moves along the spindle too. Take that back.",
        ),
        Misstep(
            "fine-thread-alone",
            lambda v: v["fine"] * v["turns"],
            "{entry} agrees with a spindle that only turns.",
            "The spindle itself moves in the frame. Count that too.",
        ),
        Misstep(
            "one-turn-only",
            lambda v: v["pitch"] - v["fine"],
            "{entry} agrees with a single turn.",
            "One turn is sound. How many turns are asked?",
        ),
    ),
    hints=(
        "With one hand, the second thread takes back what the first one gives.",
        "Travel = (one lead − the other lead) × turns.",
        "A similar case: leads 12 mm and 10 mm, 4 turns. (12 − 10) × 4 = 8 mm.",
    ),
    marks=1,
    outcome=TWO,
)

TENSIONER = Exercise(
    key="thread_forms.tensioner",
    asks="Now alone. A rope tensioner on the test bench has one spindle and a nut on each thread. "
    "One thread is Tr{size:g} × {pitch:g}, right hand. The other is M{inner:g} × {fine:g}, left hand. "
    "Neither nut can turn. By how much do the nuts come together in {turns} turns?",
    answer=Quantity("mm", 0.01, (0.01, 500)),
    draws=_opposite_draws,
    right=lambda v: _moved(v, opposite=True),
    missteps=(
        Misstep(
            "leads-subtracted",
            _moved,
            "{entry} agrees with two threads of the same hand.",
            "Opposite hands: does the second nut follow the first or come to meet it?",
        ),
        Misstep(
            "one-nut-only",
            lambda v: v["pitch"] * v["turns"],
            "{entry} agrees with the right-hand nut alone.",
            "Both nuts move. Add the way of the other one.",
        ),
        Misstep(
            "other-nut-only",
            lambda v: v["fine"] * v["turns"],
            "{entry} agrees with the left-hand nut alone.",
            "Both nuts move. Add the way of the other one.",
        ),
        Misstep(
            "mean-of-the-leads",
            lambda v: _moved(v, opposite=True) / 2,
            "{entry} agrees with the mean of two leads.",
            "The two ways add up. Is there a reason to halve them?",
        ),
        Misstep(
            "one-turn-only",
            lambda v: v["pitch"] + v["fine"],
            "{entry} agrees with a single turn.",
            "One turn is sound. How many turns are asked?",
        ),
    ),
    hints=(
        "With opposite hands both nuts move towards each other, or both away.",
        "Travel = (one lead + the other lead) × turns.",
        "A similar case: leads 12 mm and 10 mm, 4 turns. (12 + 10) × 4 = 88 mm.",
    ),
    marks=1,
    outcome=TWO,
)

REPAIR = Exercise(
    key="thread_forms.repair",
    asks="Find the mistake. A spindle moves in its frame by Tr{size:g} × {pitch:g}. "
    "A slide sits on its thread M{inner:g} × {fine:g} and cannot turn. Both threads are right hand. "
    "The slide must move {way:g} mm. A workmate writes:\n"
    "1. One turn: {pitch:g} + {fine:g} = {both:g} mm.\n"
    "2. {way:g} ÷ {both:g} = {shown:.2f} turns.\n"
    "He turns, and the slide moves far too little.\n\n"
    "How many turns would have been right, counted from the start?",
    answer=Quantity("turns", 0.01, (0.01, 1000)),
    draws=_repair_draws,
    right=_needed,
    missteps=(
        Misstep(
            "mistake-kept",
            lambda v: v["way"] / v["both"],
            "{entry} agrees with the working as it stands.",
            "The slide moved too little. Look at the sign in line 1 and at the hands.",
        ),
        Misstep(
            "moving-thread-alone",
            lambda v: v["way"] / v["pitch"],
            "{entry} agrees with a slide that is fixed to the spindle.",
            "The fine thread takes something back. Put both threads into line 1.",
        ),
        Misstep(
            "turned-upside-down",
            lambda v: (v["pitch"] - v["fine"]) / v["way"],
            "{entry} agrees with millimetres of one turn ÷ way.",
            "Line 2 is sound in its form. Use it with your own line 1.",
            keeps=1,
        ),
        Misstep(
            "fine-thread-alone",
            lambda v: v["way"] / v["fine"],
            "{entry} agrees with a spindle that only turns.",
            "The spindle itself moves in the frame. Put both threads into line 1.",
        ),
        Misstep(
            "missing-turns-alone",
            lambda v: _needed(v) - v["way"] / v["both"],
            "{entry} agrees with the turns that are still missing.",
            "Asked are all turns, counted from the start.",
            keeps=1,
        ),
    ),
    hints=(
        "Both threads are right hand. What does the second one do to the travel?",
        "Line 1 needs the difference of the leads.",
        "A similar case: leads 12 mm and 10 mm, way 7 mm. 7 ÷ (12 − 10) = 3.5 turns.",
    ),
    marks=2,
    outcome=TWO,
)
