"""Length of a rivet, depth of a countersink, and the least sheet for it.

No diameter of the length question comes back in the flush one, the formed head or the edge distance: 1.5 D of one
diameter means three things.
"""

import math

from workbench.exercises.draws import as_round
from workbench.exercises.exercise import Exercise, Misstep, Quantity
from workbench.exercises.solid_rivets.outcomes import SIZE
from workbench.rivets.countersink import depth_mm, least_sheet_mm
from workbench.rivets.head import head
from workbench.rivets.hole import metric_hole
from workbench.rivets.length import grip_mm, wanted_length_mm

LENGTH_D = (3.0, 3.2, 5.0)
FLUSH_D = (4.0, 4.8)
_SHEETS = (0.8, 1.0, 1.2, 1.6, 2.0, 2.5)


def _length(v):
    return wanted_length_mm(grip_mm((v["one"], v["other"])), v["size"])


def _length_draws():
    """Sheets and diameters whose length has one decimal, and whose grip is not about the diameter."""
    draws = [
        {"one": one, "other": other, "grip": round(one + other, 1), "size": size}
        for size in LENGTH_D
        for one in _SHEETS
        for other in _SHEETS
        if one != other and abs(one + other - size) >= 0.4
    ]
    return as_round(draws, lambda v: round(_length(v), 3), 1)


def _flush_draws():
    draws = [
        {"one": one, "other": other, "size": size, "deep": deep,
         "grip": round(one + other, 1), "shown": round(one + other + 1.5 * size - deep, 1)}
        for size in FLUSH_D
        for deep in (round(head("countersunk 100", size).height_mm, 1),)
        for one in (2.0, 2.5, 3.0, 3.2)
        for other in (0.8, 1.0, 1.2, 1.5, 1.6, 1.8, 2.0, 2.2, 2.5)
    ]  # fmt: skip
    return as_round(draws, lambda v: round(_length(v), 3), 1)


def _cone(v):
    return float(depth_mm(v["width"], v["hole"], v["angle"]))


def _cone_draws():
    """Heads a little under and over their usual width, as they come; 100 and 120 degrees; holes of DIN 660."""
    draws = [
        {"size": size, "hole": metric_hole(f"{size}").hole_mm, "angle": angle, "half": angle // 2,
         "width": round(head(f"countersunk {angle}", size).width_mm + over, 1),
         "tan_half": round(math.tan(math.radians(angle / 2)), 4)}
        for size in (3, 4, 5, 6)
        for angle in (100, 120)
        for over in (-0.4, -0.3, -0.2, -0.1, 0.1, 0.2, 0.3)
    ]  # fmt: skip
    draws = as_round(draws, lambda v: round(_cone(v), 2), 2)
    return as_round(draws, lambda v: round(least_sheet_mm(_cone(v)), 2), 2)


LENGTH = Exercise(
    key="solid_rivets.length",
    asks="Rivets with a universal head hold sheets of {one:g} mm and {other:g} mm. The shank is {size:g} mm thick. "
    "A workmate begins: grip = {one:g} + {other:g} = {grip:g} mm. "
    "Add what the formed head needs. How long must the rivet be, before it is rounded to a length that is made?",
    answer=Quantity("mm", 0.1, (1, 60)),
    draws=_length_draws,
    right=_length,
    missteps=(
        Misstep(
            "one-diameter-allowed",
            lambda v: v["grip"] + v["size"],
            "{entry} agrees with one diameter for the formed head.",
            "That is too little metal. Which factor stands in the table of tails?",
        ),
        Misstep(
            "half-a-diameter-allowed",
            lambda v: v["grip"] + 0.5 * v["size"],
            "{entry} agrees with half a diameter for the formed head.",
            "Half a diameter is the height of the head. Two old manuals misprint this rule.",
        ),
        Misstep(
            "one-sheet-left-out",
            lambda v: max(v["one"], v["other"]) + 1.5 * v["size"],
            "{entry} agrees with a grip of one sheet.",
            "Grip is all that the rivet passes through. Measure the clamped stack.",
        ),
        Misstep(
            "factor-put-to-the-grip",
            lambda v: 1.5 * v["grip"] + v["size"],
            "{entry} agrees with the factor put to the grip.",
            "The factor belongs to the diameter. Read the formula once more.",
        ),
        Misstep(
            "flush-tail-allowed",
            lambda v: v["grip"] + 0.6 * v["size"],
            "{entry} comes from the factor of a flush tail.",
            "This formed head stands on the sheet. Which line of the table of tails is it?",
        ),
        Misstep(
            "grip-left-out",
            lambda v: 1.5 * v["size"],
            "{entry} agrees with the metal for the formed head alone.",
            "What must the shank pass through first?",
        ),
    ),
    hints=(
        "Length = grip + what the formed head needs.",
        "The formed head needs 1.5 times the diameter.",
        "A similar case: grip 10 mm, diameter 10 mm. The length is 10 + 15 = 25 mm.",
    ),
    marks=1,
    outcome=SIZE,
)

FLUSH_LENGTH = Exercise(
    key="solid_rivets.flush_length",
    asks="A countersunk rivet of {size:g} mm holds sheets of {one:g} mm and {other:g} mm. "
    "Its made head is {deep:g} mm deep. On the back a flat head is formed. "
    "Somebody writes: {grip:g} + 1.5 × {size:g} − {deep:g} = {shown:g} mm over all. "
    "Find the mistake. How long must the rivet be over all?",
    answer=Quantity("mm", 0.1, (1, 60)),
    draws=_flush_draws,
    right=_length,
    missteps=(
        Misstep(
            "head-taken-off",
            lambda v: v["grip"] + 1.5 * v["size"] - v["deep"],
            "{entry} is the value that was written. The depth of the head is taken off.",
            "Drop a rivet into its countersink. Where does its length begin?",
        ),
        Misstep(
            "head-taken-off-and-one-diameter",
            lambda v: v["grip"] + v["size"] - v["deep"],
            "{entry} agrees with the head taken off, and one diameter for the tail.",
            "Draw the section. Does the made head lie in the grip?",
        ),
        Misstep(
            "head-added",
            lambda v: v["grip"] + 1.5 * v["size"] + v["deep"],
            "{entry} agrees with the depth of the head added.",
            "The made head lies in the sheet. Is that length not in the grip already?",
        ),
        Misstep(
            "one-diameter-allowed",
            lambda v: v["grip"] + v["size"],
            "{entry} agrees with one diameter for the formed head.",
            "The length over all begins right. Which factor does a flat tail need?",
        ),
        Misstep(
            "flush-tail-allowed",
            lambda v: v["grip"] + 0.6 * v["size"],
            "{entry} comes from the factor of a flush tail.",
            "Which head is flush here, the made one or the formed one?",
        ),
    ),
    hints=(
        "A countersunk rivet is measured over all, from its flat top.",
        "Its made head lies in the grip. So nothing is taken off.",
        "A similar case: grip 12 mm, diameter 10 mm, head 4 mm deep. Over all: 12 + 15 = 27 mm.",
    ),
    marks=2,
    outcome=SIZE,
)

COUNTERSINK = Exercise(
    key="solid_rivets.countersink",
    asks="A {angle}° countersunk head is {width:g} mm wide. Its rivet has a shank of {size} mm. "
    "The hole is {hole:g} mm. Here is the tangent of half the angle: tan {half}° = {tan_half:.4f}. "
    "How deep is the cone, from the surface down to the hole?",
    answer=Quantity("mm", 0.01, (0.1, 20)),
    draws=_cone_draws,
    right=_cone,
    missteps=(
        Misstep(
            "cutter-of-ninety-degrees",
            lambda v: (v["width"] - v["hole"]) / 2,
            "{entry} agrees with a cutter of 90°.",
            "Read the angle of the rivet. Which tangent is printed?",
        ),
        Misstep(
            "both-sides-taken",
            lambda v: (v["width"] - v["hole"]) / v["tan_half"],
            "{entry} comes from the difference of the diameters, not halved.",
            "Draw the section. How far does the cone reach out on one side?",
        ),
        Misstep(
            "shank-for-hole",
            lambda v: (v["width"] - v["size"]) / 2 / v["tan_half"],
            "{entry} comes from the shank in place of the hole.",
            "The cone ends at the wall of the hole. How wide is that?",
        ),
        Misstep(
            "tangent-multiplied",
            lambda v: (v["width"] - v["hole"]) / 2 * v["tan_half"],
            "{entry} comes from multiplying by the tangent.",
            "A wide angle makes a shallow cone. Is this one shallower than a 90° cone?",
        ),
        Misstep(
            "hole-left-out",
            lambda v: v["width"] / 2 / v["tan_half"],
            "{entry} agrees with a cone that runs to a point.",
            "This cone ends at the hole. What do you take off the head first?",
        ),
    ),
    hints=(
        "First how far the cone reaches out on one side: (head − hole) ÷ 2.",
        "Depth = that ÷ tan(half the angle).",
        "A similar case: head 20 mm, hole 10 mm, tangent 2. The depth is 5 ÷ 2 = 2.5 mm.",
    ),
    marks=2,
    outcome=SIZE,
)

LEAST_SHEET = Exercise(
    key="solid_rivets.least_sheet",
    asks="Take the cone of the last question. The head may take up two thirds of the sheet at most. "
    "How thick must the sheet be at least?",
    answer=Quantity("mm", 0.01, (0.1, 40), spread=lambda v: 0.0125),
    draws=_cone_draws,
    right=lambda v: least_sheet_mm(v["earlier"]),
    missteps=(
        Misstep(
            "head-as-deep-as-the-sheet",
            lambda v: v["earlier"],
            "{entry} agrees with a cone as deep as the sheet.",
            "Its back edge is then as sharp as a knife, and cracks start. What must stay below the cone?",
        ),
        Misstep(
            "two-thirds-of-the-cone",
            lambda v: v["earlier"] / 1.5,
            "{entry} comes from two thirds of the cone.",
            "The sheet must be thicker than the cone. Which of the two is the larger?",
        ),
        Misstep(
            "one-and-a-half-added",
            lambda v: v["earlier"] + 1.5,
            "{entry} comes from 1.5 mm added.",
            "1.5 is a factor here, no length. What is 1.5 times the depth?",
        ),
        Misstep(
            "twice-the-cone",
            lambda v: 2 * v["earlier"],
            "{entry} agrees with a head that takes half of the sheet.",
            "Two thirds may be used. What do you divide by?",
        ),
        Misstep(
            "one-third-added",
            lambda v: v["earlier"] * 4 / 3,
            "{entry} comes from one third of the cone added.",
            "The third that stays is a third of the sheet. Which part of the sheet is the cone?",
        ),
    ),
    hints=(
        "Depth = two thirds of the sheet, at most.",
        "So the sheet = depth ÷ 2 × 3.",
        "A similar case: a cone of 4 mm. Sheet: 4 ÷ 2 × 3 = 6 mm.",
    ),
    marks=1,
    outcome=SIZE,
    follows=COUNTERSINK,
)
