"""Lab 09, fuel, air and exhaust: old can, storage, screen or mixture, plugs read, starved or flooded."""

from __future__ import annotations

from typing import Any

from twostroke.lab import (
    lab09_formulas,
    lab09_plugs,
    lab09_safety,
    lab09_screen,
    lab09_starved,
    lab09_storage,
)
from twostroke.lab.draw import Draw, Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.number import Number
from twostroke.lab.page import Caution, Page, Table, Text
from twostroke.lab.slips import slip
from twostroke.lab.task import Lab, Task
from twostroke.lab.tolerance import Tolerance, tolerance

MACHINES = ("hedge trimmer", "line trimmer", "leaf blower", "brush cutter", "chain saw", "water pump")
RATIOS = ((20, 40), (20, 50), (25, 40), (25, 50), (32, 50))
"""What is in the can, and what the machine wants; the maker's manual comes first."""


def draw(d: Draw) -> dict[str, Any]:
    """Draw one learner's can, fuel, plugs and readings; whole numbers in the unit that the name says."""
    old, wanted = d.pick("ratios", RATIOS)
    given: dict[str, Any] = {
        "machine": f"{d.integer('cc', 21, 60)} cm³ {d.pick('machine', MACHINES)}, "
        f"demo engine {d.pick('letter', 'ABCDEFGH')}",
        "mix_mL": d.integer("mix", 1500, 3000, 10),
        "old_ratio": old,
        "wanted_ratio": wanted,
    }
    parts = (lab09_storage, lab09_screen, lab09_plugs, lab09_starved)
    for part in parts:
        given |= part.draw(d)
    return given


def show_lab(v: Variant) -> Page:
    """The machine of this learner."""
    return Page(
        f"Your machine: {v['machine']}",
        (Text("Invented for this lab. On a real machine the maker's manual comes first."),),
    )


def _mix_page(v: Variant) -> Page:
    rows = (
        ("mixture left in the can, to ±5 mL", f"{v['mix_mL'] / 1000:.2f} L"),
        ("mixed last month at", f"{v['old_ratio']}:1"),
        ("this machine wants", f"{v['wanted_ratio']}:1"),
    )
    return Page(
        "",
        (
            Caution("Pour fuel outdoors, cold engine, can on the ground, no flame or spark near."),
            Table("The old can", ("what", "given"), rows),
            Text("How much oil is in it, and how much plain fuel brings it to what this machine wants?"),
        ),
    )


def _fuel(v: Variant, oil: float) -> float:
    """Fuel in the old mixture in mL, with that oil in it."""
    return float(v["mix_mL"]) - oil


def _add(v: Variant, oil: float) -> float:
    """Plain fuel to add in L."""
    return (oil * v["wanted_ratio"] - _fuel(v, oil)) / 1000


def _oil_close(v: Variant) -> Tolerance:
    return tolerance(
        1, (1 / (v["old_ratio"] + 1), 5), reason="half a step of 1 mL, and the can read to ±5 mL"
    )


def _add_close(v: Variant) -> Tolerance:
    return tolerance(
        0.01, (_add(v, v["mix_mL"] / (v["old_ratio"] + 1)) / v["mix_mL"], 5),
        reason="half a step of 10 mL, and the can read to ±5 mL",
    )  # fmt: skip


MIX = Task(
    id="mix",
    title="A can mixed for another machine",
    outcome="bring an old mixture to another ratio with plain fuel",
    kind="value",
    points=4,
    competency="fuel, air and exhaust",
    show=_mix_page,
    items=(
        Number(
            "oil", "oil in the old mixture", "mL",
            lambda v, own: v["mix_mL"] / (v["old_ratio"] + 1), _oil_close, 0, 1_000_000,
            (
                slip("ratio_of_mix", lambda v, own: v["mix_mL"] / v["old_ratio"],
                     "A little more oil than there is.", "The mixture was taken for the fuel alone.",
                     "How many parts has the finished mixture, fuel and oil together?", share=0.5),
                slip("ratio_as_percent", lambda v, own: v["mix_mL"] * v["old_ratio"] / 100,
                     "Oil enough to drown an engine.", "The first number was read as per cent.",
                     "A ratio says parts of fuel to one part of oil."),
                slip("ratio_turned_round",
                     lambda v, own: v["mix_mL"] * v["old_ratio"] / (v["old_ratio"] + 1),
                     "Nearly the whole can is oil.", "The fuel was given, not the oil.",
                     "Which of the two has one part only?"),
            ),
            Feedback("It fits neither your can nor a usual slip.", "The wrong ratio may have been used.",
                     "Which ratio was it mixed at, and how many parts is that in all?"),
            1, any_unit=True,
        ),
        Number(
            "add", "plain fuel to add", "L", lambda v, own: _add(v, own["mix.oil"]), _add_close, -10, 1000,
            (
                slip("needed_for_missing", lambda v, own: own["mix.oil"] * v["wanted_ratio"] / 1000,
                     "All the fuel that this oil can serve.", "The fuel that is in the can was forgotten.",
                     "How much of that fuel is in the can already?",
                     misconception="level_for_change"),
                slip("mix_counts_as_fuel",
                     lambda v, own: v["mix_mL"] * (v["wanted_ratio"] / v["old_ratio"] - 1) / 1000,
                     "A little too much fuel.", "The mixture in the can was taken for fuel alone.",
                     "How much of what is in the can is fuel?", misconception="ratio_of_mix", share=0.5),
                slip("share_of_new",
                     lambda v, own: v["mix_mL"] * (1 - v["old_ratio"] / v["wanted_ratio"]) / 1000,
                     "Far too little fuel.", "The difference of the ratios was set against the new one.",
                     "Count parts: for each part of oil, how many parts of fuel are missing?",
                     misconception="share_of_the_wrong_whole"),
            ),
            Feedback("It does not follow from your oil.", "Fuel in the can and fuel needed were mixed up.",
                     "How much fuel does that oil want? How much fuel is with it now?"),
            2, any_unit=True, share=2,
        ),
    ),
)  # fmt: skip

LAB = Lab(
    id="09",
    title="Fuel, air and exhaust",
    question="Wet plug, dry plug, flooded, starved, choked by its own exhaust: what does each prove?",
    minutes=60,
    aim="Handle fuel safely, tell a blocked screen from a wrong mixture by readings, read plugs without "
    "jumping "
    "to a verdict, and test a starved engine from the tank on.",
    usual_errors="A wet plug taken for too much fuel; mixture screws turned before anything was measured; "
    "the mixture taken for plain fuel; Fahrenheit read as Celsius.",
    tasks=(
        *lab09_safety.TASKS,
        MIX,
        lab09_storage.TASK,
        lab09_screen.TASK,
        lab09_plugs.TASK,
        lab09_starved.STATE,
        lab09_starved.ORDER,
        lab09_formulas.TASK,
    ),
    draw=draw,
    show=show_lab,
    rubric="All of it is marked by the checker; nothing is left to a person. Shares of a slip stand "
    "beside it "
    "and are told to the learner.",
    renewal="Another attempt number draws another can, another shed and other plugs. A new kind of plug "
    "is one "
    "more row in lab09_plugs.py, a new set of evidence one more in lab09_starved.py.",
)
