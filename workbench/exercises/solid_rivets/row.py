"""A row of rivets: edge distance, pitch, and what it carries in shear."""

from workbench.exercises.draws import as_round, third_figure, up
from workbench.exercises.exercise import Exercise, Misstep, Quantity
from workbench.exercises.solid_rivets.outcomes import LAY_OUT
from workbench.rivets.hole import metric_hole
from workbench.rivets.joint import shear_n
from workbench.rivets.spacing import row_of, spacing

EDGE_D = (2.0, 2.4, 2.5, 8.0)
_FILED = tuple(tenths / 10 for tenths in range(3, 20))
_STRESSES = {"5056": 193, "2117": 207, "2017": 262}  # driven shear, 28, 30 and 38 ksi, as printed in the lesson


def _edge(v):
    return spacing(v["size"], "navy").edge_least_mm + v["filed"]


def _edge_draws():
    draws = [{"size": size, "filed": filed} for size in EDGE_D for filed in _FILED]
    return as_round(draws, lambda v: round(_edge(v), 3), 1)


def _pitch(v):
    return row_of(v["seam"], 4.0, v["count"], v["end"]).pitch_mm


def _pitch_draws():
    """Rows of 4 mm rivets, edge 2 D or more and pitch 4 to 8 D; end distance never half the pitch."""
    draws = [
        {"seam": seam, "count": count, "end": end}
        for seam in range(180, 440, 20)
        for count in range(7, 15)
        for end in (9, 11, 12, 14)
        if 16 <= (seam - 2 * end) / (count - 1) <= 32 and abs((seam - 2 * end) / (count - 1) - 2 * end) > 0.5
    ]
    return as_round(draws, lambda v: round(_pitch(v), 1), 1)


def _area(v):
    return float(shear_n(v["hole"], 1))


def _shear(v):
    return v["count"] * _area(v) * v["stress"]


def _shear_spread(v):
    """Half a newton; area and the load of one rivet kept to three figures."""
    one = _area(v) * v["stress"]
    return up(v["count"] * (v["stress"] * third_figure(_area(v)) + third_figure(one)), 1)


def _shear_draws():
    return [
        {"size": size, "hole": metric_hole(f"{size}").hole_mm, "alloy": alloy, "stress": stress, "count": count}
        for size in (3, 4, 5, 6)
        for alloy, stress in _STRESSES.items()
        for count in range(6, 14)
    ]


EDGE = Exercise(
    key="solid_rivets.edge",
    asks="You mark the line for rivets of {size:g} mm. They have raised heads. "
    "After drilling, {filed:g} mm will be filed off the edge. "
    "How far from the present edge must the line be at least?",
    answer=Quantity("mm", 0.1, (1, 60)),
    draws=_edge_draws,
    right=_edge,
    missteps=(
        Misstep(
            "filing-left-out",
            lambda v: 2 * v["size"],
            "{entry} agrees with the least distance before the edge is filed.",
            "What is left after the filing? Measure to the new edge.",
            keeps=1,
        ),
        Misstep(
            "half-a-diameter-more",
            lambda v: 2.5 * v["size"] + v["filed"],
            "{entry} agrees with the figure for flush heads, or with a line from the edge of the hole.",
            "Which head has this rivet? Edge distance runs to the middle of the hole.",
        ),
        Misstep(
            "last-limit-taken",
            lambda v: 1.5 * v["size"] + v["filed"],
            "{entry} agrees with the last limit that some documents name for a slip.",
            "You lay out to the working figure. What does the table of spacing say?",
        ),
        Misstep(
            "one-diameter-only",
            lambda v: v["size"] + v["filed"],
            "{entry} agrees with one diameter of metal.",
            "The rivet would tear out. What does the table of spacing say?",
        ),
        Misstep(
            "filing-taken-off",
            lambda v: 2 * v["size"] - v["filed"],
            "{entry} comes from the filing taken off.",
            "The file moves the edge nearer to the line. Draw the edge before and after.",
        ),
        Misstep(
            "pitch-for-edge",
            lambda v: 3 * v["size"] + v["filed"],
            "{entry} comes from the least pitch.",
            "Pitch runs from rivet to rivet. Which line of the table runs to the edge?",
        ),
    ),
    hints=(
        "The table of spacing gives the least edge distance in diameters.",
        "Add what the file takes off.",
        "A similar case: 20 mm rivet, 3 mm to be filed off. The line lies at 40 + 3 = 43 mm.",
    ),
    marks=2,
    outcome=LAY_OUT,
    critical=True,
)

PITCH = Exercise(
    key="solid_rivets.pitch",
    asks="A seam of the case is {seam} mm long. It gets one row of {count} rivets, evenly spaced. "
    "The first and the last rivet stand in {end} mm from the ends. How large is the pitch?",
    answer=Quantity("mm", 0.1, (2, 200)),
    draws=_pitch_draws,
    right=_pitch,
    missteps=(
        Misstep(
            "rivets-counted-for-spaces",
            lambda v: (v["seam"] - 2 * v["end"]) / v["count"],
            "{entry} comes from as many spaces as rivets.",
            "Draw four posts in a line. How many gaps do you see?",
        ),
        Misstep(
            "end-distances-left-out",
            lambda v: v["seam"] / (v["count"] - 1),
            "{entry} comes from the whole length of the seam.",
            "Where do the first and the last rivet stand?",
        ),
        Misstep(
            "one-end-only",
            lambda v: (v["seam"] - v["end"]) / (v["count"] - 1),
            "{entry} comes from one end distance.",
            "A seam has two ends. What is left between the outer rivets?",
        ),
        Misstep(
            "one-space-too-many",
            lambda v: (v["seam"] - 2 * v["end"]) / (v["count"] + 1),
            "{entry} comes from one space more than rivets.",
            "Draw the row on paper. Count rivets, then spaces.",
        ),
        Misstep(
            "seam-through-rivets",
            lambda v: v["seam"] / v["count"],
            "{entry} comes from the whole seam, divided by the rivets.",
            "Where do the outer rivets stand? How many spaces lie between them?",
        ),
    ),
    hints=(
        "First the length between the outer rivets: the seam less both end distances.",
        "Divide it by the number of spaces: one less than rivets.",
        "A similar case: 100 mm seam, ends 20 mm, 4 rivets. Pitch: 60 ÷ 3 = 20 mm.",
    ),
    marks=1,
    outcome=LAY_OUT,
)

SHEAR = Exercise(
    key="solid_rivets.shear",
    asks="A lap joint has {count} rivets of alloy {alloy} in one row. Their shanks are {size} mm. "
    "The holes are {hole:g} mm and are filled by driving. "
    "The driven metal bears {stress} MPa in shear. What load shears the whole row?",
    answer=Quantity("N", 1, (10, 1000000), spread=_shear_spread),
    draws=_shear_draws,
    right=_shear,
    missteps=(
        Misstep(
            "double-shear",
            lambda v: 2 * _shear(v),
            "{entry} agrees with two cuts through each rivet.",
            "Draw the lap joint. Where do the sheets slide past each other?",
        ),
        Misstep(
            "shank-for-hole",
            lambda v: v["count"] * float(shear_n(v["size"], v["stress"])),
            "{entry} comes from the shank before driving.",
            "A driven rivet swells. How wide is it then?",
            keeps=1,
        ),
        Misstep(
            "one-rivet-only",
            lambda v: _shear(v) / v["count"],
            "{entry} agrees with one rivet.",
            "Asked is the whole row.",
            keeps=1,
        ),
        Misstep(
            "square-for-circle",
            lambda v: v["count"] * v["hole"] ** 2 * v["stress"],
            "{entry} comes from the area of a square.",
            "The cut is round. How large is the area of a circle?",
        ),
        Misstep(
            "diameter-for-radius",
            lambda v: 4 * _shear(v),
            "{entry} comes from a circle with the diameter put for the radius.",
            "Area = 0.7854 × diameter × diameter. Which formula did you use?",
        ),
        Misstep(
            "stress-left-out",
            lambda v: v["count"] * _area(v),
            "{entry} agrees with the area of all the cuts, in mm².",
            "How many newtons does each square millimetre bear?",
        ),
    ),
    hints=(
        "Area of one cut = 0.7854 × hole × hole.",
        "Load of one rivet = area × stress. Then the whole row.",
        "A similar case: hole 10 mm, stress 100 MPa, 2 rivets. 78.5 mm² × 100 = 7850 N; twice that is 15,700 N.",
    ),
    marks=2,
    outcome=LAY_OUT,
)
