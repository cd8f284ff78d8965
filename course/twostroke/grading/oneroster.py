"""Results for a school's own system: the gradebook files of OneRoster 1.1 in CSV form, as one zip archive.

Four files at the root of the archive: ``manifest.csv``, ``categories.csv``, ``lineItems.csv`` and
``results.csv``, all "bulk", so that status and date of change stay blank. People, classes and terms are the
school's own and are referred to by the identifiers that the class list gives; their files are "absent".

References
----------
1EdTech OneRoster, CSV Tables, version 1.1.1 (22 August 2023). Names and order of columns agree with the list
in the R package oneRoster (2020); the words of ``scoreStatus`` are from memory.
"""

from __future__ import annotations

import csv
import io
import uuid
import zipfile
from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

from twostroke.grading.about import lab_title
from twostroke.grading.place import Course
from twostroke.grading.standing import Standing
from twostroke.grading.states import State

FILES: dict[str, tuple[str, ...]] = {
    "categories": ("sourcedId", "status", "dateLastModified", "title"),
    "lineItems": (
        "sourcedId", "status", "dateLastModified", "title", "description", "assignDate", "dueDate",
        "classSourcedId", "categorySourcedId", "gradingPeriodSourcedId", "resultValueMin", "resultValueMax",
    ),
    "results": (
        "sourcedId", "status", "dateLastModified", "lineItemSourcedId", "studentSourcedId", "scoreStatus",
        "score", "scoreDate", "comment",
    ),
}  # fmt: skip
"""Data files of the export with their columns, in the order of the standard."""

_ABSENT = (
    "academicSessions", "classes", "classResources", "courses", "courseResources", "demographics",
    "enrollments", "orgs", "resources", "users",
)  # fmt: skip
_STATUS = {State.GRADED: "fully graded", State.PERSON: "partially graded"}
_SPACE = uuid.uuid5(uuid.NAMESPACE_URL, "urn:twostroke:results")
_FIRST_OF_1980 = (1980, 1, 1, 0, 0, 0)


def archive(course: Course, labs: Mapping[str, Sequence[Standing]], today: date) -> bytes:
    """Return the results of labs as a zip archive.

    Parameters
    ----------
    course : Course
        Its class list names class and grading period in ``[school]``, and due times.
    labs : mapping of str to sequence of Standing
        Such as "lab01", and where each learner stands.
    today : date
        Date of the scores, and of what has no other.

    Returns
    -------
    bytes
        The same content gives the same bytes.

    Notes
    -----
    What is not graded has no row: the standard asks for a score in each, and a zero would be a claim.
    """
    rows: dict[str, list[dict[str, Any]]] = {"categories": [_category()], "lineItems": [], "results": []}
    for lab, standings in labs.items():
        rows["lineItems"].append(_line_item(course, lab, standings, today))
        item = rows["lineItems"][-1]["sourcedId"]
        rows["results"] += [_result(item, each, today) for each in standings if _counts(each)]
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w", zipfile.ZIP_DEFLATED) as made:
        for name, text in [
            ("manifest.csv", _manifest()),
            *((f"{name}.csv", _table(name, found)) for name, found in rows.items()),
        ]:
            made.writestr(zipfile.ZipInfo(name, _FIRST_OF_1980), text)
    return buffer.getvalue()


def _id(*parts: str) -> str:
    return str(uuid.uuid5(_SPACE, "\x1f".join(parts)))


def _counts(standing: Standing) -> bool:
    return standing.state in _STATUS and standing.points is not None


def _category() -> dict[str, Any]:
    return {"sourcedId": _id("category", "labs"), "title": "Labs"}


def _line_item(course: Course, lab: str, standings: Sequence[Standing], today: date) -> dict[str, Any]:
    school = course.classlist.school
    due = course.classlist.due.get(lab)
    day = (due.date() if due else today).isoformat()
    possible = max((each.outcome.max_points for each in standings), default=0.0)
    return {
        "sourcedId": _id(school.class_id, lab),
        "title": lab_title(lab),
        "assignDate": min(day, today.isoformat()),
        "dueDate": day,
        "classSourcedId": school.class_id,
        "categorySourcedId": _id("category", "labs"),
        "gradingPeriodSourcedId": school.period_id,
        "resultValueMin": "0",
        "resultValueMax": f"{possible:.10g}",
    }


def _result(item: str, standing: Standing, today: date) -> dict[str, Any]:
    return {
        "sourcedId": _id("result", item, standing.learner),
        "lineItemSourcedId": item,
        "studentSourcedId": standing.learner,
        "scoreStatus": _STATUS[standing.state],
        "score": f"{standing.points:.10g}",
        "scoreDate": today.isoformat(),
    }


def _manifest() -> str:
    lines = [("propertyName", "value"), ("manifest.version", "1.0"), ("oneroster.version", "1.1")]
    lines += [(f"file.{name}", "bulk" if name in FILES else "absent") for name in sorted([*_ABSENT, *FILES])]
    lines += [("source.systemName", "twostroke"), ("source.systemCode", "")]
    return _text(lines)


def _table(name: str, rows: Sequence[Mapping[str, Any]]) -> str:
    columns = FILES[name]
    return _text([columns, *(tuple(str(row.get(column, "")) for column in columns) for row in rows)])


def _text(rows: Sequence[Sequence[str]]) -> str:
    buffer = io.StringIO()
    csv.writer(buffer, lineterminator="\r\n").writerows(rows)
    return buffer.getvalue()
