"""A shop's own closed jobs change how often each fault is expected: counting, with a weight for the table.

With a prior weight of w jobs, the table counts as w jobs of this shop's kind; every closed job adds one.
After n jobs of which k had the fault, its share is (w p + k) / (w + n), p being the table's own share: the
mean of a Dirichlet distribution after multinomial counts.
"""

from __future__ import annotations

import csv
import io
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from twostroke.sources import formula
from twostroke.table import OTHER, Table, TableError, unknown

WEIGHT = 200.0
"""Jobs that the table counts for when nothing else is said. A choice."""

COLUMNS = ("complaint", "fault", "second_fault")
_MOST_LINES, _MOST_BYTES = 200_000, 50_000_000


@dataclass(frozen=True)
class ClosedJob:
    """One job that the shop has closed: the complaint as it came, and what was wrong.

    Attributes
    ----------
    faults : tuple of str
        One or two.
    complaint : str
        Kind of complaint, or nothing.
    """

    faults: tuple[str, ...]
    complaint: str = ""


@dataclass(frozen=True)
class Change:
    """What the shop's jobs did to one fault's rate per 1000 complaints."""

    fault: str
    name: str
    before: float
    after: float
    jobs: int

    @property
    def factor(self) -> float:
        """After over before."""
        return self.after / self.before

    def __str__(self) -> str:
        return (
            f"{self.name}: {self.before:.1f} → {self.after:.1f} per 1 000 "
            f"({self.jobs} of the shop's jobs, × {self.factor:.2f})"
        )


@dataclass(frozen=True)
class Updated:
    """A table with the shop's jobs counted in.

    Attributes
    ----------
    table : Table
        Used like any other.
    changes : tuple of Change
        One for every fault, the largest change first.
    jobs : int
    weight : float
    """

    table: Table
    changes: tuple[Change, ...]
    jobs: int
    weight: float

    def __str__(self) -> str:
        head = f"{self.jobs} closed jobs, the table counted as {self.weight:g} jobs:"
        return "\n".join([head, *(f"  {change}" for change in self.changes[:10])])


def read_jobs(source: str | Path, table: Table) -> list[ClosedJob]:
    """Closed jobs from a CSV file.

    Parameters
    ----------
    source : str or Path
        File with a header; column ``fault`` (the table's name, or the fault's name in words) is needed,
        ``second_fault`` and ``complaint`` may be there, other columns are left alone. Comma, semicolon and
        tab are told apart.
    table : Table

    Returns
    -------
    list of ClosedJob

    Raises
    ------
    TableError
        Naming file, line and cure for everything that is wrong; nothing is left out in silence.
    """
    path = Path(source)
    try:
        raw = path.read_bytes()
    except OSError as error:
        raise TableError(f"{path}: cannot be read ({error.strerror}); check folder and name") from None
    if len(raw) > _MOST_BYTES:
        raise TableError(f"{path.name}: {len(raw)} bytes are too many; hand in one year at a time")
    for encoding in ("utf-8-sig", "cp1252"):
        try:
            return parse_jobs(raw.decode(encoding), table, path.name)
        except UnicodeDecodeError:
            continue
    raise TableError(f"{path.name}: is no text file; save the list as CSV (UTF-8)")


def parse_jobs(text: str, table: Table, name: str = "jobs") -> list[ClosedJob]:
    """As :func:`read_jobs`, for text.

    Examples
    --------
    >>> from twostroke.table import load_table
    >>> parse_jobs("fault;complaint\\nstop_switch;no_start\\n", load_table())
    [ClosedJob(faults=('stop_switch',), complaint='no_start')]
    """
    first = text.split("\n", 1)[0]
    delimiter = max(",;\t", key=first.count)
    try:
        rows = list(csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True))
    except csv.Error as error:
        raise TableError(f"{name}: is no readable CSV ({error}); save it again as CSV") from None
    if not rows or "fault" not in [cell.strip().lower() for cell in rows[0]]:
        raise TableError(f"{name}, line 1: no column 'fault'; the columns are {', '.join(COLUMNS)}")
    if len(rows) > _MOST_LINES:
        raise TableError(f"{name}: {len(rows)} lines are too many; hand in at most {_MOST_LINES} at a time")
    header = [cell.strip().lower() for cell in rows[0]]
    jobs, wrong = [], []
    for number, row in enumerate(rows[1:], start=2):
        if not any(cell.strip() for cell in row):
            continue
        cells = dict(zip(header, [cell.strip() for cell in row], strict=False))
        try:
            jobs.append(_job(cells, table))
        except TableError as error:
            wrong.append(f"{name}, line {number}: {error}")
    if wrong:
        more = f"\n… and {len(wrong) - 12} more" if len(wrong) > 12 else ""
        raise TableError("\n".join(wrong[:12]) + more)
    return jobs


def _job(cells: dict[str, str], table: Table) -> ClosedJob:
    named = [cells.get("fault", ""), cells.get("second_fault", "")]
    faults = tuple(_fault(text, table) for text in named if text)
    if not faults:
        raise TableError(f"no fault given; write what was wrong, or '{OTHER}'")
    if len(set(faults)) < len(faults):
        raise TableError(f"{faults[0]} stands there twice; leave second_fault empty")
    kind = cells.get("complaint", "").lower().replace(" ", "_")
    if kind and kind not in table.complaints:
        raise unknown("complaint", kind, table.complaints)
    return ClosedJob(faults, kind)


def _fault(text: str, table: Table) -> str:
    key = text.strip().lower()
    word = key.replace(" ", "_").replace("-", "_")
    if word in table.faults:
        return word
    for name, row in table.faults.items():
        if row.name.lower() == key:
            return name
    raise unknown("fault", text, table.faults)


@formula("rate = (weight * table's share + jobs) / (weight + all jobs)", "dirichlet")
def update(
    table: Table, jobs: Iterable[ClosedJob], weight: float = WEIGHT, *, shop: str = "", day: str = ""
) -> Updated:
    """Count a shop's closed jobs into a table's rates.

    Parameters
    ----------
    table : Table
    jobs : iterable of ClosedJob
        A job with two faults counts one half for each.
    weight : float
        How many jobs the table counts for, above 0: small where the shop's own count should rule soon.
    shop, day : str
        Whose jobs they are and when they were counted, as it should stand beside the table's chances.

    Returns
    -------
    Updated
        Rates keep their sum, so that the shares of the table's other numbers hold.

    Raises
    ------
    TableError
        A weight that is none, or a fault that is not in the table.

    Notes
    -----
    Mean of the Dirichlet posterior (Gelman et al., *Bayesian Data Analysis*, from memory). The rows of test
    results are not touched: a shop's list says what was wrong, not how often a test lied.

    Examples
    --------
    >>> from twostroke.table import load_table
    >>> done = update(load_table(), [ClosedJob(("stop_switch",))] * 50, weight=100)
    >>> change = done.changes[0]
    >>> change.fault, change.after > 5 * change.before
    ('stop_switch', True)
    """
    if isinstance(weight, bool) or not isinstance(weight, int | float) or not 0.0 < weight < 1e9:
        raise TableError(f"weight {weight!r}: give the number of jobs that the table counts for, above 0")
    counts: Counter[str] = Counter()
    total = 0
    for job in jobs:
        total += 1
        for fault in job.faults:
            if fault not in table.faults:
                raise unknown("fault", fault, table.faults)
            counts[fault] += 1 / len(job.faults)  # type: ignore[assignment]
    whole = sum(row.rate for row in table.faults.values())
    changes, faults = [], {}
    for name, row in table.faults.items():
        share = (weight * row.rate / whole + counts[name]) / (weight + total)
        rate = share * whole
        faults[name] = row.model_copy(update={"rate": rate})
        changes.append(Change(name, row.name, row.rate, rate, round(counts[name])))
    changes.sort(key=lambda change: (-abs(change.after - change.before), change.fault))
    counted = f"{total} closed jobs of the shop counted in, the table before as {weight:g} jobs"
    named = {
        "title": f"{table.meta.title}; {counted}",
        "shop": shop or table.meta.shop or "the shop",
        "day": day,
    }
    meta = table.meta.model_copy(update=named)
    return Updated(table.replaced(faults=faults, meta=meta), tuple(changes), total, float(weight))
