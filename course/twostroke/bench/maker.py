"""What the manual of a machine says, read into numbers: bands in the table's units."""

from __future__ import annotations

from functools import lru_cache

from twostroke.bench.models import Model
from twostroke.errors import TwoStrokeError
from twostroke.units import read_band

UNITS = {
    "air_gap": "mm",
    "plug_gap": "mm",
    "lead_resistance": "kohm",
    "primary_resistance": "ohm",
    "secondary_resistance": "kohm",
    "compression": "bar",
    "mixture_turns": "turns",
}
"""Quantities that a manual gives, in the unit of the table's ladders."""


def band(quantity: str, text: str) -> tuple[float, float]:
    """A printed band as two numbers in the table's unit.

    Raises
    ------
    TwoStrokeError
        No such quantity, or text that is no band.

    Examples
    --------
    >>> band("air_gap", "8-16 thou")
    (0.2032, 0.4064)
    >>> band("mixture_turns", "1-1.5 turns")
    (1.0, 1.5)
    """
    if quantity not in UNITS:
        raise TwoStrokeError(
            f"{quantity!r} is no quantity with a maker's band: choose one of {', '.join(UNITS)}"
        )
    unit = UNITS[quantity]
    if unit == "turns":
        return _turns(text)
    low, high = read_band(text, unit, name=quantity)
    return round(float(low.to(unit).magnitude), 9), round(float(high.to(unit).magnitude), 9)


def _turns(text: str) -> tuple[float, float]:
    parts = text.replace("turns", "").replace("turn", "").replace("–", "-").split("-")
    try:
        numbers = [float(part.replace(",", ".")) for part in parts]
    except ValueError:
        numbers = []
    if not 1 <= len(numbers) <= 2:
        raise TwoStrokeError(f"mixture_turns {text!r} is no band of turns: write it like '1-1.5 turns'")
    return numbers[0], numbers[-1]


@lru_cache(maxsize=32)
def bands_of(model: Model) -> dict[str, tuple[float, float]]:
    """All bands of a model in the table's units."""
    return {name: band(name, text) for name, text in model.bands.items()}
