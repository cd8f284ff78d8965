"""How good a route was: cost with the luck taken out, safety, and what each step could tell."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from twostroke.isolation.feedback import Remark, close
from twostroke.isolation.lookahead import HAND_ON
from twostroke.isolation.references import Reference, reference
from twostroke.isolation.route import read_route
from twostroke.isolation.walk import Walk
from twostroke.table import Table

PASS_MARK = 70.0
UNVERIFIED_CAP = 60.0


@dataclass(frozen=True)
class RouteScore:
    """Score of one route.

    Attributes
    ----------
    score : float
        0 to 100: 100 at the reference plan's cost, 0 at the cost of testing at random.
    adjusted_cost : float
        Cost in money with good and bad luck taken out; learners are ranked by this.
    raw_cost : float
        What was really spent, without the price of a machine that comes back later.
    feedback : list of Remark
        One entry a step; each is a text that also carries its numbers.
    summary : list of str
        What is said at the end, the better first choice among it.
    passed : bool
        Every precaution kept, the repair verified in the complaint's condition, score at least 70.
    safe, verified : bool
    confidence : float or None
        1 less the Brier score of the stated fault and confidence; the truth decides where it is known, else
        the chance that the readings give.
    premature_parts : float
        Money for parts that had less than an even chance to cure; part of the cost already.
    """

    score: float
    adjusted_cost: float
    raw_cost: float
    feedback: list[Remark]
    summary: list[str]
    passed: bool
    safe: bool
    verified: bool
    confidence: float | None = None
    premature_parts: float = 0.0
    reference: Reference | None = field(default=None, repr=False)


def score_route(
    table: Table,
    complaint: str | None,
    route: Sequence[Any],
    *,
    truth: Sequence[str] | None = None,
    pairs: bool = True,
) -> RouteScore:
    """Score a route from complaint to hand-back.

    Parameters
    ----------
    table : Table
    complaint : str or None
        Kind of complaint.
    route : sequence
        One record a step, a dict or an object with these names, of which only `action` is always needed:

        ========================  ====================================================================
        ``action``                a test, repair or cover of the table, or ``verify``, ``hand_back``,
                                  ``hand_on``, ``heat``, ``cool``, ``wait``
        ``result``                for a test the table's word, for ``verify`` ``runs`` or ``fails``. A
                                  repair with a result means that its verify run, in the conditions of
                                  the complaint, is part of the step
        ``condition``             ``cold``, ``hot`` or ``shake``; a list for a verify run
        ``cautions``              the cautions confirmed at this step (names of the table's hazards);
                                  where it is left out the precautions count as kept
        ``unsafe``                true when a precaution was missed
        ``diagnosis``,            at ``hand_back``: the fault stated, and how sure from 0 to 1
        ``confidence``
        ``minutes``               for ``wait``
        ========================  ====================================================================

    truth : sequence of str, optional
        The fault or faults that were there; only used to score a stated diagnosis.
    pairs : bool
        Whether two faults at once are considered.

    Returns
    -------
    RouteScore

    Raises
    ------
    TableError
        An unknown action or result, or readings that cannot all be true; the message names the step.

    Notes
    -----
    V(b) is the least expected cost by one-step look-ahead. A step adds A = E[cost + V(next)] - V(b); the
    adjusted cost is V(start) plus all A. What is left out has mean zero whatever V is, so that the mean over
    many jobs is the true mean cost (Zinkevich et al. 2006, Burch et al. 2018, from memory). Score =
    100 clip(1 - (adjusted - reference)/(random - reference), 0, 1). A missed precaution takes the step's
    gain away and fails the job; handing back without a verify run in the complaint's condition limits the
    score to 60; a job left open counts as handed on.

    Examples
    --------
    >>> from twostroke.isolation import load_table
    >>> table = load_table()
    >>> done = score_route(table, "no_start", [
    ...     {"action": "known_good_plug", "result": "none"},
    ...     {"action": "stop_lead_off", "result": "spark_returns"},
    ...     {"action": "replace_switch"},
    ...     {"action": "verify", "result": "runs"},
    ...     {"action": "hand_back", "diagnosis": "stop_switch", "confidence": 0.9},
    ... ])
    >>> done.passed, len(done.feedback)
    (True, 5)
    """
    steps = read_route(table, route)
    walk = Walk(table, complaint, pairs)
    for number, step in enumerate(steps, start=1):
        walk.take(step, number)
    walk.finish()
    return _judge(walk, truth)


def _judge(walk: Walk, truth: Sequence[str] | None) -> RouteScore:
    known = reference(walk.table, walk.complaint, walk.belief.model.pairs)
    score = known.score(walk.adjusted)
    asked = set(walk.table.verify_conditions(walk.complaint))
    verified = bool(walk.proven) and asked <= walk.proven
    if not verified:
        score = min(score, UNVERIFIED_CAP)
    passed = walk.safe and verified and score >= PASS_MARK and walk.closed != HAND_ON
    return RouteScore(
        score=round(score, 2),
        adjusted_cost=walk.adjusted,
        raw_cost=walk.raw,
        feedback=walk.feedback,
        summary=close(walk, verified),
        passed=passed,
        safe=walk.safe,
        verified=verified,
        confidence=_confidence(walk, truth),
        premature_parts=walk.premature,
        reference=known,
    )


def _confidence(walk: Walk, truth: Sequence[str] | None) -> float | None:
    """1 - (p - right)^2, and its expectation where the truth is not known."""
    step = walk.stated
    if step is None or step.fault is None or step.confidence is None:
        return None
    known = None if truth is None else float(step.fault in truth)
    right = _at_start(walk, step.fault) if known is None else known
    sure = step.confidence
    return 1 - (right * (1 - sure) ** 2 + (1 - right) * sure**2)


def _at_start(walk: Walk, fault: str) -> float:
    """P(fault was there when the machine came in | complaint, readings, outcomes of repairs)."""
    belief, model = walk.belief, walk.belief.model
    start = model.start(belief.complaint)
    number = model.index[fault]
    two = (model.first == number) | (model.second == number)
    has = np.concatenate([np.arange(model.size) == number, two, [False]])
    chances = []
    for vector in (start * has, start):
        for entry in belief.evidence:
            vector = belief.weigh(vector, entry)
        chances.append(float(vector.sum()))
    return chances[0] / chances[1] if chances[1] > 0 else 0.0
