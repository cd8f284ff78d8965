"""Several people at a glance: which competencies are proven, and which still need a signature."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from rich.box import SIMPLE
from rich.markup import escape
from rich.table import Table

from twostroke.grading.place import Course
from twostroke.grading.pseudonyms import Pseudonyms
from twostroke.grading.record import people, signatures
from twostroke.grading.record.evidence import PROVEN, competencies, gather
from twostroke.grading.record.page import day, hours
from twostroke.grading.record.plan import plan
from twostroke.lab.task import COMPETENCIES
from twostroke.sheet import Sheet

_ABREAST = 5
"""People side by side on a page."""


@dataclass(frozen=True)
class Row:
    """One person.

    Parameters
    ----------
    id, name : str
    graded : dict of str to str
        State by competency: "proven", "begun", "open".
    signed : tuple of str
        Competencies with a hands-on signature.
    next : str
        Lesson to do next; empty when all is done.
    minutes : int
        What is left of the course [min].
    """

    id: str
    name: str
    graded: dict[str, str]
    signed: tuple[str, ...]
    next: str
    minutes: int

    @property
    def proven(self) -> list[str]:
        """Competencies proven by graded work."""
        return [name for name, state in self.graded.items() if state == PROVEN]

    @property
    def to_sign(self) -> list[str]:
        """Competencies proven by graded work that still need a signature at the bench."""
        return [name for name in self.proven if name not in self.signed]

    def cell(self, name: str) -> str:
        """State and signature of one competency in words."""
        return f"{self.graded[name]}, {'signed' if name in self.signed else 'not signed'}"


def on_screen(rows: Sequence[Row]) -> Table:
    """Return the people as a table for the screen: a line for each who has nothing to be signed."""
    table = Table(title=f"{len(COMPETENCIES)} competencies", title_justify="left", box=SIMPLE)
    table.add_column("person", overflow="fold")
    table.add_column("proven", justify="right", no_wrap=True)
    table.add_column("signed", justify="right", no_wrap=True)
    table.add_column("next lesson", overflow="fold", min_width=16)
    table.add_column("proven, still to sign", overflow="fold")
    for row in rows:
        counts = str(len(row.proven)), str(len(row.signed))
        table.add_row(escape(row.name), *counts, row.next or "all done", "\n".join(row.to_sign))
    return table


def overview(course: Course, learners: Sequence[str] = (), pseudonyms: bool = False) -> list[Row]:
    """Return where several people stand.

    Parameters
    ----------
    course : Course
    learners : sequence of str, optional
        Any names; default everybody.
    pseudonyms : bool
        Whether names are replaced; the order is then that of the pseudonyms.

    Returns
    -------
    list of Row
    """
    if learners:
        asked = list(dict.fromkeys(people.find(course, each) for each in learners))
    else:
        asked = people.everybody(course)
    found = gather(course)
    hidden = Pseudonyms.of(course) if pseudonyms else None
    rows = []
    for person in asked:
        evidence = found.get(person.id, [])
        signed = {line.competency for line in signatures.valid(signatures.read(course, person.id))}
        made = plan(evidence)
        name = hidden(person.id) if hidden else ""
        rows.append(
            Row(
                name or person.id,
                name or person.name,
                {each.name: each.state for each in competencies(evidence)},
                tuple(each for each in COMPETENCIES if each in signed),
                f"{made.steps[0].module} {made.steps[0].title}" if made.steps else "",
                made.minutes,
            )
        )
    return sorted(rows, key=lambda row: row.id) if hidden else rows


def table(rows: Sequence[Row]) -> str:
    """Return the overview as CSV, one line for each person and competency."""
    buffer = io.StringIO()
    writer = csv.writer(buffer, lineterminator="\n")
    writer.writerow(["person", "name", "competency", "graded", "signed"])
    for row in rows:
        for name, state in row.graded.items():
            texts = [row.id, row.name, name, state, "yes" if name in row.signed else "no"]
            writer.writerow([f"'{text}" if text[:1] in "=+-@\t\r" else text for text in texts])
    return buffer.getvalue()


def sheet(rows: Sequence[Row], title: str, note: str = "") -> Sheet:
    """Return the overview as a sheet: competencies down, people across, a few to a page.

    Parameters
    ----------
    rows : sequence of Row
    title : str
        Name of the class or shop.
    note : str, optional
        Foot of the page.
    """
    made = Sheet(
        "Who can do what",
        subtitle=f"{title}, {day(date.today().isoformat())}",
        note=note or None,
        compact=True,
    )
    made.text(
        "First word: graded work alone. Second: whether a supervisor has signed for it at the bench. "
        "The record of each person has dates, points and names."
    )
    for start in range(0, len(rows), _ABREAST):
        if start:
            made.page_break()
        group = rows[start : start + _ABREAST]
        made.table(
            ["competency", *(row.name for row in group)],
            [[name, *(row.cell(name) for row in group)] for name in COMPETENCIES],
            widths=(26, *(22 for _ in group)),
        )
        made.table(
            ["person", "proven", "signed", "proven, to sign", "next", "left"],
            [
                [row.name, f"{len(row.proven)} of {len(COMPETENCIES)}", str(len(row.signed)),
                 "; ".join(row.to_sign) or "none", row.next or "all done", hours(row.minutes)]
                for row in group
            ],
            widths=(20, 13, 10, 48, 27, 16),
        )  # fmt: skip
    return made
