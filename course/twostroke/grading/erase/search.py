"""Where a person stands in the files of a class, and how each place is cleared."""

from __future__ import annotations

import hashlib
import io
import logging
import os
import zipfile
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path

from twostroke.grading.erase import database
from twostroke.grading.erase.spellings import Spellings
from twostroke.grading.place import Course
from twostroke.grading.pseudonyms import KEY_FILE as PSEUDONYM_KEY
from twostroke.grading.record.people import RECORDS
from twostroke.grading.record.seal import KEY_FILE as RECORD_KEY
from twostroke.lab.draw import fold as exam_fold

_KEYS = {PSEUDONYM_KEY, RECORD_KEY}
_LINES = {".csv", ".tsv", ".txt", ".log", ".md"}
_MOST_ATTEMPTS = 99
EXAMINATION = "examination"


class How(StrEnum):
    """What is done about a place."""

    REMOVE = "removed"
    ROWS = "rows deleted"
    LINES = "lines taken out"
    LIST = "taken off the class list"
    BLANK = "name blanked"
    REPACK = "packed anew without it"
    LEFT = "left: a person must look"


@dataclass(frozen=True)
class Trace:
    """One place.

    Parameters
    ----------
    path : Path
    how : How
    what : str
        What stands there, in words.
    """

    path: Path
    how: How
    what: str


class Search:
    """Looks through all files of a class and of further folders.

    Parameters
    ----------
    course : Course
    spellings : Spellings
    further : sequence of Path
        Folders or files besides the folder of the class.
    """

    def __init__(self, course: Course, spellings: Spellings, further: Sequence[Path] = ()):
        self.course, self.spellings = course, spellings
        self.roots = [course.home, *(path for path in further if path != course.home)]
        self.files = self.databases = self.size = 0
        self._logs = _examination_logs(spellings)

    def traces(self) -> list[Trace]:
        """Return every place where the person stands, looking anew."""
        self.files = self.databases = self.size = 0
        found: list[Trace] = []
        for root in self.roots:
            found += self._walk(root) if root.is_dir() else self._file(root) if root.is_file() else []
        return found

    def _walk(self, folder: Path) -> Iterator[Trace]:
        with os.scandir(folder) as entries:
            listed = sorted(entries, key=lambda entry: entry.name)
        for entry in listed:
            path = Path(entry.path)
            if entry.is_symlink():
                if self.spellings.named(entry.name) or self.spellings.within(os.readlink(path)):
                    yield Trace(path, How.REMOVE, "link")
            elif entry.is_dir():
                if self.spellings.named(entry.name):
                    count = sum(len(files) for _, _, files in os.walk(path))
                    yield Trace(path, How.REMOVE, f"folder, files in it: {count}")
                else:
                    yield from self._walk(path)
            elif entry.is_file():
                yield from self._file(path)

    def _file(self, path: Path) -> Iterator[Trace]:
        if path.name in _KEYS:
            return
        self.files += 1
        self.size += path.stat().st_size
        if self.spellings.named(path.name):
            yield Trace(path, How.REMOVE, "file")
        elif path.parent.parent.name == EXAMINATION and path.stem in self._logs:
            yield Trace(path, How.REMOVE, "log of the examination's service")
        elif database.is_database(path):
            self.databases += 1
            yield from self._database(path)
        elif not path.name.endswith(database.BESIDE):
            yield from self._content(path)

    def _database(self, path: Path) -> Iterator[Trace]:
        rows = database.look(path, self.spellings)
        if rows:
            yield Trace(path, How.ROWS, rows.words)
            return
        if database.has_residue(path, lambda data: count_in_bytes(data, self.spellings)):
            yield Trace(path, How.ROWS, "remains in free pages")

    def _content(self, path: Path) -> Iterator[Trace]:
        data = path.read_bytes()
        kind = path.suffix.lower()
        if data.startswith(b"PK\x03\x04"):
            count = _members(data, self.spellings)
            if count:
                how = How.REMOVE if path.is_relative_to(self.course.reports) else How.REPACK
                yield Trace(path, how, f"files in the archive: {count}")
            return
        if data.startswith(b"%PDF"):
            if not self.spellings.within(_pdf_words(data)) and not count_in_bytes(data, self.spellings):
                return
            yield Trace(path, self._whole_file(path), "words of a PDF")
            return
        text = decoded(data)
        if text is None:
            if count_in_bytes(data, self.spellings):
                yield Trace(path, How.LEFT, "in a file that is no text")
            return
        found = self.spellings.found(text)
        if not found:
            return
        yield Trace(path, self._how(path, kind), ", ".join(repr(each) for each in found[:3]))

    def _whole_file(self, path: Path) -> How:
        """A report is taken away whole, for it can be made again; nothing else is."""
        return How.REMOVE if path.is_relative_to(self.course.reports) else How.LEFT

    def _how(self, path: Path, kind: str) -> How:
        if path == self.course.home / "class.toml":
            return How.LIST
        if path.is_relative_to(self.course.reports):
            return How.REMOVE
        if path.is_relative_to(self.course.home / RECORDS):
            return How.LEFT
        if path.is_relative_to(self.course.home / EXAMINATION / "logs"):
            return How.LEFT
        return How.LINES if kind == ".jsonl" or kind in _LINES else How.BLANK


def _examination_logs(spellings: Spellings) -> set[str]:
    """Names of the logs of the examination's service: hashes of the person's name and attempt."""
    names = {exam_fold(name) for name in spellings.names}
    return {
        hashlib.sha256(f"{name}\x1f{attempt}".encode()).hexdigest()[:32]
        for name in names
        for attempt in range(1, _MOST_ATTEMPTS + 1)
    }


def decoded(data: bytes) -> str | None:
    """Return the text of a file, or None where it is none."""
    for mark, name in ((b"\xff\xfe", "utf-16"), (b"\xfe\xff", "utf-16")):
        if data.startswith(mark):
            return data.decode(name, "replace")
    if b"\0" in data[:8192]:
        return None
    return data.decode("utf-8", "surrogateescape")


def count_in_bytes(data: bytes, spellings: Spellings) -> int:
    """How often a name stands in bytes that are no text, in the usual codes."""
    codes = ("latin-1", "utf-8", "utf-16-le", "utf-16-be")
    return sum(spellings.count(data.decode(code, "ignore")) for code in codes)


def _pdf_words(data: bytes) -> str:
    from pypdf import PdfReader

    logging.getLogger("pypdf").setLevel(logging.CRITICAL)
    try:
        reader = PdfReader(io.BytesIO(data))
        inside = [held.decode("utf-8", "replace") for each in reader.attachments.values() for held in each]
        return "\n".join([*(page.extract_text() for page in reader.pages), *inside, str(reader.metadata)])
    except Exception:  # a spoilt file can fail the reader in any way
        return data.decode("latin-1")


def is_hit(info: zipfile.ZipInfo, archive: zipfile.ZipFile, spellings: Spellings) -> bool:
    """Whether a file in an archive speaks of the person, by its name or by what is in it."""
    if any(spellings.named(part) for part in info.filename.split("/")):
        return True
    try:
        data = archive.read(info)
    except (RuntimeError, zipfile.BadZipFile, OSError, ValueError):
        return False
    text = decoded(data)
    return spellings.within(text) if text is not None else count_in_bytes(data, spellings) > 0


def _members(data: bytes, spellings: Spellings) -> int:
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            return sum(is_hit(info, archive, spellings) for info in archive.infolist())
    except (zipfile.BadZipFile, ValueError, OSError):
        return int(count_in_bytes(data, spellings) > 0)
