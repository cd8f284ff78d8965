"""Figures of lesson 01: a leaf in two units, gauge and absolute pressure, oil for a can."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from twostroke import compression, fuel, units
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
    dial,
)
from twostroke.lesson.drawing.axes import tick

if TYPE_CHECKING:
    from pint import Quantity

_WIDEST = 40.0  # thou, right end of the drawn scale
_TOP = 4000.0  # m, right end of the drawn scale


def leaf(thickness: str | Quantity, guess: Quantity | None = None) -> Picture:
    """A feeler leaf between two jaws, on a thou scale and a millimetre scale.

    Parameters
    ----------
    thickness : quantity or text
        Thickness of the leaf [length], 0 to 40 thou.
    guess : quantity, optional
        The reader's prediction [length], marked when it lies on the scale.

    Returns
    -------
    Picture
        ``shown`` holds ``thickness`` and ``misread`` (the same number taken for hundredths of a millimetre).

    Raises
    ------
    DrawingError
        A thickness outside the drawn scale.

    Notes
    -----
    1 in = 25.4 mm exactly (NIST SP 811, B.8).

    Examples
    --------
    >>> print(leaf("10 thou").shown["thickness"].to("mm"))
    0.254 mm
    """
    size = units.read(thickness, expect="mm").to("thou")
    thou = size.magnitude
    if not 0 <= thou <= _WIDEST:
        raise DrawingError(f"thickness {thou:g} thou: the scale runs from 0 to {_WIDEST:g} thou")
    mm = size.to("mm").magnitude
    misread = units.ureg.Quantity(thou / 100, "mm")
    words = (
        f"A leaf of {thou:g} thou between two jaws. The millimetre scale shows {mm:.3f} mm. "
        f"Read as hundredths of a millimetre it would be {misread.magnitude:.3f} mm, which is too thin."
    )
    canvas = Canvas(690, 278, "A feeler leaf on a thou scale and on a millimetre scale", words)
    left, width, top, bottom = 70.0, 540.0, 58.0, 158.0
    scale = width / _WIDEST

    def at_mm(value: float) -> float:
        return left + units.ureg.Quantity(value, "mm").to("thou").magnitude * scale

    right = left + thou * scale
    canvas.rect(left - 50, top, 50, bottom - top, fill=canvas.hatch)
    canvas.rect(right, top, min(50.0, 680 - right - 4), bottom - top, fill=canvas.hatch)
    canvas.rect(left, top + 14, thou * scale, bottom - top - 28, fill=STEEL, weight="thin", colour=BLUE)
    canvas.line(left, top - 6, left + width, top - 6)
    canvas.line(left, bottom + 6, left + width, bottom + 6)
    for mark in range(0, int(_WIDEST) + 1):
        long = 16 if mark % 10 == 0 else 12 if mark % 5 == 0 else 6
        x = left + mark * scale
        canvas.line(x, top - 6, x, top - 6 - long, weight="thin")
        if mark % 10 == 0:
            canvas.label(x, top - 27, f"{mark}", anchor="middle")
    for mark in range(0, 21):
        x = at_mm(mark * 0.05)
        canvas.line(x, bottom + 6, x, bottom + 6 + (16 if mark % 4 == 0 else 8), weight="thin")
        if mark % 4 == 0:
            canvas.label(x, bottom + 40, f"{mark * 0.05:.1f}", anchor="middle")
    canvas.label(left + width + 18, top - 26, "thou", strong=True)
    canvas.label(left + width + 18, bottom + 40, "mm", strong=True)
    centre = (top + bottom) / 2
    if thou > 0:
        canvas.arrow(left, centre + 24, right, centre + 24, both=True, colour=BLUE)
        canvas.line(right, top - 6, right, bottom + 6, weight="thin", dash="dash", colour=BLUE)
        place = left + 8 if thou > 24 else right + 62
        canvas.label(place, centre + 6, f"{thou:g} thou = {mm:.3f} mm", size=20, strong=True, colour=BLUE)
        _misread(canvas, at_mm(misread.magnitude), bottom, misread.magnitude)
    if guess is not None and 0 <= guess.to("thou").magnitude <= _WIDEST:
        _guess_below(canvas, at_mm(guess.to("mm").magnitude), bottom)
    return Picture(canvas.svg(), words, {"thickness": size, "misread": misread})


def _misread(canvas: Canvas, x: float, bottom: float, mm: float) -> None:
    """Where the same number would lie, taken for hundredths of a millimetre."""
    row = bottom + 104
    canvas.line(x, bottom + 6, x, row - 18, weight="thin", dash="dot", colour=RUST)
    canvas.label(max(x - 4, 24), row, f"↑ {mm:.2f} mm: thou taken for hundredths", size=16, colour=RUST)


def _guess_below(canvas: Canvas, x: float, bottom: float) -> None:
    """The reader's guess on the millimetre scale."""
    canvas.marker(x, bottom + 6, shape="diamond", colour=RUST, size=8)
    late = x > 500
    words, at = ("your prediction ◇", x - 10) if late else ("◇ your prediction", x + 10)
    canvas.label(at, bottom + 70, words, size=16, anchor="end" if late else "start")
    canvas.line(x, bottom + 16, x, bottom + 62, weight="hair", colour=RUST)


@cache
def _air(steps: int = 40) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Heights [m] and pressures [bar] of the standard atmosphere, computed once."""
    heights = tuple(_TOP * row / steps for row in range(steps + 1))
    pressures = tuple(
        float(compression.standard_atmosphere(f"{height:g} m").pressure.to("bar").magnitude)
        for height in heights
    )
    return heights, pressures


def gauge_and_absolute(altitude: str | Quantity, gauge: str | Quantity) -> Picture:
    """A gauge, the air at a height above the sea, and the two added up to absolute pressure.

    Parameters
    ----------
    altitude : quantity or text
        Height above the sea [length], 0 to 4000 m.
    gauge : quantity or text
        What the gauge shows [pressure], 0 to 200 psi.

    Returns
    -------
    Picture
        ``shown`` holds ``gauge``, ``air`` and ``absolute`` [pressure].

    Raises
    ------
    DrawingError
        A value outside the drawn scales.

    Notes
    -----
    The pressure of the air is that of the standard atmosphere (ISO 2533, U.S. Standard Atmosphere 1976).

    Examples
    --------
    >>> shown = gauge_and_absolute("0 m", "0 psi").shown
    >>> round(shown["absolute"].to("bar").magnitude, 3)
    1.013
    """
    height = units.read(altitude, expect="m").to("m").magnitude
    reading = units.read(gauge, expect="psi").to("psi")
    if not 0 <= height <= _TOP or not 0 <= reading.magnitude <= 200:
        raise DrawingError(
            f"{height:g} m, {reading.magnitude:g} psi: the figure shows 0 to 4000 m and 0 to 200 psi"
        )
    air = compression.standard_atmosphere(f"{height:.10g} m").pressure.to("bar")
    shown_bar = reading.to("bar")
    absolute = air + shown_bar
    words = (
        f"The gauge shows {reading.magnitude:.0f} psi, which is {shown_bar.magnitude:.2f} bar. At"
        f" {tick(height)} m the air presses with {air.magnitude:.2f} bar. Together that is"
        f" {absolute.magnitude:.2f} bar absolute."
    )
    canvas = Canvas(720, 350, "Gauge pressure, air pressure and absolute pressure", words)
    canvas.label(20, 28, "1  Gauge", size=17, strong=True)
    bars = [0.0, 4.0, 8.0, 12.0]
    dial(
        canvas, 118, 158, 104, reading.magnitude, (0, 200), [0, 40, 80, 120, 160, 200], unit="psi",
        inner=("bar", bars, lambda value: units.ureg.Quantity(value, "bar").to("psi").magnitude),
    )  # fmt: skip
    canvas.label(
        118,
        300,
        f"{reading.magnitude:.0f} psi = {shown_bar.magnitude:.2f} bar",
        size=18,
        anchor="middle",
        strong=True,
    )

    canvas.label(262, 28, "2  Air around you", size=17, strong=True)
    frame = Frame(300, 48, 196, 222, (0, _TOP), (0, 1.2))
    frame.axes(
        canvas,
        "height above the sea, m",
        "air pressure, bar",
        x_ticks=[0, 2000, 4000],
        y_ticks=[0, 0.2, 0.4, 0.6, 0.8, 1.0, 1.2],
    )
    frame.curve(canvas, *_air(), weight="bold", colour=BLUE)
    x, y = frame.x(height), frame.y(air.magnitude)
    canvas.line(x, y, x, frame.y(0), weight="thin", dash="dash")
    canvas.marker(x, y, size=7)
    early = height < 1500
    canvas.label(
        x + (10 if early else -8),
        y + (-12 if early else 26),
        f"{air.magnitude:.3f} bar",
        strong=True,
        anchor="start" if early else "end",
    )

    _column(canvas, shown_bar.magnitude, air.magnitude)
    return Picture(canvas.svg(), words, {"gauge": reading, "air": air, "absolute": absolute})


def _column(canvas: Canvas, gauge: float, air: float) -> None:
    """Air below, gauge on top of it, from nothing at all [bar]."""
    canvas.label(530, 28, "3  Absolute", size=17, strong=True)
    frame = Frame(552, 48, 46, 246, (0, 1), (0, 15.2))
    base, step, top = frame.y(0), frame.y(air), frame.y(air + gauge)
    middle, edge = frame.left + frame.width / 2, frame.left + frame.width
    canvas.rect(frame.left, step, frame.width, base - step, fill=canvas.dots)
    canvas.rect(frame.left, top, frame.width, step - top, fill=PAPER)
    canvas.arrow(middle, step, middle, top, colour=BLUE)
    canvas.line(frame.left - 14, base, edge + 14, base, weight="bold")
    canvas.label(frame.left - 22, base + 26, "0: nothing at all", size=16)
    rows = (
        (top, 84, f"{air + gauge:.2f} bar", 18, INK),
        ((step + top) / 2, 160, f"gauge {gauge:.2f}", 16, BLUE),
        ((base + step) / 2, 236, f"air {air:.2f}", 16, INK),
    )
    for place, row, text, size, colour in rows:
        canvas.line(edge, place, edge + 14, row - 5, weight="hair", colour=colour)
        canvas.label(edge + 18, row, text, size=size, strong=size > 16, colour=colour)


def oil_for_can(petrol: str | Quantity, ratio: float, guess: Quantity | None = None) -> Picture:
    """A measuring jug with the oil for a can of fuel, and the parts of the ratio one by one.

    Parameters
    ----------
    petrol : quantity or text
        Fuel in the can [volume], up to 10 L.
    ratio : float
        Parts of fuel to one part of oil, 20 to 60.
    guess : quantity, optional
        The reader's prediction of the oil [volume].

    Returns
    -------
    Picture
        ``shown`` holds ``oil`` [volume] and ``percent`` (float, of the fuel).

    Raises
    ------
    DrawingError
        A value outside the drawn jug.

    Notes
    -----
    Oil is fuel over ratio; a ratio counts parts by volume (common practice, no source).

    Examples
    --------
    >>> round(oil_for_can("5 L", 50).shown["oil"].to("mL").magnitude, 6)
    100.0
    """
    can = units.read(petrol, expect="L").to("L")
    oil = fuel.oil_for(can, f"{ratio:.10g}:1").to("mL")
    if not 20 <= ratio <= 60 or not 0 < can.magnitude <= 10:
        raise DrawingError(
            f"{can.magnitude:g} L at {ratio:g}:1: the jug is drawn for up to 10 L at 20:1 to 60:1"
        )
    share = oil / can
    percent = float(share.to("").magnitude) * 100
    words = (
        f"{can.magnitude:g} L of fuel at {ratio:g}:1 take {oil.magnitude:.0f} mL of oil. "
        f"That is {ratio:g} parts of fuel to 1 part of oil, or {percent:.1f} per cent of the fuel."
    )
    canvas = Canvas(680, 330, "Oil for a can of fuel", words)
    frame = Frame(90, 44, 130, 240, (0, 1), (0, 500))
    canvas.label(24, 24, "oil in the jug, mL", size=17, strong=True)
    level = frame.y(oil.magnitude)
    canvas.rect(frame.left, level, frame.width, frame.y(0) - level, fill=canvas.dots, weight="thin")
    canvas.path(
        [
            (frame.left - 10, 34),
            (frame.left, 44),
            (frame.left, 284),
            (frame.left + 130, 284),
            (frame.left + 130, 38),
        ],
        weight="bold",
    )
    for mark in range(0, 501, 50):
        y = frame.y(mark)
        canvas.line(frame.left, y, frame.left + (34 if mark % 100 == 0 else 18), y, weight="thin")
        if mark % 100 == 0:
            canvas.label(frame.left - 10, y + 6, f"{mark}", anchor="end")
    canvas.arrow(frame.left + 174, level, frame.left + 136, level, colour=BLUE)
    canvas.label(
        frame.left + 178,
        level + (6 if level > 60 else 14),
        f"{oil.magnitude:.0f} mL",
        size=20,
        strong=True,
        colour=BLUE,
    )
    if guess is not None and 0 <= guess.to("mL").magnitude <= 500:
        y = frame.y(guess.to("mL").magnitude)
        canvas.marker(frame.left + 65, y, shape="diamond", colour=RUST, size=8)
        apart = 0 if abs(y - level) > 24 else 24 if y >= level else -24
        canvas.label(frame.left + 146, y + 6 + apart, "◇ your prediction", size=16)
    canvas.label(410, 24, f"{ratio:g} parts fuel to 1 part oil", size=17, strong=True)
    parts = round(ratio)
    for row in range(parts + 1):
        x, y = 410 + (row % 10) * 23, 44 + (row // 10) * 30
        canvas.rect(
            x,
            y,
            18,
            22,
            fill=canvas.dots if row == parts else PAPER,
            weight="bold" if row == parts else "hair",
            colour=GUIDE if row < parts else RUST,
        )
    bottom = 44 + (parts // 10) * 30 + 54
    canvas.label(410, bottom, f"the marked one is oil: {percent:.1f} %", size=16)
    return Picture(canvas.svg(), words, {"oil": oil, "percent": percent})
