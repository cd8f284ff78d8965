"""Lab 10, complaint and fault-isolation logic: evidence, counting, worth of a test, half-split, order, a
job."""

from __future__ import annotations

from typing import Any

from twostroke.lab import (
    lab10_bench,
    lab10_chain,
    lab10_complaint,
    lab10_count,
    lab10_explain,
    lab10_formulas,
    lab10_order,
    lab10_own,
    lab10_safety,
    lab10_worth,
)
from twostroke.lab.draw import Draw, Variant
from twostroke.lab.page import Page, Text
from twostroke.lab.task import Lab


def draw(d: Draw) -> dict[str, Any]:
    """Draw one learner's complaint, counts, tests, chain, checks and machine on the bench."""
    given: dict[str, Any] = {}
    for part in (lab10_complaint, lab10_count, lab10_worth, lab10_chain, lab10_order, lab10_bench):
        given |= part.draw(d)
    return given


def show_lab(v: Variant) -> Page:
    """What this lab is about."""
    return Page(
        "Logic before tools",
        (
            Text("All counts, chances and minutes are invented for this lab; they are no service data."),
            Text("Each task shows what it needs. The last but one is a whole job on the virtual bench."),
        ),
    )


LAB = Lab(
    id="10",
    title="Complaint and fault-isolation logic",
    question="What did the owner really tell me, and which test comes next?",
    minutes=90,
    aim="Turn a complaint into evidence, move chances by counting, weigh a test in minutes, split a "
    "chain, and do "
    "a whole job on the bench with few minutes and no guess.",
    usual_errors="The commonest fault taken for the likely one here; the share that shows taken for the "
    "share that "
    "has it; the cheapest or the likeliest first; a part fitted before anything was measured.",
    tasks=(
        lab10_complaint.TASK,
        lab10_safety.TASK,
        lab10_count.TASK,
        lab10_worth.TASK,
        lab10_chain.TASK,
        lab10_order.TASK,
        lab10_formulas.TASK,
        lab10_bench.TASK,
        lab10_explain.TASK,
    ),
    draw=draw,
    show=show_lab,
    optional=(lab10_own.QUICKEST,),
    rubric="One answer is marked by a person, with the rubric in autograde/rubrics/lab10_explain.md. The "
    "job on "
    "the bench is "
    "replayed and scored: full points from a luck-adjusted score of 50, nothing with a caution missed, at "
    "most half "
    "without a verify run, a quarter for a machine that comes back.",
    renewal="Another attempt number draws other numbers and another machine. A new complaint is one more "
    "story in "
    "lab10_complaint.py; a new machine is one more row in lab10_bench.MACHINES, kept only when the "
    "adviser's own "
    "route earns full points there (a test says so).",
)
