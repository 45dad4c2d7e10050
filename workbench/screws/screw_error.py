"""Errors of the screw itself: a pitch slightly off adds up turn by turn.

Sign: a pitch longer than nominal moves the spindle further than the thimble says, so the reading is too
small. Error of the reading = reading - true travel = - (sum of the pitch errors). Geometry; no source.
"""

from workbench.refusals import numbers, refuse


def cumulative_pitch_error(errors_mm):
    """Running sum of pitch errors measured pitch by pitch, from the zero end; array in, array out.

    errors_mm: numpy array, one finite error (actual - nominal pitch) for each pitch, in order.

    >>> import numpy
    >>> cumulative_pitch_error(numpy.array([0.001, 0.001, -0.003])).round(6)
    array([ 0.001,  0.002, -0.001])
    """
    errors = numbers("errors_mm", errors_mm)
    if getattr(errors, "ndim", 0) != 1:
        refuse("errors_mm", errors_mm, "must be a row of errors, one a pitch", "give a numpy array")
    return errors.cumsum()


def reading_error(pitch_mm, travel_mm, error_per_pitch_mm, growth_per_pitch_mm=0.0):
    """Error of the reading after a travel: - (e T + g T (T - 1) / 2), T = travel / pitch turns.

    error_per_pitch_mm e: first pitch, actual - nominal; growth_per_pitch_mm g: each next pitch is out by
    so much more (progressive error). Numbers or arrays; T counts whole and part turns from the zero end.

    >>> round(reading_error(0.5, 10, 0.0002), 6)
    -0.004
    """
    turns = numbers("travel_mm", travel_mm, at_least=0) / numbers("pitch_mm", pitch_mm, above=0)
    uniform = numbers("error_per_pitch_mm", error_per_pitch_mm) * turns
    progressive = numbers("growth_per_pitch_mm", growth_per_pitch_mm) * turns * (turns - 1) / 2
    return -(uniform + progressive)
