"""The same torque, a different preload: how far it spreads, by method and by friction.

Sources: VDI 2230 (tightening factor, table A8); JCGM 100:2008 5.1 (spread of independent inputs).
"""

from dataclasses import dataclass

from workbench.refusals import numbers, one_number
from workbench.screws.torque import long_form, preload_n
from workbench.screws.uncertainty import Budget, Line
from workbench.tables import table


@dataclass(frozen=True)
class Method:
    """A way of tightening: tightening factor (largest over smallest preload), at best and at worst."""

    name: str
    factor_low: float
    factor_high: float

    @property
    def half_spread(self):
        """The worst factor as plus or minus s about the middle: s = (factor - 1) / (factor + 1).

        >>> round(method("by feel").half_spread, 2)
        0.6
        """
        return (self.factor_high - 1) / (self.factor_high + 1)


def methods():
    """All ways of tightening, from the closest to the widest.

    >>> methods()[0].name
    'stretch measured by ultrasound'
    """
    return tuple(method(name) for name in table("tightening_methods").rows)


def method(name):
    """One way of tightening; ValueError with the nearest names.

    >>> method("by feel")
    Method(name='by feel', factor_low=2.5, factor_high=4.0)
    """
    row = table("tightening_methods").row(name)
    return Method(name, row["factor_low"], row["factor_high"])


def friction_range(friction_class):
    """Lowest and highest coefficient of a friction class A to E.

    >>> friction_range("B")
    (0.08, 0.16)
    """
    row = table("friction_classes").row(friction_class)
    return row["low"], row["high"]


def least_n(largest_n, factor):
    """Smallest preload where the largest is known: F max / tightening factor (VDI 2230).

    >>> round(least_n(41900, 1.8), -2)
    23300.0
    """
    return numbers("largest_n", largest_n, at_least=0) / one_number(
        "factor", factor, at_least=1, cause="give largest over smallest; is it smallest over largest, or a percentage?")


def band_n(middle_n, half_spread):
    """Smallest and largest preload about the middle one: F (1 - s), F (1 + s).

    >>> band_n(24000, 0.25)
    (18000.0, 30000.0)
    """
    one_number("half_spread", half_spread, at_least=0, at_most=0.99, cause="25 percent is 0.25")
    force = numbers("middle_n", middle_n, at_least=0)
    return force * (1 - half_spread), force * (1 + half_spread)


def preload_budget(torque_nmm, torque_spread, pitch_mm, pitch_diameter_mm, thread_friction, thread_spread,
                   face_mean_mm, face_friction, face_spread):
    """Spread of the preload from the spreads of torque, thread friction and face friction (GUM, first order).

    The spreads are standard deviations: torque_spread in N mm, the others of the coefficients. With A = torque per
    newton (see `long_form`): dF/dT = 1/A, dF/dmu_G = -F (0.577 d2)/A, dF/dmu_K = -F (Dk/2)/A. Good to a few
    percent of itself while every spread is under a fifth. The result's `combined` is the standard deviation in N.

    >>> budget = preload_budget(39450, 1200, 1.5, 9.026, 0.12, 0.012, 13, 0.12, 0.012)
    >>> [line.name for line in budget.lines], round(budget.combined, -2)
    (['torque', 'thread friction', 'face friction'], 1600.0)
    """
    sizes = pitch_mm, pitch_diameter_mm
    force = preload_n(torque_nmm, *sizes, thread_friction, face_mean_mm, face_friction)
    per_newton = torque_nmm / force
    by_thread = long_form(1, *sizes, 1, face_mean_mm, 0).thread_nmm
    by_face = long_form(1, *sizes, 0, face_mean_mm, 1).face_nmm
    return Budget((
        Line("torque", torque_spread, "normal", 1 / per_newton),
        Line("thread friction", thread_spread, "normal", -force * by_thread / per_newton),
        Line("face friction", face_spread, "normal", -force * by_face / per_newton),
    ))


def relative_spread(torque_relative, factor_relative):
    """Relative standard deviation of F = T / (K d), T and K log-normal and independent: exact.

    sqrt((1 + vT^2)(1 + vK^2) - 1); vT, vK: standard deviation over mean, 0 to 1.

    >>> round(relative_spread(0.04, 0.12), 4)
    0.1266
    """
    one = 1 + numbers("torque_relative", torque_relative, at_least=0, at_most=1, cause="4 percent is 0.04") ** 2
    other = 1 + numbers("factor_relative", factor_relative, at_least=0, at_most=1, cause="12 percent is 0.12") ** 2
    return (one * other - 1) ** 0.5
