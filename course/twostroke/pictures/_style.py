"""One look for all pictures, and the pair of figure and words that each function returns."""

from __future__ import annotations

import io
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from matplotlib import rc_context
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure

if TYPE_CHECKING:
    from collections.abc import Sequence

    from matplotlib.axes import Axes

INK, GREY, PALE = "#1a1a1a", "#6b6b6b", "#d9d9d9"
SERIES: tuple[dict[str, Any], ...] = (
    {"color": "#000000", "linestyle": "-", "marker": "o"},
    {"color": "#0072b2", "linestyle": "--", "marker": "s"},
    {"color": "#d55e00", "linestyle": "-.", "marker": "^"},
    {"color": "#56b4e9", "linestyle": (0, (5, 1, 1, 1, 1, 1)), "marker": "D"},
    {"color": "#cc79a7", "linestyle": ":", "marker": "v"},
)
"""Colours told apart without red and green (Okabe and Ito), each with a dash and a marker of its own."""

_RC: Any = {
    "font.size": 11,
    "axes.edgecolor": GREY,
    "axes.labelcolor": INK,
    "axes.titlesize": 11,
    "axes.titleweight": "bold",
    "axes.titlelocation": "left",
    "axes.spines.top": False,
    "axes.spines.right": False,
    "axes.grid": True,
    "grid.color": PALE,
    "grid.linewidth": 0.7,
    "lines.linewidth": 2.0,
    "svg.hashsalt": "twostroke",
    "svg.fonttype": "path",
}


@dataclass(frozen=True)
class Picture:
    """A figure and what it shows.

    Attributes
    ----------
    figure : matplotlib.figure.Figure
    words : str
        The same in words, for those who do not see the figure and those who want to be sure.
    """

    figure: Figure
    words: str

    def png(self, dpi: int = 130) -> bytes:
        """The figure as a PNG file."""
        out = io.BytesIO()
        self.figure.savefig(out, format="png", dpi=dpi, metadata={"Software": None})
        return out.getvalue()

    def svg(self) -> str:
        """The figure as an SVG file, the same bytes every time."""
        out = io.StringIO()
        with rc_context(_RC):
            self.figure.savefig(out, format="svg", metadata={"Date": None})
        return out.getvalue()

    def _repr_mimebundle_(self, **_: Any) -> dict[str, Any]:
        return {"image/png": self.png(), "text/plain": self.words}


def canvas(width: float, height: float, columns: Sequence[float] = (1.0,)) -> tuple[Figure, list[Axes]]:
    """An empty figure (inches) with axes side by side in these relative widths."""
    with rc_context(_RC):
        figure = Figure(figsize=(width, height), layout="constrained")
        FigureCanvasAgg(figure)
        axes = figure.subplots(1, len(columns), squeeze=False, gridspec_kw={"width_ratios": list(columns)})[0]
    return figure, list(axes)


_GLYPH = {"o": "●", "s": "■", "^": "▲", "D": "◆", "v": "▼"}


def label_line(axes: Axes, x: float, y: float, text: str, style: dict[str, Any]) -> None:
    """Write a line's marker and name at its end, on a white ground."""
    box = {"facecolor": "white", "edgecolor": "none", "pad": 1.0, "alpha": 0.85}
    name = f"{_GLYPH[style['marker']]} {text}"
    axes.annotate(
        name, (x, y), xytext=(9, 0), textcoords="offset points", color=INK, va="center", fontsize=10,
        bbox=box, annotation_clip=False,
    )  # fmt: skip


def spread_labels(values: list[float], least: float) -> list[float]:
    """Heights for labels at these values, moved apart to at least ``least``."""
    order = sorted(range(len(values)), key=values.__getitem__)
    placed = list(values)
    for before, here in pairwise(order):
        placed[here] = max(placed[here], placed[before] + least)
    return placed
