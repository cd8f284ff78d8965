"""Bore, stroke and rod: displacement, piston depth against crank angle, port timing, key offset."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from twostroke import _slider_crank
from twostroke.errors import RangeError
from twostroke.sources import formula
from twostroke.units import from_si, read, si

if TYPE_CHECKING:
    from pint import Quantity

__all__ = [
    "crank_angle",
    "displacement",
    "key_offset_angle",
    "piston_depth",
    "port_duration",
    "stroke_and_rod",
]


def stroke_and_rod(stroke: str | Quantity, rod: str | Quantity) -> tuple[float, float]:
    """Check stroke and rod against each other.

    Parameters
    ----------
    stroke : str or Quantity
        Stroke, more than 0. [mm]
    rod : str or Quantity
        Length of the connecting rod between centres, more than half the stroke. [mm]

    Returns
    -------
    tuple of float
        Stroke and rod. [m]

    Raises
    ------
    UnitError
        A value without a unit of length.
    RangeError
        A crank that could not turn.

    Examples
    --------
    >>> stroke_and_rod("30 mm", "55 mm")
    (0.03, 0.055)
    """
    s = si(stroke, "mm", "stroke", above=0)
    length = si(rod, "mm", "connecting rod", above=0)
    if length <= s / 2:
        raise RangeError(
            f"rod {rod} with stroke {stroke}: a rod must be longer than half the stroke; measure again"
        )
    return s, length


@formula("V = pi/4 bore^2 stroke", "geometry")
def displacement(bore: str | Quantity, stroke: str | Quantity) -> Quantity:
    """Volume that the piston sweeps.

    Parameters
    ----------
    bore, stroke : str or Quantity
        More than 0. [mm]

    Returns
    -------
    Quantity
        Displacement. [cm^3]

    Raises
    ------
    UnitError
        A value without a unit of length.
    RangeError
        Zero or negative.

    Examples
    --------
    >>> print(f"{displacement('40 mm', '30 mm'):.2f~P}")
    37.70 cm³
    """
    b = si(bore, "mm", "bore", above=0)
    return from_si(math.pi / 4 * b * b * si(stroke, "mm", "stroke", above=0), "cm^3")


@formula("x = r (1 - cos a) + L - sqrt(L^2 - r^2 sin^2 a)", "geometry")
def piston_depth(angle: str | Quantity, stroke: str | Quantity, rod: str | Quantity) -> Quantity:
    """Depth of the piston below top dead centre.

    Parameters
    ----------
    angle : str or Quantity
        Crank angle from top dead centre, either side. [deg]
    stroke, rod : str or Quantity
        Stroke, and connecting rod between centres. [mm]

    Returns
    -------
    Quantity
        Depth. [mm]

    Raises
    ------
    UnitError
        A value without a unit or of the wrong kind.
    RangeError
        A crank that could not turn.

    Examples
    --------
    >>> print(f"{piston_depth('90 deg', '40 mm', '80 mm'):.4f}")
    22.5403 mm
    """
    s, length = stroke_and_rod(stroke, rod)
    return from_si(_slider_crank.piston_depth(si(angle, "deg", "crank angle"), s, length), "mm")


@formula("cos a = (r^2 + s^2 - L^2)/(2 r s), s = r + L - x", "geometry")
def crank_angle(depth: str | Quantity, stroke: str | Quantity, rod: str | Quantity) -> Quantity:
    """Crank angle from top dead centre at a depth of the piston, for ignition advance and port heights.

    Parameters
    ----------
    depth : str or Quantity
        Depth below top dead centre, 0 to the stroke. [mm]
    stroke, rod : str or Quantity
        Stroke, and connecting rod between centres. [mm]

    Returns
    -------
    Quantity
        Angle, 0 to 180 degrees, the same before and after top dead centre. [deg]

    Raises
    ------
    UnitError
        A value without a unit of length.
    RangeError
        A depth outside the stroke, or a crank that could not turn.

    Examples
    --------
    >>> print(f"{crank_angle('2.00 mm', '30 mm', '55 mm'):.3f}")
    26.605 deg
    """
    s, length = stroke_and_rod(stroke, rod)
    x = si(depth, "mm", "piston depth", minimum=0, maximum=s * 1e3)
    return from_si(_slider_crank.crank_angle(x, s, length), "deg")


@formula("angle = offset / (shaft diameter / 2)", "geometry")
def key_offset_angle(offset: str | Quantity, shaft_diameter: str | Quantity) -> Quantity:
    """Angle by which a flywheel stands wrong when its key has given way.

    Parameters
    ----------
    offset : str or Quantity
        Step between the two halves of the keyway, along the shaft's surface. [mm]
    shaft_diameter : str or Quantity
        Diameter of the shaft at the key. [mm]

    Returns
    -------
    Quantity
        Angle; the timing moves by as much. [deg]

    Raises
    ------
    UnitError
        A value without a unit of length.
    RangeError
        A negative offset, no diameter, or an offset of more than half a turn.

    Examples
    --------
    >>> print(f"{key_offset_angle('1.00 mm', '18 mm'):.3f}")
    6.366 deg
    """
    diameter = si(shaft_diameter, "mm", "shaft diameter", above=0)
    arc = si(offset, "mm", "offset at the key", minimum=0)
    if arc > math.pi * diameter / 2:
        raise RangeError(
            f"offset {offset} is more than half a turn of a shaft of {shaft_diameter}; measure again"
        )
    return from_si(2 * arc / diameter, "deg")


@formula("duration = 360 deg - 2 opening", "geometry")
def port_duration(opening: str | Quantity) -> Quantity:
    """Angle for which a port stays open that the piston's upper edge uncovers.

    Parameters
    ----------
    opening : str or Quantity
        Crank angle after top dead centre at which it opens, 0 to 180 degrees. [deg]

    Returns
    -------
    Quantity
        Duration. [deg]

    Raises
    ------
    UnitError
        A value without a unit of angle.
    RangeError
        An angle outside 0 to 180 degrees.

    Examples
    --------
    >>> print(port_duration("105.75 deg"))
    148.5 deg
    """
    si(opening, "deg", "port opening", minimum=0, maximum=180)
    degrees = read(opening, "deg").to("degree")
    return 2 * (180 * degrees.units - degrees)
