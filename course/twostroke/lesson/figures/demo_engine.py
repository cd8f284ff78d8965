"""The invented engine of the drawings: 25 cm³, demo engine A, the same from lesson to lesson."""

from __future__ import annotations

from functools import cache

from twostroke import compression, geometry
from twostroke.ignition import Ignition

BORE, STROKE, ROD = "34 mm", "28 mm", "48 mm"
RATIO = 9.0
EXHAUST_DEPTH, TRANSFER_DEPTH = "19 mm", "22 mm"
INTAKE_OPENING = "65 deg"
CRANKCASE_RATIO = 1.4


@cache
def engine(exhaust_depth: str = EXHAUST_DEPTH) -> compression.Cylinder:
    """The cylinder with the exhaust port's roof at a depth below top dead centre.

    Examples
    --------
    >>> print(f"{engine().displacement:.1f~P}, port closes {engine().port_closing:.1f}")
    25.4 cm³, port closes 102.4 deg
    """
    closing = geometry.crank_angle(exhaust_depth, STROKE, ROD)
    return compression.Cylinder(BORE, STROKE, ROD, RATIO, closing)


def ignition_system() -> Ignition:
    """Magnet, module and lead in good order: the library's own default, gap 0.30 mm.

    Examples
    --------
    >>> ignition_system().gap_1
    0.0003
    """
    return Ignition()
