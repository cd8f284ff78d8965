"""Ungraded practice of the three things that lose work when they go wrong: save, restart, hand in."""

from __future__ import annotations

import hashlib
import os
import shutil
from datetime import UTC, datetime
from html import escape
from pathlib import Path

from twostroke import workspace
from twostroke.lesson import control
from twostroke.lesson.errors import LessonError
from twostroke.lesson.progress import SESSION, Progress

FOLDER = "to_hand_in"


def this_notebook() -> Path:
    """The notebook file that this kernel belongs to.

    Raises
    ------
    LessonError
        When the place cannot be told.
    """
    named = os.environ.get("JPY_SESSION_NAME")
    if named and Path(named).suffix == ".ipynb" and Path(named).is_file():
        return Path(named)
    raise LessonError(
        "the notebook's file cannot be found from here: open the lesson in JupyterLab, save it, and try again"
    )


def pack(notebook: Path, folder: Path | None = None) -> Path:
    """Copy the saved notebook to the folder from which work is handed in.

    Parameters
    ----------
    notebook : Path
        A saved ``.ipynb`` file.
    folder : Path, optional
        Default: ``to_hand_in`` in the workspace, else beside the notebook.

    Returns
    -------
    Path
        The copy, checked to hold the same bytes.

    Raises
    ------
    LessonError
        When it cannot be written or does not match.
    """
    place = folder or (workspace.find(notebook.parent) or notebook.parent) / FOLDER
    try:
        place.mkdir(parents=True, exist_ok=True)
        copy = Path(shutil.copyfile(notebook, place / notebook.name))
        same = _digest(copy) == _digest(notebook)
    except OSError as error:
        raise LessonError(
            f"the copy could not be written to {place}: {error.strerror}; free some room and pack again"
        ) from error
    if not same:
        raise LessonError(
            f"the copy {copy.name} differs from the notebook: it was saved meanwhile; pack again"
        )
    return copy


def _digest(file: Path) -> str:
    return hashlib.sha256(file.read_bytes()).hexdigest()


class Practice(control.Control):
    """Three steps, each proven by what the machine finds and not by a tick.

    Parameters
    ----------
    lesson : str
        Lesson number.
    progress : Progress
        Where the steps are kept.
    """

    def __init__(self, lesson: str, progress: Progress) -> None:
        super().__init__(name="Practice: save, restart, hand in", look="practice")
        self.lesson, self.progress = lesson, progress
        self._said: dict[str, tuple[bool, str]] = {}
        mark = progress.last(lesson, "practice_mark", "practice")
        if mark:
            self.fill("mark", mark["value"])
        self._draw()

    @property
    def proven(self) -> dict[str, bool]:
        """Which of ``mark``, ``save``, ``restart``, ``hand_in`` are proven."""
        names = ("mark", "save", "restart", "hand_in")
        return {
            name: self.progress.last(self.lesson, f"practice_{name}", "practice") is not None
            for name in names
        }

    def on_keep(self) -> None:
        """Keep the learner's mark; the later steps look for it."""
        mark = str(self.values.get("mark", "")).strip()
        if not mark:
            self._tell("mark", False, "Write a word first, for instance a name for your practice machine.")
            return
        self.progress.add(self.lesson, "practice_mark", "practice", value=mark)
        self._tell(
            "mark", True, f"Kept: {mark}. Now save the notebook with Ctrl and S, or with File, Save Notebook."
        )

    def on_save(self) -> None:
        """Prove that the file was saved after the mark was kept."""
        mark = self.progress.last(self.lesson, "practice_mark", "practice")
        if mark is None:
            self._tell("save", False, "Keep a word in step 1 first.")
            return
        file = this_notebook()
        saved = datetime.fromtimestamp(file.stat().st_mtime, UTC)
        if saved < datetime.fromisoformat(mark["when"]):
            self._tell(
                "save",
                False,
                f"{file.name} was last saved before you kept your word. Press Ctrl and S and ask again.",
            )
            return
        self.progress.add(self.lesson, "practice_save", "practice", value=file.name)
        self._tell(
            "save", True, f"{file.name} was saved after you kept your word. The file on disk is up to date."
        )

    def on_restart(self) -> None:
        """Prove that the kernel was restarted and the mark outlived it."""
        mark = self.progress.last(self.lesson, "practice_mark", "practice")
        if mark is None:
            self._tell("restart", False, "Keep a word in step 1 first.")
        elif mark["session"] == SESSION:
            self._tell(
                "restart",
                False,
                "The kernel is still the one in which you kept your word. Choose Kernel, Restart Kernel and"
                " Run All Cells.",
            )
        else:
            self.progress.add(self.lesson, "practice_restart", "practice", value=mark["value"])
            self._tell(
                "restart", True, f"A new kernel is running, and your word is still here: {mark['value']}."
            )

    def on_hand_in(self) -> None:
        """Pack a copy of the saved notebook."""
        copy = pack(this_notebook())
        self.progress.add(self.lesson, "practice_hand_in", "practice", value=copy.name)
        self._tell(
            "hand_in",
            True,
            f"A copy lies in {copy.parent.name}/{copy.name}. What you change later is not in it. A lab is one"
            " file too: save it, and give that file to your instructor as agreed. The lab says which.",
        )

    def _tell(self, step: str, good: bool, words: str) -> None:
        self._said = {**self._said, step: (good, words)}
        self.speak(words)
        self._draw()

    def _step(self, number: int, step: str, title: str, button: tuple[str, str]) -> list[control.Part]:
        done = " <b>✓ proven</b>" if self.proven[step] else ""
        parts = [control.text(f"{step}-t", f"<p><b>{number}. {title}</b>{done}</p>")]
        parts.append({**control.buttons(button), "key": f"{step}-b"})
        if step in self._said:
            good, words = self._said[step]
            parts.append(control.text(f"{step}-s", f"<p>{escape(words)}</p>", "right" if good else "look"))
        return parts

    def _draw(self) -> None:
        mark = {
            "kind": "entry",
            "key": "mark",
            "label": "A word of your own",
            "hint": "any word",
            "press": "keep",
        }
        first = self._step(1, "mark", "Keep a word.", ("keep", "Keep my word"))
        self.parts = [
            control.text(
                "head", '<p class="tsb-head"><strong>Practice.</strong> Not graded. Nothing can break.</p>'
            ),
            first[0],
            mark,
            *first[1:],
            *self._step(2, "save", "Save the notebook with Ctrl and S, then ask.", ("save", "Is it saved?")),
            *self._step(
                3,
                "restart",
                "Kernel, Restart Kernel and Run All Cells, then ask.",
                ("restart", "Did my word stay?"),
            ),
            *self._step(4, "hand_in", "Pack a copy for handing in.", ("hand_in", "Pack a copy")),
        ]

    def still_html(self) -> str:
        """The steps as a list."""
        return (
            "<p><strong>Practice: save, restart, hand in.</strong></p><ol><li>Write a word of your own and"
            " keep it.</li><li>Save the notebook with Ctrl and S and ask whether it is saved.</li><li>Choose"
            " Kernel, Restart Kernel and Run All Cells, and see that your word stayed.</li><li>Pack a copy"
            " for handing in.</li></ol>"
        )
