"""What the plug needs under compression, and how far the available voltage lies above it.

A spark in open air proves about a third of this. The model is good to about 30 % inside a cylinder: hot
electrodes, fuel and polarity are left out, so that a margin smaller than this decides nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from twostroke import breakdown
from twostroke.compression import CRANKING_EXPONENT, Cylinder, charge_at
from twostroke.errors import UnitError
from twostroke.sources import formula
from twostroke.units import from_si, si

if TYPE_CHECKING:
    from pint import Quantity

__all__ = ["Demand", "Margin", "margin", "plug_demand"]


@dataclass(frozen=True)
class Demand:
    """What the plug needs at the moment of the spark, and how surely that is known.

    Attributes
    ----------
    voltage, low, high : Quantity
        Middle, and 30 % either way: the model is no better under compression. [kV]
    pressure : Quantity
        In the cylinder at the spark, absolute. [bar]
    temperature : Quantity
        There. [degC]
    """

    voltage: Quantity
    low: Quantity
    high: Quantity
    pressure: Quantity
    temperature: Quantity

    def __str__(self) -> str:
        return f"{self.voltage:.1f} (±30 %: {self.low:.1f} to {self.high:.1f})"


@dataclass(frozen=True)
class Margin:
    """Available voltage against the demand.

    Attributes
    ----------
    voltage : Quantity
        Available less demand. [kV]
    share : float
        The same as a part of the demand.
    verdict : str
        "sparks" above the demand's spread, "does not spark" below it, else "cannot say".
    """

    voltage: Quantity
    share: float
    verdict: str


@formula("breakdown voltage at p = p0 r^n, T = T0 r^(n-1) of the trapped charge", "kuffel", "cylinder_spread")
def plug_demand(
    cylinder: Cylinder,
    gap: str | Quantity = "0.6 mm",
    spark_angle: str | Quantity = "25 deg",
    edge_radius: str | Quantity | None = None,
    polytropic: float = float(CRANKING_EXPONENT),
    altitude: str | Quantity = "0 m",
    air_temperature: str | Quantity = "20 degC",
) -> Demand:
    """Voltage that the plug needs under compression of a tight cylinder at the moment of the spark.

    Parameters
    ----------
    cylinder : Cylinder
        The engine.
    gap : str or Quantity, optional
        Of the plug. [mm]
    spark_angle : str or Quantity, optional
        Before top dead centre. [deg]
    edge_radius : str or Quantity, optional
        Of the plug's centre electrode; left out, the field is taken as uniform. [mm]
    polytropic : float, optional
        Exponent of the compression.
    altitude, air_temperature : str or Quantity, optional
        Air around the engine. [m, degC]

    Returns
    -------
    Demand
        Voltage with its spread, pressure and temperature at the spark.

    Raises
    ------
    UnitError
        A value without a unit or of the wrong kind, or something else in place of the cylinder.
    RangeError
        A value outside physical sense.

    Examples
    --------
    >>> engine = Cylinder("40 mm", "30 mm", "55 mm", 9, "105 deg")
    >>> print(plug_demand(engine))
    10.1 kV (±30 %: 7.1 kV to 13.1 kV)
    """
    charge = charge_at(cylinder, spark_angle, polytropic, altitude, air_temperature)
    middle = breakdown.voltage(gap, charge.pressure_absolute, charge.temperature, edge_radius)
    spread = float(breakdown.IN_CYLINDER_SPREAD)
    low, high = middle * (1 - spread), middle * (1 + spread)
    return Demand(middle, low, high, charge.pressure_absolute, charge.temperature)


@formula("margin = available voltage over demand, less 1", "cylinder_spread")
def margin(available: str | Quantity, demand: Demand) -> Margin:
    """How far the available voltage lies above or below the demand, and whether that can be said.

    Parameters
    ----------
    available : str or Quantity
        Peak voltage that the module can give at the plug. [kV]
    demand : Demand
        As :func:`plug_demand` gives it.

    Returns
    -------
    Margin
        ``.voltage`` and ``.share``; ``.verdict`` is "sparks", "does not spark" or "cannot say".

    Raises
    ------
    UnitError
        A value without a unit or of the wrong kind, or something else in place of the demand.
    RangeError
        A negative voltage.

    Examples
    --------
    >>> need = plug_demand(Cylinder("40 mm", "30 mm", "55 mm", 9, "105 deg"))
    >>> margin("14 kV", need).verdict, margin("11 kV", need).verdict, margin("4 kV", need).verdict
    ('sparks', 'cannot say', 'does not spark')
    """
    if not isinstance(demand, Demand):
        raise UnitError(f"demand: {type(demand).__name__} is not a Demand; take it from plug_demand")
    volts = si(available, "kV", "available voltage", minimum=0)
    middle, low, high = (float(v.to("V").magnitude) for v in (demand.voltage, demand.low, demand.high))
    verdict = "sparks" if volts > high else "does not spark" if volts < low else "cannot say"
    return Margin(from_si(volts - middle, "kV"), volts / middle - 1, verdict)
