"""Does a lab's text master hold what each task needs: given, answer, check, comparison, hidden mark?"""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from twostroke.lab.task import Lab, Task
from twostroke.lab.written import Written

_HEAD = re.compile(r"^# %%(?P<rest>.*)$", re.MULTILINE)
_HIDDEN = re.compile(r"### BEGIN HIDDEN TESTS\n(.*?)\n### END HIDDEN TESTS", re.DOTALL)


@dataclass(frozen=True)
class Cell:
    """One cell of a percent-format master."""

    text: str
    marks: dict[str, Any]
    markdown: bool


def cells(path: Path) -> list[Cell]:
    """Return the cells of a percent-format master.

    Parameters
    ----------
    path : Path
        A file below course/text/labs.

    Returns
    -------
    list of Cell
        nbgrader's metadata as written; an empty table where there is none or it cannot be read.
    """
    text = path.read_text(encoding="utf-8")
    heads = list(_HEAD.finditer(text))
    ends = [head.start() for head in heads[1:]] + [len(text)]
    found = []
    for head, end in zip(heads, ends, strict=True):
        _, _, given = head["rest"].partition("nbgrader=")
        try:
            marks = json.loads(given) if given else {}
        except ValueError:
            marks = {}
        found.append(Cell(text[head.end() : end].strip(), marks, "[markdown]" in head["rest"]))
    return found


def missing_in_master(lab: Lab, path: Path) -> list[str]:
    """Return what the master of a lab lacks, in words.

    Parameters
    ----------
    lab : Lab
    path : Path
        Its text master.

    Returns
    -------
    list of str
        Empty when nothing is missing.
    """
    if not path.is_file():
        return [f"the text master {path.name} does not exist"]
    code = [cell for cell in cells(path) if not cell.markdown]
    found = []
    if not any(f'lab.open_lab("{lab.id}"' in cell.text for cell in code):
        found.append(f'no cell calls lab.open_lab("{lab.id}", learner=learner)')
    for task in lab.tasks:
        found += [f"task {task.id}: {each}" for each in _missing_for(lab, task, code)]
    for each in lab.optional:
        if not any(f'work.try_function("{each.id}", {each.id})' in cell.text for cell in code):
            found.append(f"no cell tries the optional function {each.id}")
    points = sum(float(cell.marks.get("points", 0)) for cell in code if cell.marks.get("grade"))
    if points != lab.points:
        found.append(f"the master's cells hold {points:g} points, the lab {lab.points:g}")
    return found


def _missing_for(lab: Lab, task: Task, code: list[Cell]) -> list[str]:
    found = []
    answer = [cell for cell in code if f'work.answer("{task.id}"' in cell.text]
    if len(answer) != 1 or not answer[0].marks.get("solution"):
        found.append("needs one solution cell that calls work.answer")
    elif "### BEGIN SOLUTION" not in answer[0].text or "### END SOLUTION" not in answer[0].text:
        found.append("the answer cell holds no model answer between BEGIN SOLUTION and END SOLUTION")
    calls = ["show", "check"] + (["compare"] if lab.practice else [])
    for call in calls:
        if not any(cell.text.strip() == f'work.{call}("{task.id}")' for cell in code):
            found.append(f'no cell holds work.{call}("{task.id}") alone')
    if any(isinstance(item, Written) for item in task.items):
        if not (answer and answer[0].marks.get("grade") and answer[0].marks.get("points") == task.points):
            found.append(f"its answer cell must be graded by a person with {task.points:g} points")
        return found
    hidden = [cell for cell in code if f'work.mark("{task.id}")' in cell.text]
    if len(hidden) != 1 or [part.strip() for part in _HIDDEN.findall(hidden[0].text)] != [
        f'work.mark("{task.id}")'
    ]:
        return [*found, f'needs one cell whose hidden part is work.mark("{task.id}") and nothing else']
    marks = hidden[0].marks
    if not (marks.get("grade") and marks.get("locked")) or marks.get("points") != task.points:
        found.append(f"its marking cell must have grade and locked true and {task.points:g} points")
    if not _HIDDEN.sub("", hidden[0].text).strip():
        found.append("its marking cell is blank in the release: say in a comment what it is for")
    return found
