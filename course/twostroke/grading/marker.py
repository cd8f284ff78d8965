"""A clean interpreter that marks recorded answers: data in, marks out; no learner code ever runs in it."""

from __future__ import annotations

import os
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from twostroke.grading.classlist import fold
from twostroke.grading.foreign_json import read_json
from twostroke.grading.routes import routes_of
from twostroke.grading.worker import read_message, write_message

if TYPE_CHECKING:
    from twostroke.lab.feedback import TaskMark

_MOST_LINES = 20_000


@dataclass
class Recorded:
    """What the recorded lines say.

    Parameters
    ----------
    worked_as : str or None
        The name whose variant was worked on.
    typed : str or None
        The same, where it is not the trusted learner's.
    attempt : int
        Which variant was drawn.
    answers : dict
        Answer of each task, as it stood when its check cell ran.
    marked : list of str
        Tasks whose check cell ran.
    garbled : int
        Lines that nobody here wrote.
    """

    worked_as: str | None = None
    typed: str | None = None
    attempt: int = 1
    answers: dict[str, Any] = field(default_factory=dict)
    marked: list[str] = field(default_factory=list)
    garbled: int = 0


def read_lines(lab: str, lines: list[str], learner: str, also: list[str]) -> Recorded:
    """Read the lines that a lab wrote while it ran.

    Parameters
    ----------
    lab : str
        Such as "lab01"; lines of other labs are left out.
    lines : list of str
        JSON, one event each: open, answer or mark.
    learner : str
        Trusted identifier.
    also : list of str
        Other names of the same learner.

    Returns
    -------
    Recorded

    Examples
    --------
    >>> import json
    >>> event = {"event": "mark", "lab": "01", "learner": "l1", "attempt": 1}
    >>> event |= {"task": "gap", "answer": "0.3 mm"}
    >>> read_lines("lab01", [json.dumps(event)], "l1", []).answers
    {'gap': '0.3 mm'}
    """
    own = {fold(name) for name in (learner, *also)}
    found = Recorded()
    current: dict[str, Any] = {}
    for line in lines[:_MOST_LINES]:
        if not line.strip():
            continue
        try:
            event = read_json(line)
        except (ValueError, RecursionError):
            found.garbled += 1
            continue
        if not _sound(event):
            found.garbled += 1
            continue
        if f"lab{event['lab']}" != lab:
            continue
        if event["learner"] is not None:
            found.worked_as = event["learner"]
        found.attempt = event["attempt"]
        if event["event"] == "answer":
            current[event["task"]] = event["answer"]
        elif event["event"] == "mark":
            found.answers[event["task"]] = event["answer"]
            found.marked.append(event["task"])
    found.answers = {**current, **found.answers}
    if found.worked_as is not None and fold(found.worked_as) not in own:
        found.typed = found.worked_as
    return found


def _sound(event: Any) -> bool:
    if not isinstance(event, dict) or event.get("event") not in ("open", "answer", "mark"):
        return False
    if type(event.get("lab")) is not str or type(event.get("attempt")) is not int:
        return False
    if not (event.get("learner") is None or type(event["learner"]) is str):
        return False
    return event["event"] == "open" or (type(event.get("task")) is str and "answer" in event)


def mark(lab: str, request: dict[str, Any]) -> dict[str, Any]:
    """Mark one submission's recorded answers.

    Parameters
    ----------
    lab : str
        Such as "lab01".
    request : dict
        ``learner``, ``also`` and ``lines``.

    Returns
    -------
    dict
        ``marks`` (one dictionary a task), ``typed``, ``attempt``, ``answers``, ``marked``, ``garbled``;
        ``refused``
        with the reason where nothing could be marked.
    """
    from twostroke import lab as labs
    from twostroke.errors import TwoStrokeError

    number = lab.removeprefix("lab")
    recorded = read_lines(lab, request["lines"], request["learner"], request["also"])
    reply: dict[str, Any] = {
        "typed": recorded.typed,
        "worked_as": recorded.worked_as,
        "attempt": recorded.attempt,
        "answers": recorded.answers,
        "marked": recorded.marked,
        "garbled": recorded.garbled,
        "marks": [],
        "routes": {},
    }
    if not recorded.marked:
        return reply
    try:
        marks = labs.mark_answers(
            number,
            recorded.worked_as or request["learner"],
            recorded.answers,
            recorded.attempt,
            owner=request["learner"],
        )
    except TwoStrokeError as error:
        return {**reply, "refused": str(error)}
    worked_as = recorded.worked_as or request["learner"]
    pairs = routes_of(number, worked_as, recorded.answers, recorded.attempt)
    reply["routes"] = {task: pair.model_dump() for task, pair in pairs.items()}
    reply["marks"] = [
        {
            "task": each.task,
            "points": each.points,
            "max_points": each.max_points,
            "state": each.state,
            "steps": _steps(number, each),
            "slips": list(dict.fromkeys(judged.slip for _, judged in each.items if judged.slip)),
            "competency": each.competency,
        }
        for each in marks
    ]
    return reply


def _steps(number: str, mark: TaskMark) -> list[dict[str, str]]:
    """What is said of each step; of the whole task where it was not marked step by step."""
    from twostroke import lab as labs

    labels = {item.id: item.label for item in labs.load(number).task(mark.task).items}
    return [
        {
            "item": item,
            "label": labels[item],
            "state": judged.state,
            "seen": judged.feedback.seen,
            "suggests": judged.feedback.suggests,
            "check": judged.feedback.check,
        }
        for item, judged in mark.items
    ] or [{"seen": mark.message}]


def main() -> None:
    """Serve until stdin ends."""
    requests, replies = os.fdopen(os.dup(0), "rb"), os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)
    setup = read_message(requests)
    if setup is None:
        return
    from twostroke import lab as labs

    number = setup["lab"].removeprefix("lab")
    if number in labs.lab_ids():
        labs.mark_answers(number, "warm", {})
    write_message(replies, {"ready": True})
    while (request := read_message(requests)) is not None:
        write_message(replies, {"id": request["id"], **mark(setup["lab"], request)})
