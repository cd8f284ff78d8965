"""Can written answers be marked from a queue, with undo, into nbgrader's gradebook, and stay as marked?"""

from __future__ import annotations

import asyncio
import errno
import json
import os
import shutil
import signal

import pytest
from click.testing import CliRunner
from nbgrader.api import Gradebook
from sqlalchemy.orm import Session
from twostroke import cli
from twostroke import lab as labs
from twostroke.grading import invent, skeleton
from twostroke.grading.by_hand import Desk
from twostroke.grading.gradebook import read_rows
from twostroke.grading.journal import only_one
from twostroke.grading.marking_screen import MarkingScreen
from twostroke.grading.place import Course
from twostroke.grading.run import grade
from twostroke.grading.standing import standings
from twostroke.grading.states import GradingError, Reason, State

LAB, TASK = "lab04", "explain"
LEARNERS = ("learner-01", "learner-02", "learner-03")


@pytest.fixture(scope="module")
def graded_home(tmp_path_factory):
    """Three learners' work on a lab with a written answer, marked by the checker."""
    folder = tmp_path_factory.mktemp("written")
    trusted = skeleton.load(Course.at().source_notebook(LAB))
    for learner in LEARNERS:
        answers = labs.model_answers("04", learner)
        data = invent.as_bytes(invent.fill(trusted, learner, answers))
        invent.put(folder / "inbox", learner, LAB, data)
    grade(LAB, folder / "inbox", course=Course.at(folder / "home"), trust=True, workers=1)
    return folder


@pytest.fixture
def course(graded_home, tmp_path):
    shutil.copytree(graded_home, tmp_path / "class")
    return Course.at(tmp_path / "class" / "home")


@pytest.fixture
def desk(course):
    return Desk("04", course, "first")


def state(course, learner: str):
    return next(each for each in standings(course, LAB) if each.learner == learner)


def test_does_the_queue_hold_every_written_answer_with_its_rubric_and_guide(desk):
    pieces = desk.queue()
    assert sorted(piece.learner for piece in pieces) == list(LEARNERS)
    for piece in pieces:
        assert piece.task == TASK
        assert len(piece.answer.split()) > 50
        assert sum(worth for _, worth in piece.rubric) == pytest.approx(piece.possible)
        assert "Half of a row" in piece.guide
        assert piece.mark.due
        assert piece.others


def test_are_rows_of_the_rubric_the_points(desk, course):
    piece = desk.queue()[0]
    assert state(course, piece.learner).final is None
    desk.give(piece, rows=(1.0, 0.5, 0.0, 1.0), comment="Name the setting of the tester.")
    assert read_rows(course, LAB)[piece.learner].grades[TASK].manual == pytest.approx(1.2 + 0.6 + 0.8)
    now = state(course, piece.learner)
    assert (now.state, now.causes) == (State.GRADED, ())
    assert now.final == pytest.approx(now.outcome.points + 2.6)
    assert piece.learner not in {each.learner for each in desk.queue()}


def test_does_nbgrader_itself_read_the_mark(desk, course):
    piece = desk.queue()[0]
    desk.give(piece, 3.5, "Good.")
    with Gradebook(course.db_url) as book:
        row = book.find_grade(TASK, LAB, LAB, piece.learner)
        assert (row.score, row.needs_manual_grade) == (3.5, False)
        assert book.find_comment(TASK, LAB, LAB, piece.learner).comment == "Good."


def test_does_the_learner_read_points_and_comment(desk, course):
    piece = desk.queue()[0]
    page = course.feedback / piece.learner / LAB / f"{LAB}.html"
    assert "points come later" in page.read_text(encoding="utf-8")
    desk.give(piece, 3.5, "Say <how> sure.")
    text = page.read_text(encoding="utf-8")
    assert "Say &lt;how&gt; sure." in text
    assert "3.5 of 4" in text
    assert "points come later" not in text


@pytest.mark.parametrize("points", [-0.5, 4.5, float("nan"), float("inf"), "4", True])
def test_are_impossible_points_refused(desk, points):
    with pytest.raises(GradingError, match="from 0 to 4"):
        desk.give(desk.queue()[0], points)


@pytest.mark.parametrize("rows", [(1.0,), (1.0, 1.0, 1.0, 2.0), (-1.0, 0.0, 0.0, 0.0)])
def test_are_impossible_shares_refused(desk, rows):
    with pytest.raises(GradingError, match="from 0 to 1"):
        desk.give(desk.queue()[0], rows=rows)


def test_does_undo_put_back_what_stood_there_step_by_step_and_on_another_day(desk, course):
    piece = desk.queue()[0]
    before = read_rows(course, LAB)
    desk.give(piece, 2.0, "first")
    again = desk.queue(every=True, learner=piece.learner)[0]
    desk.give(again, 3.0, "second")
    later = Desk("04", course, "second")
    assert later.undo().after.points == 2.0
    assert read_rows(course, LAB)[piece.learner].comments == {TASK: "first"}
    later.undo()
    assert read_rows(course, LAB) == before
    assert later.undo() is None


def test_is_a_mark_that_another_person_gave_meanwhile_never_written_over(desk, course):
    piece = desk.queue()[0]
    Desk("04", course, "other").give(piece, 1.0)
    with pytest.raises(GradingError, match="changed meanwhile"):
        desk.give(piece, 4.0)
    assert read_rows(course, LAB)[piece.learner].grades[TASK].manual == 1.0


def test_does_undo_refuse_what_the_form_of_nbgrader_changed_since(desk, course):
    piece = desk.queue()[0]
    desk.give(piece, 2.0)
    with Gradebook(course.db_url) as book:
        book.find_grade(TASK, LAB, LAB, piece.learner).manual_score = 2.5
        book.db.commit()
    with pytest.raises(GradingError, match="changed meanwhile"):
        desk.undo()


def test_is_another_writer_waited_for_and_then_named(desk, course, monkeypatch):
    monkeypatch.setattr("twostroke.grading.by_hand._PATIENCE", 0.2)
    piece = desk.queue()[0]
    with only_one(course), pytest.raises(GradingError, match="another run"):
        desk.give(piece, 2.0)
    desk.give(piece, 2.0)


def test_is_the_gradebook_backed_up_before_the_first_mark(desk, course):
    before = set(course.backups.glob("gradebook-*"))
    for piece in desk.queue():
        desk.give(piece, 1.0)
    assert len(set(course.backups.glob("gradebook-*")) - before) == 1


def test_does_a_later_run_keep_marks_and_ask_for_a_look(desk, course, graded_home):
    piece = desk.queue()[0]
    desk.give(piece, 3.0, "kept")
    grade(LAB, graded_home / "inbox", course=course, trust=True, workers=1, force=True)
    rows = read_rows(course, LAB)[piece.learner]
    assert (rows.grades[TASK].manual, rows.comments[TASK]) == (3.0, "kept")
    now = state(course, piece.learner)
    assert now.state is State.PERSON
    assert {cause.reason for cause in now.causes} >= {Reason.CONFIRM}
    again = next(each for each in desk.queue() if each.learner == piece.learner)
    assert again.mark.points == 3.0
    desk.give(again, again.mark.points)
    assert state(course, piece.learner).state is State.GRADED


def test_can_a_person_put_right_what_the_checker_gave(desk, course):
    task = next(t.task for t in desk._outcomes["learner-01"].tasks if t.task != TASK)
    piece = desk.queue(task=task, learner="learner-01", every=True)[0]
    desk.give(piece, 0.0, "talked over")
    now = state(course, "learner-01")
    assert next(t.points for t in now.tasks if t.task == task) == 0.0
    page = (course.feedback / "learner-01" / LAB / f"{LAB}.html").read_text(encoding="utf-8")
    assert "talked over" in page


def test_is_a_torn_line_of_the_log_passed_over(desk, course):
    piece = desk.queue()[0]
    desk.give(piece, 2.0)
    desk.log.path.write_bytes(desk.log.path.read_bytes() + b'{"number": 2, "at"')
    desk.give(desk.queue()[0], 1.0)
    assert [entry.after.points for entry in desk.log.entries()] == [2.0, 1.0]


def test_is_a_lab_that_nobody_graded_refused_in_words(tmp_path):
    with pytest.raises(GradingError, match="nothing graded yet"):
        Desk("04", Course.at(tmp_path))


def cut_off(at: int, act, work) -> None:
    """Do something in a fork, which at the n-th write is killed or finds the disk full."""
    count = 0

    def wrap(call):
        def counted(*args, **names):
            nonlocal count
            count += 1
            if count == at:
                act()
            return call(*args, **names)

        return counted

    child = os.fork()
    if child == 0:
        try:
            os.replace, os.fsync, Session.commit = wrap(os.replace), wrap(os.fsync), wrap(Session.commit)
            work()
        except GradingError:
            os._exit(5)
        finally:
            os._exit(0)
    os.waitpid(child, 0)


def die() -> None:
    os.kill(os.getpid(), signal.SIGKILL)


def no_space() -> None:
    raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


def check_whole(course, at: int, act) -> None:
    """A mark that was cut off is there or not; given again and taken back, nothing of it is left."""
    before = read_rows(course, LAB)
    who = Desk("04", course).queue()[0].learner

    def work() -> None:
        desk = Desk("04", course)
        desk.give(desk.queue(learner=who)[0], 3.0, "cut off")

    cut_off(at, act, work)
    now = read_rows(course, LAB)[who]
    assert (now.grades[TASK].manual, now.comments.get(TASK)) in ((None, None), (3.0, "cut off"))
    desk = Desk("04", course)
    desk.give(desk.queue(learner=who, every=True)[0], 3.0, "cut off")
    page = (course.feedback / who / LAB / f"{LAB}.html").read_text(encoding="utf-8")
    assert "3 of 4" in page
    assert read_rows(course, LAB)[who].grades[TASK].manual == 3.0
    while desk.undo() is not None:
        pass
    assert read_rows(course, LAB) == before


@pytest.mark.parametrize("at", [2, 4])
def test_is_a_mark_that_was_cut_off_there_or_not(course, at):
    check_whole(course, at, die)


@pytest.mark.slow
@pytest.mark.parametrize("act", [die, no_space])
@pytest.mark.parametrize("at", range(1, 9))
def test_is_a_mark_that_was_cut_off_anywhere_there_or_not(course, at, act):
    check_whole(course, at, act)


def test_is_a_full_disk_told_in_words(course, monkeypatch):
    desk = Desk("04", course)
    piece = desk.queue()[0]
    monkeypatch.setattr(os, "fsync", lambda handle: no_space())
    with pytest.raises(GradingError, match="writing failed"):
        desk.give(piece, 2.0)


def keys(desk, *pressed: str, size=(120, 40)):
    """Press keys on the screen; return it."""

    async def go():
        screen = MarkingScreen(desk, desk.queue())
        async with screen.run_test(size=size) as pilot:
            for key in pressed:
                await pilot.press(key)
                await pilot.pause()
            screen.seen = [str(w.render()) for w in screen.screen_stack[0].query("Static")]
            screen.open_dialogs = len(screen.screen_stack) - 1
        return screen

    return asyncio.run(go())


def test_can_a_class_be_marked_with_keys_alone(desk, course):
    order = [piece.learner for piece in desk.queue()]
    keys(
        desk,
        "1", "1", "2", "3", "c", *"Well told", "enter", "enter",  # full, half, half, with a comment
        "f", "r", "enter", "enter",  # all full, comment reused
        "p", *"2.5", "enter", "enter",  # typed
    )  # fmt: skip
    rows = read_rows(course, LAB)
    assert [rows[name].grades[TASK].manual for name in order] == pytest.approx([1.2 + 0.6 + 0.4, 4.0, 2.5])
    assert [rows[name].comments.get(TASK) for name in order] == ["Well told", "Well told", None]
    assert desk.queue() == []


def test_does_the_undo_key_go_back_to_the_answer(desk, course):
    screen = keys(desk, "f", "enter", "u")
    assert screen.at == 0
    assert len(desk.queue()) == len(LEARNERS)


def test_are_names_hidden_until_asked_for(desk):
    hidden = " ".join(keys(desk).seen)
    shown = " ".join(keys(desk, "w").seen)
    assert "name hidden" in hidden
    assert not any(name in hidden.split("Other answers")[0].split(",") for name in LEARNERS)
    assert any(name in shown for name in LEARNERS)


def test_is_a_wrong_number_told_and_nothing_kept(desk):
    screen = keys(desk, "p", *"99", "enter")
    assert any("from 0 to 4" in text for text in screen.seen)
    assert len(desk.queue()) == len(LEARNERS)


def test_does_escape_leave_a_dialog_without_change(desk):
    screen = keys(desk, "c", *"no", "escape")
    assert screen.comment == ""
    assert screen.open_dialogs == 0


def run(*words: str):
    return CliRunner().invoke(cli.group, list(words))


def test_do_the_single_calls_do_the_same(course):
    home = str(course.home)
    listed = run("mark", "04", "--home", home, "--list")
    assert listed.exit_code == 0, listed.output
    assert "lab04: 3 to mark" in listed.output
    given = run(
        "mark", "04", "--home", home, "--task", TASK, "--learner", "learner-02", "--give", "3", "--json"
    )  # fmt: skip
    assert json.loads(given.stdout)["after"]["points"] == 3.0
    assert len(json.loads(run("mark", "04", "--home", home, "--json").stdout)) == 2
    assert "taken back: learner-02, explain, 3 points" in run("mark", "04", "--home", home, "--undo").output
    assert "nothing to take back" in run("mark", "04", "--home", home, "--undo").output


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["--give", "3"], "needs --task and --learner"),
        (["--comment", "x"], "belongs to --give"),
    ],
)
def test_is_a_wrong_call_answered_with_the_right_one(course, words, says):
    done = run("mark", "04", "--home", str(course.home), *words)
    assert done.exit_code == 2
    assert says in done.output


def test_is_a_learner_of_whom_nothing_was_graded_named(course):
    words = ("--give", "3", "--task", "explain", "--learner", "nobody")
    done = run("mark", "04", "--home", str(course.home), *words)
    assert isinstance(done.exception, GradingError)
    assert "'nobody': nothing of lab04 was graded" in str(done.exception)
