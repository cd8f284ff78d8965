"""The air around the engine: standard atmosphere, gauge and absolute pressure, readings at an altitude."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from twostroke.errors import RangeError
from twostroke.sources import constant, formula
from twostroke.units import from_si, si

if TYPE_CHECKING:
    from pint import Quantity

STANDARD_PRESSURE = constant("standard pressure", 101_325.0, "Pa", "us1976", "exact by definition")
_LOWEST, _HIGHEST = -5_000, 80_000


@dataclass(frozen=True)
class Atmosphere:
    """Air of the standard atmosphere.

    Parameters
    ----------
    pressure : Quantity
        Absolute pressure. [kPa]
    temperature : Quantity
        Temperature. [degC]

    Examples
    --------
    >>> print(standard_atmosphere("0 m").pressure)
    101.325 kPa
    """

    pressure: Quantity
    temperature: Quantity


def air_at(altitude: str | Quantity) -> tuple[float, float]:
    """Pressure [Pa] and temperature [K] of the standard atmosphere as SI floats."""
    from fluids.atmosphere import ATMOSPHERE_1976

    height = si(altitude, "m", "altitude", minimum=_LOWEST, maximum=_HIGHEST)
    if height == 0:
        return float(STANDARD_PRESSURE), 288.15
    found = ATMOSPHERE_1976(height)
    return float(found.P), float(found.T)


@formula("U.S. Standard Atmosphere 1976 at the geometric altitude", "us1976", module="compression")
def standard_atmosphere(altitude: str | Quantity) -> Atmosphere:
    """Pressure and temperature of the standard atmosphere.

    Parameters
    ----------
    altitude : str or Quantity
        Height above sea level as on a map (geometric), -5 to 80 km. [m]

    Returns
    -------
    Atmosphere
        With ``pressure`` [kPa] and ``temperature`` [degC].

    Raises
    ------
    UnitError
        A value without a unit of length.
    RangeError
        Outside the atmosphere's table.

    Notes
    -----
    The weather moves the true pressure by about 3 % either way.

    References
    ----------
    U.S. Standard Atmosphere, 1976, computed by the fluids library.

    Examples
    --------
    >>> air = standard_atmosphere("1500 m")
    >>> print(f"{air.pressure:.2f}, {air.temperature.to('K'):.2f}")
    84.56 kPa, 278.40 K
    """
    pressure, temperature = air_at(altitude)
    return Atmosphere(from_si(pressure, "kPa"), from_si(temperature, "degC"))


@formula("absolute = gauge + pressure of the air", "definition", "us1976", module="compression")
def absolute_pressure(gauge: str | Quantity, altitude: str | Quantity = "0 m") -> Quantity:
    """Absolute pressure behind a gauge reading.

    Parameters
    ----------
    gauge : str or Quantity
        Gauge pressure, negative for a vacuum. [bar]
    altitude : str or Quantity, optional
        Height above sea level, standard atmosphere. [m]

    Returns
    -------
    Quantity
        Absolute pressure. [bar]

    Raises
    ------
    UnitError
        A value without a unit or of the wrong kind.
    RangeError
        A vacuum deeper than no pressure at all.

    Examples
    --------
    >>> print(f"{absolute_pressure('120 psi').to('psi'):.1f}")
    134.7 psi
    """
    found = si(gauge, "bar", "gauge pressure", reference="gauge") + air_at(altitude)[0]
    if found < 0:
        raise RangeError(f"gauge pressure {gauge} is deeper than a perfect vacuum there; check sign and unit")
    return from_si(found, "bar")


@formula("gauge = absolute - pressure of the air", "definition", "us1976", module="compression")
def gauge_pressure(absolute: str | Quantity, altitude: str | Quantity = "0 m") -> Quantity:
    """What a gauge shows for an absolute pressure.

    Parameters
    ----------
    absolute : str or Quantity
        Absolute pressure, not negative. [bar]
    altitude : str or Quantity, optional
        Height above sea level, standard atmosphere. [m]

    Returns
    -------
    Quantity
        Gauge pressure, negative for a vacuum. [bar]

    Raises
    ------
    UnitError
        A value without a unit or of the wrong kind.
    RangeError
        A negative absolute pressure.

    Examples
    --------
    >>> print(f"{gauge_pressure('2 bar', '1500 m'):.3f}")
    1.154 bar
    """
    found = si(absolute, "bar", "absolute pressure", minimum=0, reference="absolute")
    return from_si(found - air_at(altitude)[0], "bar")


@formula("reading(h) = reading(0) p(h)/p(0)", "us1976", module="compression")
def reading_at_altitude(sea_level_gauge: str | Quantity, altitude: str | Quantity) -> Quantity:
    """What a sound engine's compression gauge shows at an altitude.

    Parameters
    ----------
    sea_level_gauge : str or Quantity
        Gauge reading of the same engine at sea level, not negative. [bar]
    altitude : str or Quantity
        Height above sea level, standard atmosphere. [m]

    Returns
    -------
    Quantity
        Gauge reading there. [bar]

    Raises
    ------
    UnitError
        A value without a unit or of the wrong kind.
    RangeError
        A negative reading.

    Notes
    -----
    All pressures in the cylinder go with the pressure of the air that it draws, so the gauge does too.

    Examples
    --------
    >>> print(f"{reading_at_altitude('100 psi', '1500 m').to('psi'):.1f}")
    83.5 psi
    """
    reading = si(sea_level_gauge, "bar", "gauge pressure at sea level", minimum=0, reference="gauge")
    return from_si(reading * air_at(altitude)[0] / float(STANDARD_PRESSURE), "bar")
