"""Lab 04, the spark: safe test, a trace read, breakdown under compression, margin, tester gap, in-line
flash."""

from __future__ import annotations

from typing import Any

from twostroke.lab import (
    lab04_demand,
    lab04_explain,
    lab04_flash,
    lab04_margin,
    lab04_safety,
    lab04_tester,
    lab04_trace,
)
from twostroke.lab.draw import Draw, Variant
from twostroke.lab.page import Page, Text
from twostroke.lab.task import Lab

MACHINES = ("hedge trimmer", "line trimmer", "leaf blower", "brush cutter", "pole pruner", "water pump")


def draw(d: Draw) -> dict[str, Any]:
    """Draw one learner's machine; whole numbers in the unit that the name says."""
    return {
        "machine": d.pick("machine", MACHINES),
        "engine": d.pick("letter", "ABCDEFGH"),
        "trace_rpm": d.pick("rpm", lab04_trace.SPEEDS),
        "trace_hundredths_kV": d.pick("tester", lab04_trace.DEMANDS),
        "first_spark_tenths_ms": d.integer("first", 120, 480),
        "slower_percent": [d.integer("before", 12, 26), d.integer("after", 14, 30)],
        "plug_gap_hundredths_mm": d.integer("plug gap", 45, 70),
        "gauge_tenths_bar": d.integer("gauge", 38, 60),
        "charge_degC": d.integer("charge", 120, 180, 5),
        "magnet_percent": d.pick("magnet", (60, 70, 100)),
        "jumps_tenths_mm": d.pick("jumps", (40, 60, 120)),
    }


def show_lab(v: Variant) -> Page:
    """The machine of this learner."""
    return Page(
        f"Your machine: {v['machine']}, demo engine {v['engine']}",
        (
            Text("Invented for this lab; its traces and voltages are computed. "
                 "On a real machine the maker's manual comes first."),
            Text("Each task shows what it needs. Write between the quotes, check the form, compare."),
        ),
    )  # fmt: skip


LAB = Lab(
    id="04",
    title="The spark",
    question="Where does the energy of a spark come from, and why does a plug that fires in open air fail "
    "under "
    "compression?",
    minutes=60,
    aim="Test for spark safely, read a trace, and hold what the module gives against what the plug asks for "
    "under compression.",
    usual_errors="A spark in open air taken as proof; gauge pressure for absolute; temperature left out; "
    "the plug "
    "gap set on the tester; an in-line flash taken for a plug that fires.",
    tasks=(
        lab04_safety.TASK,
        lab04_trace.TASK,
        lab04_demand.TASK,
        lab04_margin.TASK,
        lab04_tester.TASK,
        lab04_flash.TASK,
        lab04_explain.TASK,
    ),
    draw=draw,
    show=show_lab,
    rubric="All but the last task is marked by the checker. The written one is marked by a person with "
    "autograde/rubrics/lab04_explain.md: what each point looks for, with examples.",
    renewal="Another attempt number draws another machine. Speeds and demands of the traces are lists in "
    "lab04_trace.py, so that traces are computed once each; a further speed is one more entry, away from "
    "the rows of "
    "the table in lab04_margin.py.",
)
