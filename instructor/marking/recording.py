"""Stage 4, record: marks into nbgrader's gradebook, the marked notebook and the verdicts into `marked/`.

A mark that the instructor gave by hand stays: it is kept beside ours and goes before it.
"""

import hashlib
import json
import os
from collections.abc import Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from nbformat import NotebookNode, v4

from instructor.cohort import Cohort
from instructor.marking import distant
from instructor.marking.judging import Judgement
from instructor.marking.ledger import Ledger
from instructor.refusal import Refusal
from instructor.release import Slip
from workbench.marking import Verdict


@dataclass(frozen=True)
class Record:
    """What is kept of one marked submission; as JSON it is verdicts.json.

    problem: why it could not be read, or "". held: why its marks wait for the instructor, or "".
    findings, troubles: what was not as released; cells that raised. flags: own code that the instructor should
    look at (see `flags`). sha256: of the submitted file.
    items: the verdict on each item as data, with its message.
    """

    candidate: int
    release: str
    lesson: str
    series: int
    items: Mapping[str, Mapping]
    problem: str = ""
    held: str = ""
    findings: tuple[str, ...] = ()
    troubles: tuple[str, ...] = ()
    flags: tuple[str, ...] = ()
    sha256: str = ""
    by: str = ""

    @property
    def notes(self) -> tuple[str, ...]:
        """All that the instructor is told about this notebook."""
        return *self.findings, *self.troubles, *self.flags

    @property
    def marks(self) -> float | None:
        """The marks given; None while they wait for the instructor."""
        return None if self.held or self.problem else sum(item["marks"] for item in self.items.values())


def made_by(slip: Slip) -> str:
    """What a record depends on beside the submitted file: the release, and all that reads, runs and judges."""
    return hashlib.sha256(f"{slip.sha256} {slip.series} {distant.program()}".encode()).hexdigest()[:16]


def item_of(verdict: Verdict) -> dict:
    """A verdict as it is kept."""
    return {**verdict.data(), "message": verdict.message}


def read_record(folder: Path) -> Record | None:
    """The record in a marked folder, or None where that work is not marked by us."""
    path = folder / "verdicts.json"
    try:
        found = json.loads(path.read_text(encoding="utf-8"))
        for notes in ("findings", "troubles", "flags"):
            found[notes] = tuple(found[notes])
        return Record(**found)
    except FileNotFoundError:
        return None
    except (ValueError, TypeError, KeyError):
        raise Refusal(f"{path} is damaged: mark this candidate again") from None


@contextmanager
def gradebook(cohort: Cohort):
    """The cohort's gradebook, open."""
    from instructor.quiet import nbgrader_log

    with nbgrader_log():
        from nbgrader.api import Gradebook

        with Gradebook(cohort.db_url, cohort.coursedir().course_id) as book:
            yield book


@contextmanager
def ledger(cohort: Cohort, release: str):
    """What takes the marks of one release, open."""
    with gradebook(cohort) as book:
        book.db.rollback()  # it has only looked which course this is
        with Ledger(book, release) as taking:
            yield taking


def record(cohort: Cohort, taking: Ledger, kept: Record, judgement: Judgement | None, notebook: NotebookNode,
           outputs: Mapping[str, list] | None = None) -> None:
    """Record one submission: files first, each replaced in one step, then the gradebook in one transaction.

    taking: the open ledger. judgement: None where the work could not be read. notebook: the restored
    submission, or the release where there is none. outputs: what its extra cells showed, by id.
    """
    folder = cohort.marked(kept.candidate, kept.release)
    folder.mkdir(parents=True, exist_ok=True)
    verdicts = judgement.verdicts if judgement else {}
    shown = with_verdicts(notebook, verdicts, kept, outputs or {})
    # a notebook all the same, on one line: laid out for reading it would take longer than all the rest
    _replace(folder / f"{kept.lesson}.ipynb", json.dumps(shown, ensure_ascii=False) + "\n")
    stamp = _read(cohort.submitted(kept.candidate, kept.release) / "timestamp.txt")
    if stamp is not None:
        _replace(folder / "timestamp.txt", stamp)
    slip = _read(cohort.released(kept.release) / "release.json")
    if slip is not None:
        _replace(folder / "release.json", slip)
    _replace(folder / "verdicts.json", json.dumps(kept.__dict__, ensure_ascii=False) + "\n")
    marks = None if kept.marks is None else {name: verdict.marks for name, verdict in verdicts.items()}
    empty = {name for name, verdict in verdicts.items() if verdict.entry is None}
    taking.write(kept.candidate, marks, empty, _time(stamp))


def _time(stamp: str | None) -> datetime | None:
    from nbgrader.utils import parse_utc

    return None if stamp is None else parse_utc(stamp.strip())


def _read(path: Path) -> str | None:
    """A small file's text, or None where there is no such file."""
    try:
        return path.read_text(encoding="utf-8")
    except FileNotFoundError:
        return None


def with_verdicts(notebook: NotebookNode, verdicts: Mapping[str, Verdict], kept: Record,
                  outputs: Mapping[str, list]) -> NotebookNode:
    """The marked notebook: the verdict as the result of each check cell, and what was found at its head."""
    from html import escape

    cells = []
    for cell in notebook.cells:
        if cell.cell_type == "code":
            cell, marks = NotebookNode(cell), cell.metadata.get("nbgrader", {})
            name = marks.get("grade_id", "").removesuffix("-check")
            judged = marks.get("grade") and name in verdicts
            found = [_result(verdicts[name])] if judged else outputs.get(cell.id, [])
            dict.update(cell, outputs=found, execution_count=None)
        cells.append(cell)
    notes = [note for note in (kept.problem, kept.held, *kept.notes) if note]
    if notes:
        lines = "\n".join(f"- {escape(note)}" for note in notes)
        cells.insert(0, v4.new_markdown_cell(f"**For the instructor**\n\n{lines}", id="for-the-instructor"))
    # put together by hand: nbformat checks each part against its schema, which takes longer than judging
    shown = NotebookNode(metadata=notebook.metadata, nbformat=4, nbformat_minor=5)
    dict.update(shown, cells=cells)
    return shown


def _result(verdict: Verdict) -> dict:
    """A verdict as the result of a cell."""
    data = verdict._repr_mimebundle_()
    return {"output_type": "execute_result", "data": data, "metadata": {}, "execution_count": None}


def _replace(path: Path, text: str) -> None:
    """Write a file in one step: nobody ever finds half of it."""
    part = path.with_name(f".{path.name}.part")
    part.write_text(text, encoding="utf-8")
    os.replace(part, path)


def scores(cohort: Cohort, release: str) -> dict[tuple[int, str], tuple[float | None, bool]]:
    """The gradebook's marks of a release: (candidate, item) to (mark or None, given by hand).

    A mark given by hand goes before ours; extra credit is added, as nbgrader adds it.
    """
    from nbgrader import api

    found = {}
    with gradebook(cohort) as book:
        rows = (
            book.db.query(api.SubmittedAssignment.student_id, api.GradeCell.name, api.Grade)
            .join(api.SubmittedNotebook, api.SubmittedNotebook.assignment_id == api.SubmittedAssignment.id)
            .join(api.Grade, api.Grade.notebook_id == api.SubmittedNotebook.id)
            .join(api.GradeCell, api.GradeCell.id == api.Grade.cell_id)
            .join(api.Assignment, api.Assignment.id == api.SubmittedAssignment.assignment_id)
            .filter(api.Assignment.name == release)
        )
        for student, cell, grade in rows:
            given = grade.auto_score is not None or grade.manual_score is not None
            mark = grade.score if given else None
            found[int(student), cell.removesuffix("-check")] = mark, grade.manual_score is not None
    return found


def comments(cohort: Cohort, release: str) -> dict[tuple[int, str], str]:
    """What the instructor wrote in nbgrader's form-grading screen: (candidate, item) to comment."""
    from nbgrader import api

    with gradebook(cohort) as book:
        rows = (
            book.db.query(api.SubmittedAssignment.student_id, api.SolutionCell.name, api.Comment.manual_comment)
            .join(api.SubmittedNotebook, api.SubmittedNotebook.assignment_id == api.SubmittedAssignment.id)
            .join(api.Comment, api.Comment.notebook_id == api.SubmittedNotebook.id)
            .join(api.SolutionCell, api.SolutionCell.id == api.Comment.cell_id)
            .join(api.Assignment, api.Assignment.id == api.SubmittedAssignment.assignment_id)
            .filter(api.Assignment.name == release, api.Comment.manual_comment.is_not(None))
        )
        return {(int(student), name): comment for student, name, comment in rows}
