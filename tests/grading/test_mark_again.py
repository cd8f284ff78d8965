"""Can one task be marked again for a class, from what was recorded, and is the run seen while it goes on?"""

from __future__ import annotations

import io
import json
import os
import re
import signal

import pytest
from click.testing import CliRunner
from rich.console import Console
from sqlalchemy.orm import Session
from twostroke import cli
from twostroke import lab as labs
from twostroke.grading import again, invent, screen
from twostroke.grading.attempts import AttemptStore
from twostroke.grading.by_hand import Desk
from twostroke.grading.gradebook import read_rows
from twostroke.grading.journal import Journal
from twostroke.grading.pool import Lost
from twostroke.grading.standing import standings
from twostroke.grading.states import Cause, GradingError, Outcome, Reason, State, TaskResult

LAB, TASK = "lab01", "metric"


@pytest.fixture
def room(make_class):
    made = make_class()
    for learner in ("learner-01", "learner-02"):
        made.put(learner, made.right(learner))
    made.put("learner-03", b"")
    made.grade(workers=1)
    return made


class Spoilt:
    """A marking that gives one point less in the task; what came of mending it, the other way round."""

    def __init__(self, real, fails: bool = False):
        self.real, self.fails, self.asked = real, fails, []

    def ask(self, request, seconds):
        if self.fails:
            raise Lost("ended with code 1")
        self.asked.append(request)
        reply = self.real.ask(request, seconds)
        for mark in reply["marks"]:
            if mark["task"] == TASK:
                mark |= {
                    "points": 3.0,
                    "state": "part right",
                    "steps": [{"item": "", "seen": "a of the task", "check": "b of the task"}],
                    "slips": ["s"],
                }
        return reply

    def close(self):
        self.real.close()


@pytest.fixture
def mended(monkeypatch):
    """The marking as it is after somebody has changed it."""
    start = again.start_marker
    made = []

    def changed(lab):
        made.append(Spoilt(start(lab)))
        return made[-1]

    monkeypatch.setattr(again, "start_marker", changed)
    return made


def page(room, learner: str) -> str:
    return (room.course.feedback / learner / LAB / f"{LAB}.html").read_text(encoding="utf-8")


def points(room) -> dict:
    return {name: rows.grades["metric_mark"].auto for name, rows in read_rows(room.course, LAB).items()}


def test_does_nothing_change_where_the_marking_did_not(room):
    assert again.mark_again(LAB, TASK, course=room.course) == []


def test_do_gradebook_page_notebook_and_journal_follow_the_mended_marking(room, mended):
    changes = again.mark_again(LAB, TASK, course=room.course)
    assert [(c.learner, c.before, c.after) for c in changes] == [("learner-01", 4, 3), ("learner-02", 4, 3)]
    assert points(room) == {"learner-01": 3.0, "learner-02": 3.0}
    page = (room.course.feedback / "learner-01" / LAB / f"{LAB}.html").read_text(encoding="utf-8")
    assert "3 of 4" in page
    assert "23</b> of 24 points" in page
    cells = json.loads(room.graded_text("learner-01"))["cells"]
    shown = next(c for c in cells if c["metadata"].get("nbgrader", {}).get("grade_id") == "metric_mark")
    assert shown["outputs"][0]["data"]["text/plain"] == "3.0"
    outcome = Journal.of(room.course, LAB).get("learner-01")
    assert next(t for t in outcome.tasks if t.task == TASK).slips == ("s",)
    assert outcome.points == 23
    assert room.grade(workers=1).done == 0


def test_is_one_learner_alone_marked_again_when_asked(room, mended):
    again.mark_again(LAB, "metric_mark", course=room.course, learner="Learner 02")
    assert points(room) == {"learner-01": 4.0, "learner-02": 3.0}


def test_does_a_dry_run_only_say_what_would_change(room, mended):
    before = {path: path.read_bytes() for path in room.course.home.rglob("*") if path.is_file()}
    assert len(again.mark_again(LAB, TASK, course=room.course, dry_run=True)) == 2
    changed = {path for path in room.course.home.rglob("*") if path.is_file()} ^ set(before)
    assert not changed
    assert points(room) == {"learner-01": 4.0, "learner-02": 4.0}


def test_are_points_of_a_person_kept_and_shown_again(room, mended):
    desk = Desk(LAB, room.course)
    desk.give(desk.queue(task=TASK, learner="learner-01", every=True)[0], 2.5)
    again.mark_again(LAB, TASK, course=room.course)
    row = read_rows(room.course, LAB)["learner-01"].grades["metric_mark"]
    assert (row.auto, row.manual, row.due) == (3.0, 2.5, True)


def test_is_a_hand_in_that_does_not_count_marked_again_in_its_place(room, mended):
    answers = dict(list(labs.model_answers("01", "learner-01").items())[:2])
    room.put("learner-01", invent.fill(room.trusted, "learner-01", answers))
    room.grade(workers=1)
    again.mark_again(LAB, TASK, course=room.course)
    found = AttemptStore(room.course, LAB).load("learner-01")
    assert found.attempts[0].outcome.points == 23
    now = next(s for s in standings(room.course, LAB) if s.learner == "learner-01")
    assert now.final == max(line.points for line in now.hand_ins)


def test_is_a_failure_of_the_marking_no_change(room, monkeypatch):
    start = again.start_marker
    monkeypatch.setattr(again, "start_marker", lambda lab: Spoilt(start(lab), fails=True))
    with pytest.raises(GradingError, match="nothing was changed"):
        again.mark_again(LAB, TASK, course=room.course)
    assert points(room) == {"learner-01": 4.0, "learner-02": 4.0}


@pytest.mark.slow
@pytest.mark.parametrize("at", [2, 4, 5, 7, 9])
def test_is_a_run_that_was_cut_off_finished_by_the_next(room, mended, at):
    answers = dict(list(labs.model_answers("01", "learner-01").items())[:2])
    room.put("learner-01", invent.fill(room.trusted, "learner-01", answers))
    room.grade(workers=1)
    child = os.fork()
    if child == 0:
        count = 0

        def wrap(call):
            def counted(*args, **names):
                nonlocal count
                count += 1
                if count == at:
                    os.kill(os.getpid(), signal.SIGKILL)
                return call(*args, **names)

            return counted

        try:
            os.replace, os.fsync, Session.commit = wrap(os.replace), wrap(os.fsync), wrap(Session.commit)
            again.mark_again(LAB, TASK, course=room.course)
        finally:
            os._exit(0)
    assert os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == -signal.SIGKILL
    again.mark_again(LAB, TASK, course=room.course)
    assert again.mark_again(LAB, TASK, course=room.course) == []
    assert points(room) == {"learner-01": 3.0, "learner-02": 3.0}
    found = AttemptStore(room.course, LAB).load("learner-01")
    assert [each.outcome.points for each in found.attempts] == [23, 6]
    assert Journal.of(room.course, LAB).get("learner-01").points == 6
    assert "2 of 4" not in page(room, "learner-02")
    assert "3 of 4" in page(room, "learner-02")


@pytest.mark.parametrize(("task", "says"), [("nothing", "there are: "), ("metric", "nothing graded yet")])
def test_is_what_cannot_be_marked_again_said(make_class, task, says):
    with pytest.raises(GradingError, match=says):
        again.mark_again(LAB, task, course=make_class().course)


def test_does_the_command_say_whose_points_changed(room, mended):
    words = ["grade", "01", "--task", TASK, "--home", str(room.course.home)]
    done = CliRunner().invoke(cli.group, [*words, "--dry-run"])
    assert done.exit_code == 0, done.output
    assert "learner-01: 4 -> 3 points" in done.output
    assert "2 would change" in done.output
    told = CliRunner().invoke(cli.group, [*words, "--json"])
    assert json.loads(told.stdout)[0] == {"learner": "learner-01", "before": 4.0, "after": 3.0}


def outcome(number: int, state: State) -> Outcome:
    found = Outcome(learner=f"learner-{number:02d}", lab=LAB, state=state)
    if state is not State.GRADED:
        found.causes.append(Cause(reason=Reason.CRASHED, detail=f"at task {number} [bold]"))
    return found


def test_does_the_board_show_counts_and_the_newest_that_need_a_person_with_the_reason():
    board = screen.Board(LAB, most=3)
    states = [State.GRADED, State.PERSON, State.NOT_GRADED, State.PERSON, State.PERSON]
    for number, state in enumerate(states, 1):
        board.add(number, 20, outcome(number, state))
    console = Console(file=io.StringIO(), width=100)
    console.print(board)
    text = console.file.getvalue()
    assert "5 of 20" in text
    assert "graded 1" in text
    assert "needs a person 3" in text
    assert "crashed: at task 5 [bold]" in text
    assert "learner-02" not in text
    assert "and 1 before these" in text


def test_is_the_time_left_told_once_a_few_have_run():
    board = screen.Board(LAB)
    for number in range(1, 6):
        task = TaskResult(grade_id="t", task="t", points=1.0, max_points=1.0)
        board.add(number, 20, Outcome(learner=f"learner-{number}", lab=LAB, state=State.GRADED, tasks=[task]))
    console = Console(file=io.StringIO(), width=100)
    console.print(board)
    assert re.search(r"5 of 20, about \d+ (s|min) left", console.file.getvalue())
