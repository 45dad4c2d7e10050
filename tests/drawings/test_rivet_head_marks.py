"""Head marks: 2017 raised dot, 2024 two raised dashes, 2117 dimple (FAA-H-8083-30, from memory)."""

import pytest

from workbench.drawings.rivet_head_marks import NAMES, picture


@pytest.mark.parametrize(("alloy", "mark"), [("2017", "raised dot"), ("2024", "two raised dashes"), ("2117", "dimple")])
def test_each_alloy_stands_by_its_mark(alloy, mark):
    """The words under a head, and the text equivalent, pair each alloy with the mark of the handbook."""
    assert dict(NAMES)[alloy].startswith(mark)
    png, text = picture()
    assert png.startswith(b"\x89PNG") and f"{alloy}: {mark}" in text
