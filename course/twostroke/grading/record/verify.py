"""Whether a record is as it was issued, and if not, what was changed."""

from __future__ import annotations

import difflib
import io
import json
import logging
import re
from collections.abc import Iterator
from dataclasses import dataclass
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

from twostroke.grading.place import Course
from twostroke.grading.record import page
from twostroke.grading.record.seal import Key, canonical, check, entries, fingerprint
from twostroke.grading.record.writing import digest, kept_copies
from twostroke.grading.states import GradingError

_MOST = 20_000_000
_SERIAL = re.compile(r"\b\d{8}-[0-9a-f]{8}\b")
_HELD = re.compile(
    rf'<script\b[^>]*\bid="{re.escape(page.ENCLOSED)}"[^>]*>(.*?)</script>', re.DOTALL | re.IGNORECASE
)


@dataclass(frozen=True)
class Verdict:
    """What was found about one file.

    Parameters
    ----------
    file : Path
    serial, who : str
        Number of the record and the person in it, as the file says; empty where it says nothing.
    whole : bool
        Whether it is as issued.
    changes : tuple of str
        What is not.
    sealed_by : str
        Fingerprint of the key; empty where there is no sound seal.
    """

    file: Path
    serial: str
    who: str
    whole: bool
    changes: tuple[str, ...]
    sealed_by: str


def verify(file: str | Path, *, course: Course | None = None, key: str = "") -> Verdict:
    """Say whether a record is as it was issued.

    Parameters
    ----------
    file : path
        PDF, web page or data.
    course : Course, optional
        The class that issued it: its key is known and its kept copies are compared with.
    key : str, optional
        Fingerprint of the issuing shop's key, where another shop issued it.

    Returns
    -------
    Verdict

    Raises
    ------
    GradingError
        When the file cannot be read at all.

    Notes
    -----
    A seal by an unknown key proves nothing, for anybody can seal. Without the kept copy a PDF or a page must
    equal, byte for byte, what the sealed entries print; a page of another version of the printing library
    is then told as such, and the sealed entries themselves still count.
    """
    path = Path(file).expanduser()
    data = _read(path)
    kind = ".pdf" if data.startswith(b"%PDF") else ".json" if data.lstrip()[:1] == b"{" else ".html"
    words = _words(data, kind)
    sealed, trouble = _sealed(data, kind)
    checked = check(sealed) if sealed is not None else None
    serial = _serial(sealed, words)
    kept = None if course is None else _kept(course, serial)
    changes = [trouble] if trouble else []
    if kept is not None:
        changes += _against_kept(sealed, kept["sealed"]) if sealed is not None else []
        reference = kept["sealed"]
    else:
        changes += checked.changes if checked else []
        reference = sealed
    if checked is not None and checked.changes and kept is not None and not changes:
        changes += checked.changes
    if kind != ".json" and reference is not None and (kept is not None or not changes):
        changes += _printed(data, kind, words, reference, kept["files"].get(kind) if kept else None)
    public = checked.key if checked else ""
    changes += _key(public, course, key)
    who = "" if sealed is None else _who(sealed)
    return Verdict(path, serial, who, not changes, tuple(changes), fingerprint(public) if public else "")


def _read(path: Path) -> bytes:
    try:
        if path.stat().st_size > _MOST:
            raise GradingError(f"{path.name}: larger than {_MOST // 1_000_000} MB, so no training record")
        data = path.read_bytes()
    except OSError as error:
        raise GradingError(f"{path}: cannot be read ({error.strerror}); check the name") from None
    if not data.strip():
        raise GradingError(f"{path.name}: the file is empty; ask for it again")
    return data


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    if len({name for name, _ in pairs}) != len(pairs):
        raise ValueError("a name stands twice")
    return dict(pairs)


def _refuse(text: str) -> None:
    raise ValueError(f"{text} is no number")


def _load(text: str | bytes) -> dict[str, Any] | None:
    try:
        found = json.loads(text, object_pairs_hook=_once, parse_constant=_refuse)
    except (ValueError, RecursionError):
        return None
    return found if isinstance(found, dict) else None


def _sealed(data: bytes, kind: str) -> tuple[dict[str, Any] | None, str]:
    """The sealed data inside a file, and what is wrong where there are none."""
    if kind == ".json":
        held: list[str | bytes] = [data]
    elif kind == ".pdf":
        held = list(_attachments(data))
    else:
        held = list(_HELD.findall(data.decode("utf-8", "replace")))
    if len(held) != 1:
        return None, f"{len(held) or 'no'} sealed data inside the file, where there must be one"
    found = _load(held[0])
    return found, "" if found is not None else "the sealed data inside cannot be read"


def _attachments(data: bytes) -> Iterator[bytes]:
    reader = _pdf(data)
    try:
        yield from reader.attachments.get(page.ENCLOSED, [])
    except Exception:  # a spoilt file can fail the reader in any way
        return


def _pdf(data: bytes) -> Any:
    from pypdf import PdfReader

    logging.getLogger("pypdf").setLevel(logging.CRITICAL)
    try:
        return PdfReader(io.BytesIO(data))
    except Exception as error:
        raise GradingError(f"the PDF is damaged ({str(error)[:80]}); ask for it again") from None


class _Visible(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.lines: list[str] = []
        self._hidden = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self._hidden += tag in ("script", "style")

    def handle_endtag(self, tag: str) -> None:
        self._hidden -= tag in ("script", "style") and self._hidden > 0

    def handle_data(self, data: str) -> None:
        if not self._hidden and data.strip():
            self.lines.append(" ".join(data.split()))


def _words(data: bytes, kind: str) -> list[str]:
    """The words that a reader sees, line by line."""
    if kind == ".json":
        return []
    if kind == ".pdf":
        try:
            text = "\n".join(each.extract_text() for each in _pdf(data).pages)
        except GradingError:
            raise
        except Exception:  # a spoilt file can fail the reader in any way
            return []
        lines = (" ".join(line.replace("\u200b", "").split()) for line in text.splitlines())
        return [line for line in lines if line]
    reader = _Visible()
    reader.feed(data.decode("utf-8", "replace"))
    return reader.lines


def _serial(sealed: dict[str, Any] | None, words: list[str]) -> str:
    content = sealed.get("content") if sealed is not None else None
    said = content.get("serial") if isinstance(content, dict) else None
    printed = _SERIAL.findall("\n".join(words))
    candidates = [said] if isinstance(said, str) else printed
    return str(candidates[0]) if candidates else ""


def _who(sealed: dict[str, Any]) -> str:
    try:
        return str(sealed["content"]["person"]["name"])
    except (KeyError, TypeError):
        return ""


def _kept(course: Course, serial: str) -> dict[str, Any] | None:
    copies = kept_copies(course)
    return next((kept for kept in copies if kept["sealed"]["content"]["serial"] == serial), None)


def _against_kept(sealed: dict[str, Any], kept: dict[str, Any]) -> list[str]:
    """Each entry that is not as in the shop's own copy, with both values."""
    if canonical(sealed) == canonical(kept):
        return []
    issued, now = dict(entries(kept["content"])), dict(entries(sealed.get("content", {})))
    found = [
        f"{place}: issued as {_short(issued[place])}, now {_short(now[place])}"
        if place in now
        else f"{place}: taken out; issued as {_short(issued[place])}"
        for place in issued
        if place not in now or canonical(now[place]) != canonical(issued[place])
    ]
    found += [f"{place}: added, {_short(value)}" for place, value in now.items() if place not in issued]
    return found or ["the seal itself was changed"]


def _short(value: Any) -> str:
    text = json.dumps(value, ensure_ascii=False)
    return text if len(text) <= 60 else text[:57] + "..."


def _printed(
    data: bytes, kind: str, words: list[str], sealed: dict[str, Any], issued: str | None
) -> list[str]:
    """What the page shows against what it was issued to show."""
    if issued is not None and digest(data) == issued:
        return []
    sheet = page.sheet(sealed)
    made = sheet.to_pdf() if kind == ".pdf" else sheet.to_html().encode("utf-8")
    if issued is None and made == data:
        return []
    should = _words(made, kind)
    found = []
    for mark, a, b, c, d in difflib.SequenceMatcher(None, should, words, autojunk=False).get_opcodes():
        if mark != "equal":
            was, now = " / ".join(should[a:b]), " / ".join(words[c:d])
            found.append(f"page: issued as {_short(was)}, now shows {_short(now)}")
    if found:
        return found
    if issued is not None:
        return ["the words are as issued, the file is not: something drawn, hidden or added was changed"]
    return [
        "the words are as sealed, but the file is not byte for byte what this version prints: it was altered "
        "in what is drawn or hidden, or printed by another version; ask the shop that issued it, or for the "
        ".json file"
    ]


def _key(public: str, course: Course | None, named: str) -> list[str]:
    if not public:
        return []
    mine = fingerprint(public)
    if named:
        plain = re.sub(r"[^0-9a-f]", "", named.lower())
        if plain == mine.replace("-", ""):
            return []
        return [f"sealed with key {mine}, not with {named}"]
    own = Key.known(course) if course is not None else None
    if own is not None and own.public == public:
        return []
    return [
        f"sealed with key {mine}, which is not this class's own: ask the shop that issued it for its key, "
        "and give that with --key"
    ]
