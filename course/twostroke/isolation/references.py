"""The two ends of the score: cost of the reference plan for a complaint, and cost of testing at random.

Both are means of the adjusted cost over simulated jobs, kept in ``data/references.yaml`` with seed and
number of jobs; :func:`renew` makes that file. Where handing the job on at once is cheaper than testing at
random, its price is the lower end, so that neither of the two earns points; but the scale is never narrower
than 0.6 of the plan's cost, or a complaint that is dear in any case would turn every minute into points.
"""

from __future__ import annotations

import hashlib
import json
import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from pathlib import Path

import numpy as np
import yaml

from twostroke.isolation.learners import at_random, draw_jobs, expert, simulate
from twostroke.isolation.model import model_of
from twostroke.table import Table, load_scenario, load_table, scenario_paths

SEED = 20
JOBS = 100
QUICK_JOBS = 24
NARROWEST = 1.6
FILE = "references.yaml"
_WORDS = {
    "name", "owner", "why", "proof", "repair", "caution", "how", "note", "words", "part_name", "title",
    "shop", "day",
}  # fmt: skip
_GROUPS = ("meta", "access", "faults", "common_cause_pairs", "complaint", "tests", "repairs")


@dataclass(frozen=True)
class Reference:
    """Mean adjusted costs for one complaint in money, their standard errors, the price of handing on."""

    plan: float
    random: float
    plan_error: float
    random_error: float
    jobs: int
    seed: int
    hand_on: float = math.inf

    @property
    def zero(self) -> float:
        """Cost that earns no points."""
        return max(min(self.random, max(self.hand_on, NARROWEST * self.plan)), self.plan + 1.0)

    def score(self, adjusted: float) -> float:
        """Points from 0 to 100 for an adjusted cost.

        Examples
        --------
        >>> Reference(60.0, 120.0, 1.0, 2.0, 200, 20).score(75.0)
        75.0
        """
        return 100 * float(np.clip(1 - (adjusted - self.plan) / (self.zero - self.plan), 0.0, 1.0))


def fingerprint(table: Table) -> str:
    """Name for the numbers of a table; its texts do not count."""

    def bare(value):
        if isinstance(value, dict):
            return {
                key: bare(item)
                for key, item in value.items()
                if key not in _WORDS and item not in (None, [], {})
            }
        return [bare(item) for item in value] if isinstance(value, list) else value

    content = {
        group: bare(value) for group, value in table.model_dump(mode="json").items() if group in _GROUPS
    }
    for drop in ("result_order", "version", "verify_hazards"):
        content["meta"].pop(drop, None)
    for group in ("access", "tests", "repairs"):
        for row in content[group].values():
            for drop in ("hazards", "instrument", "reading", "needs_where", "not_alone"):
                row.pop(drop, None)
    return hashlib.sha256(json.dumps(content, sort_keys=True).encode()).hexdigest()[:16]


def reference(table: Table, complaint: str | None, pairs: bool = True) -> Reference:
    """Reference and random cost for a complaint, from the file or worked out now with few jobs."""
    key = ("reference", complaint, pairs)
    if key not in table.derived:
        kept = _kept().get(_key(table, complaint, pairs))
        table.derived[key] = Reference(**kept) if kept else estimate(table, complaint, pairs, QUICK_JOBS)
    return table.derived[key]


def estimate(table: Table, complaint: str | None, pairs: bool = True, jobs: int = JOBS) -> Reference:
    """Simulate reference plan and random tests for one complaint.

    Parameters
    ----------
    table : Table
    complaint : str or None
    pairs : bool
    jobs : int
        Simulated jobs for each of the two.
    """
    model = model_of(table, pairs)
    memo: dict = {}
    costs: list[list[float]] = []
    for learner in (expert, at_random):
        rng = np.random.default_rng([SEED, len(costs)])
        drawn = draw_jobs(model, jobs, rng, complaint)
        costs.append(
            [
                simulate(table, complaint, state, learner, rng, pairs=pairs, memo=memo).adjusted
                for _, state in drawn
            ]
        )
    means = [float(np.mean(cost)) for cost in costs]
    errors = [float(np.std(cost, ddof=1) / np.sqrt(len(cost))) for cost in costs]
    return Reference(means[0], means[1], errors[0], errors[1], jobs, SEED, table.meta.escalate_cost)


def _key(table: Table, complaint: str | None, pairs: bool) -> str:
    return f"{fingerprint(table)} {complaint or 'none'} {'pairs' if pairs else 'single'}"


@lru_cache(maxsize=1)
def _kept() -> dict[str, dict]:
    path = files("twostroke") / "data" / FILE
    return yaml.safe_load(path.read_text(encoding="utf-8")) if path.is_file() else {}


def renew(
    wanted: Iterable[tuple[Table, str | None]] | None = None,
    path: str | Path | None = None,
    jobs: int = JOBS,
    progress: Callable[[str], None] | None = None,
) -> dict[str, Reference]:
    """Work out the reference and random costs that are missing from the package's file, and write them there.

    Parameters
    ----------
    wanted : iterable of (Table, complaint), optional
        What to work out; when left out, the course's own table with every complaint, and every scenario's
        machine with its complaint.
    path : str or Path, optional
        Another file.
    jobs : int
        Simulated jobs for each of the two costs.
    progress : callable, optional
        Is told each row as it is begun.

    Returns
    -------
    dict
        What was new, by key.
    """
    target = Path(path) if path else Path(str(files("twostroke") / "data" / FILE))
    kept = yaml.safe_load(target.read_text(encoding="utf-8")) if target.is_file() else {}
    rows = {_key(table, complaint, True): (table, complaint) for table, complaint in wanted or _course()}
    new = {}
    for key, (table, complaint) in rows.items():
        if key not in kept:
            if progress is not None:
                progress(key)
            new[key] = estimate(table, complaint, True, jobs)
            kept[key] = {
                name: round(value, 3) if isinstance(value, float) else value
                for name, value in vars(new[key]).items()
            }
            target.write_text(yaml.safe_dump(kept, sort_keys=True), encoding="utf-8")
    target.write_text(yaml.safe_dump(kept, sort_keys=True), encoding="utf-8")
    _kept.cache_clear()
    return new


def _course() -> list[tuple[Table, str | None]]:
    """The course's own table with every complaint, and every scenario's machine with its own."""
    table = load_table()
    rows: list[tuple[Table, str | None]] = [(table, complaint) for complaint in [None, *table.complaints]]
    for path in scenario_paths().values():
        scenario = load_scenario(path, table)
        rows.append((scenario.table(table), scenario.complaint.kind))
    return rows
