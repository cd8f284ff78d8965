"""A job on the bench as a step of a lab: opened for a learner, replayed, scored, worked as a model."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import asdict, dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from twostroke.lab.desk import Desk, without_hints
from twostroke.lab.draw import Variant
from twostroke.lab.feedback import OTHER, PART, RIGHT, SLIP, Feedback, Judged
from twostroke.lab.route import BenchRoute, Route

if TYPE_CHECKING:
    from twostroke.bench import Bench
    from twostroke.isolation import RouteScore
    from twostroke.table import Table

FULL_SCORE = 50.0
"""Route score from which a practice lab gives all points; the final bench asks for more."""
UNPROVEN, COMES_BACK, WRONG_NAME = 0.5, 0.25, 0.75
"""Most of the points: no verify run, a machine that comes back, another fault named."""
HINT_COST, HINTS_AT_MOST = 0.05, 0.5
"""Part of a job's points that each hint takes away, and what all of them take at most."""
MOST_STEPS = 30
_ENDS = ("hand_back", "hand_on")

Scenario = dict[str, Any]


@dataclass(frozen=True)
class Terms:
    """What a job on the bench counts.

    Parameters
    ----------
    full : float
        Route score from which all points are given.
    pairs : bool
        Whether the score considers two faults at once.
    hints : bool
        Whether there are hints; each that stands in the record takes a part of the points away.
    """

    full: float = FULL_SCORE
    pairs: bool = False
    hints: bool = False


def bench_route(
    name: str,
    label: str,
    scenario: Callable[[Variant], Scenario],
    share: float = 1.0,
    terms: Terms | None = None,
) -> BenchRoute:
    """Return the step of a lab in which a job is done on the bench.

    Parameters
    ----------
    name, label : str
        Name in calls; name for the reader.
    scenario : callable
        Variant -> content of the scenario; its fault stands in it, and its seed is fixed, so that the machine
        follows from the variant alone.
    share : float
        Share of the task's points.
    terms : Terms, optional
        What the job counts.

    Returns
    -------
    BenchRoute
    """
    counts = terms or Terms()
    return BenchRoute(
        name,
        label,
        lambda v, route: judge(scenario(v), route, counts),
        lambda v: model_route(scenario(v), counts.pairs),
        share,
        opened=lambda v: Desk(_bench(scenario(v)), counts.hints),
    )


def _bench(scenario: Scenario) -> Bench:
    from twostroke.bench import Bench

    return Bench(scenario, "lab")


def _key(scenario: Scenario) -> str:
    """The scenario as text, without the owner's words: they change nothing on the machine."""
    complaint = {**scenario["complaint"], "words": "as the owner tells it"}
    return json.dumps({**scenario, "complaint": complaint}, sort_keys=True)


@lru_cache(maxsize=8)
def _table(machine: str) -> Table:
    """The table cut to this machine, made once, so that what is worked out for it is kept."""
    return _bench(json.loads(machine)).table


def table_of(scenario: Scenario) -> Table:
    """Return the table of a scenario: the same object for all that differ in fault and seed only."""
    plain = {**scenario, "truth": [{"fault": "plug_fouled"}], "seed": {"policy": "fixed", "number": 1}}
    return _table(_key(plain))


def judge(scenario: Scenario, route: Route, terms: Terms | None = None) -> Judged:
    """Replay a route on the machine of the scenario and score it.

    Parameters
    ----------
    scenario : dict
    route : list of dict
        As the bench records it.
    terms : Terms, optional
        What the job counts.

    Returns
    -------
    Judged
        Nothing for a route that this machine does not give, or with a caution missed; else a share by the
        luck-adjusted score, limited for a job that is unproven, comes back, or names another fault.
    """
    counts = terms or Terms()
    steps, hints = without_hints(route) if counts.hints else (route, 0)
    found = _judge(_key(scenario), json.dumps(steps, sort_keys=True), json.dumps(asdict(counts)))
    return _less_hints(found, hints) if hints and found.fraction else found


def _less_hints(found: Judged, hints: int) -> Judged:
    """Take away what the hints cost."""
    left = 1 - min(HINTS_AT_MOST, HINT_COST * hints)
    seen = f"{found.feedback.seen} Hints taken: {hints}."
    if found.state == RIGHT:
        told = Feedback(seen.removeprefix("Right: "), *_HINTED)
        return Judged(left, PART, told, "hints_taken")
    return replace(found, fraction=found.fraction * left, feedback=replace(found.feedback, seen=seen))


@lru_cache(maxsize=512)
def _judge(scenario_text: str, route_text: str, terms_text: str) -> Judged:
    from twostroke.bench import RouteError, replay
    from twostroke.isolation import score_route

    scenario, route, terms = (
        json.loads(scenario_text),
        json.loads(route_text),
        Terms(**json.loads(terms_text)),
    )
    if not route or route[-1].get("action") not in _ENDS:
        return Judged(0.0, OTHER, _OPEN, "job_open")
    try:
        bench = replay(route, scenario, "lab")
    except RouteError as error:
        where = str(error).partition(":")[0]
        seen = Feedback(f"The record does not come from your machine: {where}.", *_FOREIGN)
        return Judged(0.0, OTHER, seen, "not_from_this_machine")
    truth = [each["fault"] for each in scenario["truth"]]
    kind = scenario["complaint"]["kind"]
    scored = score_route(table_of(scenario), kind, route, truth=truth, pairs=terms.pairs)
    return judged(scored, bench, truth, terms.full)


def judged(scored: RouteScore, bench: Bench, truth: list[str], full: float) -> Judged:
    """Turn score and outcome of a job into a share of the points, with what is said.

    Parameters
    ----------
    scored : RouteScore
    bench : Bench
        Handed back.
    truth : list of str
        Faults that were there.
    full : float
        Route score from which all points are given.

    Returns
    -------
    Judged
    """
    outcome = bench.outcome
    assert outcome is not None
    seen = f"Score {scored.score:.0f} of 100, {bench.minutes:.0f} minutes."
    if not (scored.safe and outcome.safe):
        number = next((n for n, step in enumerate(bench.route, 1) if step.cautions_missed), 1)
        return Judged(
            0.0, OTHER, Feedback(f"{seen} A caution was not kept at step {number}.", *_UNSAFE), "unsafe"
        )
    reached = min(1.0, scored.score / full)
    limits = (
        (outcome.comes_back or outcome.handed_on, COMES_BACK, _BACK, "comes_back"),
        (not scored.verified, UNPROVEN, _UNPROVEN, "unproven"),
        (outcome.diagnosis not in truth, WRONG_NAME, _NAMED, "other_fault_named"),
    )
    for applies, most, told, name in limits:
        if applies:
            part = min(reached, most)
            state = PART if part else SLIP
            return Judged(part, state, Feedback(f"{seen} {told[0]}", *told[1:]), name)
    if reached < 1:
        return Judged(reached, PART if reached else OTHER, Feedback(seen, *_DEAR), "dear_route")
    return Judged(1.0, RIGHT, Feedback(f"Right: {seen}"))


_OPEN = Feedback(
    "The record ends before the machine is handed back.",
    "The job is still open, or not all of it was run.",
    "Verify, hand back, then run the cell from its first line.",
)
_FOREIGN = (
    "It was changed by hand, or made on another learner's machine.",
    "Run the job again from its first line and hand in machine.route as it is.",
)
_UNSAFE = (
    "With a caution missed the whole job counts for nothing.",
    "Read what the bench asks before that step, and confirm only what you would do.",
)
_BACK = (
    "The owner brings it back, or another shop has it.",
    "It was given away with its fault.",
    "Which reading showed that the fault was gone?",
)
_UNPROVEN = (
    "No verify run after the last repair.",
    "It was taken for cured because a part was changed.",
    "In which condition did the owner complain, and was it run there?",
)
_NAMED = (
    "It is cured, but the fault named is another.",
    "Part changed and cause were taken for one.",
    "Which of your readings fit the fault that you named, and which do not?",
)
_DEAR = (
    "The job was done, and cost more than the readings asked for.",
    "Which step could not have told the likely faults apart, or was a part fitted on a guess?",
)


_HINTED = (
    "The job is right; each hint took a part of its points.",
    "Which hint would you not have needed? In the examination there is none.",
)


@lru_cache(maxsize=512)
def _model(scenario_text: str, pairs: bool) -> str:
    from twostroke.isolation import Belief, Planner

    scenario = json.loads(scenario_text)
    bench = _bench(scenario)
    belief = Belief(table_of(scenario), scenario["complaint"]["kind"], pairs=pairs)
    planner = Planner(belief.table)
    mended = False
    for _ in range(MOST_STEPS):
        advice = planner.rank(belief)[0]
        action, kind = advice.action, advice.kind
        if kind in _ENDS and mended:  # what was mended is proven before it goes out
            action = kind = "verify"
        if kind in _ENDS:
            break
        reading = bench.do(action, prepare=True, confirm="all")
        if kind == "test":
            belief.update(action, str(reading.result), reading.condition)
        elif kind == "repair":
            belief.repair(action)
            mended = True
        else:
            belief.verify(reading.result == "runs", list(bench.route[-1].conditions))
            mended = False
    bench.hand_back(scenario["truth"][0]["fault"], 0.9)
    return json.dumps([step.to_dict() for step in bench.route])


def model_route(scenario: Scenario, pairs: bool = False) -> Route:
    """Return the route of the recommended adviser on this machine: one-step look-ahead, then verify.

    Parameters
    ----------
    scenario : dict
    pairs : bool
        Whether the adviser considers two faults at once.

    Returns
    -------
    list of dict
        Handed back with the fault that is there.
    """
    found: Route = json.loads(_model(_key(scenario), pairs))
    return found
