"""The small part of Markdown that a sheet understands, read once for print and web alike.

Paragraphs, ``**bold**``, ``*slanted*``, `` `formula` ``, links to http(s) addresses, and lists with ``-`` or
``1.``; anything else stays plain text.  Markup never reaches the printer or the browser: both get the parts
listed here.
"""

from __future__ import annotations

import re
from functools import cache
from typing import Any

from markdown_it import MarkdownIt
from markdown_it.token import Token

_CONTROL = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x9f\ufeff\ufffe\uffff]")
_SPECIAL = re.compile(r"([\\`*_\[\]()#+\-.!<>&~|])")

Node = dict[str, Any]


def clean(text: object) -> str:
    """Text that any printer can take: no control characters, no half characters.

    Examples
    --------
    >>> clean("0.30\\x00 mm")
    '0.30 mm'
    """
    whole = str(text).encode("utf-8", "replace").decode("utf-8").replace("\r\n", "\n").replace("\r", "\n")
    return _CONTROL.sub("", whole)


def literal(text: object) -> str:
    """What somebody typed, guarded so that no character of it is read as markup.

    Examples
    --------
    >>> literal("gap *about* 3")
    'gap \\\\*about\\\\* 3'
    """
    return _SPECIAL.sub(r"\\\1", clean(text))


@cache
def _parser() -> MarkdownIt:
    return MarkdownIt("zero", {"html": False}).enable(
        ["emphasis", "backticks", "escape", "link", "list", "newline", "entity"]
    )


def _inline(token: Token) -> list[Node]:
    """Flat runs of text, each with its look."""
    spans: list[Node] = []
    bold = italic = 0
    href: str | None = None
    for child in token.children or []:
        if child.type in ("strong_open", "strong_close"):
            bold += child.nesting
        elif child.type in ("em_open", "em_close"):
            italic += child.nesting
        elif child.type == "link_open":
            address = str(child.attrs.get("href", ""))
            href = address if address.startswith(("http://", "https://")) else None
        elif child.type == "link_close":
            href = None
        elif child.content or child.type in ("softbreak", "hardbreak"):
            broken = child.type in ("softbreak", "hardbreak")
            text = "\n" if child.type == "hardbreak" else " " if broken else child.content
            spans.append(
                {
                    "text": text,
                    "bold": bold > 0,
                    "italic": italic > 0,
                    "code": child.type == "code_inline",
                    "href": href,
                }
            )
    return spans


def spans(text: object) -> list[Node]:
    """One line's markup as runs of text.

    Examples
    --------
    >>> [(run["text"], run["bold"]) for run in spans("set **0.30 mm**")]
    [('set ', False), ('0.30 mm', True)]
    """
    return _inline(_parser().parseInline(clean(text))[0])


def nodes(text: object) -> list[Node]:
    """Paragraphs and lists of a longer text.

    Examples
    --------
    >>> [node["kind"] for node in nodes("Look first:\\n\\n- plug\\n- lead")]
    ['paragraph', 'list']
    """
    root: list[Node] = []
    open_nodes: list[list[Node]] = [root]
    for token in _parser().parse(clean(text)):
        if token.type in ("bullet_list_open", "ordered_list_open"):
            items: list[Node] = []
            ordered = token.type.startswith("ordered")
            open_nodes[-1].append(
                {
                    "kind": "list",
                    "ordered": ordered,
                    "start": int(token.attrs.get("start", 1)) if ordered else 1,
                    "items": items,
                }
            )
            open_nodes.append(items)
        elif token.type == "list_item_open":
            item: list[Node] = []
            open_nodes[-1].append({"kind": "item", "nodes": item})
            open_nodes.append(item)
        elif token.type in ("bullet_list_close", "ordered_list_close", "list_item_close"):
            open_nodes.pop()
        elif token.type == "inline":
            open_nodes[-1].append({"kind": "paragraph", "spans": _inline(token)})
    return root
