"""Does a new lab begin in a state that loads, and is what it lacks said in words?"""

from __future__ import annotations

import json

import pytest
from click.testing import CliRunner
from twostroke import cli, lab, resources
from twostroke.lab.cells import master_text, task_cells
from twostroke.lab.draw import LabError
from twostroke.lab.master import missing_in_master
from twostroke.lab.template import load_file, new_lab


@pytest.fixture
def top(tmp_path):
    for place in ("course/twostroke/lab", "course/text/labs", "tests/labs/wrong"):
        (tmp_path / place).mkdir(parents=True)
    return tmp_path


def test_does_a_new_lab_load_and_its_master_hold_every_cell(top):
    module, master, wrong = new_lab(16, "Carburettor", top)
    begun = load_file(module)
    assert (begun.id, begun.title) == ("16", "Carburettor")
    assert missing_in_master(begun, master) == []
    assert wrong.read_text(encoding="utf-8").endswith("tasks: {}\n")
    compile(module.read_text(encoding="utf-8"), str(module), "exec")


def test_is_what_a_new_lab_lacks_said(top, monkeypatch):
    module, _, _ = new_lab("16", "Carburettor", top)
    begun = load_file(module)
    for place in ("twostroke.lab.rules.load", "twostroke.lab.marking.load", "twostroke.lab.catalogue.load"):
        monkeypatch.setattr(place, lambda _: begun)
    monkeypatch.setattr(resources, "repository", lambda: top)
    missing = " | ".join(lab.check_lab("16"))
    for each in (
        "1 kinds of task",
        "no safety task",
        "its aim is empty",
        "its usual_errors is empty",
        "its rubric is empty",
        "its renewal is empty",
        "its minutes are not given",
        "1 named slips; at least 3",
        "0 wrong answers kept as tests",
    ):
        assert each in missing
    assert "text master" not in missing
    assert "model answer does not earn" not in missing


@pytest.mark.parametrize(
    ("number", "title", "says"),
    [
        ("01", "Again", "exists already"),
        ("16", " ", "plain words"),
        ("16", 'A "quoted" one', "without quotes"),
        ("next", "Carburettor", "write its number"),
    ],
)
def test_is_a_lab_that_cannot_begin_refused_in_words(top, number, title, says):
    with pytest.raises(LabError, match=says):
        new_lab(number, title, top)
    assert not list(top.rglob("*.py"))


def test_is_nothing_written_over_and_nothing_begun_outside_a_clone(top, tmp_path_factory):
    new_lab(16, "Carburettor", top)
    with pytest.raises(LabError, match="not written over"):
        new_lab(16, "Carburettor", top)
    with pytest.raises(LabError, match="top of a clone"):
        new_lab(16, "Carburettor", tmp_path_factory.mktemp("elsewhere"))


WITHOUT_BENCH = [each for each in lab.lab_ids() if all(task.kind != "route" for task in lab.load(each).tasks)]


@pytest.mark.parametrize("lab_id", WITHOUT_BENCH)
def test_does_a_master_written_from_a_finished_lab_lack_nothing_but_optional_functions(lab_id, tmp_path):
    path = tmp_path / f"lab{lab_id}.py"
    path.write_text(master_text(lab.load(lab_id)), encoding="utf-8")
    missing = missing_in_master(lab.load(lab_id), path)
    assert [each for each in missing if "optional function" not in each] == []


def test_are_the_cells_of_one_task_those_of_the_master():
    found = lab.load("05")
    printed = CliRunner().invoke(cli.group, ["lab", "cells", "05", "legs"])
    assert printed.exit_code == 0
    assert printed.output.strip() == task_cells(found, 3, found.task("legs")).strip()


@pytest.mark.parametrize("lab_id", lab.lab_ids())
def test_do_the_notes_for_the_instructor_say_what_is_asked(lab_id):
    done = CliRunner().invoke(cli.group, ["lab", "notes", lab_id, "--json"])
    assert done.exit_code == 0, done.output
    said = json.loads(done.output)
    assert said["minutes"] > 0
    for name in ("aim", "usual errors", "rubric", "new variant or task"):
        assert len(said[name].split()) >= 5, name
    assert [task["task"] for task in said["tasks"]] == [task.id for task in lab.load(lab_id).tasks]
    assert "usual errors:" in CliRunner().invoke(cli.group, ["lab", "notes", lab_id]).output
