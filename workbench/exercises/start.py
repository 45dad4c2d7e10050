"""The opening: a first win. Gauge the crank pin by turning a screw, and say which bush fits."""

from workbench.exercises.exercise import Exercise, Misstep, Quantity
from workbench.screws.measuring import METRIC, Scales, reading_of

LEAST_MM, MOST_MM = 0.02, 0.05  # the clearance that the made-up hoist asks for


def _pin(v):
    return reading_of(Scales(v["whole"], 0, v["line"]))


def _draws():
    """No half line is out; four bushes, of which one fits; its neighbours are a hair too tight and too loose."""
    # line 25 counted backwards is 25 again: refused
    sizes = [(whole, line) for whole in range(6, 14) for line in range(12, 40) if line % 10 and line != 25]
    return [
        {"whole": whole, "line": line, **_bushes(reading_of(Scales(whole, 0, line)))}
        for whole, line in sizes
        if (line + 4) % 10
    ]


def _bushes(pin):
    steps = {"tight": 0.01, "fits": 0.04, "loose": 0.07, "far": 0.54}
    return {name: round(pin + step, 2) for name, step in steps.items()}


def _fitting(v):
    """The bush with the right clearance for the pin as read; ValueError where no bush of the rack has it."""
    for name in ("tight", "fits", "loose", "far"):
        if LEAST_MM - 1e-9 <= v[name] - v["earlier"] <= MOST_MM + 1e-9:
            return v[name]
    raise ValueError(f"no bush in the rack fits a pin of {v['earlier']} mm: was the pin read wrongly?")


PIN = Exercise(
    key="start.pin",
    asks="The crank pin of the sample hoist lies between the faces of the measuring screw. "
    "Whole millimetres stand above the datum line. One thimble line is 0.01 mm. What size is the pin?",
    answer=Quantity("mm", METRIC.resolution, (0, 25)),
    draws=_draws,
    right=_pin,
    missteps=(
        Misstep(
            "half-line-imagined",
            lambda v: _pin(v) + 0.5,
            "{entry} comes from a half-millimetre line that is still hidden.",
            "Look below the line, to the right of the last whole millimetre. Is a mark in sight?",
        ),
        Misstep(
            "thimble-counted-backwards",
            lambda v: v["whole"] + (50 - v["line"]) / 100,
            "{entry} comes from a thimble that was counted down from the line above.",
            "Turn the screw open by a hair: the thimble number must rise. Count that way.",
        ),
        Misstep(
            "turn-as-whole-millimetre",
            lambda v: v["whole"] + v["line"] / 50,
            "{entry} comes from thimble lines of 0.02 mm each.",
            "Turn the screw once all the way round. How far does the gap open?",
        ),
        Misstep(
            "thimble-line-as-thousandth",
            lambda v: v["whole"] + v["line"] / 1000,
            "{entry} comes from thimble lines of 0.001 mm each.",
            "One thimble line is 0.01 mm. What do ten of them make?",
        ),
    ),
    hints=(
        "First the last whole millimetre in sight on the sleeve. Then the thimble line that meets the long line.",
        "Add them: whole millimetres + thimble lines × 0.01 mm.",
        "A similar case: 4 whole millimetres, thimble line 8. The size is 4 + 0.08 = 4.08 mm.",
    ),
    marks=1,
    outcome="can gauge a pin with a measuring screw",
    shows=lambda v: ("measuring_screw", {"gap": _pin(v), "work": _pin(v)}),
)

BUSH = Exercise(
    key="start.bush",
    asks="Four bushes lie in the rack. A bore is the width of the hole. "
    "The bores: {tight:.2f} mm, {fits:.2f} mm, {loose:.2f} mm, {far:.2f} mm. "
    "The pin must turn freely: the bore must be 0.02 to 0.05 mm larger than your pin. "
    "Which bush fits? Give its bore.",
    answer=Quantity("mm", 0.01, (0, 25)),
    draws=_draws,
    right=_fitting,
    missteps=(
        Misstep(
            "bush-too-tight",
            lambda v: v["tight"],
            "{entry} is the bush nearest to the pin. It leaves too little room for the pin to turn.",
            "Take the pin off the bore. Is the rest at least 0.02 mm?",
        ),
        Misstep(
            "bush-too-loose",
            lambda v: v["loose"],
            "{entry} is a bush in which the pin rattles.",
            "Take the pin off the bore. Is the rest at most 0.05 mm?",
        ),
        Misstep(
            "half-millimetre-too-large",
            lambda v: v["far"],
            "{entry} comes from a pin that is half a millimetre larger.",
            "Read the pin again. Is a half line really in sight?",
        ),
    ),
    hints=(
        "Take the size of the pin off each bore. What remains is the clearance, the room between the two.",
        "Look for the one bore whose clearance lies between 0.02 and 0.05 mm.",
        "A similar case: pin 4.08 mm, bores 4.09, 4.11 and 4.15 mm. "
        "The clearances are 0.01, 0.03 and 0.07 mm. The middle bush fits.",
    ),
    marks=1,
    outcome="can pick a bush by its clearance",
    follows=PIN,
)

EXERCISES = (PIN, BUSH)
