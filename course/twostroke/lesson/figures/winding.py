"""Figures of lesson 06: an ohmmeter on a warm winding, and what a partial short costs in ohms and in
kilovolts."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from twostroke import ignition, resistance, units
from twostroke.lesson.drawing import BLUE, INK, PAPER, RUST, STEEL, Canvas, DrawingError, Frame, Picture

if TYPE_CHECKING:
    from pint import Quantity

BAND = ("0.80 ohm", "1.00 ohm")
"""Demo maker's band for the primary at 20 °C, invented."""
PERCENT, DIGITS, STEP = 0.5, 2, "0.01 ohm"
"""Accuracy of the demo meter on its lowest range, invented."""
_DOUBT_OF_TEMPERATURE = "2 K"
_SCALE = (0.5, 2.1)  # ohm
_GUARD = 1.645
_RPM = 800.0
_MOST, _PER_STEP = 10.0, 0.25  # per cent of the secondary


def _ohms(value: str | Quantity) -> float:
    return float(units.read(value, expect="ohm").to("ohm").magnitude)


@cache
def _judged(shown: float, off: float, celsius: float) -> tuple[float, float, str]:
    """Winding at 20 °C and its standard uncertainty [ohm], and the verdict."""
    display, leads = f"{shown:.2f} ohm", f"{off:.2f} ohm"
    found = resistance.corrected(
        display,
        resistance.meter_uncertainty(display, PERCENT, DIGITS, STEP),
        f"{celsius} degC",
        _DOUBT_OF_TEMPERATURE,
        "20 degC",
        leads,
        resistance.meter_uncertainty(leads, PERCENT, DIGITS, STEP),
    )
    verdict = resistance.judge(found.value, *BAND, found.uncertainty)
    return _ohms(found.value), _ohms(found.uncertainty), verdict


def warm_coil(
    winding: str | Quantity,
    temperature: str | Quantity,
    leads: str | Quantity,
    guess: Quantity | None = None,
) -> Picture:
    """An ohmmeter on a primary winding: what it shows, the leads taken off, and the same at 20 °C.

    Parameters
    ----------
    winding : quantity or text
        Resistance of the winding itself at 20 °C, 0.70 to 1.10 ohm. [ohm]
    temperature : quantity or text
        Of the winding, 0 to 100 °C. [degC]
    leads : quantity or text
        Both leads of the meter together, 0 to 0.5 ohm. [ohm]
    guess : quantity, optional
        The reader's prediction of the display. [ohm]

    Returns
    -------
    Picture
        ``shown`` holds ``display``, ``leads_off``, ``at_20``, ``guard`` [ohm] and ``verdict`` (1.0 in,
        0.0 out, 0.5 undecided).

    Raises
    ------
    DrawingError
        A value outside what is drawn.

    Notes
    -----
    Copper changes by 0.00393 of its resistance at 20 °C for each degree (IEC 60028, from memory); guard
    band 1.645 standard uncertainties (JCGM 106). The meter is taken to show the true value to its last digit.

    Examples
    --------
    >>> shown = warm_coil("0.90 ohm", "80 degC", "0.25 ohm").shown
    >>> print(f"{shown['display']:.2f}, {shown['at_20']:.2f}")
    1.36 Ω, 0.90 Ω
    """
    cold, both = _ohms(winding), _ohms(leads)
    celsius = float(units.read(temperature, expect="degC").to("degC").magnitude)
    if not 0.7 <= cold <= 1.1 or not 0 <= both <= 0.5 or not 0 <= celsius <= 100:
        raise DrawingError(
            f"{cold:g} ohm, {celsius:g} degC, leads {both:g} ohm: the figure shows 0.70 to 1.10 ohm, 0 to 100"
            " degC and leads up to 0.5 ohm"
        )
    warm = _ohms(resistance.at_temperature(f"{cold} ohm", "20 degC", f"{celsius} degC"))
    display, off = round(warm + both, 2), round(both, 2)
    at_20, doubt, verdict = _judged(display, off, celsius)
    guard = _GUARD * doubt
    words = (
        f"The display shows {display:.2f} Ω. The leads are {off:.2f} Ω of it, so the winding has"
        f" {display - off:.2f} Ω at {celsius:.0f} °C. At 20 °C that is {at_20:.2f} Ω, with a guard band"
        f" of {guard:.2f} Ω. Against the band of 0.80 to 1.00 Ω it is {verdict}."
    )
    canvas = Canvas(720, 440, "An ohmmeter on a warm winding", words)
    _bench(canvas, display, off, celsius)
    frame = Frame(150, 232, 540, 132, _SCALE, (0, 3))
    left, right = (frame.x(_ohms(limit)) for limit in BAND)
    frame.axes(canvas, "ohm", "", x_ticks=[0.6, 0.8, 1.0, 1.2, 1.4, 1.6, 1.8, 2.0], y_ticks=[])
    canvas.rect(left, frame.top, right - left, frame.height, fill=canvas.dots, weight="thin")
    canvas.label((left + right) / 2, frame.top - 8, "band at 20 °C", size=16, anchor="middle", strong=True)
    rows = (("as shown", display), ("leads off", display - off), ("at 20 °C", at_20))
    for row, (name, value) in enumerate(rows):
        y = frame.y(2.5 - row)
        canvas.label(138, y + 6, name, size=17, anchor="end", strong=row == 2)
        last = row == 2
        if last:
            canvas.line(frame.x(value - guard), y, frame.x(value + guard), y, weight="bold", colour=BLUE)
            for edge in (value - guard, value + guard):
                canvas.line(frame.x(edge), y - 9, frame.x(edge), y + 9, colour=BLUE)
        canvas.marker(frame.x(value), y, shape="round" if last else "ring", colour=BLUE if last else INK)
        place = frame.x(value + guard) + 14 if last else frame.x(value) + 12
        end = place > 600
        canvas.label(
            frame.x(value) - 12 if end else place, y + 6, f"{value:.2f} Ω", size=17, strong=last,
            anchor="end" if end else "start",
        )  # fmt: skip
    if guess is not None and _SCALE[0] <= _ohms(guess) <= _SCALE[1]:
        x = frame.x(_ohms(guess))
        canvas.marker(x, frame.top + frame.height, shape="diamond", colour=RUST, size=8)
        canvas.label(min(max(x, 210), 620), 430, "◇ your prediction of the display", size=16, anchor="middle")
    said = {"in": "in the band", "out": "outside the band", "undecided": "undecided, near a limit"}
    canvas.label(330, 194, f"Verdict: {said[verdict]}", size=19, strong=True, colour=RUST)
    shown = {
        "display": units.ureg.Quantity(display, "ohm"),
        "leads_off": units.ureg.Quantity(display - off, "ohm"),
        "at_20": units.ureg.Quantity(at_20, "ohm"),
        "guard": units.ureg.Quantity(guard, "ohm"),
        "verdict": {"in": 1.0, "out": 0.0, "undecided": 0.5}[verdict],
    }
    return Picture(canvas.svg(), words, shown)


def _bench(canvas: Canvas, display: float, off: float, celsius: float) -> None:
    """Meter, its two leads, the winding on its core, and a thermometer."""
    canvas.rect(24, 20, 250, 164, fill=STEEL, weight="bold", corner=14)
    canvas.rect(44, 40, 210, 84, fill=PAPER)
    canvas.label(149, 98, f"{display:.2f} Ω", size=42, anchor="middle", strong=True)
    canvas.label(149, 158, f"probes together: {off:.2f} Ω", size=16, anchor="middle")
    for y in (66, 132):
        canvas.path([(274, y), (340, y), (392, y)], weight="bold", colour=RUST if y == 66 else INK)
        canvas.circle(394, y, 5, fill=INK)
    canvas.label(333, 105, "leads", size=16, anchor="middle")
    canvas.rect(400, 40, 130, 118, fill=canvas.hatch)
    canvas.rect(418, 58, 94, 82, fill=PAPER, weight="bold")
    for row in range(7):
        canvas.line(420, 66 + row * 11, 510, 66 + row * 11, weight="thin")
    canvas.label(465, 30, "winding on its core", size=16, anchor="middle")
    level = 138 - celsius * 0.9
    canvas.rect(566, 40, 18, 104, fill=PAPER, corner=9)
    canvas.rect(570, level, 10, 144 - level, fill=RUST, weight="hair")
    canvas.circle(575, 150, 13, fill=RUST)
    canvas.label(598, 100, f"{celsius:.0f} °C", size=22, strong=True)


@cache
def _costs() -> tuple[tuple[float, ...], tuple[float, ...], tuple[float, ...]]:
    """Shorted part [per cent], ohms of the secondary at 20 °C, volts at the plug at 800 rpm."""
    steps = round(_MOST / _PER_STEP)
    parts = tuple(_PER_STEP * row for row in range(steps + 1))
    batch = ignition.Ignition.stack([ignition.Ignition(shorted_fraction=part / 100) for part in parts])
    ohms = ignition.winding_ohms(batch)[1]
    volts = ignition.available(batch, _RPM).voltage[:, 0]
    return parts, tuple(float(each) for each in ohms), tuple(float(each) for each in volts)


def partial_short(part: float) -> Picture:
    """What a short of a part of the secondary costs in ohms and in kilovolts, against a sound module.

    Parameters
    ----------
    part : float
        Shorted turns in per cent of the secondary, 0 to 10, to the nearest quarter.

    Returns
    -------
    Picture
        ``shown`` holds ``ohms`` and ``voltage``, ``ohms_share`` and ``voltage_share`` (of the sound module).

    Raises
    ------
    DrawingError
        A part outside what is drawn.

    Notes
    -----
    Demo module, 800 rpm. The coupling of the shorted turns is common practice, no source: the order of the
    effect counts, not its last digit.

    Examples
    --------
    >>> shown = partial_short(1).shown
    >>> shown["ohms_share"] > 0.98, shown["voltage_share"] < 0.7
    (True, True)
    """
    if not 0 <= part <= _MOST:
        raise DrawingError(f"{part:g} per cent: the figure shows 0 to {_MOST:g} per cent of the secondary")
    parts, ohms, volts = _costs()
    at = round(part / _PER_STEP)
    reading = f"{round(ohms[at], -1):.0f} ohm"
    low, high = (f"{0.9 * ohms[0]:.0f} ohm", f"{1.1 * ohms[0]:.0f} ohm")
    verdict = resistance.judge(reading, low, high, resistance.meter_uncertainty(reading, 0.8, 3, "10 ohm"))
    of_ohms, of_volts = ohms[at] / ohms[0], volts[at] / volts[0]
    words = (
        f"{parts[at]:g} per cent of the secondary's turns are shorted. The ohmmeter shows"
        f" {ohms[at] / 1e3:.2f} kΩ, {100 * of_ohms:.0f} per cent of a sound one: {verdict}. The plug gets"
        f" up to {volts[at] / 1e3:.1f} kV, {100 * of_volts:.0f} per cent of a sound one."
    )
    canvas = Canvas(720, 440, "What a partial short costs", words)
    frame = Frame(84, 30, 600, 290, (0, _MOST), (0, 115))
    frame.axes(
        canvas, "shorted part of the secondary, per cent of its turns", "per cent of a sound module",
        x_ticks=[0, 2, 4, 6, 8, 10], y_ticks=[0, 20, 40, 60, 80, 100],
    )  # fmt: skip
    canvas.rect(84, frame.y(110), 600, frame.y(90) - frame.y(110), fill=canvas.dots, weight="thin")
    canvas.label(676, frame.y(104), "maker's band of the ohms, ±10 %", size=16, anchor="end")
    frame.curve(canvas, parts, [100 * each / ohms[0] for each in ohms], weight="normal", dash="dash")
    frame.curve(canvas, parts, [100 * each / volts[0] for each in volts], weight="bold", colour=BLUE)
    canvas.label(676, frame.y(76), "ohms (dashed)", size=16, anchor="end")
    canvas.label(676, frame.y(36), "kilovolts (bold)", size=16, anchor="end", colour=BLUE)
    x = frame.x(parts[at])
    canvas.line(x, frame.top, x, frame.top + frame.height, dash="dot")
    canvas.marker(x, frame.y(100 * of_ohms), shape="ring")
    canvas.marker(x, frame.y(100 * of_volts), colour=BLUE)
    first = f"{parts[at]:g} % shorted: {ohms[at] / 1e3:.2f} kΩ, {verdict}"
    canvas.label(84, 396, first, size=20, strong=True)
    second = f"{volts[at] / 1e3:.1f} kV of {volts[0] / 1e3:.1f} kV at {_RPM:.0f} rpm"
    canvas.label(84, 426, second, size=20, strong=True, colour=RUST)
    shown = {
        "ohms": units.ureg.Quantity(ohms[at], "ohm"),
        "voltage": units.ureg.Quantity(volts[at] / 1e3, "kV"),
        "ohms_share": of_ohms,
        "voltage_share": of_volts,
    }
    return Picture(canvas.svg(), words, shown)
