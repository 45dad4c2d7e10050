"""Does the nut clamp at all? The stack of shank, parts and washers; and a ring of bolts, crosswise in passes."""

from itertools import permutations

from workbench.exercises.draws import as_round
from workbench.exercises.exercise import Choice, Exercise, Misstep, Quantity
from workbench.exercises.tightening.outcomes import STACK
from workbench.screws.bearing import hexagon, washer
from workbench.screws.grip import ThroughBolt, washers_needed
from workbench.threads.matching import thread_length_mm

_ORDERS = {
    "cross": "Crosswise, in three passes, then once round: so all share the clamp.",
    "round": "Round the ring, each at once to the torque: so none is forgotten.",
    "cross_at_once": "Crosswise, each at once to the torque: the order is all that counts.",
    "round_in_passes": "Round the ring, in three passes: small steps are all that counts.",
}
_SIZES = ((6, 50), (6, 55), (6, 60), (8, 60), (8, 65), (8, 70), (8, 75))


def _stack(v):
    """The bolt as the question has it; the second part takes up what the first leaves."""
    return ThroughBolt(v["length"], v["threaded"], v["pitch"], (v["first"], v["second"]), v["nut"])


def _gap(v):
    return _stack(v).gap_mm


def _washers(v):
    return v["washer"] * washers_needed(v["earlier"], 1e-9, v["washer"])


def _stack_draws():
    """M6 and M8 bolts whose nut stops 1.9 to 4.5 mm short: two or three washers, never nearly a whole number."""
    draws = []
    for size, length in _SIZES:
        threaded = thread_length_mm(size, length)
        for first in (12.4, 14.7):
            for gap in (1.9, 2.1, 2.4, 2.7, 3.6, 3.9, 4.1, 4.3):
                second = round(length - threaded - gap - first, 1)
                draws.append({
                    "size": size, "length": length, "threaded": threaded, "pitch": {6: 1, 8: 1.25}[size],
                    "first": first, "second": second, "nut": hexagon(size)["nut_height_mm"],
                    "washer": washer(size)["thickness_mm"], "parts": round(first + second, 1),
                })  # fmt: skip
    draws = as_round(draws, lambda v: v["second"], 1)
    return as_round(draws, lambda v: v["parts"], 1)


def _shown(v):
    return "through_bolt", {"size_mm": v["size"], "pitch_mm": v["pitch"], "length_mm": v["length"],
                            "thread_mm": v["threaded"], "first_mm": v["first"], "second_mm": v["second"]}  # fmt: skip


def _ring_draws():
    return [
        {"part": part, "count": count, "order": order}
        for part in ("bearing cover of the hoist", "lid of the gear box")
        for count in ("six", "eight")
        for order in permutations(_ORDERS)
    ]


GAP = Exercise(
    key="tightening.gap",
    asks="A bolt M{size} × {length} has {threaded:g} mm of thread. "
    "It goes through parts of {first:g} mm and {second:g} mm. The nut is {nut:g} mm high. "
    "It stops where the thread ends. The wrench clicks, yet the parts rattle. "
    "How many millimetres short of the parts does the nut stop?",
    answer=Quantity("mm", 0.1, (0.1, 200)),
    draws=_stack_draws,
    right=_gap,
    missteps=(
        Misstep(
            "thread-not-taken-off",
            lambda v: v["length"] - v["parts"],
            "{entry} agrees with the whole bolt less the parts.",
            "How much of the bolt has no thread? Compare that with the parts.",
        ),
        Misstep(
            "nut-seats-anyway",
            lambda v: 0,
            "{entry} agrees with a nut that seats.",
            "The wrench clicks on the end of the thread too. How long is the plain shank?",
        ),
        Misstep(
            "nut-added",
            lambda v: _gap(v) + v["nut"],
            "{entry} agrees with the height of the nut counted in.",
            "Which face of the nut meets the parts? Draw it where the thread ends.",
        ),
        Misstep(
            "nut-among-the-parts",
            lambda v: _gap(v) - v["nut"],
            "{entry} agrees with the nut counted among the parts.",
            "Which parts lie between head and nut?",
        ),
        Misstep(
            "thread-past-the-nut",
            lambda v: v["length"] - v["parts"] - v["nut"],
            "{entry} agrees with the thread that stands out past a nut which seats.",
            "It does not seat here. How long is the plain shank, and how long are the parts?",
        ),
        Misstep(
            "one-part-only",
            lambda v: _gap(v) + v["second"],
            "{entry} agrees with one part only.",
            "How many parts lie between head and nut?",
        ),
    ),
    hints=(
        "Plain shank = length − thread.",
        "The nut stops at the end of the plain shank. How much of it stands out of the parts?",
        "A similar case: length 200 mm, thread 50 mm, parts 140 mm. The shank is 150 mm. The nut stops 10.0 mm short.",
    ),
    marks=1,
    outcome=STACK,
    critical=True,
    shows=_shown,
)

WASHERS = Exercise(
    key="tightening.washers",
    asks="The same bolt M{size} × {length}. You have washers of {washer:g} mm. Only whole washers count, "
    "and the nut must press the parts. How thick is the smallest stack of washers that does it? "
    "Start from the gap that you found.",
    answer=Quantity("mm", 0.1, (0.1, 200)),
    draws=_stack_draws,
    right=_washers,
    missteps=(
        Misstep(
            "rounded-down",
            lambda v: _washers(v) - v["washer"],
            "{entry} agrees with one washer fewer. The nut still stops short.",
            "Lay the stack beside the gap. Is it thicker?",
        ),
        Misstep(
            "gap-itself",
            lambda v: v["earlier"],
            "{entry} agrees with the gap itself.",
            "You have whole washers only. How many do you need?",
        ),
        Misstep(
            "number-of-washers",
            lambda v: washers_needed(v["earlier"], 1e-9, v["washer"]),
            "{entry} agrees with the number of washers.",
            "That count is sound. How thick are they together?",
        ),
        Misstep(
            "one-washer-too-many",
            lambda v: _washers(v) + v["washer"],
            "{entry} agrees with one washer more than needed.",
            "Take one away. Does the nut still press the parts?",
        ),
    ),
    hints=(
        "Divide the gap by the thickness of a washer. Round up to whole washers.",
        "Then multiply by the thickness of a washer.",
        "A similar case: gap 20 mm, washers of 6 mm. Three make 18 mm: too thin. Four make 24.0 mm.",
    ),
    marks=1,
    outcome=STACK,
    follows=GAP,
)

CROSSWISE = Exercise(
    key="tightening.crosswise",
    asks="The {part} is held by a ring of {count} bolts, with a flat seal below. "
    "In which order do you tighten, and why?",
    answer=Choice(_ORDERS),
    draws=_ring_draws,
    right=lambda v: "cross",
    missteps=(
        Misstep(
            "round-in-one-go",
            lambda v: "round",
            "Your choice agrees with one go round. The cover tilts, and the first bolts end up slack.",
            "What happens to the first bolt when the one beside it pulls the cover down?",
        ),
        Misstep(
            "crosswise-in-one-go",
            lambda v: "cross_at_once",
            "Your choice agrees with a good order in one step. Each pair still slackens the pair before.",
            "How can the seal settle evenly before the full torque is on?",
        ),
        Misstep(
            "round-in-passes",
            lambda v: "round_in_passes",
            "Your choice agrees with small steps. The cover still tilts to one side first.",
            "Which bolt keeps the cover level while the first one pulls?",
        ),
    ),
    hints=(
        "Think of a lid with a soft ring below it. Press one edge: what does the other edge do?",
        "Two things count: where the next bolt is, and how much each pass adds.",
        "A similar case: the wheel of a car. Nuts go on across the hub, a little at a time.",
    ),
    marks=1,
    outcome=STACK,
)
