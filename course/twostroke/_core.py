"""The iron and the magnet: a core and the flux through it, with units at the door."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

import numpy as np

from twostroke import _network
from twostroke._system import LEAST_GAP
from twostroke.errors import RangeError
from twostroke.sources import formula
from twostroke.units import from_si, number, si, si_list

if TYPE_CHECKING:
    from pint import Quantity

Gap = Any  # one value for both legs, or a pair (leg 1, leg 2)


def gaps(air_gap: Gap) -> tuple[float, float]:
    """Gap under each leg in metres."""
    pair = isinstance(air_gap, Sequence) and not isinstance(air_gap, str)
    if pair or np.ndim(getattr(air_gap, "magnitude", 0.0)) == 1:
        both = si_list(air_gap, "mm", "air gap", minimum=0, maximum=10)
        if len(both) != 2:
            raise RangeError(f"air gap: {len(both)} values; give one for both legs or a pair, one a leg")
        first, second = both
    else:
        first = second = si(air_gap, "mm", "air gap", minimum=0, maximum=10)
    return max(first, LEAST_GAP), max(second, LEAST_GAP)


def values_of(value: Any, unit: str, name: str, **limits: Any) -> tuple[np.ndarray, bool]:
    """SI floats of a quantity with one value or an array of them, and whether it was an array."""
    many = np.ndim(getattr(value, "magnitude", 0.0)) > 0 or (
        isinstance(value, Sequence) and not isinstance(value, str)
    )
    found = si_list(value, unit, name, **limits) if many else [si(value, unit, name, **limits)]
    if not found:
        raise RangeError(f"{name}: an empty list; give at least one value, with its unit")
    return np.array(found, dtype=float), many


class Core:
    """Two-legged laminated core and the flywheel's magnet with its two pole shoes, unrolled.

    Parameters
    ----------
    shoe_width, leg_width : str or Quantity
        Along the rim. [mm]
    pitch : str or Quantity
        Between the middles of the shoes, and of the legs. [mm]
    depth : str or Quantity
        Across the rim, of core and magnet. [mm]
    magnet_width, magnet_thickness : str or Quantity
        Between the shoes, and radially. [mm]
    remanence : str or Quantity
        Of the magnet at 20 degC. [T]
    recoil_permeability : float
        Relative, of the magnet.
    leg_height, yoke : str or Quantity
        Length of a leg, and height of the yoke that joins them. [mm]
    iron_permeability : float
        Relative.
    saturation : str or Quantity, optional
        Flux density that the legs do not pass; left out, the iron stays linear. [T]

    Raises
    ------
    UnitError
        A value without a unit or of the wrong kind.
    RangeError
        A value outside physical sense, or legs that overlap.

    Examples
    --------
    >>> from twostroke.magneto import Core
    >>> core = Core("10 mm", "8 mm", "24 mm", "12 mm", "14 mm", "8 mm", "1.00 T", 1.07, "24 mm", "8 mm", 2000)
    >>> print(f"{core.flux('0 mm', '0.30 mm').m_as('mWb'):.4f} mWb")
    0.0863 mWb
    """

    def __init__(
        self,
        shoe_width: str | Quantity,
        leg_width: str | Quantity,
        pitch: str | Quantity,
        depth: str | Quantity,
        magnet_width: str | Quantity,
        magnet_thickness: str | Quantity,
        remanence: str | Quantity,
        recoil_permeability: float,
        leg_height: str | Quantity,
        yoke: str | Quantity,
        iron_permeability: float,
        saturation: str | Quantity | None = None,
    ) -> None:
        lengths = {
            "shoe_width": shoe_width, "leg_width": leg_width, "pitch": pitch, "depth": depth,
            "magnet_width": magnet_width, "magnet_thickness": magnet_thickness, "leg_height": leg_height,
            "yoke": yoke,
        }  # fmt: skip
        self.values: dict[str, float] = {
            name: si(value, "mm", name.replace("_", " "), above=0) for name, value in lengths.items()
        }
        self.values["remanence"] = si(remanence, "T", "remanence", minimum=0, maximum=2)
        self.values["recoil_permeability"] = number(recoil_permeability, "recoil permeability", minimum=1)
        self.values["iron_permeability"] = number(iron_permeability, "iron permeability", minimum=1)
        limit = float("inf") if saturation is None else si(saturation, "T", "saturation", above=0)
        self.values["saturation"] = limit
        if self.values["pitch"] <= max(self.values["leg_width"], self.values["shoe_width"]):
            raise RangeError(f"pitch {pitch}: must be wider than a leg and than a shoe, or they overlap")

    def __repr__(self) -> str:
        inside = ", ".join(f"{name}={value:.4g}" for name, value in self.values.items())
        return f"Core({inside})"

    def solve(self, position: Any, first: Any, second: Any) -> tuple[Any, Any]:
        """Core flux and winding permeance in SI floats, for arrays of positions and gaps."""
        values: dict[str, Any] = dict(self.values)
        return _network.solve(values, np.asarray(position, float), np.asarray(first), np.asarray(second))

    @formula("permeance network of shoes, legs, magnet and core", "network_fit", module="magneto")
    def flux(self, position: str | Quantity, air_gap: Gap) -> Quantity:
        """Flux through the core.

        Parameters
        ----------
        position : str or Quantity
            How far the magnet's middle is past the core's middle, along the rim; one value or an array. [mm]
        air_gap : str or Quantity, or a pair of them
            Between shoe and leg; a pair gives each leg its own. [mm]

        Returns
        -------
        Quantity
            [uWb]

        Raises
        ------
        UnitError
            A value without a unit or of the wrong kind.
        RangeError
            A negative gap, or one above 10 mm.
        """
        x, many = values_of(position, "mm", "position", minimum=-1e4, maximum=1e4)
        flux = self.solve(x, *gaps(air_gap))[0]
        return from_si(flux if many else float(flux[0]), "uWb")
