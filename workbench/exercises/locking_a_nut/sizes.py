"""Slotted nuts, their pitches and joints, with the figures that a question prints."""

from workbench.screws.slotted_nut import nut
from workbench.screws.stiffness import Springs, bolt_n_per_mm
from workbench.tables import table

PARTS_TO_BOLT = 4  # parts about so many times as stiff as the bolt: common practice, no source


def nuts(smallest=8, largest=64) -> list[dict]:
    """Thread, diameter, pitch and slots of the slotted nuts of DIN 935-1 in a range of diameters.

    >>> nuts(largest=8)
    [{'thread': 'M8', 'size': 8.0, 'pitch': 1.25, 'slots': 6}]
    """
    return [
        {"thread": name, "size": row["diameter_mm"], "pitch": row["pitch_mm"], "slots": int(row["slots"])}
        for name, row in table("din_935_slotted_nuts").rows.items()
        if smallest <= row["diameter_mm"] <= largest
    ]


def joint(thread: str, grip_mm: float) -> tuple[int, int]:
    """Stiffness of bolt and parts of a joint in kN/mm, rounded to tens as a question prints them.

    >>> joint("M12", 40)
    (430, 1730)
    """
    row = nut(thread)
    bolt = bolt_n_per_mm(row["diameter_mm"], row["pitch_mm"], 0, grip_mm) / 1000
    return round(bolt / 10) * 10, round(PARTS_TO_BOLT * bolt / 10) * 10


def unprinted(draws, value, decimals: int, *elsewhere: float) -> list[dict]:
    """The draws whose answer is none of their own figures, nor one that a hint prints.

    >>> unprinted([{"a": 2.0}, {"a": 3.0}], lambda d: 4 - d["a"], 1, 7.0)
    [{'a': 3.0}]
    """
    return [
        draw for draw in draws
        if round(value(draw), decimals) not in {*elsewhere, *(one for one in draw.values() if not isinstance(one, str))}
    ]


def springs(v) -> Springs:
    """The two stiffnesses of a draw as Springs."""
    return Springs(1000 * v["bolt"], 1000 * v["parts"])
