"""The trusted side of a lab: its cells as the gradebook knows them, made by nbgrader's own steps."""

from __future__ import annotations

import ast
import hashlib
import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import nbformat
from nbformat.notebooknode import NotebookNode
from nbgrader import preprocessors, utils
from traitlets.config import Config

from twostroke.grading.place import CODE_STUB, TEXT_STUB
from twostroke.grading.states import GradingError

_STEPS = (
    preprocessors.LockCells,
    preprocessors.ClearSolutions,
    preprocessors.ClearOutput,
    preprocessors.CheckCellMetadata,
    preprocessors.ComputeChecksums,
)
_RELEASE_STEPS = (preprocessors.ClearHiddenTests, preprocessors.ClearMarkScheme)
ENGINE_VERSION = "1"
"""Goes into the fingerprint of a lab: marks made by an older way of marking are made again."""


@dataclass(frozen=True)
class Slot:
    """One cell of the trusted lab.

    Parameters
    ----------
    cell : NotebookNode
        Trusted cell: hidden tests in place, solutions cleared, checksum as in the gradebook.
    released : str
        Text that the learner got.
    grade_id : str or None
        Name in the gradebook, where it has one.
    kind : str
        "check" (graded, locked), "answer" (the learner's), "task" (graded by hand), "locked" (read only) or
        "plain".
    mark : str or None
        Task that a check cell marks by the lab's own call.
    """

    cell: NotebookNode
    released: str
    grade_id: str | None
    kind: str
    mark: str | None

    @property
    def key(self) -> str:
        """Text by which the cell can be recognised where its metadata is lost."""
        return squeeze(self.released)

    @property
    def points(self) -> float:
        """Points of a graded cell, else zero."""
        return float(self.cell.metadata.get("nbgrader", {}).get("points", 0) or 0)

    @property
    def graded(self) -> bool:
        """Whether the gradebook holds a grade for it."""
        return bool(utils.is_grade(self.cell) or utils.is_task(self.cell))


@dataclass(frozen=True)
class Skeleton:
    """A lab as the trusted side knows it.

    Parameters
    ----------
    lab : str
        Such as "lab01".
    slots : tuple of Slot
        Cells in order.
    metadata : dict
        Notebook metadata.
    digest : str
        Fingerprint of the lab and of the way of marking.
    files : dict of str to bytes
        Other files that belong to the lab, by path.
    """

    lab: str
    slots: tuple[Slot, ...]
    metadata: dict[str, Any]
    digest: str
    files: dict[str, bytes]

    def by_id(self) -> dict[str, Slot]:
        """Cells that have a grade id."""
        return {slot.grade_id: slot for slot in self.slots if slot.grade_id}

    def graded(self) -> list[Slot]:
        """Cells for which the gradebook holds a grade."""
        return [slot for slot in self.slots if slot.graded]

    def comment_cell(self, grade_id: str) -> str | None:
        """Return the cell that holds the comment to a grade: the answer itself, or the nearest one above."""
        above = None
        for slot in self.slots:
            if slot.kind in ("answer", "task") and slot.grade_id:
                above = slot.grade_id
            if slot.grade_id == grade_id:
                return above
        return None

    @property
    def max_points(self) -> float:
        """Points of all graded cells."""
        return sum(slot.points for slot in self.graded())


def squeeze(source: str) -> str:
    """Return text without blanks at the ends of lines and without empty lines, for comparison."""
    return "\n".join(line.rstrip() for line in source.splitlines() if line.strip())


def mark_call(source: str) -> str | None:
    """Return the task that a check cell marks, where it holds one call ``work.mark("task")``.

    Examples
    --------
    >>> mark_call('### BEGIN HIDDEN TESTS\\nwork.mark("gap")\\n### END HIDDEN TESTS')
    'gap'
    >>> mark_call("assert gap == 3") is None
    True
    """
    try:
        body = ast.parse(source).body
    except SyntaxError:
        return None
    calls = [_call(node, "mark") for node in body]
    allowed = all(
        call is not None or _call(node, "check") is not None for node, call in zip(body, calls, strict=True)
    )
    marks = [call for call in calls if call is not None]
    return marks[0] if allowed and len(marks) == 1 and calls[-1] is not None else None


def _call(node: ast.stmt, name: str) -> str | None:
    if not (isinstance(node, ast.Expr) and isinstance(node.value, ast.Call)):
        return None
    call = node.value
    if not (
        isinstance(call.func, ast.Attribute)
        and isinstance(call.func.value, ast.Name)
        and call.func.attr == name
    ):
        return None
    if len(call.args) != 1 or call.keywords or not isinstance(call.args[0], ast.Constant):
        return None
    return call.args[0].value if isinstance(call.args[0].value, str) else None


def load(path: Path) -> Skeleton:
    """Read the instructor's notebook and return the trusted lab.

    Parameters
    ----------
    path : Path
        ``source/LAB/LAB.ipynb``.

    Returns
    -------
    Skeleton
        Checksums and locked flags are those that nbgrader itself computes.

    Raises
    ------
    GradingError
        When the notebook cannot be read or lacks what nbgrader needs.
    """
    raw = path.read_bytes()
    lab = path.stem
    try:
        notebook = nbformat.reads(raw.decode("utf-8"), as_version=4)
        resources = {
            "nbgrader": {"notebook": lab, "assignment": lab},
            "unique_key": lab,
            "metadata": {"name": lab},
        }
        config = Config()
        config.ClearSolutions.code_stub, config.ClearSolutions.text_stub = CODE_STUB, TEXT_STUB
        for step in _STEPS:
            notebook, resources = step(config=config).preprocess(notebook, resources)
        public = nbformat.from_dict(json.loads(json.dumps(notebook)))
        for step in _RELEASE_STEPS:
            public, resources = step(config=config).preprocess(public, resources)
    except Exception as error:
        raise GradingError(
            f"{path}: not a lab that can be graded ({error}); run `twostroke build`"
        ) from error
    if len(public.cells) != len(notebook.cells):
        raise GradingError(f"{path}: the released lab has other cells than the source; run `twostroke build`")
    slots = tuple(_slot(cell, shown.source) for cell, shown in zip(notebook.cells, public.cells, strict=True))
    if not any(slot.graded for slot in slots):
        raise GradingError(f"{path}: no cell of it is graded; run `twostroke build`")
    files = {
        str(other.relative_to(path.parent)): other.read_bytes()
        for other in sorted(path.parent.rglob("*"))
        if other.is_file() and other.suffix != ".ipynb" and ".ipynb_checkpoints" not in other.parts
    }
    digest = hashlib.sha256(ENGINE_VERSION.encode() + raw)
    for name, data in files.items():
        digest.update(name.encode() + b"\0" + data)
    return Skeleton(lab, slots, dict(notebook.metadata), digest.hexdigest(), files)


def _slot(cell: NotebookNode, released: str) -> Slot:
    if utils.is_solution(cell):
        kind = "answer"
    elif utils.is_grade(cell):
        kind = "check"
    elif utils.is_task(cell):
        kind = "task"
    elif utils.is_locked(cell):
        kind = "locked"
    else:
        kind = "plain"
    grade_id = cell.metadata.get("nbgrader", {}).get("grade_id")
    mark = mark_call(cell.source) if kind == "check" and cell.cell_type == "code" else None
    return Slot(cell, released, grade_id, kind, mark)
