"""Panel: a row of rivets in a lap joint; which failure comes first as pitch, edge, sheet and rivet change?"""

from workbench.panels.board import Board, Control, Pick, Refused, Shown
from workbench.rivets.hole import metric_hole
from workbench.rivets.joint import Seam
from workbench.rivets.spacing import objections, row_of
from workbench.tables import table

SHEET, RIVET_SHEAR_MPA = "2024-T3", 207  # driven 2117 rivet: 30 ksi (MIL-HDBK-5 chapter 8)
DIAMETERS = ("2.5", "3", "4", "5", "6")
WORDS = {"A": "rivets sheared", "B": "plate crushed at the rivets", "C": "plate torn at row 1", "D": "edge torn out"}
SAID = {"rivets sheared": "the rivet is cut", "plate crushed at the rivets": "the sheet is crushed",
        "plate torn at row 1": "the sheet tears between the holes", "edge torn out": "the edge tears out"}
START = {"diameter": "4", "thickness": 1.0, "pitch": 24, "edge": 8}


def seam_of(values):
    """The seam that the controls describe."""
    sheet = table("sheet_strengths").row(SHEET)
    return Seam(
        metric_hole(values["diameter"]).hole_mm, values["thickness"], values["pitch"], (1,), shear_mpa=RIVET_SHEAR_MPA,
        tension_mpa=sheet["tension_mpa"], bearing_mpa=sheet["bearing_mpa"], edge_mm=values["edge"],
        edge_shear_mpa=sheet["shear_mpa"])  # fmt: skip


def rivet_row():
    """The board: rivet, sheet, pitch, edge."""
    drawing, seen = None, set()

    def moved(values, prediction):
        nonlocal drawing
        diameter = float(values["diameter"])
        try:
            seam = seam_of(values)
        except ValueError:
            hole = metric_hole(values["diameter"]).hole_mm
            raise Refused(f"Holes of {hole:g} mm need more room than a pitch of {values['pitch']:g} mm and an edge of "
                          f"{values['edge']:g} mm give.") from None
        if drawing is None:  # nothing is drawn before the prediction
            from workbench.drawings.rivet_row import RivetRow

            drawing = RivetRow()
        drawing.show(seam, diameter)
        failing, load = seam.weakest()
        seen.add(failing)
        long = row_of(2 * values["edge"] + 9 * values["pitch"], diameter, 10, values["edge"])
        against = "; ".join(objections(long)) or "pitch and edge are within its limits; it does not judge strength"
        message = f"First, {SAID[failing]}. " + (
            f"You said: {SAID[WORDS[prediction]]}." if values == START else
            "You have seen all four." if len(seen) == 4 else f"Find the others: {len(seen)} of 4 seen.")
        loads = seam.failures()
        strip, tension = seam.pitch_mm - seam.hole_mm, seam.tension_mpa
        return Shown(
            drawing.png(), drawing.text(),
            (("You said, at the start", SAID[WORDS[prediction]]),
             *((SAID[name][0].upper() + SAID[name][1:], f"{loads[name]:.0f} N") for name in WORDS.values()),
             ("Efficiency", f"{100 * seam.efficiency():.0f} %"), ("Army manual says", against)),
            message,
            "Each figure is for one rivet with its pitch of sheet. The smallest comes first.\n"
            "Sheet: alloy 2024-T3. Rivet: alloy 2117, driven. 1 MPa is 1 N on each mm².\n"
            f"Rivet cut: π/4 × {seam.hole_mm:g}² mm² × {seam.shear_mpa:g} MPa = {loads['rivets sheared']:.0f} N.\n"
            f"Sheet crushed: {seam.hole_mm:g} mm × {seam.thickness_mm:g} mm × {seam.bearing_mpa:g} MPa "
            f"= {loads['plate crushed at the rivets']:.0f} N.\n"
            f"Sheet torn: ({seam.pitch_mm:g} − {seam.hole_mm:g}) mm × {seam.thickness_mm:g} mm × {tension:g} MPa "
            f"= {strip:.1f} × {seam.thickness_mm:g} × {tension:g} = {loads['plate torn at row 1']:.0f} N.\n"
            f"Edge torn: 2 × ({seam.edge_mm:g} − {seam.hole_mm / 2:g}) mm × {seam.thickness_mm:g} mm × "
            f"{seam.edge_shear_mpa:g} MPa = {loads['edge torn out']:.0f} N.\n"
            f"Efficiency = smallest ÷ whole sheet = {load:.0f} N ÷ ({seam.pitch_mm:g} × {seam.thickness_mm:g} × "
            f"{tension:g}) N. A wide pitch leaves strong sheet between few rivets: a weak seam for its length.\n"
            "Values for learning; for work, the approved data count.",
        )

    return Board(
        "Which gives way first?",
        "Two sheets of light alloy 2024, 1 mm thick, overlap. A row of 4 mm rivets of alloy 2117 holds them. They "
        "stand 24 mm apart and 8 mm from the edge. The sheets are pulled until something gives. What? A: the rivet is "
        "cut. B: the sheet is crushed at the rivet. C: the sheet tears between the holes. D: the edge tears out.",
        "Your prediction: A, B, C or D",
        (Pick("diameter", "Rivet diameter (mm)", DIAMETERS, START["diameter"]),
         Control("thickness", "Each sheet", "mm", 0.4, 3, 0.1, START["thickness"]),
         Control("pitch", "Pitch p", "mm", 6, 60, 1, START["pitch"]),
         Control("edge", "Edge distance e", "mm", 3, 20, 0.5, START["edge"])),
        _which, moved,
    )


def _which(text):
    name = text.strip().strip("\"'").upper()
    if name not in WORDS:
        raise Refused(f"“{text.strip()[:40]}” is none of the four; type A, B, C or D")
    return name
