"""Lab 11, intermittent and heat-dependent faults: provoke it, count, prove that it is gone, hot against
cold."""

from __future__ import annotations

from typing import Any

from twostroke.lab import (
    lab11_copper,
    lab11_formulas,
    lab11_log,
    lab11_plan,
    lab11_provoke,
    lab11_trials,
)
from twostroke.lab.draw import Draw, Variant
from twostroke.lab.page import Page, Text
from twostroke.lab.task import Lab

MACHINES = ("chain saw", "cut-off saw", "line trimmer", "leaf blower", "brush cutter", "hedge trimmer")


def draw(d: Draw) -> dict[str, Any]:
    """Draw one learner's machine, story, log, counts and windings."""
    given: dict[str, Any] = {
        "machine": f"{d.integer('cc', 21, 70)} cm³ {d.pick('machine', MACHINES)}, "
        f"demo engine {d.pick('letter', 'ABCDEFGH')}",
    }
    for part in (lab11_provoke, lab11_log, lab11_trials, lab11_copper):
        given |= part.draw(d)
    return given


def show_lab(v: Variant) -> Page:
    """The machine of this learner."""
    return Page(
        f"Your machine: {v['machine']}",
        (
            Text("Invented for this lab. On a real machine the maker's manual comes first."),
            Text("It fails, and when you look it runs. Nothing is proven until it has failed on your bench."),
        ),
    )


LAB = Lab(
    id="11",
    title="Intermittent and heat-dependent faults",
    question="How do I catch a fault that is not there when I look?",
    minutes=60,
    aim="Make a fault show itself safely, say from counts how often it shows, and how many clean starts "
    "it takes "
    "before it may be called gone.",
    usual_errors="One clean start called a repair; chances added up; a cold reading held against a hot "
    "one; the "
    "module heated on the machine beside its fuel.",
    tasks=(
        lab11_provoke.TASK,
        lab11_plan.TASK,
        lab11_log.TASK,
        lab11_trials.CLEAN,
        lab11_trials.STILL,
        lab11_copper.TASK,
        lab11_formulas.TASK,
    ),
    draw=draw,
    show=show_lab,
    rubric="All of it is marked by the checker; nothing is left to a person. Shares of a slip stand "
    "beside it and "
    "are told to the learner.",
    renewal="Another attempt number draws another machine. A new story is one more row in "
    "lab11_provoke.STORIES; "
    "ranges of the log, of the counts and of the windings stand in draw() of their modules.",
)
