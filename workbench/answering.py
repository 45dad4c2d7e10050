"""Answer cells in a kernel: what is typed is read, echoed and judged each time the cell runs.

IPython loads this module in every kernel of the environment (workbench/kernel). A cell that begins with
`# Answer lesson.name`, or that JupyterLab sends with that item's id, is an answer cell (so is one that holds
nothing but an answer line of the lesson, whose first line somebody deleted): its line
`name = …` is rewritten, before Python sees it, to a call that reads the rest of the line as text, so that
`travel = 3.25 mm` needs no quotes. Before each run the item's earlier entry is forgotten: no verdict is
ever given on a value left over from an earlier run.
"""

import ast
import html

from workbench import answer_line, session
from workbench.entry import NotRead, as_text, read

_entries: dict[str, str] = {}
_refusals: dict[str, str] = {}
_sums: set[str] = set()  # the lessons whose marks so far are shown in this kernel
_lines: set[str] = set()  # the check cells whose line is shown in this kernel
_asked_of: dict[str, tuple] = {}  # whose numbers the question was last shown with, by key
echoes = True  # False where entries are only read, to be judged elsewhere: then an answer cell shows nothing


def load_ipython_extension(shell):
    """Make answer cells readable in this shell; a second call changes nothing."""
    if getattr(shell, "_workbench_reads_answers", False):
        return
    shell._workbench_reads_answers = True
    reader = _Reader(shell)
    shell.input_transformers_cleanup.append(reader)
    shell.events.register("pre_run_cell", lambda info: _forget(reader.item_of(info.raw_cell)))
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
        _echo(exercise)
        return None
    _entries[key] = entry
    _echo(exercise, log=True)
    return reading.value if isinstance(reading.value, float) else entry


def hand_back(key: str, reason: str):
    """Say why nothing was read from an answer cell; called by a rewritten answer cell."""
    from workbench import exercises

    _forget_entry(key)
    _refusals[key] = reason
    _echo(exercises.find(key))


def candidate(text: str) -> int | None:
    """Set whose numbers are asked, once for the whole copy of the course; called by a rewritten cell."""
    known = session.current().candidate
    if not text and known is not None:
        _display(f"<p role='status'><b>Candidate {known}</b> is set. To change it, type another number.</p>")
        return known
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
    """The verdict on what the answer cell above holds now: the result of a check cell.

    In a lesson it is one line, which follows each later run of the answer cell; the message stands at the
    answer cell itself. In a marking run it is the verdict with its message.
    """
    from workbench import exercises

    _ready()
    verdict = _verdict(exercises.find(key))
    if session.current().marking:
        return verdict
    from IPython.display import HTML, display

    judged_above = key in _entries or key in _refusals
    display(HTML(verdict.slip() if judged_above else verdict.html()), display_id=_line_of(key))
    _lines.add(key)
    return _Line(verdict)


class _Line:
    """What a check cell in a lesson gives back: the mark and the entry as data; its line is shown already."""

    def __init__(self, verdict):
        self.bundle = {**verdict._repr_mimebundle_(), "text/html": ""}

    def _repr_mimebundle_(self, include=None, exclude=None) -> dict:
        return self.bundle


def _line_of(key: str) -> str:
    return f"check of {key}"


def _follow(key: str):
    """Let what is shown elsewhere follow an answer cell: the lines at the check cells, the marks so far.

    An answer that builds on this one may stand otherwise now, so its line follows too.
    """
    from IPython.display import HTML, update_display

    from workbench import exercises

    asked = exercises.of_lesson(key.split(".")[0])
    for exercise in asked:
        before = exercise.follows.key if exercise.follows else None
        if key in (exercise.key, before) and exercise.key in _lines:
            update_display(HTML(_verdict(exercise).slip()), display_id=_line_of(exercise.key))
    if asked and asked[0].lesson in _sums:
        update_display(HTML(_sum(asked)), display_id=_sum_of(asked[0].lesson))


def solution(key: str) -> str:
    """The right answer as an apprentice would type it; for the authored lessons only."""
    from workbench import exercises
    from workbench.exercises.exercise import Designation, Order, Quantity, letters

    exercise = exercises.find(key)
    variant = session.variant(exercise)
    right = exercise.right(variant)
    if isinstance(exercise.answer, Quantity):
        return f"{right:.{exercise.answer.decimals}f} {exercise.answer.unit}".strip()
    if isinstance(exercise.answer, Designation):
        from workbench.threads.designation import write

        return write(right, show_pitch=True)
    named = {name: letter for letter, name in letters(variant).items()}
    return " ".join(named[name] for name in right) if isinstance(exercise.answer, Order) else named[right]


def ask(key: str):
    """Show a question with the candidate's own numbers, its picture, its tolerance and its hints."""
    from workbench import exercises, question_sheet

    _ready()
    now = session.current()
    _display(question_sheet.html(exercises.find(key), now))
    _asked_of[key] = (now.candidate, now.series)


def marks(lesson: str):
    """Show the marks so far, of the answers that were run in this kernel; each later answer updates them."""
    from workbench import exercises

    _ready()
    if not session.current().marking:
        from IPython.display import HTML, display

        display(HTML(_sum(exercises.of_lesson(lesson))), display_id=_sum_of(lesson))
        _sums.add(lesson)


def _sum(asked) -> str:
    from workbench import question_sheet

    return question_sheet.marks_so_far(asked, [_verdict(exercise) for exercise in asked], session.current())


def _sum_of(lesson: str) -> str:
    return f"marks of {lesson}"


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
        if answer_line.sets_candidate(source):
            return answer_line.candidate_call(source).splitlines(keepends=True)
        key = self.item_of(source)
        return lines if key is None else answer_line.rewritten(source, key).splitlines(keepends=True)

    def item_of(self, source: str) -> str | None:
        """The key of the item that a cell answers, or None."""
        key = answer_line.item_of(source)  # nearly always its first comment says it: then no file is looked at
        return key or answer_line.item_of(source, session.current().lesson, _sent_item(self.shell))


_WHOSE = (
    "Nothing is lost: your candidate number is not set. In any cell type candidate = and your number "
    "(0 if you work alone), run it, then run this cell again."
)
_OTHERS = (
    "Nothing is lost: the question above was shown with other numbers than yours. "
    "Choose Run all at the top, look at the question again, then answer."
)


def _evaluated(text: str, kind, variant) -> str | None:
    """The entry as text; a Python expression is worked out first when it cannot be read as it stands."""
    from workbench.exercises.exercise import Designation

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
            if isinstance(tree, ast.Name) or isinstance(
                kind, Designation
            ):  # a word, a wrong letter or a misspelt call-out looks like a name
                raise reason from None
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


def _forget(key: str | None):
    """Forget an item's entry before its answer cell runs, so that no earlier value can be judged."""
    if key is not None:
        _forget_entry(key)
        _refusals[key] = "the answer cell stopped before its answer line; look at what it says there"
        _follow(key)


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
    elif verdict.standing not in (marking.RIGHT, marking.NOT_JUDGED) and _waits_for(exercise.follows, now):
        reason = f"this builds on your answer {exercise.follows.name} =, not yet run since this page was opened"
        message = f"Nothing is lost: {reason}. Run that cell, then this one again."
        verdict = replace(verdict, standing=marking.NOT_JUDGED, marks=0, tag="", message=message)
    elif verdict.standing == marking.NOT_JUDGED:
        reason = _refusals.get(exercise.key, f"run the cell that begins “{exercise.name} =” first")
        verdict = replace(verdict, message=f"Nothing is lost: {reason}.")
    verdict = replace(verdict, candidate=now.candidate)
    return verdict if now.shows_verdicts else Sealed(verdict)


def _waits_for(before, now) -> bool:
    """True where the answer that this one builds on was not run in this kernel: its slip could not be seen."""
    return before is not None and not now.marking and before.key not in _entries and before.key not in _refusals


class Sealed:
    """A verdict that is not shown before the work is handed in."""

    def __init__(self, verdict):
        self.verdict = verdict
        from workbench import marking

        self.standing, self.tag = verdict.standing if verdict.standing == marking.NOT_JUDGED else "read", ""

    def html(self) -> str:
        """What the apprentice sees: that the entry was read, or why it was not."""
        from workbench import marking

        if self.verdict.standing == marking.NOT_JUDGED:
            return self.verdict.html()
        return f"<div role='status'>I read: <b>{html.escape(self.verdict.read)}</b>. Read, not yet judged.</div>"

    def slip(self) -> str:
        """The same in a line."""
        from workbench import marking

        return self.verdict.slip() if self.verdict.standing == marking.NOT_JUDGED else "<b>Read, not yet judged</b>"

    def data(self) -> dict:
        """The entry without its verdict."""
        return {name: self.verdict.data()[name] for name in ("key", "candidate", "entry", "read")}

    def _repr_mimebundle_(self, include=None, exclude=None) -> dict:
        from workbench import marking

        return {"text/plain": "read, not yet judged", "text/html": self.html(), marking.MIME: self.data()}


def _echo(exercise, log: bool = False):
    """Show below the answer cell what was read and what it is worth."""
    if not echoes:
        return
    verdict = _verdict(exercise)
    if log:
        session.log(verdict)
    _display(verdict.html())
    _follow(exercise.key)


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
