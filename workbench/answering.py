"""Answer cells in a kernel: what is typed is read, echoed and judged each time the cell runs.

IPython loads this module in every kernel of the environment (workbench/kernel). A cell that begins with
`# Answer lesson.name`, or that JupyterLab sends with that item's id, is an answer cell (so is one that holds
nothing but an answer line of the lesson, whose first line somebody deleted): its line
`name = …` is rewritten, before Python sees it, to a call that reads the rest of the line as text, so that
`travel = 3.25 mm` needs no quotes. Before each run the item's earlier entry is forgotten: no verdict is
ever given on a value left over from an earlier run.
"""

import ast
import difflib
import html
import re

from workbench import session
from workbench.entry import NotRead, as_text, read

_MARK = re.compile(r"^\s*#\s*Answer\s+(?P<key>\w+\.\w+)\s*$", re.I | re.M)
_CANDIDATE = re.compile(r"\s*(?:#.*\n\s*)*candidate\s*=\s*(?P<text>.*?)\s*", re.I)
_entries: dict[str, str] = {}
_refusals: dict[str, str] = {}
_asked_of: dict[str, tuple] = {}  # whose numbers the question was last shown with, by key


def load_ipython_extension(shell):
    """Make answer cells readable in this shell; a second call changes nothing."""
    if getattr(shell, "_workbench_reads_answers", False):
        return
    shell._workbench_reads_answers = True
    shell.input_transformers_cleanup.append(_Reader(shell))
    shell.events.register("pre_run_cell", lambda info: _forget(info.raw_cell, shell))
    shell.set_custom_exc((Exception,), _plain_words)


def answers() -> dict[str, str]:
    """What was read in this kernel: the entry's text by the exercise's key."""
    return dict(_entries)


def refusals() -> dict[str, str]:
    """Why an entry was not read in this kernel: the reason by the exercise's key; for the marking run."""
    return dict(_refusals)


def answer(key: str, text: str):
    """Read, keep, echo and judge one entry; called by a rewritten answer cell.

    Returns what the answer's name then stands for: a number in the asked unit, or the text.
    """
    from workbench import exercises

    exercise = exercises.find(key)
    variant = session.variant(exercise)
    _forget_entry(key)
    try:
        entry = _evaluated(text, exercise.answer, variant)
        reading = read(entry, exercise.answer, variant)
    except NotRead as reason:
        _refusals[key] = str(reason)
        _show(_verdict(exercise))
        return None
    _entries[key] = entry
    verdict = _verdict(exercise)
    session.log(verdict)
    _show(verdict)
    return reading.value if isinstance(reading.value, float) else entry


def hand_back(key: str, reason: str):
    """Say why nothing was read from an answer cell; called by a rewritten answer cell."""
    from workbench import exercises

    _forget_entry(key)
    _refusals[key] = reason
    _show(_verdict(exercises.find(key)))


def candidate(text: str) -> int | None:
    """Set whose numbers are asked, once for the whole copy of the course; called by a rewritten cell."""
    try:
        number = int(text.strip(" '\""))
        session.set_candidate(number)
    except ValueError as error:
        reason = "type your number" if not text else f"“{text}” is not a candidate number ({error})"
        _display(f"<p role='status'>Not set: {html.escape(reason)}. Example: <code>candidate = 7</code></p>")
        return None
    whose = f"Candidate {number}. All lessons now ask with your own numbers." if number else "Sample numbers."
    _display(
        f"<p role='status'>I read: <b>{number}</b>. {whose} Lessons already open: run them again from the top.</p>"
    )
    return number


def check(key: str):
    """The verdict on what the answer cell above holds now: the result of a check cell."""
    from workbench import exercises

    _ready()
    return _verdict(exercises.find(key))


def solution(key: str) -> str:
    """The right answer as an apprentice would type it; for the authored lessons only."""
    from workbench import exercises
    from workbench.exercises.exercise import Order, Quantity, letters

    exercise = exercises.find(key)
    variant = session.variant(exercise)
    right = exercise.right(variant)
    if isinstance(exercise.answer, Quantity):
        return f"{right:.{exercise.answer.decimals}f} {exercise.answer.unit}".strip()
    named = {name: letter for letter, name in letters(variant).items()}
    return " ".join(named[name] for name in right) if isinstance(exercise.answer, Order) else named[right]


def ask(key: str):
    """Show a question with the candidate's own numbers, its picture, its tolerance and its hints."""
    from workbench import exercises, question_sheet

    _ready()
    now = session.current()
    _display(question_sheet.html(exercises.find(key), now))
    _asked_of[key] = (now.candidate, now.series)


def start(lesson: str):
    """Show the head of a lesson: whose numbers these are, how it is marked, how to answer."""
    from workbench import question_sheet

    _ready()
    _display(question_sheet.head(lesson, session.current()))


class _Reader:
    """The input hook: rewrites the lines of an answer cell, leaves all others alone."""

    has_side_effects = False

    def __init__(self, shell):
        self.shell = shell

    def __call__(self, lines: list[str]) -> list[str]:
        source = "".join(lines)
        if found := _CANDIDATE.fullmatch(source):
            return [f"candidate = {_CALL}.candidate({found['text']!r})\n"]
        key = item_of(source, _sent_item(self.shell))
        return lines if key is None else rewritten(source, key).splitlines(keepends=True)


def item_of(source: str, sent: str | None = None) -> str | None:
    """The key of the item that a cell answers, or None for a cell that is no answer cell.

    source: the cell's text. sent: the item's key as the front end sent it with the cell, if it did.
    """
    from workbench import exercises

    found = _MARK.search(source)
    key = found["key"].lower() if found else sent or _named_item(source)
    if key is None:
        return None
    try:
        return exercises.find(key).key
    except ValueError:
        return None


def _named_item(source: str) -> str | None:
    """The key of the present lesson's item whose answer line is all that a cell holds, or None."""
    lines = [line for line in source.splitlines() if line.strip() and not line.lstrip().startswith("#")]
    found = re.match(r"\s*(\w+)\s*=(?!=)", lines[0]) if len(lines) == 1 else None
    lesson = session.current().lesson if found else None
    return f"{lesson}.{found[1].lower()}" if lesson else None


def rewritten(source: str, key: str) -> str:
    """The text of an answer cell as Python runs it: its other lines, then the call that reads the answer.

    An answer cell in which no single answer line is found becomes a call that hands it back.
    """
    name = key.split(".")[1]
    line_of = re.compile(rf"^\s*{name}\s*(?:=|:(?=[^=]))\s*(?P<text>.*)$", re.I)
    others, texts = [], []
    for line in source.splitlines():
        found = line_of.match(line)
        if found:
            texts.append(re.sub(r"\s+#\s.*$", "", found["text"]).strip())
        elif line.strip() and not line.lstrip().startswith("#"):
            others.append(line)
    typed = [text for text in texts if text]
    reason = None
    if len(typed) > 1:
        reason = f"there are {len(typed)} lines that begin with {name} =; keep the one that you stand by"
    elif not texts:
        reason = _no_answer_line(name, others)
    elif not _is_python("\n".join(others)):
        first = next(line for line in others if not _is_python(line)) if len(others) == 1 else others[0]
        reason = f"beside the answer stands “{first.strip()[:40]}”; keep only the line {name} = …"
    if reason is not None:
        return f"{_CALL}.hand_back({key!r}, {reason!r})\n"
    return "\n".join([*others, f"{name} = {_CALL}.answer({key!r}, {(typed or [''])[0]!r})"]) + "\n"


_WHOSE = (
    "Not judged, nothing lost: your candidate number is not set. In any cell type candidate = and your number "
    "(0 if you work alone), run it, then run this cell again."
)
_OTHERS = (
    "Not judged, nothing lost: the question above was shown with other numbers than yours. "
    "Choose Run all at the top, look at the question again, then answer."
)
_CALL = "__import__('importlib').import_module('workbench.answering')"


def _no_answer_line(name: str, others: list[str]) -> str:
    if not others:
        return f"the answer line is gone: type {name} = and then your answer"
    typed = others[0].strip()
    word = re.match(r"\w+(?=\s*=)", typed)
    if word and difflib.get_close_matches(word[0].lower(), [name], cutoff=0.5):
        return f"the line begins with “{word[0]}”; the name here is {name}: type {name} = and then your answer"
    return f"no line begins with {name} =; type it as {name} = {re.sub(r'^[^=]*=', '', typed).strip()[:40]}"


def _is_python(text: str) -> bool:
    try:
        ast.parse(text)
    except (SyntaxError, ValueError, RecursionError, MemoryError):
        return False
    return True


def _evaluated(text: str, kind, variant) -> str | None:
    """The entry as text; a Python expression is worked out first when it cannot be read as it stands."""
    try:
        read(text, kind, variant)
        return text
    except NotRead as reason:
        try:
            tree = ast.parse(text.strip(), mode="eval").body
        except (SyntaxError, ValueError, RecursionError, MemoryError):
            raise reason from None
        if not isinstance(tree, ast.Name | ast.BinOp | ast.UnaryOp | ast.Call | ast.Attribute | ast.Subscript):
            raise reason from None
        try:
            value = eval(compile(ast.Expression(tree), "<answer>", "eval"), _namespace())  # noqa: S307
        except NameError as error:
            raise NotRead(f"{error}: in this session nobody has set it yet. {reason}") from None
        except Exception as error:
            raise NotRead(f"working out “{text[:40]}” stopped: {type(error).__name__}: {error}") from None
        return as_text(value)


def _namespace() -> dict:
    shell = _shell()
    return shell.user_ns if shell else {}


def _shell():
    from IPython import get_ipython

    return get_ipython()


def _ready():
    shell = _shell()
    if shell is not None:
        load_ipython_extension(shell)


def _forget(source: str, shell):
    key = item_of(source, _sent_item(shell))
    if key is not None:
        _forget_entry(key)
        _refusals[key] = "the answer cell stopped before its answer line; look at what it says there"


def _forget_entry(key: str):
    _entries.pop(key, None)
    _refusals.pop(key, None)


def _sent_item(shell) -> str | None:
    """The key of the item that JupyterLab names with the cell being run, if it names one."""
    kernel = getattr(shell, "kernel", None)
    try:
        sent = kernel.get_parent("shell")["metadata"]["nbgrader"]
    except (AttributeError, KeyError, TypeError):
        return None
    lesson = session.current().lesson
    if not sent.get("solution") or lesson is None:
        return None
    return f"{lesson}.{sent.get('grade_id')}"


def _verdict(exercise):
    from dataclasses import replace

    from workbench import marking

    now = session.current()
    earlier = _entries.get(exercise.follows.key) if exercise.follows else None
    verdict = marking.judge(exercise, session.variant(exercise), _entries.get(exercise.key), earlier)
    if now.candidate is None:
        verdict = replace(verdict, standing=marking.NOT_JUDGED, marks=0, tag="", message=_WHOSE)
    elif _asked_of.get(exercise.key, (now.candidate, now.series)) != (now.candidate, now.series):
        verdict = replace(verdict, standing=marking.NOT_JUDGED, marks=0, tag="", message=_OTHERS)
    elif verdict.standing == marking.NOT_JUDGED:
        reason = _refusals.get(exercise.key, f"run the cell that begins “{exercise.name} =” first")
        verdict = replace(verdict, message=f"Not judged, nothing lost: {reason}.")
    verdict = replace(verdict, candidate=now.candidate)
    return verdict if now.shows_verdicts else Sealed(verdict)


class Sealed:
    """A verdict that is not shown before the work is handed in."""

    def __init__(self, verdict):
        self.verdict = verdict
        self.standing, self.tag = "read", ""

    def html(self) -> str:
        """What the apprentice sees: that the entry was read, or why it was not."""
        from workbench import marking

        if self.verdict.standing == marking.NOT_JUDGED:
            return self.verdict.html()
        return f"<div role='status'>I read: <b>{html.escape(self.verdict.read)}</b>. Read, not yet judged.</div>"

    def data(self) -> dict:
        """The entry without its verdict."""
        return {name: self.verdict.data()[name] for name in ("key", "candidate", "entry", "read")}

    def _repr_mimebundle_(self, include=None, exclude=None) -> dict:
        from workbench import marking

        return {"text/plain": "read, not yet judged", "text/html": self.html(), marking.MIME: self.data()}


def _show(verdict):
    _display(verdict.html())


def _display(block: str):
    from IPython.display import HTML, display

    display(HTML(block))


def _plain_words(shell, kind, error, trace, tb_offset=None):
    """A cell that stopped, in one plain sentence instead of a traceback."""
    where = getattr(error, "lineno", None)
    place = f" in line {where}" if where else ""
    likely = "Is this an answer? Type it in the answer cell, behind its = sign."
    if isinstance(error, NameError):
        likely = "A name must be set before it is used: run the cells above first (menu Run, Run All Above)."
    lines = [f"This cell stopped{place}: {kind.__name__}: {error}", f"{likely} Nothing that you typed is lost."]
    shell._showtraceback(kind, error, lines)
