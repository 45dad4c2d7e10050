"""Feeding with a screw: the dial of a lathe slide, a press's adjusting screw, and the slack to take up.

A dial marked in tool movement ("radius") takes twice its mark off a turned diameter; a dial marked in
diameter ("diameter") takes its mark off. Common practice, no source; the travel is that of the helix.
"""

from workbench.refusals import numbers, refuse
from workbench.screws.measuring import division_value

_DIAMETER_PER_MARK = {"radius": 2, "diameter": 1}


def divisions_for_travel(travel_mm, pitch_mm, divisions, starts=1):
    """Divisions to turn for a travel: travel / (pitch x starts / divisions); negative = back.

    >>> round(divisions_for_travel(0.35, 2, 40, starts=2), 9)
    3.5
    """
    return numbers("travel_mm", travel_mm) / division_value(pitch_mm, divisions, starts)


def _per_mark(dial):
    if dial not in _DIAMETER_PER_MARK:
        refuse("dial", dial, "must be 'radius' or 'diameter'", "is it marked in tool movement or in diameter?")
    return _DIAMETER_PER_MARK[dial]


def diameter_change_mm(divisions, division_mm, dial="radius"):
    """What so many divisions take off a turned diameter: 2 n q on a radius dial, n q on a diameter dial.

    divisions n: any, negative = drawn back; division_mm q: the value marked for one division, > 0.

    >>> round(diameter_change_mm(20, 0.02), 9)
    0.8
    """
    return _per_mark(dial) * numbers("divisions", divisions) * numbers("division_mm", division_mm, above=0)


def divisions_for_diameter(from_mm, to_mm, division_mm, dial="radius"):
    """Divisions to feed in from one turned diameter to the next: (D1 - D2) / (2 q); / q on a diameter dial.

    >>> round(divisions_for_diameter(30, 29.2, 0.02), 9)
    20.0
    """
    change = numbers("from_mm", from_mm, above=0) - numbers("to_mm", to_mm, above=0)
    return change / (_per_mark(dial) * numbers("division_mm", division_mm, above=0))


def moved_after_reversal(divisions, division_mm, backlash_mm):
    """Slide movement when the dial is turned the other way: n q - b; nothing until the slack b is used up.

    divisions n >= 0 counted from the reversal.

    >>> round(moved_after_reversal(20, 0.02, 0.15), 9)
    0.25
    >>> moved_after_reversal(5, 0.02, 0.15)
    0.0
    """
    dial = numbers("divisions", divisions, at_least=0, cause="count from the reversal, whichever way it goes")
    dial = dial * numbers("division_mm", division_mm, above=0)
    moved = dial - numbers("backlash_mm", backlash_mm, at_least=0)
    return (moved + abs(moved)) / 2  # the positive part, for a number and an array alike


def divisions_after_reversal(wanted_mm, division_mm, backlash_mm):
    """Divisions to turn the other way so that the slide moves as wanted: (w + b) / q.

    >>> round(divisions_after_reversal(0.25, 0.02, 0.15), 9)
    20.0
    """
    wanted = numbers("wanted_mm", wanted_mm, above=0, cause="after a reversal count the way back as positive")
    backlash = numbers("backlash_mm", backlash_mm, at_least=0)
    return (wanted + backlash) / numbers("division_mm", division_mm, above=0)
