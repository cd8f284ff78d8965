"""One warm parent: it has loaded what a lab needs, forks for each submission and hands back the result.

Started by `twostroke.grading.pool`, inside bubblewrap where the machine has it. Speaks length-prefixed JSON
on stdin
and stdout. Never runs a line of a learner's code itself.
"""

from __future__ import annotations

import base64
import contextlib
import gc
import json
import os
import signal
import struct
import time
from pathlib import Path
from typing import Any, BinaryIO

from twostroke.grading import confine
from twostroke.grading.confine import Limits

JOB = "/job"
_LENGTH = struct.Struct("!I")
_LARGEST_MESSAGE = 256 * 2**20


def write_message(stream: BinaryIO, content: dict[str, Any]) -> None:
    """Write one message."""
    data = json.dumps(content).encode()
    stream.write(_LENGTH.pack(len(data)) + data)
    stream.flush()


def read_message(stream: BinaryIO) -> dict[str, Any] | None:
    """Read one message; None at the end."""
    head = stream.read(_LENGTH.size)
    if len(head) < _LENGTH.size:
        return None
    (size,) = _LENGTH.unpack(head)
    if size > _LARGEST_MESSAGE:
        return None
    data = stream.read(size)
    return json.loads(data) if len(data) == size else None


class Worker:
    """The warm parent.

    Parameters
    ----------
    setup : dict
        ``mode`` ("walled" or "open"), ``root`` (whether to drop to another user), ``number`` of this worker,
        ``limits``, ``rehearsal`` (sources of the lab as handed out), ``files`` (other files of the lab).
    """

    def __init__(self, setup: dict[str, Any]):
        from twostroke.grading.cells import make_shell, rehearse

        self.walled: bool = setup["mode"] == "walled"
        self.user = confine.NOBODY + int(setup["number"]) if setup["root"] else None
        self.limits = Limits(**setup["limits"])
        self.files = {name: base64.b64decode(data) for name, data in setup["files"].items()}
        self.shell = make_shell()
        self.job = JOB if self.walled else os.getcwd()
        os.chdir(self.job if not self.walled else confine.SCRATCH)
        rehearse(self.shell, setup["rehearsal"])
        self._own_pids = os.open("/proc/self/ns/pid", os.O_RDONLY) if self.walled else -1
        if not self.walled:
            confine.adopt_orphans()
        gc.collect()
        gc.freeze()

    def run(self, job: dict[str, Any]) -> dict[str, Any]:
        """Fork for one submission and return what came of it."""
        from twostroke.grading.watch import watch

        frames_in, frames_out = os.pipe()
        answers_in, answers_out = os.pipe()
        if self.walled:
            confine.unshare(confine.CLONE_NEWPID)
        child = os.fork()
        if child == 0:
            self._child(job, frames_out, answers_out)
        if self.walled:
            confine.return_to(self._own_pids)
        os.close(frames_out)
        os.close(answers_out)
        try:
            return watch(child, frames_in, answers_in, job, self.limits, self.walled)
        finally:
            os.close(frames_in)
            os.close(answers_in)

    def _child(self, job: dict[str, Any], frames: int, answers: int) -> None:
        """Everything here is inside the fork; it never returns."""
        code = 70
        try:
            self._enter(job, frames, answers)
            from twostroke.grading.cells import run_cells

            def send(frame: dict[str, Any]) -> None:
                data = json.dumps(frame).encode() + b"\n"
                while data:
                    data = data[os.write(frames, data) :]

            cells = [(place, source) for place, source in job["cells"]]
            run_cells(self.shell, cells, self.limits.cell_seconds, self.limits.output_kb, send)
            code = 0
        except BaseException as error:
            with contextlib.suppress(BaseException):
                os.write(
                    frames, json.dumps({"engine": f"{type(error).__name__}: {error}"[:500]}).encode() + b"\n"
                )
        finally:
            os._exit(code)

    def _enter(self, job: dict[str, Any], frames: int, answers: int) -> None:
        _keep_only({frames, answers})
        os.setsid()
        if self.walled:
            confine.private_folders(self.limits, self.job)
        folder = Path(self.job) / "autograded" / job["learner"] / job["lab"]
        folder.mkdir(parents=True)
        for name, data in self.files.items():
            target = folder / name
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_bytes(data)
        if self.user is not None:
            for place in (Path(self.job), *Path(self.job).rglob("*")):
                os.chown(place, self.user, self.user)
        os.chdir(folder)
        os.environ.update(
            HOME=str(folder),
            TMPDIR=confine.SCRATCH if self.walled else str(folder),
            TWOSTROKE_LEARNER=job["learner"],
            TWOSTROKE_ANSWERS=str(answers),
            TWOSTROKE_RECORD_ONLY="1",
            NBGRADER_EXECUTION="autograde",
        )
        confine.limit_resources(self.limits)
        if self.user is not None:
            confine.become(self.user)
        elif self.walled:
            confine.become_nobody_here()
        confine.limit_processes(self.limits)
        confine.seal()


def _keep_only(kept: set[int]) -> None:
    """Close every other handle: the channel to the grader above all."""
    null = os.open(os.devnull, os.O_RDWR)
    for number in (0, 1, 2):
        os.dup2(null, number)
    for entry in os.listdir("/proc/self/fd"):
        number = int(entry)
        if number > 2 and number not in kept:
            with contextlib.suppress(OSError):
                os.close(number)


def main() -> None:
    """Serve until stdin ends."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    requests = os.fdopen(os.dup(0), "rb")
    replies = os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)
    setup = read_message(requests)
    if setup is None:
        return
    started = time.perf_counter()
    worker = Worker(setup)
    write_message(replies, {"ready": True, "seconds": time.perf_counter() - started, "pid": os.getpid()})
    while (job := read_message(requests)) is not None:
        try:
            result = worker.run(job)
        except Exception as error:
            result = {"engine": f"{type(error).__name__}: {error}"}
        write_message(replies, {"id": job["id"], **result})
