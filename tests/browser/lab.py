"""The course as an apprentice meets it: `python -m workbench` in a fresh home, driven by the keyboard only.

Steps are small and named after what a person does, so that the test of a later lesson reads like a script.
A step that does not see what it should raises `Unseen` with what there was instead.
"""

import json
import os
import re
import shutil
import socket
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import Browser, Page, sync_playwright

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")
FLAGS = (
    "--no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking "
    "--disable-component-update --disable-sync"
).split()
PATIENCE_S = 120  # for a machine that is busy with other things too

# what the page holds, asked in one go: cells of the notebook in front, the active one, the place of the focus
LOOK = """() => {
  const panel = [...document.querySelectorAll('.jp-NotebookPanel')].find(p => p.offsetParent !== null);
  const cells = panel ? [...panel.querySelectorAll('.jp-Notebook .jp-Cell')] : [];
  const focus = document.activeElement;
  return {
    title: document.querySelector('#jp-main-dock-panel .lm-TabBar-tab.lm-mod-current')?.innerText ?? '',
    editing: Boolean(panel?.querySelector('.jp-Notebook.jp-mod-editMode')),
    active: cells.findIndex(cell => cell.classList.contains('jp-mod-active')),
    cells: cells.map(cell => ({
      code: cell.classList.contains('jp-CodeCell'),
      source: cell.querySelector('.jp-InputArea-editor .cm-content, .jp-MarkdownOutput')?.innerText ?? '',
      output: cell.querySelector('.jp-OutputArea')?.innerText ?? '',
      prompt: cell.querySelector('.jp-InputPrompt')?.innerText ?? '',
    })),
    dialogs: [...document.querySelectorAll('.jp-Dialog, .Toastify__toast')].map(each => each.innerText),
    focus: focus ? `${focus.tagName} ${focus.className}` : '',
  };
}"""


class Unseen(AssertionError):
    """What a step waited for did not come."""


class Course:
    """A running `python -m workbench` with a home of its own."""

    def __init__(self, home: Path, *words: str, search_path: Path | None = None):
        self.home = home
        self.folder = home / "workbench-course"
        settings = home / "jupyter-settings"
        settings.mkdir(parents=True, exist_ok=True)
        # tests may run as root, which Jupyter refuses by itself; users never get this setting
        allowed = {"ServerApp": {"allow_root": True}}
        (settings / "jupyter_server_config.json").write_text(json.dumps(allowed), encoding="utf-8")
        dropped = ("JUPYTER", "IPYTHON", "WORKBENCH", "XDG", "PYTHONPATH")
        environment = {name: text for name, text in os.environ.items() if not name.startswith(dropped)}
        environment |= {"HOME": str(home), "USERPROFILE": str(home), "JUPYTER_CONFIG_DIR": str(settings)}
        if search_path is not None:
            environment["PYTHONPATH"] = str(search_path)
        self.process = subprocess.Popen(
            [sys.executable, "-m", "workbench", "--no-browser", "--port", str(_free_port()), *words],
            cwd=home, env=environment, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True,
        )  # fmt: skip
        self.said = ""
        self.address = self._address()

    def _address(self) -> str:
        for line in self.process.stdout:
            self.said += line
            found = re.search(r"http://127\.0\.0\.1\S+", line)
            if found:
                return found[0]
        raise Unseen(f"python -m workbench gave no address; it said:\n{self.said}")

    def stop(self) -> None:
        self.process.terminate()
        self.process.wait(timeout=PATIENCE_S)
        self.process.stdout.close()

    def __enter__(self):
        return self

    def __exit__(self, *error):
        self.stop()


def _free_port() -> int:
    with socket.socket() as trial:
        trial.bind(("127.0.0.1", 0))
        return trial.getsockname()[1]


def chromium():
    """A headless browser; close it with the context."""
    return _Chromium()


class _Chromium:
    def __enter__(self) -> Browser:
        self.playwright = sync_playwright().start()
        self.browser = self.playwright.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        return self.browser

    def __exit__(self, *error):
        self.browser.close()
        self.playwright.stop()


class Lab:
    """A page of JupyterLab and the hands on its keyboard."""

    def __init__(self, page: Page, address: str):
        self.page = page
        page.goto(address)
        self.in_front("start.ipynb")

    # looking

    def look(self) -> dict:
        return self.page.evaluate(LOOK)

    def wait(self, seen: Callable[[dict], object], what: str, seconds: float = PATIENCE_S) -> dict:
        """Look until something is seen."""
        end = time.monotonic() + seconds
        while True:
            there = self.look()
            if seen(there):
                return there
            if time.monotonic() > end:
                raise Unseen(f"waited {seconds:g} s for {what}; there was {json.dumps(there, indent=1)[-4000:]}")
            time.sleep(0.1)

    def _kernel_ready(self, seen: dict) -> bool:
        status = self.page.locator(".jp-NotebookPanel:not(.lm-mod-hidden) .jp-Notebook-ExecutionIndicator")
        return status.count() > 0 and status.first.get_attribute("data-status") == "idle"

    def no_dialog(self) -> None:
        """Nothing stands in the way: no dialog, no news, no message."""
        dialogs = self.look()["dialogs"]
        if dialogs:
            raise Unseen(f"a dialog is in the way: {dialogs}")

    def cell(self, line: str) -> int:
        """The place of the only cell whose source has a line."""
        places = [n for n, cell in enumerate(self.look()["cells"]) if line in cell["source"].splitlines()]
        if len(places) != 1:
            raise Unseen(f"{len(places)} cells have the line {line!r}")
        return places[0]

    def answer_cell(self, key: str) -> int:
        return self.cell(f"# Answer {key}")

    def output(self, place: int) -> str:
        return self.look()["cells"][place]["output"]

    # keys

    def press(self, *keys: str) -> None:
        for key in keys:
            self.page.keyboard.press(key)

    def type(self, text: str) -> None:
        self.page.keyboard.type(text)

    def palette(self, command: str) -> None:
        """Choose a command by its name in JupyterLab's list of commands."""
        wanted = self.page.locator(".jp-ModalCommandPalette .lm-mod-active", has_text=command)
        for _ in range(5):  # a notebook that has just opened may take the keys back once more
            self.press("Control+Shift+C")
            self.page.wait_for_timeout(300)
            if "CommandPalette" in self.look()["focus"]:
                self.type(command)
                self.page.wait_for_timeout(300)
                if wanted.count() and "CommandPalette" in self.look()["focus"]:
                    self.press("Enter")
                    return
            self.press("Escape")
            self.page.wait_for_timeout(500)
        raise Unseen(f"the list of commands does not offer {command!r}")

    def follow(self, path: str) -> None:
        """Open a notebook by the link that the page in front has to it."""
        self.to_cell(0)
        self.tab_to(f'a[href*="{path}"]')
        self.press("Enter")
        self.in_front(path)

    def in_front(self, path: str) -> None:
        """Wait until a notebook is open in front, has a kernel, and takes the keys."""
        name = Path(path).name
        self.wait(
            lambda seen: name in seen["title"] and seen["cells"] and "jp-Cell" in seen["focus"],
            f"{name} in front",
        )
        self.wait(self._kernel_ready, "a kernel that is ready")

    def to_cell(self, place: int) -> None:
        """Select a cell with the arrow keys, which pass over cells whose code is hidden."""
        for _ in range(20):  # a panel keeps its keys to itself: Tab leads out of it
            if "wb-" not in self.page.evaluate("() => document.activeElement.closest('.wb-board')?.className ?? ''"):
                break
            self.press("Tab")
        if self.look()["editing"] or "jp-Cell" not in self.look()["focus"]:
            self.press("Escape")
        active = None
        while (now := self.look()["active"]) not in (place, active):
            self.press("ArrowDown" if now < place else "ArrowUp")
            active = now
            if (now < place) != (self.look()["active"] < place) and self.look()["active"] != place:
                break
        if self.look()["active"] != place:
            raise Unseen(f"the arrow keys do not reach cell {place}: is its code hidden? {self.look()['active']}")

    def run(self, place: int) -> str:
        """Run a cell with Shift+Enter and give its output."""
        self.to_cell(place)
        self.press("Shift+Enter")
        self._finished()
        return self.output(place)

    def run_all(self) -> None:
        """Run every cell of the notebook by the command's name."""
        self.palette("Run All Cells")
        self._finished()

    def _finished(self) -> None:
        """Wait until the kernel has nothing left to do; a hidden cell shows no number that tells it."""
        quiet = 0
        end = time.monotonic() + PATIENCE_S
        while quiet < 4:
            self.page.wait_for_timeout(150)
            quiet = quiet + 1 if self._kernel_ready(self.look()) else 0
            if time.monotonic() > end:
                raise Unseen(f"the kernel is still busy after {PATIENCE_S} s")

    def tab_to(self, selector: str) -> None:
        """Reach a part of the page with the Tab key."""
        for _ in range(60):
            if self.page.evaluate("selector => document.activeElement?.matches(selector)", selector):
                return
            self.press("Tab")
        raise Unseen(f"60 presses of Tab do not reach {selector}: {self.look()['focus']}")

    def restart_kernel(self) -> None:
        self.palette("Restart Kernel…")
        self.page.wait_for_timeout(1500)
        self.wait(self._kernel_ready, "the new kernel")
        self.no_dialog()

    def show_code(self) -> None:
        """Show the code that lessons hide, so that the arrow keys reach those cells."""
        self.palette("Expand All Code")

    # a lesson

    def answer(self, key: str, text: str) -> str:
        """Type an answer behind the = sign of its cell, run it with Shift+Enter and give what it shows."""
        return self.answer_line(key, f"{key.split('.')[1]} = {text}")

    def answer_line(self, key: str, line: str) -> str:
        """Type a whole line in place of the answer line, run it with Shift+Enter and give what the cell shows."""
        self._write(key, line)
        self.press("Shift+Enter")
        self._finished()
        return self.output(self.answer_cell(key))

    def write(self, key: str, text: str) -> None:
        """Type an answer without running it."""
        self._write(key, f"{key.split('.')[1]} = {text}")

    def _write(self, key: str, line: str) -> None:
        self.to_cell(self.answer_cell(key))
        self.press("Enter", "Control+End", "Shift+Home")
        self.type(line)

    def check(self, key: str) -> str:
        """Run the check cell below an answer that was just run (it is selected then); give what it shows."""
        place = self.answer_cell(key) + 1
        if self.look()["active"] != place:
            raise Unseen(f"after Shift+Enter the cell below {key} is not selected")
        self.press("Shift+Enter")
        self._finished()
        return self.output(place)

    def predict(self, place: int, text: str) -> None:
        """Commit a prediction in the panel shown by a cell; the panel then shows its picture."""
        self.to_cell(max(n for n, cell in enumerate(self.look()["cells"][:place]) if cell["source"]))
        self.tab_to(".wb-prediction input")
        self.type(text)
        self.press("Enter")
        picture = self.page.locator(".jp-NotebookPanel:not(.lm-mod-hidden) .wb-picture:visible")
        try:
            picture.first.wait_for(timeout=PATIENCE_S * 1000)
        except Exception:
            raise Unseen(f"no picture after the prediction: {self.output(place)}") from None

    def slide(self, key: str) -> tuple[str, str]:
        """Move the first slider of the panel by a key; gives the panel's figures before and after."""
        self.tab_to(".wb-control input[type=range]")
        before = self.figures()
        self.press(key)
        end = time.monotonic() + 10
        while self.figures() == before:
            if time.monotonic() > end:
                raise Unseen(f"the slider moved, the figures stand: {before}")
            time.sleep(0.1)
        return before, self.figures()

    def figures(self) -> str:
        """What the panel in front shows in figures."""
        return self.page.locator(".jp-NotebookPanel:not(.lm-mod-hidden) .wb-result").first.inner_text()
