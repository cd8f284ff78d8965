"""Feedback to one learner: their own answer, what is seen in it, what that suggests, what to check.

Never a right value that is not their own.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined

from twostroke.grading.about import is_practice, lab_title, task_title
from twostroke.grading.attempts import Line
from twostroke.grading.files import write_text
from twostroke.grading.place import Course
from twostroke.grading.routes import RouteLeg, RoutePair, drawing
from twostroke.grading.skeleton import Skeleton
from twostroke.grading.standing import Standing
from twostroke.grading.states import Outcome, Reason, State, Step, TaskResult
from twostroke.grading.wrote import Wrote, by_step, in_cell, legible
from twostroke.lab.feedback import RIGHT

_FOR_LEARNER = {
    Reason.EMPTY: "The file that arrived holds nothing. Save the notebook, look that it opens, and hand "
    "it in again.",
    Reason.CORRUPT: "The file that arrived is damaged or is no notebook. Hand in the .ipynb file itself "
    "again.",
    Reason.TOO_LARGE: "The file that arrived is too large. Clear the outputs of all cells, save, and hand "
    "it in again.",
    Reason.UNSAFE: "What arrived was not an ordinary file. Hand in the .ipynb file itself.",
    Reason.WRONG_LAB: "The notebook of another lab arrived. Hand in the one for this lab.",
    Reason.LOST_METADATA: "The cells of the notebook could not be recognised. Work in the notebook that "
    "was handed out; "
    "copy your answers into it and hand that in.",
    Reason.CRASHED: "While it ran from top to bottom, the notebook stopped. Restart, run all cells, and "
    "mend the one "
    "that stops.",
    Reason.OUT_OF_TIME: "While it ran from top to bottom, one cell did not come to an end. Look for a "
    "loop that never "
    "stops.",
    Reason.ENGINE: "The marking itself failed; that is not your fault. It will be done again.",
    Reason.MISSING: "Nothing has arrived from you for this lab.",
    Reason.WRITTEN: "A written answer is read by your instructor; its points come later.",
}
MARKED = "marked by a person"
_ONE_POINT = "Your instructor will look at one point before the result stands."


@dataclass(frozen=True)
class RouteView:
    """The learner's route beside the best one: a drawing, and the steps in words."""

    drawing: str
    mine: tuple[tuple[str, str, str], ...]
    best: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class StepView:
    """One step as the learner sees it: own answer, and what was said of it."""

    label: str
    wrote: Wrote | None
    right: bool
    parts: tuple[tuple[str, str], ...]

    @property
    def bare(self) -> bool:
        """Whether it is one plain sentence."""
        return len(self.parts) == 1 and not self.parts[0][0]

    @property
    def brief(self) -> bool:
        """Whether answer and verdict go into one line: right, and one line was written."""
        wrote = self.wrote
        return self.right and self.bare and wrote is not None and len(wrote.lines) == 1 and not wrote.note


@dataclass(frozen=True)
class TaskView:
    """One task as the learner sees it."""

    title: str
    points: str
    of: str
    state: str
    tone: str
    steps: tuple[StepView, ...]
    comment: str
    route: RouteView | None


def write(course: Course, standing: Standing, trusted: Skeleton) -> None:
    """Write the page of one submission under ``feedback/LEARNER/LAB``; an older print of it goes."""
    place = path(course, standing.outcome)
    place.with_suffix(".pdf").unlink(missing_ok=True)
    write_text(place, page(course, standing, trusted), lasting=False)


def path(course: Course, outcome: Outcome) -> Path:
    """Where the page of one submission lies."""
    return course.feedback / outcome.learner / outcome.lab / f"{outcome.lab}.html"


def page(course: Course, standing: Standing, trusted: Skeleton) -> str:
    """Return the page as HTML.

    Parameters
    ----------
    course : Course
    standing : Standing
        With the points and comments of the gradebook.
    trusted : Skeleton
        For the points that the lab is worth.

    Returns
    -------
    str
        One file without anything from a network; prints, and reads on a telephone.
    """
    return environment().get_template("feedback.html").render(**content_of(course, standing, trusted))


def content_of(course: Course, standing: Standing, trusted: Skeleton) -> dict[str, Any]:
    """Return what the page says, for the web page and for the printed one alike."""
    outcome = standing.outcome
    comments = {name: standing.comments.get(trusted.comment_cell(name) or "", "") for name in trusted.by_id()}
    return {
        "lab": lab_title(outcome.lab),
        "learner": ", ".join(filter(None, (outcome.learner, course.classlist.name_of(outcome.learner)))),
        "course": course.classlist.course,
        "graded": standing.state is State.GRADED,
        "reached": None if standing.points is None else _number(standing.points),
        "possible": _number(trusted.max_points),
        "aside": bool(standing.hand_ins) and not standing.hand_ins[-1].counts,
        "words": _words(standing),
        "hand_ins": [_hand_in(line, trusted.max_points) for line in standing.hand_ins],
        "tasks": [
            _view(outcome, task, comments.get(task.grade_id, ""), in_cell(course, standing, trusted, task))
            for task in standing.tasks
        ],
        "next": _next(standing),
        "practice": is_practice(outcome.lab),
    }


def _hand_in(line: Line, possible: float) -> str:
    """One of several hand-ins in words."""
    points = (
        "not all marked yet"
        if line.points is None
        else f"{_number(line.points)} of {_number(possible)} points"
    )
    return f"Hand-in {line.number}: {points}{', counts' if line.counts else ''}"


@cache
def environment() -> Environment:
    """The templates of this package."""
    return Environment(
        loader=PackageLoader("twostroke.grading"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )


def _number(value: float) -> str:
    return f"{value:.10g}" if abs(value - round(value)) < 1e-9 else f"{value:.2f}".rstrip("0")


def _view(outcome: Outcome, task: TaskResult, comment: str, cell: Wrote | None) -> TaskView:
    if task.points is None:
        tone, points = "wait", "–"
    else:
        tone = "good" if task.points >= task.max_points else "look" if task.points else "mend"
        points = _number(task.points)
    pair = outcome.routes.get(task.task)
    return TaskView(
        task_title(outcome.lab, task.task),
        points,
        _number(task.max_points),
        _state(task),
        tone,
        _steps(outcome, task, cell),
        comment,
        None if pair is None else _route(pair),
    )


def _steps(outcome: Outcome, task: TaskResult, cell: Wrote | None) -> tuple[StepView, ...]:
    """Each step with its answer; one line for all where nothing at all was written."""
    wrote = {"": cell} if cell is not None else dict(by_step(outcome, task.task))
    said = task.steps
    if not wrote and len({(step.seen, step.suggests, step.check) for step in said}) == 1:
        return (StepView("", None, False, _parts(task, said[0])),)
    several = len(said) > 1
    shown = [
        StepView(
            step.label if several else "",
            wrote.pop(step.item, None),
            step.state == RIGHT,
            _parts(task, step),
        )
        for step in said
    ]
    return (*(StepView("", each, False, ()) for each in wrote.values()), *shown)


def _parts(task: TaskResult, step: Step) -> tuple[tuple[str, str], ...]:
    """What was said of a step; nothing of a written answer that a person has marked."""
    if _state(task) == MARKED:
        return ()
    if not step.suggests and not step.check:
        return (("", legible(step.seen)),)
    told = (("Seen", step.seen), ("It suggests", step.suggests), ("To check", step.check))
    return tuple((name, legible(text)) for name, text in told if text)


def _route(pair: RoutePair) -> RouteView:
    """Own readings are shown; of the best route only what was done, not what it showed."""
    mine = tuple((leg.title, _cost(leg), leg.words) for leg in pair.mine)
    return RouteView(drawing(pair), mine, tuple((leg.title, _cost(leg)) for leg in pair.best))


def _cost(leg: RouteLeg) -> str:
    return f"{leg.minutes:g} min" + (f", parts {leg.money:g}" if leg.money else "")


def _state(task: TaskResult) -> str:
    """State in words; a written answer that was marked waits for nobody any more."""
    return MARKED if task.marked == "by hand" and not task.waits else task.state or "marked"


def _words(standing: Standing) -> list[str]:
    """What the learner is told about the state; what a person has to clear up is not held against them."""
    words = [_FOR_LEARNER.get(cause.reason, _ONE_POINT) for cause in standing.causes]
    if standing.penalty:
        words.append(f"{_number(standing.penalty)} points are taken off because it was handed in late.")
    return list(dict.fromkeys(words))


def _next(standing: Standing) -> list[tuple[str, str]]:
    """What to practise next: competencies in which points were lost, the most first, with where to."""
    lost: dict[str, float] = {}
    for task in standing.tasks:
        if task.points is not None and task.points < task.max_points and task.competency:
            lost[task.competency] = lost.get(task.competency, 0.0) + task.max_points - task.points
    return [(name, _where(name, standing.outcome.lab)) for name in sorted(lost, key=lambda each: -lost[each])]


@cache
def _where(competency: str, lab: str) -> str:
    """The lessons and labs of a competency, from the course's own tables."""
    from twostroke import lab as labs

    number = lab.removeprefix("lab")
    others = [each for each in map(labs.load, labs.lab_ids()) if each.practice and each.id != number]
    same = [f"lab {each.id}" for each in others if competency in {task.competency for task in each.tasks}]
    again = f"lesson {number} again"
    return f"{again}; the same in {', '.join(same[:3])}" if same else again
