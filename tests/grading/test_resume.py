"""Does a run that is killed anywhere, or meets a full disk, finish later with the same marks, losing nothing?

A run is a fork of this process, so that its start costs nothing; it ends itself at the n-th write, or is
killed from outside at a drawn moment. Then the command is run again, and everything that counts is compared
with an undisturbed run: rows of the gradebook, states, marked notebooks, pages.
"""

from __future__ import annotations

import contextlib
import errno
import os
import random
import signal
import sqlite3
import time
from pathlib import Path

import pytest
from sqlalchemy.orm import Session
from twostroke.grading import gradebook
from twostroke.grading.journal import Journal, only_one
from twostroke.grading.run import grade
from twostroke.grading.states import GradingError, Reason, State

LEARNERS = 5
LAB = "lab01"

# Writes of a run, counted. Into a gradebook that knows the lab: copies of what was handed in (3 to 8), then
# rows, marked notebooks, pages and journal, by batches (9 to 23). A gradebook that is not there is made
# first, with a commit for each cell of the lab (1 to 69).
WRITES = [1, 2, 3, 9, 10, 11, 12, 14, 16, 17, 20, 22]
MAKING = [1, 33, 67, 68, 69]


def fill(room) -> None:
    """A small class: right, copied cell, crash, broken, right."""
    room.put("learner-01", room.right("learner-01"))
    room.changed("learner-02", lambda n: n.cells.append(n.cells[6]))
    room.with_code("learner-03", "import os; os._exit(1)", task=4)
    room.put("learner-04", b'{"cells": [')
    room.put("learner-05", room.right("learner-05"))


_BELONGS = (
    "join base_cell bc on bc.id = {0}.cell_id join submitted_notebook sn on sn.id = {0}.notebook_id "
    "join submitted_assignment sa on sa.id = sn.assignment_id order by 1, 2"
)
QUERIES = {
    "grades": "select sa.student_id, bc.name, g.auto_score, g.manual_score, g.extra_credit, "
    f"g.needs_manual_grade from grade g {_BELONGS.format('g')}",
    "comments": "select sa.student_id, bc.name, c.auto_comment, c.manual_comment from comment c "
    f"{_BELONGS.format('c')}",
    "submissions": "select student_id, timestamp, extension from submitted_assignment order by 1",
    "notebooks": "select sa.student_id, sn.flagged, sn.late_submission_penalty from submitted_notebook sn "
    "join submitted_assignment sa on sa.id = sn.assignment_id order by 1",
    "students": "select id, first_name, last_name, email from student order by 1",
}


def rows(course) -> dict[str, list[tuple]]:
    """Everything in the gradebook that means something, without drawn ids and times."""
    with contextlib.closing(sqlite3.connect(course.home / "gradebook.db")) as book:
        return {name: book.execute(query).fetchall() for name, query in QUERIES.items()}


def result(course) -> dict[str, object]:
    """All that a run leaves and that must not depend on how it went."""
    files = {
        str(path.relative_to(course.home)): path.read_bytes()
        for folder in (course.autograded, course.feedback, course.submitted)
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }
    return {"rows": rows(course), "states": Journal.of(course, LAB).outcomes(), "files": files}


@pytest.fixture(scope="module")
def undisturbed(session_class):
    room = session_class("undisturbed")
    fill(room)
    room.grade(workers=1)
    return room, result(room.course)


def in_a_fork(work) -> int:
    """Run in a fork; return its exit status."""
    child = os.fork()
    if child == 0:
        code = 1
        try:
            work()
            code = 0
        finally:
            os._exit(code)
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])


class Counter:
    """Counts writes and does something at the n-th."""

    def __init__(self, at: int, act):
        self.at, self.act, self.count = at, act, 0

    def wrap(self, call):
        def counted(*args, **names):
            self.count += 1
            if self.count == self.at:
                self.act()
            return call(*args, **names)

        return counted


def graded_with_fault(room, at: int, act) -> None:
    """Grade with something happening at the n-th write: before a rename, a forced write or a commit."""
    counter = Counter(at, act)
    os.replace, os.fsync = counter.wrap(os.replace), counter.wrap(os.fsync)
    commit = Session.commit
    Session.commit = counter.wrap(commit)
    room.grade(workers=1)


def die() -> None:
    os.kill(os.getpid(), signal.SIGKILL)


def no_space() -> None:
    raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


def check_finishes_alike(room, undisturbed) -> None:
    room.grade(workers=1)
    found, wanted = result(room.course), undisturbed[1]
    assert found["rows"] == wanted["rows"]
    assert found["files"] == wanted["files"]
    assert found["states"] == wanted["states"]
    again = room.grade(workers=1)
    assert again.done == 0


def killed_at_write(room, undisturbed, at: int) -> None:
    fill(room)
    # Later writes than these hang on how many submissions are done together.
    sure = 22 if (room.course.home / "gradebook.db").exists() else 69
    status = in_a_fork(lambda: graded_with_fault(room, at, die))
    assert status == -signal.SIGKILL or (status == 0 and at > sure), "the run was not killed at all"
    check_finishes_alike(room, undisturbed)


@pytest.mark.parametrize("at", [5, 8])
def test_does_a_run_killed_at_a_write_finish_the_same(make_class, undisturbed, at):
    killed_at_write(make_class(), undisturbed, at)


@pytest.mark.slow
@pytest.mark.parametrize("at", WRITES)
def test_does_a_run_killed_at_any_kind_of_write_finish_the_same(make_class, undisturbed, at):
    killed_at_write(make_class(), undisturbed, at)


@pytest.mark.slow
@pytest.mark.parametrize("at", MAKING)
def test_does_a_run_killed_while_the_gradebook_is_made_finish_the_same(make_class, undisturbed, at):
    killed_at_write(make_class(fresh=True), undisturbed, at)


@pytest.mark.long
@pytest.mark.parametrize("at", range(1, 95))
def test_does_a_run_killed_at_any_write_finish_the_same(make_class, undisturbed, at):
    killed_at_write(make_class(fresh=True), undisturbed, at)


@pytest.mark.parametrize(
    "number",
    [pytest.param(at, marks=pytest.mark.slow if at < 6 else pytest.mark.long) for at in range(20)],
)
def test_does_a_run_killed_at_any_moment_finish_the_same(make_class, undisturbed, number):
    room = make_class(fresh=number % 2 == 0)
    fill(room)
    child = os.fork()
    if child == 0:
        try:
            room.grade(workers=1)
        finally:
            os._exit(0)
    time.sleep(random.Random(number).uniform(0.1, 4.0))
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    check_finishes_alike(room, undisturbed)


@pytest.mark.parametrize("at", [7])
def test_does_a_full_disk_lose_nothing(make_class, undisturbed, at):
    full_disk(make_class(), undisturbed, at)


@pytest.mark.slow
@pytest.mark.parametrize("at", [2, 3, 9, 10, 11, 12, 16])
def test_does_a_full_disk_at_any_kind_of_write_lose_nothing(make_class, undisturbed, at):
    full_disk(make_class(), undisturbed, at)


@pytest.mark.slow
@pytest.mark.parametrize("at", [33, 69])
def test_does_a_full_disk_while_the_gradebook_is_made_lose_nothing(make_class, undisturbed, at):
    full_disk(make_class(fresh=True), undisturbed, at)


def full_disk(room, undisturbed, at: int) -> None:
    fill(room)

    def work():
        try:
            graded_with_fault(room, at, no_space)
        except GradingError as error:
            os._exit(5 if "run the same command again" in str(error) else 6)

    assert in_a_fork(work) in (0, 5)
    check_finishes_alike(room, undisturbed)


def test_is_a_finished_run_not_done_again(undisturbed):
    room, _ = undisturbed
    summary = room.grade()
    assert (summary.done, summary.skipped) == (0, LEARNERS)


def test_is_a_changed_file_marked_again(make_class):
    room = make_class()
    fill(room)
    room.grade()
    room.put("learner-04", room.right("learner-04"))
    summary = room.grade()
    assert summary.done == 1
    assert {o.learner: o.state for o in summary.outcomes}["learner-04"] is State.GRADED


def test_do_marks_stay_when_a_worse_file_follows(make_class):
    room = make_class()
    room.put("learner-01", room.right("learner-01"))
    room.grade()
    before = rows(room.course)["grades"]
    room.put("learner-01", b'{"cells": [')
    (outcome,) = room.grade().outcomes
    assert outcome.state is State.NOT_GRADED
    assert any("marks stay" in note for note in outcome.notes)
    assert rows(room.course)["grades"] == before


def test_are_marks_and_comments_by_hand_never_overwritten(make_class):
    room = make_class()
    room.put("learner-01", room.right("learner-01"))
    room.grade()
    with gradebook.Gradebook(room.course.db_url) as book:
        grade_row = book.find_grade("metric_mark", LAB, LAB, "learner-01")
        grade_row.manual_score, grade_row.extra_credit = 1.5, 0.5
        book.find_comment("metric", LAB, LAB, "learner-01").manual_comment = "shown at the bench"
        book.db.commit()
    room.grade(force=True)
    found = rows(room.course)
    assert ("learner-01", "metric_mark", 4.0, 1.5, 0.5, 1) in found["grades"]
    assert ("learner-01", "metric", None, "shown at the bench") in found["comments"]


def test_is_the_gradebook_backed_up_before_each_run(make_class):
    room = make_class()
    room.put("learner-01", room.right("learner-01"))
    room.grade()
    backup = room.grade(force=True).backup
    with contextlib.closing(sqlite3.connect(backup)) as book:
        assert book.execute("select count(*) from submitted_assignment").fetchone() == (1,)


def test_is_a_second_instructor_told_to_wait(make_class):
    room = make_class()
    room.put("learner-01", room.right("learner-01"))
    with only_one(room.course), pytest.raises(GradingError, match="another run"):
        room.grade()
    assert room.grade().done == 1


def test_is_a_torn_last_line_of_the_journal_passed_over(make_class):
    room = make_class()
    room.put("learner-01", room.right("learner-01"))
    room.grade()
    path = room.course.journal / f"{LAB}.jsonl"
    path.write_bytes(path.read_bytes() + b'{"learner": "learner-01", "lab": "la')
    assert room.grade().skipped == 1


def test_is_an_engine_failure_never_a_grade(make_class, monkeypatch):
    from twostroke.grading import pool

    room = make_class()
    room.put("learner-01", room.right("learner-01"))
    monkeypatch.setattr(pool, "interpreter", lambda module, call: ["/bin/false"])
    summary = room.grade()
    (outcome,) = summary.outcomes
    assert (outcome.state, outcome.points, summary.engine_failures) == (State.NOT_GRADED, None, 1)
    assert [cause.reason for cause in outcome.causes] == [Reason.ENGINE]
    assert rows(room.course)["grades"] == []
    monkeypatch.undo()
    (outcome,) = room.grade().outcomes
    assert outcome.state is State.GRADED


def test_is_a_database_failure_never_a_grade(make_class, monkeypatch):
    from sqlalchemy.exc import OperationalError

    room = make_class()
    room.put("learner-01", room.right("learner-01"))
    room.put("learner-02", room.right("learner-02"))
    record = gradebook.Recorder.record

    def fails(self, notebook, student, *rest):
        if student == "learner-01":
            raise OperationalError("insert", {}, Exception("database is locked"))
        return record(self, notebook, student, *rest)

    monkeypatch.setattr(gradebook.Recorder, "record", fails)
    found = {o.learner: o for o in room.grade().outcomes}
    assert found["learner-01"].engine_failed
    assert found["learner-02"].points == 24
    assert {row[0] for row in rows(room.course)["grades"]} == {"learner-02"}


def test_does_a_run_need_no_particular_folder(make_class, monkeypatch, tmp_path):
    room = make_class()
    room.put("learner-01", room.right("learner-01"))
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    monkeypatch.chdir(elsewhere)
    grade(LAB, room.inbox, course=room.course, trust=True)
    assert list(elsewhere.iterdir()) == []
    top = Path(gradebook.__file__).parents[3]
    assert not (top / "gradebook.db").exists()
