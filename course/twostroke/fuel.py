"""Fuel and oil: mixture ratios both ways, and the vapour pressure that a cold start needs.

Fuel vapour burns: mix in the open air, away from sparks and hot parts, in a can made for fuel.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

from twostroke.errors import RangeError
from twostroke.sources import formula
from twostroke.units import from_si, read_ratio, si

if TYPE_CHECKING:
    from pint import Quantity

__all__ = ["Ratio", "mixture", "oil_for", "oil_share_of_fuel", "oil_share_of_mix", "vapour_pressure"]

_VAPOUR_TABLE = Path(__file__).parent / "data" / "vapour_pressure.csv"


class Ratio(float):
    """A mixture ratio: the number N, written ``N:1``, fuel first.

    Parameters
    ----------
    x : float
        Parts of fuel to one part of oil.

    Examples
    --------
    >>> print(Ratio(50)), Ratio(50) == "50:1", Ratio(50) / 2
    50:1
    (None, True, 25.0)
    """

    def __str__(self) -> str:
        return f"{float(self):.4g}:1"

    __repr__ = __str__

    def __eq__(self, other: object) -> bool:
        return str(self) == other if isinstance(other, str) else float.__eq__(self, other)

    def __ne__(self, other: object) -> bool:
        return not self == other

    __hash__ = float.__hash__


@formula("oil = fuel / N for N:1", "definition")
def oil_for(fuel: str | Quantity, ratio: str | float) -> Quantity:
    """Oil to add to an amount of fuel.

    Parameters
    ----------
    fuel : str or Quantity
        Fuel without oil, not negative. [L]
    ratio : str or float
        ``"N:1"``, fuel first, at least 1; the maker's figure comes first.

    Returns
    -------
    Quantity
        Oil. [mL]

    Raises
    ------
    UnitError
        Fuel without a unit of volume, or a ratio that cannot be read.
    RangeError
        A negative volume.

    Examples
    --------
    >>> print(oil_for("5 L", "50:1"))
    100.0 mL
    """
    volume = si(fuel, "L", "fuel", minimum=0)
    return from_si(volume / read_ratio(ratio, name="mixture ratio"), "mL")


@formula("N = fuel / oil", "definition")
def mixture(oil: str | Quantity, fuel: str | Quantity) -> Ratio:
    """Ratio of a mixture from its two volumes.

    Parameters
    ----------
    oil : str or Quantity
        Oil, more than 0. [mL]
    fuel : str or Quantity
        Fuel without oil, at least as much as oil. [L]

    Returns
    -------
    Ratio
        A float, printed as ``N:1``.

    Raises
    ------
    UnitError
        A value without a unit of volume.
    RangeError
        No oil, or more oil than fuel.

    Examples
    --------
    >>> print(mixture("100 mL", "5 L"))
    50:1
    """
    exact = si(fuel, "L", "fuel", above=0) / si(oil, "mL", "oil", above=0)
    parts = float(f"{exact:.12g}")
    if parts < 1:
        raise RangeError(
            f"oil {oil} is more than fuel {fuel}; the first value is the oil, the second the fuel"
        )
    return Ratio(parts)


@formula("share = 1/N", "definition")
def oil_share_of_fuel(ratio: str | float) -> float:
    """Oil as a share of the fuel it is added to.

    Parameters
    ----------
    ratio : str or float
        ``"N:1"``, fuel first.

    Returns
    -------
    float
        Share, 0.02 for 50:1, that is 2 %.

    Raises
    ------
    UnitError
        A ratio that cannot be read.

    Examples
    --------
    >>> oil_share_of_fuel("50:1")
    0.02
    """
    return 1 / read_ratio(ratio, name="mixture ratio")


@formula("share = 1/(N + 1)", "definition")
def oil_share_of_mix(ratio: str | float) -> float:
    """Oil as a share of the finished mixture.

    Parameters
    ----------
    ratio : str or float
        ``"N:1"``, fuel first.

    Returns
    -------
    float
        Share, 0.0196 for 50:1.

    Raises
    ------
    UnitError
        A ratio that cannot be read.

    Examples
    --------
    >>> round(oil_share_of_mix("50:1"), 5)
    0.01961
    """
    return 1 / (read_ratio(ratio, name="mixture ratio") + 1)


@lru_cache(maxsize=1)
def _vapour_table() -> dict[str, list[tuple[float, float]]]:
    """Substance -> rows of (-1/T, ln p), made from the table that CoolProp computed."""
    rows: dict[str, list[tuple[float, float]]] = {}
    for line in _VAPOUR_TABLE.read_text(encoding="utf-8").splitlines():
        if line and not line.startswith(("#", "substance")):
            substance, kelvin, pascal = line.split(",")
            rows.setdefault(substance, []).append((-1 / float(kelvin), math.log(float(pascal))))
    return rows


@formula("ln p linear in 1/T between rows of a table computed by CoolProp", "coolprop")
def vapour_pressure(temperature: str | Quantity, substance: str = "n-pentane") -> Quantity:
    """Saturation pressure of a pure stand-in for a part of petrol.

    Parameters
    ----------
    temperature : str or Quantity
        Temperature of the liquid, -40 to 80 degC. [degC]
    substance : {"n-pentane", "n-hexane", "n-heptane"}, optional
        Light, middle or heavier part. Petrol is a mixture: its fresh vapour is nearest to the lightest, and
        what is left after a long storage is nearer to the heaviest.

    Returns
    -------
    Quantity
        Absolute pressure. [kPa]

    Raises
    ------
    UnitError
        A temperature without a unit.
    RangeError
        A temperature outside the table, or another substance.

    Examples
    --------
    >>> print(f"{vapour_pressure('37.8 degC'):.1f}")
    107.6 kPa
    """
    table = _vapour_table()
    if not isinstance(substance, str) or substance not in table:
        raise RangeError(
            f"substance {str(substance)[:30]!r} is not in the table; use one of {', '.join(table)}"
        )
    rows = table[substance]
    inverse = -1 / si(temperature, "degC", "temperature of the fuel", minimum=-40, maximum=80)
    index = min(max(bisect_right(rows, (inverse, math.inf)), 1), len(rows) - 1)
    (x0, y0), (x1, y1) = rows[index - 1], rows[index]
    return from_si(math.exp(y0 + (y1 - y0) * (inverse - x0) / (x1 - x0)), "kPa")
