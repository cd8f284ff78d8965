"""What voltage a spark gap needs: air density, spacing, sharpness of the electrode, needle points.

Inside a firing cylinder these values are good to about 30 % (:data:`IN_CYLINDER_SPREAD`): hot electrodes,
fuel and polarity are left out. Use them for order and margin, not as kilovolts to be measured.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from typing import TYPE_CHECKING

from twostroke.errors import RangeError
from twostroke.sources import constant, formula
from twostroke.units import from_si, si

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pint import Quantity

__all__ = [
    "IN_CYLINDER_SPREAD",
    "needle_gap_for",
    "needle_gap_voltage",
    "sharpness_factor",
    "townsend_voltage",
    "voltage",
]

ROOT_TERM = constant("breakdown of air, root term", 6.72, "kV/(bar*cm)**0.5", "kuffel")
LINEAR_TERM = constant("breakdown of air, linear term", 24.36, "kV/(bar*cm)", "kuffel")
LOWEST = constant(
    "lowest breakdown voltage of air", 327.0, "V", "paschen_minimum", "no gap breaks down below this"
)
TOWNSEND_A = constant("Townsend constant A of air", 15.0, "1/(cm*torr)", "townsend")
TOWNSEND_B = constant("Townsend constant B of air", 365.0, "V/(cm*torr)", "townsend")
TOWNSEND_GAMMA = constant("second Townsend coefficient", 0.01, "", "townsend", "usual round figure")
IN_CYLINDER_SPREAD = constant(
    "spread of the breakdown voltage in a cylinder",
    0.30,
    "",
    "cylinder_spread",
    "grade orders and margins, not kV",
)
_REFERENCE_KELVIN = 293.15

# Share of the uniform-field voltage left with a sharp centre electrode: edge radius [mm] by density as
# pressure at 20 degC [bar]; one block for each gap [mm]. Good to 0.05; values above 1 are cut to 1.
_GAPS = (0.0, 0.6, 1.0)
_RADII = (0.05, 0.10, 0.50)
_PRESSURES = (1.0, 4.0, 8.0)
_SHARPNESS = (
    ((1.0, 1.0, 1.0), (1.0, 1.0, 1.0), (1.0, 1.0, 1.0)),
    ((0.93, 0.86, 0.81), (0.98, 0.92, 0.88), (1.0, 1.0, 1.0)),
    ((0.85, 0.75, 0.69), (0.90, 0.80, 0.75), (1.0, 0.96, 0.92)),
)
_WIDEST_SHARP_GAP = 1.5
_DENSEST_SHARP = 12.0

# Needle points in air near 25 degC and 760 mmHg: spacing [mm], kV rms.
_NEEDLE_SPACING = (0.0, 11.9, 18.4, 25.4, 33.0, 41.0)
_NEEDLE_RMS = (0.0, 10.0, 15.0, 20.0, 25.0, 30.0)


def _between(x: float, xs: Sequence[float], ys: Sequence[float]) -> float:
    """Linear between rows, the last two rows continued beyond the end."""
    index = min(max(bisect_right(xs, x), 1), len(xs) - 1)
    share = (x - xs[index - 1]) / (xs[index] - xs[index - 1])
    return ys[index - 1] + share * (ys[index] - ys[index - 1])


def sharpness(gap: float, density_pressure: float, edge_radius: float) -> float:
    """Sharpness factor from SI floats: gap [m], pressure at 20 degC [Pa], edge radius [m]."""
    bar = min(max(density_pressure / 1e5, _PRESSURES[0]), _DENSEST_SHARP)
    log_radius = math.log(min(edge_radius * 1e3, _RADII[-1]))
    log_radii = [math.log(radius) for radius in _RADII]
    by_gap = [
        _between(log_radius, log_radii, [_between(bar, _PRESSURES, row) for row in block])
        for block in _SHARPNESS
    ]
    return min(1.0, _between(gap * 1e3, _GAPS, by_gap))


def uniform_field(gap: float, pressure: float, temperature: float) -> float:
    """Breakdown voltage [V] in a uniform field from SI floats: gap [m], absolute pressure [Pa], [K]."""
    product = pressure / 1e5 * gap * 1e2 * _REFERENCE_KELVIN / temperature
    kilovolts = float(ROOT_TERM) * math.sqrt(product) + float(LINEAR_TERM) * product
    return max(kilovolts * 1e3, float(LOWEST))


@formula(
    "V = 6.72 kV sqrt(pd) + 24.36 kV pd, pd in bar cm at 20 degC, times the sharpness factor",
    "kuffel",
    "sharpness",
)
def voltage(
    gap: str | Quantity,
    pressure_absolute: str | Quantity,
    temperature: str | Quantity,
    edge_radius: str | Quantity | None = None,
) -> Quantity:
    """Peak voltage at which a gap in air breaks down.

    Parameters
    ----------
    gap : str or Quantity
        Distance between the electrodes, more than 0, up to 200 mm. [mm]
    pressure_absolute : str or Quantity
        Absolute pressure of the air in the gap. [bar]
    temperature : str or Quantity
        Temperature of the air in the gap. [degC]
    edge_radius : str or Quantity, optional
        Radius of the centre electrode's edge, from 0.05 mm (new, sharp) to 0.5 mm and more (worn round).
        Left out, the field is taken as uniform. [mm]

    Returns
    -------
    Quantity
        Peak voltage, never below the lowest breakdown voltage of air. [kV]

    Raises
    ------
    UnitError
        A value without a unit or of the wrong kind.
    RangeError
        No gap, no pressure, or an edge for which the sharpness is not known: radius under 0.05 mm, gap over
        1.5 mm, or air denser than 12 bar at 20 degC.

    Notes
    -----
    Only the density counts: the same gap at twice the pressure and twice the absolute temperature needs the
    same voltage. Tested against sphere-gap tables at 0.05 to 2 cm and 1 atm; in a firing cylinder take 30 %
    either way.

    References
    ----------
    Kuffel, Zaengl and Kuffel, High Voltage Engineering: Fundamentals, from memory.

    Examples
    --------
    >>> print(f"{voltage('0.6 mm', '101.325 kPa', '20 degC'):.1f}")
    3.1 kV
    >>> for radius in ("0.5 mm", "0.05 mm"):
    ...     print(f"{voltage('0.6 mm', '6.37 bar', '425 K', radius):.1f}")
    9.9 kV
    8.4 kV
    """
    d = si(gap, "mm", "spark gap", above=0, maximum=200)
    p = si(pressure_absolute, "bar", "absolute pressure", above=0, reference="absolute")
    kelvin = si(temperature, "degC", "temperature of the air", above=-273.15)
    volts = uniform_field(d, p, kelvin)
    if edge_radius is not None:
        volts *= _checked_sharpness(gap, d, p * _REFERENCE_KELVIN / kelvin, edge_radius)
    return from_si(max(volts, float(LOWEST)), "kV")


def _checked_sharpness(
    gap: str | Quantity, d: float, density_pressure: float, edge_radius: str | Quantity
) -> float:
    radius = si(edge_radius, "mm", "edge radius", minimum=_RADII[0], maximum=20)
    if d > _WIDEST_SHARP_GAP * 1e-3:
        raise RangeError(
            f"gap {gap}: sharpness is known only up to {_WIDEST_SHARP_GAP} mm; leave edge_radius out"
        )
    if density_pressure > _DENSEST_SHARP * 1e5:
        raise RangeError(
            f"air as dense as {density_pressure / 1e5:.3g} bar at 20 degC: sharpness is known only up to "
            f"{_DENSEST_SHARP:g} bar; leave edge_radius out"
        )
    return sharpness(d, density_pressure, radius)


@formula("share of the uniform-field voltage, between rows of the table", "sharpness")
def sharpness_factor(
    gap: str | Quantity,
    pressure_absolute: str | Quantity,
    temperature: str | Quantity,
    edge_radius: str | Quantity,
) -> float:
    """Share of the uniform-field breakdown voltage that is left with a sharp centre electrode.

    Parameters
    ----------
    gap : str or Quantity
        Distance between the electrodes, up to 1.5 mm. [mm]
    pressure_absolute, temperature : str or Quantity
        State of the air in the gap. [bar, degC]
    edge_radius : str or Quantity
        Radius of the electrode's edge, at least 0.05 mm. [mm]

    Returns
    -------
    float
        At most 1; good to 0.05.

    Raises
    ------
    UnitError
        A value without a unit or of the wrong kind.
    RangeError
        Outside the table.

    Notes
    -----
    Computed for a 2.5 mm electrode at gaps of 0.6 and 1.0 mm; brought to 1 towards no gap, and continued
    to 1.5 mm.

    Examples
    --------
    >>> sharpness_factor("0.6 mm", "4 bar", "20 degC", "0.05 mm")
    0.86
    """
    d = si(gap, "mm", "spark gap", above=0)
    p = si(pressure_absolute, "bar", "absolute pressure", above=0, reference="absolute")
    kelvin = si(temperature, "degC", "temperature of the air", above=-273.15)
    return _checked_sharpness(gap, d, p * _REFERENCE_KELVIN / kelvin, edge_radius)


@formula("V = B pd / (ln(A pd) - ln ln(1 + 1/gamma))", "townsend")
def townsend_voltage(
    gap: str | Quantity, pressure_absolute: str | Quantity, temperature: str | Quantity = "20 degC"
) -> Quantity:
    """Breakdown voltage by the Townsend form, to show the shape of the curve with its minimum.

    Parameters
    ----------
    gap : str or Quantity
        Distance between the electrodes. [mm]
    pressure_absolute : str or Quantity
        Absolute pressure. [bar]
    temperature : str or Quantity, optional
        Temperature of the air. [degC]

    Returns
    -------
    Quantity
        Peak voltage. [kV]

    Raises
    ------
    UnitError
        A value without a unit or of the wrong kind.
    RangeError
        So little air in the gap that this form gives no breakdown.

    Notes
    -----
    At plug gaps it lies 3 to 15 % above :func:`voltage`, which is the one to use there.

    Examples
    --------
    >>> print(f"{townsend_voltage('0.011 mm', '101.325 kPa'):.2f}")
    0.31 kV
    """
    d = si(gap, "mm", "spark gap", above=0, maximum=200)
    p = si(pressure_absolute, "bar", "absolute pressure", above=0, reference="absolute")
    kelvin = si(temperature, "degC", "temperature of the air", above=-273.15)
    product = p / (101325 / 760) * d * 100 * _REFERENCE_KELVIN / kelvin
    divisor = math.log(float(TOWNSEND_A) * product) - math.log(math.log1p(1 / float(TOWNSEND_GAMMA)))
    if divisor <= 0:
        raise RangeError(
            f"gap {gap} at {pressure_absolute}: too little air in the gap for this form; widen the gap"
        )
    return from_si(float(TOWNSEND_B) * product / divisor, "kV")


@formula("peak = sqrt(2) kV rms, linear between rows of the table", "aiee_needle")
def needle_gap_voltage(gap: str | Quantity) -> Quantity:
    """Peak voltage at which a gap between needle points in open air breaks down.

    Parameters
    ----------
    gap : str or Quantity
        Distance between the points, 0 to 41 mm. [mm]

    Returns
    -------
    Quantity
        Peak voltage near 25 degC and 760 mmHg. [kV]

    Raises
    ------
    UnitError
        A value without a unit of length.
    RangeError
        A negative gap, or one beyond the table.

    Notes
    -----
    A real tester's points are blunter than needles, so that it asks for more at the same distance.

    References
    ----------
    AIEE table of needle gaps, from memory; below its first row at 11.9 mm a straight line to zero.

    Examples
    --------
    >>> print(f"{needle_gap_voltage('8.5 mm'):.1f}")
    10.1 kV
    """
    spacing = si(gap, "mm", "gap between the points", minimum=0, maximum=_NEEDLE_SPACING[-1]) * 1e3
    return from_si(_between(spacing, _NEEDLE_SPACING, _NEEDLE_RMS) * math.sqrt(2) * 1e3, "kV")


@formula("spacing at kV rms = peak / sqrt(2), linear between rows of the table", "aiee_needle")
def needle_gap_for(peak_voltage: str | Quantity) -> Quantity:
    """Distance between needle points in open air that breaks down at a given peak voltage.

    Parameters
    ----------
    peak_voltage : str or Quantity
        Peak voltage, such as the demand of a plug under compression; up to 42.4 kV. [kV]

    Returns
    -------
    Quantity
        Distance. [mm]

    Raises
    ------
    UnitError
        A value without a unit of voltage.
    RangeError
        A negative voltage, or one beyond the table.

    Examples
    --------
    >>> print(f"{needle_gap_for('10 kV'):.1f}")
    8.4 mm
    """
    highest = _NEEDLE_RMS[-1] * math.sqrt(2)
    peak = si(peak_voltage, "kV", "peak voltage", minimum=0, maximum=highest)
    return from_si(_between(peak / 1e3 / math.sqrt(2), _NEEDLE_RMS, _NEEDLE_SPACING) / 1e3, "mm")
