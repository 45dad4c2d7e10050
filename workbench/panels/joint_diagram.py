"""Panel: a clamped joint under an outside load; what does the bolt feel, and when does the joint open?"""

from workbench.entry import read
from workbench.exercises.exercise import Quantity
from workbench.panels.board import Board, Control, Pick, Refused, Shown
from workbench.screws.joint import bolt_load_n, clamp_left_n, opening_load_n
from workbench.screws.preload import below_yield_n
from workbench.screws.through_joint import through_joint
from workbench.threads.strength import bolt_loads

DIAMETER_MM, PITCH_MM, CLASS = 10, 1.5, "8.8"
PARTS = {"steel": "steel", "cast iron": "grey cast iron", "light alloy": "aluminium"}
FORCE = Quantity("kN", 0.1, (0, 200))
START = {"preload": 24, "load": 8, "grip": 40, "parts": "steel"}


def springs_of(values):
    """Bolt and clamped parts as two springs."""
    return through_joint("M10", values["grip"], PARTS[values["parts"]])


def joint_diagram():
    """The board: preload, outside load, grip, what the parts are made of."""
    drawing = None

    def moved(values, prediction):
        nonlocal drawing
        springs = springs_of(values)
        preload, load = 1000 * values["preload"], 1000 * values["load"]
        try:
            below_yield_n(preload, DIAMETER_MM, PITCH_MM, CLASS)
        except ValueError:
            raise Refused(f"A preload of {values['preload']:g} kN is over the yield of an M10 {CLASS} bolt.") from None
        bolt, clamp = bolt_load_n(preload, load, springs.share), clamp_left_n(preload, load, springs.share)
        opens = opening_load_n(preload, springs.share)
        if drawing is None:  # nothing is drawn before the prediction
            from workbench.drawings.joint_diagram import JointDiagram

            drawing = JointDiagram()
        drawing.show(values["grip"], springs, preload / 1000, load / 1000, clamp / 1000, bolt / 1000)
        if values == START:
            message = f"You said {prediction}, it is {bolt / 1000:.1f} kN. Now raise W until the joint opens."
        elif bolt > bolt_loads(DIAMETER_MM, PITCH_MM, CLASS).yield_n:
            message = f"An M10 {CLASS} bolt yields here." + ("" if clamp > 0 else " The joint is open.")
        elif clamp <= 0:
            message = "The joint is open: the bolt now carries the whole load, and every change of it."
        else:
            message = f"It opens at {opens / 1000:.1f} kN."
        share, rest = springs.share, 1 - springs.share
        why = (f"Share of the bolt C = k_bolt ÷ (k_bolt + k_parts) = {springs.bolt_n_per_mm / 1000:.0f} ÷ "
               f"({springs.bolt_n_per_mm / 1000:.0f} + {springs.parts_n_per_mm / 1000:.0f}) = {share:.3f}.\n")
        if clamp > 0:
            why += (f"Bolt = F + C × W = {preload / 1000:g} + {share:.3f} × {load / 1000:g} = {bolt / 1000:.1f} kN.\n"
                    f"Clamp left = F − (1 − C) × W = {preload / 1000:g} − {rest:.3f} × {load / 1000:g} "
                    f"= {clamp / 1000:.1f} kN.\n")
        return Shown(
            drawing.png(), drawing.text(),
            (("You said, at the start", prediction), ("The bolt feels", f"{bolt / 1000:.1f} kN"),
             ("Clamp left", f"{clamp / 1000:.1f} kN" if clamp > 0 else "none: open"),
             ("Share of the bolt C", f"{share:.2f}"), ("Opens at", f"{opens / 1000:.1f} kN")),
            message,
            why + f"It opens at F ÷ (1 − C) = {preload / 1000:g} ÷ {rest:.3f} = {opens / 1000:.1f} kN.\n"
            "The stiffer the parts against the bolt, the smaller C: W takes clamp away, little reaches the bolt. "
            "W is a load that acts at head and nut. "
            "Stiffness of the parts: two cones of pressure, half angle 30°.",
        )

    return Board(
        "What does the bolt feel?",
        "A bolt M10 clamps two steel plates, 40 mm together, with 24 kN. Now 8 kN pull the plates apart. How much "
        "pull is in the bolt then?",
        "Your prediction (kN)",
        (Control("preload", "Preload F", "kN", 4, 40, 1, START["preload"]),
         Control("load", "Load W that pulls apart", "kN", 0, 50, 1, START["load"]),
         Control("grip", "Grip: both plates", "mm", 16, 80, 2, START["grip"]),
         Pick("parts", "Plates of", tuple(PARTS), START["parts"])),
        lambda text: f"{read(text, FORCE, {}).value:g} kN", moved,
    )
