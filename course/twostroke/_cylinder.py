"""The cylinder of a two-stroke engine: its sizes and what follows from them by geometry."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from twostroke import _slider_crank
from twostroke.errors import UnitError
from twostroke.geometry import stroke_and_rod
from twostroke.units import from_si, number, read_ratio, si

if TYPE_CHECKING:
    from pint import Quantity


class Cylinder:
    """Bore, stroke, rod, ratio and exhaust port of a two-stroke cylinder.

    Parameters
    ----------
    bore, stroke : str or Quantity
        More than 0. [mm]
    rod : str or Quantity
        Connecting rod between centres, more than half the stroke. [mm]
    geometric_ratio : float or str
        Volume at bottom over volume at top dead centre, more than 1: ``9`` or ``"9:1"``.
    port_closing : str or Quantity
        Crank angle before top dead centre at which the exhaust port closes, 0 to 180 degrees. [deg]

    Attributes
    ----------
    bore, stroke, rod, port_closing : Quantity
        As given. [mm, mm, mm, deg]
    geometric_ratio : float
        As given.

    Raises
    ------
    UnitError
        A value without a unit or of the wrong kind.
    RangeError
        A crank that could not turn, a ratio of 1 or less, or a port closing outside 0 to 180 degrees.

    Examples
    --------
    >>> engine = Cylinder("40 mm", "30 mm", "55 mm", 9, "105 deg")
    >>> print(f"{engine.displacement:.2f~P}, trapped ratio {engine.trapped_ratio:.3f}")
    37.70 cm³, trapped ratio 6.553
    """

    def __init__(
        self,
        bore: str | Quantity,
        stroke: str | Quantity,
        rod: str | Quantity,
        geometric_ratio: float | str,
        port_closing: str | Quantity,
    ) -> None:
        self._bore = si(bore, "mm", "bore", above=0)
        self._stroke, self._rod = stroke_and_rod(stroke, rod)
        ratio = read_ratio(geometric_ratio) if isinstance(geometric_ratio, str) else geometric_ratio
        self.geometric_ratio = number(ratio, "geometric compression ratio", above=1)
        self._closing = si(port_closing, "deg", "exhaust port closing", minimum=0, maximum=180)
        self.bore, self.stroke, self.rod = (from_si(v, "mm") for v in (self._bore, self._stroke, self._rod))
        self.port_closing = from_si(self._closing, "deg")

    def __repr__(self) -> str:
        sizes = ", ".join(f"'{size:.6g}'" for size in (self.bore, self.stroke, self.rod))
        return f"Cylinder({sizes}, {self.geometric_ratio:.6g}, '{self.port_closing:.6g}')"

    @property
    def _swept(self) -> float:
        return math.pi / 4 * self._bore**2 * self._stroke

    @property
    def _clearance(self) -> float:
        return self._swept / (self.geometric_ratio - 1)

    def _volume(self, angle: float) -> float:
        depth = _slider_crank.piston_depth(angle, self._stroke, self._rod)
        return self._clearance + math.pi / 4 * self._bore**2 * depth

    @property
    def displacement(self) -> Quantity:
        """Volume that the piston sweeps. [cm^3]"""
        return from_si(self._swept, "cm^3")

    @property
    def clearance_volume(self) -> Quantity:
        """Volume left above the piston at top dead centre. [cm^3]"""
        return from_si(self._clearance, "cm^3")

    @property
    def trapped_volume(self) -> Quantity:
        """Volume above the piston when the exhaust port closes. [cm^3]"""
        return from_si(self._volume(self._closing), "cm^3")

    @property
    def trapped_ratio(self) -> float:
        """Trapped volume over clearance volume: the ratio that compresses."""
        return self._volume(self._closing) / self._clearance

    def volume(self, crank_angle: str | Quantity) -> Quantity:
        """Volume above the piston.

        Parameters
        ----------
        crank_angle : str or Quantity
            From top dead centre, either side. [deg]

        Returns
        -------
        Quantity
            Clearance volume and what the piston has left free. [cm^3]

        Raises
        ------
        UnitError
            A value without a unit of angle.

        Examples
        --------
        >>> print(f"{Cylinder('40 mm', '30 mm', '55 mm', 9, '105 deg').volume('180 deg'):.2f~P}")
        42.41 cm³
        """
        return from_si(self._volume(si(crank_angle, "deg", "crank angle")), "cm^3")

    def piston_depth(self, crank_angle: str | Quantity) -> Quantity:
        """Depth of the piston below top dead centre.

        Parameters
        ----------
        crank_angle : str or Quantity
            From top dead centre, either side. [deg]

        Returns
        -------
        Quantity
            Depth. [mm]

        Raises
        ------
        UnitError
            A value without a unit of angle.

        Examples
        --------
        >>> print(f"{Cylinder('40 mm', '30 mm', '55 mm', 9, '105 deg').piston_depth('26.605 deg'):.2f}")
        2.00 mm
        """
        angle = si(crank_angle, "deg", "crank angle")
        return from_si(_slider_crank.piston_depth(angle, self._stroke, self._rod), "mm")

    def crank_angle(self, piston_depth: str | Quantity) -> Quantity:
        """Crank angle from top dead centre at a depth of the piston.

        Parameters
        ----------
        piston_depth : str or Quantity
            Depth below top dead centre, 0 to the stroke. [mm]

        Returns
        -------
        Quantity
            Angle, 0 to 180 degrees. [deg]

        Raises
        ------
        UnitError
            A value without a unit of length.
        RangeError
            A depth outside the stroke.

        Examples
        --------
        >>> print(f"{Cylinder('40 mm', '30 mm', '55 mm', 9, '105 deg').crank_angle('2.00 mm'):.3f}")
        26.605 deg
        """
        depth = si(piston_depth, "mm", "piston depth", minimum=0, maximum=self._stroke * 1e3)
        return from_si(_slider_crank.crank_angle(depth, self._stroke, self._rod), "deg")

    def pumping_sizes(self) -> dict[str, Any]:
        """The cylinder's SI floats under the names that the pumping model takes.

        Returns
        -------
        dict of str to float
            ``bore``, ``stroke``, ``rod``, ``clearance_volume`` and ``closing``. [m, m, m, m^3, rad]

        Examples
        --------
        >>> sorted(Cylinder("40 mm", "30 mm", "55 mm", 9, "105 deg").pumping_sizes())
        ['bore', 'clearance_volume', 'closing', 'rod', 'stroke']
        """
        return {
            "bore": self._bore,
            "stroke": self._stroke,
            "rod": self._rod,
            "clearance_volume": self._clearance,
            "closing": self._closing,
        }


def check_cylinder(cylinder: object) -> None:
    """Raise UnitError unless it is a :class:`Cylinder`."""
    if not isinstance(cylinder, Cylinder):
        kind = type(cylinder).__name__
        raise UnitError(f"cylinder: {kind} is not a Cylinder; make one with compression.Cylinder")
