"""Rows of the gradebook for one lab, read at once: grades, comments and late penalties by learner."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field

from nbgrader.api import (
    Assignment,
    BaseCell,
    Comment,
    Grade,
    SubmittedAssignment,
    SubmittedNotebook,
)
from sqlalchemy.orm import Session


@dataclass(frozen=True)
class GradeRow:
    """One grade as it stands in the gradebook.

    Parameters
    ----------
    auto, manual : float or None
        Points by the checker, and points that a person gave.
    extra : float
        Extra credit that a person gave.
    due : bool
        Whether a person has to look at it.
    """

    auto: float | None
    manual: float | None
    extra: float
    due: bool

    @classmethod
    def of(cls, row: Grade) -> GradeRow:
        """Return what a row of the table says."""
        extra = row.extra_credit or 0.0
        return cls(row.auto_score, row.manual_score, extra, bool(row.needs_manual_grade))

    @property
    def points(self) -> float | None:
        """What counts: a person's points before the checker's, with extra credit; None while they are due."""
        if self.manual is not None:
            return self.manual + self.extra
        return None if self.due or self.auto is None else self.auto + self.extra


@dataclass
class LearnerRows:
    """All rows of one learner in one lab.

    Parameters
    ----------
    grades : dict of str to GradeRow
        By grade id.
    comments : dict of str to str
        Comments that a person wrote, by grade id of the answer cell.
    penalty : float
        Points taken off for late work.
    """

    grades: dict[str, GradeRow] = field(default_factory=dict)
    comments: dict[str, str] = field(default_factory=dict)
    penalty: float = 0.0

    @property
    def by_hand(self) -> bool:
        """Whether a person has given points or written a comment."""
        return bool(self.comments) or any(row.manual is not None or row.extra for row in self.grades.values())


def rows_of(session: Session, lab: str, learner: str | None = None) -> dict[str, LearnerRows]:
    """Return the rows of a lab from an open gradebook, of one learner or of all."""
    found: dict[str, LearnerRows] = defaultdict(LearnerRows)
    handed_in = (
        session.query(SubmittedAssignment.student_id, SubmittedNotebook)
        .join(SubmittedNotebook, SubmittedNotebook.assignment_id == SubmittedAssignment.id)
        .join(Assignment, Assignment.id == SubmittedAssignment.assignment_id)
        .filter(Assignment.name == lab)
    )
    if learner is not None:
        handed_in = handed_in.filter(SubmittedAssignment.student_id == learner)
    owner = {}
    for name, notebook in handed_in:
        owner[notebook.id] = name
        found[name].penalty += notebook.late_submission_penalty or 0.0
    for kind in (Grade, Comment):
        rows = session.query(kind, BaseCell.name).join(BaseCell, BaseCell.id == kind.cell_id)
        if learner is not None:
            rows = rows.filter(kind.notebook_id.in_(list(owner)))
        for row, cell in rows:
            if row.notebook_id not in owner:
                continue
            mine = found[owner[row.notebook_id]]
            if isinstance(row, Grade):
                mine.grades[cell] = GradeRow.of(row)
            elif row.manual_comment:
                mine.comments[cell] = row.manual_comment
    return dict(found)
