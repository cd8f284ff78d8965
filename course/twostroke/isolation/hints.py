"""Three steps of help: which system, what kind of test, which test. Worked out by the planner."""

from __future__ import annotations

from dataclasses import dataclass

from twostroke.isolation.belief import Belief
from twostroke.isolation.feedback import splits
from twostroke.isolation.follow import Follower
from twostroke.isolation.planner import Advice
from twostroke.table import Repair, Table, Test

LEVELS = ("which system", "what kind of step", "which step")


@dataclass(frozen=True)
class Hint:
    """One hint: after which step, how far it goes (1 to 3), and its words."""

    after: int
    level: int
    text: str


def hint(follower: Follower, after: int, level: int) -> Hint:
    """The hint of one level for the step that the planner would do now.

    Parameters
    ----------
    follower : Follower
    after : int
        Steps done so far.
    level : int
        1 which system, 2 what kind of step, 3 which step.
    """
    best = follower.advice()[0]
    words = (_system, _kind, _which)[level - 1]
    return Hint(after, level, words(follower, best))


def _system(follower: Follower, best: Advice) -> str:
    if best.kind not in ("test", "repair"):
        return "No system is in question now: think of how a job ends."
    systems = follower.table.systems
    return f"Think of {systems.get(system_of(follower.table, follower.belief, best), 'the whole machine')}."


def system_of(table: Table, belief: Belief, best: Advice) -> str:
    """System whose faults an action tells apart or cures, weighed by how likely they are now."""
    row = table.action(best.action)
    touched = row.hits if isinstance(row, Test) else row.fixes
    chances = belief.probabilities()
    weights: dict[str, float] = {}
    for fault in touched:
        system = table.faults[fault].sys
        weights[system] = weights.get(system, 0.0) + chances[fault]
    return max(weights, key=lambda name: weights[name]) if weights else ""


def _kind(follower: Follower, best: Advice) -> str:
    table = follower.table
    if best.kind == "test":
        test = table.tests[best.action]
        means = table.instruments.get(test.instrument or "", "your senses")
        return f"A test would tell most for its time now. It uses: {means}. About {best.minutes:.0f} min."
    if best.kind == "repair":
        row = table.repairs[best.action]
        part = f" It needs a {row.part_name}." if row.part_name else " It needs no part."
        return f"Trying a repair is expected to cost less now than more testing.{part}"
    if best.kind == "verify":
        return "A repair has been made: prove it before anything else."
    if best.kind == "hand_back":
        return "Nothing more is to be found out at a price worth paying."
    return "What is left costs more to find here than to hand on."


def _which(follower: Follower, best: Advice) -> str:
    table = follower.table
    if best.kind == "verify":
        asked = [
            {"cold": "cold", "hot": "hot", "shake": "while wires are moved"}[condition]
            for condition in table.verify_conditions(follower.complaint)
        ]
        return f"Make the verify run{' (' + ' and '.join(asked) + ')' if asked else ''}."
    if best.kind in ("hand_back", "hand_on"):
        return "Hand the machine back." if best.kind == "hand_back" else "Hand the job on."
    return f"{title(table.action(best.action), best.action)}. {why(follower, best)}".strip()


def title(row: Test | Repair, action: str) -> str:
    """Name of an action as the beginning of a sentence."""
    name = row.name or action.replace("_", " ")
    return name[:1].upper() + name[1:]


def why(follower: Follower, best: Advice) -> str:
    """Why the planner would do this now, in one sentence or two."""
    if best.kind == "repair":
        return f"It has a {100 * best.chance:.0f} % chance of curing the machine."
    if best.kind != "test":
        return ""
    test = follower.table.tests[best.action]
    condition = test.condition(follower.belief.place.temperature)
    told = splits(follower.table, follower.belief, best.action, condition)
    foretold = follower.belief.foretell(best.action)
    first = max(foretold, key=lambda name: foretold[name])
    likely = f"Most likely result: {test.say(first)} ({100 * foretold[first]:.0f} %)."
    can = [piece for piece in told if "can tell" in piece]
    return " ".join([likely, *(piece[:1].upper() + piece[1:] for piece in can)])
