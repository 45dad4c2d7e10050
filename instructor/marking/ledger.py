"""The marks of one release in nbgrader's gradebook: one transaction a submission, all of its marks or none.

Written straight into nbgrader's own tables (its models supply them): its API commits inside its calls, and its
models load a whole cohort's rows to add one more. A mark that the instructor gave by hand is never touched.
"""

from collections.abc import Collection, Iterator, Mapping
from contextlib import contextmanager
from datetime import datetime
from uuid import uuid4

from instructor.roll import folder_name


class Ledger:
    """A context manager; `write` takes one submission's marks.

    book: nbgrader's open gradebook. release: the release's name, its assignment in nbgrader's words.
    """

    def __init__(self, book, release: str):
        import sqlalchemy as sql
        from nbgrader import api

        self._engine, self._sql = book.engine, sql
        tables = (api.Student, api.SubmittedAssignment, api.SubmittedNotebook, api.Grade, api.Comment)
        self._students, self._submissions, self._notebooks, self._grades, self._comments = (
            table.__table__ for table in tables)
        cell, notebook, assignment = api.BaseCell.__table__, api.Notebook.__table__, api.Assignment.__table__
        with self._engine.connect() as connection:
            self._assignment = connection.scalar(sql.select(assignment.c.id).where(assignment.c.name == release))
            asked = connection.execute(
                sql.select(notebook.c.id, cell.c.id, cell.c.name, cell.c.type)
                .join(cell, cell.c.notebook_id == notebook.c.id)
                .where(notebook.c.assignment_id == self._assignment)).all()
        # notebook's id -> [(cell's id, name)], of the cells that carry a mark, and of those that carry an answer
        self._marked: dict[str, list] = {place: [] for place, *_ in asked}
        self._answers: dict[str, list] = {place: [] for place, *_ in asked}
        for place, identity, name, kind in asked:
            if kind == "GradeCell":
                self._marked[place].append((identity, name.removesuffix("-check")))
            elif kind == "SolutionCell":
                self._answers[place].append((identity, name))
        self._prepare()

    def _prepare(self) -> None:
        """The statements, put together once."""
        sql, submissions, notebooks = self._sql, self._submissions, self._notebooks
        of_student = (submissions.c.student_id == self._students.c.id) & (
            submissions.c.assignment_id == self._assignment)
        self._find = (
            sql.select(self._students.c.id, submissions.c.id, submissions.c.timestamp)
            .select_from(self._students.outerjoin(submissions, of_student))
            .where(self._students.c.id == sql.bindparam("student")))
        self._find_notebooks = sql.select(notebooks.c.notebook_id, notebooks.c.id).where(
            notebooks.c.assignment_id == sql.bindparam("submission"))
        self._find_grades, self._find_comments = (
            sql.select(table).where(table.c.notebook_id == sql.bindparam("handed_in"))
            for table in (self._grades, self._comments))
        self._change_grade, self._change_comment = (
            sql.update(table).where(table.c.id == sql.bindparam("row")) for table in (self._grades, self._comments))

    def __enter__(self):
        self._connection = self._engine.connect()
        self._write_ahead("WAL")
        return self

    def __exit__(self, *_):
        self._write_ahead("DELETE")  # one file again, to be copied or opened by any program
        self._connection.close()

    def _write_ahead(self, mode: str) -> None:
        """SQLite: keep a log beside the file while marks are written, so that a commit waits for no disk.

        What is committed is safe from the end of this process, whatever ends it; a power cut may take the last
        few submissions back, whole, and they are then marked again. Where the file is in use by another program,
        or lies where no log can be kept, it stays as it is.
        """
        if self._connection.dialect.name != "sqlite":
            return
        direct = self._connection.connection.driver_connection
        try:
            (now,) = direct.execute(f"PRAGMA journal_mode = {mode}").fetchone()
            direct.execute(f"PRAGMA synchronous = {'NORMAL' if now == 'wal' else 'FULL'}")
        except direct.OperationalError:
            pass

    @contextmanager
    def _transaction(self) -> Iterator:
        with self._connection.begin():
            if self._connection.dialect.name == "sqlite":
                # SQLite's driver would begin at the first change only: then what was read before may be old
                self._connection.exec_driver_sql("BEGIN IMMEDIATE")
            yield self._connection

    def given(self) -> dict[int, dict[str, float | None]]:
        """Our own marks as they stand: by candidate, by item."""
        sql, names = self._sql, dict(cell for cells in self._marked.values() for cell in cells)
        rows = self._connection.execute(
            sql.select(self._submissions.c.student_id, self._grades.c.cell_id, self._grades.c.auto_score)
            .join(self._notebooks, self._notebooks.c.assignment_id == self._submissions.c.id)
            .join(self._grades, self._grades.c.notebook_id == self._notebooks.c.id)
            .where(self._submissions.c.assignment_id == self._assignment)).all()
        self._connection.rollback()  # nothing stays open over the run
        found: dict[int, dict[str, float | None]] = {}
        for student, cell, mark in rows:
            found.setdefault(int(student), {})[names.get(cell, cell)] = mark
        return found

    def write(self, candidate: int, marks: Mapping[str, int] | None, empty: Collection[str],
              time: datetime | None) -> None:
        """Write one submission's marks; marks None: none is given, the instructor decides.

        marks: by item. empty: the answers where nothing was typed. time: when it was handed in.
        """
        with self._transaction() as connection:
            self._fill(connection, folder_name(candidate), marks, empty, time)

    def _fill(self, connection, student: str, marks, empty, time) -> None:
        found = connection.execute(self._find, {"student": student}).one_or_none()
        if found is None:
            connection.execute(self._students.insert(), {"id": student})
        submission = found[1] if found else None
        handed_in = {}
        if submission is None:
            submission = _identity()
            connection.execute(self._submissions.insert(), {
                "id": submission, "assignment_id": self._assignment, "student_id": student, "timestamp": time})
        else:
            handed_in = dict(connection.execute(self._find_notebooks, {"submission": submission}).all())
            if found[2] != time:
                connection.execute(
                    self._submissions.update().where(self._submissions.c.id == submission), {"timestamp": time})
        for place in self._marked:
            new = place not in handed_in
            if new:
                handed_in[place] = _identity()
                connection.execute(self._notebooks.insert(), {
                    "id": handed_in[place], "assignment_id": submission, "notebook_id": place, "flagged": False})
            self._fill_grades(connection, place, handed_in[place], marks, new)
            self._fill_comments(connection, place, handed_in[place], empty, new)

    def _fill_grades(self, connection, place: str, handed_in: str, marks, new: bool) -> None:
        present = {} if new else _by_cell(connection.execute(self._find_grades, {"handed_in": handed_in}))
        added, changed = [], []
        for cell, name in self._marked[place]:
            given = None if marks is None else float(marks.get(name, 0))
            grade = present.get(cell)
            if grade is None:
                added.append({"id": _identity(), "cell_id": cell, "notebook_id": handed_in, "auto_score": given,
                              "needs_manual_grade": given is None})
                continue
            # a mark given by hand stays; who gave it is asked to look again where ours has changed since
            by_hand = grade.manual_score is not None
            asked = given != grade.auto_score or grade.needs_manual_grade if by_hand else given is None
            if (given, asked) != (grade.auto_score, grade.needs_manual_grade):
                changed.append({"row": grade.id, "auto_score": given, "needs_manual_grade": asked})
        if added:
            connection.execute(self._grades.insert(), added)
        if changed:
            connection.execute(self._change_grade, changed)

    def _fill_comments(self, connection, place: str, handed_in: str, empty, new: bool) -> None:
        present = {} if new else _by_cell(connection.execute(self._find_comments, {"handed_in": handed_in}))
        added, changed = [], []
        for cell, name in self._answers[place]:
            said = "No response." if name in empty else None
            if cell not in present:
                added.append({"id": _identity(), "cell_id": cell, "notebook_id": handed_in, "auto_comment": said})
            elif present[cell].auto_comment != said:
                changed.append({"row": present[cell].id, "auto_comment": said})
        if added:
            connection.execute(self._comments.insert(), added)
        if changed:
            connection.execute(self._change_comment, changed)


def _by_cell(rows) -> dict:
    return {row.cell_id: row for row in rows}


def _identity() -> str:
    """A new row's key, as nbgrader makes them."""
    return uuid4().hex
