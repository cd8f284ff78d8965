"""The examination's service under attack: what a learner's own process can ask, and gets."""

from __future__ import annotations

import contextlib
import http.client
import json
import socket
import subprocess
import sys

import pytest
from exam_helpers import Service, adviser, body_of, log_file, made, scenario_of
from twostroke.lab.exam.desk import ExamDesk
from twostroke.lab.exam.place import ExamError, Place


def test_does_no_ticket_but_the_own_open_a_sitting(running, place, tmp_path):
    own, other = place.token("learner-06"), place.token("learner-07")
    guesses = {
        "none": "",
        "another learner's": other,
        "another attempt's": place.token("learner-06", 2),
        "another examination's": made(tmp_path / "x", "11").token("learner-06"),
        "shortened": own[:-1],
        "longer": own + "A",
        "small letters": own.lower(),
        "a list": "['" + own + "']",
    }
    answers = {name: running.ask("/v1/open", body_of("learner-06"), token) for name, token in guesses.items()}
    assert {status for status, _ in answers.values()} == {403}
    assert len({json.dumps(said) for _, said in answers.values()}) == 1, "every wrong ticket is told the same"
    assert not log_file(place, "learner-06").exists()


def test_does_a_borrowed_ticket_sit_in_its_owners_place_only(running, place):
    body = body_of("learner-07", place=0, action="look_over", settings={})
    assert running.ask("/v1/do", body, place.token("learner-08"))[0] == 403
    desk = ExamDesk(running.ticket("learner-08"), "learner-07", 1)
    assert "This ticket is for learner-08" in repr(desk)
    assert not log_file(place, "learner-08").exists()


PATHS = (
    "/", "/v1", "/v1/", "/v1/state", "/v1/truth", "/v1/secret", "/v1/log", "/v1/open/",
    "/v1/do/../state", "/v2/open",
    "/secret", "/logs/", "/v1/%2e%2e/secret", "/v1/..%2fsecret", "/static/../../secret", "/v1/open%00",
    "/v1/admin",
    "/debug", "/favicon.ico", "/v1/hand_back/x", "//v1/open",
)  # fmt: skip


@pytest.mark.parametrize("path", PATHS)
@pytest.mark.parametrize("method", ["GET", "POST", "PUT", "DELETE", "OPTIONS", "HEAD"])
def test_is_there_nothing_behind_any_other_path(running, place, path, method):
    asked = http.client.HTTPConnection("127.0.0.1", running.port, timeout=180)
    token = place.token("learner-09")
    body = json.dumps(body_of("learner-09"))
    asked.request(
        method, path, body, {"Authorization": f"Bearer {token}", "Content-Type": "application/json"}
    )
    answer = asked.getresponse()
    said = answer.read()
    assert answer.status in (404, 405)
    assert said in (b"", b'{"said": "there is no such call"}')
    asked.close()


def test_can_none_of_the_calls_be_read_by_a_page_of_a_browser(running):
    asked = http.client.HTTPConnection("127.0.0.1", running.port, timeout=180)
    for method in ("GET", "OPTIONS"):
        asked.request(method, "/v1/open", headers={"Origin": "http://elsewhere.example"})
        answer = asked.getresponse()
        answer.read()
        assert answer.status in (404, 405)
        assert answer.getheader("Access-Control-Allow-Origin") is None
    asked.close()
    kind = {"Content-Type": "text/plain"}
    assert running.ask("/v1/open", body_of("learner-09"), **kind) == (400, {"said": "ask with JSON"})


NONSENSE = {
    "no data": b"",
    "no JSON": b"{",
    "a list": b"[]",
    "not a number": b'{"learner": "learner-09", "attempt": NaN}',
    "no learner": b'{"attempt": 1}',
    "attempt as text": b'{"learner": "learner-09", "attempt": "1"}',
    "attempt true": b'{"learner": "learner-09", "attempt": true}',
    "attempt beyond all": b'{"learner": "learner-09", "attempt": 100}',
    "a learner of blanks": b'{"learner": "  ", "attempt": 1}',
    "deep": b'{"learner": ' + b"[" * 5000 + b"]" * 5000 + b"}",
    "bytes that are no text": b'{"learner": "\xff\xfe"}',
}


@pytest.mark.parametrize("raw", NONSENSE.values(), ids=NONSENSE)
def test_is_nonsense_refused_in_words(running, place, raw):
    status, said = running.ask("/v1/open", raw=raw, token=place.token("learner-09"))
    assert status == 400
    assert 5 < len(said["said"]) < 200


STEPS = {
    "a step far ahead": {"place": 7, "action": "look_over"},
    "a step before the first": {"place": -1, "action": "look_over"},
    "no number": {"place": "0", "action": "look_over"},
    "no action": {"place": 0},
    "an action that is none": {"place": 0, "action": "__class__"},
    "an action of the inside": {"place": 0, "action": "_truth"},
    "handing back as a step": {"place": 0, "action": "hand_back"},
    "handing on": {"place": 0, "action": "hand_on"},
    "a setting that is none": {"place": 0, "action": "look_over", "settings": {"self": 1}},
    "a setting as a table": {"place": 0, "action": "look_over", "settings": {"confirm": {"a": 1}}},
    "settings as text": {"place": 0, "action": "look_over", "settings": "all"},
    "very many settings": {"place": 0, "action": "look_over", "settings": {str(n): n for n in range(40)}},
    "a long setting": {"place": 0, "action": "look_over", "settings": {"confirm": "x" * 900}},
    "a caution that is none": {"place": 0, "action": "look_over", "settings": {"confirm": ["everything"]}},
}


@pytest.mark.parametrize("asked", STEPS.values(), ids=STEPS)
def test_is_a_step_that_cannot_be_refused_and_nothing_kept(running, place, asked):
    token = place.token("learner-09")
    status, said = running.ask("/v1/do", body_of("learner-09", **asked), token)
    assert status == 409
    assert "Traceback" not in said["said"]
    log = place.log("learner-09")
    assert [entry.kind for entry in log.entries] in ([], ["open"])


def test_is_a_request_above_the_size_cut_off(running, place):
    big = json.dumps(body_of("learner-09", settings="x" * 200_000)).encode()
    connection = socket.create_connection(("127.0.0.1", running.port), timeout=180)
    kind = "Content-Type: application/json"
    head = f"POST /v1/do HTTP/1.1\r\nHost: x\r\n{kind}\r\nContent-Length: {len(big)}\r\n\r\n"
    said = b""
    with contextlib.suppress(OSError):
        connection.sendall(head.encode() + big)
        said = connection.recv(4096)
    connection.close()
    assert b" 200 " not in said
    assert running.ask("/v1/open", body_of("learner-10"), place.token("learner-10"))[0] == 200


def test_do_very_many_wrong_tickets_shut_out_only_the_wrong_ones(place):
    own = Service(made(place.folder.parent / "guessed"))
    try:
        answers = [own.ask("/v1/open", body_of("learner-01"), "A" * 31 + letter) for letter in "ABCDEFGH" * 3]
        assert [status for status, _ in answers].count(429) >= 3
        assert own.ask("/v1/open", body_of("learner-01"), own.place.token("learner-01"))[0] == 200
    finally:
        own.kill()


def _keys(data):
    if isinstance(data, dict):
        for key, value in data.items():
            yield key
            yield from _keys(value)
    elif isinstance(data, list):
        for each in data:
            yield from _keys(each)


def test_does_no_answer_of_a_whole_job_hold_more_than_a_bench_shows(running, place):
    learner = "learner-11"
    token, (steps, fault) = place.token(learner), adviser(place, learner)
    scenario = scenario_of(place, learner)
    answers = [running.ask("/v1/open", body_of(learner), token)]
    for number, (action, settings) in enumerate(steps):
        body = body_of(learner, place=number, action=action, settings=settings)
        answers.append(running.ask("/v1/do", body, token))
    body = body_of(learner, place=len(steps), diagnosis="carb_float", confidence=0.2)
    assert running.ask("/v1/hand_back", body, token)[0] == 409, "a fault that the table has not"
    wrong = "plug_fouled" if fault != "plug_fouled" else "stale_fuel"
    body = body_of(learner, place=len(steps), diagnosis=wrong, confidence=0.2)
    answers.append(running.ask("/v1/hand_back", body, token))
    answers.append(running.ask("/v1/open", body_of(learner), token))
    assert {status for status, _ in answers} == {200}
    table = set(answers[0][1]["faults"]) | set(answers[0][1]["actions"]) | set(answers[0][1]["cautions"])
    fields = {"title", "complaint", "history", "actions", "faults", "cautions", "price", "kept", "done",
         "number",
              "action", "minutes", "words", "reading", "money", "receipt"}  # fmt: skip
    assert set(_keys([said for _, said in answers])) <= table | fields
    text = json.dumps([said for _, said in answers[1:-1]])
    assert str(scenario["seed"]["number"]) not in text
    assert str(scenario["truth"][0]["severity"]) not in text
    assert "What was wrong" not in text
    assert "comes back" not in text


def test_has_the_learners_process_no_machine_no_fault_and_no_secret_however_much_it_imports(running, place):
    code = """
import contextlib, gc, io, sys
from twostroke.lab.exam.desk import ExamDesk
desk = ExamDesk(sys.argv[1], "learner-12", 1)
with contextlib.redirect_stdout(io.StringIO()):
    desk.do("look_over", prepare=True, confirm=[])
    desk.do("plug_look", prepare=True, confirm=["fuel_spray"])
import twostroke.lab.exam.service, twostroke.lab.exam.sitting
import twostroke.lab.exam.cases, twostroke.lab.exam.marking
from twostroke.lab.exam import Place
try:
    Place("."); print("a place")
except Exception as error:
    print(type(error).__name__)
names = {type(each).__name__ for each in gc.get_objects()}
print(sorted(names & {"Bench", "Situation", "Sitting", "TrueFault", "Scenario", "Log"}))
wanted = sys.stdin.readline().encode().strip()[::-1]  # it came backwards, so as not to lie in memory
seen = 0
for line in open("/proc/self/maps"):
    where, rights = line.split()[:2]
    if rights.startswith("rw") and "[v" not in line:
        low, high = (int(each, 16) for each in where.split("-"))
        with open("/proc/self/mem", "rb", 0) as memory, contextlib.suppress(OSError):
            memory.seek(low)
            seen += memory.read(high - low).count(wanted)
print(seen)
"""
    secret = (place.folder / "secret").read_text().strip()
    number = str(scenario_of(place, "learner-12")["seed"]["number"])
    for looked_for in (secret, number):
        done = subprocess.run(
            [sys.executable, "-c", code, running.ticket("learner-12")],
            input=looked_for[::-1], capture_output=True, text=True, check=True, timeout=120,
        )  # fmt: skip
        refused, objects, seen = done.stdout.splitlines()
        assert refused == "ExamError"
        assert objects == "[]"
        assert int(seen) <= 3, "only the copies that this very search has made"


def test_do_the_same_modules_without_the_secret_draw_other_machines(place):
    from twostroke.lab.exam.cases import draw

    right = scenario_of(place, "learner-12")
    for guess in (b"", b"secret", b"\0" * 32, b"learner-12", place.token("learner-12").encode()):
        assert draw(guess, "learner-12")["seed"] != right["seed"]


def test_is_a_learners_folder_no_place_of_an_examination(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    with pytest.raises(ExamError, match="there is no examination here"):
        Place(tmp_path)
