"""Refuse bad input: every message says the value, the rule it breaks and the likely cause.

One number, or a numpy array of numbers where a calculation broadcasts. Lists and tuples are never taken:
`3,25` typed for 3.25 is a tuple, and must not become two numbers.
"""

import math
from fractions import Fraction
from numbers import Integral, Real

_CAUSES = {
    str: "is it text from an entry that was not yet read?",
    tuple: "was a decimal comma typed? write 3.25, not 3,25",
    list: "give one number, or a numpy array where many are meant",
    bool: "a yes or no stands where a number is due",
    type(None): "was the value left out?",
}


def _short(value):
    """The value as shown in a message: never a screenful."""
    text = repr(value)
    return text if len(text) <= 60 else f"{text[:57]}..."


def refuse(name, value, rule, cause=""):
    """Raise the ValueError that says `name = value: rule; cause`.

    >>> refuse("pitch_mm", -1, "must be above 0", "was the direction meant? give turns a sign")
    Traceback (most recent call last):
    ...
    ValueError: pitch_mm = -1: must be above 0; was the direction meant? give turns a sign
    """
    raise ValueError(f"{name} = {_short(value)}: {rule}" + (f"; {cause}" if cause else ""))


def one_number(name, value, *, above=None, at_least=None, at_most=None, cause=""):
    """One finite real number, given back as it came (so fractions stay exact).

    >>> one_number("pitch_mm", 0.5, above=0)
    0.5
    >>> one_number("pitch_mm", (3, 25), above=0)
    Traceback (most recent call last):
    ...
    ValueError: pitch_mm = (3, 25): must be one number; was a decimal comma typed? write 3.25, not 3,25
    """
    if isinstance(value, bool) or not isinstance(value, Real):
        if getattr(value, "shape", None) == ():  # a numpy array of no dimension is one number
            value = value.item()
            return one_number(name, value, above=above, at_least=at_least, at_most=at_most, cause=cause)
        likely = _CAUSES.get(type(value), "is it a quantity with a unit, or an array? give one plain number")
        refuse(name, value, "must be one number", likely)
    if not isinstance(value, Fraction) and not math.isfinite(value):
        refuse(name, value, "must be finite", "did an earlier step divide by zero?")
    if above is not None and not value > above:
        refuse(name, value, f"must be above {above}", cause)
    if at_least is not None and not value >= at_least:
        refuse(name, value, f"must be at least {at_least}", cause)
    if at_most is not None and not value <= at_most:
        refuse(name, value, f"must be at most {at_most}", cause)
    return value


def numbers(name, value, *, above=None, at_least=None, at_most=None, cause=""):
    """One number or a numpy array of them, each finite and inside the limits; the array comes back as float.

    >>> import numpy
    >>> numbers("turns", numpy.array([1, 2]))
    array([1., 2.])
    """
    if getattr(value, "shape", ()) == () or isinstance(value, str):
        return one_number(name, value, above=above, at_least=at_least, at_most=at_most, cause=cause)
    import numpy

    if value.dtype.kind not in "iuf":
        refuse(name, value, "must hold plain numbers", "is there text or a missing value in the array?")
    array = value.astype(float)
    keep = numpy.isfinite(array)
    if above is not None:
        keep &= array > above
    if at_least is not None:
        keep &= array >= at_least
    if at_most is not None:
        keep &= array <= at_most
    if not keep.all():
        first_bad = float(array[~keep].flat[0])
        one_number(name, first_bad, above=above, at_least=at_least, at_most=at_most, cause=cause)
    return array


def whole(name, value, *, at_least=1, at_most=None, cause=""):
    """One whole number (4.0 counts as 4), given back as an int.

    >>> whole("divisions", 50)
    50
    >>> whole("divisions", 0, cause="a thimble needs at least one division")
    Traceback (most recent call last):
    ...
    ValueError: divisions = 0: must be at least 1; a thimble needs at least one division
    """
    one_number(name, value, at_least=at_least, at_most=at_most, cause=cause)
    if not isinstance(value, Integral) and value != int(value):
        refuse(name, value, "must be a whole number", cause or "count divisions, not parts of one")
    return int(value)
