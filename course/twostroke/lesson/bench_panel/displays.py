"""The instruments with their displays, drawn from what a reading says."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping

from twostroke.lesson.drawing import BLUE, BRASS, GUIDE, INK, PAPER, RUST, STEEL, Canvas, Frame, dial
from twostroke.table import Table

_SPARKS = {"gap_tester", "spare_plug", "hot_air"}
_STRONG = {"good", "steady", "good_both", "spark_stays", "spark_returns", "flashes"}
_WEAK = {"weak", "dim", "only_fast"}


def display(
    table: Table, action: str, shown: Mapping[str, str], result: str | None, words: str
) -> str | None:
    """The instrument's face after a step; None where only eyes, ears and hands were used.

    Parameters
    ----------
    table : Table
    action : str
    shown : mapping
        Numbers as the instrument shows them, by name.
    result : str or None
        The table's word for the reading.
    words : str
        What was seen, for those who cannot see the drawing.

    Returns
    -------
    str or None
        One ``<svg>`` element.
    """
    test = table.tests.get(action)
    tool = test.instrument if test is not None else None
    said = "; ".join(f"{name} {text}" for name, text in shown.items()) or words
    if test is not None and (tool in _SPARKS or action.startswith("spark_plug")) and result:
        where = "plug in open air" if tool == "eyes" else table.instruments.get(tool or "", "spark")
        return _points(where, result, said)
    if tool == "inline_tester" and result:
        return _lamp(result, said)
    if not shown:
        return None
    name, text = next(iter(shown.items()))
    if tool == "compression_gauge":
        return _round(name, text, said, (0.0, 16.0), [0, 4, 8, 12, 16])
    if tool == "hand_pump":
        return _round(name, text, said, (0.0, 0.5), [0, 0.1, 0.2, 0.3, 0.4, 0.5])
    if tool in ("feeler", "plug_gauge"):
        leaves = {name: text for name, text in shown.items() if "difference" not in name}
        if leaves:
            return _leaves(leaves, said)
    return _digits(table.instruments.get(tool or "", name), name, text, said)


def _digits(tool: str, name: str, text: str, said: str) -> str:
    canvas = Canvas(360, 150, f"Display: {tool}", f"{said}.")
    canvas.rect(6, 6, 348, 108, fill=INK, corner=14)
    canvas.rect(24, 22, 312, 76, fill=PAPER, weight="bold", corner=4)
    number, _, rest = text.partition(" (")
    canvas.label(322, 78, number, size=40, anchor="end", strong=True)
    if rest:
        canvas.label(36, 44, rest.rstrip(")"), size=15)
    canvas.label(10, 138, name, size=16)
    return canvas.svg()


def _round(name: str, text: str, said: str, scale: tuple[float, float], ticks: list[float]) -> str:
    canvas = Canvas(380, 220, f"Gauge: {name}", f"{said}.")
    found = re.match(r"-?[\d.]+", text)
    value = float(found.group()) if found else math.nan
    unit = text[found.end() :].strip() if found else ""
    if found:
        dial(canvas, 110, 110, 100, value, scale, ticks, unit=unit)
    canvas.label(228, 106, text, size=28, strong=True)
    head, _, tail = name.partition(", ")
    canvas.note(228, 134, [head[:18], head[18:].strip(), tail], size=15)
    return canvas.svg()


def _leaves(shown: Mapping[str, str], said: str) -> str:
    canvas = Canvas(380, 60 + 62 * len(shown), "Leaves of the gauge", f"Thickest leaf that passes: {said}.")
    canvas.label(16, 28, "Thickest leaf that passes", size=16, strong=True)
    for row, (name, text) in enumerate(shown.items()):
        y = 48 + 62 * row
        if re.match(r"0(\.0*)?\s", text):
            canvas.label(16, y + 18, "none passes", size=22, strong=True)
            canvas.label(16, y + 44, name, size=15)
            continue
        canvas.rect(16, y, 210, 22, fill=canvas.hatch, corner=10)
        canvas.circle(36, y + 11, 5, fill=PAPER)
        canvas.label(236, y + 20, text, size=22, strong=True)
        canvas.label(16, y + 44, name, size=15)
    return canvas.svg()


def _points(tool: str, result: str, said: str) -> str:
    canvas = Canvas(360, 150, f"Spark: {tool}", f"{said}.")
    canvas.rect(10, 30, 340, 70, fill=PAPER, corner=8)
    canvas.path([(10, 58), (130, 58), (150, 65), (130, 72), (10, 72)], closed=True, fill=STEEL)
    canvas.path([(350, 58), (230, 58), (210, 65), (230, 72), (350, 72)], closed=True, fill=STEEL)
    strong, weak = result in _STRONG, result in _WEAK
    zigzag = [(150, 65), (162, 54), (172, 74), (184, 56), (196, 74), (210, 65)]
    if strong:
        canvas.path(zigzag, weight="bold", colour=BLUE)
        for x, y in ((170, 40), (180, 36), (192, 40)):
            canvas.line(x, y, x + (x - 180) * 0.4, y - 8, weight="thin", colour=BLUE)
    elif weak:
        canvas.path(zigzag, weight="thin", dash="dot", colour=BLUE)
    else:
        canvas.label(180, 54, "nothing", size=15, anchor="middle")
    canvas.label(16, 22, tool, size=15)
    _under(canvas, said, 126)
    return canvas.svg()


def _lamp(result: str, said: str) -> str:
    canvas = Canvas(360, 150, "In-line flash tester", f"{said}.")
    canvas.line(10, 66, 350, 66, weight="bold")
    canvas.rect(130, 42, 100, 48, fill=STEEL, corner=10)
    canvas.circle(180, 66, 18, fill=BRASS if result in _STRONG else PAPER, weight="bold")
    if result in _STRONG | _WEAK:
        for step in range(8):
            turn = math.pi * step / 4
            x, y = math.cos(turn), math.sin(turn)
            weight = "normal" if result in _STRONG else "hair"
            canvas.line(180 + 23 * x, 66 + 23 * y, 180 + 33 * x, 66 + 33 * y, weight=weight, colour=RUST)
    canvas.label(16, 22, "in-line flash tester", size=15)
    _under(canvas, said, 126)
    return canvas.svg()


def _under(canvas: Canvas, said: str, y: float) -> None:
    canvas.label(180, y, said if len(said) <= 44 else f"{said[:43]}…", size=16, anchor="middle", strong=True)


def waveform(time: object, values: object, unit: str, signal: str, words: str) -> str:
    """A storage trace as a curve.

    Parameters
    ----------
    time, values : array
        Seconds, and the signal in `unit`.
    unit, signal, words : str
    """
    import numpy as np

    ticks, curve = np.asarray(time) * 1e3, np.asarray(values)
    stride = max(1, len(ticks) // 700)
    ticks, curve = ticks[::stride], curve[::stride]
    canvas = Canvas(640, 300, f"Trace: {signal}", words)
    low, high = float(curve.min()), float(curve.max())
    room = 0.08 * (high - low) or 1.0
    frame = Frame(72, 16, 548, 220, (float(ticks[0]), float(ticks[-1])), (low - room, high + room))
    frame.axes(canvas, "time, ms", f"{signal}, {unit}")
    frame.curve(canvas, ticks, curve, colour=BLUE)
    canvas.line(72, frame.y(0.0), 620, frame.y(0.0), weight="hair", colour=GUIDE)
    return canvas.svg()
