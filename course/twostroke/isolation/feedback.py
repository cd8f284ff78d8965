"""What is said about each step: computed from the belief, naming the evidence, without blame or praise."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from twostroke.isolation.belief import Belief
from twostroke.isolation.lookahead import HAND_BACK, HAND_ON, VERIFY
from twostroke.isolation.planner import Planner
from twostroke.isolation.route import RUNS, Step
from twostroke.table import OTHER, Table

if TYPE_CHECKING:
    from twostroke.isolation.walk import Walk

ALIKE = 0.1
CERTAIN = 0.9
LIKELIEST = 4
SPEAKS_FOR = 1.5


@dataclass(frozen=True)
class Moment:
    """A belief with its expected cost from there on."""

    belief: Belief
    value: float


class Remark(str):
    """What is said about one step; a text that carries the step's numbers.

    Attributes
    ----------
    action : str
    cost : float
        Money for the step.
    lost : float
        Money that the step gave away against the best plan from there; near zero for a good step.
    left : float
        Expected money still to spend after it.
    missed : tuple of str
        Hazards whose precaution was not confirmed.
    """

    action: str
    cost: float
    lost: float
    left: float
    missed: tuple[str, ...]

    def __new__(
        cls, text: str, action: str, cost: float, lost: float, left: float, missed: tuple[str, ...] = ()
    ) -> Remark:
        out = super().__new__(cls, text)
        out.action, out.cost, out.lost, out.left, out.missed = action, cost, lost, left, missed
        return out


def percent(chance: float) -> str:
    """A chance in words that do not claim more than is known.

    Examples
    --------
    >>> percent(0.172), percent(0.0004), percent(0.9996)
    ('17 %', 'under 1 %', 'over 99 %')
    """
    if chance < 0.01:
        return "under 1 %"
    if chance > 0.99:
        return "over 99 %"
    return f"{100 * chance:.0f} %"


def listed(words: list[str]) -> str:
    """Words as a spoken list.

    Examples
    --------
    >>> listed(["plug", "boot", "lead"])
    'plug, boot and lead'
    """
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def likeliest(belief: Belief, count: int = LIKELIEST) -> list[tuple[str, float]]:
    """The likeliest faults and their chances, likeliest first."""
    chances = belief.probabilities()
    return sorted(chances.items(), key=lambda item: (-item[1], item[0]))[:count]


def remark(
    table: Table,
    step: Step,
    number: int,
    before: Moment,
    after: Moment,
    own: float,
    gain: float,
    missed: list[str],
) -> Remark:
    """The remark about one step.

    Parameters
    ----------
    table : Table
    step : Step
    number : int
        Counted from 1.
    before, after : Moment
    own, gain : float
        Money for the step, and money lost against the best plan.
    missed : list of str
        Hazards whose precaution was not confirmed.
    """
    sentences = {
        "test": _test,
        "repair": _repair,
        "attempt": _attempt,
        "verify": _verify,
        "hand_back": _hand_back,
        "hand_on": _hand_on,
        "open": _open,
        "move": _move,
    }[step.kind](table, step, before.belief, after.belief)
    sentences += [_warning(table, hazard) for hazard in missed]
    text = f"{number}. " + " ".join(sentences)
    return Remark(text, step.action, own, gain, after.value, tuple(missed))


def _warning(table: Table, hazard: str) -> str:
    row = table.hazards.get(hazard)
    caution = f"{row.name or hazard.replace('_', ' ')}: {row.caution}" if row else "a precaution"
    return f"Not confirmed before this step – {caution} The step earns nothing and the job is not passed."


def _name(table: Table, fault: str) -> str:
    return table.faults[fault].name


def _test(table: Table, step: Step, before: Belief, after: Belief) -> list[str]:
    test = table.tests[step.action]
    title = _capital(test.name or step.action.replace("_", " "))
    if step.result is None:
        return [f"{title}: nothing was read, so nothing was learned."]
    condition = after.evidence[-1].condition
    out = [f"{title} ({_felt(condition)}): {test.say(step.result)}."]
    chance = before.foretell(step.action, condition)[step.result]
    if (step.action, condition) in before.repeated:
        out.append("It was made before and nothing had changed, so it mostly repeats itself.")
    if chance >= CERTAIN:
        out.append(f"This result was {percent(chance)} certain before you looked.")
    found = likeliest(after, 1)[0][0]
    out += splits(table, before, step.action, str(condition), found)
    out.append(_moved(table, before, after))
    return out


def _felt(condition: str | None) -> str:
    return {"shake": "wires moved"}.get(str(condition), str(condition))


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def splits(table: Table, belief: Belief, test: str, condition: str, found: str = OTHER) -> list[str]:
    """Which of the likeliest faults a test cannot tell apart, and which it can.

    `found` is the fault that the reading made the likeliest: it is looked at beside those.

    Notes
    -----
    Two faults count as not told apart when their results differ by less than 0.1 in total variation. A test
    is never called useless while it splits another pair of the four likeliest.
    """
    names = [fault for fault, chance in likeliest(belief) if chance >= 0.01 and fault != OTHER]
    names += [found] if found not in (OTHER, *names) else []
    rows = belief.model.likelihood(test, condition)
    alike: list[tuple[str, str]] = []
    apart: list[tuple[str, str]] = []
    for number, one in enumerate(names):
        for two in names[number + 1 :]:
            difference = np.abs(rows[belief.model.index[one]] - rows[belief.model.index[two]]).sum() / 2
            (alike if difference < ALIKE else apart).append((one, two))
    if not alike:
        return []
    one, two = alike[0]
    text = f"It could not tell “{_name(table, one)}” from “{_name(table, two)}”"
    if apart:
        one, two = apart[0]
        return [f"{text}, but it can tell “{_name(table, one)}” from “{_name(table, two)}”."]
    return [f"{text}, nor any other two of the likeliest."] if len(alike) > 1 else [text + "."]


def _moved(table: Table, before: Belief, after: Belief) -> str:
    """What the reading changed: the likeliest now, and what is as good as excluded."""
    was, now = before.probabilities(), after.probabilities()
    first, chance = likeliest(after, 1)[0]
    text = f"Likeliest now: “{_name(table, first)}”, {percent(chance)} (before: {percent(was[first])})."
    gone = sorted((f for f in now if was[f] >= 0.04 and now[f] < 0.01), key=lambda f: -was[f])
    if gone:
        text += f" As good as excluded by it: {listed([_name(table, fault) for fault in gone[:3]])}."
    return text


def _repair(table: Table, step: Step, before: Belief, after: Belief) -> list[str]:
    repair = table.repairs[step.action]
    chance = after.cured - before.cured if step.result is None else _chance(before, step.action)
    title = _capital(repair.name or step.action.replace("_", " "))
    out = [f"{title}: it had a {percent(chance)} chance of curing."]
    if repair.part:
        part = repair.part_name or "part"
        if repair.trial:
            out.append(f"The {part} ({repair.part:g}) goes back in the drawer if nothing changes.")
        elif chance < 0.5:
            out.append(f"The {part} costs {repair.part:g}, spent before it was more likely than not to cure.")
        else:
            out.append(f"The {part} costs {repair.part:g}.")
    out += _sole_ground(table, step.action, before)
    if step.result is not None:
        out += _verify(table, step, before, after)
    return out


def _attempt(table: Table, step: Step, before: Belief, after: Belief) -> list[str]:
    title = _capital(table.repairs[step.action].name or step.action.replace("_", " "))
    return [
        f"{title}: begun, and in this order it could not take. Everything is as it was; the time is gone."
    ]


def _sole_ground(table: Table, repair: str, belief: Belief) -> list[str]:
    """A caution when a part is condemned by readings alone that must not stand alone."""
    cured = [belief.model.index[fault] for fault in table.repairs[repair].fixes]
    alone, backed = "", False
    for entry in belief.evidence:
        if entry.kind != "test":
            continue
        column = belief.model.column(entry.action, str(entry.result), str(entry.condition))
        if column[cured].max() < SPEAKS_FOR * column[belief.model.fixed]:
            continue
        if table.tests[entry.action].not_alone:
            alone = table.tests[entry.action].name or entry.action
        else:
            backed = True
    if not alone or backed:
        return []
    return [f"The only ground for it was “{alone}”, and that reading is never enough by itself."]


def _chance(belief: Belief, repair: str) -> float:
    return float(belief.model.after_repair(belief.vector, repair)[belief.model.fixed]) - belief.cured


def _verify(table: Table, step: Step, before: Belief, after: Belief) -> list[str]:
    if step.result is None:
        return ["Verify run: no outcome was noted, so it proves nothing."]
    run = list(after.evidence[-1].conditions)
    where = listed([_felt(condition) for condition in run])
    if step.result == RUNS:
        out = [f"Verify run ({where}): it runs. Cured, by all that was seen: {percent(after.cured)}."]
        proven = [c for entry in after.evidence if entry.kind == "verify" for c in entry.conditions]
        asked = [c for c in table.verify_conditions(after.complaint) if c not in proven]
        if asked:
            out.append(f"The complaint asks for a run {listed([_felt(c) for c in asked])} as well.")
        return out
    first, chance = likeliest(after, 1)[0]
    return [f"Verify run ({where}): not cured. Likeliest now: “{_name(table, first)}”, {percent(chance)}."]


def _hand_back(table: Table, step: Step, before: Belief, after: Belief) -> list[str]:
    out = [f"Handed back; cured, by all that was seen: {percent(before.cured)}."]
    if step.fault is not None and step.confidence is not None:
        out.append(f"Stated: “{_name(table, step.fault)}”, {percent(step.confidence)} sure.")
    return out


def _hand_on(table: Table, step: Step, before: Belief, after: Belief) -> list[str]:
    first, chance = likeliest(before, 1)[0]
    price = f"{table.meta.escalate_cost:g}"
    return [f"Handed on for {price}. Likeliest then: “{_name(table, first)}”, {percent(chance)}."]


def _open(table: Table, step: Step, before: Belief, after: Belief) -> list[str]:
    return [f"{_capital(table.access[step.action].name or step.action)}."]


def _move(table: Table, step: Step, before: Belief, after: Belief) -> list[str]:
    state = "hot" if after.place.temperature == "hot" else "cold"
    return [f"{_capital(step.action.replace('_', ' '))}: the machine is {state}."]


def close(walk: Walk, verified: bool) -> list[str]:
    """What is said when the job is over; here, and only here, a better step is named."""
    table, out = walk.table, []
    if not walk.safe:
        missed = list(dict.fromkeys(hazard for entry in walk.feedback for hazard in entry.missed))
        names = [(table.hazards[h].name or h.replace("_", " ")) if h in table.hazards else h for h in missed]
        out.append(
            f"Not passed: a precaution was not confirmed ({listed(names)}). Nothing later makes up for that."
        )
    if walk.closed == HAND_ON:
        out.append("The job was handed on, so no repair is proven.")
    elif not verified:
        asked = [_felt(c) for c in table.verify_conditions(walk.complaint)]
        where = f" ({listed(asked)})" if asked else ""
        out.append(f"No verify run in the complaint's condition{where}: the score stops at 60.")
    if walk.premature:
        out.append(
            f"Parts fitted on less than an even chance: {walk.premature:g}. It is in the cost already."
        )
    out += _better(walk)
    return out


def _better(walk: Walk) -> list[str]:
    """The step that gave most away, with what the planner would have done there.

    A verify run is left out: proving a repair is part of the job, whatever it is expected to tell.
    """
    if not walk.feedback:
        return ["Nothing was done."]
    numbers = [n for n, remark in enumerate(walk.feedback) if remark.action != VERIFY]
    if not numbers:
        return ["Nothing was done but verify runs."]
    number = max(numbers, key=lambda n: walk.feedback[n].lost)
    worst = walk.feedback[number]
    if worst.lost < 1.0:
        return ["No step gave away more than 1 against the planner's way."]
    best = Planner(walk.table).rank(walk.moments[number].belief)[0]
    what = {VERIFY: "the verify run", HAND_BACK: "handing back", HAND_ON: "handing on"}.get(best.action)
    if what is None:
        row = walk.table.action(best.action)
        what = f"“{row.name or best.action}”"
    if best.action == worst.action:
        return [
            f"Step {number + 1} cost {worst.lost:.0f} more than the planner expects of it in the long run."
        ]
    return [
        f"Most was given away at step {number + 1} (about {worst.lost:.0f}): "
        f"{what} would have been expected to save that much there."
    ]
