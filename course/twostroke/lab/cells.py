"""The cells of a lab's text master, written from the lab itself: what is shown, answered, checked and marked.

The prose between them is edited by hand afterwards; `check_lab` says what a master still lacks.
"""

from __future__ import annotations

import textwrap
from typing import Any

from twostroke.lab.draw import Draw, Variant, fold
from twostroke.lab.formula import Formula
from twostroke.lab.number import Number
from twostroke.lab.order import Order
from twostroke.lab.pick import Pick
from twostroke.lab.route import BenchRoute
from twostroke.lab.task import Item, Lab, Task, Values
from twostroke.lab.written import Written

MODEL_LEARNER = "model answer"
WIDTH = 108
_HOW = (
    "1. Click a grey cell and press Shift and Enter: the cell runs, and its answer appears below it.",
    "2. You write only between the quotes, then run that cell. `work.check` says whether it can be read. "
    "That costs "
    "nothing.",
    "3. `work.compare` compares it with *your* machine. Your tries are counted and kept; they cost no "
    "points.",
    "4. When you are done, save. What is handed in is this file.",
)
_NAME = (
    "Write it between the quotes and run the cell. It picks your machine. Small or capital letters and "
    "spaces do "
    "not matter."
)


def master_text(lab: Lab) -> str:
    """Write a whole text master in percent format.

    Parameters
    ----------
    lab : Lab

    Returns
    -------
    str
        With the model answers of the learner "model answer"; the prose is a beginning, to be edited by hand.
    """
    outcomes = ", ".join(task.outcome for task in lab.tasks)
    parts = [
        _text(
            f"# Lab {lab.id}: {lab.title}", lab.question, f"**After this you can** {outcomes}.",
            f"**You need:** lesson {lab.id}, about {lab.minutes} minutes. **{lab.points:g} points.**",
            "## How it works", _HOW,
        ),
        _text("## Your name or number", _NAME),
        _code(
            '{"grade_id": "open", "solution": true}', 'learner = "your name or number"', "### BEGIN SOLUTION",
            f'learner = "{MODEL_LEARNER}"', "### END SOLUTION", "from twostroke import lab", "",
            f'work = lab.open_lab("{lab.id}", learner=learner)', "work",
        ),
        _code('{"grade_id": "machine_show", "locked": true}', "work.show()"),
        *(task_cells(lab, number, task) for number, task in enumerate(lab.tasks, start=1)),
        _text("## Before you hand it in",
            "Run the cell below: it says which answers are still open. Then save the notebook."),
        _code('{"grade_id": "all_check", "locked": true}', "work.check()"),
    ]  # fmt: skip
    return "\n".join(parts).rstrip() + "\n"


def task_cells(lab: Lab, number: int, task: Task) -> str:
    """Write the cells of one task.

    Parameters
    ----------
    lab : Lab
    number : int
        Its place in the notebook, from 1.
    task : Task

    Returns
    -------
    str
        Text, show, answer with the model answer, check, compare (practice), mark.
    """
    learner = fold(MODEL_LEARNER)
    given = Variant(lab.id, learner, 1, lab.draw(Draw(lab.id, learner, 1)))
    right = Values(lab, given)
    name = task.id
    by_person = any(isinstance(item, Written) for item in task.items)
    points = f"{task.points:g} point{'' if task.points == 1 else 's'}{', safety' if task.safety else ''}"
    blanks = {item.id: item.model(given, right) for item in task.items}
    marks = f'"grade": true, "points": {task.points:g}, ' if by_person else ""
    cells = [
        _text(f"## Task {number}: {task.title} ({points})",
            "Say here what is to be done, and what is marked on what."),
        _code(f'{{"grade_id": "{name}_show", "locked": true}}', f'work.show("{name}")'),
        _code(f'{{"grade_id": "{name}", {marks}"solution": true}}', *_answer(task, given, blanks)),
        _code(f'{{"grade_id": "{name}_check", "locked": true}}', f'work.check("{name}")'),
    ]  # fmt: skip
    if lab.practice:
        cells.append(_code(f'{{"grade_id": "{name}_compare", "locked": true}}', f'work.compare("{name}")'))
    if not by_person:
        cells.append(
            _code(
                f'{{"grade_id": "{name}_mark", "grade": true, "locked": true, "points": {task.points:g}}}',
                f"# Task {number} is marked here. Leave this cell as it is.",
                "### BEGIN HIDDEN TESTS", f'work.mark("{name}")', "### END HIDDEN TESTS",
            )
        )  # fmt: skip
    return "\n".join(cells)


def _answer(task: Task, given: Variant, blanks: dict[str, Any]) -> list[str]:
    """Lines of the answer cell: blanks between quotes, or a machine on the bench."""
    if task.by_service:
        return [
            'ticket = ""  # the line that your instructor gave you',
            f'machine = work.bench("{task.id}", ticket)',
            "# One line for each step below; what is done stays done.",
            'receipt = ""  # as it is printed when you hand the machine back',
            "### BEGIN SOLUTION",
            'receipt = ""',
            "### END SOLUTION",
            *_call(task.id, list(blanks)),
        ]
    if any(isinstance(item, BenchRoute) for item in task.items):
        (route,) = blanks.values()
        return [
            f'machine = work.bench("{task.id}")',
            '# One line for each step, for example: machine.do("look_over", confirm="all")',
            "### BEGIN SOLUTION",
            *(_step(step) for step in route),
            "### END SOLUTION",
            f'work.answer("{task.id}", route=machine.route)',
        ]
    return [
        *(f'{item.id} = ""  # {_hint(item, given)}' for item in task.items),
        "### BEGIN SOLUTION",
        *(f'{blank} = "{answer}"' for blank, answer in blanks.items()),
        "### END SOLUTION",
        *_call(task.id, list(blanks)),
    ]


def _step(step: dict[str, Any]) -> str:
    if step["action"] == "hand_back":
        return f'machine.hand_back("{step["diagnosis"]}", "{step["confidence"]:.0%}")'.replace("%", " %")
    return f'machine.do("{step["action"]}", prepare=True, confirm="all")'


def _text(*paragraphs: str | tuple[str, ...]) -> str:
    blocks = []
    for paragraph in paragraphs:
        lines = (paragraph,) if isinstance(paragraph, str) else paragraph
        inset = "" if isinstance(paragraph, str) else "   "
        wrapped = [
            textwrap.fill(
                line, WIDTH, initial_indent="# ", subsequent_indent="# " + inset, break_on_hyphens=False
            )
            for line in lines
        ]
        blocks.append("\n".join(wrapped))
    return "# %% [markdown]\n" + "\n#\n".join(blocks) + "\n"


def _code(marks: str, *lines: str) -> str:
    return f"# %% nbgrader={marks}\n" + "\n".join(lines) + "\n"


def _call(name: str, blanks: list[str]) -> list[str]:
    head = f'work.answer("{name}", '
    lines = textwrap.wrap(", ".join(f"{blank}={blank}" for blank in blanks) + ")", WIDTH - len(head))
    return [head + lines[0], *(" " * len("work.answer(") + line for line in lines[1:])]


def _hint(item: Item, given: Any) -> str:
    """What stands behind a blank as a comment."""
    if isinstance(item, Formula):
        return item.line
    if isinstance(item, Number):
        return f"in {item.unit_for(given)}" if item.unit_for(given) else "a plain number"
    if isinstance(item, Pick):
        one = "the number of the option" if item.numbered else "the letter"
        return f"{'letters of all that apply' if item.several else one}: {item.label}"
    return "letters in the order of work" if isinstance(item, Order) else item.label
