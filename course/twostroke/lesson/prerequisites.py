"""Which lesson builds on which: the course as a graph, and an order in which to do what is left."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from functools import cache

import networkx as nx

from twostroke.lesson import tables
from twostroke.lesson.errors import LessonError


@cache
def graph() -> nx.DiGraph:
    """The lessons, with an arrow from each to those that build on it.

    Returns
    -------
    networkx.DiGraph
        Nodes are lesson numbers, "00" to "15"; frozen.

    Raises
    ------
    LessonError
        When the table names a lesson that does not exist, or goes round in a circle.

    Examples
    --------
    >>> sorted(graph().predecessors("04"))
    ['02', '03']
    """
    modules = tables.modules()
    made = nx.DiGraph()
    made.add_nodes_from(modules)
    for number, module in modules.items():
        for before in module.needs:
            tables.module(before)
            made.add_edge(before, number)
    if not nx.is_directed_acyclic_graph(made):
        circle = " -> ".join(before for before, _ in nx.find_cycle(made))
        raise LessonError(f"modules.yaml: {circle} need each other in a circle; take one of them out")
    return nx.freeze(made)


def needed(number: str) -> set[str]:
    """Every lesson that has to come before this one.

    Examples
    --------
    >>> sorted(needed("08"))
    ['00', '01', '02']
    """
    tables.module(number)
    return set(nx.ancestors(graph(), number))


def order(
    done: Collection[str] = (), aims: Iterable[str] | None = None, first: Collection[str] = ()
) -> list[str]:
    """What is left to do, each lesson after all those that it builds on.

    Parameters
    ----------
    done : collection of str
        Lessons that need not be done again.
    aims : iterable of str, optional
        Lessons to get to; only what leads there is put in. Default: the whole course.
    first : collection of str
        Where several could come next, these do.

    Returns
    -------
    list of str
        Lesson numbers, the next one first.

    Notes
    -----
    Topological order (Kahn 1962, from memory), by the library; where several lessons could be next, the one
    with the lowest number is.

    Examples
    --------
    >>> order(done=["00", "01"], aims=["08"])
    ['02', '08']
    """
    wanted = set(graph())
    if aims is not None:
        targets = list(aims)
        wanted = set(targets).union(*(needed(number) for number in targets))
    left = graph().subgraph(wanted - set(done))
    return list(nx.lexicographical_topological_sort(left, key=lambda number: (number not in first, number)))
