"""A measured size with its uncertainty, and what it lets one say about a limit.

Rule of decision: a size satisfies limits only when all of value ± uncertainty lies inside, fails only when
all of it lies outside; between the two the instrument cannot tell. Source: ISO 14253-1 (the principle,
from memory).
"""

from dataclasses import dataclass

from workbench.refusals import one_number, whole

SATISFIES, FAILS, CANNOT_TELL = "satisfies", "fails", "cannot tell with this instrument"


@dataclass(frozen=True)
class Measured:
    """A value and its uncertainty: half the width that holds the true size with about 95 %, in the value's unit.

    >>> Measured(9.87, 0.01).against(9.732, 9.968)
    ('satisfies', 0.0)
    """

    value: float
    uncertainty: float = 0.0

    def __post_init__(self):
        one_number("value", self.value)
        one_number("uncertainty", self.uncertainty, at_least=0, cause="give the half width without a sign")

    @property
    def low(self):
        """The smallest size it may be."""
        return self.value - self.uncertainty

    @property
    def high(self):
        """The largest size it may be."""
        return self.value + self.uncertainty

    def against(self, low=None, high=None):
        """(verdict, by): by how much the value lies beyond a limit, + too large, - too small, 0.0 inside.

        low, high: the limits, None where there is none.

        >>> Measured(10.2, 0.02).against(9.7, 10.0)[0]
        'fails'
        >>> Measured(9.99, 0.02).against(9.7, 10.0)[0]
        'cannot tell with this instrument'
        """
        by = 0.0
        if high is not None and self.value > high:
            by = self.value - high
        elif low is not None and self.value < low:
            by = self.value - low
        slack = 1e-9  # binary dust
        inside = (low is None or self.low >= low - slack) and (high is None or self.high <= high + slack)
        outside = (low is not None and self.high < low - slack) or (high is not None and self.low > high + slack)
        return (SATISFIES if inside else FAILS if outside else CANNOT_TELL), by

    def meets(self, low, high):
        """May the true size lie between low and high?"""
        return self.low <= high + 1e-9 and self.high >= low - 1e-9


def pitch_over_crests(length_mm, crests, uncertainty_mm=0.05):
    """The pitch from the length between the first and the last of so many crests: one gap fewer than crests.

    >>> pitch_over_crests(11.25, 10).value
    1.25
    """
    gaps = whole("crests", crests, at_least=2, cause="one crest has no gap") - 1
    one_number("length_mm", length_mm, above=0)
    return Measured(length_mm / gaps, uncertainty_mm / gaps)


def pitch_by_leaf(leaf_mm, teeth=6, seen_mm=0.1):
    """The pitch by a gauge leaf that shows no light: over its teeth a difference of seen_mm would show.

    seen_mm 0.1 is common practice, no source.

    >>> pitch_by_leaf(1.25)
    Measured(value=1.25, uncertainty=0.02)
    """
    gaps = whole("teeth", teeth, at_least=2) - 1
    return Measured(one_number("leaf_mm", leaf_mm, above=0), one_number("seen_mm", seen_mm, above=0) / gaps)
