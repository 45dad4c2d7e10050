"""The drawn triangle of a metric thread, measured as drawn (fractions of H: ISO 68-1, as reprinted)."""

import numpy as np
import pytest

from workbench.drawings.thread_triangle import PITCH, ThreadTriangle, picture


@pytest.fixture(scope="module")
def drawing():
    return ThreadTriangle()


def test_the_triangles_have_three_angles_of_60_degrees(drawing):
    """Base one pitch, height 0.866 pitch: each flank rises at 60 degrees (geometry)."""
    steps = np.abs(np.diff(drawing.sharp, axis=0))
    assert np.degrees(np.arctan2(steps[:, 1], steps[:, 0])) == pytest.approx(60)
    assert steps[:, 1] == pytest.approx(0.8660254 * PITCH)


def test_crest_pitch_line_bore_and_root_lie_at_their_eighths(drawing):
    """1/8 H from the sharp top to the crest; from there 3/8 to the pitch line, 5/8 to the bore, 17/24 to the root."""
    height = np.ptp(drawing.sharp[:, 1])
    crest, pitch_line, bore, root = drawing.levels.values()
    assert (drawing.sharp[:, 1].max() - crest) / height == pytest.approx(1 / 8)
    assert [(crest - y) / height for y in (pitch_line, bore, root)] == pytest.approx([3 / 8, 5 / 8, 17 / 24])


def test_the_picture_is_told_in_words():
    """A PNG, and the same fractions in its words."""
    png, text = picture()
    assert png.startswith(b"\x89PNG") and all(part in text for part in ("3/8", "5/8", "17/24", "60°"))
