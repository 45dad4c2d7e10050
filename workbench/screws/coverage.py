"""Coverage factors: Student's t for whole degrees of freedom, without any statistics library.

Source of the series: Abramowitz and Stegun, Handbook of Mathematical Functions, 26.7.3 and 26.7.4.
"""

import math
from functools import cache

from workbench.refusals import one_number

_NORMAL_FROM = 100_000  # from so many degrees of freedom t differs from the normal by less than 1e-4


def within(t, degrees):
    """Chance that Student's t lies between -t and t, for whole degrees of freedom (or infinity).

    >>> round(within(12.706, 1), 4)
    0.95
    """
    if degrees >= _NORMAL_FROM:
        return math.erf(t / math.sqrt(2))
    angle = math.atan2(t, math.sqrt(degrees))
    sine, cosine_squared = math.sin(angle), math.cos(angle) ** 2
    odd = degrees % 2
    term, total = (math.cos(angle), 0.0) if odd else (1.0, 0.0)
    for step in range(odd, degrees - 1, 2):
        total += term
        term *= cosine_squared * (step + 1) / (step + 2)
    return 2 / math.pi * (angle + sine * total) if odd else sine * total


@cache
def coverage_factor(degrees=math.inf, level=0.9545):
    """k such that +/- k standard uncertainties hold the level: Student's t, degrees cut to a whole number.

    degrees >= 1 (effective degrees of freedom); level between 0 and 1, 0.9545 = the "two sigma" level.
    Source of use: JCGM 100:2008 G.4.1 and table G.2.

    >>> round(coverage_factor(16.7, 0.99), 2)
    2.92
    >>> round(coverage_factor(), 2)
    2.0
    """
    one_number("level", level, above=0, at_most=0.9999, cause="write 0.95 for 95 %")
    if degrees != math.inf:
        one_number("degrees", degrees, at_least=1, cause="one reading alone tells nothing of the spread")
        degrees = math.floor(degrees)
    low, high = 0.0, 10_000.0  # one degree of freedom and the highest level ask for 6366
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if within(middle, degrees) < level else (low, middle)
    return high
