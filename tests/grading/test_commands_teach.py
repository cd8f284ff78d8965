"""Do the instructor's commands say what was done, and end with the right code?"""

from __future__ import annotations

import json
import re
import sys
from pathlib import Path
from types import SimpleNamespace

import pytest
from click.testing import CliRunner
from twostroke import cli, grading
from twostroke.grading.states import GradingError, Outcome, State


def run(*words: str):
    return CliRunner().invoke(cli.group, list(words))


def summary(state: State = State.GRADED, failures: int = 0) -> SimpleNamespace:
    outcome = Outcome(learner="a", lab="lab01", state=state)
    return SimpleNamespace(
        lab="lab01", done=1, skipped=0, seconds=0.5, outcomes=[outcome], engine_failures=failures, course=None
    )


@pytest.fixture
def asked(monkeypatch):
    """What the commands ask of `grading`, with answers made up."""
    calls = []

    def answer(name, result):
        def called(*words, **named):
            calls.append((name, words, named))
            return result

        monkeypatch.setitem(sys.modules["twostroke.grading"].__dict__, name, called)

    answer("grade", summary())
    answer(
        "report",
        SimpleNamespace(
            lab="lab01", html=Path("r.html"), table=Path("r.csv"), pdf=None, results=Path("r.zip")
        ),
    )
    answer("release", [SimpleNamespace(lab="lab01", notebook=Path("x.ipynb"), points=24.0, tasks=8)])
    answer("demo", SimpleNamespace(summary=summary()))
    return calls


def test_is_grading_asked_for_what_was_typed(asked, tmp_path) -> None:
    done = run(
        "grade",
        "01",
        str(tmp_path),
        "--home",
        str(tmp_path / "class"),
        "--learner",
        "a b",
        "--force",
        "--json",
    )
    assert done.exit_code == 0, done.output
    name, words, named = asked[0]
    assert (name, words) == ("grade", ("01", tmp_path))
    assert named["course"].home == tmp_path / "class"
    assert (named["learner"], named["force"], named["trust"], named["dry_run"]) == ("a b", True, False, False)
    told = json.loads(done.stdout)
    assert told["outcomes"][0]["learner"] == "a"
    assert told["outcomes"][0]["state"] == State.GRADED.value


def test_is_a_submission_that_needs_a_person_no_failure_of_the_command(asked, monkeypatch) -> None:
    monkeypatch.setattr(grading, "grade", lambda *_, **__: summary(State.PERSON))
    assert run("grade", "01", "--json").exit_code == 0


def test_is_a_failure_of_the_grader_a_failure_of_the_command(asked, monkeypatch) -> None:
    monkeypatch.setattr(grading, "grade", lambda *_, **__: summary(State.NOT_GRADED, failures=2))
    done = run("grade", "01", "--json")
    assert done.exit_code == 1
    assert "2 submissions and gave no mark" in done.output


def test_does_a_dry_run_say_what_came_in(asked) -> None:
    done = run("grade", "01", "--dry-run")
    assert done.exit_code == 0
    assert "what a run would do" in done.output
    assert re.search(r"\ba +not graded", done.output)


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["grade"], "which lab?"),
        (["grade", "01", "--into", "x"], "--into belongs to --demo"),
        (["grade", "--demo", "--learner", "a"], "makes its own class"),
        (["grade", "--workers", "0", "01"], "--workers"),
        (["grade", "01", "--task", "gap", "--force"], "leave SUBMISSIONS and --force out"),
        (["report", "01", "--shoe-size"], "No such option"),
    ],
)
def test_is_a_wrong_call_answered_with_the_right_one(asked, words, says) -> None:
    done = run(*words)
    assert done.exit_code == 2
    assert says in done.output
    assert not asked


def test_is_the_demonstration_of_lab_01_by_default(asked, tmp_path) -> None:
    done = run("grade", "--demo", "--into", str(tmp_path), "--json")
    assert done.exit_code == 0, done.output
    name, words, named = asked[0]
    assert (name, words, named["lab"]) == ("demo", (tmp_path,), "01")


def test_are_release_and_report_told_in_words_and_as_json(asked, tmp_path) -> None:
    assert "8 graded tasks, 24 points" in run("release", "01").output
    assert json.loads(run("release", "--json").stdout)[0]["points"] == 24.0
    assert "r.html" in run("report", "01", "--columns", "learner, percent").output
    assert asked[-1][2]["columns"] == ["learner", "percent"]
    told = json.loads(run("report", "01", "--json", "--pdf", "--oneroster", "--pseudonyms").stdout)
    assert told == {"lab": "lab01", "page": "r.html", "table": "r.csv", "results": "r.zip"}
    assert [asked[-1][2][name] for name in ("pdf", "oneroster", "pseudonyms")] == [True] * 3


def test_is_an_error_of_grading_said_plainly(monkeypatch, capsys, tmp_path) -> None:
    with pytest.raises(SystemExit) as ended:
        cli.main(["report", "01", "--home", str(tmp_path)])
    assert ended.value.code == 1
    said = capsys.readouterr().err
    assert "nothing graded yet" in said
    assert said.startswith("twostroke: ")
    assert issubclass(GradingError, ValueError)
