"""How far the adviser can be from the best plan: lower bounds on the cost of any plan, for a whole table.

Knowing the fault beforehand (the clairvoyant) is one bound, and a loose one. The tighter one tells the plan,
for nothing, to which small group of faults the true one belongs, and solves every group as a decision problem
of its own under the easiest conditions: covers are paid only for the repair that cures, heating and cooling
are free, repeats of a test are independent. Each such gift can only make a plan cheaper, so a bound is left.
Looking some steps ahead from the complaint, with that bound at the end of each branch, tightens it again.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations, combinations_with_replacement

import networkx as nx
import numpy as np
from numpy.typing import NDArray

from twostroke.isolation.belief import Belief
from twostroke.isolation.model import TEMPERATURES, Array, Model, Place, model_of
from twostroke.table import Table

ROUNDS = 40
FINE = {2: 48, 3: 24, 4: 14, 5: 10, 6: 8, 7: 6, 8: 6}


@dataclass(frozen=True)
class Bound:
    """Lower bounds on the expected cost of any plan, in money.

    Attributes
    ----------
    clairvoyant : float
        The fault is known beforehand.
    grouped : float
        Only the group of the fault is known beforehand.
    ahead : float
        The same, after looking some steps ahead; the tightest of the three.
    groups : list of list of str
    """

    clairvoyant: float
    grouped: float
    ahead: float
    groups: list[list[str]]


class _Game:
    """The eased problem: actions with their costs and chances for single faults."""

    def __init__(self, model: Model, complaint: str | None) -> None:
        table, meta = model.table, model.table.meta
        self.escalate, self.comeback = meta.escalate_cost, meta.comeback_cost
        self.tests: list[tuple[float, Array]] = []
        for name, test in table.tests.items():
            cost = test.minutes * meta.money_per_minute
            conditions = {test.condition(temperature) for temperature in TEMPERATURES}
            for condition in sorted(conditions):
                self.tests.append((cost, model.likelihood(name, condition)[: model.size]))
        asked = table.verify_conditions(complaint)
        ways = [asked] if asked else [["cold"], ["hot"]]
        self.passing = np.min([model.passes(way)[: model.size] for way in ways], axis=0)
        self.repairs: list[tuple[float, Array, Array]] = []
        for name, repair in table.repairs.items():
            cost, _ = model.repair_step(name, Place(frozenset(table.access), "cold"))
            covers = (
                sum(table.access[c].minutes for c in model.closure(repair.access)) * meta.money_per_minute
            )
            cure = model.cures(name)
            own = cost + meta.verify_minutes * meta.money_per_minute
            self.repairs.append((own, cure, (covers + model.trial_part(name)) * cure))

    def alone(self) -> Array:
        """Least cost for every fault when it is known."""
        cost = np.full(len(self.passing), self.escalate)
        for _ in range(ROUNDS):
            for own, cure, extra in self.repairs:
                left = (1 - cure) * (1 - self.passing)
                slip = (1 - cure) * self.passing
                cost = np.minimum(cost, own + extra + slip * self.comeback + left * cost)
        return cost

    def group(self, faults: Sequence[int], alone: Array) -> tuple[_Grid, Array]:
        """Lower bound for one group of faults, at every point of a grid of beliefs over them.

        Notes
        -----
        Value iteration from below. The least cost is concave in the belief, so that interpolation between
        grid points never exceeds it (fixed-grid bound, Lovejoy 1991, from memory).
        """
        grid = _Grid(len(faults), FINE[len(faults)])
        faults = list(faults)
        value = grid.points @ alone[faults]
        ahead = []
        for cost, likelihood in self.tests:
            rows = likelihood[faults]
            if np.abs(rows - rows[0]).max() > 1e-9:
                ahead.append((cost, [grid.weights(grid.points * column) for column in rows.T]))
        repairs = []
        for own, cure, extra in self.repairs:
            if cure[faults].any():
                after = grid.points * (1 - cure[faults])
                slip = after * self.passing[faults]
                paid = own + grid.points @ extra[faults] + self.comeback * slip.sum(axis=1)
                repairs.append((paid, grid.weights(after - slip)))
        for _ in range(ROUNDS):
            best = np.full(len(value), self.escalate)
            for cost, results in ahead:
                best = np.minimum(best, cost + sum(grid.read(value, result) for result in results))
            for paid, failed in repairs:
                best = np.minimum(best, paid + grid.read(value, failed))
            grown = np.maximum(value, best)
            done = np.abs(grown - value).max() < 1e-6
            value = grown
            if done:
                break
        return grid, value


class _Grouped:
    """The bound of all groups together, for any beliefs over the single faults."""

    def __init__(self, game: _Game, single: Array, size: int) -> None:
        self.game, self.alone = game, game.alone()
        self.groups = _grouping(game, single, self.alone, size)
        self.values = {n: game.group(g, self.alone) for n, g in enumerate(self.groups) if len(g) > 1}
        self.starts = np.cumsum([0, *(likelihood.shape[1] for _, likelihood in game.tests)])[:-1]
        none = np.zeros((len(self.alone), 0))
        self.likelihood = np.concatenate([none, *(likelihood for _, likelihood in game.tests)], axis=1)
        self.costs = np.array([cost for cost, _ in game.tests])

    def read(self, mass: Array) -> Array:
        """Bound for every row of `mass`, as a share of the jobs."""
        total = np.zeros(len(mass))
        for number, group in enumerate(self.groups):
            own = mass[:, group]
            known = own @ self.alone[group]
            if number in self.values:
                grid, value = self.values[number]
                known = np.maximum(known, grid.read(value, grid.weights(own)))
            total += known
        return np.minimum(total, self.game.escalate * mass.sum(axis=1))

    def deep(self, mass: Array, depth: int) -> float:
        """Bound for one row, after looking `depth` steps ahead; branches that cannot be best are left out."""
        low = float(self.read(mass[None, :])[0])
        share = float(mass.sum())
        if depth == 0 or share < 1e-9:
            return low
        children = (self.likelihood * mass[:, None]).T
        bounds = self.read(children)
        tests = self.costs * share
        if len(tests):
            tests = tests + np.add.reduceat(bounds, self.starts)
        options = [(value, number, 0.0) for number, value in enumerate(tests.tolist())]
        left = []
        for number, (own, cure, extra) in enumerate(self.game.repairs):
            after = mass * (1 - cure)
            slip = after * self.game.passing
            paid = own * share + float(mass @ extra) + self.game.comeback * float(slip.sum())
            left.append(after - slip)
            options.append((paid, len(tests) + number, paid))
        ends = self.read(np.array(left))
        options = [
            (value + (float(ends[number - len(tests)]) if number >= len(tests) else 0.0), number, paid)
            for value, number, paid in options
        ]
        best = self.game.escalate * share
        for value, number, paid in sorted(options):
            if value >= best or depth == 1:
                best = min(best, value)
                break
            if number >= len(tests):
                exact = paid + self.deep(left[number - len(tests)], depth - 1)
            else:
                start = self.starts[number]
                stop = start + self.game.tests[number][1].shape[1]
                exact = self.costs[number] * share + sum(
                    self.deep(row, depth - 1) for row in children[start:stop]
                )
            best = min(best, exact)
        return max(low, best)


class _Grid:
    """Evenly spaced beliefs over a few faults, with interpolation in the simplex that holds a belief."""

    def __init__(self, size: int, fine: int) -> None:
        rows = [np.bincount(c, minlength=size) for c in combinations_with_replacement(range(size), fine)]
        counts = np.array(rows, dtype=np.intp)
        self.points, self.fine, self.size = counts / fine, fine, size
        self._scale = (fine + 1) ** np.arange(size)
        self._number = np.full((fine + 1) ** size, -1, dtype=np.intp)
        self._number[counts @ self._scale] = np.arange(len(counts))

    def weights(self, mass: Array) -> tuple[NDArray[np.intp], Array]:
        """Grid points around every row of `mass` (rows need not add up to 1) and their weights."""
        share = mass.sum(axis=1)
        belief = mass / np.maximum(share, 1e-300)[:, None]
        summed = self.fine * belief[:, ::-1].cumsum(axis=1)[:, ::-1]
        summed[:, 0] = self.fine
        whole = np.floor(summed + 1e-9)
        part = np.clip(summed - whole, 0.0, 1.0)
        order = np.argsort(-part, axis=1, kind="stable")
        ranked = np.take_along_axis(part, order, axis=1)
        corners = np.repeat(whole[:, None, :], self.size, axis=1)
        for number in range(1, self.size):
            step = np.zeros_like(whole)
            np.put_along_axis(step, order[:, :number], 1.0, axis=1)
            corners[:, number] += step
        weight = np.concatenate([1 - ranked[:, :1], ranked[:, :-1] - ranked[:, 1:]], axis=1)
        counts = corners - np.concatenate([corners[:, :, 1:], np.zeros((*corners.shape[:2], 1))], axis=2)
        usable = (counts >= -0.5).all(axis=2) & (weight > 1e-12)
        key = np.where(usable, np.rint(counts).clip(0, self.fine).astype(np.intp) @ self._scale, 0)
        return np.where(usable, self._number[key], 0), np.where(usable, weight, 0.0) * share[:, None]

    @staticmethod
    def read(value: Array, weights: tuple[NDArray[np.intp], Array]) -> Array:
        """Interpolated value of every row."""
        numbers, weight = weights
        return (value[numbers] * weight).sum(axis=1)


def lower_bound(
    table: Table, complaint: str | None = None, pairs: bool = True, size: int = 4, depth: int = 2
) -> Bound:
    """Bounds below the expected cost of every plan for a complaint.

    Parameters
    ----------
    table : Table
    complaint : str, optional
    pairs : bool
        Whether two faults at once are among the hypotheses; each pair then costs at least what its dearer
        fault costs alone.
    size : {2, 4, 8}
        Most faults in a group; 4 is usually tightest, for a larger group has a coarser grid.
    depth : int
        Steps of looking ahead; each takes about twenty times as long as the one before.

    Returns
    -------
    Bound

    Examples
    --------
    >>> from twostroke.isolation import load_table
    >>> bound = lower_bound(load_table(), "no_start", size=2, depth=1)
    >>> bound.clairvoyant < bound.grouped < bound.ahead
    True
    """
    model = model_of(table, pairs)
    vector = Belief(table, complaint, pairs).vector
    single, two = vector[: model.size], vector[model.size : model.fixed]
    grouped = _Grouped(_Game(model, complaint), single, size)
    alone = grouped.alone
    paired = float(two @ np.maximum(alone[model.first], alone[model.second])) if len(two) else 0.0
    return Bound(
        clairvoyant=float(single @ alone) + paired,
        grouped=float(grouped.read(single[None, :])[0]) + paired,
        ahead=grouped.deep(single, depth) + paired,
        groups=[[model.faults[number] for number in group] for group in grouped.groups],
    )


def _grouping(game: _Game, single: Array, alone: Array, size: int) -> list[list[int]]:
    """Groups whose faults cost most to tell apart: a heaviest matching, then a matching of the pairs."""
    gain = _pair_gains(game, single, alone)
    groups = [[number] for number in range(len(single))]
    while len(groups[0]) * 2 <= size and len(groups) > 1:
        groups = _match(groups, gain)
    return groups


def _match(groups: list[list[int]], gain: Array) -> list[list[int]]:
    graph = nx.Graph()
    graph.add_nodes_from(range(len(groups)))
    for one, two in combinations(range(len(groups)), 2):
        graph.add_edge(one, two, weight=float(gain[np.ix_(groups[one], groups[two])].sum()))
    matched = nx.max_weight_matching(graph)
    joined = [groups[one] + groups[two] for one, two in sorted(map(sorted, matched))]
    taken = {number for pair in matched for number in pair}
    return joined + [group for number, group in enumerate(groups) if number not in taken]


def _pair_gains(game: _Game, single: Array, alone: Array) -> Array:
    """What it costs at least to tell any two faults apart, above curing each of them when known.

    Notes
    -----
    A quick estimate, used only to choose the groups: the lesser of a wrong repair and of the cheapest test by
    the difference that it shows.
    """
    size = len(single)
    tell = np.full((size, size), np.inf)
    for cost, likelihood in game.tests:
        apart = np.abs(likelihood[:, None, :] - likelihood[None, :, :]).sum(axis=2) / 2
        tell = np.minimum(tell, cost / np.maximum(apart, 1e-3))
    rarer = np.minimum(single[:, None], single[None, :])
    common = single[:, None] + single[None, :]
    wrong = rarer * np.minimum(alone[:, None], alone[None, :])
    gain = np.minimum(wrong, common * tell)
    both_cured = np.zeros((size, size), dtype=bool)
    for own, cure, extra in game.repairs:
        cheap = own + extra <= alone * 1.05 + 1e-9
        both_cured |= np.outer((cure > 0.9) & cheap, (cure > 0.9) & cheap)
    gain[both_cured] = 0.0
    np.fill_diagonal(gain, 0.0)
    return gain
