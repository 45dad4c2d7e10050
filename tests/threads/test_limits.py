"""Limits of metric, trapezoidal, Unified and Acme threads, and the fit of a pair."""

import time

import numpy as np
import pytest

from workbench.tables import table
from workbench.threads.limits import Band, fit, rounded
from workbench.threads.limits_acme import acme_limits
from workbench.threads.limits_metric import basic_diameters_mm, given_classes, metric_limits, screw_root_mm
from workbench.threads.limits_trapezoidal import trapezoidal_limits
from workbench.threads.limits_unified import unified_limits

THREADS = [(row["diameter_mm"], row["pitch_mm"]) for row in table("iso_261_metric").rows.values()]
COARSE = [(row["diameter_mm"], row["pitch_mm"]) for row in table("iso_261_metric").rows.values()
          if row["series"] == "coarse"]


@pytest.mark.parametrize("thread", THREADS, ids=lambda thread: f"M{thread[0]:g}x{thread[1]:g}")
def test_the_three_diameters_never_overlap(thread):
    """In every given class of every thread the bands of root, pitch and crest lie apart and in order."""
    for tolerance_class in given_classes(*thread):
        limits = metric_limits(*thread, tolerance_class)
        for band in (limits.major, limits.pitch, limits.minor):
            assert band.low < band.high
        assert limits.minor.high < limits.pitch.low and limits.pitch.high < limits.major.low
        basic_pitch, basic_minor = basic_diameters_mm(*thread)
        if limits.inside:
            assert limits.major.low >= thread[0] and limits.pitch.low >= basic_pitch
            assert limits.minor.low >= basic_minor
        else:
            assert limits.major.high <= thread[0] and limits.pitch.high <= basic_pitch
            # the lowest pitch diameter stays above the basic root d3, so that the flanks are never cut away
            assert limits.pitch.low > thread[0] - 1.226869 * thread[1]


@pytest.mark.parametrize("thread", THREADS, ids=lambda thread: f"M{thread[0]:g}x{thread[1]:g}")
def test_usual_pairs_assemble(thread):
    """Any given screw class with any given nut class clears everywhere, h with H by nothing at least."""
    limits = [metric_limits(*thread, tolerance_class) for tolerance_class in given_classes(*thread)]
    for screw in (one for one in limits if not one.inside):
        for nut in (one for one in limits if one.inside):
            pair = fit(screw, nut)
            assert pair.always_assembles and pair.most > pair.least
            if screw.tolerance_class[1] == "h" and nut.tolerance_class[1] == "H":
                assert pair.least == 0
            assert 0 < pair.least_depth < pair.most_depth


@pytest.mark.parametrize("tolerance_class", ["6g", "4h", "6h", "5H", "6H"])
def test_limits_rise_with_size_in_the_coarse_series(tolerance_class):
    """From M1.4 up every limit of a larger coarse thread is larger."""
    sizes = [thread for thread in COARSE if thread[0] >= 1.4]
    limits = [metric_limits(*thread, tolerance_class) for thread in sizes]
    for name in ("major", "pitch", "minor"):
        for side in ("low", "high"):
            values = [getattr(getattr(one, name), side) for one in limits]
            assert all(np.diff(values) > 0), (name, side)


def test_arrays_give_the_same_as_single_threads():
    """All threads of ISO 261 in one call have, place by place, the limits of one call each."""
    diameter, pitch = (np.array(column) for column in zip(*THREADS, strict=True))
    for tolerance_class in ("6g", "4h", "6h"):
        together = metric_limits(diameter, pitch, tolerance_class)
        for place, thread in enumerate(THREADS):
            single = metric_limits(*thread, tolerance_class)
            for name in ("major", "pitch", "minor"):
                assert getattr(together, name).low[place] == getattr(single, name).low
                assert getattr(together, name).high[place] == getattr(single, name).high


def test_arrays_keep_their_shape():
    """A column of diameters with one pitch comes back as that column."""
    limits = metric_limits(np.array([[20.0], [24.0]]), 1.5, "6H")
    assert limits.pitch.low.shape == (2, 1)
    assert limits.pitch.holds(np.array([[19.1], [25.0]])).tolist() == [[True], [False]]


@pytest.mark.parametrize(("thread", "tolerance_class", "says"), [
    ((1, 0.2), "6H", "not given by ISO 965-1 for M1x0.2; given for the pitch diameter: 4H"),
    ((1, 0.25), "6H", "4H, 5H"),
    ((2, 0.25), "6H", "4H, 5H"),
    ((3, 0.5), "8g", "not given by ISO 965-1 for M3x0.5"),
    ((4, 0.7), "8g", "not given by ISO 965-1 for M4x0.7"),
    ((2.5, 0.45), "7H", "not given"),
    ((3, 0.35), "7H", "not given"),
    ((2.5, 0.45), "6e", "positions given at this pitch: f, g, h"),
    ((1, 0.25), "6f", "positions given at this pitch: g, h"),
    ((6, 1), "5g", "crest diameter: 4g, 6g, 8g"),
    ((6, 1), "3H", "pitch diameter: 4H"),
    ((6, 1), "9g", "not given"),
    ((6, 1), "9H", "not given"),
    ((24, 1), "8H", "not given by ISO 965-1 for M24x1"),
    ((6, 1.25), "6g", "M6x1.25.*not in ISO 261; M6 has P 1, 0.75"),
    ((13, 1.5), "6g", "M13x1.5.*not in ISO 261"),
    ((100, 6), "6g", "M1 to M90"),
    ((10.001, 1.5), "6g", "not in ISO 261"),
    ((10, -1.5), "6g", "above 0"),
    ((float("nan"), 1), "6g", "finite"),
    ((10, 1.5), "6k", "one position"),
    ((10, 1.5), "4g6H", "one position"),
    ((10, 1.5), "g6", "grade and a position"),
    ((10, 1.5), None, "grade and a position"),
    (("M10", 1.5), "6g", "one number"),
    (((10, 12), 1.5), "6g", "decimal comma"),
])
def test_what_the_standard_does_not_give_is_refused(thread, tolerance_class, says):
    """A blank of the standard, a size outside it or a mistyped class is refused with what there is."""
    with pytest.raises(ValueError, match=says):
        metric_limits(*thread, tolerance_class)


def test_the_first_bad_thread_of_an_array_is_named():
    """One wrong thread among many is refused by its name."""
    with pytest.raises(ValueError, match="M12x1.6"):
        metric_limits(np.array([10, 12, 16]), np.array([1.5, 1.6, 2]), "6g")
    with pytest.raises(ValueError, match="'6H'.*M2x0.25"):
        metric_limits(np.array([10, 2]), np.array([1.5, 0.25]), "6H")


@pytest.mark.parametrize(("first", "last", "tolerance_class"), [(0.8, 6, "8g"), (0.5, 6, "7H"), (0.5, 6, "6e")])
def test_rough_and_open_classes_begin_at_the_pitch_the_standard_begins_at(first, last, tolerance_class):
    """8g is given from P 0.8, 7H and 6e from P 0.5 (ISO 965-1), and up to P 6 without a gap; below always refused."""
    for diameter, pitch in THREADS:
        assert (tolerance_class in given_classes(diameter, pitch)) == (first <= pitch <= last), (diameter, pitch)


def test_pitch_class_before_crest_class():
    """4g6g takes the pitch diameter of 4g with the crest of 6g (ASME B1.13M usage)."""
    mixed, fine, usual = (metric_limits(6, 1, c) for c in ("4g6g", "4g", "6g"))
    assert mixed.pitch == fine.pitch and mixed.major == usual.major


def test_a_fit_wants_a_screw_then_a_nut_of_one_unit():
    """Two screws, a nut first, or inch against metric are refused."""
    bolt, nut = metric_limits(6, 1, "6g"), metric_limits(6, 1, "6H")
    for pair in ((bolt, bolt), (nut, bolt), (nut, nut)):
        with pytest.raises(ValueError, match="one screw and one nut"):
            fit(*pair)
    with pytest.raises(ValueError, match="one unit"):
        fit(bolt, unified_limits(0.25, 20, "2B"))


def test_worst_and_best_fit_of_a_pair_by_hand():
    """M10 6H/6g: least 0.032 (es), most 0.032 + 0.132 + 0.180 = 0.344 (tolerances of ISO 965-2 by hand)."""
    pair = fit(metric_limits(10, 1.5, "6g"), metric_limits(10, 1.5, "6H"))
    assert (pair.least, pair.most) == (0.032, 0.344)
    assert pair.least_at_minor == pytest.approx(0.032) and pair.least_at_major == pytest.approx(0.032)
    assert pair.least_depth == pytest.approx((9.732 - 8.676) / 2)


def test_a_missing_limit_permits_everything_on_that_side():
    """A band without low or high holds any size there."""
    assert Band(None, 2).holds(-5) and Band(1, None).holds(99) and not Band(1, 2).holds(2.5)
    assert Band(1, 2).holds(1) and Band(1, 2).holds(2)  # a limit itself is permitted


@pytest.mark.parametrize(("value", "places", "expected"), [(0.0005, 3, 0.001), (1.0005, 3, 1.001), (2.67525, 4, 2.6753),
                                                            (0.49999, 0, 0.0)])
def test_rounding_takes_halves_up_free_of_binary_dust(value, places, expected):
    """A half of the last place goes up although the binary number lies a hair below it."""
    assert rounded(value, places) == expected


def test_unified_classes_nest():
    """Class 3 is narrower than 2, 2 than 1; 2A hangs below 3A by the allowance; nuts start at the basic size."""
    for size, tpi, series in ((0.25, 20, "UNC"), (0.5, 20, "UNF"), (1, 8, "UNC"), (2, 4.5, "UNC")):
        one, two, three = (unified_limits(size, tpi, c, series) for c in ("1A", "2A", "3A"))
        assert one.pitch.tolerance > two.pitch.tolerance > three.pitch.tolerance
        assert one.pitch.high == two.pitch.high < three.pitch.high and three.major.high == size
        nuts = [unified_limits(size, tpi, c, series) for c in ("1B", "2B", "3B")]
        assert len({nut.pitch.low for nut in nuts}) == 1
        assert nuts[0].pitch.high > nuts[1].pitch.high > nuts[2].pitch.high
        for screw in (one, two, three):
            for nut in nuts:
                assert fit(screw, nut).always_assembles


def test_bore_of_threads_coarser_than_four_an_inch():
    """A special nut of 3 threads an inch has a bore tolerance of 0.15 P = 0.050 in (ASME B1.1, from memory)."""
    assert unified_limits(5, 3, "2B", "UNS").minor.tolerance == pytest.approx(0.05, abs=0.001)


def test_all_sizes_of_the_unified_series_are_in_order():
    """Every size of UNC, UNF and UNEF in classes 2 and 3 has root, pitch and crest in order."""
    for row in table("unified_sizes").rows.values():
        for tolerance_class in ("2A", "3A", "2B", "3B"):
            one = unified_limits(row["major_in"], row["threads_per_inch"], tolerance_class, row["series"])
            assert one.minor.high < one.pitch.low < one.pitch.high < one.major.low


def test_unified_limits_broadcast():
    """Arrays of sizes give the limits of single calls."""
    sizes, tpi = np.array([0.112, 0.25, 1]), np.array([40, 20, 8])
    for tolerance_class in ("2A", "2B", "3B"):
        together = unified_limits(sizes, tpi, tolerance_class)
        for place in range(3):
            single = unified_limits(float(sizes[place]), float(tpi[place]), tolerance_class)
            assert together.pitch.high[place] == single.pitch.high
            assert together.minor.high[place] == single.minor.high


@pytest.mark.parametrize(("given", "says"), [
    ((0.25, 20, "6g"), "must be one of 1A"),
    ((0.19, 24, "1A"), "from 1/4 inch"),
    ((0.5, 28, "1B", "UNEF"), "only for UNC and UNF"),
    ((0.25, 20, "2A", "BSW"), "must be one of UNC"),
    ((0.25, 24, "2A"), "0.25-24 UNC.*0.25 in has 20 threads an inch"),
    ((0.26, 20, "2A", "UNF"), "not a size of UNF; give UNS"),
    ((np.array([0.25, 0.5]), np.array([20, 14]), "2A"), "0.5-14 UNC"),
    ((0, 20, "2A"), "above 0"),
    ((0.25, 0, "2A"), "above 0"),
])
def test_unified_refusals(given, says):
    """Classes and series that ASME B1.1 does not have are refused with those it has."""
    with pytest.raises(ValueError, match=says):
        unified_limits(*given)


def test_acme_pairs_clear_and_nest():
    """All standard sizes: screw and nut of each class clear; 4G is tighter than 3G, 3G than 2G."""
    for row in table("acme_sizes").rows.values():
        least = []
        for tolerance_class in ("2G", "3G", "4G"):
            screw = acme_limits(row["major_in"], row["threads_per_inch"], tolerance_class)
            nut = acme_limits(row["major_in"], row["threads_per_inch"], tolerance_class, inside=True)
            pair = fit(screw, nut)
            assert pair.always_assembles and screw.minor.low < screw.minor.high < screw.pitch.low
            least.append(pair.least)
        assert least[0] > least[1] > least[2] > 0


# ASME B1.5, general-purpose classes (from memory): 2G: 0.030 sqrt P + 0.006 sqrt D; 3G: 0.014, 0.0028; 4G: 0.010, 0.002
@pytest.mark.parametrize(("tolerance_class", "pitch_factor", "diameter_factor", "allowance_factor"), [
    ("2G", 0.030, 0.006, 0.008), ("3G", 0.014, 0.0028, 0.006), ("4G", 0.010, 0.002, 0.004)])
def test_acme_tolerances_are_those_of_the_formula_for_special_sizes(tolerance_class, pitch_factor, diameter_factor,
                                                                    allowance_factor):
    """On sizes of 100 in, 4 in pitch, rounding to 0.0001 in hides nothing of the factors."""
    screw = acme_limits(100.0, 0.25, tolerance_class)
    assert screw.pitch.high - screw.pitch.low == pytest.approx(2 * pitch_factor + 10 * diameter_factor, abs=0.00011)
    assert screw.pitch.high == pytest.approx(100 - 2 - 10 * allowance_factor, abs=0.00011)


@pytest.mark.parametrize("tolerance_class", ["2C", "5G", "2g", None])
def test_acme_refuses_other_classes(tolerance_class):
    """Centralizing and withdrawn classes are refused."""
    with pytest.raises(ValueError, match="must be one of 2G, 3G, 4G"):
        acme_limits(0.5, 10, tolerance_class)


def test_all_trapezoidal_pairs_clear():
    """Every thread of ISO 2902, every recommended class: bands in order, screw and nut clear."""
    for row in table("trapezoidal_sizes").rows.values():
        thread = row["diameter_mm"], row["pitch_mm"]
        nuts = [trapezoidal_limits(*thread, c) for c in ("7H", "8H", "9H")]
        for screw in (trapezoidal_limits(*thread, c) for c in ("7e", "8e", "8c", "9c")):
            assert screw.minor.low < screw.minor.high < screw.pitch.low < screw.pitch.high < screw.major.low
            for nut in nuts:
                assert fit(screw, nut).always_assembles


def test_the_root_of_the_coarsest_trapezoidal_thread_has_its_whole_tolerance():
    """Tr300x44-9c: the root of the screw is as wide as its tolerance Td3 in the table (ISO 2903), 2 mm and more."""
    limits = trapezoidal_limits(300, 44, "9c")
    stored = table("iso_2903_pitch").row("180 to 355 x 44")["Td3_9c"]
    assert stored > 2000 and limits.minor.high - limits.minor.low == pytest.approx(stored / 1000, abs=1e-9)


def test_several_starts_widen_only_pitch_and_root():
    """Two starts: pitch diameter tolerance 1.12 times, crest unchanged (ISO 2903, from memory)."""
    one, two = (trapezoidal_limits(40, 7, "7e", starts) for starts in (1, 2))
    assert two.major == one.major
    assert two.pitch.tolerance == pytest.approx(1.12 * one.pitch.tolerance, abs=0.001)
    # Td3 = 1.25 Td2 + |es| with the wider Td2 = 1.12 x 355
    assert two.minor.tolerance == pytest.approx(1.25 * 1.12 * 0.355 + 0.125, abs=0.001)
    assert trapezoidal_limits(40, 7, "7H", 9).pitch.tolerance == pytest.approx(
        1.6 * trapezoidal_limits(40, 7, "7H").pitch.tolerance, abs=0.001)


@pytest.mark.parametrize(("given", "says"), [
    ((40, 14, "7e"), "Tr40 has P 7, 3, 10; was the lead of several starts"),
    ((41, 7, "7e"), "Tr8 to Tr300"),
    ((40, 7, "6g"), "must be one of 7H"),
    ((40, 7, "7c"), "must be one of 7H"),
    ((40, 7, "7e", 1.5), "whole number"),
    ((40, 7, "7e", 0), "at least 1"),
])
def test_trapezoidal_refusals(given, says):
    """A lead in place of a pitch, an unknown size or another standard's class is refused."""
    with pytest.raises(ValueError, match=says):
        trapezoidal_limits(*given)


def test_the_rounded_root_lies_under_the_gauge_boundary():
    """Of every 6g thread d3 high stays below D1 + es, and a nut class has no root of a screw."""
    for thread in THREADS:
        root = screw_root_mm(*thread, "6g")
        assert root.low < root.high < metric_limits(*thread, "6g").minor.high
    with pytest.raises(ValueError, match="screw class"):
        screw_root_mm(10, 1.5, "6H")


def test_a_hundred_thousand_threads_take_less_than_a_second():
    """One call over 100,000 threads of ISO 261 is done in a second (about 0.05 s; tests/benchmarks/limits.py)."""
    draw = np.random.default_rng(1).integers(0, len(THREADS), 100_000)
    diameter, pitch = (np.array(column)[draw] for column in zip(*THREADS, strict=True))
    start = time.process_time()
    limits = metric_limits(diameter, pitch, "6g")
    assert time.process_time() - start < 1 and limits.pitch.low.shape == (100_000,)
