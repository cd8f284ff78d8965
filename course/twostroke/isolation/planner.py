"""Which test or repair next: expected cost of all of them, best first."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from twostroke.isolation.belief import Belief
from twostroke.isolation.lookahead import (
    HAND_BACK,
    HAND_ON,
    VERIFY,
    LookAhead,
    Situation,
    Values,
    lookahead_of,
)
from twostroke.sources import formula
from twostroke.table import Table, TableError

EXPAND = 8


class Advice(NamedTuple):
    """One possible next action.

    Attributes
    ----------
    action : str
        Name of a test or repair, or ``verify``, ``hand_back``, ``hand_on``.
    expected_cost : float
        Money until the machine is cured, handed on or has come back, when this is done first.
    kind : str
        ``test``, ``repair``, ``verify``, ``hand_back`` or ``hand_on``.
    cost : float
        Money for this action alone, covers, heating or cooling and a repair's verify run included.
    minutes : float
        Its time.
    information : float
        Bits that a test is expected to give; 0 for other actions.
    per_minute : float
        Bits a minute for a test.
    chance : float
        Chance that a repair takes a fault away; 0 for tests.
    """

    action: str
    expected_cost: float
    kind: str
    cost: float
    minutes: float
    information: float = 0.0
    per_minute: float = 0.0
    chance: float = 0.0


class Planner:
    """Adviser on a fault table.

    Parameters
    ----------
    table : Table
    depth : int
        1 looks one step ahead and is the recommended adviser; 2 looks two steps ahead, slower and on the
        full table not shown to be better.

    Raises
    ------
    TableError
        Another depth.

    Notes
    -----
    Expected cost of repair with look-ahead (Heckerman, Breese and Rommelse 1995, from memory). Covers,
    heating and cooling, verify runs, machines that come back and handing on are part of the cost; two faults
    at once are part of the plan when the belief holds them.

    Examples
    --------
    >>> from twostroke.isolation import Belief, load_table
    >>> table = load_table()
    >>> best = Planner(table).rank(Belief(table, "no_start"))[0]
    >>> best.kind
    'test'
    """

    def __init__(self, table: Table, depth: int = 1) -> None:
        if depth not in (1, 2):
            raise TableError(f"depth {depth!r}: the planner looks 1 or 2 steps ahead; use 1 unless in doubt")
        self.table, self.depth = table, depth

    @formula(
        "expected cost = own cost + sum of P(result) cost after it; bits = H - sum of P(result) H(after)",
        "shannon",
        "bayes",
        module="isolation",
    )
    def rank(self, belief: Belief) -> list[Advice]:
        """All actions with their expected cost, best first.

        Parameters
        ----------
        belief : Belief
            Of the same table.

        Returns
        -------
        list of Advice
            After a repair whose verify run is still to be made, ``verify`` and ``hand_back`` are among them.
        """
        if belief.table is not self.table and belief.table.model_dump() != self.table.model_dump():
            raise TableError("this belief was made from another table; make it from the planner's table")
        ahead = lookahead_of(belief.model, belief.complaint)
        situation = Situation(belief.vector, belief.place, belief.repeated, belief.proven)
        if belief.cured > 1e-12:
            return self._unverified(belief, ahead, situation)
        return self._options(belief, ahead, situation)

    def _options(self, belief: Belief, ahead: LookAhead, situation: Situation) -> list[Advice]:
        values, stack = ahead.values(situation), ahead.stack(situation.place)
        tests, repairs = values.tests, values.repairs
        if self.depth == 2:
            tests, repairs = self._deeper(ahead, situation, values)
        price = self.table.meta.money_per_minute
        bits = ahead.information(situation)
        per_minute = bits * price / np.maximum(stack.costs, 1e-9)
        columns = (tests, stack.costs, stack.costs / price, bits, per_minute)
        rows = [
            Advice(name, cost, "test", own, minutes, bit, rate)
            for name, (cost, own, minutes, bit, rate) in zip(
                ahead.tests, np.column_stack(columns).tolist(), strict=True
            )
        ]
        own = ahead.prices.base(situation.place) + ahead.later_runs(situation.place)
        minutes = (own - self._parts(ahead)) / price
        repair_columns = (repairs, own, minutes, ahead.chances(situation.vector))
        rows += [
            Advice(name, cost, "repair", money, time, 0.0, 0.0, chance)
            for name, (cost, money, time, chance) in zip(
                ahead.prices.repairs, np.column_stack(repair_columns).tolist(), strict=True
            )
        ]
        rows.append(Advice(HAND_ON, values.hand_on, "hand_on", self.table.meta.escalate_cost, 0.0))
        rows.sort(key=_by_cost)
        return rows

    def _parts(self, ahead: LookAhead) -> np.ndarray:
        """Money for parts that every repair spends at once; parts on trial are not among them."""
        return np.array([0.0 if row.trial else row.part for row in self.table.repairs.values()])

    def _deeper(
        self, ahead: LookAhead, situation: Situation, values: Values
    ) -> tuple[np.ndarray, np.ndarray]:
        """Two-step costs of the actions that look best one step ahead; others keep their one-step cost."""
        tests, repairs = values.tests.copy(), values.repairs.copy()
        stack, share = ahead.stack(situation.place), float(situation.vector.sum())
        for number in np.argsort(tests, kind="stable")[:EXPAND]:
            key = (ahead.tests[number], stack.conditions[number])
            after = [
                Situation(
                    situation.vector * column, stack.places[number], {**situation.repeated, key: result}
                )
                for result, column in enumerate(ahead.likelihood(situation, *key).T)
            ]
            tests[number] = min(tests[number], stack.costs[number] * share + sum(ahead.value_of(after)))
        chances = ahead.chances(situation.vector)
        for number in np.argsort(repairs, kind="stable")[:EXPAND]:
            name = ahead.prices.repairs[number]
            cost, then = ahead.model.repair_step(name, situation.place)
            vector = ahead.model.after_repair(situation.vector, name)
            paid, failed = ahead.verify(Situation(vector, then))
            total = cost * share + ahead.prices.trial[number] * chances[number] + paid
            repairs[number] = min(repairs[number], total + sum(ahead.value_of(failed)))
        return tests, repairs

    def _unverified(self, belief: Belief, ahead: LookAhead, situation: Situation) -> list[Advice]:
        """Advice when a repair may have cured the machine: verify comes into play."""
        meta = self.table.meta
        cost = sum(run.cost for run in belief.model.verify_runs(belief.complaint, situation.place))
        verify, failed = ahead.verify(situation)
        verify += sum(ahead.value_of(failed))
        rows = [
            Advice(VERIFY, verify, "verify", cost, cost / meta.money_per_minute),
            Advice(HAND_BACK, ahead.hand_back(situation), "hand_back", 0.0, 0.0),
            Advice(HAND_ON, meta.escalate_cost, "hand_on", meta.escalate_cost, 0.0),
        ]
        rows.sort(key=_by_cost)
        return rows


def _by_cost(row: Advice) -> tuple[float, str]:
    return row.expected_cost, row.action
