"""A value with its unit: form first, then the value, then the usual slips, then the unit."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from twostroke.errors import TwoStrokeError
from twostroke.lab.check import leading_number, read_value, value_form, written_in
from twostroke.lab.draw import Variant
from twostroke.lab.feedback import FORM, OTHER, RIGHT, SLIP, UNIT, Feedback, Form, Judged
from twostroke.lab.slips import Slip, nearest
from twostroke.lab.tolerance import Tolerance

UNIT_SHARE = 0.25
"""Part of the points for the right number with a wrong or missing unit; stated to the learner."""

_RIGHT = Judged(1.0, RIGHT, Feedback("Right."))


@dataclass(frozen=True)
class Number:
    """One value with its unit.

    Parameters
    ----------
    id, label : str
        Name in calls; name for the reader.
    unit : str or callable
        Unit in which the value is asked and in which all numbers of this step are, "" for a plain number;
        (variant) -> unit where it differs.
    truth : callable
        (variant, values) -> float; it may ask `values` for an earlier step.
    close : Tolerance or callable
        How close; (variant) -> Tolerance where it differs.
    low, high : float
        Range of the form check: what can occur at all.
    slips : tuple of Slip
        At least three.
    hint : Feedback
        For a value that fits no slip.
    decimals : int
        Decimals of the model answer.
    given_unit : str or callable, optional
        Unit of the printed reading that is to be converted: the same reading in that unit is no answer.
    any_unit : bool
        Whether any unit of the same kind will do; otherwise the asked one is a matter of form.
    reference : {"gauge", "absolute"}, optional
        What a pressure is counted from; "8.3 barg" is read only where it agrees.
    share : float
        Share of the task's points.
    needs : str, optional
        Id of an earlier step of the task without which this one earns nothing.
    """

    id: str
    label: str
    unit: str | Callable[[Variant], str]
    truth: Callable[[Variant, Any], float]
    close: Tolerance | Callable[[Variant], Tolerance]
    low: float
    high: float
    slips: tuple[Slip, ...]
    hint: Feedback
    decimals: int = 2
    given_unit: str | Callable[[Variant], str] | None = None
    any_unit: bool = False
    reference: str | None = None
    share: float = 1.0
    needs: str | None = None

    def unit_for(self, variant: Variant) -> str:
        """Return the unit in this variant."""
        return self.unit(variant) if callable(self.unit) else self.unit

    def _given_unit(self, variant: Variant) -> str | None:
        return self.given_unit(variant) if callable(self.given_unit) else self.given_unit

    def tolerance_for(self, variant: Variant) -> Tolerance:
        """Return the tolerance in this variant."""
        return self.close(variant) if callable(self.close) else self.close

    def ask(self, variant: Variant) -> str:
        """How the answer is written and how close it must be."""
        unit, close = self.unit_for(variant), self.tolerance_for(variant)
        if not unit:
            return f"a plain number, within ±{close.value:.2g}: {close.reason}"
        wanted = f"in {unit} or another unit of the same kind" if self.any_unit else f"in {unit}"
        return f"{wanted}, within ±{close.value:.2g} {unit}: {close.reason}"

    def form(self, answer: Any, variant: Variant) -> Form:
        """Form check: unit, kind, range."""
        given_unit = self._given_unit(variant)
        unit, low, high = self.unit_for(variant), self.low, self.high
        return value_form(answer, unit, low, high, self.any_unit, given_unit, self.reference)

    def judge(self, form: Form, variant: Variant, values: Any) -> Judged:
        """Right value, known slip, right number with wrong unit, or none of these."""
        close = self.tolerance_for(variant).value * (1 + 1e-9)
        right = self._right(variant, values)
        if isinstance(form.value, float):
            if any(abs(form.value - each) <= close for each in right):
                return _RIGHT
            for basis in (values, values.right):
                slip = nearest(form.value, self.slips, variant, basis, close)
                if slip:
                    return Judged(slip.share, SLIP, slip.feedback, slip.id)
        if any(abs(number - each) <= close for number in self._numbers(form, variant) for each in right):
            return Judged(UNIT_SHARE, UNIT, self._unit_feedback(form, variant), "unit")
        if not form.ok:
            return Judged(0.0, FORM, Feedback(form.message))
        return Judged(0.0, OTHER, self.hint)

    def _right(self, variant: Variant, values: Any) -> list[float]:
        """Right values: from the numbers given, and from the learner's own earlier values."""
        found = [self.truth(variant, values.right)]
        try:
            found.append(float(self.truth(variant, values)))
        except (ArithmeticError, ValueError):
            return found
        return [each for each in found if math.isfinite(each)]

    def _numbers(self, form: Form, variant: Variant) -> list[float]:
        """Numbers that would be right, had the unit been: as written, or converted from another one."""
        number = leading_number(form.given)
        found = [] if number is None else [number]
        given_unit = self._given_unit(variant)
        try:
            if form.value is None and not (given_unit and written_in(form.given, given_unit, self.reference)):
                found.append(read_value(form.given, self.unit_for(variant), self.reference))
        except TwoStrokeError:
            return found
        return found

    def _unit_feedback(self, form: Form, variant: Variant) -> Feedback:
        unit = self.unit_for(variant)
        return Feedback(
            f'The number in "{form.given}" fits, its unit does not.',
            "The value was worked out well, then written with another unit or with none.",
            f"Write {unit}, the unit that is asked, behind the number."
            if unit
            else "Write the number alone: nothing stands behind it here.",
        )

    def model(self, variant: Variant, values: Any) -> str:
        """The model answer, rounded as a learner would."""
        return f"{self.truth(variant, values):.{self.decimals}f} {self.unit_for(variant)}".strip()
