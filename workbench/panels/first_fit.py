"""Panel of the opening notebook: gauge the crank pin of the sample hoist and find the bush that fits."""

from workbench.panels.board import Board, Control, Refused, Shown
from workbench.screws.measuring import METRIC, reading_of, scales_of, travel

OPEN_MM, PIN_MM = 13.50, 12.37
BUSHES_MM = {"A": 12.30, "B": 12.40}  # bores
MOST_SQUEEZE_MM = 0.03
STANDS = {"free": "with the pin still loose", "touching": "just touching the pin", "squeezing": "squeezing the pin"}
LATER = "when it touches"


def first_fit():
    """The board: close the screw on the pin, feel it touch, read, and see which bush goes on."""
    drawing, feel = None, "free"

    def moved(values, prediction):
        nonlocal drawing, feel
        closed = travel(METRIC.pitch, values["turns"] + values["divisions"] / METRIC.divisions)
        gap = METRIC.length_of(METRIC.steps_of(OPEN_MM - closed))
        play = METRIC.steps_of(gap - PIN_MM)
        if METRIC.length_of(play) < -MOST_SQUEEZE_MM:
            raise Refused(f"Too far: the face meets the pin before that. The screw stays where it was, {STANDS[feel]}.")
        if drawing is None:
            from workbench.drawings.measuring_screw import MeasuringScrew

            drawing = MeasuringScrew(METRIC)
        drawing.show(gap, PIN_MM)
        feel = "free" if play > 0 else "touching" if play == 0 else "squeezing"
        added, fits = LATER, dict.fromkeys(BUSHES_MM, LATER)
        message = {"free": "The pin is loose between the faces. Close the screw further.",
                   "squeezing": "Too tight: the pin is squeezed. Open by a division or two."}.get(feel)
        if feel == "touching":
            seen = scales_of(gap)
            reading = reading_of(seen)
            half = " + 0.5 (half line)" if seen.sub_lines else ""
            parts = f"{seen.main_lines}{half} + 0.{seen.thimble_line:02d}"
            added = f"{parts} = {reading:.2f} mm"
            fits = {name: _fit(bore - reading) for name, bore in BUSHES_MM.items()}
            right = next(name for name, bore in BUSHES_MM.items() if bore > reading)
            message = f"It just touches. The pin is {reading:.2f} mm. Bush {right} fits; you said {prediction}."
        # all cards from the start: what comes later must not push the picture down
        lines = [("You said", f"bush {prediction}"), ("Feel", feel), ("Sleeve + thimble", added)]
        lines += [(f"Bush {name}, {bore:.2f} mm", fits[name]) for name, bore in BUSHES_MM.items()]
        return Shown(drawing.png(), drawing.text(), tuple(lines), message)

    return Board(
        "Your first fit: the crank pin of the sample hoist",
        "The pin must turn in a bush, with a little play. Two bushes lie in the bay: A has a bore of "
        f"{BUSHES_MM['A']:.2f} mm, B of {BUSHES_MM['B']:.2f} mm. A rule says the pin is a bit over 12 mm, which is not "
        "enough to choose. Guess first. Then close the screw on the pin until it just touches.",
        "Which bush will fit? Type A or B",
        (Control("turns", "Close by whole turns (0.5 mm each)", "turns", 0, 4, 1, 0),
         Control("divisions", "Close by divisions (0.01 mm each)", "divisions", 0, 49, 1, 0)),
        _which, moved,
    )


def _fit(play_mm):
    return f"fits, {play_mm:.2f} mm of play" if play_mm > 0 else f"too tight by {-play_mm:.2f} mm"


def _which(text):
    name = text.strip().strip("\"'").upper().removeprefix("BUSH").strip()
    if name not in BUSHES_MM:
        raise Refused(f"“{text.strip()[:40]}” is not one of the two bushes; type A or B")
    return name
