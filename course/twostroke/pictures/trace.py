"""One opening as a storage trace: build-up, breakdown, burn line, ringing."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from twostroke import burn, ignition
from twostroke.breakdown import IN_CYLINDER_SPREAD
from twostroke.pictures._style import GREY, SERIES, Picture, canvas
from twostroke.units import si

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from pint import Quantity

CLIP, LOWEST = 2.5, 1.2  # kV, the right-hand trace ends here so that the burn line can be seen


def waveform(
    system: ignition.Ignition,
    speed: str | Quantity = "800 rpm",
    demand: str | Quantity | None = "9.9 kV",
    burn_voltage: str | Quantity = "410 V",
) -> Picture:
    """Primary current up to the opening, the first microseconds after it, and the whole spark.

    Parameters
    ----------
    system : Ignition
        The module under its conditions.
    speed : str or Quantity, optional
        Speed of the flywheel. [rpm]
    demand : str or Quantity or None, optional
        Voltage at which the plug breaks down; None for a lead that ends in the air. [kV]
    burn_voltage : str or Quantity, optional
        Voltage across the plug while it burns. [V]

    Returns
    -------
    Picture
        Figure and words.

    Raises
    ------
    UnitError, RangeError
        As the calculation; or a module that never switches at this speed.

    Examples
    --------
    >>> seen = waveform(ignition.Ignition())
    >>> print(seen.words.split(";")[0])
    At 800 rpm the module opens at 4.1 A
    """
    rpm = si(speed, "rpm", "speed", above=0, maximum=30000) * 30 / np.pi
    need = np.inf if demand is None else si(demand, "kV", "demand", above=0)
    lit = si(burn_voltage, "V", "burn voltage", above=0)
    seen = burn.waveform(system, rpm, need, lit)
    figure, (before, rise, whole) = canvas(11.0, 4.2, (1.0, 1.0, 1.5))
    style: dict[str, Any] = {"color": SERIES[0]["color"], "linewidth": 1.6}
    before.plot(seen.dwell_time * 1e3, seen.dwell_current, **style)
    begins = float(seen.dwell_time[np.argmax(seen.dwell_current > 0)]) * 1e3
    before.set(
        xlabel="time before opening (ms)",
        ylabel="primary current (A)",
        title="build-up",
        ylim=(0, None),
        xlim=(1.3 * begins, -0.05 * begins),
    )
    volts = seen.plug_voltage / 1e3
    early = seen.time <= 60e-6
    rise.plot(seen.time[early] * 1e6, volts[early], **style)
    rise.set(xlabel="time after opening (µs)", ylabel="voltage at the plug (kV)", title="first 60 µs")
    whole.plot(seen.time * 1e3, np.clip(volts, -LOWEST, CLIP), color=SERIES[0]["color"], linewidth=1.0)
    whole.set(
        xlabel="time after opening (ms)", ylabel="voltage at the plug (kV)", ylim=(-LOWEST, CLIP * 1.04),
        title=f"whole trace, cut off at {CLIP:g} kV",
    )  # fmt: skip
    words = f"At {rpm:.0f} rpm the module opens at {seen.dwell_current[-1]:.1f} A; "
    if np.isnan(seen.breakdown):
        top = int(seen.plug_voltage.argmax())
        words += (
            f"the plug does not fire: the voltage peaks at {volts[top]:.1f} kV after "
            f"{seen.time[top] * 1e6:.0f} µs and rings away with no burn line."
        )
        _note(rise, "peak,\nno breakdown", seen.time[top] * 1e6, volts[top], (0.30, 0.45))
        _note(whole, "no burn line,\nonly ringing", 0.5, 0.0, (0.55, 0.85))
    else:
        burning = (seen.burn_end - seen.breakdown) * 1e3
        words += (
            f"the plug fires at {need / 1e3:.3g} kV after {seen.breakdown * 1e6:.0f} µs, "
            f"burns at about {lit:.0f} V for {burning:.1f} ms, goes out, and what is left rings away."
        )
        _note(rise, "breakdown", seen.breakdown * 1e6, need / 1e3, (0.45, 0.80))
        _note(rise, "burn line", 45.0, lit / 1e3, (0.55, 0.35))
        _note(whole, "burn line", 0.5 * burning, lit / 1e3, (0.22, 0.78))
        _note(whole, "goes out and rings", min(burning, 2.4), lit / 1e3, (0.62, 0.88))
        words += (
            f" The demand under compression is known only to about ±{float(IN_CYLINDER_SPREAD) * 100:.0f} %."
        )
    return Picture(figure, words)


def _note(axes: Axes, text: str, x: float, y: float, place: tuple[float, float]) -> None:
    axes.annotate(
        text, (x, y), xytext=place, textcoords="axes fraction", fontsize=10, color=GREY,
        arrowprops={"arrowstyle": "->", "color": GREY, "shrinkB": 3},
        bbox={"facecolor": "white", "edgecolor": "none", "pad": 1.5, "alpha": 0.85},
    )  # fmt: skip
