"""Pitch, lead and starts, and the hand of a thread."""

from itertools import permutations

from workbench.exercises.draws import as_round
from workbench.exercises.exercise import Choice, Exercise, Misstep, Quantity
from workbench.exercises.reading_a_callout.outcomes import LEAD
from workbench.tables import table
from workbench.threads.designation import parse


def _starts(v):
    return parse(f"M{v['size']:g}xPh{v['lead']:g}P{v['pitch']:g}").starts


def _starts_draws():
    """Three or four starts; no pitch for which the lead, read as starts, comes near their number."""
    return [
        {"size": row["diameter_mm"], "lead": row["pitch_mm"] * starts, "pitch": row["pitch_mm"]}
        for row in table("iso_261_metric").rows.values()
        if row["pitch_mm"] >= 1.5 and 16 <= row["diameter_mm"] <= 48 and row["choice"] < 3
        for starts in (3, 4)
        if row["pitch_mm"] * starts - starts >= 2 and row["pitch_mm"] != starts
    ]


def _advance(v):
    return parse(f"Tr{v['size']:g}x{v['lead']:g}(P{v['pitch']:g})").lead_mm * v["turns"]


def _advance_draws():
    """Half turns, and a whole number of millimetres that does not stand in the question."""
    draws = [
        {"size": row["diameter_mm"], "lead": row["pitch_mm"] * starts, "pitch": row["pitch_mm"], "turns": turns}
        for row in table("trapezoidal_sizes").rows.values()
        if row["step"] == "usual" and 16 <= row["diameter_mm"] <= 60
        for starts in (2, 3)
        for turns in (2.5, 3.5, 4.5)
    ]
    return [draw for draw in as_round(draws, _advance, 0) if _advance(draw) != draw["size"]]


_TURNS = {
    "against": "Anticlockwise: LH is left hand, and a left-hand thread tightens that way.",
    "clockwise": "Clockwise: every nut tightens with the clock, whatever the letters say.",
    "head": "Clockwise: LH says that the head is long, and the hand is the usual one.",
    "force": "Clockwise, with a longer spanner: LH threads only sit tighter at first.",
}


def _hand_draws():
    parts = ("Tr16×4-LH", "Tr20×4-LH", "M12×1.25-LH", "M10×1-LH")
    return [{"part": part, "order": order} for part in parts for order in permutations(_TURNS)]


STARTS = Exercise(
    key="reading_a_callout.starts",
    asks="The lid of the instrument case has a quick screw. Its call-out: M{size:g}×Ph{lead:g}P{pitch:g}. "
    "Ph is the lead, P is the pitch. How many starts has it?",
    answer=Quantity("starts", 1, (1, 12)),
    draws=_starts_draws,
    right=_starts,
    missteps=(
        Misstep(
            "lead-read-as-starts",
            lambda v: v["lead"],
            "{entry} agrees with the figure behind Ph, read as the number of starts.",
            "Ph is how far a turn goes. How many pitches lie in that way?",
        ),
        Misstep(
            "one-start-assumed",
            lambda v: 1,
            "{entry} agrees with a screw on which lead and pitch are the same.",
            "Compare the figures behind Ph and P. Are they alike?",
        ),
        Misstep(
            "lead-times-pitch",
            lambda v: v["lead"] * v["pitch"],
            "{entry} agrees with lead × pitch.",
            "The starts share the lead between them. Does that call for × or ÷?",
        ),
    ),
    hints=(
        "A start is one thread beginning at the end of the screw. Several starts lie side by side.",
        "Starts = lead ÷ pitch.",
        "A similar case: M14×Ph2P1. Its starts are 2 ÷ 1 = 2.",
    ),
    marks=1,
    outcome=LEAD,
)

ADVANCE = Exercise(
    key="reading_a_callout.advance",
    asks="The press in the bay has the screw Tr{size:g}×{lead:g}(P{pitch:g})-7e. "
    "You turn it {turns:g} turns. How far does the nut move?",
    answer=Quantity("mm", 0.1, (0, 500)),
    draws=_advance_draws,
    right=_advance,
    missteps=(
        Misstep(
            "bracketed-pitch-for-the-lead",
            lambda v: v["pitch"] * v["turns"],
            "{entry} agrees with the pitch in the bracket.",
            "The bracket tells how far the ridges stand apart. Which figure tells how far a turn goes?",
        ),
        Misstep(
            "lead-multiplied-by-starts-again",
            lambda v: v["lead"] ** 2 / v["pitch"] * v["turns"],
            "{entry} agrees with a lead that was multiplied by the starts once more.",
            "The figure before the bracket holds the starts already.",
        ),
        Misstep(
            "half-turn-left-out",
            lambda v: v["lead"] * int(v["turns"]),
            "{entry} agrees with the full turns alone.",
            "Write full turns and the half turn in two lines. Then add both.",
            keeps=1,
        ),
        Misstep(
            "starts-taken-for-the-lead",
            lambda v: v["lead"] / v["pitch"] * v["turns"],
            "{entry} agrees with the number of starts × turns.",
            "Starts are a count. How many millimetres does one turn go?",
        ),
        Misstep(
            "one-turn-only",
            lambda v: v["lead"],
            "{entry} agrees with a single turn.",
            "How many turns does the question ask for?",
            keeps=1,
        ),
    ),
    hints=(
        "Tr is a thread that moves things. Its call-out gives the lead first, then the pitch in a bracket.",
        "Way = lead × turns.",
        "A similar case: Tr10×3(P1.5) and 2.5 turns. The way is 3 × 2.5 = 7.5 mm.",
    ),
    marks=2,
    outcome=LEAD,
)

HAND = Exercise(
    key="reading_a_callout.hand",
    asks="A nut of the hoist is called out {part}. You face the nut and want to tighten it. "
    "Which way do you turn it, and why?",
    answer=Choice(_TURNS),
    draws=_hand_draws,
    right=lambda v: "against",
    missteps=(
        Misstep(
            "turned-clockwise-to-tighten",
            lambda v: "clockwise",
            "Your choice would suit a right-hand thread. Here it would loosen the nut.",
            "Two letters at the end of the call-out change the way. Which?",
        ),
        Misstep(
            "letters-read-as-the-head",
            lambda v: "head",
            "Your choice takes the letters as words about the head. A thread call-out says nothing of the head.",
            "Say the two letters as two words.",
        ),
        Misstep(
            "forced-with-a-longer-spanner",
            lambda v: "force",
            "Your choice puts force in the wrong direction. It strips the thread or drops a load.",
            "Try by hand first. Which way does the nut go on by itself?",
        ),
    ),
    hints=(
        "The letters behind the pitch can change the way of turning.",
        "RH is right hand and is mostly left out. What is the other one?",
        "A similar case: the left pedal of a bicycle. Its thread must not loosen, so it tightens the other way.",
    ),
    marks=1,
    outcome=LEAD,
)
