"""Explore board: which thread form pushes its nut outward least, and which way round?"""

from math import radians, tan

from workbench.entry import read
from workbench.exercises.exercise import Quantity
from workbench.panels.board import Board, Control, Pick, Shown
from workbench.threads.flank import radial_load_n
from workbench.threads.profile import profile

LOAD_N = 1000
PUSH = Quantity("N", 1, (0, 5000))
FORMS = {"metric 60°": "metric", "Acme 29°": "acme", "trapezoidal 30°": "trapezoidal",
         "buttress 3°/30°": "buttress 3/30", "buttress 7°/45°": "buttress 7/45", "square": "square"}
SIZES = {f"{major} × {pitch}": (major, pitch)
         for major, pitch in ((10, 2), (16, 3), (20, 4), (24, 5), (36, 6), (48, 8), (60, 9))}
WAYS = ("to the right", "to the left")


def thread_forms():
    """The board: form, size, starts, which way the load pushes the nut."""
    drawing = None

    def moved(values, prediction):
        nonlocal drawing
        form, (major, pitch), starts = FORMS[values["form"]], SIZES[values["size"]], round(values["starts"])
        away = values["load"] == WAYS[0]
        if drawing is None:  # nothing is drawn before the prediction
            from workbench.drawings.thread_forms import ThreadForms

            drawing = ThreadForms()
        drawing.show(form, major, pitch, starts, away)
        one = profile(form, major, pitch, starts)
        flank = one.flank_deg("load" if away else "clearance")
        push = radial_load_n(LOAD_N, flank)
        asked = form == "buttress 3/30" and away
        turned = form.startswith("buttress") and not away
        message = f"You said {prediction}, the flank says {push:.0f} N." if asked else ""
        if turned:
            message = f"The other flank carries now: {push:.0f} N. A buttress thread takes thrust one way only."
        return Shown(
            drawing.png(), drawing.text(),
            (("You said, for buttress 3°/30°", prediction),
             (f"Outward push of {LOAD_N} N", f"{push:.0f} N, {100 * push / LOAD_N:.1f} %"),
             ("Lead", f"{one.lead_mm:g} mm"), ("Lead angle", f"{one.lead_angle_deg:.2f}°"),
             ("Depth of engagement H₁", f"{one.engagement_mm:.3f} mm")),
            message or "Take the form “buttress 3°/30°”. Then let the load push the other way.",
            f"Outward push = load × tan(flank angle) = {LOAD_N} N × tan {flank:g}° = {push:.0f} N (without friction).\n"
            f"Lead = pitch × starts = {pitch:g} mm × {starts} = {one.lead_mm:g} mm.\n"
            f"Lead angle: tan = lead ÷ (π × d₂) = {one.lead_mm:g} mm ÷ (π × {one.pitch_diameter_mm:.3f} mm) "
            f"= {tan(radians(one.lead_angle_deg)):.4f}, so {one.lead_angle_deg:.2f}°.\n"
            "H₁: depth that screw and nut share. h₃: depth of the screw. d₂: pitch diameter. π d₂: the way round.\n"
            "The steeper a flank stands, the less it wedges the nut open. A split nut (half nut) must not be wedged "
            "open; a thin nut must not burst.",
        )

    return Board(
        "Which form pushes the nut outward least?",
        f"A metric thread carries {LOAD_N} N along its axis. Its flanks lean by 30°, so they also push the nut "
        "outward, with 577 N in all. You keep diameter and pitch, and take a buttress form. Its flank under load leans "
        "by 3° only. How much outward push is left?",
        "Your prediction (N)",
        (Pick("form", "Form", tuple(FORMS), "metric 60°"),
         Pick("size", "Diameter × pitch (mm)", tuple(SIZES), "20 × 4"),
         Control("starts", "Starts of the thread", "starts", 1, 4, 1, 1),
         Pick("load", "The load F pushes the nut", WAYS, WAYS[0])),
        lambda text: f"{read(text, PUSH, {}).value:g} N", moved,
    )
