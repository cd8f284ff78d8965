"""Writing a fault table that can be read again."""

from __future__ import annotations

from pathlib import Path

import yaml

from twostroke.table.model import Table
from twostroke.table.reader import TableError


def save_table(table: Table, path: str | Path) -> Path:
    """Write a table as YAML; :func:`twostroke.table.load_table` reads it back.

    Parameters
    ----------
    table : Table
    path : str or Path
        A new file.

    Returns
    -------
    Path

    Raises
    ------
    TableError
        There is such a file already.

    Examples
    --------
    >>> import tempfile
    >>> from twostroke.table import load_table
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     load_table(save_table(load_table(), f"{folder}/ours.yaml")).faults["rings"].rate
    20.0
    """
    place = Path(path)
    if place.exists():
        raise TableError(f"{place}: there is such a file already; choose another name")
    content = table.model_dump(mode="json", exclude_defaults=True)
    content["meta"] = table.meta.model_dump(mode="json")
    place.parent.mkdir(parents=True, exist_ok=True)
    text = yaml.safe_dump(content, allow_unicode=True, sort_keys=False, width=110)
    place.write_text(text, encoding="utf-8")
    return place
