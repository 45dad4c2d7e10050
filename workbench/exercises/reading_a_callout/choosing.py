"""Screws that look alike: measure the pitch, pick the screw, and know what a wrong pair does."""

from itertools import permutations

from workbench.exercises.draws import as_round, third_figure
from workbench.exercises.exercise import Choice, Designation, Exercise, Misstep, Quantity
from workbench.exercises.reading_a_callout.outcomes import CHOOSE
from workbench.tables import table
from workbench.threads.designation import INCH_MM, parse
from workbench.threads.known_threads import known_thread
from workbench.threads.measured import pitch_over_crests

CRESTS_MEASURED = 10

# drawers that lie side by side: coarse and fine, metric and inch, of nearly one diameter
_DRAWERS = (
    ("M6", "M6x0.75", "1/4-20 UNC", "1/4-28 UNF"),
    ("M8", "M8x1", "5/16-18 UNC", "5/16-24 UNF"),
    ("M10", "M10x1.25", "3/8-16 UNC", "3/8-24 UNF"),
    ("M11", "M11x1", "7/16-14 UNC", "7/16-20 UNF"),
    ("M12", "M12x1.5", "1/2-13 UNC", "1/2-20 UNF"),
    ("M14", "M14x1.5", "9/16-12 UNC", "9/16-18 UNF"),
    ("M16", "M16x1.5", "5/8-11 UNC", "5/8-18 UNF"),
    ("M20", "M20x2", "3/4-10 UNC", "3/4-16 UNF"),
    ("M22", "M22x1.5", "7/8-9 UNC", "7/8-14 UNF"),
)


def _pitch(v):
    return pitch_over_crests(v["length"], CRESTS_MEASURED).value


def _crests_draws():
    """Pitches of metric and Unified screws, a few hundredths off over nine gaps, as a calliper shows them."""
    pitches = {row["pitch_mm"] for row in table("iso_261_metric").rows.values()}
    pitches |= {INCH_MM / row["threads_per_inch"] for row in table("unified_sizes").rows.values()}
    usual = [pitch for pitch in pitches if 0.7 <= pitch <= 3]
    lengths = sorted({round(9 * pitch + off / 100, 2) for pitch in usual for off in (-2, 1, 2, 3)})
    draws = [{"length": length} for length in lengths if abs(length / 9 - 1) > 0.08]  # near 1 all slips meet
    return as_round(draws, lambda v: round(_pitch(v), 2), 2)


def _labels(v):
    return v["drawers"].split(", ")


def _nearest(v):
    """The drawer whose pitch lies nearest to the measured one."""
    return min(_labels(v), key=lambda label: abs(known_thread(label).pitch_mm - _pitch(v)))


def _which_draws():
    draws = []
    for drawers in _DRAWERS:
        bare, coarse = drawers[0], known_thread(drawers[0]).pitch_mm
        for label in drawers:
            one = known_thread(label)
            for off in (-2, 1, 2):
                low, high = one.crest_band_mm
                size = low + (high - low) * (0.5 + off / 20)
                draws.append({"drawers": ", ".join(drawers), "bare": bare, "coarse": coarse, "major": round(size, 2),
                              "length": round(9 * one.pitch_mm + off / 100, 2)})  # fmt: skip
    return draws


def _family(label):
    return label.startswith("M")


def _others(v, own_family):
    """The wrong drawers of one family, the nearer pitch first."""
    right = _nearest(v)
    found = [one for one in _labels(v) if one != right and (_family(one) == _family(right)) == own_family]
    pitch = known_thread(right).pitch_mm
    return sorted(found, key=lambda label: abs(known_thread(label).pitch_mm - pitch))


def _mismatch(v):
    return v["turns"] * abs(INCH_MM / v["per_inch"] - v["pitch"])


def _mismatch_draws():
    draws = [
        {"screw": inch, "nut": metric, "per_inch": round(INCH_MM / known_thread(inch).pitch_mm), "turns": turns,
         "pitch": known_thread(metric).pitch_mm, "inches": round(known_thread(inch).major_mm / INCH_MM, 4)}
        for metric, fine, inch, fine_inch in _DRAWERS
        for metric, inch in ((metric, inch), (fine, fine_inch))
        for turns in (3, 4, 5, 6)
    ]  # fmt: skip
    return as_round([draw for draw in draws if _mismatch(draw) > 0.2], lambda v: round(_mismatch(v), 2), 2)


_ACTIONS = {
    "stop": "I stop and take it out. Then I compare pitch and diameter of the two.",
    "spanner": "I take a spanner: a new thread is stiff, and a few turns bed it in.",
    "oil": "I oil it and go on: a dry thread binds, and oil lets it pass.",
    "tap": "I run a tap through the nut: then any screw of this diameter goes in.",
}


def _tight_draws():
    parts = ("M8", "M10", "M12", "M16")
    return [{"nut": nut, "order": order} for nut in parts for order in permutations(_ACTIONS)]


TIGHT = Exercise(
    key="reading_a_callout.tight",
    asks="You try a screw by hand in a nut {nut} of the hoist. After two turns it goes tight. "
    "What do you do, and why?",
    answer=Choice(_ACTIONS),
    draws=_tight_draws,
    right=lambda v: "stop",
    missteps=(
        Misstep(
            "forced-with-a-spanner",
            lambda v: "spanner",
            "This would suit a stiff thread. Two threads that do not match feel the same, and force strips them.",
            "What do you know about the pitch of each part so far?",
        ),
        Misstep(
            "oiled-and-turned-on",
            lambda v: "oil",
            "This would suit a dry thread. Oil does not bring crests together that stand out of step.",
            "Hold screw and nut thread crest to crest against the light. Do they agree?",
        ),
        Misstep(
            "nut-tapped-to-suit",
            lambda v: "tap",
            "This would suit a dirty nut. A tap with another pitch cuts away the ridges that carry the load.",
            "Which two things of a thread must agree, beside the diameter?",
        ),
    ),
    hints=(
        "Tight after two turns is a message. What could it say?",
        "Which choices cannot be undone?",
        "A similar case: a key that goes half into a lock. You look at the key before you hit it.",
    ),
    marks=1,
    outcome=CHOOSE,
    critical=True,
)

CRESTS = Exercise(
    key="reading_a_callout.crests",
    asks="You lay the calliper along a screw. From the first full crest to the tenth it shows {length:.2f} mm. "
    "What is the pitch?",
    answer=Quantity("mm", 0.01, (0.1, 8)),
    draws=_crests_draws,
    right=_pitch,
    missteps=(
        Misstep(
            "ten-crests-divided-by-ten",
            lambda v: v["length"] / 10,
            "{entry} agrees with a length that is shared among ten.",
            "Count the gaps between ten fingers of your two hands, laid side by side.",
        ),
        Misstep(
            "run-in-counted",
            lambda v: v["length"] / 11,
            "{entry} agrees with a length that is shared among eleven.",
            "The worn start of a thread is no crest. Count only gaps between full crests.",
        ),
        Misstep(
            "turned-upside-down",
            lambda v: 9 / v["length"],
            "{entry} agrees with the threads in one millimetre.",
            "Try the pitch gauge leaf. Then swap the figures in your division.",
        ),
    ),
    hints=(
        "Draw ten strokes on paper. How many gaps lie between the first and the last?",
        "Pitch = length ÷ gaps.",
        "A similar case: 4.50 mm from the first to the tenth crest. The pitch is 4.50 ÷ 9 = 0.50 mm.",
    ),
    marks=1,
    outcome=CHOOSE,
)

WHICH = Exercise(
    key="reading_a_callout.which",
    asks="A screw lies beside four open drawers. The labels say: {drawers}.\n"
    "The measuring screw shows {major:.2f} mm over the crests. "
    "From the first to the tenth crest the calliper shows {length:.2f} mm.\n"
    "The table of ISO 261 gives a bare {bare} the pitch {coarse:g} mm.\n\n"
    "From which drawer is the screw? Give its call-out.",
    answer=Designation(),
    draws=_which_draws,
    right=lambda v: parse(_nearest(v)),
    missteps=(
        Misstep(
            "right-family-other-pitch",
            lambda v: parse(_others(v, True)[0]),
            "{entry} agrees with the diameter, and its family is the right one.",
            "Work out the pitch from the crests: how many gaps? Compare it with coarse and fine.",
            keeps=1,
        ),
        Misstep(
            "other-family-near-pitch",
            lambda v: parse(_others(v, False)[0]),
            "{entry} has nearly the same pitch. Shared among ten, the length may even point to it.",
            "Share the length among nine. Turn the threads in an inch into a pitch, and compare.",
        ),
        Misstep(
            "other-family-other-pitch",
            lambda v: parse(_others(v, False)[1]),
            "{entry} has nearly the same diameter. Its pitch is another.",
            "The diameter parts these drawers badly. Work out the pitch first.",
        ),
    ),
    hints=(
        "First the pitch: length ÷ gaps. Ten crests have nine gaps.",
        "Then the pitch of each drawer. For an inch thread it is 25.4 ÷ threads in an inch.",
        "A similar case: 4.78 mm over the crests and 9.52 mm to the tenth crest. The pitch is 1.058 mm. "
        "24 threads an inch have that: the screw is a 10-24 UNC.",
    ),
    marks=2,
    outcome=CHOOSE,
)

MISMATCH = Exercise(
    key="reading_a_callout.mismatch",
    asks="Do a screw {screw} and a nut {nut} go together? You lay that screw beside a screw {nut}. "
    "You set the first crests level. The one has {per_inch} threads in an inch of 25.4 mm. "
    "The other has a pitch of {pitch:g} mm. How far are the crests apart {turns} threads on?",
    answer=Quantity("mm", 0.01, (0, 20), spread=lambda v: v["turns"] * third_figure(INCH_MM / v["per_inch"])),
    draws=_mismatch_draws,
    right=_mismatch,
    missteps=(
        Misstep(
            "one-thread-only",
            lambda v: _mismatch(v) / v["turns"],
            "{entry} agrees with one thread.",
            "Each thread adds the same difference. How many threads are there?",
            keeps=1,
        ),
        Misstep(
            "inch-taken-too-short",
            lambda v: v["turns"] * abs(25 / v["per_inch"] - v["pitch"]),
            "{entry} agrees with an inch of 25 mm.",
            "Use the exact inch of the question.",
        ),
        Misstep(
            "pitch-in-inches-called-millimetres",
            lambda v: v["turns"] * abs(1 / v["per_inch"] - v["pitch"]),
            "{entry} agrees with a pitch in inches beside a pitch in millimetres.",
            "Turn the screw's pitch into millimetres first.",
        ),
        Misstep(
            "judged-by-the-diameter",
            lambda v: abs(v["inches"] * INCH_MM - known_thread(v["nut"]).major_mm),
            "{entry} agrees with the difference of the diameters.",
            "Crests that stand out of step make a pair go tight. Compare the two pitches.",
        ),
    ),
    hints=(
        "First the pitch of the screw in millimetres: 25.4 ÷ threads in an inch.",
        "Take the difference of the two pitches. Each thread adds it once more.",
        "A similar case: 6 threads an inch and a pitch of 4 mm, 3 threads. "
        "The pitches are 4.233 and 4 mm. Apart: 3 × 0.233 = 0.70 mm.",
    ),
    marks=2,
    outcome=CHOOSE,
)
