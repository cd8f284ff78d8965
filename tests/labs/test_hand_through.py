"""The whole way of the labs, through commands alone, on a clone: handed out, filled in, handed in,
graded, read."""

from __future__ import annotations

import html
import json
import os
import re
import shutil
import signal
import subprocess
import sys
import zipfile
from pathlib import Path

import nbformat
import pytest
from nbclient import NotebookClient
from twostroke import lab, resources

pytestmark = pytest.mark.slow
LABS = lab.lab_ids()
ABLE, STUCK = "learner-01", "learner-02"
CLASS = f"""course = "Walk"
[[learner]]
id = "{ABLE}"
[[learner]]
id = "{STUCK}"
[[learner]]
id = "learner-03"
"""


class Clone:
    """A clone of the repository with a class beside it."""

    def __init__(self, folder: Path):
        self.top, self.home, self.workspace = folder / "clone", folder / "class", folder / "workspace"
        subprocess.run(["git", "clone", "-q", str(resources.clone()), str(self.top)], check=True)
        self.home.mkdir()
        (self.home / "class.toml").write_text(CLASS)
        self.environment = os.environ | {"PYTHONPATH": str(self.top / "course"), "HOME": str(folder)}
        for name in [name for name in self.environment if name.startswith("TWOSTROKE")]:
            del self.environment[name]

    def command(self, *words: str) -> list[str]:
        return [sys.executable, "-m", "twostroke", *words]

    def run(self, *words: str) -> str:
        done = subprocess.run(
            self.command(*words), cwd=self.top, env=self.environment, capture_output=True, text=True
        )
        assert done.returncode == 0, done.stderr[-3000:] + done.stdout[-1000:]
        assert "Traceback" not in done.stderr
        return done.stdout


@pytest.fixture(scope="module")
def clone(tmp_path_factory):
    return Clone(tmp_path_factory.mktemp("walk"))


@pytest.fixture(scope="module")
def handed_out(clone):
    """Released by the instructor, laid out for a learner."""
    made = json.loads(clone.run("release", "--home", str(clone.home), "--json"))
    assert [one["lab"] for one in made] == [f"lab{number}" for number in LABS]
    clone.run("open", str(clone.workspace), "--no-server", "--json")
    return clone


def _typed(cell, names: dict[str, str], blanks: dict) -> None:
    """Type each text between its quotes."""
    for item, text in blanks.items():
        line = re.compile(rf'(?m)^({names[item]} *= )""')
        assert line.search(cell.source), (cell.source, item)
        cell.source = line.sub(lambda found, text=text: f'{found[1]}"{text}"', cell.source)


def _worked(cell, route) -> None:
    """Type a line for each step on the bench, in front of the line that answers."""
    lines = [
        f'machine.hand_back("{step["diagnosis"]}", "90 %")'
        if step["action"] == "hand_back"
        else f'machine.do("{step["action"]}", prepare=True, confirm="all")'
        for step in route
    ]
    head, call, tail = cell.source.partition("work.answer(")
    cell.source = head + "\n".join(lines) + "\n" + call + tail


def _filled(clone: Clone, number: str, learner: str, answers: dict):
    """A lab of the workspace, filled in with text between quotes and lines for the bench."""
    notebook = nbformat.read(clone.workspace / "labs" / f"lab{number}" / f"lab{number}.ipynb", as_version=4)
    for cell in notebook.cells:
        cell.source = cell.source.replace('"your name or number"', f'"{learner}"')
        for task, blanks in answers.items():
            if f'work.answer("{task}"' not in cell.source:
                continue
            if isinstance(blanks.get("route"), list):
                _worked(cell, blanks["route"])
                continue
            call = cell.source.partition("work.answer")[2]
            _typed(cell, dict(re.findall(r"(\w+)=(\w+)", call)), blanks)
    return notebook


def _half(number: str, answers: dict) -> dict:
    """Every other task left as it was handed out; in the others the first kept wrong answer."""
    wrong = lab.wrong_answers(number)
    found = {}
    for task in list(answers)[::2]:
        change = next((row["change"] for row in wrong[task] if all(row["change"].values())), {})
        if all(type(text) is str and '"' not in text for text in {**answers[task], **change}.values()):
            found[task] = {**answers[task], **change}
    return found


def _zip(clone: Clone, number: str, notebooks: dict) -> Path:
    path = clone.home / f"lab{number}.zip"
    with zipfile.ZipFile(path, "w") as file:
        for learner, notebook in notebooks.items():
            file.writestr(f"{learner}/lab{number}/lab{number}.ipynb", nbformat.writes(notebook))
    return path


def _graded(clone: Clone, number: str, notebooks: dict) -> dict:
    path = _zip(clone, number, notebooks)
    words = ("grade", number, str(path), "--home", str(clone.home), "--trust", "--json")
    outcomes = json.loads(clone.run(*words))["outcomes"]
    return {outcome["learner"]: outcome for outcome in outcomes}


def _page(clone: Clone, number: str, learner: str) -> str:
    pages = list((clone.home / "feedback" / learner / f"lab{number}").glob("*.html"))
    assert pages, "no page for the learner"
    return pages[0].read_text(encoding="utf-8")


def _read(clone: Clone, number: str, learner: str, outcome: dict) -> None:
    """What the learner reads: every task with its points, and nothing that only the instructor may see."""
    page = _page(clone, number, learner)
    text = html.unescape(re.sub(r"<[^>]+>", " ", page))
    for task in lab.load(number).tasks:
        assert task.title in text
    assert "BEGIN HIDDEN" not in page
    assert "Traceback" not in page
    for task in outcome["tasks"]:
        for step in task["steps"] if task["state"] in ("known slip", "part right") else ():
            assert step["check"] in text, step


@pytest.mark.parametrize("number", [each for each in LABS if lab.load(each).practice])
def test_does_a_lab_go_the_whole_way(handed_out, number):
    clone = handed_out
    model = lab.model_answers(number, ABLE)
    half = _half(number, lab.model_answers(number, STUCK))
    notebooks = {ABLE: _filled(clone, number, ABLE, model), STUCK: _filled(clone, number, STUCK, half)}
    found = _graded(clone, number, notebooks)
    able, stuck = found[ABLE], found[STUCK]
    for task in able["tasks"]:
        waits = task["state"] == "needs a person"
        assert waits or task["points"] == task["max_points"], (task["task"], task["steps"])
    assert stuck["state"] == "graded" or lab.load(number).id in ("04", "10", "12")
    points = {task["task"]: task["points"] for task in stuck["tasks"]}
    marks = {mark.task: mark for mark in lab.mark_answers(number, STUCK, half)}
    for task, mark in marks.items():
        if lab.load(number).task(task).kind != "written":  # those wait for a person, however short they are
            assert points[task] == pytest.approx(mark.points), task
    assert found["learner-03"]["state"] == "not graded"
    for learner in (ABLE, STUCK):
        _read(clone, number, learner, found[learner])


@pytest.fixture
def service(handed_out):
    words = ("exam", "serve", "--home", str(handed_out.home), "--port", "0")
    process = subprocess.Popen(
        handed_out.command(*words), cwd=handed_out.top,
             env=handed_out.environment | {"PYTHONUNBUFFERED": "1"},
        stdout=subprocess.PIPE, text=True,
    )  # fmt: skip
    address = process.stdout.readline().rpartition(" ")[2].strip()
    yield address
    process.send_signal(signal.SIGINT)
    assert process.wait(180) == 0
    process.stdout.close()


def test_does_the_examination_go_the_whole_way(handed_out, service, monkeypatch):
    from twostroke.lab import exam
    from twostroke.lab.bench_job import model_route
    from twostroke.lab.exam.cases import draw

    clone = handed_out
    given = json.loads(
        clone.run("exam", "tickets", "--home", str(clone.home), "--address", service, "--json")
    )
    assert set(given) == {ABLE, STUCK, "learner-03"}
    place = exam.Place(clone.home / "examination")
    route = model_route(draw(place.draws, ABLE), pairs=True)
    lines = [
        f'machine.do("{step["action"]}", prepare=True, confirm={step["cautions_confirmed"]!r})'
        for step in route[:-1]
    ]
    lines.append(f'machine.hand_back("{route[-1]["diagnosis"]}", "90 %")')
    monkeypatch.setenv("PYTHONPATH", str(clone.top / "course"))

    def run(receipt: str, answers: dict) -> nbformat.NotebookNode:
        notebook = _filled(clone, "14", ABLE, answers | {"bench": {"receipt": receipt}} if receipt else {})
        cell = next(cell for cell in notebook.cells if 'work.answer("bench"' in cell.source)
        cell.source = cell.source.replace('ticket = ""', f'ticket = "{given[ABLE]}"')
        head, receipt_line, tail = cell.source.partition("receipt = ")
        cell.source = head + "\n".join(lines) + "\n" + receipt_line + tail
        folder = clone.workspace / "labs" / "lab14"
        NotebookClient(notebook, timeout=600, resources={"metadata": {"path": str(folder)}}).execute()
        return notebook

    first = run("", {})
    cell = next(cell for cell in first.cells if 'work.answer("bench"' in cell.source)
    said = "".join(output.get("text", "") for output in cell.outputs)
    receipt = re.search(r"Receipt: (\S+)", said)[1]
    with exam.using(place.folder):
        answers = lab.model_answers("14", ABLE)
    again = run(receipt, answers)
    log = json.loads(clone.run("exam", "log", ABLE, "--home", str(clone.home), "--json"))
    assert len(log) == len(route), "the cell run again has cost nothing"
    untouched = _filled(clone, "14", STUCK, {})
    found = _graded(clone, "14", {ABLE: again, STUCK: untouched})
    points = {task["task"]: task["points"] for task in found[ABLE]["tasks"]}
    assert points == {"safe": 2.0, "bench": 14.0, "card": 5.0, "explain": None}
    assert sum(task["points"] or 0 for task in found[STUCK]["tasks"]) == 0
    assert "Passed. Score" in re.sub(r"<[^>]+>", " ", _page(clone, "14", ABLE))


def test_does_the_class_report_hold_a_lab_that_came_back(handed_out):
    answers = lab.model_answers("13", ABLE)
    _graded(handed_out, "13", {ABLE: _filled(handed_out, "13", ABLE, answers)})  # done before: not run again
    shutil.rmtree(handed_out.home / "reports", ignore_errors=True)
    made = json.loads(handed_out.run("report", "13", "--home", str(handed_out.home), "--json"))
    assert ABLE in Path(made["table"]).read_text(encoding="utf-8")
