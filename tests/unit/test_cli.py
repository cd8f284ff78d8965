"""Does the command speak plainly and end with the right code?"""

from __future__ import annotations

import json
import subprocess
import sys
import time

import click
import pytest
from click.testing import CliRunner
from twostroke import cli, health, resources, workspace
from twostroke.errors import TwoStrokeError


def run(*words: str) -> subprocess.CompletedProcess[str]:
    """The command as a user runs it."""
    return subprocess.run(
        [sys.executable, "-m", "twostroke", *words], capture_output=True, text=True, timeout=600
    )


def test_is_help_short_and_does_it_name_every_command() -> None:
    done = run("--help")
    assert done.returncode == 0
    assert "Example" in done.stdout
    for name in cli._COMMANDS:
        assert f"  {name} " in done.stdout


def test_does_help_load_no_heavy_library() -> None:
    program = (
        "import sys; from twostroke.cli import main\n"
        "try: main(['--help'])\n"
        "except SystemExit: pass\n"
        "heavy = {'numpy', 'scipy', 'pint', 'matplotlib', 'nbgrader', 'jupyterlab'}\n"
        "print(sorted(heavy & set(sys.modules)), file=sys.stderr)"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True)
    assert done.stderr.strip() == "[]"


@pytest.mark.parametrize("name", list(cli._COMMANDS))
def test_has_every_command_help_with_an_example(name) -> None:
    result = CliRunner().invoke(cli.group, [name, "--help"])
    assert result.exit_code == 0, result.output
    assert "Example" in result.output
    assert f"twostroke {name}" in result.output


@pytest.mark.parametrize("name", list(cli._COMMANDS))
def test_does_the_list_say_what_the_command_says_of_itself(name) -> None:
    command = cli.group.get_command(click.Context(cli.group), name)
    assert command is not None
    assert command.name == name
    assert cli._COMMANDS[name][1].endswith(".")


def test_is_an_unknown_word_answered_with_the_known_ones() -> None:
    done = run("opne")
    assert done.returncode == 2
    assert "'opne'" in done.stderr
    assert "open" in done.stderr
    assert "Traceback" not in done.stderr


def test_is_an_error_of_ours_printed_without_a_trace(tmp_path) -> None:
    done = run("open", str(resources.clone() / "x"))
    assert done.returncode == 1
    assert done.stderr.startswith("twostroke: ")
    assert "inside the course itself" in done.stderr
    assert "Traceback" not in done.stderr


def test_is_a_wrong_option_a_usage_error() -> None:
    assert run("open", "--json").returncode == 2
    assert run("open", "--prot", "1").returncode == 2


def test_does_ctrl_c_end_with_its_own_code(monkeypatch, capsys) -> None:
    def stop(*_, **__):
        raise click.exceptions.Abort

    monkeypatch.setattr(cli.group, "main", stop)
    with pytest.raises(SystemExit) as ended:
        cli.main([])
    assert ended.value.code == 130
    assert "stopped" in capsys.readouterr().err


def test_is_the_workspace_laid_out_and_told_as_json(tmp_path) -> None:
    done = run("open", str(tmp_path / "my work"), "--no-server", "--json")
    assert done.returncode == 0, done.stderr
    told = json.loads(done.stdout)
    assert told["folder"] == str(tmp_path / "my work")
    assert set(told["new"]) == {name for name, _ in workspace._files()}
    assert all((tmp_path / "my work" / name).is_file() for name in told["new"])


def test_does_check_tell_every_look_and_fail_only_on_a_fault(monkeypatch) -> None:
    findings = [health.Finding("a", health.GOOD, "fine"), health.Finding("b", health.NOTE, "odd", "look")]
    monkeypatch.setattr(health, "look_over", lambda: iter(findings))
    good = CliRunner().invoke(cli.group, ["check"])
    assert good.exit_code == 0
    assert "look" in good.output
    findings.append(health.Finding("c", health.FAULT, "broken", "mend it"))
    bad = CliRunner().invoke(cli.group, ["check", "--json"])
    assert bad.exit_code == 1
    assert json.loads(bad.stdout)[2] == {"what": "c", "state": "fault", "seen": "broken", "advice": "mend it"}


def test_is_a_look_that_fails_a_finding_and_not_a_crash(monkeypatch) -> None:
    def ours() -> health.Finding:
        raise TwoStrokeError("a lesson is torn")

    def unforeseen() -> health.Finding:
        raise KeyError("x")

    monkeypatch.setattr(health, "_lessons", ours)
    monkeypatch.setattr(health, "_labs", unforeseen)
    monkeypatch.setattr(health, "_derived", lambda: health.Finding("derived files", health.GOOD, "fresh"))
    found = {finding.what: finding for finding in health.look_over()}
    assert found["lessons"].state == health.FAULT
    assert found["lessons"].seen == "a lesson is torn"
    assert found["labs"].state == health.FAULT
    assert "KeyError" in found["labs"].seen
    assert found["Python"].state == health.GOOD


def test_does_check_see_a_torn_notebook_and_a_leaking_lab(monkeypatch, tmp_path) -> None:
    (tmp_path / "lab01").mkdir()
    monkeypatch.setattr(health.resources, "release", lambda: tmp_path)
    assert health._labs().state == health.FAULT
    (tmp_path / "lab01" / "lab01.ipynb").write_text("{")
    with pytest.raises(resources.ResourceError, match="cannot be read as a notebook"):
        health._labs()
    cell = {"cell_type": "code", "id": "a", "metadata": {}, "outputs": [], "execution_count": None}
    leak = {
        "cells": [{**cell, "source": "### BEGIN SOLUTION"}],
        "metadata": {},
        "nbformat": 4,
        "nbformat_minor": 5,
    }
    (tmp_path / "lab01" / "lab01.ipynb").write_text(json.dumps(leak))
    assert "BEGIN SOLUTION" in health._labs().seen


def test_are_labs_listed_checked_and_answered() -> None:
    listed = json.loads(CliRunner().invoke(cli.group, ["lab", "list", "--json"]).stdout)
    assert "01" in [row["lab"] for row in listed]
    assert all(row["points"] > 0 for row in listed)
    given = CliRunner().invoke(cli.group, ["lab", "answers", "01", "learner 7", "--json"])
    again = CliRunner().invoke(cli.group, ["lab", "answers", "1", "LEARNER  7", "--json"])
    assert json.loads(given.stdout) == json.loads(again.stdout)
    assert CliRunner().invoke(cli.group, ["lab", "check", "01"]).exit_code == 0


def test_does_a_lab_that_lacks_something_fail_its_check(monkeypatch) -> None:
    monkeypatch.setattr("twostroke.lab.check_lab", lambda _: ["no safety task"])
    result = CliRunner().invoke(cli.group, ["lab", "check", "01"])
    assert result.exit_code == 1
    assert "no safety task" in result.output


def test_are_scenarios_listed_without_their_truth(tmp_path) -> None:
    from twostroke import table

    listed = CliRunner().invoke(cli.group, ["scenario", "list"]).output
    for path in table.scenario_paths().values():
        found = table.load_scenario(path)
        assert found.title in listed
    sound = CliRunner().invoke(cli.group, ["scenario", "check", "--form-only"])
    assert sound.exit_code == 0
    assert sound.output.count("form in order") == len(table.scenario_paths())


def test_is_an_unsound_scenario_refused_with_its_place(tmp_path) -> None:
    (tmp_path / "mine.yaml").write_text("id: mine\ntitle: x\n")
    done = run("scenario", "check", str(tmp_path / "mine.yaml"))
    assert done.returncode == 1
    assert "mine.yaml" in done.stderr
    assert "Traceback" not in done.stderr


@pytest.mark.slow
def test_does_jupyterlab_come_up_at_start_here_and_ask_for_its_token(tmp_path) -> None:
    import re
    import urllib.error
    import urllib.request

    process = subprocess.Popen(
        [
            sys.executable,
            "-m",
            "twostroke",
            "open",
            str(tmp_path / "my work"),
            "--no-browser",
            "--port",
            "9371",
        ],
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
    )
    try:
        assert process.stdout is not None
        address = None
        end = time.monotonic() + 300
        while address is None and time.monotonic() < end:
            found = re.search(r"http://127\.0\.0\.1:\d+/lab/tree/\S*\?token=\w+", process.stdout.readline())
            address = found.group() if found else None
        assert address is not None
        assert "/lab/tree/lessons/00_start_here.ipynb" in address
        root, _, token = address.partition("?token=")
        root = root.split("/lab/")[0]
        while time.monotonic() < end:
            try:
                urllib.request.urlopen(f"{root}/api?token={token}").close()
                break
            except urllib.error.URLError:
                time.sleep(0.2)
        with urllib.request.urlopen(f"{root}/api/contents/lessons?token={token}") as answer:
            names = [entry["name"] for entry in json.loads(answer.read())["content"]]
        assert "00_start_here.ipynb" in names
        with urllib.request.urlopen(f"{root}/lab?token={token}") as answer:
            page = answer.read().decode("utf-8")
        settings = json.loads(
            re.search(r'id="jupyter-config-data"[^>]*>(.*?)</script>', page, re.DOTALL).group(1)
        )
        assert "@jupyter/nbgrader:formgrader" in settings["disabledExtensions"]
        shown = f"{root}/lab/api/settings/@jupyterlab/apputils-extension:notification?token={token}"
        with urllib.request.urlopen(shown) as answer:
            assert '"fetchNews": "false"' in json.loads(answer.read())["raw"]
        with pytest.raises(urllib.error.HTTPError) as refused:
            urllib.request.urlopen(f"{root}/api/contents/lessons")
        assert refused.value.code == 403
    finally:
        process.terminate()
        process.wait(timeout=120)
