"""Limits of a thread, and what a pair of limits leaves between screw and nut.

A thread has three diameters, and its standard gives each a band: a lowest and a highest permitted size.
Screw and nut are compared at their maximum material (the tightest pair) and at their minimum material
(the loosest). The modules limits_metric, limits_unified, limits_acme and limits_trapezoidal make the limits.
"""

from dataclasses import dataclass

from workbench.refusals import refuse


@dataclass(frozen=True)
class Band:
    """Lowest and highest permitted size; None where the standard sets no limit on that side.

    >>> Band(8.862, 8.994).tolerance
    0.132
    """

    low: object
    high: object

    @property
    def tolerance(self):
        """Width of the band, `high - low`, freed from binary dust (a tenth of a micrometre and less)."""
        return _tidy(self.high - self.low)

    def holds(self, size):
        """Whether a measured size lies in the band; a side without limit permits everything.

        >>> Band(None, 8.344).holds(8.2)
        True
        """
        above = True if self.low is None else size >= self.low
        below = True if self.high is None else size <= self.high
        return above & below if hasattr(above, "shape") or hasattr(below, "shape") else above and below


@dataclass(frozen=True)
class Limits:
    """Limits of one thread: which it is, its class, inside (nut) or outside (screw), unit, three bands.

    `major`, `pitch`, `minor` are Bands in `unit` ("mm" or "in"), single numbers or arrays of one shape.
    """

    thread: str
    tolerance_class: str
    inside: bool
    unit: str
    major: Band
    pitch: Band
    minor: Band

    @property
    def maximum_material_pitch(self):
        """The pitch diameter of the part with most metal: the highest of a screw, the lowest of a nut."""
        return self.pitch.low if self.inside else self.pitch.high

    @property
    def minimum_material_pitch(self):
        """The pitch diameter of the part with least metal: the lowest of a screw, the highest of a nut."""
        return self.pitch.high if self.inside else self.pitch.low


@dataclass(frozen=True)
class Fit:
    """What a screw and a nut leave between them, on the diameter: least and most at the pitch diameter,
    least at the crests of the nut (minor) and of the screw (major), least and most depth of engagement."""

    least: object
    most: object
    least_at_minor: object
    least_at_major: object
    least_depth: object
    most_depth: object

    @property
    def always_assembles(self):
        """True where even the tightest permitted pair leaves clearance, or just none, everywhere."""
        return (self.least >= 0) & (self.least_at_minor >= 0) & (self.least_at_major >= 0)


def fit(screw, nut):
    """The fit of any part inside the limits of the screw with any inside those of the nut.

    At the pitch diameter: least = D2 low - d2 high (the allowance, where the nut has none of its own),
    most = D2 high - d2 low. Depth of engagement on the radius: (d - D1)/2 from the lowest screw crest in the
    widest nut bore to the reverse. Refuses two screws, two nuts, different units. Source: definitions of
    ISO 5408 and ISO 965-1.

    >>> from workbench.threads.limits_metric import metric_limits
    >>> pair = fit(metric_limits(10, 1.5, "6g"), metric_limits(10, 1.5, "6H"))
    >>> pair.least, pair.most
    (0.032, 0.344)
    """
    if screw.inside or not nut.inside:
        refuse("screw, nut", (screw.tolerance_class, nut.tolerance_class), "must be one screw and one nut",
               "small letters are screws, capitals are nuts; give the screw first")
    if screw.unit != nut.unit:
        refuse("screw, nut", (screw.unit, nut.unit), "must have one unit", "is one thread metric, the other inch?")
    return Fit(
        least=_tidy(nut.pitch.low - screw.pitch.high),
        most=_tidy(nut.pitch.high - screw.pitch.low),
        least_at_minor=_tidy(nut.minor.low - screw.minor.high),
        least_at_major=_tidy(nut.major.low - screw.major.high),
        least_depth=_tidy((screw.major.low - nut.minor.high) / 2),
        most_depth=_tidy((screw.major.high - nut.minor.low) / 2),
    )


def rounded(value, places):
    """The value rounded to decimal places, a float or an array; half a last place goes up, as standards round.

    >>> rounded(0.212693, 4)
    0.2127
    """
    import numpy

    scaled = numpy.floor(numpy.asarray(value, dtype=float) * 10**places + 0.5 + 1e-6) / 10**places
    return _plain(numpy.round(scaled, places))


def _tidy(value):
    import numpy

    return _plain(numpy.round(value, 6))


def _plain(value):
    """An array of no dimension as a plain float, any other array as it is."""
    return float(value) if getattr(value, "shape", None) == () or not hasattr(value, "shape") else value
