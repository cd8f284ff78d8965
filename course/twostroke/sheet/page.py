"""The sheet itself: written block by block, then printed or shown."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict
from pathlib import Path

from twostroke.sheet import markup
from twostroke.sheet.blocks import Block, Enclosure, Picture, SheetError, Table, text_block
from twostroke.sheet.printer import Printer
from twostroke.sheet.web import page as web_page

PAPERS = ("a4", "us-letter", "a5")


class _Printable:
    """What a sheet and a book of sheets have in common."""

    title: str
    paper: str

    def _sheets(self) -> list[Sheet]:
        raise NotImplementedError

    def _printer(self) -> Printer:
        return Printer(self.title, self.paper, self._sheets())

    def to_pdf(self) -> bytes:
        """The sheet as a tagged PDF; the same sheet gives the same bytes.

        Returns
        -------
        bytes

        Raises
        ------
        SheetError
            When a figure cannot be drawn.
        """
        return self._printer().pdf()

    def to_png(self, dots_per_inch: float = 110.0) -> list[bytes]:
        """One picture a page, to look at."""
        return self._printer().png(dots_per_inch)

    def pages(self) -> int:
        """How many pages the sheet takes on its paper."""
        return self._printer().pages()

    def to_html(self) -> str:
        """The sheet as one web page that needs nothing beside it: print, phone and grey were thought of."""
        return web_page(self.title, self.paper, self._sheets())

    def pdf(self, path: str | Path) -> Path:
        """Write the PDF and return where it is."""
        return _write(path, self.to_pdf())

    def html(self, path: str | Path) -> Path:
        """Write the web page and return where it is."""
        return _write(path, self.to_html().encode("utf-8"))


class Sheet(_Printable):
    """A printed page (or several) of headings, text, tables, boxes, cautions, figures and lines to write on.

    Parameters
    ----------
    title : str
        What the sheet is; plain text.
    subtitle : str, optional
        Second line; plain text.
    note : str, optional
        Foot of every page, such as "invented demo data"; plain text.
    paper : {"a4", "us-letter", "a5"}
        Size of paper.
    compact : bool
        Smaller type and narrower margins, for cards that must fit one page.

    Notes
    -----
    Titles, headings, table cells and labels are plain text. ``text``, ``box`` and ``caution`` read the small
    Markdown of `twostroke.sheet.markup`; guard what a user typed with `twostroke.sheet.literal` there.

    Examples
    --------
    >>> sheet = Sheet("Job card", note="invented demo machine")
    >>> sheet.heading("Readings")
    >>> sheet.table(["what", "value"], [["plug gap", "0.6 mm"]])
    >>> sheet.caution("Fuel away before a spark test.")
    >>> "Fuel away" in sheet.to_html()
    True
    """

    def __init__(
        self,
        title: str,
        subtitle: str | None = None,
        note: str | None = None,
        *,
        paper: str = "a4",
        compact: bool = False,
    ) -> None:
        if paper not in PAPERS:
            raise SheetError(f"paper {paper!r}: choose one of {', '.join(PAPERS)}")
        self.title = markup.clean(title)
        self.subtitle = markup.clean(subtitle) if subtitle else ""
        self.note = markup.clean(note) if note else ""
        self.paper = paper
        self.compact = compact
        self.blocks: list[Block] = []
        self.enclosed: list[Enclosure] = []

    def _sheets(self) -> list[Sheet]:
        return [self]

    def heading(self, text: str) -> None:
        """A heading within the sheet; plain text."""
        self.blocks.append(Block("heading", {"text": markup.clean(text)}))

    def text(self, text: str) -> None:
        """Paragraphs and lists in the small Markdown."""
        self.blocks.append(text_block(markup.nodes(text)))

    def table(
        self,
        headers: Sequence[object],
        rows: Sequence[Sequence[object]],
        *,
        align: str | None = None,
        widths: Sequence[float] = (),
    ) -> None:
        """A table; cells are plain text.

        Parameters
        ----------
        headers : sequence of str
        rows : sequence of rows, each as long as the headers
        align : str, optional
            One letter a column: l, r or c; default all left.
        widths : sequence of float, optional
            Relative widths; default by content.

        Raises
        ------
        SheetError
            When a row is not as long as the header.
        """
        self.blocks.append(Block("table", asdict(Table.read(headers, rows, align, widths))))

    def box(self, title: str, lines: Sequence[str]) -> None:
        """A framed box with a title and short lines (small Markdown)."""
        self.blocks.append(
            Block("box", {"title": markup.clean(title), "lines": [markup.spans(line) for line in lines]})
        )

    def caution(self, text: str) -> None:
        """A warning with a thick edge and the word Caution, which needs no colour (small Markdown)."""
        self.blocks.append(Block("caution", {"nodes": markup.nodes(text)}))

    def figure(
        self, picture: bytes | str, alt: str, *, caption: str | None = None, width: float = 1.0
    ) -> None:
        """A picture.

        Parameters
        ----------
        picture : bytes or str
            SVG or PNG.
        alt : str
            What it shows, in words.
        caption : str, optional
            Line under the picture; plain text.
        width : float
            Part of the page's width, above 0 up to 1.
        """
        if not 0 < width <= 1:
            raise SheetError(f"figure width {width!r}: give a part of the page's width, above 0 up to 1")
        content = {"caption": markup.clean(caption) if caption else "", "width": float(width)}
        self.blocks.append(Block("figure", content, Picture.read(picture, alt)))

    def lines(self, labels: Sequence[str]) -> None:
        """Lines to write on by hand, each with its label: name, date, initials."""
        self.blocks.append(Block("lines", {"labels": [markup.clean(label) for label in labels]}))

    def enclose(self, name: str, data: bytes, description: str) -> None:
        """Put a JSON file inside the document, for programs: it is not printed.

        Parameters
        ----------
        name : str
            File name, such as "record.json".
        data : bytes
            JSON.
        description : str
            What it is, for whoever looks through the document's files.

        Raises
        ------
        SheetError
            When the data are no JSON or the name is no plain file name.
        """
        self.enclosed.append(Enclosure.read(name, data, description))

    def page_break(self) -> None:
        """Go on with a new page in print."""
        self.blocks.append(Block("break", {}))


class Book(_Printable):
    """Several sheets as one file, each beginning on a new page: bench cards for the workshop wall.

    Parameters
    ----------
    title : str
        Title of the file.
    sheets : sequence of Sheet
        All on the same paper.

    Examples
    --------
    >>> Book("Cards", [Sheet("One"), Sheet("Two")]).pages()
    2
    """

    def __init__(self, title: str, sheets: Sequence[Sheet]) -> None:
        if not sheets:
            raise SheetError("book without sheets: give at least one sheet")
        papers = {sheet.paper for sheet in sheets}
        if len(papers) > 1:
            raise SheetError(
                f"book of mixed paper ({', '.join(sorted(papers))}): give all sheets the same paper"
            )
        self.title = markup.clean(title)
        self.paper = sheets[0].paper
        self.sheets = list(sheets)

    def _sheets(self) -> list[Sheet]:
        return self.sheets


def _write(path: str | Path, data: bytes) -> Path:
    place = Path(path)
    place.parent.mkdir(parents=True, exist_ok=True)
    place.write_bytes(data)
    return place
