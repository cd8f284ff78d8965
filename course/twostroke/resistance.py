"""Copper windings and the ohmmeter: wire, temperature, the meter's own uncertainty, verdict."""

from __future__ import annotations

import math
import re
from typing import TYPE_CHECKING

from twostroke import verdict
from twostroke._copper import Corrected, copper_factor, corrected
from twostroke.sources import formula
from twostroke.units import from_si, number, si

if TYPE_CHECKING:
    from pint import Quantity

__all__ = [
    "Corrected",
    "at_temperature",
    "corrected",
    "judge",
    "meter_uncertainty",
    "parallel",
    "probability_inside",
    "wire_diameter",
    "wire_resistance",
]


@formula("d = 0.005 in * 92^((36 - n)/39)", "astm_b258")
def wire_diameter(awg: int | str) -> Quantity:
    """Diameter of a bare wire of an American wire gauge size.

    Parameters
    ----------
    awg : int or str
        Gauge number, -3 to 56; 0000 is -3 or the text ``"0000"`` or ``"4/0"``.

    Returns
    -------
    Quantity
        Diameter. [mm]

    Raises
    ------
    UnitError
        Not a gauge number.
    RangeError
        Not whole, or outside -3 to 56.

    References
    ----------
    ASTM B258, from memory: No. 36 is 0.0050 in, No. 0000 is 0.4600 in, 39 equal ratios between.

    Examples
    --------
    >>> print(f"{wire_diameter(36):.4f}")
    0.1270 mm
    """
    if isinstance(awg, str) and re.fullmatch(r"0{2,}|[1-9]/0", awg.strip()):
        zeros = awg.strip()
        awg = 1 - (len(zeros) if "/" not in zeros else int(zeros[0]))
    size = number(awg, "wire gauge number", minimum=-3, maximum=56, whole=True)
    return from_si(0.005 * 0.0254 * 92 ** ((36 - size) / 39), "mm")


@formula("R = length / (conductivity * pi d^2/4) * (1 + alpha (T - 20 degC))", "iec60028")
def wire_resistance(
    diameter: str | Quantity,
    length: str | Quantity,
    temperature: str | Quantity = "20 degC",
    conductivity: str | Quantity = "58 MS/m",
) -> Quantity:
    """Resistance of a length of round copper wire.

    Parameters
    ----------
    diameter : str or Quantity
        Diameter of the bare copper. [mm]
    length : str or Quantity
        Length of the wire. [m]
    temperature : str or Quantity, optional
        Temperature of the copper, -100 to 400 degC. [degC]
    conductivity : str or Quantity, optional
        At 20 degC: 58 MS/m for annealed copper, 58.5 MS/m to agree with winding-wire tables. [MS/m]

    Returns
    -------
    Quantity
        Resistance. [ohm]

    Raises
    ------
    UnitError
        A value without a unit or of the wrong kind.
    RangeError
        No diameter, a negative length, or a temperature at which the straight line does not hold.

    References
    ----------
    IEC 60028, from memory: 1/58 ohm mm^2/m and 0.00393 per kelvin, at 20 degC.

    Examples
    --------
    >>> print(f"{wire_resistance('0.2 mm', '1 m'):.4f}")
    0.5488 Ω
    >>> print(f"{wire_resistance('0.2 mm', '1 m', conductivity='58.5 MS/m'):.4f}")
    0.5441 Ω
    """
    d = si(diameter, "mm", "wire diameter", above=0)
    span = si(length, "m", "length of wire", minimum=0)
    sigma = si(conductivity, "MS/m", "conductivity", above=0)
    cold = span / (sigma * math.pi / 4 * d * d)
    return from_si(cold * copper_factor(temperature, "temperature of the wire"), "ohm")


@formula("R2 = R1 (1 + alpha (T2 - 20 degC)) / (1 + alpha (T1 - 20 degC))", "iec60028")
def at_temperature(
    resistance: str | Quantity, measured_at: str | Quantity, referred_to: str | Quantity
) -> Quantity:
    """What a copper winding read at one temperature would read at another.

    Parameters
    ----------
    resistance : str or Quantity
        Reading, leads already taken off. [ohm]
    measured_at : str or Quantity
        Temperature of the winding when it was read, -100 to 400 degC. [degC]
    referred_to : str or Quantity
        Temperature to refer it to, such as that of the maker's band. [degC]

    Returns
    -------
    Quantity
        Resistance. [ohm]

    Raises
    ------
    UnitError
        A value without a unit or of the wrong kind.
    RangeError
        A negative resistance, or a temperature at which the straight line does not hold.

    References
    ----------
    IEC 60028, from memory: 0.00393 per kelvin at 20 degC.

    Examples
    --------
    >>> print(f"{at_temperature('1.000 ohm', '20 degC', '75 degC'):.5f}")
    1.21615 Ω
    """
    reading = si(resistance, "ohm", "resistance", minimum=0)
    there = copper_factor(referred_to, "temperature to refer to")
    return from_si(reading * there / copper_factor(measured_at, "temperature when measured"), "ohm")


@formula("u = (percent/100 * reading + digits * resolution) / sqrt(3)", "jcgm100")
def meter_uncertainty(
    reading: str | Quantity, percent: float, digits: float, resolution: str | Quantity
) -> Quantity:
    """Standard uncertainty of an ohmmeter's reading from its accuracy statement.

    Parameters
    ----------
    reading : str or Quantity
        What the display shows. [ohm]
    percent : float
        Percentage of the reading in the statement, 0 to 100: 0.8 for "0.8 % + 3 digits".
    digits : float
        Number of steps of the last digit in the statement.
    resolution : str or Quantity
        One step of the last digit on this range. [ohm]

    Returns
    -------
    Quantity
        Standard uncertainty, a rectangular distribution taken. [ohm]

    Raises
    ------
    UnitError
        A value without a unit, of the wrong kind, or a unit where a plain number is wanted.
    RangeError
        A negative value.

    References
    ----------
    JCGM 100:2008, 4.3.7, from memory: half-width over the square root of three.

    Examples
    --------
    >>> print(f"{meter_uncertainty('2600 ohm', 0.8, 3, '1 ohm'):.2f}")
    13.74 Ω
    """
    shown = si(reading, "ohm", "reading", minimum=0)
    share = number(percent, "percent of the reading", minimum=0, maximum=100) / 100
    steps = number(digits, "digits", minimum=0)
    step = si(resolution, "ohm", "resolution", above=0)
    return from_si((share * shown + steps * step) / math.sqrt(3), "ohm")


@formula("1/R = 1/R_1 + 1/R_2 + ...", "definition")
def parallel(first: str | Quantity, *others: str | Quantity) -> Quantity:
    """Resistance of paths side by side, such as a winding with a leaking stop lead across it.

    Parameters
    ----------
    first, *others : str or Quantity
        Resistance of each path, not negative. [ohm]

    Returns
    -------
    Quantity
        Resistance, smaller than that of the smallest. [ohm]

    Raises
    ------
    UnitError
        A value without a unit of resistance.
    RangeError
        A negative resistance.

    Examples
    --------
    >>> print(parallel("3 kohm", "6 kohm").to("kohm"))
    2.0 kΩ
    """
    paths = [si(path, "ohm", "resistance", minimum=0) for path in (first, *others)]
    if min(paths) == 0:
        return from_si(0.0, "ohm")
    smallest = min(paths)
    return from_si(smallest / math.fsum(smallest / path for path in paths), "ohm")


def judge(
    reading: str | Quantity,
    low: str | Quantity | None,
    high: str | Quantity | None,
    uncertainty: str | Quantity,
) -> verdict.Verdict:
    """Say whether a resistance is inside its band, outside, or too close to a limit to tell.

    Parameters
    ----------
    reading : str or Quantity
        Resistance, leads taken off, at the temperature of the band. [ohm]
    low, high : str or Quantity or None
        The band; the maker's figure comes first. [ohm]
    uncertainty : str or Quantity
        Standard uncertainty of the reading. [ohm]

    Returns
    -------
    {"in", "out", "undecided"}
        With a guard band of 1.645 standard uncertainties.

    Raises
    ------
    UnitError
        A value without a unit of resistance.
    RangeError
        A negative resistance or uncertainty, or limits the wrong way round.

    See Also
    --------
    twostroke.verdict.judge : The rule and its source.

    Examples
    --------
    >>> judge("0.9 ohm", "0.8 ohm", "1.1 ohm", "0.18 ohm")
    'undecided'
    """
    si(reading, "ohm", "resistance", minimum=0)
    return verdict.judge(reading, low, high, uncertainty, expect="ohm", name="resistance")


def probability_inside(
    reading: str | Quantity,
    uncertainty: str | Quantity,
    low: str | Quantity | None,
    high: str | Quantity | None,
) -> float:
    """Chance that the true resistance lies inside a band.

    Parameters
    ----------
    reading, uncertainty : str or Quantity
        Resistance and its standard uncertainty. [ohm]
    low, high : str or Quantity or None
        The band. [ohm]

    Returns
    -------
    float
        Between 0 and 1.

    Raises
    ------
    UnitError
        A value without a unit of resistance.
    RangeError
        A negative resistance or uncertainty, or limits the wrong way round.

    See Also
    --------
    twostroke.verdict.probability_inside : The rule and its source.

    Examples
    --------
    >>> round(probability_inside("13.6 ohm", "1.8 ohm", "12.5 ohm", "16.3 ohm"), 4)
    0.6626
    """
    si(reading, "ohm", "resistance", minimum=0)
    return verdict.probability_inside(reading, uncertainty, low, high, expect="ohm", name="resistance")
