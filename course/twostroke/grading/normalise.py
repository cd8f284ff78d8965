"""An untrusted notebook laid onto the trusted lab: every cell in its place, every decision written down."""

from __future__ import annotations

import json
from collections import defaultdict
from dataclasses import dataclass, field
from typing import Any

from nbformat.notebooknode import NotebookNode, from_dict

from twostroke.grading.foreign_json import read_json
from twostroke.grading.skeleton import Skeleton, Slot, squeeze
from twostroke.grading.states import Cause, Reason

MOST_CELLS = 2000
LONGEST_CELL = 2**20


class Refused(Exception):  # noqa: N818  (carries a cause to the caller, not an error for the reader)
    """The notebook cannot be marked; holds the cause."""

    def __init__(self, reason: Reason, detail: str):
        super().__init__(detail)
        self.cause = Cause(reason=reason, detail=detail)


@dataclass
class Piece:
    """One cell of a submission, reduced to what counts."""

    source: str
    cell_type: str
    grade_id: str | None
    cell_id: str | None
    place: int
    slot: int | None = None

    @property
    def key(self) -> str:
        return squeeze(self.source)


@dataclass
class Normalised:
    """Result of `normalise`.

    Parameters
    ----------
    notebook : NotebookNode
        The trusted lab with the learner's answers and own cells in it, without outputs.
    slots : list of (Slot or None)
        For each cell of the notebook the trusted cell that it stands for.
    notes : list of str
        Decisions that cost nothing.
    causes : list of Cause
        What a person must look at.
    """

    notebook: NotebookNode
    slots: list[Slot | None]
    notes: list[str] = field(default_factory=list)
    causes: list[Cause] = field(default_factory=list)


def read_pieces(data: bytes) -> list[Piece]:
    """Return the cells of a notebook file, trusting nothing in it.

    Raises
    ------
    Refused
        When the file is empty, is no notebook, or is spoilt.
    """
    if not data.strip():
        raise Refused(Reason.EMPTY, "the file holds nothing; ask for it again")
    try:
        content = read_json(data.decode("utf-8-sig"))
    except UnicodeDecodeError:
        raise Refused(Reason.CORRUPT, "the file is not text; it may have been changed on its way") from None
    except json.JSONDecodeError as error:
        where = f"line {error.lineno}"
        if data.lstrip()[:1] != b"{":
            raise Refused(
                Reason.CORRUPT, "the file is not a notebook; ask for the .ipynb file itself"
            ) from None
        raise Refused(
            Reason.CORRUPT, f"the notebook breaks off or is damaged at {where}; ask for it again"
        ) from None
    except (RecursionError, ValueError):
        raise Refused(Reason.CORRUPT, "the file is nested too deep or holds impossible numbers") from None
    cells = _cells(content)
    if len(cells) > MOST_CELLS:
        raise Refused(Reason.TOO_LARGE, f"{len(cells)} cells; {MOST_CELLS} at most")
    return [_piece(cell, place) for place, cell in enumerate(cells)]


def _cells(content: Any) -> list[Any]:
    if not isinstance(content, dict):
        raise Refused(Reason.CORRUPT, "the file is not a notebook; ask for the .ipynb file itself")
    cells = content.get("cells")
    if cells is None and isinstance(content.get("worksheets"), list):  # nbformat 3
        sheets = [sheet for sheet in content["worksheets"] if isinstance(sheet, dict)]
        cells = [cell for sheet in sheets for cell in (sheet.get("cells") or [])]
    if not isinstance(cells, list):
        raise Refused(Reason.CORRUPT, "the file has no cells; ask for the .ipynb file itself")
    return cells


def _text(value: Any) -> str:
    if isinstance(value, list):
        value = "".join(part for part in value if isinstance(part, str))
    return value[:LONGEST_CELL] if isinstance(value, str) else ""


def _piece(cell: Any, place: int) -> Piece:
    if not isinstance(cell, dict):
        return Piece("", "raw", None, None, place)
    metadata = cell.get("metadata")
    nbgrader = metadata.get("nbgrader") if isinstance(metadata, dict) else None
    grade_id = nbgrader.get("grade_id") if isinstance(nbgrader, dict) else None
    cell_type = cell.get("cell_type")
    return Piece(
        _text(cell.get("source", cell.get("input", ""))),
        cell_type if cell_type in ("code", "markdown", "raw") else "raw",
        grade_id if isinstance(grade_id, str) else None,
        cell.get("id") if isinstance(cell.get("id"), str) else None,
        place,
    )


def normalise(data: bytes, skeleton: Skeleton, others: dict[str, set[str]] | None = None) -> Normalised:
    """Lay a submission onto the trusted lab.

    Parameters
    ----------
    data : bytes
        The file as handed in.
    skeleton : Skeleton
        The trusted lab.
    others : dict of str to set of str, optional
        Grade ids of the other labs, by which a notebook of another lab is known.

    Returns
    -------
    Normalised
        Check and locked cells are the trusted ones, answers the learner's; cells of the learner's own stay
        where
        they stood.

    Raises
    ------
    Refused
        When the file cannot be marked at all.
    """
    pieces = read_pieces(data)
    work = Normalised(NotebookNode(), [])
    _match_ids(pieces, skeleton)
    known = sum(1 for piece in pieces if piece.slot is not None)
    _refuse_other_lab(pieces, skeleton, others or {}, known)
    _match_texts(pieces, skeleton)
    _match_order(pieces, skeleton, work)
    _refuse_lost(pieces, skeleton)
    _assemble(pieces, skeleton, work)
    return work


def _match_ids(pieces: list[Piece], skeleton: Skeleton) -> None:
    by_grade = {slot.grade_id: index for index, slot in enumerate(skeleton.slots) if slot.grade_id}
    by_cell = {slot.cell.get("id"): index for index, slot in enumerate(skeleton.slots) if not slot.grade_id}
    for piece in pieces:
        if piece.grade_id is not None:
            piece.slot = by_grade.get(piece.grade_id)
        elif piece.cell_id is not None:
            piece.slot = by_cell.get(piece.cell_id)


def _refuse_other_lab(
    pieces: list[Piece], skeleton: Skeleton, others: dict[str, set[str]], known: int
) -> None:
    ids = {piece.grade_id for piece in pieces if piece.grade_id}
    mine = ids & set(skeleton.by_id())
    if not ids:
        return
    lab, best = max(
        ((name, len(ids & theirs)) for name, theirs in others.items()),
        key=lambda pair: pair[1],
        default=("", 0),
    )
    if best > len(mine) and best >= 2:
        raise Refused(Reason.WRONG_LAB, f"this is the notebook of {lab}; ask for {skeleton.lab}")
    if not mine and len(ids) >= 3 and not known:
        raise Refused(
            Reason.WRONG_LAB, f"none of its cells belongs to {skeleton.lab}; ask for the right notebook"
        )


def _match_texts(pieces: list[Piece], skeleton: Skeleton) -> None:
    """Cells without usable ids, known by the text that was handed out."""
    taken = {piece.slot for piece in pieces if piece.slot is not None}
    free: dict[str, list[int]] = defaultdict(list)
    for index, slot in enumerate(skeleton.slots):
        if index not in taken and slot.key:
            free[slot.key].append(index)
    for piece in pieces:
        if piece.slot is None and free.get(piece.key):
            piece.slot = free[piece.key].pop(0)


def _match_order(pieces: list[Piece], skeleton: Skeleton, work: Normalised) -> None:
    """Answers whose ids are gone, by their order between cells that are known."""
    taken = {piece.slot for piece in pieces if piece.slot is not None}
    missing = [
        i for i, slot in enumerate(skeleton.slots) if i not in taken and slot.kind in ("answer", "check")
    ]
    for low, high, gap in _gaps(missing, sorted(taken)):
        between = [p for p in _between(pieces, low, high) if p.slot is None and p.key]
        wanted = [i for i in gap if skeleton.slots[i].kind == "answer"]
        marked = [p for p in between if p.grade_id is not None]
        pool = [p for p in (marked or between) if not _looks_like_check(p)]
        types = [skeleton.slots[i].cell.cell_type for i in wanted]
        pool = [p for p in pool if p.cell_type in types]
        if not wanted or not pool:
            continue
        names = ", ".join(skeleton.slots[i].grade_id or "?" for i in wanted)
        if len(pool) == len(wanted) and [p.cell_type for p in pool] == types:
            for piece, index in zip(pool, wanted, strict=True):
                piece.slot = index
            work.notes.append(f"grade id lost or changed; cell taken by its place as {names}")
        else:
            detail = f"{len(pool)} cells stand where {names} should be; look which one is the answer"
            work.causes.append(Cause(reason=Reason.AMBIGUOUS, detail=detail))


def _looks_like_check(piece: Piece) -> bool:
    return ".check(" in piece.source and ".answer(" not in piece.source


def _gaps(missing: list[int], taken: list[int]) -> list[tuple[int, int, list[int]]]:
    """Group missing slots by the known slots around them."""
    groups: dict[tuple[int, int], list[int]] = defaultdict(list)
    for index in missing:
        low = max((t for t in taken if t < index), default=-1)
        high = min((t for t in taken if t > index), default=10**9)
        groups[(low, high)].append(index)
    return [(low, high, gap) for (low, high), gap in sorted(groups.items())]


def _between(pieces: list[Piece], low: int, high: int) -> list[Piece]:
    start = max((p.place for p in pieces if p.slot is not None and p.slot == low), default=-1)
    stop = min((p.place for p in pieces if p.slot is not None and p.slot == high), default=10**9)
    return [piece for piece in pieces if start < piece.place < stop]


def _refuse_lost(pieces: list[Piece], skeleton: Skeleton) -> None:
    answers = [i for i, slot in enumerate(skeleton.slots) if slot.kind == "answer"]
    found = {piece.slot for piece in pieces if piece.slot is not None}
    if any(i in found for i in answers):
        return
    if any(piece.key and piece.slot is None for piece in pieces) or not found:
        raise Refused(
            Reason.LOST_METADATA,
            "no cell can be recognised: the marks by which cells are known were lost, as happens when "
            "cells are "
            "pasted into a new notebook; ask for the file that was handed out, filled in",
        )


def _assemble(pieces: list[Piece], skeleton: Skeleton, work: Normalised) -> None:
    claims: dict[int, list[Piece]] = defaultdict(list)
    extras: dict[int, list[Piece]] = defaultdict(list)
    anchor = -1
    for piece in pieces:
        if piece.slot is None:
            extras[anchor].append(piece)
        else:
            claims[piece.slot].append(piece)
            anchor = piece.slot
    cells: list[NotebookNode] = []
    for index, slot in [(-1, None), *enumerate(skeleton.slots)]:
        if slot is not None:
            *before, trusted = _fill(slot, claims[index], work)
            cells += [*before, trusted]
            work.slots += [*([None] * len(before)), slot]
        cells += [_own_cell(piece) for piece in extras[index]]
        work.slots += [None] * len(extras[index])
    for number, cell in enumerate(cells):
        if work.slots[number] is None:
            cell["id"] = f"own-{number}"
    metadata = from_dict(skeleton.metadata)
    work.notebook = NotebookNode(cells=cells, metadata=metadata, nbformat=4, nbformat_minor=5)
    order = [piece.slot for piece in pieces if piece.slot is not None]
    first = list(dict.fromkeys(order))
    if first != sorted(first):
        work.notes.append("cells stood in another order; put back into the order of the lab")


def _own_cell(piece: Piece) -> NotebookNode:
    cell: dict[str, Any] = {"id": "own", "cell_type": piece.cell_type, "metadata": {}, "source": piece.source}
    if piece.cell_type == "code":
        cell |= {"outputs": [], "execution_count": None}
    return from_dict(cell)


def _copy(cell: NotebookNode) -> NotebookNode:
    """A cell of its own whose metadata, which nobody changes, is shared with the trusted one."""
    fresh = NotebookNode(cell)
    if fresh.cell_type == "code":
        fresh["outputs"] = []
    return fresh


def _fill(slot: Slot, claims: list[Piece], work: Normalised) -> list[NotebookNode]:
    """The cells that stand for one trusted cell: the last counts, copies with other text run before it."""
    trusted = _copy(slot.cell)
    name = slot.grade_id or f"the cell {slot.key[:30]!r}"
    if slot.kind in ("check", "task", "locked"):
        if not claims:
            work.notes.append(f"{name} was missing; put back")
        elif len(claims) > 1:
            work.notes.append(f"{name} was there {len(claims)} times; one counts")
        if any(piece.key not in (slot.key, squeeze(slot.cell.source)) for piece in claims):
            work.notes.append(f"{name} was changed; put back as handed out")
        return [trusted]
    trusted.source = slot.released
    if not claims:
        if slot.kind == "plain" and trusted.cell_type != "code":
            return [trusted]
        work.notes.append(f"{name} was missing; put back as handed out")
        return [trusted]
    written = [piece for piece in claims if piece.key and piece.key != slot.key]
    chosen = written[-1] if written else claims[-1]
    trusted.source = chosen.source
    if len(claims) > 1:
        work.notes.append(f"{name} was there {len(claims)} times; the last one with an answer counts")
    if chosen.cell_type != trusted.cell_type:
        work.notes.append(f"{name} was turned into a {chosen.cell_type} cell; turned back")
    return [*(_own_cell(piece) for piece in written[:-1]), trusted]
