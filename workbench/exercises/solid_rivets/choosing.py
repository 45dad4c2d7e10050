"""Head mark, part number, and the diameter from the sheets."""

from itertools import permutations

from workbench.exercises.draws import as_round
from workbench.exercises.exercise import Choice, Exercise, Misstep, Quantity
from workbench.exercises.solid_rivets.outcomes import CHOOSE
from workbench.rivets.alloy import alloys
from workbench.rivets.part_number import PartNumber, write
from workbench.rivets.size import INCH_MM, trade_diameter_mm

_ALLOYS = {
    "2117": "2117: drive it as it comes from the tray.",
    "2017": "2017: heat treat it first, then drive it while it is soft.",
    "2024": "2024: heat treat it first, then drive it at once; it hardens soonest.",
    "5056": "5056: drive it as it comes; it suits sheets that hold magnesium.",
}
_SHEETS = (0.5, 0.6, 0.7, 0.8, 0.9, 1.0, 1.2, 1.6, 2.0, 2.5)
_ROUNDER = (1.0, 2.0)  # three times these is a whole number


def _mark_draws():
    return [
        {"best": name, "mark": alloys()[name].head_mark, "order": order}
        for name in _ALLOYS
        for order in permutations(_ALLOYS)
    ]


def _unless_best(name):
    return lambda v: None if v["best"] == name else name


def _code_draws():
    """Codes whose two dash numbers are unlike and not one twice the other, so that swapped values can be told."""
    draws = [
        {"code": write(PartNumber(number, "2117", first, second)), "first": first, "second": second}
        for number in ("MS20470", "MS20426")
        for first in (3, 4, 5, 6)
        for second in range(5, 14)
        if second not in (first, 2 * first)
    ]
    return as_round(draws, lambda v: round(v["first"] / 32 * INCH_MM, 2), 2)


def _diameter_draws():
    return [
        {"one": one, "other": other}
        for one in _SHEETS
        for other in _SHEETS
        if one != other and max(one, other) not in _ROUNDER
    ]


MARK = Exercise(
    key="solid_rivets.mark",
    asks="A tray of rivets has lost its label. The rivets carry this head mark: {mark}. "
    "The metal is dull grey-white. Which alloy is it, and what follows? Use the table of marks.",
    answer=Choice(_ALLOYS),
    draws=_mark_draws,
    right=lambda v: v["best"],
    missteps=(
        Misstep(
            "taken-for-the-dimple",
            _unless_best("2117"),
            "Your choice agrees with a small hollow in the head.",
            "Look with a lens: does the mark stand up, or is it pressed in?",
        ),
        Misstep(
            "taken-for-the-dot",
            _unless_best("2017"),
            "Your choice agrees with one raised dot.",
            "Feel the head with a fingernail. Count what stands up, and note its shape.",
        ),
        Misstep(
            "taken-for-the-dashes",
            _unless_best("2024"),
            "Your choice agrees with two raised dashes.",
            "Count the marks and note their shape. Then look in the table again.",
        ),
        Misstep(
            "taken-for-the-cross",
            _unless_best("5056"),
            "Your choice agrees with a raised cross.",
            "Do two lines cross on this head? Look in the table again.",
        ),
    ),
    hints=(
        "The table of marks has one line for each alloy.",
        "First decide: raised or pressed in? Then its shape.",
        "A similar case: three raised dashes are 7075. That alloy is not among these four.",
    ),
    marks=1,
    outcome=CHOOSE,
)

CODE = Exercise(
    key="solid_rivets.code",
    asks="A drawing calls for rivets {code}. What is the diameter of the shank in mm? 1 inch is 25.4 mm.",
    answer=Quantity("mm", 0.01, (0.05, 40)),
    draws=_code_draws,
    right=lambda v: v["first"] / 32 * INCH_MM,
    missteps=(
        Misstep(
            "diameter-in-sixteenths",
            lambda v: v["first"] / 16 * INCH_MM,
            "{entry} comes from a diameter counted in sixteenths.",
            "Which of the two dash numbers counts sixteenths? Check a rivet with a slide gauge.",
        ),
        Misstep(
            "dash-numbers-swapped",
            lambda v: v["second"] / 32 * INCH_MM,
            "{entry} comes from the second dash number.",
            "Which number comes first in the code: diameter or length?",
        ),
        Misstep(
            "length-given",
            lambda v: v["second"] / 16 * INCH_MM,
            "{entry} agrees with the length of this rivet.",
            "Asked is the thickness of the shank. Which dash number tells it?",
        ),
        Misstep(
            "left-in-inches",
            lambda v: v["first"] / 32,
            "{entry} agrees with the diameter in inches.",
            "How many millimetres does one inch have?",
        ),
        Misstep(
            "dash-number-taken-as-millimetres",
            lambda v: v["first"],
            "{entry} is the dash number itself.",
            "The dash number counts parts of an inch. Which parts?",
        ),
    ),
    hints=(
        "The first dash number counts 32nds of an inch. The second counts 16ths.",
        "Diameter = first dash number ÷ 32 × 25.4 mm.",
        "A similar case: AD8-16. The shank is 8 ÷ 32 = 0.25 inch, so 6.35 mm. The length is 1 inch.",
    ),
    marks=1,
    outcome=CHOOSE,
)

DIAMETER = Exercise(
    key="solid_rivets.diameter",
    asks="Two sheets of the instrument case are {one:g} mm and {other:g} mm thick. "
    "Which diameter does the rule of the trade give? Do not round it to a size yet.",
    answer=Quantity("mm", 0.1, (0.1, 40)),
    draws=_diameter_draws,
    right=lambda v: trade_diameter_mm((v["one"], v["other"])),
    missteps=(
        Misstep(
            "thinner-sheet-taken",
            lambda v: 3 * min(v["one"], v["other"]),
            "{entry} comes from the thinner sheet.",
            "Which sheet does the rule name? A thin rivet in a thick sheet tips over.",
        ),
        Misstep(
            "sheets-added",
            lambda v: 3 * (v["one"] + v["other"]),
            "{entry} comes from both sheets together.",
            "The rule uses one sheet. So thick a rivet would stretch the thin one.",
        ),
        Misstep(
            "least-diameter-given",
            lambda v: max(v["one"], v["other"]),
            "{entry} agrees with the least diameter: the thickness itself.",
            "The least is not the usual one. How many times the sheet does the trade take?",
        ),
        Misstep(
            "factor-of-length",
            lambda v: 1.5 * max(v["one"], v["other"]),
            "{entry} comes from the factor 1.5.",
            "That factor belongs to the length. Which one belongs to the diameter?",
        ),
        Misstep(
            "mean-of-the-sheets",
            lambda v: 1.5 * (v["one"] + v["other"]),
            "{entry} comes from the mean of both sheets.",
            "The rule names one of the two sheets. Which one?",
        ),
    ),
    hints=(
        "The rule: about three times the thicker sheet.",
        "Find the thicker sheet first. Then multiply it.",
        "A similar case: sheets of 3 mm and 4 mm. The rule gives 3 × 4 = 12 mm.",
    ),
    marks=1,
    outcome=CHOOSE,
)
