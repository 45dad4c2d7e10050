"""The board: one small widget for all panels: prediction, controls, picture, result, message.

It is locked until a prediction is committed: nothing is drawn, no control moves. A control is a slider
with a text field, a list to pick from, or a field for words; an entry out of range is refused with the
reason, never bent. What breaks in a callback stands in the message line and in the trait `fault`, which
tests and the scan of saved widget state read.
"""

from collections.abc import Callable
from dataclasses import asdict, dataclass
from html import escape
from math import isfinite
from pathlib import Path
from traceback import format_exc

import anywidget
import traitlets

MOST_CONTROLS = 4


class Refused(ValueError):
    """A move that the panel does not make; the text gives the reason and the way out."""


@dataclass(frozen=True)
class Control:
    """A slider with a text field. `name` is the key of its value; `step` must lead from `low` to `start`."""

    name: str
    label: str
    unit: str
    low: float
    high: float
    step: float
    start: float

    def read(self, text):
        """The value typed, as it stands; `Refused` where it is no number or out of range."""
        try:
            value = float(str(text)[:40].strip().replace(",", ".").replace("−", "-"))
        except ValueError:
            raise Refused(f"{self.label}: “{str(text)[:40]}” is no number; type one such as {self.start:g}") from None
        if not isfinite(value) or not self.low <= value <= self.high:
            raise Refused(f"{self.label}: {value:g} {self.unit} is out of range; this panel goes from {self.low:g} "
                          f"to {self.high:g} {self.unit}")
        steps = (value - self.low) / self.step
        if abs(steps - round(steps)) > 1e-6:
            raise Refused(f"{self.label}: {value:g} {self.unit} lies between two steps of {self.step:g} {self.unit}")
        return value

    def range(self):
        """What it can be moved to, for readers without a kernel."""
        return f"{self.low:g} to {self.high:g} {self.unit}"


@dataclass(frozen=True)
class Pick:
    """A list of names to pick one from."""

    name: str
    label: str
    options: tuple[str, ...]
    start: str

    def read(self, text):
        """The option typed or picked, capitals and blanks aside; `Refused` where there is none of that name."""
        wanted = str(text)[:60].strip().casefold()
        for option in self.options:
            if option.casefold() == wanted:
                return option
        raise Refused(f"{self.label}: “{str(text)[:60]}” is not in the list: {', '.join(self.options)}")

    def range(self):
        """What can be picked."""
        return ", ".join(self.options)


@dataclass(frozen=True)
class Words:
    """A field for words, such as a call-out; the panel itself reads them."""

    name: str
    label: str
    start: str
    most: int = 200

    def read(self, text):
        """The words as typed; `Refused` where they are too long."""
        if len(str(text)) > self.most:
            raise Refused(f"{self.label}: {len(str(text))} signs are too many; at most {self.most}")
        return str(text)

    def range(self):
        """An example of what can be typed."""
        return f"typed, as {self.start}"


@dataclass(frozen=True)
class Shown:
    """What a move shows. result: lines (label, text) beside the prediction; why: the formula with numbers."""

    picture: bytes
    alternative: str
    result: tuple[tuple[str, str], ...]
    message: str = ""
    why: str = ""


class Board(anywidget.AnyWidget):
    """title, question: what stands on top. asks: label of the prediction field.

    read: function of the typed prediction giving the text to show for it; raises ValueError with the reason. It is
    called once for each new beginning.
    moved: function of (values, prediction) giving `Shown`; called only after the prediction.
    """

    _esm = Path(__file__).parent / "board.js"
    _css = Path(__file__).parent / "board.css"

    title = traitlets.Unicode().tag(sync=True)
    question = traitlets.Unicode().tag(sync=True)
    asks = traitlets.Unicode().tag(sync=True)
    controls = traitlets.List().tag(sync=True)
    values = traitlets.Dict().tag(sync=True)  # where the reader moves them
    held = traitlets.Dict().tag(sync=True)  # what the picture shows: the last values that were not refused
    locked = traitlets.Bool(True).tag(sync=True)
    prediction = traitlets.Unicode().tag(sync=True)
    picture = traitlets.Bytes().tag(sync=True)
    alternative = traitlets.Unicode().tag(sync=True)
    result = traitlets.List().tag(sync=True)
    message = traitlets.Unicode().tag(sync=True)
    why = traitlets.Unicode().tag(sync=True)
    fault = traitlets.Unicode().tag(sync=True)

    def __init__(self, title, question, asks, controls, read: Callable[[str], str],
                 moved: Callable[[dict, str], Shown]):
        if len(controls) > MOST_CONTROLS:
            raise ValueError(f"{len(controls)} controls: a board has at most {MOST_CONTROLS}; is it two panels?")
        self._controls = {control.name: control for control in controls}  # each a Control, Pick or Words
        self._read, self._moved = read, moved
        self._start = {control.name: control.start for control in controls}
        super().__init__(title=title, question=question, asks=asks, controls=[asdict(c) for c in controls],
                         values=dict(self._start), held=dict(self._start))
        self.observe(lambda change: self._guarded(self._move), "values")
        self.on_msg(lambda widget, content, buffers: self._guarded(self._ask, content))

    def commit(self, text):
        """Commit a prediction: the panel unlocks and draws, or the message says why it was not read."""
        self._guarded(self._commit, text)

    def type_in(self, name, text):
        """A control's value as typed into its field."""
        self._guarded(self._type_in, name, text)

    def reset(self):
        """Everything as at the start: locked, no prediction, no picture."""
        with self.hold_sync():
            self.locked = True
            self.prediction = self.message = self.alternative = self.why = self.fault = ""
            self.picture, self.result = b"", []
            self.held = dict(self._start)
            self.values = dict(self._start)

    def _ask(self, content):
        if content.get("do") == "commit":
            self._commit(content.get("text", ""))
        elif content.get("do") == "type":
            self._type_in(content["name"], content.get("text", ""))
        elif content.get("do") == "reset":
            self.reset()

    def _commit(self, text):
        if not self.locked:
            raise Refused("Your prediction stands. Press “Start again” for a new one.")
        try:
            self.prediction = self._read(str(text)[:200])
        except ValueError as reason:  # reading refuses by ValueError
            raise Refused(str(reason)) from None
        self.locked = False
        self._move()

    def _type_in(self, name, text):
        value = self._controls[name].read(text)
        if value == self.values[name]:
            self._move()  # nothing changes, but a refusal that still stands in the message line goes
        self.values = {**self.values, name: value}

    def _move(self):
        if self.locked:
            if self.values != self.held:
                self.values = dict(self.held)  # nothing moves before the prediction
            return
        try:
            values = {name: control.read(self.values.get(name)) for name, control in self._controls.items()}
            shown = self._moved(values, self.prediction)
        except Refused as reason:
            if self.values != self.held:
                self.values = dict(self.held)  # draws the held state again, which clears the message
            self.message = str(reason)
            return
        with self.hold_sync():
            self.held = values
            self.picture, self.alternative = shown.picture, shown.alternative
            self.result = [list(line) for line in shown.result]
            self.message, self.why = shown.message, shown.why

    def _guarded(self, act, *arguments):
        """Run a callback: a refusal goes to the message line, anything unexpected to `fault` as well."""
        try:
            act(*arguments)
        except Refused as reason:
            self.message = ""  # so that the same refusal twice is announced twice
            self.message = str(reason)
        except Exception:
            self.fault = format_exc(limit=-4)
            self.message = "This panel has a fault of its own; it is not your entry. Tell your instructor."

    def _repr_mimebundle_(self, **options):
        """The live panel, and for readers without a kernel a still: what it asks and what it can move."""
        bundle = super()._repr_mimebundle_(**options)
        if bundle is None:
            return None
        data = bundle[0] if isinstance(bundle, tuple) else bundle
        moves = "".join(f"<li>{escape(c.label)}: {escape(c.range())}</li>" for c in self._controls.values())
        data["text/html"] = (f"<section><h3>{escape(self.title)}</h3><p>{escape(self.question)}</p>"
                             f"<p>Run the notebook to make your prediction and to move:</p><ul>{moves}</ul></section>")
        data["text/plain"] = f"{self.title}: {self.question}"
        return bundle
