"""Grading a class: intake, isolated runs, one writer, a journal; and what it all came to."""

from __future__ import annotations

import json
import tempfile
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, TypeVar

from nbformat.notebooknode import NotebookNode
from sqlalchemy.exc import SQLAlchemyError

from twostroke.grading import feedback, gradebook, skeleton
from twostroke.grading.backup import back_up
from twostroke.grading.confine import Limits
from twostroke.grading.engine import Engine, choose
from twostroke.grading.examination import mark_from_log
from twostroke.grading.files import write_text
from twostroke.grading.intake import Received, receive, store
from twostroke.grading.journal import Journal, only_one
from twostroke.grading.judge import judge
from twostroke.grading.look import Look, blank
from twostroke.grading.normalise import Normalised, Refused, normalise
from twostroke.grading.place import Course, lab_name
from twostroke.grading.rows import LearnerRows, rows_of
from twostroke.grading.settle import Settler, ungraded
from twostroke.grading.skeleton import Skeleton
from twostroke.grading.standing import stand
from twostroke.grading.states import GradingError, Outcome, Reason, State
from twostroke.grading.walls import Walls

T = TypeVar("T")
_BATCH, _WAIT = 8, 0.3
_STANDS = "an earlier file was marked; its marks stay in the gradebook until a person decides"
_NO_TIME = "when it was handed in is not known; not counted as late"
Progress = Callable[[int, int, Outcome], None]


@dataclass
class Summary:
    """What a run came to.

    Parameters
    ----------
    course : Course
    lab : str
    outcomes : list of Outcome
        Every learner, or the one who was asked for, in the order of the identifiers.
    done, skipped : int
        Submissions marked in this run, and those that already were.
    seconds : float
        Wall-clock time.
    walls : Walls
        What stood between submissions and machine.
    backup : Path or None
        Copy of the gradebook from before the run.
    """

    course: Course
    lab: str
    outcomes: list[Outcome]
    done: int
    skipped: int
    seconds: float
    walls: Walls
    backup: Path | None = None

    @property
    def engine_failures(self) -> int:
        """Submissions for which the grader itself failed; the next run tries them again."""
        return sum(outcome.engine_failed for outcome in self.outcomes)


@dataclass
class _Task:
    received: Received
    work: Normalised = field(repr=False)


def grade(
    lab: str | int,
    submissions: str | Path | None = None,
    *,
    course: Course | None = None,
    learner: str | None = None,
    force: bool = False,
    trust: bool = False,
    limits: Limits | None = None,
    workers: int | None = None,
    cluster: str | None = None,
    dry_run: bool = False,
    progress: Progress | None = None,
) -> Summary:
    """Grade a class's submissions to one lab.

    Parameters
    ----------
    lab : str or int
        "01", "lab01" or 1.
    submissions : path, optional
        Folder, zip archive or notebook; without it, what already lies in ``submitted``.
    course : Course, optional
        Where everything lies; without it, this repository and its ``autograde`` folder.
    learner : str, optional
        Grade this one alone.
    force : bool
        Mark again what is already marked. Marks and comments given by hand stay in any case.
    trust : bool
        Run even where the machine cannot wall submissions off.
    limits : Limits, optional
        What one submission may use.
    workers : int, optional
        Warm parents; one a core without it.
    cluster : str, optional
        Address of a dask scheduler whose workers run the submissions.
    dry_run : bool
        Only look: intake and states, nothing run and nothing written.
    progress : callable, optional
        Called with (done, of, outcome) after each submission.

    Returns
    -------
    Summary

    Raises
    ------
    GradingError
        When the run as a whole cannot be done. A bad submission never raises.
    """
    started = time.monotonic()
    course = course or Course.at()
    name = lab_name(lab)
    trusted = skeleton.load(course.source_notebook(name))
    engine = choose(cluster, trust, workers)
    path = Path(submissions).expanduser() if submissions is not None else course.submitted
    if submissions is None and not path.is_dir():
        raise GradingError(
            f"nothing to grade: {path} is not there; name the folder or zip archive of submissions"
        )
    received = [
        each
        for each in receive(path, name, course.classlist)
        if course.classlist.asked(each.learner, learner)
    ]
    if learner is not None and not received:
        raise GradingError(f"learner {learner!r}: nothing of {name} was found in {path}")
    if dry_run:
        look = Look(course, trusted, Journal.of(course, name))
        outcomes = [look.dry(each) for each in received]
        outcomes += look.missing(received) if learner is None else []
        return Summary(
            course, name, sorted(outcomes, key=_by_learner), 0, 0, time.monotonic() - started, engine.walls
        )
    try:
        with only_one(course):
            backup = back_up(course)
            _register(course, trusted)
            gradebook.set_due(course, name)
            with Journal.of(course, name) as journal:
                journal.compact()
                run = _Run(course, trusted, journal, engine, limits or Limits(), progress)
                done, skipped = run.go(received, force)
                journal.add(run.look.missing(received) if learner is None else [])
                outcomes = [
                    each for each in journal.outcomes() if course.classlist.asked(each.learner, learner)
                ]
    except OSError as error:
        raise GradingError(
            f"{course.home}: writing failed ({error.strerror or error}); nothing that was marked is lost. "
            "Mend that, then run the same command again: it goes on where it stopped"
        ) from error
    return Summary(course, name, outcomes, done, skipped, time.monotonic() - started, engine.walls, backup)


def _by_learner(outcome: Outcome) -> str:
    return outcome.learner


def _register(course: Course, trusted: Skeleton) -> None:
    """Enter the lab's cells in the gradebook, once for each version of the lab."""
    if gradebook.is_registered(course, trusted):
        return
    with tempfile.TemporaryDirectory(prefix="grading-release-") as folder:
        gradebook.register(course, trusted.lab, Path(folder))
    gradebook.note_registered(course, trusted)


class _Run:
    """One run over the received files."""

    def __init__(
        self,
        course: Course,
        trusted: Skeleton,
        journal: Journal,
        engine: Engine,
        limits: Limits,
        progress: Progress | None,
    ):
        self.course, self.trusted, self.journal = course, trusted, journal
        self.engine, self.limits, self.progress = engine, limits, progress
        self.look = Look(course, trusted, journal)
        self.done = self.skipped = self.total = 0

    def go(self, received: list[Received], force: bool) -> tuple[int, int]:
        """Grade what is not yet done; return how many were, and how many already had been."""
        todo = [each for each in received if force or not self.look.done(each)]
        self.skipped = len(received) - len(todo)
        self.total = len(todo)
        usable = [each for each in todo if each.usable]
        several = any(self.look.store.learners())
        recorder = gradebook.Recorder(self.course, self.trusted.lab) if usable or several else None
        try:
            for each in todo:
                store(self.course, self.trusted.lab, each)
                if not each.usable:
                    self._finish([blank(each, self.trusted, each.causes)])
            if recorder is not None:
                if usable:
                    with self.engine.open(self.trusted, self.limits, len(usable)) as pool:
                        for batch in _batches(pool.run(self._jobs(usable))):
                            self._record(recorder, batch)
                Settler(recorder, self.trusted).all()
        finally:
            if recorder is not None:
                recorder.close()
        return self.done, self.skipped

    def _jobs(self, usable: list[Received]) -> Iterator[tuple[_Task, dict[str, Any]]]:
        for number, each in enumerate(usable):
            try:
                over = self.look.too_many(each)
                if over is not None:
                    raise Refused(over.reason, over.detail)
                work = normalise(each.data, self.trusted, self.look.others)
            except Refused as refused:
                self._finish([blank(each, self.trusted, [*each.causes, refused.cause])])
                continue
            cells = [
                (i, cell.source) for i, cell in enumerate(work.notebook.cells) if cell.cell_type == "code"
            ]
            known = self.course.classlist.find(each.learner)
            also = sorted({known.id, known.name, *known.also} - {""}) if known else []
            message = {
                "id": number,
                "learner": each.learner,
                "lab": self.trusted.lab,
                "also": also,
                "cells": cells,
            }
            yield _Task(each, work), message

    def _record(self, recorder: gradebook.Recorder, batch: list[tuple[_Task, dict[str, Any]]]) -> None:
        """Enter a few submissions in the gradebook together; where that fails, each by itself."""
        for task, result in batch:
            mark_from_log(self.course, self.trusted.lab, task.received.learner, result)
        judged = [(task, *judge(self.trusted, task.received, task.work, result)) for task, result in batch]
        for _, outcome, _ in judged:
            if outcome.handed_in is None and self.trusted.lab in self.course.classlist.due:
                outcome.notes.append(_NO_TIME)
            if outcome.marked:
                self._make_room(recorder, outcome)
        try:
            rows = self._enter(recorder, judged)
        except SQLAlchemyError:
            rows = {}
            for each in judged:
                rows |= self._enter_alone(recorder, each)
        for _, outcome, notebook in judged:
            if outcome.marked:
                self._write_notebook(outcome, notebook)
        self._finish([outcome for _, outcome, _ in judged], rows)

    def _make_room(self, recorder: gradebook.Recorder, outcome: Outcome) -> None:
        """Keep an earlier hand-in of the same learner before this one takes its place."""
        before = self.journal.get(outcome.learner)
        if before is not None:
            known = rows_of(recorder.book.db, self.trusted.lab, outcome.learner)
            self.look.store.before_another(before, outcome.digest, known.get(outcome.learner))

    def _enter(
        self, recorder: gradebook.Recorder, judged: list[tuple[_Task, Outcome, NotebookNode]]
    ) -> dict[str, LearnerRows]:
        found: dict[str, LearnerRows] = {}
        with recorder.together():
            for _, outcome, notebook in judged:
                if outcome.marked:
                    found[outcome.learner] = recorder.record(
                        notebook, outcome.learner, *ungraded(outcome), outcome.handed_in
                    )
        return found

    def _enter_alone(
        self, recorder: gradebook.Recorder, judged: tuple[_Task, Outcome, NotebookNode]
    ) -> dict[str, LearnerRows]:
        try:
            return self._enter(recorder, [judged])
        except SQLAlchemyError as error:
            outcome = judged[1]
            outcome.tasks = []
            outcome.state = State.NOT_GRADED
            said = str(error).splitlines()[0][:200]
            outcome.add(Reason.ENGINE, f"the gradebook did not take it ({said}); run the command again")
            return {}

    def _write_notebook(self, outcome: Outcome, notebook: NotebookNode) -> None:
        text = json.dumps(notebook, sort_keys=True, ensure_ascii=False) + "\n"
        write_text(self.course.marked_notebook(outcome.learner, outcome.lab), text, lasting=False)

    def _finish(self, outcomes: list[Outcome], rows: dict[str, LearnerRows] | None = None) -> None:
        """Write the pages and then, last of all, the journal's lines."""
        for outcome in outcomes:
            before = self.journal.get(outcome.learner)
            if before is not None and before.marked and not outcome.marked:
                outcome.notes.append(_STANDS)
                self.look.store.keep_first(before)
            self.look.store.after(outcome)
            feedback.write(self.course, stand(outcome, (rows or {}).get(outcome.learner)), self.trusted)
        self.journal.add(outcomes)
        for outcome in outcomes:
            self.done += 1
            if self.progress is not None:
                self.progress(self.done, self.total, outcome)


def _batches(results: Iterator[T]) -> Iterator[list[T]]:
    """Gather results for a moment, so that the disk is waited for once for several."""
    batch: list[T] = []
    began = time.monotonic()
    for result in results:
        if not batch:
            began = time.monotonic()
        batch.append(result)
        if len(batch) >= _BATCH or time.monotonic() - began > _WAIT:
            yield batch
            batch = []
    if batch:
        yield batch
