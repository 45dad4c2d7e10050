"""From one triangle to the diameters: pitch diameter, bore of the nut, depth shared, root of the screw."""

from workbench.exercises.draws import as_round, up
from workbench.exercises.exercise import Exercise, Misstep, Quantity
from workbench.exercises.thread_geometry.outcomes import DIAMETERS
from workbench.exercises.thread_geometry.sizes import basic, both_sides, threads

# P = 1 is the lesson's worked case
_PITCHES = (1.25, 1.5, 1.75, 2, 2.5, 3, 3.5, 4, 4.5, 5)


def _height(v):
    return basic(v).triangle_mm


def _below_crest(eighths):
    """d less so many eighths of the triangle."""
    return lambda v: v["diameter"] - eighths / 8 * _height(v)


_pitch_diameter = _below_crest(6)
_bore = _below_crest(10)
_root = _below_crest(34 / 3)


def _pitch_diameter_draws():
    draws = [
        {**draw, "height": round(_height(draw), 3), "below": round(3 / 8 * _height(draw), 3)}
        for draw in threads(_PITCHES)
    ]
    return as_round(draws, lambda v: round(_pitch_diameter(v), 3), 3)


def _shown(v):
    return "thread_forms", {"form": "metric", "major_mm": v["diameter"], "pitch_mm": v["pitch"]}


def _drawn():
    """Threads coarse enough for a picture of the whole half section."""
    return [draw for draw in threads(_PITCHES, largest=56) if draw["diameter"] <= 16 * draw["pitch"]]


def _bore_draws():
    draws = as_round(_drawn(), lambda v: round(_bore(v), 2), 2)
    return as_round(draws, lambda v: round(_shared(v, _bore(v)), 2), 2)


def _shared(v, bore):
    return (v["diameter"] - bore) / 2


def _bore_spread(v):
    return up(both_sides(5 / 8, _height(v)))


def _root_draws():
    draws = [
        {
            **draw,
            "height": round(_height(draw), 3),
            "depth": round(5 / 8 * _height(draw), 3),
            "shown": round(_bore(draw), 2),
        }
        for draw in _drawn()
    ]
    return as_round(draws, lambda v: round(_root(v), 2), 2)


PITCH_DIAMETER = Exercise(
    key="thread_geometry.pitch_diameter",
    asks="The axle bolt of the hoist is M{diameter:g} × {pitch:g}. A workmate has begun to find its pitch diameter:\n"
    "Height of the triangle: 0.866 × {pitch:g} = {height:.3f} mm.\n"
    "From the crest in to the pitch line: 3/8 of the height = {below:.3f} mm.\n"
    "Pitch diameter: ? mm.\n\n"
    "Fill in the last line.",
    answer=Quantity("mm", 0.001, (1, 80), spread=lambda v: 0.002),
    draws=_pitch_diameter_draws,
    right=_pitch_diameter,
    missteps=(
        Misstep(
            "depth-off-one-side",
            _below_crest(3),
            "{entry} agrees with a depth that is taken off one side only.",
            "Draw a line right across the bolt. How many flanks does it pass?",
        ),
        Misstep(
            "whole-triangle-taken",
            _below_crest(8),
            "{entry} agrees with a whole triangle taken off.",
            "Crest to pitch line is three eighths of the height. How much is that on both sides?",
        ),
        Misstep(
            "bore-for-pitch-diameter",
            _bore,
            "{entry} agrees with the bore of the nut.",
            "The pitch line lies half way up the flank. Use the second line of the working.",
        ),
        Misstep(
            "depth-added",
            _below_crest(-6),
            "{entry} agrees with a depth that makes the bolt thicker.",
            "M gives the largest diameter, over the crests. Is the pitch line inside or outside it?",
        ),
    ),
    hints=(
        "The pitch line lies inside the crest, on the left flank and on the right flank.",
        "Take the depth of the second line off twice.",
        "A similar case: M64 × 6. The height is 5.196 mm, three eighths of it 1.949 mm. "
        "The pitch diameter is 64 − 2 × 1.949 = 60.102 mm.",
    ),
    marks=1,
    outcome=DIAMETERS,
)

BORE = Exercise(
    key="thread_geometry.bore",
    asks="Now alone. The nut of the hoist's foot bolt is M{diameter:g} × {pitch:g}. "
    "The height of the triangle is 0.866 × pitch. "
    "How large is the basic bore of the nut: its minor diameter, before any tolerance?",
    answer=Quantity("mm", 0.01, (1, 80), spread=_bore_spread),
    draws=_bore_draws,
    right=_bore,
    missteps=(
        Misstep(
            "depth-off-one-side",
            _below_crest(5),
            "{entry} agrees with a depth that is taken off one side only.",
            "Look through the bore. On how many sides does the thread of the nut stand in?",
        ),
        Misstep(
            "pitch-diameter-for-bore",
            _pitch_diameter,
            "{entry} agrees with the pitch diameter.",
            "The bore lies further in than the pitch line. How many eighths lie between crest and bore?",
        ),
        Misstep(
            "root-for-bore",
            _root,
            "{entry} agrees with the root of the screw.",
            "Screw root and nut bore leave a gap between them. Which of the two is larger?",
        ),
        Misstep(
            "drill-rule-for-bore",
            lambda v: v["diameter"] - v["pitch"],
            "{entry} agrees with the rule for the tapping drill.",
            "The rule is rounded for a drill. Work from the height of the triangle.",
        ),
        Misstep(
            "sharp-triangle",
            _below_crest(16),
            "{entry} agrees with threads with sharp points.",
            "Crest and root are cut off. Five eighths of the height remain between them.",
        ),
        Misstep(
            "depth-for-diameter",
            lambda v: 10 / 8 * _height(v),
            "{entry} agrees with the depth of both sides alone.",
            "That is sound so far. What do you take it off?",
        ),
        Misstep(
            "pitch-left-out",
            lambda v: v["diameter"] - 10 / 8 * 0.866,
            "{entry} agrees with a triangle for a pitch of 1 mm.",
            "The height is 0.866 × pitch. Which pitch has this thread?",
        ),
    ),
    hints=(
        "From the crest of the screw to the bore of the nut are 5/8 of the height.",
        "First the height, then 5/8 of it. Then take it off both sides.",
        "A similar case: M64 × 6. The height is 5.196 mm, 5/8 of it 3.25 mm. The bore is 64 − 2 × 3.25 = 57.50 mm.",
    ),
    marks=2,
    outcome=DIAMETERS,
)

ENGAGEMENT = Exercise(
    key="thread_geometry.engagement",
    asks="The same thread, M{diameter:g} × {pitch:g}. "
    "Over which depth do screw and nut overlap on one side? The picture calls it H₁. Use the bore that you found.",
    answer=Quantity("mm", 0.01, (0.01, 20), spread=lambda v: up(_bore_spread(v) / 2 + 0.005)),
    draws=_bore_draws,
    right=lambda v: _shared(v, v["earlier"]),
    missteps=(
        Misstep(
            "not-halved",
            lambda v: v["diameter"] - v["earlier"],
            "{entry} agrees with the overlap of both sides together.",
            "Asked is one side. How many sides are in the difference of two diameters?",
        ),
        Misstep(
            "screw-depth-for-overlap",
            lambda v: 17 / 24 * _height(v),
            "{entry} agrees with the full depth of the screw's thread.",
            "The bore of the nut does not reach the root of the screw. Start from the bore.",
        ),
        Misstep(
            "whole-triangle-taken",
            _height,
            "{entry} agrees with the height of the sharp triangle.",
            "Crests are cut off. Compare the largest diameter with the bore.",
        ),
        Misstep(
            "halved-twice",
            lambda v: (v["diameter"] - v["earlier"]) / 4,
            "{entry} agrees with a difference that was halved twice.",
            "Take the bore from the major diameter. Halve once.",
        ),
        Misstep(
            "bore-again",
            lambda v: v["earlier"],
            "{entry} agrees with the bore again.",
            "Asked is a depth: from the major diameter in to the bore.",
        ),
    ),
    hints=(
        "The screw reaches out to the major diameter. The nut reaches in to its bore.",
        "Depth on one side = (major diameter − bore) ÷ 2.",
        "A similar case: M64 × 6 has a bore of 57.50 mm. The overlap is (64 − 57.50) ÷ 2 = 3.25 mm.",
    ),
    marks=1,
    outcome=DIAMETERS,
    follows=BORE,
    shows=_shown,
)

ROOT = Exercise(
    key="thread_geometry.root",
    asks="Find the mistake. A workmate wants the root diameter of a hoist screw M{diameter:g} × {pitch:g}. "
    "There the screw is thinnest. He writes:\n"
    "1. Height of the triangle: {height:.3f} mm.\n"
    "2. Depth of the thread, 5/8 of it: {depth:.3f} mm.\n"
    "3. Root: {diameter:g} − 2 × {depth:.3f} = {shown:.2f} mm.\n"
    "The measured root is thinner. From crest to root the screw has 17/24 of the height (h₃ in the picture).\n\n"
    "What is the root diameter?",
    answer=Quantity("mm", 0.01, (1, 80), spread=lambda v: up(both_sides(17 / 24, _height(v)))),
    draws=_root_draws,
    right=_root,
    missteps=(
        Misstep(
            "mistake-kept",
            _bore,
            "{entry} agrees with the working as it stands: the bore of the nut.",
            "Look at line 2. Whose thread is 5/8 of the height deep?",
        ),
        Misstep(
            "depth-off-one-side",
            _below_crest(17 / 3),
            "{entry} agrees with the right depth taken off one side only.",
            "Line 3 is sound in its form. Use it with your depth.",
            keeps=1,
        ),
        Misstep(
            "sharp-triangle",
            _below_crest(16),
            "{entry} agrees with a thread with sharp points.",
            "Crest and root are cut off. Use 17/24 of the height.",
        ),
        Misstep(
            "drill-rule-for-root",
            lambda v: v["diameter"] - v["pitch"],
            "{entry} agrees with the rule for the tapping drill.",
            "A drill makes the hole of the nut. Asked is the root of the screw.",
        ),
    ),
    hints=(
        "The bore of the nut and the root of the screw are two different diameters.",
        "Lines 1 and 3 are sound in form. Put 17/24 into line 2.",
        "A similar case: M64 × 6. The height is 5.196 mm, 17/24 of it 3.68 mm. The root is 64 − 2 × 3.68 = 56.64 mm.",
    ),
    marks=2,
    outcome=DIAMETERS,
    shows=_shown,
)
