"""How close an answer must be: the step of the instrument and the uncertainty of the readings behind it."""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True)
class Tolerance:
    """Largest accepted distance from the right value.

    Parameters
    ----------
    value : float
        In the unit of the item.
    reason : str
        Where it comes from, as told to the learner.
    """

    value: float
    reason: str


def tolerance(step: float, *readings: tuple[float, float], reason: str) -> Tolerance:
    r"""Return half a step for rounding plus the expanded uncertainty of the readings.

    .. math:: t = s/2 + 2\sqrt{\sum (c_i a_i/\sqrt 3)^2}

    Parameters
    ----------
    step : float
        Finest step in which the answer is written or set, in the unit of the item.
    *readings : (float, float)
        For each reading behind the answer: how much the answer changes with it (c), and the half-width within
        which the reading may lie (a, usually half a division). Leave out readings that are printed exactly.
    reason : str
        Where it comes from, in words for the learner.

    Returns
    -------
    Tolerance
        In the unit of the item.

    References
    ----------
    JCGM 100:2008, 4.3.7 (half-width over root three), 5.1.2 (combination), 6.2 (coverage factor 2).

    Examples
    --------
    >>> tolerance(0.01, reason="half a step of 0.01 mm").value
    0.005
    >>> round(tolerance(1.0, (2.0, 0.5), reason="…").value, 3)
    1.655
    """
    spread = math.sqrt(sum((change * half_width) ** 2 / 3 for change, half_width in readings))
    return Tolerance(step / 2 + 2 * spread, reason)
