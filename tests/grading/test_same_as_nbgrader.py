"""Is the gradebook row by row the one that nbgrader's own autograde makes of the same class?"""

from __future__ import annotations

import logging
import sqlite3

import pytest
from nbformat.v4 import new_code_cell, new_markdown_cell
from twostroke import lab as labs
from twostroke.grading import invent
from twostroke.grading.place import prepare_environment

LAB = "lab01"
_SUBMITTED = (
    "join submitted_notebook sn on sn.id = {0}.notebook_id join notebook n on n.id = sn.notebook_id "
    "join submitted_assignment sa on sa.id = sn.assignment_id"
)
QUERIES = {
    "courses": "select id from course",
    "assignments": "select name, duedate, course_id from assignment",
    "notebooks": "select n.name, a.name, n.kernelspec from notebook n "
    "join assignment a on a.id = n.assignment_id",
    "cells": "select bc.name, bc.type, n.name from base_cell bc join notebook n on n.id = bc.notebook_id",
    "grade_cells": "select bc.name, g.max_score, g.cell_type from grade_cells g "
    "join base_cell bc on bc.id = g.id",
    "source_cells": "select bc.name, s.cell_type, s.locked, s.source, s.checksum from source_cell s "
    "join base_cell bc on bc.id = s.id",
    "students": "select id, first_name, last_name, email, lms_user_id from student",
    "submissions": "select a.name, sa.student_id, sa.timestamp, sa.extension from submitted_assignment sa "
    "join assignment a on a.id = sa.assignment_id",
    "submitted": "select sa.student_id, n.name, sn.flagged, sn.late_submission_penalty "
    "from submitted_notebook sn "
    "join notebook n on n.id = sn.notebook_id join submitted_assignment sa on sa.id = sn.assignment_id",
    "grades": "select sa.student_id, bc.name, g.auto_score, g.manual_score, g.extra_credit, "
    "g.needs_manual_grade "
    f"from grade g join base_cell bc on bc.id = g.cell_id {_SUBMITTED.format('g')}",
    "comments": "select sa.student_id, bc.name, c.auto_comment, c.manual_comment "
    f"from comment c join base_cell bc on bc.id = c.cell_id {_SUBMITTED.format('c')}",
}


def tables(path) -> dict[str, list[tuple]]:
    """Every table with names in place of drawn ids."""
    with sqlite3.connect(path) as book:
        names = {row[0] for row in book.execute("select name from sqlite_master where type = 'table'")}
        found = {}
        for name, query in QUERIES.items():
            found[name] = sorted(book.execute(query).fetchall(), key=repr)
        found["tables"] = sorted(names)
        return found


def fill(room, trusted) -> None:
    """Work as a class hands it in: right, wrong, partly done, untouched, with own cells, with an error."""
    room.put("learner-01", room.right("learner-01"))
    slips = labs.model_answers("01", "learner-02")
    for key, kinds in labs.slip_answers("01", "learner-02").items():
        task, _, item = key.partition(".")
        if kinds:
            slips[task][item] = kinds[sorted(kinds)[0]]
    room.put("learner-02", invent.fill(trusted, "learner-02", slips))
    half = labs.model_answers("01", "learner-03")
    room.put("learner-03", invent.fill(trusted, "learner-03", dict(list(half.items())[:4])))
    room.put("learner-04", invent.blank(trusted))
    room.changed("learner-05", own_cells)
    room.with_code("learner-06", "raise ValueError('stopped here')", task=2)


def own_cells(notebook) -> None:
    notebook.cells.insert(4, new_code_cell("thou = 0.0254\n12 * thou", id="own1"))
    notebook.cells.append(new_markdown_cell("my notes", id="own2"))


@pytest.mark.slow
def test_is_the_gradebook_the_same_row_by_row(session_class, trusted):
    from nbgrader.apps import NbGraderAPI

    ours, stock = session_class("ours"), session_class("stock")
    for room in (ours, stock):
        fill(room, trusted)
    ours.grade()
    prepare_environment()
    for place in sorted(stock.inbox.iterdir()):
        target = stock.course.submitted / place.name / LAB / f"{LAB}.ipynb"
        target.parent.mkdir(parents=True)
        target.write_bytes((place / LAB / f"{LAB}.ipynb").read_bytes())
    config = stock.course.config()
    config.CourseDirectory.release_directory = str(stock.folder / "release")
    api = NbGraderAPI(config=config)
    api.log.setLevel(logging.CRITICAL)
    assert api.generate_assignment(LAB)["success"]
    for place in sorted(stock.inbox.iterdir()):
        assert api.autograde(LAB, place.name)["success"]
    found, wanted = tables(ours.course.home / "gradebook.db"), tables(stock.course.home / "gradebook.db")
    assert found["tables"] == wanted["tables"]
    for name in QUERIES:
        assert found[name] == wanted[name], name
    assert len(wanted["grades"]) == 6 * 8
    assert {row[2] for row in wanted["grades"]} >= {0.0, 4.0}
