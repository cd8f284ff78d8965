"""Lab 13, scenarios: a whole job in order, a colleague's route read, five machines on the bench."""

from __future__ import annotations

from typing import Any

from twostroke.lab import lab13_bench, lab13_read, lab13_whole
from twostroke.lab.draw import Draw, Variant
from twostroke.lab.page import Page, Text
from twostroke.lab.task import Lab


def draw(d: Draw) -> dict[str, Any]:
    """Draw one learner's route to read and five machines."""
    return lab13_read.draw(d) | lab13_bench.draw(d)


def show_lab(v: Variant) -> Page:
    """What this lab is about."""
    return Page(
        "Five machines",
        (
            Text("All machines, owners, times and prices are invented."),
            Text(
                "The practice examination: five jobs on the virtual bench, from complaint to hand-back. "
                "There are "
                "three hints for each step; in lab 14 there is none, and the bench does not remind you of "
                "a caution."
            ),
        ),
    )


LAB = Lab(
    id="13",
    title="Scenarios",
    question="Five machines on the virtual bench: which fault, proven how, and what did it cost?",
    minutes=120,
    aim="Do five whole jobs, each with another kind of complaint, with few minutes and no guess; read "
    "another's route.",
    usual_errors="A part fitted before anything was measured; the same test again with nothing changed; no "
    "verify run "
    "in the state of the complaint (hot, or with the wires moved); the third hint taken before the first "
    "was thought "
    "over.",
    tasks=(lab13_whole.TASK, lab13_read.TASK, *lab13_bench.TASKS),
    draw=draw,
    show=show_lab,
    rubric="Nothing is marked by a person. Each job is replayed and scored: full points from a "
    "luck-adjusted score of "
    "50, nothing with a caution missed, at most half without a verify run, a quarter for a machine that "
    "comes back, "
    "three quarters when another fault is named. Each hint that stands in the record takes 5 % of the "
    "job's points, 50 "
    "% at most; hints taken and erased again are counted at the learner's desk only (work.tries()).",
    renewal="Another attempt number draws another route to read and other machines. A new machine is a row "
    "in "
    "lab13_bench.BENCHES or a number more in its list, kept only when the adviser's own route earns full "
    "points there "
    "(a test says so).",
)
