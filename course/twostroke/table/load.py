"""Reading the fault table: the course's own or another in the same form."""

from __future__ import annotations

from functools import lru_cache
from importlib.resources import files
from pathlib import Path

from twostroke.table.counted import load_counted, load_settlement, with_counted
from twostroke.table.model import Table
from twostroke.table.reader import build, complain, read_yaml
from twostroke.table.rules import breaches


def load_table(path: str | Path | None = None, *, counted: bool = True) -> Table:
    """The fault table in `path`, or the course's own, validated.

    Parameters
    ----------
    path : str or Path, optional
        A YAML file in the form of version 0.1 or later.
    counted : bool
        Whether the course's own table takes the rows of instrument tests from what was counted on the virtual
        engine; ``False`` gives the typed estimates. A file is taken as it stands.

    Returns
    -------
    Table

    Raises
    ------
    TableError
        Naming file, row, line and cure for everything that is wrong.

    Examples
    --------
    >>> table = load_table()
    >>> table.faults["module_dead"].sys
    'ignition'
    """
    return _own(counted) if path is None else _read(Path(path))


@lru_cache(maxsize=2)
def _own(counted: bool) -> Table:
    table = _read(Path(str(files("twostroke") / "data" / "faults.yaml")))
    rows = load_counted() if counted else None
    return table if rows is None else with_counted(table, rows, load_settlement())


def forget_counted() -> None:
    """Read the counted rows anew at the next call, after they were renewed."""
    load_counted.cache_clear()
    _own.cache_clear()


def _read(path: Path) -> Table:
    content, lines = read_yaml(path)
    table = build(Table, content, lines, path.name)
    found = breaches(table)
    if found:
        raise complain(path.name, lines, found)
    return table
