"""A fault table turned into arrays: hypotheses, chances of every result, costs, covers, temperatures.

Hypotheses are the single faults, then (with pairs) every two faults without "other", and last "nothing is
wrong any more", which only repairs can reach.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from twostroke.table import CONDITIONS, OTHER, Table, TableError, unknown

Array = NDArray[np.float64]
TEMPERATURES = ("cold", "hot")


@dataclass(frozen=True)
class Place:
    """What is open and how warm the machine is; decides what the next action costs."""

    opened: frozenset[str] = frozenset()
    temperature: str = "cold"


@dataclass(frozen=True)
class Run:
    """One verify run: cost in money with heating or cooling before it, the place in it, the condition."""

    cost: float
    place: Place
    condition: str


class Model:
    """Arrays of one table.

    Parameters
    ----------
    table : Table
        A validated table.
    pairs : bool
        Whether two faults at once are among the hypotheses.
    """

    def __init__(self, table: Table, pairs: bool) -> None:
        self.table = table
        self.pairs = pairs
        self.faults = list(table.faults)
        self.index = {name: number for number, name in enumerate(self.faults)}
        self.size = len(self.faults)
        eligible = [number for number, name in enumerate(self.faults) if name != OTHER]
        upper = np.array([(a, b) for n, a in enumerate(eligible) for b in eligible[n + 1 :]], dtype=np.intp)
        both = upper if pairs and len(upper) else np.zeros((0, 2), dtype=np.intp)
        self.first, self.second = both[:, 0].copy(), both[:, 1].copy()
        self.states = self.size + len(self.first) + 1
        self.fixed = self.states - 1
        self._results = {
            name: {result: number for number, result in enumerate(test.results)}
            for name, test in table.tests.items()
        }
        self._rows: dict[tuple[str, str], Array] = {}
        self.columns: dict[tuple[str, str, str], Array] = {}
        self._starts: dict[str | None, Array] = {}
        self._passes: dict[tuple[str, ...], Array] = {}
        self._runs: dict[tuple[tuple[str, ...], Place], list[Run]] = {}
        self._places: dict[tuple[str, Place, str], Place] = {}
        self._covers = {name: frozenset(table.opening([name])) for name in table.access}

    # hypotheses -----------------------------------------------------------------------------------

    @cached_property
    def rates(self) -> Array:
        """Rate of every single fault per 1000 complaints."""
        return np.array([row.rate for row in self.table.faults.values()], dtype=float)

    @cached_property
    def prior(self) -> Array:
        """Chance of every hypothesis before anything is known.

        Notes
        -----
        Independent pairs in proportion to the product of the odds r/(1-r), normalised to
        ``double_fault_fraction``; named pairs add their rate; single faults share the rest.
        """
        out = np.zeros(self.states)
        singles = self.rates / self.rates.sum()
        if len(self.first):
            odds = self.rates / 1000 / (1 - self.rates / 1000)
            weight = odds[self.first] * odds[self.second]
            weight *= self.table.meta.double_fault_fraction / weight.sum()
            for row in self.table.common_cause_pairs:
                weight[self.pair_number(*row.pair) - self.size] += row.rate / 1000
            out[self.size : self.fixed] = weight
            singles = singles * (1 - weight.sum())
        out[: self.size] = singles
        return out

    def pair_number(self, one: str, other: str) -> int:
        """Number of the hypothesis that both faults are there."""
        low, high = sorted((self.index[one], self.index[other]))
        found = np.flatnonzero((self.first == low) & (self.second == high))
        if not len(found):
            raise unknown("pair of faults", f"{one} + {other}", [])
        return int(self.size + found[0])

    def marginal(self, belief: Array) -> Array:
        """Chance of each fault, alone or in a pair."""
        out = belief[: self.size].copy()
        if len(self.first):
            two = belief[self.size : self.fixed]
            out += np.bincount(self.first, two, self.size) + np.bincount(self.second, two, self.size)
        return out

    # evidence -------------------------------------------------------------------------------------

    def complaint(self, kind: str) -> Array:
        """P(complaint | hypothesis); a pair has the mean of its two faults."""
        words = self.table.complaint
        if words is None or kind not in words.results:
            raise unknown("complaint", kind, self.table.complaints)
        column = words.results.index(kind)
        single = np.array([words.hits.get(name, words.base)[column] for name in self.faults])
        pair = (single[self.first] + single[self.second]) / 2
        return np.concatenate([single, pair, [words.base[column]]])

    def shows(self, condition: str) -> Array:
        """Chance of each single fault to act under a condition."""
        return np.array([row.shows(condition) for row in self.table.faults.values()])

    def result_number(self, test: str, result: str) -> int:
        """Number of a result of a test; unknown names get a clear error."""
        if test not in self._results:
            raise unknown("test", test, self._results)
        if result not in self._results[test]:
            raise unknown(f"result of {test}", result, self._results[test])
        return self._results[test][result]

    def likelihood(self, test: str, condition: str) -> Array:
        """P(result | hypothesis, condition), one row for each state and one column for each result.

        Notes
        -----
        An intermittent fault acts with its chance and shows the base row otherwise. Two faults: noisy-MAX
        over the ordered results, that is the product of the cumulative distributions.
        """
        found = self._rows.get((test, condition))
        if found is None:
            found = self._rows[(test, condition)] = self._compute(test, condition)
        return found

    def column(self, test: str, result: str, condition: str) -> Array:
        """P(one result | hypothesis, condition)."""
        key = (test, result, condition)
        found = self.columns.get(key)
        if found is None:
            number = self.result_number(test, result)
            found = self.columns[key] = np.ascontiguousarray(self.likelihood(test, condition)[:, number])
        return found

    def start(self, complaint: str | None) -> Array:
        """Chance of every hypothesis once the complaint is known and before any test."""
        found = self._starts.get(complaint)
        if found is None:
            found = self.prior if complaint is None else self.prior * self.complaint(complaint)
            total = found.sum()
            if not total > 0:
                raise TableError(
                    f"no fault of this table brings the complaint '{complaint}'; correct its rows"
                )
            found = self._starts[complaint] = found / total
        return found

    def _compute(self, name: str, condition: str) -> Array:
        if name not in self._results:
            raise unknown("test", name, self._results)
        if condition not in CONDITIONS:
            raise unknown("condition", condition, CONDITIONS)
        test = self.table.tests[name]
        base = np.array(test.base)
        active = np.array([test.row(fault) for fault in self.faults])
        if test.sees_inactive:
            single = active
        else:
            shows = self.shows(condition)[:, None]
            single = shows * active + (1 - shows) * base
        summed = single.cumsum(axis=1)
        pair = np.diff(summed[self.first] * summed[self.second], axis=1, prepend=0.0)
        out = np.asfortranarray(np.vstack([single, pair, base]))
        out.flags.writeable = False
        return out

    # repairs and verify runs ----------------------------------------------------------------------

    def cures(self, repair: str) -> Array:
        """Chance of each single fault to be gone once `repair` is done."""
        if repair not in self.table.repairs:
            raise unknown("repair", repair, self.table.repairs)
        out = np.zeros(self.size)
        for fault, chance in self.table.repairs[repair].fixes.items():
            out[self.index[fault]] = chance
        return out

    def after_repair(self, belief: Array, repair: str) -> Array:
        """Belief once a repair is done and before anything is looked at."""
        cure = self.cures(repair)
        one, two = belief[: self.size], belief[self.size : self.fixed]
        out = np.empty_like(belief)
        out[: self.size] = one * (1 - cure)
        gone = float(one @ cure) + belief[self.fixed]
        if len(two):
            a, b = cure[self.first], cure[self.second]
            out[: self.size] += np.bincount(self.second, two * a * (1 - b), self.size)
            out[: self.size] += np.bincount(self.first, two * b * (1 - a), self.size)
            out[self.size : self.fixed] = two * (1 - a) * (1 - b)
            gone += float(two @ (a * b))
        out[self.fixed] = gone
        return out

    def passes(self, conditions: Sequence[str]) -> Array:
        """Chance of every hypothesis to pass verify runs made in all these conditions."""
        key = tuple(conditions)
        found = self._passes.get(key)
        if found is None:
            single = np.ones(self.size)
            for condition in conditions:
                single *= 1 - self.shows(condition)
            two = single[self.first] * single[self.second]
            found = self._passes[key] = np.concatenate([single, two, [1.0]])
        return found

    def outcome(self, conditions: Sequence[str], passed: bool, at_last: bool = True) -> Array:
        """P(outcome of verify runs | hypothesis).

        Parameters
        ----------
        conditions : sequence of str
            In which the runs were made, in order.
        passed : bool
            Whether all of them were passed.
        at_last : bool
            When not passed: the last run was the one that failed; else any of them.
        """
        if passed:
            return self.passes(conditions)
        before = self.passes(conditions[:-1]) if at_last else 1.0
        return before - self.passes(conditions)

    # costs ----------------------------------------------------------------------------------------

    def closure(self, covers: list[str]) -> frozenset[str]:
        """All covers that must be off to reach something, with what they need themselves."""
        return frozenset().union(*(self._covers[name] for name in covers)) if covers else frozenset()

    def _reach(self, covers: list[str], place: Place, wanted: str) -> tuple[float, Place]:
        """Minutes to open what is shut and to bring the machine to a temperature, and the place then."""
        meta, shut = self.table.meta, self.closure(covers) - place.opened
        minutes = sum(self.table.access[name].minutes for name in shut)
        if any(self.table.access[name].cool for name in shut):
            wanted = "cold" if wanted == "any" else wanted
        temperature = place.temperature if wanted == "any" else wanted
        if temperature != place.temperature:
            minutes += meta.hot_to_cool_minutes if temperature == "cold" else meta.cool_to_hot_minutes
        return minutes, Place(place.opened | shut, temperature)

    def test_step(self, name: str, place: Place, condition: str | None = None) -> tuple[float, Place, str]:
        """Cost of a test in money, the place after it, and the condition in which it is run."""
        if name not in self.table.tests:
            raise unknown("test", name, self.table.tests)
        test = self.table.tests[name]
        wanted = test.temp
        if condition in TEMPERATURES and not test.forces:
            wanted = condition  # type: ignore[assignment]
        minutes, then = self._reach(test.access, place, wanted)
        run = condition or test.condition(then.temperature)
        left = test.leaves or test.forces or then.temperature
        return (minutes + test.minutes) * self.table.meta.money_per_minute, Place(then.opened, left), run

    def place_after(self, name: str, place: Place, condition: str) -> Place:
        """The place after a test was made under a condition."""
        key = (name, place, condition)
        found = self._places.get(key)
        if found is None:
            found = self._places[key] = self.test_step(name, place, condition)[1]
        return found

    def repair_step(self, name: str, place: Place) -> tuple[float, Place]:
        """Cost of a repair without verify run and without a part on trial, and the place after it."""
        if name not in self.table.repairs:
            raise unknown("repair", name, self.table.repairs)
        repair = self.table.repairs[name]
        minutes, then = self._reach(repair.access, place, repair.temp)
        part = 0.0 if repair.trial else repair.part
        return (minutes + repair.minutes) * self.table.meta.money_per_minute + part, then

    def trial_part(self, name: str) -> float:
        """Price of a part that is paid only when it cures something; zero for other repairs."""
        repair = self.table.repairs[name]
        return repair.part if repair.trial else 0.0

    def verify_runs(self, complaint: str | None, place: Place) -> list[Run]:
        """The verify runs that would show the complaint again, in order; the first that fails ends them.

        Notes
        -----
        They begin at the temperature that the machine has; each further condition takes the verify minutes
        once more, with heating or cooling between.
        """
        wanted = self.table.verify_conditions(complaint) or [place.temperature]
        return self.runs_in(sorted(wanted, key=lambda c: c != place.temperature), place)

    def runs_in(self, conditions: Sequence[str], place: Place) -> list[Run]:
        """Verify runs in chosen conditions, in order."""
        key = (tuple(conditions), place)
        found = self._runs.get(key)
        if found is None:
            meta, found, now = self.table.meta, [], place
            for condition in conditions:
                minutes = meta.verify_minutes
                if condition in TEMPERATURES and condition != now.temperature:
                    minutes += meta.hot_to_cool_minutes if condition == "cold" else meta.cool_to_hot_minutes
                    now = Place(now.opened, condition)
                found.append(Run(minutes * meta.money_per_minute, now, condition))
            self._runs[key] = found
        return found


def model_of(table: Table, pairs: bool = True) -> Model:
    """The arrays of a table, computed once and kept with it."""
    key = ("isolation model", pairs)
    if key not in table.derived:
        table.derived[key] = Model(table, pairs)
    return table.derived[key]
