"""The JupyterLab settings that come with the course name things that the installed JupyterLab knows."""

import json
import os
import sys
from pathlib import Path

import pytest

import workbench

SETTINGS = Path(workbench.__file__).parent / "jupyter"
OVERRIDES = json.loads((SETTINGS / "labconfig/default_setting_overrides.json").read_text(encoding="utf-8"))
PAGE = json.loads((SETTINGS / "labconfig/page_config.json").read_text(encoding="utf-8"))
SERVER = json.loads((SETTINGS / "jupyter_server_config.d/workbench.json").read_text(encoding="utf-8"))
LAB = Path(sys.prefix) / "share/jupyter/lab"
SHORTCUTS = OVERRIDES["@jupyterlab/shortcuts-extension:shortcuts"]["shortcuts"]
CELL_SELECTED = (".jp-mod-commandMode", ":focus:not(:read-write)")


def schema(plugin: str) -> dict:
    package, name = plugin.split(":")
    return json.loads((LAB / "schemas" / package / f"{name}.json").read_text(encoding="utf-8"))


def shipped_shortcuts() -> list[dict]:
    found = []
    for path in (LAB / "schemas/@jupyterlab").glob("*/*.json"):
        found += json.loads(path.read_text(encoding="utf-8")).get("jupyter.lab.shortcuts", [])
    return found


@pytest.mark.parametrize("plugin", OVERRIDES)
def test_every_setting_is_a_property_of_a_plugin_that_exists(plugin):
    """A setting that a new JupyterLab renames or drops is noticed here, not by an apprentice."""
    properties = schema(plugin)["properties"]
    assert not set(OVERRIDES[plugin]) - set(properties)
    for name, value in OVERRIDES[plugin].items():
        choices = [choice["const"] for choice in properties[name].get("oneOf", []) if "const" in choice]
        assert not choices or value in choices


@pytest.mark.parametrize("shortcut", SHORTCUTS, ids=lambda shortcut: " ".join(shortcut["keys"]))
def test_every_shortcut_switched_off_is_one_that_exists(shortcut):
    """Switching off works only where command, keys and selector are exactly JupyterLab's."""
    asked = (shortcut["command"], shortcut["keys"], shortcut["selector"])
    assert shortcut["disabled"] is True
    assert asked in [(each["command"], each["keys"], each["selector"]) for each in shipped_shortcuts()]


def test_no_plain_key_does_anything_to_a_selected_cell():
    """Typing into a cell that is only selected (as after Shift+Enter) changes nothing: every key that would
    print a character is switched off."""
    off = {(each["command"], *each["keys"]) for each in SHORTCUTS}
    plain = {
        (each["command"], *each["keys"])
        for each in shipped_shortcuts()
        if each["keys"]
        and any(part in each["selector"] for part in CELL_SELECTED)
        and all(len(key.removeprefix("Shift ")) == 1 for key in each["keys"])
    }
    assert len(plain) > 20  # JupyterLab 4 has 30 of them: none found would mean that its selectors changed
    assert not plain - off


def test_every_toolbar_button_named_is_there_or_has_a_command():
    """Buttons that harm an answer cell go from the notebook's toolbar; "Run all" runs a known command."""
    panel = "@jupyterlab/notebook-extension:panel"
    shipped = {item["name"] for item in schema(panel)["jupyter.lab.toolbars"]["Notebook"]}
    program = "".join(
        path.read_text(encoding="utf-8") for path in (LAB / "static").glob("*.js") if "jlab_core" in path.name
    )
    for item in OVERRIDES[panel]["toolbar"]:
        if item.get("disabled"):
            assert item["name"] in shipped
        else:
            assert f'"{item["command"]}"' in program or f"'{item['command']}'" in program


def test_every_extension_switched_off_exists():
    """Instructor's buttons and other things that an apprentice has no use for are named rightly."""
    homes = [LAB / "schemas", LAB.parent / "labextensions"]
    for name, off in PAGE["disabledExtensions"].items():
        assert off is True
        assert any((home / name).is_dir() for home in homes), name


def test_the_instructors_server_parts_stay_off_for_apprentices():
    """Each of nbgrader's server parts is switched off, and none that nbgrader switches on is forgotten."""
    theirs = json.loads((Path(sys.prefix) / "etc/jupyter/jupyter_server_config.d/nbgrader.json").read_text())
    ours = SERVER["ServerApp"]["jpserver_extensions"]
    assert set(ours) == set(theirs["ServerApp"]["jpserver_extensions"])
    assert not any(ours.values())


def test_work_is_saved_well_within_ten_seconds():
    """Autosave is on; its period leaves room for the saving itself, and for a slow save to end before the next
    one begins: JupyterLab would take its own unfinished save for a change by somebody else, and ask."""
    saving = OVERRIDES["@jupyterlab/docmanager-extension:plugin"]
    assert saving["autosave"] is True
    assert saving["autosaveInterval"] == 8


def test_the_servers_own_reading_finds_our_settings_first(monkeypatch):
    """JupyterLab's server merges our file into its schemas, ahead of other configuration folders."""
    from jupyterlab_server.settings_utils import get_settings

    monkeypatch.setenv("JUPYTER_CONFIG_PATH", os.pathsep.join([str(SETTINGS)]))
    read, _ = get_settings(
        str(LAB / "settings"), str(LAB / "schemas"), str(LAB / "none"), "@jupyterlab/apputils-extension:notification"
    )
    assert read["schema"]["properties"]["fetchNews"]["default"] == "false"
