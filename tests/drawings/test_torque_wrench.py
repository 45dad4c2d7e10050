"""The wrench with its adaptor: to scale, at the right angle, and said in words."""

import numpy as np
import pytest

from workbench.drawings.torque_wrench import TorqueWrench, picture


@pytest.mark.parametrize("angle", [0, 90])
@pytest.mark.parametrize("arm, adaptor", [(320, 65), (360, 95), (410, 110)])
def test_lever_and_adaptor_are_to_scale(arm, adaptor, angle):
    """Distances hand to drive and drive to nut stand in the ratio of their lengths, at the angle asked."""
    one = TorqueWrench(arm, adaptor, angle)
    lever, out = (np.subtract(b, a) for a, b in ((one.hand, one.drive), (one.drive, one.nut)))
    assert np.hypot(*out) / np.hypot(*lever) == pytest.approx(adaptor / arm)
    assert np.degrees(np.arctan2(out[1], out[0])) == pytest.approx(angle)
    assert 0 < one.nut[0] < 830 and 0 < one.nut[1] < 290  # inside the sheet


def test_the_words_say_what_the_picture_shows():
    """Both lengths and how the adaptor lies are in the text; the picture is a PNG."""
    png, text = picture(360, 95, 90)
    assert png.startswith(b"\x89PNG") and "360 mm" in text and "95 mm" in text and "square to" in text
    assert "in line with" in picture(360, 95)[1]
