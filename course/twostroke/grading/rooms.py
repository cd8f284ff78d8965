"""A room for each learner of a class under JupyterHub, and what passes between the rooms and the instructor.

A hub's folder holds ``outbound`` (labs handed out), and for each learner of the class list ``rooms/LEARNER``
with ``work`` (the learner's own files), ``inbound`` (what the learner handed in) and ``feedback``. The server
of a learner sees its own room and ``outbound`` alone, laid out as the exchange of nbgrader: its fetch, submit
and fetch-feedback, on the command line and in JupyterLab, work as they are.

What lies in a room was written by the learner's own programs and is taken for hostile: links are never
followed, sizes are limited, a name inside is never believed.
"""

from __future__ import annotations

import contextlib
import os
import shutil
import stat
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import UTC, datetime
from pathlib import Path

from nbgrader.utils import notebook_hash

from twostroke.grading.files import write_bytes
from twostroke.grading.place import Course, lab_name
from twostroke.grading.states import GradingError
from twostroke.grading.unpack import LARGEST_FILE

COURSE = "two-stroke"
"""Name of the course in the exchange."""

_SECRET_BYTES = 4096
_MOST_HAND_INS = 2000


@dataclass(frozen=True)
class Rooms:
    """The rooms of a class.

    Parameters
    ----------
    folder : Path
        The hub's folder; learners' servers never see it as a whole.
    course : Course
        With the class list, release and feedback.
    """

    folder: Path
    course: Course

    @property
    def outbound(self) -> Path:
        """Labs handed out, one folder each."""
        return self.folder / "outbound"

    def learners(self) -> list[str]:
        """Identifiers of the class list, the only ones who get a room.

        Raises
        ------
        GradingError
            When the class list is empty.
        """
        names = [each.id for each in self.course.classlist.learner]
        if not names:
            raise GradingError(
                f"class list {self.course.home / 'class.toml'}: names nobody, so nobody gets a room; write "
                "in the class as class.example.toml shows"
            )
        return names

    def room(self, learner: str, part: str = "") -> Path:
        """Return a learner's room, or ``work``, ``inbound`` or ``feedback`` in it.

        Raises
        ------
        GradingError
            When the learner is not on the class list.
        """
        if learner not in self.learners():
            raise GradingError(f"learner {learner!r}: not on the class list, so there is no room")
        return self.folder / "rooms" / learner / part

    def prepare(self, learner: str) -> None:
        """Make a learner's room where it is not there."""
        self.outbound.mkdir(parents=True, exist_ok=True)
        for part in ("work", "inbound", "feedback"):
            self.room(learner, part).mkdir(parents=True, exist_ok=True)

    def hand_out(self, lab: str | int) -> Path:
        """Lay the learners' version of a lab where every room sees it.

        Raises
        ------
        GradingError
            When it has not been released.
        """
        name = lab_name(lab)
        source = self.course.release / name
        if not (source / f"{name}.ipynb").is_file():
            raise GradingError(
                f"{name}: not in {self.course.release}; run `twostroke release {name[3:]}` first"
            )
        part, target = self.outbound / f".{name}.part", self.outbound / name
        shutil.rmtree(part, ignore_errors=True)
        shutil.copytree(source, part)
        shutil.rmtree(target, ignore_errors=True)
        os.replace(part, target)
        return target

    def collect(self, lab: str | int) -> Collected:
        """Copy each learner's last hand-in of a lab to ``collected/LAB``, ready for `grade`.

        When it was handed in is told by the file system's clock, not by what the learner's programs wrote.
        """
        name = lab_name(lab)
        found = Collected(self.folder / "collected" / name)
        for learner in self.learners():
            inbound = self.room(learner, "inbound")
            last = max(_hand_ins(inbound, name), key=lambda each: each.changed, default=None)
            if last is None:
                found.without.append(learner)
                continue
            data = _read(inbound, last.folder, f"{name}.ipynb", LARGEST_FILE)
            if data is None:
                found.refused.append(learner)
                continue
            target = found.folder / learner / name
            write_bytes(target / f"{name}.ipynb", data)
            write_bytes(target / "timestamp.txt", f"{last.changed:%Y-%m-%d %H:%M:%S.%f} UTC".encode())
            found.learners.append(learner)
        return found

    def hand_back(self, lab: str | int) -> list[str]:
        """Lay each learner's feedback page of a lab where the learner's own server finds it.

        Returns
        -------
        list of str
            Learners who got a page.
        """
        name = lab_name(lab)
        done = []
        for learner in self.learners():
            page = self.course.feedback / learner / name / f"{name}.html"
            inbound = self.room(learner, "inbound")
            last = max(_hand_ins(inbound, name), key=lambda each: each.changed, default=None)
            if last is None or not page.is_file():
                continue
            secret = _read(inbound, last.folder, "submission_secret.txt", _SECRET_BYTES)
            if secret is None:
                continue
            key = notebook_hash(secret=secret.decode("utf-8", "replace"), notebook_id=name)
            write_bytes(self.room(learner, "feedback") / f"{key}.html", page.read_bytes())
            done.append(learner)
        return done


@dataclass
class Collected:
    """What was collected.

    Parameters
    ----------
    folder : Path
        Give this to `grade`.
    learners : list of str
        Whose work is there.
    without : list of str
        Those who handed nothing in.
    refused : list of str
        Those whose hand-in is a link, too large or without the lab's notebook.
    """

    folder: Path
    learners: list[str] = field(default_factory=list)
    without: list[str] = field(default_factory=list)
    refused: list[str] = field(default_factory=list)


@dataclass(frozen=True)
class _HandIn:
    folder: str
    changed: datetime


def _hand_ins(inbound: Path, lab: str) -> list[_HandIn]:
    """Folders that nbgrader's submit made for a lab; the notebook's change time says when."""
    found = []
    with contextlib.suppress(OSError), os.scandir(inbound) as entries:
        for number, entry in enumerate(entries):
            if number >= _MOST_HAND_INS:
                break
            parts = entry.name.split("+")
            if len(parts) >= 3 and parts[1] == lab and entry.is_dir(follow_symlinks=False):
                with _opened(inbound, entry.name) as folder:
                    if folder is None:
                        continue
                    changed = os.stat(folder).st_ctime
                    with contextlib.suppress(OSError):
                        changed = os.stat(f"{lab}.ipynb", dir_fd=folder, follow_symlinks=False).st_ctime
                    found.append(_HandIn(entry.name, datetime.fromtimestamp(changed, UTC)))
    return found


@contextlib.contextmanager
def _opened(inbound: Path, name: str) -> Iterator[int | None]:
    """A hand-in's folder by handle, so that it cannot be exchanged for a link meanwhile."""
    try:
        handle = os.open(inbound / name, os.O_RDONLY | os.O_DIRECTORY | os.O_NOFOLLOW)
    except OSError:
        yield None
        return
    try:
        yield handle
    finally:
        os.close(handle)


def _read(inbound: Path, name: str, file: str, most: int) -> bytes | None:
    """Return a plain file of a hand-in; None for a link, a pipe, too much, or nothing."""
    with _opened(inbound, name) as folder:
        if folder is None:
            return None
        try:
            handle = os.open(file, os.O_RDONLY | os.O_NOFOLLOW | os.O_NONBLOCK, dir_fd=folder)
        except OSError:
            return None
        with open(handle, "rb") as stream:
            told = os.fstat(handle)
            if not stat.S_ISREG(told.st_mode) or told.st_nlink != 1 or told.st_size > most:
                return None
            data = stream.read(most + 1)
            return data if len(data) <= most else None
