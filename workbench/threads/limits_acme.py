"""Limits of general-purpose Acme threads (ASME B1.5): classes 2G, 3G, 4G, the standard's formulas, inch.

An Acme screw centres on its flanks: crests and roots have clearance, the pitch diameter an allowance.
"""

from workbench.refusals import numbers, refuse
from workbench.tables import table
from workbench.threads.limits import Band, Limits, rounded


def acme_limits(major_in, threads_per_inch, tolerance_class, inside=False):
    """Limits of a general-purpose Acme thread in inch; a screw, or with inside=True its nut.

    major_in: basic major diameter D > 0; threads_per_inch: n > 0 (P = 1/n); class 2G, 3G or 4G for screw and nut
    alike. Numbers or arrays. Pitch diameter: screw high D - P/2 - a sqrt(D), allowance a = 0.008, 0.006, 0.004;
    tolerance T = b sqrt(P) + c sqrt(D) with b, c = 0.030, 0.006; 0.014, 0.0028; 0.010, 0.002. Clearance at crest and
    root 0.020 in on the diameter up to 10 threads an inch, 0.010 beyond. Screw: major D, tolerance 0.05 P
    (at least 0.005); minor high D - P - clearance, tolerance 1.5 T. Nut: minor low D - P, tolerance 0.05 P (at
    least 0.005); major low D + clearance, tolerance the clearance again. Any diameter is computed with its own
    square root (B1.5 gives the formula for special sizes as well). Refused: other classes.
    Source: ASME B1.5, general-purpose classes (from memory; rows compared with reprints).

    >>> acme_limits(0.5, 10, "2G").pitch
    Band(low=0.4306, high=0.4443)
    """
    import numpy

    factors = table("acme_classes").rows
    if tolerance_class not in factors:
        refuse("tolerance_class", tolerance_class, "must be one of " + ", ".join(factors),
               "general purpose is G; the centralizing classes C are not stored")
    numbers("major_in", major_in, above=0, cause="was the size left as a fraction? 1/2 is 0.5")
    numbers("threads_per_inch", threads_per_inch, above=0, cause="was the pitch meant? n = 1 / P")
    diameter, per_inch = numpy.broadcast_arrays(numpy.asarray(major_in, float), numpy.asarray(threads_per_inch, float))
    pitch = 1 / per_inch
    factor = factors[tolerance_class]
    tolerance = factor["pitch_factor"] * numpy.sqrt(pitch) + factor["diameter_factor"] * numpy.sqrt(diameter)
    clearance = numpy.where(per_inch <= 10, 0.020, 0.010)
    crest_tolerance = numpy.maximum(0.05 * pitch, 0.005)
    name = f"{float(diameter):g}-{float(per_inch):g} Acme" if diameter.shape == () else f"{diameter.size} threads"
    if inside:
        bands = (
            (diameter + clearance, diameter + 2 * clearance),
            (diameter - pitch / 2, rounded(diameter - pitch / 2, 4) + rounded(tolerance, 4)),
            (diameter - pitch, diameter - pitch + crest_tolerance),
        )
    else:
        allowance = rounded(factor["allowance_factor"] * numpy.sqrt(diameter), 4)
        pitch_high = rounded(diameter - pitch / 2 - allowance, 4)
        minor_high = rounded(diameter - pitch - clearance, 4)
        bands = (
            (diameter - crest_tolerance, diameter),
            (pitch_high - rounded(tolerance, 4), pitch_high),
            (minor_high - rounded(1.5 * tolerance, 4), minor_high),
        )
    return Limits(name, tolerance_class, inside, "in",
                  *(Band(rounded(low, 4), rounded(high, 4)) for low, high in bands))
