"""The opening's two exercises against arithmetic done by hand."""

import pytest

from workbench.exercises import find
from workbench.marking import judge

DRAW = {"whole": 8, "line": 13, "tight": 8.14, "fits": 8.17, "loose": 8.20, "far": 8.67}


def test_the_pin_is_whole_millimetres_and_thimble_lines():
    """8 whole millimetres and thimble line 13 are 8.13 mm (common practice); the slips by hand."""
    pin = find("start.pin")
    assert pin.right(DRAW) == 8.13
    # + 0.5; 8 + 0.37; 8 + 0.26; 8 + 0.013
    assert [slip.wrong(DRAW) for slip in pin.missteps] == pytest.approx([8.63, 8.37, 8.26, 8.013])


def test_the_bush_with_two_to_five_hundredths_of_clearance_fits():
    """Of bores 0.01, 0.04, 0.07 and 0.54 mm over the pin only the second leaves 0.02 to 0.05 mm."""
    bush = find("start.bush")
    assert bush.right(bush.of_draw(DRAW)) == 8.17
    for own, fitting in ((8.63, 8.67), (8.16, 8.20), (8.10, 8.14)):  # 0.04, 0.04, 0.04 mm
        assert bush.right({**DRAW, "earlier": own}) == fitting


def test_a_pin_for_which_no_bush_is_in_the_rack_is_not_carried_forward():
    """Where the own pin fits no bush, the right pin is used."""
    bush = find("start.bush")
    variant = bush.of_draw(DRAW)
    assert judge(bush, variant, "8.17", "8.37 mm").standing == "right"
    assert judge(bush, variant, "8.67", "8.37 mm").tag == "half-millimetre-too-large"
    assert judge(bush, variant, "8.67", "8.63 mm").tag == "carried-forward"


def test_no_half_line_is_out_in_the_opening():
    """The first reading is without the half line for everybody."""
    for draw in find("start.pin").draws():
        assert 12 <= draw["line"] < 40 and draw["line"] % 10
