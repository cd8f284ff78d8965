"""What stands in the way of an action: covers still on, the wrong temperature, cautions not confirmed."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from twostroke.bench.heat import Heat
from twostroke.bench.situation import Situation
from twostroke.errors import TwoStrokeError
from twostroke.table import Repair, Table, Test

SAFE_TO_TOUCH = 55.0
"""Surface temperature (°C) below which a hand can stay on metal for a while; common practice, no source."""


def needed_temperature(table: Table, row: Test | Repair, opening: Iterable[str]) -> str:
    """``cold``, ``hot`` or ``any``: what an action asks of the machine, covers to open included."""
    if row.temp != "any":
        return row.temp
    return "cold" if any(table.access[name].cool for name in opening) else "any"


def cover_words(table: Table, names: list[str]) -> str:
    """Plain sentence about covers that are still on.

    Examples
    --------
    >>> from twostroke.table import load_table
    >>> cover_words(load_table(), ["top_cover"])
    'the starter or fan cover is still on: 3 min to take it off'
    """
    parts = [
        f"the {what(table, name)} is still on: {table.access[name].minutes:g} min to take it off"
        for name in names
    ]
    return ", and ".join(parts)


def what(table: Table, name: str) -> str:
    """What a cover is called, without the word that says it is off.

    Examples
    --------
    >>> from twostroke.table import load_table
    >>> what(load_table(), "carb_off")
    'carburettor'
    """
    return (table.access[name].name or name.replace("_", " ")).removesuffix(" off").removesuffix(" out")


def heat_words(table: Table, heat: Heat, wanted: str) -> str:
    """Plain sentence about a machine that is too cold or too warm."""
    if wanted == "hot":
        return (
            f"the machine is {heat.state} ({heat.engine:.0f} °C): "
            f"{table.meta.cool_to_hot_minutes:g} min to warm it (warm_up)"
        )
    return (
        f"the machine is {heat.state} ({heat.engine:.0f} °C): "
        f"{table.meta.hot_to_cool_minutes:g} min to let it cool (cool_down)"
    )


def _cool(situation: Situation) -> str | None:
    heat = situation.heat
    if heat.engine <= SAFE_TO_TOUCH:
        return None
    return f"it is {heat.engine:.0f} °C: too hot to touch, so let it cool first (cool_down)"


STATE_CHECKS: dict[str, Callable[[Situation], str | None]] = {"hot_surface": _cool}
"""Cautions that the state of the machine can contradict, whatever is confirmed."""


def confirmed(given: object, wanted: list[str], table: Table) -> list[str]:
    """Cautions that the learner confirms, out of those that belong to the action.

    Parameters
    ----------
    given : None, str, or list of str
        Identifiers of cautions, or ``"all"``.

    Raises
    ------
    TwoStrokeError
        A name that is no caution of the table.
    """
    if given is None or given is False:
        return []
    names = (
        [given] if isinstance(given, str) else list(given) if isinstance(given, Iterable) else [str(given)]
    )
    if names == ["all"]:
        return list(wanted)
    for name in names:
        if name not in table.hazards:
            raise TwoStrokeError(
                f"confirm: {name!r} is no caution of this table; "
                f"this action asks for {', '.join(wanted) or 'none'}"
            )
    return [name for name in wanted if name in names]


def caution_words(table: Table, names: Iterable[str]) -> str:
    """The cautions in full, one sentence group each."""
    return " ".join(
        f"{table.hazards[name].name.capitalize()}: {table.hazards[name].caution}" for name in names
    )
