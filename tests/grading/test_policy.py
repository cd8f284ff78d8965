"""Do hand-ins count as the course has agreed: how often, which of them, and what late work costs?"""

from __future__ import annotations

import contextlib
import os
import signal
import sqlite3
from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from nbgrader.api import Gradebook
from sqlalchemy.orm import Session
from twostroke import lab as labs
from twostroke.grading import invent
from twostroke.grading.attempts import AttemptStore
from twostroke.grading.by_hand import Desk
from twostroke.grading.classlist import read_class
from twostroke.grading.gradebook import read_rows
from twostroke.grading.late import LatePolicy, settings
from twostroke.grading.place import Course
from twostroke.grading.policy import Policy
from twostroke.grading.standing import standings
from twostroke.grading.states import GradingError, Reason, State

LAB, WHO = "lab01", "learner-01"
DUE = datetime(2026, 12, 1, 17, 0, tzinfo=UTC)


def agree(room, text: str) -> None:
    """Write the class list anew."""
    room.course.home.mkdir(parents=True, exist_ok=True)
    (room.course.home / "class.toml").write_text(text, encoding="utf-8")
    room.course = Course.at(room.course.home)


def hand_in(room, tasks: int, learner: str = WHO, at: datetime | None = None, **settings):
    """Hand in with so many tasks right, and grade."""
    answers = dict(list(labs.model_answers("01", learner).items())[:tasks])
    room.put(learner, invent.fill(room.trusted, learner, answers))
    if at is not None:
        stamp = room.inbox / learner / LAB / "timestamp.txt"
        stamp.write_text(at.strftime("%Y-%m-%d %H:%M:%S.%f UTC"), encoding="ascii")
    return room.grade(workers=1, **settings)


def stands(room, learner: str = WHO):
    return next(each for each in standings(room.course, LAB) if each.learner == learner)


def in_the_book(room) -> float:
    with Gradebook(room.course.db_url) as book:
        found = book.find_submission(LAB, WHO)
        return found.score - (found.notebooks[0].late_submission_penalty or 0.0)


def page(room) -> str:
    return (room.course.feedback / WHO / LAB / f"{LAB}.html").read_text(encoding="utf-8")


def test_does_the_best_hand_in_stand_in_the_gradebook(make_class):
    room = make_class()
    points = []
    for tasks in (6, 3, 8, 2):
        hand_in(room, tasks)
        points.append(in_the_book(room))
    assert points[0] == points[1] < points[2] == points[3] == 24
    now = stands(room)
    assert (now.final, [line.counts for line in now.hand_ins]) == (24, [False, False, True, False])
    assert "hand-in 3 of 4 counts" in now.outcome.notes
    assert room.grade().done == 0


@pytest.mark.slow
def test_does_the_last_one_stand_where_that_was_agreed(make_class):
    room = make_class()
    agree(room, '[policy]\ncounts = "last"\n')
    for tasks in (6, 3):
        hand_in(room, tasks)
    assert in_the_book(room) == stands(room).final == stands(room).hand_ins[1].points < 24


@pytest.mark.slow
def test_does_a_changed_agreement_count_from_the_next_run(make_class):
    room = make_class()
    agree(room, '[policy]\ncounts = "last"\n')
    hand_in(room, 6)
    high = in_the_book(room)
    hand_in(room, 3)
    assert in_the_book(room) < high
    agree(room, '[policy]\ncounts = "best"\n')
    room.grade()
    assert in_the_book(room) == high


@pytest.mark.slow
def test_is_the_marked_notebook_that_of_the_hand_in_which_counts(make_class):
    room = make_class()
    hand_in(room, 8)
    first = room.graded_text(WHO)
    hand_in(room, 2)
    assert room.graded_text(WHO) == first


def test_is_the_page_about_the_newest_and_says_which_counts(make_class):
    room = make_class()
    hand_in(room, 8)
    hand_in(room, 2)
    text = page(room)
    assert "Hand-in 1: 24 of 24 points, counts" in text
    assert "Hand-in 2:" in text
    assert "in this hand-in; an earlier one counts" in text
    assert "Nothing is written here yet" in text


def test_are_marks_by_hand_kept_with_the_hand_in_they_were_given_to(make_class):
    room = make_class()
    hand_in(room, 8)
    desk = Desk(LAB, room.course)
    desk.give(desk.queue(task="metric", every=True)[0], 2.5, "shown at the bench")
    hand_in(room, 2)
    now = stands(room)
    assert (now.state, now.final) == (State.PERSON, None)
    assert {cause.reason for cause in now.causes} == {Reason.CONFIRM}
    (again,) = desk.queue()
    desk.give(again, 0.5, "for the second one")
    rows = read_rows(room.course, LAB)[WHO]
    assert (rows.grades["metric_mark"].manual, rows.comments["metric"]) == (2.5, "shown at the bench")
    assert stands(room).final == 22.5
    assert "for the second one" in page(room)


def test_is_a_broken_file_between_two_hand_ins_no_loss(make_class):
    room = make_class()
    hand_in(room, 8)
    room.put(WHO, b'{"cells": [')
    room.grade()
    assert stands(room).state is State.NOT_GRADED
    hand_in(room, 3)
    assert stands(room).hand_ins[0].points == 24
    assert stands(room).final == 24


def test_are_more_hand_ins_than_agreed_not_marked_and_cost_nothing(make_class):
    room = make_class()
    agree(room, "[policy]\nattempts = 2\n")
    for tasks in (3, 6, 8):
        summary = hand_in(room, tasks)
    (outcome,) = summary.outcomes
    assert [cause.reason for cause in outcome.causes] == [Reason.TOO_MANY]
    now = stands(room)
    assert (now.state, len(now.hand_ins)) == (State.GRADED, 2)
    assert now.final == now.hand_ins[1].points
    assert any("2 are marked" in note for note in now.outcome.notes)
    assert hand_in(room, 8, force=True).outcomes[0].causes[0].reason is Reason.TOO_MANY


@pytest.mark.slow
def test_is_the_only_hand_in_kept_where_one_is_agreed(make_class):
    room = make_class()
    agree(room, "[policy]\nattempts = 1\n")
    hand_in(room, 3)
    before = in_the_book(room)
    hand_in(room, 8)
    assert in_the_book(room) == stands(room).final == before


LATE = "[policy]\nlate_percent_a_day = 10\nlate_days = 3\ngrace_minutes = 30\n[due]\nlab01 = {due}\n"


TABLE = [
    (timedelta(hours=-1), 1.0),
    (timedelta(minutes=29), 1.0),
    (timedelta(minutes=31), 0.9),
    (timedelta(days=1, minutes=29), 0.9),
    (timedelta(days=1, minutes=31), 0.8),
    (timedelta(days=3), 0.7),
    (timedelta(days=4), 0.0),
]


@pytest.mark.parametrize(("late", "share"), TABLE)
def test_does_each_day_begun_cost_its_share(late, share):
    config = settings(Policy(late_percent_a_day=10, late_days=3, grace_minutes=30))
    taken = LatePolicy(config=config).late_submission_penalty(WHO, 24.0, max(0.0, late.total_seconds()))
    assert 24.0 - (taken or 0.0) == pytest.approx(24 * share)


@pytest.mark.parametrize(("late", "share"), [TABLE[1], TABLE[4], TABLE[6]])
def test_does_late_work_cost_what_was_agreed(make_class, late, share):
    room = make_class()
    agree(room, LATE.format(due="2026-12-01T18:00:00+01:00"))
    hand_in(room, 8, at=DUE + late)
    assert in_the_book(room) == stands(room).final == pytest.approx(24 * share)
    assert ("handed in late" in page(room)) == (share < 1)


@pytest.mark.slow
def test_is_a_late_better_hand_in_weighed_with_what_it_costs(make_class):
    room = make_class()
    agree(room, LATE.format(due="2026-12-01T18:00:00+01:00"))
    hand_in(room, 8, at=DUE - timedelta(hours=1))
    answers = labs.model_answers("01", WHO)
    room.put(WHO, invent.as_bytes(invent.fill(room.trusted, WHO, answers)) + b"\n")
    stamp = room.inbox / WHO / LAB / "timestamp.txt"
    stamp.write_text("2026-12-03 12:00:00 UTC")
    room.grade()
    assert [line.points for line in stands(room).hand_ins] == [24.0, pytest.approx(19.2)]
    assert stands(room).final == 24


@pytest.mark.slow
def test_is_an_unknown_time_never_late_and_said(make_class):
    room = make_class()
    agree(room, LATE.format(due="2020-12-01T18:00:00+01:00"))
    hand_in(room, 8)
    assert stands(room).final == 24
    assert any("not known" in note for note in stands(room).outcome.notes)


@pytest.mark.slow
def test_does_the_date_of_the_file_count_where_that_was_agreed(make_class):
    room = make_class()
    text = LATE.format(due="2020-12-01T18:00:00+01:00")
    agree(room, text.replace("[policy]", '[policy]\ntime_from = "file"'))
    hand_in(room, 8)
    assert stands(room).final == 0


@pytest.mark.slow
def test_does_a_mark_by_hand_change_what_late_work_costs(make_class):
    room = make_class()
    agree(room, LATE.format(due="2026-12-01T18:00:00+01:00"))
    hand_in(room, 8, at=DUE + timedelta(hours=5))
    desk = Desk(LAB, room.course)
    desk.give(desk.queue(task="metric", every=True)[0], 0.0)
    assert in_the_book(room) == stands(room).final == pytest.approx(0.9 * (24 - 4))


@pytest.mark.slow
def test_does_an_extension_granted_in_nbgrader_count(make_class):
    room = make_class()
    agree(room, LATE.format(due="2026-12-01T18:00:00+01:00"))
    hand_in(room, 8, at=DUE + timedelta(hours=5))
    with Gradebook(room.course.db_url) as book:
        book.grant_extension(LAB, WHO, days=1)
    hand_in(room, 8, at=DUE + timedelta(hours=5), force=True)
    assert stands(room).final == 24


def test_does_nbgrader_itself_take_off_the_same(make_class):
    from nbgrader.preprocessors import AssignLatePenalties

    room = make_class()
    agree(room, LATE.format(due="2026-12-01T18:00:00+01:00"))
    step = AssignLatePenalties(config=room.course.config())
    step.init_plugin()
    assert isinstance(step.plugin_inst, LatePolicy)
    assert step.plugin_inst.late_submission_penalty(WHO, 24.0, 86_400 + 7200) == pytest.approx(4.8)


@given(st.floats(0, 100), st.floats(0, 10**7), st.floats(0, 100))
def test_is_the_penalty_never_more_than_the_points_nor_less_for_later_work(score, seconds, percent):
    plugin = LatePolicy()
    plugin.percent_a_day = percent
    now = plugin.late_submission_penalty(WHO, score, seconds) or 0.0
    later = plugin.late_submission_penalty(WHO, score, seconds + 86_400) or 0.0
    assert 0 <= now <= score + 1e-4
    assert later >= now


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("[policy]\nattempts = -1\n", "policy.attempts"),
        ('[policy]\ncounts = "worst"\n', "'best' or 'last'"),
        ("[policy]\nlate_percent_a_day = 110\n", "less than or equal to 100"),
        ("[due]\nlab01 = 2026-12-01T18:00:00\n", "needs its zone"),
        ("[due]\nlab1 = 2026-12-01T18:00:00Z\n", "write labs as lab01"),
        ("[policy]\nfoo = 1\n", "policy.foo"),
    ],
)
def test_is_an_impossible_agreement_refused_in_words(tmp_path, text, says):
    (tmp_path / "class.toml").write_text(text)
    with pytest.raises(GradingError, match=says):
        read_class(tmp_path / "class.toml")


def test_does_the_example_of_a_class_list_read(tmp_path):
    found = read_class(Course.at().home / "class.example.toml")
    assert (found.policy.counts, found.due["lab01"].hour) == ("best", 17)
    assert "10 % off" in found.policy.text
    assert Policy().text.endswith("costs nothing")


def state(room) -> dict:
    """All that must not depend on how a run went."""
    with contextlib.closing(sqlite3.connect(room.course.home / "gradebook.db")) as book:
        grades = book.execute(
            "select bc.name, g.auto_score, g.manual_score, g.needs_manual_grade from grade g "
            "join base_cell bc on bc.id = g.cell_id order by 1"
        ).fetchall()
    store = AttemptStore(room.course, LAB)
    return {
        "grades": grades,
        "attempts": store.load(WHO),
        "page": page(room),
        "notebook": room.graded_text(WHO),
        "stands": stands(room),
    }


def killed_at(room, at: int) -> None:
    """Hand in something worse, killed before the n-th write."""
    count = 0

    def wrap(call):
        def counted(*args, **names):
            nonlocal count
            count += 1
            if count == at:
                os.kill(os.getpid(), signal.SIGKILL)
            return call(*args, **names)

        return counted

    child = os.fork()
    if child == 0:
        try:
            os.replace, os.fsync, Session.commit = wrap(os.replace), wrap(os.fsync), wrap(Session.commit)
            hand_in(room, 2)
        finally:
            os._exit(0)
    status = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
    assert status == -signal.SIGKILL, "the run was not killed at all"


@pytest.fixture(scope="module")
def undisturbed(session_class) -> dict:
    """What two hand-ins leave when nothing comes between."""
    room = session_class("undisturbed")
    hand_in(room, 8)
    hand_in(room, 2)
    return state(room)


@pytest.mark.slow
@pytest.mark.parametrize("at", range(2, 26, 2))
def test_does_a_run_killed_anywhere_while_they_change_places_finish_the_same(make_class, undisturbed, at):
    room = make_class()
    hand_in(room, 8)
    killed_at(room, at)
    hand_in(room, 2)
    found = state(room)
    for name in undisturbed:
        assert found[name] == undisturbed[name], name
    assert stands(room).final == 24


def test_does_a_dry_run_say_what_would_happen_to_each(make_class):
    room = make_class()
    agree(room, "[policy]\nattempts = 1\n")
    for learner in ("learner-01", "learner-02"):
        hand_in(room, 8, learner)
    hand_in_only = room.right("learner-03")
    room.put("learner-03", hand_in_only)
    room.changed("learner-02", lambda n: n.cells.pop())
    before = sorted(room.course.home.rglob("*"))
    found = {o.learner: o for o in room.grade(dry_run=True).outcomes}
    assert sorted(room.course.home.rglob("*")) == before
    assert "passed over" in found["learner-01"].notes[-1]
    assert found["learner-02"].causes[-1].reason is Reason.TOO_MANY
    assert "would be run and marked" in found["learner-03"].notes[-1]


@pytest.mark.slow
def test_is_a_damaged_store_named(make_class):
    room = make_class()
    hand_in(room, 8)
    hand_in(room, 2)
    path = AttemptStore(room.course, LAB).folder(WHO) / "attempts.json"
    path.write_text("{")
    with pytest.raises(GradingError, match="damaged"):
        stands(room)
