"""Builds a lesson's source notebook from its text.

A lesson is authored as Markdown in instructor/lessons/<lesson>.md:
    ---                       front matter: title, minutes
    title: The measuring screw
    minutes: 40
    ---
    text, any Markdown        one Markdown cell, until the next mark
    +++                       starts a new Markdown cell
    ```{question} travel      question, answer line and check of the exercise `<lesson>.travel`
    ```{panel} micrometer     a panel, its code hidden
    ```{marks}                the apprentice's marks so far
    ```{python}               a plain code cell
each block closed by ``` on a line of its own. Ids come from the text's order, so the same text always gives
the same notebook.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from nbformat import NotebookNode, v4

from instructor.refusal import Refusal, unknown

LESSONS = Path(__file__).parent / "lessons"

_BLOCK = re.compile(r"```\{(\w+)\}\s*(.*)")
_LOCKED = {"grade": False, "solution": False, "locked": True}
_HIDDEN = {"jupyter": {"source_hidden": True}}


@dataclass(frozen=True)
class LessonText:
    """A lesson as authored: its name, front matter, and the text below it."""

    name: str
    title: str
    minutes: int
    body: str


def authored_lessons(folder: Path = LESSONS) -> tuple[str, ...]:
    """The names of the lessons that can be released: all but the opening notebook."""
    return tuple(name for name in sorted(path.stem for path in folder.glob("*.md")) if name != "start")


def read_lesson(name: str, folder: Path = LESSONS) -> LessonText:
    """Read a lesson's text; refused, with the nearest names, where there is none."""
    path = folder / f"{name}.md"
    if not path.is_file():
        raise unknown("lesson", name, [text.stem for text in folder.glob("*.md")])
    found = re.fullmatch(r"---\n(.*?)\n---\n(.*)", path.read_text(encoding="utf-8"), flags=re.DOTALL)
    if found is None:
        raise Refusal(f"{path.name}: front matter is missing: begin with ---, then title: and minutes:")
    front = dict(re.findall(r"^(\w+):\s*(.*?)\s*$", found[1], flags=re.MULTILINE))
    if not front.get("title") or not front.get("minutes", "").isdecimal():
        raise Refusal(f"{path.name}: front matter needs a title and whole minutes, it has {sorted(front)}")
    return LessonText(name, front["title"], int(front["minutes"]), found[2])


def build(text: LessonText) -> NotebookNode:
    """The source notebook of a lesson, solutions included."""
    notebook = v4.new_notebook(
        metadata={
            "kernelspec": {"display_name": "Python 3", "language": "python", "name": "python3"},
            "language_info": {"name": "python"},
            "title": text.title,
        }
    )
    asks = False
    for kind, argument, content in _parts(text):
        number = len(notebook.cells) + 1
        if kind == "text":
            if number == 1 and not content.startswith("# "):
                content = f"# {text.title}\n\n{content}"
            notebook.cells.append(_markdown(f"text-{number:03d}", content))
        elif kind == "python":
            notebook.cells.append(_code(f"code-{number:03d}", content, {}))
        elif kind == "panel":
            source = f'# Panel: run this cell to see it\nimport workbench\nworkbench.panel("{argument}")'
            notebook.cells.append(_locked(f"panel-{argument}-{number:03d}", source))
        elif kind == "marks":
            source = f'# Your marks so far: run this cell\nimport workbench\nworkbench.marks("{text.name}")'
            notebook.cells.append(_locked(f"marks-{number:03d}", source))
        else:
            asks = True
            notebook.cells.extend(_question(text.name, argument))
    if asks:
        start = _locked("start", f'# Run this cell first\nimport workbench\nworkbench.start("{text.name}")')
        first_code = next(i for i, cell in enumerate(notebook.cells) if cell.cell_type == "code")
        notebook.cells.insert(min(1, first_code), start)
    _refuse_doubled(text, notebook)
    return notebook


def _parts(text: LessonText) -> Iterator[tuple[str, str, str]]:
    """The lesson's parts in order: (kind, argument, content)."""
    lines: list[str] = []
    block: tuple[str, str] | None = None
    fence = False
    for number, line in enumerate(text.body.splitlines(), start=1):
        where = f"{text.name}.md, line {number} below the front matter"
        opening = _BLOCK.fullmatch(line.rstrip())
        if block is not None:
            if line.rstrip() != "```":
                lines.append(line)
                continue
            content = "\n".join(lines).strip("\n")
            if content and block[0] != "python":
                raise Refusal(f"{where}: a {block[0]} block holds no text of its own, found {content[:40]!r}")
            yield *block, content
            block, lines = None, []
        elif opening and not fence:
            yield from _markdown_part(lines)
            block, lines = (opening[1], opening[2].strip()), []
            if block[0] not in ("question", "panel", "marks", "python"):
                raise unknown(f"block at {where}", block[0], ("question", "panel", "marks", "python"))
            if block[0] in ("question", "panel") and not re.fullmatch(r"[a-z]\w*", block[1]):
                raise Refusal(f"{where}: {block[1]!r} is not the name of a {block[0]}")
        elif line.rstrip() == "+++" and not fence:
            yield from _markdown_part(lines)
            lines = []
        else:
            fence = line.rstrip() != "```" if fence else line.startswith("```")
            lines.append(line)
    if block is not None or fence:
        raise Refusal(f"{text.name}.md: a block is not closed by a line ```")
    yield from _markdown_part(lines)


def _markdown_part(lines: list[str]) -> Iterator[tuple[str, str, str]]:
    content = "\n".join(lines).strip()
    if content:
        yield "text", "", content


def _question(lesson: str, name: str) -> tuple[NotebookNode, ...]:
    """The three cells of an exercise: what is asked, the answer line, the check."""
    from workbench.exercises import find

    key = f"{lesson}.{name}"
    try:
        exercise = find(key)
    except ValueError as unknown_key:
        raise Refusal(f"{lesson}.md asks a question that does not exist: {unknown_key}") from None
    solution = f'### BEGIN SOLUTION\n{name} = workbench.solution("{key}")\n### END SOLUTION'
    answer = _code(name, f"# Answer {key}\n{solution}", {"tags": ["answer"]})
    answer.metadata["nbgrader"] = _marks(name, grade=False, solution=True, locked=False)
    check = _code(f"{name}-check", f'# Verdict: {name}\nimport workbench\nworkbench.check("{key}")', _HIDDEN)
    check.metadata["nbgrader"] = _marks(f"{name}-check", grade=True, solution=False, locked=True)
    check.metadata["nbgrader"]["points"] = exercise.marks
    ask = f'# Question: run this cell to see it\nimport workbench\nworkbench.ask("{key}")'
    return _locked(f"{name}-ask", ask), answer, check


def _markdown(identity: str, source: str) -> NotebookNode:
    cell = v4.new_markdown_cell(source, id=identity)
    cell.metadata["nbgrader"] = _marks(identity, **_LOCKED)
    return cell


def _locked(identity: str, source: str) -> NotebookNode:
    cell = _code(identity, source, _HIDDEN)
    cell.metadata["nbgrader"] = _marks(identity, **_LOCKED)
    return cell


def _code(identity: str, source: str, metadata: dict) -> NotebookNode:
    return v4.new_code_cell(source, id=identity, metadata=dict(metadata))


def _marks(identity: str, **flags: bool) -> dict:
    return {"schema_version": 3, "grade_id": identity, "task": False, **flags}


def _refuse_doubled(text: LessonText, notebook: NotebookNode) -> None:
    identities = [cell.id for cell in notebook.cells]
    doubled = sorted({one for one in identities if identities.count(one) > 1})
    if doubled:
        raise Refusal(f"{text.name}.md uses {', '.join(doubled)} more than once")
