"""The best plan there is, by dynamic programming: for small tables only, to measure other plans by."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from twostroke.isolation.belief import Belief
from twostroke.isolation.model import Array, Place, model_of
from twostroke.table import Table, TableError

LARGEST = 600_000
Names = frozenset[str]


@dataclass(frozen=True)
class Plan:
    """Best next action and its expected cost."""

    action: str
    cost: float


class Exact:
    """Least expected cost over all plans in which every test and every repair is used at most once.

    Parameters
    ----------
    table : Table
        A small one: the number of situations grows with every subset of results and repairs.
    complaint : str, optional
    pairs : bool

    Raises
    ------
    TableError
        More than about six hundred thousand situations.

    Notes
    -----
    Covers, heating and cooling, verify runs, faults that pass the verify run unseen and come back, and
    handing the job on are all part of the plan. After a failed repair the job goes on; after a passed verify
    run the machine goes out.

    Examples
    --------
    >>> from twostroke.isolation import load_table
    >>> from twostroke.table import for_machine
    >>> table = for_machine(load_table())
    >>> small = table.replaced(
    ...     tests={name: table.tests[name] for name in ("known_good_plug", "fuel_sample")},
    ...     repairs={name: table.repairs[name] for name in ("swap_plug", "fresh_fuel", "replace_module")},
    ... )
    >>> plan = Exact(small, "no_start", pairs=False).best()
    >>> plan.action, plan.cost < small.meta.escalate_cost
    ('known_good_plug', True)
    """

    def __init__(self, table: Table, complaint: str | None = None, pairs: bool = False) -> None:
        self.table, self.complaint = table, complaint
        self.model = model_of(table, pairs)
        results = [len(test.results) + 1 for test in table.tests.values()]
        situations = float(np.prod(np.array(results, dtype=float))) * 2.0 ** len(table.repairs)
        if situations > LARGEST:
            raise TableError(
                f"{len(table.tests)} tests and {len(table.repairs)} repairs make {situations:.3g} cases; "
                f"the exact plan is for at most {LARGEST}: leave some out"
            )
        self._known: dict[tuple, tuple[float, str]] = {}

    def best(self, belief: Belief | None = None) -> Plan:
        """Best first action and expected cost from a belief (from the complaint alone when left out)."""
        vector = self.model.start(self.complaint) if belief is None else belief.vector
        place = Place() if belief is None else belief.place
        tests, repairs = frozenset(self.table.tests), frozenset(self.table.repairs)
        cost, action = self._solve(vector, place, tests, repairs)
        return Plan(action, cost)

    def _solve(self, mass: Array, place: Place, tests: Names, repairs: Names) -> tuple[float, str]:
        """Cost times the share `mass.sum()` of all jobs, and the action."""
        share = float(mass.sum())
        if share < 1e-15:
            return 0.0, "hand_on"
        key = (np.round(mass, 14).tobytes(), place, tests, repairs)
        found = self._known.get(key)
        if found is None:
            best = (self.table.meta.escalate_cost * share, "hand_on")
            if repairs:
                options = [self._try_test(mass, place, tests, repairs, name) for name in sorted(tests)]
                options += [self._try_repair(mass, place, tests, repairs, name) for name in sorted(repairs)]
                best = min([best, *options])
            found = self._known[key] = best
        return found

    def _try_test(
        self, mass: Array, place: Place, tests: Names, repairs: Names, name: str
    ) -> tuple[float, str]:
        cost, then, condition = self.model.test_step(name, place)
        total = cost * float(mass.sum())
        for column in self.model.likelihood(name, condition).T:
            total += self._solve(mass * column, then, tests - {name}, repairs)[0]
        return total, name

    def _try_repair(
        self, mass: Array, place: Place, tests: Names, repairs: Names, name: str
    ) -> tuple[float, str]:
        cost, then = self.model.repair_step(name, place)
        after = self.model.after_repair(mass, name)
        total = cost * float(mass.sum()) + self.model.trial_part(name) * self._cured(mass, name)
        runs = self.model.verify_runs(self.complaint, then)
        conditions = [run.condition for run in runs]
        for number, run in enumerate(runs):
            total += run.cost * float((after * self.model.passes(conditions[:number])).sum())
            failed = after * self.model.outcome(conditions[: number + 1], passed=False)
            total += self._solve(failed, run.place, tests, repairs - {name})[0]
        unseen = (after * self.model.passes(conditions))[: self.model.fixed].sum()
        return total + self.table.meta.comeback_cost * float(unseen), name

    def _cured(self, mass: Array, name: str) -> float:
        """Share of the jobs in which the repair takes at least one fault away."""
        cure = self.model.cures(name)
        pairs = 1 - (1 - cure[self.model.first]) * (1 - cure[self.model.second])
        return float(mass[: self.model.size] @ cure + mass[self.model.size : self.model.fixed] @ pairs)
