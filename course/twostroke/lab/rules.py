"""The rules that every lab keeps, counted: what is missing is said in words."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

import yaml

from twostroke import resources
from twostroke.lab.catalogue import load, variant
from twostroke.lab.draw import Variant
from twostroke.lab.feedback import LONGEST, Feedback
from twostroke.lab.formula import EDGES, OTHER_ENGINE, Formula
from twostroke.lab.marking import mark_answers, model_answers
from twostroke.lab.master import missing_in_master
from twostroke.lab.number import Number
from twostroke.lab.order import Order
from twostroke.lab.pick import Pick
from twostroke.lab.slips import clashes, slip_values
from twostroke.lab.task import COMPETENCIES, KINDS, Item, Lab, Task, Values

FEWEST_KINDS = 3
FEWEST_SLIPS = 3
FEWEST_WRONG = 3
WRITTEN_ALLOWED = ("04", "10", "12", "14")
ROUTES_FROM = "10"
OPTIONAL_IN = ("07", "08", "10")
SAMPLE = tuple(f"sample {number}" for number in range(40))


def check_lab(lab_id: str | int) -> list[str]:
    """Return what a lab lacks by the rules of the course.

    Parameters
    ----------
    lab_id : str or int
        "01", "lab01" or 1.

    Returns
    -------
    list of str
        One sentence for each thing that is missing; empty when the lab is complete. Master and wrong answers
        are looked at only in a clone.

    Raises
    ------
    LabError
        When there is no such lab.

    Examples
    --------
    >>> check_lab("01")
    []
    """
    lab = load(lab_id)
    found = [*_of_lab(lab), *_of_variants(lab)]
    for task in lab.tasks:
        found += [f"task {task.id}: {each}" for each in _of_task(lab, task)]
    top = resources.repository()
    if top is not None:
        found += missing_in_master(lab, top / "course" / "text" / "labs" / f"lab{lab.id}.py")
        found += _of_wrong_answers(lab)
    return found


def wrong_answers(lab_id: str | int) -> dict[str, list[dict[str, Any]]]:
    """Return the wrong answers kept as tests, by task: answer, points, state, slip, message.

    Parameters
    ----------
    lab_id : str or int
        "01", "lab01" or 1.

    Returns
    -------
    dict
        Empty where there are none, or outside a clone.
    """
    top = resources.repository()
    path = top / "tests" / "labs" / "wrong" / f"lab{load(lab_id).id}.yaml" if top else None
    if path is None or not path.is_file():
        return {}
    kept: dict[str, list[dict[str, Any]]] = yaml.safe_load(path.read_text(encoding="utf-8"))["tasks"]
    return kept


def _of_lab(lab: Lab) -> Iterator[str]:
    kinds = {task.kind for task in lab.tasks}
    if len(kinds) < FEWEST_KINDS:
        yield f"{len(kinds)} kinds of task; at least {FEWEST_KINDS} are asked"
    if lab.touches_machine and not any(task.safety for task in lab.tasks):
        yield "it touches the machine and has no safety task"
    if "written" in kinds and lab.id not in WRITTEN_ALLOWED:
        yield f"a written answer stands only in labs {', '.join(WRITTEN_ALLOWED)}"
    if "route" in kinds and lab.id < ROUTES_FROM:
        yield f"a route on the bench stands only from lab {ROUTES_FROM} on"
    if lab.id in OPTIONAL_IN and not lab.optional:
        yield "it has no optional task for those who program"
    if not any(len(task.items) > 1 for task in lab.tasks):
        yield "no task has steps that earn part of the points"
    names = [task.id for task in lab.tasks]
    if len(set(names)) < len(names):
        yield "two tasks have the same id"
    for word in ("title", "question", "aim", "usual_errors", "rubric", "renewal"):
        if not getattr(lab, word).strip():
            yield f"its {word} is empty"
    if lab.minutes <= 0:
        yield "its minutes are not given"


def _of_task(lab: Lab, task: Task) -> Iterator[str]:
    if task.kind not in KINDS:
        yield f"kind {task.kind!r} is none of {', '.join(KINDS)}"
    if task.competency not in COMPETENCIES:
        yield f"competency {task.competency!r} is none of the training record"
    if not task.points > 0:
        yield "it is worth no points"
    if not task.outcome.strip() or not task.title.strip():
        yield "it has no outcome or no title"
    if task.safety and task.competency != "safety":
        yield "a safety task counts for the competency safety"
    known = _misconceptions()
    given = variant(lab.id, SAMPLE[0])
    for item in task.items:
        for name, misconception, feedback in told(item, given):
            if misconception not in known:
                yield f"{item.id}, {name}: misconception {misconception!r} is not in data/misconceptions.yaml"
            if not (feedback.seen and feedback.suggests and feedback.check):
                yield f"{item.id}, {name}: feedback needs what is seen, what it suggests, what to check"
            if feedback.words > LONGEST:
                yield f"{item.id}, {name}: feedback has {feedback.words} words; {LONGEST} at most"
        if isinstance(item, Number | Formula) and len(item.slips) < FEWEST_SLIPS:
            yield f"{item.id}: {len(item.slips)} named slips; at least {FEWEST_SLIPS} are asked"
        if isinstance(item, Formula):
            lacking = {OTHER_ENGINE, *EDGES} - {case.kind for case in item.cases}
            yield from (f"{item.id}: the formula is not tried on {kind}" for kind in sorted(lacking))


def told(item: Item, given: Variant) -> Iterator[tuple[str, str, Feedback]]:
    """Go through everything that a step may say to a learner: name, misconception, feedback."""
    if isinstance(item, Number | Formula):
        yield from ((each.id, each.misconception, each.feedback) for each in item.slips)
    if isinstance(item, Pick):
        yield from (
            (each.id, each.misconception, each.feedback)
            for each in item.lettered(given).values()
            if item.several or not each.right
        )
    if isinstance(item, Order):
        yield from (
            (each.id, each.misconception, each.feedback)
            for each in item.steps
            if each.needs or not each.belongs
        )


def _misconceptions() -> set[str]:
    rows = yaml.safe_load(resources.data("misconceptions.yaml").read_text(encoding="utf-8"))
    return {row["id"] for row in rows}


def _of_variants(lab: Lab) -> Iterator[str]:
    """Model answer, nothing, and slips, on a sample of learners; each kind of trouble is said once."""
    said: set[str] = set()
    for learner in SAMPLE:
        for trouble in troubles(lab, learner):
            head = trouble.partition(" (")[0]
            if head not in said:
                said.add(head)
                yield trouble


def troubles(lab: Lab, learner: str, attempt: int = 1) -> Iterator[str]:
    """Go through what is wrong with one learner's variant of a lab.

    Parameters
    ----------
    lab : Lab
    learner : str
    attempt : int, optional

    Yields
    ------
    str
        A model answer that does not earn all points (a written one waits for a person, a job of the
        examination is marked from its service's log), nothing that earns some, slips that cannot be told
        apart, a value outside the range of its own form check, feedback that holds the expected value.
    """
    given = variant(lab.id, learner, attempt)
    right = Values(lab, given)
    model = model_answers(lab.id, learner, attempt)
    for mark in mark_answers(lab.id, learner, model, attempt):
        task = lab.task(mark.task)
        elsewhere = task.kind == "written" or task.by_service
        if mark.points != mark.max_points and not elsewhere:
            yield f"task {mark.task}: the model answer does not earn all points ({learner})"
    if any(mark.points for mark in mark_answers(lab.id, learner, {}, attempt)):
        yield f"an empty lab earns points ({learner})"
    for task, item in lab.items():
        if isinstance(item, Number):
            for trouble in _of_number(item, given, right, str(model[task.id][item.id])):
                yield f"task {task.id}, {item.id}: {trouble} ({learner})"


def _of_number(item: Number, given: Variant, right: Values, model: str) -> Iterator[str]:
    truth = item.truth(given, right)
    slips = slip_values(item.slips, given, right)
    for one, other in clashes(truth, slips, item.tolerance_for(given).value):
        yield f"{one} and {other} cannot be told apart"
    for name, value in {"the right value": truth, **slips}.items():
        if not item.low <= value <= item.high:
            yield f"{name} lies outside the range of the form check"
    if len(slips) < FEWEST_SLIPS:
        yield f"only {len(slips)} slips can happen here"
    number = model.split()[0]
    for each in item.slips:
        if number in re.findall(r"[0-9]+(?:\.[0-9]+)?", each.feedback.text):
            yield f"the feedback of {each.id} holds the expected value"


def _of_wrong_answers(lab: Lab) -> Iterator[str]:
    kept = wrong_answers(lab.id)
    for task in lab.tasks:
        count = len(kept.get(task.id, []))
        if count < FEWEST_WRONG:
            yield f"task {task.id}: {count} wrong answers kept as tests; at least {FEWEST_WRONG} are asked"
