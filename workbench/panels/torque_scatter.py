"""Panel: ten screws, one torque; how far do their preloads spread, by friction and by tool?"""

import math

from workbench.entry import read
from workbench.exercises.exercise import Quantity
from workbench.panels.board import Board, Control, Pick, Shown
from workbench.screws.preload import class_at_yield_n
from workbench.screws.scatter import friction_range
from workbench.screws.torque import long_form, preload_n
from workbench.tables import table
from workbench.threads.profile import profile

DIAMETER_MM, PITCH_MM, SCREWS = 10, 1.5, 10
SURFACES = {"waxed": "A", "oiled": "B", "dry": "C"}
# largest error of the torque: ISO 6789 for a tested wrench (from memory); the others are common practice, no source
TOOLS = {"torque wrench, tested (± 4 %)": 0.04, "torque wrench, untested (± 10 %)": 0.10, "by feel (± 30 %)": 0.30}
RATIO = Quantity("", 0.1, (1, 20))
START = {"torque": 32, "surface": "oiled", "tool": next(iter(TOOLS)), "class": "8.8"}


def _sizes():
    """Pitch diameter of the thread and mean diameter of the turning face, in mm."""
    face, hole = table("hexagon_sizes").row("M10")["face_mm"], table("iso_273_clearance_holes").row("M10")["medium"]
    return profile("metric", DIAMETER_MM, PITCH_MM).pitch_diameter_mm, (face + hole) / 2


def torque_scatter():
    """The board: torque, surface, tool, property class."""
    drawing = None

    def moved(values, prediction):
        nonlocal drawing
        low, high = friction_range(SURFACES[values["surface"]])
        error, torque = TOOLS[values["tool"]], values["torque"]
        middle, face = _sizes()

        def preload_kn(torque_nm, friction):
            return preload_n(1000 * torque_nm, PITCH_MM, middle, friction, face, friction) / 1000

        frictions = (low, (low + high) / 2, high)
        per_kn = [long_form(1000, PITCH_MM, middle, one, face, one).total_nmm / 1000 for one in frictions]
        preloads = []
        for n in range(SCREWS):  # from most friction and least torque to the other end
            part = n / (SCREWS - 1)
            preloads.append(preload_kn(torque * (1 - error + 2 * error * part), high - (high - low) * part))
        limit = class_at_yield_n(DIAMETER_MM, PITCH_MM, values["class"], low) / 1000
        if drawing is None:  # nothing is drawn before the prediction
            from workbench.drawings.torque_scatter import TorqueScatter

            drawing = TorqueScatter()
        drawing.show(torque, error, per_kn, frictions, limit, preloads)
        ratio = preloads[-1] / preloads[0]
        if values == START:
            message = f"You said {prediction}, it is {ratio:.1f} times. Now change the tool, then the surface."
        elif preloads[-1] > limit:
            message = "The tightest screw would be past 90 % of its yield: too much torque for this surface."
        else:
            message = f"{ratio:.1f} times. The surface spreads more than the wrench." if error < 0.2 else (
                f"{ratio:.1f} times: hand and surface together.")
        return Shown(
            drawing.png(), drawing.text(),
            (("You said, at the start", prediction), ("Tightest ÷ slackest", f"{ratio:.1f} times"),
             ("Slackest screw", f"{preloads[0]:.1f} kN"), ("Tightest screw", f"{preloads[-1]:.1f} kN"),
             ("90 % of yield", f"{limit:.1f} kN")),
            message,
            "Preload = torque ÷ (0.159 P + µ × 0.577 d₂ + µ × Dₖ ÷ 2). Here the thread and the face rub alike.\n"
            "P: pitch. d₂: pitch diameter of the thread. Dₖ: mean diameter of the face that turns. "
            "µ: coefficient of friction, rubbing force ÷ pressing force.\n"
            f"0.159 P = {PITCH_MM / (2 * math.pi):.3f} mm, 0.577 d₂ = {middle / math.sqrt(3):.2f} mm, "
            f"Dₖ ÷ 2 = {face / 2:.2f} mm.\n"
            f"Slackest: {torque * (1 - error):.1f} N m ÷ {per_kn[2]:.3f} mm = {preloads[0]:.1f} kN (µ {high:.2f}).\n"
            f"Tightest: {torque * (1 + error):.1f} N m ÷ {per_kn[0]:.3f} mm = {preloads[-1]:.1f} kN (µ {low:.2f}).\n"
            "A torque wrench measures torque. It does not measure clamp. Same surface, same oil, clean threads: that "
            "narrows the fan. Friction classes as in VDI 2230, from memory; for work, the maker's figures count.",
        )

    return Board(
        "Same torque, same clamp?",
        "Ten oiled screws M10 are all tightened to 32 N m with a tested torque wrench. Friction differs a little from "
        "screw to screw. How many times as hard does the tightest clamp as the slackest?",
        "Your prediction (times, such as 1.2)",
        (Control("torque", "Torque", "N m", 5, 100, 1, START["torque"]),
         Pick("surface", "Threads and faces", tuple(SURFACES), START["surface"]),
         Pick("tool", "Tightened with", tuple(TOOLS), START["tool"]),
         Pick("class", "Property class", ("5.6", "8.8", "10.9"), START["class"])),
        lambda text: f"{read(text, RATIO, {}).value:g} times", moved,
    )
