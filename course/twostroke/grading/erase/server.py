"""Taking a person out of a gradebook on a server."""

from __future__ import annotations

from typing import Any

from nbgrader.api import MissingEntry
from sqlalchemy import MetaData, String, Text, create_engine, select, text, update
from sqlalchemy.engine import Connection
from sqlalchemy.exc import SQLAlchemyError

from twostroke.grading.erase.spellings import Spellings
from twostroke.grading.gradebook import open_book
from twostroke.grading.place import Course


def look(course: Course, spellings: Spellings) -> list[str]:
    """Return the fields in which the person stands, as table and column, each once for each row.

    Parameters
    ----------
    course : Course
    spellings : Spellings
    """
    engine = create_engine(course.db_url)
    try:
        with engine.connect() as connection:
            return [f"{table.name}.{column}" for table, _, column, _ in _named(connection, spellings)]
    finally:
        engine.dispose()


def take_out(course: Course, learner: str, spellings: Spellings) -> None:
    """Delete a person with all that hangs on it, and blank the name in the rows of others."""
    book = open_book(course)
    try:
        book.remove_student(learner)
    except MissingEntry:
        pass
    finally:
        book.close()
    engine = create_engine(course.db_url)
    try:
        with engine.begin() as connection:
            for table, row, column, value in _named(connection, spellings):
                same = [key == row[key.name] for key in table.primary_key]
                connection.execute(update(table).where(*same).values({column: spellings.blank_value(value)}))
        _free(engine)
    finally:
        engine.dispose()


def _named(connection: Connection, spellings: Spellings) -> list[tuple[Any, Any, str, str]]:
    held = MetaData()
    held.reflect(connection)
    found = []
    for table in held.sorted_tables:
        texts = [column.name for column in table.columns if isinstance(column.type, String | Text)]
        for row in connection.execute(select(table)).mappings() if texts else ():
            for name in texts:
                value = row[name]
                if isinstance(value, str) and (spellings.within(value) or spellings.is_all(value)):
                    found.append((table, row, name, value))
    return found


def _free(engine: Any) -> None:
    """Let the server write its tables anew, so that deleted rows are not left in its files."""
    try:
        with engine.connect().execution_options(isolation_level="AUTOCOMMIT") as connection:
            connection.execute(text("VACUUM FULL" if engine.dialect.name == "postgresql" else "VACUUM"))
    except SQLAlchemyError:  # asks for the owner of the tables; the rows themselves are gone
        return
