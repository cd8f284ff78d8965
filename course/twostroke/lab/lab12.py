"""Lab 12, repair, verify, write up, pass on: order of work, proof, estimate, advice, job card, five
sentences."""

from __future__ import annotations

from typing import Any

from twostroke.lab import (
    lab12_card,
    lab12_estimate,
    lab12_explain,
    lab12_formulas,
    lab12_repair,
    lab12_verify,
)
from twostroke.lab.draw import Draw, Variant
from twostroke.lab.page import Page, Text
from twostroke.lab.task import Lab

MACHINES = ("chain saw", "cut-off saw", "line trimmer", "leaf blower", "brush cutter", "hedge trimmer")


def draw(d: Draw) -> dict[str, Any]:
    """Draw one learner's machine, complaint, times, prices and job card."""
    given: dict[str, Any] = {
        "machine": f"{d.integer('cc', 21, 70)} cm³ {d.pick('machine', MACHINES)}, "
        f"demo engine {d.pick('letter', 'ABCDEFGH')}",
    }
    for part in (lab12_verify, lab12_estimate, lab12_card):
        given |= part.draw(d)
    return given


def show_lab(v: Variant) -> Page:
    """The machine of this learner."""
    return Page(
        f"Your machine: {v['machine']}",
        (
            Text("Invented for this lab, prices too. On a real machine the maker's manual comes first."),
            Text("The fault is found and proven: the module fails when it is hot. Now the rest of the job."),
        ),
    )


LAB = Lab(
    id="12",
    title="Repair, verify, write up, pass on",
    question="How do I prove that it is fixed, what do I charge, and how do I teach it to the next person?",
    minutes=75,
    aim="Do the repair in an order that needs no step twice, prove it in the condition of the complaint, "
    "charge what "
    "was done, advise honestly, and leave a card and five sentences that the next person can use.",
    usual_errors="Gap not measured after tightening; verified cold where it failed hot; 1:20 h charged as "
    "1.20 h; tax "
    "on one part only; a card that names a fault which its own readings do not show.",
    tasks=(
        lab12_repair.SAFE,
        lab12_repair.ORDER,
        lab12_verify.TASK,
        lab12_estimate.ESTIMATE,
        lab12_estimate.ADVICE,
        lab12_card.TASK,
        lab12_formulas.TASK,
        lab12_explain.TASK,
    ),
    draw=draw,
    show=show_lab,
    rubric="One answer is marked by a person, with the rubric in autograde/rubrics/lab12_explain.md. All "
    "else is "
    "marked by the checker; shares of a slip stand beside it and are told to the learner.",
    renewal="Another attempt number draws another machine. Ranges of times and prices stand in draw() of "
    "lab12_estimate.py; a new flaw of a job card is one more row in lab12_card.FLAWS.",
)
