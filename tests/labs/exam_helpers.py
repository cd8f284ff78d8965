"""What tests of the examination share: a service in a process of its own, and a job worked as the adviser
would."""

from __future__ import annotations

import contextlib
import io
import json
import os
import signal
import subprocess
import sys
import urllib.error
import urllib.request
from pathlib import Path

from twostroke.lab.bench_job import model_route
from twostroke.lab.exam import Place
from twostroke.lab.exam.cases import TERMS, draw
from twostroke.lab.exam.sitting import Sitting

SERVE = """
import asyncio, sys
from twostroke.lab.exam import Place
from twostroke.lab.exam.service import serve
asyncio.run(serve(Place(sys.argv[1]), port=int(sys.argv[2]), tick=0.02, ready=lambda a: print(a, flush=True)))
"""


class Service:
    """The service in a process of its own."""

    def __init__(self, place: Place, port: int = 0):
        self.place, self.port = place, port
        self.start()

    def start(self) -> None:
        command = [sys.executable, "-c", SERVE, str(self.place.folder), str(self.port)]
        self.process = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
        self.address = self.process.stdout.readline().strip()
        assert self.address.startswith("http://"), self.process.stderr.read()
        self.port = int(self.address.rpartition(":")[2])

    def kill(self) -> None:
        """End it as a power cut would."""
        os.kill(self.process.pid, signal.SIGKILL)
        self.process.wait()
        self.process.stdout.close()
        self.process.stderr.close()

    def ticket(self, learner: str, attempt: int = 1) -> str:
        return f"{self.address} {learner} {attempt} {self.place.token(learner, attempt)}"

    def ask(self, path: str, body=None, token: str = "", raw: bytes | None = None, **headers):
        """Status, and the answer as data or text."""
        data = raw if raw is not None else None if body is None else json.dumps(body).encode()
        headers = {"Content-Type": "application/json", "Authorization": f"Bearer {token}"} | headers
        request = urllib.request.Request(self.address + path, data, headers)
        try:
            with urllib.request.urlopen(request, timeout=180) as answer:
                return answer.status, json.loads(answer.read())
        except urllib.error.HTTPError as error:
            text = error.read().decode()
            try:
                return error.code, json.loads(text)
            except ValueError:
                return error.code, text


def made(folder: Path, secret: str = "5a") -> Place:
    """An examination whose secret is known to the test, so that it draws the same machines each time."""
    folder.mkdir(parents=True)
    (folder / "secret").write_text(secret * 32)
    return Place.make(folder)


def scenario_of(place: Place, learner: str, attempt: int = 1):
    return draw(place.draws, learner, attempt)


def adviser(place: Place, learner: str, attempt: int = 1):
    """Steps of the adviser on this learner's machine, and what it hands back."""
    route = model_route(scenario_of(place, learner, attempt), TERMS.pairs)
    steps = [
        (step["action"], {**step["settings"], "confirm": step["cautions_confirmed"]}) for step in route[:-1]
    ]
    return steps, route[-1]["diagnosis"]


def work_through(place: Place, learner: str, attempt: int = 1, steps=None, fault=None, sure=0.9, close=True):
    """Do a job on the service's side; return the receipt."""
    model, right = adviser(place, learner, attempt)
    sitting = Sitting(place, learner, attempt)
    steps = model if steps is None else steps
    for number, (action, settings) in enumerate(steps):
        told = sitting.do(number, action, settings)
        assert told["done"], told
    return sitting.hand_back(len(steps), fault or right, sure)["receipt"] if close else ""


def log_file(place: Place, learner: str, attempt: int = 1) -> Path:
    return place.log(learner, attempt).path


def printed(call, *given, **named) -> str:
    """What a call prints."""
    with contextlib.redirect_stdout(io.StringIO()) as said:
        call(*given, **named)
    return said.getvalue()


def body_of(learner: str, **more) -> dict:
    """A request's body."""
    return {"learner": learner, "attempt": 1, **more}
