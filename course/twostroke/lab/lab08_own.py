"""Lab 08, for those who program: a function that gives the leak rate of a pressure hold. No points."""

from __future__ import annotations

from twostroke import compression
from twostroke.lab.draw import Variant
from twostroke.lab.formula import MISSING, NEGATIVE, OTHER_ENGINE, WRONG_UNIT, ZERO
from twostroke.lab.own_function import OwnFunction, Try


def _reference(volume: float, start: float, end: float, seconds: float) -> float:
    found = compression.leak_rate(f"{volume} mL", f"{start} bar", f"{end} bar", f"{seconds} s")
    return float(found.to("mL/min").magnitude)


def _given(volume: object, start: object, end: object, seconds: object) -> dict[str, object]:
    return {"volume": volume, "start": start, "end": end, "seconds": seconds}


def _tries(v: Variant) -> tuple[Try, ...]:
    start, end = v["hold_start_hundredths_bar"] / 100, v["hold_end_hundredths_bar"] / 100
    return (
        Try(OTHER_ENGINE, _given(float(v["case_mL"]), start, end, float(v["hold_s"]))),
        Try(OTHER_ENGINE, _given(200.0, 0.7, 0.5, 60.0)),
        Try(OTHER_ENGINE, _given(95.0, 0.35, 0.05, 17.0)),
        Try(ZERO, _given(200.0, 0.5, 0.5, 60.0)),
        Try(ZERO, _given(200.0, 0.5, 0.4, 0.0), refused=True),
        Try(NEGATIVE, _given(-200.0, 0.5, 0.4, 60.0), refused=True),
        Try(NEGATIVE, _given(200.0, 0.4, 0.5, 60.0), refused=True),
        Try(WRONG_UNIT, _given("200 mm", 0.5, 0.4, 60.0), refused=True),
        Try(MISSING, _given(200.0, None, 0.4, 60.0), refused=True),
        Try(MISSING, _given(200.0, 0.5, 0.4, None), refused=True),
    )


LEAK = OwnFunction(
    "leak",
    "A function that gives the leak rate of a pressure hold",
    "It takes volume in mL, start and end in bar (gauge) and seconds, all as numbers, and gives mL/min of "
    "air "
    "at 1.01325 bar as a number. It raises ValueError for anything else: a reading that is missing or "
    "text, a "
    "volume or time that is not above nought, an end above the start.",
    _reference,
    _tries,
)
