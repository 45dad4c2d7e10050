"""Limits of the screw and the nut that a call-out names, whatever its standard."""

from dataclasses import dataclass

from workbench.refusals import refuse
from workbench.threads.designation import INCH_MM
from workbench.threads.limits import Limits, fit
from workbench.threads.limits_acme import acme_limits
from workbench.threads.limits_metric import metric_limits, usual_classes
from workbench.threads.limits_trapezoidal import trapezoidal_limits
from workbench.threads.limits_unified import unified_limits

_FORMS = ("metric", "trapezoidal", "unified", "acme")


@dataclass(frozen=True)
class Pair:
    """Screw and nut of one call-out; supplied: "screw", "nut" where the call-out left the class out."""

    screw: Limits
    nut: Limits
    supplied: tuple

    @property
    def fit(self):
        """What screw and nut leave between them."""
        return fit(self.screw, self.nut)


def limits_called_out(designation):
    """Both parts of the thread that a designation (`designation.parse`) names: its limits in mm or inch.

    A class that the call-out leaves out is the usual one: 6g and 6H (6h and 5H to M1.4; 4H at P 0.2) of ISO 965-1,
    7e and 7H of trapezoidal, 2A and 2B of Unified, 2G of Acme threads (an Acme class names both parts). Refused: forms
    whose limits are not stored (MJ, UNJ, buttress, square); all that the standard itself does not give.

    >>> from workbench.threads.designation import parse
    >>> pair = limits_called_out(parse("M10-6g"))
    >>> pair.screw.pitch.high, pair.nut.pitch.low, pair.supplied
    (8.994, 9.026, ('nut',))
    """
    form = designation.form
    if form not in _FORMS:
        refuse("form", form, "has no stored limits", "stored: " + ", ".join(_FORMS))
    size, pitch = designation.major_mm, designation.pitch_mm
    if form == "metric":
        screw, nut = usual_classes(size, pitch)
    else:
        screw, nut = {"trapezoidal": ("7e", "7H"), "unified": ("2A", "2B"), "acme": ("2G", "2G")}[form]
    if form == "acme":
        named = designation.screw_class or designation.nut_class
        screw = nut = named or screw
        supplied = () if named else ("screw", "nut")
    else:
        supplied = tuple(part for part, named in (("screw", designation.screw_class), ("nut", designation.nut_class))
                         if not named)
        screw, nut = designation.screw_class or screw, designation.nut_class or nut
    inches, per_inch = round(size / INCH_MM, 6), round(INCH_MM / pitch, 6)
    if form == "metric":
        limits = metric_limits(size, pitch, screw), metric_limits(size, pitch, nut)
    elif form == "trapezoidal":
        limits = tuple(trapezoidal_limits(size, pitch, one, designation.starts) for one in (screw, nut))
    elif form == "unified":
        limits = tuple(unified_limits(inches, per_inch, one, designation.series) for one in (screw, nut))
    else:
        limits = acme_limits(inches, per_inch, screw), acme_limits(inches, per_inch, nut, inside=True)
    return Pair(*limits, supplied)
