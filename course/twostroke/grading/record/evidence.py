"""Graded evidence: what the gradebook says of each person, lab by lab and competency by competency."""

from __future__ import annotations

import contextlib
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import cache
from typing import Any

from nbgrader.api import Assignment, BaseCell, Grade, SubmittedAssignment, SubmittedNotebook

from twostroke import lab as labs
from twostroke.grading.about import lab_title, task_title
from twostroke.grading.gradebook import open_book
from twostroke.grading.place import Course
from twostroke.grading.standing import Standing, standings
from twostroke.grading.states import Cause, Reason, State
from twostroke.isolation.mastery import Tracing
from twostroke.lab.task import COMPETENCIES

PASS = 0.8
"""Share of the points from which graded work counts as passed."""
COVER = 0.5
"""Part of the course's points in a competency that must have been marked before it counts as proven."""
PROVEN, BEGUN, OPEN = "proven", "begun", "open"


@dataclass(frozen=True)
class TaskEvidence:
    """Points of one task.

    Parameters
    ----------
    task, title, competency : str
    points : float or None
        None while a person has to give them.
    of : float
    by_hand : bool
        Whether a person gave the points.
    """

    task: str
    title: str
    competency: str
    points: float | None
    of: float
    by_hand: bool


@dataclass(frozen=True)
class LabEvidence:
    """One lab of one person.

    Parameters
    ----------
    lab, title : str
        Number such as "04", and title.
    counts : bool
        Whether its marks are final; those that wait for a person are not.
    why : str
        Why they are not.
    date, date_is : str
        Day, and what it is: "handed in" or "received"; both empty where no day is known.
    tasks : tuple of TaskEvidence
    """

    lab: str
    title: str
    counts: bool
    why: str
    date: str
    date_is: str
    tasks: tuple[TaskEvidence, ...]

    @property
    def share(self) -> float | None:
        """Share of the lab's points, late penalties aside; None where nothing is final."""
        of = sum(task.of for task in self.tasks)
        return sum(task.points or 0.0 for task in self.tasks) / of if self.counts and of else None

    @property
    def passed(self) -> bool:
        """Whether the lab is final and passed."""
        return self.share is not None and self.share >= PASS - 1e-9


@dataclass(frozen=True)
class Piece:
    """What one lab says of one competency: points with their day; ``points`` is None while it waits."""

    lab: str
    title: str
    date: str
    date_is: str
    points: float | None
    of: float
    by_hand: bool
    why: str


@dataclass(frozen=True)
class Competency:
    """How far a competency is proven by graded work, and by nothing else.

    Parameters
    ----------
    name : str
    state : str
        "proven", "begun" or "open".
    share : float or None
        Share of the final points.
    covered : float
        Part (0 to 1) of the course's points in it that has been marked.
    mastery : float or None
        Chance of mastery by knowledge tracing, one step a lab; a hint for teaching, no part of the state.
    pieces : tuple of Piece
    """

    name: str
    state: str
    share: float | None
    covered: float
    mastery: float | None
    pieces: tuple[Piece, ...]


def gather(course: Course) -> dict[str, list[LabEvidence]]:
    """Return the graded evidence of everybody, lab by lab.

    Parameters
    ----------
    course : Course

    Returns
    -------
    dict
        Identifier -> labs in the order of their numbers; only those with something handed in.
    """
    found: dict[str, list[LabEvidence]] = defaultdict(list)
    for path in sorted(course.journal.glob("lab[0-9][0-9].jsonl")):
        lab = path.stem
        now = standings(course, lab)
        by_hand = _by_hand(course, lab) if any(standing.outcome.marked for standing in now) else {}
        for standing in now:
            if standing.outcome.causes == [Cause(reason=Reason.MISSING)]:
                continue
            mine = by_hand.get(standing.learner, set())
            found[standing.learner].append(_lab(standing, mine, _day(course, standing)))
    return dict(found)


def _lab(standing: Standing, by_hand: set[str], day: tuple[str, str]) -> LabEvidence:
    lab = standing.outcome.lab
    tasks = [
        TaskEvidence(
            task.task,
            task_title(lab, task.task),
            task.competency,
            task.points,
            task.max_points,
            task.grade_id in by_hand,
        )
        for task in standing.tasks
    ]
    title = lab_title(lab).partition(": ")[2]
    return LabEvidence(lab[3:], title, standing.state is State.GRADED, standing.why, *day, tuple(tasks))


def _by_hand(course: Course, lab: str) -> dict[str, set[str]]:
    """Grade ids with points that a person gave, by learner."""
    book = open_book(course)
    try:
        rows: Any = (
            book.db.query(SubmittedAssignment.student_id, BaseCell.name)
            .join(Assignment, Assignment.id == SubmittedAssignment.assignment_id)
            .join(SubmittedNotebook, SubmittedNotebook.assignment_id == SubmittedAssignment.id)
            .join(Grade, Grade.notebook_id == SubmittedNotebook.id)
            .join(BaseCell, BaseCell.id == Grade.cell_id)
            .filter(Assignment.name == lab, Grade.manual_score.is_not(None))
        )
        found: dict[str, set[str]] = defaultdict(set)
        for learner, grade_id in rows:
            found[learner].add(grade_id)
        return found
    finally:
        book.close()


def _day(course: Course, standing: Standing) -> tuple[str, str]:
    """Day on which work was handed in, where a platform said so; else the one on which it came here."""
    outcome = standing.outcome
    if outcome.handed_in is not None:
        return outcome.handed_in.date().isoformat(), "handed in"
    with contextlib.suppress(OSError):
        when = (course.submitted / outcome.learner / outcome.lab / f"{outcome.lab}.ipynb").stat().st_mtime
        return datetime.fromtimestamp(when, UTC).date().isoformat(), "received"
    return "", ""


@cache
def offered() -> dict[str, dict[str, float]]:
    """Points that the course holds for each competency, by lab.

    Examples
    --------
    >>> sorted(offered()["air gap"])
    ['05']
    """
    found: dict[str, dict[str, float]] = {name: {} for name in COMPETENCIES}
    for number in labs.lab_ids():
        for task in labs.load(number).tasks:
            of = found[task.competency]
            of[number] = of.get(number, 0.0) + float(task.points)
    return found


def competencies(evidence: Sequence[LabEvidence]) -> list[Competency]:
    """Return all competencies of the training record with what proves them.

    Parameters
    ----------
    evidence : sequence of LabEvidence
        Of one person.

    Returns
    -------
    list of Competency

    Notes
    -----
    Proven: at least 80 per cent of the final points, and at least half of the points that the course holds
    for it marked. In safety each lab counts for itself: what is unsafe in one is not made good by another.
    These two limits are a choice of this course, not a standard.
    """
    return [_competency(name, evidence) for name in COMPETENCIES]


def _competency(name: str, evidence: Sequence[LabEvidence]) -> Competency:
    pieces = []
    for lab in evidence:
        tasks = [task for task in lab.tasks if task.competency == name]
        if not tasks:
            continue
        points = sum(task.points or 0.0 for task in tasks) if lab.counts else None
        by_hand = any(task.by_hand for task in tasks)
        of = sum(task.of for task in tasks)
        why = "" if lab.counts else lab.why
        pieces.append(Piece(lab.lab, lab.title, lab.date, lab.date_is, points, of, by_hand, why))
    final = [(piece.points, piece.of) for piece in pieces if piece.points is not None and piece.of]
    if not final:
        return Competency(name, BEGUN if pieces else OPEN, None, 0.0, None, tuple(pieces))
    passes = [points / of >= PASS - 1e-9 for points, of in final]
    marked = sum(of for _, of in final)
    share = sum(points for points, _ in final) / marked
    in_all = sum(offered()[name].values())
    covered = min(1.0, marked / in_all) if in_all else 1.0
    good = all(passes) if name == "safety" else share >= PASS - 1e-9
    state = PROVEN if good and covered >= COVER - 1e-9 else BEGUN
    return Competency(name, state, share, covered, Tracing().after(passes)[-1], tuple(pieces))
