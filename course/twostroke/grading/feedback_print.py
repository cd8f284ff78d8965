"""Feedback on paper: the same content as the learner's page, through the course's one way to print."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from twostroke.grading import feedback, skeleton
from twostroke.grading.feedback import RouteView, TaskView
from twostroke.grading.files import write_bytes
from twostroke.grading.place import Course
from twostroke.grading.standing import newest
from twostroke.grading.wrote import LONGEST_LINE, Wrote
from twostroke.sheet import Sheet, literal


def write_all(course: Course, lab: str, learner: str | None = None) -> list[Path]:
    """Print the feedback of a lab beside the learners' pages, where there is no print of it yet.

    Parameters
    ----------
    course : Course
    lab : str
        Such as "lab01".
    learner : str, optional
        Only this one.

    Returns
    -------
    list of Path
        The prints that were made.
    """
    trusted = skeleton.load(course.source_notebook(lab))
    made = []
    for standing in newest(course, lab):
        place = feedback.path(course, standing.outcome)
        target = place.with_suffix(".pdf")
        if course.classlist.asked(standing.learner, learner) and place.is_file() and not target.is_file():
            content = feedback.content_of(course, standing, trusted)
            write_bytes(target, sheet(content).to_pdf(), lasting=False)
            made.append(target)
    return made


def sheet(content: dict[str, Any]) -> Sheet:
    """Return the feedback as a sheet.

    Parameters
    ----------
    content : dict
        As made by `twostroke.grading.feedback.content_of`.

    Returns
    -------
    Sheet
        One page or a few, ready for PDF.
    """
    made = Sheet(content["lab"], subtitle=f"{content['learner']} · {content['course']}")
    if content["reached"] is None:
        first = "**Not marked yet.** This is not a zero."
    else:
        so_far = "" if content["graded"] else " so far"
        aside = " in this hand-in; an earlier one counts" if content["aside"] else ""
        first = f"**{content['reached']}** of {content['possible']} points{so_far}{aside}"
    lines = [first, *(literal(each) for each in (*content["words"], *content["hand_ins"]))]
    made.box("Result", lines)
    for number, task in enumerate(content["tasks"], 1):
        _task(made, number, task)
    if content["next"]:
        made.heading("Practise next")
        made.text("\n".join(f"- **{literal(name)}**: {literal(where)}" for name, where in content["next"]))
    return made


def _task(made: Sheet, number: int, task: TaskView) -> None:
    made.heading(f"{number}. {task.title}: {task.points} of {task.of} ({task.state})")
    for step in task.steps:
        if step.brief and step.wrote is not None:
            label = f"**{literal(step.label)}**: " if step.label else "*You wrote:* "
            made.text(f"{label}{literal(step.wrote.flat)}. {literal(step.parts[0][1])}")
            continue
        if step.label:
            made.text(f"**{literal(step.label)}**")
        parts = list(step.parts)
        if step.wrote is not None:
            parts = _wrote(made, step.wrote) + [(name or "Seen", text) for name, text in parts]
        if len(parts) == 1 and not parts[0][0]:
            made.text(literal(parts[0][1]))
        elif parts:
            made.text("\n".join(f"- *{name}:* {literal(text)}" for name, text in parts))
    if task.route is not None:
        _route(made, task.route)
    if task.comment:
        made.box("Your instructor", [literal(task.comment)])


def _wrote(made: Sheet, wrote: Wrote) -> list[tuple[str, str]]:
    """The answer: as a first line, or in a box of its own where it is a text."""
    if len(wrote.lines) > 1 or len(wrote.flat) <= LONGEST_LINE:
        return [("You wrote", wrote.flat)]
    lines = [line for line in wrote.lines[0].split("\n") if line.strip()]
    made.box("You wrote", [literal(line) for line in (*lines, wrote.note) if line])
    return []


def _route(made: Sheet, route: RouteView) -> None:
    made.figure(route.drawing, "Your route and a best route on one time axis, in minutes")
    rows = [(str(n), title, cost, words) for n, (title, cost, words) in enumerate(route.mine, 1)]
    made.table(["", "your route", "cost", "what it showed"], rows, widths=(1, 6, 3, 8))
    if route.best:
        best = [(str(n), title, cost) for n, (title, cost) in enumerate(route.best, 1)]
        made.table(["", "a best route on your machine", "cost"], best, widths=(1, 12, 5))
