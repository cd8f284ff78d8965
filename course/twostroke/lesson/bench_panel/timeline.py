"""Two routes on one time axis."""

from __future__ import annotations

from collections.abc import Sequence

from twostroke.lesson.bench_panel.report import Leg
from twostroke.lesson.drawing import BLUE, GUIDE, INK, PAPER, STEEL, Canvas, Frame, nice_steps

_ROOM = 22.0


def timeline(mine: Sequence[Leg], best: Sequence[Leg]) -> str:
    """Your route above the best one, minutes along the axis, each kind of step with its own filling.

    Parameters
    ----------
    mine, best : sequence of Leg
        `best` may be empty (an own machine has none).

    Returns
    -------
    str
        One ``<svg>`` element.
    """
    end = max([leg.start + leg.minutes for leg in (*mine, *best)], default=1.0) or 1.0
    words = f"Your route: {_total(mine)}." + (f" Best route: {_total(best)}." if best else "")
    lanes = [("Your route", mine), ("Best route", best)] if best else [("Your route", mine)]
    canvas = Canvas(720, 92 + 86 * len(lanes), "Routes on one time axis", words)
    frame = Frame(24, 10, 672, 86 * len(lanes), (0.0, end), (0.0, 1.0))
    for tick in nice_steps(0.0, end, 6):
        x = frame.x(tick)
        canvas.line(x, 10, x, 10 + frame.height, weight="hair", dash="dot", colour=GUIDE)
        canvas.label(x, frame.height + 30, f"{tick:g}", size=15, anchor="middle")
    canvas.label(360, frame.height + 52, "minutes", size=15, anchor="middle")
    for row, (name, route) in enumerate(lanes):
        top = 14 + 86 * row
        canvas.label(26, top + 14, f"{name}: {_total(route)}", size=16, strong=True)
        for number, leg in enumerate(route, start=1):
            _block(canvas, frame, leg, number, top + 24)
    _legend(canvas, frame.height + 66)
    return canvas.svg()


def _total(route: Sequence[Leg]) -> str:
    minutes, money = sum(leg.minutes for leg in route), sum(leg.money for leg in route)
    return f"{minutes:g} min, parts {money:g}"


def _block(canvas: Canvas, frame: Frame, leg: Leg, number: int, top: float) -> None:
    left, width = frame.x(leg.start), frame.x(leg.start + leg.minutes) - frame.x(leg.start)
    if width <= 0.0:
        return
    _fill(canvas, leg.kind, left, top, width, 44)
    if width >= _ROOM:
        canvas.label(left + width / 2, top + 28, str(number), size=16, anchor="middle", strong=True)


def _fill(canvas: Canvas, kind: str, x: float, y: float, width: float, height: float) -> None:
    fill = {"test": PAPER, "repair": canvas.hatch, "verify": canvas.dots}.get(kind, STEEL)
    colour = BLUE if kind == "test" else INK
    canvas.rect(x, y, width, height, fill=fill, weight="bold" if kind == "test" else "thin", colour=colour)


def _legend(canvas: Canvas, y: float) -> None:
    for place, (kind, name) in enumerate(
        (
            ("test", "test or look"),
            ("repair", "repair"),
            ("verify", "verify run"),
            ("other", "covers, running, waiting"),
        )
    ):
        x = 26 + (0, 150, 262, 398)[place]
        _fill(canvas, kind, x, y, 24, 18)
        canvas.label(x + 32, y + 15, name, size=15)
