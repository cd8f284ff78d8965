"""The one door where text becomes a quantity, on one shared pint registry.

The number is read here, and pint sees only a unit from an allowed list, so that nothing is guessed:
what cannot be read with certainty is refused with a hint. Public functions of the package take a
quantity or text with a unit and return quantities; inside they work on the SI floats that :func:`si`
hands them. ``units.ureg`` is the registry, made when first asked for.

Examples
--------
>>> print(read("1 3/16 in").to("mm"))
30.1625 mm
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

from twostroke import _number_text, _reading, _registry, _unit_words
from twostroke._registry import as_quantity
from twostroke.errors import RangeError, UnitError

if TYPE_CHECKING:
    from pint import Quantity, Unit

__all__ = [
    "as_quantity",
    "from_si",
    "number",
    "read",
    "read_band",
    "read_ratio",
    "show",
    "si",
    "si_list",
]


def __getattr__(name: str) -> Any:
    """Make the shared registry when it is first asked for."""
    if name == "ureg":
        return _registry.registry()
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")


def read(
    text: str | Quantity,
    expect: str | Unit | None = None,
    *,
    name: str | None = None,
    reference: str | None = None,
) -> Quantity:
    """Read a quantity as people write it in a workshop, or refuse it with a hint.

    Parameters
    ----------
    text : str or Quantity
        Text with a unit, such as ``"10 thou"``, ``".25mm"``, ``"3 1/2 in"`` or ``"–5 °C"``. A quantity,
        also one of another pint registry, is checked and handed on.
    expect : str or Unit, optional
        A unit (``"mm"``, ``"ohm"``), a kind (``"length"``) or a dimension (``"[length]"``) that it must
        have. Where ohms are expected, ``"2.6k"`` and ``"4k7"`` are read too.
    name : str, optional
        What the value is, put in front of a message.
    reference : {"gauge", "absolute"}, optional
        What a pressure is counted from here; ``psig`` or ``bar(a)`` is read only where it agrees.

    Returns
    -------
    Quantity
        In the unit in which it was written.

    Raises
    ------
    UnitError
        No unit, an unknown one, one of the wrong kind, or a number that can mean two things.
    RangeError
        Below absolute zero, not a number, or too large or small for any machine.

    Notes
    -----
    A comma is read as a decimal mark only where it cannot be a thousands mark. ``gal`` and ``oz`` are
    asked back, because US and imperial measures differ. Factors are pint's, after NIST SP 811.

    Examples
    --------
    >>> print(read("0,25 mm"), read("10 thou").to("mm"), read("–5 °C").to("kelvin"), sep="; ")
    0.25 mm; 0.254 mm; 268.15 K
    >>> read("1,250 rpm")
    Traceback (most recent call last):
        ...
    twostroke.errors.UnitError: '1,250 rpm': 1,250 can mean 1250 or 1.250; write 1250 or 1.250
    """
    wanted = None if expect is None else _registry.expected(expect)
    label = _reading.label_of(name, text)
    if isinstance(text, str):
        return _reading.from_text(text, wanted, reference, label)
    return _reading.from_object(text, wanted, label)


def read_band(
    text: str | tuple[Any, Any], expect: str | Unit | None = None, *, name: str | None = None
) -> tuple[Quantity, Quantity]:
    """Read a band such as ``"0.3-0.5 mm"``.

    Parameters
    ----------
    text : str or tuple of two quantities
        Two numbers joined by a dash, ``to`` or dots, with one unit for both or one each; or a middle
        with its tolerance, ``"0.30 ± 0.05 mm"``.
    expect : str or Unit, optional
        As for :func:`read`.
    name : str, optional
        What the band is for, put in front of a message.

    Returns
    -------
    tuple of Quantity
        Lower and upper limit.

    Raises
    ------
    UnitError
        It is not a band, or a limit cannot be read.
    RangeError
        The limits are the wrong way round.

    Examples
    --------
    >>> low, high = read_band("0.3-0.5 mm")
    >>> print(low, "to", high)
    0.3 mm to 0.5 mm
    """
    label = _reading.label_of(name, text)
    if isinstance(text, str):
        low, high = _reading.limits(text, expect, label, read)
    elif isinstance(text, (tuple, list)) and len(text) == 2:
        low, high = (read(limit, expect, name=name) for limit in text)
    else:
        raise UnitError(f"{label} is not a band; write both limits and the unit, such as 0.3-0.5 mm")
    if low.dimensionality != high.dimensionality:
        raise UnitError(f"{label}: the limits are of different kinds; write for instance 0.3-0.5 mm")
    if low.to_base_units().magnitude > high.to_base_units().magnitude:
        raise RangeError(f"{label}: the limits are the wrong way round; write the lower one first")
    return low, high


def read_ratio(text: str | float, *, name: str | None = None) -> float:
    """Read a ratio such as ``"50:1"`` as the plain number 50.

    Parameters
    ----------
    text : str or float
        ``"N:1"``, ``"N to 1"``, or the plain number N, at least 1.
    name : str, optional
        What the ratio is, put in front of a message.

    Returns
    -------
    float
        First part over second part.

    Raises
    ------
    UnitError
        It is not a ratio, or it is turned round.

    Examples
    --------
    >>> read_ratio("50:1")
    50.0
    """
    label = _reading.label_of(name, text)
    advice = "write it larger part first, such as 50:1"
    if not isinstance(text, str):
        value = number(text, name or "ratio")
    else:
        if len(text) > _number_text.LONGEST:  # cut short it would be another ratio
            raise UnitError(f"{label} is too long for a ratio; {advice}")
        parts = re.split(r"\s*(?::|\bto\b)\s*", _number_text.clean(text))
        if len(parts) != 2:
            raise UnitError(f"{label} is not a ratio; {advice}")
        first, second = (number(part, name or "ratio") for part in parts)
        if first <= 0 or second <= 0:
            raise UnitError(f"{label}: both parts of a ratio are more than 0; {advice}")
        value = first / second
    if not 1 <= value < math.inf:
        raise UnitError(f"{label} is below 1, perhaps turned round; {advice}")
    return value


def number(
    value: Any,
    name: str,
    *,
    minimum: float | None = None,
    above: float | None = None,
    maximum: float | None = None,
    below: float | None = None,
    whole: bool = False,
) -> float:
    """Take a plain number for a parameter without a unit.

    Parameters
    ----------
    value : float, str or Quantity
        A number, text with only a number in it, or a quantity without dimension.
    name : str
        What it is, for the message.
    minimum, above, maximum, below : float, optional
        Limits; ``above`` and ``below`` leave out the limit itself.
    whole : bool, optional
        Only whole numbers are allowed.

    Returns
    -------
    float
        The number.

    Raises
    ------
    UnitError
        It is not a plain number.
    RangeError
        Outside the limits, or not whole.

    Examples
    --------
    >>> number(0.25, "area ratio", minimum=0)
    0.25
    """
    found = float(read(value, "dimensionless", name=name).to("").magnitude)
    _reading.inside(found, "", _reading.label_of(name, value), minimum, above, maximum, below)
    if whole and found != math.floor(found):
        raise RangeError(f"{_reading.label_of(name, value)} must be a whole number")
    return found


def si(
    value: Any,
    expect: str,
    name: str,
    *,
    minimum: float | None = None,
    above: float | None = None,
    maximum: float | None = None,
    below: float | None = None,
    reference: str | None = None,
) -> float:
    """Turn text or a quantity into an SI float, checked; the door of every public calculation.

    Parameters
    ----------
    value : str or Quantity
        As for :func:`read`.
    expect : str
        The unit it must be convertible to; the limits are in this unit.
    name : str
        What it is, for the message.
    minimum, above, maximum, below : float, optional
        Limits in the unit of ``expect``; ``above`` and ``below`` leave out the limit itself.
    reference : {"gauge", "absolute"}, optional
        As for :func:`read`.

    Returns
    -------
    float
        In the SI unit: m, Pa, K, rad, rad/s, ohm and so on.

    Raises
    ------
    UnitError
        As for :func:`read`.
    RangeError
        Outside the limits.

    Examples
    --------
    >>> si("10 thou", "mm", "air gap", minimum=0)
    0.000254
    """
    found = read(value, expect, name=name, reference=reference)
    wanted = _registry.expected(expect)
    in_unit = float(found.to(wanted.unit).magnitude)
    _reading.inside(in_unit, expect, _reading.label_of(name, value), minimum, above, maximum, below)
    kind = _unit_words.KINDS.get(wanted.kind)
    return float((found.to(kind.si) if kind else found.to_base_units()).magnitude)


def si_list(values: Any, expect: str, name: str, **limits: float | None) -> list[float]:
    """Turn a list of texts or quantities, or one array quantity, into SI floats.

    Parameters
    ----------
    values : sequence of str or Quantity, or Quantity with an array
        The values.
    expect : str
        The unit each must be convertible to.
    name : str
        What they are, for the message.
    **limits : float or None
        ``minimum``, ``above``, ``maximum``, ``below``, as for :func:`si`.

    Returns
    -------
    list of float
        In the SI unit.

    Raises
    ------
    UnitError
        Not a list, or one value cannot be read.
    RangeError
        One value is outside the limits.

    Examples
    --------
    >>> si_list(["0.1 mm", "4 thou"], "mm", "shim", above=0)
    [0.0001, 0.0001016]
    """
    if isinstance(values, (str, bytes, dict)) or not isinstance(values, Iterable):
        raise UnitError(f"{_reading.label_of(name, values)}: give a list, such as ['0.10 mm', '0.15 mm']")
    try:
        items = list(values)
    except TypeError:
        raise UnitError(
            f"{_reading.label_of(name, values)}: give a list, such as ['0.10 mm', '0.15 mm']"
        ) from None
    return [si(item, expect, name, **limits) for item in items]  # type: ignore[arg-type]


def from_si(value: Any, unit: str) -> Quantity:
    """Make a quantity in a unit from SI floats: the way out of every public calculation.

    Parameters
    ----------
    value : float or array_like
        In the SI unit of the same kind.
    unit : str
        The unit in which the result is given.

    Returns
    -------
    Quantity
        In ``unit``.

    Examples
    --------
    >>> print(from_si(0.000254, "mm"), from_si(293.15, "degC"))
    0.254 mm 20.0 °C
    """
    wanted = _registry.expected(unit)
    kind = _unit_words.KINDS.get(wanted.kind)
    base = kind.si if kind else _registry.registry().get_base_units(wanted.unit)[1]
    return _registry.registry().Quantity(value, base).to(wanted.unit)


def show(value: Quantity, digits: int = 3) -> str:
    """Write a quantity for a person to read: few figures, short unit, no exponent for shop sizes.

    Parameters
    ----------
    value : Quantity
        One quantity.
    digits : int, optional
        Significant figures.

    Returns
    -------
    str
        Such as ``"0.254 mm"``.

    Examples
    --------
    >>> show(read("0.25400001 mm")), show(read("12800 rpm"))
    ('0.254 mm', '12800 rpm')
    """
    magnitude = float(value.magnitude)
    places = 0 if magnitude == 0 else max(0, digits - 1 - math.floor(math.log10(abs(magnitude))))
    figures = f"{magnitude:.{places}f}" if places <= 6 else f"{magnitude:.{digits - 1}e}"
    return f"{figures} {value.units:~P}".strip()
