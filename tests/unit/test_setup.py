"""Does `python3 course` say what is missing, and does it install once and only once?

The set-up files are loaded as they stand; what the machine has is faked, and the environments are small ones
of our own.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path
from types import SimpleNamespace

import pytest

TOP = Path(__file__).resolve().parents[2]
DOOR = TOP / "course" / "__main__.py"
SETUP = TOP / "course" / "set_up.py"


@pytest.fixture
def course(loaded):
    return loaded(SETUP)


def copied(clone: Path) -> None:
    """The set-up's files in a folder of their own."""
    (clone / "course").mkdir(parents=True)
    for file in (DOOR, SETUP):
        shutil.copy(file, clone / "course")


@pytest.fixture
def clone(tmp_path):
    """A folder that looks like a clone, with a blank in its name."""
    top = tmp_path / "my course"
    (top / "course").mkdir(parents=True)
    (top / "pyproject.toml").write_text("[project]\nname = 'x'\n")
    return top


@pytest.fixture
def recorded(course, monkeypatch):
    """Stands in for the slow steps and keeps what they were asked for."""
    calls = []

    def make_venv(venv, uv):
        calls.append("make")
        course.python_of(venv).parent.mkdir(parents=True)
        course.python_of(venv).touch()
        (venv / "pyvenv.cfg").write_text("version = 3.11\n")

    monkeypatch.setattr(course, "make_venv", make_venv)
    monkeypatch.setattr(course, "install", lambda top, venv, extras, uv: calls.append(tuple(extras)))
    return calls


def test_is_the_missing_debian_package_named(course) -> None:
    package = f"python{sys.version_info[0]}.{sys.version_info[1]}-venv"
    with pytest.raises(course.SetupError, match=f"ensurepip.*\n.*apt install {package}"):
        course.check_venv_module(find=lambda name: None if name == "ensurepip" else object(), debian=True)


def test_is_a_missing_venv_module_named_elsewhere(course) -> None:
    with pytest.raises(course.SetupError, match="venv and ensurepip") as caught:
        course.check_venv_module(find=lambda _: None, debian=False)
    assert "apt" not in str(caught.value)


@pytest.mark.parametrize(
    ("output", "says"),
    [
        ("NewConnectionError: Failed to establish a new connection: [Errno -3]", "cannot be reached"),
        ("Temporary failure in name resolution", "cannot be reached"),
        ("error: Failed to fetch\n  Caused by: dns error: failed to lookup address", "cannot be reached"),
        ("OSError: [Errno 28] No space left on device", "disk is full"),
        ("ssl.SSLCertVerificationError: CERTIFICATE_VERIFY_FAILED", "clock"),
        ("ERROR: No matching distribution found for scipy", "try Python 3.11"),
        ("PermissionError: [Errno 13] Permission denied: '/opt/course'", "may not write"),
        ("/x/python: No module named pip", "half made"),
        ("The virtual environment was not created successfully because ensurepip is not available", "-venv"),
        ("something nobody foresaw", "two-stroke-setup.log"),
    ],
)
def test_is_the_reason_of_a_failed_installation_said(course, output, says) -> None:
    assert says in course.reason(output)


def test_is_everything_made_the_first_time_and_nothing_the_second(course, clone, recorded) -> None:
    venv = clone / ".venv"
    course.set_up(set(), clone, venv, None)
    assert recorded == ["make", ()]
    course.set_up(set(), clone, venv, None)
    assert recorded == ["make", ()]


def test_does_a_later_need_add_to_what_is_there(course, clone, recorded) -> None:
    venv = clone / ".venv"
    course.set_up({"teach"}, clone, venv, None)
    course.set_up({"test"}, clone, venv, None)
    course.set_up(set(), clone, venv, None)
    course.set_up({"teach"}, clone, venv, None)
    assert recorded == ["make", ("teach",), ("teach", "test")]


@pytest.mark.parametrize("file", ["pyproject.toml", "course/constraints.txt"])
def test_is_a_changed_project_installed_again(course, clone, recorded, file) -> None:
    venv = clone / ".venv"
    course.set_up({"teach"}, clone, venv, None)
    (clone / file).write_text("# changed\n")
    course.set_up(set(), clone, venv, None)
    assert recorded == ["make", ("teach",), ("teach",)]


def test_is_the_environment_made_anew_when_the_clone_was_moved(course, clone, recorded, capsys) -> None:
    course.set_up(set(), clone, clone / ".venv", None)
    moved = clone.rename(clone.with_name("elsewhere"))
    course.set_up(set(), moved, moved / ".venv", None)
    assert recorded == ["make", (), "make", ()]
    assert "moved" in capsys.readouterr().out


def test_is_an_environment_made_by_hand_used_and_kept(course, clone, recorded) -> None:
    venv = clone / ".venv"
    course.python_of(venv).parent.mkdir(parents=True)
    course.python_of(venv).touch()
    (venv / "mine").touch()
    course.set_up(set(), clone, venv, None)
    assert recorded == [()]
    assert (venv / "mine").exists()


def test_does_an_interrupted_installation_go_on_the_next_time(course, clone, recorded, monkeypatch) -> None:
    venv = clone / ".venv"
    whole = course.install

    def broken(*_):
        raise course.SetupError("no network")

    monkeypatch.setattr(course, "install", broken)
    with pytest.raises(course.SetupError):
        course.set_up(set(), clone, venv, None)
    monkeypatch.setattr(course, "install", whole)
    course.set_up(set(), clone, venv, None)
    assert recorded == ["make", ()]


def test_is_a_half_made_environment_removed(course, tmp_path, monkeypatch) -> None:
    venv = tmp_path / ".venv"

    def fails(*_, **__):
        venv.mkdir()
        return SimpleNamespace(returncode=1, stdout="ensurepip is not available")

    monkeypatch.setattr(course.subprocess, "run", fails)
    with pytest.raises(course.SetupError, match=r"-venv"):
        course.make_venv(venv, None)
    assert not venv.exists()


def test_is_a_foreign_folder_in_the_way_left_alone(course, tmp_path) -> None:
    (tmp_path / ".venv").mkdir()
    with pytest.raises(course.SetupError, match="Remove that folder"):
        course.make_venv(tmp_path / ".venv", None)
    assert (tmp_path / ".venv").exists()


@pytest.mark.parametrize(("uv", "begins"), [(None, "python"), ("/usr/bin/uv", "uv")])
def test_is_the_installer_called_with_constraints_and_the_whole_path(
    course, clone, monkeypatch, uv, begins
) -> None:
    called = []
    (clone / "course" / "constraints.txt").write_text("click==8\n")
    monkeypatch.setattr(course, "follow", lambda command, log: (called.append(command), (0, ""))[1])
    monkeypatch.setattr(course, "compile_all", lambda venv: None)
    course.install(clone, clone / ".venv", ["teach", "test"], uv)
    assert Path(called[0][0]).name.startswith(begins)
    assert called[0][-2:] == ["-e", f"{clone}[teach,test]"]
    assert called[0][called[0].index("-c") + 1] == str(clone / "course" / "constraints.txt")


@pytest.mark.parametrize(("extras", "compiled"), [([], False), (["teach"], True)])
def test_is_byte_code_made_beforehand_where_graded_work_runs(
    course, clone, monkeypatch, extras, compiled
) -> None:
    venv = clone / ".venv"
    packages = venv / "lib" / "packages"
    packages.mkdir(parents=True)
    (packages / "sound.py").write_text("x = 1\n")
    (packages / "template.py").write_text("{{ no Python }}\n")
    monkeypatch.setattr(course, "follow", lambda *_: (0, ""))
    monkeypatch.setattr(course, "python_of", lambda _: Path(sys.executable))
    course.install(clone, venv, extras, None)
    assert [file.stem.split(".")[0] for file in packages.rglob("*.pyc")] == ["sound"] * compiled


def test_is_a_failed_installer_shown_with_its_last_lines(course, clone, monkeypatch) -> None:
    monkeypatch.setattr(course, "follow", lambda *_: (1, "a\nb\nNewConnectionError: no\n"))
    with pytest.raises(course.SetupError, match="cannot be reached"):
        course.install(clone, clone / ".venv", [], None)
    monkeypatch.setattr(course, "follow", lambda *_: (1, "a\nb\nunheard-of trouble\n"))
    with pytest.raises(course.SetupError, match=r"(?s)unheard-of trouble.*setup\.log"):
        course.install(clone, clone / ".venv", [], None)


def test_is_the_installer_followed_and_its_words_kept(course, tmp_path, capsys) -> None:
    said = ["WARNING: Retrying x", "Collecting a", "Installing collected packages: a, b, c"]
    program = f"print(*{said!r}, sep='\\n'); raise SystemExit(3)"
    code, output = course.follow([sys.executable, "-c", program], tmp_path / "log")
    assert code == 3
    assert (
        (tmp_path / "log").read_text()
        == output
        == "WARNING: Retrying x\nCollecting a\nInstalling collected packages: a, b, c\n"
    )
    shown = capsys.readouterr().out
    assert "unpacking 3 packages" in shown
    assert "does not answer; trying again" in shown


@pytest.mark.parametrize(
    ("words", "extras", "command"),
    [
        ([], set(), "-m twostroke open"),
        (["--no-browser"], set(), "-m twostroke open --no-browser"),
        (["--version"], set(), "-m twostroke --version"),
        (["grade", "--demo"], {"teach"}, "-m twostroke grade --demo"),
        (["build", "--check"], {"teach"}, "-m twostroke build --check"),
        (["check", "--json"], set(), "-m twostroke check --json"),
        (["no-such-word"], set(), "-m twostroke no-such-word"),
        (["test", "tests/unit", "-k", "gap"], {"teach", "test"}, "-m pytest tests/unit -k gap"),
    ],
)
def test_is_each_word_handed_to_the_right_place(course, words, extras, command) -> None:
    assert course.plan(words) == (extras, command.split())


@pytest.mark.parametrize("given", [[], ["--all"], ["--long", "-q"]])
def test_does_a_whole_run_keep_a_notebook_on_one_worker(course, given) -> None:
    extras, command = course.plan(["test", *given])
    assert extras == {"teach", "test"}
    assert command[command.index("--dist") + 1] == "loadfile"
    assert command[len(command) - len(given) :] == given


def test_do_the_environments_programs_come_first(course, tmp_path) -> None:
    base = {"PATH": "/usr/bin", "PYTHONHOME": "/x", "HOME": "/h"}
    unix = course.environment(tmp_path, base, windows=False)
    assert unix["PATH"] == f"{tmp_path / 'bin'}:/usr/bin"
    assert "PYTHONHOME" not in unix
    assert unix["VIRTUAL_ENV"] == str(tmp_path)
    windows = course.environment(tmp_path, base, windows=True)
    assert windows["PATH"].split(";")[0].endswith("Scripts")
    assert course.python_of(tmp_path, windows=True).name == "python.exe"


def test_does_a_set_up_error_reach_the_screen_without_a_trace(tmp_path) -> None:
    clone = tmp_path / "a clone"
    copied(clone)
    (clone / "pyproject.toml").write_text("[project]\nname='x'\nversion='1'\n")
    (clone / ".venv").mkdir()
    done = subprocess.run(
        [sys.executable, str(clone / "course"), "check"],
        capture_output=True, text=True, cwd=tmp_path, env={**os.environ, "PATH": "/nowhere"},
    )  # fmt: skip
    assert done.returncode == 1
    assert "Remove that folder" in done.stderr
    assert "Traceback" not in done.stderr


def test_is_help_given_without_a_set_up() -> None:
    done = subprocess.run([sys.executable, str(DOOR.parent), "--help"], capture_output=True, text=True)
    assert done.returncode == 0
    assert "python3 course test" in done.stdout


def test_does_the_exit_code_of_what_was_handed_on_come_back(loaded, tmp_path) -> None:
    """A real environment without packages: handing on reaches its Python and fails there, with its code."""
    clone = tmp_path / "c"
    copied(clone)
    (clone / "pyproject.toml").write_text("")
    subprocess.run([sys.executable, "-m", "venv", "--without-pip", str(clone / ".venv")], check=True)
    module = loaded(clone / "course" / SETUP.name)
    stamp = {"fingerprint": module.fingerprint(module.TOP, module.VENV), "extras": [], "top": str(module.TOP)}
    (clone / ".venv" / "two-stroke-stamp.json").write_text(json.dumps(stamp))
    package = clone / "twostroke"
    package.mkdir()
    (package / "__init__.py").touch()
    (package / "__main__.py").write_text("import sys, shutil; print(shutil.which('python')); sys.exit(7)")
    done = subprocess.run(
        [sys.executable, str(clone / "course"), "anything"],
        capture_output=True, text=True, env={**os.environ, "PYTHONPATH": str(clone)},
    )  # fmt: skip
    assert done.returncode == 7, done.stderr
    assert done.stdout.strip().startswith(str(clone / ".venv"))
