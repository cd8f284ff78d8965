"""Sheets as one self-contained web page, with the same blocks in the same order as on paper."""

from __future__ import annotations

import base64
from functools import cache
from typing import TYPE_CHECKING

import jinja2

if TYPE_CHECKING:
    from twostroke.sheet.blocks import Picture
    from twostroke.sheet.page import Sheet


def _data_address(picture: Picture) -> str:
    """A picture inside the page; as an image, so that nothing in an SVG can run."""
    kind = "svg+xml" if picture.kind == "svg" else "png"
    return f"data:image/{kind};base64,{base64.b64encode(picture.data).decode('ascii')}"


@cache
def _template() -> jinja2.Template:
    place = jinja2.Environment(
        loader=jinja2.PackageLoader("twostroke.sheet", "templates"),
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
        undefined=jinja2.StrictUndefined,
    )
    place.filters["data_address"] = _data_address
    return place.get_template("sheet.html")


def page(title: str, paper: str, sheets: list[Sheet]) -> str:
    """The web page of one or more sheets.

    Parameters
    ----------
    title : str
        Title of the page.
    paper : str
        Paper to print it on.
    sheets : list of Sheet

    Returns
    -------
    str
        HTML that needs no other file and no network.
    """
    size = {"a4": "A4", "a5": "A5", "us-letter": "letter"}[paper]
    return _template().render(title=title, size=size, sheets=sheets)
