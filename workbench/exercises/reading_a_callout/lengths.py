"""Lengths: from where a screw is measured, and how much of it is thread."""

from workbench.exercises.exercise import Exercise, Misstep, Quantity
from workbench.exercises.reading_a_callout.outcomes import LENGTHS
from workbench.tables import table
from workbench.threads.matching import Part, thread_length_mm
from workbench.threads.measured import Measured

_LENGTHS = [row["length_mm"] for row in table("nominal_lengths").rows.values()]
_COVERS = (6, 7, 8, 9)  # thickness of the covers of the made-up instrument case


def _heads(kind):
    rows = table("head_heights").rows.values()
    return [(row["diameter_mm"], row["height_mm"]) for row in rows if row["head"] == kind]


def _ordered(v):
    """The length as ordered, from the part as measured."""
    sizes = {name: Measured(v[name]) for name in ("overall", "head")}
    part = Part(Measured(v["size"]), Measured(1), sizes["overall"], head="hexagon", head_height=sizes["head"])
    return part.length.value


def _ordered_draws():
    return [
        {"size": size, "overall": round(length + head, 1), "head": head, "threaded": thread_length_mm(size, length)}
        for size, head in _heads("hexagon")
        for length in _LENGTHS
        if 30 <= length <= 120 and thread_length_mm(size, length) + 5 <= length <= 8 * size
    ]


def _flush(v):
    return v["cover"] + v["reach"]


def _flush_draws():
    return [
        {"size": size, "head": head, "cover": cover, "reach": length - cover}
        for size, head in _heads("countersunk")
        for length in _LENGTHS
        for cover in _COVERS
        if size >= 4 and 20 <= length <= 8 * size and length - cover > size and cover > head + 1
    ]


def _plain(v):
    return v["length"] - thread_length_mm(v["size"], v["length"])


def _plain_draws():
    """Up to 125 mm; the plain part is no figure of question or hint, and no slip gives what another gives.

    At d = 6 mm one diameter and 6 mm are two diameters: refused.
    """
    draws = [
        {"size": size, "length": length}
        for size, _ in _heads("hexagon")
        for length in _LENGTHS
        if 30 <= length <= 120 and length <= 10 * size and size != 6
    ]
    return [draw for draw in draws if _plain(draw) >= 8 and _plain(draw) not in (draw["size"], 20, 25) and _apart(draw)]


def _lettered(v):
    """The bolt with letters in place of its dimensions."""
    threaded = thread_length_mm(v["size"], v["length"])
    return "call_out", {"call_out": f"M{v['size']:g}x{v['length']:g}", "thread_mm": threaded, "figures": False}


def _apart(draw):
    threaded = thread_length_mm(draw["size"], draw["length"])
    meeting = (draw["length"] - threaded, draw["length"] - 2 * draw["size"], draw["length"] - draw["size"] - 6)
    return threaded not in meeting


ORDERED = Exercise(
    key="reading_a_callout.ordered",
    asks="A hexagon screw M{size:g} of the hoist must be replaced. With its head it is {overall:.1f} mm long. "
    "The head is {head:.1f} mm high. The thread is {threaded:g} mm long. Which length do you order?",
    answer=Quantity("mm", 0.1, (5, 300)),
    draws=_ordered_draws,
    right=_ordered,
    missteps=(
        Misstep(
            "overall-length-ordered",
            lambda v: v["overall"],
            "{entry} agrees with the screw with its head.",
            "Sketch the screw. A hexagon head stays outside the hole: where does the length begin?",
        ),
        Misstep(
            "head-added",
            lambda v: v["overall"] + v["head"],
            "{entry} agrees with a head that is counted twice.",
            "The whole screw holds its head already. Should the length grow or shrink?",
        ),
        Misstep(
            "thread-length-ordered",
            lambda v: v["threaded"],
            "{entry} agrees with the thread alone.",
            "The length to order goes from under the head to the end of the screw.",
        ),
        Misstep(
            "head-taken-off-twice",
            lambda v: v["overall"] - 2 * v["head"],
            "{entry} agrees with a head that is taken off twice.",
            "A screw has one head. Take it off once.",
        ),
    ),
    hints=(
        "Draw a line under the head. The length of a hexagon screw begins there.",
        "Length = whole screw − head.",
        "A similar case: whole screw 28.5 mm, head 3.5 mm. The length is 28.5 − 3.5 = 25 mm.",
    ),
    marks=1,
    outcome=LENGTHS,
)

FLUSH = Exercise(
    key="reading_a_callout.flush",
    asks="A countersunk screw M{size:g} holds the cover of the instrument case. Its head is {head:g} mm high "
    "and lies flush in the cover. The cover is {cover} mm thick. "
    "Below the cover the screw must reach {reach:g} mm into the frame. Which length do you order?",
    answer=Quantity("mm", 0.1, (5, 200)),
    draws=_flush_draws,
    right=_flush,
    missteps=(
        Misstep(
            "head-taken-off-as-on-a-hexagon",
            lambda v: _flush(v) - v["head"],
            "{entry} agrees with a length that begins under the head.",
            "This head goes into the cover. Drop one into a plate: how much of the screw is inside?",
        ),
        Misstep(
            "head-added",
            lambda v: _flush(v) + v["head"],
            "{entry} agrees with a head that comes on top.",
            "The head lies inside the cover. Is it counted there already?",
        ),
        Misstep(
            "cover-left-out",
            lambda v: v["reach"],
            "{entry} agrees with the part in the frame alone.",
            "The screw must also pass through the cover.",
        ),
        Misstep(
            "reach-left-out",
            lambda v: v["cover"],
            "{entry} agrees with the cover alone.",
            "What holds the cover, if the screw ends there?",
        ),
        Misstep(
            "head-for-the-cover",
            lambda v: v["reach"] + v["head"],
            "{entry} agrees with the height of the head and the part in the frame.",
            "The head lies inside the cover. How thick is the whole cover?",
        ),
    ),
    hints=(
        "A countersunk screw is ordered by its whole length, because the head goes into the part.",
        "Length = cover + reach.",
        "A similar case: cover 5 mm, reach 11 mm. The length is 5 + 11 = 16 mm.",
    ),
    marks=1,
    outcome=LENGTHS,
)

PLAIN = Exercise(
    key="reading_a_callout.plain",
    asks="The pulley of the hoist turns on a hexagon bolt M{size:g} × {length:g}, on its plain part. "
    "The picture shows it with letters. For bolts up to 125 mm the thread length is b = 2 d + 6 mm (ISO 888). "
    "How long is the plain part? Leave out the run-out: the few shallow turns where the thread ends.",
    answer=Quantity("mm", 0.1, (0, 125)),
    draws=_plain_draws,
    right=_plain,
    missteps=(
        Misstep(
            "added-length-dropped",
            lambda v: v["length"] - 2 * v["size"],
            "{entry} agrees with a thread of two diameters.",
            "Look at the formula again: what is added to 2 d?",
            keeps=1,
        ),
        Misstep(
            "thread-length-given",
            lambda v: thread_length_mm(v["size"], v["length"]),
            "{entry} agrees with the threaded part.",
            "Underline the word: asked is the part without thread.",
            keeps=1,
        ),
        Misstep(
            "one-diameter-taken",
            lambda v: v["length"] - v["size"] - 6,
            "{entry} agrees with a thread of one diameter and 6 mm.",
            "Measure the thread of a real bolt. Is it nearer to one or to two diameters?",
        ),
        Misstep(
            "whole-length-as-thread",
            lambda v: 0,
            "{entry} agrees with a screw that is threaded up to its head.",
            "That screw has another standard. Lay the two side by side: which one bears a pulley?",
        ),
        Misstep(
            "one-diameter-alone",
            lambda v: v["length"] - v["size"],
            "{entry} agrees with a thread as long as one diameter.",
            "Write the formula out with your figures: 2 d, and what is added to it.",
        ),
        Misstep(
            "added-length-off-twice",
            lambda v: _plain(v) - 6,
            "{entry} agrees with 6 mm that are taken off twice.",
            "The 6 mm are in b already. Take b off once.",
            keeps=1,
        ),
    ),
    hints=(
        "First the thread length b, with d from the call-out.",
        "Plain part = length − b.",
        "A similar case: M7 × 25. b = 2 × 7 + 6 = 20 mm, so 25 − 20 = 5 mm are plain.",
    ),
    marks=2,
    outcome=LENGTHS,
    shows=_lettered,
)
