"""The page of sources: every formula and constant with what it rests on, what it is checked against, and
what a person should still verify."""

from __future__ import annotations

import csv
import importlib
import pkgutil
from pathlib import Path

from twostroke import sources
from twostroke.build.parts import BuildError
from twostroke.sheet import Sheet

_TABLES = "tests/unit/tables"


def sources_page(top: Path) -> dict[str, bytes]:
    """The page as PDF and as a web page.

    Parameters
    ----------
    top : Path
        Top of the clone, whose test tables name the outside checks.

    Returns
    -------
    dict
        Names below assets/sources and their bytes; nothing where the clone has no test tables.
    """
    if not (top / _TABLES).is_dir():
        return {}
    made = sheet(top)
    return {"sources.html": made.to_html().encode("utf-8"), "sources.pdf": made.to_pdf()}


def register() -> None:
    """Import every module that declares a constant or a formula."""
    import twostroke

    for found in pkgutil.walk_packages(twostroke.__path__, "twostroke."):
        room = found.name.split(".")[1]
        if room in ("isolation", "bench", "table") or (found.name.count(".") == 1 and room != "__main__"):
            importlib.import_module(found.name)
    importlib.import_module("twostroke.grading.item_figures")


def checks(top: Path) -> dict[str, list[str]]:
    """What each formula is held against, by the function that computes it.

    Parameters
    ----------
    top : Path
        Top of the clone.

    Returns
    -------
    dict
        Function, such as ``gap.shim_stack``, and the outside sources named beside its tests.

    Raises
    ------
    BuildError
        A row without what it is held against.
    """
    found: dict[str, list[str]] = {}
    for name, column in (("outside_checks.csv", "against"), ("calculation_cases.csv", "source")):
        with open(top / _TABLES / name, encoding="utf-8", newline="") as file:
            for row in csv.DictReader(file):
                against = row[column].strip().split(":")[0]
                if not against:
                    raise BuildError(f"{name}: the row of {row['call']} does not say what it is held against")
                if against not in found.setdefault(row["call"], []):
                    found[row["call"]].append(against)
    return found


def sheet(top: Path) -> Sheet:
    """The page itself."""
    register()
    held = checks(top)
    made = Sheet("What every number rests on", "Sources, formulas, constants", "made from the code itself")
    made.text(
        "Nothing here replaces the manual of the machine's maker. Marks: "
        + "; ".join(f"*{mark}*: {words}" for mark, words in sources.MARKS.items())
        + "."
    )
    made.heading("Constants")
    made.table(
        ["constant", "value", "unit", "source", "mark"],
        [[c.name, f"{c.value:g}", c.unit or "1", c.source.title, c.source.mark] for c in _constants()],
        align="lrlll",
    )
    made.heading("Formulas")
    made.table(
        ["function", "formula", "source", "checked against"],
        [
            [
                call,
                entry.text,
                "; ".join(map(str, entry.sources)),
                "; ".join(held.get(call, ["nothing yet"])),
            ]
            for call, entry in sorted(_formulas().items())
        ],
    )
    made.heading("To be verified by a person who holds the document")
    made.text("These rest on a published source whose value was written down from memory.")
    made.table(
        ["source", "where in it", "used by"],
        [
            [entry.title, entry.where, ", ".join(_users(key)) or "tests only"]
            for key, entry in sources.sources().items()
            if entry.mark == "from memory"
        ],
    )
    made.heading("All sources")
    made.table(
        ["source", "where in it", "mark"],
        [[entry.title, entry.where, entry.mark] for entry in sources.sources().values()],
    )
    return made


def _constants() -> list[sources.Constant]:
    return sorted(
        (c for c in sources.constants().values() if "(example)" not in c.name), key=lambda c: c.name.lower()
    )


def _formulas() -> dict[str, sources.Formula]:
    """Those of the package; a doctest's own are not among them."""
    return {
        call: entry
        for call, entry in sources.formulas().items()
        if not call.startswith(("sources.", "demo."))
    }


def _users(key: str) -> list[str]:
    used = [c.name for c in _constants() if c.source.key == key]
    return used + [
        call for call, entry in sorted(_formulas().items()) if key in {one.key for one in entry.sources}
    ]
