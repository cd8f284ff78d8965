"""Plots of the class report: SVG in shades of grey with hatching, readable in print and without colour."""

from __future__ import annotations

import io
import re
from collections.abc import Sequence
from textwrap import fill
from typing import Any

import matplotlib as mpl
import numpy as np

mpl.use("Agg", force=False)
from matplotlib.figure import Figure
from matplotlib.ticker import MaxNLocator

from twostroke.grading.figures import TaskFigures

_INK, _FILL, _SOFT = "#1b1f24", "#8c959f", "#57606a"
_STYLE: Any = {
    "svg.fonttype": "none",
    "svg.hashsalt": "class report",
    "font.family": "DejaVu Sans",
    "font.size": 10,
    "axes.spines.top": False,
    "axes.spines.right": False,
    "axes.edgecolor": _INK,
    "hatch.linewidth": 0.6,
}


def _svg(figure: Figure, title: str, description: str) -> str:
    """Return the figure as SVG that a screen reader can name."""
    buffer = io.StringIO()
    figure.savefig(buffer, format="svg", metadata={"Date": None, "Creator": None})
    text = buffer.getvalue()
    text = text[text.index("<svg") :]
    text = re.sub(r"<metadata>.*?</metadata>", "", text, flags=re.DOTALL)
    label = f'<svg role="img" aria-label="{title}. {description}"'
    return text.replace("<svg", label, 1)


def distribution(percents: Sequence[float], waiting: int) -> str:
    """Return a histogram of the scores in percent, in ten steps.

    Parameters
    ----------
    percents : sequence of float
        One for each learner with marks, 0 to 100.
    waiting : int
        Learners without marks, named beside the plot.
    """
    counts = [0] * 10
    for percent in percents:
        counts[min(9, max(0, int(percent // 10)))] += 1
    with mpl.rc_context(_STYLE):
        figure = Figure(figsize=(7.2, 2.6), layout="constrained")
        axes = figure.subplots()
        bars = axes.bar(range(10), counts, width=0.92, color=_FILL, edgecolor=_INK, linewidth=0.8)
        for bar, count in zip(bars, counts, strict=True):
            if count:
                axes.annotate(
                    str(count), (bar.get_x() + bar.get_width() / 2, count), (0, 2),
                    textcoords="offset points", ha="center", va="bottom",
                )  # fmt: skip
        axes.set_xticks(range(10), [f"{10 * i}–{10 * i + (10 if i == 9 else 9)}" for i in range(10)])
        axes.set_xlabel("score in percent of the points")
        axes.set_ylabel("learners")
        axes.set_ylim(0, max([*counts, 1]) * 1.18)
        axes.yaxis.set_major_locator(MaxNLocator(integer=True))
        said = ", ".join(f"{n} between {10 * i} and {10 * i + 10} percent" for i, n in enumerate(counts) if n)
        return _svg(figure, "Distribution of scores", f"{said or 'no marks yet'}; {waiting} without marks")


def tasks(figures: Sequence[TaskFigures], titles: Sequence[str]) -> str:
    """Return bars of the share of points earned in each task, with its discrimination as a mark.

    Parameters
    ----------
    figures : sequence of TaskFigures
    titles : sequence of str
        Title of each task.
    """
    with mpl.rc_context(_STYLE):
        figure = Figure(figsize=(7.2, 0.9 + 0.42 * max(1, len(figures))), layout="constrained")
        axes = figure.subplots()
        places = list(range(len(figures)))[::-1]
        shares = [task.difficulty or 0.0 for task in figures]
        axes.barh(
            places, shares, height=0.62, color=_FILL, edgecolor=_INK, linewidth=0.8, label="points earned"
        )
        axes.barh(
            places, [1 - share for share in shares], left=shares, height=0.62, color="white", edgecolor=_INK,
            linewidth=0.8, hatch="///", label="points lost",
        )  # fmt: skip
        known = [
            (t.discrimination, place)
            for t, place in zip(figures, places, strict=True)
            if t.discrimination is not None
        ]
        if known:
            axes.plot(
                [max(0.0, value) for value, _ in known], [place for _, place in known], linestyle="none",
                marker="D",
                markersize=7, markerfacecolor="white", markeredgecolor=_INK, markeredgewidth=1.4,
                label="discrimination",
            )  # fmt: skip
        axes.set_yticks(places, [title if len(title) < 38 else title[:36] + "…" for title in titles])
        axes.set_xlim(0, 1)
        axes.set_xticks([0, 0.25, 0.5, 0.75, 1], ["0", "25 %", "50 %", "75 %", "100 %"])
        axes.tick_params(axis="y", length=0)
        figure.legend(loc="outside lower center", ncols=3, frameon=False, fontsize=9)
        said = ", ".join(f"{title} {100 * share:.0f} %" for title, share in zip(titles, shares, strict=True))
        return _svg(figure, "Tasks, share of points earned", said)


def heat(names: Sequence[str], rows: Sequence[tuple[str, Sequence[float | None]]]) -> str:
    """Return the competencies of learners as a map in grey: the darker, the more; each field with its number.

    Parameters
    ----------
    names : sequence of str
        Competencies.
    rows : sequence of (str, sequence of float or None)
        Learner, and share of the points in each competency; None where nothing was marked.
    """
    with mpl.rc_context(_STYLE):
        figure = Figure(figsize=(7.2, 0.9 + 0.24 * len(rows)), layout="constrained")
        axes = figure.subplots()
        shares = np.array(
            [[np.nan if each is None else each for each in row] for _, row in rows], dtype=float
        )
        axes.imshow(shares, cmap="Greys", vmin=0.0, vmax=1.25, aspect="auto")
        for (place, column), share in np.ndenumerate(shares):
            if not np.isnan(share):
                ink = "white" if share > 0.7 else _INK
                axes.text(
                    column, place, f"{100 * share:.0f} %", ha="center", va="center", color=ink, fontsize=8
                )
        axes.set_xticks(range(len(names)), [fill(name, 16) for name in names], fontsize=8)
        axes.set_yticks(range(len(rows)), [learner for learner, _ in rows], fontsize=8)
        axes.xaxis.tick_top()
        axes.tick_params(length=0)
        axes.set_xticks(np.arange(len(names) + 1) - 0.5, minor=True)
        axes.set_yticks(np.arange(len(rows) + 1) - 0.5, minor=True)
        axes.grid(which="minor", color="white", linewidth=1.2)
        axes.tick_params(which="minor", length=0)
        axes.spines[:].set_visible(False)
        return _svg(figure, "Competencies by learner", f"{len(rows)} learners, {', '.join(names)}")
