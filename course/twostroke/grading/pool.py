"""The grader's hold on its warm parents and on the clean interpreters that mark a second time."""

from __future__ import annotations

import base64
import contextlib
import dataclasses
import functools
import os
import queue
import select
import shutil
import subprocess
import tempfile
import threading
from collections.abc import Iterable, Iterator
from concurrent.futures import Future
from typing import Any, BinaryIO, TypeVar

from twostroke.grading.confine import Limits
from twostroke.grading.skeleton import Skeleton
from twostroke.grading.states import GradingError
from twostroke.grading.walls import Walls, bubblewrap, environment, interpreter
from twostroke.grading.worker import read_message, write_message

T = TypeVar("T")
_START = 120.0


class Lost(Exception):  # noqa: N818  (a signal inside this package)
    """The other process ended or did not answer."""


class Partner:
    """Another process that answers one message at a time.

    Parameters
    ----------
    command : list of str
    setup : dict
        First message.
    env : dict, optional
        Its variables.
    folder : str, optional
        Its working folder.
    """

    def __init__(
        self,
        command: list[str],
        setup: dict[str, Any],
        env: dict[str, str] | None = None,
        folder: str | None = None,
    ):
        self._said = tempfile.TemporaryFile()  # noqa: SIM115  (closed with the partner)
        self._process = subprocess.Popen(
            command,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=self._said,
            env=env,
            cwd=folder,
            start_new_session=True,
        )
        self._greeted = False
        self._send(setup)

    def _send(self, message: dict[str, Any]) -> None:
        assert self._process.stdin is not None
        try:
            write_message(_as_binary(self._process.stdin), message)
        except (BrokenPipeError, ValueError):
            raise Lost(self._last_words()) from None

    def ask(self, message: dict[str, Any], seconds: float) -> dict[str, Any]:
        """Send a message and return the answer.

        Raises
        ------
        Lost
            When there is none within the time.
        """
        if not self._greeted:
            self._receive(_START)
            self._greeted = True
        self._send(message)
        return self._receive(seconds)

    def _receive(self, seconds: float) -> dict[str, Any]:
        replies = self._process.stdout
        assert replies is not None
        if not select.select([replies], [], [], seconds)[0]:
            raise Lost(f"no answer within {seconds:.0f} s")
        reply = read_message(_as_binary(replies))
        if reply is None:
            raise Lost(self._last_words())
        return reply

    def _last_words(self) -> str:
        with contextlib.suppress(subprocess.TimeoutExpired):
            self._process.wait(5)
        self._said.seek(0)
        text = self._said.read().decode("utf-8", "replace").strip()
        return text.splitlines()[-1][:300] if text else f"ended with code {self._process.returncode}"

    def close(self) -> None:
        """End it."""
        for stream in (self._process.stdin, self._process.stdout):
            if stream is not None:
                with contextlib.suppress(OSError):
                    stream.close()
        try:
            self._process.wait(2)
        except subprocess.TimeoutExpired:
            self._process.kill()
            self._process.wait()
        self._said.close()


def _as_binary(stream: Any) -> BinaryIO:
    return stream


def kit(skeleton: Skeleton) -> dict[str, Any]:
    """Return what warm parents and markers have to know of a lab, as plain data."""
    return {
        "lab": skeleton.lab,
        "rehearsal": [s.released for s in skeleton.slots if s.cell.cell_type == "code"],
        "files": {name: base64.b64encode(data).decode() for name, data in skeleton.files.items()},
    }


@dataclasses.dataclass(frozen=True)
class Here:
    """This machine as the one that grades.

    Parameters
    ----------
    walls : Walls
    workers : int
        Warm parents at most.
    """

    walls: Walls
    workers: int

    def open(self, skeleton: Skeleton, limits: Limits, most: int) -> Pool:
        """Warm parents for a lab, no more than there are jobs."""
        return Pool(kit(skeleton), self.walls, limits, min(self.workers, most))


class Pool:
    """Warm parents, one a core, each with a marker beside it.

    Parameters
    ----------
    lab : dict
        What they have to know, from `kit`.
    walls : Walls
    limits : Limits
    workers : int
        Number of warm parents.
    """

    def __init__(self, lab: dict[str, Any], walls: Walls, limits: Limits, workers: int):
        self._lab, self._walls, self._limits = lab, walls, limits
        self._jobs: queue.SimpleQueue[tuple[dict[str, Any], Future[dict[str, Any]]] | None] = (
            queue.SimpleQueue()
        )
        self._stop = threading.Event()
        self._threads = [threading.Thread(target=self._serve, args=(n,), daemon=True) for n in range(workers)]
        for thread in self._threads:
            thread.start()

    def submit(self, job: dict[str, Any]) -> Future[dict[str, Any]]:
        """Give one job to the next free warm parent; the result has ``engine`` where the grader failed."""
        promised: Future[dict[str, Any]] = Future()
        self._jobs.put((job, promised))
        return promised

    def run(self, jobs: Iterable[tuple[T, dict[str, Any]]]) -> Iterator[tuple[T, dict[str, Any]]]:
        """Run jobs, each a thing of the caller's with a message; go through (thing, result) as they come.

        At most a few jobs wait at a time, so that memory does not grow with the class.
        """
        done: queue.SimpleQueue[tuple[T, Future[dict[str, Any]]]] = queue.SimpleQueue()
        waiting = 0
        for thing, job in jobs:
            self.submit(job).add_done_callback(functools.partial(_hand_on, done, thing))
            waiting += 1
            while waiting >= 2 * len(self._threads) + 1:
                yield _taken(done)
                waiting -= 1
        while waiting:
            yield _taken(done)
            waiting -= 1

    def close(self) -> None:
        """End all processes."""
        self._stop.set()
        for _ in self._threads:
            self._jobs.put(None)
        for thread in self._threads:
            thread.join(10)

    def __enter__(self) -> Pool:
        return self

    def __exit__(self, *details: object) -> None:
        self.close()

    def _serve(self, number: int) -> None:
        """One thread a warm parent: bubblewrap ends with the thread that started it, so the thread stays."""
        runner: Partner | None = None
        marker: Partner | None = None
        folder = tempfile.mkdtemp(prefix="grading-") if self._walls.mode == "open" else None
        while (waiting := self._jobs.get()) is not None and not self._stop.is_set():
            job, promised = waiting
            result: dict[str, Any] = {}
            for _ in range(2):
                try:
                    marker = marker or start_marker(self._lab["lab"])
                    runner = runner or self._start_runner(number, folder)
                    result = runner.ask(job, self._limits.total_seconds + 60)
                    if "engine" not in result:
                        result["marking"] = _mark(marker, job, result)
                    break
                except Lost as error:
                    result = {"engine": str(error)}
                    for partner in (runner, marker):
                        if partner is not None:
                            partner.close()
                    runner = marker = None
                except Exception as error:
                    result = {"engine": f"{type(error).__name__}: {error}"}
                    break
            promised.set_result(result)
        for partner in (runner, marker):
            if partner is not None:
                partner.close()
        if folder:
            shutil.rmtree(folder, ignore_errors=True)

    def _start_runner(self, number: int, folder: str | None) -> Partner:
        walled = self._walls.mode == "walled"
        inside = bubblewrap(self._walls.root) if walled else []
        command = [*inside, *interpreter("worker", "main()")]
        env = environment(folder) if folder else None
        return Partner(
            command,
            {
                "mode": self._walls.mode,
                "root": self._walls.root,
                "number": number,
                "limits": dataclasses.asdict(self._limits),
                "rehearsal": self._lab["rehearsal"],
                "files": self._lab["files"],
            },
            env,
            folder,
        )


def _hand_on(
    done: queue.SimpleQueue[tuple[T, Future[dict[str, Any]]]], thing: T, promised: Future[dict[str, Any]]
) -> None:
    done.put((thing, promised))


def _taken(done: queue.SimpleQueue[tuple[T, Future[dict[str, Any]]]]) -> tuple[T, dict[str, Any]]:
    thing, promised = done.get()
    return thing, promised.result()


def _mark(marker: Partner, job: dict[str, Any], result: dict[str, Any]) -> dict[str, Any]:
    request = {"id": job["id"], "learner": job["learner"], "also": job["also"], "lines": result["answers"]}
    return marker.ask(request, 60)


def start_marker(lab: str) -> Partner:
    """Start the clean interpreter that marks recorded answers of a lab."""
    return Partner([*interpreter("marker", "main()")], {"lab": lab}, environment(tempfile.gettempdir()))


def core_count(workers: int | None) -> int:
    """Return the number of warm parents: one for each core that this process may use.

    Raises
    ------
    GradingError
        When fewer than one are asked for.
    """
    if workers is None:
        return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
    if workers < 1:
        raise GradingError(f"workers {workers}: at least one is needed")
    return workers
