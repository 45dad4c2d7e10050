"""A riveted seam: each failure, the weakest, and what is refused."""

import math

import pytest

from workbench.rivets.joint import (
    Seam,
    bearing_n,
    net_section_n,
    pull_through_n,
    rivets_for_load,
    shear_n,
    tear_out_n,
)

LAP = dict(hole_mm=4.1, thickness_mm=1.0, pitch_mm=20, rows=(1,), shear_mpa=180, tension_mpa=400, bearing_mpa=500)


def test_a_butt_joint_cuts_each_rivet_twice():
    """Two planes carry twice the load of one; some boiler codes count 1.875 (from memory)."""
    assert shear_n(4.1, 180, 2) == 2 * shear_n(4.1, 180)
    assert shear_n(4.1, 180, 1.875) == pytest.approx(1.875 * shear_n(4.1, 180))


def test_whole_arrays_are_computed_at_once():
    """Diameters in an array give an array of loads: pi/4 x 16 x 100 and pi/4 x 36 x 100."""
    import numpy

    assert shear_n(numpy.array([4, 6]), 100) == pytest.approx([1256.637, 2827.433], abs=0.001)
    assert bearing_n(numpy.array([4, 6]), 2, 100) == pytest.approx([800, 1200])


def test_tear_out_counts_two_strips_from_the_edge_of_the_hole():
    """Two strips of 8 - 2 mm, 1 mm thick, at 250 MPa: 2 x 6 x 250."""
    assert tear_out_n(8, 4, 1, 250) == 3000


def test_pull_through_shears_a_plug_of_the_heads_size():
    """A plug's wall: circumference 3.141593 x 7, 1 mm high, 250 MPa."""
    assert pull_through_n(7, 1, 250) == pytest.approx(5497.79, abs=0.01)


def test_a_factor_multiplies_the_load():
    """15 kN at a factor of 1.5 is 22.5 kN; each rivet carries 2.05 kN: 10.98 rivets."""
    assert rivets_for_load(15000, 2050, 1.5) == pytest.approx(22500 / 2050)


def test_a_wider_pitch_moves_the_weakest_failure_from_plate_to_rivet():
    """At 7 mm pitch the strip of 2.9 mm tears (1160 N); at 20 mm the sheet is crushed first (2050 N)."""
    assert Seam(**{**LAP, "pitch_mm": 7}).weakest() == ("plate torn at row 1", pytest.approx(1160))
    assert Seam(**LAP).weakest() == ("plate crushed at the rivets", pytest.approx(2050))


def test_an_inner_row_tears_only_when_the_rows_before_it_give_way():
    """Rows of 1 and 2 in 60 mm: the second row tears at (60 - 8.2) x 400 and one rivet's 2050 N."""
    found = Seam(**{**LAP, "pitch_mm": 60, "rows": (1, 2)}).failures()
    assert found["plate torn at row 2, rivets before it give way"] == pytest.approx(51.8 * 400 + 2050)
    assert found["rivets sheared"] == pytest.approx(3 * math.pi / 4 * 4.1**2 * 180)


def test_an_outer_row_in_single_shear_counts_once():
    """With a wide inner cover the outer row is cut once, the inner row twice: three planes in all."""
    one = Seam(**{**LAP, "pitch_mm": 60, "rows": (1, 1), "planes": (1, 2), "covers_mm": 2})
    assert one.failures()["rivets sheared"] == pytest.approx(3 * shear_n(4.1, 180))


def test_thin_covers_are_torn_or_crushed_before_the_plate():
    """Covers of 0.8 mm together under a plate of 1 mm: 0.8 mm counts, (60 - 4.1) x 0.8 x 400 and 4.1 x 0.8 x 500."""
    found = Seam(**{**LAP, "pitch_mm": 60, "planes": 2, "covers_mm": 0.8}).failures()
    assert found["covers torn at the inner row"] == pytest.approx(55.9 * 0.8 * 400)
    assert found["plate crushed at the rivets"] == pytest.approx(4.1 * 0.8 * 500)


def test_a_short_edge_is_torn_out_first():
    """Edge of 4 mm: strips of 1.95 mm twice at 200 MPa carry 780 N, less than any other failure."""
    assert Seam(**LAP, edge_mm=4, edge_shear_mpa=200).weakest() == ("edge torn out", pytest.approx(780))


def test_of_two_rows_only_the_one_at_the_edge_tears_out():
    """Two rows: one rivet tears out (780 N), the other is crushed in its hole (2050 N)."""
    found = Seam(**{**LAP, "rows": (1, 1)}, edge_mm=4, edge_shear_mpa=200).failures()
    assert found["edge torn out"] == pytest.approx(780 + 2050)


@pytest.mark.parametrize(
    "change, rule",
    [
        ({"pitch_mm": 4}, "the holes touch"), ({"rows": ()}, "tuple of rivets"), ({"rows": (0,)}, "at least 1"),
        ({"planes": 3}, "at most 2"), ({"planes": (1, 2)}, "one a row"), ({"shear_mpa": 0}, "above 0"),
        ({"edge_mm": 8}, "together with edge_mm"), ({"edge_mm": 2, "edge_shear_mpa": 200}, "breaks the edge"),
    ],
)
def test_what_cannot_be_built_is_refused(change, rule):
    """A seam that cannot be is refused at once, with the value and the rule."""
    with pytest.raises(ValueError, match=rule):
        Seam(**{**LAP, **change})


def test_a_plate_full_of_holes_is_refused():
    """Holes that take the whole width leave nothing to carry."""
    with pytest.raises(ValueError, match="larger pitch"):
        net_section_n(8, 4, 1, 400, holes=2)
