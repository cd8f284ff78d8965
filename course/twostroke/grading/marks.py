"""What a person gave: a mark, the log of all marks, and a written answer with what its marking needs."""

from __future__ import annotations

import contextlib
import os
from collections import Counter
from pathlib import Path

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from twostroke.grading.states import GradingError


class Mark(BaseModel):
    """What a person gave, or what stood there before.

    Parameters
    ----------
    points : float or None
        Points by hand; None where there are none.
    due : bool
        Whether a person still has to look.
    comment : str
        For the learner.
    """

    model_config = ConfigDict(frozen=True)
    points: float | None = None
    due: bool = True
    comment: str = ""


class Entry(BaseModel):
    """One line of the log.

    Parameters
    ----------
    number : int
        Place in the log, from 1.
    at : str
        Time, UTC.
    who : str
        Who marked.
    learner, task, grade_id : str
    before, after : Mark
    rows : tuple of float
        Share of each row of the rubric, 0 to 1.
    undoes : int or None
        The entry that this one takes back.
    """

    number: int
    at: str
    who: str
    learner: str
    task: str
    grade_id: str
    before: Mark
    after: Mark
    rows: tuple[float, ...] = Field(default_factory=tuple)
    undoes: int | None = None


class Piece(BaseModel):
    """One written answer in the queue.

    Parameters
    ----------
    lab, learner, task, grade_id, title : str
    answer : str
        As the learner wrote it.
    possible : float
        Points that it is worth.
    mark : Mark
        As it stands.
    rubric : tuple of (str, float)
        What is looked for, with its points.
    guide : str
        The marking guide with its examples.
    others : dict of str to str
        The learner's other answers in this lab, which the text may speak of.
    rows : tuple of float
        Shares given last time.
    """

    lab: str
    learner: str
    task: str
    grade_id: str
    title: str
    answer: str
    possible: float
    mark: Mark
    rubric: tuple[tuple[str, float], ...]
    guide: str
    others: dict[str, str]
    rows: tuple[float, ...] = ()

    def points_of(self, rows: tuple[float, ...]) -> float:
        """Return the points that shares of the rubric's rows come to.

        Raises
        ------
        GradingError
            When there are not as many shares as rows, or one is not between 0 and 1.
        """
        if len(rows) != len(self.rubric) or any(not 0 <= share <= 1 for share in rows):
            raise GradingError(
                f"{len(rows)} shares {rows}: give one from 0 to 1 for each of {len(self.rubric)} rows"
            )
        return round(sum(share * worth for share, (_, worth) in zip(rows, self.rubric, strict=True)), 4)


class MarkLog:
    """The marks of one lab in the order in which they were given, in a file of JSON lines.

    Parameters
    ----------
    path : Path
        ``journal/LAB.marks.jsonl``.
    """

    def __init__(self, path: Path):
        self.path = path

    def entries(self) -> list[Entry]:
        """Return all entries; a last line that was cut off is passed over."""
        if not self.path.is_file():
            return []
        found = []
        for line in self.path.read_text(encoding="utf-8", errors="replace").splitlines():
            with contextlib.suppress(ValidationError, ValueError):
                found.append(Entry.model_validate_json(line))
        return found

    def add(self, entry: Entry) -> None:
        """Append an entry and force it to the disk; a line that was cut off before it is closed."""
        self.path.parent.mkdir(parents=True, exist_ok=True)
        with open(self.path, "ab+") as file:
            if file.seek(0, os.SEEK_END):
                file.seek(-1, os.SEEK_END)
                if file.read(1) != b"\n":
                    file.write(b"\n")
            file.write(entry.model_dump_json().encode() + b"\n")
            file.flush()
            os.fsync(file.fileno())

    def last(self) -> Entry | None:
        """Return the last mark that was not taken back."""
        entries = self.entries()
        taken = {entry.undoes for entry in entries}
        standing = [e for e in entries if e.undoes is None and e.number not in taken]
        return standing[-1] if standing else None

    def rows(self) -> dict[tuple[str, str], tuple[float, ...]]:
        """Return the shares last given, by learner and grade id."""
        return {(e.learner, e.grade_id): e.rows for e in self.entries() if e.undoes is None}

    def comments(self, task: str) -> list[tuple[str, int]]:
        """Return the comments written to answers of a task, with how often; the most used first."""
        last = {e.learner: e.after.comment for e in self.entries() if e.task == task}
        return Counter(text for text in last.values() if text).most_common()
