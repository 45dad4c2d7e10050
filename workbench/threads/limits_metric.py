"""Limits of ISO metric threads (ISO 965): stored tolerances and deviations, never their formula.

The standard rounded its formulas by hand: for M10-6H the formula gives 170 micrometres, the standard has 180.
A class that the standard leaves blank at a pitch is refused; nothing is interpolated.
"""

import re
from functools import cache

from workbench.refusals import numbers, refuse
from workbench.tables import table
from workbench.threads.limits import Band, Limits, rounded

_CLASS = re.compile(r"(\d)([A-Za-z])(?:(\d)([A-Za-z]))?")


def basic_diameters_mm(diameter_mm, pitch_mm):
    """Pitch diameter d2 = D2 and minor diameter D1 of the basic profile, rounded to 0.001 as in ISO 724.

    d2 = d - 0.649519 P, D1 = d - 1.082532 P; numbers or arrays, mm. Source: ISO 724.

    >>> basic_diameters_mm(10, 1.5)
    (9.026, 8.376)
    """
    height = 3**0.5 / 2 * pitch_mm
    return rounded(diameter_mm - 0.75 * height, 3), rounded(diameter_mm - 1.25 * height, 3)


def metric_limits(diameter_mm, pitch_mm, tolerance_class):
    """Limits of an ISO metric thread of a class such as 6g, 4h, 6H or, pitch diameter before crest, 4g6g.

    diameter_mm, pitch_mm: one thread of ISO 261 (M1 to M90), or arrays of them; tolerance_class: small
    letter = screw (e, f, g, h), capital = nut (G, H). A screw: major d = d + es - Td; pitch d2 + es - Td2; minor
    high = D1 + es (the root must stay inside), low = d2 low - 0.616025 P (root radius P/8). A nut:
    pitch D2 + EI + TD2; minor D1 + EI + TD1; major low = D + EI, its high D2 high + 0.793857 P is only for reference
    (ASME B1.13M; ISO sets none). Refused: a size that is not in ISO 261, a grade or position
    that ISO 965-1 does not give at that pitch. Source: ISO 261, ISO 724, ISO 965-1, tables as stored.

    >>> bolt = metric_limits(10, 1.5, "6g")
    >>> bolt.pitch
    Band(low=8.862, high=8.994)
    >>> metric_limits(1, 0.25, "6H")
    Traceback (most recent call last):
    ...
    ValueError: tolerance_class = '6H': is not given by ISO 965-1 for M1x0.25; given for the pitch diameter: 4H, 5H
    """
    import numpy

    pitch_grade, crest_grade, position = _class(tolerance_class)
    inside = position.isupper()
    numbers("diameter_mm", diameter_mm, above=0)
    numbers("pitch_mm", pitch_mm, above=0)
    diameter, pitch = numpy.broadcast_arrays(numpy.asarray(diameter_mm, float), numpy.asarray(pitch_mm, float))
    place = _places(diameter, pitch)
    sizes = _sizes()
    deviation, pitch_tolerance, crest_tolerance = (
        _given(sizes, place, column, tolerance_class) / 1000
        for column in _columns(pitch_grade, crest_grade, position)
    )
    basic_pitch, basic_minor = basic_diameters_mm(diameter, pitch)

    def mm(value):
        return rounded(value, 3)

    if inside:
        pitch_high = basic_pitch + deviation + pitch_tolerance
        major = Band(mm(diameter + deviation), mm(pitch_high + 11 / 12 * 3**0.5 / 2 * pitch))
        minor = Band(mm(basic_minor + deviation), mm(basic_minor + deviation + crest_tolerance))
        pitch_band = Band(mm(basic_pitch + deviation), mm(pitch_high))
    else:
        pitch_low = basic_pitch + deviation - pitch_tolerance
        major = Band(mm(diameter + deviation - crest_tolerance), mm(diameter + deviation))
        minor = Band(mm(pitch_low - (3**0.5 / 2 - 0.25) * pitch), mm(basic_minor + deviation))
        pitch_band = Band(mm(pitch_low), mm(basic_pitch + deviation))
    name = sizes["names"][int(place)] if place.shape == () else f"{place.size} threads"
    return Limits(name, tolerance_class, inside, "mm", major, pitch_band, minor)


def screw_root_mm(diameter_mm, pitch_mm, tolerance_class):
    """Rounded root d3 of a screw: high = d - 1.226869 P + es (design profile, radius H/6), low as in `metric_limits`.

    The high limit that ISO 965-2 lists for bolts; the boundary that a gauge tests is D1 + es, a little above.
    Symbols and refusals as in `metric_limits`; a nut class is refused. Source: ISO 965-1, ISO 965-2.

    >>> screw_root_mm(10, 1.5, "6g")
    Band(low=7.938, high=8.128)
    """
    limits = metric_limits(diameter_mm, pitch_mm, tolerance_class)
    if limits.inside:
        refuse("tolerance_class", tolerance_class, "must be a screw class", "a nut has its bore D1: metric_limits")
    basic = rounded(diameter_mm - 17 / 12 * 3**0.5 / 2 * pitch_mm, 3)
    return Band(limits.minor.low, rounded(basic + limits.major.high - diameter_mm, 3))


def usual_classes(diameter_mm, pitch_mm):
    """Classes of screw and nut that a metric call-out means when it says none: 6g and 6H, to M1.4 6h and 5H.

    At P 0.2 the nut is 4H, at P 0.25 it is 5H at any diameter, since the standard gives no 6H there.
    Source: ISO 965-1 (from memory).

    >>> usual_classes(10, 1.5), usual_classes(1, 0.25)
    (('6g', '6H'), ('6h', '5H'))
    """
    given = given_classes(diameter_mm, pitch_mm)
    small = diameter_mm <= 1.4
    nuts = ("5H", "4H") if small else ("6H", "5H", "4H")
    return "6h" if small else "6g", next(nut for nut in nuts if nut in given)


def given_classes(diameter_mm, pitch_mm):
    """All classes with one grade (6g, 6H, not 4g6g) that ISO 965-1 gives for a thread of ISO 261.

    >>> given_classes(1, 0.25)
    ('4G', '4H', '5G', '5H', '4g', '4h', '6g', '6h')
    """
    import numpy

    place = _places(numpy.asarray(float(diameter_mm)), numpy.asarray(float(pitch_mm)))
    sizes = _sizes()
    return tuple(
        f"{grade}{position}"
        for positions, grades in (("GH", range(4, 9)), ("efgh", (4, 6, 8)))
        for grade in grades for position in positions
        if all(numpy.isfinite(sizes[column][place]) for column in _columns(grade, grade, position))
    )


def _class(text):
    """Grades of pitch and crest diameter and the position, from the class as written."""
    found = _CLASS.fullmatch(text) if isinstance(text, str) else None
    if not found:
        refuse("tolerance_class", text, "must be a grade and a position, as 6g, 6H or 4g6g",
               "were pitch and crest class swapped with the thread?")
    grade, position, crest_grade, crest_position = found.groups()
    if position not in "efghGH" or crest_position not in (None, position):
        refuse("tolerance_class", text, "must have one position of e, f, g, h (screw) or G, H (nut)",
               "screws have small letters, nuts capitals; both parts of a class have the same letter here")
    return int(grade), int(crest_grade or grade), position


def _columns(pitch_grade, crest_grade, position):
    """Column names of deviation, pitch tolerance and crest tolerance in the joined table."""
    pitch, crest = ("TD2", "TD1") if position.isupper() else ("Td2", "Td")
    return position, f"{pitch}_{pitch_grade}", f"{crest}_{crest_grade}"


@cache
def _sizes():
    """Every thread of ISO 261 with its row of each tolerance table: {column: array}, and "names"."""
    import numpy

    rows = list(table("iso_261_metric").rows.values())
    ranges = list(table("iso_965_pitch").rows.values())
    columns = {"names": [row["thread"] for row in rows]}
    joined = []
    for row in rows:
        one = dict(table("iso_965_deviations").row(_figure(row["pitch_mm"])))
        one |= table("iso_965_crest").row(_figure(row["pitch_mm"]))
        for band in ranges:
            if band["over_mm"] < row["diameter_mm"] <= band["to_mm"] and band["pitch_mm"] == row["pitch_mm"]:
                one |= band
        joined.append(one)
    for column in set().union(*joined) - {"pitch", "range_and_pitch"}:
        columns[column] = numpy.array([one.get(column, numpy.nan) for one in joined])
    keys = _keys(*(numpy.array([row[column] for row in rows]) for column in ("diameter_mm", "pitch_mm")))
    columns["order"] = numpy.argsort(keys)
    columns["keys"] = keys[columns["order"]]
    return columns


def _figure(value):
    return format(value, "g")


def _keys(diameter, pitch):
    """One whole number a thread: diameter in hundredths before pitch in thousandths of a millimetre."""
    import numpy

    return numpy.rint(diameter * 100).astype(numpy.int64) * 100_000 + numpy.rint(pitch * 1000).astype(numpy.int64)


def _places(diameter, pitch):
    """Rows of the joined table for threads of ISO 261; the first thread that is not one is refused."""
    import numpy

    sizes = _sizes()
    keys = _keys(diameter, pitch)
    found = numpy.searchsorted(sizes["keys"], keys)
    found = numpy.minimum(found, len(sizes["keys"]) - 1)
    known = (sizes["keys"][found] == keys) & (numpy.abs(diameter * 100 - numpy.rint(diameter * 100)) < 1e-6)
    known &= numpy.abs(pitch * 1000 - numpy.rint(pitch * 1000)) < 1e-6
    if not known.all():
        _refuse_size(float(diameter[~known].flat[0]), float(pitch[~known].flat[0]))
    return sizes["order"][found]


def _refuse_size(diameter_mm, pitch_mm):
    pitches = [_figure(row["pitch_mm"]) for row in table("iso_261_metric").rows.values()
               if row["diameter_mm"] == diameter_mm]
    cause = f"M{_figure(diameter_mm)} has P {', '.join(pitches)}" if pitches else "sizes M1 to M90 are stored"
    refuse("thread", f"M{_figure(diameter_mm)}x{_figure(pitch_mm)}", "is not in ISO 261", cause)


def _given(sizes, place, column, tolerance_class):
    """Values of the column at the rows, refusing the first that the standard leaves blank."""
    import numpy

    values = sizes[column][place] if column in sizes else numpy.full(place.shape, numpy.nan)
    blank = numpy.isnan(values)
    if blank.any():
        first = int(place[blank].flat[0]) if place.shape else int(place)
        kind, _, _ = column.partition("_")
        position = re.sub(r"\d", "", tolerance_class)[0]
        if kind in ("TD2", "Td2", "TD1", "Td"):
            what = "pitch diameter" if kind.endswith("2") else "crest diameter"
            there = [name for name in sizes if name.startswith(kind + "_") and numpy.isfinite(sizes[name][first])]
            cause = f"given for the {what}: " + ", ".join(sorted(name[-1] + position for name in there))
        else:
            there = [name for name in ("GH" if position.isupper() else "efgh") if numpy.isfinite(sizes[name][first])]
            cause = "positions given at this pitch: " + ", ".join(there)
        refuse("tolerance_class", tolerance_class, f"is not given by ISO 965-1 for {sizes['names'][first]}", cause)
    return values
