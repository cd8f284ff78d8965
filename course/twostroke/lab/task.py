"""A task with its steps, a lab with its tasks, and the values on which later steps rest."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Protocol

from twostroke.lab.draw import Draw, LabError, Variant
from twostroke.lab.feedback import (
    EMPTY,
    FORM,
    OTHER,
    PART,
    PERSON,
    RIGHT,
    Feedback,
    Form,
    Judged,
    TaskMark,
)
from twostroke.lab.own_function import OwnFunction
from twostroke.lab.page import Page
from twostroke.lab.score import points

KINDS = ("value", "formula", "choice", "table", "order", "route", "written")
"""Value with its unit, formula with a blank, choice with reasons, table or trace read, order of work, route
on the bench, written answer for a person."""

COMPETENCIES = (
    "safety",
    "taking a complaint",
    "units and measuring",
    "spark testing",
    "plug and lead",
    "stop circuit and ground",
    "module and windings",
    "air gap",
    "magnets, key and timing",
    "compression and sealing",
    "fuel, air and exhaust",
    "isolation logic",
    "intermittent faults",
    "repair and verify",
    "passing on",
    "job card and estimate",
)
"""The competencies of the training record."""


class Item(Protocol):
    """One step of a task: how its answer is written, read, marked, and what the model answer is."""

    @property
    def id(self) -> str: ...
    @property
    def label(self) -> str: ...
    @property
    def share(self) -> float: ...
    @property
    def needs(self) -> str | None: ...

    def ask(self, variant: Variant) -> str:
        """How the answer is written and how close it must be."""
        ...

    def form(self, answer: Any, variant: Variant) -> Form:
        """Form check of plain data; gives nothing of the value away."""
        ...

    def truth(self, variant: Variant, values: Values) -> Any:
        """The right value, on which later steps may rest."""
        ...

    def judge(self, form: Form, variant: Variant, values: Values) -> Judged:
        """Mark what the form check has read."""
        ...

    def model(self, variant: Variant, values: Values) -> Any:
        """The model answer as a learner would write it."""
        ...


@dataclass(frozen=True)
class Task:
    """One graded task.

    Parameters
    ----------
    id : str
        Name in calls and grade ids.
    title, outcome : str
        What it is called; "after this you can …".
    kind : str
        One of `KINDS`.
    points : float
        Points of all steps together.
    competency : str
        One of `COMPETENCIES`.
    items : tuple of Item
        Steps; their shares say how the points are divided.
    show : callable
        Variant -> Page with what the learner is given.
    safety : bool
        Whether it is a safety task.
    """

    id: str
    title: str
    outcome: str
    kind: str
    points: float
    competency: str
    items: tuple[Item, ...]
    show: Callable[[Variant], Page]
    safety: bool = False

    @property
    def by_service(self) -> bool:
        """Whether a step of it is marked from the log of the examination's service."""
        return any(getattr(item, "by_service", False) for item in self.items)

    def worth(self, item: Item) -> float:
        """Return the points of one step."""
        return self.points * item.share / sum(each.share for each in self.items)

    def split(self, answer: Any) -> dict[str, Any]:
        """Return the answer to each step by its id; a single step may be answered without its name.

        Examples
        --------
        A task of one step takes ``"0.25 mm"`` as well as ``{"gap": "0.25 mm"}``.
        """
        if isinstance(answer, Mapping):
            return {item.id: answer.get(item.id) for item in self.items}
        if len(self.items) == 1:
            return {self.items[0].id: answer}
        if isinstance(answer, list) and len(answer) == len(self.items):
            return {item.id: each for item, each in zip(self.items, answer, strict=True)}
        return {item.id: None for item in self.items}

    def forms(self, answer: Any, variant: Variant) -> dict[str, Form]:
        """Return the form check of each step."""
        parts = self.split(answer)
        return {item.id: _form(item, parts[item.id], variant) for item in self.items}

    def mark(self, answer: Any, variant: Variant, values: Values) -> TaskMark:
        """Mark the answer; later steps rest on the learner's own earlier values."""
        forms = self.forms(answer, variant)
        judged: dict[str, Judged] = {}
        for item in self.items:
            form = forms[item.id]
            result = _EMPTY if form.empty else item.judge(form, variant, values)
            if item.needs and not judged[item.needs].fraction:
                result = Judged(
                    0.0, result.state if result.state in (EMPTY, FORM) else OTHER, _AFTER, result.slip
                )
            judged[item.id] = result
        earned = sum(self.worth(item) * float(judged[item.id].fraction) for item in self.items)
        return TaskMark(
            task=self.id,
            points=points(earned, self.points),
            max_points=float(self.points),
            state=_state([judged[item.id] for item in self.items]),
            message=self._message(judged),
            slip=next((each.slip for each in judged.values() if each.slip), None),
            competency=self.competency,
            items=tuple(judged.items()),
        )

    def _message(self, judged: dict[str, Judged]) -> str:
        if len(self.items) == 1:
            return judged[self.items[0].id].feedback.text
        states = {each.state for each in judged.values()}
        if states in ({RIGHT}, {EMPTY}):
            return judged[self.items[0].id].feedback.text
        return "\n".join(
            f"{item.label}: {judged[item.id].feedback.text}"
            for item in self.items
            if judged[item.id].state != RIGHT
        )


_EMPTY = Judged(0.0, EMPTY, Feedback("Nothing is written here yet."))
_AFTER = Feedback("This step counts only with the step before it; mend that one first.")


def _form(item: Item, answer: Any, variant: Variant) -> Form:
    empty = answer is None or answer == "" or answer == [] or answer == {}
    if empty and not getattr(item, "by_service", False):
        return Form(False, "Nothing is written here yet.", empty=True)
    return item.form(answer, variant)


def _state(judged: list[Judged]) -> str:
    states = [each.state for each in judged]
    if PERSON in states:
        return PERSON
    if all(state == RIGHT for state in states):
        return RIGHT
    if any(each.fraction > 0 for each in judged):
        return PART if len(judged) > 1 else states[0]
    return next((state for state in states if state not in (RIGHT, EMPTY)), EMPTY)


@dataclass(frozen=True)
class Lab:
    """One lab.

    Parameters
    ----------
    id : str
        Two-digit number.
    title, question : str
        What it is called; the one question that its lesson answers.
    minutes : int
        Usual time.
    aim, usual_errors : str
        For the instructor.
    rubric : str
        For the instructor: how it is marked, and what a person marks.
    renewal : str
        For the instructor: how to make a new variant, and where a new task or slip is written.
    optional : tuple of OwnFunction
        Functions that who programs may write; no points.
    tasks : tuple of Task
        In the order of the notebook.
    draw : callable
        Draw -> dictionary of what this learner is given.
    show : callable
        Variant -> Page that opens the lab.
    touches_machine : bool
        Whether a safety task is due.
    practice : bool
        False in the examination: only the form is checked before it is handed in.
    """

    id: str
    title: str
    question: str
    minutes: int
    aim: str
    usual_errors: str
    tasks: tuple[Task, ...]
    draw: Callable[[Draw], dict[str, Any]]
    show: Callable[[Variant], Page]
    touches_machine: bool = True
    practice: bool = True
    rubric: str = ""
    renewal: str = ""
    optional: tuple[OwnFunction, ...] = ()

    @property
    def points(self) -> float:
        """Points of all tasks."""
        return sum(task.points for task in self.tasks)

    def task(self, name: str) -> Task:
        """Return the task with this id.

        Raises
        ------
        LabError
            When there is none.
        """
        for task in self.tasks:
            if task.id == name:
                return task
        names = ", ".join(task.id for task in self.tasks)
        raise LabError(f"task {str(name)[:40]!r} is not in lab {self.id}; its tasks are: {names}")

    def items(self) -> Iterator[tuple[Task, Item]]:
        """Go through every step of every task."""
        return ((task, item) for task in self.tasks for item in task.items)


class Values(Mapping[str, Any]):
    """The value of each step by "task.item": the learner's own where it can be read, else the right one.

    Parameters
    ----------
    lab : Lab
    variant : Variant
    answers : dict, optional
        Task id -> answer as plain data. Without it every value is the right one.

    Notes
    -----
    A later step that asks here is marked on the learner's own earlier value, so that one mistake costs once.
    """

    def __init__(self, lab: Lab, variant: Variant, answers: Mapping[str, Any] | None = None):
        self._lab, self._variant, self._answers = lab, variant, answers or {}
        self._items = {f"{task.id}.{item.id}": (task, item) for task, item in lab.items()}
        self._known: dict[str, Any] = {}
        self.right: Values = Values(lab, variant) if answers else self

    def __getitem__(self, key: str) -> Any:
        if key not in self._known:
            task, item = self._items[key]
            form = None
            if task.id in self._answers:
                form = _form(item, task.split(self._answers[task.id])[item.id], self._variant)
            own = form is not None and form.ok and form.value is not None
            self._known[key] = form.value if own and form else item.truth(self._variant, self.right)
        return self._known[key]

    def __iter__(self) -> Iterator[str]:
        return iter(self._items)

    def __len__(self) -> int:
        return len(self._items)
