"""Stills: a picture alone, drawn only when an apprentice looks at it."""

import subprocess
import sys

import pytest

from workbench.panels import open_panel
from workbench.panels.still import STILLS


@pytest.mark.parametrize("name", STILLS)
def test_a_still_shows_its_picture_with_a_text_equivalent(name, monkeypatch):
    """Shown outside a marking run it is an image with its words; in a marking run nothing is drawn."""
    monkeypatch.delenv("WORKBENCH_CANDIDATE", raising=False)
    shown = open_panel(name)._repr_mimebundle_()
    assert "data:image/png;base64,iVBOR" in shown["text/html"] and shown["text/plain"]  # PNG's first bytes
    monkeypatch.setenv("WORKBENCH_CANDIDATE", "7")
    assert "text/html" not in open_panel(name)._repr_mimebundle_()


def test_opening_a_still_loads_no_plotting():
    """A still is drawn when it is shown, not when it is opened."""
    code = (
        "import sys; from workbench.panels import open_panel; open_panel('screw_words'); "
        "assert 'matplotlib' not in sys.modules"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
