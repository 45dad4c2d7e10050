"""Limits of Unified inch threads (ASME B1.1): the standard's own formulas with its rounding.

For UN threads the formulas are the basis of the standard. Rounding as its tables show it: the basic diameters,
each tolerance and the allowance (0.3 of the rounded tolerance of class 2A) to 0.0001 in, halves to the even figure,
then added; the bore of nuts from number 6 up once more, to 0.001 in. Printed tables of the constant-pitch
series (UN, UNS) were in part made with the tolerance of a neighbouring diameter: up to 0.0002 in apart.
"""

from workbench.refusals import numbers, refuse
from workbench.tables import table
from workbench.threads.limits import Band, Limits, rounded

# pitch diameter tolerance relative to class 2A (ASME B1.1, tolerances of the classes)
_SHARES = {"1A": 1.5, "2A": 1.0, "3A": 0.75, "1B": 1.95, "2B": 1.3, "3B": 0.975}
_LONG_SERIES = ("UNC", "UNF")  # tolerances for a length of engagement of one diameter
_NINE_PITCHES = ("UNEF", "UN", "UNS")  # for nine pitches; 4-, 6- and 8-UN for one diameter
_HEIGHT = 3**0.5 / 2


def unified_limits(major_in, threads_per_inch, tolerance_class, series="UNC"):
    """Limits of a Unified thread in inch; classes 1A, 2A, 3A are screws, 1B, 2B, 3B nuts.

    major_in: basic major diameter D > 0; threads_per_inch: n > 0 (P = 1/n); series: UNC, UNF (length of engagement
    LE = D), UNEF, UNS, UN (LE = 9 P, but D for 4, 6, 8 threads an inch). Numbers or arrays.
    Td2 of 2A = 0.0015 D^(1/3) + 0.0015 LE^(1/2) + 0.015 P^(2/3), other classes a share of it; allowance
    es = 0.3 Td2 (1A, 2A); Td = 0.06 P^(2/3) (1A 0.09). Nut bore: 1B, 2B from 1/4 in: 0.25 P - 0.4 P^2
    (0.15 P coarser than 4 threads an inch), below 1/4 in and for 3B 0.05 P^(2/3) + 0.03 P/D - 0.002 within the bounds
    of the standard. Minor high of a screw is for reference: the rounded root, UNR (printed values 0.0001 apart).
    Refused: a class not in the list, 1A and 1B outside UNC and UNF from 1/4 in, a size that is not in the series
    UNC, UNF or UNEF (UN and UNS take any). Source: ASME B1.1, clauses on
    tolerances and on rounding (from memory; rows compared with reprints).

    >>> unified_limits(0.25, 20, "2A").pitch
    Band(low=0.2127, high=0.2164)
    >>> unified_limits(0.25, 20, "2B").minor
    Band(low=0.196, high=0.207)
    """
    import numpy

    numbers("major_in", major_in, above=0, cause="number size N is 0.060 + 0.013 N inch")
    numbers("threads_per_inch", threads_per_inch, above=0, cause="was the pitch meant? n = 1 / P")
    diameter, per_inch = numpy.broadcast_arrays(numpy.asarray(major_in, float), numpy.asarray(threads_per_inch, float))
    pitch = 1 / per_inch
    _refuse_class(diameter, tolerance_class, series)
    _refuse_size(diameter, per_inch, series)
    whole_diameter = (series in _LONG_SERIES) | (numpy.isin(per_inch, (4, 6, 8)) & (series == "UN"))
    engagement = numpy.where(whole_diameter, diameter, 9 * pitch)
    of_2a = 0.0015 * numpy.cbrt(diameter) + 0.0015 * numpy.sqrt(engagement) + 0.015 * numpy.cbrt(pitch) ** 2
    of_2a = numpy.round(of_2a, 6)
    tolerance = _to_even(_SHARES[tolerance_class] * of_2a)
    basic_pitch = _to_even(diameter - 0.75 * _HEIGHT * pitch)
    name = f"{float(diameter):g}-{float(per_inch):g} {series}" if diameter.shape == () else f"{diameter.size} threads"
    if tolerance_class.endswith("B"):
        return Limits(name, tolerance_class, True, "in", Band(rounded(diameter, 4), None),
                      Band(rounded(basic_pitch, 4), rounded(basic_pitch + tolerance, 4)),
                      _bore(diameter, pitch, tolerance_class))
    allowance = 0 * of_2a if tolerance_class == "3A" else _to_even(0.3 * _to_even(of_2a))
    major_tolerance = _to_even((0.09 if tolerance_class == "1A" else 0.06) * numpy.cbrt(pitch) ** 2)
    largest, pitch_high = diameter - allowance, basic_pitch - allowance
    return Limits(name, tolerance_class, False, "in", Band(rounded(largest - major_tolerance, 4), rounded(largest, 4)),
                  Band(rounded(pitch_high - tolerance, 4), rounded(pitch_high, 4)),
                  Band(None, rounded(largest - 11 / 8 * _HEIGHT * pitch, 4)))


def _to_even(value, places=4):
    """Rounded to decimal places, halves to the even figure (binary dust removed first)."""
    import numpy

    return numpy.rint(numpy.round(value * 10**places, 4)) / 10**places


def _refuse_class(diameter, tolerance_class, series):
    if tolerance_class not in _SHARES:
        refuse("tolerance_class", tolerance_class, "must be one of " + ", ".join(_SHARES),
               "2A and 2B are the usual screw and nut; 6g and 6H belong to metric threads")
    if series not in _LONG_SERIES + _NINE_PITCHES:
        refuse("series", series, "must be one of " + ", ".join(_LONG_SERIES + _NINE_PITCHES),
               "UNC coarse, UNF fine, UNEF extra fine, UN constant pitch, UNS special")
    if tolerance_class[0] == "1" and (series not in _LONG_SERIES or (diameter < 0.25).any()):
        refuse("tolerance_class", tolerance_class, "is given only for UNC and UNF from 1/4 inch",
               "take class 2 or 3")


def _refuse_size(diameter, per_inch, series):
    """UNC, UNF and UNEF have listed sizes; the first thread that is not one of them is refused."""
    if series not in ("UNC", "UNF", "UNEF"):
        return
    import numpy

    listed = [row for row in table("unified_sizes").rows.values() if row["series"] == series]
    keys = {(round(row["major_in"], 4), row["threads_per_inch"]) for row in listed}
    for pair in set(zip(numpy.round(diameter, 4).flat, per_inch.flat, strict=True)) - keys:
        size, threads = map(float, pair)
        counts = [f"{row['threads_per_inch']:g}" for row in listed if abs(row["major_in"] - size) < 5e-5]
        refuse("thread", f"{size:g}-{threads:g} {series}", f"is not a size of {series}",
               f"{size:g} in has {', '.join(counts)} threads an inch" if counts else "give UNS for a special thread")


def _bore(diameter, pitch, tolerance_class):
    """Minor diameter of the nut: lowest to 0.001 in from number 6 up; highest likewise, but class 3 keeps 0.0001."""
    import numpy

    lowest = _to_even(diameter - 1.25 * _HEIGHT * pitch)
    small = 0.05 * numpy.cbrt(pitch) ** 2 + 0.03 * pitch / diameter - 0.002
    coarse = numpy.where(pitch > 0.25, 0.15 * pitch, 0.25 * pitch - 0.4 * pitch**2)
    if tolerance_class == "3B":
        floor = numpy.where(pitch > 1 / 12.5, 0.12 * pitch, 0.23 * pitch - 1.5 * pitch**2)
        tolerance = numpy.clip(small, floor, 0.394 * pitch)
    else:
        tolerance = numpy.where(diameter < 0.25, numpy.clip(small, coarse, 0.394 * pitch), coarse)
    highest = lowest + _to_even(tolerance)
    from_number_6 = diameter >= 0.138
    low = numpy.where(from_number_6, _to_even(lowest, 3), lowest)
    high = numpy.where(from_number_6 & (tolerance_class != "3B"), _to_even(highest, 3), highest)
    return Band(rounded(low, 4), rounded(high, 4))
