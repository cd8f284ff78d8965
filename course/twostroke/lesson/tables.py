"""The course's own tables: lessons, misconceptions, cautions and words, read once from data/."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any

import yaml

from twostroke.lesson.errors import LessonError


@dataclass(frozen=True)
class Module:
    """One lesson of the course.

    Parameters
    ----------
    number, slug, title, question : str
        Two digits, file name part, title, and the one question that it answers.
    minutes : int
        Usual time for the lesson [min].
    lab : str or None
        Lab that closes with this lesson.
    needs : tuple of str
        Numbers of the lessons whose matter this one builds on; what those need in turn is not repeated.
    """

    number: str
    slug: str
    title: str
    question: str
    minutes: int
    lab: str | None = None
    needs: tuple[str, ...] = ()

    @property
    def notebook(self) -> str:
        """File name of the lesson, as in ``01_shop_units.ipynb``."""
        return f"{self.number}_{self.slug}.ipynb"


@dataclass(frozen=True)
class Misconception:
    """What is often believed, why it is wrong, which reading shows it, and the lessons that take it up."""

    id: str
    believed: str
    why_wrong: str
    shown_by: str
    modules: tuple[str, ...]


@dataclass(frozen=True)
class Caution:
    """A hazard's title and what to do about it."""

    id: str
    title: str
    lines: tuple[str, ...]


@dataclass(frozen=True)
class Word:
    """A technical word, what it means in plain words, and the lesson that explains it first."""

    id: str
    word: str
    meaning: str
    module: str


@cache
def _rows(name: str) -> list[dict[str, Any]]:
    text = (resources.files("twostroke") / "data" / f"{name}.yaml").read_text(encoding="utf-8")
    return yaml.safe_load(text)


def _tuples(row: dict[str, Any]) -> dict[str, Any]:
    return {name: tuple(value) if isinstance(value, list) else value for name, value in row.items()}


def _find(table: dict[str, Any], key: str, what: str) -> Any:
    if key not in table:
        raise LessonError(f"{what} {key!r} is not in the table; there are: {', '.join(sorted(table))}")
    return table[key]


@cache
def modules() -> dict[str, Module]:
    """All lessons by number, in order.

    Examples
    --------
    >>> modules()["01"].notebook
    '01_shop_units.ipynb'
    """
    return {row["number"]: Module(**_tuples(row)) for row in _rows("modules")}


@cache
def misconceptions() -> dict[str, Misconception]:
    """All misconceptions of the course by id.

    Examples
    --------
    >>> misconceptions()["ratio_as_percent"].believed
    '50:1 means 50 per cent oil.'
    """
    return {row["id"]: Misconception(**_tuples(row)) for row in _rows("misconceptions")}


@cache
def cautions() -> dict[str, Caution]:
    """All cautions by id.

    Examples
    --------
    >>> cautions()["hot_surface"].title
    'Hot parts'
    """
    return {row["id"]: Caution(**_tuples(row)) for row in _rows("cautions")}


@cache
def words() -> dict[str, Word]:
    """The glossary by id, in alphabetical order of the words.

    Examples
    --------
    >>> words()["thou"].word
    'thou'
    """
    found = [Word(**row) for row in _rows("glossary")]
    return {word.id: word for word in sorted(found, key=lambda word: word.word.lower())}


def module(number: str) -> Module:
    """One lesson, or an error that lists them.

    Examples
    --------
    >>> module("99")
    Traceback (most recent call last):
        ...
    twostroke.lesson.errors.LessonError: lesson '99' is not in the table; there are: 00, 01, ...
    """
    return _find(modules(), number, "lesson")


def misconception(key: str) -> Misconception:
    """One misconception, or an error that lists them."""
    return _find(misconceptions(), key, "misconception")


def caution(key: str) -> Caution:
    """One caution, or an error that lists them."""
    return _find(cautions(), key, "caution")


def word(key: str) -> Word:
    """One word of the glossary, or an error that lists them."""
    return _find(words(), key, "word")
