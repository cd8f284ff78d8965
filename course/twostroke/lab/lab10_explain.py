"""Lab 10: the first test explained in the learner's own words, marked by a person."""

from __future__ import annotations

from twostroke.lab.draw import Variant
from twostroke.lab.page import Page, Text
from twostroke.lab.task import Task
from twostroke.lab.written import Written

RUBRIC = (
    ("names two faults which the first test told apart", 0.25),
    ("says what each result would have made you do next", 0.25),
    ("weighs minutes against what it tells, in figures", 0.25),
    ("says what the test could not tell, and how sure you were at hand-back", 0.25),
)
EXAMPLE = (
    "I began with the tester at a wide gap because it takes two minutes and splits the job in half: about "
    "three in "
    "ten such machines have no spark, the others lack fuel, air or compression. Dark, I would have taken "
    "the stop "
    "lead off next; with a flash I went on to the plug and the fuel. Looking at the carburettor first "
    "takes ten "
    "times as long and tells a dead module from nothing. A flash at the tester does not prove the plug, "
    "so I looked "
    "at it next. At hand-back I was about nine tenths sure: the readings fit one fault and it ran in the "
    "condition "
    "of the complaint, but a fault that comes now and then could hide behind one good run."
)


def _show(v: Variant) -> Page:
    return Page("", (Text("Explain to the next person which test you did first on the bench, and why."),))


TASK = Task(
    id="explain",
    title="Why that test first?",
    outcome="explain the choice of a test to the next person",
    kind="written",
    points=4,
    competency="passing on",
    show=_show,
    items=(Written("words", "your words", RUBRIC, EXAMPLE, fewest=40, most=250),),
)
