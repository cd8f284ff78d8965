"""Removing a person from everything a class keeps, and looking whether anything is left.

Gradebook, backups, hand-ins, marked notebooks, feedback, journals, records, class list, exports, logs of the
examination's service: each place is cleared in its own way, and everybody else's results stay as they are.
Then every file is searched once more, from the beginning, for every spelling.
"""

from __future__ import annotations

import contextlib
import shutil
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from twostroke import workspace
from twostroke.grading.erase import remove, server
from twostroke.grading.erase.search import How, Search, Trace
from twostroke.grading.erase.spellings import Spellings
from twostroke.grading.journal import only_one
from twostroke.grading.place import Course
from twostroke.grading.pseudonyms import KEY_FILE, Pseudonyms
from twostroke.grading.record.people import RECORDS, Person, find
from twostroke.grading.states import GradingError

__all__ = ["Erased", "How", "Spellings", "Trace", "erase"]


@dataclass(frozen=True)
class Erased:
    """What erasing a person found, did, and left.

    Parameters
    ----------
    person : Person
    spellings : tuple of str
        What was searched for; each in every way in which it can be written.
    short : tuple of str
        Spellings too short to be told from other words: looked for as whole values only.
    traces : tuple of Trace
        Every place, with what was done about it, or would be.
    left : tuple of str
        What the search afterwards still found; empty where nothing is left.
    files, databases, size : int
        What was searched afterwards: number of files, of databases among them, and bytes.
    dry_run : bool
        Whether nothing was changed.
    """

    person: Person
    spellings: tuple[str, ...]
    short: tuple[str, ...]
    traces: tuple[Trace, ...]
    left: tuple[str, ...]
    files: int
    databases: int
    size: int
    dry_run: bool


def erase(
    learner: str,
    *,
    course: Course | None = None,
    also: Sequence[str | Path] = (),
    workspaces: Sequence[str | Path] = (),
    further_names: Sequence[str] = (),
    dry_run: bool = True,
) -> Erased:
    """Remove a person from everything a class keeps, and search for what is left.

    Parameters
    ----------
    learner : str
        Any name of the person.
    course : Course, optional
        Without it, this repository and its ``autograde`` folder.
    also : sequence of path, optional
        Further folders or files to clear and to search: downloads, exports elsewhere.
    workspaces : sequence of path, optional
        Course folders that are this person's own; they are removed whole.
    further_names : sequence of str, optional
        Names by which the class list does not know them.
    dry_run : bool
        Only look; the default, so that nothing is lost by a slip.

    Returns
    -------
    Erased

    Raises
    ------
    GradingError
        When nobody is called so, another run is writing, a folder is not there, or a place cannot be
        cleared. What was cleared until then stays cleared; the next run goes on.
    """
    course = course or Course.at()
    person = _person(course, learner, further_names)
    names = [person.id, person.name, *person.also, *further_names]
    if (course.home / KEY_FILE).is_file():
        names.append(Pseudonyms.of(course)(person.id))
    spellings = Spellings(names)
    owned = [_workspace(path) for path in workspaces]
    search = Search(course, spellings, [*_gradebook_file(course), *(_there(path) for path in also)])
    with contextlib.nullcontext() if dry_run else only_one(course):
        traces = [Trace(path, How.REMOVE, "the person's own workspace") for path in owned]
        traces += sorted(search.traces(), key=lambda trace: _last(course, trace))
        on_server = not course.db_url.startswith("sqlite:")
        if on_server:
            fields = server.look(course, spellings)
            if fields:
                traces.append(Trace(Path("gradebook on its server"), How.ROWS, f"fields: {len(fields)}"))
        left: tuple[str, ...] = ()
        if not dry_run:
            _clear(course, person, spellings, traces, owned)
            left = tuple(f"{trace.path}: {trace.what}" for trace in search.traces())
            if on_server:
                left += tuple(server.look(course, spellings))
    return Erased(
        person, spellings.names, spellings.short, tuple(traces), left,
        search.files, search.databases, search.size, dry_run,
    )  # fmt: skip


def _last(course: Course, trace: Trace) -> int:
    """What tells the person's names goes last, so that a run that was cut off can be finished."""
    return 2 if trace.how is How.LIST else 1 if trace.path.is_relative_to(course.home / RECORDS) else 0


def _clear(
    course: Course, person: Person, spellings: Spellings, traces: Sequence[Trace], owned: Sequence[Path]
) -> None:
    for trace in traces:
        if trace.path in owned:
            shutil.rmtree(trace.path)
        elif trace.path.is_absolute():
            remove.clear(course, trace, spellings)
        else:
            server.take_out(course, person.id, spellings)


def _person(course: Course, learner: str, further_names: Sequence[str]) -> Person:
    """Somebody the class knows; or one it no longer knows, so that a run that was cut off can be finished."""
    try:
        return find(course, learner)
    except GradingError:
        if not further_names:
            raise GradingError(
                f"{learner[:60]!r}: nobody of that name is known here. To search for leftovers all the same, "
                "give every spelling with --name"
            ) from None
        return Person(learner, learner)


def _there(path: str | Path) -> Path:
    place = Path(path).expanduser().resolve()
    if not place.exists():
        raise GradingError(f"{place}: is not there; check the name of the folder")
    return place


def _workspace(path: str | Path) -> Path:
    place = _there(path)
    if workspace.find(place) != place:
        raise GradingError(f"{place}: is no workspace (made by `twostroke open`); nothing was removed")
    return place


def _gradebook_file(course: Course) -> list[Path]:
    """The gradebook where it is a file outside the folder of the class."""
    if not course.db_url.startswith("sqlite:///"):
        return []
    file = Path(course.db_url.removeprefix("sqlite:///"))
    return [] if file.is_relative_to(course.home) or not file.is_file() else [file]
