"""Copper and temperature: the constants, the straight line, and a reading corrected with its uncertainty."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from twostroke.errors import RangeError
from twostroke.sources import constant, formula
from twostroke.units import from_si, si

if TYPE_CHECKING:
    from pint import Quantity

CONDUCTIVITY = constant("conductivity of copper at 20 degC", 58.0, "MS/m", "iec60028")
WIRE_TABLE_CONDUCTIVITY = constant(
    "conductivity behind winding-wire tables",
    58.5,
    "MS/m",
    "iec60317",
    "0.86 % above that of annealed copper",
)
COEFFICIENT = constant("temperature coefficient of copper", 0.00393, "1/K", "iec60028", "referred to 20 degC")
_TWENTY = 293.15
_COLDEST, _HOTTEST = -100.0, 400.0


def copper_factor(temperature: str | Quantity, name: str) -> float:
    """Resistance of copper at a temperature over that at 20 degC."""
    kelvin = si(temperature, "degC", name, minimum=_COLDEST, maximum=_HOTTEST)
    return 1 + float(COEFFICIENT) * (kelvin - _TWENTY)


@dataclass(frozen=True)
class Corrected:
    """A resistance brought to another temperature, with its standard uncertainty.

    Parameters
    ----------
    value : Quantity
        Resistance. [ohm]
    uncertainty : Quantity
        Standard uncertainty. [ohm]

    Examples
    --------
    >>> print(corrected("1.0 ohm", "0.1 ohm", "20 degC", "0 K", "20 degC").uncertainty)
    0.1 Ω
    """

    value: Quantity
    uncertainty: Quantity


@formula(
    "R2 = (R - leads) (1 + alpha (T2 - 20))/(1 + alpha (T1 - 20)), uncertainties propagated",
    "jcgm100",
    module="resistance",
)
def corrected(
    reading: str | Quantity,
    uncertainty: str | Quantity,
    measured_at: str | Quantity,
    temperature_uncertainty: str | Quantity,
    referred_to: str | Quantity,
    leads: str | Quantity = "0 ohm",
    leads_uncertainty: str | Quantity = "0 ohm",
) -> Corrected:
    """Take the leads off a reading, refer it to another temperature, and carry the uncertainties along.

    Parameters
    ----------
    reading, uncertainty : str or Quantity
        What the display shows and its standard uncertainty. [ohm]
    measured_at : str or Quantity
        Temperature of the winding when it was read. [degC]
    temperature_uncertainty : str or Quantity
        Standard uncertainty of that temperature, a difference of temperature. [K]
    referred_to : str or Quantity
        Temperature to refer it to. [degC]
    leads, leads_uncertainty : str or Quantity, optional
        Reading with the probes held together, and its standard uncertainty. [ohm]

    Returns
    -------
    Corrected
        With ``value`` and ``uncertainty``. [ohm]

    Raises
    ------
    UnitError
        A value without a unit or of the wrong kind.
    RangeError
        A negative value, leads above the reading, or a temperature at which the straight line does not hold.

    References
    ----------
    JCGM 100:2008, 5.1.2, first order, computed by the ``uncertainties`` library.

    Examples
    --------
    >>> found = corrected("2600 ohm", "13.7 ohm", "20 degC", "3 K", "20 degC")
    >>> print(f"{found.value:.0f}, standard uncertainty {found.uncertainty:.1f}")
    2600 Ω, standard uncertainty 33.6 Ω
    """
    from uncertainties import nominal_value, std_dev

    shown = _uncertain(
        si(reading, "ohm", "reading", minimum=0), si(uncertainty, "ohm", "uncertainty", minimum=0)
    )
    off = _uncertain(
        si(leads, "ohm", "resistance of the leads", minimum=0),
        si(leads_uncertainty, "ohm", "uncertainty of the leads", minimum=0),
    )
    if nominal_value(off) > nominal_value(shown):
        raise RangeError(
            f"leads {leads} read more than the winding {reading}; hold the probes together and read again"
        )
    copper_factor(measured_at, "temperature when measured")
    warm = _uncertain(
        si(measured_at, "degC", "temperature when measured"),
        si(temperature_uncertainty, "delta_degC", "uncertainty of the temperature", minimum=0),
    )
    there = copper_factor(referred_to, "temperature to refer to")
    found = (shown - off) * there / (1 + float(COEFFICIENT) * (warm - _TWENTY))
    return Corrected(from_si(nominal_value(found), "ohm"), from_si(std_dev(found), "ohm"))


def _uncertain(value: float, uncertainty: float) -> Any:
    """A number with its uncertainty; a plain number where there is none."""
    from uncertainties import ufloat

    return ufloat(value, uncertainty) if uncertainty else value
