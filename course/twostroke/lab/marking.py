"""Trusted marking of recorded answers: data in, marks out, no learner code runs."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from twostroke.lab.catalogue import load, variant
from twostroke.lab.data import NotData, as_data
from twostroke.lab.draw import Variant, fold
from twostroke.lab.feedback import FORM, PERSON, TaskMark
from twostroke.lab.number import Number
from twostroke.lab.slips import slip_values
from twostroke.lab.task import Lab, Task, Values


def mark_answers(
    lab_id: str | int,
    learner: str | int,
    answers: Mapping[str, Any],
    attempt: int = 1,
    owner: str | None = None,
) -> list[TaskMark]:
    """Mark a learner's recorded answers.

    Parameters
    ----------
    lab_id : str or int
        "01", "lab01" or 1.
    learner : str or int
        Whose variant was worked on.
    answers : mapping
        Task id -> answer as plain data; tasks that are left out count as empty, unknown ones are passed over.
    attempt : int, optional
        1 for the first.
    owner : str, optional
        Who handed it in, where a grader vouches for that: a job of the examination is marked from this
        one's log.

    Returns
    -------
    list of TaskMark
        One for each task, in the order of the lab.

    Raises
    ------
    LabError
        When there is no such lab, or the learner or attempt cannot be used.

    Examples
    --------
    >>> marks = mark_answers("01", "learner07", {})
    >>> {mark.state for mark in marks}, sum(mark.points for mark in marks)
    ({'empty'}, 0.0)
    """
    lab, given = load(lab_id), variant(lab_id, learner, attempt)
    given.owner = fold(owner) if owner else given.learner
    kept, refused = clean(lab, answers)
    values = Values(lab, given, kept)
    return [mark_task(task, given, kept, values, refused.get(task.id)) for task in lab.tasks]


def clean(lab: Lab, answers: Mapping[str, Any]) -> tuple[dict[str, Any], dict[str, str]]:
    """Return the answers as plain data, and for those that are none the reason."""
    kept: dict[str, Any] = {}
    refused: dict[str, str] = {}
    for task in lab.tasks:
        if type(answers) is not dict or task.id not in answers:
            continue
        try:
            kept[task.id] = as_data(answers[task.id])
        except NotData as reason:
            refused[task.id] = str(reason)
    return kept, refused


def mark_task(
    task: Task, given: Variant, answers: Mapping[str, Any], values: Values, refused: str | None = None
) -> TaskMark:
    """Mark one task; a fault of ours is never a grade, and goes to a person."""
    if refused:
        return TaskMark(task.id, 0.0, float(task.points), FORM, refused, None, task.competency)
    try:
        return task.mark(answers.get(task.id), given, values)
    except Exception as error:
        name = type(error).__name__
        said = f"The marking itself failed here ({name}). The answer is kept; a person will look."
        return TaskMark(task.id, 0.0, float(task.points), PERSON, said, None, task.competency)


def model_answers(lab_id: str | int, learner: str | int, attempt: int = 1) -> dict[str, Any]:
    """Return the answers that earn all points in this learner's variant, as a learner would write them.

    Parameters
    ----------
    lab_id, learner, attempt
        As for `mark_answers`.

    Returns
    -------
    dict
        Task id -> answer.

    Examples
    --------
    >>> answers = model_answers("01", "learner07")
    >>> {mark.state for mark in mark_answers("01", "learner07", answers)}
    {'right'}
    """
    lab, given = load(lab_id), variant(lab_id, learner, attempt)
    right = Values(lab, given)
    return {task.id: {item.id: item.model(given, right) for item in task.items} for task in lab.tasks}


def slip_answers(lab_id: str | int, learner: str | int, attempt: int = 1) -> dict[str, dict[str, str]]:
    """Return what each named slip of each value would be written as in this learner's variant.

    Parameters
    ----------
    lab_id, learner, attempt
        As for `mark_answers`.

    Returns
    -------
    dict
        "task.item" -> slip -> text with a unit; slips that cannot happen in this variant are left out.

    Examples
    --------
    >>> sorted(slip_answers("01", "learner07")["oil.oil"])[0]
    'prefix_dropped'
    """
    lab, given = load(lab_id), variant(lab_id, learner, attempt)
    right = Values(lab, given)
    return {
        f"{task.id}.{item.id}": {
            name: f"{value:.{item.decimals + 1}f} {item.unit_for(given)}".strip()
            for name, value in slip_values(item.slips, given, right).items()
        }
        for task, item in lab.items()
        if isinstance(item, Number)
    }
