"""Figures of lesson 05: a shim in the air gap with the speed that starts, and a key that has given way."""

from __future__ import annotations

import math
from functools import cache
from typing import TYPE_CHECKING

import numpy as np

from twostroke import geometry, ignition, units
from twostroke.lesson.drawing import (
    BLUE,
    BRASS,
    GUIDE,
    INK,
    PAPER,
    RUST,
    STEEL,
    Canvas,
    DrawingError,
    Frame,
    Picture,
)
from twostroke.lesson.figures import demo_engine

if TYPE_CHECKING:
    from pint import Quantity

_GAPS = (0.10, 1.20)  # mm
_DEMANDS = (5.0, 12.0)  # kV
_BAND = (0.20, 0.35)  # mm, common practice
_PULL = 800.0  # rpm, a usual pull: common practice
_FASTEST = 1400.0
_OFFSET = 2.0  # mm
_SHAFTS = (10.0, 20.0)  # mm


@cache
def _table() -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Gaps [mm], speeds [rpm] and kilovolts at the plug, (gaps, speeds), computed once."""
    gaps = np.linspace(*_GAPS, 23)
    speeds = np.linspace(200.0, 1600.0, 36)
    system = demo_engine.ignition_system()
    batch = ignition.Ignition.stack([system.changed(gap_1=g * 1e-3, gap_2=g * 1e-3) for g in gaps])
    return gaps, speeds, ignition.available(batch, speeds).voltage / 1e3


@cache
def _lowest(kilovolts: float) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """For each gap of the table the lowest speed that reaches the demand (read between its rows)."""
    gaps, speeds, volts = _table()
    found = []
    for row in volts:
        rising = np.maximum.accumulate(row)
        found.append(float(np.interp(kilovolts, rising, speeds)) if rising[-1] >= kilovolts else math.inf)
    return tuple(gaps.tolist()), tuple(found)


def shim_and_speed(gap: str | Quantity, demand: str | Quantity) -> Picture:
    """The air gap with its shim, and the lowest speed at which the module gives what the plug asks for.

    Parameters
    ----------
    gap : quantity or text
        Between magnet and each leg, 0.10 to 1.20 mm. [mm]
    demand : quantity or text
        What the plug asks for, 5 to 12 kV. [kV]

    Returns
    -------
    Picture
        ``shown`` holds ``gap`` [length] and ``lowest`` [speed].

    Raises
    ------
    DrawingError
        A value outside what is drawn.

    Notes
    -----
    Read from a table of the library's module, between rows of 0.05 mm and 40 rpm. The band is common
    practice, no source; the maker's figure comes first.

    Examples
    --------
    >>> near, wide = (shim_and_speed(gap, "10 kV").shown["lowest"] for gap in ("0.30 mm", "0.60 mm"))
    >>> bool(near < wide < 1.5 * near)
    True
    """
    wide = float(units.read(gap, expect="mm").to("mm").magnitude)
    need = float(units.read(demand, expect="kV").to("kV").magnitude)
    if not _GAPS[0] <= wide <= _GAPS[1] or not _DEMANDS[0] <= need <= _DEMANDS[1]:
        raise DrawingError(f"{wide:g} mm, {need:g} kV: the figure shows 0.10 to 1.20 mm and 5 to 12 kV")
    gaps, speeds = _lowest(need)
    lowest = float(np.interp(wide, gaps, speeds))
    before = float(np.interp(0.30, gaps, speeds))
    thou = units.ureg.Quantity(wide, "mm").to("thou").magnitude
    words = (
        f"A shim of {wide:.2f} mm, {thou:.1f} thou, between magnet and legs. With a plug that asks for"
        f" {need:.1f} kV the module sparks from {lowest:.0f} rpm; at 0.30 mm it is {before:.0f} rpm."
    )
    canvas = Canvas(720, 420, "A shim in the air gap", words)
    _legs(canvas, wide, thou)
    frame = Frame(390, 80, 310, 260, (0, 1.2), (0, _FASTEST))
    steps, speed_ticks = [0, 0.2, 0.4, 0.6, 0.8, 1.0, 1.2], [0, 400, 800, 1200]
    frame.axes(canvas, "air gap, mm", "rpm", x_ticks=steps, y_ticks=speed_ticks)
    left, right = frame.x(_BAND[0]), frame.x(_BAND[1])
    canvas.rect(left, frame.top, right - left, frame.height, fill=BRASS, weight="hair", colour=GUIDE)
    canvas.label(left - 4, frame.top + 20, "usual band", size=15)
    edge, pull = frame.left + frame.width, frame.y(_PULL)
    canvas.line(frame.left, pull, edge, pull, dash="dash", colour=GUIDE)
    canvas.label(edge - 4, pull - 6, "usual pull", size=15, anchor="end")
    drawn = [(g, s) for g, s in zip(gaps, speeds, strict=True) if s <= _FASTEST]
    frame.curve(canvas, [g for g, _ in drawn], [s for _, s in drawn], weight="bold", colour=BLUE)
    x, y = frame.x(wide), frame.y(min(lowest, _FASTEST))
    canvas.line(x, y, x, frame.y(0), weight="thin", dash="dot", colour=RUST)
    canvas.marker(x, y, size=8, colour=RUST)
    canvas.label(356, 28, "lowest speed that sparks", size=17)
    canvas.label(356, 58, f"{wide:.2f} mm: from {lowest:.0f} rpm", size=19, strong=True, colour=RUST)
    canvas.label(390, 406, f"at 0.30 mm: from {before:.0f} rpm", size=17)
    shown = {"gap": units.ureg.Quantity(wide, "mm"), "lowest": units.ureg.Quantity(lowest, "rpm")}
    return Picture(canvas.svg(), words, shown)


def _legs(canvas: Canvas, wide: float, thou: float) -> None:
    """Both legs above the rim with a shim between, the gap drawn 100 times its size."""
    gap = wide * 100  # px
    face = 150.0
    inner = [(220, face), (220, 100), (110, 100), (110, face)]
    outline = [(40, face), (40, 60), (290, 60), (290, face), *inner]
    canvas.path(outline, closed=True, fill=canvas.hatch)
    canvas.rect(30, 104, 90, 34, fill=PAPER, weight="bold")
    for row in range(3):
        canvas.line(34, 112 + row * 9, 116, 112 + row * 9, weight="hair")
    canvas.label(165, 88, "module", size=16, anchor="middle")
    canvas.rect(24, face, 282, gap, fill=BRASS, weight="thin", colour=RUST)
    rim = face + gap
    canvas.rect(24, rim, 282, 60, fill=STEEL)
    canvas.label(75, rim + 38, "S", size=20, anchor="middle", strong=True)
    canvas.label(255, rim + 38, "N", size=20, anchor="middle", strong=True)
    canvas.label(165, rim + 36, "magnet", size=16, anchor="middle")
    canvas.label(24, 28, f"shim {wide:.2f} mm = {thou:.1f} thou", size=18, strong=True, colour=RUST)
    canvas.label(24, 406, "the gap is drawn far too large", size=15)


@cache
def _spark() -> tuple[float, float]:
    """Spark before top [deg] and kilovolts at a usual pull, the key as made."""
    out = ignition.available(demo_engine.ignition_system(), [_PULL])
    return math.degrees(float(out.spark_btdc[0, 0])), float(out.voltage[0, 0]) / 1e3


def sheared_key(offset: str | Quantity, shaft: str | Quantity) -> Picture:
    """Shaft and hub with a step between their keyways, and where the spark comes.

    Parameters
    ----------
    offset : quantity or text
        Step along the shaft's surface, -2 to 2 mm; positive: the flywheel stands behind the crank. [mm]
    shaft : quantity or text
        Diameter of the shaft at the key, 10 to 20 mm. [mm]

    Returns
    -------
    Picture
        ``shown`` holds ``angle`` (how far the flywheel stands wrong) and ``spark`` (before top) [angle], and
        ``voltage`` at 800 rpm.

    Raises
    ------
    DrawingError
        A value outside what is drawn.

    Examples
    --------
    >>> made, late = sheared_key("0 mm", "14 mm").shown, sheared_key("1 mm", "14 mm").shown
    >>> bool(late["spark"] < made["spark"]), late["voltage"] == made["voltage"]
    (True, True)
    """
    step = float(units.read(offset, expect="mm").to("mm").magnitude)
    wide = float(units.read(shaft, expect="mm").to("mm").magnitude)
    if abs(step) > _OFFSET or not _SHAFTS[0] <= wide <= _SHAFTS[1]:
        raise DrawingError(
            f"{step:g} mm, {wide:g} mm: the figure shows steps to 2 mm and shafts of 10 to 20 mm"
        )
    size = float(geometry.key_offset_angle(f"{abs(step):.10g} mm", f"{wide:.10g} mm").to("deg").magnitude)
    turned = math.copysign(size, step)
    set_at, volts = _spark()
    spark = set_at - turned
    way = "as made" if step == 0 else f"{size:.1f}° {'late' if step > 0 else 'early'}"
    words = (
        f"A step of {abs(step):.1f} mm on a shaft of {wide:.0f} mm turns the flywheel by {size:.1f} degrees."
        f" The spark comes {spark:.1f} degrees before top instead of {set_at:.1f}: {way}. At 800 rpm the"
        f" module still gives {volts:.1f} kV."
    )
    canvas = Canvas(720, 400, "A key that has given way", words)
    _keyway(canvas, turned, wide)
    frame = Frame(330, 150, 360, 60, (60, -20), (0, 1))
    canvas.rect(frame.left, frame.top, frame.width, frame.height, fill=PAPER)
    for mark in range(60, -21, -10):
        x = frame.x(mark)
        canvas.line(x, 150, x, 210, weight="hair", dash="dot", colour=GUIDE)
        canvas.label(x, 232, f"{mark}", size=15, anchor="middle")
    canvas.label(510, 258, "degrees before top dead centre", size=16, anchor="middle")
    canvas.line(frame.x(0), 140, frame.x(0), 210, weight="bold")
    canvas.label(frame.x(0), 132, "top", size=15, anchor="middle")
    canvas.line(frame.x(set_at), 150, frame.x(set_at), 210, weight="normal", dash="dash", colour=BLUE)
    canvas.line(frame.x(spark), 150, frame.x(spark), 210, weight="bold", colour=RUST)
    canvas.marker(frame.x(spark), 180, size=8, colour=RUST)
    canvas.label(330, 40, f"flywheel off by {size:.1f}°", size=20, strong=True)
    canvas.label(330, 70, f"spark {spark:.1f}° before top: {way}", size=18, strong=True, colour=RUST)
    canvas.label(330, 98, f"dashed: as made, {set_at:.1f}°", size=16, colour=BLUE)
    canvas.label(330, 310, f"at 800 rpm still {volts:.1f} kV, as before", size=17, strong=True)
    shown = {
        "angle": units.ureg.Quantity(size, "deg"),
        "spark": units.ureg.Quantity(spark, "deg"),
        "voltage": units.ureg.Quantity(volts, "kV"),
    }
    return Picture(canvas.svg(), words, shown)


def _keyway(canvas: Canvas, turned: float, wide: float) -> None:
    """Hub and shaft seen from the end, the hub's half of the keyway turned behind."""
    x, y, scale = 155.0, 190.0, 8.0
    radius = wide / 2 * scale
    canvas.circle(x, y, radius + 46, fill=STEEL)
    canvas.circle(x, y, radius, fill=PAPER, weight="bold")
    half, deep = 10.0, 14.0

    def slot(angle: float, inner: float, outer: float) -> list[tuple[float, float]]:
        turn = math.radians(angle)
        along, across = (math.sin(turn), -math.cos(turn)), (math.cos(turn), math.sin(turn))
        corners = ((inner, -half), (outer, -half), (outer, half), (inner, half))
        return [(x + r * along[0] + s * across[0], y + r * along[1] + s * across[1]) for r, s in corners]

    canvas.path(slot(0, radius - deep, radius), closed=True, fill=canvas.hatch)
    canvas.path(slot(-turned, radius, radius + deep), closed=True, fill=canvas.hatch)
    canvas.label(x, y + 6, "shaft", size=17, anchor="middle")
    canvas.label(x, y + radius + 30, "hub", size=17, anchor="middle")
    canvas.label(20, 376, "the shaft turns clockwise; hatched: the key's two halves", size=15, colour=INK)
