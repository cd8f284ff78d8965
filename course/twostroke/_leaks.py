"""Leaks from outside the engine's own turning: pressure decay, and the leak-down tester's percentage."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from twostroke import _air
from twostroke._pumping import GAMMA
from twostroke.errors import RangeError
from twostroke.sources import constant, formula
from twostroke.units import from_si, number, si

if TYPE_CHECKING:
    from pint import Quantity

RESTRICTOR_BORE = constant(
    "bore of a leak-down tester's restrictor",
    0.040,
    "inch",
    "faa_ac43_13",
    "aircraft engines, bores under 5.00 in",
)
RESTRICTOR_LENGTH = constant(
    "length of a leak-down tester's restrictor", 0.250, "inch", "faa_ac43_13", "60 degree entry"
)


@formula("Q = V (p1 - p2) / (101.325 kPa * t), isothermal", "definition", module="compression")
def leak_rate(
    volume: str | Quantity,
    start_gauge: str | Quantity,
    end_gauge: str | Quantity,
    duration: str | Quantity,
) -> Quantity:
    """Leak of a closed volume, such as a crankcase, from the fall of its pressure.

    Parameters
    ----------
    volume : str or Quantity
        Volume under pressure, hose and gauge included, more than 0. [mL]
    start_gauge, end_gauge : str or Quantity
        Gauge pressure at start and end; both negative in a vacuum test. [bar]
    duration : str or Quantity
        Time between the two, more than 0. [s]

    Returns
    -------
    Quantity
        Volume flow counted at standard pressure, outward under pressure and inward under vacuum. [mL/min]

    Raises
    ------
    UnitError
        A value without a unit or of the wrong kind.
    RangeError
        No volume or time, a pressure that went away from that of the air, or a vacuum deeper than perfect.

    Notes
    -----
    The volume is taken to stay at one temperature: wait until pumped air has cooled before timing.

    Examples
    --------
    >>> print(f"{leak_rate('200 mL', '0.70 bar', '0.50 bar', '60 s'):.1f~P}")
    39.5 mL/min
    """
    size = si(volume, "mL", "volume", above=0)
    time = si(duration, "s", "duration", above=0)
    lowest = -float(_air.STANDARD_PRESSURE) / 1e5
    start, end = (
        si(value, "bar", name, minimum=lowest, reference="gauge")
        for value, name in (
            (start_gauge, "gauge pressure at the start"),
            (end_gauge, "gauge pressure at the end"),
        )
    )
    if start * end < 0 or abs(end) > abs(start):
        raise RangeError(
            f"gauge pressure went from {start_gauge} to {end_gauge}: a leak brings it nearer to 0; "
            "look whether the pump was still joined or the air still warming, and time it again"
        )
    return from_si(size * abs(start - end) / (float(_air.STANDARD_PRESSURE) * time), "mL/min")


def _nozzle(ratio: float) -> float:
    """Ideal nozzle factor of one ratio; the array form is :func:`twostroke._pumping.nozzle_factor`."""
    gamma = float(GAMMA)
    held = max(ratio, (2 / (gamma + 1)) ** (gamma / (gamma - 1)))
    return math.sqrt(2 * gamma / (gamma - 1) * max(0.0, held ** (2 / gamma) - held ** ((gamma + 1) / gamma)))


@formula(
    "A_r p_s psi(p_m/p_s) = A_l p_m psi(p_a/p_m); percent = (p_s - p_m)/(p_s - p_a)",
    "gas_dynamics",
    "faa_ac43_13",
    module="compression",
)
def leak_down(supply_gauge: str | Quantity, area_ratio: float) -> float:
    """What a leak-down tester shows: two nozzles in series, the tester's own restrictor and the leak.

    Parameters
    ----------
    supply_gauge : str or Quantity
        Gauge pressure that the tester is set to, more than 0. [bar]
    area_ratio : float
        Area of the leak over area of the restrictor, 0 or more.

    Returns
    -------
    float
        Percent of the gauge supply pressure that is lost across the restrictor, 0 to 100.

    Raises
    ------
    UnitError
        A pressure without its unit, or an area ratio that is not a plain number.
    RangeError
        No supply pressure, or a negative ratio.

    Notes
    -----
    The same leak gives another percentage on a tester with another restrictor, so that percentages of two
    testers cannot be compared. The restrictor of an aircraft tester is 0.040 in by 0.250 in with a 60 degree
    entry for bores under 5.00 in (FAA AC 43.13-1B, 8-14). Both nozzles are ideal, at sea level.

    Examples
    --------
    >>> [round(leak_down("100 psi", ratio), 1) for ratio in (0.25, 1.0, 2.0)]
    [1.7, 22.1, 57.3]
    """
    outside = float(_air.STANDARD_PRESSURE)
    supply = si(supply_gauge, "bar", "supply pressure", above=0, reference="gauge") + outside
    ratio = number(area_ratio, "area ratio", minimum=0)
    low, high = outside, supply
    for _ in range(80):
        middle = (low + high) / 2
        fills = supply * _nozzle(middle / supply) > ratio * middle * _nozzle(outside / middle)
        low, high = (middle, high) if fills else (low, middle)
    return 100 * (supply - (low + high) / 2) / (supply - outside)
