"""Threads that move things, from ISO 2902, and printed tangents."""

import math

from workbench.tables import table


def moving(pitches, smallest=16, largest=60, step=("usual",)) -> list[dict]:
    """Size and pitch of the trapezoidal threads with one of these pitches.

    >>> moving((4,), largest=18)
    [{'size': 16.0, 'pitch': 4.0}, {'size': 18.0, 'pitch': 4.0}]
    """
    return [
        {"size": float(row["diameter_mm"]), "pitch": float(row["pitch_mm"])}
        for row in table("trapezoidal_sizes").rows.values()
        if row["pitch_mm"] in pitches and smallest <= row["diameter_mm"] <= largest and row["step"] in step
    ]


def tangent(degrees: float) -> float:
    """A tangent as printed in a question: four decimals.

    >>> tangent(15)
    0.2679
    """
    return round(math.tan(math.radians(degrees)), 4)
