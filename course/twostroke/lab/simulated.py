"""Simulated learners of stated ability: what they would write, with the usual slips, in every lab.

They are no people. Ability, difficulty and slip rates are invented; what is real is the lab: each wrong
answer is one that the lab's own list of slips, options and routes holds, and it is marked as any other.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from string import ascii_lowercase
from typing import Any

import numpy as np

from twostroke.lab.catalogue import load, variant
from twostroke.lab.draw import Variant
from twostroke.lab.formula import Formula
from twostroke.lab.marking import slip_answers
from twostroke.lab.number import Number
from twostroke.lab.order import Order
from twostroke.lab.pick import Pick
from twostroke.lab.ranking import Ranking, usual_orders
from twostroke.lab.route import BenchRoute
from twostroke.lab.task import COMPETENCIES, Item, Task, Values
from twostroke.lab.written import Written

SLOPE = 1.6
"""How steeply knowing rises with ability (logistic); invented."""
HARD: dict[str, float] = {
    "choice": -0.9, "value": -0.5, "table": -0.5, "order": -0.6, "formula": -0.1, "route": 0.0,
    "written": -0.3,
}  # fmt: skip
"""Ability at which half of the learners know a step, by kind of task; invented."""
SHARED = 0.8
"""Correlation of the ability in one competency with the ability in all; invented."""
BLANK, NO_UNIT = 0.08, 0.12
"""Part of the wrong answers that are left blank, and of wrong values that lack their unit; invented."""


@dataclass(frozen=True)
class Ability:
    """How able a simulated learner is.

    Parameters
    ----------
    name : str
        Identifier; picks the variants.
    overall : float
        In standard deviations of the class.
    of : dict
        Ability by competency.
    """

    name: str
    overall: float
    of: dict[str, float]


def draw_class(learners: int, seed: int = 14) -> list[Ability]:
    """Return simulated learners with normally spread abilities.

    Parameters
    ----------
    learners : int
    seed : int, optional

    Returns
    -------
    list of Ability

    Examples
    --------
    >>> made = draw_class(50)
    >>> made == draw_class(50), len({each.name for each in made})
    (True, 50)
    """
    rng = np.random.default_rng(seed)
    found = []
    for number in range(learners):
        overall = float(rng.normal())
        own = rng.normal(size=len(COMPETENCIES))
        of = SHARED * overall + math.sqrt(1 - SHARED**2) * own
        found.append(
            Ability(
                f"simulated {number + 1:03d}", overall, dict(zip(COMPETENCIES, map(float, of), strict=True))
            )
        )
    return found


def knows(ability: float, hard: float) -> float:
    """Return the chance that a learner knows a step.

    Examples
    --------
    >>> knows(0.0, 0.0), knows(3.0, 0.0) > 0.9, knows(-3.0, 0.0) < 0.1
    (0.5, True, True)
    """
    return 1 / (1 + math.exp(-SLOPE * (ability - hard)))


class Writer:
    """What one simulated learner writes in one lab.

    Parameters
    ----------
    learner : Ability
    lab : str
    attempt : int, optional
    """

    def __init__(self, learner: Ability, lab: str, attempt: int = 1):
        self.learner, self.lab = learner, load(lab)
        self.given = variant(lab, learner.name, attempt)
        self.right = Values(self.lab, self.given)
        self.rng = np.random.default_rng([int(self.lab.id), attempt, *learner.name.encode()])
        self._slips = slip_answers(lab, learner.name, attempt)

    def answers(self) -> dict[str, Any]:
        """Return the answers to every task but those of the examination's service."""
        return {task.id: self._task(task) for task in self.lab.tasks if not task.by_service}

    def chance(self, task: Task) -> float:
        """Chance of knowing a step of a task."""
        return knows(self.learner.of[task.competency], HARD[task.kind])

    def _task(self, task: Task) -> dict[str, Any]:
        chance = self.chance(task)
        return {item.id: self._item(task, item, chance) for item in task.items}

    def _item(self, task: Task, item: Item, chance: float) -> Any:
        if isinstance(item, BenchRoute):
            return self._route(item, chance)
        if isinstance(item, Written) or self.rng.random() < chance:
            return item.model(self.given, self.right)
        if self.rng.random() < BLANK:
            return ""
        return self._wrong(task, item)

    def _wrong(self, task: Task, item: Item) -> Any:
        model = item.model(self.given, self.right)
        if isinstance(item, Number):
            slips = list(self._slips[f"{task.id}.{item.id}"].values())
            if self.rng.random() < NO_UNIT or not slips:
                return model.partition(" ")[0]
            return str(self.rng.choice(slips))
        if isinstance(item, Pick):
            return self._picked(item, model)
        if isinstance(item, Order):
            return self._ordered(item, model.split())
        if isinstance(item, Ranking):
            letters = {check.id: letter for letter, check in item.lettered(self.given).items()}
            usual = list(usual_orders(item.checks(self.given)).values())
            return " ".join(letters[name] for name in usual[self.rng.integers(len(usual))])
        if isinstance(item, Formula):
            return item.slips[self.rng.integers(len(item.slips))].formula
        return ""

    def _picked(self, item: Pick, model: str) -> str:
        """A guess: one option of all, or each option by the toss of a coin."""
        keys = list(item.lettered(self.given))
        if not item.several:
            return str(self.rng.choice(keys))
        right = set(model.split())
        taken = [key for key in keys if (key in right) != (self.rng.random() < 0.4)]
        return " ".join(taken or keys[:1])

    def _ordered(self, item: Order, letters: list[str]) -> str:
        """Steps changed about, one left out or a needless one put in."""
        done = list(letters)
        for _ in range(int(self.rng.integers(2, 5))):
            one, other = self.rng.integers(len(done), size=2)
            done[one], done[other] = done[other], done[one]
        extra = [letter for letter in ascii_lowercase[: len(item.steps)] if letter not in letters]
        if extra and self.rng.random() < 0.5:
            done.insert(int(self.rng.integers(len(done))), extra[0])
        elif self.rng.random() < 0.3:
            done.pop()
        return " ".join(done)

    def _route(self, item: BenchRoute, chance: float) -> Any:
        from twostroke.lab.simulated_route import worked

        assert item.opened is not None
        desk = item.opened(self.given)
        return worked(desk.machine, chance, self.rng)


def rubric_share(written: Written, given: Variant, chance: float, rng: np.random.Generator) -> float:
    """Return the share of the points that a person would give: each row of the rubric is met or not.

    Parameters
    ----------
    written : Written
    given : Variant
    chance : float
        Of meeting a row.
    rng : numpy.random.Generator
    """
    whole = sum(share for _, share in written.rubric)
    return sum(share for _, share in written.rubric if rng.random() < chance) / whole
