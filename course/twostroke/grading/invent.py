"""Invented hand-ins for demo class and tests: a released notebook filled in, well, badly, or spoilt."""

from __future__ import annotations

import copy
import json
import re
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import nbformat
from nbformat.notebooknode import NotebookNode

from twostroke.grading.skeleton import Skeleton


def blank(skeleton: Skeleton) -> NotebookNode:
    """Return the lab as a learner gets it.

    Parameters
    ----------
    skeleton : Skeleton

    Returns
    -------
    NotebookNode
    """
    cells = []
    for slot in skeleton.slots:
        cell = copy.deepcopy(slot.cell)
        cell.source = slot.released
        cells.append(cell)
    content = {"cells": cells, "metadata": dict(skeleton.metadata), "nbformat": 4, "nbformat_minor": 5}
    return nbformat.from_dict(json.loads(json.dumps(content)))


def answer_cells(skeleton: Skeleton) -> dict[str, str]:
    """Return the grade id of each task's answer cell: the nearest one above its check cell."""
    found: dict[str, str] = {}
    last = None
    for slot in skeleton.slots:
        if slot.kind == "answer":
            last = slot.grade_id
            if slot.graded and last is not None:  # a written answer, marked by hand
                found[last] = last
        elif slot.mark is not None and last is not None:
            found[slot.mark] = last
    return found


def cell_of(notebook: NotebookNode, grade_id: str) -> NotebookNode:
    """Return the cell with this grade id."""
    return next(c for c in notebook.cells if c.metadata.get("nbgrader", {}).get("grade_id") == grade_id)


def fill(skeleton: Skeleton, learner: str, answers: Mapping[str, Any]) -> NotebookNode:
    """Return the lab filled in by a learner.

    Parameters
    ----------
    skeleton : Skeleton
    learner : str
        Name typed at the top.
    answers : mapping
        Task -> answer; tasks that are left out stay as handed out.

    Returns
    -------
    NotebookNode
    """
    from twostroke.lab.surroundings import PLACEHOLDER

    notebook = blank(skeleton)
    for cell in notebook.cells:
        if cell.cell_type == "code" and "open_lab" in cell.source:
            cell.source = cell.source.replace(PLACEHOLDER, learner)
    places = answer_cells(skeleton)
    for task, answer in answers.items():
        cell = cell_of(notebook, places[task])
        cell.source = _with_answer(cell.source, task, answer)
    return notebook


def _with_answer(source: str, task: str, answer: Any) -> str:
    """Write an answer between the quotes of its cell; where that cannot be done, as one call."""
    if isinstance(answer, Mapping):
        for item, text in answer.items():
            name = re.search(rf"\b{re.escape(item)}=([A-Za-z_]\w*)", source)
            blank_line = re.search(rf'^{name[1]} *= *(?="")', source, re.MULTILINE) if name else None
            if blank_line is None:
                break
            source = f"{source[: blank_line.end()]}{text!r}{source[blank_line.end() + 2 :]}"
        else:
            return source
    return f"work.answer({task!r}, {answer!r})"


def as_bytes(notebook: NotebookNode) -> bytes:
    """Return a notebook as a file's content."""
    return json.dumps(notebook, indent=1).encode()


def put(folder: Path, learner: str, lab: str, data: bytes, name: str | None = None) -> Path:
    """Write a hand-in in the layout LEARNER/LAB/NAME and return its path."""
    target = folder / learner / lab / (name or f"{lab}.ipynb")
    target.parent.mkdir(parents=True, exist_ok=True)
    target.write_bytes(data)
    return target


def spoil(notebook: NotebookNode, change: Callable[[NotebookNode], None]) -> bytes:
    """Return a changed copy as a file's content."""
    other = copy.deepcopy(notebook)
    change(other)
    return as_bytes(other)
