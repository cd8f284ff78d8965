"""Axes with units: from a value to a place on the paper."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from twostroke.lesson.drawing.canvas import GUIDE, INK, PAPER, Canvas, DrawingError


def nice_steps(low: float, high: float, about: int = 5) -> list[float]:
    """Round values from low to high for ticks, in steps of 1, 2 or 5.

    Parameters
    ----------
    low, high : float
        Ends of the axis, ``low < high``.
    about : int
        Wished number of steps.

    Returns
    -------
    list of float

    Examples
    --------
    >>> nice_steps(0, 4000, 4)
    [0.0, 1000.0, 2000.0, 3000.0, 4000.0]
    >>> nice_steps(0, 1.1, 5)
    [0.0, 0.2, 0.4, 0.6, 0.8, 1.0]
    """
    if not high > low:
        raise DrawingError(f"axis from {low} to {high}: the upper end must be above the lower one")
    raw = (high - low) / max(about, 1)
    power = 10.0 ** math.floor(math.log10(raw))
    step = min((power * factor for factor in (1, 2, 5, 10)), key=lambda size: abs(size - raw))
    first = math.ceil(low / step - 1e-9)
    last = math.floor(high / step + 1e-9)
    return [round(index * step, 10) for index in range(first, last + 1)]


@dataclass(frozen=True)
class Frame:
    """A rectangle of paper with a scale along x and one along y.

    Parameters
    ----------
    left, top, width, height : float
        Place on the canvas [px].
    x_range, y_range : (float, float)
        Values at the ends of the axes, in the unit that the axis names.

    Examples
    --------
    >>> frame = Frame(60, 20, 400, 200, (0, 4000), (0, 2))
    >>> frame.x(2000), frame.y(2)
    (260.0, 20.0)
    """

    left: float
    top: float
    width: float
    height: float
    x_range: tuple[float, float]
    y_range: tuple[float, float]

    def x(self, value: float) -> float:
        """Place of a value along x [px]."""
        low, high = self.x_range
        return self.left + self.width * (value - low) / (high - low)

    def y(self, value: float) -> float:
        """Place of a value along y [px]; larger values lie higher."""
        low, high = self.y_range
        return self.top + self.height * (1.0 - (value - low) / (high - low))

    def axes(
        self,
        canvas: Canvas,
        x_name: str,
        y_name: str,
        *,
        x_ticks: Sequence[float] | None = None,
        y_ticks: Sequence[float] | None = None,
    ) -> None:
        """Draw ground, grid, ticks and names; the names carry the unit, as in ``altitude, m``."""
        canvas.rect(self.left, self.top, self.width, self.height, fill=PAPER, weight="hair", colour=GUIDE)
        bottom, right = self.top + self.height, self.left + self.width
        for value in x_ticks if x_ticks is not None else nice_steps(*self.x_range):
            place = self.x(value)
            canvas.line(place, self.top, place, bottom, weight="hair", dash="dot", colour=GUIDE)
            canvas.label(place, bottom + 20, tick(value), size=15, anchor="middle")
        for value in y_ticks if y_ticks is not None else nice_steps(*self.y_range):
            place = self.y(value)
            canvas.line(self.left, place, right, place, weight="hair", dash="dot", colour=GUIDE)
            canvas.label(self.left - 8, place + 5, tick(value), size=15, anchor="end")
        canvas.line(self.left, bottom, right, bottom)
        canvas.line(self.left, self.top, self.left, bottom)
        canvas.label(self.left + self.width / 2, bottom + 42, x_name, size=16, anchor="middle")
        canvas.label(self.left - 44, self.top + self.height / 2, y_name, size=16, anchor="middle", turn=-90)

    def second_y(self, canvas: Canvas, name: str, values: Iterable[tuple[float, str]]) -> None:
        """Ticks of another unit on the right side: pairs of place (in the y unit) and text."""
        right = self.left + self.width
        canvas.line(right, self.top, right, self.top + self.height)
        for value, text in values:
            place = self.y(value)
            canvas.line(right, place, right + 6, place, weight="thin")
            canvas.label(right + 10, place + 5, text, size=15)
        canvas.label(right + 54, self.top + self.height / 2, name, size=16, anchor="middle", turn=-90)

    def curve(
        self,
        canvas: Canvas,
        xs: Iterable[float],
        ys: Iterable[float],
        *,
        weight: str = "normal",
        dash: str = "solid",
        colour: str = INK,
    ) -> None:
        """A curve through pairs of values."""
        points = [(self.x(x), self.y(y)) for x, y in zip(xs, ys, strict=True)]
        canvas.path(points, weight=weight, dash=dash, colour=colour)


def tick(value: float) -> str:
    """A tick's number with a thin space in thousands, as in ``1 500``.

    Examples
    --------
    >>> tick(1500.0), tick(0.2)
    ('1 500', '0.2')
    """
    return f"{value:,.6g}".replace(",", " ") if abs(value) >= 1000 else f"{value:.6g}"
