"""Lab 07: three one-line formulas of the ohmmeter, each with a blank."""

from __future__ import annotations

from twostroke.lab.draw import Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.formula import (
    MISSING,
    NEGATIVE,
    OTHER_ENGINE,
    WRONG_UNIT,
    ZERO,
    Case,
    Formula,
    FormulaSlip,
)
from twostroke.lab.page import Lines, Page, Text
from twostroke.lab.task import Task

_HINT = Feedback(
    "It does not serve the readings that were tried.",
    "A bracket, a sign or a name may be the wrong one.",
    "Put easy readings in and work it through by hand.",
)


def _warm(kind: str, winding: str | None, celsius: float | str | None) -> Case:
    return Case(kind, {"winding": winding, "celsius": celsius})


def _paths(kind: str, first: str | None, second: str | None) -> Case:
    return Case(kind, {"first": first, "second": second})


def _meter(
    kind: str, reading: str | None, percent: float | None, digits: float | None, step: str | None
) -> Case:
    return Case(kind, {"reading": reading, "percent": percent, "digits": digits, "step": step})


AT_20 = Formula(
    "at_20", "resistance at 20 °C", "at_20 = winding / ____", "(1 + 0.00393 * (celsius - 20))", "ohm",
    {"winding": "reading without the leads, with its unit",
        "celsius": "its temperature in °C, a plain number"},
    (
        _warm(OTHER_ENGINE, "1.2 ohm", 70.0), _warm(OTHER_ENGINE, "3.1 kohm", 55.0),
        _warm(OTHER_ENGINE, "0.8 ohm", 5.0), _warm(ZERO, "0 ohm", 60.0), _warm(ZERO, "1 ohm", 0.0),
        _warm(NEGATIVE, "1 ohm", -15.0), _warm(WRONG_UNIT, "3 bar", 60.0), _warm(MISSING, None, 60.0),
        _warm(MISSING, "1 ohm", None),
    ),
    (
        FormulaSlip("whole_temperature", "whole_temperature", "(1 + 0.00393 * celsius)", Feedback(
            "Corrected too much.", "The degrees were counted from 0 °C.",
            "From which temperature does the copper figure count?")),
        FormulaSlip("temperature_turned_round", "factor_turned_round", "(1 - 0.00393 * (celsius - 20))",
            Feedback(
            "A warm winding comes out larger still.", "The sign of the correction was turned round.",
            "Copper has less resistance when it cools: must the figure grow or shrink?")),
        FormulaSlip("factor_turned_round", "factor_turned_round", "(1 / (1 + 0.00393 * (celsius - 20)))",
            Feedback(
            "A warm winding comes out larger still.", "The factor is upside down.",
            "Copper has less resistance when it cools: must the figure grow or shrink?")),
        FormulaSlip("cold_reading_hot_band", "cold_reading_hot_band", "(1 + 0 * celsius)", Feedback(
            "The reading stays as it is.", "The temperature was left out.",
            "Would the same winding read more or less at 20 °C?")),
    ),
    _HINT,
)  # fmt: skip

BOTH = Formula(
    "both", "two paths side by side", "both = ____", "first * second / (first + second)", "ohm",
    {"first": "one path, with its unit", "second": "the other path, with its unit"},
    (
        _paths(OTHER_ENGINE, "0.9 ohm", "4 ohm"), _paths(OTHER_ENGINE, "2.6 kohm", "1 kohm"),
        _paths(OTHER_ENGINE, "10 ohm", "10 ohm"), _paths(ZERO, "0 ohm", "4 ohm"), _paths(ZERO, "0 ohm",
            "0 ohm"),
        _paths(NEGATIVE, "-1 ohm", "4 ohm"), _paths(WRONG_UNIT, "1 ohm", "3 bar"), _paths(MISSING, None,
            "4 ohm"),
        _paths(MISSING, "1 ohm", None),
    ),
    (
        FormulaSlip("parallel_as_series", "parallel_as_series", "first + second", Feedback(
            "More than either path.", "Paths side by side were added up.",
            "Does a second path make it easier or harder for the current?")),
        FormulaSlip("mean_of_paths", "parallel_as_series", "(first + second) / 2", Feedback(
            "Half-way between the two.", "The mean was taken.",
            "Can two paths together have more than the smaller one alone?")),
        FormulaSlip("product_halved", "parallel_as_series", "2 * first * second / (first + second)", Feedback(
            "Twice what it should be.", "A factor of two slipped in.",
            "Two equal paths: is it half of one, or all of it?")),
    ),
    _HINT,
)  # fmt: skip

UNCERTAINTY = Formula(
    "uncertainty", "standard uncertainty of a meter", "uncertainty = (____) / sqrt(3)",
    "percent / 100 * reading + digits * step", "ohm",
    {"reading": "what the display shows, with its unit", "percent": "of the reading, a plain number",
     "digits": "how many digits, a plain number", "step": "what one digit is, with its unit"},
    (
        _meter(OTHER_ENGINE, "2600 ohm", 0.8, 3.0, "1 ohm"), _meter(OTHER_ENGINE, "0.9 ohm", 0.5, 2.0,
            "0.01 ohm"),
        _meter(OTHER_ENGINE, "3.1 kohm", 1.0, 5.0, "10 ohm"), _meter(ZERO, "0 ohm", 0.8, 3.0, "1 ohm"),
        _meter(NEGATIVE, "-5 ohm", 0.8, 3.0, "1 ohm"), _meter(WRONG_UNIT, "3 bar", 0.8, 3.0, "1 ohm"),
        _meter(MISSING, None, 0.8, 3.0, "1 ohm"), _meter(MISSING, "1 ohm", 0.8, None, "1 ohm"),
    ),
    (
        FormulaSlip("percent_only", "more_digits_more_truth", "percent / 100 * reading + 0 * digits * step",
            Feedback(
            "The digits make no difference in it.", "The digits of the accuracy figure were left out.",
            "How many parts has the accuracy figure?")),
        FormulaSlip("percent_as_part", "prefix_dropped", "percent * reading + digits * step", Feedback(
            "A hundred times the per cent.", "Per cent was taken for parts of one.",
            "How much is one per cent of 100 ohms?")),
        FormulaSlip("digits_of_reading", "more_digits_more_truth",
            "(percent / 100 + digits) * reading + 0 * step",
            Feedback("The digits multiply the reading.", "Digits were taken for shares of the reading.",
            "By how many ohms does the display jump when its last digit moves by one?")),
        FormulaSlip("one_digit_only", "more_digits_more_truth", "percent / 100 * reading + step + 0 * digits",
            Feedback(
            "One digit only is counted.", "The number of digits was left out.",
            "How many digits stand in the accuracy figure?"), 0.5),
    ),
    _HINT,
)  # fmt: skip

FORMULAS = (AT_20, BOTH, UNCERTAINTY)


def show(v: Variant) -> Page:
    """The three lines and what their names stand for."""
    lines = tuple((f"{each.id}:", each.line) for each in FORMULAS)
    names = tuple((name, meaning) for each in FORMULAS for name, meaning in each.names.items())
    signs = "Use + - * / and brackets. Write names, not your own readings: the line must serve any module."
    return Page("", (Lines(lines), Text("Names that you may use:"), Lines(names), Text(signs)))


TASK = Task(
    id="formulas",
    title="Three one-line formulas",
    outcome="write temperature, parallel paths and meter uncertainty as lines that serve any module",
    kind="formula",
    points=3,
    competency="module and windings",
    show=show,
    items=FORMULAS,
)
