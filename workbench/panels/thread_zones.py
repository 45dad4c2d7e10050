"""Panel: the tolerance zones of a metric screw and its nut, and the clearance that they leave."""

from workbench.entry import read
from workbench.exercises.exercise import Quantity
from workbench.panels.board import Board, Pick, Refused, Shown, Words
from workbench.threads.designation import NotACallOut, parse

CLEARANCE = Quantity("um", 1, (0, 5000))
SCREWS, NUTS = ("6g", "6h", "6e", "4h", "8g"), ("6H", "5H", "7H", "6G", "4H")


def thread_zones():
    """The board: size, class of the screw, class of the nut."""
    drawing = None

    def moved(values, prediction):
        nonlocal drawing
        size = _size(values["size"])
        if drawing is None:  # nothing is drawn before the prediction
            from workbench.drawings.thread_zones import ThreadZones

            drawing = ThreadZones()
        try:
            drawing.show(*size, values["screw"], values["nut"])
        except ValueError as reason:  # what the standard does not give
            raise Refused(str(reason).replace("tolerance_class = ", "").replace("'", "").replace(":", "", 1)) from None
        screw, nut, between = drawing.limits["screw"], drawing.limits["nut"], drawing.fit
        least, most = round(1000 * between.least), round(1000 * between.most)
        asked = (*size, values["screw"], values["nut"]) == (10, 1.5, "6g", "6H")
        return Shown(
            drawing.png(), drawing.text(),
            (("You said, M10 6H/6g", prediction), ("Least clearance", f"{least} µm"),
             ("Greatest clearance", f"{most} µm")),
            f"You said {prediction}, the limits say {most} µm. Now look for a pair that may have no play at all."
            if asked else "The tightest pair just touches: no play." if not least else "",
            f"Greatest = highest nut − lowest screw = {nut.pitch.high:.3f} mm − {screw.pitch.low:.3f} mm = {most} µm.\n"
            f"Least = lowest nut − highest screw = {nut.pitch.low:.3f} mm − {screw.pitch.high:.3f} mm = {least} µm.\n"
            "All at the pitch diameter. A figure says how wide the zone is, a letter where it begins: h and H at the "
            "basic size; g, e and G away from it, towards more play.",
        )

    return Board(
        "How loose may a good pair be?",
        "A screw M10 has the class 6g, its nut 6H: the usual pair, new and within limits. How much play, on the "
        "diameter, may the loosest such pair have at the flanks (at the pitch diameter)?",
        "Your prediction (µm; 1 µm = 0.001 mm)",
        (Words("size", "Type a metric thread, for example M10 or M10x1.25", "M10"),
         Pick("screw", "Class of the screw", SCREWS, "6g"), Pick("nut", "Class of the nut", NUTS, "6H")),
        lambda text: f"{read(text, CLEARANCE, {}).value:g} µm", moved,
    )


def _size(text):
    """Diameter and pitch of a metric thread as typed."""
    try:
        one = parse(text)
    except NotACallOut as reason:
        raise Refused(f"Thread: {reason}") from None
    if one.form != "metric":
        raise Refused(f"Thread: “{text[:40]}” is no metric thread; type one such as M10 or M10x1.25")
    return one.major_mm, one.pitch_mm
