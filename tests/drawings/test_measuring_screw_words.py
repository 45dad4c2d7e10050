"""The picture glossary: the words stand at the parts that they name."""

from itertools import combinations

import pytest
from matplotlib.text import Text

from workbench.drawings.measuring_screw_words import WORDS, LabelledScrew, picture


@pytest.fixture(scope="module")
def screw():
    return LabelledScrew()


@pytest.mark.parametrize("gap", [3.62, 6.71, 12.84, 22.89])
def test_each_word_points_at_its_part(screw, gap):
    """Line words point at ends of lines left of the thimble's edge, part words at the moving parts."""
    screw.show(gap, gap)
    at = {word: screw.labels[word].xy for word in WORDS}
    whole, half = at["whole lines"], at["half lines"]
    assert whole[0] == int(whole[0]) and 0 < whole[0] < gap and whole[1] > 0
    assert half[0] % 1 == 0.5 and half[0] < gap and half[1] < 0  # half lines stand below the datum
    assert abs(at["datum line"][1]) < 0.2 and at["datum line"][0] < 0
    assert 0 < at["sleeve"][0] < gap < at["thimble"][0] < at["ratchet"][0]
    assert at["frame"][0] < screw.drawing.anvil_mm < at["face"][0]  # the bow's end behind the fixed face
    assert at["face"][0] == pytest.approx(screw.drawing.anvil_mm + gap)


@pytest.mark.parametrize("gap", [3.62, 4.55, 12.84, 22.89])
def test_words_stand_apart_from_the_thimble_and_from_each_other(screw, gap):
    """No word on the sleeve reaches the thimble's edge, and no two words overlap."""
    screw.show(gap, gap)
    screw.png()
    renderer = screw.drawing.sheet.canvas.get_renderer()
    boxes = {word: Text.get_window_extent(screw.labels[word], renderer) for word in WORDS}
    edge = screw.drawing.detail.transData.transform((gap, 0))[0]
    assert boxes["whole lines"].x1 < edge - 3 and boxes["half lines"].x1 < edge - 3
    overlapping = [pair for pair in combinations(WORDS, 2) if boxes[pair[0]].overlaps(boxes[pair[1]])]
    assert not overlapping


def test_the_words_move_with_the_screw_in_one_figure(screw):
    """Another gap moves the words; no new figure is made; the pictures differ."""
    screw.show(3.62)
    figure, before, first = screw.drawing.sheet.figure, screw.labels["ratchet"].xy, screw.png()
    screw.show(12.84)
    assert screw.drawing.sheet.figure is figure
    assert screw.labels["ratchet"].xy[0] - before[0] == pytest.approx(12.84 - 3.62)
    assert screw.png() != first


def test_the_text_equivalent_names_the_words_and_keeps_the_reading_back():
    """The alternative text lists every word on the picture and not the reading."""
    text = picture(12.84)[1]
    assert all(word in text for word in WORDS) and "12.84" not in text
