"""Checks put in an order by their average minutes: chance over minutes first, and the usual other orders."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from itertools import permutations
from string import ascii_lowercase
from typing import Any

from twostroke.lab.draw import Variant
from twostroke.lab.feedback import FORM, OTHER, PART, RIGHT, SLIP, Feedback, Form, Judged

NEAR, NEAR_SHARE = 1.05, 0.5
"""An order whose average is within 5 per cent of the best still earns half."""


@dataclass(frozen=True)
class Check:
    """One check: chance in per cent that the fault is there, and minutes to look and mend."""

    id: str
    chance: float
    minutes: float


def average(order: tuple[str, ...], checks: Mapping[str, Check]) -> float:
    """Return the average minutes until the fault is found, looking in this order.

    Examples
    --------
    >>> checks = {"a": Check("a", 50, 20), "b": Check("b", 30, 4), "c": Check("c", 20, 10)}
    >>> average(("b", "a", "c"), checks)
    20.0
    """
    left, total = 100.0, 0.0
    for name in order:
        total += left / 100 * checks[name].minutes
        left -= checks[name].chance
    return total


def best_order(checks: Mapping[str, Check]) -> tuple[str, ...]:
    """Return the order of chance over minutes, largest first.

    References
    ----------
    Two-cause rule of Ross, and the index rule of Kadane and Simon 1977 (from memory).
    """
    return tuple(sorted(checks, key=lambda name: -checks[name].chance / checks[name].minutes))


@dataclass(frozen=True)
class Ranking:
    """An order of checks, marked by its average minutes.

    Parameters
    ----------
    id, label : str
        Name in calls; name for the reader.
    checks : callable
        Variant -> checks by id, in the order of the letters.
    share : float
        Share of the task's points.
    needs : str, optional
        Id of an earlier step of the task without which this one earns nothing.
    """

    id: str
    label: str
    checks: Callable[[Variant], dict[str, Check]]
    share: float = 1.0
    needs: str | None = None

    def lettered(self, variant: Variant) -> dict[str, Check]:
        """Return the checks by letter."""
        return dict(zip(ascii_lowercase, self.checks(variant).values(), strict=False))

    def ask(self, variant: Variant) -> str:
        """How the answer is written."""
        letters = " ".join(list(self.lettered(variant))[:3])
        return (
            f'all letters in the order of work, for example "{letters} …"; half the points within '
            f"{100 * (NEAR - 1):.0f} % of the best average"
        )

    def form(self, answer: Any, variant: Variant) -> Form:
        """Form check: every letter once."""
        letters = self.lettered(variant)
        text = (
            " ".join(answer) if isinstance(answer, list) and all(type(x) is str for x in answer) else answer
        )
        given = [c for c in text.casefold() if c.isalnum()] if type(text) is str else []
        if sorted(given) != sorted(letters):
            return Form(
                False, f"Write each of {', '.join(letters)} once, the first check first.", given=answer
            )
        return Form(True, f'"{text}" can be read.', tuple(letters[c].id for c in given), answer)

    def truth(self, variant: Variant, values: Any) -> tuple[str, ...]:
        """The best order."""
        return best_order(self.checks(variant))

    def judge(self, form: Form, variant: Variant, values: Any) -> Judged:
        """Compare the average minutes with those of the best order; name the usual other orders."""
        if not isinstance(form.value, tuple):
            return Judged(0.0, FORM, Feedback(form.message))
        checks = self.checks(variant)
        best, own = average(best_order(checks), checks), average(form.value, checks)
        if own <= best * (1 + 1e-9):
            return Judged(1.0, RIGHT, Feedback("Right: no order is quicker on average."))
        near = own <= best * NEAR
        for name, order in usual_orders(checks).items():
            if form.value == order:
                return Judged(NEAR_SHARE if near else 0.0, PART if near else SLIP, _TOLD[name], name)
        if near:
            return Judged(NEAR_SHARE, PART, _NEAR_TOLD, "near")
        return Judged(0.0, OTHER, _HINT)

    def model(self, variant: Variant, values: Any) -> str:
        """Letters of the best order."""
        letters = {check.id: letter for letter, check in self.lettered(variant).items()}
        return " ".join(letters[name] for name in self.truth(variant, values))


def usual_orders(checks: Mapping[str, Check]) -> dict[str, tuple[str, ...]]:
    """Return the orders by chance alone, by minutes alone, and the best one turned round."""
    return {
        "by_chance": tuple(sorted(checks, key=lambda name: -checks[name].chance)),
        "by_minutes": tuple(sorted(checks, key=lambda name: checks[name].minutes)),
        "turned_round": best_order(checks)[::-1],
    }


def quickest(checks: Mapping[str, Check]) -> float:
    """Return the least average minutes of all orders, by trying every one."""
    return min(average(order, checks) for order in permutations(checks))


_TOLD = {
    "by_chance": Feedback("The likeliest comes first, whatever it costs.", "Only the chances were looked at.",
                          "How many per cent does each check settle for one of its minutes?"),
    "by_minutes": Feedback("The quickest comes first, whatever it finds.", "Only the minutes were looked at.",
                           "How many per cent does each check settle for one of its minutes?"),
    "turned_round": Feedback("The check that settles least for a minute comes first.",
    "The order was turned round.",
                             "Which check do you want behind you when luck is good?"),
}  # fmt: skip
_NEAR_TOLD = Feedback("Close to the quickest order.", "Two neighbours are the wrong way round.",
                      "Divide chance by minutes for each and compare neighbours.")  # fmt: skip
_HINT = Feedback("A quicker order exists.", "Chance and minutes were not set against each other.",
                 "Divide chance by minutes for each check: the largest comes first.")  # fmt: skip
