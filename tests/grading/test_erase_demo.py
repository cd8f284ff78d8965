"""The demonstration's whole class, broken hand-ins and all: who goes is gone, the rest is as before."""

from __future__ import annotations

import contextlib
import csv
import io
import sqlite3
from pathlib import Path

import pytest

pytest.importorskip("nbgrader", reason="grading needs the teach extra")
pytest.importorskip("cryptography", reason="records need the teach extra")

from rich.console import Console
from twostroke.grading import demo, record
from twostroke.grading.erase import erase
from twostroke.grading.journal import Journal
from twostroke.grading.place import Course
from twostroke.grading.reporting import report, table
from twostroke.grading.standing import standings

pytestmark = pytest.mark.slow


@pytest.fixture(scope="module")
def shown(tmp_path_factory):
    folder = tmp_path_factory.mktemp("demo") / "class"
    demo(folder, trust=True, workers=2, console=Console(file=io.StringIO()))
    return Course.at(folder / "autograde"), folder / "handed-in"


def book_rows(path: Path) -> dict[str, list[tuple]]:
    with contextlib.closing(sqlite3.connect(path)) as book:
        names = [name for (name,) in book.execute("SELECT name FROM sqlite_master WHERE type = 'table'")]
        return {name: sorted(book.execute(f'SELECT * FROM "{name}"').fetchall(), key=repr) for name in names}


def by_learner(path: Path) -> dict[str, list[tuple]]:
    """Rows of grades and comments by whose they are, read by joins of our own."""
    query = """SELECT s.student_id, c.name, t.* FROM {0} t JOIN base_cell c ON c.id = t.cell_id
               JOIN submitted_notebook n ON n.id = t.notebook_id
               JOIN submitted_assignment s ON s.id = n.assignment_id"""
    found: dict[str, list[tuple]] = {}
    with contextlib.closing(sqlite3.connect(path)) as book:
        for name in ("grade", "comment"):
            for who, *row in book.execute(query.format(name)):
                found.setdefault(who, []).append((name, *row))
    return {who: sorted(rows, key=repr) for who, rows in found.items()}


def lines_of(course: Course) -> dict[str, list[str]]:
    """The table of marks, line by line, without what names files of others."""
    columns = ("learner", "state", "points", "possible", "points so far")
    rows = csv.reader(io.StringIO(table(standings(course, "lab01"), columns)))
    return {row[0]: row[1:] for row in rows}


def test_is_one_after_another_gone_and_the_rest_row_by_row_as_before(shown):
    course, handed_in = shown
    book = course.home / "gradebook.db"
    everybody = [person.id for person in record.everybody(course)]
    assert len(everybody) >= 20
    outcomes = {each.learner: each for each in Journal.of(course, "lab01").outcomes()}
    rows, lines, fixed = by_learner(book), lines_of(course), book_rows(book)
    for who in everybody[::5]:
        found = erase(who, course=Course.at(course.home), also=[handed_in], dry_run=False)
        assert found.left == (), who
        for mapping in (outcomes, rows, lines):
            mapping.pop(who, None)
        now = Course.at(course.home)
        assert by_learner(book) == rows
        assert lines_of(now) == lines
        kept = {each.learner: each for each in Journal.of(now, "lab01").outcomes()}
        assert set(kept) == set(outcomes)
        for name, outcome in kept.items():
            assert outcome.tasks == outcomes[name].tasks
            assert outcome.state == outcomes[name].state
        texts = [path for root in (course.home, handed_in) for path in root.rglob("*") if path.is_file()]
        assert not [path for path in texts if who.encode() in path.read_bytes() or who in path.as_posix()]
    left = book_rows(book)
    people = {"student", "submitted_assignment", "submitted_notebook", "grade", "comment"}
    assert set(left) == set(fixed)
    for name in set(left) - people:
        assert left[name] == fixed[name], name
    assert report("01", course=Course.at(course.home)).html.is_file()
