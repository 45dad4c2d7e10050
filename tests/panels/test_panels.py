"""The panels of the measuring-screw lesson: prediction first, then the screw moves."""

import subprocess
import sys
from importlib.resources import files

import pytest

from workbench.panels import PANELS, open_panel

PREDICTIONS = {"measuring_screw": "0,65 mm", "first_fit": "b", "measuring_screw_board": "0.04"}


def shown(panel):
    return {label: text for label, text in panel.result}


@pytest.mark.parametrize("name", PANELS)
def test_each_control_moves_the_picture(name):
    """After the prediction each control changes the picture; no move ends in a fault."""
    panel = open_panel(name)
    assert not panel.picture
    panel.commit(PREDICTIONS[name])
    assert not panel.locked and panel.picture.startswith(b"\x89PNG") and panel.alternative
    if name == "measuring_screw_board":
        panel.type_in("turned", "10")
    for control in panel.controls:
        before = panel.picture
        panel.type_in(control["name"], str(panel.values[control["name"]] + control["step"]))
        assert panel.picture != before, control["name"]
    assert not panel.fault and not panel.message.startswith("This panel has a fault")
    panel.reset()
    assert panel.locked and not panel.picture


@pytest.mark.parametrize("name", PANELS)
def test_each_end_of_each_control_is_safe(name):
    """At both ends of each control the panel draws or refuses with a reason."""
    for place in ("low", "high"):
        panel = open_panel(name)
        panel.commit(PREDICTIONS[name])
        for control in panel.controls:
            panel.type_in(control["name"], str(control[place]))
            assert not panel.fault
            assert panel.values[control["name"]] == control[place] or panel.message


@pytest.mark.parametrize("name", PANELS)
def test_junk_is_no_prediction(name):
    """A prediction that is no number (or no bush) is handed back, and nothing is drawn."""
    for junk in ("", "well", "1;2", "x" * 10_000):
        panel = open_panel(name)
        panel.commit(junk)
        assert panel.locked and panel.message and not panel.fault and not panel.picture


def test_sixty_five_divisions_open_by_0_65():
    """65 divisions of 0.01 mm (0.5 mm / 50, hand-worked) open 7.20 mm to 7.85 mm; the prediction stands beside it."""
    panel = open_panel("measuring_screw")
    panel.commit("1.30 mm")
    panel.type_in("turns", "1")
    panel.type_in("divisions", "15")
    lines = shown(panel)
    assert lines["You said, for 65 divisions"] == "1.3 mm"
    assert lines["The screw says, for 65 divisions"] == "+0.65 mm"
    assert lines["Reading"] == "7.85 mm"
    assert "you said 1.3 mm, the screw says 0.65 mm" in panel.message
    panel.type_in("turns", "-12")
    panel.type_in("divisions", "-49")
    assert shown(panel)["Reading"] == "0.71 mm"


def test_first_fit_is_felt_read_and_chosen():
    """Closed by 1.13 mm from 13.50 mm the screw touches the pin of 12.37 mm; a bore of 12.40 mm leaves 0.03 mm."""
    panel = open_panel("first_fit")
    panel.commit("A")
    assert shown(panel)["Feel"] == "free" and "reading" not in panel.message.lower()
    panel.type_in("turns", "2")
    panel.type_in("divisions", "13")
    lines = shown(panel)
    assert lines["Feel"] == "touching" and lines["Sleeve + thimble"].endswith("12.37 mm")
    assert lines["Bush B, 12.40 mm"] == "fits, 0.03 mm of play"
    assert lines["Bush A, 12.30 mm"] == "too tight by 0.07 mm"
    assert "you said A" in panel.message
    panel.type_in("divisions", "14")
    assert shown(panel)["Feel"] == "squeezing"
    panel.type_in("divisions", "17")
    assert "meets the pin" in panel.message and panel.values["divisions"] == 14


def test_explore_board_gives_the_formula_with_present_numbers():
    """Two starts double the travel of a division (lead = starts x pitch); "why" carries the numbers set."""
    panel = open_panel("measuring_screw_board")
    panel.commit("0.02")
    assert shown(panel)["One division now"] == "0.02 mm"
    panel.type_in("starts", "2")
    assert shown(panel)["One division now"] == "0.04 mm"
    assert "2 mm × 2 ÷ 100 = 0.04 mm" in panel.why
    panel.type_in("turned", "800")
    panel.type_in("pitch_mm", "6")
    assert "its slide ends at 48 mm" in panel.message and panel.values["pitch_mm"] == 2


def test_unknown_panel_names_the_nearest():
    """A wrongly typed name is answered with the nearest names."""
    with pytest.raises(ValueError, match="first_fit"):
        open_panel("frist_fit")
    with pytest.raises(ValueError, match="measuring_screw"):
        open_panel(["measuring"])


def test_nothing_is_drawn_before_the_prediction():
    """Opening all panels loads no matplotlib: a marking run pays for no picture."""
    code = ("import sys; from workbench.panels import PANELS, open_panel; boards = [open_panel(n) for n in PANELS]; "
            "assert 'matplotlib' not in sys.modules; boards[0].commit('A'); assert 'matplotlib' in sys.modules")
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True)
    assert done.returncode == 0, done.stderr


def test_browser_side_lies_beside_the_module():
    """Script and style are files of the package."""
    for name in ("board.js", "board.css"):
        assert files("workbench.panels").joinpath(name).read_text()
