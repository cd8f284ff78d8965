"""A record as plain data: what is sealed, printed and compared."""

from __future__ import annotations

import secrets
from collections.abc import Sequence
from datetime import UTC, datetime
from typing import Any

from twostroke.grading.place import Course
from twostroke.grading.pseudonyms import Pseudonyms
from twostroke.grading.record import signatures
from twostroke.grading.record.evidence import (
    COVER,
    PASS,
    PROVEN,
    Competency,
    LabEvidence,
    competencies,
    gather,
)
from twostroke.grading.record.people import Person
from twostroke.grading.record.plan import plan
from twostroke.grading.record.signatures import Signature

FORM = "training record, form 1"


def content(
    course: Course,
    person: Person,
    *,
    aims: Sequence[str] = (),
    pseudonyms: bool = False,
    note: str = "",
    evidence: Sequence[LabEvidence] | None = None,
) -> dict[str, Any]:
    """Return the record of one person, as it stands now.

    Parameters
    ----------
    course : Course
    person : Person
    aims : sequence of str, optional
        Competencies that the plan shall lead to first.
    pseudonyms : bool
        Whether names are replaced: the person by the pseudonym, supervisors by nothing.
    note : str
        A line for the foot of the page.
    evidence : sequence of LabEvidence, optional
        Where it is at hand already.

    Returns
    -------
    dict
        Plain data; graded evidence and signatures stand in branches of their own.
    """
    found = gather(course).get(person.id, []) if evidence is None else evidence
    lines = signatures.read(course, person.id)
    standing = signatures.valid(lines)
    all_of_it = competencies(found)
    name, identifier = person.name, person.id
    if pseudonyms:
        name = identifier = Pseudonyms.of(course)(person.id)
        standing = [line.model_copy(update={"by": "", "initials": "", "note": ""}) for line in standing]
    now = datetime.now(UTC)
    return {
        "form": FORM,
        "serial": f"{now:%Y%m%d}-{secrets.token_hex(4)}",
        "issued": now.isoformat(timespec="seconds"),
        "course": course.classlist.course,
        "note": note,
        "person": {"id": identifier, "name": name},
        "limits": {"passed from share": PASS, "marked at least": COVER},
        "graded": {each.name: _graded(each) for each in all_of_it},
        "labs": {f"lab {lab.lab}": _whole(lab) for lab in found},
        "tasks": {f"lab {lab.lab}": _tasks(lab) for lab in found},
        "hands on": {each.name: _signed(each.name, standing) for each in all_of_it},
        "open": _open(all_of_it, standing, found, pseudonyms),
        "plan": _plan(found, aims),
    }


def _graded(each: Competency) -> dict[str, Any]:
    return {
        "state": each.state,
        "share": None if each.share is None else round(each.share, 4),
        "marked": round(each.covered, 4),
        "labs": {
            f"lab {piece.lab}": {
                "date": piece.date,
                "points": None if piece.points is None else round(piece.points, 4),
                "of": piece.of,
                "by hand": piece.by_hand,
            }
            for piece in each.pieces
        },
    }


def _whole(lab: LabEvidence) -> dict[str, Any]:
    of = sum(task.of for task in lab.tasks)
    return {
        "title": lab.title,
        "date": lab.date,
        "date is": lab.date_is,
        "points": None if lab.share is None else round(lab.share * of, 4),
        "of": of,
    }


def _tasks(lab: LabEvidence) -> dict[str, Any]:
    return {
        task.task: {
            "title": task.title,
            "competency": task.competency,
            "points": None if task.points is None else round(task.points, 4),
            "of": task.of,
            "by hand": task.by_hand,
            "final": lab.counts,
        }
        for task in lab.tasks
    }


def _signed(name: str, standing: Sequence[Signature]) -> dict[str, Any]:
    return {
        f"signature {line.number}": {
            "by": line.by,
            "date": line.day,
            "initials": line.initials,
            "note": line.note,
        }
        for line in standing
        if line.competency == name
    }


def _open(
    all_of_it: Sequence[Competency],
    standing: Sequence[Signature],
    found: Sequence[LabEvidence],
    pseudonyms: bool,
) -> dict[str, Any]:
    signed = {line.competency for line in standing}
    return {
        "graded work": [each.name for each in all_of_it if each.state != PROVEN],
        "signature": [each.name for each in all_of_it if each.name not in signed],
        "waits for a person": [
            f"lab {lab.lab}" if pseudonyms else f"lab {lab.lab}: {lab.why}" for lab in found if not lab.counts
        ],
    }


def _plan(found: Sequence[LabEvidence], aims: Sequence[str]) -> dict[str, Any]:
    made = plan(found, aims)
    return {
        "aims": list(made.aims),
        "minutes": made.minutes,
        "practise": list(made.practise),
        "steps": [
            {
                "module": step.module,
                "title": step.title,
                "lesson minutes": step.lesson_minutes,
                "lab": step.lab or "",
                "lab minutes": step.lab_minutes,
                "after": list(step.after),
                "why": step.why,
            }
            for step in made.steps
        ],
    }
