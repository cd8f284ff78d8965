"""The bench as a notebook shows it: each step prints what is seen; hints, if there are any, are counted."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from twostroke.errors import TwoStrokeError
from twostroke.lab.route import Route

if TYPE_CHECKING:
    from twostroke.bench import Bench

HINT = "hint"
"""Action under which a hint stands in the record; it is no step on the machine."""
LEVELS = 3

Count = Callable[[int, int], int]
"""(steps done, level) -> hints taken on this machine so far, this one counted once."""


class Desk:
    """The bench as a notebook shows it: each step prints what is seen, and nothing is ever raised.

    Parameters
    ----------
    bench : Bench or None
        None until a name is written at the top of the notebook.
    hints : bool
        Whether there are hints in this job.

    Attributes
    ----------
    route : list of dict
        Record of the job, to be handed in as it is; hints stand in it where they were taken.
    """

    def __init__(self, bench: Bench | None, hints: bool = False):
        self._bench, self._has_hints = bench, hints
        self._taken: list[dict[str, Any]] = []
        self.count: Count | None = None

    def __repr__(self) -> str:
        if self._bench is None:
            return "First write your name or number in the cell at the top, and run it."
        told = [f"The owner says: {self._bench.complaint}", *self._bench.scenario.history]
        return "\n".join([self._bench.scenario.title, *told])

    @property
    def machine(self) -> Bench | None:
        """The bench itself; None until a name is written."""
        return self._bench

    @property
    def route(self) -> Route:
        """Record of the job as plain data."""
        if self._bench is None:
            return []
        steps = [step.to_dict() for step in self._bench.route]
        for taken in reversed(self._taken):
            steps.insert(taken["after"], dict(taken))
        return steps

    def do(self, action: str, **settings: Any) -> None:
        """Do one step and print what it shows, with the minutes on the clock."""
        if self._bench is None:
            return
        try:
            reading = self._bench.do(action, **settings)
        except TwoStrokeError as error:
            print(f"{action}: {error}")
            return
        print(f"{self._bench.minutes:5.0f} min  {action}: {reading}")

    def hint(self) -> None:
        """Print the next of three hints for the step to come: which system, what kind of step, which step."""
        if self._bench is None:
            return
        if not self._has_hints:
            print("There are no hints in this job.")
            return
        if self._bench.outcome is not None:
            print("The machine has been handed back: the job is closed.")
            return
        from twostroke.isolation.follow import Follower
        from twostroke.isolation.hints import LEVELS as NAMES
        from twostroke.isolation.hints import hint

        after = len(self._bench.route)
        level = min(LEVELS, 1 + sum(taken["after"] == after for taken in self._taken))
        follower = Follower(self._bench.table, self._bench.scenario.complaint.kind, self._bench.route)
        said = hint(follower, after, level).text
        record = {"action": HINT, "after": after, "level": level}
        if record not in self._taken:
            self._taken.append(record)
        total = len(self._taken) if self.count is None else self.count(after, level)
        print(f"Hint {level} of {LEVELS}, {NAMES[level - 1]}: {said} ({total} taken on this machine)")

    def hand_back(self, diagnosis: str, confidence: float | str) -> None:
        """Give the machine back with a diagnosis and how sure you are, and print that the job is closed."""
        if self._bench is None:
            return
        try:
            self._bench.hand_back(diagnosis, confidence)
        except TwoStrokeError as error:
            print(f"hand_back: {error}")
            return
        print(f"{self._bench.minutes:5.0f} min  handed back as: {diagnosis}")

    def actions(self) -> None:
        """Print everything that can be done, by name."""
        if self._bench is not None:
            print("\n".join(f"{name}: {words}" for name, words in self._bench.actions().items()))

    def faults(self) -> None:
        """Print the faults that can be named at hand-back."""
        if self._bench is not None:
            print("\n".join(f"{name}: {row.name}" for name, row in self._bench.table.faults.items()))


def without_hints(route: Route) -> tuple[Route, int]:
    """Return the steps of a route without its hints, and how many hints there were.

    Examples
    --------
    >>> without_hints([{"action": "hint", "after": 0, "level": 1}, {"action": "look_over"}])
    ([{'action': 'look_over'}], 1)
    """
    steps = [step for step in route if step.get("action") != HINT]
    return steps, len(route) - len(steps)
