"""A choice: one option, or all that apply; each wrong option names the misconception behind it."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from string import ascii_lowercase
from typing import Any

from twostroke.lab.draw import Draw, Variant
from twostroke.lab.feedback import FORM, NOTHING, PART, RIGHT, SLIP, Feedback, Form, Judged
from twostroke.lab.page import Lines


@dataclass(frozen=True)
class Option:
    """One option of a choice.

    Parameters
    ----------
    id : str
        Short name, used in marks and class reports.
    text : str
        What the learner reads.
    right : bool
        Whether it is right.
    misconception : str
        Id in data/misconceptions.yaml, for a wrong option.
    feedback : Feedback, optional
        What a learner who takes it wrongly (or leaves it out wrongly) is told.
    """

    id: str
    text: str
    right: bool = False
    misconception: str = ""
    feedback: Feedback = field(default=NOTHING)


@dataclass(frozen=True)
class Pick:
    """One option, or all that apply, by its letter; the letters differ from learner to learner.

    Parameters
    ----------
    id, label : str
        Name in calls; name for the reader.
    options : tuple of Option or callable
        (variant) -> options where they differ.
    several : bool
        Whether all that apply are asked; then each wrong letter takes away what a right one gives.
    fixed : bool
        Whether the options keep their order (lines of a table) instead of being drawn for each learner.
    numbered : bool
        Whether the options are numbered 1, 2, 3 instead of lettered.
    share : float
        Share of the task's points.
    needs : str, optional
        Id of an earlier step of the task without which this one earns nothing.
    """

    id: str
    label: str
    options: tuple[Option, ...] | Callable[[Variant], tuple[Option, ...]]
    several: bool = False
    fixed: bool = False
    numbered: bool = False
    share: float = 1.0
    needs: str | None = None

    def lettered(self, variant: Variant) -> dict[str, Option]:
        """Return the options by letter or number, in the order that this learner sees."""
        options = list(self.options(variant) if callable(self.options) else self.options)
        if not self.fixed:
            draw = Draw(variant.lab, variant.learner, variant.attempt)
            options = draw.shuffle(f"options {self.id} {options[0].id}", options)
        keys = [str(place + 1) for place in range(len(options))] if self.numbered else list(ascii_lowercase)
        return dict(zip(keys, options, strict=False))

    def options_block(self, variant: Variant) -> Lines:
        """Return the options with their letters, as this learner sees them."""
        return Lines(tuple((f"{key}:", option.text) for key, option in self.lettered(variant).items()))

    def ask(self, variant: Variant) -> str:
        """How the answer is written."""
        keys = list(self.lettered(variant))
        if self.several:
            return f'all that apply, for example "{keys[0]} {keys[-1]}"'
        return f"one of {', '.join(keys)}"

    def form(self, answer: Any, variant: Variant) -> Form:
        """Form check: letters that exist, and as many as are asked."""
        options = self.lettered(variant)
        allowed = f"write {'letters' if self.several else 'one'} of {', '.join(options)}"
        if isinstance(answer, list) and all(type(each) is str for each in answer):
            answer = " ".join(answer)
        if type(answer) is int:
            answer = str(answer)
        if type(answer) is not str:
            return Form(False, f"A choice is text between quotes: {allowed}.", given=answer)
        keys = re.findall(r"[a-z]+|[0-9]+", answer.casefold())
        unknown = [key for key in keys if key not in options]
        if unknown or not keys:
            return Form(False, f'"{answer[:40]}" is none of the options: {allowed}.', given=answer)
        if not self.several and len(set(keys)) > 1:
            return Form(False, f'"{answer[:40]}" holds more than one option: {allowed}.', given=answer)
        chosen = tuple(dict.fromkeys(options[key].id for key in keys))
        return Form(True, f'"{answer}" can be read.', chosen, answer)

    def truth(self, variant: Variant, values: Any) -> tuple[str, ...]:
        """Ids of the right options."""
        return tuple(option.id for option in self.lettered(variant).values() if option.right)

    def judge(self, form: Form, variant: Variant, values: Any) -> Judged:
        """Right, part right (several), or a wrong option with its feedback."""
        if not isinstance(form.value, tuple):
            return Judged(0.0, FORM, Feedback(form.message))
        options = list(self.lettered(variant).values())
        chosen = set(form.value)
        wrong = [option for option in options if option.id in chosen and not option.right]
        wrong += [option for option in options if option.id not in chosen and option.right]
        if not wrong:
            return Judged(1.0, RIGHT, Feedback("Right."))
        right = [option for option in options if option.right]
        hits = sum(1 if option.right else -1 for option in options if option.id in chosen)
        fraction = max(0.0, hits / len(right)) if self.several else 0.0
        return Judged(fraction, PART if fraction else SLIP, wrong[0].feedback, wrong[0].id)

    def model(self, variant: Variant, values: Any) -> str:
        """Letters of the right options."""
        return " ".join(key for key, option in self.lettered(variant).items() if option.right)
