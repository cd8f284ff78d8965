"""What a job's steps say about the machine: the belief beside the bench, step by step."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from twostroke.isolation.belief import Belief, ContradictionError
from twostroke.isolation.planner import Advice, Planner
from twostroke.isolation.route import read_route
from twostroke.isolation.walk import Walk
from twostroke.table import OTHER, Table


class Follower:
    """Takes in the steps of a route and knows what is still possible after each of them.

    Parameters
    ----------
    table : Table
    complaint : str
        Kind of complaint.
    steps : iterable of Step
        Steps done already.

    Attributes
    ----------
    clash : str
        What the last readings contradict; empty where they agree.
    chances : list of dict
        Chance of each fault before the first step and after every step.
    cured : list of float
        Chance that nothing is wrong any more, in the same order.
    """

    def __init__(self, table: Table, complaint: str, steps: Iterable[Any] = ()) -> None:
        self.table, self.complaint = table, complaint
        self.walk = Walk(table, complaint, True)
        self.planner = Planner(table)
        self.clash = ""
        self.remarks: list[str] = []
        self.chances: list[dict[str, float]] = [self.belief.probabilities()]
        self.cured: list[float] = [0.0]
        for step in steps:
            self.take(step)

    @property
    def belief(self) -> Belief:
        """What is known now."""
        return self.walk.belief

    def take(self, step: Any) -> None:
        """Learn from one step; a reading that contradicts the others is said and left out of account."""
        said = len(self.walk.feedback)
        try:
            self.walk.take(read_route(self.table, [step])[0], len(self.chances))
            self.clash = ""
        except ContradictionError as error:
            self.clash = str(error).partition(" (set_aside")[0] + "."
        fresh = self.walk.feedback[said:]
        self.remarks.append(str(fresh[0]).partition(". ")[2] if fresh else self.clash)
        self.chances.append(self.belief.probabilities())
        self.cured.append(self.belief.cured)

    def advice(self) -> list[Advice]:
        """All actions, the one with the least expected cost first."""
        return self.planner.rank(self.belief)

    def likeliest(self, count: int = 5, step: int = -1) -> list[tuple[str, float]]:
        """Likeliest faults after a step (the last one when left out), as (fault, chance)."""
        rows = sorted(self.chances[step].items(), key=lambda row: (-row[1], row[0]))
        return [row for row in rows if row[1] >= 0.005][:count]


def fault_name(table: Table, fault: str) -> str:
    """Name of a fault for the screen.

    Examples
    --------
    >>> from twostroke.table import load_table
    >>> fault_name(load_table(), "stop_switch")
    'stop switch stuck or shorted'
    """
    return "something not in this table" if fault == OTHER else table.faults[fault].name
