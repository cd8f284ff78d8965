"""From what is there to what is seen: looks by their rules, and the form in which every test answers."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from typing import TYPE_CHECKING, Any

import numpy as np
import yaml
from numpy.typing import NDArray

from twostroke.bench.engine import Array
from twostroke.bench.signals import signal

if TYPE_CHECKING:
    from twostroke.bench.view import View


@dataclass(frozen=True)
class Number:
    """One number on an instrument, for every machine.

    Attributes
    ----------
    name, unit, instrument : str
    values : array
        In `unit`; infinite where the display shows no number.
    resolution : float
        Step of the display, 0 for a meter that changes range.
    limit : array
        Half-width of the error limits.
    """

    name: str
    values: Array
    unit: str
    instrument: str
    resolution: float
    limit: Array


@dataclass(frozen=True)
class Seen:
    """Answer of a test for every machine.

    Attributes
    ----------
    result : array of str
        The table's word.
    numbers : tuple of Number
        Where an instrument shows any.
    sure : array, optional
        How far from the limit between two words, in spreads of a person's judgement.
    """

    result: NDArray[Any]
    numbers: tuple[Number, ...] = ()
    sure: Array | None = None


@lru_cache(maxsize=1)
def _rules() -> dict[str, Any]:
    text = (files("twostroke") / "data" / "what_is_seen.yaml").read_text(encoding="utf-8")
    return yaml.safe_load(text)


def look_rules() -> dict[str, list[dict[str, Any]]]:
    """Rules of the looks, by test."""
    return _rules()["looks"]


def spark_rules() -> dict[str, Any]:
    """When a spark is called good, weak or none."""
    return _rules()["spark"]


def look(test: str, view: View) -> Seen:
    """What a person makes of it: the first rule that holds.

    A person is off in two ways: always the same way on this machine, and a little anew each time.
    """
    result: NDArray[Any] = np.full(view.n, "", dtype=object)
    sure = np.full(view.n, np.inf)
    for rule in look_rules()[test]:
        open_ = result == ""
        if "sees" not in rule:
            result[open_] = rule["result"]
            break
        error = 0.9 * view.lasting.normal(view.n) + 0.43 * view.draws.normal(view.n)
        sees = signal(rule["sees"], view) + rule["eye"] * error
        beyond = sees - rule["over"] if "over" in rule else rule["under"] - sees
        holds = beyond > 0
        sure = np.where(open_, np.minimum(sure, np.abs(beyond) / rule["eye"]), sure)
        result[open_ & holds] = rule["result"]
    return Seen(result, sure=sure)
