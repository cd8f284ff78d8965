"""Bench cards: one printed page a lesson, and the whole set for the workshop wall."""

from __future__ import annotations

from pathlib import Path

from twostroke.lesson import content, tables
from twostroke.lesson.box import DEFER, Box, fill
from twostroke.lesson.outline import Lesson
from twostroke.sheet import Book, Sheet


def sheet(number: str) -> Sheet:
    """The bench card of a lesson as a printable sheet.

    Parameters
    ----------
    number : str
        Two digits.

    Returns
    -------
    Sheet
        One page.

    Raises
    ------
    LessonError
        When the lesson is not written.
    """
    lesson = content.load(number)
    module, card = tables.module(number), lesson.card
    made = Sheet(f"{module.number} {module.title}", "Bench card", module.question, compact=True)
    made.text(card.lead)
    made.table(["what", "how", "unit or band"], card.rows)
    if card.figure:
        picture = lesson.find("figures", card.figure).still()
        made.figure(picture.svg, picture.words, width=0.7)
    made.box("Traps", list(card.traps))
    found = [tables.caution(key) for key in card.cautions]
    made.caution("\n\n".join(f"**{one.title}.** {' '.join(one.lines)}" for one in found))
    made.text(f"*{DEFER} Sources: {' '.join(card.sources)}*")
    return made


def book() -> Book:
    """All bench cards as one document."""
    return Book("Bench cards", [sheet(number) for number in content.numbers()])


def show(lesson: Lesson) -> Box:
    """The card for the screen, with a link to the printed page that lies in the workspace."""
    printed = f"../cards/{_stem(lesson.number)}.pdf"
    module = tables.module(lesson.number)
    return fill("card", card=lesson.card, module=module, defer=DEFER, printed=printed)


def _stem(number: str) -> str:
    return f"card_{number}_{tables.module(number).slug}"


def write(folder: str | Path) -> list[Path]:
    """Write every bench card and the whole set, each as PDF and as a page.

    Parameters
    ----------
    folder : path
        Made when it is missing.

    Returns
    -------
    list of Path
        The files written.
    """
    place = Path(folder)
    place.mkdir(parents=True, exist_ok=True)
    made = []
    for number in content.numbers():
        one = sheet(number)
        made += [one.pdf(place / f"{_stem(number)}.pdf"), one.html(place / f"{_stem(number)}.html")]
    whole = book()
    return [*made, whole.pdf(place / "cards.pdf"), whole.html(place / "cards.html")]
