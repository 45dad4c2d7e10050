"""A clamped joint under load: what the bolt feels, what clamp is left, when it opens, when it slips.

F preload, W outside load along the bolt, C share of the bolt (`Springs.share`). Forces in N; numbers or arrays.
Source: textbooks of machine design; VDI 2230 (needed preload).
"""

from workbench.refusals import numbers, whole


def _share(value):
    return numbers("share", value, at_least=0, at_most=1, cause="C = kb / (kb + kp), between 0 and 1")


def _positive(value):
    return (value + abs(value)) / 2  # for a number and an array alike


def clamp_left_n(preload_n, load_n, share):
    """Clamp between the parts: F - (1 - C) W, and 0 once the joint has opened.

    >>> clamp_left_n(24000, 8000, 0.2), clamp_left_n(24000, 40000, 0.2)
    (17600.0, 0.0)
    """
    force = numbers("preload_n", preload_n, at_least=0, cause="a bolt only pulls")
    load = numbers("load_n", load_n, at_least=0, cause="give the load that pulls the parts apart as positive")
    return _positive(force - (1 - _share(share)) * load)


def bolt_load_n(preload_n, load_n, share):
    """Pull in the bolt: F + C W while the joint is closed, then the whole load W.

    >>> bolt_load_n(24000, 8000, 0.2), bolt_load_n(24000, 40000, 0.2)
    (25600.0, 40000.0)
    """
    return clamp_left_n(preload_n, load_n, share) + load_n


def opening_load_n(preload_n, share):
    """Outside load at which the parts begin to part: F / (1 - C). Refused: C = 1, parts that are no spring.

    >>> opening_load_n(24000, 0.2)
    30000.0
    """
    rest = numbers("1 - share", 1 - _share(share), above=0, cause="with C = 1 nothing is clamped")
    return numbers("preload_n", preload_n, at_least=0, cause="a bolt only pulls") / rest


def slip_load_n(clamp_n, friction, faces=1):
    """Load across the bolt at which clamped faces slip: mu x clamp x faces that rub.

    clamp_n: the clamp that is left, not the first preload. friction 0 to 1.

    >>> slip_load_n(18000, 0.15, faces=2)
    5400.0
    """
    rub = numbers("friction", friction, at_least=0, at_most=1, cause="friction is never negative; 0.15, not 15")
    return rub * numbers("clamp_n", clamp_n, at_least=0) * whole("faces", faces, cause="count the faces that rub")


def needed_preload_n(clamp_n, load_n, share, settling_n=0.0, factor=1.0):
    """Largest preload to plan for so that the clamp never falls below a figure: factor (K + (1 - C) W + Z).

    clamp_n K to keep, settling_n Z lost by settling, factor: tightening factor, at least 1. Source: VDI 2230.

    >>> needed_preload_n(5000, 8000, 0.2, settling_n=1600, factor=1.6)
    20800.0
    """
    keep = numbers("clamp_n", clamp_n, at_least=0) + numbers("settling_n", settling_n, at_least=0)
    away = (1 - _share(share)) * numbers("load_n", load_n, at_least=0)
    return numbers("factor", factor, at_least=1, cause="give largest over smallest preload") * (keep + away)
