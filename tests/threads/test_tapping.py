"""Tapping drills by percentage of thread, what remains, clearance holes."""

import numpy as np
import pytest

from workbench.threads.tapping import (
    clearance_hole_mm,
    hole_for_percent,
    tapped_hole,
    tapping_drill_mm,
    thread_percent,
)


def test_one_drill_has_two_percentages():
    """8.5 mm for M10 is 92 % of 1.0825 P and 77 % of 1.2990 P: 100 x 1.5 / (1.08253 x 1.5) and / (1.29904 x 1.5)."""
    assert thread_percent(10, 1.5, 8.5, "5/8 H") == pytest.approx(100 / 1.08253, abs=0.001)
    assert thread_percent(10, 1.5, 8.5, "3/4 H") == pytest.approx(100 / 1.29904, abs=0.001)


def test_the_two_bases_are_always_six_to_five():
    """Percentages on the shared depth are 1.2 times those on the old full depth, whatever the hole."""
    holes = np.array([8.4, 8.5, 8.8, 9.4])
    ratio = thread_percent(10, 1.5, holes, "5/8 H") / thread_percent(10, 1.5, holes, "3/4 H")
    assert ratio == pytest.approx([1.2] * 4)


@pytest.mark.parametrize("basis", ["5/8 H", "3/4 H"])
@pytest.mark.parametrize("percent", [50, 65, 75, 83])
def test_hole_and_percentage_are_inverses(basis, percent):
    """The hole for a percentage has that percentage."""
    hole = hole_for_percent(12, 1.75, percent, basis)
    assert thread_percent(12, 1.75, hole, basis) == pytest.approx(percent)


def test_full_thread_is_the_basic_minor_diameter():
    """100 % on 5/8 H and 83.3 % on 3/4 H are both D1 = 8.376 of M10 (ISO 724)."""
    assert hole_for_percent(10, 1.5, 100, "5/8 H") == pytest.approx(8.376, abs=0.0005)
    assert hole_for_percent(10, 1.5, 100 / 1.2, "3/4 H") == pytest.approx(8.376, abs=0.0005)


def test_inch_threads_work_in_inches():
    """Drill 7 (0.201 in) for 1/4-20 is the 75 % drill of the inch charts on 3/4 H (0.6495 x 2 / n; common practice)."""
    assert thread_percent(0.25, 1 / 20, 0.201, "3/4 H") == pytest.approx(75.4, abs=0.1)


def test_half_a_percent_of_thread_is_nearly_the_major_diameter():
    """M10: 0.5 % of 1.0825 P is 0.008 mm on the diameter (hand-worked)."""
    assert hole_for_percent(10, 1.5, 0.5, "5/8 H") == pytest.approx(9.9919, abs=1e-4)


def test_what_remains_of_a_hole():
    """M10 with 8.5: 0.75 mm deep, inside 8.376 to 8.676; 8.8 is 0.124 over; 8.3 is 0.076 under (ISO 965-2 limits)."""
    good, wide, narrow = (tapped_hole(10, 1.5, hole) for hole in (8.5, 8.8, 8.3))
    assert good.within_limits and good.depth_mm == 0.75
    assert wide.above_limit_mm == pytest.approx(0.124) and not wide.within_limits
    assert narrow.below_minor_mm == pytest.approx(0.076) and not narrow.within_limits


@pytest.mark.parametrize(("call", "says"), [
    (lambda: thread_percent(10, 1.5, 8.5, None), "5/8 H"),
    (lambda: thread_percent(10, 1.5, 8.5, "75%"), "which depth is 100 percent"),
    (lambda: thread_percent(10, 1.5, 11, "5/8 H"), "clearance hole"),
    (lambda: thread_percent(10, 0, 8.5, "5/8 H"), "pitch = 0"),
    (lambda: hole_for_percent(10, 1.5, 90, "3/4 H"), "at 83.3 percent"),
    (lambda: hole_for_percent(10, 1.5, 101, "5/8 H"), "at 100.0 percent"),
    (lambda: hole_for_percent(10, 1.5, 0, "5/8 H"), "above 0"),
    (lambda: tapping_drill_mm(10, 1.2), "no drill in ISO 2306"),
    (lambda: tapping_drill_mm(64, 6), "D1 = 57.505"),
    (lambda: clearance_hole_mm(11), "nearest sizes: M10, M12"),
    (lambda: clearance_hole_mm(10, "close"), "fine, medium or coarse"),
    (lambda: clearance_hole_mm("M10"), "one number"),
    (lambda: tapped_hole(1, 0.25, 0.75), "not given by ISO 965-1 for M1x0.25"),
])
def test_refusals(call, says):
    """No basis, an impossible hole or a size outside the table is refused with what would help."""
    with pytest.raises(ValueError, match=says):
        call()
