"""Hands-on signatures: what a supervisor has seen at the bench, kept apart from marks.

A signature is never worked out from marks, and marks never from a signature. Each line of the file holds the
hash of the line before and is signed with the key of the class, so that a line that is changed, taken out
of the middle, put in or moved is noticed. Lines cut off at the end are noticed by the records that were
issued with them.
"""

from __future__ import annotations

import hashlib
import json
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

from pydantic import BaseModel, ConfigDict, ValidationError

from twostroke.grading.files import write_text
from twostroke.grading.journal import only_one
from twostroke.grading.place import Course
from twostroke.grading.record import people
from twostroke.grading.record.seal import Key, canonical, signed_by
from twostroke.grading.states import GradingError
from twostroke.lab.task import COMPETENCIES

FILE = "signatures.jsonl"
_BEGIN = "0" * 64
_FIRST_YEAR = 1990


class Signature(BaseModel):
    """One line: a signature, or the withdrawal of an earlier one.

    Parameters
    ----------
    number : int
        Place in the file, from 1.
    competency : str
    by : str
        Name of the supervisor who saw it.
    initials : str
    day : str
        Day on which it was seen, YYYY-MM-DD.
    note : str
        On which machine, for example.
    entered : str
        When it was entered, UTC.
    withdraws : int
        Number of the signature that this line takes back; 0 for a signature.
    """

    model_config = ConfigDict(extra="forbid", frozen=True)
    number: int
    competency: str
    by: str
    initials: str
    day: str
    note: str = ""
    entered: str
    withdraws: int = 0


def competency_named(text: str) -> str:
    """Return the competency of this name, or of the only one that begins so.

    Raises
    ------
    GradingError

    Examples
    --------
    >>> competency_named("Air Gap"), competency_named("stop")
    ('air gap', 'stop circuit and ground')
    """
    wanted = " ".join(text.lower().split())
    found = [each for each in COMPETENCIES if each == wanted] or [
        each for each in COMPETENCIES if wanted and each.startswith(wanted)
    ]
    if len(found) != 1:
        raise GradingError(f"competency {text[:60]!r}: choose one of {'; '.join(COMPETENCIES)}")
    return found[0]


def read(course: Course, learner: str) -> list[Signature]:
    """Return all lines of a person, checked.

    Raises
    ------
    GradingError
        When a line was changed, put in, moved or taken out; the line is named.
    """
    return [line for line, _ in _lines(course, learner)]


def valid(lines: list[Signature]) -> list[Signature]:
    """Signatures that stand: those that no later line takes back."""
    withdrawn = {line.withdraws for line in lines}
    return [line for line in lines if not line.withdraws and line.number not in withdrawn]


def sign(
    course: Course,
    learner: str,
    competency: str,
    *,
    by: str,
    initials: str,
    day: date | None = None,
    note: str = "",
) -> Signature:
    """Enter what a supervisor has seen a person do at the bench.

    Parameters
    ----------
    course : Course
    learner : str
        Any name of the person.
    competency : str
    by, initials : str
        Name and initials of the supervisor.
    day : date, optional
        When it was seen; default today.
    note : str, optional

    Returns
    -------
    Signature

    Raises
    ------
    GradingError
        When a name is missing, the day lies in the future, or a supervisor signs for themselves.
    """
    person = people.find(course, learner)
    supervisor, letters = " ".join(by.split()), "".join(initials.split())
    if not supervisor or not letters:
        raise GradingError("a signature needs the supervisor's name and initials: give --by and --initials")
    if len(letters) > 6:
        raise GradingError(f"initials {letters[:20]!r}: write at most six letters")
    if people.fold(supervisor) in {people.fold(name) for name in (person.id, person.name, *person.also)}:
        raise GradingError(f"{supervisor!r} is the person themselves: a supervisor signs for what they saw")
    seen = day or date.today()
    if seen > date.today() or seen.year < _FIRST_YEAR:
        raise GradingError(f"day {seen.isoformat()}: write the day on which it was seen, not one to come")
    return _append(
        course,
        person.id,
        competency=competency_named(competency),
        by=supervisor,
        initials=letters,
        day=seen.isoformat(),
        note=" ".join(note.split())[:200],
    )


def withdraw(course: Course, learner: str, number: int, *, by: str, initials: str, note: str) -> Signature:
    """Take a signature back; the line stays, and so does the reason.

    Raises
    ------
    GradingError
        When there is no such signature, or no reason is given.
    """
    person = people.find(course, learner)
    standing = {line.number: line for line in valid(read(course, person.id))}
    if number not in standing:
        raise GradingError(f"signature {number}: there is none to take back; there are {sorted(standing)}")
    if not (by.strip() and initials.strip() and note.strip()):
        raise GradingError("to take a signature back give --by, --initials and the reason with --note")
    return _append(
        course,
        person.id,
        competency=standing[number].competency,
        by=" ".join(by.split()),
        initials="".join(initials.split()),
        day=date.today().isoformat(),
        note=" ".join(note.split())[:200],
        withdraws=number,
    )


def _append(course: Course, learner: str, **what: Any) -> Signature:
    key = Key.of(course)
    with only_one(course):
        lines = _lines(course, learner)
        previous = hashlib.sha256(lines[-1][1].encode("utf-8")).hexdigest() if lines else _BEGIN
        entered = datetime.now(UTC).isoformat(timespec="seconds")
        line = Signature(number=len(lines) + 1, entered=entered, **what)
        inner = {"line": line.model_dump(), "learner": learner, "previous": previous, "key": key.public}
        text = canonical({**inner, "signature": key.sign(canonical(inner))}).decode("utf-8")
        write_text(_file(course, learner), "".join(f"{old}\n" for _, old in lines) + text + "\n")
    return line


def _file(course: Course, learner: str) -> Path:
    return people.folder(course, learner) / FILE


def _lines(course: Course, learner: str) -> list[tuple[Signature, str]]:
    file = _file(course, learner)
    if not file.is_file():
        return []
    key, previous, found = Key.of(course), _BEGIN, []
    for number, text in enumerate(file.read_text(encoding="utf-8").splitlines(), start=1):
        try:
            held = json.loads(text)
            signature = held.pop("signature")
            line = Signature.model_validate(held["line"])
            sound = (
                held["learner"] == learner
                and held["previous"] == previous
                and line.number == number
                and held["key"] == key.public
                and signed_by(key.public, canonical(held), signature)
            )
        except (ValueError, KeyError, TypeError, AttributeError, ValidationError):
            sound = False
        if not sound:
            raise GradingError(
                f"{learner}: line {number} of {file.name} is not as it was entered (changed, put in, moved, "
                "or a line before it is missing); put back a copy of the file, and ask who had access to it"
            )
        found.append((line, text))
        previous = hashlib.sha256(text.encode("utf-8")).hexdigest()
    return found
