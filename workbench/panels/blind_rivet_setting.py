"""Panel: a blind rivet is set, step by step, in section; where does its pin break?"""

from workbench.panels.board import Board, Control, Pick, Refused, Shown
from workbench.rivets.grip import grip_range
from workbench.rivets.setting import blind_rivet, pushed_in, set_rivet, volume_mm3

STANDARD = "ISO 15977"
RIVETS = {f"{body:g} × {length}": (body, length) for body, length in
          ((3.2, 8), (3.2, 10), (4, 8), (4, 10), (4, 12), (4.8, 10), (4.8, 12), (4.8, 16), (6.4, 20))}  # fmt: skip
ENDS = {"out": "stands out", "flush": "flush", "below": "below the top"}
ASKED = {"rivet": "4 × 10", "stack": 6.5, "over": 0.1, "pulled": 100}
FLUSH_MM = 0.05


def blind_rivet_setting():
    """The board: rivet, stack, hole, how far it is pulled."""
    drawing = None

    def moved(values, prediction):
        nonlocal drawing
        body, length = RIVETS[values["rivet"]]
        rivet, stack = blind_rivet(STANDARD, body, length), values["stack"]
        hole, pulled = round(body + values["over"], 3), values["pulled"] / 100
        try:
            before = pushed_in(rivet, stack, hole)
        except ValueError as reason:
            raise Refused(_plain(reason)) from None
        message, before_volume = "", volume_mm3(before.body)
        try:
            stage = set_rivet(rivet, stack, hole, pulled, broken=pulled == 1)
        except ValueError as reason:  # stands there unset, so that rivet, stack and hole can still be changed
            stage, message = before, f"Not set. {_plain(reason)}"
        if drawing is None:  # nothing is drawn before the prediction
            from workbench.drawings.blind_rivet import BlindRivetSetting

            drawing = BlindRivetSetting()
        drawing.show(rivet, stack, hole, stage)
        made = grip_range(STANDARD, body, length)
        if values == ASKED:
            message = f"You said: {prediction}. The pin ends {_end(stage.stub_mm)}."
        return Shown(
            drawing.png(), drawing.text(),
            (("You said, for 6.5 mm", prediction),
             ("Grips of this rivet", f"{made.least_mm:g} to {made.largest_mm:g} mm"),
             ("Stage", _stage(stage, message.startswith("Not set"), body)),
             ("Pin", _end(stage.stub_mm) if stage.broken else "whole")),
            message or ("Pull to 100 %." if pulled < 1 else "Now try a stack or a hole outside the range."),
            f"Metal of the body before: {before_volume:.1f} mm³, now: {volume_mm3(stage.body):.1f} mm³.\n"
            + (f"The mandrel head has travelled {stage.travel_mm:.1f} mm. That length went into tail and hole.\n"
               if stage.travel_mm else "")
            + (f"Notch length {rivet.notch_mm:.2f} mm, mandrel head to top of head "
               f"{rivet.notch_mm - stage.stub_mm:.2f} mm: the pin is {_end(stage.stub_mm)}.\n" if stage.broken else "")
            + "A thicker stack keeps the mandrel head further away, so the notch lies deeper. Assumed: tail 1.4 × "
            "body, and a notch placed to break flush at the least grip. Real tails are rounder.",
        )

    return Board(
        "Where does the pin break?",
        "A rivet 4 × 10 is set in a stack of 5 mm, its least grip. The pin breaks flush with the head. The same rivet "
        "is now set in a stack of 6.5 mm. Does the pin stand out of the head, is it flush, or does it end below? "
        "Predict, then pull.",
        "Your prediction: out, flush or below",
        (Pick("rivet", "Rivet: body × length (mm)", tuple(RIVETS), "4 × 10"),
         Control("stack", "Stack", "mm", 1, 14, 0.1, 6.5),
         Control("over", "Hole larger than the body by", "mm", 0.05, 0.5, 0.05, 0.1),
         Control("pulled", "Pulled", "%", 0, 100, 5, 0)),
        _predicted, moved,
    )


def _predicted(text):
    word = text.strip().strip("\"'.").casefold()
    if word not in ENDS:
        raise Refused(f"“{text.strip()[:40]}” is not one of the three; type out, flush or below")
    return ENDS[word]


def _end(stub_mm):
    if abs(stub_mm) < FLUSH_MM:
        return "flush"
    return f"{stub_mm:.1f} mm out" if stub_mm > 0 else f"{-stub_mm:.1f} mm below"


def _stage(stage, refused, body_mm):
    if refused:
        return "not set"
    if stage.broken:
        return "4: pin broken"
    if stage.shank_mm > body_mm:
        return "3: hole fills"
    return "2: tail grows" if stage.travel_mm else "1: pushed in"


def _plain(reason):
    """A refusal of the calculation in the words of the board."""
    said, _, cause = str(reason).replace("grip_mm = ", "Stack ").replace("hole_mm = ", "Hole ").partition("; ")
    return f"{said.replace(': must', ' mm: must', 1)}. {cause[:1].upper()}{cause[1:]}."
