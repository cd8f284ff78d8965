"""Issuing a record: PDF, web page and data, and the copy that the shop keeps to compare with."""

from __future__ import annotations

import contextlib
import hashlib
import json
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from twostroke.grading.files import write_bytes, write_text
from twostroke.grading.place import Course
from twostroke.grading.record import page, people, signatures
from twostroke.grading.record.content import content
from twostroke.grading.record.seal import Key, canonical, fingerprint, seal, signed_by
from twostroke.grading.states import GradingError

KEPT = "issued"


@dataclass(frozen=True)
class Issued:
    """An issued record.

    Parameters
    ----------
    content : dict
        What it says.
    pdf, html, data : Path
        The three files; each can be verified by itself.
    fingerprint : str
        Of the key that sealed it.
    """

    content: dict[str, Any]
    pdf: Path
    html: Path
    data: Path
    fingerprint: str


def write(
    learner: str,
    *,
    course: Course | None = None,
    to: str | Path | None = None,
    aims: Sequence[str] = (),
    pseudonyms: bool = False,
    note: str = "",
) -> Issued:
    """Write the training record of one person as PDF, web page and data.

    Parameters
    ----------
    learner : str
        Any name of the person.
    course : Course, optional
        Without it, this repository and its ``autograde`` folder.
    to : path, optional
        Folder for the files; default the person's folder among the records.
    aims : sequence of str, optional
        Competencies that the plan shall lead to first.
    pseudonyms : bool
        Whether names are replaced.
    note : str
        A line for the foot of the page, such as that the data are invented.

    Returns
    -------
    Issued

    Raises
    ------
    GradingError
        When nobody is called so, or signatures were tampered with.
    """
    course = course or Course.at()
    person = people.find(course, learner)
    _nothing_lost(course, person.id)
    key = Key.of(course)
    made = content(course, person, aims=aims, pseudonyms=pseudonyms, note=note)
    sealed = seal(made, key)
    sheet = page.sheet(sealed)
    folder = Path(to).expanduser() if to is not None else people.folder(course, person.id)
    stem = f"{made['person']['id']}_training_record"
    issued = Issued(
        made,
        folder / f"{stem}.pdf",
        folder / f"{stem}.html",
        folder / f"{stem}.json",
        fingerprint(key.public),
    )
    files = {
        issued.pdf: sheet.to_pdf(),
        issued.html: sheet.to_html().encode("utf-8"),
        issued.data: json.dumps(sealed, ensure_ascii=False, indent=1, sort_keys=True).encode("utf-8"),
    }
    kept = {"sealed": sealed, "files": {path.suffix: digest(data) for path, data in files.items()}}
    text = canonical({**kept, "signature": key.sign(canonical(kept))}).decode("utf-8") + "\n"
    write_text(people.folder(course, person.id) / KEPT / f"{made['serial']}.json", text)
    for path, data in files.items():
        write_bytes(path, data)
    return issued


def digest(data: bytes) -> str:
    """Return the SHA-256 of a file's bytes."""
    return hashlib.sha256(data).hexdigest()


def kept_copies(course: Course, learner: str = "*") -> Iterator[dict[str, Any]]:
    """Yield the copies that were kept, of one person or of all; copies that were tampered with are not."""
    key = Key.known(course)
    for path in sorted((course.home / people.RECORDS).glob(f"{learner}/{KEPT}/*.json")):
        with contextlib.suppress(ValueError, KeyError, TypeError, AttributeError):
            kept = json.loads(path.read_text(encoding="utf-8"))
            signature = kept.pop("signature")
            if key is not None and signed_by(key.public, canonical(kept), signature):
                yield kept


def _nothing_lost(course: Course, learner: str) -> None:
    """Every signature that was ever issued must still be among the lines."""
    now = {line.number: line for line in signatures.read(course, learner)}
    for kept in kept_copies(course, learner):
        issued = kept["sealed"]["content"]
        for name, signed in issued["hands on"].items():
            for place in signed:
                line = now.get(int(place.rpartition(" ")[2]))
                if line is None or line.competency != name:
                    raise GradingError(
                        f"{learner}: {place} ({name}) stands in record {issued['serial']} and is missing "
                        f"among the signatures now; put back a copy of {signatures.FILE}"
                    )
