"""Lab 14: one's own job explained to the owner and to the next mechanic, marked by a person."""

from __future__ import annotations

from twostroke.lab.draw import Variant
from twostroke.lab.page import Page, Text
from twostroke.lab.task import Task
from twostroke.lab.written import Written

RUBRIC = (
    ("says which two readings led to the fault, each with its condition", 0.25),
    ("says why the fault gives that complaint, as cause and effect", 0.25),
    ("says how the repair was proven, in the state of the complaint", 0.25),
    ("says what stays open, and what the owner should watch", 0.25),
)
EXAMPLE = (
    "It would not start, cold or warm. With the tester at 8 mm there was no flash, and with the stop lead "
    "off at the "
    "module it flashed every time: so the module is good and something led its spark away. The switch "
    "measured closed "
    "in both places; a closed switch joins the primary to ground, and without its sudden opening there is "
    "no high "
    "voltage. I fitted a new switch, pulled the stop lead on again and made the run of the complaint: "
    "three cold "
    "starts, stopped by the new switch, started again at once. I am about nine tenths sure; moisture may "
    "have been "
    "the cause, so please keep it dry and tell me if the switch ever feels loose."
)


def _show(v: Variant) -> Page:
    return Page(
        "",
        (
            Text(
                "Explain the job that you did on the bench, so that the owner and the next mechanic both "
                "understand."
            ),
        ),
    )


TASK = Task(
    id="explain",
    title="What was wrong, and how you know",
    outcome="explain an isolated fault and its proof to owner and colleague",
    kind="written",
    points=4,
    competency="passing on",
    show=_show,
    items=(Written("words", "your words", RUBRIC, EXAMPLE, fewest=60, most=250),),
)
