"""From a call-out to the limits of both parts."""

import pytest

from workbench.tables import table
from workbench.threads.designation import parse
from workbench.threads.limits_called_out import limits_called_out
from workbench.threads.limits_metric import metric_limits, usual_classes


@pytest.mark.parametrize(("text", "screw", "nut", "supplied"), [
    ("M10×1.25-6H/6g", "6g", "6H", ()),
    ("M10-4g6g", "4g6g", "6H", ("nut",)),
    ("M10-5H6H", "6g", "5H6H", ("screw",)),
    ("M6", "6g", "6H", ("screw", "nut")),
    ("M1.2", "6h", "5H", ("screw", "nut")),
    ("M1.6x0.2", "6g", "4H", ("screw", "nut")),
    ("Tr40x7", "7e", "7H", ("screw", "nut")),
    ("Tr40x7-8H/8c", "8c", "8H", ()),
    ("1/4-20 UNC", "2A", "2B", ("screw", "nut")),
    ("1/4-20 UNC-3B", "2A", "3B", ("screw",)),
    ("1/2-10 Acme 3G", "3G", "3G", ()),
    ("1/2-10 Acme", "2G", "2G", ("screw", "nut")),
])
def test_classes_said_and_supplied(text, screw, nut, supplied):
    """What the call-out says is taken, what it leaves out is the usual class, and says so."""
    pair = limits_called_out(parse(text))
    assert (pair.screw.tolerance_class, pair.nut.tolerance_class, pair.supplied) == (screw, nut, supplied)
    assert pair.nut.inside and not pair.screw.inside and pair.fit.always_assembles


def test_values_pass_through_in_the_unit_of_the_standard():
    """1/4-20 UNC-2A keeps its inches: d2 high 0.2164 (ASME B1.1, from memory); M10 its millimetres: 8.994."""
    assert limits_called_out(parse("1/4-20 UNC-2A")).screw.pitch.high == 0.2164
    assert limits_called_out(parse("M10-6g")).screw.pitch.high == metric_limits(10, 1.5, "6g").pitch.high == 8.994


def test_two_starts_widen_a_trapezoidal_thread():
    """Tr40×14(P7) has the pitch diameters of P 7 with a wider tolerance."""
    one, two = (limits_called_out(parse(text)).screw for text in ("Tr40x7-7e", "Tr40x14(P7)-7e"))
    assert two.pitch.high == one.pitch.high and two.pitch.low < one.pitch.low


def test_every_metric_thread_has_usual_classes_that_pair():
    """All threads of ISO 261 have a usual screw and nut that the standard gives."""
    for row in table("iso_261_metric").rows.values():
        screw, nut = usual_classes(row["diameter_mm"], row["pitch_mm"])
        assert metric_limits(row["diameter_mm"], row["pitch_mm"], screw).pitch.high <= metric_limits(
            row["diameter_mm"], row["pitch_mm"], nut).pitch.low


@pytest.mark.parametrize(("text", "says"), [
    ("MJ6x1-4h6h", "no stored limits; stored: metric, trapezoidal"),
    ("S48x8-7e", "no stored limits"),  # buttress: form and sizes are known, limits are not guessed from other forms
    ("2.5-8 BUTT-2A", "no stored limits"),
    ("M3-8g", "not given by ISO 965-1"),
    ("M10x1.5-7g", "not given"),
])
def test_refusals(text, says):
    """A form without stored limits and a class the standard leaves out are refused."""
    with pytest.raises(ValueError, match=says):
        limits_called_out(parse(text))
