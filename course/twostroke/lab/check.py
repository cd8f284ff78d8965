"""Form first: can the text be read as a value with the unit that is asked, inside what can occur at all?"""

from __future__ import annotations

import math
import re
from functools import cache
from typing import Any

from twostroke import units
from twostroke.errors import TwoStrokeError, UnitError
from twostroke.lab.feedback import Form

_NUMBER = re.compile(r"[-+\u2013\u2212]?\s*(?:[0-9]+(?:[.,][0-9]+)?|[.,][0-9]+)")


def leading_number(text: Any) -> float | None:
    """Return the number at the start of the text, whatever follows it; None when there is none.

    Examples
    --------
    >>> leading_number("0,30 volts"), leading_number(".5"), leading_number("wide")
    (0.3, 0.5, None)
    """
    match = _NUMBER.match(str(text).strip())
    if match is None:
        return None
    return float(re.sub(r"[\u2013\u2212]", "-", match.group(0)).replace(" ", "").replace(",", "."))


def read_value(text: Any, unit: str, reference: str | None = None) -> float:
    """Return the value of the text in the unit; the reference says whether "barg" or "bara" may stand there.

    Raises
    ------
    TwoStrokeError
        When the text cannot be read as a quantity of that kind.
    """
    return float(_reading(text, unit, reference).to(asked_unit(unit)).magnitude)


def _reading(text: Any, unit: str, reference: str | None) -> Any:
    if type(text) not in (str, int, float):
        raise UnitError(f'write one value with its unit as text, for example "12.3 {unit}"')
    return units.read(str(text), expect=unit, reference=reference)


@cache
def asked_unit(unit: str) -> Any:
    """Return the unit that a word of the shop stands for."""
    return units.read(f"1 {unit}", expect=unit).units


def written_in(text: Any, unit: str, reference: str | None = None) -> bool:
    """Say whether the text is written in this very unit (not only in one of the same kind)."""
    return bool(_reading(text, unit, reference).units == asked_unit(unit))


def value_form(
    text: Any,
    unit: str,
    low: float,
    high: float,
    any_unit: bool = False,
    given_unit: str | None = None,
    reference: str | None = None,
) -> Form:
    """Check the form of a value: unit, kind, range.

    Parameters
    ----------
    text : str
        Answer as plain data.
    unit : str
        Unit that is asked.
    low, high : float
        What can occur at all, in that unit.
    any_unit : bool
        Whether another unit of the same kind will do.
    given_unit : str, optional
        Unit of the reading that is to be converted; the same unit again is no answer.
    reference : {"gauge", "absolute"}, optional
        What a pressure is counted from here.

    Returns
    -------
    Form
        Its value is a float in the unit, or None.
    """
    try:
        reading = _reading(text, unit, reference)
        value = float(reading.to(asked_unit(unit)).magnitude)
        asked = reading.units == asked_unit(unit)
        asked = asked or (any_unit and not (given_unit and reading.units == asked_unit(given_unit)))
    except TwoStrokeError as error:
        plain = f'"{str(text)[:40]}": write the number alone, for example "12.3".'
        return Form(False, str(error) if unit else plain, given=text)
    if not asked:
        wanted = unit or "a plain number"
        return Form(False, f'"{text}" is of the right kind, but this blank asks for {wanted}.', given=text)
    if not math.isfinite(value) or not low <= value <= high:
        return Form(
            False,
            f'"{text}" lies outside {low:.10g} to {high:.10g}{unit and " " + unit}; that cannot be.',
            given=text,
        )
    kind = f"a value in {unit}" if unit else "a plain number"
    return Form(True, f'"{text}" can be read: {kind}.', value, text)
