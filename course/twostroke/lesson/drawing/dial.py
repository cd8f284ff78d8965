"""A round gauge with a needle."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from itertools import pairwise

from twostroke.lesson.drawing.axes import tick
from twostroke.lesson.drawing.canvas import BLUE, GUIDE, INK, PAPER, STEEL, Canvas

_START, _SWEEP = 225.0, 270.0  # degrees, counted against the clock from the right-hand side


def dial(
    canvas: Canvas,
    x: float,
    y: float,
    radius: float,
    value: float,
    scale: tuple[float, float],
    ticks: Sequence[float],
    *,
    unit: str,
    inner: tuple[str, Sequence[float], Callable[[float], float]] | None = None,
) -> None:
    """Draw a gauge face with its needle; the needle stops at the ends of the scale.

    Parameters
    ----------
    canvas : Canvas
        Where to draw.
    x, y, radius : float
        Centre and outer radius [px].
    value : float
        Reading, in the unit of the outer scale.
    scale : (float, float)
        Ends of the outer scale.
    ticks : sequence of float
        Numbered values of the outer scale.
    unit : str
        Printed on the face.
    inner : (unit, ticks, to_outer), optional
        A second scale inside the first, with the function that turns its values into those of the outer one.

    Examples
    --------
    >>> canvas = Canvas(200, 200, "Gauge", "A gauge at 50 psi.")
    >>> dial(canvas, 100, 100, 90, 50, (0, 100), [0, 50, 100], unit="psi")
    >>> canvas.svg().count("<circle") >= 2
    True
    """
    low, high = scale

    def at(reading: float, share: float) -> tuple[float, float]:
        part = min(max((reading - low) / (high - low), -0.02), 1.02)
        angle = math.radians(_START - _SWEEP * part)
        return x + radius * share * math.cos(angle), y - radius * share * math.sin(angle)

    canvas.circle(x, y, radius, fill=STEEL, weight="bold")
    canvas.circle(x, y, radius * 0.93, fill=PAPER, weight="thin")
    between = [(a + b) / 2 for a, b in pairwise(ticks)]
    for reading in between:
        canvas.line(*at(reading, 0.90), *at(reading, 0.85), weight="thin")
    for reading in ticks:
        canvas.line(*at(reading, 0.90), *at(reading, 0.80), weight="normal")
        tx, ty = at(reading, 0.67)
        canvas.label(tx, ty + 5, tick(reading), size=15, anchor="middle")
    canvas.label(x, y + radius * 0.52, unit, size=16, anchor="middle", strong=True)
    if inner is not None:
        name, values, to_outer = inner
        for reading in values:
            canvas.line(
                *at(to_outer(reading), 0.52), *at(to_outer(reading), 0.46), weight="thin", colour=BLUE
            )
            tx, ty = at(to_outer(reading), 0.36)
            canvas.label(tx, ty + 4, tick(reading), size=13, anchor="middle", colour=BLUE)
        canvas.label(x, y + radius * 0.74, name, size=14, anchor="middle", colour=BLUE)
    tip_x, tip_y = at(value, 0.80)
    dx, dy = (tip_x - x) / (radius * 0.8), (tip_y - y) / (radius * 0.8)
    tail = (x - dx * radius * 0.18, y - dy * radius * 0.18)
    side = radius * 0.035
    canvas.path(
        [(tip_x, tip_y), (x - dy * side, y + dx * side), tail, (x + dy * side, y - dx * side)],
        closed=True,
        fill=INK,
        weight="hair",
    )
    canvas.circle(x, y, radius * 0.07, fill=GUIDE, weight="thin")
