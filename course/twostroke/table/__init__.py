"""Faults, tests, repairs, covers, hazards and scenarios: their form, and reading them strictly.

Nothing is inferred here: the bench charges minutes and guards hazards from the table, and isolation
reasons with it.
"""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path

from twostroke.table.load import forget_counted, load_table
from twostroke.table.machine import for_machine
from twostroke.table.model import (
    CONDITIONS,
    OTHER,
    UNDONE,
    Access,
    CommonCause,
    Complaint,
    Fault,
    Hazard,
    Meta,
    Reading,
    Repair,
    Table,
    Test,
)
from twostroke.table.reader import TableError, unknown
from twostroke.table.readings import result_for
from twostroke.table.save import save_table
from twostroke.table.scenario import COMPETENCIES, Scenario, TrueFault, load_scenario

__all__ = [
    "COMPETENCIES",
    "CONDITIONS",
    "OTHER",
    "UNDONE",
    "Access",
    "CommonCause",
    "Complaint",
    "Fault",
    "Hazard",
    "Meta",
    "Reading",
    "Repair",
    "Scenario",
    "Table",
    "TableError",
    "Test",
    "TrueFault",
    "for_machine",
    "forget_counted",
    "load_scenario",
    "load_table",
    "result_for",
    "save_table",
    "scenario_paths",
    "unknown",
]


def scenario_paths() -> dict[str, Path]:
    """Files of the scenarios that come with the course, by name.

    Examples
    --------
    >>> "plug_fouled_trimmer" in scenario_paths()
    True
    """
    folder = Path(str(files("twostroke") / "data" / "scenarios"))
    return {path.stem: path for path in sorted(folder.glob("*.yaml"))}
