"""A route on the bench: a list of step records, marked by replaying it on the learner's engine."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from twostroke.lab.draw import Variant
from twostroke.lab.feedback import FORM, Feedback, Form, Judged

Route = list[dict[str, Any]]


@dataclass(frozen=True)
class BenchRoute:
    """A route recorded by the bench.

    Parameters
    ----------
    id, label : str
        Name in calls; name for the reader.
    replay : callable
        (variant, route) -> Judged: runs the recorded actions again on this learner's engine, refuses readings
        which do not come from it, and scores the rest.
    best : callable
        (variant) -> route that earns all points.
    share : float
        Share of the task's points.
    needs : str, optional
        Id of an earlier step of the task without which this one earns nothing.
    opened : callable, optional
        (variant) -> the bench on which this learner works.
    """

    id: str
    label: str
    replay: Callable[[Variant, Route], Judged]
    best: Callable[[Variant], Route]
    share: float = 1.0
    needs: str | None = None
    opened: Callable[[Variant], Any] | None = None

    def ask(self, variant: Variant) -> str:
        """How the answer is made."""
        return "work on the bench; the route is recorded as you go, and handed in with the diagnosis"

    def form(self, answer: Any, variant: Variant) -> Form:
        """Form check: a list of step records, each naming its action."""
        if not isinstance(answer, list) or not all(isinstance(step, dict) for step in answer):
            return Form(
                False, "A route is the record of the bench: hand in machine.route as it is.", given=answer
            )
        if not all(type(step.get("action")) is str for step in answer):
            return Form(
                False, "A step of the route names no action: hand in machine.route as it is.", given=answer
            )
        return Form(True, f"A route of {len(answer)} steps.", answer, answer)

    def truth(self, variant: Variant, values: Any) -> Route:
        """A best route."""
        return self.best(variant)

    def judge(self, form: Form, variant: Variant, values: Any) -> Judged:
        """Replay the route."""
        if not isinstance(form.value, list):
            return Judged(0.0, FORM, Feedback(form.message))
        return self.replay(variant, form.value)

    def model(self, variant: Variant, values: Any) -> Route:
        """A best route."""
        return self.best(variant)
