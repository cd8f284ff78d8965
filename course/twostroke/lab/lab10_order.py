"""Lab 10: the shortest order of checks for a small table."""

from __future__ import annotations

from itertools import combinations, pairwise
from typing import Any

from twostroke.lab.draw import Draw, Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.number import Number
from twostroke.lab.page import Page, Table, Text
from twostroke.lab.ranking import Check, Ranking, average, best_order, usual_orders
from twostroke.lab.sifted import sift, told_apart
from twostroke.lab.slips import slip
from twostroke.lab.task import Task
from twostroke.lab.tolerance import tolerance

PARTS = tuple(parts for parts in combinations(range(1, 9), 5) if sum(parts) == 20)
"""Five different twentieths that make a whole."""
NAMES = ("stop lead", "plug and boot", "fuel filter", "air gap", "flywheel key")


def draw(d: Draw) -> dict[str, Any]:
    """Draw chances and minutes such that the usual orders differ and all slips can be told apart."""

    def make(number: int) -> dict[str, Any]:
        parts = d.shuffle(f"checks {number}", d.pick(f"chances {number}", PARTS))
        minutes = [d.integer(f"check time {place} {number}", 2, 25) for place in range(len(NAMES))]
        return {"check_percent": [5 * part for part in parts], "check_min": minutes}

    return sift(make, _good)


def _good(given: dict[str, Any]) -> bool:
    if len(set(given["check_min"])) < len(NAMES):
        return False
    checks = _checks(Variant("", "", 1, given))
    best = average(best_order(checks), checks)
    rates = sorted(check.chance / check.minutes for check in checks.values())
    apart = all(high / low > 1.1 for low, high in pairwise(rates))
    worse = all(average(order, checks) > 1.06 * best for order in usual_orders(checks).values())
    return apart and worse and told_apart(TASK, given)


def _checks(v: Variant) -> dict[str, Check]:
    rows = zip(NAMES, v["check_percent"], v["check_min"], strict=True)
    return {name: Check(name, chance, minutes) for name, chance, minutes in rows}


def _own(v: Variant, own: Any) -> tuple[str, ...]:
    return tuple(own["order.order"])


def show(v: Variant) -> Page:
    """The five checks."""
    letters = ORDER.lettered(v)
    rows = [
        (letter, check.id, f"{check.chance:g} %", f"{check.minutes:g} min")
        for letter, check in letters.items()
    ]
    return Page(
        "",
        (
            Table(
                "Each check finds its fault for certain, and mends it",
                ("", "check", "chance", "minutes"),
                rows,
            ),
            Text("You stop as soon as the fault is found. Which order takes the fewest minutes on average?"),
        ),
    )


ORDER = Ranking("order", "order of the checks", _checks, share=2)

TASK = Task(
    id="order",
    title="The shortest order",
    outcome="put checks in the order that takes the fewest minutes on average",
    kind="order",
    points=5,
    competency="isolation logic",
    show=show,
    items=(
        ORDER,
        Number(
            "first_rate", "per cent settled for each minute by the first check of your order", "",
            lambda v, own: _checks(v)[_own(v, own)[0]].chance / _checks(v)[_own(v, own)[0]].minutes,
            tolerance(0.1, reason="half a step of 0.1"), 0, 10_000,
            (
                slip("rate_turned_round",
                     lambda v, own: _checks(v)[_own(v, own)[0]].minutes / _checks(v)[_own(v, own)[0]].chance,
                     "Minutes for each per cent.", "The division was turned round.",
                     "Is a larger figure now better or worse?", misconception="factor_turned_round",
                     share=0.5),
                slip("chance_alone", lambda v, own: _checks(v)[_own(v, own)[0]].chance,
                     "The chance of that check.", "Its minutes have no say.",
                     "How much of that chance does one minute settle?",
                     misconception="common_is_likely_here"),
                slip("minutes_alone", lambda v, own: _checks(v)[_own(v, own)[0]].minutes,
                     "The minutes of that check.", "Its chance has no say.",
                     "How much chance does one of these minutes settle?",
                     misconception="cheapest_test_first"),
            ),
            Feedback("It does not follow from your first check.", "Another check may have been taken.",
                     "Chance over minutes, of the check that you put first."),
            1,
        ),
        Number(
            "minutes", "average minutes of your order", "min",
            lambda v, own: average(_own(v, own), _checks(v)),
            tolerance(1, reason="half a step of 1 min"), 0, 10_000,
            (
                slip("sum_of_all", lambda v, own: float(sum(v["check_min"])),
                     "The minutes of all five checks.", "The times when you stop early were left out.",
                     "How often do you get as far as the last check?", misconception="one_by_one"),
                slip("own_minutes_only",
                     lambda v, own: sum(c.chance * c.minutes for c in _checks(v).values()) / 100,
                     "Each check's minutes weighed by its own chance.",
                     "The checks done before it in vain were left out.",
                     "When the third one finds it, which minutes have you spent?",
                     misconception="share_of_the_wrong_whole"),
                slip("plain_mean", lambda v, own: sum(v["check_min"]) / len(NAMES),
                     "The plain mean of the five.", "Order and chances have no say.",
                     "How often is each check done at all?", misconception="share_of_the_wrong_whole"),
            ),
            Feedback("It does not follow from your order.", "A check may be weighed by its own chance.",
                     "Each check's minutes times the chance that it is still not found by then."),
            0, any_unit=True, share=2,
        ),
    ),
)  # fmt: skip
