"""Faults of driven rivets: sign, cause, and accept, replace or refer; taking a rivet out; what is left after it.

Source of the faults: common practice (tables/rivet_defects.csv). Edge distance and pitch after the next size are
counted anew with the larger D, by the document chosen (tables/rivet_spacing.csv).
"""

from dataclasses import dataclass

from workbench.refusals import one_number, refuse, whole
from workbench.rivets.hole import hole
from workbench.rivets.size import next_size, sizes_mm
from workbench.rivets.spacing import spacing
from workbench.tables import table

VERDICTS = ("accept", "refer", "replace")  # from the mildest to the worst


@dataclass(frozen=True)
class Fault:
    """One fault: its sign, likely cause, verdict and what to do."""

    name: str
    sign: str
    cause: str
    verdict: str
    act: str


def faults():
    """All faults of the table, by name.

    >>> faults()["tipped head"].verdict
    'replace'
    """
    return {name: Fault(name, row["sign"], row["cause"], row["verdict"], row["act"])
            for name, row in table("rivet_defects").rows.items()}  # fmt: skip


def verdict(*found):
    """The verdict on a rivet with these faults: the worst of them; "accept" where none is found.

    >>> verdict(), verdict("cut head"), verdict("cut head", "open head")
    ('accept', 'refer', 'replace')
    """
    known = faults()
    for name in found:
        if name not in known:
            refuse("fault", name, "must be one of " + ", ".join(known))
    return max((known[name].verdict for name in found), key=VERDICTS.index, default="accept")


@dataclass(frozen=True)
class Removal:
    """Taking out one rivet: sizes in mm and the steps in order.

    drill_mm: no larger than the shank, so that the hole is left; depth_mm: of the head only; punch_mm: thinner than
    the hole.
    """

    drill_mm: float
    depth_mm: float
    punch_mm: float
    steps: tuple


def removal(size, head_height_mm, system="metric", flush=False):
    """How to take out a solid rivet of that size.

    head_height_mm: of the manufactured head (countersunk: its depth). Drill 0.1 mm under the shank (a size under);
    punch 0.3 mm under the shank. Common practice, no source.

    >>> one = removal("4", 2.4)
    >>> one.drill_mm, one.depth_mm, one.punch_mm, len(one.steps)
    (3.9, 2.4, 3.7, 7)
    """
    shank = hole(size, system).shank_mm
    one_number("head_height_mm", head_height_mm, above=0, at_most=2 * shank, cause="the head, not the whole rivet")
    drill, punch = round(shank - 0.1, 2), round(shank - 0.3, 2)
    first = "leave the flush head as it is" if flush else "file a flat on the manufactured head"
    steps = (
        "wear eye protection; clamp the work",
        first,
        "centre-punch the middle of the head, the back supported",
        f"drill {drill:g} mm, only as deep as the head: {head_height_mm:g} mm",
        "snap the head off with a punch in the drilled hole, or chisel it off lightly",
        f"support the sheet beside the rivet and drive the shank out with a punch of {punch:g} mm",
        "measure the hole; look for cracks and burrs",
    )
    return Removal(drill, head_height_mm, punch, steps)


_REPLACED = {"2017": 6, "2024": 5}  # by 2117, up to so many 32nds


def replacement_32nds(alloy, diameter_32nds):
    """Diameter in 32nds of the 2117 rivet that may replace one of 2017 (to 3/16 in) or 2024 (to 5/32 in): one more.

    Refused: larger ones, and other alloys. Source: FAA AC 43.13-1B chapter 4; the approved data come first.

    >>> replacement_32nds("2017", 4)
    5
    """
    if alloy not in _REPLACED:
        refuse("alloy", alloy, "must be 2017 or 2024", "2117 is replaced by 2117 of its own size")
    whole("diameter_32nds", diameter_32nds, at_least=2, at_most=_REPLACED[alloy],
          cause=f"a larger rivet of {alloy} is not replaced by 2117: refer")  # fmt: skip
    return diameter_32nds + 1


@dataclass(frozen=True)
class After:
    """What is left for a rivet of the next size in an old place: edge and pitch in multiples of the new D."""

    size: str
    diameter_mm: float
    edge_d: float
    pitch_d: float
    allowed: bool
    reasons: tuple


def after_next_size(size, edge_mm, pitch_mm, flush=False, system="metric", document="navy"):
    """May the next size go in? Edge distance and pitch by the document of `spacing`, D being the new diameter.

    edge_mm: from the middle of the hole to the edge; pitch_mm: to the next rivet's middle.

    >>> one = after_next_size("4", 9, 16)
    >>> one.size, one.edge_d, one.allowed, one.reasons[0]
    ('5', 1.8, False, 'edge distance 9 mm is 1.80 D, least 2 D')
    """
    larger = next_size(size, system)
    across = sizes_mm(system)[larger]
    rule = spacing(across, document, flush)
    reasons = tuple(
        f"{name} {left:g} mm is {left / across:.2f} D, least {least / across:g} D"
        for name, left, least in (("edge distance", one_number("edge_mm", edge_mm, above=0), rule.edge_least_mm),
                                  ("pitch", one_number("pitch_mm", pitch_mm, above=0), rule.pitch_least_mm))
        if left < least - 1e-9
    )  # fmt: skip
    return After(larger, across, edge_mm / across, pitch_mm / across, not reasons, reasons)
