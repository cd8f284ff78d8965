"""Taking a person out of a database file, so that nothing is left in its free pages either."""

from __future__ import annotations

import contextlib
import sqlite3
import tempfile
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from twostroke.grading.erase.spellings import Spellings
from twostroke.grading.states import GradingError

MAGIC = b"SQLite format 3\0"
BESIDE = ("-wal", "-shm", "-journal")
"""Ends of the names of files that a database keeps beside itself."""
_WHO = {"learner", "learner_id", "student", "student_id", "user", "user_id", "person", "email"}
_PERSON_TABLES = {"student", "learner", "person", "user", "users"}


@dataclass
class Rows:
    """Rows of one database that are the person's, and fields of others in which the name stands.

    Parameters
    ----------
    own : dict of str to set of int
        Row ids by table; they go.
    blank : list of (table, row id, column, text)
        The text with the name blanked.
    """

    own: dict[str, set[int]] = field(default_factory=dict)
    blank: list[tuple[str, int, str, str]] = field(default_factory=list)

    @property
    def words(self) -> str:
        """What is in it, for the screen."""
        parts = [f"rows of {table}: {len(ids)}" for table, ids in sorted(self.own.items()) if ids]
        if self.blank:
            parts.append(f"other fields in which the name is blanked: {len(self.blank)}")
        return ", ".join(parts)

    def __bool__(self) -> bool:
        return bool(self.blank) or any(self.own.values())


def is_database(path: Path) -> bool:
    """Whether a file is a SQLite database."""
    with contextlib.suppress(OSError), open(path, "rb") as file:
        return file.read(len(MAGIC)) == MAGIC
    return False


@contextlib.contextmanager
def _opened(path: Path) -> Iterator[sqlite3.Connection]:
    try:
        with contextlib.closing(sqlite3.connect(path, timeout=60, isolation_level=None)) as connection:
            yield connection
    except sqlite3.Error as error:
        raise GradingError(
            f"database {path}: {error}; nothing of it was changed; close what else has it open"
        ) from None


def look(path: Path, spellings: Spellings) -> Rows:
    """Return what a database holds of a person, without changing it."""
    with _opened(path) as connection:
        return _look(connection, spellings)


def _look(connection: sqlite3.Connection, spellings: Spellings) -> Rows:
    found = Rows()
    tables = _tables(connection)
    named: list[tuple[str, int, str, str]] = []
    for table in tables:
        for row_id, row in _rows(connection, table):
            texts = {name: value for name, value in row.items() if isinstance(value, str)}
            whose = _WHO | {"id", "name"} if table in _PERSON_TABLES else _WHO
            if any(name in whose and spellings.is_all(text) for name, text in texts.items()):
                found.own.setdefault(table, set()).add(row_id)
            named += [
                (table, row_id, name, spellings.blank_value(text))
                for name, text in texts.items()
                if spellings.within(text) or spellings.is_all(text)
            ]
    _with_children(connection, tables, found)
    found.blank = [each for each in named if each[1] not in found.own.get(each[0], set())]
    return found


def _tables(connection: sqlite3.Connection) -> list[str]:
    names = "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY name"
    return [name for (name,) in connection.execute(names)]


def _rows(connection: sqlite3.Connection, table: str) -> Iterator[tuple[int, dict[str, Any]]]:
    answer = connection.execute(f'SELECT rowid, * FROM "{table}"')
    names = [column[0] for column in answer.description][1:]
    for row_id, *values in answer:
        yield row_id, dict(zip(names, values, strict=True))


def _with_children(connection: sqlite3.Connection, tables: list[str], found: Rows) -> None:
    """Add what hangs on the rows that go: submissions of a student, notebooks of those, their grades."""
    arrows = [
        (child, column, parent, to or "id")
        for child in tables
        for _, _, parent, column, to, *_ in connection.execute(f'PRAGMA foreign_key_list("{child}")')
    ]
    more = True
    while more:
        more = False
        for child, column, parent, to in arrows:
            if not found.own.get(parent):
                continue
            keys = {row[to] for row_id, row in _rows(connection, parent) if row_id in found.own[parent]} - {
                None
            }
            mine = {row_id for row_id, row in _rows(connection, child) if row[column] in keys}
            known = found.own.setdefault(child, set())
            if mine - known:
                known |= mine
                more = True


def has_residue(path: Path, count: Callable[[bytes], int]) -> bool:
    """Whether words stand in a database's files more often than in its rows: in free pages, or beside it.

    Parameters
    ----------
    path : Path
    count : callable
        How often the words stand in some bytes.

    Returns
    -------
    bool
        By comparison with a copy that the database itself makes of its rows alone.
    """
    beside = [each for end in BESIDE if (each := path.with_name(path.name + end)).is_file()]
    in_files = sum(count(each.read_bytes()) for each in (path, *beside))
    if not in_files:
        return False
    with tempfile.TemporaryDirectory(prefix="erase-") as folder:
        fresh = Path(folder) / "rows.db"
        with _opened(path) as connection:
            connection.execute("VACUUM INTO ?", (str(fresh),))
        return in_files > count(fresh.read_bytes())


def take_out(path: Path, spellings: Spellings) -> Rows:
    """Delete a person's rows, blank the name elsewhere, and write the file anew without free pages.

    Raises
    ------
    GradingError
        When the database cannot be written.
    """
    with _opened(path) as connection:
        connection.execute("PRAGMA secure_delete=ON")
        connection.execute("BEGIN IMMEDIATE")
        found = _look(connection, spellings)
        for table, ids in found.own.items():
            connection.executemany(f'DELETE FROM "{table}" WHERE rowid = ?', [(each,) for each in ids])
        for table, row_id, column, text in found.blank:
            connection.execute(f'UPDATE "{table}" SET "{column}" = ? WHERE rowid = ?', (text, row_id))
        connection.execute("COMMIT")
        connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        connection.execute("VACUUM")
        connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    return found
