"""The drawn batches: columns stand at their quench, heights count rivets, lines reach as far as a batch keeps."""

import numpy as np
import pytest

from workbench.drawings.batch_plan import FLOOR, LEFT, RIGHT, TALL, BatchPlan

COLUMNS = [(60, 200, 0, 300), (180, 90, 40, 900)]


@pytest.fixture(scope="module")
def drawing():
    drawing = BatchPlan(0, 600, (120, 600), lambda minute: f"{minute:g} min")
    drawing.show(COLUMNS)
    return drawing


def boxes(patch):
    """(middle, bottom, top) of each box of a patch."""
    return [(box[:, 0].min() / 2 + box[:, 0].max() / 2, box[:, 1].min(), box[:, 1].max())
            for box in patch.get_path().to_polygons(closed_only=False)]


def test_columns_stand_at_their_quench_and_count_rivets_to_scale(drawing):
    """A tenth of the line is 60 min; 200 rivets are 200 units high; what is left over stands on what is driven."""
    tenth = (RIGHT - LEFT) / 10
    assert np.array(boxes(drawing.driven)) == pytest.approx(np.array([
        (LEFT + tenth, FLOOR, FLOOR + 200 * TALL), (LEFT + 3 * tenth, FLOOR, FLOOR + 90 * TALL)]))
    assert np.array(boxes(drawing.over)) == pytest.approx(np.array([
        (LEFT + 3 * tenth, FLOOR + 90 * TALL, FLOOR + 130 * TALL)]))


def test_lines_reach_from_the_quench_to_the_end_of_the_life(drawing):
    """Minute 60 to 300; a life beyond the picture ends at its edge."""
    ends = drawing.keeps.get_xdata()
    tenth = (RIGHT - LEFT) / 10
    assert ends[[0, 1, 3, 4]] == pytest.approx([LEFT + tenth, LEFT + 5 * tenth, LEFT + 3 * tenth, RIGHT])


def test_figures_and_words_say_what_is_drawn(drawing):
    """Above each column what is driven and left over, beside its line how long it keeps; the same in the text."""
    assert drawing.dimensions.said == ["200", "300 min", "90 + 40", "900 min"]
    assert drawing.text() == ("2 batches on a time line. 60 min: 200 rivets, 0 left over; 180 min: 130 rivets, "
                              "40 left over.")


def test_a_move_changes_the_picture_and_nothing_is_left_behind(drawing):
    """Other batches give another picture; the same ones give the first picture again."""
    first = drawing.png()
    drawing.show([(60, 130, 0, 300)])
    assert drawing.png() != first and drawing.over.get_path().vertices.max() <= 0
    drawing.show(COLUMNS)
    assert drawing.png() == first
