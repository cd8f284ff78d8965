"""The class report: one page to read before the next lesson, and a table for other programs."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from twostroke.grading import figures
from twostroke.grading.about import lab_title, lesson_of, task_title
from twostroke.grading.classlist import ClassList
from twostroke.grading.feedback import environment
from twostroke.grading.files import write_bytes, write_text
from twostroke.grading.oneroster import archive
from twostroke.grading.place import Course, lab_name
from twostroke.grading.pseudonyms import Pseudonyms
from twostroke.grading.standing import Standing, standings
from twostroke.grading.states import GradingError, State, only_written

_COLUMNS: dict[str, Callable[[Standing], Any]] = {
    "learner": lambda s: s.learner,
    "lab": lambda s: s.outcome.lab,
    "state": lambda s: s.state.value,
    "points": lambda s: s.final,
    "possible": lambda s: s.outcome.max_points or None,
    "percent": lambda s: _percent(s) if s.final is not None else None,
    "points so far": lambda s: s.points,
    "late": lambda s: s.penalty or None,
    "hand-ins": lambda s: len(s.hand_ins) or None,
    "handed in": lambda s: s.outcome.handed_in.isoformat() if s.outcome.handed_in else None,
    "reason": lambda s: s.why,
    "file": lambda s: s.outcome.received,
}
COLUMNS = tuple(_COLUMNS)
"""Columns of the export, in their usual order."""


@dataclass(frozen=True)
class Report:
    """Where the report of a lab lies.

    Parameters
    ----------
    lab : str
    html, table : Path
        Page and CSV file.
    pdf : Path or None
        Printed form, where it was asked for.
    results : Path or None
        Archive for a school's own system, where it was asked for.
    standings : list of Standing
        What they show.
    """

    lab: str
    html: Path
    table: Path
    pdf: Path | None
    results: Path | None
    standings: list[Standing]


def report(
    lab: str | int,
    *,
    course: Course | None = None,
    to: str | Path | None = None,
    columns: Sequence[str] = COLUMNS,
    with_tasks: bool = True,
    pdf: bool = False,
    oneroster: bool = False,
    pseudonyms: bool = False,
    note: str = "",
) -> Report:
    """Write the class report of a lab as a web page and its table as CSV.

    Parameters
    ----------
    lab : str or int
        "01", "lab01" or 1.
    course : Course, optional
        Without it, this repository and its ``autograde`` folder.
    to : path, optional
        Folder for the two files; without it, ``reports`` in the autograde folder.
    columns : sequence of str, optional
        Columns of the CSV file, from `COLUMNS`; "column=heading" gives it another heading.
    with_tasks : bool
        Whether the CSV file has the points of each task too.
    pdf : bool
        Whether to write the report as PDF too.
    oneroster : bool
        Whether to write an archive for a school's own system too, see `twostroke.grading.oneroster`.
    pseudonyms : bool
        Whether pseudonyms stand in place of learners in all of it.
    note : str
        A line to show at the top, for example that the class is invented.

    Returns
    -------
    Report

    Raises
    ------
    GradingError
        When nothing of this lab has been graded yet, or a column is unknown.
    """
    course = course or Course.at()
    name = lab_name(lab)
    found = standings(course, name)
    if not found:
        raise GradingError(
            f"{name}: nothing graded yet in {course.home}; run `twostroke grade {name[3:]} FOLDER` first"
        )
    if pseudonyms:
        found = Pseudonyms.of(course).standings(found)
    folder = Path(to).expanduser() if to is not None else course.reports
    stem = f"{name}-pseudonyms" if pseudonyms else name
    made = Report(
        name,
        folder / f"{stem}.html",
        folder / f"{stem}.csv",
        folder / f"{stem}.pdf" if pdf else None,
        folder / f"{stem}-oneroster.zip" if oneroster else None,
        found,
    )
    content = content_of(name, found, course.classlist, note)
    write_text(made.html, page(content))
    write_text(made.table, table(found, columns, with_tasks))
    if made.pdf is not None:
        from twostroke.grading.printed import sheet

        write_bytes(made.pdf, sheet(content).to_pdf())
    if made.results is not None:
        write_bytes(made.results, archive(course, {name: found}, datetime.now(UTC).date()))
    return made


def table(found: Sequence[Standing], columns: Sequence[str] = COLUMNS, with_tasks: bool = True) -> str:
    """Return the export as CSV; what is not graded is blank and never a zero.

    Raises
    ------
    GradingError
        When a column is unknown.
    """
    wanted = [
        (name.strip(), (heading or name).strip()) for name, _, heading in (c.partition("=") for c in columns)
    ]
    for column, _ in wanted:
        if column not in _COLUMNS:
            raise GradingError(f"column {column!r} is not known; there are: {', '.join(COLUMNS)}")
    longest = max(found, key=lambda s: len(s.tasks), default=None)
    tasks = [task.grade_id for task in longest.tasks] if longest and with_tasks else []
    buffer = io.StringIO()
    writer = csv.writer(buffer, lineterminator="\n")
    writer.writerow([cell_text(heading) for heading in (*(heading for _, heading in wanted), *tasks)])
    for standing in found:
        points = {task.grade_id: task.points for task in standing.tasks}
        row = [_COLUMNS[column](standing) for column, _ in wanted] + [points.get(task) for task in tasks]
        writer.writerow([cell_text(value) for value in row])
    return buffer.getvalue()


def cell_text(value: Any) -> str:
    """A cell's text; text that a spreadsheet would take for a formula is made harmless."""
    if value is None:
        return ""
    if isinstance(value, float):
        return f"{value:.10g}"
    text = str(value)
    return f"'{text}" if text[:1] in ("=", "+", "-", "@", "\t", "\r") else text


def _percent(standing: Standing) -> float:
    possible = standing.outcome.max_points
    return round(100 * (standing.points or 0.0) / possible, 1) if possible else 0.0


def page(content: dict[str, Any]) -> str:
    """Return the report as HTML: one file, nothing from a network, prints, needs no colour."""
    return environment().get_template("report.html").render(**content)


def content_of(lab: str, found: Sequence[Standing], classlist: ClassList, note: str = "") -> dict[str, Any]:
    """Return what the report says, for the web page and for the printed one alike."""
    from twostroke.grading import plots

    done = figures.marked(found)
    by_task = figures.task_figures(found)
    titles = [task_title(lab, each.task) for each in by_task]
    names, shares = figures.competencies(found)
    counts = figures.count_states(found)
    percents = [_percent(standing) for standing in done]
    alpha = figures.reliability(found)
    return {
        "lab": lab_title(lab),
        "course": classlist.course,
        "policy": classlist.policy.text,
        "due": classlist.due[lab].strftime("%d %B %Y, %H:%M UTC") if lab in classlist.due else None,
        "note": note,
        "date": datetime.now(UTC).strftime("%d %B %Y"),
        "counts": [(state.value, counts[state]) for state in State],
        "total": len(found),
        "middle": _middle(percents),
        "rows": [_row(standing, classlist) for standing in found],
        "persons": _persons(lab, [s for s in found if s.state is State.PERSON]),
        "failed": [(s.learner, s.why) for s in found if s.state is State.NOT_GRADED],
        "distribution": plots.distribution(percents, len(found) - len(done)) if done else "",
        "tasks_plot": plots.tasks(by_task, titles) if by_task else "",
        "tasks": [_task_row(each, title, len(done)) for each, title in zip(by_task, titles, strict=True)],
        "slips": [
            (slip.replace("_", " "), task_title(lab, task), who) for slip, task, who in figures.slips(found)
        ],
        "competencies": names,
        "heat": [(learner, [_heat(row.get(name)) for name in names]) for learner, row in shares.items()],
        "alike": figures.alike(found),
        "alpha": f"{alpha:.2f}" if alpha is not None else None,
        "marked": len(done),
        "waiting": sum(any(task.waits for task in standing.tasks) for standing in done),
        "reteach": [(task_title(lab, task), share, seen) for task, share, seen in figures.reteach(found)],
        "lesson": lesson_of(lab),
    }


def _persons(lab: str, found: Sequence[Standing]) -> list[tuple[str, str]]:
    """Who needs a person and why; those who only wait for a written answer are one line at the end."""
    written = [s for s in found if only_written(s.causes)]
    rows = [(s.learner, s.why) for s in found if s not in written]
    if len(written) < 2:
        return rows + [(s.learner, s.why) for s in written]
    number = lab.removeprefix("lab")
    return [*rows, (f"{len(written)} learners", f"a written answer to mark: twostroke mark {number}")]


def _middle(percents: list[float]) -> dict[str, str] | None:
    if not percents:
        return None
    ordered = sorted(percents)
    half = len(ordered) // 2
    median = ordered[half] if len(ordered) % 2 else (ordered[half - 1] + ordered[half]) / 2
    return {"median": f"{median:.0f}", "lowest": f"{ordered[0]:.0f}", "highest": f"{ordered[-1]:.0f}"}


def _row(standing: Standing, classlist: ClassList) -> dict[str, Any]:
    return {
        "learner": standing.learner,
        "name": classlist.name_of(standing.learner),
        "state": standing.state.value,
        "mark": {State.GRADED: "✓", State.PERSON: "?", State.NOT_GRADED: "–"}[standing.state],
        "points": "" if standing.points is None else f"{standing.points:.4g}",
        "possible": f"{standing.outcome.max_points:.4g}" if standing.points is not None else "",
        "percent": f"{_percent(standing):.0f} %" if standing.points is not None else "",
        "final": standing.final is not None,
        "why": standing.why,
        "notes": [*standing.outcome.notes, *standing.remarks],
    }


def _task_row(each: figures.TaskFigures, title: str, learners: int) -> dict[str, Any]:
    value = each.discrimination
    if each.marked < learners:
        reading = f"{learners - each.marked} still to be marked by hand"
    elif value is None:
        reading = "too few, or all alike"
    elif value < 0.1:
        reading = "does not tell strong from weak: look at its wording"
    elif value < 0.3:
        reading = "tells a little"
    else:
        reading = "tells well"
    return {
        "title": title,
        "marked": each.marked,
        "difficulty": "" if each.difficulty is None else f"{100 * each.difficulty:.0f} %",
        "discrimination": "" if value is None else f"{value:.2f}",
        "reading": reading,
    }


def _heat(share: float | None) -> dict[str, Any]:
    """One cell of the heat map: shade, text in it, and a colour of the text that can be read on the shade."""
    if share is None:
        return {"share": None, "text": "", "shade": "#ffffff", "ink": "#1b1f24"}
    level = min(4, int(share * 5))
    shade = ("#ffffff", "#e3e6ea", "#c3c9d0", "#8c959f", "#3d444d")[level]
    return {
        "share": share,
        "text": f"{100 * share:.0f} %",
        "shade": shade,
        "ink": "#ffffff" if level == 4 else "#1b1f24",
    }
