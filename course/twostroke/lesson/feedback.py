"""What a reader gets to hear: HTML that names what was seen, the belief behind it, and what to check."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from html import unescape
from typing import Any

from twostroke import units
from twostroke.errors import TwoStrokeError
from twostroke.lesson import tables
from twostroke.lesson.tasks import Blank, Option


@dataclass(frozen=True)
class Judgement:
    """State of an answer (``right``, ``look`` or ``form``), what is said, and the misconception seen, if
    any."""

    state: str
    html: str
    believes: str | None = None

    @property
    def right(self) -> bool:
        """True for a right answer."""
        return self.state == "right"

    @property
    def words(self) -> str:
        """The same as plain text."""
        return plain(self.html)


def plain(html: str) -> str:
    """HTML as plain text for a screen reader or a terminal.

    Examples
    --------
    >>> plain("<p><b>Right.</b> 2&nbsp;mm</p><p>Good</p>")
    'Right. 2 mm Good'
    """
    spaced = re.sub(r"</(p|li|legend|div|dt|dd|h\d)>", " ", html)
    return " ".join(unescape(re.sub(r"<[^>]+>", "", spaced)).replace("\xa0", " ").split())


_UNITS = "mm|thou|bar|psi|mL|L|m|N·m|in·lb|kΩ|Ω|kV|V|°C|°F|rpm|ms|min|per cent"
_LOOSE = re.compile(rf"(?<=\d) (?=\d{{3}}\b|(?:{_UNITS})(?![\w·]))")


def tie(html: str) -> str:
    """Keep a number and its unit, and the thousands of a number, on one line.

    Examples
    --------
    >>> tie("2 000 m").count("\\xa0")
    2
    """
    return _LOOSE.sub("\N{NO-BREAK SPACE}", html)


def behind(key: str) -> str:
    """The misconception as HTML: what is believed, why not, which reading shows it."""
    found = tables.misconception(key)
    return (
        f"<p><b>The belief behind it:</b> “{found.believed}” {found.why_wrong}</p>"
        f"<p><b>The reading that shows it:</b> {found.shown_by}</p>"
    )


def of_option(option: Option) -> Judgement:
    """What a chosen option gets to hear."""
    if option.right:
        return Judgement("right", f"<p><b>✓ Right.</b> {option.say}</p>")
    assert option.believes is not None
    return Judgement(
        "look", f"<p><b>Look again.</b> {option.say}</p>{behind(option.believes)}", option.believes
    )


def of_blank(blank: Blank, text: str) -> Judgement:
    """What an entry in a blank gets to hear; the form comes first, then the value.

    Parameters
    ----------
    blank : Blank
        What is asked.
    text : str
        What the reader wrote or chose.

    Returns
    -------
    Judgement
        ``form`` where the entry cannot be read (costs nothing), ``right``, or ``look``.
    """
    if blank.options:
        if text == blank.answer:
            return Judgement("right", f"<p><b>✓ Right.</b> {blank.say}</p>")
        if text not in blank.options:
            return Judgement("form", "<p>Choose one of the words in the list.</p>")
        return Judgement(
            "look",
            f"<p><b>Look again.</b> {blank.hint}</p>{behind(blank.believes[text])}",
            blank.believes[text],
        )
    assert callable(blank.answer)
    try:
        value = read(text, blank.unit)
    except TwoStrokeError as error:
        return Judgement("form", f"<p><b>Not readable yet</b> (costs nothing): {_safe(str(error))}</p>")
    if _near(value, blank.answer(), blank.within):
        return Judgement("right", f"<p><b>✓ Right.</b> {blank.say}</p>")
    for slip in blank.slips:
        if _near(value, slip.gives(), blank.within):
            return Judgement(
                "look", f"<p><b>Look again.</b> {slip.say}</p>{behind(slip.believes)}", slip.believes
            )
    return Judgement("look", f"<p><b>Look again.</b> {_safe(text.strip())} was read. {blank.hint}</p>")


def read(text: str, unit: str) -> Any:
    """Read an entry: a quantity where a unit is named, else a plain number.

    Examples
    --------
    >>> print(read("0,30 mm", "mm"))
    0.3 mm
    >>> read("2.5", "")
    2.5
    """
    return units.read(text, expect=unit) if unit else units.number(text, "value")


def _near(value: Any, wanted: Any, within: float) -> bool:
    if isinstance(wanted, int | float):
        return math.isclose(value, wanted, rel_tol=within, abs_tol=1e-12)
    base = wanted.to_base_units()
    mine = value.to(base.units).magnitude
    return math.isclose(mine, base.magnitude, rel_tol=within, abs_tol=1e-12)


def _safe(text: str) -> str:
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
