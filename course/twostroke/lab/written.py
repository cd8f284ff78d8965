"""A written answer for a person to mark, with its rubric."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from twostroke.lab.draw import Variant
from twostroke.lab.feedback import FORM, PERSON, Feedback, Form, Judged


@dataclass(frozen=True)
class Written:
    """A few sentences, marked by a person.

    Parameters
    ----------
    id, label : str
        Name in calls; name for the reader.
    rubric : tuple of (str, float)
        What is looked for, and its share of the points.
    example : str
        The model answer.
    fewest, most : int
        Words that the form check allows.
    share : float
        Share of the task's points.
    needs : str, optional
        Unused by a person; kept for the common interface of all steps.
    """

    id: str
    label: str
    rubric: tuple[tuple[str, float], ...]
    example: str
    fewest: int = 20
    most: int = 250
    share: float = 1.0
    needs: str | None = None

    def ask(self, variant: Variant) -> str:
        """How the answer is written and what is looked for."""
        looked_for = "; ".join(text for text, _ in self.rubric)
        return f"{self.fewest} to {self.most} words, marked by a person, who looks for: {looked_for}"

    def form(self, answer: Any, variant: Variant) -> Form:
        """Form check: text of a sensible length."""
        if type(answer) is not str:
            return Form(False, "Write your answer as text between quotes.", given=answer)
        words = len(answer.split())
        if not self.fewest <= words <= self.most:
            return Form(False, f"{words} words; {self.fewest} to {self.most} are asked.", given=answer)
        return Form(True, f"{words} words: a person will read them.", answer, answer)

    def truth(self, variant: Variant, values: Any) -> str:
        """The model answer."""
        return self.example

    def judge(self, form: Form, variant: Variant, values: Any) -> Judged:
        """Leave the points to a person."""
        if not form.ok:
            return Judged(0.0, FORM, Feedback(form.message))
        return Judged(0.0, PERSON, Feedback("Kept for a person to read and mark."))

    def model(self, variant: Variant, values: Any) -> str:
        """The model answer."""
        return self.example
