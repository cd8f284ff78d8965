"""All labs of a course together: one table of marks for the school, one archive, and every lab's report."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from twostroke.grading.files import write_bytes, write_text
from twostroke.grading.oneroster import archive
from twostroke.grading.place import Course
from twostroke.grading.reporting import COLUMNS, Report, cell_text, report
from twostroke.grading.standing import Standing
from twostroke.grading.states import GradingError


@dataclass(frozen=True)
class CourseReport:
    """Where the report of a course lies.

    Parameters
    ----------
    labs : list of Report
        One for each lab of which something was graded.
    table : Path
        Marks of all labs, a line a learner.
    results : Path or None
        Archive for a school's own system, where it was asked for.
    """

    labs: list[Report]
    table: Path
    results: Path | None


def report_course(
    course: Course | None = None,
    *,
    to: str | Path | None = None,
    columns: Sequence[str] = COLUMNS,
    with_tasks: bool = True,
    pdf: bool = False,
    oneroster: bool = False,
    pseudonyms: bool = False,
) -> CourseReport:
    """Write the report of every lab, and one table of all marks.

    Parameters
    ----------
    course, to, columns, with_tasks, pdf, oneroster, pseudonyms
        As for `twostroke.grading.reporting.report`; the archive holds all labs.

    Returns
    -------
    CourseReport

    Raises
    ------
    GradingError
        When nothing has been graded yet.
    """
    course = course or Course.at()
    names = [lab for lab in course.labs() if (course.journal / f"{lab}.jsonl").is_file()]
    if not names:
        raise GradingError(f"nothing graded yet in {course.home}; run `twostroke grade LAB FOLDER` first")
    settings = {"course": course, "to": to, "columns": columns, "with_tasks": with_tasks, "pdf": pdf}
    made = [report(lab, **settings, pseudonyms=pseudonyms) for lab in names]  # type: ignore[arg-type]
    folder = made[0].html.parent
    stem = "course-pseudonyms" if pseudonyms else "course"
    found = {each.lab: each.standings for each in made}
    table = folder / f"{stem}.csv"
    write_text(table, marks(found))
    results = folder / f"{stem}-oneroster.zip" if oneroster else None
    if results is not None:
        write_bytes(results, archive(course, found, datetime.now(UTC).date()))
    return CourseReport(made, table, results)


def marks(labs: Mapping[str, Sequence[Standing]]) -> str:
    """Return the marks of all labs as CSV: a line a learner, a column a lab, points and percent of them all.

    Parameters
    ----------
    labs : mapping of str to sequence of Standing

    Returns
    -------
    str
        What is not graded is blank and counts neither for nor against; a lab that was never handed in too.
    """
    known = {(lab, each.learner): each for lab, found in labs.items() for each in found}
    buffer = io.StringIO()
    writer = csv.writer(buffer, lineterminator="\n")
    writer.writerow(["learner", *labs, "labs graded", "points", "possible", "percent"])
    for learner in sorted({learner for _, learner in known}):
        mine = [known.get((lab, learner)) for lab in labs]
        final = [each for each in mine if each is not None and each.final is not None]
        points = sum(each.final or 0.0 for each in final)
        possible = sum(each.outcome.max_points for each in final)
        row: list[object] = [learner, *(None if each is None else each.final for each in mine)]
        row += [len(final), points, possible, round(100 * points / possible, 1) if possible else None]
        writer.writerow([cell_text(value) for value in row])
    return buffer.getvalue()
