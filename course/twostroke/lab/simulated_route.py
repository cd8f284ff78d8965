"""A job on the bench as a simulated learner of stated ability does it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

import numpy as np

from twostroke.lab.route import Route

if TYPE_CHECKING:
    from twostroke.bench import Bench
    from twostroke.isolation import Advice, Belief

MOST = 30
_ENDS = ("hand_back", "hand_on")


def worked(bench: Bench, chance: float, rng: np.random.Generator) -> Route:
    """Do a job, step by step, well with the chance given and otherwise by one of the usual errors.

    Parameters
    ----------
    bench : Bench
        As it came in; it is handed back at the end.
    chance : float
        That a step is what the adviser would do, that the job is proven, that the right fault is named.
    rng : numpy.random.Generator

    Returns
    -------
    list of dict
        Record of the job.

    Notes
    -----
    Usual errors: a test at random, a part fitted on a guess, a caution not kept, no verify run.
    """
    from twostroke.isolation import Belief, Planner

    kind = bench.scenario.complaint.kind
    belief = Belief(bench.table, kind, pairs=False)
    planner = Planner(bench.table)
    careful = rng.random() < 0.4 + 0.6 * chance
    mended, cause = False, ""
    for _ in range(MOST):
        ranked = planner.rank(belief)
        advice = ranked[0] if rng.random() < chance else _other(ranked, rng)
        action, what = advice.action, advice.kind
        if what in _ENDS:
            if not mended or rng.random() > chance:
                break
            action = what = "verify"
        if what == "repair":
            cause = _likeliest(belief, bench.table.repairs[action].fixes)
        confirm = "all" if careful or rng.random() < 0.9 else []
        reading = bench.do(action, prepare=True, confirm=confirm, anyway=True)
        if not reading.done:
            break
        mended = _learn(belief, action, what, reading, bench, mended)
        if what == "verify" and reading.result == "runs":
            break
    if not cause or rng.random() > 0.5 + 0.5 * chance:
        cause = _likeliest(belief, [name for name in bench.table.faults if name != cause])
    bench.hand_back(cause, 0.8)
    return [step.to_dict() for step in bench.route]


def _likeliest(belief: Belief, faults: Iterable[str]) -> str:
    chances = belief.probabilities()
    return max((name for name in faults if name != "other"), key=lambda name: chances.get(name, 0.0))


def _other(ranked: list[Advice], rng: np.random.Generator) -> Advice:
    """Some test, or a part on a guess; never the end of the job."""
    rest = [each for each in ranked if each.kind in ("test", "repair")]
    return rest[int(rng.integers(len(rest)))] if rest else ranked[0]


def _learn(belief: Belief, action: str, what: str, reading: Any, bench: Bench, mended: bool) -> bool:
    """Take note of a step; say whether something mended waits for its proof."""
    from twostroke.isolation import ContradictionError

    try:
        if what == "test":
            belief.update(action, str(reading.result), reading.condition)
        elif what == "repair":
            belief.repair(action)
            return True
        elif what == "verify":
            runs = reading.result == "runs"
            belief.verify(runs, list(bench.route[-1].conditions))
            return not runs
    except ContradictionError:
        return mended
    return mended
