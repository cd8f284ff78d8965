"""The invented class of the demonstration, from a model answer to each kind of broken file."""

from __future__ import annotations

import hashlib
import io
import zipfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

from nbformat.notebooknode import NotebookNode, from_dict

from twostroke import lab as labs
from twostroke.grading.invent import answer_cells, as_bytes, cell_of, fill, put, spoil
from twostroke.grading.skeleton import Skeleton

_ENDLESS = "while True:\n    pass"
_STUBBORN = (
    "while True:\n    try:\n        while True:\n            pass\n    except BaseException:\n        pass"
)


class InventedClass:
    """Makes the hand-ins of an invented class.

    Parameters
    ----------
    skeleton : Skeleton
        The lab.
    folder : Path
        Where the hand-ins go, one folder a learner.
    """

    def __init__(self, skeleton: Skeleton, folder: Path):
        self.skeleton, self.folder = skeleton, folder
        self.number = skeleton.lab.removeprefix("lab")
        self.tasks = list(answer_cells(skeleton))
        self.checks = {slot.mark: slot.grade_id for slot in skeleton.slots if slot.mark}
        self.learners: list[str] = []

    def make(self, at_least: int = 0) -> list[str]:
        """Write all hand-ins; return the class, in order, with one who hands nothing in.

        Parameters
        ----------
        at_least : int, optional
            Size of the class; ordinary hand-ins fill it up. Every kind of hand-in is there in any case.
        """
        for one in _SOUND:
            one(self, self._next())
        for share in (0.95, 0.9, 0.8, 0.75, 0.65, 0.5, 0.35):
            self._ordinary(self._next(), share)
        for one in _SPOILT:
            one(self, self._next())
        while len(self.learners) < at_least:
            self._ordinary(self._next(), 0.7)
        return self.learners

    def _next(self) -> str:
        learner = f"learner-{len(self.learners) + 1:02d}"
        self.learners.append(learner)
        return learner

    def model(self, learner: str) -> dict[str, Any]:
        """Answers that earn all points."""
        return labs.model_answers(self.number, learner)

    def put(self, learner: str, data: bytes, name: str | None = None) -> None:
        """Write one hand-in."""
        put(self.folder, learner, self.skeleton.lab, data, name)

    def filled(self, learner: str, answers: dict[str, Any] | None = None) -> NotebookNode:
        """The lab filled in, with all the right answers unless told otherwise."""
        return fill(self.skeleton, learner, self.model(learner) if answers is None else answers)

    def with_slips(self, learner: str, share: float) -> dict[str, Any]:
        """Answers of which about this share is right; the others show a usual slip or are left open."""
        answers = self.model(learner)
        for key, found in labs.slip_answers(self.number, learner).items():
            task, _, item = key.partition(".")
            if _draw(learner, key) > share and found:
                names = sorted(found)
                usual = names[0] if _draw("usual", key) < _draw(learner, key, "which") else names[-1]
                answers[task][item] = found[usual]
        for task in self.tasks:
            if _draw(learner, task, "open") > share + 0.25:
                del answers[task]
        return answers

    def _ordinary(self, learner: str, share: float) -> None:
        self.put(learner, as_bytes(self.filled(learner, self.with_slips(learner, share))))

    def change(self, learner: str, change: Callable[[NotebookNode], None]) -> None:
        """Hand in a right notebook that was changed."""
        self.put(learner, spoil(self.filled(learner), change))

    def into_answer(self, notebook: NotebookNode, place: int, source: str) -> None:
        """Put code before an answer."""
        cell = cell_of(notebook, answer_cells(self.skeleton)[self.tasks[place]])
        cell.source = f"{source}\n{cell.source}"


def _draw(*names: str) -> float:
    digest = hashlib.sha256("\x1f".join(names).encode()).digest()
    return int.from_bytes(digest[:8], "big") / 2**64


def _all_right(c: InventedClass, learner: str) -> None:
    c.put(learner, as_bytes(c.filled(learner)))


def _renamed(c: InventedClass, learner: str) -> None:
    c.put(learner, as_bytes(c.filled(learner)), f"{c.skeleton.lab} (1).ipynb")


def _many_slips(c: InventedClass, learner: str) -> None:
    answers = c.model(learner)
    for key, found in labs.slip_answers(c.number, learner).items():
        task, _, item = key.partition(".")
        if found:
            answers[task][item] = found[sorted(found)[-1]]
    c.put(learner, as_bytes(c.filled(learner, answers)))


def _half_done(c: InventedClass, learner: str) -> None:
    answers = c.model(learner)
    c.put(
        learner, as_bytes(c.filled(learner, {task: answers[task] for task in c.tasks[: len(c.tasks) // 2]}))
    )


def _as_handed_out(c: InventedClass, learner: str) -> None:
    c.put(learner, as_bytes(c.filled(learner, {})))


def _copied_cell(c: InventedClass, learner: str) -> None:
    def change(notebook: NotebookNode) -> None:
        wanted = cell_of(notebook, answer_cells(c.skeleton)[c.tasks[0]])
        notebook.cells.insert(notebook.cells.index(wanted), from_dict({**wanted, "id": "copy"}))

    c.change(learner, change)


def _deleted_check(c: InventedClass, learner: str) -> None:
    c.change(learner, lambda n: n.cells.remove(cell_of(n, c.checks[c.tasks[1]] or "")))


def _raised_points(c: InventedClass, learner: str) -> None:
    def change(notebook: NotebookNode) -> None:
        cell = cell_of(notebook, c.checks[c.tasks[0]] or "")
        cell.source, cell.metadata.nbgrader["points"] = "100.0", 100

    c.put(learner, spoil(c.filled(learner, c.with_slips(learner, 0.6)), change))


def _new_id(c: InventedClass, learner: str) -> None:
    def change(notebook: NotebookNode) -> None:
        cell_of(notebook, answer_cells(c.skeleton)[c.tasks[2]]).metadata.nbgrader["grade_id"] = "mine"

    c.change(learner, change)


def _one_endless_cell(c: InventedClass, learner: str) -> None:
    c.change(learner, lambda n: c.into_answer(n, 3, _ENDLESS))


def _much_output(c: InventedClass, learner: str) -> None:
    c.change(learner, lambda n: c.into_answer(n, 1, "print('x' * 30_000_000)"))


def _ends_itself(c: InventedClass, learner: str) -> None:
    c.change(learner, lambda n: c.into_answer(n, 3, "import os; os._exit(1)"))


def _never_stops(c: InventedClass, learner: str) -> None:
    c.change(learner, lambda n: c.into_answer(n, 5, _STUBBORN))


def _anothers_name(c: InventedClass, learner: str) -> None:
    c.put(learner, as_bytes(c.filled("learner-01")))


def _own_points(c: InventedClass, learner: str) -> None:
    c.put(
        learner,
        spoil(
            c.filled(learner, {}), lambda n: c.into_answer(n, 0, "type(work).mark = lambda self, task: 3.0")
        ),
    )


def _broken(c: InventedClass, learner: str) -> None:
    data = as_bytes(c.filled(learner))
    c.put(learner, data[: len(data) // 2])


def _empty(c: InventedClass, learner: str) -> None:
    c.put(learner, b"")


def _other_lab(c: InventedClass, learner: str) -> None:
    def change(notebook: NotebookNode) -> None:
        for number, cell in enumerate(notebook.cells):
            cell["id"], cell.source = f"other-{number}", f"# another lab, cell {number}"
            if "nbgrader" in cell.metadata:
                cell.metadata.nbgrader["grade_id"] = f"other_{number}"

    c.put(learner, spoil(c.filled(learner), change))


def _lost_metadata(c: InventedClass, learner: str) -> None:
    def change(notebook: NotebookNode) -> None:
        for number, cell in enumerate(notebook.cells):
            cell["metadata"], cell["id"] = {}, f"pasted-{number}"
        notebook.cells = [
            from_dict({**notebook.cells[0], "source": "\n".join(x.source for x in notebook.cells)})
        ]

    c.change(learner, change)


def _not_a_notebook(c: InventedClass, learner: str) -> None:
    c.put(learner, b"%PDF-1.7 the lab, printed", f"{c.skeleton.lab}.pdf")


def _unsafe_archive(c: InventedClass, learner: str) -> None:
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w") as archive:
        archive.writestr(f"../../{c.skeleton.lab}.ipynb", as_bytes(c.filled(learner)))
    c.put(learner, buffer.getvalue(), f"{c.skeleton.lab}.zip")


def _nothing(c: InventedClass, learner: str) -> None:
    """On the class list only."""


_SOUND = (_all_right, _renamed, _many_slips, _half_done, _as_handed_out, _copied_cell, _deleted_check)
_SPOILT = (
    _raised_points,
    _new_id,
    _one_endless_cell,
    _much_output,
    _ends_itself,
    _never_stops,
    _anothers_name,
    _own_points,
    _broken,
    _empty,
    _other_lab,
    _lost_metadata,
    _not_a_notebook,
    _unsafe_archive,
    _nothing,
)
