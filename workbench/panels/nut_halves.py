"""Panel: a nut in halves closes on its screw; which forms let it in, and can it take up wear?"""

from workbench.entry import read
from workbench.exercises.exercise import Quantity
from workbench.panels.board import Board, Control, Pick, Refused, Shown
from workbench.screws.half_nut import closing, closing_for_mm, entry_window_mm, spreading_force_n
from workbench.threads.profile import profile

MAJOR_MM, PITCH_MM, THRUST_N = 20, 4, 1000
FORMS = {"trapezoidal 30°": "trapezoidal", "Acme 29°": "acme", "buttress 3°/30°": "buttress 3/30", "square": "square"}
CLOSING = Quantity("mm", 0.01, (0, 5))
START = {"form": "trapezoidal 30°", "out": 0, "wrong": 0, "play": 0.1}


def nut_halves():
    """The board: form, each half out or in, screw standing wrong, wear."""
    drawing = None

    def moved(values, prediction):
        nonlocal drawing
        one = profile(FORMS[values["form"]], MAJOR_MM, PITCH_MM)
        out, wrong, worn = values["out"], values["wrong"], values["play"]
        window, depth = entry_window_mm(one), one.engagement_mm
        gives = window / depth  # axial play for each mm that a half moves: the two tangents together
        play = worn + gives * out
        if out < -one.crest_clearance_mm - 1e-9:
            raise Refused(f"Crest and root touch at −{one.crest_clearance_mm:g} mm: closing further closes no flank.")
        if play < -gives * 0.005 - 1e-9:  # half a step of the slider: the flanks just touch
            raise Refused(f"The flanks touch already: {worn:g} mm of play are gone at −{worn / gives:.2f} mm.")
        play = max(0.0, play)
        if out < depth and wrong > (worn + window) / 2 + 1e-9:
            raise Refused(f"Crest stands on crest: {wrong:g} mm wrong is more than {(worn + window) / 2:.2f} mm. "
                          "Shift the screw first.")
        if out < depth and wrong > play / 2 + 1e-9:
            raise Refused(f"The flanks meet at {(2 * wrong - worn) / gives:.2f} mm out: then the half pushes the screw "
                          "into its place.")
        if drawing is None:  # nothing is drawn before the prediction
            from workbench.drawings.nut_halves import NutHalves

            drawing = NutHalves()
        drawing.show(one, out, wrong, worn)
        try:
            needed = closing_for_mm(worn, one)
            take_up = f"each half closes by {needed:.2f} mm"
        except ValueError:
            needed, take_up = None, "not by closing"
        spread, allowed = spreading_force_n(THRUST_N, one), closing(one)
        asked = values["form"] == START["form"] and worn == START["play"]
        message = allowed.says
        if values == START:
            message = "Close the halves (below 0) until the play is gone."
        elif asked and needed is not None and play < 0.01:
            message = f"The play is gone. You said {prediction}, it is {needed:.2f} mm: the flank leans."
        angles = " + ".join(f"tan {one.flank_deg(side):g}°" for side in ("load", "clearance"))
        return Shown(
            drawing.png(), drawing.text(),
            (("You said, for Tr20 × 4", prediction), ("Play now", f"{play:.3f} mm"),
             ("To take up the wear", take_up), ("A crest finds its groove within", f"± {window / 2:.2f} mm"),
             (f"Latch of each half, {THRUST_N} N thrust", f"{spread:.0f} N")),
            message,
            f"Closing a half by s takes up s × ({angles}) = s × {gives:.4f} of play along the screw.\n"
            + (f"For {worn:g} mm: {worn:g} ÷ {gives:.4f} = {worn / gives:.3f} mm each half; the crest clearance allows "
               f"{one.crest_clearance_mm:g} mm.\n" if gives else "Square flanks: nothing.\n")
            + f"The same slope pushes the halves apart: {THRUST_N} N × tan {one.flank_deg('load'):g}° ÷ π = "
            f"{spread:.0f} N on each latch (two full halves, no friction).",
        )

    return Board(
        "What do sloping flanks do for a half nut?",
        "The nut of a lead screw Tr20 × 4 is made in two halves. It is worn: there is 0.1 mm of play along the screw. "
        "How far must each half close, until the play is gone?",
        "Your prediction (mm)",
        (Pick("form", "Form", tuple(FORMS), START["form"]),
         Control("out", "Each half out (+) or in (−)", "mm", -0.3, 4, 0.01, START["out"]),
         Control("wrong", "Screw stands wrong by", "mm", 0, 2, 0.05, START["wrong"]),
         Control("play", "Play that has worn in", "mm", 0, 0.3, 0.02, START["play"])),
        lambda text: f"{read(text, CLOSING, {}).value:g} mm", moved,
    )
