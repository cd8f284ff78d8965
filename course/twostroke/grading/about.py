"""What a lab says of itself: titles and competencies, for pages and reports."""

from __future__ import annotations

from functools import cache
from typing import Any

import yaml

from twostroke import resources


def _lab(lab: str) -> Any:
    from twostroke import lab as labs

    number = lab.removeprefix("lab")
    return labs.load(number) if number in labs.lab_ids() else None


def task_of(lab: str, task: str) -> Any:
    """Return a task of a lab of this course, or None where there is none of that name."""
    found = _lab(lab)
    return next((each for each in found.tasks if each.id == task), None) if found else None


@cache
def lab_title(lab: str) -> str:
    """Return number and title of a lab.

    Examples
    --------
    >>> lab_title("lab01")
    'Lab 01: Shop units'
    """
    found = _lab(lab)
    number = lab.removeprefix("lab")
    return f"Lab {number}: {found.title}" if found else f"Lab {number}"


@cache
def is_practice(lab: str) -> bool:
    """Say whether a learner can compare answers alone, as in every lab but the examination.

    Examples
    --------
    >>> is_practice("lab01"), is_practice("lab14")
    (True, False)
    """
    found = _lab(lab)
    return bool(found and found.practice)


@cache
def lesson_of(lab: str) -> str:
    """Return number and title of the lesson that a lab closes with; empty where there is none.

    Examples
    --------
    >>> lesson_of("lab01")
    'lesson 01, Shop units'
    """
    rows = yaml.safe_load(resources.data("modules.yaml").read_text(encoding="utf-8"))
    number = lab.removeprefix("lab")
    return next((f"lesson {row['number']}, {row['title']}" for row in rows if row.get("lab") == number), "")


@cache
def task_title(lab: str, task: str) -> str:
    """Return the title of a task, or its id where the lab has none of that name."""
    found = task_of(lab, task)
    return str(found.title) if found else task


@cache
def competency_of(lab: str, task: str) -> str:
    """Return the competency of a task, or nothing where the lab has none of that name.

    Examples
    --------
    >>> competency_of("lab01", "metric")
    'units and measuring'
    """
    found = task_of(lab, task)
    return str(found.competency) if found else ""


@cache
def rubric_of(lab: str, task: str) -> tuple[tuple[str, float], ...]:
    """Return what a person looks for in a written answer, with the points of each row.

    Examples
    --------
    >>> rubric_of("lab10", "explain")[0]
    ('names two faults which the first test told apart', 1.0)
    """
    from twostroke.lab.written import Written

    found = task_of(lab, task)
    steps = [item for item in found.items if isinstance(item, Written)] if found else []
    return tuple((text, round(found.worth(step) * share, 4)) for step in steps for text, share in step.rubric)


@cache
def guide_of(lab: str, task: str) -> str:
    """Return the marking guide of a written answer, with its examples; empty where there is none."""
    top = resources.repository()
    path = top / "autograde" / "rubrics" / f"{lab}_{task}.md" if top else None
    return path.read_text(encoding="utf-8") if path and path.is_file() else ""
