"""Air gap and shims: stacks and their uncertainty, the choice from a set, both legs, run-out, verdict."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from twostroke import verdict
from twostroke.errors import RangeError, UnitError
from twostroke.sources import formula
from twostroke.units import from_si, si, si_list

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pint import Quantity

__all__ = ["ShimStack", "TwoLegs", "choose_shims", "judge", "run_out", "shim_stack", "two_legs"]

_PICOMETRES = 1e12
_MOST_LEAVES = 60
_MOST_SUMS = 200_000


@dataclass(frozen=True)
class ShimStack:
    """A stack of shims or feeler leaves.

    Parameters
    ----------
    leaves : tuple of Quantity
        Thickness of each leaf.
    total : Quantity
        Thickness of the stack.
    worst_case : Quantity
        Sum of the leaves' uncertainties: the total is not further off than this.
    rss : Quantity
        Root sum of squares of the leaves' uncertainties.

    Examples
    --------
    >>> print(shim_stack(["0.10 mm", "0.15 mm"]).total)
    0.25 mm
    """

    leaves: tuple[Quantity, ...]
    total: Quantity
    worst_case: Quantity
    rss: Quantity


@formula("t = sum t_i; worst case sum |u_i|; root sum of squares sqrt(sum u_i^2)", "definition", "jcgm100")
def shim_stack(
    thicknesses: Sequence[str | Quantity] | Quantity,
    uncertainties: Sequence[str | Quantity] | str | Quantity | None = None,
) -> ShimStack:
    """Add up a stack of shims and its uncertainty.

    Parameters
    ----------
    thicknesses : sequence of str or Quantity
        Thickness of each leaf, more than 0. [mm]
    uncertainties : sequence of str or Quantity, or one for all, optional
        Uncertainty of each leaf. Left out, the leaves are taken as exact. [mm]

    Returns
    -------
    ShimStack
        With ``total``, ``worst_case`` and ``rss``. [mm]

    Raises
    ------
    UnitError
        A value without a unit of length, or lists of different length.
    RangeError
        No leaf at all, a leaf of no thickness, or a negative uncertainty.

    References
    ----------
    JCGM 100:2008, 5.1.2, for independent leaves.

    Examples
    --------
    >>> stack = shim_stack(["0.10 mm", "0.15 mm", "0.05 mm"], ["0.005 mm"] * 3)
    >>> print(f"{stack.total:.2f} {stack.worst_case:.3f} {stack.rss:.4f}")
    0.30 mm 0.015 mm 0.0087 mm
    """
    leaves = si_list(thicknesses, "mm", "shim", above=0)
    if not leaves:
        raise RangeError("no shim given; list at least one thickness, such as ['0.10 mm']")
    if uncertainties is None:
        spread = [0.0] * len(leaves)
    elif isinstance(uncertainties, str) or _is_single(uncertainties):
        spread = [si(uncertainties, "mm", "uncertainty of a shim", minimum=0)] * len(leaves)
    else:
        spread = si_list(uncertainties, "mm", "uncertainty of a shim", minimum=0)
    if len(spread) != len(leaves):
        raise UnitError(f"{len(leaves)} shims but {len(spread)} uncertainties; give one for each shim")
    return ShimStack(
        leaves=tuple(from_si(leaf, "mm") for leaf in leaves),
        total=from_si(math.fsum(leaves), "mm"),
        worst_case=from_si(math.fsum(spread), "mm"),
        rss=from_si(math.hypot(*spread), "mm"),
    )


def _is_single(value: Any) -> bool:
    magnitude = getattr(value, "magnitude", None)
    return magnitude is not None and not getattr(magnitude, "ndim", 0)


@formula("smallest |t - (low + high)/2| with low <= t <= high, then fewest leaves", "definition")
def choose_shims(
    available: Sequence[str | Quantity] | Quantity, low: str | Quantity, high: str | Quantity
) -> ShimStack:
    """Choose from a set the stack nearest to the middle of a band, with as few leaves as possible.

    Parameters
    ----------
    available : sequence of str or Quantity
        Thickness of every leaf in the set, each used at most once. [mm]
    low, high : str or Quantity
        The band that the stack must lie in. [mm]

    Returns
    -------
    ShimStack
        Nearest to the middle; of stacks equally near, the one with fewest leaves, then the thinner one.

    Raises
    ------
    UnitError
        A value without a unit of length.
    RangeError
        An empty set, limits the wrong way round, or no stack of the set inside the band.

    Examples
    --------
    >>> chosen = choose_shims(["0.05 mm", "0.10 mm", "0.20 mm", "0.25 mm"], "0.25 mm", "0.35 mm")
    >>> print([str(leaf) for leaf in chosen.leaves], f"{chosen.total:.2f}")
    ['0.1 mm', '0.2 mm'] 0.30 mm
    """
    leaves = [round(leaf * _PICOMETRES) for leaf in si_list(available, "mm", "shim in the set", above=0)]
    bottom = round(si(low, "mm", "lower limit of the gap", minimum=0) * _PICOMETRES)
    top = round(si(high, "mm", "upper limit of the gap", minimum=0) * _PICOMETRES)
    if not leaves:
        raise RangeError("the set of shims is empty; list the thickness of each leaf")
    if bottom > top:
        raise RangeError(f"lower limit {low} is above upper limit {high}; change them over")
    stacks = _stacks_up_to(leaves, top)
    fitting = [(abs(2 * total - bottom - top), len(used), total, used) for total, used in stacks.items()]
    fitting = [entry for entry in fitting if bottom <= entry[2] and entry[1]]
    if not fitting:
        raise RangeError(
            f"no stack of these {len(leaves)} shims lies between {low} and {high}; add another leaf"
        )
    chosen = min(fitting)[3]
    return shim_stack([from_si(leaves[index] / _PICOMETRES, "mm") for index in chosen])


def _stacks_up_to(leaves: list[int], top: int) -> dict[int, tuple[int, ...]]:
    """Every total up to ``top`` with the fewest leaves that give it (subset sums, whole picometres)."""
    if len(leaves) > _MOST_LEAVES:
        raise RangeError(
            f"a set of {len(leaves)} shims is too large; list the {_MOST_LEAVES} that you would use"
        )
    stacks: dict[int, tuple[int, ...]] = {0: ()}
    for index, leaf in enumerate(leaves):
        for total, used in list(stacks.items()):
            longer = total + leaf
            if longer <= top and (longer not in stacks or len(used) + 1 < len(stacks[longer])):
                stacks[longer] = (*used, index)
        if len(stacks) > _MOST_SUMS:
            raise RangeError("too many different stacks to try; list only the shims that you would use")
    return stacks


@dataclass(frozen=True)
class TwoLegs:
    """The gaps at the two legs of a core.

    Parameters
    ----------
    total : Quantity
        Air in the whole path: both gaps in series.
    mean : Quantity
        Equal gap at both legs with the same reluctance.
    difference : Quantity
        How far the core stands askew.

    Examples
    --------
    >>> print(two_legs("0.25 mm", "0.35 mm").mean)
    0.3 mm
    """

    total: Quantity
    mean: Quantity
    difference: Quantity


@formula("g = g_1 + g_2 (reluctances in series)", "definition")
def two_legs(first: str | Quantity, second: str | Quantity) -> TwoLegs:
    """Put together the gaps read at the two legs of an ignition core.

    Parameters
    ----------
    first, second : str or Quantity
        Gap at each leg, not negative. [mm]

    Returns
    -------
    TwoLegs
        With ``total``, ``mean`` and ``difference``. [mm]

    Raises
    ------
    UnitError
        A value without a unit of length.
    RangeError
        A negative gap.

    Notes
    -----
    For legs of equal face the flux crosses both gaps in turn, so that their reluctances add.

    Examples
    --------
    >>> print(two_legs("0.25 mm", "0.35 mm").total)
    0.6 mm
    """
    gaps = [si(value, "mm", "gap at a leg", minimum=0) for value in (first, second)]
    total = from_si(math.fsum(gaps), "mm")
    return TwoLegs(total=total, mean=total / 2, difference=from_si(abs(gaps[0] - gaps[1]), "mm"))


@formula("g - TIR/2 to g + TIR/2", "geometry")
def run_out(gap: str | Quantity, indicator_reading: str | Quantity) -> tuple[Quantity, Quantity]:
    """Smallest and largest gap in one turn of a wheel that runs out.

    Parameters
    ----------
    gap : str or Quantity
        Mean gap. [mm]
    indicator_reading : str or Quantity
        Total indicator reading, highest minus lowest, in one turn. [mm]

    Returns
    -------
    tuple of Quantity
        Smallest and largest gap. [mm]

    Raises
    ------
    UnitError
        A value without a unit of length.
    RangeError
        A negative value, or a run-out with which the wheel would rub.

    Examples
    --------
    >>> low, high = run_out("0.30 mm", "0.10 mm")
    >>> print(f"{low:.2f} to {high:.2f}")
    0.25 mm to 0.35 mm
    """
    mean = si(gap, "mm", "air gap", minimum=0)
    half = si(indicator_reading, "mm", "total indicator reading", minimum=0) / 2
    if half > mean:
        raise RangeError(
            f"run-out {indicator_reading} at gap {gap}: the wheel would rub; true it or widen the gap"
        )
    return from_si(mean - half, "mm"), from_si(mean + half, "mm")


def judge(
    reading: str | Quantity,
    low: str | Quantity | None,
    high: str | Quantity | None,
    uncertainty: str | Quantity,
) -> verdict.Verdict:
    """Say whether a gap is inside its band, outside, or too close to a limit to tell.

    Parameters
    ----------
    reading : str or Quantity
        Gap as measured. [mm]
    low, high : str or Quantity or None
        The band; the maker's figure comes first. [mm]
    uncertainty : str or Quantity
        Standard uncertainty of the reading. [mm]

    Returns
    -------
    {"in", "out", "undecided"}
        With a guard band of 1.645 standard uncertainties.

    Raises
    ------
    UnitError
        A value without a unit of length.
    RangeError
        A negative gap or uncertainty, or limits the wrong way round.

    See Also
    --------
    twostroke.verdict.judge : The rule and its source.

    Examples
    --------
    >>> judge("12 thou", "0.20 mm", "0.40 mm", "0.02 mm")
    'in'
    """
    si(reading, "mm", "air gap", minimum=0)
    return verdict.judge(reading, low, high, uncertainty, expect="mm", name="air gap")
