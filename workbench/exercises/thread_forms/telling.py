"""Forms told apart by their figures: depth, clearance at the root, height of the triangle."""

import math

from workbench.exercises.draws import as_round, third_figure, up
from workbench.exercises.exercise import Exercise, Misstep, Quantity
from workbench.exercises.thread_forms.outcomes import TELL
from workbench.exercises.thread_forms.sizes import moving, tangent
from workbench.threads.forms import trapezoidal_row
from workbench.threads.profile import profile


def _mean(v):
    return profile("square", v["crest"], v["pitch"]).pitch_diameter_mm


def _mean_draws():
    """Old screws as measured: a little worn below their size."""
    draws = [
        {"crest": round(row["size"] - worn, 1), "pitch": row["pitch"], "depth": row["pitch"] / 2}
        for row in moving((5, 7, 9), smallest=20, largest=110)
        for worn in (0.1, 0.2, 0.3, 0.4, 0.6)
    ]
    draws = as_round(draws, lambda v: v["crest"], 1)
    return as_round(draws, _mean, 1)


def _root(v):
    return profile("trapezoidal", v["size"], v["pitch"]).screw_minor_mm


def _root_draws():
    """Clearance 0.25 mm throughout; threads coarse enough for a picture of the whole half section."""
    draws = moving((2, 3, 4, 5), smallest=9, largest=80, step=("usual", "fine"))
    draws = [draw for draw in draws if draw["size"] <= 20 * draw["pitch"]]
    draws = [{**draw, "clearance": trapezoidal_row(draw["pitch"])["crest_clearance_mm"]} for draw in draws]
    return as_round(draws, _root, 1)


def _triangle(v):
    return profile(f"buttress {v['load']}/{v['other']}", v["size"], v["pitch"]).triangle_mm


def _slopes(v):
    return math.tan(math.radians(v["load"])), math.tan(math.radians(v["other"]))


def _triangle_spread(v):
    slope = sum(_slopes(v))
    return up(_triangle(v) * (third_figure(slope) + 0.0001) / slope)


def _triangle_draws():
    draws = [
        {**row, "load": load, "other": other, "tan_load": tangent(load), "tan_other": tangent(other)}
        for row in moving((4, 5, 6, 7, 8, 9, 10), smallest=20, largest=80)
        for load, other in ((3, 30), (7, 45))
    ]
    return as_round(draws, lambda v: round(_triangle(v), 2), 2)


MEAN_DIAMETER = Exercise(
    key="thread_forms.mean_diameter",
    asks="The old vice in the bay has a square thread. Over the crests you measure {crest:g} mm. "
    "The pitch is {pitch:g} mm. A workmate has begun:\n"
    "Depth of the thread, on one side: half the pitch = {depth:g} mm.\n"
    "The load sits half way down that depth.\n"
    "Mean diameter, where the load sits: ? mm.\n\n"
    "Fill in the last line.",
    answer=Quantity("mm", 0.1, (1, 200)),
    draws=_mean_draws,
    right=_mean,
    missteps=(
        Misstep(
            "root-for-mean",
            lambda v: v["crest"] - v["pitch"],
            "{entry} agrees with the root: the whole depth taken off both sides.",
            "How far down the depth does the load sit?",
        ),
        Misstep(
            "one-side-only",
            lambda v: v["crest"] - v["pitch"] / 4,
            "{entry} agrees with half the depth taken off one side only.",
            "Draw a line right across the screw. How many flanks does it pass?",
        ),
        Misstep(
            "crest-for-mean",
            lambda v: v["crest"],
            "{entry} agrees with the diameter over the crests.",
            "Screw and nut touch along the flank. Where is the middle of the flank?",
        ),
        Misstep(
            "depth-of-a-whole-pitch",
            lambda v: v["crest"] - 2 * v["pitch"],
            "{entry} agrees with a depth of a whole pitch on each side.",
            "Ridge and groove share one pitch. The depth is as large as one of them.",
        ),
        Misstep(
            "depth-added",
            lambda v: v["crest"] + v["pitch"] / 2,
            "{entry} agrees with a depth that is put on.",
            "You measured over the crests. Does the load sit inside or outside them?",
        ),
    ),
    hints=(
        "Half the depth lies outside the mean diameter, on the left and on the right.",
        "Mean diameter = diameter over the crests − 2 × half the depth.",
        "A similar case: 150.0 mm over the crests, pitch 16 mm. Depth 8 mm. The mean diameter is 150 − 8 = 142.0 mm.",
    ),
    marks=1,
    outcome=TELL,
)

ROOT = Exercise(
    key="thread_forms.root",
    asks="Now alone. The press has a screw Tr{size:g} × {pitch:g}. Screw and nut share half a pitch of depth. "
    "The screw is cut deeper by a crest clearance of {clearance:g} mm on each side. "
    "How large is its root diameter, where the screw is thinnest?",
    answer=Quantity("mm", 0.01, (1, 200)),
    draws=_root_draws,
    right=_root,
    missteps=(
        Misstep(
            "clearance-left-out",
            lambda v: v["size"] - v["pitch"],
            "{entry} agrees with a root that touches the nut.",
            "Look through a nut that is cut open. What stands between root and crest?",
        ),
        Misstep(
            "clearance-on-one-side",
            lambda v: v["size"] - v["pitch"] - v["clearance"],
            "{entry} agrees with a clearance that is taken off once.",
            "The clearance lies on each side. How many sides has a diameter?",
            keeps=1,
        ),
        Misstep(
            "metric-constant",
            lambda v: profile("metric", v["size"], v["pitch"]).screw_minor_mm,
            "{entry} agrees with a metric thread of 60°.",
            "Read the letters of the call-out. Name the form before you use a formula.",
        ),
        Misstep(
            "depth-of-a-whole-pitch",
            lambda v: v["size"] - 2 * v["pitch"] - 2 * v["clearance"],
            "{entry} agrees with a depth of a whole pitch on each side.",
            "Half a pitch on each side. What do both sides make?",
        ),
        Misstep(
            "depth-off-one-side",
            lambda v: v["size"] - v["pitch"] / 2 - v["clearance"],
            "{entry} agrees with the whole depth taken off one side only.",
            "Draw a line right across the screw. On how many sides is the groove?",
        ),
        Misstep(
            "clearance-alone",
            lambda v: v["size"] - 2 * v["clearance"],
            "{entry} agrees with the clearance alone, on both sides.",
            "The clearance comes on top of the depth that screw and nut share.",
        ),
    ),
    hints=(
        "First the depth on one side: half the pitch, and the clearance.",
        "Root = size − 2 × that depth.",
        "A similar case: Tr110 × 20, clearance 1 mm. The depth is 11 mm. The root is 110 − 22 = 88 mm.",
    ),
    marks=2,
    outcome=TELL,
    shows=lambda v: ("thread_forms", {"form": "trapezoidal", "major_mm": v["size"], "pitch_mm": v["pitch"]}),
)

TRIANGLE = Exercise(
    key="thread_forms.triangle",
    asks="A screw of diameter {size:g} mm and pitch {pitch:g} mm has a buttress form. "
    "One flank leans by {load}°, the other by {other}°. "
    "Here are the tangents: tan {load}° = {tan_load:.4f}, tan {other}° = {tan_other:.4f}. "
    "How high is its sharp triangle?",
    answer=Quantity("mm", 0.01, (0.1, 100), spread=_triangle_spread),
    draws=_triangle_draws,
    right=_triangle,
    missteps=(
        Misstep(
            "steep-flank-taken-twice",
            lambda v: v["pitch"] / (2 * _slopes(v)[0]),
            "{entry} agrees with a form with two steep flanks.",
            "The two flanks differ. Give each its own tangent.",
            keeps=1,
        ),
        Misstep(
            "shallow-flank-taken-twice",
            lambda v: v["pitch"] / (2 * _slopes(v)[1]),
            "{entry} agrees with a form with two shallow flanks.",
            "The two flanks differ. Give each its own tangent.",
            keeps=1,
        ),
        Misstep(
            "angles-added-first",
            lambda v: v["pitch"] / math.tan(math.radians(v["load"] + v["other"])),
            "{entry} agrees with the tangent of both angles together.",
            "Take the two tangents as printed. Add them only then.",
            keeps=1,
        ),
        Misstep(
            "slopes-multiplied",
            lambda v: v["pitch"] * sum(_slopes(v)),
            "{entry} agrees with the pitch times the tangents.",
            "Height × both tangents makes the pitch. Which way round is the sum?",
        ),
        Misstep(
            "steep-tangent-alone",
            lambda v: v["pitch"] / _slopes(v)[0],
            "{entry} agrees with the tangent of the steep flank alone.",
            "Both flanks cover a part of the pitch. Add their tangents first.",
        ),
        Misstep(
            "shallow-tangent-alone",
            lambda v: v["pitch"] / _slopes(v)[1],
            "{entry} agrees with the tangent of the shallow flank alone.",
            "Both flanks cover a part of the pitch. Add their tangents first.",
        ),
    ),
    hints=(
        "Each flank covers a part of the pitch: height × its tangent. Both parts make one pitch.",
        "Height = pitch ÷ (one tangent + the other).",
        "A similar case: pitch 12 mm, tangents 0.2 and 0.4. The height is 12 ÷ 0.6 = 20 mm.",
    ),
    marks=2,
    outcome=TELL,
)
