"""Warm lengths brought to 20 degC."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

from workbench.screws.thermal import (
    REFERENCE_DEGC,
    expansion_per_degc,
    length_at,
    size_at_20,
    size_at_20_exact,
)

ALUMINIUM, STEEL = expansion_per_degc("aluminium"), expansion_per_degc("steel")
degrees = st.floats(-40, 120)
alphas = st.floats(0, 30e-6)


def test_warm_aluminium_under_a_warm_steel_instrument_by_hand():
    """100 mm read at 32 degC: 12 K x 11.6e-6 = 139.2e-6, so 99.98608 mm (coefficients: Swyt, NIST 1994)."""
    assert size_at_20(100, ALUMINIUM, 32, STEEL) == pytest.approx(100 - 0.01392, abs=1e-9)


def test_only_the_work_warm_by_hand():
    """The instrument kept at 20 degC: the whole growth of the work comes off, 12 x 23.1e-6 x 100 = 0.02772 mm."""
    assert size_at_20(100, ALUMINIUM, 32, STEEL, 20) == pytest.approx(100 - 0.02772, abs=1e-9)


def test_only_the_instrument_warm_by_hand():
    """A steel instrument at 30 degC on work at 20 reads too little: 100 x 10 x 11.5e-6 = 0.0115 mm come on."""
    assert size_at_20(100, ALUMINIUM, 20, STEEL, 30) == pytest.approx(100.0115, abs=1e-9)


def test_a_steel_bar_ten_degrees_warm_by_hand():
    """A metre of steel grows 115 micrometres in 10 degrees."""
    assert length_at(1000, STEEL, 30) == pytest.approx(1000.115, abs=1e-9)


@given(st.floats(0.1, 1000), alphas, degrees)
def test_same_material_and_temperature_need_no_correction(reading, alpha, temperature):
    """Steel on steel, both equally warm: the correction is nil."""
    assert size_at_20(reading, alpha, temperature, alpha) == pytest.approx(reading, rel=1e-15)
    assert size_at_20_exact(reading, alpha, temperature, alpha) == pytest.approx(reading, rel=1e-15)


@given(st.floats(0.1, 1000), alphas, alphas)
def test_at_20_degrees_there_is_nothing_to_correct(reading, work, own):
    """At the reference temperature the reading is the size, whatever the materials."""
    assert size_at_20(reading, work, REFERENCE_DEGC, own) == reading
    assert size_at_20_exact(reading, work, REFERENCE_DEGC, own) == reading


@given(st.floats(0.1, 1000), alphas, degrees, alphas, degrees)
def test_the_exact_form_undoes_the_growth_of_both(size, work, work_degc, own, own_degc):
    """A warm instrument reading a warm part, both grown by L(1 + alpha dt), gives the size at 20 degC again."""
    reading = length_at(size, work, work_degc) / (1 + own * (own_degc - 20))
    assert size_at_20_exact(reading, work, work_degc, own, own_degc) == pytest.approx(size, rel=1e-12)


@given(st.floats(0.1, 1000), alphas, degrees, alphas, degrees)
def test_first_order_and_exact_differ_in_the_second_order_only(reading, work, work_degc, own, own_degc):
    """The two forms part by less than the square of the growth."""
    growth = max(work * abs(work_degc - 20), own * abs(own_degc - 20))
    first = size_at_20(reading, work, work_degc, own, own_degc)
    exact = size_at_20_exact(reading, work, work_degc, own, own_degc)
    assert abs(first - exact) <= reading * 2.1 * growth**2 + 1e-12


def test_temperatures_broadcast():
    """An array of temperatures gives an array of sizes."""
    sizes = size_at_20(100, ALUMINIUM, np.array([20, 30]), STEEL)
    assert sizes == pytest.approx([100, 100 * (1 - 11.6e-5)])


def test_first_order_agrees_with_the_uncertainties_package():
    """Its derivative by temperature is the one that the uncertainties package finds for the same expression."""
    temperature = ufloat(26, 1)
    expression = 50 * (1 - (ALUMINIUM - STEEL) * (temperature - 20))
    rise = size_at_20(50, ALUMINIUM, 27, STEEL) - size_at_20(50, ALUMINIUM, 26, STEEL)
    assert expression.nominal_value == pytest.approx(size_at_20(50, ALUMINIUM, 26, STEEL), rel=1e-12)
    assert expression.std_dev == pytest.approx(abs(rise), rel=1e-6)


@pytest.mark.parametrize(("arguments", "message"), [
    ((100, 23.1, 32, STEEL), "alpha_work = 23.1: must be at most 0.001; is it in millionths"),
    ((100, ALUMINIUM, 32, 11.5), "alpha_instrument = 11.5: must be at most 0.001"),
    ((100, -1.05e-4, 32, STEEL), "alpha_work = -0.000105: must be at least -0.0001"),
    ((100, 1.05e-3, 32, STEEL), "alpha_work = 0.00105: must be at most 0.001"),
    ((100, ALUMINIUM, 293.15, STEEL), "temperature_work_degc = 293.15: must be at most 120; is it in kelvin"),
    ((100, ALUMINIUM, -41, STEEL), "temperature_work_degc = -41: must be at least -40"),
    ((100, ALUMINIUM, 32, STEEL, 293.15), "temperature_instrument_degc = 293.15: must be at most 120"),
    ((100, ALUMINIUM, "32", STEEL), "temperature_work_degc = '32': must be one number"),
    ((100, ALUMINIUM, float("nan"), STEEL), "temperature_work_degc = nan: must be finite"),
    (([100], ALUMINIUM, 32, STEEL), r"reading = \[100\]: must be one number"),
])
@pytest.mark.parametrize("correct", [size_at_20, size_at_20_exact])
def test_a_correction_from_wrong_units_is_refused(correct, arguments, message):
    """Kelvin, millionths, text and lists are refused with the likely cause."""
    with pytest.raises(ValueError, match=message):
        correct(*arguments)


def test_the_limits_themselves_are_taken():
    """The ends of the valid range are inside it."""
    for temperature in (-40, 120):
        for alpha in (-1e-4, 1e-3):
            assert length_at(1, alpha, temperature) == pytest.approx(1 + alpha * (temperature - 20))


def test_unknown_material_names_the_nearest():
    """A material that is not in the table is refused with the nearest."""
    with pytest.raises(ValueError, match="'aluminum'.*aluminium"):
        expansion_per_degc("aluminum")
