"""What a learner sees: text, tables and figures as HTML and as plain text, without widgets."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

INK, PAPER, LINE, SHADE = "#1b1b1b", "#ffffff", "#5a5a5a", "#eef2f5"
TONES = {"plain": "#3d4b57", "good": "#0b5d1e", "look": "#7a3e00", "caution": "#8f1313"}
"""Dark text and edge colours on white: each has a contrast of at least 7 to 1 (WCAG 2.2, 1.4.6)."""


@dataclass(frozen=True)
class Text:
    """One paragraph."""

    text: str

    def html(self) -> str:
        """As HTML."""
        return f"<p style='margin:.4em 0'>{escape(self.text)}</p>"

    def plain(self) -> str:
        """As text."""
        return self.text


@dataclass(frozen=True)
class Lines:
    """A list, numbered or lettered by its own labels; a deeper level stands further in."""

    entries: Sequence[tuple[str, str]]
    level: int = 0

    def html(self) -> str:
        """As HTML."""
        rows = "".join(
            f"<li style='margin:.25em 0'><strong>{escape(label)}</strong> {escape(text)}</li>"
            for label, text in self.entries
        )
        inset = 0.6 + 1.4 * self.level
        return f"<ul style='list-style:none;margin:.3em 0;padding-left:{inset:g}em'>{rows}</ul>"

    def plain(self) -> str:
        """As text."""
        inset = "  " * (self.level + 1)
        return "\n".join(f"{inset}{label} {text}".rstrip() for label, text in self.entries)


@dataclass(frozen=True)
class Table:
    """A table with a caption; the first cell of each row heads the row."""

    caption: str
    headers: Sequence[str]
    rows: Sequence[Sequence[str]]

    def html(self) -> str:
        """As HTML with scoped headers."""
        cell = f"border:1px solid {LINE};padding:.25em .7em;text-align:left;color:{INK}"
        head = "".join(
            f"<th scope='col' style='{cell};background:{SHADE}'>{escape(text)}</th>" for text in self.headers
        )
        body = "".join(
            f"<tr><th scope='row' style='{cell};font-weight:600;background:{PAPER}'>{escape(row[0])}</th>"
            + "".join(f"<td style='{cell};background:{PAPER}'>{escape(text)}</td>" for text in row[1:])
            + "</tr>"
            for row in self.rows
        )
        return (
            f"<table style='border-collapse:collapse;margin:.5em 0;color:{INK};background:{PAPER}'>"
            f"<caption style='text-align:left;font-weight:600;color:{INK};padding:.2em 0;white-space:nowrap'>"
            f"{escape(self.caption)}</caption><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>"
        )

    def plain(self) -> str:
        """As text in columns."""
        grid = [list(self.headers), *(list(row) for row in self.rows)]
        widths = [max(len(row[place]) for row in grid) for place in range(len(self.headers))]
        rows = ["  ".join(text.ljust(width) for text, width in zip(row, widths, strict=True)) for row in grid]
        return "\n".join(
            [self.caption, rows[0].rstrip(), "-" * len(rows[0]), *(row.rstrip() for row in rows[1:])]
        )


@dataclass(frozen=True)
class Figure:
    """A drawing as SVG with a description in words."""

    svg: str
    description: str

    def html(self) -> str:
        """As HTML."""
        label = escape(self.description)
        return f'<figure role="img" aria-label="{label}" style="margin:.5em 0">{self.svg}</figure>'

    def plain(self) -> str:
        """As text: the description."""
        return self.description


@dataclass(frozen=True)
class Caution:
    """A caution at the step where it matters."""

    text: str

    def html(self) -> str:
        """As HTML."""
        return (
            f"<p role='note' style='margin:.5em 0;padding:.4em .7em;border:2px solid {TONES['caution']};"
            f"color:{TONES['caution']};background:{PAPER}'><strong>Caution.</strong> {escape(self.text)}</p>"
        )

    def plain(self) -> str:
        """As text."""
        return f"CAUTION: {self.text}"


Block = Text | Lines | Table | Figure | Caution


@dataclass(frozen=True)
class Page:
    """A titled box of blocks; shown as HTML in a notebook, as text elsewhere.

    Parameters
    ----------
    title : str
        Heading of the box; empty for none.
    blocks : tuple
        Text, Lines, Table, Figure, Caution.
    tone : str
        "plain", "good", "look" or "caution": the colour of the edge. The words say the same.

    Examples
    --------
    >>> Page("Engine", (Text("25 cm³ hedge trimmer, demo engine A"),))
    Engine
    25 cm³ hedge trimmer, demo engine A
    """

    title: str
    blocks: tuple[Block, ...] = ()
    tone: str = "plain"

    def _repr_html_(self) -> str:
        edge = TONES[self.tone]
        title = (
            f"<p style='margin:.1em 0;font-weight:700;color:{edge}'>{escape(self.title)}</p>"
            if self.title
            else ""
        )
        body = "".join(block.html() for block in self.blocks)
        return (
            f"<section style='border-left:5px solid {edge};padding:.4em .9em;margin:.2em 0;color:{INK};"
            f"background:{PAPER};max-width:56em;font-size:1em;line-height:1.45'>{title}{body}</section>"
        )

    def __repr__(self) -> str:
        return "\n".join(part for part in (self.title, *(block.plain() for block in self.blocks)) if part)


def note(title: str, *paragraphs: str, tone: str = "plain") -> Page:
    """Return a short page of paragraphs."""
    return Page(title, tuple(Text(text) for text in paragraphs if text), tone)
