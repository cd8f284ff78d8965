"""Named slips: what the usual errors give for one learner's numbers, and whether they can be told apart."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from itertools import combinations
from typing import Any

from twostroke.lab.draw import Variant
from twostroke.lab.feedback import Feedback


@dataclass(frozen=True)
class Slip:
    """One usual error.

    Parameters
    ----------
    id : str
        Short name, used in marks and class reports.
    misconception : str
        Id in data/misconceptions.yaml.
    value : callable
        (variant, values) -> what a learner with this slip would write, in the unit of the item; None where it
        cannot happen in this variant.
    feedback : Feedback
        The three parts, at most 45 words together, without the expected value.
    share : float
        Part of the points that this slip still earns.
    """

    id: str
    misconception: str
    value: Callable[[Variant, Any], float | None]
    feedback: Feedback
    share: float = 0.0


def slip(
    name: str,
    value: Callable[[Variant, Any], float | None],
    *parts: str,
    misconception: str = "",
    share: float = 0.0,
) -> Slip:
    """Return a slip from its name, its value and the parts of its feedback.

    Parameters
    ----------
    name : str
        Id of the slip; also of the misconception unless that is named apart.
    value : callable
        As for `Slip`.
    *parts : str
        What is seen, what it suggests, what to check.
    misconception : str, optional
        Id in data/misconceptions.yaml.
    share : float, optional
        Part of the points that this slip still earns.

    Returns
    -------
    Slip
    """
    return Slip(name, misconception or name, value, Feedback(*parts), share)


def slip_values(slips: Iterable[Slip], variant: Variant, values: Any) -> dict[str, float]:
    """Return the value of each slip that can happen in this variant."""
    found = ((slip.id, slip.value(variant, values)) for slip in slips)
    return {name: value for name, value in found if value is not None and math.isfinite(value)}


def clashes(truth: float, slips: dict[str, float], tolerance: float) -> list[tuple[str, str]]:
    """Return the pairs that lie within one tolerance of each other, the right value called "right".

    Parameters
    ----------
    truth : float
        Right value.
    slips : dict of str to float
        Value of each slip.
    tolerance : float
        In the same unit.

    Returns
    -------
    list of (str, str)
        Empty when every slip can be told from the right value and from each other slip.

    Examples
    --------
    >>> clashes(0.305, {"hundredths": 0.12, "twice": 0.308}, 0.005)
    [('right', 'twice')]
    """
    named = [("right", truth), *slips.items()]
    return [(a, b) for (a, x), (b, y) in combinations(named, 2) if abs(x - y) <= tolerance]


def nearest(
    answer: float, slips: Iterable[Slip], variant: Variant, values: Any, tolerance: float
) -> Slip | None:
    """Return the slip whose value lies nearest to the answer and within the tolerance, if there is one."""
    best: tuple[float, Slip] | None = None
    for slip in slips:
        try:
            value = slip.value(variant, values)
        except (ArithmeticError, ValueError):  # from a learner's own earlier value that makes no sense
            continue
        if value is None:
            continue
        distance = abs(answer - value)
        if distance <= tolerance * (1 + 1e-9) and (best is None or distance < best[0]):
            best = (distance, slip)
    return best[1] if best else None
