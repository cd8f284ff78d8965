"""Routes on the bench for the learner's page: their own, done again on their machine, beside the best one.

Made where answers are marked, from data alone. A record that this machine does not give is not shown.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from pydantic import BaseModel, ConfigDict

from twostroke.errors import TwoStrokeError

if TYPE_CHECKING:
    from twostroke.bench import Bench
    from twostroke.lab.draw import Variant
    from twostroke.lab.route import BenchRoute

_MOST = 80
_WORDS = {"verify": "Verify run", "hand_back": "Handed back", "hand_on": "Handed on"}


class RouteLeg(BaseModel):
    """One step of a route.

    Parameters
    ----------
    title : str
    kind : str
        "test", "repair", "verify" or "other".
    start, minutes, money : float
    words : str
        What was read.
    """

    model_config = ConfigDict(frozen=True)
    title: str
    kind: str
    start: float
    minutes: float
    money: float
    words: str


class RoutePair(BaseModel):
    """Two routes through the same machine.

    Parameters
    ----------
    mine, best : tuple of RouteLeg
        The best one is empty as long as the learner's own job is not closed.
    """

    model_config = ConfigDict(frozen=True)
    mine: tuple[RouteLeg, ...]
    best: tuple[RouteLeg, ...]


def routes_of(lab: str, learner: str, answers: dict[str, Any], attempt: int = 1) -> dict[str, RoutePair]:
    """Return the routes of the tasks that are jobs on the bench, by task.

    Parameters
    ----------
    lab : str
        Number of the lab.
    learner : str
        Whose variant was worked on.
    answers : dict
        Recorded answers by task.
    attempt : int
        Which variant was drawn.

    Returns
    -------
    dict of str to RoutePair
        Empty for a lab without such a task.
    """
    from twostroke.lab import load, variant
    from twostroke.lab.route import BenchRoute

    found: dict[str, RoutePair] = {}
    given = None
    for task in load(lab).tasks:
        for item in task.items:
            if not isinstance(item, BenchRoute) or item.opened is None:
                continue
            record = task.split(answers.get(task.id)).get(item.id)
            given = given or variant(lab, learner, attempt)
            pair = _pair(item, given, record)
            if pair is not None:
                found[task.id] = pair
    return found


def _pair(item: BenchRoute, given: Variant, record: Any) -> RoutePair | None:
    from twostroke.bench import replay
    from twostroke.lab.desk import without_hints

    if item.opened is None or not isinstance(record, list) or not 0 < len(record) <= _MOST:
        return None
    try:
        machine = item.opened(given).machine
        if machine is None:
            return None
        done = replay(without_hints(record)[0], machine.scenario, machine.learner)
        best = replay(without_hints(item.best(given))[0], machine.scenario, machine.learner)
    except (TwoStrokeError, AttributeError, KeyError, TypeError):
        return None
    return RoutePair(mine=legs(done), best=legs(best) if done.outcome is not None else ())


def legs(bench: Bench) -> tuple[RouteLeg, ...]:
    """Return the steps of a job as the learner's page shows them."""
    table = bench.table
    found = []
    for step in bench.route:
        kind = "test" if step.action in table.tests else "repair" if step.action in table.repairs else "other"
        title = _WORDS.get(step.action) or _name(bench, step.action)
        found.append(
            RouteLeg(
                title=title[:1].upper() + title[1:],
                kind="verify" if step.action == "verify" else kind,
                start=step.time - step.minutes,
                minutes=step.minutes,
                money=step.money,
                words=step.words.partition(" What was wrong:")[0],
            )
        )
    return tuple(found)


def _name(bench: Bench, action: str) -> str:
    try:
        return bench.table.action(action).name or action.replace("_", " ")
    except TwoStrokeError:
        return action.replace("_", " ")


def drawing(pair: RoutePair) -> str:
    """Return both routes on one time axis as SVG, drawn as the bench's own report draws them."""
    from twostroke.lesson.bench_panel.report import Leg
    from twostroke.lesson.bench_panel.timeline import timeline

    def legs(route: Sequence[RouteLeg]) -> list[Leg]:
        return [Leg(x.title, x.kind, x.start, x.minutes, x.money, x.words, [], "") for x in route]

    return timeline(legs(pair.mine), legs(pair.best))
