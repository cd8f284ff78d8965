"""A table cut to one machine: what the machine has not got can neither fail nor be tested."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from twostroke.table.model import Table, Test
from twostroke.table.reader import unknown


def for_machine(table: Table, features: Iterable[str] = (), bands: Iterable[str] | None = None) -> Table:
    """The rows of `table` that make sense on one machine.

    Parameters
    ----------
    table : Table
        The whole table.
    features : iterable of str
        What the machine has out of ``table.features`` (a decompression valve, a tank over the module …).
    bands : iterable of str, optional
        Quantities for which the maker's band is known; tests that need another band are left out.
        ``None`` keeps every test.

    Returns
    -------
    Table
        A new table; faults, tests, repairs and covers of parts that the machine lacks are gone.

    Raises
    ------
    TableError
        A feature is unknown.

    Examples
    --------
    >>> from twostroke.table import load_table
    >>> whole = load_table()
    >>> "decompression_stuck" in for_machine(whole, features=[]).faults
    False
    >>> "decompression_stuck" in for_machine(whole, features=["decompression_valve"]).faults
    True
    """
    has = set(features)
    for feature in sorted(has):
        if feature not in table.features:
            raise unknown("machine feature", feature, table.features)
    known_bands = None if bands is None else set(bands)

    def kept(row: Any) -> bool:
        if row.only_with is not None and row.only_with not in has:
            return False
        band = row.needs_band if isinstance(row, Test) else None
        return band is None or known_bands is None or band in known_bands

    access = {name: row for name, row in table.access.items() if kept(row)}
    faults = {name: row for name, row in table.faults.items() if kept(row)}
    cut_access = {}
    for name, row in access.items():
        more = [need for feature, needs in row.needs_where.items() if feature in has for need in needs]
        needs = [need for need in [*row.needs, *more] if need in access]
        cut_access[name] = row.model_copy(update={"needs": needs, "needs_where": {}})

    def cut_hits(row: Any) -> Any:
        return row.model_copy(update={"hits": _only(row.hits, faults)})

    def cut_repair(row: Any) -> Any:
        return row.model_copy(
            update={"fixes": _only(row.fixes, faults), "access": [a for a in row.access if a in access]}
        )

    tests = {name: cut_hits(row) for name, row in table.tests.items() if kept(row)}
    repairs = {name: cut_repair(row) for name, row in table.repairs.items() if kept(row)}
    return table.replaced(
        access=cut_access,
        faults=faults,
        common_cause_pairs=[row for row in table.common_cause_pairs if set(row.pair) <= set(faults)],
        complaint=None if table.complaint is None else cut_hits(table.complaint),
        tests=tests,
        repairs={name: row for name, row in repairs.items() if row.fixes},
    )


def _only(mapping: Mapping[str, Any], faults: Mapping[str, Any]) -> dict[str, Any]:
    return {name: value for name, value in mapping.items() if name in faults}
