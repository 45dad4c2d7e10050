"""Panel of the measuring-screw lesson: predict the change of the gap, then turn the screw."""

from workbench.entry import read
from workbench.exercises.exercise import Quantity
from workbench.panels.board import Board, Control, Shown
from workbench.screws.measuring import METRIC, reading_of, scales_of, travel

START_MM, ASKED = 7.20, 65  # more than one turn: who takes a turn for a millimetre will see it
CHANGE = Quantity("mm", 0.01, (-25, 25))


def measuring_screw():
    """The board: two controls, turns and divisions; the reading and the change stand beside the prediction."""
    drawing, reached = None, False

    def predicted(text):
        nonlocal reached
        reached = False
        return f"{read(text, CHANGE, {}).value:g} mm"

    def moved(values, prediction):
        nonlocal drawing, reached
        if drawing is None:  # nothing is drawn before the prediction
            from workbench.drawings.measuring_screw import MeasuringScrew

            drawing = MeasuringScrew(METRIC)
        divisions = round(values["turns"] * METRIC.divisions + values["divisions"])
        change = travel(METRIC.pitch, divisions / METRIC.divisions)
        gap = METRIC.length_of(METRIC.steps_of(START_MM + change))
        drawing.show(gap)
        reached = reached or divisions == ASKED
        return Shown(
            drawing.png(), drawing.text(),
            ((f"You said, for {ASKED} divisions", prediction),
             (f"The screw says, for {divisions} divisions", f"{change:+.2f} mm"),
             ("Reading", f"{reading_of(scales_of(gap)):.2f} mm")),
            _message(divisions, reached, prediction, change),
            f"Change of the gap = pitch × turns = {METRIC.pitch:g} mm × {divisions}/{METRIC.divisions} "
            f"= {change:.2f} mm. Plus opens, minus closes." if reached else "",
        )

    return Board(
        "Turn the thimble",
        f"The screw has a pitch of {METRIC.pitch:g} mm and {METRIC.divisions} divisions on its thimble. "
        f"It stands at {START_MM:.2f} mm: thimble line 20 is at the datum. You open it by {ASKED} divisions. "
        "How far does the gap change?",
        "Your prediction (mm)",
        (Control("turns", "Whole turns", "turns", -12, 30, 1, 0),
         Control("divisions", "Divisions", "divisions", -49, 49, 1, 0)),
        predicted, moved,
    )


def _message(divisions, reached, prediction, change_mm):
    """What to do until the asked setting was reached once; there, the comparison; afterwards nothing."""
    if divisions == ASKED:
        return f"{ASKED} divisions are turned: you said {prediction}, the screw says {change_mm:.2f} mm."
    if reached:
        return ""
    if divisions > ASKED:
        return f"{divisions} divisions are turned, past {ASKED}: turn back by {divisions - ASKED}."
    return f"Turn on until {ASKED} divisions are turned."
