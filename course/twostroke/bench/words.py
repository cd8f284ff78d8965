"""Plain words for what was seen, and displays of instruments as text."""

from __future__ import annotations

import numpy as np

from twostroke.bench import instruments
from twostroke.bench.instruments import SCALES
from twostroke.bench.reading import Shown
from twostroke.bench.seen import Number, Seen
from twostroke.table import Test

_BY_NAME = {scale.name: scale for scale in SCALES.values()}


def display(number: Number, index: int = 0) -> Shown:
    """One number of one machine, as the instrument shows it."""
    value, limit = float(number.values[index]), float(number.limit[index])
    if number.resolution == 0.0:
        factor = {"ohm": 1.0, "kohm": 1e3}[number.unit]
        text = instruments.ohms_text(value * factor)
    elif number.unit == "turns":
        text = f"{value:g} turns"
    else:
        scale = _BY_NAME[number.instrument]
        text = f"{value:.{scale.decimals}f} {scale.unit}" if np.isfinite(value) else "off the scale"
    return Shown(number.name, value, number.unit, text, limit, number.instrument)


def sureness(sure: float) -> str:
    """How sure a person can be of a look, from the distance to the next word.

    Examples
    --------
    >>> sureness(0.2), sureness(1.2), sureness(3.0)
    ('hard to tell; ', 'as far as one can see, ', '')
    """
    if sure < 0.5:
        return "hard to tell; "
    return "as far as one can see, " if sure < 1.5 else ""


def spoken(test: Test, seen: Seen) -> tuple[str, str, tuple[Shown, ...]]:
    """Result, sentence and displays of a test on one machine."""
    result = str(seen.result[0])
    doubt = "" if seen.sure is None or not np.isfinite(seen.sure[0]) else sureness(float(seen.sure[0]))
    sentence = f"{doubt}{test.say(result)}"
    shown = tuple(display(number) for number in seen.numbers)
    return result, sentence[:1].upper() + sentence[1:], shown
