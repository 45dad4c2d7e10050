"""Zero errors: what the closed faces show, taken off with its sign."""

from dataclasses import replace

from workbench.exercises.draws import as_round
from workbench.exercises.exercise import Exercise, Misstep, Quantity
from workbench.exercises.measuring_screw.outcomes import PREPARE
from workbench.exercises.measuring_screw.readings import PIN, pin_draws
from workbench.screws.measuring import METRIC, size_of, zero_error_of


def _short(v):
    return zero_error_of(v["closed"], "short")


def _short_draws():
    draws = [
        {"closed": closed, "reading": (100 * whole + 11 + (37 * whole + 23 * closed + 17 * k) % 78) / 100}
        for whole in range(2, 22)
        for closed in range(44, 48)
        for k in range(2)
    ]
    draws = as_round(draws, lambda v: v["reading"], 2)
    return as_round(draws, lambda v: size_of(v["reading"], _short(v)), 2)


PIN_SIZE = Exercise(
    key="measuring_screw.pin_size",
    asks="This carries on from your reading of the crank pin. With clean, closed faces the screw shows +{zero:.2f} mm. "
    "The thimble has gone past zero. What is the diameter of the pin?",
    answer=Quantity("mm", METRIC.resolution, (0, 25)),
    draws=pin_draws,
    right=lambda v: float(size_of(v["earlier"], v["zero"])),
    missteps=(
        Misstep(
            "zero-error-wrong-sign",
            lambda v: v["earlier"] + v["zero"],
            "{entry} comes from a zero error that was put on.",
            "Think of closed faces: the true gap is 0. Which way brings the reading back to 0?",
        ),
        Misstep(
            "zero-error-left-out",
            lambda v: v["earlier"],
            "{entry} comes from the reading as it stands, with the zero error still in it.",
            "Write the zero error beside the reading. Then take it off.",
        ),
        Misstep(
            "half-line-missed",
            lambda v: size_of(v["whole"] + v["line"] / 100, v["zero"]),
            "Your correction is sound. But {entry} comes from a reading without the half line.",
            "Go back to the picture of the pin. Look below the datum line.",
        ),
        Misstep(
            "zero-lines-as-tenths",
            lambda v: v["earlier"] - 10 * v["zero"],
            "{entry} comes from a zero error ten times too large.",
            "One thimble line is 0.01 mm. Write the zero error with two decimals.",
        ),
    ),
    hints=(
        "A screw that shows too much when closed shows too much on the part.",
        "Size = reading − zero error.",
        "A similar case: reading 24.27 mm, closed faces show +0.06 mm. The size is 24.27 − 0.06 = 24.21 mm.",
    ),
    marks=1,
    outcome=PREPARE,
    follows=PIN,
)

SHORT = Exercise(
    key="measuring_screw.short",
    asks="The picture shows another screw with clean, closed faces. Its thimble stands short of zero. "
    "On the pawl pin (the pin of the catch) this screw reads {reading:.2f} mm. What is the diameter of the pawl pin?",
    answer=Quantity("mm", METRIC.resolution, (0, 25)),
    draws=_short_draws,
    right=lambda v: float(size_of(v["reading"], _short(v))),
    missteps=(
        Misstep(
            "short-taken-as-past",
            lambda v: v["reading"] - v["closed"] / 100,
            "{entry} comes from a thimble that went far past zero, by its full number.",
            "Say aloud: short or past? Then count the lines from the datum line to the thimble's 0.",
        ),
        Misstep(
            "zero-error-wrong-sign",
            lambda v: v["reading"] + _short(v),
            "{entry} comes from the right number of lines with the other sign.",
            "Closed, the gap is 0 and the screw shows less. Does it show more or less than true on the pin?",
            keeps=1,
        ),
        Misstep(
            "zero-error-left-out",
            lambda v: v["reading"],
            "{entry} comes from the reading as it stands.",
            "How many lines short of zero is the thimble? Use that number.",
        ),
        Misstep(
            "thimble-number-added",
            lambda v: v["reading"] + v["closed"] / 100,
            "{entry} comes from the whole thimble number put on.",
            "Count only the lines that are lacking up to the thimble's 0.",
        ),
    ),
    hints=(
        "Count the thimble lines from the datum line up to the thimble's 0. Each is 0.01 mm.",
        "Short of zero means a zero error with a minus sign. Taking off a minus makes the size larger.",
        "A similar case: line 49 stands at the datum, one line short. The zero error is −0.01 mm. "
        "A reading of 24.63 mm gives 24.63 − (−0.01) = 24.64 mm.",
    ),
    marks=2,
    outcome=PREPARE,
    shows=lambda v: ("measuring_screw", {"gap": 0.0, "instrument": replace(METRIC, zero_error=_short(v))}),
)
