"""Several hand-ins of one lab: each kept as it was marked, and the one that counts in the gradebook.

Kept under ``attempts/LEARNER/LAB``: a file with every marked hand-in, and its marked notebook. It is
written before the gradebook changes, and says while a change is under way to which hand-in the gradebook
goes; so a run that is killed between the two is finished by the next one.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from pydantic import BaseModel, Field

from twostroke.grading.files import write_bytes, write_text
from twostroke.grading.place import Course
from twostroke.grading.rows import GradeRow, LearnerRows
from twostroke.grading.states import GradingError, Outcome, TaskResult


class Attempt(BaseModel):
    """One marked hand-in.

    Parameters
    ----------
    outcome : Outcome
        As it was marked.
    rows : LearnerRows or None
        What the gradebook said of it when another one took its place.
    """

    outcome: Outcome
    rows: LearnerRows | None = None

    @property
    def digest(self) -> str:
        """Fingerprint of the file."""
        return self.outcome.digest

    def total(self) -> float | None:
        """Points, late work taken off; None while a person still has to give some."""
        if self.rows is None or any(row.due for row in self.rows.grades.values()):
            return None
        points = [self.rows.grades.get(task.grade_id, GradeRow(None, None, 0.0, True)).points for task in
                  self.outcome.tasks]  # fmt: skip
        return round(sum(each or 0.0 for each in points) - self.rows.penalty, 4)


@dataclass(frozen=True)
class Line:
    """One hand-in as reports show it.

    Parameters
    ----------
    number : int
        From 1.
    points : float or None
    counts : bool
    """

    number: int
    points: float | None
    counts: bool


class Attempts(BaseModel):
    """The marked hand-ins of one learner to one lab, in the order in which they came.

    Parameters
    ----------
    attempts : list of Attempt
    counts : str
        Fingerprint of the one that stands in the gradebook.
    under_way : bool
        Whether the gradebook was about to be changed to it.
    """

    attempts: list[Attempt] = Field(default_factory=list)
    counts: str = ""
    under_way: bool = False

    def get(self, digest: str) -> Attempt | None:
        """Return the hand-in with this fingerprint."""
        return next((each for each in self.attempts if each.digest == digest), None)

    @property
    def counted(self) -> Attempt | None:
        """The hand-in that stands in the gradebook."""
        return self.get(self.counts)

    def put(self, outcome: Outcome) -> None:
        """Add a hand-in, or renew it where it was marked again."""
        known = self.get(outcome.digest)
        if known is None:
            self.attempts.append(Attempt(outcome=outcome))
        else:
            known.outcome = outcome

    def keep(self, rows: LearnerRows) -> None:
        """Keep what the gradebook says of the hand-in that stands in it."""
        if self.counted is not None and not self.under_way:
            self.counted.rows = rows

    def best(self) -> Attempt:
        """Return the hand-in with the most points; the newest while it has open marks, and among equals."""
        newest = self.attempts[-1]
        if newest.total() is None:
            return newest
        known = [(each.total(), place, each) for place, each in enumerate(self.attempts)]
        return max((each for each in known if each[0] is not None), key=lambda e: (e[0] or 0.0, e[1]))[2]

    def lines(self, now: LearnerRows | None) -> tuple[Line, ...]:
        """Return the hand-ins as reports show them; ``now`` is what the gradebook says."""
        found = []
        for number, each in enumerate(self.attempts, 1):
            here = each.digest == self.counts
            live = each.model_copy(update={"rows": now}) if here and now is not None else each
            found.append(Line(number, live.total(), here))
        return tuple(found)


class AttemptStore:
    """The files of one lab's repeated hand-ins.

    Parameters
    ----------
    course : Course
    lab : str
    """

    def __init__(self, course: Course, lab: str):
        self.course, self.lab = course, lab

    def folder(self, learner: str) -> Path:
        """Where one learner's lie."""
        return self.course.home / "attempts" / learner / self.lab

    def load(self, learner: str) -> Attempts | None:
        """Return what is kept of a learner; None where there was one hand-in only.

        Raises
        ------
        GradingError
            When the file is damaged.
        """
        path = self.folder(learner) / "attempts.json"
        if not path.is_file():
            return None
        try:
            return Attempts.model_validate_json(path.read_bytes())
        except ValueError:
            raise GradingError(f"{path}: damaged; put back a copy of it, or take it away") from None

    def save(self, learner: str, found: Attempts) -> None:
        """Write it, whole and for good."""
        write_text(self.folder(learner) / "attempts.json", found.model_dump_json(indent=1) + "\n")

    def learners(self) -> Iterable[str]:
        """Those of whom something is kept."""
        return sorted(
            path.parent.parent.name for path in self.course.home.glob(f"attempts/*/{self.lab}/attempts.json")
        )

    def keep_notebook(self, outcome: Outcome) -> None:
        """Keep the marked notebook of the hand-in that stands in the gradebook."""
        made = self.course.marked_notebook(outcome.learner, self.lab)
        if made.is_file():
            write_bytes(self.notebook(outcome), made.read_bytes(), lasting=False)

    def notebook(self, outcome: Outcome) -> Path:
        """Where the marked notebook of a hand-in is kept."""
        return self.folder(outcome.learner) / f"{outcome.digest[:16]}.ipynb"

    def before_another(self, before: Outcome, digest: str, rows: LearnerRows | None) -> Attempts | None:
        """Keep the hand-in that stands in the gradebook before another one is entered.

        Parameters
        ----------
        before : Outcome
            What the journal says of the learner.
        digest : str
            Fingerprint of the hand-in to be entered.
        rows : LearnerRows or None
            What the gradebook says now.

        Returns
        -------
        Attempts or None
            None where it is the first, or the same again.
        """
        found = self.load(before.learner)
        if found is None:
            if not before.marked or before.digest == digest:
                return None
            found = Attempts(attempts=[Attempt(outcome=before)], counts=before.digest)
        if found.counts != digest:
            if rows is not None:
                found.keep(rows)
            if found.counted is not None and not found.under_way:
                self.keep_notebook(found.counted.outcome)
            found.counts, found.under_way = digest, True
            self.save(before.learner, found)
        return found

    def keep_first(self, before: Outcome) -> None:
        """Keep a marked hand-in whose place in the journal is taken by one that cannot be marked."""
        if before.marked and self.load(before.learner) is None:
            found = Attempts(attempts=[Attempt(outcome=before)], counts=before.digest)
            self.save(before.learner, found)

    def again(self, outcome: Outcome, task: TaskResult) -> None:
        """Renew a hand-in of which one task was marked again, and its points where it does not count."""
        found = self.load(outcome.learner)
        kept = found.get(outcome.digest) if found is not None else None
        if found is None or kept is None:
            return
        kept.outcome = outcome
        if kept.rows is not None and task.grade_id in kept.rows.grades:
            row = kept.rows.grades[task.grade_id]
            due = row.manual is not None
            kept.rows.grades[task.grade_id] = GradeRow(task.points, row.manual, row.extra, due)
        self.save(outcome.learner, found)

    def after(self, outcome: Outcome) -> None:
        """Note that a hand-in was entered; nothing is kept of the first."""
        found = self.load(outcome.learner)
        if found is not None and outcome.marked:
            found.put(outcome)
            found.counts, found.under_way = outcome.digest, False
            self.save(outcome.learner, found)
