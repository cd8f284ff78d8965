"""Order of work on a card: steps are put in one after the other, moved, and taken out again."""

from __future__ import annotations

from typing import TYPE_CHECKING

from twostroke.bench import order_of, orders, shuffled
from twostroke.lesson.errors import LessonError

if TYPE_CHECKING:
    from twostroke.lesson.bench_panel.panel import BenchPanel

SELF = "self"
"""Answer to "Order of work" of someone who puts the steps in order."""

_COVERED = {"screws": ("by_hand",), "terminal": ("terminal_out",), "routing": ("route", "guides")}


def covered(repair: str) -> set[str]:
    """Settings that an order of one's own answers already.

    Examples
    --------
    >>> sorted(covered("replace_module"))
    ['recheck', 'routing', 'screws', 'terminal']
    """
    if repair not in orders():
        return set()
    row = order_of(repair)
    found = {name for name, steps in _COVERED.items() if any(step in row.steps for step in steps)}
    return found | ({"recheck"} if row.rechecks else set())


def moved(order: list[str], way: str, step: str) -> list[str]:
    """An order after one press.

    Parameters
    ----------
    order : list of str
        Steps put in so far.
    way : str
        ``add`` at the end, ``up`` or ``down`` by one place, ``out``.
    step : str

    Examples
    --------
    >>> moved(["a", "b"], "up", "b"), moved(["a"], "add", "c"), moved(["a", "b"], "out", "a")
    (['b', 'a'], ['a', 'c'], ['b'])
    """
    rest = [name for name in order if name != step]
    if way == "out":
        return rest
    if way == "add" or step not in order:
        return [*rest, step]
    place = order.index(step) + (-1 if way == "up" else 1)
    place = min(max(place, 0), len(rest))
    return [*rest[:place], step, *rest[place:]]


def arrange(panel: BenchPanel) -> None:
    """A press in the order of work; the rest of the card stays as it was typed."""
    way, _, step = str(panel.values.get("value", "")).partition(":")
    steps = shuffled(panel.chosen, panel._here().learner)
    if step not in steps or way not in ("add", "up", "down", "out"):
        raise LessonError(f"there is no step {step!r} in this order of work")
    left = [name for name in steps if name not in panel.order]
    after = left[(left.index(step) + 1) % len(left)] if step in left and len(left) > 1 else ""
    panel.order = moved(panel.order, way, step)
    panel.typed = {name: value for name, value in panel.values.items() if name not in ("value", "action")}
    panel.draw()
    words = steps[step]
    if way == "out":
        panel.speak(f"Taken out: {words}.")
        panel.point(f"order-add-{step}")
        return
    panel.speak(f"Step {panel.order.index(step) + 1} of {len(panel.order)}: {words}.")
    if way == "add":
        panel.point(f"order-add-{after}" if after else "go")
    else:
        panel.point(f"order-{way}-{step}")


def handed_in(panel: BenchPanel) -> list[str]:
    """The order as it is to be done.

    Raises
    ------
    LessonError
        Nothing was put in.
    """
    if not panel.order:
        raise LessonError("the order of work is empty: put the steps in, the one that is done first at first")
    return list(panel.order)
