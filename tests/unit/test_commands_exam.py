"""The command of the examination: tickets, the log, and what is said when something is missing."""

from __future__ import annotations

import json

import pytest
from click.testing import CliRunner
from twostroke import cli
from twostroke.lab import exam
from twostroke.lab.exam.place import read_ticket
from twostroke.lab.exam.sitting import Sitting


@pytest.fixture
def home(tmp_path):
    (tmp_path / "class.toml").write_text('[[learner]]\nid = "learner-01"\n[[learner]]\nid = "learner-02"\n')
    return tmp_path


def run(*words: str):
    return CliRunner().invoke(cli.group, ["exam", *words])


def test_has_each_learner_of_the_class_list_a_ticket_and_the_same_again(home):
    first = run("tickets", "--home", str(home), "--json")
    given = json.loads(first.output)
    assert set(given) == {"learner-01", "learner-02"}
    assert json.loads(run("tickets", "--home", str(home), "--json").output) == given
    address, learner, attempt, token = read_ticket(given["learner-01"])
    assert (address, learner, attempt) == ("http://127.0.0.1:8614", "learner-01", 1)
    assert exam.Place(home / "examination").admits("learner-01", 1, token)


def test_has_a_retake_another_ticket(home):
    said = run(
        "tickets", "learner-01", "--attempt", "2", "--home", str(home), "--address", "https://shop.example/"
    )
    address, _, attempt, token = read_ticket(said.output.strip())
    assert (address, attempt) == ("https://shop.example", 2)
    assert not exam.Place(home / "examination").admits("learner-01", 1, token)


def test_is_it_said_that_there_is_no_class_list(tmp_path):
    said = run("tickets", "--home", str(tmp_path))
    assert said.exit_code == 2
    assert "there is no class list" in said.output


def test_does_the_log_show_what_was_done_and_what_was_missed(home):
    run("tickets", "--home", str(home))
    assert "not opened yet" in run("log", "learner-01", "--home", str(home)).output
    sitting = Sitting(exam.Place(home / "examination"), "learner-01", 1)
    sitting.do(0, "plug_look", {"prepare": True})
    said = run("log", "learner-01", "--home", str(home)).output
    assert "plug_look:" in said
    assert "CAUTION MISSED: fuel_spray" in said
    (row,) = json.loads(run("log", "learner-01", "--home", str(home), "--json").output)
    assert row["missed"] == ["fuel_spray"]


def test_is_an_edited_log_refused_with_its_line(home):
    run("tickets", "--home", str(home))
    place = exam.Place(home / "examination")
    Sitting(place, "learner-01", 1).do(0, "look_over", {"prepare": True, "confirm": []})
    path = place.log("learner-01").path
    path.write_text(path.read_text().replace("look_over", "tank_look"))
    said = run("log", "learner-01", "--home", str(home))
    assert said.exit_code != 0
    assert "line 2 of the kept log" in str(said.exception)


def test_is_a_folder_without_an_examination_told_in_words(tmp_path):
    said = run("log", "learner-01", "--home", str(tmp_path))
    assert "there is no examination here" in str(said.exception)


@pytest.mark.parametrize("word", ["tickets", "serve", "log"])
def test_does_each_command_say_how_it_is_called(word):
    said = run(word, "--help")
    assert said.exit_code == 0
    assert "Example:" in said.output
