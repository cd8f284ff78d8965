"""The instruments on the bench: each with its range, resolution, error limits and habits.

An instrument shows a true value with a lasting error of its own (within its limits), a small scatter from
reading to reading, and in steps of its resolution. The instruments are invented; their limits are common
practice.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from twostroke.bench.seeds import Draws

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Scale:
    """What is printed on an instrument.

    Attributes
    ----------
    name : str
        As it lies on the bench.
    unit : str
        Unit of the reading.
    resolution : float
        Smallest step shown.
    percent, digits : float
        Limits of error: percent of reading plus that many steps.
    scatter : float
        Steps of spread from reading to reading.
    lowest, highest : float
        Range; above it the instrument shows no number.
    """

    name: str
    unit: str
    resolution: float
    percent: float = 0.0
    digits: float = 0.0
    scatter: float = 0.4
    lowest: float = 0.0
    highest: float = np.inf

    @property
    def decimals(self) -> int:
        """Decimals of the display."""
        return max(0, -int(np.floor(np.log10(self.resolution) + 1e-9)))


SCALES: dict[str, Scale] = {
    "feeler gauge": Scale("feeler gauge", "mm", 0.05, 0.0, 0.4, 0.2, 0.0, 2.0),
    "plug gauge": Scale("wire gauge", "mm", 0.05, 0.0, 0.3, 0.2, 0.3, 2.0),
    "calliper": Scale("calliper", "mm", 0.02, 0.0, 1.0, 0.5, 0.0, 150.0),
    "compression gauge": Scale("compression gauge", "bar", 0.1, 2.0, 1.0, 0.6, 0.0, 20.0),
    "hand pump": Scale("pressure and vacuum hand pump", "bar", 0.01, 2.0, 1.0, 0.5, -0.9, 2.0),
    "thermometer": Scale("contact thermometer", "degC", 1.0, 1.0, 1.0, 0.4, -30.0, 300.0),
    "tachometer": Scale("inductive tachometer", "rpm", 10.0, 0.5, 1.0, 0.8, 200.0, 20_000.0),
    "scale": Scale("kitchen scale", "g", 1.0, 0.2, 1.0, 0.3, 0.0, 5000.0),
}

METER_RANGES = (199.9, 1999.0, 19.99e3, 199.9e3, 1.999e6, 19.99e6)
METER_STEPS = (0.1, 1.0, 10.0, 100.0, 1e3, 10e3)
METER_PERCENT, METER_DIGITS = 0.8, 3.0
LEADS_OHM = 0.3
"""Resistance of the meter's own leads and clips."""


def show(scale: Scale, true: Array, lasting: Array, draws: Draws) -> Array:
    """What an instrument shows; not-a-number above its range.

    Parameters
    ----------
    scale : Scale
    true : array
        True values in the scale's unit.
    lasting : array
        Share of the error limit that this instrument carries all the time, -1 to 1.
    draws : Draws
        Scatter of this reading.
    """
    limit = np.abs(true) * scale.percent / 100.0 + scale.digits * scale.resolution
    seen = true + 0.6 * lasting * limit + draws.normal(len(true), 0.0, scale.scatter) * scale.resolution
    stepped = np.round(np.clip(seen, scale.lowest, None) / scale.resolution) * scale.resolution
    return np.where(true > scale.highest, np.nan, stepped)


def limit_of_error(scale: Scale, value: float) -> float:
    """Half-width of the error limits at a reading, in the scale's unit."""
    return abs(value) * scale.percent / 100.0 + max(scale.digits, 0.5) * scale.resolution


def show_ohms(true: Array, lasting: Array, draws: Draws, nulled: bool = False) -> Array:
    """Resistance on the multimeter, in its best range; infinite where the display shows no number.

    Parameters
    ----------
    true : array
        Resistance between the clips, ohm.
    lasting : array
        Lasting error as a share of the limit.
    draws : Draws
    nulled : bool
        Whether the leads were shorted first and their reading taken off.
    """
    measured = true + (0.0 if nulled else LEADS_OHM)
    which = np.searchsorted(METER_RANGES, measured)
    out = which >= len(METER_RANGES)
    step = np.asarray(METER_STEPS)[np.minimum(which, len(METER_STEPS) - 1)]
    finite = np.where(out, 0.0, measured)
    limit = finite * METER_PERCENT / 100.0 + METER_DIGITS * step
    seen = finite + 0.6 * lasting * limit + draws.normal(len(true), 0.0, 0.4) * step
    shown = np.round(np.maximum(seen, 0.0) / step) * step
    return np.where(out, np.inf, shown)


def ohms_text(value: float) -> str:
    """Display of the multimeter.

    Examples
    --------
    >>> ohms_text(0.9), ohms_text(2610.0), ohms_text(float("inf"))
    ('0.9 ohm', '2.61 kohm', 'OL (open, above 20 Mohm)')
    """
    if not np.isfinite(value):
        return "OL (open, above 20 Mohm)"
    step = METER_STEPS[min(int(np.searchsorted(METER_RANGES, value)), len(METER_STEPS) - 1)]
    if step < 1:
        return f"{value:.1f} ohm"
    if step < 10:
        return f"{value:.0f} ohm"
    if step < 1e3:
        return f"{value / 1e3:.{2 if step == 10 else 1}f} kohm"
    return f"{value / 1e6:.{3 if step == 1e3 else 2}f} Mohm"


def ohms_limit(value: float) -> float:
    """Half-width of the multimeter's error limits at a reading, ohm."""
    step = METER_STEPS[min(int(np.searchsorted(METER_RANGES, value)), len(METER_STEPS) - 1)]
    return value * METER_PERCENT / 100.0 + METER_DIGITS * step


def feeler(true: Array, draws: Draws, leaf: float = 0.05) -> Array:
    """Thickest leaf of a feeler set that goes in with a light drag; leaves every `leaf` mm, 0 means none.

    A hand lets a leaf through that is a hundredth too thick, and holds back one that is a hundredth too thin.
    """
    feel = true + draws.normal(len(true), 0.005, 0.008)
    return np.maximum(np.floor(np.minimum(feel, 2.0) / leaf + 1e-9) * leaf, 0.0)


@dataclass(frozen=True)
class Trace:
    """What a storage instrument kept: sampled, clipped at its range.

    Attributes
    ----------
    time : array
        Seconds.
    values : array
        In `unit`.
    unit : str
    clipped : bool
        Whether the signal left the screen.
    """

    time: Array
    values: Array
    unit: Literal["V", "kV", "A", "bar"]
    clipped: bool


def store(
    time: Array, signal: Array, unit: Literal["V", "kV", "A", "bar"], full_scale: float, rate: float
) -> Trace:
    """Sample and clip a signal as a storage trace of 8 bits does.

    Parameters
    ----------
    time, signal : array
        The true signal.
    unit : str
    full_scale : float
        Largest value on the screen, either sign.
    rate : float
        Samples a second.
    """
    ticks = np.arange(time[0], time[-1], 1.0 / rate)
    values = np.interp(ticks, time, signal)
    clipped = bool((np.abs(values) > full_scale).any())
    step = full_scale / 128.0
    return Trace(ticks, np.round(np.clip(values, -full_scale, full_scale) / step) * step, unit, clipped)
