"""Where each learner stands now: the journal's states joined with the gradebook, marks by hand included."""

from __future__ import annotations

from dataclasses import dataclass, field

from twostroke.grading.attempts import Attempts, AttemptStore, Line
from twostroke.grading.gradebook import read_rows
from twostroke.grading.journal import Journal
from twostroke.grading.place import Course
from twostroke.grading.rows import LearnerRows
from twostroke.grading.states import Cause, Outcome, Reason, State, TaskResult


@dataclass(frozen=True)
class Standing:
    """One learner in one lab.

    Parameters
    ----------
    outcome : Outcome
        As last marked.
    state : State
        Now; a written answer that has been marked by hand needs no person any more.
    causes : tuple of Cause
        Reasons still open.
    points : float or None
        Points so far, marks given by hand included; None where nothing is marked.
    final : float or None
        Points to export: only where the state is "graded".
    tasks : tuple of TaskResult
        With the points of the gradebook.
    penalty : float
        Points taken off for late work; they are off ``points`` already.
    comments : dict of str to str
        What a person wrote, by grade id.
    hand_ins : tuple of Line
        Every marked hand-in, where there was more than one.
    """

    outcome: Outcome
    state: State
    causes: tuple[Cause, ...]
    points: float | None
    final: float | None
    tasks: tuple[TaskResult, ...]
    penalty: float = 0.0
    comments: dict[str, str] = field(default_factory=dict)
    hand_ins: tuple[Line, ...] = ()

    @property
    def why(self) -> str:
        """Reasons still open, in one line."""
        return "; ".join(cause.text for cause in self.causes)

    @property
    def remarks(self) -> list[str]:
        """Late work and repeated hand-ins in words."""
        said = [f"{self.penalty:g} points off for late work"] if self.penalty else []
        for line in self.hand_ins:
            points = "not all marked" if line.points is None else f"{line.points:g} points"
            said.append(f"hand-in {line.number}: {points}{', counts' if line.counts else ''}")
        return said

    @property
    def learner(self) -> str:
        """Identifier."""
        return self.outcome.learner


def standings(course: Course, lab: str) -> list[Standing]:
    """Return where each learner of a lab stands, in the order of the identifiers.

    Parameters
    ----------
    course : Course
    lab : str
        Such as "lab01".

    Returns
    -------
    list of Standing
        Empty when nothing has been graded yet.
    """
    outcomes = Journal.of(course, lab).outcomes()
    known = read_rows(course, lab) if outcomes else {}
    store = AttemptStore(course, lab)
    several = set(store.learners())
    found = []
    for outcome in outcomes:
        rows = known.get(outcome.learner)
        attempts = store.load(outcome.learner) if outcome.learner in several else None
        shown = _counted(outcome, attempts) if attempts else outcome
        found.append(stand(shown, rows, attempts.lines(rows) if attempts else ()))
    return found


def newest(course: Course, lab: str) -> list[Standing]:
    """Return for each learner the newest hand-in as it stands, which is what their own page is about."""
    known = read_rows(course, lab)
    store = AttemptStore(course, lab)
    several = set(store.learners())
    found = []
    for outcome in Journal.of(course, lab).outcomes():
        rows = known.get(outcome.learner)
        attempts = store.load(outcome.learner) if outcome.learner in several else None
        if attempts and attempts.attempts and outcome.marked:
            found.append(stand_newest(attempts, rows))
        else:
            found.append(stand(outcome, rows if outcome.marked else None))
    return found


def stand_newest(attempts: Attempts, now: LearnerRows | None) -> Standing:
    """Join the newest of several hand-ins with what was given to it, in the gradebook or before."""
    last = attempts.attempts[-1]
    rows = now if last.digest == attempts.counts else last.rows
    return stand(last.outcome, rows, attempts.lines(now))


def _counted(outcome: Outcome, attempts: Attempts) -> Outcome:
    """The hand-in that counts, unless the newest is a broken file about which a person must decide."""
    over = any(cause.reason is Reason.TOO_MANY for cause in outcome.causes)
    counted = attempts.counted
    if counted is None or attempts.under_way or not (outcome.marked or over):
        return outcome
    number = attempts.attempts.index(counted) + 1
    notes = [*counted.outcome.notes, f"hand-in {number} of {len(attempts.attempts)} counts"]
    notes += [cause.text for cause in outcome.causes if cause.reason is Reason.TOO_MANY]
    return counted.outcome.model_copy(update={"notes": notes})


def stand(outcome: Outcome, now: LearnerRows | None, hand_ins: tuple[Line, ...] = ()) -> Standing:
    """Join what was marked with what the gradebook says now.

    Parameters
    ----------
    outcome : Outcome
    now : LearnerRows or None
        None where the gradebook holds nothing of this learner.
    hand_ins : tuple of Line
        Where there was more than one.

    Returns
    -------
    Standing
    """
    if not outcome.marked or now is None:
        return Standing(
            outcome, outcome.state, tuple(outcome.causes), None, None, tuple(outcome.tasks), hand_ins=hand_ins
        )
    tasks = tuple(_task(task, now) for task in outcome.tasks)
    due = any(row.due for row in now.grades.values())
    causes = [cause for cause in outcome.causes if cause.reason is not Reason.WRITTEN or due]
    again = sorted(name for name, row in now.grades.items() if row.due and row.manual is not None)
    if again:
        causes.append(
            Cause(reason=Reason.CONFIRM, detail=f"{', '.join(again)}: the work was marked again since")
        )
    state = outcome.state
    if state in (State.GRADED, State.PERSON):
        state = State.PERSON if causes else State.GRADED
    known = [task.points for task in tasks if task.points is not None]
    points = round(sum(known) - now.penalty, 4) if known else None
    final = points if state is State.GRADED else None
    return Standing(outcome, state, tuple(causes), points, final, tasks, now.penalty, now.comments, hand_ins)


def _task(task: TaskResult, now: LearnerRows) -> TaskResult:
    row = now.grades.get(task.grade_id)
    return task if row is None else task.model_copy(update={"points": row.points})
