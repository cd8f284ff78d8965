"""Lab 10, for those who program: the least average minutes of a list of checks. No points."""

from __future__ import annotations

from collections.abc import Sequence

from twostroke.lab.draw import Variant
from twostroke.lab.formula import MISSING, NEGATIVE, OTHER_ENGINE, WRONG_UNIT, ZERO
from twostroke.lab.own_function import OwnFunction, Try
from twostroke.lab.ranking import Check, quickest


def _reference(chances: Sequence[float], minutes: Sequence[float]) -> float:
    """Every order is tried."""
    rows = enumerate(zip(chances, minutes, strict=True))
    return quickest({str(place): Check(str(place), chance, time) for place, (chance, time) in rows})


def _given(chances: object, minutes: object) -> dict[str, object]:
    return {"chances": chances, "minutes": minutes}


def _tries(v: Variant) -> tuple[Try, ...]:
    return (
        Try(OTHER_ENGINE, _given(list(v["check_percent"]), list(v["check_min"]))),
        Try(OTHER_ENGINE, _given([50, 30, 20], [20, 4, 10])),
        Try(OTHER_ENGINE, _given([10, 15, 40, 5, 5, 25], [3, 9, 30, 1, 12, 4])),
        Try(ZERO, _given([100], [7])),
        Try(ZERO, _given([60, 40, 0], [5, 9, 3])),
        Try(NEGATIVE, _given([110, -10], [5, 5]), refused=True),
        Try(NEGATIVE, _given([60, 40], [5, -5]), refused=True),
        Try(WRONG_UNIT, _given([60, "40 min"], [5, 5]), refused=True),
        Try(MISSING, _given([60, 40], [5]), refused=True),
        Try(MISSING, _given([60, None], [5, 5]), refused=True),
    )


QUICKEST = OwnFunction(
    "quickest",
    "A function that gives the least average minutes of a list of checks",
    "It takes chances in per cent, which make 100 in all, and minutes, as two lists of numbers of one "
    "length, and "
    "gives the average minutes of the best order as a number. It raises ValueError for anything else: "
    "lists of "
    "unlike length, something that is missing or text, a chance below nought, minutes not above it.",
    _reference,
    _tries,
)
