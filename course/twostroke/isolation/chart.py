"""A shortest-route chart for the wall: what to do first, and what each result leads to."""

from __future__ import annotations

import textwrap
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from twostroke.isolation.belief import Belief
from twostroke.isolation.explain import INK, PALE
from twostroke.isolation.feedback import likeliest, percent
from twostroke.isolation.lookahead import HAND_ON
from twostroke.isolation.planner import Planner
from twostroke.table import Table, TableError

if TYPE_CHECKING:
    from matplotlib.figure import Figure

RARE = 0.03
LAST = 7


@dataclass
class Node:
    """One box of the chart: what to do, how often the chart comes here, and what each result leads to."""

    action: str
    name: str
    kind: str
    minutes: float
    share: float
    likeliest: str
    chance: float
    cautions: list[str] = field(default_factory=list)
    branches: list[tuple[str, float, Node | None]] = field(default_factory=list)


@dataclass(frozen=True)
class Chart:
    """A decision tree of bounded depth, made by the planner.

    Attributes
    ----------
    table : Table
    complaint : str or None
    root : Node
    depth : int
    """

    table: Table
    complaint: str | None
    root: Node
    depth: int

    @property
    def title(self) -> str:
        """Heading of the chart."""
        if self.complaint is None or self.table.complaint is None:
            return "Shortest route"
        words = self.table.complaint.words.get(self.complaint, self.complaint.replace("_", " "))
        return f"Shortest route: {words}"

    NOTE = (
        "Made from a teaching table of estimates, not from service data. The maker's manual comes first. A "
        "repair is named where trying it costs least on average; beside it stands the likeliest fault."
    )

    def text(self) -> str:
        """The chart as printable text.

        Examples
        --------
        >>> from twostroke.isolation import load_table
        >>> print(route_chart(load_table(), "no_start", depth=1).text())  # doctest: +ELLIPSIS
        Shortest route: it does not start at all
        ...
        """
        lines = [self.title, ""]
        self._write(self.root, "", lines)
        lines += ["", "Cautions", *self._cautions(100), "", *textwrap.wrap(self.NOTE, 100)]
        return "\n".join(lines)

    def _cautions(self, width: int) -> list[str]:
        """The cautions of all steps, each once, as lines."""
        lines = []
        for caution in dict.fromkeys(caution for node in _all(self.root) for caution in node.cautions):
            row = self.table.hazards[caution]
            lines += textwrap.wrap(f"- {row.name or caution.replace('_', ' ')}: {row.caution}", width)
        return lines

    def _write(self, node: Node, indent: str, lines: list[str]) -> None:
        lines.append(f"{indent}{_head(node)}")
        for words, chance, below in node.branches:
            lines.append(f"{indent}  {words} ({percent(chance)})")
            if below is None:
                lines.append(f"{indent}      rare: make sure of the reading, then ask the bench")
            else:
                self._write(below, f"{indent}      ", lines)

    def figure(self) -> Figure:
        """The chart as a picture: boxes from left to right, a line for every result."""
        from matplotlib.figure import Figure  # half a second that most users of the planner need not wait for

        places: dict[int, tuple[int, float]] = {}
        count = _place(self.root, 0, 0.0, places)
        columns = 1 + max(column for column, _ in places.values())
        cautions = self._cautions(45 * columns)
        foot = 0.3 + 0.19 * len(cautions)
        figure = Figure(figsize=(3.4 * columns, 0.8 + 0.74 * (count + foot)))
        axes = figure.add_axes((0.01, 0.01, 0.98, 0.98))
        axes.set_axis_off()
        axes.set_xlim(-0.05, columns)
        axes.set_ylim(count + foot - 0.4, -1.1)
        axes.text(0, -0.85, self.title, fontsize=13, weight="bold", color=INK)
        axes.text(0, -0.55, textwrap.fill(self.NOTE, 150), fontsize=7, va="top")
        heading = "Cautions: usual ones of the trade, common practice"
        axes.text(0, count - 0.35, heading, fontsize=8, weight="bold", va="top")
        axes.text(0, count - 0.1, "\n".join(cautions), fontsize=7.5, va="top", linespacing=1.3)
        for node in _all(self.root):
            column, row = places[id(node)]
            if node.branches:
                axes.plot([column + 0.1, column + 0.62], [row, row], color=INK, linewidth=1, zorder=0)
            for words, chance, below in node.branches:
                if below is None:
                    continue
                to_column, to_row = places[id(below)]
                axes.plot([column + 0.62, to_column], [row, to_row], color=INK, linewidth=0.6 + 3 * chance)
                label = f"{textwrap.fill(words, 22)} {percent(chance)}"
                paper = {"facecolor": "white", "edgecolor": "none", "pad": 0.6}
                axes.text(to_column - 0.04, to_row, label, fontsize=6.5, ha="right", va="center", bbox=paper)
            style = {"boxstyle": "round" if node.kind == "test" else "square", "facecolor": "white"}
            if node.kind != "test":
                style["facecolor"] = PALE
            words = textwrap.fill(_head(node).replace(" %", "\u00a0%"), 34)
            axes.text(column, row, words, fontsize=7.5, va="center", bbox={**style, "edgecolor": INK})
        return figure

    def alt(self) -> str:
        """One sentence that says what the picture shows."""
        return (
            f"Decision tree for the complaint: begins with “{self.root.name}”, "
            f"{len(list(_all(self.root)))} boxes, {self.depth} steps deep at most."
        )


def _head(node: Node) -> str:
    cost = f"{node.minutes:.0f} min"
    if node.kind == "test":
        return f"{node.name} ({cost})"
    if node.kind == "hand_on":
        return f"hand the job on; likeliest: {node.likeliest} ({percent(node.chance)})"
    return f"REPAIR: {node.name} ({cost}), then verify; likeliest: {node.likeliest} {percent(node.chance)}"


def _all(node: Node):
    yield node
    for _, _, below in node.branches:
        if below is not None:
            yield from _all(below)


def _place(node: Node, column: int, row: float, places: dict[int, tuple[int, float]]) -> float:
    """Give every box a column and a row; returns the next free row."""
    below = [child for _, _, child in node.branches if child is not None]
    if not below:
        places[id(node)] = (column, row)
        return row + 1
    free = row
    for child in below:
        free = _place(child, column + 1, free, places)
    rows = [places[id(child)][1] for child in below]
    places[id(node)] = (column, (rows[0] + rows[-1]) / 2)
    return free


def route_chart(table: Table, complaint: str | None = None, depth: int = 3, pairs: bool = True) -> Chart:
    """The planner's way from a complaint, as a tree.

    Parameters
    ----------
    table : Table
    complaint : str, optional
    depth : int
        Most tests one after the other; what is left then is repaired in the best order.
    pairs : bool

    Returns
    -------
    Chart

    Raises
    ------
    TableError
        A depth that gives no readable chart.

    Examples
    --------
    >>> from twostroke.isolation import load_table
    >>> chart = route_chart(load_table(), "no_start", depth=2)
    >>> chart.root.kind
    'test'
    """
    if not isinstance(depth, int) or not 1 <= depth <= LAST:
        raise TableError(f"depth {depth!r}: a chart is 1 to {LAST} tests deep; 3 or 4 fit on a sheet")
    planner = Planner(table)
    return Chart(table, complaint, _node(planner, Belief(table, complaint, pairs), depth, 1.0), depth)


def _node(planner: Planner, belief: Belief, depth: int, share: float) -> Node:
    table, ranked = planner.table, planner.rank(belief)
    best = next(row for row in ranked if row.kind != "test" or depth > 0)
    first, chance = likeliest(belief, 1)[0]
    row = None if best.action == HAND_ON else table.action(best.action)
    node = Node(
        action=best.action,
        name=(row.name or best.action.replace("_", " ")) if row is not None else "hand the job on",
        kind=best.kind,
        minutes=best.minutes,
        share=share,
        likeliest=table.faults[first].name,
        chance=chance,
        cautions=_cautions(table, best.action, belief),
    )
    if best.kind == "test":
        test = table.tests[best.action]
        for result, likely in belief.foretell(best.action).items():
            if likely <= 0:
                continue
            below = None
            if likely >= RARE:
                after = belief.copy().update(best.action, result)
                below = _node(planner, after, depth - 1, share * likely)
            node.branches.append((test.say(result), likely, below))
    return node


def _cautions(table: Table, action: str, belief: Belief) -> list[str]:
    if action == HAND_ON:
        return []
    row = table.action(action)
    opened = table.opening(row.access, belief.place.opened)
    found = [hazard for cover in opened for hazard in table.access[cover].hazards] + list(row.hazards)
    if action in table.repairs:
        found += table.meta.verify_hazards
    return list(dict.fromkeys(found))
