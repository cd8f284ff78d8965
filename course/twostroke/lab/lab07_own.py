"""Lab 07, for those who program: a function that brings a reading to 20 °C. No points."""

from __future__ import annotations

from twostroke import resistance
from twostroke.lab.draw import Variant
from twostroke.lab.formula import MISSING, NEGATIVE, OTHER_ENGINE, WRONG_UNIT, ZERO
from twostroke.lab.own_function import OwnFunction, Try


def _reference(shown: float, leads: float, celsius: float) -> float:
    found = resistance.corrected(
        f"{shown} ohm", "0 ohm", f"{celsius} degC", "0 delta_degC", "20 degC", leads=f"{leads} ohm"
    )
    return float(found.value.to("ohm").magnitude)


def _given(shown: object, leads: object, celsius: object) -> dict[str, object]:
    return {"shown": shown, "leads": leads, "celsius": celsius}


def _tries(v: Variant) -> tuple[Try, ...]:
    own = (v["primary_hundredths_ohm"] + v["leads_hundredths_ohm"]) / 100
    return (
        Try(OTHER_ENGINE, _given(own, v["leads_hundredths_ohm"] / 100, float(v["winding_degC"]))),
        Try(OTHER_ENGINE, _given(2.5 + v["primary_hundredths_ohm"] / 1000, 0.15, 4.0)),
        Try(OTHER_ENGINE, _given(2610.0, 0.3, 20.0 + v["winding_degC"] / 7)),
        Try(ZERO, _given(0.3, 0.3, 60.0)),
        Try(ZERO, _given(1.2, 0.0, 0.0)),
        Try(NEGATIVE, _given(1.2, 0.2, -15.0)),
        Try(NEGATIVE, _given(-1.2, 0.2, 60.0), refused=True),
        Try(NEGATIVE, _given(0.1, 0.3, 60.0), refused=True),
        Try(WRONG_UNIT, _given("1.2 bar", 0.2, 60.0), refused=True),
        Try(MISSING, _given(None, 0.2, 60.0), refused=True),
        Try(MISSING, _given(1.2, 0.2, None), refused=True),
    )


TO_20 = OwnFunction(
    "to_20",
    "A function that brings a reading to 20 °C",
    "It takes shown and leads in ohms and celsius in °C, all as numbers, and gives ohms at 20 °C as a "
    "number. "
    "Copper changes by 0.00393 for a degree. It raises ValueError for anything else: a reading that is "
    "missing or "
    "text, a negative one, leads above the reading.",
    _reference,
    _tries,
)
