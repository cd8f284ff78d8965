"""Whose file is it, and for which lab: read from the place, never from what the notebook says about itself.

The forms are those in which learning platforms hand out files for download, nbgrader's own layout, and what
people
make by hand. They were described from what such downloads look like; no program's code or list was copied.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from twostroke.grading.classlist import ClassList, safe_id

_LAB = re.compile(r"(?<![a-z0-9])lab[\s_-]*0*(\d{1,2})(?!\d)", re.IGNORECASE)
_COPY = re.compile(
    r"(?:[\s_-]*\((?P<n>\d{1,3})\)|[\s_-]+(?:copy|kopie|copie|final|new|version)\s*(?P<m>\d*)|[\s_-]+v(?P<v>\d+))+\s*$",
    re.IGNORECASE,
)
_GENERIC = re.compile(
    r"(?:submitted|submissions?|downloads?|upload(?:ed)?|files?|labs?|release|notebooks?|course|two-stroke-course|inbox"
    r"|attachments?|desktop|documents)",
    re.IGNORECASE,
)
_FOLDER_FORMS = (
    re.compile(r"(?P<who>.+?)_\d+_assignsubmission_[a-z]+_?", re.IGNORECASE),
    re.compile(r"(?P<who>.+?)_\d{4,}"),
    re.compile(r"\d+-\d+ - (?P<who>.+?) - .+"),
)
_FLAT_FORMS = (
    re.compile(r"(?P<who>.+?)_\d+_assignsubmission_[a-z]+_(?P<file>.+)", re.IGNORECASE),
    re.compile(r"(?P<who>.+?)_attempt_\d{4}-\d{2}-\d{2}-\d{2}-\d{2}-\d{2}_?(?P<file>.*)", re.IGNORECASE),
    re.compile(r"(?P<who>.+?)_(?:late_)?\d+_\d+_(?P<file>.+)", re.IGNORECASE),
)


@dataclass(frozen=True)
class Whose:
    """Answer to "whose is it?".

    Parameters
    ----------
    learner : str or None
        Trusted identifier; None when the place names nobody.
    listed : bool
        Whether the class list knows the name (True when there is no list).
    seen : str
        The name as it was found.
    """

    learner: str | None
    listed: bool
    seen: str


def lab_in(text: str) -> str | None:
    """Return the lab that a file or folder name speaks of, or None.

    Examples
    --------
    >>> lab_in("lab01 (1).ipynb"), lab_in("Lab 2 final"), lab_in("notes.ipynb")
    ('lab01', 'lab02', None)
    """
    found = _LAB.findall(text)
    return f"lab{int(found[-1]):02d}" if found else None


def copy_number(name: str) -> int:
    """Return the number that a browser or file manager added: 2 for "lab01 (2).ipynb", 0 for none.

    Examples
    --------
    >>> copy_number("lab01 (2).ipynb"), copy_number("lab01.ipynb")
    (2, 0)
    """
    found = _COPY.search(_stem(name))
    if found is None:
        return 0
    digits = [int(each) for each in found.groups() if each]
    return max(digits, default=1)


def whose(parts: tuple[str, ...], classlist: ClassList) -> Whose:
    """Return the learner whose file this is.

    Parameters
    ----------
    parts : tuple of str
        Folders and name below the folder of submissions.
    classlist : ClassList
        With its learners, or empty.

    Returns
    -------
    Whose
        From the class list where any part of the place is known there; else from the first part that can be
        a name.

    Examples
    --------
    >>> whose(("learner-07", "lab01", "lab01.ipynb"), ClassList()).learner
    'learner-07'
    >>> whose(("Learner Seven_4711_assignsubmission_file_", "lab01 (1).ipynb"), ClassList()).learner
    'Learner-Seven'
    """
    candidates = list(dict.fromkeys(_candidates(parts)))
    for text in candidates:
        found = classlist.find(text)
        if found is not None:
            return Whose(found.id, True, text)
    if not candidates:
        return Whose(None, False, "")
    return Whose(safe_id(candidates[0]), not classlist.learner, candidates[0])


def _stem(name: str) -> str:
    return re.sub(r"\.(?:ipynb|zip|json|txt)$", "", name, flags=re.IGNORECASE)


def _candidates(parts: tuple[str, ...]) -> Iterator[str]:
    """Texts that can be a name, the likeliest first."""
    for part in parts[:-1]:
        stem = _stem(part)
        for form in _FOLDER_FORMS:
            match = form.fullmatch(stem)
            if match:
                yield match["who"]
        if stem != part:
            yield from _flat(stem)
        elif not _GENERIC.fullmatch(stem) and not _only_lab(stem):
            yield stem
    yield from _flat(_stem(parts[-1]))


def _flat(stem: str) -> Iterator[str]:
    for form in _FLAT_FORMS:
        match = form.fullmatch(stem)
        if match:
            yield (
                match["who"].split("_")[-1]
                if "attempt" in stem.lower() and "_" in match["who"]
                else match["who"]
            )
            return
    rest = _COPY.sub("", stem)
    lab = list(_LAB.finditer(rest))
    if lab:
        rest = (rest[: lab[-1].start()] + " " + rest[lab[-1].end() :]).strip(" _-.")
        rest = _COPY.sub("", rest).strip(" _-.")
    if rest and not _GENERIC.fullmatch(rest) and not rest.isspace():
        yield rest


def _only_lab(text: str) -> bool:
    match = _LAB.search(text)
    return match is not None and not _COPY.sub("", text[: match.start()] + text[match.end() :]).strip(
        " _-.()0123456789"
    )
