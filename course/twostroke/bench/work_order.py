"""Order of work in a repair: what must come before what, and what comes of it when it does not."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from pathlib import Path
from typing import Annotated, Self

import networkx as nx
from pydantic import Field, RootModel, model_validator

from twostroke.bench.seeds import Draws
from twostroke.errors import TwoStrokeError
from twostroke.table.model import Identifier, Minutes, Money, Part
from twostroke.table.reader import build, read_yaml


class Effect(Part):
    """What an unsound order does to the engine, or costs; see ``data/work_orders.yaml``."""

    undone: bool = False
    fault: Identifier | None = None
    gap: Annotated[float, Field(ge=0.0, le=3.0)] = 0.0
    minutes: Minutes = 0.0
    money: Money = 0.0
    thread: bool = False


class WorkOrder(Part):
    """Steps of one repair with their precedence.

    Attributes
    ----------
    steps : dict
        Identifier to plain words.
    order : list of (first, then, why, effect)
        Precedence constraints.
    left_out : dict
        Step to (why, effect) when it is not done at all.
    rechecks : list of str
        Two steps: the second after the first measures the gap again after tightening.
    """

    steps: Annotated[dict[Identifier, str], Field(min_length=2)]
    order: list[tuple[Identifier, Identifier, str, Effect]]
    left_out: dict[Identifier, tuple[str, Effect]] = Field(default_factory=dict)
    rechecks: list[Identifier] = Field(default_factory=list)

    @model_validator(mode="after")
    def _holds(self) -> Self:
        named = {step for row in self.order for step in row[:2]} | {*self.left_out, *self.rechecks}
        strange = sorted(named - set(self.steps))
        if strange:
            raise ValueError(f"{', '.join(strange)}: no step of this repair; correct the name")
        if not nx.is_directed_acyclic_graph(self.graph()):
            raise ValueError("the order runs in a circle; take one of its rows out")
        return self

    def graph(self) -> nx.DiGraph:
        """Precedence as a graph."""
        graph = nx.DiGraph()
        graph.add_nodes_from(self.steps)
        graph.add_edges_from((first, then) for first, then, *_ in self.order)
        return graph


class _Book(RootModel[dict[Identifier, WorkOrder]]):
    """All work orders."""


@dataclass(frozen=True)
class Breach:
    """One thing that went wrong with the order.

    Attributes
    ----------
    first, then : str
        Steps in the order in which they should have been; `then` is empty for a step that was left out.
    why : str
        What came of it.
    effect : Effect
    """

    first: str
    then: str
    why: str
    effect: Effect


@lru_cache(maxsize=1)
def orders() -> dict[str, WorkOrder]:
    """Work orders of all repairs that have one, by repair.

    Examples
    --------
    >>> "set_air_gap" in orders()
    True
    """
    path = Path(str(files("twostroke") / "data" / "work_orders.yaml"))
    content, lines = read_yaml(path)
    for row in content.values():
        row["order"] = [tuple(each) for each in row["order"]]
        row["left_out"] = {step: tuple(each) for step, each in row.get("left_out", {}).items()}
    return build(_Book, content, lines, path.name).root


def order_of(repair: str) -> WorkOrder:
    """Work order of a repair.

    Raises
    ------
    TwoStrokeError
        The repair has none.
    """
    if repair not in orders():
        raise TwoStrokeError(
            f"{repair!r} has no order of work to practise: choose one of {', '.join(orders())}"
        )
    return orders()[repair]


def shuffled(repair: str, learner: str) -> dict[str, str]:
    """Steps of a repair with their words, in an order that tells nothing.

    Examples
    --------
    >>> sorted(shuffled("swap_plug", "Anna")) == sorted(order_of("swap_plug").steps)
    True
    """
    steps = list(order_of(repair).steps.items())
    keys = Draws("order of work", repair, learner).uniform(len(steps))
    return dict(step for _, step in sorted(zip(keys.tolist(), steps, strict=True)))


def read_order(repair: str, given: object) -> list[str]:
    """An order as handed in, checked for its form.

    Raises
    ------
    TwoStrokeError
        No list of steps, an unknown step, or one given twice.
    """
    steps = order_of(repair).steps
    if isinstance(given, str) or not isinstance(given, Sequence):
        raise TwoStrokeError(f"order={given!r}: give a list of steps out of {', '.join(steps)}")
    names = [str(name) for name in given]
    for name in names:
        if name not in steps:
            raise TwoStrokeError(f"order: {name!r} is no step of this repair; steps are {', '.join(steps)}")
    twice = sorted({name for name in names if names.count(name) > 1})
    if twice:
        raise TwoStrokeError(f"order: {', '.join(twice)} given more than once; each step is done once")
    return names


def breaches(repair: str, given: Sequence[str]) -> list[Breach]:
    """Everything unsound in an order; empty for any sound one.

    Parameters
    ----------
    repair : str
    given : sequence of str
        Steps in the order in which they are done.

    Examples
    --------
    >>> steps = list(order_of("swap_plug").steps)
    >>> breaches("swap_plug", steps)
    []
    >>> breaches("swap_plug", steps[:-2] + steps[-1:])[0].why
    'finger tight only: it works loose'
    """
    row, place = order_of(repair), {name: n for n, name in enumerate(read_order(repair, given))}
    out = [
        Breach(first, then, why, effect)
        for first, then, why, effect in row.order
        if first in place and then in place and place[first] > place[then]
    ]
    missing = [step for step in row.steps if step not in place]
    for step in missing:
        why, effect = row.left_out.get(step, (f"left out: {row.steps[step]}", Effect()))
        out.append(Breach(step, "", why, effect))
    return out


def rechecked(repair: str, given: Sequence[str]) -> bool:
    """Whether the gap was measured again after tightening, and with the shim out."""
    row = order_of(repair)
    names = list(given)
    if not row.rechecks or any(step not in names for step in row.rechecks):
        return False
    last = row.rechecks[-1]
    firsts = [first for first, then, *_ in row.order if then == last]
    return all(first in names and names.index(first) < names.index(last) for first in firsts)
