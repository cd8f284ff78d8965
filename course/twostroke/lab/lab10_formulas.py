"""Lab 10: three one-line formulas, each with a blank."""

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
    "It does not serve the cases that were tried.",
    "A sign, a factor or a name may be the wrong one.",
    "Put easy numbers in and work it through by hand.",
)


def _count(kind: str, *given: float | str | None) -> Case:
    return Case(kind, dict(zip(("has", "others"), given, strict=True)))


def _two(kind: str, *given: float | str | None) -> Case:
    return Case(kind, dict(zip(("first", "second", "chance"), given, strict=True)))


def _worth(kind: str, *given: float | str | None) -> Case:
    return Case(kind, dict(zip(("without", "after", "test"), given, strict=True)))


SHARE = Formula(
    "share", "chance after a reading", "chance = has / ____", "(has + others)", "",
    {"has": "machines that show the reading and have the fault", "others": "that show it and have another"},
    (
        _count(OTHER_ENGINE, 90, 60), _count(OTHER_ENGINE, 12, 300), _count(OTHER_ENGINE, 200, 1),
        _count(ZERO, 0, 100), _count(ZERO, 0, 0), _count(NEGATIVE, 50, -10),
        _count(WRONG_UNIT, "3 bar", 20), _count(MISSING, None, 20), _count(MISSING, 20, None),
    ),
    (
        FormulaSlip("over_the_others", "share_of_the_wrong_whole", "others", Feedback(
            "More than one where the fault is likely.", "Those that have it were left out below the line.",
            "Of how many machines in all is it a part?"), 0.5),
        FormulaSlip("over_all_machines", "share_of_the_wrong_whole", "1000 + 0 * others", Feedback(
            "Too small for every reading.", "The machines that are out were still counted.",
            "Which machines are left once the reading is known?")),
        FormulaSlip("taken_off", "share_of_the_wrong_whole", "(has - others)", Feedback(
            "Over one, or below nothing.", "The others were taken off instead of counted.",
            "All that show the reading: do the two groups add or take away?")),
    ),
    _HINT,
)  # fmt: skip

TWO = Formula(
    "two", "average of two repairs", "average = first + ____ * second", "(1 - chance)", "min",
    {"first": "minutes of the first repair", "second": "of the second",
    "chance": "that the first one cures, 0 to 1"},
    (
        _two(OTHER_ENGINE, "40 min", "60 min", 0.6), _two(OTHER_ENGINE, "1 h", "20 min", 0.25),
        _two(OTHER_ENGINE, "300 s", "45 min", 0.9), _two(ZERO, "40 min", "60 min", 0), _two(ZERO, "0 min",
        "9 min", 1),
        _two(NEGATIVE, "40 min", "60 min", -0.5), _two(WRONG_UNIT, "40 mm", "60 min", 0.5),
        _two(MISSING, "40 min", "60 min", None), _two(MISSING, None, "60 min", 0.5),
    ),
    (
        FormulaSlip("chance_turned_round", "chance_turned_round", "chance", Feedback(
            "The second repair too often when the first is likely.", "The chance of the first was used.",
            "When is the second repair needed?"), 0.5),
        FormulaSlip("both_always", "parts_first", "(1 + 0 * chance)", Feedback(
            "Both repairs, always.", "The chance has no say.", "When is the second repair needed?")),
        FormulaSlip("half", "share_of_the_wrong_whole", "(0.5 + 0 * chance)", Feedback(
            "The second repair half of the time.", "The chance has no say.",
            "Are both suspects equally likely in every job?")),
    ),
    _HINT,
)  # fmt: skip

WORTH = Formula(
    "worth", "minutes gained by a test", "gained = without - ____", "(after + test)", "min",
    {"without": "average minutes without the test", "after": "average minutes of repair after it",
     "test": "its own minutes"},
    (
        _worth(OTHER_ENGINE, "64 min", "48 min", "10 min"), _worth(OTHER_ENGINE, "1 h", "58 min", "3 min"),
        _worth(OTHER_ENGINE, "90 min", "30 min", "60 s"), _worth(ZERO, "64 min", "48 min", "0 min"),
        _worth(ZERO, "0 min", "0 min", "5 min"), _worth(NEGATIVE, "64 min", "-8 min", "5 min"),
        _worth(WRONG_UNIT, "64 min", "48 mm", "5 min"), _worth(MISSING, "64 min", "48 min", None),
        _worth(MISSING, "64 min", None, "5 min"),
    ),
    (
        FormulaSlip("own_minutes_left_out", "amount_as_rate", "after", Feedback(
            "Too much gained by slow tests.", "The test's own minutes were left out.",
            "What does the test itself take?"), 0.5),
        FormulaSlip("test_added", "factor_turned_round", "(after - test)", Feedback(
            "A slow test gains more than a quick one.", "The test's minutes have the wrong sign.",
            "Does a slower test gain more or less?")),
        FormulaSlip("test_alone", "level_for_change", "test", Feedback(
            "The repair after the test has no say.", "Only the test was taken off.",
            "What is still to be done once the test has spoken?")),
    ),
    _HINT,
)  # fmt: skip

FORMULAS = (SHARE, TWO, WORTH)


def show(v: Variant) -> Page:
    """The three lines and what their names stand for."""
    lines = tuple((f"{each.id}:", each.line) for each in FORMULAS)
    names = tuple((name, meaning) for each in FORMULAS for name, meaning in each.names.items())
    signs = "Use + - * / and brackets. Write names, not numbers of your own: the line must serve any job."
    return Page("", (Lines(lines), Text("Names that you may use:"), Lines(names), Text(signs)))


TASK = Task(
    id="formulas",
    title="Three one-line formulas",
    outcome="write chance, average and gain as one line for any job",
    kind="formula",
    points=3,
    competency="isolation logic",
    show=show,
    items=FORMULAS,
)
