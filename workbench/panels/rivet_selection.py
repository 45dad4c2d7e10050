"""Panel: sheets, load, access and finish give a solid rivet, drawn before and after driving, with every refusal."""

from workbench.entry import read
from workbench.exercises.exercise import Quantity
from workbench.panels.board import Board, Control, Pick, Refused, Shown
from workbench.rivets.length import formed_width_mm, wanted_length_mm
from workbench.rivets.selection import Job, select
from workbench.rivets.size import trade_diameter_mm

LENGTH = Quantity("mm", 0.1, (0, 60))
NEEDS = {"head may stand up": {}, "head must be flush": {"flush": True}, "one side only": {"access": "one"}}
START = {"upper": 1.0, "lower": 1.6, "load": 500, "needs": next(iter(NEEDS))}


def _reasons(title, found):
    """One line: alternatives with their reasons, those with the same reason together."""
    by_reason = {}
    for name, reason in found.items():
        by_reason.setdefault(reason, []).append(name)
    return f"{title}: " + "; ".join(f"{', '.join(names)}: {reason}" for reason, names in by_reason.items()) + "."


def rivet_selection():
    """The board: both sheets, load on one rivet, what is needed."""
    drawing = None

    def moved(values, prediction):
        nonlocal drawing
        sheets = (values["upper"], values["lower"])
        found = select(Job(sheets, load_n=values["load"], **NEEDS[values["needs"]]))
        one = found.rivet
        if one is None:
            wanted = trade_diameter_mm(sheets)
            near = sorted(found.diameters, key=lambda size: abs(float(size) - wanted))[:2]
            raise Refused(f"No solid rivet: {found.why_none}. "
                          + " ".join(f"{size} mm: {found.diameters[size]}." for size in near))
        if drawing is None:  # nothing is drawn before the prediction
            from workbench.drawings.rivet_selection import RivetSelection

            drawing = RivetSelection()
        width = formed_width_mm(one.length.stands_out_mm, one.formed.target_height_mm, one.grip_mm, one.diameter_mm,
                                one.hole.hole_mm)
        drawing.show(one, sheets, width, values["load"])
        wanted = wanted_length_mm(one.grip_mm, one.diameter_mm)
        message = ""
        if values == START:
            stands = one.length.stands_out_mm / one.diameter_mm
            message = (f"You said {prediction}. {one.grip_mm:g} + 1.5 × {one.diameter_mm:g} = {wanted:g} mm; the "
                       f"nearest made has {one.length.length_mm:g} mm: {stands:.2f} D stand out, within the band. "
                       "D is 4 mm: 5 lies nearer to 3 t = 4.8 mm, but over it, where the Navy manual stops.")
        measured = "over all" if one.head.flush else "under the head"
        return Shown(
            drawing.png(), drawing.text(),
            (("You said, for 1.0 + 1.6 mm", prediction),
             ("Rivet", f"{one.size} × {one.length.length_mm:g} mm {measured}"), ("Head", one.head.kind),
             ("Alloy", one.alloy + (", soft from the store" if one.heat_treat else "")),
             ("Hole", f"{one.hole.hole_mm:g} mm" + (f", {one.let_in}" if one.let_in else "")),
             ("Weight", f"{one.mass_g:.2f} g")),
            message,
            f"Length = grip + 1.5 D = {one.grip_mm:g} + 1.5 × {one.diameter_mm:g} = {wanted:g} mm.\n"
            + "\n".join((_reasons("Sizes not taken (mm)", found.diameters), _reasons("Heads not taken", found.heads),
                         _reasons("Alloys not taken", found.alloys)))
            + "\nA start for learning. For work, the approved data come first.",
        )

    return Board(
        "Which rivet, and how long?",
        "A light-alloy case: an upper sheet of 1.0 mm, a lower one of 1.6 mm. A rivet of 4 mm with a standing head "
        "joins them. How long must its shank be, so that there is enough for the formed head?",
        "Your prediction (mm, under the head)",
        (Control("upper", "Sheet under the made head", "mm", 0.5, 4, 0.1, START["upper"]),
         Control("lower", "Sheet under the formed head", "mm", 0.5, 4, 0.1, START["lower"]),
         Control("load", "Load on one rivet", "N", 0, 8000, 100, START["load"]),
         Pick("needs", "Needs", tuple(NEEDS), START["needs"])),
        lambda text: f"{read(text, LENGTH, {}).value:g} mm", moved,
    )
