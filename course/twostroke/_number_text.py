"""Reads the number at the front of what a person typed; refuses whatever could mean two things.

Nothing here knows about units. :func:`clean` brings the many look-alike characters of keyboards and
documents to one form, :func:`leading_number` takes the number off and returns what follows it.
"""

from __future__ import annotations

import re
import unicodedata
from typing import NamedTuple

LONGEST = 120
"""Longest text that is read as one quantity, in characters."""

_DASHES = "-\u2010\u2011\u2012\u2013\u2014\u2015\u2212\ufe58\ufe63\uff0d"
_SLASHES = "/\u2044\u2215\uff0f"
_DOTS = "*\u00b7\u22c5\u2219\u2022\u2027\u30fb"
_RINGS = "\u00b0\u00ba\u02da\u2218"
_DOUBLE_PRIMES = '"\u2033\u201d\u201c\uff02'
_SINGLE_PRIMES = "'\u2032\u2019\u2018\uff07"
_SUPERSCRIPTS = dict(zip("⁰¹²³⁴⁵⁶⁷⁸⁹⁻⁺", "0123456789-+", strict=True))
_ONE_CHARACTER = {
    **dict.fromkeys(_DASHES, "-"),
    **dict.fromkeys(_SLASHES, "/"),
    **dict.fromkeys(_DOTS, "*"),
    **dict.fromkeys(_RINGS, "°"),
    **dict.fromkeys(_DOUBLE_PRIMES, '"'),
    **dict.fromkeys(_SINGLE_PRIMES, "'"),
    **dict.fromkeys("×✕✖", "×"),
    "\u2236": ":",
    "\u2103": "°C",
    "\u2109": "°F",
}
_GROUPED = re.compile("(?<![0-9.,])([1-9][0-9]{0,2}(?:[\u00a0\u2009\u202f\u2007][0-9]{3})+)(?![0-9])")
_POWER_OF_TEN = r"(?:[eE][+-]?[0-9]+|\s*[x×*]\s*10\s*\^\s*[+-]?[0-9]+)"
_MIXED = re.compile(r"([+-]?)([0-9]+)(?:\s+|\s*-\s*)([0-9]+)\s*/\s*([0-9]+)(?![0-9.,/])")
_FRACTION = re.compile(r"([+-]?)([0-9]+)\s*/\s*([0-9]+)(?![0-9.,/])")
_DECIMAL = re.compile(rf"([+-]?)([0-9.,]*[0-9][0-9.,]*)({_POWER_OF_TEN})?")


class UnreadableNumberError(Exception):
    """Private: carries the hint; the doors in :mod:`twostroke.units` turn it into their own error."""


class LeadingNumber(NamedTuple):
    """A number and the text behind it; ``denominator`` is 0 unless a plain fraction was written."""

    value: float
    rest: str
    denominator: int = 0


def clean(text: str) -> str:
    """Bring dashes, spaces, primes, raised figures, wide figures and fractions to one plain form.

    Parameters
    ----------
    text : str
        What was typed or pasted.

    Returns
    -------
    str
        The same in plain characters; raised figures become ``^2``, ``½`` becomes ``1/2``.

    Examples
    --------
    >>> clean("–5 ℃"), clean("25 cm³"), clean("3½ in")
    ('-5 °C', '25 cm^3', '3 1/2 in')
    """
    text = _GROUPED.sub(lambda match: re.sub("[^0-9]", "", match.group()), text)
    out: list[str] = []
    raised = False
    for character in text.strip("\ufeff\u200b\u200e\u200f \t\r\n"):
        if character in _SUPERSCRIPTS:
            out.append(_SUPERSCRIPTS[character] if raised else "^" + _SUPERSCRIPTS[character])
            raised = True
            continue
        raised = False
        if character in _ONE_CHARACTER:
            out.append(_ONE_CHARACTER[character])
        elif unicodedata.decomposition(character).startswith("<fraction>"):
            out.append(" " + unicodedata.normalize("NFKC", character).replace("\u2044", "/") + " ")
        elif character.isspace():
            out.append(" ")
        elif unicodedata.category(character) == "No":
            out.append(character)
        else:
            out.append(unicodedata.normalize("NFKC", character))
    return re.sub(r" +", " ", "".join(out)).strip()


def leading_number(text: str) -> LeadingNumber:
    """Take the number off the front of cleaned text.

    Parameters
    ----------
    text : str
        Text that went through :func:`clean`.

    Returns
    -------
    LeadingNumber
        Value, what follows, and the denominator if a fraction was written.

    Raises
    ------
    UnreadableNumberError
        With a hint, when there is no number or it could mean two things.

    Examples
    --------
    >>> leading_number("1 3/16 in")
    LeadingNumber(value=1.1875, rest='in', denominator=16)
    >>> leading_number("0,25 mm").value
    0.25
    """
    if match := _MIXED.match(text):
        sign, whole, top, bottom = match.groups()
        if int(bottom) == 0 or int(top) >= int(bottom):
            raise UnreadableNumberError(f"{top}/{bottom} beside a whole number is not a proper fraction")
        value = _signed(sign, int(whole) + int(top) / int(bottom))
        return LeadingNumber(value, _rest(text, match.end()), int(bottom))
    if match := _FRACTION.match(text):
        sign, top, bottom = match.groups()
        if int(bottom) == 0:
            raise UnreadableNumberError("a fraction cannot have 0 below the line")
        return LeadingNumber(_signed(sign, int(top) / int(bottom)), _rest(text, match.end()), int(bottom))
    if match := _DECIMAL.match(text):
        sign, figures, power = match.groups()
        exponent = re.sub(r"^(?:[eE]|.*\^\s*)", "", power) if power else "0"
        plain = _plain_decimal(figures)
        value = float(f"{plain}e{exponent}") if len(exponent) < 6 else float("inf")
        if value == float("inf") or (value == 0 and any(figure in "123456789" for figure in plain)):
            raise UnreadableNumberError("the number is far too large or too small to be a shop reading")
        return LeadingNumber(_signed(sign, value), _rest(text, match.end()))
    raise UnreadableNumberError("it does not begin with a number")


def _signed(sign: str, value: float) -> float:
    return -value if sign == "-" else value


def _rest(text: str, end: int) -> str:
    return text[end:].strip()


def _plain_decimal(figures: str) -> str:
    """Settle points and commas: a comma is read only where it can mean one thing."""
    commas, points = figures.count(","), figures.count(".")
    if commas == 0 and points <= 1:
        return figures
    if commas and points:
        mark = "," if figures.rfind(",") > figures.rfind(".") else "."
        whole, _, decimals = figures.rpartition(mark)
        other = "." if mark == "," else ","
        if mark not in whole and _is_grouped(whole, other):
            return whole.replace(other, "") + "." + decimals
    elif commas > 1 or points > 1:
        mark = "," if commas else "."
        if _is_grouped(figures, mark):
            return figures.replace(mark, "")
    else:
        whole, _, decimals = figures.partition(",")
        if not _is_grouped(figures, ","):
            return f"{whole}.{decimals}"
        joined, decimal = whole + decimals, f"{whole}.{decimals}"
        raise UnreadableNumberError(f"{figures} can mean {joined} or {decimal}; write {joined} or {decimal}")
    raise UnreadableNumberError(f"the points and commas in {figures} do not make one number")


def _is_grouped(figures: str, mark: str) -> bool:
    return re.fullmatch(rf"[1-9][0-9]{{0,2}}(?:{re.escape(mark)}[0-9]{{3}})+", figures) is not None
