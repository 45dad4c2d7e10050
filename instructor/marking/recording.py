"""Stage 4, record: marks into nbgrader's gradebook, the marked notebook and the verdicts into `marked/`.

One transaction a submission, through nbgrader's own models, since its API commits inside its calls. A mark
that the instructor gave by hand stays: it is kept beside ours and goes before it.
"""

import json
import os
from collections.abc import Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

import nbformat
from nbformat import NotebookNode, v4

from instructor.cohort import Cohort
from instructor.marking.judging import Judgement
from instructor.refusal import Refusal
from instructor.roll import folder_name
from workbench.marking import Verdict


@dataclass(frozen=True)
class Record:
    """What is kept of one marked submission; as JSON it is verdicts.json.

    problem: why it could not be read, or "". held: why its marks wait for the instructor, or "".
    findings, troubles: what was not as released; cells that raised. sha256: of the submitted file.
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
    sha256: str = ""

    @property
    def marks(self) -> float | None:
        """The marks given; None while they wait for the instructor."""
        return None if self.held or self.problem else sum(item["marks"] for item in self.items.values())


def item_of(verdict: Verdict) -> dict:
    """A verdict as it is kept."""
    return {**verdict.data(), "message": verdict.message}


def read_record(folder: Path) -> Record | None:
    """The record in a marked folder, or None where that work is not marked by us."""
    path = folder / "verdicts.json"
    try:
        found = json.loads(path.read_text(encoding="utf-8"))
        found["findings"], found["troubles"] = tuple(found["findings"]), tuple(found["troubles"])
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
            book.db().expire_on_commit = False  # the lesson's cells stay known from one submission to the next
            yield book


def record(cohort: Cohort, book, kept: Record, judgement: Judgement | None, notebook: NotebookNode,
           outputs: Mapping[str, list] | None = None) -> None:
    """Record one submission: files first, each replaced in one step, then the gradebook in one transaction.

    book: the open gradebook. judgement: None where the work could not be read. notebook: the restored
    submission, or the release where there is none. outputs: what its extra cells showed, by id.
    """
    folder = cohort.marked(kept.candidate, kept.release)
    folder.mkdir(parents=True, exist_ok=True)
    verdicts = judgement.verdicts if judgement else {}
    shown = with_verdicts(notebook, verdicts, kept, outputs or {})
    # a notebook all the same, on one line: laid out for reading it would take longer than all the rest
    _replace(folder / f"{kept.lesson}.ipynb", json.dumps(shown, ensure_ascii=False) + "\n")
    stamp = cohort.submitted(kept.candidate, kept.release) / "timestamp.txt"
    if stamp.exists():
        _replace(folder / "timestamp.txt", stamp.read_text(encoding="utf-8"))
    for beside in ("release.json",):
        _replace(folder / beside, (cohort.released(kept.release) / beside).read_text(encoding="utf-8"))
    _replace(folder / "verdicts.json", json.dumps(kept.__dict__, indent=1, ensure_ascii=False) + "\n")
    marks = {name: verdict.marks for name, verdict in verdicts.items()}
    empty = {name for name, verdict in verdicts.items() if verdict.entry is None}
    try:
        with book.db.no_autoflush:  # written once, at the commit
            _into(book.db, kept, None if kept.held or judgement is None else marks, empty, _time(stamp))
        book.db.commit()
    except BaseException:
        book.db.rollback()
        raise


def _time(stamp: Path) -> datetime | None:
    from nbgrader.utils import parse_utc

    return parse_utc(stamp.read_text(encoding="utf-8").strip()) if stamp.exists() else None


def _into(session, kept: Record, marks: Mapping[str, int] | None, empty: set[str], time) -> None:
    """Fill the gradebook's rows, without committing; marks None: no mark is given, the instructor decides."""
    from nbgrader import api

    student = session.get(api.Student, folder_name(kept.candidate))
    if student is None:
        student = api.Student(id=folder_name(kept.candidate))
        session.add(student)
    assignment = session.query(api.Assignment).filter_by(name=kept.release).one()
    submission = (
        session.query(api.SubmittedAssignment)
        .filter_by(assignment_id=assignment.id, student_id=student.id).one_or_none()
    )
    if submission is None:
        submission = api.SubmittedAssignment(assignment=assignment, student=student)
        session.add(submission)
    submission.timestamp = time
    present = {notebook.notebook_id: notebook for notebook in submission.notebooks}
    for source in assignment.notebooks:
        handed_in = present.get(source.id)
        if handed_in is None:
            handed_in = api.SubmittedNotebook(notebook=source, assignment=submission)
            session.add(handed_in)
        grades = {grade.cell_id: grade for grade in handed_in.grades}
        for cell in source.grade_cells:
            grade = grades.get(cell.id)
            if grade is None:
                grade = api.Grade(cell_id=cell.id, notebook=handed_in)
                session.add(grade)
            given = None if marks is None else float(marks.get(cell.name.removesuffix("-check"), 0))
            by_hand, changed = grade.manual_score is not None, given != grade.auto_score
            # a mark given by hand stays; who gave it is asked to look again only where ours has changed
            grade.needs_manual_grade = changed if by_hand else given is None
            grade.auto_score = given
        comments = {comment.cell_id: comment for comment in handed_in.comments}
        for cell in source.solution_cells:
            comment = comments.get(cell.id)
            if comment is None:
                comment = api.Comment(cell_id=cell.id, notebook=handed_in)
                session.add(comment)
            comment.auto_comment = "No response." if cell.name in empty else None


def with_verdicts(notebook: NotebookNode, verdicts: Mapping[str, Verdict], kept: Record,
                  outputs: Mapping[str, list]) -> NotebookNode:
    """The marked notebook: the verdict as the result of each check cell, and what was found at its head."""
    from html import escape

    shown = v4.new_notebook(metadata=notebook.metadata, cells=[NotebookNode(cell) for cell in notebook.cells])
    for cell in shown.cells:
        if cell.cell_type != "code":
            continue
        cell.outputs, cell.execution_count = nbformat.from_dict(outputs.get(cell.id, [])), None
        name = cell.metadata.get("nbgrader", {}).get("grade_id", "").removesuffix("-check")
        if cell.metadata.get("nbgrader", {}).get("grade") and name in verdicts:
            cell.outputs = [_result(verdicts[name])]
    notes = [note for note in (kept.problem, kept.held, *kept.findings, *kept.troubles) if note]
    if notes:
        lines = "\n".join(f"- {escape(note)}" for note in notes)
        shown.cells.insert(0, v4.new_markdown_cell(f"**For the instructor**\n\n{lines}", id="for-the-instructor"))
    return shown


def _result(verdict: Verdict) -> NotebookNode:
    """A verdict as the result of a cell; not made by nbformat, which checks every one against its schema."""
    data = verdict._repr_mimebundle_()
    return NotebookNode(output_type="execute_result", data=data, metadata={}, execution_count=None)


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
