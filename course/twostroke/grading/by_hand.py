"""Marking by hand: a queue of written answers, task by task; nbgrader's gradebook holds the result.

Each mark is written to a log before it goes to the gradebook, with what stood there before, so that it can be
taken back, on another day too. A mark that somebody else has changed meanwhile is never written over.
"""

from __future__ import annotations

import getpass
import hashlib
from datetime import UTC, datetime
from typing import Any

from sqlalchemy.exc import SQLAlchemyError

from twostroke.grading import feedback, gradebook, skeleton
from twostroke.grading.about import guide_of, rubric_of, task_title
from twostroke.grading.backup import back_up
from twostroke.grading.journal import only_one
from twostroke.grading.marks import Entry, Mark, MarkLog, Piece
from twostroke.grading.place import Course, lab_name
from twostroke.grading.rows import GradeRow, LearnerRows, rows_of
from twostroke.grading.settle import Settler
from twostroke.grading.standing import stand, standings
from twostroke.grading.states import GradingError, Outcome, TaskResult
from twostroke.grading.wrote import from_notebook, told

_PATIENCE = 10.0


class Desk:
    """The place where a person marks the written answers of one lab.

    Parameters
    ----------
    lab : str or int
    course : Course, optional
        Without it, this repository and its ``autograde`` folder.
    who : str, optional
        Name for the log; without it, the name of the account.

    Raises
    ------
    GradingError
        When nothing of this lab has been graded yet.
    """

    def __init__(self, lab: str | int, course: Course | None = None, who: str = ""):
        self.course = course or Course.at()
        self.lab = lab_name(lab)
        self.who = who or _account()
        self.trusted = skeleton.load(self.course.source_notebook(self.lab))
        self.log = MarkLog(self.course.journal / f"{self.lab}.marks.jsonl")
        self._outcomes: dict[str, Outcome] = {}
        self._look()
        if not self._outcomes:
            raise GradingError(
                f"{self.lab}: nothing graded yet in {self.course.home}; "
                f"run `twostroke grade {self.lab[3:]} FOLDER` first"
            )
        self._saved = False

    def _look(self) -> None:
        found = standings(self.course, self.lab)
        self._outcomes = {each.learner: each.outcome for each in found}

    def queue(self, task: str | None = None, learner: str | None = None, every: bool = False) -> list[Piece]:
        """Return the written answers, task by task, those that are due alone unless ``every``.

        Parameters
        ----------
        task, learner : str, optional
            Only these.
        every : bool
            Those that are marked already, too.

        Returns
        -------
        list of Piece
            Within a task in an order that is drawn from the task, so that nobody is always read first.

        Raises
        ------
        GradingError
            When there is no such task, or nothing of that learner was graded.
        """
        self._look()
        asked = [o for o in self._outcomes.values() if self.course.classlist.asked(o.learner, learner)]
        if not asked:
            raise GradingError(f"learner {learner!r}: nothing of {self.lab} was graded in {self.course.home}")
        slots = self.trusted.graded()
        if task is not None and not any(task in (slot.mark, slot.grade_id) for slot in slots):
            names = ", ".join(slot.mark or slot.grade_id or "" for slot in slots)
            raise GradingError(f"{self.lab}: there is no task {task!r}; there are: {names}")
        known = gradebook.read_rows(self.course, self.lab)
        rows = self.log.rows()
        found = []
        for place, slot in enumerate(slots):
            for outcome in asked:
                result = next((t for t in outcome.tasks if t.grade_id == slot.grade_id), None)
                mine = known.get(outcome.learner)
                if result is None or mine is None or task not in (None, result.task, result.grade_id):
                    continue
                row = mine.grades.get(result.grade_id)
                if row is None or not (row.due or every) or not (task or _by_a_person(result, row)):
                    continue
                piece = self._piece(outcome, result, mine, rows.get((outcome.learner, result.grade_id), ()))
                found.append((place, _drawn(result.task, outcome.learner), piece))
        return [piece for _, _, piece in sorted(found, key=lambda each: each[:2])]

    def _piece(
        self, outcome: Outcome, result: TaskResult, mine: LearnerRows, rows: tuple[float, ...]
    ) -> Piece:
        rubric = rubric_of(self.lab, result.task)
        return Piece(
            lab=self.lab,
            learner=outcome.learner,
            task=result.task,
            grade_id=result.grade_id,
            title=task_title(self.lab, result.task),
            answer=_said(outcome.answers.get(result.task))
            or from_notebook(self.course.marked_notebook(outcome.learner, self.lab), result.grade_id),
            possible=result.max_points,
            mark=self._mark(mine, result.grade_id),
            rubric=rubric,
            guide=guide_of(self.lab, result.task),
            others={
                task_title(self.lab, name): text
                for name in outcome.answers
                if name != result.task and (text := told(outcome, name))
            },
            rows=rows if len(rows) == len(rubric) else (),
        )

    def comments(self, task: str) -> list[tuple[str, int]]:
        """Return the comments written to answers of a task, with how often; the most used first."""
        return self.log.comments(task)

    def give(
        self,
        piece: Piece,
        points: float | None = None,
        comment: str | None = None,
        rows: tuple[float, ...] = (),
    ) -> Entry:
        """Enter a mark, and write the learner's page anew.

        Parameters
        ----------
        piece : Piece
            As the queue gave it.
        points : float, optional
            Without it, what the rows come to.
        comment : str, optional
            For the learner; without it, the one that stands stays.
        rows : tuple of float
            Share of each row of the rubric.

        Returns
        -------
        Entry

        Raises
        ------
        GradingError
            When the points are not between zero and what the task is worth, or the mark was changed by
            somebody else since the piece was read.
        """
        value = piece.points_of(rows) if points is None else points
        if type(value) not in (int, float) or not 0 <= value <= piece.possible:
            raise GradingError(f"{value!r} points: give a number from 0 to {piece.possible:g}")
        said = piece.mark.comment if comment is None else comment.strip()
        after = Mark(points=float(value), due=False, comment=said)
        return self._enter(piece.learner, piece.task, piece.grade_id, piece.mark, after, rows)

    def undo(self) -> Entry | None:
        """Take back the last mark that still stands; None where there is none.

        Raises
        ------
        GradingError
            When it was changed since, by another person or another program.
        """
        last = self.log.last()
        if last is None:
            return None
        return self._enter(
            last.learner, last.task, last.grade_id, last.after, last.before, last.rows, undoes=last.number
        )

    def _enter(
        self,
        learner: str,
        task: str,
        grade_id: str,
        before: Mark,
        after: Mark,
        rows: tuple[float, ...],
        undoes: int | None = None,
    ) -> Entry:
        with only_one(self.course, _PATIENCE):
            if not self._saved:
                back_up(self.course)
                self._saved = True
            stamp = datetime.now(UTC).isoformat(timespec="seconds")
            entry = Entry(
                number=len(self.log.entries()) + 1, at=stamp, who=self.who, learner=learner, task=task,
                grade_id=grade_id, before=before, after=after, rows=rows, undoes=undoes,
            )  # fmt: skip
            recorder = gradebook.Recorder(self.course, self.lab)
            book = recorder.book
            try:
                now = rows_of(book.db, self.lab, learner).get(learner, LearnerRows())
                stands = self._mark(now, grade_id)
                if stands not in (before, after):
                    raise GradingError(
                        f"{learner}, {task}: changed meanwhile, it now has {_number(stands.points)} points; "
                        "read it again before you mark it"
                    )
                self.log.add(entry)
                with book.one_transaction():
                    self._put(recorder, entry)
                now = rows_of(book.db, self.lab, learner)[learner]
                feedback.write(self.course, stand(self._outcomes[learner], now), self.trusted)
                Settler(recorder, self.trusted).one(learner)
            except SQLAlchemyError as error:
                said = str(error).splitlines()[0][:200]
                raise GradingError(f"{learner}, {task}: the gradebook did not take it ({said})") from error
            except OSError as error:
                raise GradingError(
                    f"{learner}, {task}: writing failed ({error.strerror or error}); mend that, then look at "
                    "this answer again: it is marked or it is not, nothing between"
                ) from error
            finally:
                recorder.close()
        return entry

    def _mark(self, rows: LearnerRows, grade_id: str) -> Mark:
        row = rows.grades.get(grade_id, GradeRow(None, None, 0.0, True))
        said = rows.comments.get(self.trusted.comment_cell(grade_id) or "", "")
        return Mark(points=row.manual, due=row.due, comment=said)

    def _put(self, recorder: gradebook.Recorder, entry: Entry) -> None:
        """Enter a mark as nbgrader's own form does, and work out again what late work costs."""
        book = recorder.book
        grade = book.find_grade(entry.grade_id, self.lab, self.lab, entry.learner)
        grade.manual_score, grade.needs_manual_grade = entry.after.points, entry.after.due
        place = self.trusted.comment_cell(entry.grade_id)
        if place and entry.after.comment != entry.before.comment:
            comment = book.find_comment(place, self.lab, self.lab, entry.learner)
            comment.manual_comment = entry.after.comment or None
        submission = book.find_submission(self.lab, entry.learner)
        recorder.penalties.set(book.db, submission, submission.notebooks[0])


def _account() -> str:
    try:
        return getpass.getuser()
    except (OSError, KeyError):
        return "instructor"


def _by_a_person(result: TaskResult, row: GradeRow) -> bool:
    return result.marked == "by hand" or row.manual is not None


def _drawn(task: str, learner: str) -> str:
    return hashlib.sha256(f"{task}\x1f{learner}".encode()).hexdigest()


def _said(answer: Any) -> str:
    """An answer as text."""
    if isinstance(answer, dict):
        return "\n".join(str(text) for text in answer.values() if text not in (None, ""))
    return "" if answer is None else str(answer)


def _number(value: float | None) -> str:
    return "no" if value is None else f"{value:g}"
