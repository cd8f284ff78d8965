"""Files out of a folder or an archive, trusting neither: nothing is written, no link is followed."""

from __future__ import annotations

import io
import os
import stat
import zipfile
import zlib
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import UTC, datetime
from pathlib import Path, PurePosixPath
from typing import BinaryIO

from twostroke.grading.shelf import NOTHING, Content, put_aside
from twostroke.grading.states import Cause, GradingError, Reason

LARGEST_FILE = 64 * 2**20
"""Largest accepted notebook in bytes; one with very long outputs is about 50 MB."""
LARGEST_ARCHIVE = 4 * 2**30
MOST_FILES = 50_000
DEEPEST = 3
STEEPEST = 200
"""Largest accepted ratio of unpacked to packed size for files above a megabyte."""
_SKIPPED = {"__MACOSX", ".ipynb_checkpoints", "__pycache__", ".git"}


@dataclass(frozen=True)
class RawFile:
    """One file as found.

    Parameters
    ----------
    parts : tuple of str
        Folders and name; an archive counts as a folder.
    content : Content
        Empty where there is a cause.
    cause : Cause or None
        Why it cannot be used.
    changed : datetime or None
        When it was last written, as far as the place tells.
    """

    parts: tuple[str, ...]
    content: Content = NOTHING
    cause: Cause | None = None
    changed: datetime | None = field(default=None, compare=False)

    @property
    def data(self) -> bytes:
        """Content, read again."""
        return self.content.read()

    @property
    def name(self) -> str:
        """Name without folders."""
        return self.parts[-1]

    @property
    def place(self) -> str:
        """Place as text."""
        return "/".join(self.parts)


def _unsafe(detail: str) -> Cause:
    return Cause(reason=Reason.UNSAFE, detail=detail)


def _wanted(parts: tuple[str, ...]) -> bool:
    return not any(part in _SKIPPED or part.startswith("._") for part in parts)


def read_files(path: Path) -> Iterator[RawFile]:
    """Go through the files of a folder, an archive or a single notebook.

    Parameters
    ----------
    path : Path
        Folder, ``.zip`` or ``.ipynb``.

    Yields
    ------
    RawFile
        Each file with its content, or with the cause why it is not usable.

    Raises
    ------
    GradingError
        When the path is none of these.
    """
    if path.is_dir():
        yield from _folder(path)
    elif path.is_file() and path.suffix.lower() == ".zip":
        yield from _archive(path, (), 0)
    elif path.is_file() and path.suffix.lower() == ".ipynb":
        yield _plain(path, (path.name,))
    else:
        raise GradingError(f"{path}: give a folder, a .zip or a .ipynb file that exists")


def _folder(root: Path) -> Iterator[RawFile]:
    count = 0
    for folder, folders, names in os.walk(root, followlinks=False):
        here = Path(folder)
        folders.sort()
        for name in [*folders]:
            if (here / name).is_symlink():
                folders.remove(name)
                yield RawFile(
                    (*here.relative_to(root).parts, name), cause=_unsafe("a link to a folder; not followed")
                )
        for name in sorted(names):
            parts = (*here.relative_to(root).parts, name)
            if not _wanted(parts):
                continue
            count += 1
            if count > MOST_FILES:
                raise GradingError(
                    f"{root}: more than {MOST_FILES} files; give the folder of one lab's submissions"
                )
            if name.lower().endswith(".zip"):
                yield from _archive_file(here / name, parts)
            else:
                yield _plain(here / name, parts)


def _archive_file(path: Path, parts: tuple[str, ...]) -> Iterator[RawFile]:
    opened = _open(path, parts)
    if isinstance(opened, RawFile):
        yield opened
        return
    with opened:
        yield from _archive(opened, parts, 1)


def _plain(path: Path, parts: tuple[str, ...]) -> RawFile:
    opened = _open(path, parts)
    if isinstance(opened, RawFile):
        return opened
    with opened:
        changed = datetime.fromtimestamp(os.fstat(opened.fileno()).st_mtime, UTC)
        return RawFile(parts, put_aside(opened.read(LARGEST_FILE + 1)), changed=changed)


def _open(path: Path, parts: tuple[str, ...]) -> BinaryIO | RawFile:
    """Open an ordinary file of an allowed size, or say why not; no link is followed, no pipe waited for."""
    try:
        handle = os.open(path, os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0))
    except OSError as error:
        link = path.is_symlink()
        return RawFile(
            parts,
            cause=_unsafe("a link, not a file; not followed")
            if link
            else Cause(reason=Reason.CORRUPT, detail=f"cannot be opened ({error.strerror})"),
        )
    info = os.fstat(handle)
    limit = LARGEST_ARCHIVE if path.suffix.lower() == ".zip" else LARGEST_FILE
    cause = None
    if not stat.S_ISREG(info.st_mode):
        cause = _unsafe("not an ordinary file")
    elif info.st_size > limit:
        cause = _large(info.st_size, limit)
    if cause is not None:
        os.close(handle)
        return RawFile(parts, cause=cause)
    return os.fdopen(handle, "rb")


def _large(size: int, limit: int) -> Cause:
    return Cause(reason=Reason.TOO_LARGE, detail=f"{size / 2**20:.0f} MB; {limit / 2**20:.0f} MB at most")


def _archive(source: Path | BinaryIO, parts: tuple[str, ...], depth: int) -> Iterator[RawFile]:
    if depth > DEEPEST:
        yield RawFile(parts, cause=_unsafe("archives inside archives inside archives"))
        return
    size = source.stat().st_size if isinstance(source, Path) else source.seek(0, os.SEEK_END)
    if not size:
        yield RawFile(parts, cause=Cause(reason=Reason.EMPTY, detail="an archive of no bytes"))
        return
    try:
        archive = zipfile.ZipFile(source)
    except (zipfile.BadZipFile, ValueError, NotImplementedError, OSError):
        yield RawFile(parts, cause=Cause(reason=Reason.CORRUPT, detail="not a readable zip archive"))
        return
    total = 0
    with archive:
        entries = archive.infolist()
        if len(entries) > MOST_FILES:
            yield RawFile(parts, cause=_unsafe(f"{len(entries)} entries; {MOST_FILES} at most"))
            return
        for entry in entries:
            inside = PurePosixPath(entry.filename.replace("\\", "/"))
            if entry.is_dir() or not _wanted(inside.parts):
                continue
            here = (*parts, *(part for part in inside.parts if part not in ("/", "..", ".")))
            cause = _suspect(entry, inside)
            total += entry.file_size
            if total > LARGEST_ARCHIVE:
                yield RawFile(parts, cause=_unsafe("unpacks to more than 4 GB"))
                return
            if cause is not None:
                yield RawFile(here, cause=cause)
                continue
            raw = _entry(archive, entry, here)
            if raw.cause is None and inside.suffix.lower() == ".zip":
                yield from _archive(io.BytesIO(raw.data), here, depth + 1)
            else:
                yield raw


def _suspect(entry: zipfile.ZipInfo, inside: PurePosixPath) -> Cause | None:
    mode = entry.external_attr >> 16
    if inside.is_absolute() or ".." in inside.parts or (inside.parts and ":" in inside.parts[0]):
        return _unsafe(f"the archive wants to write to {entry.filename[:80]!r}, outside its own folder")
    if mode and stat.S_IFMT(mode) not in (0, stat.S_IFREG):
        return _unsafe("a link or device inside the archive; not followed")
    if entry.flag_bits & 1:
        return Cause(reason=Reason.CORRUPT, detail="locked with a password; ask for it without one")
    if entry.file_size > LARGEST_FILE:
        return _large(entry.file_size, LARGEST_FILE)
    if entry.file_size > 2**20 and entry.file_size > STEEPEST * max(1, entry.compress_size):
        return _unsafe(f"unpacks to {entry.file_size // max(1, entry.compress_size)} times its size")
    return None


def _entry(archive: zipfile.ZipFile, entry: zipfile.ZipInfo, here: tuple[str, ...]) -> RawFile:
    try:
        with archive.open(entry) as stream:
            data = stream.read(LARGEST_FILE + 1)
    except (zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, RuntimeError, OSError, ValueError):
        return RawFile(here, cause=Cause(reason=Reason.CORRUPT, detail="damaged inside the archive"))
    if len(data) > LARGEST_FILE:
        return RawFile(here, cause=_unsafe("larger than the archive says"))
    try:
        changed = datetime(*entry.date_time, tzinfo=UTC)
    except ValueError:
        changed = None
    return RawFile(here, put_aside(data), changed=changed)
