"""Simulated learners: they show whether the score tells good routes from poor ones."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np

from twostroke.isolation.belief import Belief
from twostroke.isolation.lookahead import HAND_BACK, HAND_ON, LookAhead, Situation, lookahead_of
from twostroke.isolation.model import Model, Place
from twostroke.isolation.route import FAILS, RUNS, Step
from twostroke.isolation.walk import Walk
from twostroke.table import Table

SURE = 0.85
LIKELY = 0.5
PATIENCE = 18
CHEAP = 6.0
LONGEST = 80


class Engine:
    """A machine as the table describes it, with hidden faults; results are drawn with their chances.

    Parameters
    ----------
    model : Model
    complaint : str or None
    state : int
        Number of the true hypothesis.
    rng : numpy.random.Generator
    """

    def __init__(self, model: Model, complaint: str | None, state: int, rng: np.random.Generator) -> None:
        self.model, self.complaint, self.state, self.rng = model, complaint, state, rng
        self.last: dict[tuple[str, str], int] = {}

    def faults(self) -> list[int]:
        """Numbers of the faults that are there now."""
        if self.state == self.model.fixed:
            return []
        if self.state < self.model.size:
            return [self.state]
        pair = self.state - self.model.size
        return [int(self.model.first[pair]), int(self.model.second[pair])]

    def test(self, name: str, condition: str) -> str:
        """Draw the result of a test; a repeat mostly repeats itself."""
        row = self.model.likelihood(name, condition)[self.state]
        number = int(self.rng.choice(len(row), p=row / row.sum()))
        last = self.last.get((name, condition))
        if last is not None and self.rng.random() < self.model.table.meta.repeat_corr:
            number = last
        self.last[(name, condition)] = number
        return self.model.table.tests[name].results[number]

    def repair(self, name: str) -> bool:
        """Carry out a repair; true when it took a fault away."""
        cure = self.model.cures(name)
        left = [fault for fault in self.faults() if self.rng.random() >= cure[fault]]
        changed = len(left) < len(self.faults())
        if len(left) == 2:
            pass
        elif left:
            self.state = left[0]
        else:
            self.state = self.model.fixed
        self.last.clear()
        return changed

    def verify(self, conditions: list[str]) -> bool:
        """Draw the outcome of a verify run."""
        self.last.clear()
        return bool(self.rng.random() < self.model.passes(conditions)[self.state])


@dataclass
class View:
    """What a learner sees when choosing: the belief, the planner's arrays, what was done."""

    belief: Belief
    ahead: LookAhead
    rng: np.random.Generator
    done: list[str] = field(default_factory=list)
    memo: dict = field(default_factory=dict)
    history: tuple = ()
    truth: list[str] = field(default_factory=list)

    @property
    def situation(self) -> Situation:
        """The belief as a situation."""
        return Situation(self.belief.vector, self.belief.place, self.belief.repeated)

    def fresh_tests(self) -> list[int]:
        """Numbers of the tests not yet made."""
        return [number for number, name in enumerate(self.ahead.tests) if name not in self.done]

    def fresh_repairs(self) -> list[int]:
        """Numbers of the repairs not yet done."""
        return [number for number, name in enumerate(self.ahead.prices.repairs) if name not in self.done]

    def worth(self) -> np.ndarray:
        """Chance over cost of every repair."""
        prices = self.ahead.prices
        chance = self.ahead.chances(self.belief.vector)
        return chance / (prices.base(self.belief.place) + prices.trial * chance)


Learner = Callable[[View], str]


def expert(view: View) -> str:
    """One-step look-ahead."""
    key = ("expert", view.history)
    found = view.memo.get(key)
    if found is None:
        values = view.ahead.values(view.situation)
        options = [(values.hand_on, HAND_ON)]
        if len(values.tests):
            number = int(values.tests.argmin())
            options.append((float(values.tests[number]), view.ahead.tests[number]))
        number = int(values.repairs.argmin())
        options.append((float(values.repairs[number]), view.ahead.prices.repairs[number]))
        found = min(options)[1]
        if len(view.history) <= 14:
            view.memo[key] = found
    return found


def slips(view: View) -> str:
    """The expert, with every fourth step a test at random."""
    tests = view.fresh_tests()
    if tests and view.rng.random() < 0.25:
        return view.ahead.tests[int(view.rng.choice(tests))]
    return expert(view)


def by_information(view: View) -> str:
    """The test with most information a minute, until one fault is likely or no test tells anything."""
    tests = view.fresh_tests()
    if tests and max(view.belief.probabilities().values()) < SURE:
        bits = view.ahead.information(view.situation)
        rate = bits / np.maximum(view.ahead.stack(view.belief.place).costs, 1e-9)
        best = max(tests, key=lambda number: rate[number])
        if bits[best] > 0.02:
            return view.ahead.tests[best]
    return repairs_only(view)


def repairs_only(view: View) -> str:
    """Repairs by chance over cost, no tests, until handing on is cheaper."""
    repairs = view.fresh_repairs()
    worth = view.worth()
    best = max(repairs, key=lambda number: worth[number], default=None)
    if best is None or worth[best] * view.ahead.prices.escalate < 0.5:
        return HAND_ON
    return view.ahead.prices.repairs[best]


def parts_changer(view: View) -> str:
    """Parts in the order of what is likely, whatever they cost."""
    parts = view.belief.table.repairs
    repairs = [n for n in view.fresh_repairs() if parts[view.ahead.prices.repairs[n]].part > 0]
    chance = view.ahead.chances(view.belief.vector)
    best = max(repairs, key=lambda number: chance[number], default=None)
    if best is None or chance[best] < 0.01:
        return HAND_ON
    return view.ahead.prices.repairs[best]


def at_random(view: View) -> str:
    """Tests at random, eighteen at most, until a fault is at even odds; then repairs by chance over cost."""
    made = sum(action in view.belief.table.tests for action in view.done)
    tests = view.fresh_tests()
    if tests and made < PATIENCE and max(view.belief.probabilities().values()) < LIKELY:
        return view.ahead.tests[int(view.rng.choice(tests))]
    return repairs_only(view)


def cheap_first(view: View) -> str:
    """Every cheap test first, then repairs by chance over cost."""
    costs = view.ahead.stack(view.belief.place).costs
    cheap = [number for number in view.fresh_tests() if costs[number] <= CHEAP]
    if cheap:
        return view.ahead.tests[min(cheap, key=lambda number: (costs[number], number))]
    return repairs_only(view)


def hands_on(view: View) -> str:
    """Hands the job on at once."""
    return HAND_ON


def peeker(view: View) -> str:
    """Knows the hidden fault and repairs it without a test."""
    prices = view.ahead.prices
    cure = prices.cure[[view.belief.model.index[fault] for fault in view.truth]].sum(axis=0)
    worth = cure / prices.base(view.belief.place)
    return prices.repairs[int(worth.argmax())] if worth.max() > 0 else HAND_ON


LEARNERS: dict[str, Learner] = {
    "look-ahead expert": expert,
    "expert with 25 % slips": slips,
    "information per minute": by_information,
    "repairs only": repairs_only,
    "parts-changer": parts_changer,
    "random tests": at_random,
    "cheap tests first": cheap_first,
    "hands on at once": hands_on,
    "peeker": peeker,
}


@dataclass(frozen=True)
class Job:
    """One simulated job: adjusted and raw cost, and the route."""

    complaint: str | None
    adjusted: float
    raw: float
    steps: list[Step]
    cured: bool


def simulate(
    table: Table,
    complaint: str | None,
    state: int,
    learner: Learner,
    rng: np.random.Generator,
    *,
    pairs: bool = True,
    planned: Table | None = None,
    memo: dict | None = None,
) -> Job:
    """Let a simulated learner do one job.

    Parameters
    ----------
    table : Table
        How the machine behaves, and what the score believes.
    complaint : str or None
    state : int
        Number of the true hypothesis of the table's model.
    learner : callable
        From :data:`LEARNERS`.
    rng : numpy.random.Generator
    pairs : bool
    planned : Table, optional
        What the learner believes when it is not `table`; it must have the same names.
    memo : dict, optional
        Shared between jobs on one table.

    Returns
    -------
    Job
        Raw cost has the comeback of a machine that went out uncured in it, and a part on trial only where
        it stayed in.
    """
    memo = {} if memo is None else memo
    walk = Walk(table, complaint, pairs, speak=False, memo=memo.setdefault("walk", {}))
    model = walk.belief.model
    engine = Engine(model, complaint, state, rng)
    own = Belief(planned, complaint, pairs) if planned is not None else None
    seen = own or walk.belief
    view = View(seen, lookahead_of(seen.model, complaint), rng, memo=memo.setdefault("view", {}))
    raw = 0.0
    steps: list[Step] = []
    while not walk.closed and len(steps) < LONGEST:
        view.belief = own or walk.belief
        view.history = walk.history
        view.truth = [model.faults[number] for number in engine.faults()]
        action = learner(view)
        step, cost = _act(engine, action, complaint, walk.belief.place)
        walk.take(step, len(steps) + 1)
        steps.append(step)
        raw += cost
        view.done.append(action)
        if own is not None:
            _follow(own, step)
        if step.result == RUNS and step.kind == "repair":
            walk.take(Step(HAND_BACK, "hand_back"), len(steps) + 1)
            raw += 0.0 if engine.state == model.fixed else table.meta.comeback_cost
    walk.finish()
    if not walk.closed and not walk.belief.proven:
        raw += table.meta.escalate_cost
    return Job(complaint, walk.adjusted, raw, steps, engine.state == model.fixed)


def _act(engine: Engine, action: str, complaint: str | None, place: Place) -> tuple[Step, float]:
    model, table = engine.model, engine.model.table
    if action == HAND_ON:
        return Step(HAND_ON, "hand_on"), table.meta.escalate_cost
    if action in table.tests:
        cost, _, condition = model.test_step(action, place)
        return Step(action, "test", engine.test(action, condition)), cost
    cost, then = model.repair_step(action, place)
    if engine.repair(action):
        cost += model.trial_part(action)
    runs = model.verify_runs(complaint, then)
    for number, run in enumerate(runs, start=1):
        cost += run.cost
        if not engine.verify([run.condition]):
            tried = tuple(made.condition for made in runs[:number])
            return Step(action, "repair", FAILS, tried), cost
    return Step(action, "repair", RUNS, tuple(run.condition for run in runs)), cost


def _follow(belief: Belief, step: Step) -> None:
    """Let a learner with another table take note of a step."""
    if step.kind == "test":
        belief.update(step.action, str(step.result))
    elif step.kind == "repair":
        belief.repair(step.action)
        belief.verify(step.result == RUNS, step.conditions)


def draw_jobs(
    model: Model, count: int, rng: np.random.Generator, complaint: str | None = None
) -> list[tuple]:
    """Complaint and true hypothesis of `count` jobs, drawn with the table's chances."""
    kinds = model.table.complaints
    jobs: list[tuple[str | None, int]] = []
    for _ in range(count):
        kind = complaint
        if kind is None and kinds:
            weights = np.array([float((model.prior * model.complaint(k)).sum()) for k in kinds])
            kind = str(rng.choice(kinds, p=weights / weights.sum()))
        start = model.start(kind)
        jobs.append((kind, int(rng.choice(len(start), p=start))))
    return jobs
