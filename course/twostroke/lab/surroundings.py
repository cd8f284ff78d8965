"""Where the lab runs: at a learner's desk or in grading, and where answers and tries are written down."""

from __future__ import annotations

import json
import os
import tempfile
from pathlib import Path
from typing import Any

from twostroke import workspace

PLACEHOLDER = "your name or number"
"""What the released notebook holds until a name is written."""


def in_grading() -> bool:
    """Say whether a grader runs the notebook."""
    return bool(
        os.environ.get("TWOSTROKE_LEARNER")
        or os.environ.get("NBGRADER_EXECUTION") == "autograde"
        or record_only()
        or os.environ.get("TWOSTROKE_ANSWERS")
    )


def record_only() -> bool:
    """Say whether answers are only recorded here and marked elsewhere."""
    return os.environ.get("TWOSTROKE_RECORD_ONLY") == "1"


def trusted_learner() -> str | None:
    """Return the identifier that the grader vouches for.

    Returns
    -------
    str or None
        TWOSTROKE_LEARNER, else under nbgrader the folder …/autograded/<learner>/<lab>, else None.
    """
    named = os.environ.get("TWOSTROKE_LEARNER")
    if named:
        return named
    if os.environ.get("NBGRADER_EXECUTION") == "autograde":
        return Path.cwd().parent.name or None
    return None


def record(event: dict[str, Any]) -> None:
    """Write one line of JSON to the file, or the open descriptor, that TWOSTROKE_ANSWERS names."""
    place = os.environ.get("TWOSTROKE_ANSWERS")
    if not place:
        return
    line = (json.dumps(event, ensure_ascii=False) + "\n").encode()
    if place.isdigit():
        os.write(int(place), line)
        return
    with open(place, "ab") as file:
        file.write(line)


class Tries:
    """Tries of one lab, counted and kept in the workspace beside the notebooks.

    Parameters
    ----------
    lab, learner : str
        Two-digit number; folded identifier.
    attempt : int
        1 for the first.
    """

    def __init__(self, lab: str, learner: str, attempt: int):
        folder = workspace.find() or Path.cwd()
        self.path = folder / workspace.HIDDEN / "tries" / f"lab{lab}.json"
        self._key = f"{learner} {attempt}"
        self._kept: dict[str, dict[str, list[dict[str, Any]]]] = {}
        try:
            kept = json.loads(self.path.read_text(encoding="utf-8"))
            self._kept = kept if isinstance(kept, dict) else {}
        except (OSError, ValueError):
            self._kept = {}

    def of(self, task: str) -> list[dict[str, Any]]:
        """Return the tries of one task, oldest first."""
        mine = self._kept.get(self._key)
        tries = mine.get(task) if isinstance(mine, dict) else None
        return [each for each in tries if isinstance(each, dict)] if isinstance(tries, list) else []

    def add(self, task: str, answer: Any, state: str, slip: str | None) -> int:
        """Keep one try, unless it repeats the last one; return how many there are."""
        tries = self.of(task)
        if not tries or tries[-1].get("answer") != answer:
            tries.append({"answer": answer, "state": state, "slip": slip})
            mine = self._kept.get(self._key)
            self._kept[self._key] = {**(mine if isinstance(mine, dict) else {}), task: tries}
            self._write()
        return len(tries)

    def add_hint(self, task: str, after: int, level: int) -> int:
        """Keep a hint taken on a job, the same one once; return how many there are."""
        name, mine = f"{task} hints", self._kept.get(self._key)
        mine = mine if isinstance(mine, dict) else {}
        taken = [each for each in self.of(name) if set(each) == {"after", "level"}]
        if {"after": after, "level": level} not in taken:
            taken.append({"after": after, "level": level})
            self._kept[self._key] = {**mine, name: taken}
            self._write()
        return len(taken)

    def _write(self) -> None:
        """Write the file whole; a folder that cannot be written to costs only the memory of the tries."""
        try:
            self.path.parent.mkdir(parents=True, exist_ok=True)
            handle, name = tempfile.mkstemp(dir=self.path.parent, prefix="tries-")
            with open(handle, "w", encoding="utf-8") as file:
                json.dump(self._kept, file, ensure_ascii=False, indent=1)
            os.replace(name, self.path)
        except OSError:
            return
