"""A log that shows when it was edited: every line is signed, and each signature holds the one before it."""

from __future__ import annotations

import hashlib
import hmac
import json
import os
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from twostroke.errors import TwoStrokeError

FORM = 1
_FIRST = "begin"


class LogError(TwoStrokeError):
    """A kept log is not as the service wrote it."""


@dataclass(frozen=True)
class Entry:
    """One line of a log.

    Parameters
    ----------
    number : int
        0 for the line that opens it.
    kind : str
        ``open``, ``step`` or ``end``.
    at : str
        Time of the service's clock, UTC.
    body : dict
        What is kept.
    seal : str
        Signature of this line and of all before it.
    """

    number: int
    kind: str
    at: str
    body: dict[str, Any]
    seal: str


class Log:
    """The log of one sitting.

    Parameters
    ----------
    path : Path
        Its file, one JSON line an entry.
    key : bytes
        With which lines are signed.
    name : str
        Whose log it is; it is signed too, so that one learner's log is no other's.

    Raises
    ------
    LogError
        A line that was changed, left out, moved or added; the message names it.

    Notes
    -----
    HMAC with SHA-256 (RFC 2104, FIPS 198-1). A line torn by a crash was never answered to a learner, so it is
    taken away. That lines are missing at the end can be seen only by a receipt that names more of them.
    """

    def __init__(self, path: Path, key: bytes, name: str):
        self.path, self._key, self._name = path, key, name
        self.entries: list[Entry] = list(self._read())

    @property
    def head(self) -> str:
        """Signature of the last line."""
        return self.entries[-1].seal if self.entries else _FIRST

    def seal(self, number: int, kind: str, at: str, body: dict[str, Any], before: str) -> str:
        """Return the signature of a line that follows another."""
        plain = json.dumps([FORM, self._name, number, kind, at, body, before], sort_keys=True)
        return hmac.new(self._key, plain.encode(), hashlib.sha256).hexdigest()

    def add(self, kind: str, body: dict[str, Any]) -> Entry:
        """Write a line; when this returns it is on the disk.

        Parameters
        ----------
        kind : str
        body : dict
            Plain data.

        Returns
        -------
        Entry
        """
        number, at = len(self.entries), datetime.now(UTC).isoformat(timespec="seconds")
        body = json.loads(json.dumps(body))
        entry = Entry(number, kind, at, body, self.seal(number, kind, at, body, self.head))
        line = json.dumps(vars(entry), ensure_ascii=False, sort_keys=True) + "\n"
        handle = os.open(self.path, os.O_WRONLY | os.O_APPEND | os.O_CREAT, 0o600)
        try:
            data = line.encode()
            while data:
                data = data[os.write(handle, data) :]
            os.fsync(handle)
        finally:
            os.close(handle)
        self.entries.append(entry)
        return entry

    def _read(self) -> Iterator[Entry]:
        if not self.path.is_file():
            return
        data = self.path.read_bytes()
        whole, end, torn = data.rpartition(b"\n")
        if torn:
            os.truncate(self.path, len(whole) + len(end))
        before = _FIRST
        for number, line in enumerate(whole.split(b"\n") if whole else ()):
            entry = self._line(number, line)
            right = self.seal(number, entry.kind, entry.at, entry.body, before)
            if entry.number != number or not hmac.compare_digest(right, entry.seal):
                raise LogError(
                    f"line {number + 1} of the kept log is not as the service wrote it: it was changed, "
                    f"moved, or a "
                    "line before it is missing; look at it together with the learner's own record"
                )
            before = right
            yield entry

    def _line(self, number: int, line: bytes) -> Entry:
        try:
            entry = Entry(**json.loads(line))
            sound = type(entry.seal) is type(entry.kind) is type(entry.at) is str and type(entry.body) is dict
        except (ValueError, TypeError, RecursionError):
            sound = False
        if not sound or not entry.seal.isascii():
            raise LogError(f"line {number + 1} of the kept log cannot be read: it was changed") from None
        return entry
