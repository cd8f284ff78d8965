"""An instructor's way on a copy of the course, by commands alone: hand out, grade, report, change."""

from __future__ import annotations

import csv
import json
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

pytest.importorskip("nbgrader", reason="grading needs the teach extra")

from twostroke import resources
from twostroke.grading import skeleton
from twostroke.grading.invent import as_bytes
from twostroke.grading.invented_class import InventedClass
from twostroke.grading.place import Course

pytestmark = pytest.mark.slow
CLASS = 41  # one of them hands nothing in
TASK = "Task 3: What the plug asks for, in open air and under compression"


class Instructor:
    """Somebody at a terminal with a clone of the course.

    Parameters
    ----------
    folder : Path
        Where the clone, the class and its files lie.
    """

    def __init__(self, folder: Path) -> None:
        self.clone, self.home, self.inbox = folder / "clone", folder / "class", folder / "handed-in"
        top = resources.clone()
        self.clone.mkdir()
        shutil.copy2(top / "pyproject.toml", self.clone)
        leave = shutil.ignore_patterns("__pycache__", "*.egg-info")
        for name in ("course", "source", "release"):
            shutil.copytree(top / name, self.clone / name, ignore=leave)

    def types(self, *words: str, code: int = 0) -> str:
        """Run one command of the clone; no trace of Python may reach the screen."""
        clean = {**os.environ, "PYTHONPATH": str(self.clone / "course"), "COLUMNS": "200"}
        done = subprocess.run(
            [sys.executable, "-m", "twostroke", *words],
            env=clean,
            cwd=self.clone,
            capture_output=True,
            text=True,
            encoding="utf-8",
            timeout=600,
        )
        said = done.stdout + done.stderr
        assert "Traceback" not in said, said
        assert done.returncode == code, said
        return said

    def json(self, *words: str) -> dict[str, dict]:
        """Outcomes of one command, by learner."""
        told = self.types(*words, "--json")
        return {one["learner"]: one for one in json.loads(told[told.index("{") :])["outcomes"]}

    def hand_in(self) -> list[str]:
        """Files of an invented class; returns who is in it.

        Work without an end is left out: it is killed after half a minute, which other tests see with less.
        """
        made = InventedClass(skeleton.load(Course.at().source_notebook("lab04")), self.inbox)
        learners = made.make(at_least=CLASS)
        for file in self.inbox.rglob("*.ipynb"):
            if "while True" in file.read_text(encoding="utf-8", errors="replace"):
                learner = file.relative_to(self.inbox).parts[0]
                made.put(learner, as_bytes(made.filled(learner)))
        return learners


@pytest.fixture(scope="module")
def instructor(tmp_path_factory: pytest.TempPathFactory) -> Instructor:
    return Instructor(tmp_path_factory.mktemp("instructor"))


def test_does_an_instructor_get_from_the_class_list_to_a_changed_task(instructor: Instructor) -> None:
    home = ("--home", str(instructor.home))
    learners = instructor.hand_in()
    instructor.home.mkdir()
    assert "class.example.toml" in instructor.types("release", "04", *home), (
        "who is in the class is not asked"
    )
    people = "".join(f'\n[[learner]]\nid = "{learner}"\n' for learner in learners)
    (instructor.home / "class.toml").write_text(f'course = "Invented class"\n{people}', encoding="utf-8")

    first = instructor.json("grade", "04", str(instructor.inbox), "--workers", "2", "--trust", *home)
    states = [one["state"] for one in first.values()]
    reasons = [[each["reason"] for each in one["causes"]] for one in first.values()]
    assert len(first) >= CLASS
    assert reasons.count(["nothing handed in"]) == 1, "the whole class came back but one"
    assert {"needs a person", "not graded"} <= set(states), f"broken files and written answers: {set(states)}"
    assert all(one["causes"] for one in first.values() if one["state"] == "not graded"), "without a reason"

    instructor.types("report", "04", *home)
    (table,) = (instructor.home / "reports").rglob("*.csv")
    with table.open(encoding="utf-8-sig", newline="") as file:
        assert len(list(csv.DictReader(file))) == CLASS

    again = instructor.json("grade", "04", "--learner", "learner-01", "--force", *home)
    assert [one["points"] for one in again["learner-01"]["tasks"]] == [
        one["points"] for one in first["learner-01"]["tasks"]
    ]

    master = instructor.clone / "course" / "text" / "labs" / "lab04.py"
    words = master.read_text(encoding="utf-8")
    changed = words.replace(TASK, f"{TASK}, as asked this year")
    assert changed != words, f"lab 04 has no heading {TASK!r} any more"
    master.write_text(changed, encoding="utf-8")
    assert "twostroke build source" in instructor.types("release", "04", *home), (
        "handed out the old text unsaid"
    )
    instructor.types("build", "source")
    instructor.types("release", "04", *home)
    handed_out = instructor.clone / "release" / "lab04" / "lab04.ipynb"
    assert "as asked this year" in handed_out.read_text(encoding="utf-8")
    after = instructor.json("grade", "04", "--learner", "learner-01", "--force", "--trust", *home)
    assert after["learner-01"]["state"] == first["learner-01"]["state"]


def test_does_an_instructor_get_a_scenario_that_can_be_played(instructor: Instructor, tmp_path: Path) -> None:
    file = tmp_path / "wet_shed.yaml"
    said = instructor.types("scenario", "new", str(file), "--fault", "stop_switch")
    step = re.search(r"twostroke (scenario check .+)", said)
    assert step, f"the next step is not named: {said}"
    words = file.read_text(encoding="utf-8")
    assert "stop_switch" in words
    instructor.types("scenario", "check", str(file))
    file.write_text(words.replace("stop_switch", "stop_swich"), encoding="utf-8")
    said = instructor.types("scenario", "check", str(file), code=1)
    assert "stop_swich" in said, "the message names what it could not read"
