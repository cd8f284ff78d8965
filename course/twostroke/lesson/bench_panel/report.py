"""After the job: your route beside the best one, what each step told, the score, what to practise next."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from twostroke.bench import Bench, breaches
from twostroke.isolation import score_route
from twostroke.isolation.follow import Follower, fault_name
from twostroke.lesson import tables
from twostroke.lesson.bench_panel.job import BenchJob, Job
from twostroke.lesson.bench_panel.steps import said, title_of, told
from twostroke.scenarios import advised
from twostroke.table import TableError

_MUCH = 8.0
_LESSONS = {
    "air gap": "05", "magnets, key and timing": "05", "module and windings": "06",
    "stop circuit and ground": "07", "plug and lead": "07", "compression and sealing": "08",
    "fuel, air and exhaust": "09", "spark testing": "04", "isolation logic": "10",
}  # fmt: skip
"""Competencies that a fault can belong to, and the lesson of each; the general ones come last."""
_SYSTEMS = {
    "ignition": "spark testing", "compression": "compression and sealing",
    **dict.fromkeys(("fuel", "air", "exhaust", "cooling"), "fuel, air and exhaust"),
}  # fmt: skip
REFLECTION = "Which step told you most for its minutes, and which could you have left out?"


@dataclass(frozen=True)
class Leg:
    """One step of a route on the time axis.

    Attributes
    ----------
    title : str
    kind : str
        ``test``, ``repair``, ``verify`` or ``other``.
    start, minutes, money : float
    words : str
    bars : list of (str, float)
        What was still possible after it, likeliest first.
    remark : str
        What the step told.
    """

    title: str
    kind: str
    start: float
    minutes: float
    money: float
    words: str
    bars: list[tuple[str, float]]
    remark: str


def kind_of(job: Job, action: str) -> str:
    """Kind of an action for the time axis."""
    table = job.session.table
    if action in table.tests:
        return "test"
    return "repair" if action in table.repairs else "verify" if action == "verify" else "other"


def legs(job: Job, steps: Iterable[Any], follower: Follower) -> list[Leg]:
    """Steps of a route with what each left possible."""
    found = []
    for number, step in enumerate(steps):
        title, kind = title_of(job, step.action), kind_of(job, step.action)
        remark = told(job, step.action, follower.remarks[number])
        bars = bars_after(job, follower, number + 1)
        start = step.time - step.minutes
        words = "" if step.action in ("hand_back", "hand_on") else said(title, step.words)
        found.append(Leg(title, kind, start, step.minutes, step.money, words, bars, remark))
    return found


def bars_after(job: Job, follower: Follower, step: int) -> list[tuple[str, float]]:
    """What was still possible after a step, with the chance that nothing is wrong any more."""
    table = job.session.table
    bars = [(fault_name(table, fault), chance) for fault, chance in follower.likeliest(4, step)]
    cured = follower.cured[step]
    return [("nothing wrong any more", cured), *bars[:3]] if cured >= 0.005 else bars


def best_route(job: BenchJob) -> tuple[Bench, Follower]:
    """The planner's own way through the same machine, with the same luck; worked out once for a job."""
    if job.best is None:
        bench = advised(job.fresh()).bench
        job.best = bench, Follower(bench.table, job.complaint_kind, bench.route)
    found: tuple[Bench, Follower] = job.best
    return found


def score(job: Job) -> None:
    """Work out the score of a closed job and keep it with the job."""
    if not isinstance(job, BenchJob):
        return
    try:
        done = score_route(
            job.session.table, job.complaint_kind, job.session.route, truth=job.session.outcome.truth
        )
    except TableError as error:
        job.scored = {"trouble": str(error)}
    else:
        job.scored = {
            "score": done.score,
            "adjusted": done.adjusted_cost,
            "plan": done.reference.plan if done.reference else None,
            "zero": done.reference.zero if done.reference else None,
            "passed": done.passed,
            "safe": done.safe,
            "verified": done.verified,
            "confidence": done.confidence,
            "premature": done.premature_parts,
            "summary": list(done.summary),
            "lost": [remark.lost for remark in done.feedback],
        }
    job.save()


def verdict(job: Job) -> str:
    """The score in one sentence."""
    scored = job.scored or {}
    if "trouble" in scored:
        return f"No score: {scored['trouble']}"
    if not scored:
        return ""
    passed = "passed" if scored["passed"] else "not passed"
    return f"Score {scored['score']:.0f} of 100, {passed}."


def how_scored(job: Job) -> str:
    """Where the score comes from, in numbers; empty where there is none."""
    scored = job.scored or {}
    if scored.get("plan") is None:
        return ""
    return (
        f"How it comes about: with luck taken out, your route costs {scored['adjusted']:.0f}. "
        f"The recommended plan costs {scored['plan']:.0f} on average with this complaint (100 points); "
        f"{scored['zero']:.0f} earns none. What counts is the kind of complaint and your readings: "
        "a hunch from the owner's words that came off is luck here, until a test backs it."
    )


def right(job: BenchJob) -> bool:
    """Whether the stated diagnosis is among what was wrong."""
    return job.session.outcome.diagnosis in job.session.outcome.truth


def practise(job: Job) -> list[tuple[str, str, str]]:
    """What to practise next: (competency, lesson number, why), the most pressing first."""
    if not isinstance(job, BenchJob) or job.session.outcome is None:
        return []
    outcome, table = job.session.outcome, job.session.table
    scored = job.scored or {}
    out: list[tuple[str, str, str]] = []
    if not outcome.safe:
        missed = sorted({name for step in job.session.route for name in step.cautions_missed})
        names = ", ".join(table.hazards[name].name for name in missed)
        out.append(("safety", "00", f"not confirmed at the step: {names}"))
    if not outcome.verified and not outcome.handed_on:
        asked = table.verify_conditions(job.complaint_kind)
        many = len(asked) > 1 or "shake" in asked
        out.append(
            ("intermittent faults", "11", "the verify run did not cover the complaint's own condition")
            if many
            else ("repair and verify", "12", "no verify run passed after the last repair")
        )
    orders = [(step.action, step.settings["order"]) for step in job.session.route if "order" in step.settings]
    if any(breaches(repair, order) for repair, order in orders):
        out.append(("repair and verify", "12", "the order of work in a repair was unsound"))
    if not right(job):
        missed_fault = outcome.truth[0]
        competency = _belongs_to(job, table.faults[missed_fault].sys)
        reason = f"the fault was elsewhere: {fault_name(table, missed_fault)}"
        out.append((competency, _LESSONS[competency], reason))
    if scored.get("premature", 0) > 0:
        out.append(("isolation logic", "10", "parts were bought before they were likely to cure"))
    else:
        lost = [
            0.0 if step.action == "verify" else share  # proving is never held against anyone
            for step, share in zip(job.session.route, scored.get("lost", []), strict=False)
        ]
        if max(lost, default=0.0) > (_MUCH if scored.get("passed") else 1.0):
            number = lost.index(max(lost)) + 1
            out.append(("isolation logic", "10", f"step {number} cost much for what it could tell"))
    if len(job.hints) > 2:
        out.append(
            ("isolation logic", "10", f"{len(job.hints)} hints were taken; try the next one with fewer")
        )
    seen: dict[str, tuple[str, str, str]] = {}
    for row in out:
        seen.setdefault(row[0], row)
    return list(seen.values())


def _belongs_to(job: BenchJob, system: str) -> str:
    """Competency of the fault that was missed: what the scenario trains, else what its system asks for."""
    special = list(_LESSONS)[:-2]
    trained = [name for name in job.session.scenario.competencies if name in special]
    return trained[0] if trained else _SYSTEMS.get(system, "isolation logic")


@lru_cache(maxsize=32)
def module_title(number: str) -> str:
    """Title of a lesson of the course."""
    return tables.module(number).title


def reflection(job: Job) -> str:
    """The question at the end: the scenario's own, or one that fits any job."""
    return (job.session.scenario.closing if isinstance(job, BenchJob) else "") or REFLECTION
