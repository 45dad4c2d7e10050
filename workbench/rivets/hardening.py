"""A teaching picture of hardening after the quench. It decides nothing: documents say what may be driven.

One exponential with an Arrhenius factor, its constants assumed: they are round figures that show the shape, fitted
to nothing. The documents' limits carry margins of safety, and no curve is drawn through them.
"""

from workbench.refusals import numbers

TITLE = "Teaching picture with assumed constants. Never use it to decide what may be driven."
HOURS_AT_20_DEGC = 8  # assumed: time constant at 20 degC
ACTIVATION_KJ_MOL = 60  # assumed: round figure between 50 and 65, from memory
_GAS_CONSTANT_KJ = 8.314462618e-3


def hardened_share(hours, degc):
    """Share of the hardening that is done: 1 - exp(-t / tau), tau = tau20 exp(Q / R (1 / T - 1 / 293.15)).

    hours t >= 0 since the quench; degc from -60 to 60; both may be arrays. Assumed constants, a picture only.

    >>> round(float(hardened_share(8, 20)), 3)
    0.632
    """
    import numpy as np

    kelvin = 273.15 + numbers("degc", degc, at_least=-60, at_most=60, cause="the picture is of room and store")
    slower = np.exp(ACTIVATION_KJ_MOL / _GAS_CONSTANT_KJ * (1 / kelvin - 1 / 293.15))
    return 1 - np.exp(-numbers("hours", hours, at_least=0) / (HOURS_AT_20_DEGC * slower))
