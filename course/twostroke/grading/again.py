"""One task marked again from the recorded answers, no notebook run: for when its marking was mended."""

from __future__ import annotations

import json
from dataclasses import dataclass

from nbformat.notebooknode import from_dict
from nbgrader.api import Grade

from twostroke.grading import feedback, gradebook, skeleton
from twostroke.grading.attempts import AttemptStore
from twostroke.grading.backup import back_up
from twostroke.grading.files import write_text
from twostroke.grading.journal import Journal, only_one
from twostroke.grading.judge import points, shown_points
from twostroke.grading.place import Course, lab_name
from twostroke.grading.pool import Lost, start_marker
from twostroke.grading.rows import rows_of
from twostroke.grading.settle import Settler
from twostroke.grading.skeleton import Skeleton
from twostroke.grading.standing import stand
from twostroke.grading.states import GradingError, Outcome, Step, TaskResult

_SECONDS = 60.0


@dataclass(frozen=True)
class Change:
    """One learner's points in a task that was marked again.

    Parameters
    ----------
    learner : str
    before, after : float or None
    """

    learner: str
    before: float | None
    after: float | None


def mark_again(
    lab: str | int,
    task: str,
    *,
    course: Course | None = None,
    learner: str | None = None,
    dry_run: bool = False,
) -> list[Change]:
    """Mark one task of a lab again for everybody, or for one learner.

    Parameters
    ----------
    lab : str or int
    task : str
        Name or grade id of a task that the checker marks.
    course : Course, optional
    learner : str, optional
        Only this one.
    dry_run : bool
        Only say what would change.

    Returns
    -------
    list of Change
        Those whose points differ. Points that a person gave stay; nbgrader then asks for a look, as always.

    Raises
    ------
    GradingError
        When nothing was graded, there is no such task, or the marking fails; then nothing is changed.
    """
    course = course or Course.at()
    name = lab_name(lab)
    trusted = skeleton.load(course.source_notebook(name))
    slot = next((s for s in trusted.graded() if s.mark and task in (s.mark, s.grade_id)), None)
    if slot is None or slot.mark is None:
        names = ", ".join(s.mark for s in trusted.graded() if s.mark)
        raise GradingError(f"{name}: task {task!r} is none that the checker marks; there are: {names}")
    with only_one(course), Journal.of(course, name) as journal:
        found = _hand_ins(course, journal, learner)
        if not found:
            whom = "" if learner is None else f" of learner {learner!r}"
            raise GradingError(
                f"{name}: nothing{whom} graded yet that could be marked again in {course.home}"
            )
        fresh = _fresh(course, name, slot.mark, slot.points, found)
        changes = [
            Change(old.learner, _result(old, slot.mark).points, new.points)
            for old, new in zip(found, fresh, strict=True)
            if _result(old, slot.mark) != new
        ]
        if not dry_run:
            try:
                back_up(course)
                _enter(course, trusted, journal, list(zip(found, fresh, strict=True)))
            except OSError as error:
                raise GradingError(
                    f"{course.home}: writing failed ({error.strerror or error}); mend that, then run the "
                    "same command again: it goes on where it stopped"
                ) from error
    return changes


def _hand_ins(course: Course, journal: Journal, learner: str | None) -> list[Outcome]:
    """Every marked hand-in of those who were asked for, the ones that do not count included."""
    found: list[Outcome] = []
    for outcome in journal.outcomes():
        if course.classlist.asked(outcome.learner, learner):
            kept = AttemptStore(course, outcome.lab).load(outcome.learner)
            found += [each.outcome for each in kept.attempts] if kept else [outcome]
    return [each for each in found if each.marked]


def _result(outcome: Outcome, task: str) -> TaskResult:
    return next(each for each in outcome.tasks if each.task == task)


def _fresh(course: Course, lab: str, task: str, worth: float, found: list[Outcome]) -> list[TaskResult]:
    """The task's results by the marking as it is now, in a clean interpreter."""
    fresh = []
    marker = start_marker(lab)
    try:
        for number, outcome in enumerate(found):
            old = _result(outcome, task)
            if old.marked != "twice" or task not in outcome.answers:
                fresh.append(old)
                continue
            request = {"id": number, "learner": outcome.learner, "also": [], "lines": _lines(outcome)}
            reply = marker.ask(request, _SECONDS)
            mark = next((each for each in reply["marks"] if each["task"] == task), None)
            if mark is None:
                raise GradingError(f"{outcome.learner}, {task}: {reply.get('refused', 'was not marked')}")
            new = {"points": points(mark["points"], worth), "slips": tuple(mark["slips"])}
            new |= {"state": mark["state"], "steps": tuple(map(Step.model_validate, mark["steps"]))}
            fresh.append(old.model_copy(update=new))
    except Lost as lost:
        raise GradingError(f"{lab}, {task}: the marking failed ({lost}); nothing was changed") from None
    finally:
        marker.close()
    return fresh


def _lines(outcome: Outcome) -> list[str]:
    """The recorded answers in the form in which a notebook wrote them."""
    event: dict[str, object] = {"event": "mark", "lab": outcome.lab.removeprefix("lab")}
    event |= {"learner": outcome.worked_as or outcome.learner, "attempt": outcome.variant}
    return [json.dumps({**event, "task": name, "answer": given}) for name, given in outcome.answers.items()]


def _enter(
    course: Course, trusted: Skeleton, journal: Journal, pairs: list[tuple[Outcome, TaskResult]]
) -> None:
    recorder = gradebook.Recorder(course, trusted.lab)
    settler = Settler(recorder, trusted)
    try:
        for outcome, new in pairs:
            if _result(outcome, new.task) == new:
                continue
            tasks = [new if each.task == new.task else each for each in outcome.tasks]
            outcome = outcome.model_copy(update={"tasks": tasks})
            kept = settler.store.load(outcome.learner)
            if kept is None or kept.counts == outcome.digest:
                _change(recorder, outcome, new)
                _rewrite(course, trusted, outcome, new)
            rows = rows_of(recorder.book.db, trusted.lab, outcome.learner).get(outcome.learner)
            feedback.write(course, stand(outcome, rows), trusted)
            newest = journal.get(outcome.learner)
            if newest is not None and newest.digest == outcome.digest:
                journal.add([outcome])
            settler.store.again(outcome, new)  # last: what is told apart by it is then done
        settler.all()
    finally:
        recorder.close()


def _change(recorder: gradebook.Recorder, outcome: Outcome, new: TaskResult) -> None:
    """Enter the points as nbgrader's own autograding does."""
    book, lab = recorder.book, recorder.lab
    with recorder.together():
        grade: Grade = book.find_grade(new.grade_id, lab, lab, outcome.learner)
        grade.auto_score = new.points
        grade.needs_manual_grade = grade.manual_score is not None
        submission = book.find_submission(lab, outcome.learner)
        recorder.penalties.set(book.db, submission, submission.notebooks[0])


def _rewrite(course: Course, trusted: Skeleton, outcome: Outcome, new: TaskResult) -> None:
    """The marked notebook shows the same points."""
    path = course.marked_notebook(outcome.learner, trusted.lab)
    notebook = from_dict(json.loads(path.read_text(encoding="utf-8")))
    for cell in notebook.cells:
        if cell.metadata.get("nbgrader", {}).get("grade_id") == new.grade_id:
            cell.outputs = [shown_points(new.points or 0.0)]
    text = json.dumps(notebook, sort_keys=True, ensure_ascii=False) + "\n"
    write_text(path, text, lasting=False)
