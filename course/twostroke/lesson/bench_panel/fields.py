"""Settings of a step as fields of a form, with words that a person at the bench would use."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from twostroke.bench.session import COMMON
from twostroke.errors import TwoStrokeError
from twostroke.lesson.bench_panel.arranging import SELF, covered

CHOOSE = ("", "choose …")
_YES_NO = (CHOOSE, ("yes", "yes"), ("no", "no"))
_TEMPERATURES = (
    "engine temperature",
    "module temperature",
    "cranking speed",
    "card thickness",
    "fuel in the tank",
)
_SIGNALS = ("plug voltage", "primary voltage", "primary current")


@dataclass(frozen=True)
class Field:
    """One field: a choice where it has options, else a text.

    A field that must be chosen begins with an empty option.
    """

    name: str
    label: str
    options: tuple[tuple[str, str], ...] = ()
    start: str = ""
    hint: str = ""
    must: bool = False


def _same(*words: str) -> tuple[tuple[str, str], ...]:
    return tuple((word, word) for word in words)


_FIELDS = {
    "pull": Field("pull", "How hard to pull", _same("weak", "normal", "fast"), "normal"),
    "gap": Field("gap", "Tester's points apart, with unit", start="6 mm", hint="2 to 12 mm"),
    "leads_nulled": Field(
        "leads_nulled", "Meter's leads shorted first and their reading taken off", _YES_NO, must=True
    ),
    "minutes": Field("minutes", "How long, minutes", start="5", hint="such as 5 or 20 min"),
    "presses": Field("presses", "How often to press", start="6", hint="1 to 40"),
    "pulls": Field("pulls", "How many pulls", start="3", hint="1 to 20"),
    "choke": Field("choke", "Choke", _same("open", "half", "closed"), "open"),
    "plug": Field("plug", "Plug", (("in", "fitted"), ("out", "out")), "in"),
    "condition": Field(
        "condition",
        "In which state",
        (
            ("", "as it failed"),
            ("cold", "cold"),
            ("hot", "hot"),
            ("shake", "while lead and wires are moved"),
        ),
    ),
    "state": Field("state", "Stop lead", (("off", "take it off"), ("on", "put it back")), "off"),
    "what": Field("what", "What to measure", _same(*_TEMPERATURES), "engine temperature"),
    "signal": Field("signal", "Signal", _same(*_SIGNALS), "plug voltage"),
    "shim": Field(
        "shim",
        "Shim between module and flywheel, with its unit (or: card)",
        hint="such as 12 thou",
        must=True,
    ),
    "recheck": Field("recheck", "Measure the gap again after tightening", _YES_NO, must=True),
    "terminal": Field(
        "terminal", "Stop terminal points", (CHOOSE, ("outward", "outward"), ("inward", "inward")), must=True
    ),
    "routing": Field(
        "routing",
        "Lead laid",
        (CHOOSE, ("free", "free, clear of edges"), ("tight", "tight under the cover")),
        must=True,
    ),
    "screws": Field(
        "screws",
        "First turns of screws and plug",
        (CHOOSE, ("by hand", "by hand"), ("by driver", "by driver")),
        must=True,
    ),
}
_BOOLEAN = ("recheck", "leads_nulled")
_ORDER = Field("order_way", "Order of work", (("", "as in the manual"), (SELF, "I put the steps in order")))


def fields_of(session: Any, action: str, order_way: str = "") -> list[Field]:
    """Fields for the settings that an action takes on a demo machine.

    Parameters
    ----------
    session : Bench
    action : str
    order_way : str
        What was answered to "Order of work"; who puts the steps in order is not asked again for what is in
        the order.
    """
    settings = session.settings(action)
    skipped = {*COMMON, "reading", "money", "order"}
    if order_way == SELF:
        skipped |= covered(action)
    if action == "spark_slow_fast":
        skipped.add("pull")  # it is pulled both ways
    first = [_ORDER] if "order" in settings else []
    return first + [
        _FIELDS.get(name, Field(name, name.replace("_", " "), hint=words))
        for name, words in settings.items()
        if name not in skipped
    ]


def settings_from(fields: list[Field], values: dict[str, Any]) -> dict[str, Any]:
    """Settings out of what was typed and chosen; empty fields are left out.

    Raises
    ------
    TwoStrokeError
        A field that must be chosen and was not; the message names it.
    """
    settings: dict[str, Any] = {}
    for field in fields:
        if field.name == _ORDER.name:
            continue
        value = str(values.get(field.name, field.start)).strip()
        if not value:
            if field.must:
                what = "choose an answer" if field.options else f"fill in ({field.hint})"
                raise TwoStrokeError(f"“{field.label}” is still open: {what}")
            continue
        if field.name in _BOOLEAN:
            settings[field.name] = value == "yes"
        elif field.name in ("pulls", "presses") and value.isdigit():
            settings[field.name] = int(value)
        elif field.name == "minutes":
            settings[field.name] = number(value)
        else:
            settings[field.name] = value
    return settings


def number(text: str) -> float | str:
    """A plain number where it is one, decimal comma or point; else the text, which may carry its unit.

    Examples
    --------
    >>> number("2,5"), number("20 min")
    (2.5, '20 min')
    """
    try:
        return float(text.replace(",", "."))
    except ValueError:
        return text
