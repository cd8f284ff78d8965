"""A formula with a blank: checked on the learner's numbers, on other engines and on edge cases."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from twostroke import units
from twostroke.lab.draw import Variant
from twostroke.lab.expression import Expression, FormulaError
from twostroke.lab.feedback import FORM, OTHER, PART, RIGHT, SLIP, Feedback, Form, Judged

EDGE_SHARE = 0.5
"""Part of the points for a formula that serves ordinary engines but fails an edge case."""

OTHER_ENGINE, ZERO, NEGATIVE, WRONG_UNIT, MISSING = (
    "another engine",
    "a reading of zero",
    "a negative reading",
    "a reading with a wrong unit",
    "a missing reading",
)
EDGES = (ZERO, NEGATIVE, WRONG_UNIT, MISSING)


@dataclass(frozen=True)
class Case:
    """One set of readings on which the formula is tried.

    Parameters
    ----------
    kind : str
        OTHER_ENGINE or one of EDGES.
    given : mapping of str to (str, float or None)
        Text with a unit, plain number, or None for a missing reading.
    """

    kind: str
    given: Mapping[str, str | float | None]


@dataclass(frozen=True)
class FormulaSlip:
    """A usual wrong formula, recognised by what it gives, however it is written."""

    id: str
    misconception: str
    formula: str
    feedback: Feedback
    share: float = 0.0


@dataclass(frozen=True, eq=False)
class Formula:
    """One line with one blank.

    Parameters
    ----------
    id, label : str
        Name in calls; name for the reader.
    line : str
        The line with ____ for the blank, as in "oil = fuel / ____"; what stands right of "=" is computed.
    blank : str
        The model answer.
    unit : str
        Unit of the result; "" for a plain number.
    names : mapping of str to str
        Given name -> what it is, in words.
    cases : tuple of Case
        Other engines, and at least one of each edge: zero, negative, wrong unit, missing.
    slips : tuple of FormulaSlip
        At least three.
    hint : Feedback
        For a formula that fits no slip.
    share : float
        Share of the task's points.
    needs : str, optional
        Id of an earlier step of the task without which this one earns nothing.
    """

    id: str
    label: str
    line: str
    blank: str
    unit: str
    names: Mapping[str, str]
    cases: tuple[Case, ...]
    slips: tuple[FormulaSlip, ...]
    hint: Feedback
    share: float = 1.0
    needs: str | None = None

    def ask(self, variant: Variant) -> str:
        """How the answer is written."""
        names = ", ".join(self.names)
        share = f"{100 * EDGE_SHARE:.0f} %"
        return f"the blank in {self.line}, with {names}; {share} if it fails for unusual readings only"

    def whole(self, blank: str) -> Expression:
        """Return the right-hand side with the blank filled in."""
        Expression(blank, self.names)
        return Expression(self.line.partition("=")[2].replace("____", f"({blank})"), self.names, blank)

    def form(self, answer: Any, variant: Variant) -> Form:
        """Form check: readable, uses the names, units fit together and give the right kind."""
        if type(answer) is not str:
            names = ", ".join(self.names)
            return Form(False, f"Write the formula as text between quotes, with the names {names}.")
        return _form(self, answer)

    def truth(self, variant: Variant, values: Any) -> str:
        """The model answer."""
        return self.blank

    def judge(self, form: Form, variant: Variant, values: Any) -> Judged:
        """Try the formula on every case and compare with the reference formula."""
        return (
            _judge(self, form.value)
            if isinstance(form.value, str)
            else Judged(0.0, FORM, Feedback(form.message))
        )

    def model(self, variant: Variant, values: Any) -> str:
        """The model answer."""
        return self.blank


@lru_cache(maxsize=512)
def _form(item: Formula, answer: str) -> Form:
    blank = answer.partition("=")[2] if "=" in answer else answer
    try:
        formula = item.whole(blank)
        if not Expression(blank, item.names).used & set(item.names):
            raise FormulaError(f'"{answer[:40]}" names no reading: a number alone serves one engine only')
        ordinary = next(case for case in item.cases if case.kind == OTHER_ENGINE)
        said = result(formula, ordinary, item.unit)
        if isinstance(said, str):
            raise FormulaError(said)
    except FormulaError as error:
        return Form(False, str(error), given=answer)
    return Form(True, f'"{answer}" can be read and its units fit.', blank.strip(), answer)


@lru_cache(maxsize=512)
def _judge(item: Formula, blank: str) -> Judged:
    formula, reference = item.whole(blank), item.whole(item.blank)
    failed = [case.kind for case in item.cases if not _agree(formula, reference, case, item.unit)]
    if not failed:
        return Judged(1.0, RIGHT, Feedback("Right: it serves every engine that was tried."))
    if OTHER_ENGINE not in failed:
        return Judged(EDGE_SHARE, PART, _edge_feedback(failed[0]))
    ordinary = [case for case in item.cases if case.kind == OTHER_ENGINE]
    for slip in item.slips:
        if all(_agree(formula, item.whole(slip.formula), case, item.unit) for case in ordinary):
            return Judged(slip.share, SLIP, slip.feedback, slip.id)
    return Judged(0.0, OTHER, item.hint)


def result(formula: Expression, case: Case, unit: str) -> float | str | None:
    """Return what the formula gives in one case.

    Parameters
    ----------
    formula : Expression
    case : Case
    unit : str
        Unit of the result; "" for a plain number.

    Returns
    -------
    float, str or None
        Number in that unit; text when it is refused, with the reason; None when a reading is missing.
    """
    given = {name: units.read(each) if isinstance(each, str) else each for name, each in case.given.items()}
    try:
        value = formula.value(
            {name: float(each) if isinstance(each, int) else each for name, each in given.items()}
        )
    except FormulaError as error:
        return str(error)
    if value is None:
        return None
    wanted = units.read(f"1 {unit}").units if unit else None
    if isinstance(value, float):
        return value if wanted is None else f"it gives a plain number where a value in {unit} is wanted"
    if wanted is None:
        return (
            float(value.to("").magnitude)
            if value.dimensionless
            else "it gives a unit where a plain number is wanted"
        )
    if not value.is_compatible_with(wanted):
        return f"it does not give a value in {unit}: the units do not fit"
    return float(value.to(wanted).magnitude)


def _agree(formula: Expression, reference: Expression, case: Case, unit: str) -> bool:
    own, right = result(formula, case, unit), result(reference, case, unit)
    if isinstance(own, float) and isinstance(right, float):
        return math.isclose(own, right, rel_tol=1e-6, abs_tol=1e-9)
    return type(own) is type(right)


def _edge_feedback(kind: str) -> Feedback:
    checks = {
        ZERO: "Work it through by hand with zero.",
        NEGATIVE: "Work it through by hand with a value below zero.",
        WRONG_UNIT: "Ask whether every reading really enters the formula.",
        MISSING: "Ask whether a result can be known without that reading.",
    }
    return Feedback(
        f"It serves ordinary readings and fails for {kind}.",
        "Part of it hides what the reading says.",
        checks[kind],
    )
