"""Lab 07, windings and wiring: leads and temperature, verdict with the meter's accuracy, faults, stop
circuit."""

from __future__ import annotations

from typing import Any

from twostroke.lab import (
    lab07_correct,
    lab07_find,
    lab07_formulas,
    lab07_judge,
    lab07_own,
    lab07_safety,
    lab07_stop,
)
from twostroke.lab.draw import Draw, Variant
from twostroke.lab.page import Page, Text
from twostroke.lab.task import Lab

MACHINES = ("hedge trimmer", "line trimmer", "leaf blower", "brush cutter", "pole pruner", "water pump")


def draw(d: Draw) -> dict[str, Any]:
    """Draw one learner's machine; whole numbers in the unit that the name says."""
    given: dict[str, Any] = {
        "machine": d.pick("machine", MACHINES),
        "engine": d.pick("letter", "ABCDEFGH"),
        "primary_hundredths_ohm": d.integer("primary", 105, 180),
        "leads_hundredths_ohm": d.integer("leads", 14, 40),
        "winding_degC": d.integer("winding", 45, 90),
    }
    return given | lab07_judge.draw(d) | lab07_find.draw(d) | lab07_stop.draw(d)


def show_lab(v: Variant) -> Page:
    """The machine of this learner."""
    return Page(
        f"Your machine: {v['machine']}, demo engine {v['engine']}",
        (
            Text("Invented for this lab. On a real machine the maker's bands and order of tests come first."),
            Text("Each task shows what it needs. Write between the quotes, check the form, compare."),
        ),
    )


LAB = Lab(
    id="07",
    title="Windings and wiring",
    question="Is this winding good, open, shorted, or just cold, and how do I find a fault that hides "
    "behind a good "
    "module?",
    minutes=60,
    aim="Correct a reading before it is judged, say honestly when the meter cannot decide, and look outside "
    "the "
    "module before the module is bought.",
    usual_errors="Leads not taken off; a hot reading held against a cold band; a reading inside the band "
    "taken as "
    "proof; two paths side by side added up; the module replaced for a chafed stop lead.",
    tasks=(
        lab07_safety.TASK,
        lab07_correct.TASK,
        lab07_judge.TASK,
        lab07_find.TASK,
        *lab07_stop.TASKS,
        lab07_formulas.TASK,
    ),
    draw=draw,
    show=show_lab,
    rubric="All of it is marked by the checker; nothing is left to a person. The optional function earns no "
    "points "
    "and is tried at the learner's desk only.",
    renewal="Another attempt number draws another machine. Readings of faulty modules are computed from the "
    "ignition "
    "model in lab07_find.py: a further fault is one more entry of FAULTS. Stop-circuit cases are CASES in "
    "lab07_stop.py.",
    optional=(lab07_own.TO_20,),
)
