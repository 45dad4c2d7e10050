"""The picture of words at a solid rivet: true proportions by printed rules, and one drawn mark for each alloy."""

import numpy as np
import pytest

from workbench.drawings.solid_rivet_words import FACE, MARK_RADIUS, MARK_X, MARKS, PLACES, PX, LabelledRivet
from workbench.tables import table


@pytest.fixture(scope="module")
def drawing():
    return LabelledRivet()


def outline_mm(drawing, state):
    """The rivet's outline about its axis, in mm from the top face."""
    points = drawing.rivets[state].get_path().vertices[:-1]
    return (points - (PLACES[state], FACE)) / PX


def test_before_driving_the_rivet_is_straight_and_one_and_a_half_d_stands_out(drawing):
    """By hand, 4 mm rivet in 2 + 3 mm: 5 + 1.5 x 4 = 11 mm long; universal head 8 mm wide, 0.43 x 4 = 1.72 mm high."""
    points = outline_mm(drawing, "before")
    below = points[points[:, 1] < -0.01]
    assert below[:, 1].min() == pytest.approx(-11) and np.ptp(below[:, 0]) == pytest.approx(4)
    assert np.ptp(points[:, 0]) == pytest.approx(8) and points[:, 1].max() == pytest.approx(1.72)


def test_after_driving_it_fills_the_hole_and_has_its_formed_head(drawing):
    """Hole 4.2 mm (DIN 660); formed head 1.5 D = 6 mm wide and 0.5 D = 2 mm high, under a grip of 5 mm."""
    points = outline_mm(drawing, "after")
    seat = points[np.isclose(points[:, 1], -5) & (np.abs(points[:, 0]) < 2.5)]
    head = points[points[:, 1] < -5.01]
    assert np.ptp(seat[:, 0]) == pytest.approx(4.2)
    assert np.ptp(head[:, 0]) == pytest.approx(6) and points[:, 1].min() == pytest.approx(-7)


def test_every_mark_asked_about_is_drawn_on_its_head(drawing):
    """Plain has no mark, dimple and dot one, dashes two, the cross one; all lie on the head; each is in the table."""
    assert [len(drawing.marks[name]) for name in MARKS] == [0, 1, 1, 2, 1]
    assert set(MARKS) <= {row["head_mark"] for row in table("rivet_alloys").rows.values()}
    for name in MARKS:
        for artist in drawing.marks[name]:
            box = artist.get_path().transformed(artist.get_patch_transform()).get_extents()
            assert max(abs(box.x0 - MARK_X), abs(box.x1 - MARK_X)) < MARK_RADIUS, name
    dashes = [artist.get_path().vertices[:-1, 0].mean() - MARK_X for artist in drawing.marks["two raised dashes"]]
    assert dashes[0] == pytest.approx(-dashes[1]) and dashes[1] > 0


def test_what_is_pressed_in_is_dark_and_what_stands_up_is_light(drawing):
    """Dimple and dot can be told apart on a grey print."""
    assert sum(drawing.marks["dimple"][0].get_facecolor()[:3]) < 0.5 < 2.9 < sum(
        drawing.marks["raised dot"][0].get_facecolor()[:3])


def test_each_word_stands_on_the_picture_and_in_its_text(drawing):
    """Made head (twice), shank, grip, length, D, formed head."""
    said = drawing.dimensions.said
    for word in ("made head", "shank", "grip", "length", "D", "formed head (tail)"):
        assert word in said and word in drawing.text()
