"""Can three learners of a class work under a real JupyterHub, each in a room, up to reading their feedback?

Hub, proxy and the learners' servers run on the loopback address. Learners use what JupyterLab's own panels
use: the addresses of the contents and of nbgrader's list of labs, and a kernel.
"""

from __future__ import annotations

import asyncio
import contextlib
import json
import os
import re
import signal
import subprocess
import sys
import time
import uuid
from pathlib import Path
from urllib.parse import quote

import pytest
import requests
from click.testing import CliRunner
from tornado.httpclient import HTTPRequest
from tornado.websocket import websocket_connect
from twostroke import lab as labs
from twostroke import resources
from twostroke.cli import main
from twostroke.commands.hub import hub as command
from twostroke.grading import gradebook, invent
from twostroke.grading.place import Course
from twostroke.grading.rooms import Rooms
from twostroke.grading.states import GradingError

LAB = "lab01"
LEARNERS = ["learner-01", "learner-02", "Learner-03"]
pytest.importorskip("jupyterhub", reason="a hub needs the school extra")
from hashauthenticator.passwordhash import generate_password_digest  # noqa: E402

pytestmark = pytest.mark.slow


PATIENCE = 300  # s; waiting costs nothing when it comes, and a busy machine is slow


class Hub:
    """A real hub, with the example's configuration but for folders and ports."""

    def __init__(self, folder: Path, ports: list[int]):
        self.folder, self.home = folder / "hub", folder / "class"
        self.home.mkdir()
        lines = [f'[[learner]]\nid = "{learner}"\n' for learner in LEARNERS]
        (self.home / "class.toml").write_text("\n".join(lines))
        text = (resources.clone() / "autograde" / "jupyterhub_config.example.py").read_text()
        given = 'hub.configure(c, folder="/srv/two-stroke-hub")'
        assert given in text
        text = text.replace(
            given, f"hub.configure(c, folder={str(self.folder)!r}, class_folder={str(self.home)!r})"
        )
        self.url = f"http://127.0.0.1:{ports[0]}"
        text += f'\nc.JupyterHub.bind_url = "{self.url}"\nc.JupyterHub.hub_port = {ports[1]}\n'
        text += f'c.ConfigurableHTTPProxy.api_url = "http://127.0.0.1:{ports[2]}"\n'
        self.config = folder / "jupyterhub_config.py"
        self.config.write_text(text)
        self.log = folder / "hub.log"
        self.process: subprocess.Popen | None = None

    @property
    def rooms(self) -> Rooms:
        return Rooms(self.folder, Course.at(self.home))

    def start(self) -> None:
        with self.log.open("ab") as log:
            self.process = subprocess.Popen(
                [sys.executable, "-m", "jupyterhub", "-f", str(self.config)],
                cwd=self.config.parent,
                stdout=log,
                stderr=log,
                start_new_session=True,
                env=os.environ | {"OMP_NUM_THREADS": "1"},
            )
        until = time.monotonic() + PATIENCE
        while time.monotonic() < until:
            assert self.process.poll() is None, self.log.read_text()[-3000:]
            with contextlib.suppress(requests.RequestException):
                if requests.get(f"{self.url}/hub/login", timeout=PATIENCE).ok:
                    return
            time.sleep(0.3)
        raise AssertionError(self.log.read_text()[-3000:])

    def stop(self) -> None:
        if self.process is not None:
            self.process.send_signal(signal.SIGTERM)
            with contextlib.suppress(subprocess.TimeoutExpired):
                self.process.wait(60)
            with contextlib.suppress(ProcessLookupError):
                os.killpg(self.process.pid, signal.SIGKILL)


class Person:
    """Somebody with a browser."""

    def __init__(self, hub: Hub, name: str):
        self.hub, self.name = hub, name.lower()
        self.web = requests.Session()
        self.web.headers["User-Agent"] = "Mozilla/5.0"
        self.token = ""

    def _form(self, page: str, **fields: str) -> requests.Response:
        shown = self.web.get(f"{self.hub.url}{page}", timeout=PATIENCE)
        found = re.search(r'name="_xsrf" value="([^"]+)"', shown.text)
        assert found, f"no form at {page}: {shown.status_code}"
        return self.web.post(shown.url, data={"_xsrf": found[1], **fields}, timeout=PATIENCE)

    def log_in(self, word: str) -> bool:
        self._form("/hub/login", username=self.name, password=word)
        return any(cookie.name == "jupyterhub-hub-login" for cookie in self.web.cookies)

    def hub_call(self, method: str, path: str, **body: object) -> requests.Response:
        """Ask the hub, as the page of JupyterHub does."""
        self.web.get(f"{self.hub.url}/hub/token", timeout=PATIENCE)
        mark = next(c.value for c in self.web.cookies if c.name == "_xsrf" and c.path == "/hub/")
        return self.web.request(
            method,
            f"{self.hub.url}/hub/api{path}",
            headers={
                "X-XSRFToken": mark,
                "Referer": f"{self.hub.url}/hub/home",
                "Content-Type": "application/json",
            },
            data=json.dumps(body),
            timeout=PATIENCE,
        )

    def start(self) -> None:
        """Wait for the own server, which logging in starts, and get leave to use it."""
        until = time.monotonic() + PATIENCE
        while not self.hub_call("GET", f"/users/{self.name}").json()["servers"].get("", {}).get("ready"):
            assert time.monotonic() < until, self.hub.log.read_text()[-3000:]
            time.sleep(0.5)
        self.token = self.hub_call("POST", f"/users/{self.name}/tokens", note="test").json()["token"]

    def call(self, method: str, path: str, whose: str | None = None, **settings: object) -> requests.Response:
        """Ask the own server, or try somebody else's."""
        return requests.request(
            method,
            f"{self.hub.url}/user/{whose or self.name}/{path}",
            headers={"Authorization": f"token {self.token}"},
            timeout=PATIENCE,
            **settings,
        )

    def run(self, code: str) -> str:
        """Run code in a kernel of the own server; return what it printed."""
        kernel = self.call("POST", "api/kernels", json={"name": "python3"}).json()["id"]
        url = f"{self.hub.url}/user/{self.name}/api/kernels/{kernel}/channels".replace("http", "ws", 1)

        async def ask() -> str:
            line = await websocket_connect(
                HTTPRequest(url, headers={"Authorization": f"token {self.token}"}, request_timeout=PATIENCE)
            )
            head = {"msg_id": uuid.uuid4().hex, "msg_type": "execute_request", "session": "s", "username": ""}
            content = {"code": code, "silent": False, "store_history": False, "user_expressions": {}}
            content |= {"allow_stdin": False, "stop_on_error": True}
            message = {"header": head, "parent_header": {}, "metadata": {}, "content": content}
            await line.write_message(json.dumps(message | {"channel": "shell", "buffers": []}))
            printed = ""
            while True:
                got = json.loads(await line.read_message())
                if got["parent_header"].get("msg_id") != head["msg_id"]:
                    continue
                if got["msg_type"] == "stream":
                    printed += got["content"]["text"]
                elif got["msg_type"] == "error":
                    printed += f"{got['content']['ename']}: {got['content']['evalue']}"
                elif got["msg_type"] == "execute_reply":
                    line.close()
                    return printed

        try:
            return asyncio.run(asyncio.wait_for(ask(), PATIENCE))
        finally:
            self.call("DELETE", f"api/kernels/{kernel}")

    def notebook(self) -> dict:
        return self.call("GET", f"api/contents/work/{LAB}/{LAB}.ipynb?content=1").json()

    def save(self, notebook) -> None:
        body = {"type": "notebook", "format": "json", "content": json.loads(invent.as_bytes(notebook))}
        answer = self.call("PUT", f"api/contents/work/{LAB}/{LAB}.ipynb", json=body)
        assert answer.ok, answer.text

    def labs(self, what: str, **fields: str) -> dict:
        """What the panel of labs does: fetch, submit, fetch_feedback."""
        data = {"course_id": "two-stroke", "assignment_id": LAB, **fields}
        answer = self.call("POST", f"assignments/{what}", data=data)
        assert answer.ok, answer.text
        return answer.json()


@pytest.fixture(scope="module")
def hub(tmp_path_factory, walled, free_port):
    made = Hub(tmp_path_factory.mktemp("hub"), [free_port() for _ in range(3)])
    try:
        made.start()
        yield made
    finally:
        made.stop()


@pytest.fixture(scope="module")
def class_(hub):
    """The instructor hands passwords out and lays lab 01 out; the three log in and start."""
    where = ["--folder", str(hub.folder), "--home", str(hub.home)]
    told = CliRunner().invoke(command, ["passwords", "--also", "instructor", "--json", *where])
    words = json.loads(told.output)
    assert len(set(words.values())) == 4
    people = [Person(hub, name) for name in LEARNERS]
    told = CliRunner().invoke(command, ["lay-out", "01", *where])
    assert told.exit_code == 0, told.output
    for one in people:
        assert one.log_in(words[one.name]), hub.log.read_text()[-3000:]
        one.start()
    return people


@pytest.fixture(scope="module")
def worked(class_, trusted):
    """Each fetches the lab, works and hands in: all right, half of it, all right but for one."""
    for one, learner in zip(class_, LEARNERS, strict=True):
        assert one.labs("fetch")["success"]
        answers = labs.model_answers("01", learner)
        tasks = list(answers)
        keep = {0: tasks, 1: tasks[: len(tasks) // 2], 2: tasks[1:]}[LEARNERS.index(learner)]
        one.save(invent.fill(trusted, learner, {task: answers[task] for task in keep}))
        assert one.labs("submit")["success"]
    return class_


@pytest.fixture(scope="module")
def graded(worked, hub):
    """The instructor collects, grades, and lays feedback back, with three commands."""
    where = ["--folder", str(hub.folder), "--home", str(hub.home)]
    told = CliRunner().invoke(command, ["collect", "01", *where])
    assert told.exit_code == 0, told.output
    assert "3 collected, 0 have handed nothing in" in told.output
    with pytest.raises(SystemExit) as ended:
        main(["grade", "01", str(hub.folder / "collected" / LAB), "--home", str(hub.home), "--json"])
    assert not ended.value.code
    told = CliRunner().invoke(command, ["feedback", "01", *where])
    assert "3 learners can fetch their feedback" in told.output
    return hub


def test_is_somebody_without_the_right_words_kept_out(class_, hub):
    key = (hub.folder / "hub" / "password_key").read_text()
    others = generate_password_digest("learner-02", key, 16)
    for name, word in (("learner-01", "invented"), ("learner-01", others), ("learner-01", "")):
        assert not Person(hub, name).log_in(word)
    stranger = generate_password_digest("stranger", key, 16)
    assert not Person(hub, "stranger").log_in(stranger), "not on the class list"


def test_does_each_learner_see_the_lab_and_the_lessons(worked):
    for one in worked:
        cells = one.notebook()["content"]["cells"]
        assert any("open_lab" in cell["source"] for cell in cells)
        names = [each["name"] for each in one.call("GET", "api/contents/lessons").json()["content"]]
        assert any(name.endswith(".ipynb") for name in names)


def test_is_each_learner_alone_in_the_room(worked, hub):
    first = worked[0]
    assert first.call("GET", "api/contents/work", whose="learner-02").status_code in (403, 404)
    places = [hub.rooms.room("learner-02", "work"), hub.folder, hub.home / "class.toml"]
    places += [resources.clone() / "source", hub.folder / "hub" / "jupyterhub.sqlite"]
    code = "import os, pathlib\n" + "\n".join(f"print(os.path.exists({str(each)!r}))" for each in places)
    code += "\nprint(sorted(os.listdir('/exchange/two-stroke/outbound')))"
    code += "\nprint(pathlib.Path('/exchange/two-stroke/outbound/x').write_text('x'))"
    seen = first.run(code)
    assert seen.splitlines()[: len(places)] == ["False"] * len(places)
    assert f"['{LAB}']" in seen
    assert "Read-only file system" in seen
    assert "True" not in seen


def test_does_the_lab_run_in_a_learners_kernel(worked, trusted):
    seen = worked[0].run(
        "from twostroke import lab\n"
        "work = lab.open_lab('01', learner='learner-01')\n"
        "print(work.lab, work.learner)"
    )
    assert "learner-01" in seen
    assert "Error" not in seen


def test_are_marks_in_the_gradebook_under_the_names_of_the_class_list(graded):
    with gradebook.Gradebook(Course.at(graded.home).db_url) as book:
        marks = {s.student_id: s.score for s in book.assignment_submissions(LAB)}
        times = [s.timestamp for s in book.assignment_submissions(LAB)]
    assert set(marks) == set(LEARNERS)
    assert marks["learner-01"] > marks["Learner-03"] > marks["learner-02"] > 0
    assert all(times)


def test_does_each_learner_read_the_own_feedback_and_no_other(graded, worked):
    for one, learner in zip(worked, LEARNERS, strict=True):
        assert one.labs("fetch_feedback")["success"]
        found = one.call("GET", f"api/contents/work/{LAB}/feedback").json()["content"]
        assert len(found) == 1
        inside = one.call("GET", f"api/contents/{quote(found[0]['path'])}").json()["content"]
        page = one.call("GET", f"files/{quote(inside[0]['path'])}")
        assert learner in page.text
        assert not any(other in page.text for other in LEARNERS if other != learner)
        assert len(list(graded.rooms.room(learner, "feedback").glob("*.html"))) == 1


def test_is_a_second_hand_in_collected_in_place_of_the_first(graded, worked, trusted):
    first = worked[1]
    first.save(invent.fill(trusted, "learner-02", labs.model_answers("01", "learner-02")))
    assert first.labs("submit")["success"]
    found = graded.rooms.collect("01")
    assert found.learners == LEARNERS
    data = (found.folder / "learner-02" / LAB / f"{LAB}.ipynb").read_bytes()
    assert data != (Course.at(graded.home).submitted / "learner-02" / LAB / f"{LAB}.ipynb").read_bytes()


def test_are_links_in_a_room_never_followed(graded, worked, tmp_path):
    """From inside the own room, towards what only the hub can read."""
    secret = tmp_path / "secret.ipynb"
    secret.write_text("{}")
    seen = worked[0].run(
        "import os\n"
        "inbound = '/exchange/two-stroke/inbound/'\n"
        f"os.symlink({str(secret.parent)!r}, inbound + 'learner-01+lab01+2099-01-01 00:00:00.000000 UTC+a')\n"
        "name = inbound + 'learner-01+lab01+2099-01-01 00:00:00.000000 UTC+b'\n"
        f"os.mkdir(name); os.symlink({str(secret)!r}, name + '/lab01.ipynb')\n"
        f"os.symlink({str(secret)!r}, name + '/submission_secret.txt'); print('done')"
    )
    assert "done" in seen
    found = graded.rooms.collect("01")
    assert found.refused == ["learner-01"]
    assert "learner-01" not in found.learners
    assert "learner-01" not in graded.rooms.hand_back("01")


def test_is_a_learner_who_is_not_on_the_list_told(tmp_path):
    home = tmp_path / "class"
    home.mkdir()
    with pytest.raises(GradingError, match="names nobody"):
        Rooms(tmp_path / "hub", Course.at(home)).learners()
    (home / "class.toml").write_text('[[learner]]\nid = "learner-01"\n')
    with pytest.raises(GradingError, match="not on the class list"):
        Rooms(tmp_path / "hub", Course.at(home)).prepare("../learner-01")
