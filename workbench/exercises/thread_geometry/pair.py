"""Limits of a screw and its nut at the pitch diameter, the play that they leave, and what a coating takes."""

from workbench.exercises.draws import as_round
from workbench.exercises.exercise import Exercise, Misstep, Quantity
from workbench.exercises.thread_geometry.outcomes import PAIR
from workbench.exercises.thread_geometry.sizes import threads
from workbench.threads.limits_metric import metric_limits

_PITCHES = (1.25, 1.5, 1.75, 2, 2.5, 3, 3.5, 4, 4.5, 5)


def _micrometres(mm):
    return round(1000 * mm)


def _pair_draws():
    draws = []
    for draw in threads(_PITCHES):
        screw, nut = (metric_limits(draw["diameter"], draw["pitch"], letter) for letter in ("6g", "6H"))
        draws.append({
            **draw,
            "basic": nut.pitch.low,
            "largest": screw.pitch.high,
            "below": _micrometres(nut.pitch.low - screw.pitch.high),
            "screw_width": _micrometres(screw.pitch.tolerance),
            "nut_width": _micrometres(nut.pitch.tolerance),
            "gap": round(nut.pitch.low - screw.pitch.high, 3),
            "width": round(screw.pitch.tolerance, 3),
        })  # fmt: skip
    draws = as_round(draws, lambda v: round(_thinnest(v), 3), 3)
    return as_round(draws, lambda v: round(_most(v, _thinnest(v)), 3), 3)


def _thinnest(v):
    return v["largest"] - v["screw_width"] / 1000


def _most(v, thinnest):
    return v["basic"] + v["nut_width"] / 1000 - thinnest


def _zones(v):
    return "thread_zones", {"diameter_mm": v["diameter"], "pitch_mm": v["pitch"]}


def _after_coating(v):
    return v["below"] - 4 * v["layer"]


def _coating_draws():
    """Layers that leave some play; no answer that is one of the figures printed, as the 6 of 6g."""
    draws = [
        {"diameter": d["diameter"], "pitch": d["pitch"], "below": d["below"], "layer": layer}
        for d in _pair_draws()
        for layer in (3, 4, 5, 7, 8, 9, 11)
    ]
    return [
        draw for draw in draws
        if _after_coating(draw) >= 7 and _after_coating(draw) not in {draw["diameter"], draw["layer"]}
    ]  # fmt: skip


THINNEST = Exercise(
    key="thread_geometry.thinnest",
    asks="A hoist screw is called out M{diameter:g} × {pitch:g} − 6g. "
    "Its basic pitch diameter is {basic:.3f} mm. The table gives in micrometres (1000 µm are 1 mm): "
    "letter g starts {below} µm below basic, and grade 6 is {screw_width} µm wide. A workmate has begun:\n"
    "{below} µm = {gap:.3f} mm. {screw_width} µm = {width:.3f} mm.\n"
    "Largest pitch diameter: {basic:.3f} − {gap:.3f} = {largest:.3f} mm.\n"
    "Smallest pitch diameter: ? mm.\n\n"
    "Fill in the last line.",
    answer=Quantity("mm", 0.001, (1, 80)),
    draws=_pair_draws,
    right=_thinnest,
    missteps=(
        Misstep(
            "allowance-left-out",
            lambda v: v["basic"] - v["screw_width"] / 1000,
            "{entry} agrees with a tolerance that starts at the basic size.",
            "Letter g starts lower. From which line of the working do you count down?",
        ),
        Misstep(
            "tolerance-put-on",
            lambda v: v["largest"] + v["screw_width"] / 1000,
            "{entry} agrees with a screw that grows beyond its largest size.",
            "Is the smallest screw above or below the largest one?",
        ),
        Misstep(
            "tolerance-halved",
            lambda v: v["largest"] - v["screw_width"] / 2000,
            "{entry} agrees with a tolerance that lies half above and half below.",
            "The whole width lies on one side here. Take all of it.",
        ),
        Misstep(
            "micrometres-as-hundredths",
            lambda v: v["largest"] - v["screw_width"] / 100,
            "{entry} agrees with micrometres of 0.01 mm each.",
            "1000 µm are 1 mm. Write the tolerance in millimetres first.",
        ),
        Misstep(
            "allowance-taken-twice",
            lambda v: v["largest"] - (v["below"] + v["screw_width"]) / 1000,
            "{entry} agrees with the gap of letter g taken off twice.",
            "The first line of the working holds that gap already. What is left to take off?",
        ),
    ),
    hints=(
        "The zone of a screw hangs below the basic size. Letter g leaves a gap above it.",
        "Smallest = largest − width of the zone.",
        "A similar case: largest 60.000 mm, zone 300 µm = 0.300 mm. The smallest is 60.000 − 0.300 = 59.700 mm.",
    ),
    marks=1,
    outcome=PAIR,
    shows=_zones,
)

PLAY = Exercise(
    key="thread_geometry.play",
    asks="Its nut is M{diameter:g} × {pitch:g} − 6H. Letter H starts at the basic pitch diameter, {basic:.3f} mm. "
    "Grade 6 of the nut is {nut_width} µm wide, upwards. "
    "How much play can a pair within its limits have at most, at the pitch diameter? Use your smallest screw.",
    answer=Quantity("mm", 0.001, (0, 5)),
    draws=_pair_draws,
    right=lambda v: _most(v, v["earlier"]),
    missteps=(
        Misstep(
            "allowance-left-out",
            lambda v: (v["nut_width"] + v["screw_width"]) / 1000,
            "{entry} agrees with the two tolerances alone.",
            "Draw both zones. Is there a gap between them, even before a tolerance is used?",
        ),
        Misstep(
            "tolerances-subtracted",
            lambda v: (v["nut_width"] - v["screw_width"]) / 1000,
            "{entry} agrees with one tolerance taken off the other.",
            "A wide nut opens the gap. Does a thin screw open it or close it?",
        ),
        Misstep(
            "nut-at-its-smallest",
            lambda v: v["basic"] - v["earlier"],
            "{entry} agrees with the smallest nut on the smallest screw.",
            "Which nut is the loosest one? Find its pitch diameter first.",
            keeps=1,
        ),
        Misstep(
            "tightest-pair",
            lambda v: v["below"] / 1000,
            "{entry} agrees with the tightest pair: the least play.",
            "That is the play that always remains. Asked is the loosest pair.",
        ),
        Misstep(
            "screw-at-its-largest",
            lambda v: (v["below"] + v["nut_width"]) / 1000,
            "{entry} agrees with the largest nut on the largest screw.",
            "Which screw leaves the most room? You worked out its pitch diameter.",
            keeps=1,
        ),
    ),
    hints=(
        "The loosest pair is the largest nut on the smallest screw.",
        "Largest nut = basic + its width in mm. Then take off the smallest screw.",
        "A similar case: nut at most 60.500 mm, screw at least 59.700 mm. The play is at most 0.800 mm.",
    ),
    marks=2,
    outcome=PAIR,
    follows=THINNEST,
    shows=_zones,
)

PLATED = Exercise(
    key="thread_geometry.plated",
    asks="Take screws M{diameter:g} × {pitch:g} − 6g in nuts 6H. "
    "At the pitch diameter they have at least {below} µm of play. "
    "Outdoors they rust, so the screws get a zinc layer of {layer} µm on every surface. The nuts stay plain. "
    "How much play remains at least?",
    answer=Quantity("um", 1, (0, 400)),
    draws=_coating_draws,
    right=_after_coating,
    missteps=(
        Misstep(
            "layer-counted-twice",
            lambda v: v["below"] - 2 * v["layer"],
            "{entry} agrees with a plain round shaft: two layers.",
            "A flank is steep. Draw a layer on it and measure it square to the axis.",
        ),
        Misstep(
            "layer-counted-once",
            lambda v: v["below"] - v["layer"],
            "{entry} agrees with one layer.",
            "A diameter has two sides, and a layer on a steep flank counts double.",
        ),
        Misstep(
            "layer-left-out",
            lambda v: v["below"],
            "{entry} agrees with the screw before it was coated.",
            "Does the layer make the screw thicker or thinner?",
        ),
        Misstep(
            "layer-makes-room",
            lambda v: v["below"] + 4 * v["layer"],
            "{entry} agrees with a layer that opens the gap.",
            "The layer lies on the screw. Does the gap to the nut grow or shrink?",
        ),
    ),
    hints=(
        "At 60° a layer on a flank lifts the flank by twice its thickness, square to the axis.",
        "Two layers on each side, and two sides: four layers on the pitch diameter.",
        "A similar case: play 500 µm, layer 100 µm. The layers take 400 µm, so 100 µm remain.",
    ),
    marks=1,
    outcome=PAIR,
)
