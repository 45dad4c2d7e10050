"""The uncertainty budget of a measurement with a measuring screw.

Each line: a half-width or spread, its distribution, the divisor that makes it a standard uncertainty, and
how strongly it acts on the result. Source: JCGM 100:2008 (GUM) 4.2, 4.3, 5.1, G.4.
"""

import math
from dataclasses import dataclass

from workbench.refusals import numbers, one_number, refuse
from workbench.screws.coverage import coverage_factor
from workbench.tables import table


@dataclass(frozen=True)
class Line:
    """One line of a budget.

    value: half-width, or standard deviation where normal, >= 0; distribution: a row of the table
    `distributions`; sensitivity: change of the result for a change of one in this quantity; degrees: of
    freedom, infinite unless the value itself is an estimate.

    >>> round(Line("resolution", 0.005).contribution, 6)
    0.002887
    """

    name: str
    value: float
    distribution: str = "rectangular"
    sensitivity: float = 1.0
    degrees: float = math.inf

    def __post_init__(self):
        one_number("value", self.value, at_least=0, cause="give the half-width without a sign")
        one_number("sensitivity", self.sensitivity)
        table("distributions").row(self.distribution)
        if self.degrees != math.inf:
            one_number("degrees", self.degrees, above=0, cause="two readings give one degree of freedom")

    @property
    def divisor(self):
        """Square root of the tabulated square: 3 rectangular, 6 triangular, 2 arcsine, 1 normal."""
        return math.sqrt(table("distributions").row(self.distribution)["divisor_squared"])

    @property
    def standard(self):
        """Standard uncertainty of the quantity: value / divisor."""
        return self.value / self.divisor

    @property
    def contribution(self):
        """Its share in the result: |sensitivity| x standard uncertainty."""
        return abs(self.sensitivity) * self.standard


@dataclass(frozen=True)
class Budget:
    """Lines that are independent of each other, and what they come to.

    >>> budget = Budget((Line("resolution", 0.005), Line("zero", 0.005)))
    >>> round(budget.combined, 5), round(budget.expanded(), 5)
    (0.00408, 0.00816)
    """

    lines: tuple

    def __post_init__(self):
        if not isinstance(self.lines, tuple) or not self.lines:
            refuse("lines", self.lines, "must be a tuple of at least one Line", "is a comma missing?")

    @property
    def combined(self):
        """Combined standard uncertainty: root of the sum of the squared contributions (GUM 5.1.2)."""
        return math.sqrt(sum(line.contribution**2 for line in self.lines))

    @property
    def effective_degrees(self):
        """Welch-Satterthwaite: u^4 / sum(u_i^4 / degrees_i) (GUM G.4.1)."""
        spread = sum(line.contribution**4 / line.degrees for line in self.lines)
        return self.combined**4 / spread if spread else math.inf

    def coverage_factor(self, level=0.9545):
        """k for the effective degrees of freedom, from Student's t."""
        return coverage_factor(max(self.effective_degrees, 1), level)

    def expanded(self, level=0.9545):
        """Expanded uncertainty U = k u."""
        return self.coverage_factor(level) * self.combined

    def statement(self, size, unit="mm", level=0.9545):
        """The result in words: the uncertainty to two figures, or whole units, the size to the same place.

        It is rounded up, unless that adds over nine tenths of the last figure (GUM 7.2.6).

        >>> Budget((Line("resolution", 0.005),)).statement(7.88)
        '7.8800 mm +/- 0.0058 mm (k = 2.00, about 95 %)'
        """
        expanded = self.expanded(level)
        one_number("size", size)
        places = max(0, 1 - math.floor(math.log10(expanded))) if expanded else 0
        rounded = math.ceil(expanded * 10**places - 0.1) / 10**places
        k = self.coverage_factor(level)
        return f"{size:.{places}f} {unit} +/- {rounded:.{places}f} {unit} (k = {k:.2f}, about {100 * level:.0f} %)"


def repeatability(readings):
    """Type A line from n readings: standard deviation of the mean s / sqrt(n), n - 1 degrees (GUM 4.2.3).

    readings: numpy array of at least two finite readings.

    >>> import numpy
    >>> line = repeatability(numpy.array([7.88, 7.89, 7.88, 7.87]))
    >>> round(line.value, 6), line.degrees
    (0.004082, 3)
    """
    readings = numbers("readings", readings)
    count = getattr(readings, "size", 1)
    if count < 2:
        refuse("readings", readings, "must be at least two", "one reading shows no spread")
    return Line("repeatability", float(readings.std(ddof=1)) / math.sqrt(count), "normal", 1.0, count - 1)


def measuring_screw_budget(instrument, size, readings, screw_error, alpha_work, alpha_instrument,
                           temperature_half_width_degc, difference_half_width_degc=0.0):
    """The budget of a size measured with a measuring screw, in the unit of the instrument.

    resolution and zero: rectangular, half a step each; screw_error: rectangular half-width; temperature: how
    far both may be from 20 degC, acting by size x (aw - ai); difference: how far instrument and work may
    differ, acting by size x ai; readings: numpy array of at least two.

    >>> import numpy
    >>> from workbench.screws.measuring import METRIC
    >>> readings = numpy.array([20.01, 20.0, 20.01])
    >>> budget = measuring_screw_budget(METRIC, 20, readings, 0.004, 23.1e-6, 11.5e-6, 5)
    >>> [line.name for line in budget.lines]
    ['resolution', 'zero', 'screw error', 'temperature', 'temperature difference', 'repeatability']
    """
    one_number("size", size, at_least=0)
    half_step = instrument.resolution / 2
    return Budget((
        Line("resolution", half_step),
        Line("zero", half_step),
        Line("screw error", screw_error),
        Line("temperature", temperature_half_width_degc, sensitivity=size * (alpha_work - alpha_instrument)),
        Line("temperature difference", difference_half_width_degc, sensitivity=size * alpha_instrument),
        repeatability(readings),
    ))
