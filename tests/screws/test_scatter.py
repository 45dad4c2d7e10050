"""Scatter of preload: tightening factors, and Monte Carlo against the closed-form variance."""

import numpy as np
import pytest

from workbench.screws.scatter import band_n, friction_range, least_n, method, methods, preload_budget, relative_spread
from workbench.screws.torque import preload_n

M10 = {"pitch_mm": 1.5, "pitch_diameter_mm": 9.026, "face_mean_mm": 13}


def test_monte_carlo_of_the_long_form_agrees_with_the_closed_form_variance():
    """400,000 draws of torque (3 %) and frictions (8 %): standard deviation within 2 % of the first-order one."""
    draw = np.random.default_rng(2024)
    torque = draw.normal(40000, 1200, 400_000)
    thread, face = (draw.normal(0.12, 0.0096, 400_000) for _ in range(2))
    found = preload_n(torque, thread_friction=thread, face_friction=face, **M10)
    closed = preload_budget(40000, 1200, 1.5, 9.026, 0.12, 0.0096, 13, 0.12, 0.0096)
    assert found.std() == pytest.approx(closed.combined, rel=0.02)


def test_each_line_of_the_budget_is_the_slope_of_the_preload():
    """Sensitivities agree with finite differences of the preload itself."""
    budget = preload_budget(40000, 1, 1.5, 9.026, 0.12, 1, 13, 0.15, 1)
    at = {"torque_nmm": 40000, "thread_friction": 0.12, "face_friction": 0.15}
    for line, name, step in zip(budget.lines, at, (10, 1e-5, 1e-5), strict=True):
        up, down = (preload_n(**{**at, name: at[name] + move}, **M10) for move in (step, -step))
        assert line.sensitivity == pytest.approx((up - down) / (2 * step), rel=1e-5), name


def test_monte_carlo_of_the_nut_factor_agrees_with_the_exact_variance():
    """400,000 log-normal torques (4 %) and nut factors (15 %): relative spread within 1 % of the closed form."""
    draw = np.random.default_rng(7)

    def log_normal(relative):
        return draw.lognormal(0, np.sqrt(np.log(1 + relative**2)), 400_000)

    found = log_normal(0.04) / log_normal(0.15)
    assert found.std() / found.mean() == pytest.approx(relative_spread(0.04, 0.15), rel=0.01)


def test_a_factor_and_a_band_say_the_same():
    """Largest over smallest of the band about the middle is the method's worst factor."""
    for one in methods():
        low, high = band_n(24000, one.half_spread)
        assert high / low == pytest.approx(one.factor_high)
        assert least_n(high, one.factor_high) == pytest.approx(low)


def test_by_feel_scatters_most_and_measured_stretch_least():
    """The order of methods is by their worst factor."""
    worst = [one.factor_high for one in methods()]
    assert worst == sorted(worst) and method("by feel").factor_high == worst[-1]


def test_friction_classes_rise():
    """Each class has lowest below highest, and rises on the one before."""
    ranges = [friction_range(name) for name in "ABCDE"]
    assert all(low < high for low, high in ranges) and ranges == sorted(ranges)


@pytest.mark.parametrize("act, says", [
    (lambda: least_n(1000, 0.5), "smallest over largest"),
    (lambda: band_n(1000, 25), "25 percent is 0.25"),
    (lambda: relative_spread(4, 0.1), "4 percent is 0.04"),
    (lambda: method("by guess"), "nearest names"),
])  # fmt: skip
def test_percentages_and_upside_down_factors_are_refused(act, says):
    """What is a percentage, upside down or unknown is refused with the likely cause."""
    with pytest.raises(ValueError, match=says):
        act()
