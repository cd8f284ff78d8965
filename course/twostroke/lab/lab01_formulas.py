"""Lab 01: three one-line formulas, each with a blank."""

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
    "It does not serve the engines that were tried.",
    "A sign, a factor or a name may be the wrong one.",
    "Put two easy readings in and work it through by hand.",
)


def _mix(kind: str, fuel: str | None, ratio: float | None) -> Case:
    return Case(kind, {"fuel": fuel, "ratio": ratio})


def _air(kind: str, gauge: str | None, air: str | None) -> Case:
    return Case(kind, {"gauge": gauge, "air": air})


def _gap(kind: str, mm: float | str | None) -> Case:
    return Case(kind, {"mm": mm})


OIL = Formula(
    "oil", "oil for a can", "oil = fuel / ____", "ratio", "mL",
    {"fuel": "fuel in the can, with its unit", "ratio": "parts of fuel to one part of oil, a plain number"},
    (
        _mix(OTHER_ENGINE, "5 L", 50), _mix(OTHER_ENGINE, "2 US gal", 32), _mix(OTHER_ENGINE, "750 mL", 25),
        _mix(ZERO, "0 L", 50), _mix(ZERO, "5 L", 0), _mix(NEGATIVE, "-1 L", 40),
        _mix(WRONG_UNIT, "3 bar", 40), _mix(MISSING, "5 L", None), _mix(MISSING, None, 50),
    ),
    (
        FormulaSlip("ratio_as_percent", "ratio_as_percent", "100 / ratio", Feedback(
            "The oil grows when the ratio grows.", "The ratio was read as per cent.",
            "Which can needs more oil, one at 25:1 or one at 50:1?")),
        FormulaSlip("ratio_of_mix", "ratio_of_mix", "ratio + 1", Feedback(
            "A little too little oil for every can.", "The fuel was taken for the finished mixture.",
            "Are the parts counted against the fuel alone?"), 0.5),
        FormulaSlip("ratio_turned_round", "ratio_turned_round", "1 / ratio", Feedback(
            "More oil than fuel.", "The ratio was turned round.", "Which liquid has the many parts?")),
    ),
    _HINT,
)  # fmt: skip

ABSOLUTE = Formula(
    "absolute", "absolute pressure", "absolute = ____", "gauge + air", "bar",
    {"gauge": "reading of the gauge, with its unit", "air": "pressure of the air around it, with its unit"},
    (
        _air(OTHER_ENGINE, "8.3 bar", "899 hPa"), _air(OTHER_ENGINE, "120 psi", "1013 hPa"),
        _air(OTHER_ENGINE, "0.5 bar", "0.8 bar"), _air(ZERO, "0 bar", "950 hPa"), _air(NEGATIVE, "-0.3 bar",
        "1 bar"),
        _air(WRONG_UNIT, "8 mm", "1 bar"), _air(MISSING, "8 bar", None), _air(MISSING, None, "1 bar"),
    ),
    (
        FormulaSlip("gauge_is_absolute", "gauge_is_absolute", "gauge", Feedback(
            "The gauge reading, unchanged.", "Gauge was taken for absolute.",
            "What does an open gauge show, and does nothing press on it?")),
        FormulaSlip("subtract_for_absolute", "subtract_for_absolute", "gauge - air", Feedback(
            "Less than the gauge shows.", "The air was taken off.",
            "Which is counted from nothing at all, and so is the larger?")),
        FormulaSlip("air_less_gauge", "subtract_for_absolute", "air - gauge", Feedback(
            "Below nothing for any good engine.", "The two were taken from each other.",
            "Both press on the piston: what becomes of two pushes the same way?")),
    ),
    _HINT,
)  # fmt: skip

THOU = Formula(
    "thou", "millimetres to thou", "thou = ____", "mm / 0.0254", "",
    {"mm": "the gap in millimetres, a plain number"},
    (
        _gap(OTHER_ENGINE, 0.3), _gap(OTHER_ENGINE, 0.65), _gap(OTHER_ENGINE, 25.4), _gap(ZERO, 0.0),
        _gap(NEGATIVE, -0.05), _gap(WRONG_UNIT, "3 bar"), _gap(MISSING, None),
    ),
    (
        FormulaSlip("factor_turned_round", "factor_turned_round", "mm * 0.0254", Feedback(
            "Far too few thou.", "The factor was used upside down.",
            "Is a thou larger or smaller than a millimetre, so must there be more of them or fewer?")),
        FormulaSlip("inch_turned_round", "factor_turned_round", "mm * 25.4", Feedback(
            "The millimetres times 25.4.", "The inch was used upside down, and the thousandth left out.",
            "How many millimetres is one thou? Then: multiply or divide?")),
        FormulaSlip("thou_as_hundredth_mm", "thou_as_hundredth_mm", "mm * 100", Feedback(
            "One thou for each hundredth of a millimetre.",
            "A thou was taken for a hundredth of a millimetre.",
            "How many hundredths of a millimetre is a thou?")),
        FormulaSlip("inch_for_thou", "factor_turned_round", "mm / 25.4", Feedback(
            "The same gap, but in inches.", "The thousandth was left out.", "How many thou has an inch?"),
            0.5),
    ),
    _HINT,
)  # fmt: skip

FORMULAS = (OIL, ABSOLUTE, THOU)


def show(v: Variant) -> Page:
    """The three lines and what their names stand for."""
    lines = tuple((f"{each.id}:", each.line) for each in FORMULAS)
    names = tuple((name, meaning) for each in FORMULAS for name, meaning in each.names.items())
    signs = "Use + - * / and brackets. Write names, not numbers: the line must serve any engine."
    return Page("", (Lines(lines), Text("Names that you may use:"), Lines(names), Text(signs)))


TASK = Task(
    id="formulas",
    title="Three one-line formulas",
    outcome="write a conversion as one line that serves any engine",
    kind="formula",
    points=3,
    competency="units and measuring",
    show=show,
    items=FORMULAS,
)
