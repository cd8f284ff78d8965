"""The list to go through before a machine is handed back, read from what was done."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from twostroke.bench.reading import Step
from twostroke.bench.repairing import GAP_REPAIRS
from twostroke.bench.work_order import rechecked
from twostroke.table import UNDONE, Table


@dataclass(frozen=True)
class Item:
    """One line of the list.

    Attributes
    ----------
    words : str
        What must be done.
    done : bool
        Whether the route shows it.
    """

    words: str
    done: bool


_CONDITIONS = {
    "cold": "started cold, run, stopped, started again",
    "hot": "restarted hot, run, stopped, started again",
    "shake": "run while lead and wires are moved",
}


def verify_list(table: Table, complaint: str, route: Sequence[Step]) -> list[Item]:
    """What is still to be done before hand-back, after the last repair.

    Parameters
    ----------
    table : Table
    complaint : str
        Kind of complaint: it decides in which conditions the machine must run.
    route : sequence of Step

    Returns
    -------
    list of Item

    Examples
    --------
    >>> from twostroke.bench import Bench
    >>> bench = Bench("air_gap_auger", "Anna")
    >>> _ = bench.do("set_air_gap", prepare=True, confirm="all", recheck=True)
    >>> [item.done for item in verify_list(bench.table, "fast_pull", bench.route)]
    [True, True, False, False]
    """
    repairs = [
        number for number, step in enumerate(route) if step.action in table.repairs and step.result != UNDONE
    ]
    last = repairs[-1] if repairs else -1
    items = []
    gaps = [number for number in repairs if route[number].action in GAP_REPAIRS]
    if gaps:
        items.append(Item("air gap measured again after tightening", _measured(route, gaps[-1])))
    off = [step.settings.get("state", "off") for step in route if step.action == "stop_lead"]
    items.append(Item("stop lead on the module", not off or off[-1] == "on"))
    runs: set[str] = set()
    ran = False
    for step in route[last + 1 :]:
        if step.action == "verify":
            ran = step.result == "runs"
            runs = runs | set(step.conditions) if ran else set()
    asked = table.verify_conditions(complaint)
    items += [Item(_CONDITIONS[condition], condition in runs) for condition in asked]
    if not asked:
        items.append(Item("started, run, stopped, started again", ran))
    switch_on = not off or off[-1] == "on"
    items.append(Item("the stop switch really stops it", ran and switch_on))
    return items


def _measured(route: Sequence[Step], number: int) -> bool:
    """Whether the gap was measured after the repair at `number` of the route, or as a part of it."""
    step = route[number]
    order = step.settings.get("order")
    if order is not None and rechecked(step.action, order):
        return True
    later = (after.action in ("air_gap", "legs_gap") for after in route[number + 1 :])
    return (order is None and step.settings.get("recheck") is True) or any(later)
