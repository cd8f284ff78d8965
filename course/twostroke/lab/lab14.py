"""Lab 14, final bench: the graded examination, one unseen machine for each learner."""

from __future__ import annotations

from typing import Any

from twostroke.lab import lab14_bench, lab14_card, lab14_explain, lab14_safety
from twostroke.lab.draw import Draw, Variant
from twostroke.lab.page import Page, Text
from twostroke.lab.task import Lab


def draw(d: Draw) -> dict[str, Any]:
    """Draw one learner's situation and prices; the machine is drawn elsewhere, with the cohort's secret."""
    return lab14_safety.draw(d) | lab14_card.draw(d)


def show_lab(v: Variant) -> Page:
    """What this lab is about."""
    return Page(
        "The examination",
        (
            Text("All machines, owners and prices are invented."),
            Text(
                "One machine that nobody has seen, no hints. Only the form of an answer is checked here; "
                "the value is "
                "told when it has been marked. Another attempt has another machine."
            ),
        ),
    )


LAB = Lab(
    id="14",
    title="Final bench",
    question="Can you isolate, prove and repair the fault of an unseen machine, alone?",
    minutes=90,
    aim="Show alone, on a machine that nobody has seen, that a fault is isolated with few minutes, "
    "proven, repaired, "
    "proven again, and written up.",
    usual_errors="A caution not named; handed back without a verify run in the state of the complaint; "
    "the fault named "
    "after the part that was changed; minutes of finding left off the card; ohms called a proof.",
    tasks=(lab14_safety.TASK, lab14_bench.TASK, lab14_card.TASK, lab14_explain.TASK),
    draw=draw,
    show=show_lab,
    practice=False,
    rubric="Before the day: twostroke exam tickets makes a ticket for each learner on the class list; "
    "twostroke exam "
    "serve gives the readings (on this machine alone unless told otherwise). The job is marked from the "
    "service's own "
    "signed log: all points when passed (every caution kept, verify run in the state of the complaint, "
    "cured, score of "
    "70), three quarters when another fault is named, at most half unproven, a quarter when it comes "
    "back, none with a "
    "caution missed. One answer is marked by a person, with the rubric in "
    "autograde/rubrics/lab14_explain.md.",
    renewal="A retake is another attempt: twostroke exam tickets LEARNER --attempt 2 gives the ticket, "
    "and the learner "
    "writes the number at the top of the notebook. Machines are those of lab13_bench.BENCHES with the "
    "words of "
    "exam/cases.py; a draw is kept only when the adviser's own route passes on it.",
)
