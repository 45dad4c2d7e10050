"""From an entry to a verdict. Pure: nothing is shown, stored or looked up elsewhere.

The same function judges in the lesson, in the marking run and on paper. Marks are given, never assumed:
what was not judged right earns nothing, but for the marks that a named slip keeps.
"""

import html
from collections.abc import Mapping
from dataclasses import dataclass
from string import Formatter

from workbench import exercises
from workbench.entry import NotRead, read
from workbench.exercises.exercise import Choice, Designation, Exercise, Order, Quantity, Variant
from workbench.unit_names import PRINTED

NOT_JUDGED = "not judged"
RIGHT = "right"
MISSTEP = "known misstep"
NOT_YET = "not yet"
CARRIED = "carried-forward"

# a word, a shape and a colour for each standing, so that none of the three is needed alone
SHAPES = {NOT_JUDGED: ("○", "#555555"), RIGHT: ("●", "#1b6e3c"), MISSTEP: ("◆", "#8a5a00"), NOT_YET: ("■", "#7a2048")}
MIME = "application/vnd.workbench.verdict+json"


@dataclass(frozen=True)
class Verdict:
    """What an entry earned and why.

    standing: "not judged", "right", "known misstep" or "not yet". marks: given, of out_of. tag: the
    misstep's tag, "carried-forward", or "". message: what the apprentice reads. read: the echo of the
    entry, or "". entry: the text judged. Its text form is the mark, its HTML form the message.
    """

    key: str
    standing: str
    marks: int
    out_of: int
    tag: str
    message: str
    read: str
    entry: str | None = None
    candidate: int | None = None

    def html(self) -> str:
        """The verdict as a block of HTML: word, shape and colour, the echo, the message."""
        echo = f"I read: <b>{html.escape(self.read.rstrip('.'))}</b>. " if self.read else ""
        return (
            f'<div role="status" style="border-left:6px solid {SHAPES[self.standing][1]};padding:.3em .8em">'
            f"{self.slip()}<br>{echo}{html.escape(self.message)}</div>"
        )

    def slip(self) -> str:
        """The verdict in one line of HTML: shape, word, marks."""
        shape, colour = SHAPES[self.standing]
        marks = "" if self.standing == NOT_JUDGED else f" · {self.marks} of {self.out_of}"
        return f'<b style="color:{colour}">{shape} {self.standing.capitalize()}{marks}</b>'

    def data(self) -> dict:
        """The verdict as plain data, for records."""
        return {
            "key": self.key,
            "candidate": self.candidate,
            "entry": self.entry,
            "read": self.read,
            "standing": self.standing,
            "tag": self.tag,
            "marks": self.marks,
            "out_of": self.out_of,
        }

    def _repr_mimebundle_(self, include=None, exclude=None) -> dict:
        return {"text/plain": str(self.marks), "text/html": self.html(), MIME: self.data()}


def judge(exercise: Exercise, variant: Variant, entry: str | None, earlier: str | None = None) -> Verdict:
    """Judge one entry.

    exercise: what was asked. variant: the candidate's numbers. entry: what was typed, or None.
    earlier: what the candidate typed for the exercise that this one follows, or None.
    Precedence: right, carried forward, known misstep, not yet. Validity comes before correctness: an
    entry that cannot be read is not judged.
    """

    def verdict(standing, marks=0, tag="", message="", echo=""):
        kept = entry[:200] if isinstance(entry, str) else None
        return Verdict(exercise.key, standing, marks, exercise.marks, tag, message, echo, kept)

    try:
        reading = read(entry, exercise.answer, variant)
    except NotRead as reason:
        return verdict(NOT_JUDGED, message=f"Nothing is lost: {reason}.")
    same, value, echo = exercise.answer.same, reading.value, reading.shown
    if same(value, exercise.right(variant), variant):
        return verdict(RIGHT, exercise.marks, message="Right.", echo=echo)
    carried = _carried(exercise, variant, earlier)
    if carried is not None and same(value, exercise.right(carried), carried):
        return verdict(RIGHT, exercise.marks, CARRIED, _CARRIED_MESSAGE, echo)
    for numbers in (variant, carried):
        if numbers is None:
            continue
        found = [misstep for misstep, wrong in exercise.awake(numbers) if same(value, wrong, numbers)]
        found += [misstep for misstep in exercise.missteps if misstep.covers and misstep.covers(value)]
        if found:
            misstep, said = found[0], {**numbers, "entry": echo}
            message = f"{filled(misstep.diagnosis, said)} Next: {filled(misstep.next_step, said)}"
            return verdict(MISSTEP, misstep.keeps, misstep.tag, message, echo)
    if isinstance(exercise.answer, Quantity):
        for tag, message in _general_slips(exercise.answer, value, exercise.right(variant), variant):
            return verdict(MISSTEP, tag=tag, message=f"{echo} {message}", echo=echo)
    return verdict(NOT_YET, message=_NOT_YET, echo=echo)


def judge_lesson(lesson: str, candidate: int, entries: Mapping[str, str | None], series: int = 1) -> dict[str, Verdict]:
    """Judge all the entries of one candidate in a lesson.

    entries: text by the answer's name; what is missing counts as nothing typed. Returns a verdict for
    every exercise of the lesson, by name, in the order asked.
    """
    found = {}
    for exercise in exercises.of_lesson(lesson):
        earlier = entries.get(exercise.follows.name) if exercise.follows else None
        found[exercise.name] = judge(exercise, exercise.variant(candidate, series), entries.get(exercise.name), earlier)
    return found


def question(exercise: Exercise, variant: Variant) -> str:
    """The question's text with the variant's numbers in it."""
    return filled(exercise.asks, variant)


def allowance(exercise: Exercise, variant: Variant) -> str:
    """How an answer is taken: its unit, its last figure and its tolerance, as printed beside the question."""
    kind = exercise.answer
    if isinstance(kind, Order):
        return "Type all the letters in order, such as b a d c."
    if isinstance(kind, Choice):
        return "Type one letter."
    if isinstance(kind, Designation):
        pitch = " Write the pitch too." if kind.with_pitch else ""
        return f"Type a call-out, as in M64x4-6g. Small x or ×, blanks or none: all are read.{pitch}"
    unit = PRINTED.get(kind.unit, kind.unit.replace("*", " ")) if kind.unit_given else ""
    tolerance = f"{kind.tolerance(variant):.6f}".rstrip("0").rstrip(".")
    figures = f"{kind.decimals} decimals" if kind.decimals != 1 else "1 decimal"
    wanted = f"Answer in {'inches' if unit == 'in' else unit}" if unit else "Answer with its unit"
    wanted = wanted if kind.unit else "Answer as a plain number"
    figures = figures if kind.decimals else "a whole number"
    return f"{wanted}, {figures}. Taken as right within ±{tolerance} {unit}".rstrip() + "."


def filled(text: str, variant: Variant) -> str:
    """A text with its {fields} filled in; a field that the variant lacks is a fault of the exercise."""
    return Formatter().vformat(text, (), variant)


def _general_slips(kind: Quantity, value: float, right: float, variant: Variant):
    """The slips that any quantity can show: a moved decimal point (or another unit), inch for mm, rounding early."""
    if right and any(kind.same(value * 10**power, right, variant) for power in (-3, -2, -1, 1, 2, 3)):
        yield (
            "decimal-point-moved",
            (
                "has the right figures, but the decimal point or the unit is off. "
                "Next: compare with something that you know. Should the number be larger or smaller?"
            ),
        )
    if right and kind.unit == "mm" and kind.same(value / 25.4, right, variant):
        yield (
            "inch-for-mm",
            "agrees with a number in mm that was given as inches. Next: which unit does the question ask for?",
        )
    if kind.decimals and abs(value - round(right, kind.decimals - 1)) < 1e-9:
        yield (
            "rounded-too-early",
            (
                "is close, but it was rounded too early. "
                f"Next: work it out again and keep {kind.decimals} decimals to the end."
            ),
        )


_NOT_YET = "It comes from none of the slips that I know. Open the first hint and go through it slowly."
_CARRIED_MESSAGE = "Right, worked from your own earlier value. Go back and look at that earlier value again."


def _carried(exercise: Exercise, variant: Variant, earlier: str | None) -> dict | None:
    """The variant with the candidate's own earlier value, or None where it may not be carried forward.

    It must be readable, physically possible, and leave the later question as hard as it was.
    """
    if exercise.follows is None or exercise.critical or earlier is None:
        return None
    before = exercise.follows.answer
    try:
        own = read(earlier, before, variant).value
    except NotRead:
        return None
    if isinstance(before, Quantity) and not _worth_carrying(before, own, variant, exercise.follows):
        return None
    carried = exercise.carried(variant, own)
    try:
        exercise.right(carried)
    except (ValueError, ArithmeticError, KeyError):
        return None
    return carried


def _worth_carrying(kind: Quantity, own: float, variant: Variant, before: Exercise) -> bool:
    """Possible, another value than the right one, and no rounder than it unless a known slip leads there."""
    low, high = kind.within
    if not low <= own <= high or own == 0 or kind.same(own, variant["earlier"], variant):
        return False
    if _decimals(own) >= _decimals(kind.rounded(variant["earlier"])):
        return True
    return any(kind.same(own, wrong, variant) for _, wrong in before.awake(variant))


def _decimals(value: float) -> int:
    return len(f"{value:.6f}".rstrip("0").split(".")[1])
