"""The learner's own folder: lessons and labs laid out, renewed with each release, and never overwritten.

What was laid is recorded by its hash. A file that still has that hash is untouched and may be renewed; any
other file belongs to the learner, and a newer one is laid beside it. A notebook that was run but not
written in counts as untouched.
"""

from __future__ import annotations

import hashlib
import json
import os
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from twostroke import resources
from twostroke.errors import TwoStrokeError

HIDDEN = ".two-stroke"
_RECORD = "laid.json"
START = "lessons/00_start_here.ipynb"


class WorkspaceError(TwoStrokeError):
    """A workspace cannot be made or used where it was asked for."""


@dataclass
class Laid:
    """What `lay_out` did, file by file (paths relative to the workspace)."""

    folder: Path
    new: list[str] = field(default_factory=list)
    renewed: list[str] = field(default_factory=list)
    beside: list[tuple[str, str]] = field(default_factory=list)
    unchanged: int = 0

    def sentences(self) -> list[str]:
        """The same in words, for the screen."""
        said = []
        if self.new:
            said.append(f"new files laid out: {len(self.new)}")
        if self.renewed:
            said.append(f"files renewed, which you had not touched: {len(self.renewed)}")
        said += [
            f"{old} is yours and stays as it is; the newer release lies beside it as {Path(newer).name}"
            for old, newer in self.beside
        ]
        return said or ["nothing to renew"]


def default_folder() -> Path:
    """``two-stroke-course`` in the home folder."""
    return Path.home() / "two-stroke-course"


def find(start: str | Path | None = None) -> Path | None:
    """The workspace that a folder lies in.

    Parameters
    ----------
    start : path, optional
        Where to begin; default the current folder. The environment variable TWOSTROKE_WORKSPACE goes first.

    Returns
    -------
    Path or None
        None outside any workspace.
    """
    named = os.environ.get("TWOSTROKE_WORKSPACE")
    if named and start is None:
        return Path(named)
    place = Path(start or Path.cwd()).resolve()
    return next((folder for folder in (place, *place.parents) if (folder / HIDDEN / _RECORD).is_file()), None)


def lay_out(folder: str | Path | None = None) -> Laid:
    """Make a workspace, or bring an existing one up to date.

    Parameters
    ----------
    folder : path, optional
        Default: `default_folder`.

    Returns
    -------
    Laid
        What was new, renewed, laid beside, unchanged.

    Raises
    ------
    WorkspaceError
        Inside a clone of the course, on a file, or where nothing can be written.
    """
    place = _checked(Path(folder).expanduser() if folder is not None else default_folder())
    try:
        (place / HIDDEN).mkdir(parents=True, exist_ok=True)
        return _lay(place)
    except OSError as error:
        raise WorkspaceError(
            f"cannot write the workspace {place}: {error.strerror or error}; "
            "give another folder, such as `twostroke open ~/two-stroke-course`, or free some room"
        ) from error


def _checked(folder: Path) -> Path:
    place = folder.resolve()
    if place.exists() and not place.is_dir():
        raise WorkspaceError(f"{place} is a file: give a folder for the workspace")
    for parent in (place, *place.parents):
        if resources.is_clone(parent):
            raise WorkspaceError(
                f"{place} lies inside the course itself ({parent}): work there would be lost with the next "
                "release; give a folder outside it, or none for two-stroke-course in your home folder"
            )
    return place


def _files() -> Iterator[tuple[str, Path]]:
    """Everything a learner gets: the name in the workspace and where it comes from."""
    for source in sorted(resources.lessons().glob("*.ipynb")):
        yield f"lessons/{source.name}", source
    for source in sorted((resources.assets() / "cards").glob("*.pdf")):
        yield f"cards/{source.name}", source
    labs = resources.release()
    for source in sorted(labs.rglob("*")):
        if source.is_file() and not any(part.startswith(".") for part in source.relative_to(labs).parts):
            yield f"labs/{source.relative_to(labs).as_posix()}", source


def _lay(place: Path) -> Laid:
    record = place / HIDDEN / _RECORD
    known = _read_record(record)
    laid = Laid(place)
    for name, source in _files():
        content = source.read_bytes()
        now, then = _hash(content), known.get(name)
        target = place / name
        if not target.exists():
            _write(target, content)
            laid.new.append(name)
        else:
            held = _hash(target.read_bytes())
            if held == now:
                laid.unchanged += 1
            elif held == then:
                _write(target, content)
                laid.renewed.append(name)
            elif now == then:
                laid.unchanged += 1
            else:
                laid.beside.append((name, _beside(place, name, content, known)))
        known[name] = now
    _write(record, json.dumps(known, indent=1, sort_keys=True).encode("utf-8"))
    return laid


def _beside(place: Path, name: str, content: bytes, known: dict[str, str]) -> str:
    """Lay a newer file beside the learner's, under a name that is free or still untouched."""
    stem, dot, ending = name.rpartition(".")
    for number in range(1, 1000):
        mark = ".newer" if number == 1 else f".newer-{number}"
        newer = f"{stem}{mark}{dot}{ending}"
        target = place / newer
        if not target.exists() or _hash(target.read_bytes()) in (known.get(newer), _hash(content)):
            _write(target, content)
            known[newer] = _hash(content)
            return newer
    raise WorkspaceError(
        f"{name} has a thousand newer copies beside it: move them away and open the course again"
    )


def _hash(content: bytes) -> str:
    """What somebody wrote in a file; of a notebook only its cells, for running it writes outputs unasked."""
    try:
        cells = json.loads(content)["cells"]
        written = json.dumps([[cell["cell_type"], "".join(cell["source"])] for cell in cells]).encode("utf-8")
    except (ValueError, TypeError, KeyError):
        written = content
    return hashlib.sha256(written).hexdigest()


def _read_record(record: Path) -> dict[str, str]:
    """What was laid before; a record that cannot be read means that every file is the learner's."""
    try:
        known = json.loads(record.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    return {str(name): str(mark) for name, mark in known.items()} if isinstance(known, dict) else {}


def _write(target: Path, content: bytes) -> None:
    """Write whole or not at all."""
    target.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(dir=target.parent, prefix=".laying-")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
        Path(name).chmod(0o644)
        os.replace(name, target)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise
