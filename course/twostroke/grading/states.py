"""What is known of one submission: its state with reasons, its marks, and what was done to it."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime
from enum import StrEnum
from typing import Any

from pydantic import BaseModel, ConfigDict, Field

from twostroke.errors import TwoStrokeError
from twostroke.grading.routes import RoutePair


class GradingError(TwoStrokeError):
    """Grading cannot go on as asked; the text says what was found and what to do."""


class State(StrEnum):
    """The three states of a submission; nothing else exists, and none of them is a silent zero."""

    GRADED = "graded"
    PERSON = "needs a person"
    NOT_GRADED = "not graded"


class Reason(StrEnum):
    """Why a submission is not graded, or why a person must look at it."""

    MISSING = "nothing handed in"
    EMPTY = "empty file"
    CORRUPT = "corrupt file"
    TOO_LARGE = "file too large"
    UNSAFE = "unsafe archive or link"
    TOO_MANY = "handed in more often than is marked"
    WRONG_LAB = "another lab's notebook"
    LOST_METADATA = "lost metadata"
    CRASHED = "crashed"
    OUT_OF_TIME = "ran out of time"
    ENGINE = "the grader itself failed"
    UNKNOWN_LEARNER = "learner not on the class list"
    OTHER_LEARNER = "another learner's name inside"
    AMBIGUOUS = "cells could not be told apart"
    DIFFERENCE = "the two markings differ"
    TAMPERED = "the grader's channels were tampered with"
    WRITTEN = "a written answer to mark"
    CONFIRM = "a mark by hand to confirm"
    OUT_OF_RANGE = "a check gave points outside its range"


class Cause(BaseModel):
    """One reason with what was seen, in words for the instructor.

    Parameters
    ----------
    reason : Reason
        The kind.
    detail : str
        What was seen, what it suggests, what to check.
    """

    model_config = ConfigDict(frozen=True)
    reason: Reason
    detail: str = ""

    @property
    def text(self) -> str:
        """Reason and detail in one line."""
        return f"{self.reason.value}: {self.detail}" if self.detail else self.reason.value


def only_written(causes: Iterable[Cause]) -> bool:
    """Say whether all that is open is a written answer to be marked, which is as it should be."""
    return {cause.reason for cause in causes} == {Reason.WRITTEN}


class Step(BaseModel):
    """What the marking said of one step of a task.

    Parameters
    ----------
    item, label : str
        Id and name of the step; empty where it speaks of the whole task.
    state : str
        As the lab's marking gave it.
    seen, suggests, check : str
        What is seen in the answer, what that suggests, what to check; never the expected value.
    """

    model_config = ConfigDict(frozen=True)
    item: str = ""
    label: str = ""
    state: str = ""
    seen: str
    suggests: str = ""
    check: str = ""


class TaskResult(BaseModel):
    """The mark of one check cell.

    Parameters
    ----------
    grade_id : str
        Cell in the gradebook.
    task : str
        Task of the lab; the grade id where the cell is not one of ours.
    points, max_points : float or None
        Points by the marking that counts; None while a person has to mark it.
    state, competency : str
        As the lab's marking gave them.
    steps : tuple of Step
        What the learner is told, step by step.
    slips : tuple of str
        Every slip that was recognised in its steps.
    claimed : float or None
        Points that the learner's own process showed, where it showed any.
    marked : str
        "twice" (recorded answer marked outside the learner's process), "once" (a check cell of another form,
        which
        counts as nbgrader counts it), "by hand", or "not at all" where the run never came there.
    """

    grade_id: str
    task: str
    points: float | None
    max_points: float
    state: str = ""
    steps: tuple[Step, ...] = ()
    slips: tuple[str, ...] = ()
    competency: str = ""
    claimed: float | None = None
    marked: str = "once"

    @property
    def waits(self) -> bool:
        """Whether a person has to give the points."""
        return self.marked == "by hand" and self.points is None


class Outcome(BaseModel):
    """Everything kept of one learner's submission to one lab.

    Parameters
    ----------
    learner, lab : str
        Trusted identifier from place and class list, and lab such as "lab01".
    state : State
        See `State`.
    causes : list of Cause
        Why it is not simply graded.
    notes : list of str
        Decisions that cost nothing, such as a copied cell that was set aside.
    tasks : list of TaskResult
        Marks, in the order of the notebook.
    digest, release : str
        Fingerprints of the file handed in and of the lab it was marked against.
    received : str
        Name under which it came.
    typed : str or None
        The name typed inside, where one was.
    answers : dict
        Recorded answers by task.
    worked_as : str
        The name whose variant was worked on; empty for the identifier.
    variant : int
        Which variant of that name was drawn.
    handed_in : datetime or None
        When, where it is known.
    routes : dict of str to RoutePair
        Jobs on the bench, by task: the learner's route beside the best one.
    """

    learner: str
    lab: str
    state: State = State.NOT_GRADED
    causes: list[Cause] = Field(default_factory=list)
    notes: list[str] = Field(default_factory=list)
    tasks: list[TaskResult] = Field(default_factory=list)
    digest: str = ""
    release: str = ""
    received: str = ""
    typed: str | None = None
    answers: dict[str, Any] = Field(default_factory=dict)
    worked_as: str = ""
    variant: int = 1
    handed_in: datetime | None = None
    routes: dict[str, RoutePair] = Field(default_factory=dict)

    @property
    def marked(self) -> bool:
        """Whether any task of it was marked."""
        return any(task.marked != "not at all" for task in self.tasks)

    @property
    def points(self) -> float | None:
        """Sum of the points so far; None, never zero, while nothing is marked."""
        known = [task.points for task in self.tasks if task.points is not None]
        return round(sum(known), 4) if known else None

    @property
    def max_points(self) -> float:
        """Points that the lab is worth."""
        return sum(task.max_points for task in self.tasks)

    @property
    def final_points(self) -> float | None:
        """Points to export: only where the state is "graded"."""
        return self.points if self.state is State.GRADED else None

    @property
    def why(self) -> str:
        """All reasons in one line."""
        return "; ".join(cause.text for cause in self.causes)

    @property
    def engine_failed(self) -> bool:
        """Whether the grader itself failed, so that the next run must try again."""
        return any(cause.reason is Reason.ENGINE for cause in self.causes)

    def add(self, reason: Reason, detail: str = "") -> None:
        """Note a reason; a graded submission then needs a person, one that is not graded stays so."""
        cause = Cause(reason=reason, detail=detail)
        if cause not in self.causes:
            self.causes.append(cause)
        if self.state is State.GRADED:
            self.state = State.PERSON
