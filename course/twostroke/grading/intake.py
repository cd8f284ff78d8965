"""Intake: from whatever was downloaded to one file for each learner, each with its state and reason."""

from __future__ import annotations

import hashlib
from collections import defaultdict
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime
from itertools import takewhile
from pathlib import Path

from nbgrader.utils import parse_utc

from twostroke.grading.classlist import ClassList
from twostroke.grading.files import write_bytes
from twostroke.grading.names import Whose, copy_number, lab_in, whose
from twostroke.grading.place import Course
from twostroke.grading.shelf import NOTHING, Content
from twostroke.grading.states import Cause, Reason
from twostroke.grading.unpack import RawFile, read_files

_OTHER_FORMS = (".json", ".txt", ".html", ".htm", ".pdf", ".py", ".docx", ".md", ".zip", ".webloc", ".url")


@dataclass
class Received:
    """One learner's file for one lab.

    Parameters
    ----------
    learner : str
        Trusted identifier.
    content : Content
        The file as it came.
    place : str
        Where it was found.
    causes : list of Cause
        Why it is not usable or needs a person; empty for a plain case.
    usable : bool
        Whether it goes on to the next step.
    notes : list of str
        Decisions that cost nothing.
    changed : datetime or None
        When it was last written.
    handed_in : datetime or None
        When it was handed in, where a ``timestamp.txt`` of nbgrader says so.
    """

    learner: str
    content: Content = NOTHING
    place: str = ""
    causes: list[Cause] = field(default_factory=list)
    usable: bool = True
    notes: list[str] = field(default_factory=list)
    changed: datetime | None = None
    handed_in: datetime | None = None

    @property
    def digest(self) -> str:
        """Fingerprint of the content, or of the reason where there is none."""
        if self.content.size:
            return self.content.digest
        stuff = "\n".join([self.place, *(cause.text for cause in self.causes)])
        return hashlib.sha256(stuff.encode()).hexdigest()

    @property
    def data(self) -> bytes:
        """The file as it came, read again."""
        return self.content.read()


def receive(path: Path, lab: str, classlist: ClassList) -> list[Received]:
    """Return one entry for each learner who handed something in.

    Parameters
    ----------
    path : Path
        Folder, zip archive or single notebook.
    lab : str
        Such as "lab01".
    classlist : ClassList
        The class.

    Returns
    -------
    list of Received
        In the order of the identifiers. Files of other labs are left alone unless a learner handed in
        nothing else.
    """
    groups: dict[str, list[tuple[RawFile, Whose]]] = defaultdict(list)
    nameless: list[RawFile] = []
    stamps: dict[str, datetime] = {}
    for raw in _without_common_root(list(read_files(path)), classlist):
        if raw.name == "timestamp.txt":
            stamps |= _stamp(raw)
        if not _may_be_work(raw):
            continue
        owner = whose(raw.parts, classlist)
        if owner.learner is None:
            nameless.append(raw)
        else:
            groups[owner.learner].append((raw, owner))
    found = [_choose(learner, entries, lab) for learner, entries in sorted(groups.items())]
    for number, raw in enumerate(nameless, start=1):
        found.append(_nameless(raw, number))
    for each in found:
        if each is not None:
            each.handed_in = stamps.get(each.place.rpartition("/")[0])
            if each.handed_in is None and classlist.policy.time_from == "file":
                each.handed_in = each.changed
    return [each for each in found if each is not None]


def _stamp(raw: RawFile) -> dict[str, datetime]:
    try:
        return {raw.place.rpartition("/")[0]: parse_utc(raw.data.decode("ascii").strip())}
    except (ValueError, OverflowError):
        return {}


def _without_common_root(files: list[RawFile], classlist: ClassList) -> list[RawFile]:
    """Take off folders that hold every file, as long as every file still says whose it is."""
    work = [raw for raw in files if _may_be_work(raw)]
    shared = 0
    if len(work) > 1:
        columns = zip(*(raw.parts[:-1] for raw in work), strict=False)
        shared = len(list(takewhile(lambda parts: len(set(parts)) == 1, columns)))
    for count in range(shared, 0, -1):
        if any(classlist.find(part) for part in work[0].parts[:count]):
            continue
        owners = {whose(raw.parts[count:], classlist).learner for raw in work}
        if None not in owners and len(owners) > 1:
            return [replace(raw, parts=raw.parts[count:]) for raw in files if len(raw.parts) > count]
    return files


def _may_be_work(raw: RawFile) -> bool:
    name = raw.name.lower()
    if name in ("timestamp.txt", "readme.txt", "readme.md") or name.startswith("."):
        return False
    return raw.cause is not None or ".ipynb" in name or name.endswith(_OTHER_FORMS)


def _is_notebook(raw: RawFile) -> bool:
    return raw.cause is None and (
        raw.name.lower().endswith(".ipynb") or raw.content.head(64).lstrip()[:1] == b"{"
    )


def _labs(raw: RawFile) -> str | None:
    """The lab that the name speaks of; the folder only where the file is silent."""
    return lab_in(raw.name) or next((lab for part in reversed(raw.parts[:-1]) if (lab := lab_in(part))), None)


def _choose(learner: str, entries: list[tuple[RawFile, Whose]], lab: str) -> Received | None:
    """Pick the learner's file: the newest notebook; a spoilt file only where there is nothing better."""
    mine = [raw for raw, _ in entries if _labs(raw) in (lab, None)]
    elsewhere = [raw for raw, _ in entries if _labs(raw) not in (lab, None)]
    owner = entries[0][1]
    if not mine:
        only = elsewhere[0]
        if len({part for raw in elsewhere for part in raw.parts[:-1] if lab_in(part) == _labs(raw)}):
            return None  # nbgrader's layout: a folder of another lab beside this one
        detail = f"only {only.name!r} was handed in, which is for {_labs(only)}; ask for {lab}"
        return Received(
            learner,
            only.content,
            only.place,
            [Cause(reason=Reason.WRONG_LAB, detail=detail)],
            False,
            changed=only.changed,
        )
    notebooks = [raw for raw in mine if _is_notebook(raw)]
    if not notebooks:
        return _spoilt(learner, mine)
    notebooks.sort(key=lambda raw: (_labs(raw) == lab, copy_number(raw.name), _when(raw), raw.place))
    chosen = notebooks[-1]
    got = Received(learner, chosen.content, chosen.place, changed=chosen.changed)
    if chosen.name != f"{lab}.ipynb":
        got.notes.append(f"file came as {chosen.name!r}; taken as {lab}.ipynb")
    others = sorted({raw.name for raw in notebooks[:-1] if raw.content.digest != chosen.content.digest})
    if others:
        got.notes.append(
            f"several notebooks handed in; {chosen.name!r} is the latest, set aside: {', '.join(others)}"
        )
    for raw in mine:
        if raw.cause is not None:
            got.notes.append(f"{raw.name!r} beside it was not used ({raw.cause.text})")
    if not owner.listed:
        got.causes.append(_unlisted(owner))
    if chosen.content.size < 4096 and not chosen.data.strip():
        got.causes.append(Cause(reason=Reason.EMPTY, detail="the file holds nothing; ask for it again"))
        got.usable = False
    return got


def _when(raw: RawFile) -> datetime:
    return raw.changed or datetime.min.replace(tzinfo=UTC)


def _spoilt(learner: str, mine: list[RawFile]) -> Received:
    with_cause = [raw for raw in mine if raw.cause is not None]
    if with_cause:
        raw = with_cause[-1]
        assert raw.cause is not None
        return Received(learner, NOTHING, raw.place, [raw.cause], False, changed=raw.changed)
    raw = mine[-1]
    if not raw.content.size:
        cause = Cause(reason=Reason.EMPTY, detail="the file holds nothing; ask for it again")
    else:
        kind = raw.name.rpartition(".")[2]
        cause = Cause(
            reason=Reason.CORRUPT,
            detail=f"{raw.name!r} is a .{kind} file, not a notebook; ask for the .ipynb file",
        )
    return Received(learner, raw.content, raw.place, [cause], False, changed=raw.changed)


def _unlisted(owner: Whose) -> Cause:
    return Cause(
        reason=Reason.UNKNOWN_LEARNER,
        detail=f"{owner.seen!r} is not on the class list; add it there, or as another name of somebody",
    )


def _nameless(raw: RawFile, number: int) -> Received:
    detail = f"{raw.place!r} does not say whose it is; put it into a folder with the learner's name"
    return Received(
        f"unknown-{number}",
        raw.content,
        raw.place,
        [Cause(reason=Reason.UNKNOWN_LEARNER, detail=detail)],
        False,
        changed=raw.changed,
    )


def store(course: Course, lab: str, received: Received) -> None:
    """Keep the file as it came under ``submitted``; an older, different one goes to the backups."""
    if not received.content.size or received.learner.startswith("unknown-"):
        return
    target = course.submitted / received.learner / lab / f"{lab}.ipynb"
    if target.is_file():
        older = target.read_bytes()
        stamp = hashlib.sha256(older).hexdigest()
        if stamp == received.digest:
            return
        stamp = stamp[:12]
        write_bytes(course.backups / "submitted" / received.learner / lab / f"{lab}-{stamp}.ipynb", older)
    write_bytes(target, received.data, lasting=False)
    if received.handed_in is not None:
        stamp = received.handed_in.strftime("%Y-%m-%d %H:%M:%S.%f UTC")
        write_bytes(target.with_name("timestamp.txt"), stamp.encode(), lasting=False)
