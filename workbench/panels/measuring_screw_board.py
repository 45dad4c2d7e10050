"""Explore board: what makes one division finer: pitch, starts or divisions?"""

from workbench.entry import read
from workbench.exercises.exercise import Quantity
from workbench.panels.board import Board, Control, Refused, Shown
from workbench.screws.measuring import division_value, travel

DIVISION = Quantity("mm", 0.001, (0, 10))
REACH_MM = 48
ASKED = {"pitch_mm": 2, "starts": 2, "dial": 100}


def measuring_screw_board():
    """The board: pitch, starts, divisions of the dial, divisions turned."""
    drawing, found = None, False

    def predicted(text):
        nonlocal found
        found = False  # a surprise is found, not told
        return f"{read(text, DIVISION, {}).value:g} mm"

    def moved(values, prediction):
        nonlocal drawing, found
        pitch_mm, turned = values["pitch_mm"], round(values["turned"])
        starts, dial = round(values["starts"]), round(values["dial"])
        way = travel(pitch_mm, turned / dial, starts)
        if way > REACH_MM:
            raise Refused(f"The nut would travel {way:.1f} mm, and its slide ends at {REACH_MM} mm. Turn back first.")
        if drawing is None:
            from workbench.drawings.feed_dial import FeedDial

            drawing = FeedDial()
        drawing.fit(pitch_mm, starts, dial)
        drawing.show(turned)
        one = division_value(pitch_mm, dial, starts)
        found = found or starts > 1
        asked = all(values[name] == value for name, value in ASKED.items())
        return Shown(
            drawing.png(),
            f"{drawing.text()} It stands at {way:.3f} mm. One division is worth {one:.4g} mm.",
            (("You said, for 2 mm, 2 starts, 100 divisions", prediction), ("One division now", f"{one:.4g} mm"),
             ("Travel of the nut", f"{way:.3f} mm")),
            f"Two starts: you said {prediction}, it is {one:.4g} mm." if asked
            else "" if found else "Set 2 starts and see whether your prediction holds.",
            f"One division = pitch × starts ÷ divisions = {pitch_mm:g} mm × {starts} ÷ {dial} = {one:.4g} mm.\n"
            f"Travel = one division × divisions turned = {one:.4g} mm × {turned} = {way:.3f} mm.\n"
            + ("More starts make it coarser: all starts climb side by side, so a turn moves pitch × starts. "
               if found else "")
            + "Next: the lesson “measuring screw”, or the dial of the lathe in your bay.",
        )

    return Board(
        "What makes a division finer?",
        "A feed screw has a pitch of 2 mm, one start, and 100 divisions on its dial: a division is 0.02 mm. "
        "The dial is read at the index, a mark that stands still. "
        "You fit a screw of the same pitch with two starts. What is a division worth then?",
        "Your prediction (mm)",
        (Control("pitch_mm", "Pitch", "mm", 0.5, 6, 0.25, 2),
         Control("starts", "Starts of the thread", "starts", 1, 4, 1, 1),
         Control("dial", "Divisions on the dial", "divisions", 20, 200, 5, 100),
         Control("turned", "Turn the dial by", "divisions", 0, 800, 1, 0)),
        predicted, moved,
    )
