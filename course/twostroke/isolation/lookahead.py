"""One step ahead: expected cost of every test and repair from a situation, all at once in arrays."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from twostroke.isolation.model import Array, Model, Place
from twostroke.isolation.value import SMALL, Columns, Prices, expected_cost, reduce

HAND_ON, HAND_BACK, VERIFY = "hand_on", "hand_back", "verify"
REPAIRS_TRIED = 40


@dataclass(frozen=True)
class Situation:
    """What a plan starts from.

    Attributes
    ----------
    vector : array
        Chances of all hypotheses.
    place : Place
    repeated : dict
        Tests already made as things stand, with the number of their result.
    proven : bool
        Whether a verify run was passed since the last repair.
    """

    vector: Array
    place: Place
    repeated: dict[tuple[str, str], int] = field(default_factory=dict)
    proven: bool = False


@dataclass(frozen=True)
class Values:
    """Expected cost of every first action; arrays in the order of the table's tests and repairs."""

    tests: Array
    repairs: Array
    hand_on: float
    repair_only: float
    best: float


@dataclass(frozen=True)
class _Stack:
    """All tests of a table from one place: chances side by side, costs, places."""

    likelihood: Array
    doubt: Array
    costs: Array
    places: list[Place]
    columns: NDArray[np.intp]
    conditions: list[str]


class LookAhead:
    """Expected costs one step ahead for one table and complaint.

    Parameters
    ----------
    model : Model
    complaint : str or None
        Decides how a repair must be verified.
    """

    def __init__(self, model: Model, complaint: str | None) -> None:
        self.model, self.complaint = model, complaint
        self.prices = Prices(model, complaint)
        self.tests = list(model.table.tests)
        self._chances: dict[tuple[str, ...], tuple[Array, Array]] = {}
        self._stacks: dict[Place, _Stack] = {}
        self._verify: dict[Place, list[tuple[Array, Array]]] = {}
        sizes = [len(row.results) for row in model.table.tests.values()]
        self._owner = np.repeat(np.arange(len(sizes)), sizes)
        self._starts = np.concatenate([[0], np.cumsum(sizes)])[:-1].astype(np.intp)

    # arrays ---------------------------------------------------------------------------------------

    def stack(self, place: Place) -> _Stack:
        """Everything about all tests from one place, kept for the next call."""
        found = self._stacks.get(place)
        if found is None:
            steps = [self.model.test_step(name, place) for name in self.tests]
            conditions = [condition for _, _, condition in steps]
            places = [then for _, then, _ in steps]
            numbers = np.array([self.prices.number(then) for then in places], dtype=np.intp)
            costs = np.array([cost for cost, _, _ in steps])
            likelihood, doubt = self._beside(tuple(conditions))
            found = _Stack(likelihood, doubt, costs, places, numbers[self._owner], conditions)
            self._stacks[place] = found
        return found

    def _beside(self, conditions: tuple[str, ...]) -> tuple[Array, Array]:
        """All likelihoods side by side, and for every hypothesis the doubt (bits) left in each test."""
        if conditions not in self._chances:
            rows = [self.model.likelihood(n, c) for n, c in zip(self.tests, conditions, strict=True)]
            none = np.zeros((self.model.states, 0))
            likelihood = np.concatenate([none, *rows], axis=1)
            doubt = np.array([bits(row, axis=1) for row in rows]).T if rows else none
            self._chances[conditions] = (likelihood, doubt)
        return self._chances[conditions]

    def likelihood(self, situation: Situation, name: str, condition: str) -> Array:
        """P(result | hypothesis) of the next run of a test; a repeat mostly repeats its own result."""
        fresh = self.model.likelihood(name, condition)
        last = situation.repeated.get((name, condition))
        if last is None:
            return fresh
        rho = self.model.table.meta.repeat_corr
        out = (1 - rho) * fresh
        out[:, last] += rho
        return out

    def _likelihood(self, situation: Situation, stack: _Stack, rows: NDArray[np.intp]) -> Array:
        """Likelihoods of all tests side by side for some hypotheses, those of repeats renewed."""
        alone = len(rows) == self.model.size and not situation.repeated
        out = stack.likelihood[: len(rows)] if alone else stack.likelihood[rows]
        if situation.repeated:
            for number, key in enumerate(zip(self.tests, stack.conditions, strict=True)):
                last = situation.repeated.get(key)
                if last is not None:
                    rho, start = self.model.table.meta.repeat_corr, self._starts[number]
                    size = len(self.model.table.tests[key[0]].results)
                    out[:, start : start + size] *= 1 - rho
                    out[:, start + last] += rho
        return out

    # values ---------------------------------------------------------------------------------------

    def values(self, situation: Situation) -> Values:
        """Expected cost of every first action when what follows is repairing by chance over cost.

        Parameters
        ----------
        situation : Situation
            With nothing repaired and unverified in it (see :meth:`value`). When its chances add up to less
            than 1, the cost is that of its share of the jobs.
        """
        return self.values_of([situation])[0]

    def values_of(self, situations: Sequence[Situation]) -> list[Values]:
        """As :meth:`values`, for several situations at once."""
        if not situations:
            return []
        parts: list[Columns] = []
        heads: list[tuple[float, Array, Array, int, NDArray[np.intp]]] = []
        reduced = []
        for situation in situations:
            share = float(situation.vector.sum())
            reduced.append((share, *reduce(self.model, situation.vector / share)))
        kept = np.unique(np.concatenate([numbers for _, _, _, numbers in reduced]))
        first, second = self.model.first[kept], self.model.second[kept]
        size = self.model.size
        rows = np.concatenate([np.arange(size), size + kept])
        for situation, (share, singles, own_two, own_kept) in zip(situations, reduced, strict=True):
            two = np.zeros(len(kept))
            two[np.searchsorted(kept, own_kept)] = own_two
            stack = self.stack(situation.place)
            likelihood = self._likelihood(situation, stack, rows)
            tried = self._worth_trying(singles, situation.place)
            failed, paid, runs = self._failed(singles, two, first, second, situation.place, tried)
            here = self.prices.number(situation.place)
            mass = np.concatenate(
                [likelihood[:size] * singles[:, None], failed.mass, singles[:, None]], axis=1
            )
            pairs = np.concatenate([likelihood[size:] * two[:, None], failed.two, two[:, None]], axis=1)
            places = np.concatenate([stack.columns, failed.places, [here]])
            parts.append(Columns(mass, pairs, places, first, second))
            heads.append((share, stack.costs, paid, runs, tried))
        joined = parts[0]
        if len(parts) > 1:
            joined = Columns(
                np.concatenate([part.mass for part in parts], axis=1),
                np.concatenate([part.two for part in parts], axis=1),
                np.concatenate([part.places for part in parts]),
                first,
                second,
            )
        cost = expected_cost(self.prices, joined)
        width, out, begin = len(self._owner), [], 0
        for part, (share, costs, paid, runs, tried) in zip(parts, heads, strict=True):
            own = cost[begin : begin + part.mass.shape[1]]
            begin += part.mass.shape[1]
            tests = costs + np.add.reduceat(own[:width], self._starts) if width else costs
            repairs = paid + float(own[-1])
            repairs[tried] = paid[tried] + own[width:-1].reshape(runs, -1).sum(axis=0)
            best = min(self.prices.escalate, float(own[-1]), float(repairs.min()))
            best = min(best, float(tests.min())) if width else best
            out.append(
                Values(
                    tests * share,
                    repairs * share,
                    self.prices.escalate * share,
                    float(own[-1]) * share,
                    best * share,
                )
            )
        return out

    def _worth_trying(self, singles: Array, place: Place) -> NDArray[np.intp]:
        """The repairs whose failure is looked into; in a long table those of least chance are left out.

        Notes
        -----
        A repair that is left out hardly changes the belief, and counts as if it had changed nothing.
        """
        count = len(self.prices.repairs)
        if count <= REPAIRS_TRIED:
            return np.arange(count)
        worth = (singles @ self.prices.cure) / self.prices.base(place)
        return np.sort(np.argpartition(-worth, REPAIRS_TRIED)[:REPAIRS_TRIED])

    def _failed(
        self,
        singles: Array,
        two: Array,
        first: NDArray[np.intp],
        second: NDArray[np.intp],
        place: Place,
        tried: NDArray[np.intp],
    ) -> tuple[Columns, Array, int]:
        """Beliefs (as shares) after the tried repairs whose verify run failed, and what all of them cost.

        The columns of the first run come first, then those of the second where there is one.
        """
        prices = self.prices
        cure, after = prices.cure[:, tried], prices.after(place)
        mass = singles[:, None] * (1 - cure)
        pairs = np.zeros((len(two), len(tried)))
        if len(two):
            a, b = cure[first], cure[second]
            np.add.at(mass, second, two[:, None] * a * (1 - b))
            np.add.at(mass, first, two[:, None] * b * (1 - a))
            pairs = two[:, None] * (1 - a) * (1 - b)
        paid = prices.base(place).copy()
        for number in prices.on_trial:
            own = prices.cure[:, number]
            chance = singles @ own
            if len(two):
                chance = chance + two @ (1 - (1 - own[first]) * (1 - own[second]))
            paid[number] += prices.trial[number] * chance
        runs = self._runs(place)
        masses: list[Array] = []
        twos: list[Array] = []
        numbers: list[int] = []
        for number, (costs, every) in enumerate(runs):
            passing = every[:, tried]
            if number:
                left = 1 - sum(part.sum(axis=0) for part in [*masses, *twos])
                paid[tried] += costs[tried] * left
            through = passing[first] * passing[second]
            masses.append(mass * (1 - passing))
            twos.append(pairs * (1 - through))
            mass, pairs = mass * passing, pairs * through
            numbers += [prices.number(after[repair][number]) for repair in tried]
        paid[tried] += prices.comeback * (mass.sum(axis=0) + pairs.sum(axis=0))
        columns = Columns(
            np.concatenate(masses, axis=1),
            np.concatenate(twos, axis=1),
            np.array(numbers, dtype=np.intp),
            first,
            second,
        )
        return columns, paid, len(runs)

    def _runs(self, place: Place) -> list[tuple[Array, Array]]:
        """For each verify run: what it costs after every repair, and the chance of every fault to pass it."""
        found = self._verify.get(place)
        if found is None:
            thens = [self.model.repair_step(name, place)[1] for name in self.prices.repairs]
            runs = [self.model.verify_runs(self.complaint, then) for then in thens]
            found = []
            for number in range(len(runs[0])):
                passing = [self.model.passes([run[number].condition])[: self.model.size] for run in runs]
                found.append((np.array([run[number].cost for run in runs]), np.array(passing).T))
            self._verify[place] = found
        return found

    def later_runs(self, place: Place) -> Array:
        """Cost of the verify runs after the first, for every repair, when none of them fails."""
        return np.sum([costs for costs, _ in self._runs(place)[1:]], axis=0) + np.zeros(
            len(self.prices.repairs)
        )

    def chances(self, vector: Array) -> Array:
        """Chance of each repair to take at least one fault away."""
        model, cure = self.model, self.prices.cure
        out = vector[: model.size] @ cure
        if len(model.first):
            out = out + vector[model.size : model.fixed] @ self._pair_cures
        return out

    @cached_property
    def _pair_cures(self) -> Array:
        a, b = self.prices.cure[self.model.first], self.prices.cure[self.model.second]
        return 1 - (1 - a) * (1 - b)

    def value(self, situation: Situation) -> float:
        """Least expected cost from here by one-step look-ahead, unverified repairs included."""
        return self.value_of([situation])[0]

    def value_of(self, situations: Sequence[Situation]) -> list[float]:
        """As :meth:`value`, for several situations at once.

        Notes
        -----
        When a repair may have cured the machine already, the choice is to verify now or to hand back without
        (a machine that is not cured comes back).
        """
        out = [0.0] * len(situations)
        ask: list[tuple[int, Situation]] = []
        otherwise: dict[int, float] = {}
        for number, situation in enumerate(situations):
            share, cured = float(situation.vector.sum()), float(situation.vector[self.model.fixed])
            if share < SMALL:
                continue
            if cured < SMALL * share:
                ask.append((number, situation))
                continue
            otherwise[number] = self.hand_back(situation)
            out[number], failed = self.verify(situation)
            ask += [(number, then) for then in failed if then.vector.sum() > SMALL * share]
        for (number, _), value in zip(ask, self.values_of([then for _, then in ask]), strict=True):
            out[number] += value.best
        for number, hand_back in otherwise.items():
            out[number] = min(out[number], hand_back)
        return out

    def hand_back(self, situation: Situation) -> float:
        """Expected cost of handing back now.

        Notes
        -----
        A machine that is not cured comes back; when it went out without a passed verify run, it is handed on
        then, so that giving it back unrepaired never pays.
        """
        prices = self.prices
        uncured = float(situation.vector[: self.model.fixed].sum())
        return uncured * (prices.comeback if situation.proven else prices.comeback + prices.escalate)

    def verify(self, situation: Situation) -> tuple[float, list[Situation]]:
        """Cost of the verify runs, with machines that come back, and the situations (as shares) that fail."""
        runs = self.model.verify_runs(self.complaint, situation.place)
        conditions = [run.condition for run in runs]
        paid, failed = 0.0, []
        for number, run in enumerate(runs):
            paid += run.cost * float((situation.vector * self.model.passes(conditions[:number])).sum())
            outcome = self.model.outcome(conditions[: number + 1], passed=False)
            failed.append(Situation(situation.vector * outcome, run.place))
        unseen = (situation.vector * self.model.passes(conditions))[: self.model.fixed].sum()
        return paid + self.prices.comeback * float(unseen), failed

    def information(self, situation: Situation) -> Array:
        """Expected information of every test in bits, over all hypotheses.

        Notes
        -----
        H(result) less the mean of H(result | hypothesis); never negative.
        """
        stack = self.stack(situation.place)
        vector = situation.vector / situation.vector.sum()
        chance = vector @ stack.likelihood
        surprise = -chance * np.log2(np.maximum(chance, 1e-300))
        total = np.add.reduceat(surprise, self._starts) if len(chance) else np.zeros(0)
        out = np.maximum(total - vector @ stack.doubt, 0.0)
        if situation.repeated:
            for number, key in enumerate(zip(self.tests, stack.conditions, strict=True)):
                if key in situation.repeated:
                    row = self.likelihood(situation, *key)
                    out[number] = max(0.0, float(bits(vector @ row, axis=0) - vector @ bits(row, axis=1)))
        return out


def bits(chances: Array, axis: int) -> Array:
    """Entropy in bits along an axis."""
    return -(chances * np.log2(np.maximum(chances, 1e-300))).sum(axis=axis)


def lookahead_of(model: Model, complaint: str | None) -> LookAhead:
    """The look-ahead of a table and complaint, computed once and kept with the table."""
    key = ("look-ahead", model.pairs, complaint)
    if key not in model.table.derived:
        model.table.derived[key] = LookAhead(model, complaint)
    return model.table.derived[key]
