"""Threads of ISO 261 to ask about, and the widths that rounding on the way costs."""

from workbench.exercises.draws import third_figure
from workbench.tables import table
from workbench.threads.profile import profile


def threads(pitches, largest=48, series=("coarse", "fine")) -> list[dict]:
    """Diameter and pitch of threads of ISO 261 with one of these pitches, without third choices and restricted ones.

    >>> threads((1.25,), largest=10)
    [{'diameter': 8.0, 'pitch': 1.25}, {'diameter': 10.0, 'pitch': 1.25}]
    """
    return [
        {"diameter": float(row["diameter_mm"]), "pitch": float(row["pitch_mm"])}
        for row in table("iso_261_metric").rows.values()
        if row["pitch_mm"] in pitches and row["diameter_mm"] <= largest and row["series"] in series
        and row["choice"] < 3 and not row["note"]
    ]


def basic(v):
    """The basic profile of a draw's thread."""
    return profile("metric", v["diameter"], v["pitch"])


def both_sides(part: float, height: float) -> float:
    """What 2 x part x height loses when the height and its part are rounded to three figures.

    >>> round(both_sides(5 / 8, 1.299), 5)
    0.01125
    """
    return 2 * part * third_figure(height) + max(2 * third_figure(part * height), third_figure(2 * part * height))
