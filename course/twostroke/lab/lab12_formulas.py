"""Lab 12: three one-line formulas, each with a blank."""

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
    "It does not serve the jobs that were tried.",
    "A sign, a bracket or a name may be the wrong one.",
    "Put easy numbers in and work it through by hand.",
)


def _cases(names: tuple[str, ...], *rows: tuple[str, tuple[float | str | None, ...]]) -> tuple[Case, ...]:
    return tuple(Case(kind, dict(zip(names, given, strict=True))) for kind, given in rows)


LABOUR = Formula(
    "labour", "labour from minutes", "labour = rate * ____", "minutes / 60", "",
    {"rate": "money for an hour", "minutes": "minutes of work, a plain number"},
    _cases(
        ("rate", "minutes"),
        (OTHER_ENGINE, (48, 75)), (OTHER_ENGINE, (60, 12)), (OTHER_ENGINE, (39.5, 145)),
        (ZERO, (48, 0)), (NEGATIVE, (48, -10)), (WRONG_UNIT, (48, "3 bar")), (MISSING, (48, None)),
        (MISSING, (None, 75)),
    ),
    (
        FormulaSlip("clock_as_decimal", "clock_as_decimal", "minutes / 100", Feedback(
            "Too little for every job.", "The clock was read as a decimal.",
            "How many minutes has an hour?")),
        FormulaSlip("minutes_for_hours", "seconds_as_minutes", "minutes", Feedback(
            "Sixty times too much.", "Minutes were paid like hours.", "For how long is the rate?")),
        FormulaSlip("turned_round", "factor_turned_round", "60 / minutes", Feedback(
            "Less money for more work.", "The division was turned round.",
            "Must the labour grow or shrink with the minutes?")),
    ),
    _HINT,
)  # fmt: skip

TOTAL = Formula(
    "total", "total with tax", "total = ____", "(labour + parts) * (1 + tax)", "",
    {"labour": "labour before tax", "parts": "parts before tax", "tax": "as a share, 0.2 for 20 %"},
    _cases(
        ("labour", "parts", "tax"),
        (OTHER_ENGINE, (60, 50, 0.2)), (OTHER_ENGINE, (35, 4, 0.08)), (OTHER_ENGINE, (120, 75, 0.19)),
        (ZERO, (60, 0, 0.2)), (ZERO, (60, 50, 0)), (NEGATIVE, (60, -5, 0.2)), (WRONG_UNIT, (60, "3 mm", 0.2)),
        (MISSING, (60, None, 0.2)), (MISSING, (60, 50, None)),
    ),
    (
        FormulaSlip("tax_on_parts_only", "share_of_the_wrong_whole", "labour + parts * (1 + tax)", Feedback(
            "Too little where there is labour.", "Tax lies on the parts alone.",
            "Where does the bracket begin?"), 0.5),
        FormulaSlip("tax_as_money", "label_swapped", "labour + parts + tax", Feedback(
            "The tax is a few cents.", "A share was added as money.", "A share of what is the tax?")),
        FormulaSlip("tax_only", "level_for_change", "(labour + parts) * tax", Feedback(
            "Only the tax.", "The amount itself was lost.", "What must the line give without tax?"), 0.5),
    ),
    _HINT,
)  # fmt: skip

GAP = Formula(
    "gap", "mean gap of the two legs", "gap = ____", "(left + right) / 2", "mm",
    {"left": "gap at the left leg, with its unit", "right": "gap at the right leg"},
    _cases(
        ("left", "right"),
        (OTHER_ENGINE, ("0.25 mm", "0.35 mm")), (OTHER_ENGINE, ("12 thou", "0.30 mm")),
        (OTHER_ENGINE, ("0.40 mm", "0.31 mm")), (ZERO, ("0 mm", "0.3 mm")), (NEGATIVE, ("-0.05 mm",
        "0.3 mm")),
        (WRONG_UNIT, ("0.3 mm", "3 bar")), (MISSING, ("0.3 mm", None)), (MISSING, (None, "0.3 mm")),
    ),
    (
        FormulaSlip("sum_for_mean", "share_of_the_wrong_whole", "left + right", Feedback(
            "Twice the gap.", "The sum was given.", "What must it give when both legs are alike?"), 0.5),
        FormulaSlip("one_leg", "looks_right_is_right", "left", Feedback(
            "The left leg alone.", "The other leg has no say.", "Where else does the flux cross a gap?")),
        FormulaSlip("bracket_lost", "order_does_not_matter", "left + right / 2", Feedback(
            "Too wide where both legs are alike.", "Only the right leg is halved.",
            "What does the division reach?")),
    ),
    _HINT,
)  # fmt: skip

FORMULAS = (LABOUR, TOTAL, GAP)


def show(v: Variant) -> Page:
    """The three lines and what their names stand for."""
    lines = tuple((f"{each.id}:", each.line) for each in FORMULAS)
    names = tuple((name, meaning) for each in FORMULAS for name, meaning in each.names.items())
    signs = "Use + - * / and brackets. Write names, not numbers of your own: the line must serve any job."
    return Page("", (Lines(lines), Text("Names that you may use:"), Lines(names), Text(signs)))


TASK = Task(
    id="formulas",
    title="Three one-line formulas",
    outcome="write labour, total and mean gap as one line for any job",
    kind="formula",
    points=3,
    competency="job card and estimate",
    show=show,
    items=FORMULAS,
)
