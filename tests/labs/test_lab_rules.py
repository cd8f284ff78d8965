"""Does every lab keep the rules of the course, and does the count see what is missing?"""

from __future__ import annotations

from dataclasses import replace

import pytest
from twostroke import lab
from twostroke.lab import rules
from twostroke.lab.feedback import Feedback
from twostroke.lab.number import Number
from twostroke.lab.slips import clashes
from twostroke.lab.task import COMPETENCIES, KINDS


@pytest.mark.parametrize("lab_id", lab.lab_ids())
def test_is_the_lab_complete(lab_id):
    assert lab.check_lab(lab_id) == []


@pytest.mark.parametrize("lab_id", lab.lab_ids())
def test_does_each_task_name_competency_points_kind_and_outcome(lab_id):
    for task in lab.load(lab_id).tasks:
        assert task.competency in COMPETENCIES
        assert task.kind in KINDS
        assert task.points > 0
        assert len(task.outcome.split()) >= 4


def _changed(monkeypatch, **changes):
    found = replace(lab.load("01"), **changes)
    for place in ("twostroke.lab.rules.load", "twostroke.lab.marking.load", "twostroke.lab.catalogue.load"):
        monkeypatch.setattr(place, lambda _: found)
    return lab.check_lab("01")


def _with_task(name, **changes):
    return tuple(replace(task, **changes) if task.id == name else task for task in lab.load("01").tasks)


def _with_item(task_name, number, **changes):
    task = lab.load("01").task(task_name)
    items = tuple(
        replace(item, **changes) if place == number else item for place, item in enumerate(task.items)
    )
    return _with_task(task_name, items=items)


def _slip(**changes):
    item = lab.load("01").task("metric").items[0]
    assert isinstance(item, Number)
    return _with_item("metric", 0, slips=(replace(item.slips[0], **changes), *item.slips[1:]))


TASKS = lab.load("01").tasks
MISSING = [
    ("too few kinds", {"tasks": TASKS[:2]}, "kinds of task"),
    ("no safety task", {"tasks": tuple(task for task in TASKS if not task.safety)}, "no safety task"),
    ("a written answer", {"tasks": _with_task("oil", kind="written")}, "written answer stands only"),
    ("a route too early", {"tasks": _with_task("oil", kind="route")}, "from lab 10 on"),
    ("no steps", {"tasks": tuple(replace(task, items=task.items[:1]) for task in TASKS)}, "no task has st"),
    ("one id twice", {"tasks": (*TASKS, TASKS[0])}, "same id"),
    ("no optional task", {"id": "07"}, "no optional task for those who program"),
    ("no rubric", {"rubric": ""}, "its rubric is empty"),
    ("no renewal", {"renewal": " "}, "its renewal is empty"),
    ("no aim", {"aim": " "}, "its aim is empty"),
    ("no minutes", {"minutes": 0}, "minutes"),
    ("unknown kind", {"tasks": _with_task("oil", kind="quiz")}, "kind 'quiz'"),
    ("unknown competency", {"tasks": _with_task("oil", competency="luck")}, "competency 'luck'"),
    ("no points", {"tasks": _with_task("oil", points=0)}, "worth no points"),
    ("no outcome", {"tasks": _with_task("oil", outcome="")}, "no outcome"),
    ("safety elsewhere", {"tasks": _with_task("oil", safety=True)}, "counts for the competency safety"),
    ("unknown misconception", {"tasks": _slip(misconception="nobody")}, "not in data/misconceptions.yaml"),
    ("feedback in one part", {"tasks": _slip(feedback=Feedback("Seen."))}, "what it suggests, what to check"),
    ("long feedback", {"tasks": _slip(feedback=Feedback("word " * 46, "a", "b"))}, "48 words; 45 at most"),
    ("two slips", {"tasks": _with_item("metric", 0, slips=TASKS[0].items[0].slips[:2])}, "2 named slips"),
    ("untried edges", {"tasks": _with_item("formulas", 0, cases=())}, "not tried on a missing reading"),
    ("truth as a slip", {"tasks": _slip(value=lambda v, own: v["gap_thou"] * 0.0254)}, "cannot be told"),
    ("narrow range", {"tasks": _with_item("metric", 0, high=1)}, "outside the range of the form check"),
    ("wrong model", {"tasks": _with_item("metric", 0, decimals=0)}, "model answer does not earn"),
    ("points of the master", {"tasks": _with_task("oil", points=5)}, "5 points"),
    ("a task without cells", {"tasks": (*TASKS, replace(TASKS[0], id="extra"))}, "one solution cell"),
]  # fmt: skip


@pytest.mark.parametrize(("changes", "says"), [row[1:] for row in MISSING], ids=[row[0] for row in MISSING])
def test_is_what_is_missing_seen(monkeypatch, changes, says):
    assert any(says in each for each in _changed(monkeypatch, **changes))


def test_is_feedback_that_gives_the_value_away_seen(monkeypatch):
    given = lab.variant("01", rules.SAMPLE[0])
    value = lab.model_answers("01", rules.SAMPLE[0])["metric"]["air_gap"].split()[0]
    tasks = _slip(feedback=Feedback("Seen.", "Suggests.", f"It is {value} of course."))
    assert given["gap_thou"]
    assert any("holds the expected value" in each for each in _changed(monkeypatch, tasks=tasks))


def test_are_slips_within_one_tolerance_seen():
    assert clashes(1.0, {"a": 1.05, "b": 2.0, "c": 2.05}, 0.1) == [("right", "a"), ("b", "c")]


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ('work.mark("oil")\n', 'work.mark("oil")\nprint(1)\n', "nothing else"),
        ('work.check("oil")', 'work.check( "oil" )', 'work.check("oil") alone'),
        ('work.compare("oil")', "", 'work.compare("oil") alone'),
        ('"grade_id": "oil", "solution": true', '"grade_id": "oil"', "one solution cell"),
        ("# Task 3 is marked here. Leave this cell as it is.\n", "", "blank in the release"),
        ('"points": 3}\n# Task 3', '"points": 30}\n# Task 3', "3 points"),
        ('lab.open_lab("01"', 'lab.open_lab("02"', "no cell calls lab.open_lab"),
    ],
)
def test_is_what_the_master_lacks_seen(tmp_path, old, new, says):
    from twostroke import resources
    from twostroke.lab.master import missing_in_master

    text = (resources.clone() / "course" / "text" / "labs" / "lab01.py").read_text(encoding="utf-8")
    assert old in text
    path = tmp_path / "lab01.py"
    path.write_text(text.replace(old, new), encoding="utf-8")
    assert any(says in each for each in missing_in_master(lab.load("01"), path))
