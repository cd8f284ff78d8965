"""Who a record is about: found on the class list, among those graded, or entered as a new hire."""

from __future__ import annotations

import difflib
import json
from dataclasses import dataclass
from pathlib import Path

from twostroke.grading.classlist import fold, safe_id
from twostroke.grading.files import write_text
from twostroke.grading.journal import Journal
from twostroke.grading.place import Course
from twostroke.grading.states import GradingError

RECORDS = "records"
"""Folder of signatures and issued records in the folder of a class."""
_PERSON = "person.json"


@dataclass(frozen=True)
class Person:
    """One person.

    Parameters
    ----------
    id : str
        Identifier, as in the gradebook.
    name : str
        Name to show; the identifier where no other is known.
    also : tuple of str
        Other names under which files arrive.
    """

    id: str
    name: str
    also: tuple[str, ...] = ()


def folder(course: Course, learner: str) -> Path:
    """Where signatures and issued records of a person lie."""
    return course.home / RECORDS / learner


def everybody(course: Course) -> list[Person]:
    """Return all people that this class knows, in the order of the identifiers.

    Parameters
    ----------
    course : Course

    Returns
    -------
    list of Person
        From the class list, the journals of all labs, and the folder of records.
    """
    found = {each.id: Person(each.id, each.name or each.id, each.also) for each in course.classlist.learner}
    for file in sorted((course.home / RECORDS).glob(f"*/{_PERSON}")):
        entered = json.loads(file.read_text(encoding="utf-8"))
        found.setdefault(entered["id"], Person(entered["id"], entered["name"] or entered["id"]))
    for path in sorted(course.journal.glob("lab[0-9][0-9].jsonl")):
        for outcome in Journal.of(course, path.stem).outcomes():
            if not outcome.learner.startswith("unknown-"):
                found.setdefault(outcome.learner, Person(outcome.learner, outcome.learner))
    return [found[key] for key in sorted(found)]


def find(course: Course, learner: str) -> Person:
    """Return the person with this identifier, name or other name.

    Raises
    ------
    GradingError
        When nobody is called so.
    """
    known = everybody(course)
    for each in known:
        if learner == each.id:
            return each
    wanted = fold(learner)
    for each in known:
        if wanted and wanted in {fold(name) for name in (each.id, each.name, *each.also)}:
            return each
    near = difflib.get_close_matches(learner, [name for one in known for name in (one.id, one.name)], 3)
    hint = f"; did you mean {' or '.join(dict.fromkeys(near))}?" if near else ""
    raise GradingError(
        f"{learner[:60]!r}: nobody of that name is on the class list, has handed work in, or was entered as "
        f"a new hire{hint} A new hire is entered by `twostroke record new NAME`"
    )


def enter(course: Course, name: str, identifier: str = "") -> Person:
    """Enter somebody of whom nothing has been graded yet.

    Parameters
    ----------
    course : Course
    name : str
        Name to show.
    identifier : str, optional
        Default: made from the name.

    Returns
    -------
    Person

    Raises
    ------
    GradingError
        When the name is empty or already somebody's.
    """
    shown = " ".join(name.split())
    if not fold(shown):
        raise GradingError(f"name {name[:40]!r}: write the name of the person, with letters or digits")
    made = Person(safe_id(identifier or shown), shown)
    taken = {fold(each): one.id for one in everybody(course) for each in (one.id, one.name, *one.also)}
    for each in (made.id, made.name):
        if fold(each) in taken:
            raise GradingError(
                f"{each!r} is known already as {taken[fold(each)]}; use that, or give another with --id"
            )
    content = json.dumps({"id": made.id, "name": made.name}, ensure_ascii=False)
    write_text(folder(course, made.id) / _PERSON, content + "\n")
    return made
