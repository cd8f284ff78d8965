"""Figures of lesson 02: ports, piston and pressures round one turn; piston depth against crank angle."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from twostroke import compression, geometry, units
from twostroke.crankcase import Crankcase
from twostroke.lesson.drawing import BLUE, GUIDE, INK, RUST, Canvas, DrawingError, Frame, Picture
from twostroke.lesson.figures import cycle_parts, demo_engine

if TYPE_CHECKING:
    from pint import Quantity

_STEP = 5  # degrees between the points of a curve
_EXHAUST = (16.0, 21.0)  # mm, depths of the exhaust roof that are drawn
_RODS = (40.0, 80.0)  # mm


def _degrees(angle: Quantity) -> float:
    return float(angle.to("deg").magnitude)


def _bar(pressure: Quantity) -> float:
    return float(pressure.to("bar").magnitude)


@cache
def _case() -> Crankcase:
    transfer = geometry.crank_angle(demo_engine.TRANSFER_DEPTH, demo_engine.STROKE, demo_engine.ROD)
    return Crankcase(demo_engine.engine(), transfer, demo_engine.INTAKE_OPENING, demo_engine.CRANKCASE_RATIO)


@cache
def _crankcase_curve() -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Angles [deg after top dead centre] and pressures [bar] below the piston; a step where a port opens."""
    transfer, intake = (
        _degrees(units.read(_case().transfer_opening)),
        _degrees(units.read(_case().intake_opening)),
    )
    edges = (transfer, 360 - intake)
    angles = sorted(
        {*range(0, 361, _STEP), *edges, *(edge - 1e-3 for edge in edges), *(edge + 1e-3 for edge in edges)}
    )
    return tuple(angles), tuple(_bar(_case().pressure(f"{angle:.6f} deg")) for angle in angles)


@cache
def _squeeze() -> tuple[float, ...]:
    """Pressure [bar] every step from top to bottom, had the charge been shut in from bottom dead centre."""
    whole = compression.Cylinder(
        demo_engine.BORE, demo_engine.STROKE, demo_engine.ROD, demo_engine.RATIO, "180 deg"
    )
    return tuple(
        _bar(compression.charge_at(whole, f"{a} deg").pressure_absolute) for a in range(0, 181, _STEP)
    )


@cache
def _above(depth: str) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Angles and pressures [bar] above the piston: the squeeze begins where the exhaust port closes."""
    engine = demo_engine.engine(depth)
    closing = _degrees(engine.port_closing)
    scale = _bar(compression.charge_at(engine, "0 deg").pressure_absolute) / _squeeze()[0]
    air = _bar(compression.standard_atmosphere("0 m").pressure)
    half = [
        (angle, squeezed * scale if angle < closing else air)
        for angle, squeezed in zip(range(0, 181, _STEP), _squeeze(), strict=True)
    ]
    turn = [*half, *((360 - angle, value) for angle, value in reversed(half[:-1]))]
    return tuple(float(angle) for angle, _ in turn), tuple(value for _, value in turn)


def round_the_crank(angle: str | Quantity, exhaust: str | Quantity) -> Picture:
    """Piston and ports at a crank angle, the port timing as a ring, and both pressures over one turn.

    Parameters
    ----------
    angle : quantity or text
        Crank angle after top dead centre, 0 to 360 degrees. [deg]
    exhaust : quantity or text
        Depth of the exhaust port's roof below top dead centre, 16 to 21 mm. [mm]

    Returns
    -------
    Picture
        ``shown`` holds ``depth`` [length], ``above``, ``below`` [pressure], ``exhaust_opening``,
        ``exhaust_duration``, ``blowdown`` [angle] and ``trapped_ratio`` (float).

    Raises
    ------
    DrawingError
        A value outside what is drawn.

    Notes
    -----
    The engine is turned and does not fire. An open port is taken to level the pressure at once, and nothing
    leaks.

    Examples
    --------
    >>> shown = round_the_crank("0 deg", "19 mm").shown
    >>> print(f"{shown['exhaust_opening']:.1f}, {shown['trapped_ratio']:.1f}")
    102.4 deg, 6.4
    """
    turned = _degrees(units.read(angle, expect="deg"))
    roof = units.read(exhaust, expect="mm").to("mm").magnitude
    if not 0 <= turned <= 360 or not _EXHAUST[0] <= roof <= _EXHAUST[1]:
        raise DrawingError(
            f"{turned:g} deg, {roof:g} mm: the figure shows 0 to 360 deg and roofs at"
            f" {_EXHAUST[0]:g} to {_EXHAUST[1]:g} mm"
        )
    engine = demo_engine.engine(f"{roof:.10g} mm")
    openings = cycle_parts.Openings(
        _degrees(engine.port_closing),
        _degrees(units.read(_case().transfer_opening)),
        _degrees(units.read(_case().intake_opening)),
    )
    depth = engine.piston_depth(f"{turned:.10g} deg")
    from_top = min(turned, 360 - turned)
    shut = from_top < openings.exhaust
    above = (
        compression.charge_at(engine, f"{from_top:.10g} deg").pressure_absolute
        if shut
        else compression.standard_atmosphere("0 m").pressure.to("bar")
    )
    below = _case().pressure(f"{turned:.10g} deg")
    states = openings.states(turned)
    duration = geometry.port_duration(engine.port_closing)
    words = (
        f"At {turned:.0f} degrees after top dead centre the piston is {depth.magnitude:.1f} mm down."
        f" Exhaust {states[0]}, transfer {states[1]}, intake {states[2]}. Above the piston"
        f" {_bar(above):.2f} bar absolute, below it {_bar(below):.2f} bar. The exhaust is open for"
        f" {duration.magnitude:.0f} degrees of a turn; the trapped ratio is {engine.trapped_ratio:.1f}."
    )
    canvas = Canvas(720, 560, "Ports, piston and pressure round the crank", words)
    cycle_parts.cut_away(canvas, depth.magnitude, turned, roof, openings)
    cycle_parts.ring(canvas, turned, openings)
    _pressures(canvas, turned, roof, _bar(above), _bar(below))
    shown = {
        "depth": depth,
        "above": above,
        "below": below,
        "exhaust_opening": engine.port_closing,
        "exhaust_duration": duration,
        "blowdown": _case().transfer_opening - engine.port_closing,
        "trapped_ratio": engine.trapped_ratio,
    }
    return Picture(canvas.svg(), words, shown)


def _pressures(canvas: Canvas, turned: float, roof: float, above: float, below: float) -> None:
    """Both pressures over one turn on one angle axis."""
    upper = Frame(300, 268, 396, 92, (0, 360), (0, 12))
    lower = Frame(300, 416, 396, 80, (0, 360), (0.7, 1.4))
    canvas.label(300, 256, f"above the piston: {above:.2f} bar absolute", size=16, strong=True, colour=BLUE)
    canvas.label(300, 404, f"below it, in the crankcase: {below:.2f} bar absolute", size=16, strong=True)
    turns = [0.0, 90.0, 180.0, 270.0, 360.0]
    cycle_parts.plain_axes(canvas, upper, "bar", turns, [0.0, 6.0, 12.0])
    name = "crank angle after top dead centre, degrees"
    lower.axes(canvas, name, "bar", x_ticks=turns, y_ticks=[0.8, 1.0, 1.2, 1.4])
    for frame in (upper, lower):
        x = frame.x(turned)
        canvas.line(x, frame.top, x, frame.top + frame.height, dash="dash", colour=RUST)
    upper.curve(canvas, *_above(f"{roof:.10g} mm"), weight="bold", colour=BLUE)
    lower.curve(canvas, *_crankcase_curve(), weight="normal")
    canvas.marker(upper.x(turned), upper.y(above), colour=RUST)
    canvas.marker(lower.x(turned), lower.y(below), colour=RUST)


@cache
def _depths(rod: str) -> tuple[tuple[float, ...], tuple[float, ...]]:
    angles = tuple(float(angle) for angle in range(0, 181, 5))
    return angles, tuple(
        float(geometry.piston_depth(f"{angle} deg", demo_engine.STROKE, rod).magnitude) for angle in angles
    )


def depth_against_angle(angle: str | Quantity, rod: str | Quantity, guess: Quantity | None = None) -> Picture:
    """Depth of the piston against crank angle, with the straight line that it is often taken for.

    Parameters
    ----------
    angle : quantity or text
        Crank angle from top dead centre, 0 to 180 degrees. [deg]
    rod : quantity or text
        Connecting rod between centres, 40 to 80 mm. [mm]
    guess : quantity, optional
        The reader's depth at 90 degrees [length], marked when it lies on the scale.

    Returns
    -------
    Picture
        ``shown`` holds ``depth`` and ``straight`` (by proportion) [length].

    Raises
    ------
    DrawingError
        A value outside what is drawn.

    Examples
    --------
    >>> print(f"{depth_against_angle('90 deg', '48 mm').shown['depth']:.2f}")
    16.09 mm
    """
    turned = _degrees(units.read(angle, expect="deg"))
    long = units.read(rod, expect="mm").to("mm").magnitude
    if not 0 <= turned <= 180 or not _RODS[0] <= long <= _RODS[1]:
        raise DrawingError(
            f"{turned:g} deg, rod {long:g} mm: the figure shows 0 to 180 deg and rods of 40 to 80 mm"
        )
    stroke = units.read(demo_engine.STROKE).to("mm")
    depth = geometry.piston_depth(f"{turned:.10g} deg", demo_engine.STROKE, f"{long:.10g} mm")
    straight = stroke * turned / 180
    words = (
        f"With a rod of {long:.0f} mm and a stroke of {stroke.magnitude:.0f} mm the piston is"
        f" {depth.magnitude:.2f} mm down at {turned:.0f} degrees. By proportion it would be"
        f" {straight.magnitude:.2f} mm."
    )
    canvas = Canvas(700, 380, "Piston depth against crank angle", words)
    frame = Frame(80, 30, 590, 280, (0, 180), (30, 0))
    frame.axes(
        canvas, "crank angle from top dead centre, degrees", "depth of the piston, mm",
        x_ticks=[0, 30, 60, 90, 120, 150, 180], y_ticks=[0, 5, 10, 15, 20, 25, 30],
    )  # fmt: skip
    canvas.line(frame.x(0), frame.y(0), frame.x(180), frame.y(stroke.magnitude), dash="dash", colour=GUIDE)
    canvas.label(frame.x(20), frame.y(18), "dashed: by proportion", size=16)
    frame.curve(canvas, *_depths(f"{long:.10g} mm"), weight="bold", colour=BLUE)
    x, y = frame.x(turned), frame.y(depth.magnitude)
    canvas.line(x, frame.top, x, y, weight="thin", dash="dot", colour=INK)
    canvas.marker(x, y, size=7, colour=RUST)
    right = turned > 90
    canvas.label(
        x + (-14 if right else 14), max(y - 8, 50), f"{turned:.0f}° → {depth.magnitude:.2f} mm", size=19,
        strong=True, anchor="end" if right else "start", colour=RUST,
    )  # fmt: skip
    if guess is not None and 0 <= guess.to("mm").magnitude <= 30:
        at = frame.y(guess.to("mm").magnitude)
        canvas.marker(frame.x(90), at, shape="diamond", colour=RUST, size=8)
        canvas.label(frame.x(90) + 14, at + 20, "your prediction for 90°", size=16)
    return Picture(canvas.svg(), words, {"depth": depth, "straight": straight})
