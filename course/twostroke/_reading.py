"""How :mod:`twostroke.units` reads: number, then unit, then the checks that every value goes through."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from numbers import Real
from typing import TYPE_CHECKING, Any

from twostroke import _number_text, _registry, _unit_words
from twostroke._number_text import UnreadableNumberError
from twostroke._unit_words import UnknownUnitError, Word
from twostroke.errors import RangeError, UnitError

if TYPE_CHECKING:
    from pint import Quantity

_REFERENCE = re.compile(r"(?i)^(.+?)[\s(]*(gauge|absolute|abs|ga|g|a)\)?$")
_REFERENCES = {"g": "gauge", "ga": "gauge", "a": "absolute", "abs": "absolute"}
_OHM_SUFFIXES = {"k": "kiloohm", "K": "kiloohm", "M": "megaohm", "R": "ohm"}
_OHM_CODE = re.compile(r"^([0-9]+)([RkKM])([0-9]+)$")
_SLASHED_FREELY = {"length", "area", "volume", "mass", "time"}
_SLASHED_PARTS = {2, 3, 4, 5, 8, 10, 16, 32, 64}
_BAND_REST = re.compile(r"^(.*?)\s*(?:(?<!\^)-|\bto\b)\s*([-+]?\s?[0-9.,].*)$")
_TINY_KELVIN = 1e-9
Reader = Callable[..., "Quantity"]


def label_of(name: str | None, value: Any) -> str:
    """The name and the value as given, short enough for one line."""
    try:
        text = repr(value if isinstance(value, str) else f"{value}")
    except Exception:
        text = f"'{type(value).__name__}'"
    text = text if len(text) <= 44 else text[:40] + "...'"
    return f"{name}: {text}" if name else text


def from_text(text: str, wanted: _registry.Expected | None, reference: str | None, label: str) -> Quantity:
    """Read text; raise UnitError or RangeError with the label in front."""
    try:
        found, denominator, unit_text = _number_and_unit(text, wanted)
        word = _word(unit_text, wanted, reference)
    except (UnreadableNumberError, UnknownUnitError) as trouble:
        advice = f"; write {example(wanted)}" if _unit_words.NOT_LISTED in str(trouble) else ""
        raise UnitError(f"{label}: {trouble}{advice}") from None
    if denominator and word.kind not in _SLASHED_FREELY and denominator not in _SLASHED_PARTS:
        raise UnitError(f"{label}: a fraction or two readings? Write one number, as a decimal")
    return checked(_registry.registry().Quantity(found, word.pint), word.kind, wanted, label)


def from_object(value: Any, wanted: _registry.Expected | None, label: str) -> Quantity:
    """Check what did not come as text: a quantity of any registry, or a number where no unit is meant."""
    import pint

    plain = isinstance(value, Real) and not isinstance(value, bool)
    if plain and wanted and wanted.kind == "ratio":
        return checked(_registry.registry().Quantity(_float(value), ""), "ratio", wanted, label)
    if plain:
        shown = wanted.example if wanted else "0.30 mm"
        raise UnitError(f"{label} has no unit; write it as text with the unit, such as {shown}")
    if not isinstance(value, pint.Quantity):
        kind = type(value).__name__
        raise UnitError(f"{label} is not a quantity but {kind}; write text: {example(wanted)}")
    magnitude = value.magnitude
    if isinstance(magnitude, (bool, str)) or getattr(magnitude, "ndim", False):
        raise UnitError(f"{label}: one number with a unit is wanted; write {example(wanted)}")
    try:
        own = _registry.as_quantity(_float(magnitude), value.units)
    except TypeError:
        raise UnitError(f"{label}: one plain number with a unit is wanted; write {example(wanted)}") from None
    return checked(own, _registry.kind_of(own), wanted, label)


def _float(value: Any) -> float:
    try:
        return float(value)
    except OverflowError:
        return math.inf
    except ValueError:
        raise TypeError from None


def example(wanted: _registry.Expected | None) -> str:
    """What a right entry looks like."""
    return wanted.example if wanted else "a number with its unit, such as 0.30 mm"


def checked(value: Quantity, kind: str, wanted: _registry.Expected | None, label: str) -> Quantity:
    """Refuse what is not finite, of another kind than wanted, or below absolute zero."""
    magnitude = value.magnitude
    if not math.isfinite(magnitude):
        raise RangeError(f"{label} is not a finite number; give a measured value")
    try:
        base = value.to_base_units().magnitude
    except OverflowError:
        base = math.inf
    if not math.isfinite(base) or (base == 0 != magnitude and kind != "temperature"):
        raise RangeError(f"{label} is far too large or too small to be a shop reading; check the figures")
    if wanted is not None:
        if value.dimensionality != wanted.dimensionality or _differs(kind, wanted.kind):
            raise UnitError(f"{label} is not {wanted.phrase}; write {wanted.example}")
        kind = wanted.kind
    absolute = kind == "temperature" or (not kind and value.units == _registry.registry().kelvin)
    if absolute and base < -_TINY_KELVIN:
        raise RangeError(f"{label} is below absolute zero, -273.15 degC; check the sign and the unit")
    return value


def _differs(found: str, wanted: str) -> bool:
    """Tell apart kinds that share a dimension, such as angle and ratio, or rpm and hertz."""
    return bool(found and wanted) and found != wanted and {found, wanted} != {"torque", "energy"}


def inside(
    value: float,
    unit: str,
    label: str,
    minimum: float | None,
    above: float | None,
    maximum: float | None,
    below: float | None,
) -> None:
    """Raise RangeError that names the limits when the value is outside them."""
    slack = 1e-12 * max(1.0, abs(value)) if unit else 0.0
    too_low = (minimum is not None and value < minimum - slack * abs(minimum)) or (
        above is not None and value <= above
    )
    too_high = (maximum is not None and value > maximum + slack * abs(maximum)) or (
        below is not None and value >= below
    )
    if too_low or too_high:
        limits = [("at least", minimum), ("more than", above), ("at most", maximum), ("less than", below)]
        said = " and ".join(f"{word} {limit:g} {unit}".strip() for word, limit in limits if limit is not None)
        raise RangeError(f"{label} is outside what is possible here; it must be {said}; check sign and unit")


def _number_and_unit(text: str, wanted: _registry.Expected | None) -> tuple[float, int, str]:
    plain = _plain(text, wanted)
    if wanted and wanted.kind == "resistance" and (code := _OHM_CODE.match(re.sub(r"\s*Ω$", "", plain))):
        whole, letter, decimals = code.groups()
        return float(f"{whole}.{decimals}"), 0, letter
    found = _number_text.leading_number(plain)
    rest = found.rest
    if rest.startswith(("±", "+/-", "+-")) or "±" in rest:
        raise UnreadableNumberError("write the value alone; its tolerance or uncertainty has its own place")
    if _BAND_REST.match(rest) or rest.startswith("..."):
        raise UnreadableNumberError("that looks like a band; one value is wanted here")
    if rest.startswith(":"):
        raise UnreadableNumberError("that looks like a ratio; a value with a unit is wanted here")
    if re.match(r"[-+.,0-9/]", rest):
        raise UnreadableNumberError("more than one number; write one number and one unit, such as 1.5 mm")
    return found.value, found.denominator, rest


def _plain(text: str, wanted: _registry.Expected | None) -> str:
    if len(text) > _number_text.LONGEST:
        raise UnreadableNumberError("too long for one quantity; write a number and a unit")
    plain = _number_text.clean(text)
    if not plain:
        raise UnreadableNumberError(f"nothing is written; write {example(wanted)}")
    return plain


def _word(text: str, wanted: _registry.Expected | None, reference: str | None) -> Word:
    kind = wanted.kind if wanted else ""
    if not text:
        if kind == "ratio":
            return Word("", "ratio")
        such = f"it behind the number, such as {wanted.example}" if wanted else example(None)
        raise UnknownUnitError(f"the unit is missing; write {such}")
    if kind == "resistance" and text in _OHM_SUFFIXES:
        return Word(_OHM_SUFFIXES[text], kind)
    if kind == "capacitance" and text == "F":
        return Word("farad", kind)
    if kind == "temperature" and text in ("c", "f"):
        text = text.upper()
    if kind == "temperature" and text in ("°", "deg", "degree", "degrees"):
        raise UnknownUnitError("degrees of which scale? Write degC or degF")
    try:
        word = _unit_words.look_up(text)
    except UnknownUnitError as trouble:
        return _pressure_word(text, reference, trouble)
    if kind == "temperature difference" and word.kind == "temperature":
        return Word(word.pint if word.pint == "kelvin" else "delta_" + word.pint, kind)
    return word


def _pressure_word(text: str, reference: str | None, trouble: UnknownUnitError) -> Word:
    """Read ``psig``, ``bar(a)`` and the like where the place says which of the two it wants."""
    match = _REFERENCE.match(text)
    try:
        word = _unit_words.look_up(match.group(1)) if match else None
    except UnknownUnitError:
        word = None
    if match is None or word is None or word.kind != "pressure":
        raise UnknownUnitError(f"unit {text[:24]!r}: {trouble}") from None
    unit, said = match.group(1), match.group(2).lower()
    said = _REFERENCES.get(said, said)
    if reference is None:
        raise UnknownUnitError(
            f"write {unit} alone; the place itself says whether gauge or absolute is meant"
        )
    if said != reference:
        raise UnknownUnitError(
            f"that is {said} pressure; {reference} pressure is wanted here, convert it first"
        )
    return word


def limits(text: str, expect: Any, label: str, read: Reader) -> tuple[Quantity, Quantity]:
    """Both limits of a band written in one text; `read` is the door for each."""
    try:
        plain = re.sub(r"\s*\.\.+\s*", " to ", _plain(text, None))
        plain = plain.replace("+/-", "±")
        found = _number_text.leading_number(plain)
        first = plain[: len(plain) - len(found.rest)]
        if "±" in found.rest:
            return _middle_and_tolerance(first, found.rest, expect, label, read)
        match = _BAND_REST.match(found.rest)
        if match is None:
            raise UnreadableNumberError("not a band; write both limits and the unit, such as 0.3-0.5 mm")
        unit, second = match.groups()
        low = f"{first}{unit}" if unit else f"{first} {_number_text.leading_number(second).rest}"
    except UnreadableNumberError as trouble:
        raise UnitError(f"{label}: {trouble}") from None
    return read(low, expect, name=label), read(second, expect, name=label)


def _middle_and_tolerance(
    first: str, rest: str, expect: Any, label: str, read: Reader
) -> tuple[Quantity, Quantity]:
    unit, _, tolerance = (part.strip() for part in rest.partition("±"))
    tolerance_unit = _number_text.leading_number(tolerance).rest
    middle = read(f"{first} {unit or tolerance_unit}", expect, name=label)
    if tolerance_unit == "%":
        if "temperature" in _registry.kind_of(middle):
            raise UnitError(f"{label}: a temperature has no percentage; write both limits")
        share = read(tolerance, "dimensionless", name=label)
        inside(float(share.to("").magnitude), "", label, 0, None, None, None)
        half = abs(middle) * share
    else:
        kind = "temperature difference" if _registry.kind_of(middle) == "temperature" else f"{middle.units:D}"
        half = read(tolerance if tolerance_unit else f"{tolerance} {unit}", kind, name=label)
    low, high = middle - half, middle + half
    return low.to(middle.units), high.to(middle.units)
