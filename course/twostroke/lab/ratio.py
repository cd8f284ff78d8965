"""A ratio as an answer: "8.9:1" or the plain number; everything else as for a value with a unit."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from twostroke import units
from twostroke.errors import TwoStrokeError
from twostroke.lab.check import leading_number
from twostroke.lab.draw import Variant
from twostroke.lab.feedback import Feedback, Form
from twostroke.lab.number import Number


@dataclass(frozen=True)
class Ratio(Number):
    """A compression ratio, answered as "8.9:1" or "8.9".

    Parameters
    ----------
    unit : str
        Must be ":1".
    others
        As for `Number`.
    """

    def ask(self, variant: Variant) -> str:
        """How the answer is written and how close it must be."""
        close = self.tolerance_for(variant)
        return f'as a ratio, for example "12.3:1", within ±{close.value:.2g}: {close.reason}'

    def form(self, answer: Any, variant: Variant) -> Form:
        """Form check: a ratio, or a plain number, inside what can occur."""
        text = str(answer).strip() if type(answer) in (str, int, float) else ""
        number = leading_number(text)
        try:
            plain = number is not None and float(text.replace(",", ".")) == number
        except ValueError:
            plain = False
        try:
            value = number if plain and number is not None else units.read_ratio(text)
        except TwoStrokeError as error:
            return Form(False, str(error), given=text)
        if not self.low <= value <= self.high:
            shown = f'"{text}" lies outside {self.low:g}:1 to {self.high:g}:1; that cannot be.'
            return Form(False, shown, given=text)
        return Form(True, f'"{text}" can be read: a ratio.', float(value), text)

    def model(self, variant: Variant, values: Any) -> str:
        """The model answer, rounded as a learner would."""
        return f"{self.truth(variant, values):.{self.decimals}f}:1"

    def _numbers(self, form: Form, variant: Variant) -> list[float]:
        """The number alone, where a unit stands behind it that a ratio has not."""
        number = leading_number(form.given)
        return [] if number is None else [number]

    def _unit_feedback(self, form: Form, variant: Variant) -> Feedback:
        return Feedback(
            f'The number in "{form.given}" fits, what stands behind it does not.',
            "A ratio was written with a unit or with words.",
            "Write a ratio: the number, a colon and 1.",
        )
