"""How hard a scenario is: what the best plan is expected to cost on a machine with this fault."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from pathlib import Path
from typing import Any

import numpy as np
import yaml

from twostroke.isolation import Belief, Planner
from twostroke.isolation.learners import expert, simulate
from twostroke.isolation.model import model_of
from twostroke.isolation.references import fingerprint
from twostroke.scenarios.work import best_repair
from twostroke.table import Scenario, Table, load_scenario, load_table, scenario_paths

JOBS = 24
SEED = 5
LEVELS = (0.30, 0.45, 0.65, 0.90)
"""Upper ends of levels 1 to 4, as shares of the price of handing on; above is level 5. A choice."""
FILE = "difficulty.yaml"
_COUNTS = ("machine", "complaint", "truth", "tests", "repairs", "bands", "seed")


@dataclass(frozen=True)
class Difficulty:
    """What a scenario costs, in the money of the table.

    Attributes
    ----------
    expected_cost : float
        Mean cost of the recommended plan on a machine with these faults: time, parts, comebacks.
    error : float
        Standard error of that mean.
    at_complaint : float
        Best expected cost when only the complaint is known, whatever the fault.
    knowing : float
        What the job costs someone who knows the fault: covers, repair, part, verify run.
    level : int
        1 (plain) to 5 (dearer than most people would go on with), from `expected_cost` alone.
    jobs : int
        Simulated jobs behind the mean.
    """

    expected_cost: float
    error: float
    at_complaint: float
    knowing: float
    level: int
    jobs: int

    def __str__(self) -> str:
        return (
            f"difficulty {self.level} of 5: the recommended plan is expected to cost "
            f"{self.expected_cost:.0f} (± {self.error:.0f}), who knows the fault pays {self.knowing:.0f}"
        )


def difficulty(scenario: Scenario, table: Table | None = None, jobs: int = JOBS) -> Difficulty:
    """Difficulty of a scenario, computed from the planner.

    Parameters
    ----------
    scenario : Scenario
    table : Table, optional
        The whole fault table; the course's own when left out.
    jobs : int
        How many jobs are simulated.

    Returns
    -------
    Difficulty

    Notes
    -----
    Tests, repairs and verify runs are drawn with the table's chances for the scenario's fault or pair of
    faults, and the plan is the one-step look-ahead of :class:`twostroke.isolation.Planner`. A scenario whose
    fault is drawn gets the mean over what may be drawn, by rate and complaint.

    Examples
    --------
    >>> from twostroke.table import load_scenario, scenario_paths
    >>> plain = difficulty(load_scenario(scenario_paths()["plug_fouled_trimmer"]), jobs=4)
    >>> plain.knowing < plain.expected_cost
    True
    """
    cut = scenario.table(load_table() if table is None else table)
    model = model_of(cut, True)
    kind = scenario.complaint.kind
    rng = np.random.default_rng([SEED, scenario.seed.number])
    states = _states(scenario, cut, rng, jobs)
    memo: dict = {}
    costs = [simulate(cut, kind, state, expert, rng, memo=memo).raw for state in states]
    mean = float(np.mean(costs))
    error = float(np.std(costs, ddof=1) / np.sqrt(len(costs))) if len(costs) > 1 else 0.0
    start = Planner(cut).rank(Belief(cut, kind))[0].expected_cost
    share = mean / cut.meta.escalate_cost
    level = 1 + sum(share > end for end in LEVELS)
    faults = [true.fault for true in scenario.truth]
    runs = sum(run.cost for run in model.verify_runs(kind, Belief(cut, kind).place))
    return Difficulty(mean, error, float(start), _knowing(cut, faults) + runs, level, len(costs))


def level(scenario: Scenario) -> int | None:
    """Level of a scenario as it was worked out before; None for one that was written or changed since.

    Examples
    --------
    >>> from twostroke.table import load_scenario, scenario_paths
    >>> level(load_scenario(scenario_paths()["plug_fouled_trimmer"]))
    1
    """
    kept = kept_difficulty(scenario)
    return None if kept is None else kept.level


def by_difficulty() -> list[Scenario]:
    """The course's scenarios, the plainest first; those that were not worked out stand at the end.

    Examples
    --------
    >>> by_difficulty()[0].id
    'plug_fouled_trimmer'
    """
    table = load_table()

    def rank(one: Scenario) -> tuple[float, str]:
        kept = kept_difficulty(one)
        return (float("inf") if kept is None else kept.expected_cost, one.title)

    return sorted((load_scenario(path, table) for path in scenario_paths().values()), key=rank)


def kept_difficulty(scenario: Scenario) -> Difficulty | None:
    """Difficulty out of ``data/difficulty.yaml``, which :func:`renew` makes; None where it does not hold."""
    row = _kept().get(scenario.id)
    if row is None or row["mark"] != mark(scenario):
        return None
    return Difficulty(**{name: value for name, value in row.items() if name != "mark"})


def mark(scenario: Scenario) -> str:
    """Name for everything that a scenario's difficulty hangs on; its texts do not count."""
    content = scenario.model_dump(mode="json", include=set(_COUNTS))
    content["complaint"] = scenario.complaint.kind
    text = json.dumps([_course(), content], sort_keys=True)
    return hashlib.sha256(text.encode()).hexdigest()[:16]


def renew(
    path: str | Path | None = None, jobs: int = JOBS, progress: Callable[[str], None] | None = None
) -> dict[str, Difficulty]:
    """Work out the difficulty of the course's scenarios where it does not hold, and write it down.

    Parameters
    ----------
    path : str or Path, optional
        Another file.
    jobs : int
        Simulated jobs for each scenario.
    progress : callable, optional
        Is told each scenario as it is begun.

    Returns
    -------
    dict
        What was new, by scenario.
    """
    target = Path(path) if path else Path(str(files("twostroke") / "data" / FILE))
    kept = yaml.safe_load(target.read_text(encoding="utf-8")) if target.is_file() else {}
    rows: dict[str, Any] = {}
    new = {}
    for name, file in scenario_paths().items():
        scenario = load_scenario(file)
        rows[name] = kept.get(name, {})
        if rows[name].get("mark") == mark(scenario):
            continue
        if progress is not None:
            progress(name)
        new[name] = difficulty(scenario, jobs=jobs)
        numbers = {k: round(v, 2) if isinstance(v, float) else v for k, v in vars(new[name]).items()}
        rows[name] = {"mark": mark(scenario), **numbers}
    target.write_text(yaml.safe_dump(rows, sort_keys=True), encoding="utf-8")
    _kept.cache_clear()
    return new


@lru_cache(maxsize=1)
def _kept() -> dict[str, dict[str, Any]]:
    path = files("twostroke") / "data" / FILE
    return yaml.safe_load(path.read_text(encoding="utf-8")) if path.is_file() else {}


@lru_cache(maxsize=1)
def _course() -> str:
    return fingerprint(load_table())


def _states(scenario: Scenario, table: Table, rng: np.random.Generator, jobs: int) -> list[int]:
    """Numbers of the hypotheses that are true, one a job."""
    model = model_of(table, True)
    faults = [true.fault for true in scenario.truth]
    if len(faults) == 1:
        return [model.index[faults[0]]] * jobs
    if len(faults) == 2:
        return [model.pair_number(*faults)] * jobs
    start = model.start(scenario.complaint.kind)[: model.size].copy()
    names = scenario.seed.draw_from or [name for name in table.faults if name != "other"]
    drawn = np.array([name in names for name in model.faults])
    weights = np.where(drawn, start, 0.0)
    return [int(s) for s in rng.choice(model.size, size=jobs, p=weights / weights.sum())]


def _knowing(table: Table, faults: list[str]) -> float:
    opened: set[str] = set()
    total = 0.0
    for fault in faults:
        row = table.repairs[best_repair(table, fault)]
        covers = table.opening(row.access, opened)
        opened |= set(covers)
        minutes = row.minutes + sum(table.access[cover].minutes for cover in covers)
        total += minutes * table.meta.money_per_minute + row.part
    return total
