"""Lab 08, compression and sealing: expected reading, wet and dry, pressure decay, three engines judged."""

from __future__ import annotations

import math
from typing import Any

from twostroke.lab import lab08_formulas, lab08_judge, lab08_leaks, lab08_own, lab08_test
from twostroke.lab.draw import Draw, Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.lab01 import AIR, between_rows
from twostroke.lab.number import Number
from twostroke.lab.page import Page, Table, Text
from twostroke.lab.ratio import Ratio
from twostroke.lab.slips import slip
from twostroke.lab.task import Lab, Task
from twostroke.lab.tolerance import tolerance

MACHINES = ("chain saw", "cut-off saw", "line trimmer", "leaf blower", "brush cutter", "earth auger")
SEA_LEVEL_BAR = 1.01325
"""Standard pressure at sea level in bar (ISO 2533:1975)."""
EXPONENT = 1.25
"""Exponent when cranking: usual range 1.2 to 1.35 (common practice, no source)."""
FACTORS = {ratio: round(ratio**EXPONENT, 2) for ratio in (4, 5, 6, 7, 8)}


def draw(d: Draw) -> dict[str, Any]:
    """Draw one learner's engine and readings; whole numbers in the unit that the name says."""
    bore, height = d.integer("bore", 340, 420), d.integer("height", 170, 215)
    ratio = d.pick("whole ratio", (5, 6)) + d.integer("tenths of ratio", 4, 6) / 10
    swept = math.pi / 4 * bore**2 * height / 1e6
    given: dict[str, Any] = {
        "machine": f"{d.pick('machine', MACHINES)}, demo engine {d.pick('letter', 'ABCDEFGH')}",
        "bore_tenths_mm": bore,
        "height_tenths_mm": height,
        "stroke_tenths_mm": height + d.integer("below the port", 90, 125),
        "clearance_tenths_mL": round(10 * swept / (ratio - 1)),
        "altitude_m": d.integer("row", 1500, 2500, 500) + d.integer("above row", 100, 400, 50),
    }
    return given | lab08_leaks.draw(d) | lab08_judge.draw(d, given["altitude_m"])


def show_lab(v: Variant) -> Page:
    """The engine of this learner."""
    return Page(
        f"Your engine: {v['machine']}",
        (
            Text("Invented for this lab. On a real machine the maker's manual comes first."),
            Text(f"Your workshop lies at {v['altitude_m']} m."),
        ),
    )


def _area(v: Variant) -> float:
    """Area of the bore in cm²."""
    return math.pi / 4 * (v["bore_tenths_mm"] / 100) ** 2


def _squeezed(v: Variant) -> float:
    """Volume from port closing to the top, in mL."""
    return float(_area(v) * v["height_tenths_mm"] / 100)


def _clearance(v: Variant) -> float:
    return float(v["clearance_tenths_mL"]) / 10


def _whole(v: Variant) -> float:
    """Clearance and the whole stroke, in mL."""
    return float(_clearance(v) + _area(v) * v["stroke_tenths_mm"] / 100)


def _size_page(v: Variant) -> Page:
    rows = (
        ("bore", f"{v['bore_tenths_mm'] / 10:.1f} mm", "±0.05 mm"),
        ("stroke", f"{v['stroke_tenths_mm'] / 10:.1f} mm", "±0.05 mm"),
        ("travel from exhaust port closing to the top", f"{v['height_tenths_mm'] / 10:.1f} mm", "±0.05 mm"),
        ("volume above the piston at the top (oil from a burette)", f"{_clearance(v):.1f} mL", "±0.05 mL"),
    )
    return Page("", (Table("Measured on your engine", ("what", "reading", "to"), rows),))


SIZE = Task(
    id="size",
    title="What is trapped, and how far it is squeezed",
    outcome="work out trapped volume and trapped ratio from four readings",
    kind="value",
    points=4,
    competency="compression and sealing",
    show=_size_page,
    items=(
        Number(
            "trapped", "trapped volume", "mL", lambda v, own: _clearance(v) + _squeezed(v),
            lambda v: tolerance(
                0.1, (2 * _squeezed(v) / (v["bore_tenths_mm"] / 10), 0.05), (_area(v) / 10, 0.05), (1, 0.05),
                reason="half a step of 0.1 mL, and what the three readings leave open",
            ),
            0, 400,
            (
                slip("diameter_as_radius", lambda v, own: _clearance(v) + 4 * _squeezed(v),
                     "Nearly four times what fits in there.", "The bore went into the formula as the radius.",
                     "Is the bore measured across the whole circle or from its middle?"),
                slip("stroke_as_port_closing_stroke", lambda v, own: _whole(v),
                     "The volume at the bottom.", "The whole stroke was taken.",
                     "Where does the piston stand when the exhaust port has just closed?"),
                slip("clearance_left_out", lambda v, own: _squeezed(v),
                     "Only what the piston sweeps.",
                     "The room that is left above it at the top is not in it.",
                     "What is still above the piston at the top?", share=0.5),
                slip("port_height_turned_round",
                     lambda v, own: _clearance(v)
                     + _area(v) * (v["stroke_tenths_mm"] - v["height_tenths_mm"]) / 100,
                     "The part of the stroke below the port.", "The travel was measured from the bottom.",
                     "Which part of the stroke squeezes: above or below the port's upper edge?",
                     misconception="height_from_bottom"),
            ),
            Feedback("The volume fits neither your readings nor a usual slip.",
                     "A factor of ten or a square may be off.",
                     "Work in centimetres throughout: then the volume comes out in millilitres."),
            1, any_unit=True, share=2,
        ),
        Ratio(
            "ratio", "trapped ratio", ":1", lambda v, own: own["size.trapped"] / _clearance(v),
            lambda v: tolerance(
                0.1, (1 / _clearance(v), 0.06), (_squeezed(v) / _clearance(v) ** 2, 0.05),
                reason="half a step of 0.1, and what volume and burette leave open",
            ),
            0, 100,
            (
                slip("geometric_as_trapped", lambda v, own: _whole(v) / _clearance(v),
                     "The ratio of the whole stroke.", "The geometric ratio was given.",
                     "Is anything squeezed before the exhaust port closes?"),
                slip("swept_over_clearance", lambda v, own: own["size.trapped"] / _clearance(v) - 1,
                     "Just one too small.", "The swept part was divided, not the whole trapped volume.",
                     "Ratio of what to what: is the room at the top in both?",
                     misconception="clearance_left_out", share=0.5),
                slip("top_twice", lambda v, own: own["size.trapped"] / _clearance(v) + 1,
                     "Just one too large.", "The room at the top was added to a volume that holds it "
                     "already.",
                     "Which volume did you measure from: the swept one or the trapped one?",
                     misconception="clearance_left_out"),
            ),
            Feedback("It does not follow from your two volumes.", "Another volume may have been used.",
                     "Multiply your ratio by the volume at the top: is it your trapped volume?"),
            1, share=2,
        ),
    ),
)  # fmt: skip


def _expected_page(v: Variant) -> Page:
    air = [(f"{row} m", f"{pressure} hPa") for row, pressure in AIR.items()]
    factors = [(f"{ratio}:1", f"{factor:.2f}") for ratio, factor in FACTORS.items()]
    return Page(
        "",
        (
            Text(f"Your workshop lies at {v['altitude_m']} m. A tight engine squeezes the air around it; "
                 "absolute pressure goes up by the factor of the second table."),
            Table("Pressure of the standard atmosphere (ISO 2533)", ("altitude", "pressure of the air"), air),
            Table("Factor when pulled by hand: ratio to the power 1.25 (common practice, no source)",
                  ("trapped ratio", "factor"), factors),
            Text("The gauge has little room behind its valve and is pumped up until the needle is steady."),
        ),
    )  # fmt: skip


def _air(v: Variant, own: Any) -> float:
    low, high, part = between_rows(v)
    return low + (high - low) * part


def factor(ratio: float) -> float:
    """Return the factor of the table, between two rows a part of the way; outside it the last two rows."""
    row = min(max(int(ratio), 4), 7)
    return FACTORS[row] + (FACTORS[row + 1] - FACTORS[row]) * (ratio - row)


def _row(own: Any) -> int:
    return min(max(int(own["size.ratio"]), 4), 7)


EXPECTED = Task(
    id="expected",
    title="What the gauge should show here",
    outcome="work out the reading of a tight engine at the altitude of the workshop",
    kind="table",
    points=5,
    competency="compression and sealing",
    show=_expected_page,
    items=(
        Number(
            "air", "pressure of the air, from the table", "hPa", _air,
            tolerance(1, (1, 0.5), reason="half a step of 1 hPa, and the rounding of the table"), 300, 1100,
            (
                slip("sea_level_everywhere", lambda v, own: SEA_LEVEL_BAR * 1000,
                     "The pressure at sea level.", "The altitude of the workshop was left out.",
                     "Which two rows of the table does your altitude lie between?"),
                slip("row_below", lambda v, own: float(between_rows(v)[0]),
                     "The figure of the row below your altitude.", "A row was taken as it stands.",
                     "How far is it from that row to your altitude? Take that part of the way.",
                     misconception="nearest_row_is_enough", share=0.5),
                slip("row_above", lambda v, own: float(between_rows(v)[1]),
                     "The figure of the row above your altitude.", "A row was taken as it stands.",
                     "How far is it from the row below to your altitude? Take that part of the way.",
                     misconception="nearest_row_is_enough", share=0.5),
            ),
            Feedback("The figure does not lie where your altitude does.",
                     "The part between the two rows may be off.",
                     "Is your figure between those of the row below and the row above?"),
            0, any_unit=True,
        ),
        Number(
            "factor", "factor, from the table", "", lambda v, own: factor(own["size.ratio"]),
            tolerance(0.1, (2.0, 0.05), reason="half a step of 0.1, and a ratio known to 0.1"), 0, 60,
            (
                slip("ratio_is_pressure", lambda v, own: own["size.ratio"],
                     "The ratio itself.", "Pressure was taken to rise just as the volume shrinks.",
                     "Squeezed air also warms: does its pressure rise less or more than that?"),
                slip("row_below", lambda v, own: FACTORS[_row(own)],
                     "The factor of the row below your ratio.", "A row was taken as it stands.",
                     "How far is it from that row to your ratio?",
                     misconception="nearest_row_is_enough", share=0.5),
                slip("row_above", lambda v, own: FACTORS[_row(own) + 1],
                     "The factor of the row above your ratio.", "A row was taken as it stands.",
                     "How far is it from the row below to your ratio?",
                     misconception="nearest_row_is_enough", share=0.5),
                slip("geometric_as_trapped", lambda v, own: factor(_whole(v) / _clearance(v)),
                     "The factor of a much higher ratio.",
                     "The ratio of the whole stroke went into the table.",
                     "Which of the two ratios counts when you pull?"),
            ),
            Feedback("The factor does not belong to your ratio.", "Another row may have been read.",
                     "Is it between the factors of the rows below and above your ratio?"),
            2,
        ),
        Number(
            "reading", "reading of the gauge", "bar",
            lambda v, own: own["expected.air"] / 1000 * (own["expected.factor"] - 1),
            tolerance(0.1, (0.95, 0.06), reason="half a step of the gauge's 0.1 bar, and the factor to 0.1"),
            -2, 2000,
            (
                slip("gauge_is_absolute", lambda v, own: own["expected.air"] / 1000 * own["expected.factor"],
                     "Almost one bar too much.", "The absolute pressure was given.",
                     "What does the gauge show before the first pull?"),
                slip("sea_level_everywhere", lambda v, own: SEA_LEVEL_BAR * (own["expected.factor"] - 1),
                     "What this engine shows at sea level.", "The thin air of your workshop was left out.",
                     "Which air does your engine draw in?"),
                slip("air_of_sea_level_taken_off",
                     lambda v, own: own["expected.air"] / 1000 * own["expected.factor"] - SEA_LEVEL_BAR,
                     "A little too little.", "The air of sea level was taken off, not yours.",
                     "Which air presses on the back of the gauge in your workshop?",
                     misconception="sea_level_everywhere", share=0.5),
            ),
            Feedback("It does not follow from your air and your factor.", "A unit may have been left behind.",
                     "Write the air in bar first. Then: absolute pressure, and from there to the gauge."),
            1, any_unit=True, reference="gauge", share=2,
        ),
    ),
)  # fmt: skip

LAB = Lab(
    id="08",
    title="Compression and sealing",
    question="Is 100 psi good at 1 500 m? Where does the pressure go?",
    minutes=60,
    aim="Say beforehand what a tight engine must show here, measure it properly and safely, and find "
    "where the "
    "pressure goes.",
    usual_errors="Whole stroke for the stroke above the port; gauge for absolute; sea-level limits on a "
    "hill; a "
    "reading beside the limit taken for exact; half pulls with the throttle shut.",
    tasks=(
        SIZE,
        EXPECTED,
        lab08_leaks.WETDRY,
        lab08_leaks.DECAY,
        lab08_judge.TASK,
        lab08_formulas.TASK,
        *lab08_test.TASKS,
    ),
    draw=draw,
    show=show_lab,
    optional=(lab08_own.LEAK,),
    rubric="All of it is marked by the checker; nothing is left to a person. Shares of a slip stand "
    "beside it and "
    "are told to the learner.",
    renewal="Another attempt number draws another engine. Ranges of the sizes stand in draw(); cases of "
    "the wet "
    "test and the places of a leak are tables in lab08_leaks.py; engines to judge come from lab08_judge.py.",
)
