"""Bands less the furnace's error, soak, quench delay, cold storage."""

import doctest

import numpy
import pytest

from workbench.rivets import heat_treatment as heat


def test_examples_run():
    """The examples in the docstrings give what they print."""
    failed, tried = doctest.testmod(heat)
    assert tried and not failed


def test_the_round_figure_scraps_one_alloy_and_treats_the_other():
    """500 degC is over the band of 2024 and inside that of 2017 (specification bands, from memory)."""
    assert heat.judged(500, heat.band("2024")) == "over"
    assert heat.judged(500, heat.band("2017")) == "in band"


@pytest.mark.parametrize(("degc", "said"), [
    (487.9, "under"), (488, "in band"), (499, "in band"), (499.1, "over"),
])
def test_both_ends_of_the_band_belong_to_it(degc, said):
    """488 and 499 degC are in the band of 2024, a tenth beyond is not."""
    assert heat.judged(degc, heat.band("2024")) == said


@pytest.mark.parametrize(("alloy", "error", "window"), [("2024", 5, (493, 494)), ("2017", 3, (499, 507)),
                                                        ("2024", 0, (488, 499)), ("2024", 5.5, (493.5, 493.5))])
def test_the_error_comes_off_both_ends(alloy, error, window):
    """488 + 5 to 499 - 5; 496 + 3 to 510 - 3; no error leaves the band as it is (by hand)."""
    assert heat.setting_window(heat.band(alloy), error) == window


def test_a_furnace_that_wanders_further_than_the_band_is_wide_is_refused():
    """6 degC either way leaves nothing of 11 degC: refused, and said to refer."""
    with pytest.raises(ValueError, match="leaves nothing of the band 488 to 499.*refer"):
        heat.setting_window(heat.band("2024"), 6)


def test_where_documents_differ_the_safest_band_is_what_all_allow():
    """2017: 496 to 510 and 499 to 510 have 499 to 510 in common; 2024 is printed alike by all."""
    both = heat.safest_band("2017")
    assert (both.low_degc, both.high_degc) == (499, 510)
    assert {(one.low_degc, one.high_degc) for one in heat.bands("2024")} == {(488, 499)}


def test_arrays_broadcast_and_units_go_back_and_forth():
    """degF to degC and back gives the same values; 212 degF is 100 degC, 32 is 0 (the two fixed points)."""
    assert heat.celsius(numpy.array([32, 212])) == pytest.approx([0, 100])
    assert heat.fahrenheit(heat.celsius(numpy.array([910.0, 950.0]))) == pytest.approx([910, 950])


def test_a_correction_is_added_and_an_error_is_not():
    """A certificate's correction of -3 at 496 gives 493 (meaning of "correction", VIM: common practice)."""
    assert heat.true_degc(496, -3) == 493


def test_air_soaks_longer_than_salt_at_every_size():
    """Air heats more slowly than salt: every row of the specification says so (from memory)."""
    for size in (0.3, 0.5, 0.8, 1.5, 2, 3, 4, 8, 20):
        assert heat.soak_min(size, "air furnace")[0] > heat.soak_min(size, "salt bath")[0]


def test_thicker_parts_soak_no_shorter_and_may_travel_no_faster():
    """Soak and allowed delay never fall as the size grows."""
    sizes = (0.3, 0.5, 0.8, 1.5, 2, 3, 4, 8, 20)
    for furnace in heat.FURNACES:
        least = [heat.soak_min(size, furnace)[0] for size in sizes]
        assert least == sorted(least)
    delays = [heat.quench_delay_s(size) for size in sizes]
    assert delays == sorted(delays)


@pytest.mark.parametrize(("size", "delay"), [(0.4064, 5), (0.41, 7), (0.79, 10), (2.286, 10), (2.3114, 15)])
def test_a_size_on_the_edge_of_a_row_belongs_to_the_lower_row(size, delay):
    """0.016 in is 0.4064 mm: 5 s; just above: 7 s; 0.090 in: 10 s; 0.091 in: 15 s."""
    assert heat.quench_delay_s(size) == delay


def test_delay_in_hand_may_be_below_nought():
    """10 - (5 + 4 + 3) = -2: late, and it says by how much."""
    assert heat.delay_in_hand_s(10, 5, 4, 3) == -2


def test_parts_of_the_delay_may_be_nought_but_not_below():
    """Nothing spent leaves the whole limit; a negative time is no time."""
    assert heat.delay_in_hand_s(10, 0, 0, 0) == 10
    for parts in ((-1, 1, 1), (1, -1, 1), (1, 1, -1)):
        with pytest.raises(ValueError, match="must be at least 0"):
            heat.delay_in_hand_s(10, *parts)


@pytest.mark.parametrize(("degc", "days"), [(-11, 0), (-12, 1), (-17, 1), (-18, 30), (-22.9, 30), (-23, 90), (-60, 90)])
def test_cold_storage_goes_in_steps(degc, days):
    """Between two printed temperatures nothing is gained: a step, never a curve."""
    assert heat.cold_storage_days("2024", degc)[0] == days


@pytest.mark.parametrize(("call", "said"), [
    (lambda: heat.band("2117x"), "no band is printed"),
    (lambda: heat.band("2024", "navy"), "prints no band of 2024"),
    (lambda: heat.setting_window((488, 499), 5), "must be a Band"),
    (lambda: heat.setting_window(heat.band("2024"), -5), "counts both ways"),
    (lambda: heat.soak_min(4, "oven"), "salt bath, air furnace"),
    (lambda: heat.soak_min(4, "salt bath", "poster"), "prints no such table"),
    (lambda: heat.soak_min(30, "salt bath"), "ends at 25.4 mm"),
    (lambda: heat.soak_min(9.6, "salt bath", "rivets"), "ends at 9.5 mm"),
    (lambda: heat.quench_delay_s(25.5), "ends at 25.4 mm"),
    (lambda: heat.quench_delay_s(0), "must be above 0"),
    (lambda: heat.cold_storage_days("1100", -20), "not in the table"),
])
def test_refusals_say_why(call, said):
    """What has no printed figure is refused with what there is."""
    with pytest.raises(ValueError, match=said):
        call()
