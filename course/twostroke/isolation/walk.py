"""The score's way along a route: what every step cost, what it could tell, and what it told."""

from __future__ import annotations

from typing import Any

from twostroke.isolation.belief import Belief
from twostroke.isolation.feedback import Moment, Remark, remark
from twostroke.isolation.lookahead import HAND_BACK, HAND_ON, Situation, lookahead_of
from twostroke.isolation.model import Place
from twostroke.isolation.route import RUNS, Step, moved_to
from twostroke.table import Table, TableError


class Walk:
    """Luck-adjusted cost of a route, one step after the other.

    Parameters
    ----------
    table : Table
    complaint : str or None
    pairs : bool
    speak : bool
        Whether a remark is made for every step; simulations do without.
    memo : dict, optional
        Where the values of beginnings are kept that many simulated routes share.
    """

    def __init__(
        self,
        table: Table,
        complaint: str | None,
        pairs: bool,
        *,
        speak: bool = True,
        memo: dict | None = None,
    ) -> None:
        self.table, self.complaint = table, complaint
        self.belief = Belief(table, complaint, pairs)
        self.ahead = lookahead_of(self.belief.model, complaint)
        self.value = self.ahead.value(self._here())
        self.start = self.adjusted = self.value
        self.raw = self.premature = 0.0
        self.safe, self.closed = True, ""
        self.proven: set[str] = set()
        self.feedback: list[Remark] = []
        self.moments: list[Moment] = []
        self.stated: Step | None = None
        self.speak = speak
        self.history: tuple[Any, ...] = (complaint, pairs)
        self._memo = memo

    def _here(self) -> Situation:
        belief = self.belief
        return Situation(belief.vector, belief.place, belief.repeated, belief.proven)

    def take(self, step: Step, number: int) -> None:
        """Add one step."""
        if self.closed:
            raise TableError(f"step {number} ({step.action}) comes after the job was closed; take it out")
        before = Moment(self.belief.copy(), self.value) if self.speak else Moment(self.belief, self.value)
        place = self.belief.place
        own, expected, value = self._weigh(step)
        missed = self._missed(step, place)
        gain = own + expected - self.value
        if missed:
            self.safe = False
            gain = max(gain, own)
        self.adjusted += gain
        self.raw += own
        self.value = value
        if self.speak:
            self.moments.append(before)
            after = Moment(self.belief, value)
            self.feedback.append(remark(self.table, step, number, before, after, own, gain, missed))

    def _weigh(self, step: Step) -> tuple[float, float, float]:
        """Own cost, expected value after the step, value after what happened."""
        weigh = getattr(self, f"_{step.kind}")
        self.history = (*self.history, step.action, step.conditions, step.result)
        if self._memo is None:
            return weigh(step)
        found = self._memo.get(self.history)
        if found is not None:
            numbers, self.belief, self.premature, self.proven, self.closed = found
            self.belief, self.proven = self.belief.copy(), set(self.proven)
            return numbers
        numbers = weigh(step)
        if len(self.history) <= 14:
            kept = (self.belief.copy(), self.premature, frozenset(self.proven), self.closed)
            self._memo[self.history] = (numbers, *kept)
        return numbers

    def finish(self) -> None:
        """A job left open counts as handed back after a passed verify run, else as handed on."""
        if not self.closed:
            prices = self.ahead.prices
            proven = self.belief.proven
            left = self.ahead.hand_back(self._here()) if proven else prices.escalate
            self.adjusted += left - self.value
            self.raw += 0.0 if proven else prices.escalate

    def _missed(self, step: Step, before: Place) -> list[str]:
        """Hazards of this step whose precaution was not confirmed."""
        if step.unsafe:
            return self._hazards(step, before) or ["unsafe"]
        if step.cautions is None:
            return []
        return [hazard for hazard in self._hazards(step, before) if hazard not in step.cautions]

    def _hazards(self, step: Step, before: Place) -> list[str]:
        opened = sorted(self.belief.place.opened - before.opened)
        needed = [hazard for cover in opened for hazard in self.table.access[cover].hazards]
        if step.kind in ("test", "repair", "attempt"):
            needed += self.table.action(step.action).hazards
        if step.kind == "verify" or (step.kind == "repair" and step.result):
            needed += self.table.meta.verify_hazards
        return list(dict.fromkeys(needed))

    # one method for each kind of step: own cost, expected value after it, value after what happened -----

    def _test(self, step: Step) -> tuple[float, float, float]:
        model, here = self.belief.model, self._here()
        condition = step.conditions[0] if step.conditions else None
        cost, place, run = model.test_step(step.action, here.place, condition)
        if step.result is None:
            self.belief.place = place
            return cost, self.value, self.value
        likelihood = self.belief.likelihood(step.action, run)
        names = self.table.tests[step.action].results
        after = [
            Situation(here.vector * column, place, {**here.repeated, (step.action, run): number}, here.proven)
            for number, column in enumerate(likelihood.T)
        ]
        values = self.ahead.value_of(after)
        self.belief.update(step.action, step.result, run)
        number = names.index(step.result)
        return cost, sum(values), values[number] / float(after[number].vector.sum())

    def _repair(self, step: Step) -> tuple[float, float, float]:
        model, here = self.belief.model, self._here()
        cost, _ = model.repair_step(step.action, here.place)
        chance = float(self.ahead.chances(here.vector)[self.ahead.prices.repairs.index(step.action)])
        part = self.table.repairs[step.action].part
        cost += model.trial_part(step.action) * chance
        if part and chance < 0.5 and not self.table.repairs[step.action].trial:
            self.premature += part
        self.belief.repair(step.action)
        self.proven.clear()
        value = self.ahead.value(self._here())
        if step.result is None:
            return cost, value, value
        own, expected, after = self._verify(step)
        return cost + own, expected, after

    def _attempt(self, step: Step) -> tuple[float, float, float]:
        """Time and covers as for the repair; the machine and what is known of it are as before."""
        model, here = self.belief.model, self._here()
        row = self.table.repairs[step.action]
        cost, place = model.repair_step(step.action, here.place)
        self.belief.place = place
        value = self.ahead.value(self._here())
        return cost - (0.0 if row.trial else row.part), value, value

    def _verify(self, step: Step) -> tuple[float, float, float]:
        model, here = self.belief.model, self._here()
        asked = model.verify_runs(self.complaint, here.place)
        said = list(step.conditions)
        whole = not said or said == [run.condition for run in asked][: len(said)]
        runs = asked if whole else model.runs_in(said, here.place)
        conditions = [run.condition for run in runs]
        after = [Situation(here.vector * model.passes(conditions), runs[-1].place, proven=True)]
        share, costs = [float(here.vector.sum())], [run.cost for run in runs]
        for number, run in enumerate(runs):
            failed = here.vector * model.outcome(conditions[: number + 1], passed=False)
            after.append(Situation(failed, run.place))
            share.append(float((here.vector * model.passes(conditions[: number + 1])).sum()))
        expected = sum(cost * part for cost, part in zip(costs, share, strict=False))
        if step.result is None:
            return sum(costs), self.value, self.value
        values = self.ahead.value_of(after)
        self.belief.verify(step.result == RUNS, said or (conditions if step.result == RUNS else None))
        if step.result == RUNS:
            self.proven.update(said or conditions)
        seen = self._seen(step, len(said), after)
        left = sum(values[number] for number in seen)
        return expected, sum(values), left / sum(float(after[number].vector.sum()) for number in seen)

    @staticmethod
    def _seen(step: Step, said: int, after: list[Situation]) -> list[int]:
        """Which of the outcomes (0 passed, then failed in the first, second … run) it was."""
        if step.result == RUNS:
            return [0]
        return [said] if said else list(range(1, len(after)))

    def _hand_back(self, step: Step) -> tuple[float, float, float]:
        self.closed, self.stated = HAND_BACK, step
        return 0.0, self.ahead.hand_back(self._here()), 0.0

    def _hand_on(self, step: Step) -> tuple[float, float, float]:
        self.closed, self.stated = HAND_ON, step
        return self.ahead.prices.escalate, 0.0, 0.0

    def _open(self, step: Step) -> tuple[float, float, float]:
        meta, place = self.table.meta, self.belief.place
        shut = self.table.opening([step.action], place.opened)
        minutes = sum(self.table.access[name].minutes for name in shut)
        self.belief.place = Place(place.opened | set(shut), place.temperature)
        value = self.ahead.value(self._here())
        return minutes * meta.money_per_minute, value, value

    def _move(self, step: Step) -> tuple[float, float, float]:
        meta, place = self.table.meta, self.belief.place
        wanted = moved_to(step.action)
        if wanted is None or wanted == place.temperature:
            return (step.minutes or 0.0) * meta.money_per_minute, self.value, self.value
        minutes = meta.cool_to_hot_minutes if wanted == "hot" else meta.hot_to_cool_minutes
        self.belief.place = Place(place.opened, wanted)
        value = self.ahead.value(self._here())
        return minutes * meta.money_per_minute, value, value
