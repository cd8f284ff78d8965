"""Does a released notebook hold what only the instructor may see?"""

from __future__ import annotations

import re
from typing import Any

_KINDS = "(?:SOLUTION|HIDDEN TESTS|MARK SCHEME)"
_MARKS = (
    "BEGIN SOLUTION",
    "END SOLUTION",
    "BEGIN HIDDEN",
    "END HIDDEN",
    "BEGIN MARK SCHEME",
    "END MARK SCHEME",
)
_REGION = re.compile(
    rf"^[^\n]*BEGIN {_KINDS}[^\n]*\n(.*?)^[^\n]*END {_KINDS}[^\n]*$",
    re.DOTALL | re.MULTILINE,
)


def _guarded_regions(cell: Any) -> list[str]:
    """Regions between marks; the whole of a solution cell without marks, for that is replaced whole."""
    regions = _REGION.findall(cell.source)
    solution = cell.metadata.get("nbgrader", {}).get("solution", False)
    return [cell.source] if solution and not regions else regions


def guarded_lines(source: Any) -> set[str]:
    """Every line of a source notebook that stands in a solution or hidden region, without its indent.

    Parameters
    ----------
    source : nbformat.NotebookNode
        The instructor's notebook.

    Returns
    -------
    set of str
        Lines of four letters or more; a lone bracket proves nothing.
    """
    lines: set[str] = set()
    for cell in source.cells:
        for region in _guarded_regions(cell):
            lines |= {line.strip() for line in region.splitlines() if len(line.strip()) >= 4}
    return lines


def leaks(released: Any, source: Any | None = None) -> list[str]:
    """What in a released notebook should not be there, in words.

    Parameters
    ----------
    released : nbformat.NotebookNode
    source : nbformat.NotebookNode, optional
        The instructor's notebook, to compare guarded lines with.

    Returns
    -------
    list of str
        Empty when the release is sound.
    """
    found = []
    guarded = guarded_lines(source) if source is not None else set()
    open_to_all = _open_lines(source) if source is not None else set()
    for cell in released.cells:
        name = cell.get("id", "?")
        found += [f"cell {name} still has a mark {mark!r}" for mark in _MARKS if mark in cell.source]
        lines = {line.strip() for line in cell.source.splitlines()}
        found += [
            f"cell {name} still has the line {line!r}" for line in sorted(lines & guarded - open_to_all)
        ]
        if cell.cell_type == "code" and (cell.outputs or cell.execution_count):
            found.append(f"cell {name} carries outputs")
        if cell.get("attachments"):
            found.append(f"cell {name} carries attachments")
    return found


def _open_lines(source: Any) -> set[str]:
    """Lines that also stand outside any region, so that every learner sees them anyway."""
    lines: set[str] = set()
    for cell in source.cells:
        rest = cell.source
        for region in _guarded_regions(cell):
            rest = rest.replace(region, "")
        lines |= {line.strip() for line in rest.splitlines()}
    return lines
