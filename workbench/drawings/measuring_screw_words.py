"""The measuring screw with the words of the trade written on it: a picture glossary."""

from functools import lru_cache

from matplotlib.text import Annotation

from workbench.drawings.measuring_screw import THIMBLE_LENGTH, MeasuringScrew
from workbench.drawings.measuring_screw_parts import HUB_FACE
from workbench.drawings.sheet import DIMENSION, INK, NARROW
from workbench.screws.measuring import METRIC, reading_of

WORDS = ("frame", "face", "sleeve", "thimble", "ratchet", "whole lines", "half lines", "datum line")


class LabelledScrew:
    """A drawing of a metric measuring screw with leader lines; `show` moves it and its words."""

    def __init__(self, instrument=METRIC):
        self.drawing = MeasuringScrew(instrument)
        general, detail = self.drawing.general, self.drawing.detail
        views = (general, general, general, general, general, detail, detail, detail)
        self.labels = {word: self._label(view, word) for word, view in zip(WORDS, views, strict=True)}

    def _label(self, view, word):
        leader = {"arrowstyle": "-|>", "color": DIMENSION, "lw": NARROW, "shrinkA": 0, "shrinkB": 0}
        text = Annotation(
            word, (0, 0), (0, 0), xycoords="data", size=9, color=INK, ha="center", va="center", arrowprops=leader
        )
        return self.drawing.sheet.moving(view, text)

    def show(self, gap, work=None):
        """Move the screw to a gap (mm) that shows at least three whole lines, and the words with it."""
        drawing, ins = self.drawing, self.drawing.instrument
        drawing.show(gap, work)
        edge, lines = reading_of(drawing.scales, ins) - ins.start, drawing.scales
        # a line clear of the thimble's edge, and with no figure above it (figures stand at every fifth)
        whole = next(n for n in range(lines.main_lines - 1, 0, -1) if n % 5 in (2, 3))
        thimble = edge + 0.93 * THIMBLE_LENGTH
        face = drawing.anvil_mm + gap
        places = {  # word: (point shown, place of the word), mm
            "frame": ((drawing.anvil_mm - 5.7, -13.7), (drawing.anvil_mm + 5.5, -13.7)),
            "face": ((face, -2.6), (min(face + 7, HUB_FACE - 3.5), -7.4)),
            "sleeve": ((edge / 2 + 0.5, -6.2), (edge / 2 + 0.5, -10.7)),
            "thimble": ((thimble, -7.6), (thimble, -10.7)),
            "ratchet": ((edge + THIMBLE_LENGTH + 4.5, 4.0), (edge + THIMBLE_LENGTH + 5.5, 7.4)),
            "whole lines": ((whole, 1.9), (min(whole, edge - 2.3), 5.6)),  # clear of the thimble
            "half lines": ((whole + ins.pitch, -1.7), (whole - 1.0, -4.6)),
            "datum line": ((-2.6, -0.1), (-2.8, -4.6)),
        }
        for word, (point, place) in places.items():
            self.labels[word].xy = point
            self.labels[word].set_position(place)

    def png(self):
        """The picture as PNG bytes."""
        return self.drawing.png()

    def text(self):
        """What the scales show, in words, and which words stand on the picture."""
        return f"{self.drawing.text()} These parts are named: {', '.join(WORDS)}."


@lru_cache(maxsize=2)
def _drawing(instrument):
    return LabelledScrew(instrument)


def picture(gap, instrument=METRIC, work=None):
    """A still with the words on it: (PNG bytes, alternative text that does not state the reading)."""
    drawing = _drawing(instrument)
    drawing.show(gap, work)
    return drawing.png(), drawing.text()
