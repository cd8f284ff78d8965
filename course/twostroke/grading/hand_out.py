"""Handing a lab out: nbgrader's release of it, and its cells in the gradebook."""

from __future__ import annotations

import tempfile
from dataclasses import dataclass
from pathlib import Path

import nbformat

from twostroke.grading import gradebook, skeleton
from twostroke.grading.backup import back_up
from twostroke.grading.files import write_bytes, write_text
from twostroke.grading.journal import only_one
from twostroke.grading.place import Course, lab_name
from twostroke.grading.states import GradingError


@dataclass(frozen=True)
class Released:
    """One lab handed out.

    Parameters
    ----------
    lab : str
    notebook : Path
        What learners get.
    points : float
        What it is worth.
    tasks : int
        Graded cells.
    """

    lab: str
    notebook: Path
    points: float
    tasks: int


def release(*labs: str | int, course: Course | None = None) -> list[Released]:
    """Make the learners' version of labs and enter their cells in the gradebook.

    Parameters
    ----------
    *labs : str or int
        "01", "lab01" or 1; all labs where none is named.
    course : Course, optional
        Without it, this repository and its ``autograde`` folder.

    Returns
    -------
    list of Released

    Raises
    ------
    GradingError
        When a lab is not there, nbgrader refuses it, or a hidden test or solution would be handed out.
    """
    course = course or Course.at()
    names = [lab_name(lab) for lab in labs] or course.labs()
    if not names:
        raise GradingError(f"no lab in {course.source}{course.remedy}")
    with only_one(course):
        back_up(course)
        return [_release(course, name) for name in names]


def _release(course: Course, name: str) -> Released:
    trusted = skeleton.load(course.source_notebook(name))
    with tempfile.TemporaryDirectory(prefix="grading-release-") as folder:
        gradebook.register(course, name, Path(folder))
        made = Path(folder) / name
        notebook = nbformat.read(made / f"{name}.ipynb", as_version=4)
        _refuse_leaks(name, notebook, trusted)
        target = course.release / name
        for other in sorted(made.rglob("*")):
            if other.is_file() and other.suffix != ".ipynb":
                write_bytes(target / other.relative_to(made), other.read_bytes())
        text = nbformat.writes(notebook, version=nbformat.NO_CONVERT).rstrip("\n") + "\n"
        write_text(target / f"{name}.ipynb", text)
    gradebook.note_registered(course, trusted)
    return Released(name, target / f"{name}.ipynb", trusted.max_points, len(trusted.graded()))


def _refuse_leaks(name: str, notebook: nbformat.NotebookNode, trusted: skeleton.Skeleton) -> None:
    """The released text must be, cell by cell, what the trusted side expects a learner to have got."""
    shown = [cell.source for cell in notebook.cells]
    if shown != [slot.released for slot in trusted.slots]:
        raise GradingError(f"{name}: the release differs from what grading expects; run `twostroke build`")
    for word in ("BEGIN SOLUTION", "BEGIN HIDDEN", "BEGIN MARK SCHEME"):
        if any(word in source for source in shown):
            raise GradingError(
                f"{name}: the release still holds {word!r}; nothing was handed out, mend the master"
            )
