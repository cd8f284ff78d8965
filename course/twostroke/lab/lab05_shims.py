"""Lab 05: a shim stack from a set for a band, in thou too, and how far off it can be."""

from __future__ import annotations

import math
import re
from collections import Counter
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from twostroke import gap
from twostroke.lab.check import read_value
from twostroke.lab.conversion import convert
from twostroke.lab.draw import Draw, Variant
from twostroke.lab.feedback import FORM, OTHER, PART, RIGHT, Feedback, Form, Judged
from twostroke.lab.number import Number
from twostroke.lab.page import Page, Table, Text
from twostroke.lab.slips import slip
from twostroke.lab.task import Task
from twostroke.lab.tolerance import tolerance

ALWAYS = (5, 10, 15)
OTHERS = (3, 4, 6, 7, 8, 9, 11, 12, 13)
MOST = 8
"""Leaves that can be written in one answer."""


def draw(d: Draw) -> list[int]:
    """Draw the leaves of the set, hundredths of a millimetre; each is thinner than any band."""
    return sorted([*ALWAYS, *d.shuffle("leaves", OTHERS)[:4]])


@lru_cache(maxsize=4096)
def _best(leaves: tuple[int, ...], low: int, high: int) -> tuple[int, ...]:
    def mm(hundredths: int) -> str:
        return f"{hundredths / 100} mm"

    found = gap.choose_shims([mm(each) for each in leaves], mm(low), mm(high))
    return tuple(round(float(leaf.to("mm").magnitude) * 100) for leaf in found.leaves)


def best(v: Variant) -> tuple[int, ...]:
    """Leaves of the stack nearest to the middle of the band, hundredths of a millimetre."""
    return _best(tuple(v["leaves_hundredths_mm"]), v["low_hundredths_mm"], v["high_hundredths_mm"])


@dataclass(frozen=True)
class Stack:
    """Leaves taken from a set: inside the band, near its middle, no more leaves than needed.

    Parameters
    ----------
    id, label : str
        Name in calls; name for the reader.
    share : float
        Share of the task's points.
    needs : str, optional
        Unused; for the common interface of all steps.
    """

    id: str
    label: str
    share: float = 1.0
    needs: str | None = None
    note = 'leaves with a plus between them, such as "0.10 mm + 0.15 mm"'

    def ask(self, variant: Variant) -> str:
        """How the answer is written and what earns how much."""
        return (
            'the leaves with a plus between them, for example "0.10 mm + 0.15 mm"; inside the band but not '
            "nearest to its middle earns half, more leaves than needed three quarters"
        )

    def form(self, answer: Any, variant: Variant) -> Form:
        """Form check: leaves of the set, each taken once."""
        parts = (
            answer if isinstance(answer, list) else re.split(r"\s*(?:\+|;|\band\b)\s*", str(answer).strip())
        )
        if type(answer) not in (str, list) or not 1 <= len(parts) <= MOST:
            return Form(False, 'Write the leaves as text, for example "0.10 mm + 0.15 mm".', given=answer)
        taken: list[int] = []
        for part in parts:
            try:
                size = read_value(part, "mm")
            except ValueError as error:
                return Form(False, str(error), given=answer)
            hundredths = round(size * 100)
            if abs(size * 100 - hundredths) > 0.01 or hundredths not in variant["leaves_hundredths_mm"]:
                return Form(False, f'"{str(part)[:20]}" is no leaf of your set.', given=answer)
            taken.append(hundredths)
        if max(Counter(taken).values()) > 1:
            return Form(False, "A leaf stands there twice; the set holds each once.", given=answer)
        return Form(True, f'"{answer}" can be read: {len(taken)} leaves of your set.', tuple(taken), answer)

    def truth(self, variant: Variant, values: Any) -> tuple[int, ...]:
        """The best stack."""
        return best(variant)

    def judge(self, form: Form, variant: Variant, values: Any) -> Judged:
        """Inside the band, near the middle, few leaves."""
        if not isinstance(form.value, tuple):
            return Judged(0.0, FORM, Feedback(form.message))
        total, right = sum(form.value), best(variant)
        low, high = variant["low_hundredths_mm"], variant["high_hundredths_mm"]
        if total < low:
            return Judged(0.0, OTHER, _THIN, "stack_too_thin")
        if total > high:
            return Judged(0.0, OTHER, _THICK, "stack_too_thick")
        if abs(2 * total - low - high) > abs(2 * sum(right) - low - high):
            return Judged(0.5, PART, _OFF_MIDDLE, "inside_is_always_good")
        if len(form.value) > len(right):
            return Judged(0.75, PART, _MANY, "more_leaves_do_no_harm")
        return Judged(1.0, RIGHT, Feedback("Right."))

    def model(self, variant: Variant, values: Any) -> str:
        """The best stack as a learner would write it."""
        return " + ".join(f"{each / 100:.2f} mm" for each in best(variant))


_THIN = Feedback("The stack is thinner than the band.", "The magnet would stand too close and may rub.",
                 "Add up your leaves again, then look at the lower limit.")  # fmt: skip
_THICK = Feedback("The stack is thicker than the band.", "The flux would be less, and starting slower.",
                  "Add up your leaves again, then look at the upper limit.")  # fmt: skip
_OFF_MIDDLE = Feedback(
    "The stack lies inside the band, but nearer to a limit than it need be.",
    "Any place inside was taken to be as good as another.",
    "Tightening and wear move the gap: where is most room on both sides?",
)
_MANY = Feedback(
    "As thick as the best stack, with more leaves.",
    "The number of leaves was thought not to matter.",
    "Each leaf brings its own error and its own oil film: which leaves give the same with fewer?",
)


def _mm(own: Any) -> float:
    return sum(own["shims.leaves"]) / 100


def _show(v: Variant) -> Page:
    leaves = ", ".join(f"{each / 100:.2f}" for each in v["leaves_hundredths_mm"])
    rows = (
        (
            "air gap, maker's band",
            f"{v['low_hundredths_mm'] / 100:.2f} to {v['high_hundredths_mm'] / 100:.2f} mm",
        ),
        ("leaves of your set", f"{leaves} mm, one of each"),
        ("each leaf is true within", f"±{v['leaf_uncertainty_um'] / 1000:.3f} mm"),
    )
    said = "Choose the stack nearest to the middle of the band, with as few leaves as possible."
    return Page("", (Table(f"Setting the gap of the {v['machine']}", ("what", "given"), rows), Text(said)))


def _leaf(v: Variant) -> float:
    return float(v["leaf_uncertainty_um"]) / 1000


def _count(own: Any) -> int:
    return len(own["shims.leaves"])


TASK = Task(
    id="shims",
    title="A shim stack for the band",
    outcome="choose a shim stack from a set for a band and say how far off it can be",
    kind="value",
    points=4,
    competency="air gap",
    show=_show,
    items=(
        Stack("leaves", "leaves that you take", share=2),
        Number(
            "thou", "the stack in thou", "thou", lambda v, own: convert(_mm(own), "mm", "thou"),
            tolerance(0.1, reason="half a step of 0.1 thou"), 0, 2000,
            (
                slip("thou_as_hundredth_mm", lambda v, own: _mm(own) * 100,
                     "The hundredths of a millimetre with another unit.",
                     "A thou was taken for a hundredth of a millimetre.",
                     "What part of an inch is a thou, and how many millimetres has an inch?"),
                slip("factor_turned_round", lambda v, own: _mm(own) * 25.4,
                     "The millimetres times 25.4.", "The factor was used upside down.",
                     "Is a thou larger or smaller than a millimetre, so must there be more or fewer?"),
                slip("thou_as_thousandth_mm", lambda v, own: _mm(own) * 1000,
                     "The thousandths of a millimetre with another unit.",
                     "A thou was taken for a thousandth of a millimetre.", "A thousandth of what is a thou?"),
            ),
            Feedback("It does not follow from your own leaves.", "The sum or the factor may be off.",
                     "Add your leaves in millimetres first, then turn the sum into thou."),
            1, "mm", share=1,
        ),
        Number(
            "worst", "how far off the stack can be at worst", "mm", lambda v, own: _count(own) * _leaf(v),
            tolerance(0.001, reason="half a step of 0.001 mm"), 0, 10,
            (
                slip("one_leaf_only", lambda v, own: _leaf(v),
                     "The error of a single leaf.", "The stack was taken to be as true as one leaf.",
                     "What if every leaf is thick at the same time?", misconception="errors_do_not_add"),
                slip("root_of_squares", lambda v, own: _leaf(v) * math.sqrt(_count(own)),
                     "Less than all errors together.",
                     "The root of the squares was taken: likely, not worst.",
                     "At worst, how do all leaves lean?", share=0.5, misconception="errors_do_not_add"),
                slip("errors_average_out", lambda v, own: _leaf(v) / math.sqrt(_count(own)),
                     "Less than one leaf.", "The errors were thought to average out.",
                     "Does a second leaf make the first one truer?", misconception="errors_do_not_add"),
            ),
            Feedback("It does not follow from your number of leaves.",
            "A leaf or a decimal place may be off.",
                     "Count your leaves: each may be off by as much as it says."),
            3, any_unit=True, share=1,
        ),
    ),
)  # fmt: skip
