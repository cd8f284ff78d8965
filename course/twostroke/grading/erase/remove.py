"""Clearing one place of a person, whatever kind of place it is."""

from __future__ import annotations

import hashlib
import io
import json
import os
import shutil
import tomllib
import zipfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

from twostroke.grading.classlist import read_class
from twostroke.grading.erase import database
from twostroke.grading.erase.search import How, Trace, decoded, is_hit
from twostroke.grading.erase.spellings import Spellings
from twostroke.grading.files import write_bytes
from twostroke.grading.place import Course
from twostroke.grading.states import GradingError

_WHO = ("learner", "student", "user", "person", "id", "who")


def clear(course: Course, trace: Trace, spellings: Spellings) -> None:
    """Do what a trace says is to be done.

    Parameters
    ----------
    course : Course
    trace : Trace
    spellings : Spellings

    Raises
    ------
    GradingError
        When the place cannot be cleared.
    """
    path = trace.path
    work: dict[How, Callable[[], Any]] = {
        How.REMOVE: lambda: _remove(path),
        How.ROWS: lambda: database.take_out(path, spellings),
        How.LIST: lambda: _off_the_list(path, spellings),
        How.LINES: lambda: _lines(path, spellings),
        How.BLANK: lambda: _blank(course, path, spellings),
        How.REPACK: lambda: _repack(path, spellings),
        How.LEFT: lambda: None,
    }
    try:
        work[trace.how]()
    except OSError as error:
        raise GradingError(
            f"{path}: cannot be changed ({error.strerror or error}); mend that and run the command again: it "
            "goes on with what is left"
        ) from None


def _remove(path: Path) -> None:
    if path.is_dir() and not path.is_symlink():
        shutil.rmtree(path)
    else:
        path.unlink(missing_ok=True)


def _write(path: Path, text: str) -> None:
    before = path.stat()
    write_bytes(path, text.encode("utf-8", "surrogateescape"))
    os.chmod(path, before.st_mode & 0o7777)
    os.utime(path, ns=(before.st_atime_ns, before.st_mtime_ns))


def _read(path: Path) -> str:
    text = decoded(path.read_bytes())
    assert text is not None
    return text


def _off_the_list(path: Path, spellings: Spellings) -> None:
    """Take the person's part out of the class list; everything else stays as it is written."""
    before = read_class(path)
    parts: list[list[str]] = [[]]
    for line in _read(path).splitlines(keepends=True):
        if line.lstrip().startswith("["):
            parts.append([])
        parts[-1].append(line)
    kept = "".join("".join(part) for part in parts if not _is_person(part, spellings))
    text = spellings.blank(kept)
    left = [each.id for each in before.learner if not spellings.is_all(each.id)]
    try:
        now = [each["id"] for each in tomllib.loads(text).get("learner", [])]
    except tomllib.TOMLDecodeError:
        now = []
    if now != left:
        raise GradingError(f"{path}: write it with one [[learner]] part a person; nothing in it was changed")
    _write(path, text)


def _is_person(part: list[str], spellings: Spellings) -> bool:
    if not part or not part[0].lstrip().startswith("[[learner]]"):
        return False
    try:
        (learner,) = tomllib.loads("".join(part))["learner"]
    except (tomllib.TOMLDecodeError, ValueError, KeyError):
        return False
    return spellings.is_all(str(learner.get("id", "")))


def _lines(path: Path, spellings: Spellings) -> None:
    """Take out lines about the person; in JSON lines about somebody else only the name is blanked."""
    kept: list[str] = []
    for line in _read(path).splitlines(keepends=True):
        if not spellings.within(line):
            kept.append(line)
        elif path.suffix.lower() == ".jsonl" and not _is_about(line, spellings):
            kept.append(spellings.blank(line))
    if path.suffix.lower() == ".jsonl":
        kept = _numbered(kept)
    _write(path, "".join(kept))


def _is_about(line: str, spellings: Spellings) -> bool:
    try:
        held = json.loads(line)
    except ValueError:
        return True
    if not isinstance(held, dict):
        return False
    return any(isinstance(held.get(key), str) and spellings.is_all(held[key]) for key in _WHO[:-1])


def _numbered(lines: list[str]) -> list[str]:
    """Lines that count themselves from 1 go on doing so, and what refers to a number follows."""
    try:
        held = [json.loads(line) for line in lines]
    except ValueError:
        return lines
    if not held or not all(isinstance(each, dict) and isinstance(each.get("number"), int) for each in held):
        return lines
    new = {each["number"]: place for place, each in enumerate(held, start=1)}
    made = []
    for each in held:
        each["number"] = new[each["number"]]
        if isinstance(each.get("undoes"), int):
            each["undoes"] = new.get(each["undoes"])
        made.append(json.dumps(each, ensure_ascii=False, separators=(",", ":")) + "\n")
    return made


def _blank(course: Course, path: Path, spellings: Spellings) -> None:
    """Blank the name in a text of somebody else; a hand-in keeps its state although its bytes change."""
    before = path.read_bytes()
    text = _read(path)
    if path.suffix.lower() == ".json":
        text = _pruned(text, spellings)
    _write(path, spellings.blank(text))
    if path.is_relative_to(course.submitted):
        _same_state(course, path, before)


def _pruned(text: str, spellings: Spellings) -> str:
    """Take whole entries about the person out of JSON."""
    try:
        held = json.loads(text)
    except ValueError:
        return text
    pruned = _prune(held, spellings)
    return text if pruned == held else json.dumps(pruned, ensure_ascii=False, indent=1)


def _prune(value: Any, spellings: Spellings) -> Any:
    if isinstance(value, dict):
        return {key: _prune(each, spellings) for key, each in value.items() if not spellings.is_all(key)}
    if isinstance(value, list):
        return [_prune(each, spellings) for each in value if not _of_person(each, spellings)]
    return value


def _of_person(value: Any, spellings: Spellings) -> bool:
    if isinstance(value, str):
        return spellings.is_all(value)
    return isinstance(value, dict) and any(
        isinstance(value.get(key), str) and spellings.is_all(value[key]) for key in _WHO
    )


def _same_state(course: Course, path: Path, before: bytes) -> None:
    """The journal knows a hand-in by its fingerprint; it gets the new one, or it would be marked again."""
    old = hashlib.sha256(before).hexdigest()
    new = hashlib.sha256(path.read_bytes()).hexdigest()
    for folder in (course.journal, course.home / "attempts"):
        for file in folder.rglob("*.json*") if folder.is_dir() else ():
            text = _read(file)
            if old in text:
                _write(file, text.replace(old, new))


def _repack(path: Path, spellings: Spellings) -> None:
    out = io.BytesIO()
    with zipfile.ZipFile(path) as archive, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as made:
        for info in archive.infolist():
            if not is_hit(info, archive, spellings):
                made.writestr(info, archive.read(info))
    before = path.stat()
    write_bytes(path, out.getvalue())
    os.utime(path, ns=(before.st_atime_ns, before.st_mtime_ns))
