"""Panel: one turn of thread unrolled; does the load run back, and what does the hand need?"""

import math

from workbench.entry import read
from workbench.exercises.exercise import Quantity
from workbench.panels.board import Board, Control, Pick, Refused, Shown
from workbench.panels.thread_forms import FORMS, SIZES
from workbench.screws.power import efficiency_of, holding, raising_torque_nmm
from workbench.screws.power_drive import hand_force_n
from workbench.threads.flank import friction_angle_deg
from workbench.threads.profile import profile

LOAD_N, HANDLE_MM = 5000, 200
STARTS = Quantity("", 1, (1, 8))
START = {"form": "trapezoidal 30°", "size": "20 × 4", "starts": 1, "friction": 0.12}


def inclined_thread():
    """The board: form, size, starts, friction."""
    drawing, seen = None, set()

    def moved(values, prediction):
        nonlocal drawing
        major, pitch = SIZES[values["size"]]
        one = profile(FORMS[values["form"]], major, pitch, round(values["starts"]))
        friction, flank = values["friction"], one.flank_deg("load")
        try:
            torque = raising_torque_nmm(LOAD_N, one, friction)
        except ValueError:
            raise Refused("With this lead and friction no torque turns the thread.") from None
        held, slope = holding(one, friction), friction_angle_deg(friction, flank)
        if drawing is None:  # nothing is drawn before the prediction
            from workbench.drawings.inclined_thread import InclinedThread

            drawing = InclinedThread()
        turn = math.pi * one.pitch_diameter_mm
        drawing.show(turn, one.lead_mm, slope, LOAD_N / 1000)
        share, hand = 100 * efficiency_of(LOAD_N, one.lead_mm, torque), hand_force_n(torque, HANDLE_MM)
        usual = all(values[name] == START[name] for name in ("form", "size", "friction"))
        message = held.says
        if usual and held.standing == "runs back":
            first = next(starts for starts in range(1, 9)
                         if holding(profile(one.form, major, pitch, starts), friction).standing == held.standing)
            message = f"You said {prediction} starts; it first runs back with {first}. {held.says}"
        elif values == START and not seen:
            message = "Raise the number of starts until the load runs back."
        seen.add(held.standing)
        return Shown(
            drawing.png(), drawing.text(),
            (("You said, it first runs back with", f"{prediction} starts"),
             ("Lead angle, friction angle", f"{one.lead_angle_deg:.2f}°, {slope:.2f}°"),
             (f"Hand at {HANDLE_MM} mm, to raise", f"{hand:.0f} N"), ("Efficiency", f"{share:.0f} %"),
             ("Left alone", held.standing)),
            message,
            "µ: coefficient of friction. d₂: mean diameter of the thread. The block is the nut, the ramp the screw.\n"
            f"Lead angle: tan = lead ÷ (π × d₂) = {one.lead_mm:g} ÷ {turn:.2f} = {one.lead_mm / turn:.4f}, so "
            f"{one.lead_angle_deg:.2f}°.\n"
            f"Friction angle: tan = µ ÷ cos(flank angle) = {friction:g} ÷ cos {flank:g}° = "
            f"{math.tan(math.radians(slope)):.4f}, so {slope:.2f}°.\n"
            f"To raise: F × tan({one.lead_angle_deg:.2f}° + {slope:.2f}°) × d₂ ÷ 2 = {LOAD_N} N × "
            f"{math.tan(math.radians(one.lead_angle_deg + slope)):.4f} × {one.pitch_diameter_mm / 2:.2f} mm = "
            f"{torque / 1000:.2f} N m. Collar left out.\n"
            f"Hand = {torque / 1000:.2f} N m ÷ {HANDLE_MM / 1000:g} m = {hand:.0f} N.\n"
            "Where the lead angle is the larger one, the load runs back. Where it is the smaller one, the load stays "
            "only while nothing shakes and nobody oils.",
        )

    return Board(
        "When does the load run back?",
        f"A jack screw Tr20 × 4 carries {LOAD_N / 1000:g} kN. The thread rubs with µ = 0.12. More starts lift faster. "
        "With how many starts does the load first turn the screw back by itself, when the hand lets go?",
        "Your prediction (a number of starts)",
        (Pick("form", "Form", tuple(FORMS), START["form"]),
         Pick("size", "Diameter × pitch (mm)", tuple(SIZES), START["size"]),
         Control("starts", "Starts", "starts", 1, 4, 1, START["starts"]),
         Control("friction", "Friction µ in the thread", "", 0.02, 0.3, 0.01, START["friction"])),
        lambda text: f"{read(text, STARTS, {}).value:g}", moved,
    )
