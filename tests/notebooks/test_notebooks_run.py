"""Does every notebook run from top to bottom, in a workspace like a learner's?

nbval runs each notebook once, in a kernel of its own and in one piece, so that workers never share one. It is
blind to changed drawings; numbers and drawings are proven elsewhere.
"""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import nbformat
import pytest
from twostroke import resources, workspace

TOP = resources.clone()
LESSONS = sorted((TOP / "course" / "lessons").glob("*.ipynb"))
SOURCE = sorted((TOP / "source").glob("*/*.ipynb"))
RELEASE = sorted((TOP / "release").glob("*/*.ipynb"))


def run(notebook: Path, place: Path) -> str:
    """Run one notebook with nbval and return what was said; fail with the cell that failed."""
    variables = {**os.environ, "TWOSTROKE_WORKSPACE": str(place), "IPYTHONDIR": str(place / ".ipython")}
    for name in ("PYTEST_ADDOPTS", "PYTEST_XDIST_WORKER", "PYTEST_XDIST_WORKER_COUNT"):
        variables.pop(name, None)
    done = subprocess.run(
        [
            *(
                sys.executable,
                "-m",
                "pytest",
                "--nbval-lax",
                "--nbval-current-env",
                "-q",
                "-p",
                "no:cacheprovider",
            ),
            *("-p", "no:xdist", "-c", os.devnull, "--rootdir", str(place), str(notebook)),
        ],
        capture_output=True,
        text=True,
        cwd=place,
        env=variables,
        timeout=900,
    )
    said = re.sub(r"\x1b\[[0-9;]*m", "", done.stdout)
    assert done.returncode == 0, f"{notebook.name}:\n{said[:6000]}{done.stderr[-2000:]}"
    return done.stdout


def code_cells(notebook: Path) -> int:
    cells = nbformat.reads(notebook.read_text(encoding="utf-8"), as_version=4).cells
    return sum(cell.cell_type == "code" for cell in cells)


def passed(said: str) -> int:
    found = re.search(r"(\d+) passed", said)
    return int(found.group(1)) if found else 0


def test_is_there_anything_to_run() -> None:
    assert LESSONS
    assert SOURCE
    assert RELEASE


@pytest.mark.parametrize("path", LESSONS, ids=lambda path: path.stem)
def test_does_a_lesson_run(path, tmp_path) -> None:
    place = workspace.lay_out(tmp_path / "course folder").folder
    assert passed(run(place / "lessons" / path.name, place)) == code_cells(path)


def labs(paths: list[Path]) -> list:
    """One of them; all others in the long tier, since tests/labs runs each and reads what its cells say."""
    return [
        pytest.param(path, id=path.stem, marks=[] if path.stem == "lab01" else pytest.mark.long)
        for path in paths
    ]


@pytest.mark.parametrize("path", labs(RELEASE))
def test_does_a_lab_run_before_anything_is_answered(path, tmp_path) -> None:
    place = workspace.lay_out(tmp_path / "course folder").folder
    assert passed(run(place / "labs" / path.parent.name / path.name, place)) == code_cells(path)


@pytest.mark.parametrize("path", labs(SOURCE))
def test_does_the_instructors_lab_run(path, tmp_path) -> None:
    place = tmp_path / path.parent.name
    place.mkdir()
    shutil.copy(path, place)
    assert passed(run(place / path.name, tmp_path)) == code_cells(path)
