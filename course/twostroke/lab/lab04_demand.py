"""Lab 04: what a plug gap asks for, in open air and under compression."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

from twostroke import breakdown
from twostroke.lab.draw import Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.number import Number
from twostroke.lab.page import Lines, Page, Table, Text
from twostroke.lab.slips import slip
from twostroke.lab.task import Task
from twostroke.lab.tolerance import Tolerance, tolerance

AIR = 1.01
"""Pressure of the air around, bar absolute, as given to the learner."""
TWENTY = 293.15


def plug_gap(v: Variant) -> float:
    """Plug gap in mm."""
    return float(v["plug_gap_hundredths_mm"]) / 100


def kilovolts(gap_mm: float, bar: float) -> float:
    """Breakdown voltage in kV of a gap in air of this absolute pressure at 20 °C, worn electrodes."""
    return _kilovolts(round(gap_mm, 6), round(bar, 9))


@lru_cache(maxsize=4096)
def _kilovolts(gap_mm: float, bar: float) -> float:
    if bar <= 0:
        return 0.0
    return float(breakdown.voltage(f"{gap_mm} mm", f"{bar} bar", "20 degC").to("kV").magnitude)


def open_air(v: Variant) -> float:
    """Demand in open air, kV."""
    return kilovolts(plug_gap(v), AIR)


def _absolute(v: Variant) -> float:
    return float(v["gauge_tenths_bar"]) / 10 + AIR


def _kelvin(v: Variant) -> float:
    return float(v["charge_degC"]) + 273.15


def _at_twenty(v: Variant) -> float:
    return _absolute(v) * TWENTY / _kelvin(v)


def _show(v: Variant) -> Page:
    rows = (
        ("plug gap", f"{plug_gap(v):.2f} mm"),
        ("open air", f"{AIR:.2f} bar absolute, 20 °C"),
        ("in the cylinder when the spark comes (gauge)", f"{v['gauge_tenths_bar'] / 10:.1f} bar"),
        ("charge at that moment", f"{v['charge_degC']} °C"),
    )
    lines = (
        ("pressure at 20 °C:", "absolute pressure · 293 / (273 + temperature in °C), in bar"),
        ("pd:", "pressure at 20 °C in bar times gap in cm"),
        ("kilovolts:", "6.72 · √pd + 24.36 · pd"),
    )
    last = (
        "For a worn plug with round edges (textbook figures from memory). In a real cylinder it is good "
        "to about "
        "30 per cent only: use it to order and compare, not as a measured figure."
    )
    table = Table(f"{v['machine']}, demo engine {v['engine']}", ("what", "given"), rows)
    return Page(
        "",
        (table, Text("What a gap asks for depends on how dense the air in it is:"), Lines(lines), Text(last)),
    )


def _slope_gap(v: Variant, bar: float) -> float:
    """Change of the kilovolts with the gap, kV for one mm."""
    gap = plug_gap(v)
    return (kilovolts(gap + 0.005, bar) - kilovolts(gap - 0.005, bar)) / 0.01


def _close_open(v: Variant) -> Tolerance:
    return tolerance(
        0.1, (_slope_gap(v, AIR), 0.005), reason="half a step of 0.1 kV, and the gap read to half of 0.01 mm"
    )


def _close_demand(v: Variant) -> Tolerance:
    bar = _at_twenty(v)
    per_bar = (kilovolts(plug_gap(v), bar + 0.05) - kilovolts(plug_gap(v), bar - 0.05)) / 0.1
    return tolerance(
        0.1, (_slope_gap(v, bar), 0.005), (per_bar * TWENTY / _kelvin(v), 0.05),
        reason="half a step of 0.1 kV, gap and gauge read to half of their last digit",
    )  # fmt: skip


def _demand(v: Variant, own: Any) -> float:
    return kilovolts(plug_gap(v), own["demand.dense"])


TASK = Task(
    id="demand",
    title="What the plug asks for, in open air and under compression",
    outcome="work out the breakdown voltage of a plug gap in open air and under compression",
    kind="value",
    points=4,
    competency="plug and lead",
    show=_show,
    items=(
        Number(
            "open", "in open air", "kV", lambda v, own: open_air(v), _close_open, -10, 500,
            (
                slip("mm_as_cm", lambda v, own: kilovolts(10 * plug_gap(v), AIR),
                     "Enough for a gap as wide as a pencil.", "The gap was put in as millimetres.",
                     "In which unit does pd want the gap?", misconception="prefix_dropped"),
                slip("root_left_out", lambda v, own: 24.36 * AIR * plug_gap(v) / 10,
                     "About half of it.", "The part with the root was left out.",
                     "How many parts has the line for the kilovolts?", misconception="one_term_enough"),
                slip("gauge_is_absolute", lambda v, own: 0.0,
                     "Nothing at all.", "Open air was taken for no pressure.",
                     "What does a barometer show in open air?", misconception="zero_gauge_is_vacuum"),
            ),
            Feedback("It does not follow from your gap and the air.", "A root or a decimal place may be off.",
                     "Write down pd first: it is well below one."),
            2, any_unit=True, share=1,
        ),
        Number(
            "dense", "pressure in the cylinder, as at 20 °C", "bar", lambda v, own: _at_twenty(v),
            lambda v: tolerance(0.1, (TWENTY / _kelvin(v), 0.05), (_at_twenty(v) / _kelvin(v), 2.5),
                                reason="half a step of 0.1 bar, gauge to half of 0.1 bar, charge to half "
                                "of 5 °C"),
            0, 1000,
            (
                slip("gauge_is_absolute", lambda v, own: (_absolute(v) - AIR) * TWENTY / _kelvin(v),
                     "Somewhat less than a bar short.", "The gauge reading was taken for absolute pressure.",
                     "What does this gauge show in open air, and is nothing pressing then?"),
                slip("temperature_left_out", lambda v, own: _absolute(v),
                     "The pressure of the hot charge.", "The temperature was left out.",
                     "Hot air at the same pressure: is it as dense as cold air?"),
                slip("celsius_as_kelvin", lambda v, own: _absolute(v) * 20 / v["charge_degC"],
                     "Hardly any air left.", "Degrees Celsius were divided by each other.",
                     "From which zero must temperatures count before they are divided?"),
                slip("temperature_turned_round", lambda v, own: _absolute(v) * _kelvin(v) / TWENTY,
                     "More than the cylinder holds.", "The temperatures changed places.",
                     "Brought to 20 °C: does the pressure of a hot charge rise or fall?",
                     misconception="factor_turned_round"),
            ),
            Feedback("It does not follow from gauge and temperature.",
            "The air or a temperature may be missing.",
                     "Absolute pressure first, then the two temperatures counted from absolute zero."),
            2, any_unit=True, reference="absolute", share=1,
        ),
        Number(
            "kilovolts", "under compression", "kV", _demand, _close_demand, 0, 1000,
            (
                slip("open_air_spark_proves", lambda v, own: open_air(v),
                     "The open-air figure again.", "Compression was left out.",
                     "How much denser is the air in the gap when the piston is nearly up?"),
                slip("mm_as_cm", lambda v, own: kilovolts(10 * plug_gap(v), own["demand.dense"]),
                     "Enough for a gap as wide as a pencil.", "The gap was put in as millimetres.",
                     "In which unit does pd want the gap?", misconception="prefix_dropped"),
                slip("pressure_in_proportion", lambda v, own: open_air(v) * own["demand.dense"] / AIR,
                     "It grew exactly as the pressure did.", "Open-air kilovolts were simply multiplied.",
                     "One part of the line has a root: does that part double when the pressure doubles?"),
            ),
            Feedback("It does not follow from your own pressure.", "A root or a decimal place may be off.",
                     "pd from your pressure at 20 °C and the gap in cm, then both parts of the line."),
            1, any_unit=True, share=2,
        ),
    ),
)  # fmt: skip
