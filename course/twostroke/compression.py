"""Compression and sealing: trapped ratio, a gauge pumped up, altitude, leak-down, pressure decay."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from twostroke import _pumping, verdict
from twostroke._air import (
    Atmosphere,
    absolute_pressure,
    air_at,
    gauge_pressure,
    reading_at_altitude,
    standard_atmosphere,
)
from twostroke._cylinder import Cylinder, check_cylinder
from twostroke._leaks import leak_down, leak_rate
from twostroke.sources import constant, formula
from twostroke.units import from_si, number, si

if TYPE_CHECKING:
    from pint import Quantity

__all__ = [
    "Atmosphere",
    "Charge",
    "Cylinder",
    "absolute_pressure",
    "charge_at",
    "gauge_pressure",
    "gauge_readings",
    "judge",
    "leak_down",
    "leak_rate",
    "reading_at_altitude",
    "standard_atmosphere",
]

CRANKING_EXPONENT = constant(
    "polytropic exponent when cranking",
    1.25,
    "",
    "practice",
    "usual range 1.2 to 1.35; a slow pull loses more heat",
)


@dataclass(frozen=True)
class Charge:
    """The charge in a cylinder at one crank angle.

    Parameters
    ----------
    pressure_absolute : Quantity
        Absolute pressure. [bar]
    temperature : Quantity
        Temperature. [degC]

    Examples
    --------
    >>> engine = Cylinder("40 mm", "30 mm", "55 mm", 9, "105 deg")
    >>> print(f"{charge_at(engine, '105 deg').pressure_absolute:.5f}")
    1.01325 bar
    """

    pressure_absolute: Quantity
    temperature: Quantity


@formula("p = p0 (V0/V)^n, T = T0 (V0/V)^(n-1) from the closing of the exhaust port", "gas_dynamics")
def charge_at(
    cylinder: Cylinder,
    crank_angle: str | Quantity,
    polytropic: float = float(CRANKING_EXPONENT),
    altitude: str | Quantity = "0 m",
    air_temperature: str | Quantity = "20 degC",
) -> Charge:
    """Pressure and temperature of the charge in a tight cylinder, for the demand of the plug at the spark.

    Parameters
    ----------
    cylinder : Cylinder
        The engine.
    crank_angle : str or Quantity
        Crank angle before top dead centre, 0 to the port's closing. [deg]
    polytropic : float, optional
        Exponent of the compression, 1 to 1.7.
    altitude : str or Quantity, optional
        Height above sea level, standard atmosphere. [m]
    air_temperature : str or Quantity, optional
        Temperature of the charge when the port closes. [degC]

    Returns
    -------
    Charge
        With ``pressure_absolute`` [bar] and ``temperature`` [degC].

    Raises
    ------
    UnitError
        A value without a unit or of the wrong kind, or something else in place of the cylinder.
    RangeError
        An angle at which the port is open, or an exponent outside its limits.

    Examples
    --------
    >>> engine = Cylinder("40 mm", "30 mm", "55 mm", 9, "105 deg")
    >>> charge = charge_at(engine, "25 deg")
    >>> print(f"{charge.pressure_absolute:.2f}, {charge.temperature.to('K'):.0f}")
    6.55 bar, 426 K
    """
    check_cylinder(cylinder)
    closing = float(cylinder.port_closing.to("deg").magnitude)
    si(crank_angle, "deg", "crank angle before top dead centre", minimum=0, maximum=closing)
    n = number(polytropic, "polytropic exponent", minimum=1, maximum=1.7)
    squeezed = float((cylinder.trapped_volume / cylinder.volume(crank_angle)).to("").magnitude)
    kelvin = si(air_temperature, "degC", "air temperature", above=-273.15)
    pressure = air_at(altitude)[0] * squeezed**n
    return Charge(from_si(pressure, "bar"), from_si(kelvin * squeezed ** (n - 1), "degC"))


@formula(
    "p v^n in the cylinder, ideal check valve, gauge at the air's temperature, leak by an ideal nozzle",
    "gas_dynamics",
    "iso9300",
)
def gauge_readings(
    cylinder: Cylinder,
    pulls: int,
    speed: str | Quantity,
    gauge_volume: str | Quantity,
    polytropic: float = float(CRANKING_EXPONENT),
    leak_area: str | Quantity = "0 mm^2",
    altitude: str | Quantity = "0 m",
    air_temperature: str | Quantity = "20 degC",
) -> Quantity:
    """What a compression gauge shows after each pull, with throttle and choke fully open.

    Parameters
    ----------
    cylinder : Cylinder
        The engine.
    pulls : int
        Number of compression strokes, 1 to 1000.
    speed : str or Quantity
        Cranking speed, more than 0. [rpm]
    gauge_volume : str or Quantity
        Volume of hose and adapter behind the engine's own plug hole, up to the check valve's far side. [mL]
    polytropic : float, optional
        Exponent of the compression, 1 (no heat kept) to 1.7.
    leak_area : str or Quantity, optional
        Effective area of the leak past rings, gasket or plug seat. [mm^2]
    altitude : str or Quantity, optional
        Height above sea level, standard atmosphere. [m]
    air_temperature : str or Quantity, optional
        Temperature of the air; it matters only with a leak. [degC]

    Returns
    -------
    Quantity
        Gauge pressure after each pull, shape ``(pulls,)``. [bar]

    Raises
    ------
    UnitError
        A value without a unit or of the wrong kind, or something else in place of the cylinder.
    RangeError
        No speed, a negative volume or leak, an exponent or count outside its limits.

    Notes
    -----
    A gauge with much volume between valve and dial reads low on a sound small engine until it is pumped up.
    Usual exponents when cranking are 1.2 to 1.35 (common practice, no source).

    Examples
    --------
    >>> engine = Cylinder("40 mm", "30 mm", "55 mm", 9, "105 deg")
    >>> print(f"{gauge_readings(engine, 3, '800 rpm', '6 mL'):.2f}")
    [2.88 4.85 6.23] bar
    """
    check_cylinder(cylinder)
    count = number(pulls, "number of pulls", minimum=1, maximum=1000, whole=True)
    air, _ = air_at(altitude)
    pressures = _pumping.gauge_pressures(
        **cylinder.pumping_sizes(),
        pulls=int(count),
        speed=si(speed, "rpm", "cranking speed", above=0),
        gauge_volume=si(gauge_volume, "mL", "volume of the gauge", minimum=0),
        polytropic=number(polytropic, "polytropic exponent", minimum=1, maximum=1.7),
        leak_area=si(leak_area, "mm^2", "leak area", minimum=0),
        atmosphere=air,
        air_temperature=si(air_temperature, "degC", "air temperature", above=-273.15),
    )
    return from_si(pressures - air, "bar")


def judge(
    reading: str | Quantity,
    low: str | Quantity | None,
    high: str | Quantity | None,
    uncertainty: str | Quantity,
) -> verdict.Verdict:
    """Say whether a gauge reading is inside its band, outside, or too close to a limit to tell.

    Parameters
    ----------
    reading : str or Quantity
        Gauge pressure as read. [bar]
    low, high : str or Quantity or None
        The band in gauge pressure for this altitude; the maker's figure comes first. [bar]
    uncertainty : str or Quantity
        Standard uncertainty of the reading. [bar]

    Returns
    -------
    {"in", "out", "undecided"}
        With a guard band of 1.645 standard uncertainties.

    Raises
    ------
    UnitError
        A value without a unit of pressure.
    RangeError
        A negative uncertainty, or limits the wrong way round.

    See Also
    --------
    twostroke.verdict.judge : The rule and its source.

    Examples
    --------
    >>> judge("120 psi", "100 psi", None, "4 psi")
    'in'
    """
    return verdict.judge(reading, low, high, uncertainty, expect="bar", name="gauge pressure")
