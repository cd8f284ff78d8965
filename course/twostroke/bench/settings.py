"""Numbers given as settings of an action."""

from __future__ import annotations

from twostroke.errors import TwoStrokeError
from twostroke.units import read


def number_of(given: object, name: str, low: float, high: float) -> float:
    """A number of minutes, plain or with its unit.

    Raises
    ------
    TwoStrokeError
        No number, or one outside what is allowed.

    Examples
    --------
    >>> number_of("5 min", "minutes", 0.1, 600.0), number_of(2, "minutes", 0.1, 600.0)
    (5.0, 2.0)
    """
    if isinstance(given, str):
        value = float(read(given, "min", name=name).to("min").magnitude)
    elif isinstance(given, bool) or not isinstance(given, int | float):
        raise TwoStrokeError(f"{name} {given!r} is no number: give {low:g} to {high:g}")
    else:
        value = float(given)
    if not low <= value <= high:
        raise TwoStrokeError(f"{name} {given!r}: give {low:g} to {high:g}")
    return value


def whole_number(given: object, name: str, low: int, high: int) -> int:
    """A count.

    Raises
    ------
    TwoStrokeError
        No whole number, or one outside what is allowed.
    """
    if isinstance(given, bool) or not isinstance(given, int) or not low <= given <= high:
        raise TwoStrokeError(f"{name} {given!r}: give a whole number from {low} to {high}")
    return given
