"""Figures of lesson 08: a gauge pumped up at an altitude, and one leak measured dry and wet."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

import numpy as np

from twostroke import _pumping, compression, units
from twostroke.lesson.drawing import BLUE, GUIDE, RUST, Canvas, DrawingError, Frame, Picture, dial
from twostroke.lesson.drawing.axes import tick
from twostroke.lesson.figures import demo_engine

if TYPE_CHECKING:
    from pint import Quantity

SPEED = "600 rpm"
HOSE = "5 mL"
_MOST_PULLS, _HIGHEST, _LONGEST = 12, 3000.0, 15.0
_DIAL = (0.0, 160.0)  # psi
_PSI_PER_BAR = float(units.read("1 bar").to("psi").magnitude)

OIL_SEALS = 0.8
"""Part of the leak past the rings that a spoon of oil closes (common practice, no source)."""
OIL_VOLUME = "0.1 mL"
"""Oil that stays above the piston and takes up room there (common practice, no source)."""
LEAKS = tuple(round(0.05 * row, 2) for row in range(13))  # mm²
SHARES = (0, 25, 50, 75, 100)  # per cent of the leak that goes past the rings
_WET_PULLS = 10


@cache
def _pumped(hose: float) -> tuple[float, ...]:
    """Gauge pressure of the tight demo engine at sea level after each pull [bar]."""
    found = compression.gauge_readings(demo_engine.engine(), _MOST_PULLS, SPEED, f"{hose:g} mL")
    return tuple(float(each) for each in found.to("bar").magnitude)


@cache
def _share_of_air(metres: float) -> float:
    """What a reading at an altitude is of the same reading at sea level."""
    here = compression.reading_at_altitude("1 bar", f"{metres:g} m")
    return float(here.to("bar").magnitude)


def _gauge(canvas: Canvas, x: float, bar: float, radius: float = 118.0, y: float = 166.0) -> None:
    """A dial with psi outside and bar inside."""
    ticks = [0.0, 40.0, 80.0, 120.0, 160.0]
    inner = ("bar", [0.0, 2.0, 4.0, 6.0, 8.0, 10.0], lambda value: value * _PSI_PER_BAR)
    dial(canvas, x, y, radius, bar * _PSI_PER_BAR, _DIAL, ticks, unit="psi", inner=inner)


def pumped_up(
    pulls: float, altitude: str | Quantity, hose: str | Quantity, guess: Quantity | None = None
) -> Picture:
    """A compression gauge on a tight engine, pull by pull, at an altitude.

    Parameters
    ----------
    pulls : float
        Pulls of the rope so far, 0 to 12.
    altitude : quantity or text
        Height above the sea, 0 to 3000 m, standard atmosphere. [m]
    hose : quantity or text
        Room between check valve and engine side of the dial, 1 to 15 mL. [mL]
    guess : quantity, optional
        The reader's prediction [pressure], drawn as a mark on the curve's axis.

    Returns
    -------
    Picture
        ``shown`` holds ``reading`` and ``at_sea_level`` [pressure] after these pulls.

    Raises
    ------
    DrawingError
        A value outside what is drawn.

    Notes
    -----
    Demo engine A at 600 rpm, exponent 1.25 (common practice, no source). Every pressure in the cylinder goes
    with that of the air outside (ISO 2533).

    Examples
    --------
    >>> shown = pumped_up(8, "1500 m", "5 mL").shown
    >>> print(f"{shown['reading'].to('psi'):.0f}, {shown['at_sea_level'].to('psi'):.0f}")
    102 psi, 122 psi
    """
    count = round(pulls)
    metres = float(units.read(altitude, expect="m").to("m").magnitude)
    room = float(units.read(hose, expect="mL").to("mL").magnitude)
    if not 0 <= count <= _MOST_PULLS or not 0 <= metres <= _HIGHEST or not 1 <= room <= _LONGEST:
        raise DrawingError(
            f"{pulls:g} pulls, {metres:g} m, {room:g} mL: the figure shows 0 to 12 pulls, 0 to 3000 m and"
            " 1 to 15 mL"
        )
    sea = (0.0, *_pumped(room))
    share = _share_of_air(metres)
    here = tuple(share * each for each in sea)
    bar, at_sea = here[count], sea[count]
    words = (
        f"After {count} pulls at {tick(metres)} m the gauge shows {bar * _PSI_PER_BAR:.0f} psi, which is"
        f" {bar:.1f} bar. The same engine at sea level would show {at_sea * _PSI_PER_BAR:.0f} psi. The hose"
        f" holds {room:g} mL."
    )
    canvas = Canvas(720, 400, "A gauge pumped up at an altitude", words)
    canvas.label(20, 28, f"gauge after {count} pulls", size=17, strong=True)
    _gauge(canvas, 146, bar)
    canvas.label(
        146, 316, f"{bar * _PSI_PER_BAR:.0f} psi = {bar:.1f} bar", size=20, anchor="middle", strong=True
    )
    frame = Frame(356, 48, 340, 250, (0, _MOST_PULLS), _DIAL)
    frame.axes(
        canvas, "pulls of the rope", "gauge, psi", x_ticks=[0, 2, 4, 6, 8, 10, 12],
        y_ticks=[0, 40, 80, 120, 160],
    )  # fmt: skip
    canvas.label(356, 28, "pull by pull", size=17, strong=True)
    steps = list(range(_MOST_PULLS + 1))
    frame.curve(canvas, steps, [each * _PSI_PER_BAR for each in sea], weight="thin", dash="dash")
    frame.curve(canvas, steps, [each * _PSI_PER_BAR for each in here], weight="bold", colour=BLUE)
    for step in steps[: count + 1]:
        canvas.marker(frame.x(step), frame.y(here[step] * _PSI_PER_BAR), size=4.5, colour=BLUE)
    canvas.marker(frame.x(count), frame.y(bar * _PSI_PER_BAR), size=7)
    canvas.label(frame.x(0.3), frame.y(148), "dashed: at 0 m", size=15)
    canvas.label(frame.x(0.3), frame.y(134), f"bold: at {tick(metres)} m", size=15, colour=BLUE)
    if guess is not None and 0 <= guess.to("psi").magnitude <= _DIAL[1]:
        y = frame.y(guess.to("psi").magnitude)
        canvas.marker(frame.x(10), y, shape="diamond", colour=RUST, size=8)
        canvas.label(frame.x(10) - 14, y - 8, "your prediction ◇", size=16, anchor="end")
    law = f"at {tick(metres)} m the air, and so the gauge, has {100 * share:.0f} per cent of sea level"
    canvas.label(20, 382, law, size=18, strong=True, colour=RUST)
    shown = {
        "reading": units.ureg.Quantity(bar, "bar"),
        "at_sea_level": units.ureg.Quantity(at_sea, "bar"),
    }
    return Picture(canvas.svg(), words, shown)


@cache
def _oiled() -> compression.Cylinder:
    """The demo engine with a little oil above the piston."""
    engine = demo_engine.engine()
    room = engine.clearance_volume - units.read(OIL_VOLUME)
    ratio = float(((engine.displacement + room) / room).to("").magnitude)
    return compression.Cylinder(
        demo_engine.BORE, demo_engine.STROKE, demo_engine.ROD, ratio, engine.port_closing
    )


def _after(cylinder: compression.Cylinder, areas: np.ndarray) -> np.ndarray:
    """Gauge pressure after the pulls for each leak area [bar]; all leaks in one go."""
    air = compression.standard_atmosphere("0 m").pressure.to("Pa").magnitude
    found = _pumping.gauge_pressures(
        **cylinder.pumping_sizes(),
        pulls=_WET_PULLS,
        speed=units.read(SPEED).to("rad/s").magnitude,
        gauge_volume=units.read(HOSE).to("m^3").magnitude,
        polytropic=float(compression.CRANKING_EXPONENT),
        leak_area=areas * 1e-6,
        atmosphere=air,
        air_temperature=293.15,
    )
    return np.asarray((found[-1] - air) / 1e5)


@cache
def _dry_and_wet() -> tuple[tuple[float, ...], tuple[tuple[float, ...], ...]]:
    """Readings dry by leak, and wet by leak and share past the rings [bar]."""
    leaks, shares = np.array(LEAKS), np.array(SHARES) / 100
    dry = _after(demo_engine.engine(), leaks)
    wet = _after(_oiled(), leaks[:, None] * (1 - OIL_SEALS * shares[None, :]))
    return tuple(dry.tolist()), tuple(tuple(row) for row in wet.tolist())


def dry_and_wet(leak: str | Quantity, rings: float) -> Picture:
    """Two gauges on one leaking engine: dry, and again with a spoon of oil in the cylinder.

    Parameters
    ----------
    leak : quantity or text
        Effective area of the whole leak, 0 to 0.6 mm². [mm^2]
    rings : float
        Part of it that goes past the rings, 0 to 100 per cent; the rest at gasket, plug seat or valve.

    Returns
    -------
    Picture
        ``shown`` holds ``tight``, ``dry``, ``wet`` [pressure] and ``regained`` (float, share of what is
        lacking; nan for a tight engine).

    Raises
    ------
    DrawingError
        A value outside what is drawn.

    Notes
    -----
    Ten pulls at sea level. How much of the ring leak oil closes, and how much room it takes: common
    practice, no source.

    Examples
    --------
    >>> rings, gasket = (dry_and_wet("0.3 mm^2", share).shown["regained"] for share in (100, 0))
    >>> rings > 0.6 > 0.3 > gasket
    True
    """
    area = float(units.read(leak, expect="mm^2").to("mm^2").magnitude)
    if not 0 <= area <= LEAKS[-1] + 1e-9 or not 0 <= rings <= 100:
        raise DrawingError(f"{area:g} mm², {rings:g} per cent: the figure shows 0 to 0.6 mm² and 0 to 100 %")
    row, column = round(area / LEAKS[1]), round(rings / SHARES[1])
    by_leak, by_both = _dry_and_wet()
    tight, dry, wet = by_leak[0], by_leak[row], by_both[row][column]
    lacking, gained = tight - dry, wet - dry
    regained = gained / lacking if row else float("nan")
    if not row:
        said = f"tight: the oil alone lifts it by {gained:.1f} bar"
    elif regained > 0.6:
        said = "most came back: rings, piston or bore"
    elif regained < 0.3:
        said = "hardly any came back: not the rings"
    else:
        said = "some came back: leave it open, test on"
    back = f" {100 * regained:.0f} per cent of it came back." if row else ""
    words = (
        f"A tight engine shows {tight:.1f} bar. With a leak of {LEAKS[row]:g} mm², {SHARES[column]} per cent"
        f" of it past the rings, the gauge shows {dry:.1f} bar dry and {wet:.1f} bar wet. {lacking:.1f} bar"
        f" were lacking.{back} In words: {said}."
    )
    canvas = Canvas(720, 420, "One leak measured dry and wet", words)
    for x, name, bar in ((146, "dry", dry), (426, "wet, with a spoon of oil", wet)):
        canvas.label(x, 28, name, size=18, anchor="middle", strong=True)
        _gauge(canvas, x, bar)
        canvas.label(x, 316, f"{bar:.1f} bar", size=20, anchor="middle", strong=True)
    frame = Frame(636, 48, 44, 236, (0, 1), (0, 10))
    canvas.rect(frame.left, frame.top, 44, 236, weight="thin")
    canvas.rect(frame.left, frame.y(dry), 44, frame.y(0) - frame.y(dry), fill=canvas.hatch, weight="thin")
    canvas.rect(
        frame.left, frame.y(wet), 44, frame.y(dry) - frame.y(wet), fill=canvas.dots, weight="thin",
        colour=BLUE,
    )  # fmt: skip
    canvas.line(frame.left - 14, frame.y(tight), frame.left + 58, frame.y(tight), weight="bold", dash="dash")
    canvas.label(frame.left - 16, frame.y(tight) - 8, "tight", size=16, anchor="end")
    canvas.label(658, 28, "bar", size=17, anchor="middle", strong=True)
    for mark in range(0, 11, 2):
        canvas.line(
            frame.left + 44, frame.y(mark), frame.left + 50, frame.y(mark), weight="thin", colour=GUIDE
        )
        canvas.label(frame.left + 54, frame.y(mark) + 5, f"{mark}", size=15)
    canvas.label(658, 308, "▨ dry", size=15, anchor="middle")
    canvas.label(658, 330, "▒ from oil", size=15, anchor="middle", colour=BLUE)
    first = f"lacking dry {lacking:.1f} bar, gained with oil {gained:.1f} bar"
    canvas.label(20, 364, first + (f" = {100 * regained:.0f} %" if row else ""), size=18, strong=True)
    canvas.label(20, 398, said, size=20, strong=True, colour=RUST)
    shown = {
        "tight": units.ureg.Quantity(tight, "bar"),
        "dry": units.ureg.Quantity(dry, "bar"),
        "wet": units.ureg.Quantity(wet, "bar"),
        "regained": regained,
    }
    return Picture(canvas.svg(), words, shown)
