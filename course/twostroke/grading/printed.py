"""The class report on paper: the same content as the web page, through the course's one way to print."""

from __future__ import annotations

from typing import Any

from twostroke.grading import plots
from twostroke.sheet import Sheet, literal

_ROWS_ON_A_PAGE = 36


def sheet(content: dict[str, Any]) -> Sheet:
    """Return the report as a sheet.

    Parameters
    ----------
    content : dict
        As made by `twostroke.grading.reporting.content_of`.

    Returns
    -------
    Sheet
        Several pages, ready for PDF.
    """
    made = Sheet(
        f"Class report, {content['lab']}",
        subtitle=f"{content['course']}, {content['date']}",
        note=content["note"] or None,
    )
    said = [f"{state} {count}" for state, count in content["counts"]]
    if content["middle"]:
        middle = content["middle"]
        said.append(f"median {middle['median']} %, from {middle['lowest']} to {middle['highest']}")
    made.text(literal("; ".join(said) + "."))
    due = f"Due {content['due']}. " if content["due"] else ""
    made.text(literal(f"{due}Agreed: {content['policy']}."))
    _look_first(made, content)
    _figures(made, content)
    _teaching(made, content)
    _learners(made, content)
    return made


def _look_first(made: Sheet, content: dict[str, Any]) -> None:
    rows = [(learner, "needs a person", why) for learner, why in content["persons"]]
    rows += [(learner, "not graded", why) for learner, why in content["failed"]]
    if rows:
        made.heading("Look at these first")
        made.table(["learner", "state", "why"], rows, widths=(2, 2, 7))


def _figures(made: Sheet, content: dict[str, Any]) -> None:
    if content["distribution"]:
        made.heading("Scores")
        left = content["total"] - content["marked"]
        made.figure(
            content["distribution"],
            "Distribution of scores",
            caption=f"{content['marked']} learners whose work ran to the end; {left} others are left out."
            + (f" Of {content['waiting']} these are the points so far." if content["waiting"] else ""),
        )
    if content["tasks_plot"]:
        made.heading("Tasks")
        made.figure(content["tasks_plot"], "Share of the points earned in each task")
        rows = [
            (task["title"], task["marked"], task["difficulty"], task["discrimination"], task["reading"])
            for task in content["tasks"]
        ]
        made.table(["task", "marked", "earned", "discrimination", "reading"], rows, align="lrrrl")
    if content["alpha"]:
        made.text(f"Reliability (Cronbach's alpha): {content['alpha']}.")


def _teaching(made: Sheet, content: dict[str, Any]) -> None:
    if content["reteach"]:
        made.heading("Teach again next week")
        rows = [
            (
                task,
                f"{100 * share:.0f} %",
                ", ".join(f"{slip.replace('_', ' ')} ({n})" for slip, n in seen[:3]),
            )
            for task, share, seen in content["reteach"]
        ]
        made.table(["task", "earned", "usual slips"], rows, align="lrl")
    if content["slips"]:
        made.heading("Slips seen")
        slips = [(slip, task, len(who), ", ".join(who[:6])) for slip, task, who in content["slips"]]
        made.table(["slip", "in task", "learners", "who"], slips, align="llrl")
    if content["heat"] and content["competencies"]:
        made.heading("Competencies by learner")
        shares = [(learner, [cell["share"] for cell in cells]) for learner, cells in content["heat"]]
        for first in range(0, len(shares), _ROWS_ON_A_PAGE):
            part = shares[first : first + _ROWS_ON_A_PAGE]
            alt = f"Share of the points in each competency, {part[0][0]} to {part[-1][0]}"
            made.figure(plots.heat(content["competencies"], part), alt)


def _learners(made: Sheet, content: dict[str, Any]) -> None:
    if content["alike"]:
        made.heading("Same answers from different engines")
        rows = [(" and ".join(pair.learners), f"{pair.same} of {pair.of}") for pair in content["alike"]]
        made.table(["learners", "answers that hardly anybody else gave"], rows, align="lr")
    made.heading("Every learner")
    every = [(_named(row), row["state"], _points(row), row["percent"]) for row in content["rows"]]
    made.table(["learner", "state", "points", "score"], every, align="llrr")


def _named(row: dict[str, Any]) -> str:
    return f"{row['learner']}, {row['name']}" if row["name"] else str(row["learner"])


def _points(row: dict[str, Any]) -> str:
    if not row["points"]:
        return ""
    return f"{row['points']} of {row['possible']}{'' if row['final'] else ' so far'}"
