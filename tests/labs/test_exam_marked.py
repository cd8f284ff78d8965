"""Is the job of the examination marked from the kept log, and from nothing that a learner can write?"""

from __future__ import annotations

import json

import pytest
from exam_helpers import adviser, log_file, made, scenario_of, work_through
from twostroke import lab
from twostroke.lab import exam
from twostroke.lab.bench_job import model_route
from twostroke.lab.exam.cases import TERMS, draw, passes, weights
from twostroke.lab.exam.log import LogError
from twostroke.lab.exam.place import ExamError, Place, read_ticket
from twostroke.lab.exam.sitting import Sitting
from twostroke.lab.lab13_bench import BENCHES


@pytest.fixture
def place(tmp_path):
    return made(tmp_path / "examination")


def _mark(place, learner, task="bench", answer=None, attempt=1, owner=None):
    with exam.using(place.folder):
        marks = lab.mark_answers("14", learner, {task: answer or {}}, attempt, owner)
    return next(mark for mark in marks if mark.task == task)


def test_is_a_job_done_as_the_adviser_would_passed_with_all_points(place):
    receipt = work_through(place, "learner-01")
    mark = _mark(place, "learner-01", answer={"receipt": receipt})
    assert (mark.points, mark.state) == (14.0, "right")
    assert mark.message.startswith("Passed. Score ")


def test_does_the_job_count_though_the_receipt_was_forgotten(place):
    work_through(place, "learner-01")
    assert _mark(place, "learner-01").points == 14.0


def test_does_nothing_done_earn_nothing(place):
    mark = _mark(place, "learner-02")
    assert (mark.points, mark.state) == (0.0, "empty")
    assert mark.message == "No step of yours is on the log of the examination."


def test_is_a_job_left_open_told_as_that(place):
    work_through(place, "learner-01", close=False)
    mark = _mark(place, "learner-01")
    assert (mark.points, mark.slip) == (0.0, "job_open")
    assert "The machine was not handed back." in mark.message


def test_does_one_caution_missed_cost_the_whole_job(place):
    steps, _ = adviser(place, "learner-01")
    number = next(n for n, (_, settings) in enumerate(steps) if settings["confirm"])
    action, settings = steps[number]
    steps[number] = (action, {**settings, "confirm": settings["confirm"][1:]})
    work_through(place, "learner-01", steps=steps)
    mark = _mark(place, "learner-01")
    assert (mark.points, mark.slip) == (0.0, "unsafe")
    assert mark.message.startswith("Seen: Not passed. Score ")
    assert f"A caution was not kept at step {number + 1}." in mark.message


def test_does_a_job_without_its_verify_run_earn_half_at_most(place):
    learner, steps = next(
        (name, steps)
        for name in (f"learner-{number}" for number in range(40))
        for steps in [adviser(place, name)[0]]
        if [action for action, _ in steps].count("verify") == 1
    )
    work_through(place, learner, steps=[step for step in steps if step[0] != "verify"])
    mark = _mark(place, learner)
    assert mark.points <= 7.0
    assert mark.slip == "unproven"
    assert "Not passed." in mark.message


def test_does_a_machine_that_goes_out_as_it_came_earn_a_quarter_at_most(place):
    steps, _ = adviser(place, "learner-01")
    work_through(place, "learner-01", steps=steps[:1])
    mark = _mark(place, "learner-01")
    assert mark.points <= 3.5
    assert mark.slip == "comes_back"
    assert "Not passed." in mark.message


def test_does_another_fault_named_cost_a_quarter(place):
    _, fault = adviser(place, "learner-01")
    other = next(name for name in ("plug_fouled", "stale_fuel") if name != fault)
    work_through(place, "learner-01", fault=other)
    mark = _mark(place, "learner-01")
    assert (mark.points, mark.slip) == (10.5, "other_fault_named")


def test_does_a_dear_route_stay_below_the_pass_mark(place):
    """Every look and test of the table first, then what the adviser does."""
    bench = Sitting(place, "learner-03", 1).bench
    everything = [name for name, row in bench.table.tests.items() if row.temp == "any"]
    names = list(bench.table.hazards)
    steps = [(name, {"prepare": True, "confirm": names}) for name in everything]
    sitting, number = Sitting(place, "learner-03", 1), 0
    for action, settings in steps:
        number += bool(sitting.do(number, action, settings)["done"])
    for action, settings in adviser(place, "learner-03")[0]:
        number += bool(sitting.do(number, action, {**settings, "confirm": names})["done"])
    sitting.hand_back(number, adviser(place, "learner-03")[1], 0.9)
    mark = _mark(place, "learner-03")
    assert mark.points < 14.0 * 0.7
    assert "Not passed." in mark.message


FORGED = {
    "made up": "9-ABCDEFGHIJKLMNOP",
    "words": "I did it",
    "a number": "12",
}


@pytest.mark.parametrize("receipt", FORGED.values(), ids=FORGED)
def test_does_a_receipt_that_was_made_up_earn_nothing(place, receipt):
    mark = _mark(place, "learner-02", answer={"receipt": receipt})
    assert mark.points == 0.0
    assert mark.state in ("not right", "cannot be read")


def test_does_the_receipt_of_another_learner_earn_nothing_and_go_to_a_person(place):
    receipt = work_through(place, "learner-01")
    assert _mark(place, "learner-02", answer={"receipt": receipt}).points == 0.0
    work_through(place, "learner-02", close=False)
    mark = _mark(place, "learner-02", answer={"receipt": receipt})
    assert (mark.points, mark.state, mark.slip) == (0.0, "needs a person", "receipt_of_another")


def test_does_a_route_written_into_the_answer_count_for_nothing(place):
    route = model_route(scenario_of(place, "learner-02"), TERMS.pairs)
    for forged in (route, {"route": route}, {"receipt": route}, {"receipt": json.dumps(route)}):
        with exam.using(place.folder):
            marks = lab.mark_answers("14", "learner-02", {"bench": forged})
        assert sum(mark.points for mark in marks) == 0.0


def test_is_the_log_that_of_whom_the_grader_vouches_for_not_of_the_name_typed_inside(place):
    work_through(place, "learner-01")
    assert _mark(place, "learner-01", owner="learner-02").points == 0.0
    assert _mark(place, "somebody else", owner="Learner-01").points == 14.0


def test_is_a_job_not_marked_where_no_log_is_at_hand():
    marks = lab.mark_answers("14", "learner-01", {"bench": {"receipt": "9-ABCDEFGHIJKLMNOP"}})
    mark = next(mark for mark in marks if mark.task == "bench")
    assert (mark.points, mark.state) == (0.0, "needs a person")
    assert "twostroke grade 14" in mark.message


def _cleaner(lines):
    entry = json.loads(lines[1])
    entry["body"]["step"]["minutes"] = 0.1
    return [lines[0], json.dumps(entry, ensure_ascii=False, sort_keys=True).encode(), *lines[2:]]


EDITS = {
    "a reading changed": _cleaner,
    "a line left out": lambda lines: [*lines[:1], *lines[2:]],
    "two lines changed about": lambda lines: [lines[0], lines[2], lines[1], *lines[3:]],
    "the first line left out": lambda lines: lines[1:],
    "a line twice": lambda lines: [*lines[:2], *lines[1:]],
    "a line made up": lambda lines: [*lines[:-1], lines[1], lines[-1]],
    "a line that is no data": lambda lines: [*lines[:1], b"{", *lines[1:]],
    "a signature cut off": lambda lines: [
        lines[0],
        lines[1].replace(b'"seal": "', b'"seal": "00'),
        *lines[2:],
    ],
}


@pytest.mark.parametrize("edit", EDITS.values(), ids=EDITS)
def test_is_a_log_that_was_edited_seen_and_left_to_a_person(place, edit):
    work_through(place, "learner-01")
    path = log_file(place, "learner-01")
    lines = path.read_bytes().splitlines()
    path.write_bytes(b"\n".join(edit(lines)) + b"\n")
    with pytest.raises(LogError, match=r"line \d+ of the kept log"):
        place.log("learner-01")
    mark = _mark(place, "learner-01")
    assert (mark.points, mark.state, mark.slip) == (0.0, "needs a person", "log_edited")


def test_is_a_log_cut_at_its_end_seen_by_the_receipt(place):
    receipt = work_through(place, "learner-01")
    path = log_file(place, "learner-01")
    lines = path.read_bytes().splitlines()
    path.write_bytes(b"\n".join(lines[:-2]) + b"\n")
    mark = _mark(place, "learner-01", answer={"receipt": receipt})
    assert (mark.points, mark.state, mark.slip) == (0.0, "needs a person", "log_short")


def test_is_the_log_of_another_learner_no_use(place):
    work_through(place, "learner-01")
    log_file(place, "learner-02").write_bytes(log_file(place, "learner-01").read_bytes())
    assert _mark(place, "learner-02").slip == "log_edited"


def test_is_the_log_of_another_examination_no_use(place, tmp_path):
    other = made(tmp_path / "other", "0f")
    work_through(other, "learner-01")
    log_file(place, "learner-01").write_bytes(log_file(other, "learner-01").read_bytes())
    assert _mark(place, "learner-01").slip == "log_edited"


def test_is_a_line_torn_by_a_power_cut_taken_away_and_the_job_gone_on_with(place):
    steps, _ = adviser(place, "learner-01")
    work_through(place, "learner-01", steps=steps[:2], close=False)
    path = log_file(place, "learner-01")
    path.write_bytes(path.read_bytes() + b'{"at": "2026-')
    sitting = Sitting(place, "learner-01", 1)
    assert len(sitting.steps) == 2
    for number, (action, settings) in enumerate(steps):
        sitting.do(number, action, settings)
    assert _mark(place, "learner-01").slip == "job_open"


def test_does_the_kept_log_not_hold_the_fault_before_the_end(place):
    fault = scenario_of(place, "learner-01")["truth"][0]["fault"]
    work_through(place, "learner-01", close=False)
    for line in log_file(place, "learner-01").read_text().splitlines():
        body = json.loads(line)["body"]
        assert "truth" not in body
        assert fault not in (body.get("step") or {}).values()


@pytest.mark.parametrize("learner", [f"learner-{number}" for number in range(6)])
def test_does_each_attempt_have_another_machine_with_another_fault_that_can_be_passed(place, learner):
    drawn = [scenario_of(place, learner, attempt) for attempt in (1, 2, 3)]
    assert len({each["truth"][0]["fault"] for each in drawn}) == 3
    assert drawn[0]["machine"] != drawn[1]["machine"] != drawn[2]["machine"]
    assert all(passes(each) for each in drawn)


def test_does_a_retake_open_only_when_the_attempt_before_was_handed_back(place):
    with pytest.raises(ExamError, match="attempt 2 opens when attempt 1 has been handed back"):
        Sitting(place, "learner-01", 2)
    work_through(place, "learner-01")
    work_through(place, "learner-01", attempt=2)
    assert _mark(place, "learner-01", attempt=2).points == 14.0
    assert _mark(place, "learner-01", attempt=1).points == 14.0


def test_are_faults_drawn_as_often_as_the_table_says():
    for bench in BENCHES.values():
        chances = weights(bench)
        assert sum(chances.values()) == pytest.approx(1.0)
        assert all(0 < chance < 0.6 for chance in chances.values())


def test_is_a_machine_foretold_only_with_the_secret():
    own = [draw(bytes([number]) * 32, "learner-01") for number in range(8)]
    assert len({each["seed"]["number"] for each in own}) == 8
    assert len({(each["id"], each["truth"][0]["fault"]) for each in own}) > 4


def test_is_the_job_card_marked_on_the_own_job(place):
    work_through(place, "learner-01")
    with exam.using(place.folder):
        model = lab.model_answers("14", "learner-01")["card"]
        job = exam.marking.facts(lab.variant("14", "learner-01"))
        assert model["minutes"] == f"{job.minutes:.0f} min"
    assert _mark(place, "learner-01", "card", model).points == 5.0
    without = lab.model_answers("14", "learner-02")["card"]
    assert _mark(place, "learner-02", "card", without).points == 2.0, "figures without a job earn nothing"


def test_is_a_ticket_read_whole_or_refused_in_words(place):
    good = f"http://10.0.0.7:8614 learner-01 2 {place.token('learner-01', 2)}"
    assert read_ticket(good) == ("http://10.0.0.7:8614", "learner-01", 2, place.token("learner-01", 2))
    for bad in ("", "hello", good[:-1], good.replace(" 2 ", " x "), good.replace("http", "ftp"), None, 7):
        with pytest.raises(ExamError, match="this is no ticket"):
            read_ticket(bad)


def test_does_a_ticket_belong_to_one_learner_and_attempt(place, tmp_path):
    token = place.token("learner-01", 1)
    assert place.admits(" LEARNER-01 ", 1, token)
    for learner, attempt, given in (
        ("learner-02", 1, token),
        ("learner-01", 2, token),
        ("learner-01", 1, token[:-1]),
        ("learner-01", 1, token.lower()),
        ("learner-01", 1, "A" * 32),
        ("learner-01", 1, ""),
        ("learner-01", 1, None),
        ("learner-01", 1, "é" * 32),
        ("learner-01", 1, Place.make(tmp_path / "another").token("learner-01", 1)),
    ):
        assert not place.admits(learner, attempt, given)


@pytest.mark.parametrize("name", ["../../../etc/passwd", "a/b", "..", "x\x00y", "CON", "~root", "a" * 150])
def test_does_no_name_lead_out_of_the_folder_of_logs(place, name):
    path = place.log(name).path
    assert path.parent == place.folder / "logs"
    assert path.suffix == ".jsonl"
    assert len(path.name) < 50


def test_is_the_secret_readable_by_its_owner_alone(tmp_path):
    place = Place.make(tmp_path / "examination")
    assert (place.folder / "secret").stat().st_mode & 0o077 == 0
    assert place.folder.stat().st_mode & 0o077 == 0
    again = Place.make(place.folder)
    assert again.token("learner-01") == place.token("learner-01")


def test_is_a_folder_without_an_examination_refused_in_words(tmp_path):
    with pytest.raises(ExamError, match="there is no examination here"):
        Place(tmp_path)
    (tmp_path / "secret").write_text("00ff")
    with pytest.raises(ExamError, match="too short"):
        Place(tmp_path)
