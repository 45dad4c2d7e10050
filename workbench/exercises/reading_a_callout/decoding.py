"""Call-outs written in full: as heard, with the pitch that was left out, and from threads an inch."""

from workbench.exercises.draws import as_round
from workbench.exercises.exercise import Designation, Exercise, Misstep, Quantity
from workbench.exercises.reading_a_callout.outcomes import DECODE
from workbench.tables import table
from workbench.threads.designation import INCH_MM, coarse_pitch_mm, metric_pitches_mm, parse
from workbench.threads.explanation import spoken

_METRIC = table("iso_261_metric").rows.values()


def thread(size, pitch, rest=""):
    """The metric thread of that diameter and pitch, with what follows: thread(10, 1.25, "-6g")."""
    return parse(f"M{size:g}x{pitch:g}{rest}")


def _heard(v):
    return thread(v["size"], v["pitch"], f"-{v['screw']}-LH")


def _heard_draws():
    """Fine pitches with a decimal point, which can be lost; every screw is left hand."""
    draws = [
        {"size": row["diameter_mm"], "pitch": row["pitch_mm"], "screw": screw}
        for row in _METRIC
        if row["series"] == "fine" and row["pitch_mm"] in (1.25, 1.5) and 10 <= row["diameter_mm"] <= 22
        and coarse_pitch_mm(row["diameter_mm"]) and not row["note"]
        for screw in ("6g", "6e", "6h", "4g", "4h", "8g")
    ]  # fmt: skip
    return [{**draw, "said": _said(_heard(draw))} for draw in draws]


def _said(call_out):
    """The call-out as called across a bay, with a breath before the class and before the hand."""
    return spoken(call_out).replace(" class", ", class").replace(" left", ", left")


def _point_lost(v):
    """The call-out without its decimal point, whose figures then read as a length; None where it reads as nothing."""
    try:
        return parse(f"M{v['size']:g}x{v['pitch'] * 100:g}-{v['screw']}-LH".replace("x150-", "x15-"))
    except ValueError:
        return None


def _full(v):
    return thread(v["size"], coarse_pitch_mm(v["size"]), f"x{v['length']:g}")


def _full_draws():
    """Sizes with at least two fine pitches; lengths of two and a half to five diameters."""
    coarse = [row["diameter_mm"] for row in _METRIC if row["series"] == "coarse"]
    sizes = [size for size in coarse if 8 <= size <= 39 and len(metric_pitches_mm(size)) > 2]
    lengths = [row["length_mm"] for row in table("nominal_lengths").rows.values()]
    return [
        {"size": size, "length": length, "pitches": _listed(size)}
        for size in sizes
        for length in lengths
        if 2.5 * size <= length <= 5 * size
    ]


def _listed(size):
    """The pitches of a diameter, finest first, as the question prints them."""
    return ", ".join(f"{pitch:g}" for pitch in sorted(metric_pitches_mm(size)))


def _inch_pitch(v):
    return INCH_MM / v["per_inch"]


def _inch_draws():
    draws = [
        {"said": f"{row['size']}-{row['threads_per_inch']:g} {row['series']}", "per_inch": row["threads_per_inch"]}
        for row in table("unified_sizes").rows.values()
        if row["series"] != "UNEF" and row["threads_per_inch"] != 4.5  # the case of the hint
    ]
    return as_round(draws, lambda v: round(_inch_pitch(v), 3), 3)


IN_FULL = Exercise(
    key="reading_a_callout.in_full",
    asks="The drawing of the hoist frame says: M{size:g} × {length:g}. No pitch is written.\n"
    "The table of ISO 261 gives M{size:g} the pitches {pitches} mm.\n\n"
    "Write the call-out in full, with its pitch and its length.",
    answer=Designation(also=("length_mm",), with_pitch=True),
    draws=_full_draws,
    right=_full,
    missteps=(
        Misstep(
            "fine-pitch-supplied",
            lambda v: thread(v["size"], metric_pitches_mm(v["size"])[1], f"x{v['length']:g}"),
            "{entry} agrees with the first fine pitch.",
            "No pitch written means the coarse one. Which pitch of the row is that?",
        ),
        Misstep(
            "finest-pitch-supplied",
            lambda v: thread(v["size"], metric_pitches_mm(v["size"])[-1], f"x{v['length']:g}"),
            "{entry} agrees with the finest pitch of the row.",
            "Coarse means few threads, far apart. Is that the smallest or the largest pitch?",
        ),
        Misstep(
            "length-left-out",
            lambda v: thread(v["size"], coarse_pitch_mm(v["size"])),
            "{entry} is the right thread. The call-out also says how long the screw is.",
            "Read the drawing again. What does its second figure decide?",
        ),
    ),
    hints=(
        "The figure after × is too large for a pitch. So it is the length.",
        "A pitch that is left out is the coarse pitch: the largest in the row.",
        "A similar case: M5 × 16 has the pitches 0.5 and 0.8 mm. In full it is M5×0.8×16.",
    ),
    marks=1,
    outcome=DECODE,
)

HEARD = Exercise(
    key="reading_a_callout.heard",
    asks="A workmate calls across the bay what he needs for the hoist:\n“{said}”.\n\n"
    "Write the call-out as it stands on a drawing.",
    answer=Designation(also=("screw_class", "nut_class", "length_mm")),
    draws=_heard_draws,
    right=_heard,
    missteps=(
        Misstep(
            "left-hand-left-out",
            lambda v: thread(v["size"], v["pitch"], f"-{v['screw']}"),
            "{entry} agrees with a right-hand screw.",
            "Say the call-out aloud to the end. Which two letters stand for the last words?",
        ),
        Misstep(
            "capital-letter-on-the-screw",
            lambda v: thread(v["size"], v["pitch"], f"-{v['screw'].upper()}-LH"),
            "{entry} agrees with a nut: its class has a capital letter.",
            "Listen for “small” or “capital”. Which of the two was said?",
        ),
        Misstep(
            "coarse-pitch-for-spoken-pitch",
            lambda v: thread(v["size"], coarse_pitch_mm(v["size"]), f"-{v['screw']}-LH"),
            "{entry} agrees with the coarse pitch. A pitch was spoken here.",
            "What was said straight after “by”?",
        ),
        Misstep(
            "decimal-point-lost",
            _point_lost,
            "{entry} agrees with a figure without its point: so large a figure reads as the length.",
            "Write “point” as a point. Can ridges stand that far apart on this screw?",
        ),
        Misstep(
            "class-left-out",
            lambda v: thread(v["size"], v["pitch"], "-LH"),
            "{entry} is the right thread, without its class.",
            "What follows the word “class”?",
            keeps=1,
        ),
    ),
    hints=(
        "Write it in the order in which it is said: letter, diameter, ×, pitch, class, hand.",
        "“By” is ×. A dash comes before the class and before LH, which is left hand.",
        "A similar case: “M eight by point seven five, class five small h, left hand” is M8×0.75-5h-LH.",
    ),
    marks=2,
    outcome=DECODE,
)

INCH_PITCH = Exercise(
    key="reading_a_callout.inch_pitch",
    asks="A drawing of the old hoist calls out {said}. The figure {per_inch:g} counts the threads in one inch. "
    "One inch is exactly 25.4 mm. What is the pitch?",
    answer=Quantity("mm", 0.001, (0.1, 7)),
    draws=_inch_draws,
    right=_inch_pitch,
    missteps=(
        Misstep(
            "pitch-in-inches-called-millimetres",
            lambda v: 1 / v["per_inch"],
            "{entry} agrees with the pitch in inches.",
            "Lay a rule on a screw. Can its threads stand so close in millimetres?",
        ),
        Misstep(
            "inch-taken-too-short",
            lambda v: 25 / v["per_inch"],
            "{entry} agrees with an inch of 25 mm.",
            "The rule of thumb is too coarse here. Use the exact inch of the question.",
        ),
        Misstep(
            "divided-the-wrong-way-round",
            lambda v: v["per_inch"] / INCH_MM,
            "{entry} agrees with the threads in one millimetre.",
            "Share 25.4 mm among the threads. Swap the two figures in your division.",
        ),
        Misstep(
            "count-taken-for-the-pitch",
            lambda v: v["per_inch"],
            "{entry} agrees with the count of threads.",
            "Would so many threads of that size lie in one inch?",
        ),
    ),
    hints=(
        "So many threads share one inch. How much does each one get?",
        "Pitch = 25.4 mm ÷ threads in an inch.",
        "A similar case: 2-4.5 UNC. The pitch is 25.4 ÷ 4.5 = 5.644 mm.",
    ),
    marks=1,
    outcome=DECODE,
)
