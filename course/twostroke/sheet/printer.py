"""Sheets on paper, through the typst wheel: PDF, pictures of pages, and how many pages there are.

No word of a sheet is ever typst markup: the sheet goes to the fixed template ``sheet.typ`` as JSON data.
"""

from __future__ import annotations

import hashlib
import json
import re
import tempfile
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

import typst

from twostroke.sheet.blocks import SheetError

if TYPE_CHECKING:
    from twostroke.sheet.blocks import Enclosure
    from twostroke.sheet.page import Sheet

_TEMPLATE = Path(__file__).parent / "templates" / "sheet.typ"
_ENCLOSE = b"""
#for file in data.enclosed {
  pdf.attach(file.name, description: file.description, mime-type: "application/json", relationship: "data")
}
"""
_FAMILY = "DejaVu Sans"
_MARK = "twostroke-sheet-"
_LONG_RUN = re.compile(r"[^\s\u200b]{24,}")


@cache
def _font_folder() -> Path:
    """DejaVu Sans travels with matplotlib, so that print looks alike on every machine."""
    import matplotlib

    return Path(matplotlib.get_data_path()) / "fonts" / "ttf"


@cache
def _drawable() -> frozenset[int]:
    from matplotlib.ft2font import FT2Font

    return frozenset(FT2Font(str(_font_folder() / "DejaVuSans.ttf")).get_charmap())


@cache
def _fonts(system: bool) -> typst.Fonts:
    return typst.Fonts(
        include_system_fonts=system, include_embedded_fonts=False, font_paths=[str(_font_folder())]
    )


def _breakable(value: Any) -> Any:
    """Let words of absurd length break, so that they stay on the paper."""
    if isinstance(value, str):
        return _LONG_RUN.sub(lambda run: "\u200b".join(run.group()), value)
    if isinstance(value, list):
        return [_breakable(part) for part in value]
    if isinstance(value, dict):
        return {
            key: part if key in ("href", "kind", "file") else _breakable(part) for key, part in value.items()
        }
    return value


def digest_of(pdf: bytes) -> str | None:
    """The digest of the sheet that a PDF was printed from, or None for any other PDF.

    Two PDFs of one sheet differ in bytes when the printing library changes; their digests do not.
    """
    found = re.search(_MARK.encode() + rb"([0-9a-f]{32})", pdf)
    return found.group(1).decode() if found else None


class Printer:
    """Prints one or more sheets as one document.

    Parameters
    ----------
    title : str
        Title of the document.
    paper : str
        A typst name of a paper.
    sheets : list of Sheet
        In order; each begins on a new page.
    """

    def __init__(self, title: str, paper: str, sheets: list[Sheet]) -> None:
        self.files: dict[str, bytes] = {}
        described = [self._describe(sheet) for sheet in sheets]
        data = {"title": title, "paper": paper, "family": _FAMILY, "sheets": _breakable(described)}
        enclosed = [self._enclose(each) for sheet in sheets for each in sheet.enclosed]
        if enclosed:
            data["enclosed"] = enclosed
        self.template = _TEMPLATE.read_bytes() + (_ENCLOSE if enclosed else b"")
        self.digest = self._digest(json.dumps(data, sort_keys=True))
        self.data = json.dumps({**data, "mark": f"{_MARK}{self.digest}"}, ensure_ascii=False)

    def _digest(self, data: str) -> str:
        """Names what is printed, whatever the version of the printing library."""
        whole = hashlib.sha256(self.template + data.encode("utf-8"))
        for name, content in sorted(self.files.items()):
            whole.update(name.encode("utf-8") + content)
        return whole.hexdigest()[:32]

    def _enclose(self, each: Enclosure) -> dict[str, str]:
        """Lay the file beside the template under its own name."""
        if self.files.setdefault(each.name, each.data) != each.data:
            raise SheetError(f"enclosed file {each.name}: two files of this name in one document; rename one")
        return {"name": each.name, "description": each.description}

    def _describe(self, sheet: Sheet) -> dict[str, Any]:
        blocks = []
        for block in sheet.blocks:
            described = {"kind": block.kind, **block.content}
            if block.picture:
                name = f"figure{len(self.files)}.{block.picture.kind}"
                self.files[name] = block.picture.data
                described |= {"file": name, "alt": block.picture.alt}
            blocks.append(described)
        return {
            "title": sheet.title,
            "subtitle": sheet.subtitle,
            "note": sheet.note,
            "compact": sheet.compact,
            "blocks": blocks,
        }

    def _run(self, work: str, **settings: Any) -> Any:
        drawable = _drawable()
        other_script = any(ord(letter) > 127 and ord(letter) not in drawable for letter in self.data)
        with tempfile.TemporaryDirectory(prefix="twostroke-print-") as folder:
            place = Path(folder)
            (place / "sheet.typ").write_bytes(self.template)
            (place / "data.json").write_text(self.data, encoding="utf-8")
            for name, content in self.files.items():
                (place / name).write_bytes(content)
            compiler = typst.Compiler(
                str(place / "sheet.typ"),
                root=str(place),
                font_paths=_fonts(other_script),
                ignore_system_fonts=not other_script,
            )
            try:
                return getattr(compiler, work)(**settings)
            except typst.TypstError as error:
                figures = sorted(self.files)
                hint = f" (pictures: {', '.join(figures)})" if figures else ""
                raise SheetError(
                    f"cannot print the sheet: {error.message}{hint}; check its figures"
                ) from error

    def pdf(self) -> bytes:
        """The document as PDF, without a date, so that the same sheet gives the same bytes."""
        return self._run("compile", format="pdf", timestamp=0)

    def png(self, dots_per_inch: float) -> list[bytes]:
        """One picture a page."""
        pages = self._run("compile", format="png", ppi=dots_per_inch)
        return list(pages) if isinstance(pages, list) else [pages]

    def pages(self) -> int:
        """Number of pages."""
        return int(json.loads(self._run("query", selector="<pages>", field="value", one=True)))
