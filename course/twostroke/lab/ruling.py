"""A verdict to pick that follows from readings: marked on the learner's own earlier values."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from twostroke.lab.draw import Variant
from twostroke.lab.feedback import FORM, RIGHT, SLIP, Feedback, Form, Judged
from twostroke.lab.pick import Option, Pick


def _no_rule(variant: Variant, values: Any) -> str:
    raise NotImplementedError("a ruling needs a rule")


@dataclass(frozen=True)
class Ruling(Pick):
    """One option, of which the readings say which is right.

    Parameters
    ----------
    rule : callable
        (variant, values) -> id of the right option; it may ask `values` for earlier steps.
    others
        As for `Pick`; every option has feedback for being taken wrongly, none is marked as right.
    """

    rule: Callable[[Variant, Any], str] = _no_rule

    def truth(self, variant: Variant, values: Any) -> tuple[str, ...]:
        """Id of the right option."""
        return (self.rule(variant, values),)

    def judge(self, form: Form, variant: Variant, values: Any) -> Judged:
        """Right by the readings or by the learner's own earlier values, or a wrong option with its
        feedback."""
        if not isinstance(form.value, tuple):
            return Judged(0.0, FORM, Feedback(form.message))
        if form.value in (self._own(variant, values), self.truth(variant, values.right)):
            return Judged(1.0, RIGHT, Feedback("Right."))
        return Judged(0.0, SLIP, self._option(variant, form.value[0]).feedback, form.value[0])

    def _own(self, variant: Variant, values: Any) -> tuple[str, ...]:
        """What follows from the learner's own values; nothing where they make no sense."""
        try:
            return self.truth(variant, values)
        except (ArithmeticError, ValueError):
            return ()

    def _option(self, variant: Variant, name: str) -> Option:
        return next(each for each in self.lettered(variant).values() if each.id == name)

    def model(self, variant: Variant, values: Any) -> str:
        """Letter of the right option."""
        right = self.rule(variant, values)
        return next(key for key, option in self.lettered(variant).items() if option.id == right)
