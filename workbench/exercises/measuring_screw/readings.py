"""Readings from a picture: sleeve, thimble, vernier; metric and inch."""

from workbench.exercises.draws import as_round
from workbench.exercises.exercise import Exercise, Misstep, Quantity
from workbench.exercises.measuring_screw.outcomes import READ
from workbench.screws.measuring import INCH, METRIC, METRIC_VERNIER, Scales, instrument, reading_of

LARGE = instrument("metric 25-50")
HALF_MM = METRIC.pitch


def _shown(reading, instrument, drawing="measuring_screw", **more):
    """A picture of the instrument at that reading, with a piece of work between its faces."""
    return lambda v: (drawing, {"gap": reading(v), "instrument": instrument, "work": reading(v), **more})


def _pin(v):
    return reading_of(Scales(v["whole"], 1, v["line"]))


def pin_draws():
    """Half line out, thimble line with two figures; a zero error past zero for the size that follows."""
    # line 25 counted backwards is 25 again: refused; 7.88 is the lesson's worked case
    draws = [
        {"whole": whole, "line": line, "zero": (2 + (whole + line) % 4) / 100}
        for whole in range(3, 23)
        for line in range(11, 45)
        if line != 25 and (whole, line) != (7, 38)
    ]
    draws = as_round(draws, _pin, 2)
    return as_round(draws, lambda v: _pin(v) - v["zero"], 2)


def _sleeve(v):
    return reading_of(Scales(v["whole"], 1, 0))


def _sleeve_draws():
    return [{"whole": w, "line": line} for w in range(3, 23) for line in (12, 17, 21, 28, 34, 39)]


def _peeping(v):
    return reading_of(Scales(v["whole"], 0, v["line"]))


def _peeping_draws():
    return [{"whole": whole, "line": line} for whole in range(3, 24) for line in range(45, 50)]


def _large(v):
    return reading_of(Scales(v["whole"], 1, v["line"]), LARGE)


def _large_draws():
    draws = [{"whole": w, "line": n} for w in range(2, 23) for n in range(11, 45) if n != 25 and (w + n) % 2]
    return as_round(draws, _large, 2)


def _vernier(v):
    return reading_of(Scales(v["whole"], 1, v["line"], v["vernier"]), METRIC_VERNIER)


def _vernier_draws():
    # refused: a thimble line of nine times the vernier line, where two slips give one number
    return [
        {"whole": 4 + (7 * n + 3 * v) % 18, "line": n, "vernier": v}
        for n in range(13, 45)
        for v in range(2, 10)
        if abs(n - 9 * v) > 2
    ]


def _inch(v):
    return reading_of(Scales(v["tenths"], v["beyond"], v["line"]), INCH)


def _inch_draws():
    draws = [{"tenths": a, "beyond": b, "line": n} for a in range(1, 9) for b in (2, 3) for n in range(6, 25)]
    return as_round(draws, _inch, 3)


BACKWARDS = Misstep(
    "thimble-counted-backwards",
    lambda v: v["whole"] + HALF_MM + (50 - v["line"]) / 100,
    "{entry} comes from a thimble that was counted down from the line above.",
    "Open the screw by a hair: the thimble number must rise. Count that way.",
)
DOUBLE_LINES = Misstep(
    "turn-as-whole-millimetre",
    lambda v: v["whole"] + HALF_MM + v["line"] / 50,
    "{entry} comes from thimble lines of 0.02 mm each. That would make one turn a whole millimetre.",
    "Count how many turns lead from one whole line to the next. Then share one turn among 50 lines.",
)
HALF_MISSED = Misstep(
    "half-line-missed",
    lambda v: v["whole"] + v["line"] / 100,
    "{entry} comes from a missed half-millimetre line. One whole turn would be lacking.",
    "Look at the lines below the datum line. Is one in sight to the right of the last whole line?",
)

SLEEVE = Exercise(
    key="measuring_screw.sleeve",
    asks="The axle pin of the sample hoist lies between the faces. A workmate has begun to read it:\n"
    "Whole lines above the datum line: {whole} mm.\n"
    "Half line below the datum line: look at the picture.\n"
    "Sleeve alone: ? mm.\n"
    "Thimble line {line}: add {line} hundredths later.\n\n"
    "Fill in the third line: what does the sleeve alone show?",
    answer=Quantity("mm", 0.01, (0, 25)),
    draws=_sleeve_draws,
    right=_sleeve,
    missteps=(
        Misstep(
            "half-line-missed",
            lambda v: v["whole"],
            "{entry} comes from the whole lines alone.",
            "Look below the datum line, to the right of the last whole line. Is a line in sight there?",
        ),
        Misstep(
            "thimble-added-early",
            lambda v: _sleeve(v) + v["line"] / 100,
            "{entry} comes from sleeve and thimble together.",
            "Cover the thimble with a finger. Write down the sleeve alone.",
        ),
        Misstep(
            "every-line-a-millimetre",
            lambda v: _sleeve(v) / HALF_MM,
            "{entry} comes from a count in which every line is a millimetre, half lines too.",
            "Lines above the datum are millimetres. Lines below stand half way. Count again from zero.",
        ),
        Misstep(
            "next-whole-line-counted",
            lambda v: v["whole"] + 1,
            "{entry} comes from a whole line that is still hidden by the thimble.",
            "Touch the last line in sight with a pencil. Is it above or below the datum line?",
        ),
    ),
    hints=(
        "Whole millimetres stand above the datum line. Half millimetres stand below it.",
        "A half line in sight adds half a millimetre to the whole lines.",
        "A similar case: the last whole line is 1 and a half line is in sight. The sleeve shows 1 + 0.5 = 1.50 mm.",
    ),
    marks=1,
    outcome=READ,
    shows=_shown(_pin, METRIC, "measuring_screw_words"),
)

PIN = Exercise(
    key="measuring_screw.pin",
    asks="The picture shows the crank pin of the sample hoist between the faces. What is the reading?",
    answer=Quantity("mm", METRIC.resolution, (0, 25)),
    draws=pin_draws,
    right=_pin,
    missteps=(
        HALF_MISSED,
        BACKWARDS,
        DOUBLE_LINES,
        Misstep(
            "every-line-a-millimetre",
            lambda v: (v["whole"] + HALF_MM) / HALF_MM + v["line"] / 100,
            "{entry} comes from a count in which every sleeve line is a millimetre, half lines too.",
            "Close the faces and open one full turn. Which line comes into sight?",
        ),
        Misstep(
            "thimble-line-as-thousandth",
            lambda v: v["whole"] + HALF_MM + v["line"] / 1000,
            "{entry} comes from thimble lines of 0.001 mm each.",
            "Fifty lines make half a millimetre. Work out 0.5 ÷ 50.",
        ),
    ),
    hints=(
        "Write three numbers below each other: whole lines, half line, thimble line.",
        "One thimble line is 0.5 mm ÷ 50 = 0.01 mm.",
        "A similar case: whole line 2, half line in sight, thimble line 8. The reading is 2 + 0.5 + 0.08 = 2.58 mm.",
    ),
    marks=2,
    outcome=READ,
    shows=_shown(_pin, METRIC),
)

PEEPING = Exercise(
    key="measuring_screw.peeping",
    asks="A spacer ring of the hoist lies between the faces. The thimble stands a little before its zero. "
    "The edge of the next sleeve line already shows. What is the reading?",
    answer=Quantity("mm", METRIC.resolution, (0, 25)),
    draws=_peeping_draws,
    right=_peeping,
    missteps=(
        Misstep(
            "peeping-line-counted",
            lambda v: _peeping(v) + HALF_MM,
            "{entry} comes from a line that only peeps out.",
            "Ask: has the thimble passed its zero? A sleeve line counts only after that.",
        ),
        Misstep(
            "thimble-counted-backwards",
            lambda v: v["whole"] + (50 - v["line"]) / 100,
            "{entry} comes from a thimble that was counted down from zero.",
            "Open the screw by a hair: the thimble number must rise. Count that way.",
        ),
        Misstep(
            "turn-as-whole-millimetre",
            lambda v: v["whole"] + v["line"] / 50,
            "{entry} comes from thimble lines of 0.02 mm each.",
            "Count the turns from one whole line to the next. Then share one turn among 50 lines.",
        ),
        Misstep(
            "thimble-line-as-thousandth",
            lambda v: v["whole"] + v["line"] / 1000,
            "{entry} comes from thimble lines of 0.001 mm each.",
            "Fifty lines make half a millimetre. Work out 0.5 ÷ 50.",
        ),
    ),
    hints=(
        "Each sleeve line has a width. Its edge comes into sight a little too early.",
        "Read the thimble first. Nearly 50 means: the turn is not complete yet.",
        "A similar case: whole line 1, next line peeping, thimble line 44. The turn is not complete: "
        "1 + 0.44 = 1.44 mm.",
    ),
    marks=1,
    outcome=READ,
    shows=_shown(_peeping, METRIC, ring=True),
)

FRAME = Exercise(
    key="measuring_screw.frame",
    asks="The picture shows a screw with the range 25 to 50 mm. The drum shaft of the hoist lies between the faces. "
    "What is the diameter of the shaft? The zero error is 0.",
    answer=Quantity("mm", LARGE.resolution, (0, 75)),
    draws=_large_draws,
    right=_large,
    missteps=(
        Misstep(
            "start-of-range-missed",
            lambda v: _large(v) - LARGE.start,
            "{entry} comes from the sleeve and thimble alone. The frame has its own start.",
            "Read the range on the frame. How far apart are the faces when they stand closest?",
        ),
        Misstep(
            "half-line-missed",
            lambda v: _large(v) - HALF_MM,
            HALF_MISSED.diagnosis,
            HALF_MISSED.next_step,
        ),
        Misstep(
            "thimble-counted-backwards",
            lambda v: LARGE.start + v["whole"] + HALF_MM + (50 - v["line"]) / 100,
            BACKWARDS.diagnosis,
            BACKWARDS.next_step,
        ),
        Misstep(
            "counted-down-from-end",
            lambda v: LARGE.end - (_large(v) - LARGE.start),
            "{entry} comes from a count down from the far end of the range.",
            "Open a screw by a few turns: does its sleeve show more lines or fewer?",
        ),
    ),
    hints=(
        "The sleeve of every frame begins at 0. The range on the frame tells where 0 stands.",
        "Hold a rule to the part: is it nearer to 10 mm or to 35 mm?",
        "A similar case: a 50 to 75 mm frame shows 3.26 mm on its scales. The size is 50 + 3.26 = 53.26 mm.",
    ),
    marks=1,
    outcome=READ,
    shows=_shown(_large, LARGE),
)

VERNIER = Exercise(
    key="measuring_screw.vernier",
    asks="This screw has a vernier: ten more lines that split a thimble line into ten. "
    "All sleeve lines stand on one side of the datum line, and short ones count half. View B shows the vernier larger. "
    "A hinge pin of the instrument case lies between the faces. What is the reading?",
    answer=Quantity("mm", METRIC_VERNIER.resolution, (0, 25)),
    draws=_vernier_draws,
    right=_vernier,
    missteps=(
        Misstep(
            "thimble-rounded-up",
            lambda v: _vernier(v) + 0.01,
            "{entry} comes from the thimble line above the datum line, with the vernier on top.",
            "Take the thimble line that has passed the datum line. Only then add the vernier.",
        ),
        Misstep(
            "thimble-number-for-vernier",
            lambda v: _vernier(v) + v["line"] / 1000,
            "{entry} comes from a number taken from the thimble where two lines meet.",
            "Point at the meeting place. Read the number on the vernier side, left of the edge.",
        ),
        Misstep(
            "vernier-as-hundredths",
            lambda v: _vernier(v) - v["vernier"] / 1000 + v["vernier"] / 100,
            "{entry} comes from vernier lines of 0.01 mm each.",
            "A thimble line is 0.01 mm. The vernier splits it into ten. What is one tenth of it?",
            keeps=1,
        ),
        Misstep(
            "half-line-missed",
            lambda v: _vernier(v) - HALF_MM,
            "{entry} comes from a missed half-millimetre line. One whole turn would be lacking.",
            "Count the sleeve lines beyond the last whole millimetre. Short lines count half.",
        ),
        Misstep(
            "half-line-missed-and-thimble-rounded-up",
            lambda v: _vernier(v) - HALF_MM + 0.01,
            "{entry} comes from two slips: a missed half line, and the next thimble line.",
            "Count the short sleeve lines. Then take the thimble line that has passed the datum line.",
        ),
        Misstep(
            "vernier-left-out",
            lambda v: _vernier(v) - v["vernier"] / 1000,
            "{entry} comes from sleeve and thimble alone.",
            "Look at view B. Which vernier line meets a thimble line? Add its thousandths.",
            keeps=1,
        ),
        Misstep(
            "every-line-a-millimetre",
            lambda v: _vernier(v) + v["whole"] + HALF_MM,
            "{entry} comes from a count in which every sleeve line is a millimetre.",
            "Two sleeve lines make one millimetre. The numbers on the sleeve help you to count.",
        ),
    ),
    hints=(
        "Cover the vernier with a finger. Read to 0.01 mm first, with the thimble line that has passed.",
        "Now find the vernier line that runs straight on into a thimble line. Its number is the thousandths.",
        "A similar case: sleeve 2.5, thimble line 11 passed, vernier line 4 meets. "
        "The reading is 2.5 + 0.11 + 0.004 = 2.614 mm.",
    ),
    marks=2,
    outcome=READ,
    shows=_shown(_vernier, METRIC_VERNIER),
)

INCH_READING = Exercise(
    key="measuring_screw.inch",
    asks="This is an inch screw. One turn is 0.025 in, and the thimble has 25 lines. "
    "Sleeve numbers are tenths of an inch. A bolt from the old hoist lies between the faces. What is the reading?",
    answer=Quantity("inch", INCH.resolution, (0, 10)),
    draws=_inch_draws,
    right=_inch,
    missteps=(
        Misstep(
            "last-sleeve-line-missed",
            lambda v: _inch(v) - INCH.pitch,
            "{entry} comes from one sleeve line too few.",
            "Touch each line beyond the number with a pencil and count aloud, up to the thimble's edge.",
        ),
        Misstep(
            "sleeve-line-as-ten-thou",
            lambda v: _inch(v) - 0.015 * v["beyond"],
            "{entry} comes from short sleeve lines of 0.010 in each.",
            "Forty turns make an inch. Work out 1 ÷ 40.",
        ),
        Misstep(
            "sleeve-line-as-fifty-thou",
            lambda v: _inch(v) + 0.025 * v["beyond"],
            "{entry} comes from short sleeve lines of 0.050 in each.",
            "Count the short spaces between two numbers. Share a tenth of an inch among them.",
        ),
        Misstep(
            "sleeve-number-as-inches",
            lambda v: _inch(v) + 0.9 * v["tenths"],
            "{entry} comes from sleeve numbers that are whole inches.",
            "Hold a steel rule beside the part. Is it longer than an inch?",
        ),
        Misstep(
            "hidden-sleeve-line-counted",
            lambda v: _inch(v) + INCH.pitch,
            "{entry} comes from one sleeve line too many. A number may show before its line.",
            "Point at the last line itself. Is it wholly in sight, left of the thimble?",
        ),
        Misstep(
            "thimble-left-out",
            lambda v: _inch(v) - v["line"] / 1000,
            "{entry} comes from the sleeve alone.",
            "Which thimble line stands at the datum line? Add that many thousandths.",
            keeps=1,
        ),
    ),
    hints=(
        "Write three numbers below each other: tenths, short lines beyond, thimble lines.",
        "A short line is 0.025 in. A thimble line is 0.001 in, called one thou.",
        "A similar case: number 9, one short line beyond, thimble line 4. "
        "The reading is 0.9 + 0.025 + 0.004 = 0.929 in.",
    ),
    marks=2,
    outcome=READ,
    shows=_shown(_inch, INCH),
)
