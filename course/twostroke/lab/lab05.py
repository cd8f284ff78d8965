"""Lab 05, air gap, key and timing: key offset, shims, both legs, run-out, starting speed, order of
setting."""

from __future__ import annotations

from typing import Any

from twostroke.lab import lab05_formulas, lab05_key, lab05_legs, lab05_safety, lab05_shims, lab05_speed
from twostroke.lab.draw import Draw, Variant
from twostroke.lab.page import Page, Text
from twostroke.lab.task import Lab

MACHINES = ("hedge trimmer", "line trimmer", "leaf blower", "brush cutter", "pole pruner", "water pump")


def draw(d: Draw) -> dict[str, Any]:
    """Draw one learner's machine; whole numbers in the unit that the name says."""
    low = d.integer("low", 20, 26)
    width = d.pick("width", (8, 10, 12, 14))
    middle = low + width // 2
    lean = d.pick("lean", (2, 3, 4, 5))
    mean = middle + d.integer("off middle", -3, 3)
    return {
        "machine": d.pick("machine", MACHINES),
        "engine": d.pick("letter", "ABCDEFGH"),
        "shaft_tenths_mm": d.integer("shaft", 80, 120),
        "offset_hundredths_mm": d.integer("offset", 40, 150, 5),
        "maker_deg": d.integer("maker", 22, 30),
        "late": d.pick("way", (True, False)),
        "low_hundredths_mm": low,
        "high_hundredths_mm": low + width,
        "leaves_hundredths_mm": lab05_shims.draw(d),
        "leaf_uncertainty_um": d.integer("leaf", 3, 6),
        "leg_1_hundredths_mm": mean + lean,
        "leg_2_hundredths_mm": mean - lean,
        "run_out_hundredths_mm": d.pick("run-out", (4, 6, 10, 12, 16)),
        "wide_hundredths_mm": d.integer("wide", 57, 63),
        "demand_kV": d.pick("demand", (7, 8, 9)),
        "magnet_percent": d.pick("magnet", (90, 95, 100)),
        "pull_rpm": d.integer("pull", 380, 860, 10),
    }


def show_lab(v: Variant) -> Page:
    """The machine of this learner."""
    return Page(
        f"Your machine: {v['machine']}, demo engine {v['engine']}",
        (
            Text("Invented for this lab. On a real machine the maker's gap, torque and timing come first."),
            Text("Each task shows what it needs. Write between the quotes, check the form, compare."),
        ),
    )


LAB = Lab(
    id="05",
    title="Air gap, key and timing",
    question="What does 0.1 mm more between magnet and module do, how do I set it with a shim, and what "
    "does a "
    "sheared key change?",
    minutes=50,
    aim="Set an air gap that is right at both legs and all round, and tell what a key and a gap change "
    "and what not.",
    usual_errors="Shaft diameter for radius; the whole run-out taken off instead of half; a sheared key "
    "blamed for a "
    "weak spark; the gap measured before the screws are tight.",
    tasks=(
        lab05_key.TASK,
        lab05_shims.TASK,
        lab05_legs.TASK,
        lab05_speed.TASK,
        lab05_formulas.TASK,
        *lab05_safety.TASKS,
    ),
    draw=draw,
    show=show_lab,
    rubric="All of it is marked by the checker; nothing is left to a person. A stack inside the band that "
    "is not the "
    "nearest to its middle earns half, one with more leaves than needed three quarters.",
    renewal="Another attempt number draws another machine. Ranges stand in draw(), leaves of the set in "
    "lab05_shims.py (all thinner than the band, so that a stack is needed). Starting speeds are computed "
    "by the "
    "ignition model; other gaps are one more entry of GAPS in lab05_speed.py.",
)
