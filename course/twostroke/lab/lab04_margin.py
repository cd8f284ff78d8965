"""Lab 04: what the module gives at cranking speed, held against what the plug asks for."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

from twostroke.lab.draw import Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.lab04_demand import open_air
from twostroke.lab.lab04_trace import own_speed
from twostroke.lab.number import Number
from twostroke.lab.page import Page, Table, Text
from twostroke.lab.pick import Option
from twostroke.lab.ruling import Ruling
from twostroke.lab.slips import slip
from twostroke.lab.task import Task
from twostroke.lab.tolerance import Tolerance, tolerance

ROWS = (400, 600, 800, 1000)
"""Speeds of the table, rpm."""
SPREAD = 0.30
"""How well the demand in a cylinder is known; as `breakdown.IN_CYLINDER_SPREAD`."""


@lru_cache(maxsize=16)
def gives(magnet_percent: int) -> tuple[float, ...]:
    """Peak voltage at the speeds of the table in kV, to 0.1 kV, from the ignition model."""
    from twostroke.ignition import Ignition, available

    found = available(Ignition(magnet_factor=magnet_percent / 100), [float(each) for each in ROWS])
    return tuple(round(float(each) / 1e3, 1) for each in found.voltage[0])


def _gives(v: Variant) -> tuple[float, ...]:
    return gives(v["magnet_percent"])


def _between(v: Variant, rpm: float) -> float:
    """From the table by a straight line between rows; the end rows beyond them."""
    table = _gives(v)
    if rpm <= ROWS[0]:
        return table[0]
    for place in range(1, len(ROWS)):
        low, high = ROWS[place - 1], ROWS[place]
        if rpm <= high:
            return table[place - 1] + (table[place] - table[place - 1]) * (rpm - low) / (high - low)
    return table[-1]


def _row(v: Variant, above: int) -> float:
    place = sum(1 for each in ROWS if each <= v["trace_rpm"]) - 1
    return _gives(v)[place + above]


def _margin(v: Variant, own: Any) -> float:
    return float(own["margin.available"] - own["demand.kilovolts"])


def _verdict(v: Variant, own: Any) -> str:
    margin, demand = own["margin.kilovolts"], own["demand.kilovolts"]
    if abs(margin) <= SPREAD * demand:
        return "cannot_say"
    return "fires" if margin > 0 else "fails"


_LOOK = "Take 30 per cent of what the plug asks for, and hold your margin against it, on both sides."


def _option(name: str, text: str, seen: str, suggests: str, misconception: str) -> Option:
    return Option(name, text, misconception=misconception, feedback=Feedback(seen, suggests, _LOOK))


VERDICT = Ruling(
    "verdict",
    "what you can say",
    (
        _option("fires",
                "It fires: the margin is larger than the 30 per cent by which the demand may be wrong.",
                "It is said to fire.", "A margin was trusted that is smaller than what is not known, or "
                "none.",
                "undecided_is_bad"),
        _option("fails", "It does not fire: it falls short by more than those 30 per cent.",
                "It is said to fail.", "A shortfall was trusted that is smaller than what is not known, "
                "or none.",
                "undecided_is_bad"),
        _option("cannot_say",
                "It cannot be said from these figures: the margin is smaller than those 30 per cent.",
                "It is left open.", "The margin is larger than what is not known.", "undecided_is_safe"),
    ),
    fixed=True,
    share=2,
    rule=_verdict,
)  # fmt: skip


def _show(v: Variant) -> Page:
    rows = [(f"{rpm} rpm", f"{each:.1f} kV") for rpm, each in zip(ROWS, _gives(v), strict=True)]
    table = Table(
        f"Module of demo engine {v['engine']} with a plug that does not fire (computed)",
        ("speed", "peak voltage at the plug"),
        rows,
    )
    lead = "Use your own cranking speed from the trace, and your own demand under compression."
    return Page("", (Text(lead), table, Text("What can you say?"), VERDICT.options_block(v)))


def _close(v: Variant) -> Tolerance:
    table = _gives(v)
    slope = (table[1] - table[0]) / (ROWS[1] - ROWS[0])
    return tolerance(
        0.1, (1, 0.05), (slope, 5), (1, 0.1),
        reason="half a step of 0.1 kV, the table's rounding, the speed to half of 10 rpm, the bend "
        "between rows",
    )  # fmt: skip


TASK = Task(
    id="margin",
    title="Margin at cranking speed",
    outcome="hold what the module gives at cranking speed against what the plug asks for",
    kind="table",
    points=4,
    competency="spark testing",
    show=_show,
    items=(
        Number(
            "available", "what the module gives at your cranking speed", "kV",
            lambda v, own: _between(v, own_speed(own)), _close, 0, 200,
            (
                slip("row_below", lambda v, own: _row(v, 0),
                     "The row below your speed.", "A row was taken as it stands.",
                     "How far is it from that row to your speed? Take that part of the way.",
                     misconception="nearest_row_is_enough", share=0.5),
                slip("row_above", lambda v, own: _row(v, 1),
                     "The row above your speed.", "A row was taken as it stands.",
                     "How far is it from the row below to your speed? Take that part of the way.",
                     misconception="nearest_row_is_enough", share=0.5),
                slip("highest_row", lambda v, own: None if v["trace_rpm"] > ROWS[-2] else _gives(v)[-1],
                     "The last row of the table.", "The best the module can do was taken.",
                     "At which speed did your pull turn it?", misconception="best_case_counts"),
                slip("middle_of_rows", lambda v, own: (_row(v, 0) + _row(v, 1)) / 2,
                     "Half-way between two rows.", "The middle was taken, wherever your speed lies.",
                     "Is your speed half-way between the two, or nearer to one?",
                     misconception="nearest_row_is_enough", share=0.5),
            ),
            Feedback("It does not lie where your speed does.", "The part between the rows may be off.",
                     "Is your figure between those of the row below and the row above?"),
            1, any_unit=True, share=1,
        ),
        Number(
            "kilovolts", "margin: what it gives less what the plug asks for", "kV", _margin, _close, -200,
            200,
            (
                slip("sum_as_margin", lambda v, own: own["margin.available"] + own["demand.kilovolts"],
                     "Both together.", "They were added where one is to be taken off.",
                     "If both are alike, how much is left over?", misconception="total_as_change"),
                slip("open_air_spark_proves", lambda v, own: own["margin.available"] - open_air(v),
                     "The margin in open air.", "What the plug asks for in open air was taken off.",
                     "Where is the plug when the engine is to start?"),
                slip("available_as_margin", lambda v, own: own["margin.available"],
                     "All that the module gives.", "Nothing was taken off.",
                     "How much of it does the plug use up?", misconception="total_as_change"),
            ),
            Feedback("It does not follow from your own two figures.", "The sum may have gone astray.",
                     "Your kilovolts from the table, less your kilovolts under compression; below zero if "
                     "short."),
            1, any_unit=True, share=1,
        ),
        VERDICT,
    ),
)  # fmt: skip
