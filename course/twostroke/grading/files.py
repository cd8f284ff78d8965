"""Files that are whole or absent, whatever happens meanwhile."""

from __future__ import annotations

import contextlib
import os
import secrets
from pathlib import Path


def write_bytes(path: Path, data: bytes, *, lasting: bool = True) -> None:
    """Write a file so that whoever reads it sees the old or the new content and nothing between.

    Parameters
    ----------
    path : Path
        Target; its folder is made when it is not there.
    data : bytes
        Content.
    lasting : bool
        Whether to wait until the disk has it; not needed for what the next run would make again.

    Notes
    -----
    A part left behind by a killed run has a fixed name: the next run writes over it, nothing piles up.
    """
    path.parent.mkdir(parents=True, exist_ok=True)
    part = path.with_name(f".{path.name}.part")
    with open(part, "wb") as file:
        file.write(data)
        file.flush()
        if lasting:
            os.fsync(file.fileno())
    os.replace(part, path)


def write_text(path: Path, text: str, *, lasting: bool = True) -> None:
    """Write UTF-8 text in the manner of `write_bytes`."""
    write_bytes(path, text.encode("utf-8"), lasting=lasting)


def write_once(path: Path, data: bytes) -> None:
    """Write a secret, whole at once and readable to its owner only; one that is there already stays.

    Parameters
    ----------
    path : Path
        Target; its folder is made when it is not there.
    data : bytes
        Content. Of two that write at the same time, one wins.
    """
    path.parent.mkdir(parents=True, exist_ok=True)
    part = path.with_name(f".{path.name}.{os.getpid()}.{secrets.token_hex(4)}")
    try:
        with os.fdopen(os.open(part, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        with contextlib.suppress(FileExistsError):
            os.link(part, path)
    finally:
        part.unlink(missing_ok=True)
