"""The blocks a sheet is made of, and the pictures it carries."""

from __future__ import annotations

import json
import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from markupsafe import Markup

from twostroke.errors import TwoStrokeError
from twostroke.sheet.markup import Node, clean

_PNG = b"\x89PNG\r\n\x1a\n"
_SVG = re.compile(rb"<svg[\s>]")


class SheetError(TwoStrokeError):
    """A sheet cannot be printed as it was written."""


@dataclass(frozen=True)
class Picture:
    """A figure's bytes, its kind (``svg`` or ``png``) and what it shows in words."""

    data: bytes
    kind: str
    alt: str

    @classmethod
    def read(cls, data: bytes | str, alt: str) -> Picture:
        """Tell SVG from PNG and refuse the rest."""
        raw = data.encode("utf-8") if isinstance(data, str) else bytes(data)
        words = clean(alt).strip()
        if not words:
            raise SheetError(
                "figure without words: say in alt what the picture shows, for those who cannot see it"
            )
        if raw.startswith(_PNG):
            return cls(raw, "png", words)
        if _SVG.search(raw[:4000]):
            return cls(raw, "svg", words)
        raise SheetError(f"figure {words!r}: neither SVG nor PNG; give the bytes of one of the two")


@dataclass(frozen=True)
class Enclosure:
    """A JSON file that travels inside the document: an attachment of the PDF, data in the web page."""

    name: str
    data: bytes
    description: str

    @classmethod
    def read(cls, name: str, data: bytes, description: str) -> Enclosure:
        """Refuse what is no JSON, and names that are no plain file names."""
        if re.fullmatch(r"[a-z0-9][a-z0-9_-]{0,40}\.json", name) is None:
            raise SheetError(f"enclosed file {name!r}: give a plain name in small letters that ends in .json")
        try:
            json.loads(data)
        except ValueError:
            raise SheetError(f"enclosed file {name}: its content is no JSON; give JSON in UTF-8") from None
        return cls(name, bytes(data), clean(description))

    @property
    def for_page(self) -> Markup:
        """The JSON so written that a web page can hold it: no character in it ends the element."""
        text = self.data.decode("utf-8")
        for letter in "<>&":
            text = text.replace(letter, f"\\u{ord(letter):04x}")
        return Markup(text)


@dataclass
class Block:
    """One part of a sheet: its kind, its content as plain data, and its picture if it has one."""

    kind: str
    content: dict[str, Any]
    picture: Picture | None = None


@dataclass
class Table:
    """Headers, rows and alignment, checked to be of one width."""

    headers: list[str]
    rows: list[list[str]]
    align: list[str]
    widths: list[float] = field(default_factory=list)

    @classmethod
    def read(
        cls,
        headers: Sequence[object],
        rows: Sequence[Sequence[object]],
        align: str | None,
        widths: Sequence[float],
    ) -> Table:
        """Check that every row has as many cells as there are headers."""
        names = [clean(name) for name in headers]
        if not names:
            raise SheetError("table without columns: give at least one header")
        cells = [[clean(cell) for cell in row] for row in rows]
        for number, row in enumerate(cells, start=1):
            if len(row) != len(names):
                raise SheetError(
                    f"table row {number} has {len(row)} cells, the header has {len(names)}: make them alike"
                )
        letters = align or "l" * len(names)
        if len(letters) != len(names) or set(letters) - set("lrc"):
            raise SheetError(
                f"table alignment {align!r}: give one letter l, r or c for each of {len(names)} columns"
            )
        if widths and len(widths) != len(names):
            raise SheetError(
                f"table has {len(names)} columns but {len(widths)} widths: give one for each, or none"
            )
        return cls(names, cells, list(letters), [float(width) for width in widths])


def text_block(nodes: list[Node]) -> Block:
    """Running text."""
    return Block("text", {"nodes": nodes})
