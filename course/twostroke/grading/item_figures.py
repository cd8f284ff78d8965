"""Figures of a table of points, learners by tasks: what each task has in common with the others,
reliability."""

from __future__ import annotations

import numpy as np

from twostroke.sources import formula

FEWEST = 5
"""Fewest learners for which a correlation is shown."""


def correlation(one: np.ndarray, other: np.ndarray) -> float | None:
    """Return the correlation of two columns, None below five learners or where one does not vary."""
    if len(one) < FEWEST or np.ptp(one) < 1e-12 or np.ptp(other) < 1e-12:
        return None
    return float(np.corrcoef(one, other)[0, 1])


@formula("discrimination = correlation of a task with the total of the others", "item_total")
def discrimination(points: np.ndarray) -> list[float | None]:
    """Return how well each task parts the strong from the weak, None where that is not defined.

    Parameters
    ----------
    points : array (learners, tasks)
        nan where a mark is still due.

    References
    ----------
    Corrected item-total correlation: Nunnally and Bernstein, Psychometric Theory, 3rd ed., McGraw-Hill 1994,
    section 8 (from memory).

    Examples
    --------
    >>> discrimination(np.array([[1, 1, 0], [1, 1, 1], [0, 0, 0], [1, 1, 1], [0, 0, 1.0]]))[2] is None
    False
    """
    found = []
    for column, mine in enumerate(points.T):
        known = ~np.isnan(mine)
        rest = np.nansum(np.delete(points, column, axis=1), axis=1)
        found.append(correlation(mine[known], rest[known]))
    return found


@formula("alpha = k/(k - 1) (1 - sum of task variances / variance of the total)", "cronbach")
def alpha(points: np.ndarray) -> float | None:
    r"""Return Cronbach's alpha of an array (learners, tasks), None where it is not defined.

    .. math:: \alpha = \frac{k}{k-1}\left(1 - \frac{\sum s_i^2}{s_T^2}\right)

    With tasks marked 0 or 1 this is KR-20.

    References
    ----------
    L. J. Cronbach, "Coefficient alpha and the internal structure of tests", Psychometrika 16 (1951) 297-334.
    """
    if len(points) < FEWEST or points.shape[1] < 2:
        return None
    total = points.sum(axis=1).var(ddof=1)
    if total < 1e-12:
        return None
    count = points.shape[1]
    return float(count / (count - 1) * (1 - points.var(axis=0, ddof=1).sum() / total))
