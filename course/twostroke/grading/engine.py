"""Where submissions are run: on this machine, or on a cluster."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import AbstractContextManager
from typing import Any, Protocol, TypeVar

from twostroke import resources
from twostroke.grading.confine import Limits
from twostroke.grading.pool import Here, core_count
from twostroke.grading.skeleton import Skeleton
from twostroke.grading.states import GradingError
from twostroke.grading.walls import Walls, require

T = TypeVar("T")


class Runs(Protocol):
    """What runs jobs."""

    def run(self, jobs: Iterable[tuple[T, dict[str, Any]]]) -> Iterator[tuple[T, dict[str, Any]]]:
        """Run jobs, each a thing of the caller's with a message; go through (thing, result) as they come."""
        ...


class Engine(Protocol):
    """A place where submissions are run."""

    @property
    def walls(self) -> Walls:
        """What stands between submissions and machine."""
        ...

    def open(self, skeleton: Skeleton, limits: Limits, most: int) -> AbstractContextManager[Runs]:
        """Make it ready for at most so many submissions to a lab."""
        ...


def choose(cluster: str | None, trust: bool, workers: int | None) -> Engine:
    """Return the engine that was asked for, looked over.

    Parameters
    ----------
    cluster : str or None
        Address of a dask scheduler; None for this machine.
    trust : bool
        Whether to go on where submissions cannot be walled off.
    workers : int or None
        Warm parents on this machine; one a core without it.

    Raises
    ------
    GradingError
        When submissions cannot be walled off and `trust` is False, or the cluster cannot grade.
    """
    if cluster is None:
        return Here(require(trust), core_count(workers))
    if workers is not None:
        raise GradingError("workers: a cluster has its own; leave out either --workers or --cluster")
    try:
        from twostroke.grading.cluster import Cluster
    except ModuleNotFoundError as error:
        raise GradingError(
            f"{error.name} is not installed: a cluster needs the school extra; "
            f"run {resources.how_to_add('school')}"
        ) from None
    return Cluster.at(cluster, trust)
