"""What comes out of a run, taken as data: text and pictures of the expected form, within their sizes.

The bytes come from a process that ran an apprentice's code. Each part is looked at before it is kept; what
has not the expected form is left out.
"""

import base64
import binascii
import json
import struct
from collections.abc import Mapping, Sequence

from instructor.marking.limits import Limits
from instructor.marking.running import Run

LONGEST_KEY = 100
LONGEST_ENTRY = 300  # more than the longest entry that is read
LONGEST_SAID = 500
MOST_ANSWERS = 200
MOST_OUTPUTS = 60
_MAGIC = {"image/png": b"\x89PNG\r\n\x1a\n", "image/jpeg": b"\xff\xd8\xff"}


class Arriving:
    """The result of one notebook while it arrives."""

    def __init__(self, cells: Sequence[str], limits: Limits):
        self._cells, self._limits = list(cells), limits
        self._bytes, self._received, self._parts = bytearray(), 0, {}
        self._done: dict[str, Mapping] = {}
        self._ended = False
        self.refused = ""  # why nothing more is taken

    def take(self, content: bytes) -> None:
        """Take what has arrived."""
        if self.refused:
            return
        self._received += len(content)
        if self._received > self._limits.result_bytes:
            self.refused = f"it sent more than {self._limits.result_bytes / 1e6:.0f} MB, more than any answers need"
            self._bytes.clear()
            return
        self._bytes += content
        while len(self._bytes) >= 4:
            (size,) = struct.unpack_from("!I", self._bytes)
            if len(self._bytes) < 4 + size:
                return
            frame = bytes(self._bytes[4 : 4 + size])
            del self._bytes[: 4 + size]
            self._frame(frame)

    def _frame(self, frame: bytes) -> None:
        try:
            message = json.loads(frame)
        except (ValueError, RecursionError):
            return
        if not isinstance(message, dict):
            return
        if message.get("end") is True:
            self._ended = True
        elif message.get("cell") in self._cells[len(self._done) : len(self._done) + 1]:
            self._done[message["cell"]] = message

    def finished(self, why: str = "") -> Run:
        """The result; why: why the process ended early, as its parent saw it."""
        stopped = self.refused or _text(why, LONGEST_SAID)
        if not stopped and not self._ended:
            stopped = "it ended without saying so"
        if not stopped and len(self._done) < len(self._cells):
            stopped = "a cell asked the session to end"
        left = self._cells[len(self._done) : len(self._done) + 1]
        if stopped and left and not self._ended:
            stopped = f"{stopped}, at cell {left[0][:64]}"
        last = list(self._done.values())[-1] if self._done else {}
        troubles = {cell: _text(message.get("trouble"), LONGEST_SAID) for cell, message in self._done.items()}
        outputs = {cell: self._outputs(message.get("outputs")) for cell, message in self._done.items()}
        return Run(
            answers=_texts(last.get("answers"), LONGEST_ENTRY),
            refusals=_texts(last.get("refusals"), LONGEST_SAID),
            troubles={cell: said for cell, said in troubles.items() if said},
            stopped=stopped,
            outputs={cell: shown for cell, shown in outputs.items() if shown},
        )

    def _outputs(self, found: object) -> list[dict]:
        """A cell's outputs, made anew from their parts."""
        made = []
        for one in found[:MOST_OUTPUTS] if isinstance(found, list) else ():
            if not isinstance(one, dict):
                continue
            longest, kind = self._limits.output_bytes + 100, one.get("output_type")
            if kind == "stream":
                name = "stderr" if one.get("name") == "stderr" else "stdout"
                made.append({"output_type": kind, "name": name, "text": _text(one.get("text"), longest)})
            elif kind == "error":
                lines = one.get("traceback")
                lines = [_text(line, longest) for line in lines[:100]] if isinstance(lines, list) else []
                name, value = _text(one.get("ename"), 200), _text(one.get("evalue"), LONGEST_SAID)
                made.append({"output_type": kind, "ename": name, "evalue": value, "traceback": lines})
            elif kind == "display_data" and isinstance(one.get("data"), dict):
                data = {"text/plain": _text(one["data"].get("text/plain"), longest)}
                data |= {kind: one["data"][kind] for kind in _MAGIC if self._is_picture(kind, one["data"].get(kind))}
                made.append({"output_type": kind, "data": data, "metadata": {}})
        return made

    def _is_picture(self, kind: str, text: object) -> bool:
        if not isinstance(text, str) or len(text) > self._limits.picture_bytes:
            return False
        try:
            return base64.b64decode("".join(text.split()), validate=True).startswith(_MAGIC[kind])
        except (binascii.Error, ValueError):
            return False


def _text(found: object, longest: int) -> str:
    """Text, cut; without what no file can hold (half a surrogate pair)."""
    return found[:longest].encode("utf-8", "replace").decode("utf-8") if isinstance(found, str) else ""


def _texts(found: object, longest: int) -> dict[str, str]:
    pairs = list(found.items())[:MOST_ANSWERS] if isinstance(found, dict) else ()
    return {key: _text(text, longest) for key, text in pairs if len(key) <= LONGEST_KEY and isinstance(text, str)}
