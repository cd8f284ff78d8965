"""Chance that one turn of the crank fires: spark margin, energy, mixture, compression, timing, burnt gas.

No published model of hand starting exists, so **every constant here is invented** (:class:`Invented`, the
one place that holds them). What is meant to hold is the order of things: more margin, more energy, a
mixture nearer to right, more compression, a spark nearer its time, a freer exhaust never start worse.
Wherever the chance is shown, say that it is invented.

How the conditions of the workshop come in:

- weak spark, slow pull, wide gap, fouled plug: available voltage and energy (``ignition``) against the
  demand;
- flooded: a mixture too rich, and the wet plug as a leak (``plug_shunt``) that takes voltage; oil film washed
  off lowers the compression;
- starved, stale fuel, cold engine without choke, air leak: a mixture too lean, since only vapour counts;
- restricted exhaust: burnt gas left in the cylinder;
- sheared key, module back to front: the angle of the spark.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtr

from twostroke.units import number, si

if TYPE_CHECKING:
    from pint import Quantity

__all__ = ["INVENTED", "Invented", "chance", "firing_chance"]

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Invented:
    """Invented constants of the chance of firing (no source; order only).

    Attributes
    ----------
    margin_spread
        Spread of the demand from turn to turn, part of the demand.
    energy_scale
        Energy (J) at which two sparks in three light the mixture.
    best_mixture, mixture_width
        Vapour to air against just enough to burn all air; half width in the logarithm.
    half_pressure, pressure_width
        Absolute pressure at top dead centre (Pa) at which half the sparks light the charge; width.
    best_angle, angle_width
        Crank angle of the spark before top dead centre and half width (rad).
    residual_limit
        Share of burnt gas at which nothing burns any more.
    highest
        Chance of a turn when all is right: even then not every turn fires.
    """

    margin_spread: float = 0.10
    energy_scale: float = 0.9e-3
    best_mixture: float = 1.10
    mixture_width: float = 0.52
    half_pressure: float = 6.9e5
    pressure_width: float = 0.6e5
    best_angle: float = 0.436
    angle_width: float = 0.297
    residual_limit: float = 0.85
    highest: float = 0.75


INVENTED = Invented()


def chance(
    volts: Any,
    demand: Any,
    joules: Any,
    ratio: Any,
    pressure: Any,
    btdc: Any,
    residual: Any = 0.0,
    constants: Invented = INVENTED,
) -> Array:
    """Chance that one turn fires, in SI floats and arrays that broadcast.

    Parameters
    ----------
    volts, demand : float or array
        Available at the plug, and needed by it under compression (V); the demand is good to about 30 %.
    joules : float or array
        Energy in the primary at opening (J).
    ratio : float or array
        Fuel vapour to air; 1 just burns all the air.
    pressure : float or array
        Absolute, at top dead centre (Pa).
    btdc : float or array
        Crank angle of the spark before top dead centre (rad).
    residual : float or array
        Share of burnt gas in the charge, 0 to 1.
    constants : Invented
        Other constants than those of this course.

    Returns
    -------
    array
        0 to ``highest``.

    Examples
    --------
    >>> good = chance(13e3, 9e3, 7e-3, 1.1, 10e5, 0.44)
    >>> lean = chance(13e3, 9e3, 7e-3, 0.65, 10e5, 0.44)
    >>> print(f"{float(good):.2f} {float(lean):.2f}")
    0.75 0.26
    """
    c = constants
    spread = np.maximum(c.margin_spread * np.asarray(demand, float), 1e-9)
    margin = (np.asarray(volts, float) - np.asarray(demand, float)) / spread
    spark = ndtr(margin) * -np.expm1(-np.maximum(joules, 0.0) / c.energy_scale)
    off = np.log(np.maximum(np.asarray(ratio, float), 1e-6) / c.best_mixture) / c.mixture_width
    fuel = np.exp(-np.minimum(off**4, 700.0))
    high = np.clip((np.asarray(pressure, float) - c.half_pressure) / c.pressure_width, -700.0, 700.0)
    squeeze = 1 / (1 + np.exp(-high))
    late = (np.asarray(btdc, float) - c.best_angle) / c.angle_width
    timing = np.exp(-np.minimum(late**4, 700.0))
    clean = np.maximum(1 - (np.asarray(residual, float) / c.residual_limit) ** 2, 0.0)
    return c.highest * spark * fuel * squeeze * timing * clean


def firing_chance(
    available: str | Quantity,
    demand: str | Quantity,
    energy: str | Quantity,
    mixture: float,
    peak_pressure_absolute: str | Quantity,
    spark_angle: str | Quantity,
    residual: float = 0.0,
) -> float:
    """Chance that one turn of the crank fires; invented, for order only.

    Parameters
    ----------
    available, demand : str or Quantity
        Voltage that the module can give at the plug, and that the plug needs under compression. [kV]
    energy : str or Quantity
        In the primary at opening. [mJ]
    mixture : float
        Fuel vapour to air; 1 just burns all the air.
    peak_pressure_absolute : str or Quantity
        At top dead centre. [bar]
    spark_angle : str or Quantity
        Before top dead centre. [deg]
    residual : float, optional
        Share of burnt gas in the charge.

    Returns
    -------
    float
        0 to 0.75.

    Raises
    ------
    UnitError
        A value without a unit or of the wrong kind.
    RangeError
        A value outside physical sense.

    Examples
    --------
    >>> weak = firing_chance("9 kV", "9.9 kV", "3 mJ", 1.0, "10 bar", "27 deg")
    >>> sound = firing_chance("13 kV", "9.9 kV", "7 mJ", 1.0, "10 bar", "27 deg")
    >>> weak < 0.2 < sound
    True
    """
    return float(
        chance(
            si(available, "kV", "available voltage", minimum=0),
            si(demand, "kV", "demand", above=0),
            si(energy, "mJ", "energy", minimum=0),
            number(mixture, "mixture", minimum=0),
            si(peak_pressure_absolute, "bar", "pressure", above=0, reference="absolute"),
            si(spark_angle, "deg", "spark angle", minimum=-180, maximum=180),
            number(residual, "share of burnt gas", minimum=0, maximum=1),
        )
    )
