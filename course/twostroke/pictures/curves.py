"""Voltage against speed with the demand, and the gauge pumping up."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import numpy as np

from twostroke import compression, ignition
from twostroke.breakdown import IN_CYLINDER_SPREAD
from twostroke.errors import RangeError, UnitError
from twostroke.pictures._style import GREY, INK, PALE, SERIES, Picture, canvas, label_line, spread_labels
from twostroke.units import number, read_band, si

if TYPE_CHECKING:
    from pint import Quantity

MOST_LINES = len(SERIES)


def _few(lines: Any, kind: type) -> list[str]:
    if not isinstance(lines, Mapping) or not all(isinstance(value, kind) for value in lines.values()):
        raise UnitError(
            f"lines of a picture: give a dict of name to {kind.__name__}, such as {{'healthy': ...}}"
        )
    if not 1 <= len(lines) <= MOST_LINES:
        raise RangeError(f"{len(lines)} lines: a picture takes 1 to {MOST_LINES}; more cannot be told apart")
    return [str(name) for name in lines]


def voltage_against_speed(
    systems: Mapping[str, ignition.Ignition],
    demand: str | Quantity,
    pull_speed: str | Quantity | None = "800 rpm",
    highest: str | Quantity = "2000 rpm",
    points: int = 200,
) -> Picture:
    """Available voltage of one or more modules against speed, with the plug's demand and its spread.

    Parameters
    ----------
    systems : dict of str to Ignition
        Name of each line, and the module under its conditions (``Magneto.system_for`` gives one); at most
        five.
    demand : str or Quantity
        Voltage that the plug needs under compression. [kV]
    pull_speed : str or Quantity or None, optional
        Speed of a usual pull, marked on the axis. [rpm]
    highest : str or Quantity, optional
        End of the axis. [rpm]
    points : int, optional
        Speeds computed.

    Returns
    -------
    Picture
        Figure and words.

    Raises
    ------
    UnitError, RangeError
        As the calculation; or more lines than can be told apart.

    Examples
    --------
    >>> seen = voltage_against_speed({"healthy": ignition.Ignition()}, "9.9 kV")
    >>> print(seen.words)
    The healthy line crosses the demand of 9.9 kV at 563 rpm. ...
    """
    names = _few(systems, ignition.Ignition)
    need = si(demand, "kV", "demand", above=0)
    end = si(highest, "rpm", "highest speed", above=60, maximum=30000) * 30 / np.pi
    points = int(number(points, "points", minimum=2, maximum=5000, whole=True))
    rpm = np.linspace(60.0, end, points)
    spread = float(IN_CYLINDER_SPREAD)
    figure, (axes,) = canvas(8.0, 4.6)
    axes.axhspan(need * (1 - spread) / 1e3, need * (1 + spread) / 1e3, color=PALE, zorder=0)
    axes.axhline(need / 1e3, color=INK, linewidth=1.2, zorder=1)
    axes.text(
        end, need * (1 + spread) / 1e3, f"demand {need / 1e3:.3g} kV ±{spread * 100:.0f} % ", color=INK,
        ha="right", va="bottom", fontsize=10,
    )  # fmt: skip
    sentences, ends = [], []
    for name, style in zip(names, SERIES, strict=False):
        volts = ignition.available(systems[name], rpm).voltage[0] / 1e3
        axes.plot(rpm, volts, markevery=max(1, points // 8), markersize=5, **style)
        ends.append(float(volts[-1]))
        first = float(ignition.minimum_speed(systems[name], need)[0])
        if np.isfinite(first):
            if first <= end:
                axes.plot(
                    [first],
                    [need / 1e3],
                    marker="o",
                    markersize=10,
                    markerfacecolor="none",
                    color=style["color"],
                )
            sentences.append(f"The {name} line crosses the demand of {need / 1e3:.3g} kV at {first:.0f} rpm.")
        else:
            sentences.append(f"The {name} line never reaches {need / 1e3:.3g} kV below 3000 rpm.")
    tall = max(max(ends), need * (1 + spread) / 1e3) * 1.12
    for name, style, at in zip(names, SERIES, spread_labels(ends, 0.055 * tall), strict=False):
        label_line(axes, end, at, name, style)
    if pull_speed is not None:
        usual = si(pull_speed, "rpm", "pull speed", above=0) * 30 / np.pi
        axes.axvline(usual, color=GREY, linewidth=1.2, linestyle=(0, (2, 2)))
        axes.text(usual, 0.0, f" usual pull {usual:.0f} rpm", color=GREY, va="bottom", fontsize=10)
        sentences.append(f"A usual pull turns at {usual:.0f} rpm.")
    axes.set(
        xlim=(0, end), ylim=(0, tall), xlabel="speed of the flywheel (rpm)", ylabel="voltage at the plug (kV)"
    )
    sentences.append(f"The demand under compression is known only to about ±{spread * 100:.0f} %.")
    return Picture(figure, " ".join(sentences))


def compression_pump_up(
    cylinder: compression.Cylinder,
    cases: Mapping[str, Mapping[str, Any]] | None = None,
    pulls: int = 8,
    speed: str | Quantity = "800 rpm",
    gauge_volume: str | Quantity = "6 mL",
    band: str | None = None,
) -> Picture:
    """Gauge pressure after each pull, for one or more conditions of the engine.

    Parameters
    ----------
    cylinder : Cylinder
        The engine.
    cases : dict of str to dict, optional
        Name of each line, and keyword arguments of ``compression.gauge_readings`` that differ from the
        usual ones, such as ``{"leak_area": "0.3 mm^2"}``; at most five. Left out, a sound engine and a
        leaking one.
    pulls : int, optional
        Pulls of the rope, each a compression stroke of its own.
    speed, gauge_volume : str or Quantity, optional
        Cranking speed; volume of gauge and adapter behind the valve. [rpm, mL]
    band : str, optional
        The maker's band of gauge pressure, such as ``"7-9 bar"``.

    Returns
    -------
    Picture
        Figure and words.

    Raises
    ------
    UnitError, RangeError
        As the calculation; or more lines than can be told apart.

    Examples
    --------
    >>> engine = compression.Cylinder("40 mm", "30 mm", "55 mm", 9, "105 deg")
    >>> print(compression_pump_up(engine, {"sound": {}}).words)
    Sound: 2.9 bar after the first pull, 9.0 bar after the eighth, ...
    """
    chosen = {"sound": {}, "leak of 0.3 mm²": {"leak_area": "0.3 mm^2"}} if cases is None else cases
    names = _few(chosen, Mapping)
    pulls = int(number(pulls, "pulls", minimum=1, maximum=100, whole=True))
    figure, (axes,) = canvas(7.6, 4.4)
    count = np.arange(1, pulls + 1)
    sentences, ends = [], []
    for name, style in zip(names, SERIES, strict=False):
        given = {"pulls": pulls, "speed": speed, "gauge_volume": gauge_volume, **chosen[name]}
        bar = compression.gauge_readings(cylinder, **given).to("bar").magnitude
        axes.plot(count, bar, markersize=7, markerfacecolor="white", markeredgewidth=1.6, **style)
        ends.append(float(bar[-1]))
        text = f"{name[:1].upper()}{name[1:]}: {bar[0]:.1f} bar after the first pull"
        if pulls > 1:
            still = bar[-1] - bar[-2] > 0.05
            text += f", {bar[-1]:.1f} bar after the {_ordinal(pulls)}, "
            text += "and still rising" if still else "and no longer rising"
        sentences.append(text + ".")
    tall = max(ends) * 1.2
    if band is not None:
        low, high = (value.to("bar").magnitude for value in read_band(band))
        axes.axhspan(low, high, color=PALE, zorder=0)
        axes.text(0.6, high, f"band {band}", color=INK, va="bottom", fontsize=10)
        tall = max(tall, high * 1.15)
        sentences.append(f"The band is {band}.")
    for name, style, at in zip(names, SERIES, spread_labels(ends, 0.06 * tall), strict=False):
        label_line(axes, pulls, at, name, style)
    axes.set(
        xlim=(0.5, pulls + 0.5), ylim=(0, tall), xlabel="pull", ylabel="gauge pressure (bar)", xticks=count
    )
    return Picture(figure, " ".join(sentences))


def _ordinal(number: int) -> str:
    words = [
        "",
        "first",
        "second",
        "third",
        "fourth",
        "fifth",
        "sixth",
        "seventh",
        "eighth",
        "ninth",
        "tenth",
    ]
    return words[number] if number < len(words) else f"{number}th"
