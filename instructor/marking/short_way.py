"""Most notebooks only assign plain values to the asked names: their answers are read without running anything.

A notebook takes the short way only if nothing in it was changed but answer lines, and each of these is a
plain entry that the reading function takes as it stands, or one that no Python could take either. Whatever else
stands in it, an expression to be worked out, a cell of its own, an edited or a missing cell: it is run.

What is read here is what the run would have read: the answer cell is rewritten by the same function, and the
rewritten text is looked at, never executed.
"""

import ast
import warnings

from nbformat import NotebookNode

from instructor.marking.arriving import LONGEST_SAID
from instructor.marking.running import Run
from workbench import answer_line, exercises
from workbench.entry import NotRead, read

LONGEST_LINE = 300  # a longer one is no plain entry, and is not looked at here
MOST_LINES = 20


def read_only(notebook: NotebookNode, released: NotebookNode, findings: tuple[str, ...], candidate: int,
              series: int) -> Run | None:
    """What a run would leave, or None where the notebook must be run.

    notebook: the restored submission. released: its release. findings: what was not as released.
    """
    if findings:
        return None
    untouched = {cell.id: cell.source for cell in released.cells}
    answers: dict[str, str] = {}
    refusals: dict[str, str] = {}
    for cell in notebook.cells:
        marks = cell.metadata.get("nbgrader", {})
        if cell.cell_type != "code" or marks.get("locked") or marks.get("grade"):
            continue
        if not marks.get("solution"):
            if cell.source.strip() and untouched.get(cell.id) != cell.source:
                return None
            continue
        found = _entry(cell.source, candidate, series)
        if found is None:
            return None
        key, text, reason = found
        answers.pop(key, None)
        refusals.pop(key, None)
        if reason is None:
            answers[key] = text
        else:
            refusals[key] = reason[:LONGEST_SAID]
    return Run(answers=answers, refusals=refusals)


def _entry(source: str, candidate: int, series: int) -> tuple[str, str, str | None] | None:
    """An answer cell's key, its entry, and why it is not read (or None); None where it must be run."""
    lines = source.strip("\n").split("\n")
    if len(lines) > MOST_LINES or not all(line.isprintable() and len(line) <= LONGEST_LINE for line in lines):
        return None
    key = answer_line.item_of(source)
    if key is None:
        return None
    name = key.split(".")[1]
    # only comments and answer lines, from the very start of a line: nothing that the shell itself would act on
    if any(line and line[0] != "#" and not line.lower().startswith(name) for line in lines):
        return None
    called = _called(answer_line.rewritten(source, key), key)
    if called is None:
        return None
    does, text = called
    if does == "hand_back":
        return key, "", text
    exercise = exercises.find(key)
    try:
        read(text, exercise.answer, exercise.variant(candidate, series))
    except NotRead as reason:
        return None if _is_expression(text) else (key, "", str(reason))
    return key, text, None


def _called(code: str, key: str) -> tuple[str, str] | None:
    """What a rewritten answer cell calls, and with which text; None unless that one call is all of it."""
    for does, begin in (("answer", f"{key.split('.')[1]} = {answer_line.CALL}.answer({key!r}, "),
                        ("hand_back", f"{answer_line.CALL}.hand_back({key!r}, ")):
        if not code.startswith(begin):
            continue
        try:
            text = ast.literal_eval(code[len(begin):].removesuffix(")\n"))
        except (SyntaxError, ValueError, TypeError, RecursionError, MemoryError):
            return None
        # letter by letter what the rewriting makes of this text, so there is nothing else in it
        if isinstance(text, str) and code == f"{begin}{text!r})\n":
            return does, text
    return None


def _is_expression(text: str) -> bool:
    """True where Python could work something out of the text: then it is run."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # Python warns of texts such as 3x, and nobody is to be told
        try:
            ast.parse(text.strip(), mode="eval")
        except (SyntaxError, ValueError, RecursionError, MemoryError):
            return False
    return True
