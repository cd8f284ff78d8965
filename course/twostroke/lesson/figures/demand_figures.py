"""Figures of lesson 04: what the plug asks for against what the module gives; a tester that stands for it."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

import numpy as np

from twostroke import breakdown, compression, demand, ignition, units
from twostroke.lesson.drawing import BLUE, GUIDE, INK, RUST, STEEL, Canvas, DrawingError, Frame, Picture
from twostroke.lesson.figures import demo_engine

if TYPE_CHECKING:
    from pint import Quantity

_PRESSURES = (1.0, 11.0)  # bar absolute
_GAPS = (0.3, 1.2)  # mm
_SPEEDS = (200.0, 1200.0)  # rpm
_TESTER = (1.0, 14.0)  # mm
_TOP = 24.0  # kV, of the drawn scale
_AIR, _ROOM = 1.01325, 293.15  # bar, K: the air before it is squeezed


def _kelvin(bar: float) -> float:
    """Temperature of air squeezed from the open to a pressure, exponent as when cranking."""
    n = float(compression.CRANKING_EXPONENT)
    return _ROOM * max(bar / _AIR, 1.0) ** ((n - 1) / n)


def _asked(gap: float, bar: float) -> float:
    """Kilovolts that a gap [mm] asks for at a pressure [bar absolute]."""
    return breakdown.uniform_field(gap * 1e-3, bar * 1e5, _kelvin(bar)) / 1e3


@cache
def _given() -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Speeds [rpm] and kilovolts at the plug of the demo module."""
    speeds = np.arange(_SPEEDS[0], _SPEEDS[1] + 1, 20.0)
    volts = ignition.available(demo_engine.ignition_system(), speeds).voltage[0]
    return tuple(speeds.tolist()), tuple((volts / 1e3).tolist())


def available_at(rpm: float) -> float:
    """Kilovolts of the demo module at a speed, from the table of 20 rpm steps.

    Examples
    --------
    >>> 13 < available_at(800) < 14.5
    True
    """
    return float(np.interp(rpm, *_given()))


def demand_against_available(gap: str | Quantity, pressure: str | Quantity, speed: str | Quantity) -> Picture:
    """What a plug gap asks for over the pressure, with its spread, and what the module gives at a speed.

    Parameters
    ----------
    gap : quantity or text
        Between the plug's electrodes, 0.3 to 1.2 mm. [mm]
    pressure : quantity or text
        Absolute, in the cylinder when the spark is due, 1 to 11 bar. [bar]
    speed : quantity or text
        Of the flywheel, 200 to 1200 rpm. [rpm]

    Returns
    -------
    Picture
        ``shown`` holds ``demand``, ``open_air``, ``available`` [voltage] and ``sparks`` (1.0, 0.0, or 0.5 for
        "cannot say").

    Raises
    ------
    DrawingError
        A value outside what is drawn.

    Notes
    -----
    Uniform field, a worn plug: a sharp new one asks for less. In a cylinder good to 30 %, drawn as a band.

    Examples
    --------
    >>> shown = demand_against_available("0.6 mm", "6 bar", "800 rpm").shown
    >>> bool(shown["demand"] > 2.5 * shown["open_air"])
    True
    """
    wide = float(units.read(gap, expect="mm").to("mm").magnitude)
    bar = float(units.read(pressure, expect="bar").to("bar").magnitude)
    rpm = float(units.read(speed, expect="rpm").to("rpm").magnitude)
    for value, (low, high) in ((wide, _GAPS), (bar, _PRESSURES), (rpm, _SPEEDS)):
        if not low <= value <= high:
            raise DrawingError(
                f"{wide:g} mm, {bar:g} bar, {rpm:g} rpm: the figure shows 0.3 to 1.2 mm, 1 to 11 bar"
                " absolute, 200 to 1200 rpm"
            )
    asked, open_air, given = _asked(wide, bar), _asked(wide, _AIR), available_at(rpm)
    spread = float(breakdown.IN_CYLINDER_SPREAD)
    kilovolts = [units.ureg.Quantity(value, "kV") for value in (asked, open_air, given)]
    need = demand.Demand(
        kilovolts[0],
        kilovolts[0] * (1 - spread),
        kilovolts[0] * (1 + spread),
        units.ureg.Quantity(bar, "bar"),
        units.ureg.Quantity(_kelvin(bar), "kelvin"),
    )
    verdict = demand.margin(kilovolts[2], need).verdict
    words = (
        f"A gap of {wide:.2f} mm asks for {open_air:.1f} kV in open air and {asked:.1f} kV at {bar:.1f} bar"
        f" absolute, known to 30 per cent. At {rpm:.0f} rpm the module gives {given:.1f} kV."
        f" Verdict: {verdict}."
    )
    canvas = Canvas(720, 420, "What the plug asks for and what the module gives", words)
    frame = Frame(80, 56, 600, 290, (0, 12), (0, _TOP))
    kilovolt_ticks = [0, 4, 8, 12, 16, 20, 24]
    bar_ticks = [0, 2, 4, 6, 8, 10, 12]
    name = "absolute pressure at the plug, bar"
    frame.axes(canvas, name, "kilovolts", x_ticks=bar_ticks, y_ticks=kilovolt_ticks)
    steps = [1.0 + 0.25 * row for row in range(45)]
    middle = [_asked(wide, step) for step in steps]
    upper = [(frame.x(x), frame.y(min(v * (1 + spread), _TOP))) for x, v in zip(steps, middle, strict=True)]
    lower = [(frame.x(x), frame.y(min(v * (1 - spread), _TOP))) for x, v in zip(steps, middle, strict=True)]
    canvas.path([*upper, *reversed(lower)], closed=True, fill=STEEL, weight="hair", colour=GUIDE)
    drawn = [(x, v) for x, v in zip(steps, middle, strict=True) if v <= _TOP]
    frame.curve(canvas, [x for x, _ in drawn], [v for _, v in drawn], weight="bold", colour=INK)
    level = frame.y(given)
    canvas.line(frame.left, level, frame.left + frame.width, level, weight="bold", dash="dash", colour=BLUE)
    x = frame.x(bar)
    canvas.line(x, frame.top, x, frame.top + frame.height, weight="thin", dash="dot", colour=RUST)
    canvas.marker(x, frame.y(min(asked, _TOP)), size=8, colour=RUST)
    canvas.marker(frame.x(_AIR), frame.y(open_air), shape="diamond", size=8, colour=RUST)
    canvas.label(80, 26, f"● asks for {asked:.1f} kV", size=18, strong=True, colour=RUST)
    canvas.label(270, 26, f"◇ in open air {open_air:.1f} kV", size=18, colour=RUST)
    canvas.label(500, 26, f"- - gives {given:.1f} kV", size=18, strong=True, colour=BLUE)
    canvas.label(80, 410, f"Verdict: {verdict}", size=20, strong=True)
    canvas.label(680, 410, "grey: 30 per cent either way", size=16, anchor="end")
    shown = {
        "demand": kilovolts[0],
        "open_air": kilovolts[1],
        "available": kilovolts[2],
        "sparks": {"sparks": 1.0, "does not spark": 0.0}.get(verdict, 0.5),
    }
    return Picture(canvas.svg(), words, shown)


def gap_of_tester(tester: str | Quantity, gap: str | Quantity) -> Picture:
    """A tester's pointed gap in open air beside the plug's gap, in open air and under compression.

    Parameters
    ----------
    tester : quantity or text
        Distance between the tester's points, 1 to 14 mm. [mm]
    gap : quantity or text
        Between the plug's electrodes, 0.3 to 1.2 mm. [mm]

    Returns
    -------
    Picture
        ``shown`` holds ``tester``, ``open_air``, ``compression`` [voltage] and ``stands_for`` [length], the
        tester gap that asks for as much as the plug under compression.

    Raises
    ------
    DrawingError
        A value outside what is drawn.

    Notes
    -----
    Needle points, table from memory. The tester's own points are blunter and ask for more.

    Examples
    --------
    >>> print(f"{gap_of_tester('6 mm', '0.6 mm').shown['tester']:.1f}")
    7.1 kV
    """
    space = float(units.read(tester, expect="mm").to("mm").magnitude)
    wide = float(units.read(gap, expect="mm").to("mm").magnitude)
    if not _TESTER[0] <= space <= _TESTER[1] or not _GAPS[0] <= wide <= _GAPS[1]:
        raise DrawingError(
            f"{space:g} mm, {wide:g} mm: the figure shows testers of 1 to 14 mm, plugs 0.3 to 1.2 mm"
        )
    at = _spark_pressure()
    asked, open_air = _asked(wide, at), _asked(wide, _AIR)
    jumps = float(breakdown.needle_gap_voltage(f"{space:.10g} mm").to("kV").magnitude)
    same = breakdown.needle_gap_for(f"{asked:.6g} kV")
    words = (
        f"The tester at {space:.1f} mm asks for {jumps:.1f} kV. The plug at {wide:.2f} mm asks for"
        f" {open_air:.1f} kV in open air and {asked:.1f} kV at {at:.1f} bar absolute. A tester gap of"
        f" {same.magnitude:.1f} mm would stand for it."
    )
    canvas = Canvas(720, 340, "A tester that stands for the plug", words)
    frame = Frame(250, 40, 440, 210, (0, 24), (0, 3))
    scale = "kilovolts asked for"
    for value in (0, 4, 8, 12, 16, 20, 24):
        place = frame.x(value)
        canvas.line(place, 40, place, 250, weight="hair", dash="dot", colour=GUIDE)
        canvas.label(place, 272, f"{value}", size=15, anchor="middle")
    canvas.label(470, 296, scale, size=16, anchor="middle")
    rows = (
        (f"tester, {space:.1f} mm in air", jumps, canvas.hatch, 0.0),
        (f"plug, {wide:.2f} mm in air", open_air, canvas.dots, 0.0),
        (f"plug at {at:.1f} bar", asked, STEEL, float(breakdown.IN_CYLINDER_SPREAD)),
    )
    for row, (name, kilovolts, fill, spread) in enumerate(rows):
        top = 52.0 + row * 68
        canvas.rect(250, top, frame.x(min(kilovolts, 24)) - 250, 34, fill=fill)
        canvas.label(240, top + 23, name, size=17, anchor="end")
        canvas.label(min(frame.x(kilovolts) + 10, 620), top - 4, f"{kilovolts:.1f} kV", size=17, strong=True)
        if spread:
            low, high = frame.x(kilovolts * (1 - spread)), frame.x(min(kilovolts * (1 + spread), 24))
            canvas.arrow(low, top + 17, high, top + 17, both=True, colour=RUST)
    line = frame.x(min(asked, 24))
    canvas.line(line, 40, line, 250, weight="thin", dash="dash", colour=RUST)
    said = "asks for at least as much as the plug" if jumps >= asked else "asks for less than the plug does"
    canvas.label(250, 328, f"tester: {said}", size=18, strong=True)
    shown = {
        "tester": units.ureg.Quantity(jumps, "kV"),
        "open_air": units.ureg.Quantity(open_air, "kV"),
        "compression": units.ureg.Quantity(asked, "kV"),
        "stands_for": same,
    }
    return Picture(canvas.svg(), words, shown)


@cache
def _spark_pressure() -> float:
    """Absolute pressure [bar] in demo engine A 27 degrees before top."""
    charge = compression.charge_at(demo_engine.engine(), "27 deg")
    return float(charge.pressure_absolute.to("bar").magnitude)
