"""Which Python is let in by `python3 course`, and do the constraints bind each one that the project names?"""

from __future__ import annotations

import ast
import os
import sys
import tomllib
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

TOP = Path(__file__).resolve().parents[2]
DOOR = TOP / "course" / "__main__.py"
SETUP = TOP / "course" / "set_up.py"
RENEW = TOP / "course" / "renew_constraints.py"


@pytest.fixture
def door(loaded):
    return loaded(DOOR)


@pytest.fixture
def renew(loaded, monkeypatch):
    monkeypatch.syspath_prepend(str(SETUP.parent))
    return loaded(RENEW)


@pytest.mark.parametrize("file", [DOOR, SETUP, RENEW])
def test_does_the_set_up_use_the_standard_library_alone(file) -> None:
    imported = set()
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            imported |= {alias.name.split(".")[0] for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            imported.add((node.module or "").split(".")[0])
    assert imported <= set(sys.stdlib_module_names) | {SETUP.stem, RENEW.stem}


def test_can_an_old_python_read_the_door_far_enough_to_refuse() -> None:
    """Nothing in it that Python 2.7 or 3.6 would stop at before a word is said."""
    text = DOOR.read_text(encoding="utf-8")
    assert text.isascii()
    newer = (
        ast.JoinedStr,
        ast.AnnAssign,
        ast.NamedExpr,
        ast.ImportFrom,
        ast.Nonlocal,
        ast.Starred,
        ast.Match,
    )
    for node in ast.walk(ast.parse(text, feature_version=(3, 7))):
        assert not isinstance(node, newer), ast.unparse(node)
        if isinstance(node, ast.FunctionDef):
            assert node.returns is None
            assert not node.args.kwonlyargs + node.args.posonlyargs
            assert all(argument.annotation is None for argument in node.args.args)


@pytest.mark.parametrize("version", [(3, 11, 0), (3, 12, 4), (3, 13, 0), (4, 0, 0)])
def test_is_a_new_enough_python_taken(door, version) -> None:
    assert door.refusal(version) == ""


@pytest.mark.parametrize(
    ("version", "here", "says"),
    [
        ((3, 9, 2), [], "3.9.2"),
        ((3, 10, 0), [], "Install Python 3.11"),
        ((3, 10, 0), ["python3.12"], "`python3.12 course`"),
        ((2, 7, 18), ["python3.11", "python3.13"], "`python3.13 course`"),
    ],
)
def test_is_an_old_python_named_with_what_to_do(door, monkeypatch, version, here, says) -> None:
    monkeypatch.setattr(door, "NEWER", ["python3.13", "python3.12", "python3.11"])
    assert says in door.refusal(version, works=lambda command: command in here)


@pytest.mark.skipif(os.name == "nt", reason="a shell script stands in for the pointer")
def test_is_no_python_advised_that_does_not_start(door, monkeypatch, tmp_path) -> None:
    pointer = tmp_path / "pointer"
    pointer.write_text("#!/bin/sh\necho no such version here >&2; exit 127\n")
    pointer.chmod(0o755)
    monkeypatch.setattr(door, "NEWER", [str(pointer), str(tmp_path / "none"), sys.executable])
    assert f"run `{sys.executable} course`" in door.refusal((3, 10, 0))


def test_is_an_old_python_told_without_a_trace(door, monkeypatch, capsys) -> None:
    monkeypatch.setattr(door.sys, "version_info", (3, 10, 13))
    assert door.main(["check"]) == 1
    assert capsys.readouterr().err.startswith("\nThis is Python 3.10.13; the course needs 3.11 or newer.\n")


def test_does_each_python_renew_its_own_constraints(renew) -> None:
    """The newer Python's versions are put anew, the older one's stay, and agreement is one line."""
    first = renew.renewed("# head\n", "alpha==1.0\nBeta==2.0\n-e /a/clone\ngamma==3+local\n", "3.9")
    both = renew.renewed(first, "Beta==2.0\nalpha==1.1\n", "3.10")
    assert [line for line in both.splitlines() if not line.startswith("#")] == [
        'alpha==1.0 ; python_version in "3.9"',
        'alpha==1.1 ; python_version in "3.10"',
        'Beta==2.0 ; python_version in "3.9 3.10"',
    ]
    assert "Python 3.9, 3.10;" in both
    again = renew.renewed(both, "alpha==1.1\nBeta==2.1\n", "3.9")
    assert 'alpha==1.1 ; python_version in "3.9 3.10"' in again
    assert 'Beta==2.0 ; python_version in "3.10"' in again
    assert "alpha==1.0" not in again


def test_do_the_constraints_bind_each_python_that_the_project_names() -> None:
    about = tomllib.loads((TOP / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    pythons = [
        name.rsplit(" ", 1)[1] for name in about["classifiers"] if name.startswith("Programming Language")
    ]
    lines = (TOP / "course" / "constraints.txt").read_text(encoding="utf-8").splitlines()
    pins = [Requirement(line) for line in lines if line and not line.startswith("#")]
    extras = about["optional-dependencies"]
    wanted = [Requirement(text) for text in sum(extras.values(), about["dependencies"])]
    for python in pythons:
        bound = [pin for pin in pins if pin.marker.evaluate({"python_version": python})]
        versions = {canonicalize_name(pin.name): str(pin.specifier).removeprefix("==") for pin in bound}
        assert len(versions) == len(bound), f"a package is bound twice for Python {python}"
        for need in wanted:
            if need.name == about["name"]:
                continue
            assert need.specifier.contains(versions[canonicalize_name(need.name)]), (python, str(need))
