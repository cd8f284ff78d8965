"""Percent-format masters to notebooks: stable cell ids, no outputs, the same bytes every time.

A master is a jupytext percent file. A code cell begins with ``# %%``, a text cell with ``# %% [markdown]``.
A lab's cells carry nbgrader's metadata in that line; only what differs from its defaults need be written::

    # %% nbgrader={"grade_id": "t1", "solution": true}
    # %% nbgrader={"grade_id": "t1_check", "grade": true, "locked": true, "points": 2}
    # %% [markdown] nbgrader={"grade_id": "t9", "grade": true, "solution": true, "points": 5}
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from twostroke.build.parts import BuildError

_LESSON = re.compile(r"\d\d_[a-z0-9_]+")
_LAB = re.compile(r"lab\d\d")
_GRADE_ID = re.compile(r"[A-Za-z0-9_-]{1,60}")
_DEFAULTS: dict[str, Any] = {
    "schema_version": 3,
    "grade": False,
    "solution": False,
    "locked": False,
    "task": False,
}
_KERNEL = {"display_name": "Python 3 (ipykernel)", "language": "python", "name": "python3"}


def masters(folder: Path, name: re.Pattern[str]) -> Iterator[Path]:
    """Text masters of a folder, in order; a file that is named otherwise is refused."""
    for path in sorted(folder.glob("*.py")):
        if not name.fullmatch(path.stem):
            raise BuildError(f"{path}: a master here is named like {name.pattern!r}; rename or move it")
        yield path


def lessons(top: Path) -> dict[str, bytes]:
    """All lesson notebooks of a clone."""
    folder = top / "course" / "text" / "lessons"
    return {f"{path.stem}.ipynb": notebook_bytes(read_master(path)) for path in masters(folder, _LESSON)}


def source(top: Path) -> dict[str, bytes]:
    """All instructor's lab notebooks of a clone."""
    folder = top / "course" / "text" / "labs"
    made = {}
    for path in masters(folder, _LAB):
        notebook = read_master(path)
        _check_lab(path, notebook)
        made[f"{path.stem}/{path.stem}.ipynb"] = notebook_bytes(notebook)
    return made


def read_master(path: Path) -> Any:
    """One master as a notebook.

    Parameters
    ----------
    path : Path
        A percent-format file below course/text.

    Returns
    -------
    nbformat.NotebookNode
        With stable cell ids and a note in its metadata that says which file to edit.

    Raises
    ------
    BuildError
        When the master cannot be read, or two cells claim one grade id.
    """
    try:
        import jupytext
    except ImportError:
        raise BuildError(
            "jupytext is not installed: it comes with the teach extra; `python3 course build` installs it"
        ) from None
    import nbformat

    try:
        read = jupytext.reads(path.read_text(encoding="utf-8"), fmt="py:percent")
    except (ValueError, SyntaxError) as error:
        raise BuildError(f"{path}: cannot be read as a percent-format master: {error}") from error
    if not read.cells:
        raise BuildError(f"{path}: has no cells; begin each with a line `# %%` or `# %% [markdown]`")
    _name_cells(path, read.cells)
    edit = "/".join(path.parts[-4:])
    return nbformat.from_dict(
        {
            "cells": read.cells,
            "metadata": {
                "kernelspec": _KERNEL,
                "language_info": {"name": "python"},
                "twostroke": {"derived": f"edit {edit}, then run: python3 course build"},
            },
            "nbformat": 4,
            "nbformat_minor": 5,
        }
    )


def _name_cells(path: Path, cells: list[Any]) -> None:
    """Give each cell its id: the grade id where it has one, else its kind and place."""
    used: set[str] = set()
    for number, cell in enumerate(cells, start=1):
        name = f"{'text' if cell.cell_type == 'markdown' else 'code'}-{number:03d}"
        if "nbgrader" in cell.metadata:
            name = _complete(path, number, cell)
        if name in used:
            raise BuildError(
                f"{path}, cell {number}: grade id {name!r} is used twice; give each cell its own"
            )
        used.add(name)
        cell["id"] = name
        if cell.cell_type == "code":
            cell["outputs"], cell["execution_count"] = [], None


def _complete(path: Path, number: int, cell: Any) -> str:
    """Fill in nbgrader's defaults and return the cell's grade id."""
    given = cell.metadata["nbgrader"]
    where = f"{path}, cell {number}"
    if not isinstance(given, dict):
        raise BuildError(f'{where}: nbgrader must be a table such as {{"grade_id": "t1", "solution": true}}')
    name = given.get("grade_id")
    if not isinstance(name, str) or not _GRADE_ID.fullmatch(name):
        raise BuildError(f"{where}: grade id {name!r} must be 1 to 60 letters, digits, _ or -")
    cell.metadata["nbgrader"] = {**_DEFAULTS, **given}
    return name


def _check_lab(path: Path, notebook: Any) -> None:
    """What nbgrader would misread in silence is refused here."""
    for number, cell in enumerate(notebook.cells, start=1):
        marks = cell.metadata.get("nbgrader")
        where = f"{path}, cell {number}"
        guarded = "BEGIN SOLUTION" in cell.source
        hidden = "BEGIN HIDDEN TESTS" in cell.source
        if marks is None:
            if guarded or hidden:
                raise BuildError(
                    f"{where}: a solution or hidden test needs nbgrader metadata, or it is handed out"
                )
            continue
        if marks["grade"] and not isinstance(marks.get("points"), int | float):
            raise BuildError(f"{where}: cell {marks['grade_id']!r} is graded but has no points")
        if hidden and not (marks["grade"] and marks["locked"]):
            raise BuildError(f"{where}: hidden tests stand only in a cell with grade and locked true")


def notebook_bytes(notebook: Any) -> bytes:
    """A notebook as the bytes that are committed."""
    import nbformat

    nbformat.validate(notebook)
    text = nbformat.writes(notebook, version=nbformat.NO_CONVERT)
    return (text.rstrip("\n") + "\n").encode("utf-8")
