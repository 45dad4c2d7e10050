"""A driven rivet: what its head covers, a crack, taking it out, and what the next size leaves."""

from itertools import islice, permutations

from workbench.exercises.draws import as_round
from workbench.exercises.exercise import Choice, Exercise, Misstep, Order, Quantity
from workbench.exercises.solid_rivets.outcomes import JUDGE
from workbench.rivets.defect import after_next_size
from workbench.rivets.formed_head import cover_mm
from workbench.rivets.hole import metric_hole
from workbench.rivets.size import next_size

_CRACKED = {
    "out": "Take it out: a piece of the head can break off under load.",
    "again": "Hit it again: more blows close the crack.",
    "file": "File the crack away: a smooth head holds.",
    "leave": "Leave it: the formed head is on the back and carries nothing.",
}

_STEPS = {
    "flat": "File a flat on the made head.",
    "mark": "Centre-punch the middle of the flat, with the back supported.",
    "drill": "Drill into the head, no deeper than the head is high.",
    "snap": "Put a punch into the drilled hole and snap the head off.",
    "drive": "Support the sheet beside the rivet and drive the shank out.",
    "look": "Measure the hole and look for cracks.",
}
_RIGHT_STEPS = tuple(_STEPS)


def _moved(step, place):
    """The steps with one of them at another place."""
    steps = [name for name in _RIGHT_STEPS if name != step]
    steps.insert(place, step)
    return tuple(steps)


def _before(early, late):
    """Orders in which one step comes before another that must come first."""
    return lambda steps: steps.index(early) < steps.index(late)


def _cover(v):
    return cover_mm(v["width"], v["hole"], v["offset"])


def _cover_draws():
    """Heads that are wide enough and sit beside the hole; the value has two decimals."""
    draws = [
        {"size": size, "hole": metric_hole(f"{size}").hole_mm, "width": tenths / 10, "offset": offset}
        for size in (3, 4, 5, 6)
        for tenths in range(14 * size, 16 * size + 1)
        for offset in (0.2, 0.3, 0.4, 0.5)
    ]
    draws = [draw for draw in draws if _cover(draw) > 0.05]
    return as_round(draws, lambda v: round(_cover(v), 3), 2)


def _crack_draws():
    return [
        {"part": part, "order": order}
        for part in ("lid", "back", "handle")
        for order in permutations(_CRACKED)
    ]  # fmt: skip


def _removal_draws():
    shown = islice(permutations(_STEPS), 5, None, 9)
    return [{"size": size, "order": order} for size, order in zip((3, 4, 5, 6) * 20, shown, strict=False)]


def _after(v):
    return after_next_size(f"{v['size']:g}", v["edge"], 100).edge_d


def _after_draws():
    """Edge distances that were right for the old size and are too small for the next."""
    draws = [
        {"size": size, "larger": int(next_size(f"{size:g}")), "edge": tenths / 10,
         "shown": round(tenths / 10 / size, 2)}
        for size in (3, 4, 5)
        for tenths in range(20 * size + 1, 20 * int(next_size(f"{size:g}")) - 1)
    ]  # fmt: skip
    return as_round(draws, lambda v: round(_after(v), 2), 2)


COVER = Exercise(
    key="solid_rivets.cover",
    asks="A flat formed head is {width:g} mm wide. The shank was {size} mm, the hole is {hole:g} mm. "
    "The middle of the head lies {offset:g} mm beside the middle of the hole. "
    "How much metal covers the sheet beside the hole on the narrow side?",
    answer=Quantity("mm", 0.01, (0.01, 20)),
    draws=_cover_draws,
    right=_cover,
    missteps=(
        Misstep(
            "not-halved",
            lambda v: v["width"] - v["hole"] - v["offset"],
            "{entry} comes from the difference of the diameters, not halved.",
            "Draw head and hole from above. How much stands out on one side?",
        ),
        Misstep(
            "offset-left-out",
            lambda v: (v["width"] - v["hole"]) / 2,
            "{entry} agrees with a head that sits in the middle.",
            "This head sits to one side. Which side has less?",
            keeps=1,
        ),
        Misstep(
            "offset-added",
            lambda v: (v["width"] - v["hole"]) / 2 + v["offset"],
            "{entry} agrees with the wide side.",
            "Asked is the side with less metal.",
            keeps=1,
        ),
        Misstep(
            "shank-for-hole",
            lambda v: (v["width"] - v["size"]) / 2 - v["offset"],
            "{entry} comes from the shank before driving.",
            "The driven rivet fills its hole. Where does the sheet begin?",
        ),
        Misstep(
            "offset-halved",
            lambda v: (v["width"] - v["hole"] - v["offset"]) / 2,
            "{entry} comes from half of the offset.",
            "The whole head has moved. By how much does the narrow side change?",
        ),
        Misstep(
            "difference-given",
            lambda v: v["width"] - v["hole"],
            "{entry} agrees with the difference of the two diameters.",
            "Draw head and hole from above. How many sides share that difference?",
        ),
    ),
    hints=(
        "A head in the middle covers (head − hole) ÷ 2 on each side.",
        "On the narrow side the offset is missing.",
        "A similar case: head 18 mm, hole 10 mm, 1 mm beside. Cover: 4 − 1 = 3 mm.",
    ),
    marks=2,
    outcome=JUDGE,
)

CRACK = Exercise(
    key="solid_rivets.crack",
    asks="You find a rivet in the {part} of the instrument case. "
    "Its formed head has a crack that runs in over the shank. What do you do, and why?",
    answer=Choice(_CRACKED),
    draws=_crack_draws,
    right=lambda v: "out",
    missteps=(
        Misstep(
            "hit-again",
            lambda v: "again",
            "Your choice agrees with soft metal. This metal is already hard.",
            "What does one more blow do to hard metal that has begun to split?",
        ),
        Misstep(
            "crack-filed-away",
            lambda v: "file",
            "Your choice removes what can be seen. The crack runs down into the head.",
            "How much of the head is left to hold the sheets together?",
        ),
        Misstep(
            "back-thought-idle",
            lambda v: "leave",
            "Your choice agrees with a head that bears nothing.",
            "Which two things keep the sheets together, one on each side?",
        ),
    ),
    hints=(
        "Both heads hold the sheets together.",
        "Hard metal splits further with each blow.",
        "A similar case, at a hammer: a split handle is changed, not taped.",
    ),
    marks=1,
    outcome=JUDGE,
    critical=True,
)

REMOVAL = Exercise(
    key="solid_rivets.removal",
    asks="Wear eye protection. Clamp the work, and support it behind. Keep your hand away from the drill. "
    "You take out a bad rivet of {size} mm. Its made head is round. Put the steps in order.",
    answer=Order(_STEPS),
    draws=_removal_draws,
    right=lambda v: _RIGHT_STEPS,
    missteps=(
        Misstep(
            "driven-out-with-its-head-on",
            lambda v: _moved("drive", 3),
            "In your order the shank is driven out while the head still holds it.",
            "What would the head do to the sheet?",
            covers=_before("drive", "snap"),
        ),
        Misstep(
            "drilled-without-a-mark",
            lambda v: _moved("mark", 2),
            "In your order the drill starts without a mark.",
            "Where does a drill go on a smooth head?",
            covers=_before("drill", "mark"),
        ),
        Misstep(
            "marked-on-the-round-head",
            lambda v: _moved("flat", 1),
            "In your order the punch mark is made before the flat.",
            "The file would take the mark away. Which comes first?",
            covers=_before("mark", "flat"),
        ),
        Misstep(
            "hole-measured-too-early",
            lambda v: _moved("look", 4),
            "In your order the hole is measured while the shank is in it.",
            "When can you see the wall of the hole?",
            covers=_before("look", "drive"),
        ),
        Misstep(
            "snapped-before-drilling",
            lambda v: _moved("snap", 2),
            "In your order the head is snapped off before it is drilled.",
            "What makes the head weak enough to come off?",
            covers=_before("snap", "drill"),
        ),
    ),
    hints=(
        "The head comes off first. The shank follows.",
        "Before the drill: a flat, then a mark, so that it stays in the middle.",
        "A similar case, at a screw with a torn head: mark, drill, take out, look.",
    ),
    marks=2,
    outcome=JUDGE,
)

OVERSIZE = Exercise(
    key="solid_rivets.oversize",
    asks="Rule of thumb: a spoilt hole takes the next size. A hole for {size} mm is spoilt. "
    "Its middle lies {edge:g} mm from the edge. The next size is {larger} mm. "
    "Somebody writes: {edge:g} ÷ {size} = {shown:.2f}, so it is above 2. Find the mistake. "
    "How many diameters is the edge distance with the new rivet?",
    answer=Quantity("", 0.01, (0.2, 8)),
    draws=_after_draws,
    right=_after,
    missteps=(
        Misstep(
            "old-diameter-kept",
            lambda v: v["edge"] / v["size"],
            "{entry} is the value that was written. It counts in the old diameter.",
            "Which rivet will stand in the hole?",
        ),
        Misstep(
            "measured-to-the-hole",
            lambda v: (v["edge"] - v["larger"] / 2) / v["larger"],
            "{entry} agrees with the metal from the edge to the rivet's side.",
            "Edge distance runs to the middle of the hole.",
        ),
        Misstep(
            "upside-down",
            lambda v: v["larger"] / v["edge"],
            "{entry} agrees with the division turned round.",
            "How often does the diameter go into the distance?",
        ),
        Misstep(
            "difference-given",
            lambda v: v["edge"] - v["larger"],
            "{entry} comes from taking the diameter off.",
            "Asked is how many times: divide.",
        ),
        Misstep(
            "least-distance-given",
            lambda v: 2 * v["larger"],
            "{entry} agrees with the least distance for the new rivet, in mm.",
            "Asked is the distance that is there, in diameters. What do you divide by what?",
        ),
    ),
    hints=(
        "Count in diameters of the rivet that will be there.",
        "Edge distance ÷ new diameter. Compare with the least of the table.",
        "A similar case: 34 mm from the edge, 16 mm becomes 20 mm. 34 ÷ 20 = 1.7: too little.",
    ),
    marks=2,
    outcome=JUDGE,
    critical=True,
)
