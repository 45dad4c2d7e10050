"""A length measured warm, brought to the reference temperature of 20 degC (ISO 1).

The work has grown, and so has the instrument: only the difference of the two shows. Coefficients are
those of the table `thermal_expansion` (per degC, near room temperature).
"""

from workbench.refusals import numbers
from workbench.tables import table

REFERENCE_DEGC = table("definitions").row("reference temperature")["value"]


def expansion_per_degc(material):
    """Linear expansion coefficient of a material, per degC; ValueError with the nearest names.

    >>> round(expansion_per_degc("aluminium") * 1e6, 3)
    23.1
    """
    return table("thermal_expansion").row(material)["per_million_per_degc"] / 1e6


def _growth(alpha_per_degc, temperature_degc, what):
    """Relative growth alpha (t - 20) of a body."""
    alpha = numbers(f"alpha_{what}", alpha_per_degc, at_least=-1e-4, at_most=1e-3,
                    cause="is it in millionths? write 23.1e-6, not 23.1")
    degc = numbers(f"temperature_{what}_degc", temperature_degc, at_least=-40, at_most=120,
                   cause="is it in kelvin or degrees Fahrenheit?")
    return alpha * (degc - REFERENCE_DEGC)


def length_at(length_20, alpha_per_degc, temperature_degc):
    """Length of a body at a temperature: L20 (1 + alpha (t - 20)).

    >>> round(length_at(100, 11.5e-6, 30), 6)
    100.0115
    """
    return numbers("length_20", length_20) * (1 + _growth(alpha_per_degc, temperature_degc, "body"))


def size_at_20(reading, alpha_work, temperature_work_degc, alpha_instrument,
               temperature_instrument_degc=None):
    """Size of the work at 20 degC, first order: R (1 - aw (tw - 20) + ai (ti - 20)).

    reading R: any length unit; alpha: per degC; temperature of the instrument: that of the work if not
    given, then R (1 - (aw - ai)(t - 20)). Numbers or arrays. Refuses coefficients above 1e-3 per degC and
    temperatures outside -40 to 120 degC. Source: D. A. Swyt, J. Res. NIST 99, 31 (1994); ISO 1.

    >>> round(size_at_20(100, 2.3e-5, 32, 1.15e-5), 4)
    99.9862
    """
    work, own = _growths(alpha_work, temperature_work_degc, alpha_instrument, temperature_instrument_degc)
    return numbers("reading", reading) * (1 - work + own)


def size_at_20_exact(reading, alpha_work, temperature_work_degc, alpha_instrument,
                     temperature_instrument_degc=None):
    """The same without dropping the second order: R (1 + ai (ti - 20)) / (1 + aw (tw - 20)).

    >>> round(size_at_20_exact(100, 2.3e-5, 32, 1.15e-5), 4)
    99.9862
    """
    work, own = _growths(alpha_work, temperature_work_degc, alpha_instrument, temperature_instrument_degc)
    return numbers("reading", reading) * (1 + own) / (1 + work)


def _growths(alpha_work, temperature_work_degc, alpha_instrument, temperature_instrument_degc):
    if temperature_instrument_degc is None:
        temperature_instrument_degc = temperature_work_degc
    return (
        _growth(alpha_work, temperature_work_degc, "work"),
        _growth(alpha_instrument, temperature_instrument_degc, "instrument"),
    )
