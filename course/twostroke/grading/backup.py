"""Copies of the gradebook: one before each run, and from a file to a server and back."""

from __future__ import annotations

import contextlib
import os
import sqlite3
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

from nbgrader.api import Base
from sqlalchemy import Column, MetaData, String, Table, create_engine, delete, func, insert, inspect, select
from sqlalchemy.engine import Connection
from sqlalchemy.exc import SQLAlchemyError
from sqlalchemy.pool import NullPool

from twostroke.grading.address import is_file, out_of_reach, shown
from twostroke.grading.place import Course
from twostroke.grading.states import GradingError

_KEPT = 20
_AT_ONCE = 5000
_VERSION = Table("alembic_version", MetaData(), Column("version_num", String(32), nullable=False))


def back_up(course: Course) -> Path | None:
    """Copy the gradebook into a file before a run; the newest twenty copies are kept.

    Parameters
    ----------
    course : Course
        Its gradebook may be a file or on a server; the copy is a SQLite file in any case, and a gradebook
        that can be used as it is.

    Returns
    -------
    Path or None
        The copy; None when there is no gradebook yet.

    Raises
    ------
    GradingError
        When the gradebook is out of reach.
    """
    target = course.backups / f"gradebook-{datetime.now(UTC).strftime('%Y%m%dT%H%M%S%f')}.db"
    part = target.with_name(f".{target.name}.part")
    if is_file(course.db_url):
        source = Path(course.db_url.removeprefix("sqlite:///"))
        if not source.is_file():
            return None
        target.parent.mkdir(parents=True, exist_ok=True)
        with (
            contextlib.closing(sqlite3.connect(source, timeout=60)) as old,
            contextlib.closing(sqlite3.connect(part)) as new,
        ):
            old.backup(new)
    else:
        with _connected(course.db_url) as there:
            if not inspect(there).has_table(_VERSION.name):
                return None
        target.parent.mkdir(parents=True, exist_ok=True)
        copy_gradebook(course.db_url, f"sqlite:///{part}")
    os.replace(part, target)
    for older in sorted(course.backups.glob("gradebook-*"))[:-_KEPT]:
        older.unlink()
    return target


def copy_gradebook(source: str, target: str) -> dict[str, int]:
    """Copy a gradebook, as it stands at one moment, into a database that holds none.

    Parameters
    ----------
    source, target : str
        Addresses, from `twostroke.grading.address.read_address`.

    Returns
    -------
    dict of str to int
        Rows copied, by table.

    Raises
    ------
    GradingError
        When either is out of reach, the source is no gradebook, or the target holds something already.

    Notes
    -----
    All rows are read in one transaction of isolation level "repeatable read" (on a server) and written in
    one, so a copy is whole or not there; memory does not grow with the number of rows.
    """
    copied: dict[str, int] = {}
    with _connected(source, snapshot=True) as old, _connected(target) as new:
        if not inspect(old).has_table(_VERSION.name):
            raise GradingError(f"gradebook {shown(source)}: holds no gradebook; check the address")
        _refuse_full(new, target)
        Base.metadata.create_all(new)
        _VERSION.create(new, checkfirst=True)
        for table in [*Base.metadata.sorted_tables, _VERSION]:
            copied[table.name] = 0
            rows = old.execution_options(yield_per=_AT_ONCE).execute(select(table)).mappings()
            for part in rows.partitions():
                new.execute(insert(table), [dict(row) for row in part])
                copied[table.name] += len(part)
        new.commit()
    return copied


def _refuse_full(connection: Connection, address: str) -> None:
    """Make room for a copy: what merely opening a gradebook leaves there goes, anything more is refused."""
    have = set(inspect(connection).get_table_names())
    opened = (_VERSION, Base.metadata.tables["course"])
    for table in Base.metadata.sorted_tables:
        if table.name not in have or table in opened:
            continue
        if connection.scalar(select(func.count()).select_from(table)):
            raise GradingError(
                f"gradebook {shown(address)}: holds something already; name an empty database or a new file"
            )
    for table in opened:
        if table.name in have:
            connection.execute(delete(table))


@contextlib.contextmanager
def _connected(address: str, snapshot: bool = False) -> Iterator[Connection]:
    """A connection of its own; a database out of reach, or failing on the way, is said in our words."""
    engine = create_engine(address, poolclass=NullPool)
    try:
        with engine.connect() as connection:
            if snapshot and not is_file(address):
                connection = connection.execution_options(isolation_level="REPEATABLE READ")
            yield connection
    except SQLAlchemyError as error:
        raise out_of_reach(address, error) from None
