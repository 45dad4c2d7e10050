"""Fatigue of a bolt: the Goodman line, and why preload helps."""

import pytest

from workbench.screws.fatigue import class_endurance_mpa, goodman_factor, rolled_endurance_mpa, swing


@pytest.mark.parametrize("preload, low, high", [(24000, 0, 8000), (30000, 2000, 9000), (15000, 0, 12000)])
def test_growing_the_load_by_the_factor_reaches_the_goodman_line(preload, low, high):
    """With the outside load grown by the factor, Sa / Se + Sm / Sut = 1 while the joint stays closed."""
    one = swing(preload, low, high, 0.2, 58.0)
    factor = goodman_factor(one.preload_mpa, one.mean_mpa, one.amplitude_mpa, 129, 830)
    mean = one.preload_mpa + factor * (one.mean_mpa - one.preload_mpa)
    assert factor * one.amplitude_mpa / 129 + mean / 830 == pytest.approx(1)


def test_a_joint_that_stays_closed_swings_by_the_share_only():
    """C (Wmax - Wmin) / (2 As): 0.2 x 8000 / 116 = 13.8 MPa; with too little preload it is five times as much."""
    assert swing(24000, 0, 8000, 0.2, 58.0).amplitude_mpa == pytest.approx(13.793, abs=0.001)
    assert swing(0, 0, 8000, 0.2, 58.0).amplitude_mpa == pytest.approx(8000 / 116)


def test_more_preload_helps_until_the_joint_stays_closed():
    """Amplitude falls as preload grows, and stays once the joint no longer opens."""
    found = [swing(preload, 0, 8000, 0.2, 58.0).amplitude_mpa for preload in (0, 2000, 4000, 6400, 20000)]
    assert found[0] > found[1] > found[2] > found[3] == pytest.approx(found[4])


def test_endurance_falls_with_size():
    """0.85 (150 / d + 45): 51 MPa for M10, 43.6 for M24 (VDI 2230, from memory)."""
    assert rolled_endurance_mpa(10) == pytest.approx(51) and rolled_endurance_mpa(24) == pytest.approx(43.56, abs=0.01)
    assert class_endurance_mpa("12.9", 10) == pytest.approx(190)


@pytest.mark.parametrize("act, says", [
    (lambda: swing(1000, 5000, 100, 0.2, 58), "swapped"),
    (lambda: goodman_factor(900, 910, 10, 129, 830), "over the strength"),
    (lambda: class_endurance_mpa("4.6", 10), "must be one of"),
    (lambda: class_endurance_mpa("8.8", 10), "listed for these sizes"),
    (lambda: rolled_endurance_mpa(3), "at least 6"),
])  # fmt: skip
def test_bad_input_is_refused(act, says):
    """Swapped limits, preload over strength, unlisted classes and sizes: refused."""
    with pytest.raises(ValueError, match=says):
        act()
