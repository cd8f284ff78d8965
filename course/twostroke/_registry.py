"""The one shared pint registry, made when first needed, and the way into it for foreign quantities."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from twostroke import _number_text, _unit_words
from twostroke.errors import UnitError

if TYPE_CHECKING:
    import pint


@lru_cache(maxsize=1)
def registry() -> pint.UnitRegistry:
    """The shared registry; pint keeps its parsed definitions in the user's cache folder where it can."""
    import pint

    made: pint.UnitRegistry
    try:
        made = pint.UnitRegistry(on_redefinition="ignore", cache_folder=":auto:")
        made.Unit("millimeter")
    except Exception:  # a cache that cannot be written or read only costs a tenth of a second
        made = pint.UnitRegistry(on_redefinition="ignore")
    made.define("thou = 1e-3 * inch = thou = mil_length")
    made.define("liter = decimeter ** 3 = L = l = litre")
    made.formatter.default_format = "~P"
    made.separate_format_defaults = True  # f"{value:.2f}" keeps the short unit
    return made


def as_quantity(magnitude: Any, unit: Any) -> pint.Quantity:
    """Put a magnitude with a unit of any pint registry into the shared registry.

    Parameters
    ----------
    magnitude : float or array_like
        The number or numbers.
    unit : str or Unit
        A unit; one of another registry too.

    Returns
    -------
    Quantity
        In the shared registry, in the same unit where both registries agree on its size.

    Raises
    ------
    UnitError
        The unit does not exist here.

    Examples
    --------
    >>> import pint
    >>> print(as_quantity(3, pint.UnitRegistry().Unit("mm")).to("cm"))
    0.3 cm
    """
    import pint

    ureg = registry()
    try:
        if not isinstance(unit, pint.Unit) or unit._REGISTRY is ureg:
            return ureg.Quantity(magnitude, unit)
        theirs = unit._REGISTRY.Quantity(1.0, unit).to_base_units()
        if all(name in ureg for name in unit._units):
            own = ureg.Unit(f"{unit:D}")
            ours = ureg.Quantity(1.0, own).to_base_units()
            if theirs.magnitude == ours.magnitude and f"{theirs.units:D}" == f"{ours.units:D}":
                return ureg.Quantity(magnitude, own)
        base = unit._REGISTRY.Quantity(magnitude, unit).to_base_units()
        return ureg.Quantity(base.magnitude, f"{base.units:D}")
    except Exception:
        message = f"unit {str(unit)[:40]!r} is not known here; use for instance mm, psi, kohm, degC"
        raise UnitError(message) from None


class Expected:
    """What a door was told to expect: the kind where it has a name, the unit, and how to say it."""

    __slots__ = ("dimensionality", "example", "kind", "phrase", "unit")

    def __init__(self, expect: str) -> None:
        self.kind, self.unit = _expected_kind_and_unit(expect)
        try:
            if expect.startswith("["):
                self.dimensionality = registry().get_dimensionality(expect)
            else:
                self.dimensionality = registry().Unit(self.unit).dimensionality
        except Exception:
            raise UnitError(
                f"expect={expect!r} is not a unit; give one such as 'mm', 'ohm', 'degC'"
            ) from None
        self.kind = self.kind or _kind_by_dimension(self.dimensionality)
        known = _unit_words.KINDS.get(self.kind)
        self.phrase = known.phrase if known else f"a value in {expect}"
        self.example = known.example if known else f"1.5 {expect}"


def _expected_kind_and_unit(expect: str) -> tuple[str, str]:
    if expect in _unit_words.KINDS:
        return expect, _unit_words.KINDS[expect].si
    if expect in ("", "dimensionless"):
        return "ratio", ""
    try:
        word = _unit_words.look_up(_number_text.clean(expect))
    except _unit_words.UnknownUnitError:
        return "", expect
    return word.kind, word.pint


def expected(expect: Any) -> Expected:
    """The :class:`Expected` of a unit, kind or dimension, made once each."""
    text = expect if isinstance(expect, str) else f"{expect:D}" if hasattr(expect, "_units") else f"{expect}"
    if len(text) > _number_text.LONGEST:
        raise UnitError(f"expect={text[:20]!r}... is not a unit; give one such as 'mm', 'ohm', 'degC'")
    return _expected(text.strip())


_expected = lru_cache(maxsize=256)(Expected)


@lru_cache(maxsize=1)
def _named_dimensions() -> list[tuple[Any, str]]:
    shared = ("temperature difference", "rotational speed", "energy", "angle")
    kinds = _unit_words.KINDS.items()
    return [(registry().Unit(kind.si).dimensionality, name) for name, kind in kinds if name not in shared]


def _kind_by_dimension(dimensionality: Any) -> str:
    return next((name for dimension, name in _named_dimensions() if dimension == dimensionality), "")


def kind_of(value: pint.Quantity) -> str:
    """The kind of a ready-made quantity where its dimension alone does not tell, else an empty text."""
    names = " ".join(value._units)
    if "delta_" in names:
        return "temperature difference"
    if "degree_Celsius" in names or "degree_Fahrenheit" in names:
        return "temperature"
    turning = re.search(r"revolution|radian|turn|\bdegree\b|arc|rpm", names)
    if not value.dimensionality:
        return "angle" if turning else "ratio"
    if value.dimensionality == {"[time]": -1}:
        return "rotational speed" if turning else "frequency" if "hertz" in names else "events per time"
    return ""
