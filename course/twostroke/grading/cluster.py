"""The same work on other machines: a dask cluster's workers hold the warm parents, the marks stay here.

A worker gets one submission's cells and gives back what came of them. Gradebook, class list, journal and
files never leave the machine on which the command runs.
"""

from __future__ import annotations

import contextlib
import hashlib
import time
import uuid
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any, TypeVar

import distributed

import twostroke
from twostroke.grading.confine import Limits
from twostroke.grading.pool import Pool, kit
from twostroke.grading.skeleton import Skeleton
from twostroke.grading.states import GradingError
from twostroke.grading.walls import Walls, find_walls, require

T = TypeVar("T")
_CONNECT = 20.0
_LOOK, _PATIENCE = 2.0, 60.0


@cache
def code_mark() -> str:
    """Return a digest of this package's code and data; the same numbers need the same on every machine."""
    digest = hashlib.sha256()
    here = Path(twostroke.__file__).parent
    for path in sorted(here.rglob("*")):
        if path.is_file() and "__pycache__" not in path.parts and "_course" not in path.parts:
            digest.update(str(path.relative_to(here)).encode() + b"\0" + path.read_bytes() + b"\0")
    return digest.hexdigest()


class Graders(distributed.WorkerPlugin):
    """Warm parents for one lab on a worker, from the start of a run to its end.

    Parameters
    ----------
    name : str
        Of the run.
    lab : dict
        What a warm parent has to know, from `twostroke.grading.pool.kit`.
    limits : Limits
    trust : bool
        Whether to go on where the worker's machine cannot wall submissions off.
    """

    def __init__(self, name: str, lab: dict[str, Any], limits: Limits, trust: bool):
        self.name, self.lab, self.limits, self.trust = name, lab, limits, trust

    def setup(self, worker: distributed.Worker) -> None:
        """Make the warm parents ready; a machine that may not run them says so with each submission."""
        self.pool: Pool | None = None
        self.refused = ""
        try:
            self.pool = Pool(self.lab, require(self.trust), self.limits, worker.state.nthreads)
        except GradingError as error:
            self.refused = f"worker {worker.address}: {error}"

    def teardown(self, worker: distributed.Worker) -> None:
        """End them."""
        if self.pool is not None:
            self.pool.close()

    def mark(self, job: dict[str, Any]) -> dict[str, Any]:
        """Run one submission and mark its answers."""
        if self.pool is None:
            return {"engine": self.refused}
        result: dict[str, Any] = self.pool.submit(job).result()
        return result


def mark_there(name: str, job: dict[str, Any]) -> dict[str, Any]:
    """On a worker: mark one submission with the warm parents of the run."""
    grader = distributed.get_worker().plugins.get(name)
    if not isinstance(grader, Graders):
        return {"engine": "the worker joined before it knew of this run"}
    return grader.mark(job)


def describe() -> dict[str, Any]:
    """On a worker: what it can wall off, and which version of the course it has."""
    walls = find_walls()
    return {"code": code_mark(), "mode": walls.mode, "root": walls.root, "missing": walls.missing}


@dataclass(frozen=True)
class Cluster:
    """A dask cluster that grades.

    Parameters
    ----------
    address : str
        Of its scheduler, such as "tcp://192.0.2.7:8786".
    walls : Walls
        The weakest among the workers.
    trust : bool
        Whether weaker walls are accepted.
    """

    address: str
    walls: Walls
    trust: bool

    @classmethod
    def at(cls, address: str, trust: bool) -> Cluster:
        """Return the cluster at an address, looked over.

        Raises
        ------
        GradingError
            When there is none, it has no worker, a worker has another version of the course, or one cannot
            wall submissions off and `trust` is False.
        """
        with _client(address) as client:
            told = client.run(describe, on_error="return")
        if not told:
            raise GradingError(f"cluster {address}: has no worker; start some with `dask worker {address}`")
        weakest: Walls | None = None
        for worker, said in sorted(told.items()):
            if isinstance(said, BaseException):
                raise GradingError(
                    f"cluster {address}: worker {worker} cannot grade ({type(said).__name__}: {said}); "
                    "install the course there, with the same extras as here"
                )
            if said["code"] != code_mark():
                raise GradingError(
                    f"cluster {address}: worker {worker} has another version of the course, which would mark "
                    "otherwise; bring it to the version on this machine and start it again"
                )
            missing = tuple(f"{worker}: {words}" for words in said["missing"])
            walls = Walls(said["mode"], said["root"], missing)
            if weakest is None or walls.mode == "open":
                weakest = walls
        assert weakest is not None
        if weakest.mode == "open" and not trust:
            raise GradingError(
                f"{weakest.text}. Install bubblewrap on the workers, or add --trust when you trust every "
                "submission"
            )
        return cls(address, weakest, trust)

    @contextlib.contextmanager
    def open(self, skeleton: Skeleton, limits: Limits, most: int) -> Iterator[ClusterPool]:
        """Warm the workers for a lab; yields what runs jobs."""
        name = f"grading-{skeleton.lab}-{uuid.uuid4().hex[:8]}"
        with _client(self.address) as client:
            client.register_plugin(Graders(name, kit(skeleton), limits, self.trust), name=name)
            try:
                yield ClusterPool(client, name, most)
            finally:
                with contextlib.suppress(Exception):  # a cluster that has gone needs no tidying
                    client.unregister_worker_plugin(name)


class ClusterPool:
    """Runs jobs on a cluster, with the manners of `twostroke.grading.pool.Pool`.

    Parameters
    ----------
    client : distributed.Client
    name : str
        Of the run.
    most : int
        Jobs that there will be.
    """

    def __init__(self, client: distributed.Client, name: str, most: int):
        self._client, self._name = client, name
        self._at_once = max(2, min(most, 2 * sum(client.nthreads().values()) + 1))

    def run(self, jobs: Iterable[tuple[T, dict[str, Any]]]) -> Iterator[tuple[T, dict[str, Any]]]:
        """Run jobs, each a thing of the caller's with a message; go through (thing, result) as they come.

        A submission whose worker ends is given to another one; ``engine`` in a result says why there is none.
        """
        waiting: dict[distributed.Future, T] = {}
        for thing, job in jobs:
            key = f"{self._name}-{job['id']}"
            waiting[self._client.submit(mark_there, self._name, job, key=key, pure=False)] = thing
            while len(waiting) >= self._at_once:
                yield from self._ready(waiting)
        while waiting:
            yield from self._ready(waiting)

    def _ready(self, waiting: dict[distributed.Future, T]) -> Iterator[tuple[T, dict[str, Any]]]:
        """Wait until something is ready; where no worker is left for long, say so for all."""
        until, found = time.monotonic() + _PATIENCE, False
        while not found:
            with contextlib.suppress(TimeoutError, distributed.CancelledError), self._client.as_current():
                distributed.wait(list(waiting), timeout=_LOOK, return_when="FIRST_COMPLETED")
            for future in [each for each in waiting if each.done()]:
                result = _result(future)
                if result is not None:
                    found = True
                    yield waiting.pop(future), result
            if self._workers():
                until = time.monotonic() + _PATIENCE
            elif time.monotonic() > until:
                while waiting:
                    _, thing = waiting.popitem()
                    yield thing, {"engine": "the cluster has no worker left"}
                return

    def _workers(self) -> int:
        try:
            return len(self._client.nthreads())
        except Exception:  # whatever the connection says when the scheduler has gone
            return 0


def _result(future: distributed.Future) -> dict[str, Any] | None:
    """What came of a job; None where the worker that had it ended, and another one does it again."""
    try:
        result: dict[str, Any] = future.result(timeout=_LOOK)
        return result
    except TimeoutError:
        return None
    except Exception as error:
        return {"engine": f"on the cluster: {type(error).__name__}: {error}"[:500]}


@contextlib.contextmanager
def _client(address: str) -> Iterator[distributed.Client]:
    try:
        client = distributed.Client(address, timeout=_CONNECT, set_as_default=False)
    except (OSError, TimeoutError, ValueError, RuntimeError) as error:
        raise GradingError(
            f"cluster {address}: does not answer ({error}); start it with `dask scheduler` and "
            "`dask worker`, and check the address"
        ) from None
    try:
        yield client
    finally:
        client.close(timeout=10)
