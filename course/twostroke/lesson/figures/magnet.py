"""Figures of lesson 03: a magnet passing the legs, and the trace of one spark."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

import numpy as np

from twostroke import burn, ignition, units
from twostroke.errors import RangeError
from twostroke.lesson.drawing import (
    BLUE,
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
from twostroke.lesson.figures.cycle_parts import plain_axes
from twostroke.magneto import Core

if TYPE_CHECKING:
    from pint import Quantity

_REACH = 36.0  # degrees either side of aligned
_SPEEDS = (100.0, 1200.0)  # rpm
_DEMANDS = (3.0, 18.0)  # kV
_HORIZON = 2.0e-3  # s
_LEFT, _WIDTH = 84.0, 600.0


@cache
def _flux() -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Degrees past aligned and flux through the core [uWb], driving the other way first."""
    system = demo_engine.ignition_system()
    core = Core("10 mm", "8 mm", "24 mm", "12 mm", "14 mm", "8 mm", "1.00 T", 1.07, "24 mm", "8 mm", 2000)
    degrees = np.linspace(-_REACH, _REACH, 289)
    x = np.radians(degrees) * float(system.flywheel_radius)
    flux, _ = core.solve(x, float(system.gap_1), float(system.gap_2))
    return tuple(degrees.tolist()), tuple((flux * 1e6).tolist())


@cache
def _driving() -> tuple[float, ...]:
    """Volts that the passing flux induces in the open primary at 1 rpm."""
    degrees, flux = _flux()
    turns = float(demo_engine.ignition_system().primary_turns)
    per_radian = np.gradient(np.array(flux) * 1e-6, np.radians(np.array(degrees)))
    return tuple((turns * per_radian * 2 * math.pi / 60).tolist())


@dataclass(frozen=True)
class _Pass:
    """One pass of the magnet: degrees and amperes of the primary, where it opens, and what comes of it."""

    degrees: tuple[float, ...]
    amperes: tuple[float, ...]
    opens: float
    volts: float
    joules: float
    opening_amperes: float


@cache
def _pass(rpm: float) -> _Pass:
    """Everything about one speed from one run of the circuits; ``opens`` is nan where it never closes."""
    opened, flat, outcome = ignition.transient(demo_engine.ignition_system(), [rpm], record=True)
    if not bool(opened.conducts[0]) or opened.nodes is None or opened.current is None:
        return _Pass((-_REACH, _REACH), (0.0, 0.0), math.nan, 0.0, 0.0, 0.0)
    degrees = np.degrees(opened.nodes[:, 0] / flat["flywheel_radius"][0])
    at = float(np.degrees(opened.position[0] / flat["flywheel_radius"][0]))
    before = (degrees < at) & (degrees >= -_REACH)
    last = float(opened.i1[0])
    return _Pass(
        (*degrees[before].tolist(), at, at, _REACH),
        (*opened.current[before, 0].tolist(), last, 0.0, 0.0),
        at,
        float(min(outcome.peak[0], flat["flashover"][0])),
        float(0.5 * flat["n1"][0] ** 2 * opened.permeance[0] * last**2),
        last,
    )


def magnet_passing(angle: str | Quantity, speed: str | Quantity) -> Picture:
    """The flywheel's magnet under the module, with flux, induced voltage and primary current.

    Parameters
    ----------
    angle : quantity or text
        How far the magnet's middle is past the module's middle, -36 to 36 degrees. [deg]
    speed : quantity or text
        Of the flywheel, 100 to 1200 rpm. [rpm]

    Returns
    -------
    Picture
        ``shown`` holds ``flux``, ``induced``, ``current`` at the angle, and ``voltage`` (available at the
        plug), ``energy`` and ``opens_at`` (angle, or None).

    Raises
    ------
    DrawingError
        A value outside what is drawn.

    Notes
    -----
    The rule by which the module opens (at the current's peak, or at a set current): common practice, no
    source.

    Examples
    --------
    >>> slow, fast = (magnet_passing("0 deg", rpm).shown["voltage"] for rpm in ("300 rpm", "800 rpm"))
    >>> bool(fast > 2 * slow)
    True
    """
    turned = float(units.read(angle, expect="deg").to("deg").magnitude)
    rpm = float(units.read(speed, expect="rpm").to("rpm").magnitude)
    if abs(turned) > _REACH or not _SPEEDS[0] <= rpm <= _SPEEDS[1]:
        raise DrawingError(f"{turned:g} deg, {rpm:g} rpm: the figure shows -36 to 36 deg and 100 to 1200 rpm")
    degrees, flux = _flux()
    induced = [value * rpm for value in _driving()]
    run = _pass(rpm)
    angles, amperes, opens = run.degrees, run.amperes, run.opens
    volts, joules, top = run.volts, run.joules, run.opening_amperes
    now_flux, now_volts = (round(float(np.interp(turned, degrees, v)), 2) + 0.0 for v in (flux, induced))
    ran = turned < opens if not math.isnan(opens) else False
    now_amperes = float(np.interp(turned, angles[:-2], amperes[:-2])) if ran else 0.0
    side = "before" if turned < 0 else "past"
    outcome = (
        f"The primary opens at {opens:.0f} degrees with {top:.1f} A and {joules * 1e3:.1f} mJ; the plug could"
        f" get {volts / 1e3:.1f} kV."
        if not math.isnan(opens)
        else "The module never switches at this speed: no spark."
    )
    words = (
        f"The magnet's middle is {abs(turned):.0f} degrees {side} the module's middle, at {rpm:.0f} rpm. Flux"
        f" {now_flux:.0f} µWb, induced {now_volts:.1f} V, primary current {now_amperes:.1f} A. {outcome}"
    )
    canvas = Canvas(720, 660, "A magnet passing the legs", words)
    _machine(canvas, turned, now_flux)
    frames = (
        (Frame(_LEFT, 218, _WIDTH, 90, (-_REACH, _REACH), (-20, 100)), "µWb", [0.0, 40.0, 80.0]),
        (Frame(_LEFT, 348, _WIDTH, 90, (-_REACH, _REACH), (-12, 12)), "V", [-10.0, 0.0, 10.0]),
        (Frame(_LEFT, 478, _WIDTH, 90, (-_REACH, _REACH), (0, 6)), "A", [0.0, 2.0, 4.0, 6.0]),
    )
    heads = (
        f"flux through the core: {now_flux:.0f} µWb",
        f"voltage that it induces in the open primary: {now_volts:.1f} V",
        f"primary current: {now_amperes:.1f} A",
    )
    lines = ((degrees, flux), (degrees, induced), (angles, amperes))
    ticks = [-30.0, -20.0, -10.0, 0.0, 10.0, 20.0, 30.0]
    styles = (("bold", "solid", BLUE), ("normal", "dash", INK), ("bold", "solid", RUST))
    for (frame, unit, y_ticks), head, line, style in zip(frames, heads, lines, styles, strict=True):
        if frame is frames[-1][0]:
            name = "degrees of the flywheel past aligned"
            frame.axes(canvas, name, unit, x_ticks=ticks, y_ticks=y_ticks)
        else:
            plain_axes(canvas, frame, unit, ticks, y_ticks)
        weight, dash, colour = style
        frame.curve(canvas, *line, weight=weight, dash=dash, colour=colour)
        place = frame.x(turned)
        canvas.line(place, frame.top, place, frame.top + frame.height, dash="dot")
        canvas.label(_LEFT, frame.top - 8, head, size=16, strong=True)
    result = "no spark" if math.isnan(opens) else f"{volts / 1e3:.1f} kV at the plug, {joules * 1e3:.1f} mJ"
    canvas.label(_LEFT, 644, f"{rpm:.0f} rpm: {result}", size=20, strong=True, colour=RUST)
    shown = {
        "flux": units.ureg.Quantity(now_flux, "uWb"),
        "induced": units.ureg.Quantity(now_volts, "V"),
        "current": units.ureg.Quantity(now_amperes, "A"),
        "voltage": units.ureg.Quantity(volts / 1e3, "kV"),
        "energy": units.ureg.Quantity(joules * 1e3, "mJ"),
        "opens_at": None if math.isnan(opens) else units.ureg.Quantity(opens, "deg"),
    }
    return Picture(canvas.svg(), words, shown)


def _machine(canvas: Canvas, turned: float, flux: float) -> None:
    """Core above, magnet with its two shoes below, unrolled, to the scale of the angle axis."""
    system = demo_engine.ignition_system()
    radius = float(system.flywheel_radius) * 1e3
    scale = _WIDTH / (2 * math.radians(_REACH) * radius)  # px per mm
    middle, face = _LEFT + _WIDTH / 2, 122.0
    pitch, leg, shoe = (1e3 * float(value) for value in (system.pitch, system.leg_width, system.shoe_width))
    half, wide = pitch / 2 * scale, leg * scale  # px
    top = 30.0
    outer, inner = half + wide / 2, half - wide / 2
    right = [(outer, top), (outer, face), (inner, face), (inner, top + 30)]
    outline = [(middle + x, y) for x, y in right] + [(middle - x, y) for x, y in reversed(right)]
    canvas.path(outline, closed=True, fill=canvas.hatch)
    canvas.rect(middle - half - wide / 2 - 16, 70, wide + 32, 40, fill=PAPER, weight="bold")
    for row in range(4):
        y = 76 + row * 9
        canvas.line(middle - half - wide / 2 - 12, y, middle - half + wide / 2 + 12, y, weight="hair")
    canvas.label(middle - half - wide / 2 - 24, 96, "windings", size=16, anchor="end")
    canvas.label(middle + half, 96, "core", size=16, anchor="middle")
    gap = 1e3 * float(system.gap_1) * scale
    at = middle + math.radians(turned) * radius * scale
    low = face + gap
    for way, name in ((-1.0, "S"), (1.0, "N")):
        left = at + way * half - shoe * scale / 2
        canvas.rect(left, low, shoe * scale, 48, fill=STEEL)
        if 20 < left + shoe * scale / 2 < 700:
            canvas.label(left + shoe * scale / 2, low + 32, name, size=20, anchor="middle", strong=True)
    canvas.rect(at - half + shoe * scale / 2, low + 14, 2 * half - shoe * scale, 34, fill=canvas.dots)
    if 60 < at < 660:
        canvas.label(at, low + 38, "magnet", size=16, anchor="middle")
    canvas.line(at, low + 48, at, low + 66, dash="dot")
    if abs(flux) > 8:
        way = math.copysign(1.0, flux)
        size = min(abs(flux), 90) * 0.8
        canvas.arrow(middle - way * size, top + 15, middle + way * size, top + 15, weight="bold", colour=BLUE)
    canvas.line(middle, 8, middle, top, weight="hair", dash="chain", colour=GUIDE)


@cache
def _trace(rpm: float, kilovolts: float) -> burn.Waveform | None:
    """The trace, or None where the module never switches."""
    try:
        return burn.waveform(
            demo_engine.ignition_system(), rpm, kilovolts * 1e3, horizon=_HORIZON, doublings=10
        )
    except RangeError:
        return None


def spark_trace(speed: str | Quantity, demand: str | Quantity) -> Picture:
    """Voltage at the plug after the module opens: spike, flat line, ringing.

    Parameters
    ----------
    speed : quantity or text
        Of the flywheel, 100 to 1200 rpm. [rpm]
    demand : quantity or text
        Voltage at which the gap on the lead breaks down, 3 to 18 kV. [kV]

    Returns
    -------
    Picture
        ``shown`` holds ``peak`` [voltage], ``burn`` [time] and ``fires`` (1.0 or 0.0).

    Raises
    ------
    DrawingError
        A value outside what is drawn.

    Examples
    --------
    >>> spark_trace("800 rpm", "8 kV").shown["fires"], spark_trace("300 rpm", "8 kV").shown["fires"]
    (1.0, 0.0)
    """
    rpm = float(units.read(speed, expect="rpm").to("rpm").magnitude)
    need = float(units.read(demand, expect="kV").to("kV").magnitude)
    if not _SPEEDS[0] <= rpm <= _SPEEDS[1] or not _DEMANDS[0] <= need <= _DEMANDS[1]:
        raise DrawingError(f"{rpm:g} rpm, {need:g} kV: the figure shows 100 to 1200 rpm and 3 to 18 kV")
    seen = _trace(rpm, need)
    fires = seen is not None and not math.isnan(seen.breakdown)
    peak = 0.0 if seen is None else float(np.max(seen.plug_voltage)) / 1e3
    burning = (seen.burn_end - seen.breakdown) * 1e3 if seen is not None and fires else 0.0
    if seen is None:
        outcome = "The module never switches, so nothing is seen."
    elif fires:
        outcome = f"Spike to {peak:.1f} kV, a flat line for {burning:.2f} ms while it burns, then ringing."
    else:
        outcome = f"Peak {peak:.1f} kV: the gap does not break down. No flat line, only ringing."
    words = f"At {rpm:.0f} rpm, with a gap that asks for {need:.1f} kV. {outcome}"
    canvas = Canvas(720, 390, "Trace of one spark", words)
    frame = Frame(_LEFT, 40, _WIDTH, 270, (0, _HORIZON * 1e3), (-4, 20))
    frame.axes(canvas, "time after the module opened, ms", "voltage at the plug, kV",
               x_ticks=[0, 0.4, 0.8, 1.2, 1.6, 2.0], y_ticks=[-4, 0, 4, 8, 12, 16, 20])  # fmt: skip
    y = frame.y(need)
    canvas.line(_LEFT, y, _LEFT + _WIDTH, y, weight="thin", dash="dash", colour=RUST)
    canvas.label(
        _LEFT + _WIDTH - 4, y - 8, f"the gap asks for {need:.1f} kV", size=16, anchor="end", colour=RUST
    )
    if seen is not None:
        times = np.unique(np.concatenate([np.linspace(0, 6e-5, 70), np.linspace(6e-5, _HORIZON, 320)]))
        volts = np.clip(seen.sampled(times) / 1e3, -4, 20)
        frame.curve(canvas, (times * 1e3).tolist(), volts.tolist(), weight="thin", colour=BLUE)
        canvas.label(_LEFT + 40, min(frame.y(peak) + 24, 300), f"peak {peak:.1f} kV", size=18, strong=True)
        said = f"flat line: burns {burning:.2f} ms" if fires else "no flat line: it did not fire"
        canvas.label(_LEFT + 190, frame.y(2.2), said, size=18, strong=True)
    else:
        canvas.label(_LEFT + 190, frame.y(2.2), "no switching: nothing seen", size=18, strong=True)
    shown = {
        "peak": units.ureg.Quantity(peak, "kV"),
        "burn": units.ureg.Quantity(burning, "ms"),
        "fires": 1.0 if fires else 0.0,
    }
    return Picture(canvas.svg(), words, shown)
