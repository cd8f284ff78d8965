"""The bench in a terminal, by scripted answers."""

from __future__ import annotations

import io

import pytest
from click.testing import CliRunner
from rich.console import Console
from twostroke.cli import group
from twostroke.lesson.bench_panel import BenchJob, OwnJob, terminal
from twostroke.lesson.bench_panel.parts import SPOTS, actions_at

NAME = "plug_fouled_trimmer"


class Person:
    """Answers questions by what they ask for; options are found by their words on the screen."""

    def __init__(self, *answers):
        self.answers = list(answers)
        self.out = io.StringIO()
        self.console = Console(file=self.out, width=140)

    def ask(self, question):
        if not self.answers:
            raise EOFError
        if "(y/n)" in question and self.answers[0] not in ("y", "n"):
            return "y"  # cautions are kept unless the script says otherwise
        answer = self.answers.pop(0)
        self.out.write(f"{question}{answer}\n")
        if "(number)" not in question or answer.isdigit():
            return answer
        lines = self.out.getvalue().splitlines()
        found = [
            line.split()[0] for line in lines if line[:4].strip().isdigit() and answer.lower() in line.lower()
        ]
        assert found, f"{answer!r} is not among the options:\n" + "\n".join(lines[-20:])
        return found[-1]

    @property
    def seen(self):
        return self.out.getvalue()


def work(tmp_path, *answers, job=None, scenario=NAME):
    person = Person(*answers)
    done = terminal.run(
        tmp_path, scenario=scenario, learner="Anna", job=job, ask=person.ask, console=person.console
    )
    return done, person.seen


@pytest.fixture
def quick_score(monkeypatch):
    from twostroke.isolation import references

    known = references.Reference(40.0, 120.0, 1.0, 1.0, 1, 1)
    monkeypatch.setattr("twostroke.isolation.score.reference", lambda *_: known)


@pytest.mark.usefixtures("quick_score")
def test_can_a_whole_job_be_done_in_a_terminal(tmp_path):
    done, seen = work(
        tmp_path,
        "do something", "spark plug", "Look at the plug", "y",
        "hint",
        "do something", "spark plug", "Fit a known-good plug", "as in the manual", "by hand",
        "do something", "whole machine", "Verify run", "as it failed", "y", "y", "y", "y",
        "readings so far",
        "hand the machine back", "spark", "plug fouled", "80", "to the owner",
        "The plug told most.",
    )  # fmt: skip
    assert done.closed
    assert done.session.outcome.fixed
    assert "CAUTION, fuel spray from the plug hole" in seen
    assert "The maker's manual, local codes and licensed practice come first." in seen
    assert "Hint 1 of 3" in seen
    assert "of 100" in seen
    assert "Best route" in seen
    assert done.reflection == "The plug told most."
    assert f"twostroke card {done.file} --pdf" in seen.replace("\n", "")


@pytest.mark.usefixtures("quick_score")
def test_can_steps_be_put_in_order_in_a_terminal(tmp_path):
    """The auger with the wide gap, from the choice of a machine to the report."""
    done, seen = work(
        tmp_path,
        "difficulty 1", "very strong arm",
        "do something", "lead and boot", "slow pull then fast", "6 mm",
        "do something", "ignition module", "Measure the air gap",
        "do something", "ignition module", "Set the air gap", "I put the steps in order",
        "Loosen both", "until the magnet", "Put the shim", "Let the module go", "Tighten both",
        "draw the shim out", "measure the gap again", "nothing rubs", "that is all",
        "12 thou", "outward", "by hand",
        "do something", "whole machine", "Verify run", "as it failed",
        "hand the machine back", "spark", "too wide", "95", "to the owner", "",
        scenario=None,
    )  # fmt: skip
    repair = done.session.route[2]
    assert "cover" not in repair.settings["order"]
    assert len(repair.settings["order"]) == 8
    assert "recheck" not in repair.settings
    assert done.session.outcome.fixed
    assert "Everything on the list is done: hand it back." in seen
    listed = seen.partition("List before hand-back:")[2].partition("spark: magnet")[0]
    assert listed.count("yes  ") == 5
    assert "not yet" not in listed
    assert "How it comes about" in seen
    assert "left out: put the cover back on" in done.session.outcome.words


def test_does_the_last_hint_say_where(tmp_path):
    _, seen = work(tmp_path, "hint", "hint", "hint")
    assert "Hint 3 of 3" in seen
    assert "Where: " in seen


def test_is_nothing_done_when_a_caution_is_not_kept(tmp_path):
    done, seen = work(
        tmp_path, "do something", "lead and boot", "Adjustable-gap tester, cold", "normal", "6 mm", "n"
    )
    assert done.session.route == []
    assert "Nothing was done" in seen


def test_do_terminal_and_panel_share_the_job(tmp_path):
    BenchJob(NAME, "Anna", tmp_path).do("switch_check")
    done, seen = work(tmp_path, "readings so far")
    assert "Work the stop switch" in seen
    assert "kept as it stands" in seen
    assert len(done.session.route) == 1


def test_are_answers_that_are_none_refused_in_plain_words(tmp_path):
    _, seen = work(tmp_path, "77", "6")
    assert "none of these: type a number from 1 to 6" in seen


def test_does_the_terminal_list_kept_jobs(tmp_path):
    BenchJob(NAME, "Anna", tmp_path).do("switch_check")
    done, _ = work(tmp_path, "choked too long", "6", scenario=None)
    assert done.session.minutes == 1.0


def test_does_an_own_machine_work_in_a_terminal(tmp_path):
    job = OwnJob("own machine", "fast_pull", "Anna", {"air_gap": "8-16 thou"}, None, tmp_path)
    places = list(actions_at(job.session))
    module = str(places.index("module") + 1)
    assert SPOTS["module"].name == "ignition module"
    done, seen = work(
        tmp_path,
        "do something", module, "Measure the air gap", "0.9 mm", "1", "y",
        "what is still possible", "6",
        job=job,
    )  # fmt: skip
    assert done.session.route[0].result == "wide"
    assert "teaching estimate" in seen
    assert "Next: " in seen


def test_does_the_command_hand_on_to_the_terminal(tmp_path):
    result = CliRunner().invoke(
        group, ["bench", NAME, "--terminal", "--learner", "Anna", "--folder", str(tmp_path)], input="6\n"
    )
    assert result.exit_code == 0, result.output
    assert "The hedge trimmer that was choked too long" in result.output


def test_are_words_for_the_terminal_refused_on_the_page(tmp_path):
    result = CliRunner().invoke(group, ["bench", NAME, "--folder", str(tmp_path)])
    assert result.exit_code == 2
    assert "--terminal" in result.output
