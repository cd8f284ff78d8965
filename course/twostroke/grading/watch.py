"""The warm parent's eye on one fork: frames read, time and memory watched, the whole tree ended."""

from __future__ import annotations

import contextlib
import os
import select
import signal
import time
from pathlib import Path
from typing import Any

from twostroke.grading.confine import Limits
from twostroke.grading.foreign_json import read_json

_GRACE = 2.0
_MOST_FRAME_BYTES = 32 * 2**20
_MOST_ANSWER_BYTES = 4 * 2**20
_TICK = 0.1


class _Channel:
    """Lines from one pipe, up to a number of bytes."""

    def __init__(self, handle: int, most: int):
        self.handle, self.most = handle, most
        self.data = bytearray()
        self.lines: list[bytes] = []
        self.seen = 0
        self.open = True
        os.set_blocking(handle, False)

    def read(self) -> bool:
        """Take what is there; False when it has sent too much."""
        while self.open:
            try:
                part = os.read(self.handle, 1 << 16)
            except BlockingIOError:
                return True
            if not part:
                self.open = False
                return True
            self.seen += len(part)
            if self.seen > self.most:
                return False
            self.data += part
            if b"\n" in part:
                *lines, rest = self.data.split(b"\n")
                self.lines += [bytes(line) for line in lines]
                self.data = bytearray(rest)
        return True

    def take(self) -> list[bytes]:
        """Lines read since the last call."""
        lines, self.lines = self.lines, []
        return lines


class _Progress:
    """What the frames say so far."""

    def __init__(self, job: dict[str, Any]):
        self.allowed = {place for place, _ in job["cells"]}
        self.frames: dict[int, dict[str, Any]] = {}
        self.at: int | None = None
        self.since = time.monotonic()
        self.garbled = 0
        self.ended = False
        self.engine: str | None = None

    def add(self, line: bytes) -> None:
        try:
            frame = read_json(line.decode())
        except (ValueError, RecursionError):
            self.garbled += 1
            return
        if not isinstance(frame, dict):
            self.garbled += 1
        elif frame.get("end") is True:
            self.ended, self.at = True, None
        elif "engine" in frame and not self.frames and self.at is None:
            self.engine = str(frame["engine"])[:500]
        elif not (type(frame.get("cell")) is int and frame["cell"] in self.allowed):
            self.garbled += 1
        elif frame.get("status") == "start" and frame["cell"] not in self.frames:
            self.at, self.since = frame["cell"], time.monotonic()
        elif (
            frame.get("status") in ("ok", "error", "timeout")
            and frame["cell"] == self.at
            and isinstance(frame.get("outputs"), list)
        ):
            self.frames[frame["cell"]] = {"status": frame["status"], "outputs": frame["outputs"]}
            self.at = None
        else:
            self.garbled += 1


def watch(
    child: int, frames_in: int, answers_in: int, job: dict[str, Any], limits: Limits, walled: bool
) -> dict[str, Any]:
    """Follow one fork to its end.

    Parameters
    ----------
    child : int
        Process id.
    frames_in, answers_in : int
        Reading ends of its two pipes.
    job : dict
        With the cells that it was given.
    limits : Limits
    walled : bool
        Whether it has a process namespace of its own, which ends with it.

    Returns
    -------
    dict
        ``frames`` by cell, ``answers`` as lines, ``ended`` ("end", "exit", "signal", "time", "memory",
        "flood"),
        ``at`` (cell in which it stopped), ``garbled`` (frames that nobody here sent), ``seconds``.
    """
    started = time.monotonic()
    pidfd = os.pidfd_open(child)
    frames = _Channel(frames_in, _MOST_FRAME_BYTES)
    answers = _Channel(answers_in, _MOST_ANSWER_BYTES)
    progress = _Progress(job)
    poller = select.poll()
    for handle in (pidfd, frames_in, answers_in):
        poller.register(handle, select.POLLIN)
    base = _memory(child)
    ended, looked = "", started
    while not ended:
        for handle, _ in poller.poll(_TICK * 1000):
            if handle == pidfd:
                ended = "exit"
            elif not (frames if handle == frames_in else answers).read():
                ended = "flood"
            elif not (frames if handle == frames_in else answers).open:
                poller.unregister(handle)
        for line in frames.take():
            progress.add(line)
        now = time.monotonic()
        if ended:
            break
        late = progress.at is not None and now - progress.since > limits.cell_seconds + _GRACE
        if late or now - started > limits.total_seconds:
            ended = "time"
        elif now - looked >= _TICK:
            looked = now
            if _uses_too_much(child, walled, base + limits.memory_mb * 2**20):
                ended = "memory"
    status = _end_tree(child, pidfd, walled)
    os.close(pidfd)
    frames.read()
    answers.read()
    for line in frames.take():
        progress.add(line)
    if ended == "exit":
        ended = "end" if progress.ended and status == 0 else "signal" if os.WIFSIGNALED(status) else "exit"
    result: dict[str, Any] = {
        "frames": {str(place): frame for place, frame in progress.frames.items()},
        "answers": [line.decode("utf-8", "replace") for line in answers.take()],
        "ended": ended,
        "at": progress.at,
        "garbled": progress.garbled,
        "seconds": round(time.monotonic() - started, 4),
    }
    if progress.engine is not None:
        result = {"engine": progress.engine}
    return result


def _end_tree(child: int, pidfd: int, walled: bool) -> int:
    """End the fork and all that came from it, and return its status.

    The handle cannot hit a stranger who got the number later. With the first process of its namespace the
    kernel ends
    all others; without one they are looked for, and orphans come back to this process, their subreaper.
    """
    strays = [] if walled else _descendants(child)
    with contextlib.suppress(ProcessLookupError):
        signal.pidfd_send_signal(pidfd, signal.SIGKILL)
    _, status = os.waitpid(child, 0)
    while not walled and (strays := [*strays, *_descendants(os.getpid())]):
        for stray in strays:
            with contextlib.suppress(ProcessLookupError, PermissionError):
                os.kill(stray, signal.SIGKILL)
        with contextlib.suppress(ChildProcessError):
            while os.waitpid(-1, os.WNOHANG)[0]:
                pass
        strays = []
    return status


def _memory(pid: int) -> int:
    try:
        with open(f"/proc/{pid}/statm", encoding="ascii") as file:
            fields = file.read().split()
        return (int(fields[1]) - int(fields[2])) * os.sysconf("SC_PAGE_SIZE")
    except (OSError, IndexError, ValueError):
        return 0


def _uses_too_much(child: int, walled: bool, most: int) -> bool:
    """Whether all processes of the fork hold more than this; pages shared between them count once."""
    if walled:  # all but this process and bubblewrap's own belong to the submission
        mine = {os.getpid(), os.getppid(), 1}
        pids = [int(name) for name in os.listdir("/proc") if name.isdigit() and int(name) not in mine]
    else:
        pids = [child, *_descendants(child)]
    if sum(_memory(pid) for pid in pids) <= most:
        return False
    return sum(_own_share(pid) for pid in pids) > most


def _own_share(pid: int) -> int:
    with contextlib.suppress(OSError, ValueError, IndexError):
        for line in Path(f"/proc/{pid}/smaps_rollup").read_text(encoding="ascii").splitlines():
            if line.startswith("Pss_Anon:"):
                return int(line.split()[1]) * 1024
    return 0


def _descendants(root: int) -> list[int]:
    """Process ids below a process."""
    below: dict[int, list[int]] = {}
    for name in os.listdir("/proc"):
        if name.isdigit():
            with contextlib.suppress(OSError, IndexError, ValueError):
                text = Path(f"/proc/{name}/stat").read_text(encoding="utf-8", errors="replace")
                below.setdefault(int(text.rpartition(")")[2].split()[1]), []).append(int(name))
    found, todo = [], [root]
    while todo:
        children = below.get(todo.pop(), [])
        found += children
        todo += children
    return found
