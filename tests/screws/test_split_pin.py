"""Split pins: size, length, play and shear."""

import math

import numpy
import pytest

from workbench.screws.split_pin import (
    for_bolt,
    for_clevis_pin,
    goes_through,
    legs_area_mm2,
    length_mm,
    needed_length_mm,
    of_shank,
    pin,
    pins,
    shear_load_n,
    shear_torque_n_mm,
)


def test_a_pin_is_found_by_its_hole_and_by_its_shank():
    """Every shank within its limits leads back to the size that the hole names (ISO 1234), 0.9 mm apart."""
    for row in pins():
        middle = (row["shank_min_mm"] + row["shank_max_mm"]) / 2
        assert pin(row["size_mm"]) == of_shank(middle) == row
        for limit in ("shank_min_mm", "shank_max_mm"):
            assert row[limit] == 0.9 or of_shank(row[limit]) == row
    with pytest.raises(ValueError, match="shank_mm = 0.9: may be size 1 or 1.2; try the pin"):
        of_shank(0.9)


def test_a_shank_between_two_sizes_is_no_pin():
    """2.5 mm measured lies between the shanks 2.1 to 2.3 and 2.7 to 2.9 and is refused."""
    with pytest.raises(ValueError, match="shank_mm = 2.5: lies within no shank limits"):
        of_shank(2.5)
    with pytest.raises(ValueError, match="size_mm = 2.9: must be one of .*named by its hole"):
        pin(2.9)


def test_a_bolt_on_the_boundary_takes_the_smaller_pin():
    """M20 takes 4 and just over it 5; a clevis pin of 20 takes 5 (ISO 1234: over ... up to)."""
    assert (for_bolt(20)["size_mm"], for_bolt(20.1)["size_mm"], for_clevis_pin(20)["size_mm"]) == (4, 5, 5)
    with pytest.raises(ValueError, match="diameter_mm = 0: must be above 0"):
        for_bolt(0)


def test_a_pin_larger_than_slot_or_hole_is_refused():
    """Pin 4 (shank 3.7) passes neither a slot of 3.5 nor a hole of 3.2; pin 3.2 passes both with 0.3 and 0.6 play."""
    assert goes_through(3.2, 3.2, 3.5) == pytest.approx((0.3, 0.6))
    with pytest.raises(ValueError, match="needs a slot of at least 3.7 mm, not 3.5"):
        goes_through(4, 4, 3.5)
    with pytest.raises(ValueError, match="needs a hole of at least 3.7 mm, not 3.2"):
        goes_through(4, 3.2, 4.5)


def test_the_length_is_the_way_over_the_nut_and_what_is_bent():
    """19 + 10 = 29 by hand, and the next length of ISO 1234 from there is 32."""
    assert needed_length_mm(19, 10) == 29
    assert length_mm(3.2, 19, 10) == 32
    assert length_mm(3.2, 10, 4) == 14  # exactly a length: taken as it is
    assert needed_length_mm(numpy.array([16, 22]), 6).tolist() == [22, 28]


def test_a_pin_too_long_for_its_size_and_a_pin_with_nothing_to_bend_are_refused():
    """Size 1.6 ends at 32 mm (from memory); a bend of 0 lets the pin fall out."""
    with pytest.raises(ValueError, match="asks for 42.4 mm, but size 1.6 ends at 32 mm"):
        length_mm(1.6, 40)
    with pytest.raises(ValueError, match="bend_mm = 0: must be above 0; with nothing to bend"):
        needed_length_mm(19, 0)


def test_both_legs_are_cut_at_two_places():
    """A = 6.2 mm2, tau = 250 MPa: 2 x 6.2 x 250 = 3100 N; on an M12 that is 3100 x 6 = 18 600 N mm (by hand)."""
    assert shear_load_n(6.2, 250) == pytest.approx(3100)
    assert shear_torque_n_mm(6.2, 250, 12) == pytest.approx(18600)
    assert legs_area_mm2(3) == pytest.approx(2.25 * math.pi)
    assert shear_load_n(0.5, 250) == pytest.approx(250)  # a shank of 0.8


def test_a_pin_stops_a_nut_but_cannot_hold_its_preload():
    """The torque that cuts a pin is far under an M12's 84 N m of tightening (VDI 2230, from memory)."""
    assert shear_torque_n_mm(legs_area_mm2(2.8), 250, 12) < 0.3 * 84000
