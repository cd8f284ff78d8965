"""Draws that are kept only when every usual slip can be told from the right value and from the others."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from twostroke.lab.draw import LabError, Variant
from twostroke.lab.number import Number
from twostroke.lab.slips import clashes, slip_values
from twostroke.lab.task import Task

MOST = 2000


class _Own(dict[str, Any]):
    """Values of the steps so far, as `Values` gives them."""

    @property
    def right(self) -> _Own:
        return self


def told_apart(task: Task, given: dict[str, Any]) -> bool:
    """Say whether the slips of each value of a task can be told apart with these numbers.

    Parameters
    ----------
    task : Task
        Its values may rest on steps of the same task only.
    given : dict
        What a variant would hold.

    Returns
    -------
    bool
        Also false when a value lies outside the range of its own form check.
    """
    variant = Variant("", "", 1, given)
    own: Any = _Own()
    for item in task.items:
        own[f"{task.id}.{item.id}"] = truth = item.truth(variant, own)
        if not isinstance(item, Number):
            continue
        slips = slip_values(item.slips, variant, own)
        if clashes(truth, slips, 1.05 * item.tolerance_for(variant).value):
            return False
        if not all(item.low <= value <= item.high for value in (truth, *slips.values())):
            return False
    return True


def sift(make: Callable[[int], dict[str, Any]], good: Callable[[dict[str, Any]], bool]) -> dict[str, Any]:
    """Return the first draw that is good.

    Parameters
    ----------
    make : callable
        Number of the try, 0 and up -> what is drawn.
    good : callable
        What is drawn -> whether it will do.

    Raises
    ------
    LabError
        When none of 2000 tries is good: the ranges of the draw want mending.

    Examples
    --------
    >>> sift(lambda k: {"gap": k}, lambda given: given["gap"] > 3)
    {'gap': 4}
    """
    for number in range(MOST):
        found = make(number)
        if good(found):
            return found
    raise LabError(f"none of {MOST} draws can be used; widen the ranges of the draw")
