"""The shell that a notebook's cells run in: IPython's own, with what a cell shows kept instead of printed.

Kept are text, errors and pictures, cut at the limits. HTML, SVG and scripts are not: the marked notebook is
opened in the instructor's browser, and must hold nothing there that acts.
"""

import io

from IPython.core.displayhook import DisplayHook
from IPython.core.displaypub import DisplayPublisher
from IPython.core.interactiveshell import InteractiveShell
from traitlets import Instance, Type

PICTURES = ("image/png", "image/jpeg")
MOST_PICTURES = 3
MOST_OUTPUTS = 50


class Shown:
    """What the cells have shown so far; `take` gives it away and begins anew."""

    def __init__(self, output_bytes: int = 20_000, picture_bytes: int = 400_000):
        self.output_bytes, self.picture_bytes = output_bytes, picture_bytes
        self.begin()

    def begin(self) -> None:
        """Forget all: a notebook begins."""
        self.pictures = 0
        self.clear()

    def clear(self) -> None:
        """Forget what is shown now."""
        self.outputs, self.room = [], self.output_bytes

    def take(self) -> list[dict]:
        """What was shown, as outputs of a notebook."""
        taken = self.outputs
        self.clear()
        return taken

    def text(self, name: str, text: str) -> None:
        """Printed text."""
        text = self._cut(text)
        if not text:
            return
        if self.outputs and self.outputs[-1].get("name") == name:
            self.outputs[-1]["text"] += text
        else:
            self._add({"output_type": "stream", "name": name, "text": text})

    def data(self, bundle: dict) -> None:
        """A displayed object, by MIME type."""
        kept = {}
        for kind in PICTURES:
            picture = bundle.get(kind)
            if isinstance(picture, str):
                if len(picture) <= self.picture_bytes and self.pictures < MOST_PICTURES:
                    self.pictures += 1
                    kept[kind] = picture
                else:
                    kept["text/plain"] = "(a picture is left out: too large, or one too many)"
        if isinstance(bundle.get("text/plain"), str):
            kept.setdefault("text/plain", self._cut(bundle["text/plain"]))
        if kept:
            self._add({"output_type": "display_data", "data": kept, "metadata": {}})

    def error(self, name: str, value: str, lines: list[str]) -> None:
        """A cell that stopped."""
        lines = [self._cut(line) for line in lines]
        self._add({"output_type": "error", "ename": name[:200], "evalue": value[:500], "traceback": lines})

    def _add(self, output: dict) -> None:
        if len(self.outputs) < MOST_OUTPUTS:
            self.outputs.append(output)

    def _cut(self, text: str) -> str:
        if self.room <= 0:
            return ""
        kept, self.room = text[: self.room], self.room - len(text)
        return kept if self.room > 0 else kept + "\n(cut here: too much output)"


class Printed(io.TextIOBase):
    """Stands in for sys.stdout or sys.stderr."""

    encoding, errors = "utf-8", "replace"

    def __init__(self, name: str, shown: Shown):
        self._name, self._shown = name, shown

    def writable(self) -> bool:
        """True, as a printer is."""
        return True

    def write(self, text: str) -> int:
        """Keep the text."""
        if not isinstance(text, str):
            raise TypeError(f"write() argument must be str, not {type(text).__name__}")
        self._shown.text(self._name, text)
        return len(text)


class _Publisher(DisplayPublisher):
    shown = Instance(Shown, allow_none=True)

    def publish(self, data, metadata=None, source=None, **_):
        self.shown.data(data)

    def clear_output(self, wait=False):
        self.shown.clear()


class _Hook(DisplayHook):
    shown = Instance(Shown, allow_none=True)

    def write_output_prompt(self):
        pass

    def write_format_data(self, format_dict, md_dict=None):
        self.shown.data(format_dict)

    def finish_displayhook(self):
        pass


class Shell(InteractiveShell):
    """IPython's shell without a terminal and without a kernel."""

    display_pub_class = Type(_Publisher)
    displayhook_class = Type(_Hook)
    left = False  # a cell asked the session to end

    def enable_gui(self, gui=None):
        """There is no window to draw in: `%matplotlib inline` needs none."""

    def ask_exit(self):
        """`exit` and `quit`: no later cell runs."""
        self.left = True

    def _showtraceback(self, etype, evalue, stb):
        try:
            value = str(evalue)
        except Exception:
            value = "(its text cannot be shown)"
        self.displayhook.shown.error(etype.__name__, value, [str(line) for line in stb])


def make_shell(shown: Shown) -> Shell:
    """The shell, made the process's own as in a kernel, with the answer lines readable."""
    from traitlets.config import Config

    settings = Config()
    settings.HistoryManager.enabled = False
    settings.InteractiveShell.colors = "NoColor"
    shell = Shell.instance(config=settings)
    shell.display_pub.shown = shell.displayhook.shown = shown
    shell.extension_manager.load_extension("workbench.answering")
    return shell
