"""The learner's own record: predictions, answers and exit checks, kept in the workspace and sent nowhere.

The record is one JSON file, ``my_progress.json`` in the workspace. Entries are only ever added. Each write
goes to a new file which then takes the old one's place, so that a power cut leaves either the old record or
the new one. Two notebooks that are open at once take turns by a lock file.
"""

from __future__ import annotations

import contextlib
import json
import os
import tempfile
import time
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Any
from uuid import uuid4

from twostroke import workspace
from twostroke.lesson.errors import LessonError

FILE = "my_progress.json"
SESSION = uuid4().hex  # one kernel's life; a restart makes a new one
_STALE_LOCK = 10.0  # seconds


def place() -> Path | None:
    """Where the record lies: TWOSTROKE_PROGRESS, else the workspace, else the current folder; None for
    "off"."""
    named = os.environ.get("TWOSTROKE_PROGRESS")
    if named:
        return None if named == "off" else Path(named)
    return (workspace.find(Path.cwd()) or Path.cwd()) / FILE


class Progress:
    """The record of one learner.

    Parameters
    ----------
    file : Path or None
        The JSON file; None keeps everything in memory only.

    Examples
    --------
    >>> record = Progress(None)
    >>> record.add("01", "thickness", "prediction", value="0.3 mm")
    >>> record.last("01", "thickness")["value"]
    '0.3 mm'
    """

    def __init__(self, file: Path | None) -> None:
        self.file = file
        self.trouble = ""
        self._memory: list[dict[str, Any]] = []
        self._watchers: list[Callable[[dict[str, Any]], None]] = []

    def add(self, lesson: str, task: str, kind: str, **what: Any) -> None:
        """Add one entry and tell whoever watches.

        Parameters
        ----------
        lesson, task, kind : str
            Lesson number, task id, and ``prediction``, ``answer``, ``blank``, ``order``, ``exit`` or
            ``practice``.
        **what
            Plain data: ``value``, ``right``, ``believes``, ``score``.
        """
        entry = {
            "when": datetime.now(UTC).isoformat(timespec="seconds"),
            "session": SESSION,
            "lesson": lesson,
            "task": task,
            "kind": kind,
            **what,
        }
        try:
            self._write(entry)
        except (OSError, LessonError) as error:
            self.trouble = (
                f"Not written to {self.file}: {error}. It is kept until the kernel stops; free some room or"
                " check the folder."
            )
        for watcher in list(self._watchers):
            watcher(entry)

    def watch(self, watcher: Callable[[dict[str, Any]], None]) -> None:
        """Call ``watcher`` with each entry that is added from now on."""
        self._watchers.append(watcher)

    def entries(
        self, lesson: str | None = None, task: str | None = None, kind: str | None = None
    ) -> list[dict[str, Any]]:
        """The entries in order, filtered."""
        wanted = {"lesson": lesson, "task": task, "kind": kind}
        return [
            entry
            for entry in [*self._read(), *self._memory]
            if all(value is None or entry.get(name) == value for name, value in wanted.items())
        ]

    def last(self, lesson: str, task: str, kind: str | None = None) -> dict[str, Any] | None:
        """The latest entry of a task, or None."""
        found = self.entries(lesson, task, kind)
        return found[-1] if found else None

    def _read(self) -> list[dict[str, Any]]:
        if self.file is None or not self.file.is_file():
            return []
        try:
            entries = json.loads(self.file.read_text(encoding="utf-8"))["entries"]
            if not all(isinstance(entry, dict) for entry in entries):
                raise TypeError("entries are not records")
        except (ValueError, KeyError, TypeError):
            aside = self.file.with_name(f"{self.file.stem}.damaged-{datetime.now(UTC):%Y%m%d-%H%M%S}.json")
            with contextlib.suppress(OSError):
                os.replace(self.file, aside)
            self.trouble = (
                f"{self.file.name} could not be read. It was put aside as {aside.name}, and a new one begun."
            )
            return []
        return entries

    def _write(self, entry: dict[str, Any]) -> None:
        if self.file is None:
            self._memory.append(entry)
            return
        waiting, self._memory = [*self._memory, entry], []
        try:
            self.file.parent.mkdir(parents=True, exist_ok=True)
            with _lock(self.file.with_suffix(".lock")):
                text = json.dumps(
                    {"format": 1, "entries": [*self._read(), *waiting]}, indent=1, ensure_ascii=False
                )
                _replace(self.file, text)
        except (OSError, LessonError):
            self._memory = waiting
            raise
        self.trouble = "" if self.trouble.startswith("Not written") else self.trouble


def _replace(file: Path, text: str) -> None:
    handle, name = tempfile.mkstemp(dir=file.parent, prefix=f".{file.stem}-", suffix=".tmp")
    try:
        with os.fdopen(handle, "w", encoding="utf-8") as stream:
            stream.write(text)
            stream.flush()
            os.fsync(stream.fileno())
        os.replace(name, file)
    except BaseException:
        with contextlib.suppress(OSError):
            os.unlink(name)
        raise


@contextlib.contextmanager
def _lock(file: Path) -> Iterator[None]:
    """One writer at a time; a lock older than ten seconds was left by a program that died."""
    until = time.monotonic() + _STALE_LOCK
    while True:
        try:
            os.close(os.open(file, os.O_CREAT | os.O_EXCL | os.O_WRONLY))
            break
        except FileExistsError:
            with contextlib.suppress(OSError):
                if time.time() - file.stat().st_mtime > _STALE_LOCK:
                    file.unlink()
                    continue
            if time.monotonic() > until:
                raise LessonError(f"{file.name} stays locked by another notebook") from None
            time.sleep(0.02)
    try:
        yield
    finally:
        with contextlib.suppress(OSError):
            file.unlink()
