"""A question and a lesson's head as HTML: text, own numbers, picture, tolerance, hints."""

import base64
import html as markup
from importlib import import_module

from workbench import exercises, marking
from workbench.exercises.exercise import Choice, Exercise, letters
from workbench.session import Session

_FRAME = "line-height:1.45"
_TEXT = "max-width:46em"
_UNSET = (
    "<b>Whose numbers are these?</b> Your candidate number is not set. These are sample numbers, and no answer is "
    "judged yet. Type <code>candidate = 7</code> with your own number into the cell that the start page has for "
    "it, and run it. You work without an instructor? Type <code>candidate = 0</code>."
)

_NO_PICTURE = (
    '<p role="status">The picture of this question could not be drawn. This is our fault, not yours. '
    "Use the words of the question, or go on with the next one. Tell your instructor: {}.</p>"
)
MUST = "without it the lesson does not count as passed"
_RUN_ALL = "Run all by keyboard: press Escape, then Ctrl and A together, then Ctrl and Enter together."


def html(exercise: Exercise, session: Session) -> str:
    """One question with the numbers of the session's candidate."""
    variant = exercise.variant(session.candidate or 0, session.series)
    return "".join(
        [
            f'<div style="{_FRAME};border-top:2px solid #444;padding-top:.4em">',
            _label(exercise, session),
            f'<div style="{_TEXT}"><p>{_paragraphs(marking.question(exercise, variant))}</p></div>',
            "" if session.marking else _picture(exercise, variant),
            _options(exercise, variant),
            f"<p>{markup.escape(marking.allowance(exercise, variant))} {_how(exercise)}</p>",
            _hints(exercise, variant),
            "</div>",
        ]
    )


def head(lesson: str, session: Session) -> str:
    """The head of a lesson: whose numbers, how many marks, how to answer."""
    asked = exercises.of_lesson(lesson)
    marks = sum(exercise.marks for exercise in asked)
    whose = (
        _UNSET
        if session.candidate is None
        else f"<b>Candidate {session.candidate}.</b> The numbers below are yours alone."
        if session.candidate
        else "<b>Sample numbers</b> (candidate 0)."
    )
    judged = (
        "Each answer is judged as soon as you run its cell. Try as often as you like: no mark is taken off."
        if session.shows_verdicts
        else "Your answers are read now and judged after you hand in."
    )
    return (
        f'<div style="{_FRAME};{_TEXT}"><p>{whose}</p><p>{len(asked)} questions, {marks} marks. {judged}</p>'
        "<p>To answer: click behind the = sign, type, then press Shift and Enter together. "
        "No quotes are needed. A comma or a point may mark the decimals.</p><p>By keyboard: the up and down arrows go "
        "from box to box. Enter goes in, Escape comes out. In a panel, Tab leads on and out. "
        f"{_RUN_ALL}</p></div>"
    )


def marks_so_far(asked, verdicts, session: Session) -> str:
    """The marks so far, what is still open, and how the questions stand that must be right.

    asked, verdicts: the lesson's exercises and the present verdict on each, in order.
    """
    read = sum(verdict.standing != marking.NOT_JUDGED for verdict in verdicts)
    if not session.shows_verdicts:
        said = f"<b>{read} of {len(asked)} answers are read.</b> They are judged after you hand in."
        return f'<p style="{_FRAME}">{said}</p>'
    given, out_of = sum(verdict.marks for verdict in verdicts), sum(exercise.marks for exercise in asked)
    pairs = list(zip(asked, verdicts, strict=True))
    todo = ", ".join(
        str(number_of(exercise))
        for exercise, verdict in pairs
        if verdict.standing not in (marking.RIGHT, marking.NOT_JUDGED)
    )
    lines = [f"<b>{given} of {out_of} marks so far.</b> {read} of {len(asked)} questions are judged."]
    if todo:
        lines.append(f"Look again at question {todo}.")
    critical = [(number_of(exercise), verdict.standing) for exercise, verdict in pairs if exercise.critical]
    left = [str(number) for number, standing in critical if standing != marking.RIGHT]
    if left:
        many = len(left) > 1
        lines.append(
            f"Still to be right: safety question{'s' if many else ''} {', '.join(left)}. "
            f"Without {'them' if many else 'it'} the lesson does not count as passed."
        )
    elif critical:
        lines.append("All safety questions are right.")
    return f'<p style="{_FRAME};{_TEXT}">{" ".join(lines)}</p>'


def number_of(exercise: Exercise) -> int:
    """The question's number in its lesson, from 1."""
    return [known.key for known in exercises.of_lesson(exercise.lesson)].index(exercise.key) + 1


def _label(exercise: Exercise, session: Session) -> str:
    marks = f"{exercise.marks} mark{'s' if exercise.marks > 1 else ''}"
    must = f" · <b>safety: this one must be right; {MUST}</b>" if exercise.critical else ""
    whose = "number not set" if session.candidate is None else f"candidate {session.candidate}"
    return f"<p><b>Question {number_of(exercise)}</b> · {marks} · {whose}{must}</p>"


def _paragraphs(text: str) -> str:
    return "</p><p>".join(markup.escape(part).replace("\n", "<br>") for part in text.split("\n\n"))


def _picture(exercise: Exercise, variant) -> str:
    if exercise.shows is None:
        return ""
    try:
        name, arguments = exercise.shows(variant)
        png, alternative = import_module(f"workbench.drawings.{name}").picture(**arguments)
    except Exception:  # a fault of ours in one picture must not take the question away
        return _NO_PICTURE.format(markup.escape(exercise.key))
    data = base64.b64encode(png).decode()
    return f'<img src="data:image/png;base64,{data}" alt="{markup.escape(alternative)}" style="max-width:100%">'


def _options(exercise: Exercise, variant) -> str:
    if not isinstance(exercise.answer, Choice):
        return ""
    lines = [
        f"<br><b>{letter}</b>&ensp;{markup.escape(exercise.answer.options[name])}"
        for letter, name in letters(variant).items()
    ]
    return f"<p>{''.join(lines)[4:]}</p>"


def _how(exercise: Exercise) -> str:
    return f"Answer line: <code>{exercise.name} =</code>"


def _hints(exercise: Exercise, variant) -> str:
    block = ""
    for number, hint in reversed(list(enumerate(exercise.hints, 1))):
        inner = _paragraphs(marking.filled(hint, variant))
        block = f"<details><summary>Hint {number}</summary><p>{inner}</p>{block}</details>"
    return block
