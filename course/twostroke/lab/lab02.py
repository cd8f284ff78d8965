"""Lab 02, the two-stroke cycle: displacement, ratios, piston against crank angle, port timing, advance."""

from __future__ import annotations

from typing import Any

from twostroke.lab import lab02_formulas, lab02_ports, lab02_safety, lab02_sizes
from twostroke.lab.draw import Draw, Variant
from twostroke.lab.page import Page, Text
from twostroke.lab.task import Lab

MACHINES = ("hedge trimmer", "line trimmer", "leaf blower", "brush cutter", "pole pruner", "water pump")


def draw(d: Draw) -> dict[str, Any]:
    """Draw one learner's engine; whole numbers in the unit that the name says."""
    bore = d.integer("bore", 300, 420)
    stroke = d.integer("stroke", 260, 340)
    throw = stroke / 20
    swept = 3.1416 / 4 * bore * bore * stroke / 1e6
    exhaust = d.integer("exhaust", 100, 112)
    transfer = exhaust + d.integer("blowdown", 9, 15)
    return {
        "machine": d.pick("machine", MACHINES),
        "engine": d.pick("letter", "ABCDEFGH"),
        "bore_tenths_mm": bore,
        "stroke_tenths_mm": stroke,
        "rod_tenths_mm": round(throw * 10 * d.integer("rod", 360, 420) / 100),
        "clearance_tenths_mL": round(swept / (d.integer("ratio", 68, 92) / 10 - 1) * 10),
        "exhaust_deg": exhaust,
        "transfer_deg": transfer,
        "angle_deg": d.pick("ten", (20, 30, 40)) + d.integer("unit", 3, 7),
        "advance_hundredths_mm": d.integer("advance", 130, 270),
    }


def show_lab(v: Variant) -> Page:
    """The engine of this learner."""
    return Page(
        f"Your engine: {v['machine']}, demo engine {v['engine']}",
        (
            Text("Invented for this lab. On a real machine the maker's manual comes first."),
            Text("Each task shows what it needs. Write between the quotes, check the form, compare."),
        ),
    )


LAB = Lab(
    id="02",
    title="The two-stroke cycle",
    question="Where are the ports, the piston and the pressure at each degree of crank?",
    minutes=50,
    aim="Turn measured heights into angles and ratios, and see why only the trapped part of the stroke "
    "compresses.",
    usual_errors="Diameter for radius; the whole stroke taken for the part after the port has closed; angle "
    "taken "
    "in proportion to the stroke; the port's duration counted on one side only.",
    tasks=(
        lab02_sizes.DISPLACEMENT,
        lab02_sizes.RATIOS,
        lab02_ports.PISTON,
        lab02_ports.PORTS,
        lab02_ports.ADVANCE,
        lab02_formulas.TASK,
        lab02_safety.TASK,
    ),
    draw=draw,
    show=show_lab,
    rubric="All of it is marked by the checker; nothing is left to a person. A row of the table taken as it "
    "stands "
    "earns half, the right number with a wrong unit a quarter.",
    renewal="Another attempt number draws another engine. Ranges stand in draw(); they must keep every slip "
    "apart "
    "from the right value (twostroke lab check 02 says where they do not). A further port is one more pair "
    "of "
    "steps in lab02_ports.py.",
)
