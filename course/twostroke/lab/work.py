"""The work session of a learner: see, answer, check the form, compare, hand in."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial, wraps
from typing import Any, TypeVar

from twostroke.errors import TwoStrokeError
from twostroke.lab import own_function, plain_errors
from twostroke.lab.catalogue import load, variant
from twostroke.lab.data import NotData, as_data
from twostroke.lab.draw import LabError, Variant, attempt_number, fold
from twostroke.lab.feedback import EMPTY, FORM, PERSON, RIGHT, TaskMark
from twostroke.lab.marking import mark_task
from twostroke.lab.page import Lines, Page, Text, note
from twostroke.lab.score import points
from twostroke.lab.surroundings import PLACEHOLDER, Tries, in_grading, record, record_only, trusted_learner
from twostroke.lab.task import Lab, Task, Values
from twostroke.lab.written import Written

T = TypeVar("T")
_NO_NAME = note(
    "First write your name or number",
    f'In the cell at the top, replace "{PLACEHOLDER}" by your own, run that cell, then this one again.',
    tone="look",
)


def _shielded(method: Callable[..., Page]) -> Callable[..., Page]:
    """Turn every error into words: what the learner can mend, or that the fault is ours."""

    @wraps(method)
    def safe(self: Work, *args: Any, **names: Any) -> Page:
        try:
            return method(self, *args, **names)
        except (TwoStrokeError, NotData) as error:
            return note("Look here", str(error), tone="look")
        except Exception as error:
            said = (
                f"This is a fault of the course ({type(error).__name__}), not yours. What you wrote is kept."
            )
            return note(
                "The course stumbled",
                said,
                "Tell your instructor, and go on with the next task.",
                tone="look",
            )

    return safe


_HAND_IN = (
    "When you are content, save with Ctrl and S. What you hand in is the file labs/lab{lab}/lab{lab}.ipynb "
    "of your workspace: give it to your instructor as agreed. If you learn alone, you hand in nothing."
)


class Work:
    """One learner's work on one lab.

    Made by `open_lab`. Every method returns something to read and none of them raises; `mark` returns points.

    Attributes
    ----------
    lab : Lab
    learner : str or None
        As typed, or the trusted identifier where nothing was typed; None until a name is known.
    trusted : str or None
        The identifier that the grader vouches for.
    """

    def __init__(self, lab: Lab, typed: str, attempt: int):
        self.lab, self.attempt = lab, attempt
        self.trusted = trusted_learner()
        self.learner = typed if _named(typed) else self.trusted
        self._given: Variant | None = variant(lab.id, self.learner, attempt) if self.learner else None
        self._answers: dict[str, Any] = {}
        self._refused: dict[str, str] = {}
        self._tries = Tries(lab.id, self._given.learner, attempt) if self._given is not None else None

    def __repr__(self) -> str:
        return repr(self._opening())

    def _repr_html_(self) -> str:
        return self._opening()._repr_html_()

    def _opening(self) -> Page:
        if self._given is None:
            return _NO_NAME
        said = f"{len(self.lab.tasks)} tasks, {self.lab.points:g} points, about {self.lab.minutes} minutes."
        return note(f"Lab {self.lab.id}: {self.lab.title}", f"Opened for {self.learner}. {said}", tone="good")

    @_shielded
    def show(self, task: str | None = None) -> Page:
        """Show the machine of this lab, or what one task gives and asks."""
        if self._given is None:
            return _NO_NAME
        if task is None:
            return self.lab.show(self._given)
        found = self.lab.task(task)
        page = found.show(self._given)
        asked = Lines(tuple((f"{item.label}:", item.ask(self._given)) for item in found.items))
        return Page(page.title or found.title, (*page.blocks, Text("What to write:"), asked), page.tone)

    @_shielded
    def answer(self, task: str, answer: Any = None, **blanks: Any) -> Page:
        """Record the answer to a task and say whether its form is right.

        Parameters
        ----------
        task : str
            Task id.
        answer : str, list or dict, optional
            The answer; for a task with several blanks, each blank by its own name instead.
        **blanks : str
            Answer to each blank.
        """
        found = self.lab.task(task)
        unknown = sorted(set(blanks) - {item.id for item in found.items})
        if unknown:
            names = ", ".join(item.id for item in found.items)
            raise LabError(f"{unknown[0]!r} is no blank of this task; its blanks are: {names}")
        self._answers.pop(task, None)
        self._refused.pop(task, None)
        try:
            self._answers[task] = as_data(dict(blanks) if blanks else answer)
        except NotData as reason:
            self._refused[task] = str(reason)
            raise
        finally:
            self._record("answer", task)
        return self.check(task)

    def _record(self, event: str, task: str | None = None) -> None:
        """Write an event for the second marking."""
        entry: dict[str, Any] = {"event": event, "lab": self.lab.id, "learner": self.learner}
        entry |= {"trusted": self.trusted, "attempt": self.attempt}
        if task is not None:
            entry |= {"task": task, "answer": self._answers.get(task)}
        record(entry)

    @_shielded
    def check(self, task: str | None = None) -> Page:
        """Check the form of one task, or of all: unit, kind, range. It costs nothing."""
        if self._given is None:
            return _NO_NAME
        if task is None:
            rows = tuple((f"{each.title}:", self._form_state(each)) for each in self.lab.tasks)
            return Page("Form of your answers", (Lines(rows), Text(_HAND_IN.format(lab=self.lab.id))))
        found = self.lab.task(task)
        if task in self._refused:
            return note("Look here", self._refused[task], tone="look")
        forms = found.forms(self._answers.get(task), self._given)
        if all(form.empty for form in forms.values()):
            return note(found.title, "Nothing is written here yet.")
        rows = tuple((f"{item.label}:", forms[item.id].message) for item in found.items)
        if not all(form.ok for form in forms.values()):
            return Page("Form: something to mend (it costs nothing)", (Lines(rows),), "look")
        if self.lab.practice and all(isinstance(item, Written) for item in found.items):
            return Page("Form: right", (Lines(rows),), "good")
        last = (
            f'Compare it with your own engine whenever you like: work.compare("{task}")'
            if self.lab.practice
            else "The form is right. The value is checked when you hand it in."
        )
        return Page("Form: right", (Lines(rows), Text(last)), "good")

    def _form_state(self, task: Task) -> str:
        assert self._given is not None
        forms = list(task.forms(self._answers.get(task.id), self._given).values())
        if task.id in self._refused:
            return "something to mend"
        if all(form.empty for form in forms):
            return "nothing written yet"
        if all(form.ok for form in forms):
            return "form right"
        return "unfinished" if any(form.empty for form in forms) else "something to mend"

    @_shielded
    def compare(self, task: str) -> Page:
        """Compare an answer with this learner's own engine (practice labs); tries are counted and kept."""
        if self._given is None or self._tries is None:
            return _NO_NAME
        found = self.lab.task(task)
        if not self.lab.practice:
            return note(found.title, "The form is checked here. The value is checked when you hand it in.")
        if in_grading():
            return note(found.title, "Compared at the learner's desk only.")
        mark = self._marked(found, self._given)
        if mark.state in (EMPTY, FORM):
            return note(found.title, mark.message, "Not counted as a try.", tone="look")
        count = self._tries.add(task, self._answers.get(task), mark.state, mark.slip)
        return _result(found, mark, f"Try {count}.")

    @_shielded
    def try_function(self, name: str, function: Any = None) -> Page:
        """Show an optional task of this lab, or try a function of the learner's own; no points.

        Parameters
        ----------
        name : str
            Id of the optional task.
        function : callable, optional
            The learner's function; left out, what is asked is shown.
        """
        if self._given is None:
            return _NO_NAME
        found = next((each for each in self.lab.optional if each.id == name), None)
        if found is None:
            names = ", ".join(each.id for each in self.lab.optional) or "none in this lab"
            raise LabError(f"optional task {str(name)[:40]!r} is not there; there are: {names}")
        if function is None:
            return note(found.title, found.asked)
        if in_grading():
            return note(found.title, "Tried at the learner's desk only.")
        return own_function.try_function(found, function, self._given)

    def _marked(self, task: Task, given: Variant) -> TaskMark:
        values = Values(self.lab, given, self._answers)
        return mark_task(task, given, self._answers, values, self._refused.get(task.id))

    def bench(self, task: str, ticket: str = "") -> Any:
        """Return the machine of a task on the virtual bench, as it came in.

        Parameters
        ----------
        task : str
            Id of a task that is a route on the bench.
        ticket : str, optional
            For the examination: the line that the instructor gave out.

        Returns
        -------
        Desk or ExamDesk
            With ``do(action)``, ``hand_back(fault, confidence)`` and ``route``, which `answer` takes; with
            ``hint()`` where the lab has hints. In the examination with ``receipt`` in place of ``route``.

        Raises
        ------
        LabError
            When the task is no job on the bench.
        """
        from twostroke.lab.desk import Desk
        from twostroke.lab.exam.desk import ExamDesk
        from twostroke.lab.route import BenchRoute

        found = self.lab.task(task)
        if found.by_service:
            return ExamDesk(ticket, self.learner, self.attempt, deaf=in_grading())
        for item in found.items:
            if isinstance(item, BenchRoute) and item.opened is not None:
                if self._given is None or self._tries is None:
                    return Desk(None)
                desk = item.opened(self._given)
                desk.count = None if in_grading() else partial(self._tries.add_hint, task)
                return desk
        raise LabError(f"task {task!r} is no job on the bench")

    def mark(self, task: str) -> float:
        """Return the points for a task; the one call in the hidden part of a check cell."""
        try:
            found = self.lab.task(task)
            self._record("mark", task)
            if record_only():
                return 0.0
            if self._given is None:
                print("No name was written at the top, so there is no engine to mark against.")
                return 0.0
            mark = self._marked(found, self._given)
            print(
                f"{found.title}: {mark.points:g} of {mark.max_points:g} points ({mark.state})\n{mark.message}"
            )
            return points(mark.points, found.points)
        except TwoStrokeError as error:
            print(error)
            return 0.0

    def answers(self) -> dict[str, Any]:
        """Return the recorded answers by task, as plain data."""
        return dict(self._answers)

    @_shielded
    def tries(self) -> Page:
        """Show how many tries each task has had."""
        if self._tries is None:
            return _NO_NAME
        rows = []
        for task in self.lab.tasks:
            kept, hints = self._tries.of(task.id), self._tries.of(f"{task.id} hints")
            said = f"{len(kept)} tries, the last one {kept[-1]['state']}" if kept else "none yet"
            rows.append((f"{task.title}:", f"{said}; hints taken: {len(hints)}" if hints else said))
        return Page("Your tries", (Lines(tuple(rows)),))


def _named(typed: str) -> bool:
    """Say whether a name was typed that can be used."""
    try:
        return fold(typed) != fold(PLACEHOLDER)
    except LabError:
        return False


def _result(task: Task, mark: TaskMark, last: str) -> Page:
    """Show a mark: points, then the feedback of each step."""
    tone = "good" if mark.state in (RIGHT, PERSON) else "look"
    title = f"{task.title}: {mark.points:g} of {mark.max_points:g} points ({mark.state})"
    if mark.state == PERSON:
        so_far = f"{mark.points:g} so far, " if mark.points else ""
        title = f"{task.title}: {so_far}up to {mark.max_points:g} points once a person has read it"
    blocks: list[Any] = []
    for item in task.items:
        judged = dict(mark.items).get(item.id)
        if judged is None:
            continue
        told = judged.feedback
        if not told.suggests:
            blocks.append(Lines(((f"{item.label}:", told.seen),)))
            continue
        parts = (("Seen:", told.seen), ("It suggests:", told.suggests), ("Check:", told.check))
        blocks += [Lines(((f"{item.label}:", ""),)), Lines(parts, level=1)]
    return Page(title, (*(blocks or [Text(mark.message)]), Text(last)), tone)


def open_lab(lab: str | int, learner: str | int = PLACEHOLDER, attempt: int = 1) -> Work:
    """Open a lab for one learner.

    Parameters
    ----------
    lab : str or int
        "01", "lab01" or 1.
    learner : str or int
        Name or number; it picks the engine. In grading the grader's own identifier is kept beside it.
    attempt : int, optional
        Another attempt draws another variant; what is no number of an attempt is said, and counts as the
        first.

    Returns
    -------
    Work
        The session; an unusable name or lab is told in words when it is shown.

    Examples
    --------
    >>> work = open_lab("01", learner="learner07")
    >>> work
    Lab 01: Shop units
    Opened for learner07. 8 tasks, 24 points, about 40 minutes.
    """
    if not in_grading():
        plain_errors.install()
    found = load(lab)
    typed = str(learner) if type(learner) in (str, int) else PLACEHOLDER
    try:
        number = attempt_number(attempt)
    except LabError as error:
        print(f"{error}; opened as attempt 1")
        number = 1
    work = Work(found, typed, number)
    work._record("open")
    return work
