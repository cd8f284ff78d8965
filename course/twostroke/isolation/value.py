"""Expected cost of repair: what it takes from here to a machine that is cured, handed on or comes back.

Everything works on many beliefs at once; one belief is one column.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy import sparse

from twostroke.isolation.model import Array, Model, Place

SEQUENCE = 5
AT_ONCE = 25_000
FEWEST = 64
THINNED = 0.5
SMALL = 1e-12
PAIRS_KEPT = 16
WORTH_KEEPING = 2e-3


class Prices:
    """Costs of repairs and verify runs of one table for one complaint, in every place, as arrays.

    Places are numbered as they are met, so that a column of beliefs carries a number.
    """

    def __init__(self, model: Model, complaint: str | None) -> None:
        table, meta = model.table, model.table.meta
        self.model, self.complaint = model, complaint
        self.repairs = list(table.repairs)
        self.comeback, self.escalate = meta.comeback_cost, meta.escalate_cost
        self.asks = table.verify_conditions(complaint)
        self.cure = np.array([model.cures(name) for name in self.repairs]).T.copy()
        self.trial = np.array([model.trial_part(name) for name in self.repairs])
        self.cover_money = np.array([row.minutes for row in table.access.values()]) * meta.money_per_minute
        needs = [model.closure(row.access) for row in table.repairs.values()]
        self.needs = np.array([[name in need for name in table.access] for need in needs], dtype=float)
        self.covers = self.needs * self.cover_money
        self.keeps = 1 - self.needs.T.copy()
        self.stays, self.covered = 1 - self.cure, bool(self.covers.any())
        self.on_trial = np.flatnonzero(self.trial).tolist()
        sparse_pays = self.cure.size > 8000
        self.gains = sparse.csr_matrix(self.cure.T) if sparse_pays else self.cure.T.copy()
        self._numbers: dict[Place, int] = {}
        self._after: list[list[list[Place]]] = []
        self.bare, self.shut = np.zeros((len(needs), 0)), np.zeros((len(table.access), 0))
        self.passing, self.first_run = np.zeros((model.size, 0)), np.zeros((model.size, 0))
        self.second_run, self.settled = np.zeros(0), np.zeros(0, dtype=np.intp)

    def number(self, place: Place) -> int:
        """Number of a place; costs from there are worked out when it is met first."""
        found = self._numbers.get(place)
        return self._meet(place) if found is None else found

    def _meet(self, place: Place) -> int:
        costs, places = [], []
        for name in self.repairs:
            cost, then = self.model.repair_step(name, place)
            runs = self.model.verify_runs(self.complaint, then)
            costs.append(cost + runs[0].cost)
            places.append([run.place for run in runs])
        shut = np.array([name not in place.opened for name in self.model.table.access], dtype=float)
        runs = self.model.verify_runs(self.complaint, place)
        conditions = [run.condition for run in runs]
        size = self.model.size
        self.bare = np.column_stack([self.bare, np.array(costs) - self.covers @ shut])
        self.shut = np.column_stack([self.shut, shut])
        self.passing = np.column_stack([self.passing, self.model.passes(conditions)[:size]])
        self.first_run = np.column_stack([self.first_run, self.model.passes(conditions[:1])[:size]])
        self.second_run = np.append(self.second_run, sum(run.cost for run in runs[1:]))
        self._after.append(places)
        self._numbers[place] = len(self._numbers)
        own = self._numbers[place]
        self.settled = np.append(self.settled, own)
        if len(runs) > 1:
            settled = self.number(runs[-1].place)
            self.settled[own] = settled
        return own

    def base(self, place: Place) -> Array:
        """Cost of each repair with its first verify run from a place, parts on trial left out."""
        number = self.number(place)
        return self.bare[:, number] + self.covers @ self.shut[:, number]

    def after(self, place: Place) -> list[list[Place]]:
        """The place in each verify run after each repair."""
        return self._after[self.number(place)]


@dataclass
class Columns:
    """Many beliefs side by side.

    Attributes
    ----------
    mass : array, (faults, n)
        Single faults.
    two : array, (pairs kept, n)
        Two faults.
    places : array of int, (n,)
        Number of each column's place.
    first, second : arrays of int
        The two faults of each kept pair.
    """

    mass: Array
    two: Array
    places: NDArray[np.intp]
    first: NDArray[np.intp]
    second: NDArray[np.intp]

    def part(self, which: slice) -> Columns:
        """Some of the columns; few at a time stay in the processor's cache."""
        mass, two = (np.ascontiguousarray(part[:, which]) for part in (self.mass, self.two))
        return Columns(mass, two, self.places[which], self.first, self.second)


def reduce(model: Model, vector: Array, keep: int = PAIRS_KEPT) -> tuple[Array, Array, NDArray[np.intp]]:
    """Single faults and the likeliest pairs of a belief; the other pairs are shared out to their faults.

    Returns
    -------
    singles, pairs, numbers : arrays
        `numbers` are the kept pairs' places among the model's pairs.
    """
    two = vector[model.size : model.fixed]
    if not len(two):
        return vector[: model.size], two, _NONE
    kept = np.flatnonzero(two > WORTH_KEEPING)
    if len(kept) > keep:
        kept = np.sort(kept[np.argsort(two[kept])[::-1][:keep]])
    rest = two
    if len(kept):
        rest = two.copy()
        rest[kept] = 0.0
    halves = np.bincount(model.first, rest, model.size) + np.bincount(model.second, rest, model.size)
    return vector[: model.size] + halves / 2, two[kept], kept


_NONE = np.zeros(0, dtype=np.intp)


def expected_cost(prices: Prices, columns: Columns, sequence: int = SEQUENCE) -> Array:
    """Expected cost of repairing by the best chance for the money, one repair after the other.

    Parameters
    ----------
    prices : Prices
    columns : Columns
        Beliefs; a column need not add up to 1, the cost is then that of its share.
    sequence : int
        Longest sequence before the job is handed on.

    Returns
    -------
    array, (n,)
        After each repair the machine is verified; a fault that passes unseen comes back; handing on is taken
        where it is cheaper than going on.

    Notes
    -----
    Greedy order by chance over cost, renewed after each failed repair; for one fault and certain repairs
    this is the p/c order, which is best there (index rule: Kadane and Simon 1977, from memory).
    """
    count = columns.mass.shape[1]
    at_once = max(FEWEST, AT_ONCE // max(1, len(columns.mass)))
    if count <= at_once:
        return _sequence(prices, columns, sequence)
    parts = [slice(start, start + at_once) for start in range(0, count, at_once)]
    return np.concatenate([_sequence(prices, columns.part(part), sequence) for part in parts])


def _sequence(prices: Prices, columns: Columns, sequence: int) -> Array:
    mass, two, first, second = columns.mass, columns.two, columns.first, columns.second
    at, pairs = columns.places, len(columns.two) > 0
    if pairs:
        both = (1 - (1 - prices.cure[first]) * (1 - prices.cure[second])).T
        to_first, to_second = _scatter(first, len(mass)), _scatter(second, len(mass))
    shut = prices.shut.take(at, axis=1)
    bare, passing, again = _from(prices, at)
    several, hidden = bool(again.any()), bool(passing.any())
    alive = mass.sum(axis=0) + two.sum(axis=0)
    total, out = np.zeros(len(at)), prices.escalate * alive
    best, live = out.copy(), np.arange(len(at))
    for turn in range(min(sequence, len(prices.repairs))):
        if several and turn == 1:
            at = prices.settled[at]
            bare, passing, again = _from(prices, at)
        gain = prices.gains @ mass
        if pairs:
            gain += both @ two
        price = bare + prices.covers @ shut if prices.covered else bare
        if prices.on_trial:
            price = price + prices.trial[:, None] * gain / np.maximum(alive, SMALL)
        gain /= price
        chosen = gain.argmax(axis=0)
        total = total + price[chosen, np.arange(len(chosen))] * alive
        if prices.covered:
            shut = shut * prices.keeps.take(chosen, axis=1)
        mass = mass * prices.stays.take(chosen, axis=1)
        if pairs:
            cure = prices.cure.take(chosen, axis=1)
            with_a, with_b = two * cure.take(first, axis=0), two * cure.take(second, axis=0)
            each = with_a * cure.take(second, axis=0)
            mass += to_second @ (with_a - each) + to_first @ (with_b - each)
            two = two - with_a - with_b + each
        if several:
            seen = 1 - prices.first_run.take(at, axis=1)
            total += again * (alive - np.einsum("fn,fn->n", mass, seen) - two.sum(axis=0))
        if hidden:
            slip = mass * passing
            unseen = slip.sum(axis=0)
            mass = mass - slip
            if pairs:
                slip = two * passing.take(first, axis=0) * passing.take(second, axis=0)
                unseen += slip.sum(axis=0)
                two = two - slip
            total += prices.comeback * unseen
        alive = mass.sum(axis=0)
        if pairs:
            alive += two.sum(axis=0)
        best = np.minimum(best, total + prices.escalate * alive)
        going = total < best - SMALL
        if not going.any():
            break
        if going.mean() < THINNED:
            out[live] = best
            live, at, total, best, alive = live[going], at[going], total[going], best[going], alive[going]
            mass, two, shut = (np.compress(going, part, axis=1) for part in (mass, two, shut))
            bare, passing = (np.compress(going, part, axis=1) for part in (bare, passing))
            again = again[going]
    out[live] = best
    return out


def _from(prices: Prices, at: NDArray[np.intp]) -> tuple[Array, Array, Array]:
    """Costs, chances to pass unseen, and costs of later verify runs for columns at numbered places."""
    return prices.bare.take(at, axis=1), prices.passing.take(at, axis=1), prices.second_run[at]


def _scatter(rows: NDArray[np.intp], size: int) -> Array:
    """Matrix that adds each pair's share to the row of one of its faults."""
    out = np.zeros((size, len(rows)))
    out[rows, np.arange(len(rows))] = 1.0
    return out
