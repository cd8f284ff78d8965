"""In, out or undecided: a reading with its uncertainty against a band; and what repeated trials prove.

Used by :mod:`twostroke.gap`, :mod:`twostroke.resistance` and :mod:`twostroke.compression`.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Literal

from twostroke.errors import RangeError, UnitError
from twostroke.sources import constant, formula
from twostroke.units import number, read, si

if TYPE_CHECKING:
    from pint import Quantity

__all__ = ["GUARD_FACTOR", "Verdict", "chance_within", "clean_trials", "judge", "probability_inside"]

Verdict = Literal["in", "out", "undecided"]

GUARD_FACTOR = constant(
    "guard band factor", 1.645, "", "jcgm106", "95 % one-sided of a normal distribution; w = 1.645 u"
)


@formula("in if low + w <= y <= high - w; out if beyond a limit by w; w = 1.645 u", "jcgm106")
def judge(
    reading: str | Quantity,
    low: str | Quantity | None,
    high: str | Quantity | None,
    uncertainty: str | Quantity,
    *,
    expect: str | None = None,
    name: str = "reading",
) -> Verdict:
    """Hold a reading against a band, with a guard band for its uncertainty.

    Parameters
    ----------
    reading : str or Quantity
        What was measured.
    low, high : str or Quantity or None
        Limits of the band, of the same kind as the reading; ``None`` where there is no such limit.
    uncertainty : str or Quantity
        Standard uncertainty of the reading, not negative.
    expect : str, optional
        Unit that all four must be convertible to; the reading's own if left out.
    name : str, optional
        What was measured, for messages.

    Returns
    -------
    {"in", "out", "undecided"}
        ``"undecided"`` where the reading is closer to a limit than 1.645 standard uncertainties.

    Raises
    ------
    UnitError
        A value without a unit or of another kind, or no limit at all.
    RangeError
        The limits are the wrong way round, or the uncertainty is negative.

    References
    ----------
    JCGM 106:2012, The role of measurement uncertainty in conformity assessment, 8.3.

    Examples
    --------
    >>> judge("0.30 mm", "0.20 mm", "0.40 mm", "0.02 mm")
    'in'
    >>> judge("0.39 mm", "0.20 mm", "0.40 mm", "0.02 mm")
    'undecided'
    """
    y, u, bottom, top = _four(reading, low, high, uncertainty, expect, name)
    guard = float(GUARD_FACTOR) * u
    slack = 1e-12 * max(abs(y), *(abs(limit) for limit in (bottom, top) if math.isfinite(limit)))
    if bottom + guard - slack <= y <= top - guard + slack:
        return "in"
    if y <= bottom - guard + slack or y >= top + guard - slack:
        return "out"
    return "undecided"


@formula("p = Phi((high - y)/u) - Phi((low - y)/u)", "jcgm106")
def probability_inside(
    reading: str | Quantity,
    uncertainty: str | Quantity,
    low: str | Quantity | None,
    high: str | Quantity | None,
    *,
    expect: str | None = None,
    name: str = "reading",
) -> float:
    """Chance that the true value lies inside a band.

    Parameters
    ----------
    reading : str or Quantity
        What was measured.
    uncertainty : str or Quantity
        Its standard uncertainty, not negative; a normal distribution is taken.
    low, high : str or Quantity or None
        Limits of the band; ``None`` where there is no such limit.
    expect : str, optional
        Unit that all four must be convertible to; the reading's own if left out.
    name : str, optional
        What was measured, for messages.

    Returns
    -------
    float
        Between 0 and 1.

    Raises
    ------
    UnitError
        A value without a unit or of another kind, or no limit at all.
    RangeError
        The limits are the wrong way round, or the uncertainty is negative.

    References
    ----------
    JCGM 106:2012, 7.4.

    Examples
    --------
    >>> round(probability_inside("13.6 mm", "1.8 mm", "12.5 mm", "16.3 mm"), 2)
    0.66
    """
    y, u, bottom, top = _four(reading, low, high, uncertainty, expect, name)
    if u == 0:
        return 1.0 if bottom <= y <= top else 0.0
    if bottom > y:  # both limits in the upper tail: mirror, so that small chances keep their figures
        bottom, top = 2 * y - top, 2 * y - bottom
    root = u * math.sqrt(2.0)
    # By erfc: the standard library's distribution function loses the tails before Python 3.12.
    return max(0.0, math.erfc((y - top) / root) - math.erfc((y - bottom) / root)) / 2


def _four(
    reading: str | Quantity,
    low: str | Quantity | None,
    high: str | Quantity | None,
    uncertainty: str | Quantity,
    expect: str | None,
    name: str,
) -> tuple[float, float, float, float]:
    """Reading, uncertainty and limits as SI floats; a missing limit is infinite."""
    if low is None and high is None:
        raise UnitError(f"{name}: give at least one limit, such as '0.20 mm'")
    unit = expect or f"{read(reading, name=name).units:D}"
    step = {"degC": "delta_degC", "degree_Celsius": "delta_degC", "degree_Fahrenheit": "delta_degF"}
    y = si(reading, unit, name)
    u = si(uncertainty, step.get(unit, unit), f"uncertainty of the {name}", minimum=0)
    bottom = -math.inf if low is None else si(low, unit, f"lower limit of the {name}")
    top = math.inf if high is None else si(high, unit, f"upper limit of the {name}")
    if bottom > top:
        raise RangeError(f"{name}: lower limit {low} is above upper limit {high}; change them over")
    return y, u, bottom, top


@formula("P = 1 - (1 - p)^N", "definition")
def chance_within(chance: float, trials: float) -> float:
    """Chance that something happens at least once in a number of independent trials.

    Parameters
    ----------
    chance : float
        Chance in one trial, 0 to 1.
    trials : int
        Number of trials, 0 or more: pulls, revolutions, warm-ups.

    Returns
    -------
    float
        Between 0 and 1.

    Raises
    ------
    UnitError
        Not a plain number.
    RangeError
        A chance outside 0 to 1, or a count that is negative or not whole.

    Notes
    -----
    Trials on one machine are rarely quite independent: heat and fuel carry over. Then this is a guide only.

    Examples
    --------
    >>> round(chance_within(0.30, 5), 5)
    0.83193
    """
    p = number(chance, "chance in one trial", minimum=0, maximum=1)
    n = number(trials, "number of trials", minimum=0, whole=True)
    if p == 1:
        return 1.0 if n else 0.0
    return -math.expm1(n * math.log1p(-p))


@formula("N = ceil(ln(1 - confidence) / ln(1 - p))", "definition")
def clean_trials(chance: float, confidence: float) -> int:
    """Clean trials needed before a fault that shows with a given chance may be called gone.

    Parameters
    ----------
    chance : float
        Chance that the fault, if still there, shows in one trial; more than 0, at most 1.
    confidence : float
        Wanted chance that it would have shown, at least 0 and less than 1, such as 0.95.

    Returns
    -------
    int
        Number of trials, all of them clean.

    Raises
    ------
    UnitError
        Not a plain number.
    RangeError
        Outside the limits above, or a fault so rare that no number of trials will do.

    Examples
    --------
    >>> clean_trials(0.30, 0.95)
    9
    """
    p = number(chance, "chance that the fault shows", above=0, maximum=1)
    wanted = number(confidence, "confidence", minimum=0, below=1)
    if p == 1:
        return 1 if wanted else 0
    needed = math.log1p(-wanted) / math.log1p(-p)
    if not needed < 1e9:
        raise RangeError(f"chance {chance} is too small for a test by trials; make the fault show more often")
    return math.ceil(needed - 1e-12)
