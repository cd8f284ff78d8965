"""The examination's service: a sitting from ticket to receipt, breaks, kills, what is said in words."""

from __future__ import annotations

import asyncio
import threading

import pytest
from exam_helpers import Service, adviser, body_of, made, printed
from twostroke import lab
from twostroke.lab import exam
from twostroke.lab.exam import service as served
from twostroke.lab.exam.desk import ExamDesk
from twostroke.lab.exam.place import ExamError
from twostroke.lab.exam.sitting import Sitting

# a whole sitting ------------------------------------------------------------------------------------


def test_does_a_learner_come_from_ticket_to_receipt_and_are_the_points_in_the_log(running, place):
    learner = "learner-01"
    steps, fault = adviser(place, learner)
    desk = ExamDesk(running.ticket(learner), "Learner 01".replace(" ", "-"), 1)
    assert "The owner says:" in repr(desk)
    assert "Nothing has been done yet." in repr(desk)
    for action, settings in steps:
        said = printed(desk.do, action, **settings)
        assert " min  " in said
    said = printed(desk.hand_back, fault, "90 %")
    assert "Receipt: " in said
    assert "What was wrong" not in said
    with exam.using(place.folder):
        marks = lab.mark_answers("14", learner, {"bench": {"receipt": desk.receipt}})
    assert next(mark.points for mark in marks if mark.task == "bench") == 14.0
    assert "the examination is closed" in printed(desk.do, "look_over")


def test_does_a_cell_run_again_cost_nothing_and_say_the_same(running, place):
    learner = "learner-02"
    steps, _ = adviser(place, learner)
    told = []
    for _ in range(2):
        desk = ExamDesk(running.ticket(learner), learner, 1)
        told.append([printed(desk.do, action, **settings) for action, settings in steps[:3]])
    assert told[0] == told[1]
    assert len(place.log(learner).entries) == 4


def test_is_a_step_that_was_done_not_to_be_taken_back(running, place):
    learner = "learner-02"
    desk = ExamDesk(running.ticket(learner), learner, 1)
    said = printed(desk.do, "tank_look", confirm=[])
    assert "has been done already" in said
    assert len(place.log(learner).entries) == 4


def test_is_a_caution_not_asked_for_before_and_named_only_when_it_has_been_missed(running, place):
    learner = "learner-03"
    desk = ExamDesk(running.ticket(learner), learner, 1)
    said = printed(desk.do, "plug_look", prepare=True)
    assert " min  plug_look" in said
    assert "Caution not kept: fuel spray from the plug hole." in said
    assert place.log(learner).entries[-1].body["step"]["cautions_missed"] == ["fuel_spray"]
    assert "name the cautions that you keep" in printed(desk.do, "known_good_plug", confirm="all")
    assert "'anyway' is not known" in printed(desk.do, "known_good_plug", anyway=True)


def test_does_a_sitting_outlive_a_service_that_is_killed(place, free_port):
    learner = "learner-04"
    own = made(place.folder.parent / "killed")
    first = Service(own, free_port())
    steps, fault = adviser(own, learner)
    desk = ExamDesk(first.ticket(learner), learner, 1)
    before = [printed(desk.do, action, **settings) for action, settings in steps[:2]]
    first.kill()
    said = printed(desk.do, *steps[2][:1], **steps[2][1])
    assert "does not answer; nothing that was done is lost" in said
    second = Service(own, first.port)
    try:
        desk = ExamDesk(second.ticket(learner), learner, 1)
        assert "Steps on the log so far: 2." in repr(desk)
        after = [printed(desk.do, action, **settings) for action, settings in steps]
        assert after[:2] == before
        assert "Receipt: " in printed(desk.hand_back, fault, 0.9)
    finally:
        second.kill()


def test_do_two_notebooks_at_once_do_a_step_once(running, place):
    learner, said = "learner-05", []
    names = ("look_over", "switch_check", "tank_look", "boot_check")

    def ask(action):
        body = body_of(learner, place=0, action=action, settings={"prepare": True, "confirm": []})
        said.append(running.ask("/v1/do", body, place.token(learner)))

    threads = [threading.Thread(target=ask, args=(name,)) for name in names]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(status for status, _ in said) == [200, 409, 409, 409]
    assert len(place.log(learner).entries) == 2


def test_does_every_answer_take_whole_ticks_whatever_the_machine(monkeypatch, place):
    """The clock is a made one: what counts is the rule, not this computer."""
    now = [0.0]
    slept = []

    async def sleep(seconds):
        slept.append(seconds)
        now[0] += seconds

    desk = served.Desk(place, tick=0.25)
    monkeypatch.setattr(served.time, "monotonic", lambda: now[0])
    monkeypatch.setattr(served.asyncio, "sleep", sleep)

    def work(seconds, fails=False):
        def go():
            now[0] += seconds
            if fails:
                raise ExamError("no")
            return {}

        return go

    for taken, whole in ((0.001, 0.25), (0.2, 0.25), (0.26, 0.5), (0.9, 1.0)):
        begun = now[0]
        asyncio.run(desk.in_ticks(work(taken)))
        assert now[0] - begun == pytest.approx(whole)
        begun = now[0]
        with pytest.raises(ExamError):
            asyncio.run(desk.in_ticks(work(taken, fails=True)))
        assert now[0] - begun == pytest.approx(whole), "a refusal takes as long"


def test_does_a_second_service_on_the_same_folder_stay_out(running):
    with pytest.raises(ExamError, match="another service works on this examination"), running.place.alone():
        raise AssertionError("two services on one folder")


def test_is_a_port_that_is_taken_told_in_words(running, tmp_path):
    other = made(tmp_path / "examination")
    with pytest.raises(ExamError, match="cannot be used"):
        asyncio.run(served.serve(other, port=running.port))


def test_does_a_service_go_on_after_a_step_that_failed_inside(place, monkeypatch):
    """The disk is full for one step: the learner is told, and the step counts only once it is kept."""
    sitting = Sitting(place, "learner-13", 1)

    def full(*_):
        raise OSError(28, "no space left")

    monkeypatch.setattr(sitting.log, "add", full)
    with pytest.raises(OSError, match="no space"):
        sitting.do(0, "look_over", {"prepare": True, "confirm": []})
    again = Sitting(place, "learner-13", 1)
    assert again.steps == []
    assert again.do(0, "look_over", {"prepare": True, "confirm": []})["minutes"] == sitting.bench.minutes


def test_is_the_desk_deaf_and_silent_in_grading():
    desk = ExamDesk("", None, 1, deaf=True)
    assert printed(desk.do, "look_over") == ""
    assert printed(desk.hand_back, "plug_fouled", 1) == ""
    assert printed(desk.actions) == ""
    assert desk.receipt == ""


@pytest.mark.parametrize(
    ("ticket", "learner", "says"),
    [
        ("", "learner-01", "First write your ticket"),
        ("x", None, "First write your name"),
        ("x", "learner-01", "this is no ticket"),
        ("http://127.0.0.1:9 learner-01 1 " + "A" * 32, "learner-01", "does not answer"),
        ("http://127.0.0.1:9 learner-01 2 " + "A" * 32, "learner-01", "attempt 2; at the top stands"),
    ],
)
def test_is_what_is_missing_told_in_words(ticket, learner, says):
    desk = ExamDesk(ticket, learner, 1)
    assert says in repr(desk)
    assert says in printed(desk.do, "look_over")
    assert says in printed(desk.cautions)


@pytest.mark.parametrize("attempt", [0, 2000, "2", None, 1.5])
def test_is_an_attempt_that_cannot_be_told_in_words_and_no_traceback(attempt):
    said = printed(lab.open_lab, "14", "learner-01", attempt)
    assert "write a whole number from 1 to 99; opened as attempt 1" in said
