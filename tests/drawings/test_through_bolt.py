"""The bolt whose nut stops on its thread: to scale, with the gap, and said in words without the answer."""

import pytest

from workbench.drawings.through_bolt import PX, UNDER_HEAD, ThroughBoltDrawing, picture


def test_the_nut_stands_where_the_thread_ends_and_the_gap_is_to_scale():
    """M8 x 65, thread 22, parts 14.7 and 24.4: shank 43, parts 39.1, gap 3.9 mm by hand."""
    one = ThroughBoltDrawing(8, 1.25, 65, 22, (14.7, 24.4))
    assert (one.thread - UNDER_HEAD) / PX == pytest.approx(43)
    assert (one.nut[0] - one.parts) / PX == pytest.approx(3.9)
    assert (one.nut[1] - one.nut[0]) / PX == pytest.approx(6.8)  # ISO 4032, from memory


def test_a_nut_that_can_clamp_sits_on_the_parts():
    """With a shank shorter than the parts there is no gap."""
    one = ThroughBoltDrawing(8, 1.25, 65, 30, (14.7, 24.4))
    assert one.nut[0] == one.parts


@pytest.mark.parametrize("size, pitch, length, thread", [(6, 1, 50, 18), (8, 1.25, 75, 22)])
def test_the_shortest_and_the_longest_bolt_stay_on_the_sheet(size, pitch, length, thread):
    """The end of the bolt and the words beside it lie inside."""
    assert ThroughBoltDrawing(size, pitch, length, thread, (12.4, length - thread - 15)).end < 840


def test_the_words_name_what_is_given_and_not_the_gap():
    """Length, thread and parts are in the text, the gap's size is not."""
    png, text = picture(8, 1.25, 65, 22, 14.7, 24.4)
    assert png.startswith(b"\x89PNG") and "3.9" not in text
    for given in ("M8", "65 mm", "22 mm", "14.7 mm", "24.4 mm"):
        assert given in text
