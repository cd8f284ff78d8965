"""The one writer: marks into nbgrader's gradebook by nbgrader's own code, one transaction a notebook."""

from __future__ import annotations

import contextlib
import hashlib
import json
import logging
import re
import sqlite3
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path
from typing import Any

from nbformat.notebooknode import NotebookNode
from nbgrader.api import BaseCell, Comment, Grade, Gradebook, Student, SubmittedNotebook, get_alembic_version
from nbgrader.converters import GenerateAssignment
from nbgrader.coursedir import CourseDirectory
from nbgrader.preprocessors import SaveAutoGrades
from sqlalchemy import event, inspect, text
from sqlalchemy.exc import SQLAlchemyError

from twostroke.grading.address import out_of_reach
from twostroke.grading.files import write_text
from twostroke.grading.late import Penalties
from twostroke.grading.place import COURSE_ID, Course, prepare_environment
from twostroke.grading.rows import GradeRow, LearnerRows, rows_of
from twostroke.grading.skeleton import Skeleton
from twostroke.grading.states import GradingError

_quiet = logging.getLogger("twostroke.grading.nbgrader")
_quiet.addHandler(logging.NullHandler())
_quiet.propagate = False


class Book(Gradebook):
    """nbgrader's gradebook held open: small commits wait for one, a submission's rows are read once.

    Parameters
    ----------
    url : str
        Address of the database.
    """

    def __init__(self, url: str):
        super().__init__(url, COURSE_ID)
        if self.engine.dialect.name == "sqlite":
            _set_up_sqlite(self)
        self._grades: dict[str, Grade] = {}
        self._comments: dict[str, Comment] = {}
        self._students: dict[str, Student] = {}
        self._cell_names: dict[str, str] = {}

    @contextlib.contextmanager
    def one_transaction(self) -> Iterator[None]:
        """Everything inside stands in the gradebook together, or not at all."""
        session = self.db()
        commit = session.commit
        session.commit = _not_yet
        try:
            yield
        except BaseException:
            session.commit = commit
            session.rollback()
            raise
        finally:
            session.commit = commit
            self._grades, self._comments, self._students = {}, {}, {}
        commit()

    def look_up(self, notebook: SubmittedNotebook) -> None:
        """Read all grades and comments of one submission at once; of a new one they are at hand, unread."""
        if notebook in self.db.new:
            if not self._cell_names:
                self._cell_names = {row[0]: row[1] for row in self.db.query(BaseCell.id, BaseCell.name)}
            names = self._cell_names
            self._grades = {names[row.cell_id]: row for row in notebook.grades}
            self._comments = {names[row.cell_id]: row for row in notebook.comments}
            return
        self.db.flush()
        self._grades, self._comments = self._rows(Grade, notebook), self._rows(Comment, notebook)

    def _rows(self, kind: Any, notebook: SubmittedNotebook) -> dict[str, Any]:
        """Rows of one kind by cell; on a server nobody else changes them until they are written."""
        rows = self.db.query(kind, BaseCell.name).join(BaseCell, BaseCell.id == kind.cell_id)
        rows = rows.filter(kind.notebook_id == notebook.id).populate_existing().with_for_update(of=kind)
        return {name: row for row, name in rows}

    def looked_up(self) -> tuple[dict[str, GradeRow], dict[str, str]]:
        """What stands in the rows that were looked up: grades, and comments that a person wrote."""
        grades = {name: GradeRow.of(row) for name, row in self._grades.items()}
        return grades, {name: c.manual_comment for name, c in self._comments.items() if c.manual_comment}

    def find_student(self, student_id: str) -> Student:
        """Return a student, from this transaction's where it is there."""
        found = self._students.get(student_id)
        return found if found is not None else super().find_student(student_id)

    def add_student(self, student_id: str, **names: str) -> Student:
        """Add a student, and know it before the transaction has written it."""
        self._students[student_id] = added = super().add_student(student_id, **names)
        return added

    def find_grade(self, grade_cell: str, notebook: str, assignment: str, student: str) -> Grade:
        """Return a grade, from those looked up where it is there."""
        found = self._grades.get(grade_cell)
        return found if found is not None else super().find_grade(grade_cell, notebook, assignment, student)

    def find_comment(self, solution_cell: str, notebook: str, assignment: str, student: str) -> Comment:
        """Return a comment, from those looked up where it is there."""
        found = self._comments.get(solution_cell)
        return (
            found if found is not None else super().find_comment(solution_cell, notebook, assignment, student)
        )


def _not_yet() -> None:
    """Stands for the many small commits inside one transaction."""


def _set_up_sqlite(book: Gradebook) -> None:
    """Readers do not wait for the writer, the writer waits for others, and a commit survives a power cut."""

    @event.listens_for(book.engine, "connect")
    def _connected(connection: Any, record: Any) -> None:
        connection.execute("PRAGMA journal_mode=WAL")
        connection.execute("PRAGMA synchronous=FULL")
        connection.execute("PRAGMA busy_timeout=60000")

    book.db.remove()
    book.engine.dispose()


class _Saver(SaveAutoGrades):
    """nbgrader's own saving on a gradebook that stays open; cells that were never reached get no score."""

    def save(
        self,
        book: Book,
        notebook: NotebookNode,
        lab: str,
        student: str,
        unreached: set[str],
        by_hand: set[str],
    ) -> None:
        self.notebook_id = self.assignment_id = lab
        self.student_id = student
        self.gradebook = book
        for index, cell in enumerate(notebook.cells):
            name = cell.metadata.get("nbgrader", {}).get("grade_id")
            if name in unreached:
                grade = book.find_grade(name, lab, lab, student)
                grade.auto_score, grade.needs_manual_grade = None, True
                continue
            self.preprocess_cell(cell, {}, index)
            if name in by_hand:
                book.find_grade(name, lab, lab, student).needs_manual_grade = True


class Recorder:
    """Writes marked notebooks into the gradebook.

    Parameters
    ----------
    course : Course
    lab : str
        Such as "lab01".
    """

    def __init__(self, course: Course, lab: str):
        prepare_environment()
        self.course, self.lab = course, lab
        self.book = open_book(course)
        self._saver = _Saver(parent=None, log=_quiet)
        self.penalties = Penalties(course.classlist.policy, _quiet)

    def record(
        self,
        notebook: NotebookNode,
        student: str,
        unreached: set[str],
        by_hand: set[str],
        timestamp: datetime | None,
    ) -> LearnerRows:
        """Enter one marked notebook; grades and comments given by hand stay as they are.

        Parameters
        ----------
        notebook : NotebookNode
            Marked, with the trusted points in its check cells.
        student : str
            Trusted identifier.
        unreached : set of str
            Grade ids of cells that never ran.
        by_hand : set of str
            Grade ids of cells whose points a person gives.
        timestamp : datetime or None
            When it was handed in, where known.

        Returns
        -------
        LearnerRows
            What the gradebook says now, marks and comments given by hand included.
        """
        extra = {"timestamp": timestamp.replace(tzinfo=None)} if timestamp else {}
        with self.book.db.no_autoflush:
            self.book.update_or_create_student(student)
            submission = self.book.update_or_create_submission(self.lab, student, **extra)
        row = submission.notebooks[0]
        self.book.look_up(row)
        self._saver.save(self.book, notebook, self.lab, student, unreached, by_hand)
        self.penalties.set(self.book.db, submission, row)
        grades, comments = self.book.looked_up()
        return LearnerRows(grades, comments, row.late_submission_penalty or 0.0)

    def together(self) -> contextlib.AbstractContextManager[None]:
        """Everything recorded inside stands in the gradebook together, or not at all."""
        return self.book.one_transaction()

    def set_by_hand(self, student: str, rows: LearnerRows) -> None:
        """Put in what a person gave to a hand-in that is entered again: points, comments, what is due."""
        submission = self.book.find_submission(self.lab, student)
        notebook = submission.notebooks[0]
        for grade in notebook.grades:
            kept = rows.grades.get(grade.name)
            if kept is not None:
                grade.manual_score, grade.needs_manual_grade = kept.manual, kept.due
                grade.extra_credit = kept.extra or None
        for comment in notebook.comments:
            comment.manual_comment = rows.comments.get(comment.name)
        self.penalties.set(self.book.db, submission, notebook)

    def close(self) -> None:
        """Close the gradebook."""
        self.book.close()


def open_book(course: Course) -> Book:
    """Open the gradebook, making it where there is none.

    Raises
    ------
    GradingError
        When it cannot be opened.
    """
    prepare_environment()
    course.home.mkdir(parents=True, exist_ok=True)
    try:
        book = Book(course.db_url)
        _note_version(book)
        return book
    except (SQLAlchemyError, sqlite3.Error) as error:
        raise out_of_reach(course.db_url, error) from None


def _note_version(book: Book) -> None:
    """Write the version of the tables where the run that made them was killed before it could."""
    have = inspect(book.engine).has_table("alembic_version")
    if have and book.db.execute(text("SELECT version_num FROM alembic_version")).first():
        return
    if not have:
        book.db.execute(text("CREATE TABLE alembic_version (version_num VARCHAR(32) NOT NULL)"))
    book.db.execute(text("INSERT INTO alembic_version VALUES (:version)"), {"version": get_alembic_version()})
    book.db.commit()


def register(course: Course, lab: str, to: Path) -> None:
    """Make nbgrader's release of a lab into a folder and enter its cells in the gradebook.

    Parameters
    ----------
    course : Course
    lab : str
    to : Path
        Where the release goes.

    Raises
    ------
    GradingError
        When nbgrader refuses, for example because cells changed after work was handed in.
    """
    prepare_environment()
    config = course.config()
    config.CourseDirectory.release_directory = str(to)
    config.CourseDirectory.assignment_id = lab
    config.GenerateAssignment.force = True
    converter = GenerateAssignment(coursedir=CourseDirectory(config=config), config=config, log=_quiet)
    reasons: list[str] = []
    handler = _Listener(reasons)
    _quiet.addHandler(handler)
    try:
        converter.start()
    except OSError:
        raise
    except Exception as error:
        text = "\n".join([*reasons, str(error)])
        if "Cannot add or remove" in text or "Cannot modify" in text:
            raise GradingError(
                f"{lab}: its cells changed after work was handed in; nbgrader keeps the old marks. Grade "
                "this class with the older clone, or begin a new gradebook (--home FOLDER)"
            ) from None
        named = [line for line in reasons if re.match(r"[\w.]*(?:Error|Exception)\b", line)]
        said = named[-1] if named else str(error)
        raise GradingError(
            f"{lab}: nbgrader cannot make the release ({said[:200]}); nothing was marked. "
            "Mend that, then run the same command again"
        ) from error
    finally:
        _quiet.removeHandler(handler)


def set_due(course: Course, lab: str) -> None:
    """Enter the due time of a lab, where the class list names one."""
    due = course.classlist.due.get(lab)
    if due is None:
        return
    book = open_book(course)
    try:
        assignment = book.find_assignment(lab)
        if assignment.duedate != due.replace(tzinfo=None):
            assignment.duedate = due.replace(tzinfo=None)
            book.db.commit()
    finally:
        book.close()


def is_registered(course: Course, trusted: Skeleton) -> bool:
    """Whether the gradebook holds the cells of this version of the lab."""
    book = open_book(course)
    try:
        if all(each.name != trusted.lab for each in book.assignments):
            return False
    finally:
        book.close()
    note = _note(course, trusted)
    return note.is_file() and note.read_text(encoding="utf-8") == _stamp(course, trusted)


def note_registered(course: Course, trusted: Skeleton) -> None:
    """Note which version of the lab the gradebook holds."""
    write_text(_note(course, trusted), _stamp(course, trusted))


def _note(course: Course, trusted: Skeleton) -> Path:
    return course.journal / f"{trusted.lab}.registered"


def _stamp(course: Course, trusted: Skeleton) -> str:
    return json.dumps(
        {"release": trusted.digest, "gradebook": hashlib.sha256(course.db_url.encode()).hexdigest()}
    )


class _Listener(logging.Handler):
    def __init__(self, lines: list[str]):
        super().__init__(logging.ERROR)
        self._lines = lines

    def emit(self, record: logging.LogRecord) -> None:
        self._lines += record.getMessage().strip().splitlines()


def read_rows(course: Course, lab: str) -> dict[str, LearnerRows]:
    """Return what the gradebook says now of a lab, by learner; empty where there is no gradebook yet.

    Parameters
    ----------
    course : Course
    lab : str
        Such as "lab01".

    Returns
    -------
    dict of str to LearnerRows
    """
    if (
        course.db_url.startswith("sqlite:///")
        and not Path(course.db_url.removeprefix("sqlite:///")).is_file()
    ):
        return {}
    book = open_book(course)
    try:
        return rows_of(book.db, lab)
    finally:
        book.close()
