"""Panel: type a call-out; the drawing dimensions itself, and every field is said in words."""

from workbench.entry import read
from workbench.exercises.exercise import Quantity
from workbench.panels.board import Board, Refused, Shown, Words
from workbench.threads.designation import NotACallOut, parse, write
from workbench.threads.explanation import explain, spoken
from workbench.threads.matching import thread_length_mm

ASKED = "M8x50"
PITCH = Quantity("mm", 0.01, (0, 40))


def call_out():
    """The board: one field, the call-out."""
    drawing = None

    def moved(values, prediction):
        nonlocal drawing
        try:
            one = parse(values["call_out"])
        except NotACallOut as reason:
            raise Refused(_sentence(reason)) from None
        if drawing is None:  # nothing is drawn before the prediction
            from workbench.drawings.call_out import CallOut

            drawing = CallOut()
        try:
            drawing.show(one, _thread_length(one))
        except ValueError as reason:
            raise Refused(f"This cannot be drawn: {reason}") from None
        fields = [f"{field.name}{f' “{field.written}”' if field.written else ''}: {field.meaning}." for field in
                  explain(one)]
        there, asked = write(one) == write(parse(ASKED)), parse(ASKED)
        if drawing.bracketed:
            fields.append("thread length: left out; the product standard (ISO 888) gives it, in brackets here.")
        return Shown(
            drawing.png(), drawing.text(),
            ((f"Pitch of {ASKED}", f"you said {prediction}, it has {asked.pitch_mm:g} mm"),
             ("Written", write(one)), ("Said", spoken(one)), ("Pitch", f"{one.pitch_mm:.4g} mm")),
            f"{ASKED}: you said {prediction}, the call-out says {one.pitch_mm:g} mm. Now type other call-outs." if there
            else "",
            "\n".join(fields),
        )

    return Board(
        "What does a call-out say?",
        f"A parts list of the sample hoist says {ASKED}. Which pitch does this screw have?",
        "Your prediction (mm)",
        (Words("call_out", "Type a call-out, for example M10x1.25x40 or 1/4-20 UNC-2A", ASKED),),
        lambda text: f"{read(text, PITCH, {}).value:g} mm", moved,
    )


def _sentence(reason):
    """The refusal with its place marked in what was typed."""
    text, place = reason.text[:60], reason.place
    if place >= len(text):
        where = f"after the last sign of “{text}”" if text.strip() else "at the very beginning"
    else:
        where = f"at sign {place + 1}: “{text[:place]}▸{text[place:]}”"
    return f"Not read, {where}. {reason.rule[:1].upper()}{reason.rule[1:]}; {reason.likely}."


def _thread_length(one):
    """Thread length of a part-threaded bolt where the call-out gives the length of the bolt alone."""
    if one.length_mm is None or one.full_thread or one.thread_length_mm is not None or one.form != "metric":
        return None
    try:
        return thread_length_mm(one.major_mm, one.length_mm)
    except ValueError:
        return None
