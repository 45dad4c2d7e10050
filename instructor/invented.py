"""Invented candidates for the demo: a small, fixed model of how each one answers; numbers, no names.

They belong to a made-up training bay that builds a hand-cranked sample hoist and a light-alloy instrument
case for a field weather station.
"""

from collections.abc import Mapping

from workbench.entry import NotRead, read
from workbench.exercises import of_lesson
from workbench.exercises.exercise import Designation, Exercise, Order, Quantity, letters
from workbench.marking import NOT_YET, judge
from workbench.threads.designation import parse, write

# one letter an item, repeated: R right, 1 2 3 that known misstep, U an unexplained wrong value, F a typing
# fault, E empty, C a slip where a later item builds on this one, carried forward there, else right
PATTERNS: Mapping[int, tuple[str, str]] = {
    1: ("all right", "R"),
    2: ("all right, decimal commas", "R"),
    3: ("one slip in four", "RR1R"),
    4: ("several known slips", "1R2R1"),
    5: ("slips early, carries them forward", "C"),
    6: ("carries forward, leaves some out", "CCRE"),
    7: ("typing faults", "RFRF"),
    8: ("wrong values that nobody can explain", "URU1"),
    9: ("handed in empty", "E"),
    10: ("the common slips", "1R1"),
    11: ("all right; deleted a check cell", "R"),
    12: ("all right; a cell of its own raises", "R"),
}


def answers(lesson: str, candidate: int, series: int, like: int | None = None) -> dict[str, str]:
    """What the candidate types for each item, by name; like: in the manner of which invented one (its own)."""
    like = like or candidate
    _, pattern = PATTERNS[like]
    typed: dict[str, str] = {}
    asked = of_lesson(lesson)
    built_on = {exercise.follows.name for exercise in asked if exercise.follows}
    for place, exercise in enumerate(asked):
        letter = pattern[place % len(pattern)]
        if letter == "C" and exercise.name in built_on and exercise.follows is None:
            letter = "1"
        earlier = typed.get(exercise.follows.name) if exercise.follows else None
        variant = exercise.variant(candidate, series)
        typed[exercise.name] = _text(exercise, variant, letter, earlier)
        if like == 2:
            typed[exercise.name] = typed[exercise.name].replace(".", ",")
    return typed


def _text(exercise: Exercise, variant, letter: str, earlier: str | None) -> str:
    if letter == "E":
        return ""
    if letter == "F":
        return "3.2.5 mmm" if isinstance(exercise.answer, Quantity) else "the first one"
    if letter == "C" and earlier:
        own = _carried(exercise, variant, earlier)
        if own is not None:
            return written(exercise, variant, own)
    if letter.isdecimal():
        awake = exercise.awake(variant)
        if awake:
            return written(exercise, variant, awake[(int(letter) - 1) % len(awake)][1])
    if letter == "U" and (text := _unexplained(exercise, variant)) is not None:
        return text
    return written(exercise, variant, exercise.right(variant))


def _carried(exercise: Exercise, variant, earlier: str):
    """The right value as it follows from the candidate's own earlier one, or None where there is none."""
    try:
        own = read(earlier, exercise.follows.answer, variant).value
        return exercise.right(exercise.carried(variant, own))
    except (NotRead, ValueError, ArithmeticError):
        return None


def _unexplained(exercise: Exercise, variant) -> str | None:
    """A wrong value that fits no known misstep, or None where every wrong one is known."""
    right = exercise.right(variant)
    if isinstance(exercise.answer, Quantity):
        step = max(exercise.answer.step, 2 * exercise.answer.tolerance(variant))
        candidates = [right + steps * step for steps in (7, 11, 13, 17, 23, 29)]
    elif isinstance(exercise.answer, Order):
        candidates = [tuple(reversed(right)), (*right[1:], right[0])]
    elif isinstance(exercise.answer, Designation):
        candidates = [parse("M64x4")]
    else:
        candidates = [name for name in variant["order"] if name != right]
    texts = [written(exercise, variant, value) for value in candidates]
    return next((text for text in texts if judge(exercise, variant, text).standing == NOT_YET), None)


def written(exercise: Exercise, variant, value) -> str:
    """A value as an apprentice types it: rounded to the asked figures with its unit, or letters."""
    if isinstance(exercise.answer, Quantity):
        kind = exercise.answer
        return f"{kind.rounded(value):.{kind.decimals}f} {kind.unit}".strip()
    if isinstance(exercise.answer, Designation):
        return write(value, show_pitch=True)
    letter = {name: one for one, name in letters(variant).items()}
    return " ".join(letter[name] for name in value) if isinstance(exercise.answer, Order) else letter[value]
