"""One step before it is done: what it costs, what stands in its way, and which cautions go with it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

from twostroke.bench import Item, OwnMachine, verify_list
from twostroke.bench.guard import what
from twostroke.lesson.bench_panel.fields import Field, fields_of
from twostroke.lesson.bench_panel.job import Job
from twostroke.table import UNDONE, Repair, Test

FELT = {"cold": "cold", "hot": "hot", "shake": "wires moved"}
_INSIDE = re.compile(r"\s*\([a-z]+(?:_[a-z]+)+\)")
_CAN_BE_PREPARED = re.compile(r"still on: \d|min to warm it|min to let it cool")


@dataclass(frozen=True)
class Plan:
    """A step as it would be done now.

    Attributes
    ----------
    action, title, how : str
    minutes : float
        Step and everything before it.
    money : float
        For parts.
    before : list of str
        Covers that come off and warming or cooling that is needed, with minutes.
    note : str
        What goes back on for a run; empty where nothing does.
    never : str
        Why it cannot be done at all now; empty where it can.
    cautions : list of (id, name, text)
    fields : list of Field
    """

    action: str
    title: str
    how: str
    tool: str
    minutes: float
    money: float
    before: list[str]
    note: str
    never: str
    cautions: list[tuple[str, str, str]]
    fields: list[Field]

    @property
    def price(self) -> str:
        """Minutes and money in short, such as ``5 min, part costs 9``."""
        part = f", part costs {self.money:g}" if self.money else ""
        return f"{self.minutes:g} min{part}"


def state_of(step: Any) -> str:
    """In which state the machine was at a step, or in which states one after the other."""
    return ", ".join(FELT[condition] for condition in step.conditions)


def title_of(job: Job, action: str) -> str:
    """Name of an action as the beginning of a sentence."""
    if action in ("hand_back", "hand_on"):
        return "Machine handed back" if action == "hand_back" else "Job handed on"
    name = job.session.actions().get(action, action.replace("_", " "))
    return f"{name[:1].upper()}{name[1:]}"


def checked(job: Job) -> list[Item]:
    """The list before hand-back; its first line is the repair itself."""
    table, route = job.session.table, job.session.route
    repaired = any(step.action in table.repairs and step.result != UNDONE for step in route)
    return [Item("a repair made", repaired), *verify_list(table, job.complaint_kind, route)]


def said(title: str, words: str) -> str:
    """What was seen, without the name of the step that stands beside it.

    Examples
    --------
    >>> said("Tighten the plug", "Tighten the plug: done.")
    'Done.'
    """
    rest = words.removeprefix(f"{title}: ")
    return f"{rest[:1].upper()}{rest[1:]}"


def told(job: Job, action: str, remark: str) -> str:
    """What a step told, without the reading that stands beside it."""
    title = title_of(job, action)
    remark = said(title, remark)
    if action in job.session.table.tests and remark.startswith(title):
        return remark.partition(". ")[2]
    return remark


def plan(job: Job, action: str, given: dict[str, Any] | None = None) -> Plan:
    """How a step would go on the machine as it stands.

    Parameters
    ----------
    job : Job
    action : str
    given : dict, optional
        Settings chosen already; some of them bring cautions of their own, or fields.
    """
    session, table = job.session, job.session.table
    row = table.tests.get(action) or table.repairs.get(action)
    own = isinstance(session, OwnMachine)
    chosen = dict(given or {})
    way = str(chosen.pop("order_way", ""))
    opening = _opening(job, action)
    before = [f"{table.access[name].name} ({table.access[name].minutes:g} min)" for name in opening]
    minutes = sum(table.access[name].minutes for name in opening) + (row.minutes if row else 0.0)
    if action in table.access:
        before = before[:-1]
    never = ""
    if not own:
        blocked, names = session.offer(action, **chosen)
        extra, words = _warmth(job, blocked)
        minutes += extra
        before += words
        never = _never(blocked)
        if not session.reminders:
            names = list(table.hazards)
    else:
        names = session.offer(action)[1]
    if action == "verify":
        extra, words = (table.meta.verify_minutes, []) if own else _runs(job, chosen.get("condition"))
        minutes += extra
        before += words
    if row is None and action in ("warm_up", "cool_down"):
        usual = {"warm_up": table.meta.cool_to_hot_minutes,
                 "cool_down": table.meta.hot_to_cool_minutes}  # fmt: skip
        minutes += usual[action]
    tool = table.instruments.get(row.instrument or "", "") if isinstance(row, Test) else ""
    return Plan(
        action, title_of(job, action), getattr(row, "how", "") or getattr(row, "note", ""), tool, minutes,
        row.part if isinstance(row, Repair) else 0.0, before, _back_on(job, names), never,
        [(name, table.hazards[name].name, table.hazards[name].caution) for name in names],
        [] if own else fields_of(session, action, way),
    )  # fmt: skip


def _opening(job: Job, action: str) -> list[str]:
    table, opened = job.session.table, set(job.session.opened)
    row = table.tests.get(action) or table.repairs.get(action)
    wanted = [action] if action in table.access else list(row.access) if row is not None else []
    found: list[str] = table.opening(wanted, opened)
    return found


def _back_on(job: Job, cautions: list[str]) -> str:
    """What is said of covers that are off when the engine is to run."""
    opened = job.session.opened
    if "exhaust_gas" not in cautions or not opened:
        return ""
    table = job.session.table
    names = " and ".join(what(table, name) for name in opened)
    return (
        f"What is off goes back on for it ({names}), and comes off again if you go on; "
        "those minutes are counted already."
    )


def _runs(job: Job, condition: str | None) -> tuple[float, list[str]]:
    """Minutes of a verify run in all conditions asked, and the warming or cooling that is in them."""
    session, meta = job.session, job.session.table.meta
    state = session.condition
    asked = [condition] if condition else session.table.verify_conditions(job.complaint_kind) or [state]
    minutes, words = meta.verify_minutes * len(asked), []
    for wanted in sorted(asked, key=lambda one: (one == "shake", one != state)):
        if wanted in ("shake", state):
            continue
        hot = wanted == "hot"
        extra = meta.cool_to_hot_minutes if hot else meta.hot_to_cool_minutes
        minutes, state = minutes + extra, wanted
        words.append(f"{'run it until it is hot' if hot else 'let it cool'} ({extra:g} min)")
    return minutes, words


def _warmth(job: Job, blocked: str | None) -> tuple[float, list[str]]:
    """Minutes for warming or cooling that the step needs first."""
    meta = job.session.table.meta
    if blocked and "min to warm it" in blocked:
        return meta.cool_to_hot_minutes, [f"run it until it is hot ({meta.cool_to_hot_minutes:g} min)"]
    if blocked and "min to let it cool" in blocked:
        return meta.hot_to_cool_minutes, [f"let it cool ({meta.hot_to_cool_minutes:g} min)"]
    return 0.0, []


def _never(blocked: str | None) -> str:
    if not blocked or _CAN_BE_PREPARED.search(blocked):
        return ""
    text = _INSIDE.sub("", blocked)
    return f"{text[:1].upper()}{text[1:]}."


def clean(words: str) -> str:
    """What the bench says, without the parts that only concern those who write code.

    Examples
    --------
    >>> clean("It is 90 °C. Confirm with confirm=['hot_surface'].")
    'It is 90 °C.'
    """
    words = re.sub(r"\s*Confirm with confirm=\[.*?\]\.", "", words)
    words = re.sub(r"\s*Say prepare=True[^.]*\.", "", words)
    return _INSIDE.sub("", words)
