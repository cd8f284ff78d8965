"""The one function that turns a result into points."""

from __future__ import annotations

import math
from typing import Any


def points(earned: Any, possible: Any) -> float:
    """Return the points earned, never negative, never not-a-number, never above what the task is worth.

    Only plain ints and floats count: any other object, whatever it says about itself, earns nothing.

    Parameters
    ----------
    earned : float
        Points before clamping.
    possible : float
        Points that the task is worth.

    Returns
    -------
    float
        Points, rounded to four decimals.

    Examples
    --------
    >>> points(1.5, 2), points(-3, 2), points(100, 2), points(float("nan"), 2), points(True, 2)
    (1.5, 0.0, 2.0, 0.0, 0.0)
    """
    for number in (earned, possible):
        if type(number) not in (int, float) or not math.isfinite(number):
            return 0.0
    return round(max(0.0, min(float(earned), float(possible))), 4)
