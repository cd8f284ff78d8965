"""Does a reading speak for a fault?"""

from __future__ import annotations

from collections.abc import Iterable

from twostroke.table import Table, Test

SPEAKS = 2.0
"""A reading speaks for a fault when it is this many times likelier with it than without. A choice."""


def speaks_for(test: Test, result: str, fault: str) -> bool:
    """Whether a result is clearly likelier when the fault is there.

    Examples
    --------
    >>> from twostroke.table import load_table
    >>> speaks_for(load_table().tests["air_gap"], "wide", "airgap_wide")
    True
    """
    if result not in test.results:
        return False
    number = test.results.index(result)
    return test.row(fault)[number] >= SPEAKS * max(test.base[number], 1e-9)


def what_speaks_for(table: Table, fault: str) -> list[str]:
    """Names of the tests that can speak for a fault."""
    return [
        test.name or name
        for name, test in table.tests.items()
        if any(speaks_for(test, result, fault) for result in test.results)
    ]


def only_weak(table: Table, actions: Iterable[str]) -> bool:
    """Whether all these tests are of the kind that must never stand alone."""
    rows = [table.tests[name] for name in actions if name in table.tests]
    return bool(rows) and all(row.not_alone for row in rows)
