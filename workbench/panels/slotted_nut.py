"""Panel: a slotted nut turns past the hole; can the next slot be reached, and what does the preload do?"""

from workbench.entry import read
from workbench.exercises.exercise import Quantity
from workbench.panels.board import Board, Control, Pick, Refused, Shown
from workbench.screws.preload import of_proof_n
from workbench.screws.slot_chance import chance, mean_tries
from workbench.screws.slotted_nut import eased_play_mm, nut, turn_to_slot_deg, window_deg
from workbench.screws.through_joint import through_joint
from workbench.screws.turning import preload_gain_n
from workbench.threads.strength import bolt_loads

PAST_DEG, CLASS, LEAST, GREATEST = 22, "8.8", 0.60, 0.75  # shares of the proof load: the torque window of this panel
JOINTS = {"clamped: holds still": "clamped", "turning: hinge or bearing": "turning"}
TURN = Quantity("deg", 1, (0, 360))
START = {"joint": next(iter(JOINTS)), "thread": "M12", "grip": 40, "turn": 0}


def slotted_nut():
    """The board: kind of joint, thread, grip, turn of the nut."""
    drawing, met = None, set()

    def moved(values, prediction):
        nonlocal drawing
        kind, thread, turn = JOINTS[values["joint"]], values["thread"], values["turn"]
        row = nut(thread)
        diameter, pitch, slots = row["diameter_mm"], row["pitch_mm"], int(row["slots"])
        springs = through_joint(thread, values["grip"])
        least, greatest = (of_proof_n(diameter, pitch, CLASS, share) for share in (LEAST, GREATEST))
        most = bolt_loads(diameter, pitch, CLASS).yield_n
        wanted = turn_to_slot_deg(kind, PAST_DEG, slots)
        slope = preload_gain_n(1, pitch, springs) if kind == "clamped" else 0.0
        preload = least + slope * turn if slope else 0.0
        if slope and turn < 0:
            raise Refused("A clamped joint is never backed off to a slot: its clamp would go.")
        if slope and preload > most:
            raise Refused(f"The bolt would yield (stretch for good): {preload / 1000:.1f} kN at {turn:g}° are over "
                          f"{most / 1000:.1f} kN. Neither on nor back: change the washer or the nut.")
        if not slope and turn > 0:
            raise Refused("A joint that must turn is run snug, then eased back to the slot. Tighter, and it binds.")
        if drawing is None:  # nothing is drawn before the prediction
            from workbench.drawings.slotted_nut import SlottedNut

            drawing = SlottedNut()
        drawing.show(thread, PAST_DEG, turn, preload, (least, greatest, most), slope)
        if drawing.at_hole and preload <= greatest:
            met.add(kind)
        if kind == "clamped":
            window = window_deg(least, greatest, pitch, springs)
            share = chance(window, slots, drawing.play_deg)
            lines = (("Preload now", f"{preload / 1000:.1f} kN"), ("Torque window", f"{window:.1f}° of turn"),
                     ("Chance of a slot in it", f"{100 * share:.0f} %"),
                     ("Tries, on average", f"{mean_tries(share):.1f}"))
            why = (f"A degree moves the nut by P ÷ 360 = {pitch:g} mm ÷ 360 = {1000 * pitch / 360:.2f} µm. Bolt and "
                   f"plates give {springs.together_n_per_mm / 1000:.0f} N/µm: {slope / 1000:.2f} kN a degree.\n"
                   f"To the next slot: 360° ÷ {slots} − {PAST_DEG}° = {wanted:g}°, or {pitch * wanted / 360:.3f} mm. "
                   f"The bolt would gain {slope * wanted / 1000:.0f} kN.\n"
                   f"Window: from {least / 1000:.1f} to {greatest / 1000:.1f} kN, {window:.1f}°. A slot comes every "
                   f"{360 // slots}°; the pin forgives {drawing.play_deg:.1f}°. Chance = ({window:.1f} + "
                   f"{drawing.play_deg:.1f}) ÷ {360 // slots} = {share:.2f}. Tries = 1 ÷ chance.\n"
                   "So: another washer or another nut, and try again.\n"
                   "Yield: the bolt stretches for good. Here in plain pull; tightening twists as well.")
        else:
            play = eased_play_mm(PAST_DEG, pitch, slots)
            lines = (("Preload now", "none: snug"), ("Eased to the slot by", f"{-wanted:g}°"),
                     ("Play that it leaves", f"{play:.3f} mm"))
            why = (f"Back to the slot that has just gone past: {PAST_DEG}°. Play = P × {PAST_DEG} ÷ 360 = {pitch:g} mm "
                   f"× {PAST_DEG} ÷ 360 = {play:.3f} mm.\nA hinge or bearing has its own rule; the maker's data count.")
        return Shown(
            drawing.png(), drawing.text(),
            (("You said, for a clamped M12", prediction), ("Slot at the hole", "yes" if drawing.at_hole else "no"),
             ("Turned on", f"{turn:g}°, {pitch * turn / 360:.3f} mm".replace("-", "−")), *lines),
            _message(kind, drawing.at_hole, met, preload > greatest) or
            f"You said {prediction}, the slots say {wanted:g}° to the next slot. "
            "Now find out whether the bolt allows it.", why)

    return Board(
        "The slot that will not line up",
        f"A slotted nut M12 has just reached its least torque. Its last slot has gone past the hole by {PAST_DEG}°. "
        "The nut has six slots. How far must a nut that clamps be turned on, until the next slot stands at the hole? "
        "Then try it.",
        "Your prediction (degrees)",
        (Pick("joint", "Kind of joint", tuple(JOINTS), START["joint"]),
         Pick("thread", "Thread", ("M8", "M10", "M12", "M16", "M20"), START["thread"]),
         Control("grip", "Grip of steel plates", "mm", 10, 120, 2, START["grip"]),
         Control("turn", "Turn of the nut, + tightens", "°", -60, 70, 1, START["turn"])),
        lambda text: f"{read(text, TURN, {}).value:g}°", moved,
    )


def _message(kind, at_hole, met, too_tight):
    if at_hole and too_tight:
        return "The slot stands at the hole, but past the greatest preload: not permitted."
    if at_hole:
        return "The slot stands at the hole: the pin goes in." + (
            " A long thin bolt forgives a turn; a short one does not." if len(met) == 2 else "")
    if kind == "turning":
        return "Ease the nut back until a slot stands at the hole."
    return "Past the greatest preload: this is outside the torque window." if too_tight else ""
