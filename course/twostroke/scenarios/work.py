"""Jobs done by the recommended adviser, and by someone who knows the fault, on a scenario's machine."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from twostroke.bench import Bench, Outcome, Reading
from twostroke.isolation import Belief, ContradictionError, Planner
from twostroke.table import Scenario, Table

LONGEST = 45
TELLS = 3.0
"""A test can tell a fault when one of its results is this many times likelier with it than without."""
CURES = 4
"""How often a repair that did not take is done again by someone who knows the fault."""


@dataclass(frozen=True)
class Worked:
    """One job, done.

    Attributes
    ----------
    bench : Bench
        As it stands after hand-back.
    outcome : Outcome
    belief : Belief
        What the readings left possible.
    contradiction : str
        Readings that no fault of the table can give together, or nothing.
    """

    bench: Bench
    outcome: Outcome
    belief: Belief
    contradiction: str = ""

    @property
    def solved(self) -> bool:
        """Cured, proven in the complaint's own condition, not handed on."""
        out = self.outcome
        return out.fixed and out.verified and not out.handed_on

    @property
    def diagnosis(self) -> str | None:
        """Fault handed back with."""
        return self.outcome.diagnosis


def act(bench: Bench, action: str, **settings: Any) -> Reading:
    """Do an action with everything it needs; a machine too hot to touch is left to cool first.

    Examples
    --------
    >>> act(Bench("plug_fouled_trimmer", "Anna"), "plug_look").done
    True
    """
    reading = bench.do(action, prepare=True, confirm="all", **settings)
    if not reading.done and bench.temperature != "cold":
        bench.do("cool_down", confirm="all")
        reading = bench.do(action, prepare=True, confirm="all", **settings)
    return reading


def best_route(scenario: str | Scenario, learner: str, *, table: Table | None = None) -> Worked:
    """The recommended adviser's job: one-step look-ahead, and a verify run before every hand-back.

    Parameters
    ----------
    scenario : str or Scenario
    learner : str
        Picks the machine.
    table : Table, optional

    Returns
    -------
    Worked

    Examples
    --------
    >>> job = best_route("plug_fouled_trimmer", "Anna")
    >>> job.solved, job.diagnosis
    (True, 'plug_fouled')
    """
    return advised(Bench(scenario, learner, table=table))


def advised(bench: Bench) -> Worked:
    """The recommended adviser's job on a machine on which nothing was done yet.

    The planner weighs a verify run against the price of a comeback; here it is always made, because a job
    is passed only when it is proven.

    Parameters
    ----------
    bench : Bench
        Is worked on, until it is handed back or on.

    Examples
    --------
    >>> advised(Bench("plug_fouled_trimmer", "Anna")).outcome.verified
    True
    """
    belief = Belief(bench.table, bench.scenario.complaint.kind)
    planner = Planner(bench.table)
    clash, handed_on = "", False
    cured: dict[str, float] = {}
    for _ in range(LONGEST):
        advice = planner.rank(belief)[0]
        kind, action = advice.kind, advice.action
        if kind == "hand_back" and belief.proven:
            break
        if kind == "hand_on":
            handed_on = True
            break
        if kind == "hand_back":
            kind, action = "verify", "verify"
        reading = act(bench, action)
        if not reading.done:
            clash = f"{action} cannot be done: {reading.words}"
            break
        try:
            cured |= _learn(belief, bench, kind, action, reading)
        except ContradictionError as error:
            clash = str(error)
            break
    else:
        handed_on = True
    chances = cured or belief.probabilities()
    outcome = bench.hand_back(max(chances, key=lambda fault: chances[fault]), 0.9, hand_on=handed_on)
    return Worked(bench, outcome, belief, clash)


def _learn(belief: Belief, bench: Bench, kind: str, action: str, reading: Reading) -> dict[str, float]:
    """Take note of a step; of a repair, what it is most likely to have cured, with its chance before it."""
    if kind == "test":
        belief.update(action, str(reading.result), reading.condition)
        return {}
    if kind == "repair":
        fixes = bench.table.repairs[action].fixes
        chances = belief.probabilities()
        belief.repair(action)
        likeliest = max(fixes, key=lambda fault: chances[fault] * fixes[fault])
        return {likeliest: chances[likeliest]}
    belief.verify(reading.result == "runs", list(bench.route[-1].conditions))
    return {}


def telling_tests(table: Table, faults: list[str]) -> list[tuple[str, str]]:
    """Tests of a table with the result that speaks for one of `faults`, the plainest first.

    Examples
    --------
    >>> from twostroke.table import load_table
    >>> dict(telling_tests(load_table(), ["airgap_wide"]))["air_gap"]
    'wide'
    """
    found = []
    for name, test in table.tests.items():
        for fault in faults:
            ratios = [
                (seen / max(usual, 1e-9), seen, result)
                for seen, usual, result in zip(test.row(fault), test.base, test.results, strict=True)
            ]
            ratio, share, result = max(ratios)
            if ratio >= TELLS:
                found.append((-share, name, result))
    best: dict[str, str] = {}
    for _, name, result in sorted(found, key=lambda row: row[0]):
        best.setdefault(name, result)
    return list(best.items())


def cure(scenario: str | Scenario, learner: str, *, table: Table | None = None) -> Worked:
    """The job of someone who knows what is wrong: the right repairs, then the verify run.

    Every repair is done twice, because a repair does not always take and an intermittent fault can pass a
    verify run. Where that fails, fuel that has gathered is cleared out, and the repairs are done once more.

    Returns
    -------
    Worked

    Examples
    --------
    >>> cure("module_heat_saw", "Anna").solved
    True
    """
    bench = Bench(scenario, learner, table=table)
    belief = Belief(bench.table, bench.scenario.complaint.kind)
    faults = [true.fault for true in bench.scenario.truth]
    for _ in range(CURES):
        for fault in 2 * faults:
            act(bench, best_repair(bench.table, fault))
        if act(bench, "verify").result == "runs":
            break
        if "clear_flood" in bench.table.repairs:
            act(bench, "clear_flood")
    return Worked(bench, bench.hand_back(faults[0] if faults else None, 1.0), belief)


def best_repair(table: Table, fault: str) -> str:
    """Repair with the least cost for its chance to cure a fault.

    Examples
    --------
    >>> from twostroke.table import load_table
    >>> best_repair(load_table(), "airgap_wide")
    'set_air_gap'
    """
    price = table.meta.money_per_minute

    def worth(name: str) -> float:
        row = table.repairs[name]
        covers = sum(table.access[cover].minutes for cover in table.opening(row.access))
        fails = (1.0 - row.fixes[fault]) * table.meta.comeback_cost
        return (row.minutes + covers) * price + row.part + fails

    return min((name for name, row in table.repairs.items() if fault in row.fixes), key=worth)
