"""Conversions between shop units as fast floats; the factors come from the unit registry."""

from __future__ import annotations

from functools import cache

from twostroke import units


@cache
def _line(from_unit: str, to_unit: str) -> tuple[float, float]:
    """Slope and offset of the conversion."""
    zero, one = (
        float(units.read(f"{x} {from_unit}").to(units.read(f"1 {to_unit}").units).magnitude) for x in (0, 1)
    )
    return one - zero, zero


def convert(value: float, from_unit: str, to_unit: str) -> float:
    """Return the value in another unit of the same kind.

    Parameters
    ----------
    value : float
        Number in `from_unit`.
    from_unit, to_unit : str
        Units as `units.read` takes them; temperatures too.

    Returns
    -------
    float
        Number in `to_unit`.

    References
    ----------
    NIST SP 811, appendix B, as held by pint.

    Examples
    --------
    >>> round(convert(12, "thou", "mm"), 4), round(convert(68, "degF", "degC"), 6)
    (0.3048, 20.0)
    """
    slope, offset = _line(from_unit, to_unit)
    return slope * value + offset
