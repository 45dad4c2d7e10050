"""What a measured size is worth: thou beside millimetres, heat, and doubt at a limit."""

from workbench.exercises.draws import as_round, third_figure
from workbench.exercises.exercise import Exercise, Misstep, Quantity
from workbench.exercises.measuring_screw.outcomes import JUDGE
from workbench.screws.measuring import MM_PER_INCH
from workbench.screws.thermal import expansion_per_degc, size_at_20


def _clearance(v):
    return v["bore"] - v["thou"] / 1000 * MM_PER_INCH


def _clearance_draws():
    """Pins under 10 mm, good to 0.005 mm in three figures; the clearance never lies near a half of 0.01 mm."""
    draws = [
        {"thou": thou, "bore": round(thou * MM_PER_INCH / 1000 + 0.03 + 0.01 * (thou % 5), 2)}
        for thou in range(211, 390)
        if thou % 10
    ]
    return [draw for draw in draws if abs(100 * _clearance(draw) % 1 - 0.5) > 0.2]


def _pin_mm(v):
    return v["thou"] / 1000 * MM_PER_INCH


def _growth_um(v, per_million):
    return v["reading"] / 1000 * per_million * (v["degc"] - 20)


def _warm(v):
    size = size_at_20(v["reading"], v["work"] / 1e6, v["degc"], v["own"] / 1e6)
    return float(v["reading"] - size) * 1000


def _warm_draws():
    work, own = (round(expansion_per_degc(material) * 1e6, 1) for material in ("aluminium", "steel"))
    draws = [
        {"reading": float(reading), "degc": degc, "work": work, "own": own}
        for reading in (126, 128, 129, 131, 132, 134, 136, 137, 138, 141, 143, 144, 146, 147, 148)
        for degc in (28, 29, 31, 32, 33, 34)
    ]
    return as_round(draws, lambda v: round(_warm(v), 1), 1)


def _sure(v):
    return v["upper"] - v["doubt"]


def _sure_draws():
    """Limits of a made-up drawing; the doubt is under a third of the room between them."""
    return [
        {"lower": round(size - below - room, 3), "upper": round(size - below, 3), "doubt": doubt}
        for size in (6, 8, 10, 12, 14, 16, 18, 20)
        for below in (0.011, 0.014, 0.016)
        for room in (0.026, 0.034, 0.037)
        for doubt in (0.003, 0.004, 0.006, 0.007, 0.008)
        if room > 3 * doubt + 0.002 and round(1000 * (below + doubt)) % 10
    ]


CLEARANCE = Exercise(
    key="measuring_screw.clearance",
    asks="A pin from the inch drawer measures {thou} thou (thousandths of an inch). "
    "The bush has a bore (hole) of {bore:.2f} mm. One inch is exactly 25.4 mm. "
    "How much larger is the bore than the pin? (This room is the clearance.) Give it to 0.01 mm, with its unit.",
    answer=Quantity("mm", 0.01, (0, 20), spread=lambda v: third_figure(_pin_mm(v)), unit_given=False),
    draws=_clearance_draws,
    right=_clearance,
    missteps=(
        Misstep(
            "inch-taken-too-short",
            lambda v: v["bore"] - v["thou"] * 0.025,
            "{entry} comes from an inch of 25 mm.",
            "A rule of thumb is too coarse for a fit. Use the exact value in the question.",
            keeps=1,
        ),
        Misstep(
            "thou-as-hundredths-of-a-millimetre",
            lambda v: v["bore"] - v["thou"] / 100,
            "{entry} comes from a thou of 0.01 mm.",
            "About 40 thou make 1 mm. How many millimetres is this pin, roughly?",
        ),
        Misstep(
            "thou-as-thousandths-of-a-millimetre",
            lambda v: v["bore"] - v["thou"] / 1000,
            "{entry} comes from a thou of 0.001 mm.",
            "A thou is a thousandth of an inch. How long is an inch in millimetres?",
        ),
        Misstep(
            "pin-alone",
            _pin_mm,
            "{entry} comes from the pin alone, in millimetres.",
            "The pin is worked out soundly. Now compare it with the bore.",
            keeps=1,
        ),
    ),
    hints=(
        "First bring both sizes to millimetres. Only then take one from the other.",
        "Thou ÷ 1000 gives inches. Inches × 25.4 gives millimetres.",
        "A similar case: pin 150 thou, bore 4.00 mm. 0.150 × 25.4 = 3.81 mm. The bore is larger by 0.19 mm.",
    ),
    marks=2,
    outcome=JUDGE,
)

WARM = Exercise(
    key="measuring_screw.warm",
    asks="The bay is hot today. A bar of the aluminium case and the steel measuring screw both stand at "
    "{degc} °C. The screw reads {reading:g} mm. Sizes on a drawing are meant at 20 °C. "
    "Aluminium grows {work:g} µm for each metre and each degree, steel {own:g} µm. (1 µm is 0.001 mm.) "
    "By how many micrometres is the reading larger than the size at 20 °C?",
    answer=Quantity(
        "um",
        0.1,
        (0, 500),
        spread=lambda v: third_figure(_growth_um(v, v["work"])) + third_figure(_growth_um(v, v["own"])),
    ),
    draws=_warm_draws,
    right=_warm,
    missteps=(
        Misstep(
            "work-alone",
            lambda v: _growth_um(v, v["work"]),
            "{entry} comes from the growth of the bar alone.",
            "The steel screw has grown too. What would steel measured with steel show?",
            keeps=1,
        ),
        Misstep(
            "both-growths-added",
            lambda v: _growth_um(v, v["work"] + v["own"]),
            "{entry} comes from the two growths added.",
            "When bar and screw grow alike, the reading stays right. Add or take off?",
        ),
        Misstep(
            "counted-from-freezing",
            lambda v: v["reading"] / 1000 * (v["work"] - v["own"]) * v["degc"],
            "{entry} comes from degrees counted from 0 °C.",
            "How many degrees is the bay above 20 °C?",
        ),
        Misstep(
            "millimetres-for-metres",
            lambda v: 1000 * _warm(v),
            "{entry} comes from a length in millimetres. The growth is given for each metre.",
            "Write the length in metres first: 250 mm is 0.25 m.",
            keeps=1,
        ),
    ),
    hints=(
        "Both bodies grow. Only the difference of the two growths shows in the reading.",
        "Growth in µm = length in metres × growth per metre and degree × degrees above 20.",
        "A similar case: 100 mm is 0.1 m. At 30 °C a bronze bar (18.0) measured with steel (11.5) gives "
        "0.1 × (18.0 − 11.5) × 10 = 6.5 µm too much.",
    ),
    marks=2,
    outcome=JUDGE,
)

SURE = Exercise(
    key="measuring_screw.sure",
    asks="A bearing pin must lie between {lower:.3f} mm and {upper:.3f} mm. "
    "Every size that you measure here is in doubt by ±{doubt:.3f} mm. "
    "What is the largest measured size with which the pin is surely within its limits?",
    answer=Quantity("mm", 0.001, (0, 50)),
    draws=_sure_draws,
    right=_sure,
    missteps=(
        Misstep(
            "limit-itself",
            lambda v: v["upper"],
            "{entry} comes from the upper limit itself.",
            "The true size may be larger than the measured one. By how much at most?",
        ),
        Misstep(
            "doubt-put-on",
            lambda v: v["upper"] + v["doubt"],
            "{entry} comes from a doubt that widens the limits.",
            "Draw the limit as a wall. On which side must the measured size stay?",
        ),
        Misstep(
            "lower-end",
            lambda v: v["lower"] + v["doubt"],
            "{entry} comes from the smallest sure size.",
            "That is the other end, worked out soundly. Now look at the upper limit.",
        ),
        Misstep(
            "doubt-taken-twice",
            lambda v: v["upper"] - 2 * v["doubt"],
            "{entry} comes from a doubt that is taken off twice.",
            "The doubt is given as plus or minus. Only one side of it points at the upper limit.",
        ),
    ),
    hints=(
        "The true size lies somewhere between measured − doubt and measured + doubt.",
        "Ask for the worst case: measured + doubt must just reach the upper limit.",
        "A similar case: upper limit 25.000 mm, doubt ±0.010 mm. Up to 24.990 mm the part is surely inside.",
    ),
    marks=1,
    outcome=JUDGE,
)
