"""Things that are only read: a piece of HTML with the same in plain words."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

import jinja2

from twostroke.lesson import tables
from twostroke.lesson.feedback import plain

DEFER = (
    "The maker's manual for the machine on your bench, local codes and licensed practice come before "
    "anything said here."
)


class Box:
    """HTML for the screen and words for everything else.

    Parameters
    ----------
    html : str
        What is shown.
    words : str, optional
        The same in plain words; taken from the HTML when left out.

    Examples
    --------
    >>> Box("<p>Mind the <b>lead</b>.</p>").words
    'Mind the lead.'
    """

    def __init__(self, html: str, words: str = "") -> None:
        self.html, self.words = html, words or plain(html)

    def _repr_mimebundle_(self, **_: Any) -> dict[str, str]:
        return {"text/html": self.html, "text/plain": self.words}


@cache
def _templates() -> jinja2.Environment:
    loader = jinja2.FileSystemLoader(Path(__file__).parent / "templates")
    return jinja2.Environment(loader=loader, autoescape=True, undefined=jinja2.StrictUndefined)


def fill(template: str, words: str = "", **what: Any) -> Box:
    """A box from one of the templates beside this module; text is escaped."""
    return Box(_templates().get_template(f"{template}.html").render(**what), words)


def caution(*keys: str) -> Box:
    """One caution box for one or more hazards, from the course's one table.

    Parameters
    ----------
    *keys : str
        Ids from data/cautions.yaml.

    Examples
    --------
    >>> caution("hot_surface").words.startswith("⚠ Caution: Hot parts")
    True
    """
    found = [tables.caution(key) for key in keys]
    title = " · ".join(item.title for item in found)
    return fill("caution", title=title, lines=[line for item in found for line in item.lines], defer=DEFER)


def glossary(module: str | None = None) -> Box:
    """The words of one lesson, or all of them.

    Parameters
    ----------
    module : str, optional
        Two digits; all lessons when left out.

    Examples
    --------
    >>> "thou" in glossary("01").words
    True
    """
    found = [word for word in tables.words().values() if module in (None, word.module)]
    lines = "\n".join(f"{word.word}: {word.meaning}" for word in found)
    return fill("glossary", lines, rows=found, all=module is None)
