"""The journal of a lab's states: a line when a submission is done, so that a run cut off goes on there."""

from __future__ import annotations

import contextlib
import fcntl
import json
import os
import time
from collections.abc import Iterator
from pathlib import Path
from types import TracebackType

from pydantic import ValidationError

from twostroke.grading.address import held
from twostroke.grading.files import write_text
from twostroke.grading.place import Course
from twostroke.grading.states import GradingError, Outcome


class Journal:
    """States of one lab's submissions, in a file of JSON lines; the last line of a learner counts.

    Parameters
    ----------
    path : Path
        ``journal/LAB.jsonl``.

    Notes
    -----
    A line is written, and forced to the disk, only after marks stand in the gradebook and the files that
    belong to
    them are written. Everything before that line can be done again with the same result, so a run that is
    killed at
    any point is finished by running the command again.
    """

    def __init__(self, path: Path):
        self.path = path
        self._known: dict[str, Outcome] = {}
        self._file: int | None = None

    @classmethod
    def of(cls, course: Course, lab: str) -> Journal:
        """Return the journal of a lab, read."""
        found = cls(course.journal / f"{lab}.jsonl")
        found.load()
        return found

    def load(self) -> None:
        """Read what is there; a last line that was cut off is passed over."""
        self._known = {}
        if not self.path.is_file():
            return
        for line in self.path.read_text(encoding="utf-8", errors="replace").splitlines():
            with contextlib.suppress(ValidationError, ValueError):
                outcome = Outcome.model_validate_json(line)
                self._known[outcome.learner] = outcome

    def outcomes(self) -> list[Outcome]:
        """Last outcome of each learner, in the order of the identifiers."""
        return [self._known[name] for name in sorted(self._known)]

    def get(self, learner: str) -> Outcome | None:
        """Last outcome of a learner."""
        return self._known.get(learner)

    def drop(self, learner: str) -> None:
        """Forget a learner's line; kept on disk by the next `compact`."""
        self._known.pop(learner, None)

    def compact(self) -> None:
        """Write the file anew with one line a learner."""
        lines = [outcome.model_dump_json() for outcome in self.outcomes()]
        write_text(self.path, "".join(line + "\n" for line in lines))

    def add(self, outcomes: list[Outcome]) -> None:
        """Append lines and force them to the disk."""
        if self._file is None:
            self.path.parent.mkdir(parents=True, exist_ok=True)
            self._file = os.open(self.path, os.O_WRONLY | os.O_CREAT | os.O_APPEND, 0o644)
        data = "".join(outcome.model_dump_json() + "\n" for outcome in outcomes).encode()
        while data:
            data = data[os.write(self._file, data) :]
        os.fsync(self._file)
        self._known |= {outcome.learner: outcome for outcome in outcomes}

    def close(self) -> None:
        """Close the file."""
        if self._file is not None:
            os.close(self._file)
            self._file = None

    def __enter__(self) -> Journal:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()


@contextlib.contextmanager
def only_one(course: Course, patience: float = 0.0) -> Iterator[None]:
    """Let one run at a time write; the lock ends with the process that holds it, however that ends.

    Parameters
    ----------
    course : Course
    patience : float
        Seconds for which another writer is waited for.

    Raises
    ------
    GradingError
        When another run is going on, here or on another machine with the same gradebook.
    """
    course.home.mkdir(parents=True, exist_ok=True)
    handle = os.open(course.home / "grading.lock", os.O_RDWR | os.O_CREAT, 0o644)
    try:
        until = time.monotonic() + patience
        while not _locked(handle) and time.monotonic() < until:
            time.sleep(0.05)
        if not _locked(handle):
            holder = os.read(handle, 200).decode("utf-8", "replace").strip()
            raise GradingError(
                f"another run is writing to {course.home} ({holder or 'just begun'}); wait until it is done"
            )
        os.ftruncate(handle, 0)
        os.pwrite(handle, json.dumps({"process": os.getpid()}).encode(), 0)
        with held(course.db_url):
            yield
    finally:
        os.close(handle)


def _locked(handle: int) -> bool:
    """Take the lock where it is free; taking it twice by the same handle does no harm."""
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    return True
