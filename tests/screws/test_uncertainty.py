"""Uncertainty budgets, against the uncertainties package and hand-worked numbers."""

import math
import statistics

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

from workbench.screws.coverage import coverage_factor, within
from workbench.screws.measuring import INCH_VERNIER, METRIC
from workbench.screws.uncertainty import Budget, Line, measuring_screw_budget, repeatability

READINGS = np.array([20.01, 20.00, 20.01, 20.02, 20.01])


def budget(**changes):
    given_values = dict(instrument=METRIC, size=20, readings=READINGS, screw_error=0.004, alpha_work=23.1e-6,
                        alpha_instrument=11.5e-6, temperature_half_width_degc=5,
                        difference_half_width_degc=1)
    return measuring_screw_budget(**(given_values | changes))


def test_each_line_by_hand():
    """Half a step over root 3; 4 um over root 3; 5 K and 1 K acting on 20 mm; the mean of five readings."""
    root = math.sqrt(3)
    by_hand = {
        "resolution": 0.005 / root, "zero": 0.005 / root, "screw error": 0.004 / root,
        "temperature": 20 * 11.6e-6 * 5 / root, "temperature difference": 20 * 11.5e-6 * 1 / root,
        # readings 1, 0, 1, 2, 1 hundredths: squared deviations sum to 2, s = sqrt(2/4) hundredths
        "repeatability": 0.01 * math.sqrt(0.5) / math.sqrt(5),
    }
    assert {line.name: line.contribution for line in budget().lines} == pytest.approx(by_hand, rel=1e-9)


def test_combined_against_the_uncertainties_package():
    """The same model written with the uncertainties package has the same standard deviation."""
    root = math.sqrt(3)
    reading = ufloat(20.01, statistics.stdev(READINGS.tolist()) / math.sqrt(5))
    resolution, zero, screw = (ufloat(0, half / root) for half in (0.005, 0.005, 0.004))
    offset, difference = ufloat(0, 5 / root), ufloat(0, 1 / root)
    size = reading + resolution - zero - screw
    size -= 20 * ((23.1e-6 - 11.5e-6) * offset + 11.5e-6 * difference)
    assert budget().combined == pytest.approx(size.std_dev, rel=1e-9)


@given(st.lists(st.floats(1e-6, 1), min_size=1, max_size=6))
def test_any_lines_combine_as_in_the_uncertainties_package(values):
    """A sum of independent quantities: root of the sum of squares."""
    lines = tuple(Line(str(place), value, "normal") for place, value in enumerate(values))
    assert Budget(lines).combined == pytest.approx(sum(ufloat(0, value) for value in values).std_dev, rel=1e-9)


def test_effective_degrees_of_a_single_type_a_line():
    """Alone, four readings leave three degrees of freedom; a much larger certain line makes them many."""
    alone = Line("repeatability", 1, "normal", 1, 3)
    assert Budget((alone,)).effective_degrees == pytest.approx(3)
    # u = sqrt(10), u^4 = 100, sum = 1/3: 300
    assert Budget((alone, Line("other", 3, "normal"))).effective_degrees == pytest.approx(300)
    assert Budget((Line("other", 3, "normal"),)).effective_degrees == math.inf


def test_expanded_is_k_times_combined():
    """Without type A lines k is 2 for the two-sigma level; three degrees of freedom widen it to 3.31 (TN 1297)."""
    certain = Budget((Line("a", 3, "normal"), Line("b", 4, "normal")))
    assert (certain.combined, certain.coverage_factor()) == (5, pytest.approx(2, abs=1e-3))
    assert certain.expanded() == pytest.approx(10, abs=5e-3)
    few = Budget((Line("repeatability", 1, "normal", 1, 3),))
    assert few.expanded() == pytest.approx(3.31, abs=0.005)
    assert few.expanded(0.99) == pytest.approx(5.84, abs=0.005)
    assert Budget((Line("repeatability", 1, "normal", 1, 1),)).coverage_factor() == pytest.approx(13.97, abs=0.005)


def test_a_certificate_with_k_of_two():
    """An uncertainty stated with k = 2 is twice the standard uncertainty (JCGM 100:2008 4.3.3)."""
    assert Line("certificate", 0.002, "normal k=2").standard == pytest.approx(0.001)


def test_a_sensitivity_counts_by_its_size_not_its_sign():
    """Minus two acts as much as plus two."""
    assert Line("a", 3, sensitivity=-2).contribution == Line("a", 3, sensitivity=2).contribution == pytest.approx(
        2 * 3 / math.sqrt(3))


def test_inch_budget_uses_the_step_of_its_instrument():
    """The vernier inch instrument brings half a ten-thousandth to resolution and zero."""
    lines = {line.name: line for line in budget(instrument=INCH_VERNIER, size=0.8).lines}
    assert lines["resolution"].value == lines["zero"].value == 0.00005


def test_no_temperature_difference_unless_given():
    """Without a half-width for the difference its line stands in the budget with nothing."""
    lines = measuring_screw_budget(METRIC, 20, READINGS, 0.004, 23.1e-6, 11.5e-6, 5).lines
    assert {line.name: line.contribution for line in lines}["temperature difference"] == 0


@pytest.mark.parametrize(("size", "lines", "said"), [
    (7.88, (Line("a", 0.005, "normal"),), "7.880 mm +/- 0.010 mm (k = 2.00, about 95 %)"),
    (7.886, (Line("a", 0.00201, "normal"),), "7.8860 mm +/- 0.0041 mm (k = 2.00, about 95 %)"),
    (120, (Line("a", 6, "normal"),), "120 mm +/- 12 mm (k = 2.00, about 95 %)"),
    (1234, (Line("a", 60, "normal"),), "1234 mm +/- 120 mm (k = 2.00, about 95 %)"),
    (7.88, (Line("a", 1, "normal", 1, 3),), "7.9 mm +/- 3.3 mm (k = 3.31, about 95 %)"),
    (5, (Line("a", 0),), "5 mm +/- 0 mm (k = 2.00, about 95 %)"),
])
def test_the_statement_rounds_the_uncertainty_up(size, lines, said):
    """Two figures, up unless hardly anything is left over, and the size to the same place."""
    assert Budget(lines).statement(size) == said


@pytest.mark.parametrize(("standard", "printed"), [(10.47, "11"), (28.05, "28")])
def test_rounding_as_in_the_guide(standard, printed):
    """JCGM 100:2008 7.2.6 (from memory): 10.47 may become 11, 28.05 should become 28."""
    k = coverage_factor()
    assert f"+/- {printed} mm" in Budget((Line("a", standard / k, "normal"),)).statement(1000)


def test_a_tenth_of_the_last_figure_is_the_most_that_is_dropped():
    """28.09 is stated as 28, 28.105 as 29."""
    for expanded, stated in [(28.09, "28"), (28.105, "29")]:
        line = Line("a", expanded / coverage_factor(), "normal")
        assert f"+/- {stated} mm" in Budget((line,)).statement(1000)


def test_the_statement_names_unit_and_level():
    """Inch and 99 % are said as such."""
    said = Budget((Line("a", 0.0001, "normal"),)).statement(0.5, "in", 0.99)
    assert said == "0.50000 in +/- 0.00026 in (k = 2.58, about 99 %)"


@given(st.integers(1, 60), st.floats(0.01, 0.999))
def test_k_holds_the_level(degrees, level):
    """The chance between -k and k is the level asked for."""
    assert within(coverage_factor(degrees, level), degrees) == pytest.approx(level, abs=1e-9)


def test_the_highest_level_with_two_readings():
    """One degree of freedom is the Cauchy law: k = tan(pi/2 x 0.9999) = 6366.2 for the highest level taken."""
    assert coverage_factor(1, 0.9999) == pytest.approx(math.tan(math.pi / 2 * 0.9999), rel=1e-6)


def test_k_falls_with_more_degrees():
    """More knowledge, smaller k, down to the normal law; degrees are cut, not rounded."""
    factors = [coverage_factor(degrees) for degrees in (1, 2, 3, 5, 10, 100, 1000, math.inf)]
    assert factors == sorted(factors, reverse=True)
    assert coverage_factor(16.99, 0.99) == coverage_factor(16, 0.99) != coverage_factor(17, 0.99)
    assert coverage_factor(1e9) == coverage_factor(math.inf)
    assert coverage_factor(99_999) == pytest.approx(coverage_factor(math.inf), abs=1e-4)


@pytest.mark.parametrize(("calculate", "message"), [
    (lambda: Line("a", -1), "value = -1: must be at least 0; give the half-width"),
    (lambda: Line("a", float("nan")), "value = nan: must be finite"),
    (lambda: Line("a", "1"), "value = '1': must be one number"),
    (lambda: Line("a", 1, "rectangle"), "no row 'rectangle' in table distributions.*rectangular"),
    (lambda: Line("a", 1, sensitivity=[1]), "sensitivity"),
    (lambda: Line("a", 1, degrees=0), "degrees = 0: must be above 0; two readings"),
    (lambda: Budget(()), r"lines = \(\): must be a tuple of at least one Line; is a comma missing"),
    (lambda: Budget([Line("a", 1)]), "must be a tuple"),
    (lambda: repeatability([7.88, 7.89]), "readings"),
    (lambda: repeatability(np.array([7.88])), "must be at least two; one reading"),
    (lambda: repeatability(7.88), "readings = 7.88: must be at least two"),
    (lambda: repeatability(np.array([7.88, np.inf])), "readings = inf: must be finite"),
    (lambda: budget(size=-1), "size = -1: must be at least 0"),
    (lambda: budget(screw_error=-1), "value = -1: must be at least 0"),
    (lambda: coverage_factor(0.5), "degrees = 0.5: must be at least 1"),
    (lambda: coverage_factor(3, 95), "level = 95: must be at most 0.9999; write 0.95"),
    (lambda: coverage_factor(3, 0), "level = 0: must be above 0"),
    (lambda: Budget((Line("a", 1),)).statement("5"), "size = '5': must be one number"),
])
def test_a_budget_that_makes_no_sense_is_refused(calculate, message):
    """Wrong values are refused with value, rule and likely cause."""
    with pytest.raises(ValueError, match=message):
        calculate()


def test_two_readings_are_enough():
    """Two readings give one degree of freedom: 0.01 apart, s = 0.00707, of the mean 0.005."""
    line = repeatability(np.array([7.88, 7.89]))
    assert (line.degrees, line.value) == (1, pytest.approx(0.005))
