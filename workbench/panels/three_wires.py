"""Panel: a screw measured over three wires: how the reading goes with the wire, and where the wire touches."""

from workbench.entry import read
from workbench.exercises.exercise import Quantity
from workbench.panels.board import Board, Control, Pick, Refused, Shown
from workbench.threads.profile import profile
from workbench.threads.three_wires import best_wire, lead_correction, over_wires, touches_at, usable_wires

GROWTH = Quantity("mm", 0.01, (0, 5))
FORMS = {"metric 60°": "metric", "Acme 29°": "acme", "trapezoidal 30°": "trapezoidal",
         "buttress 7°/45°": "buttress 7/45", "square": "square"}
PITCHES = ("0.5", "0.75", "1", "1.25", "1.5", "1.75", "2", "2.5", "3", "4", "5", "6", "8", "10", "12")
START = {"form": "metric 60°", "major_mm": 10, "pitch_mm": "1.5"}
FINEST = 48  # diameter over pitch that can still be seen
THICKER_MM = 0.1  # asked for: by how much does the reading grow?


def three_wires():
    """The board: form, diameter, pitch, and by how much the wires are thicker than the best ones."""
    drawing = None

    def moved(values, prediction):
        nonlocal drawing
        form, major, pitch = FORMS[values["form"]], values["major_mm"], float(values["pitch_mm"])
        if form == "square":
            raise Refused("A square thread cannot be measured over wires: its flanks give a wire no slope to lie on. "
                          "Pick another form.")
        if major / pitch > FINEST:
            raise Refused(f"A pitch of {pitch:g} mm on {major:g} mm is too fine to be seen here. Take a coarser pitch "
                          "or a smaller diameter.")
        try:
            one = profile(form, major, pitch)
            flanks = one.flank_deg("load"), one.flank_deg("clearance")
            best = best_wire(pitch, *flanks)
            wire = best + values["thicker_mm"]
            if drawing is None:  # nothing is drawn before the prediction
                from workbench.drawings.three_wires import ThreeWires

                drawing = ThreeWires()
            drawing.show(form, major, pitch, wire)
            tilt = lead_correction(one.pitch_diameter_mm, wire, pitch, *flanks)
        except ValueError as reason:
            raise Refused(_sentence(reason)) from None
        reading = over_wires(one.pitch_diameter_mm, wire, pitch, *flanks)
        grown = reading - over_wires(one.pitch_diameter_mm, best, pitch, *flanks)
        least, most = usable_wires(pitch, one.screw_crest_mm, *flanks)
        thicker, at_start = values["thicker_mm"], {**values, **START} == values
        message = f"M grows {grown / thicker:.2f} times as much as the wire." if thicker else ""
        if at_start and thicker == THICKER_MM:
            message = (f"You said {prediction}, the reading grows by {grown:.2f} mm: three times {THICKER_MM:.2f} mm. "
                       "Now pick other forms.")
        elif at_start and not thicker:
            message = f"Make the wires thicker by {THICKER_MM:.2f} mm."
        return Shown(
            drawing.png(), f"{drawing.text()} M is {reading:.3f} mm, the wire {wire:.3f} mm thick.",
            ((f"You said, for {THICKER_MM:.2f} mm thicker", prediction),
             ("Measurement over wires M", f"{reading:.3f} mm"),
             ("M against best wires", f"{grown:+.3f} mm".replace("-", "−")), ("Wire W", f"{wire:.3f} mm"),
             ("Best wire", f"{best:.3f} mm"), ("Least to largest wire", f"{least:.3f} to {most:.3f} mm"),
             ("Contact, from the pitch line", _where(touches_at(wire, pitch, *flanks)))),
            message, _why(one, wire, reading, flanks, tilt),
        )

    return Board(
        "What does a thicker wire do to the reading?",
        "A screw M10 × 1.5 lies on three wires. They are the best wires, 0.866 mm thick, and touch at the pitch line. "
        f"You take three wires that are each {THICKER_MM:.2f} mm thicker. By how much does the measurement M over the "
        "wires grow?",
        "Your prediction (mm)",
        (Pick("form", "Form", tuple(FORMS), START["form"]),
         Control("major_mm", "Diameter over the crests", "mm", 3, 64, 1, START["major_mm"]),
         Pick("pitch_mm", "Pitch (mm)", PITCHES, START["pitch_mm"]),
         Control("thicker_mm", "Wire thicker than the best (minus: thinner)", "mm", -2, 5, 0.01, 0)),
        lambda text: f"{read(text, GROWTH, {}).value:g} mm", moved,
    )


def _where(heights):
    """How far outside the pitch line a wire touches; one figure where both flanks agree, else the steep flank first."""
    said = [f"{high:+.3f}".replace("-", "−") for high in heights]
    if said == ["+0.000"] * 2 or said == ["−0.000"] * 2:
        return "on it"
    return f"{said[0]} mm" if said[0] == said[1] else f"{said[0]}, {said[1]} mm"


def _why(one, wire, reading, flanks, tilt):
    """The formula with the present numbers."""
    basis, pitch = one.pitch_diameter_mm, f"{one.pitch_mm:g}"
    if flanks[0] == flanks[1]:
        angle = f"{flanks[0]:g}°"
        formula = (f"M = d₂ + W × (1 + 1 ÷ sin {angle}) − P ÷ (2 × tan {angle})",
                   f"= {basis:.3f} + {wire:.3f} × (1 + 1 ÷ sin {angle}) − {pitch} ÷ (2 × tan {angle})")
    else:
        a, b = (f"{angle:g}°" for angle in flanks)
        mean, half = (f"{abs(flanks[0] + way * flanks[1]) / 2:g}°" for way in (1, -1))
        formula = (f"M = d₂ + W × (1 + cos {half} ÷ sin {mean}) − P ÷ (tan {a} + tan {b})",
                   f"= {basis:.3f} + {wire:.3f} × (1 + cos {half} ÷ sin {mean}) − {pitch} ÷ (tan {a} + tan {b})")
    return (f"{formula[0]}\n{formula[1]} = {reading:.3f} mm.\n"
            + ("Here 1 ÷ sin 30° = 2, so W counts three times, and 1 ÷ (2 × tan 30°) = 0.866.\n" if flanks == (30, 30)
               else "The steeper the flanks, the more a wire lifts the reading.\n")
            + f"The wires lie a little aslant, along the thread. That adds {tilt:.3f} mm, which is left out here.")


def _sentence(reason):
    """A refusal in the words of the panel."""
    text = str(reason)
    if text.startswith("tangent of the lead angle"):
        return "This thread is steeper than 15°: too steep for wires. Take a finer pitch or a larger diameter."
    return text.replace("pitch_mm = ", "Pitch ").replace(".0:", " mm").replace(":", " mm").replace("wire ", "Wire ", 1)
