"""Lab 11: three one-line formulas, each with a blank."""

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
    "A sign, a bracket or a name may be the wrong one.",
    "Put easy numbers in and work it through by hand.",
)


def _case(names: tuple[str, ...], kind: str, *given: float | str | None) -> Case:
    return Case(kind, dict(zip(names, given, strict=True)))


_ONCE, _STILL = ("fails", "starts"), ("doubt", "clean")

ONCE = Formula(
    "once", "at least once", "once = 1 - ____", "(1 - fails) ^ starts", "",
    {"fails": "chance that one start fails, 0 to 1", "starts": "number of starts, up to 6"},
    (
        _case(_ONCE, OTHER_ENGINE, 0.3, 5), _case(_ONCE, OTHER_ENGINE, 0.15, 3), _case(_ONCE, OTHER_ENGINE,
        0.5, 2),
        _case(_ONCE, ZERO, 0, 4), _case(_ONCE, ZERO, 0.3, 0), _case(_ONCE, NEGATIVE, -0.2, 3),
        _case(_ONCE, WRONG_UNIT, "0.3 bar", 3), _case(_ONCE, MISSING, None, 3), _case(_ONCE, MISSING, 0.3,
        None),
    ),
    (
        FormulaSlip("every_time", "at_least_once_is_always", "fails ^ starts", Feedback(
            "Nearly certain, even for a rare fault.", "Not failing every time was worked out.",
            "What must happen for it not to fail even once?")),
        FormulaSlip("clean_added", "chances_added", "(1 - fails) * starts", Feedback(
            "Below nothing for several starts.", "The chances were multiplied by the number of starts.",
            "All of them clean: is that a sum or a product?")),
        FormulaSlip("added_up", "chances_added", "(1 - fails * starts)", Feedback(
            "More than one for many starts.", "The chances were added.",
            "What does it give for twenty starts at one in three?")),
    ),
    _HINT,
)  # fmt: skip

HOT = Formula(
    "hot", "copper when hot", "hot = cold_at_20 * ____", "(1 + 0.00393 * (t - 20))", "ohm",
    {"cold_at_20": "resistance at 20 °C, with its unit", "t": "temperature in °C, a plain number"},
    tuple(
        _case(("cold_at_20", "t"), *row)
        for row in (
            (OTHER_ENGINE, "2.6 kohm", 90), (OTHER_ENGINE, "0.9 ohm", 75), (OTHER_ENGINE, "3100 ohm", 5),
            (ZERO, "0 ohm", 90), (ZERO, "2.6 kohm", 0), (NEGATIVE, "2.6 kohm", -10), (WRONG_UNIT, "2 bar",
            90),
            (MISSING, None, 90), (MISSING, "2.6 kohm", None),
        )
    ),
    (
        FormulaSlip("from_nought", "in_proportion_from_zero", "(1 + 0.00393 * t)", Feedback(
            "Too much at every temperature.", "The rise was counted from 0 °C.",
            "What must the line give at 20 °C?")),
        FormulaSlip("in_proportion", "in_proportion_from_zero", "(t / 20)", Feedback(
            "Several times too much when hot.", "Ohms were taken to rise as degrees do.",
            "How much does copper gain for ten degrees?")),
        FormulaSlip("cooled_for_warmed", "factor_turned_round", "(1 - 0.00393 * (t - 20))", Feedback(
            "It falls with heat.", "The sign is turned round.",
            "Does copper read more or less when it is hot?")),
    ),
    _HINT,
)  # fmt: skip

STILL = Formula(
    "still", "what is left of a doubt", "still = doubt * clean / ____", "(doubt * clean + 1 - doubt)", "",
    {"doubt": "chance before that the fault is there, 0 to 1",
     "clean": "chance of these clean starts with the fault there, 0 to 1"},
    (
        _case(_STILL, OTHER_ENGINE, 0.5, 0.2), _case(_STILL, OTHER_ENGINE, 0.3, 0.45),
        _case(_STILL, OTHER_ENGINE, 0.8, 0.1), _case(_STILL, ZERO, 0, 0.3), _case(_STILL, ZERO, 1, 0),
        _case(_STILL, NEGATIVE, -0.1, 0.5), _case(_STILL, WRONG_UNIT, "2 bar", 0.5),
        _case(_STILL, MISSING, None, 0.5), _case(_STILL, MISSING, 0.5, None),
    ),
    (
        FormulaSlip("out_of_all", "share_of_the_wrong_whole", "(1 + 0 * doubt)", Feedback(
            "Too small for every doubt.", "The cases that are out were still counted.",
            "Which cases are left once the starts were clean?"), 0.5),
        FormulaSlip("doubt_cancelled", "likelihood_as_chance", "doubt", Feedback(
            "The doubt has no say.", "How often it happens was taken for how likely the fault is.",
            "Must a small doubt before not leave a small one after?")),
        FormulaSlip("over_the_sound", "share_of_the_wrong_whole", "(1 - doubt)", Feedback(
            "More than one for a strong doubt.", "Only the machines without the fault stand below the line.",
            "Which machines start cleanly, all together?")),
    ),
    _HINT,
)  # fmt: skip

FORMULAS = (ONCE, HOT, STILL)


def show(v: Variant) -> Page:
    """The three lines and what their names stand for."""
    lines = tuple((f"{each.id}:", each.line) for each in FORMULAS)
    names = tuple((name, meaning) for each in FORMULAS for name, meaning in each.names.items())
    signs = "Use + - * / ^ and brackets. Write names, not numbers of your own: the line serves any machine."
    return Page("", (Lines(lines), Text("Names that you may use:"), Lines(names), Text(signs)))


TASK = Task(
    id="formulas",
    title="Three one-line formulas",
    outcome="write the chance of at least one failure, hot copper and doubt as one line",
    kind="formula",
    points=3,
    competency="intermittent faults",
    show=show,
    items=FORMULAS,
)
